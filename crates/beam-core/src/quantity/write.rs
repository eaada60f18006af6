//! Quantities written so that [`read`](super::read) gives them back: to within a few units in the last place.

use super::number::VULGAR;
use super::units::{
    CENTIMETRES, GRAMS, INCHES, KILOGRAMS, KILONEWTONS_AS_WEIGHT, METRES, MILLIMETRES, NEWTONS_AS_WEIGHT,
    OUNCES, POUNDS, POUNDS_FORCE_AS_WEIGHT,
};

/// How a length is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum LengthStyle {
    /// `92 1/2 in`
    InchFraction,
    /// `92-1/2 in`
    InchHyphen,
    /// `92-1/2"`
    InchMarks,
    /// `92½″`, with a fraction character where there is one
    InchPrime,
    /// `92.5 in`
    InchDecimal,
    /// `7 ft 8 1/2 in`
    FeetInches,
    /// `7' 8-1/2"`
    FeetInchMarks,
    /// `7' 8-1/2`, which TOML takes in double quotes
    FeetMarkBare,
    /// `2349.5 mm`
    Millimetre,
    /// `234.95 cm`
    Centimetre,
    /// `2.3495 m`
    Metre,
}

impl LengthStyle {
    /// Every style, in the order of the page.
    pub const ALL: [Self; 11] = [
        Self::InchFraction,
        Self::InchHyphen,
        Self::InchMarks,
        Self::InchPrime,
        Self::InchDecimal,
        Self::FeetInches,
        Self::FeetInchMarks,
        Self::FeetMarkBare,
        Self::Millimetre,
        Self::Centimetre,
        Self::Metre,
    ];
}

/// How a weight is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum WeightStyle {
    /// `100 lb`
    Pound,
    /// `1600 oz`
    Ounce,
    /// `45 kg`
    Kilogram,
    /// `45000 g`
    Gram,
    /// `441 N`
    Newton,
    /// `0.441 kN`
    Kilonewton,
    /// `100 lbf`
    PoundForce,
}

impl WeightStyle {
    /// Every style, in the order of the page.
    pub const ALL: [Self; 7] = [
        Self::Pound,
        Self::Ounce,
        Self::Kilogram,
        Self::Gram,
        Self::Newton,
        Self::Kilonewton,
        Self::PoundForce,
    ];
}

/// Writes a length so that it is read back the same.
///
/// Inches that are a whole number of 64ths are written as a fraction, others with decimals.
///
/// # Units
/// `length_m` in m.
///
/// # Valid for
/// What [`read`](super::read) takes; numbers outside are written and then refused there.
///
/// # Examples
/// ```
/// use beam_core::quantity::{write_length, LengthStyle};
/// assert_eq!(write_length(2.3495, LengthStyle::FeetInches), "7 ft 8 1/2 in");
/// assert_eq!(write_length(2.3495, LengthStyle::Millimetre), "2349.5 mm");
/// ```
pub fn write_length(length_m: f64, style: LengthStyle) -> String {
    let minus = if length_m < 0.0 { "-" } else { "" };
    let length = length_m.abs();
    let inches = to_64ths(INCHES.count(length));
    let body = match style {
        LengthStyle::InchFraction => format!("{} in", mixed(inches, ' ')),
        LengthStyle::InchHyphen => format!("{} in", mixed(inches, '-')),
        LengthStyle::InchMarks => format!("{}\"", mixed(inches, '-')),
        LengthStyle::InchPrime => format!("{}″", with_fraction_character(inches)),
        LengthStyle::InchDecimal => format!("{inches} in"),
        LengthStyle::FeetInches => {
            let (feet, inches) = feet_and_inches(inches);
            format!("{feet} ft {} in", mixed(inches, ' '))
        }
        LengthStyle::FeetInchMarks => {
            let (feet, inches) = feet_and_inches(inches);
            format!("{feet}' {}\"", mixed(inches, '-'))
        }
        LengthStyle::FeetMarkBare => {
            let (feet, inches) = feet_and_inches(inches);
            format!("{feet}' {}", mixed(inches, '-'))
        }
        LengthStyle::Millimetre => format!("{} mm", MILLIMETRES.count(length)),
        LengthStyle::Centimetre => format!("{} cm", CENTIMETRES.count(length)),
        LengthStyle::Metre => format!("{} m", METRES.count(length)),
    };
    format!("{minus}{body}")
}

/// Writes a weight so that it is read back the same.
///
/// # Units
/// `weight_kg` in kg; the force styles write what that mass weighs under standard gravity.
///
/// # Valid for
/// What [`read`](super::read) takes; numbers outside are written and then refused there.
pub fn write_weight(weight_kg: f64, style: WeightStyle) -> String {
    let unit = match style {
        WeightStyle::Pound => &POUNDS,
        WeightStyle::Ounce => &OUNCES,
        WeightStyle::Kilogram => &KILOGRAMS,
        WeightStyle::Gram => &GRAMS,
        WeightStyle::Newton => &NEWTONS_AS_WEIGHT,
        WeightStyle::Kilonewton => &KILONEWTONS_AS_WEIGHT,
        WeightStyle::PoundForce => &POUNDS_FORCE_AS_WEIGHT,
    };
    format!("{} {}", unit.count(weight_kg), unit.symbol())
}

/// The nearest 64th where only rounding lies between, else the number itself.
fn to_64ths(inches: f64) -> f64 {
    let nearest = (inches * 64.0).round() / 64.0;
    if (nearest - inches).abs() <= 2.0 * f64::EPSILON * inches { nearest } else { inches }
}

/// Whole feet, and the inches left over, fewer than twelve and without loss.
fn feet_and_inches(inches: f64) -> (f64, f64) {
    let left = inches % 12.0;
    (((inches - left) / 12.0).round(), left)
}

/// The parts of a number of 64ths: whole, numerator and denominator in lowest terms.
fn parts(inches: f64) -> Option<(f64, u32, u32)> {
    let count = inches.fract() * 64.0;
    if count.fract() != 0.0 {
        return None;
    }
    let count = count as u32;
    let common = 1 << count.trailing_zeros().min(6);
    Some((inches.trunc(), count / common, 64 / common))
}

fn mixed(inches: f64, joint: char) -> String {
    match parts(inches) {
        None | Some((_, 0, _)) => inches.to_string(),
        Some((0.0, top, bottom)) => format!("{top}/{bottom}"),
        Some((whole, top, bottom)) => format!("{whole}{joint}{top}/{bottom}"),
    }
}

fn with_fraction_character(inches: f64) -> String {
    let character = parts(inches).and_then(|(whole, top, bottom)| {
        let same = |&&(_, n, d): &&(char, f64, f64)| n == f64::from(top) && d == f64::from(bottom);
        VULGAR.iter().find(same).map(|&(mark, ..)| (whole, mark))
    });
    match character {
        Some((0.0, mark)) => mark.to_string(),
        Some((whole, mark)) => format!("{whole}{mark}"),
        None => mixed(inches, '-'),
    }
}

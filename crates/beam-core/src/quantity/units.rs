//! The one place of conversion factors, and the spellings people use for each unit.
//!
//! Inch, foot, pound and standard gravity are exact by definition; everything else in inch-pound units follows
//! from them. Each factor is kept as a quotient of two numbers that `f64` holds exactly, so that `25.4 mm` and
//! `1 in` give the same number and a reading is rounded once.
//!
//! # References
//! - International yard and pound agreement, 1959: 1 yd = 0.9144 m, 1 lb = 0.453 592 37 kg.
//! - 3rd CGPM, 1901: standard acceleration of gravity 9.806 65 m/s2.
//! - NIST SP 811 (2008), appendix B.8: the derived factors, there to seven digits.

/// Inch, m.
pub const INCH: f64 = 0.0254;
/// Foot, m.
pub const FOOT: f64 = 0.3048;
/// Pound (mass), kg.
pub const POUND: f64 = 0.453_592_37;
/// Standard acceleration of gravity, m/s2.
pub const STANDARD_GRAVITY: f64 = 9.806_65;
/// Pound-force, N: a pound under standard gravity.
pub const POUND_FORCE: f64 = LBF / LBF_OVER;
/// Kip (1000 lbf), N.
pub const KIP: f64 = LBF / 1e10;
/// Pound-force per square inch, Pa.
pub const PSI: f64 = LBF / PSI_OVER;
/// Kip per square inch, Pa.
pub const KSI: f64 = LBF / KSI_OVER;
/// Pound-force per square foot, Pa.
pub const PSF: f64 = LBF / PSF_OVER;

/// 0.45359237 x 9.80665 x 10^13.
const LBF: f64 = 44_482_216_152_605.0;
const LBF_OVER: f64 = 1e13;
const PSI_OVER: f64 = 6.4516e9;
const KSI_OVER: f64 = 6.4516e6;
const PSF_OVER: f64 = 9.290304e11;

/// The family of units a person measures in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Family {
    /// Inches, pounds, pounds-force, psi.
    Inch,
    /// Millimetres, kilograms, newtons, MPa.
    Metric,
}

impl Family {
    /// The family that a length was typed in: every metric unit of length is spelled with an m, none of the others is.
    ///
    /// ```
    /// use beam_core::quantity::Family;
    ///
    /// for inch in ["92 1/2 in", "7' 8\"", "7 ft", "90 inches"] {
    ///     assert_eq!(Family::of_length(inch), Family::Inch, "{inch}");
    /// }
    /// for metric in ["2350 mm", "2.35 m", "235cm", "2 metres"] {
    ///     assert_eq!(Family::of_length(metric), Family::Metric, "{metric}");
    /// }
    /// ```
    pub fn of_length(typed: &str) -> Self {
        if typed.contains('m') { Self::Metric } else { Self::Inch }
    }
}

/// What kind of quantity a text stands for, and so which units it may carry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Measure {
    /// Length, read to m.
    Length,
    /// Weight as people say it, read to kg; force units are divided by standard gravity.
    Weight,
    /// Force, read to N.
    Force,
    /// Stress, pressure, modulus of elasticity or load per area, read to Pa.
    Pressure,
    /// Temperature, read to degrees Celsius.
    Temperature,
    /// Density, read to kg/m3.
    Density,
    /// Mass per area, read to kg/m2.
    MassPerArea,
    /// Force per length, such as a hold-down of `2 kN/m`, read to N/m.
    LinePressure,
    /// Force per movement and per length, such as a thrust spring of `50 kN/m2`, read to N/m2.
    LineStiffness,
    /// Torque, read to N m.
    Torque,
    /// Duration, read to hours (the unit in which glues and fillers state their cure).
    Duration,
    /// Ratio, read to a plain number; `70 %` is 0.7.
    Ratio,
}

/// A unit: how it is spelled, and its value in the unit `read` answers in, as `times / over` from `zero`.
#[derive(Debug)]
pub(super) struct Unit {
    pub(super) spellings: &'static [&'static str],
    times: f64,
    over: f64,
    zero: f64,
}

impl Unit {
    /// The SI value of the fraction `numerator / denominator` of this unit.
    pub(super) fn to_si(&self, numerator: f64, denominator: f64) -> f64 {
        (numerator - self.zero * denominator) * self.times / (denominator * self.over)
    }

    /// How many of this unit an SI value is.
    pub(super) fn count(&self, si: f64) -> f64 {
        si * self.over / self.times + self.zero
    }

    /// The spelling used when the unit is written.
    pub(super) fn symbol(&self) -> &'static str {
        self.spellings[0]
    }
}

const fn unit(spellings: &'static [&'static str], times: f64, over: f64) -> Unit {
    Unit { spellings, times, over, zero: 0.0 }
}

pub(super) const INCHES: Unit = unit(&["in", "\"", "inch", "inches"], 254.0, 10_000.0);
pub(super) const FEET: Unit = unit(&["ft", "'", "foot", "feet"], 3048.0, 10_000.0);
pub(super) const MILLIMETRES: Unit = unit(&["mm", "millimetres", "millimeters"], 1.0, 1000.0);
pub(super) const CENTIMETRES: Unit = unit(&["cm", "centimetres", "centimeters"], 1.0, 100.0);
pub(super) const METRES: Unit = unit(&["m", "metre", "metres", "meter", "meters"], 1.0, 1.0);

pub(super) const POUNDS: Unit = unit(&["lb", "lbs", "pound", "pounds"], 45_359_237.0, 1e8);
pub(super) const OUNCES: Unit = unit(&["oz", "ounce", "ounces"], 45_359_237.0, 1.6e9);
pub(super) const KILOGRAMS: Unit = unit(&["kg", "kilogram", "kilograms"], 1.0, 1.0);
pub(super) const GRAMS: Unit = unit(&["g", "gram", "grams"], 1.0, 1000.0);
pub(super) const NEWTONS_AS_WEIGHT: Unit = unit(&["N"], 100_000.0, 980_665.0);
pub(super) const KILONEWTONS_AS_WEIGHT: Unit = unit(&["kN"], 1e8, 980_665.0);
pub(super) const POUNDS_FORCE_AS_WEIGHT: Unit = unit(&["lbf"], 45_359_237.0, 1e8);
const KIPS_AS_WEIGHT: Unit = unit(&["kip", "kips"], 45_359_237.0, 1e5);

const NEWTONS: Unit = unit(&["N"], 1.0, 1.0);
const KILONEWTONS: Unit = unit(&["kN"], 1000.0, 1.0);
const POUNDS_FORCE: Unit = unit(&["lbf"], LBF, LBF_OVER);
const KIPS: Unit = unit(&["kip", "kips"], LBF, 1e10);

const PASCALS: Unit = unit(&["Pa", "N/m2"], 1.0, 1.0);
const KILOPASCALS: Unit = unit(&["kPa", "kN/m2"], 1000.0, 1.0);
const MEGAPASCALS: Unit = unit(&["MPa", "N/mm2"], 1e6, 1.0);
const GIGAPASCALS: Unit = unit(&["GPa", "kN/mm2"], 1e9, 1.0);
const PSIS: Unit = unit(&["psi", "lbf/in2", "lb/in2"], LBF, PSI_OVER);
const KSIS: Unit = unit(&["ksi"], LBF, KSI_OVER);
const PSFS: Unit = unit(&["psf", "lbf/ft2", "lb/ft2", "lb/sq ft"], LBF, PSF_OVER);

const CELSIUS: Unit = unit(&["C", "°C", "deg C", "degC", "° C", "℃"], 1.0, 1.0);
const FAHRENHEIT: Unit =
    Unit { spellings: &["F", "°F", "deg F", "degF", "° F", "℉"], times: 5.0, over: 9.0, zero: 32.0 };

const KILOGRAMS_PER_CUBIC_METRE: Unit = unit(&["kg/m3"], 1.0, 1.0);
const POUNDS_PER_CUBIC_FOOT: Unit = unit(&["lb/ft3", "pcf", "lb/cu ft"], 453_592_370_000.0, 28_316_846_592.0);

const KILOGRAMS_PER_SQUARE_METRE: Unit = unit(&["kg/m2"], 1.0, 1.0);
const GRAMS_PER_SQUARE_METRE: Unit = unit(&["g/m2"], 1.0, 1000.0);
const POUNDS_PER_SQUARE_FOOT: Unit = unit(&["lb/ft2", "lb/sq ft"], 45_359_237.0, 9_290_304.0);

const NEWTONS_PER_METRE: Unit = unit(&["N/m"], 1.0, 1.0);
const KILONEWTONS_PER_METRE: Unit = unit(&["kN/m", "N/mm"], 1000.0, 1.0);
const POUNDS_FORCE_PER_FOOT: Unit = unit(&["lb/ft", "lbf/ft", "plf"], LBF, 3.048e12);
const POUNDS_FORCE_PER_INCH: Unit = unit(&["lb/in", "lbf/in"], LBF, 2.54e11);
const KIPS_PER_FOOT: Unit = unit(&["kip/ft", "kips/ft"], LBF, 3.048e9);
const KIPS_PER_INCH: Unit = unit(&["kip/in", "kips/in"], LBF, 2.54e8);

const LINE_NEWTONS: Unit = unit(&["N/m2", "N/m/m"], 1.0, 1.0);
const LINE_KILONEWTONS: Unit = unit(&["kN/m2", "kN/m/m"], 1000.0, 1.0);
const LINE_MEGANEWTONS: Unit = unit(&["N/mm2", "N/mm/mm"], 1e6, 1.0);
const LINE_POUNDS_FORCE: Unit = unit(&["lb/in/ft", "lbf/in/ft"], LBF, 7.74192e10);

const NEWTON_METRES: Unit = unit(&["N m", "Nm"], 1.0, 1.0);
const KILONEWTON_METRES: Unit = unit(&["kN m", "kNm"], 1000.0, 1.0);
const INCH_POUNDS: Unit =
    unit(&["in lb", "in lbf", "in lbs", "lb in", "lbf in"], LBF * 127.0, 5000.0 * LBF_OVER);
const FOOT_POUNDS: Unit =
    unit(&["ft lb", "ft lbf", "ft lbs", "lb ft", "lbf ft"], LBF / 5.0 * 381.0, 250.0 * LBF_OVER);

const HOURS: Unit = unit(&["h", "hours", "hour", "hr", "hrs"], 1.0, 1.0);
const MINUTES: Unit = unit(&["min", "minutes", "minute"], 1.0, 60.0);
const DAYS: Unit = unit(&["days", "day", "d"], 24.0, 1.0);

const PERCENTS: Unit = unit(&["%", "percent", "per cent"], 1.0, 100.0);

/// Areas are asked for nowhere; they are known so that `7 ft2` is not taken for seven feet two.
const AREAS: [&str; 6] = ["m2", "cm2", "mm2", "in2", "ft2", "sq ft"];

impl Measure {
    /// Every measure there is.
    pub(super) const ALL: [Measure; 12] = [
        Measure::Length,
        Measure::Weight,
        Measure::Force,
        Measure::Pressure,
        Measure::Temperature,
        Measure::Density,
        Measure::MassPerArea,
        Measure::LinePressure,
        Measure::LineStiffness,
        Measure::Torque,
        Measure::Duration,
        Measure::Ratio,
    ];

    /// The units a text of this measure may carry. A tonne is left out: `t` is read as three different weights.
    pub(super) fn units(self) -> &'static [&'static Unit] {
        match self {
            Measure::Length => &[&INCHES, &FEET, &MILLIMETRES, &CENTIMETRES, &METRES],
            Measure::Weight => &[
                &KILOGRAMS,
                &GRAMS,
                &POUNDS,
                &OUNCES,
                &NEWTONS_AS_WEIGHT,
                &KILONEWTONS_AS_WEIGHT,
                &POUNDS_FORCE_AS_WEIGHT,
                &KIPS_AS_WEIGHT,
            ],
            Measure::Force => &[&NEWTONS, &KILONEWTONS, &POUNDS_FORCE, &KIPS],
            Measure::Pressure => &[&PASCALS, &KILOPASCALS, &MEGAPASCALS, &GIGAPASCALS, &PSIS, &KSIS, &PSFS],
            Measure::Temperature => &[&CELSIUS, &FAHRENHEIT],
            Measure::Density => &[&KILOGRAMS_PER_CUBIC_METRE, &POUNDS_PER_CUBIC_FOOT],
            Measure::MassPerArea => {
                &[&KILOGRAMS_PER_SQUARE_METRE, &GRAMS_PER_SQUARE_METRE, &POUNDS_PER_SQUARE_FOOT]
            }
            Measure::LinePressure => &[
                &NEWTONS_PER_METRE,
                &KILONEWTONS_PER_METRE,
                &POUNDS_FORCE_PER_FOOT,
                &POUNDS_FORCE_PER_INCH,
                &KIPS_PER_FOOT,
                &KIPS_PER_INCH,
            ],
            Measure::LineStiffness => {
                &[&LINE_NEWTONS, &LINE_KILONEWTONS, &LINE_MEGANEWTONS, &LINE_POUNDS_FORCE]
            }
            Measure::Torque => &[&NEWTON_METRES, &KILONEWTON_METRES, &INCH_POUNDS, &FOOT_POUNDS],
            Measure::Duration => &[&HOURS, &MINUTES, &DAYS],
            Measure::Ratio => &[&PERCENTS],
        }
    }

    /// The measure in words, with its article.
    pub(super) fn words(self) -> &'static str {
        match self {
            Measure::Length => "a length",
            Measure::Weight => "a weight",
            Measure::Force => "a force",
            Measure::Pressure => "a pressure",
            Measure::Temperature => "a temperature",
            Measure::Density => "a density",
            Measure::MassPerArea => "a mass per area",
            Measure::LinePressure => "a force per length",
            Measure::LineStiffness => "a force per movement and length",
            Measure::Torque => "a torque",
            Measure::Duration => "a duration",
            Measure::Ratio => "a ratio",
        }
    }

    /// The unit of this measure with exactly this spelling.
    pub(super) fn unit(self, spelled: &str) -> Option<&'static Unit> {
        self.units().iter().copied().find(|unit| unit.spellings.contains(&spelled))
    }

    /// What a spelling stands for where it is no unit of this measure.
    pub(super) fn elsewhere(self, spelled: &str) -> Option<&'static str> {
        if AREAS.contains(&spelled) {
            return Some("an area");
        }
        Measure::ALL.into_iter().find(|other| other.unit(spelled).is_some()).map(Measure::words)
    }

    /// Units to propose for a number that has none.
    pub(super) fn usual(self) -> &'static [&'static Unit] {
        match self {
            Measure::Length => &[&INCHES, &MILLIMETRES],
            Measure::Weight => &[&POUNDS, &KILOGRAMS],
            Measure::Force => &[&NEWTONS, &POUNDS_FORCE],
            Measure::Temperature => &[&CELSIUS, &FAHRENHEIT],
            Measure::Duration => &[&HOURS],
            _ => &[],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Definitions of 1959 and 1901, and the products written out by hand (exact decimals).
    #[test]
    fn exact_factors() {
        assert_eq!(FEET.to_si(1.0, 1.0), FOOT);
        assert_eq!(POUNDS.to_si(1.0, 1.0), POUND);
        assert_eq!(OUNCES.to_si(16.0, 1.0), POUND);
        assert_eq!(POUND_FORCE, 4.4482216152605);
        assert_eq!(KIP, 4448.2216152605);
        assert_eq!(INCHES.to_si(12.0, 1.0), FOOT);
        assert_eq!(INCHES.to_si(1.0, 1.0), INCH);
        assert_eq!(POUNDS_FORCE_AS_WEIGHT.to_si(1.0, 1.0), POUND);
        assert_eq!(NEWTONS_AS_WEIGHT.to_si(STANDARD_GRAVITY, 1.0), 1.0);
    }

    /// NIST SP 811 (2008), appendix B.8, seven digits as printed there.
    #[test]
    fn derived_factors_match_nist_sp_811() {
        let rows: [(Measure, &str, f64); 14] = [
            (Measure::Force, "lbf", 4.448222),
            (Measure::Force, "kip", 4.448222e3),
            (Measure::Pressure, "psi", 6.894757e3),
            (Measure::Pressure, "ksi", 6.894757e6),
            (Measure::Pressure, "psf", 4.788026e1),
            (Measure::Density, "lb/ft3", 1.601846e1),
            (Measure::MassPerArea, "lb/ft2", 4.882428),
            (Measure::LinePressure, "plf", 1.459390e1),
            (Measure::LinePressure, "lb/in", 1.751268e2),
            (Measure::LinePressure, "kip/ft", 1.459390e4),
            (Measure::LinePressure, "kip/in", 1.751268e5),
            (Measure::Torque, "in lb", 1.129848e-1),
            (Measure::Torque, "ft lb", 1.355818),
            (Measure::Weight, "oz", 2.834952e-2),
        ];
        for (measure, spelled, printed) in rows {
            let unit = measure.unit(spelled).unwrap_or_else(|| panic!("{spelled} is not in the table"));
            let factor = unit.to_si(1.0, 1.0);
            assert!((factor / printed - 1.0).abs() < 5e-7, "{spelled}: {factor} against {printed}");
        }
    }

    /// The line stiffness in pounds per inch of movement and foot of wall, from lb/in and the foot.
    #[test]
    fn line_stiffness_in_pounds() {
        let per_inch = POUNDS_FORCE_PER_INCH.to_si(1.0, 1.0);
        approx::assert_relative_eq!(LINE_POUNDS_FORCE.to_si(1.0, 1.0), per_inch / FOOT, max_relative = 1e-15);
    }

    /// Fixed points of the two scales: ice 32 F, steam 212 F, and -40 where both agree.
    #[test]
    fn fahrenheit() {
        for (f, c) in [(32.0, 0.0), (212.0, 100.0), (-40.0, -40.0)] {
            assert_eq!(FAHRENHEIT.to_si(f, 1.0), c);
            assert_eq!(FAHRENHEIT.count(c), f);
        }
    }

    /// No spelling may stand for two units of one measure.
    #[test]
    fn spellings_are_unique_within_a_measure() {
        for measure in Measure::ALL {
            let all: Vec<_> = measure.units().iter().flat_map(|unit| unit.spellings).collect();
            let distinct: std::collections::BTreeSet<_> = all.iter().collect();
            assert_eq!(all.len(), distinct.len(), "{measure:?}");
        }
    }
}

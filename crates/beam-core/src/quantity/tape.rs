//! Numbers for people: to the fraction a tape shows, and with no more digits than are worth reading.
//!
//! These writers round. What must be read back unchanged goes through
//! [`write_length`](super::write_length) and [`write_weight`](super::write_weight).

use super::units::{Family, INCH, POUND, POUND_FORCE, PSI};

/// Nothing on a vehicle is larger than this, in any unit; what is, is not printed as if it were known.
const PRINTABLE: f64 = 1e15;
const OUT_OF_RANGE: &str = "out of range";

/// A length as a tape shows it: to 1/16 in, or to whole millimetres (tenths below 10 mm).
///
/// # Units
/// `length_m` in m.
///
/// # Valid for
/// Finite lengths; for others the text is `out of range`.
///
/// # Examples
/// ```
/// use beam_core::quantity::{tape, Family};
/// assert_eq!(tape(1.171575, Family::Inch), "46 1/8 in");
/// assert_eq!(tape(1.171575, Family::Metric), "1172 mm");
/// ```
pub fn tape(length_m: f64, family: Family) -> String {
    match family {
        Family::Inch => printable(length_m / INCH).map_or_else(out_of_range, sixteenths),
        Family::Metric => printable(length_m * 1e3).map_or_else(out_of_range, |mm| below_ten(mm, "mm")),
    }
}

/// A sag or other small movement: to 1/16 in, or to tenths of a millimetre; never a zero that is not one.
///
/// What is below half a sixteenth prints as `under 1/16 in`, what is below half a tenth as `under 0.1 mm`.
///
/// # Units
/// `length_m` in m.
///
/// # Valid for
/// Finite lengths; for others the text is `out of range`.
///
/// # Examples
/// ```
/// use beam_core::quantity::{sag, Family};
/// assert_eq!(sag(0.0006, Family::Inch), "under 1/16 in");
/// assert_eq!(sag(0.0222, Family::Metric), "22.2 mm");
/// ```
pub fn sag(length_m: f64, family: Family) -> String {
    match family {
        Family::Inch => match printable(length_m / INCH) {
            Some(inches) if inches != 0.0 && inches.abs() < 1.0 / 32.0 => "under 1/16 in".to_owned(),
            Some(inches) => sixteenths(inches),
            None => out_of_range(),
        },
        Family::Metric => printable(length_m * 1e3).map_or_else(out_of_range, |mm| tenths(mm, "mm")),
    }
}

/// A radius of a bend to three digits, in inches or millimetres: no bender works closer.
///
/// # Units
/// `radius_m` in m.
///
/// # Valid for
/// Finite radii; for others the text is `out of range`.
///
/// # Examples
/// ```
/// use beam_core::quantity::{radius, Family};
/// assert_eq!(radius(2.88, Family::Inch), "113 in");
/// assert_eq!(radius(7.5057, Family::Metric), "7510 mm");
/// ```
pub fn radius(radius_m: f64, family: Family) -> String {
    let (count, unit) = match family {
        Family::Inch => (radius_m / INCH, "in"),
        Family::Metric => (radius_m * 1e3, "mm"),
    };
    printable(count).map_or_else(out_of_range, |count| format!("{} {unit}", significant(count, 3)))
}

/// A weight in whole pounds or kilograms, in tenths below ten.
///
/// # Units
/// `weight_kg` in kg.
///
/// # Valid for
/// Finite weights; for others the text is `out of range`.
pub fn weight(weight_kg: f64, family: Family) -> String {
    let (count, unit) = match family {
        Family::Inch => (weight_kg / POUND, "lb"),
        Family::Metric => (weight_kg, "kg"),
    };
    printable(count).map_or_else(out_of_range, |count| below_ten(count, unit))
}

/// A force in newtons (kilonewtons from 1000 N on, three digits) or in pounds-force.
///
/// # Units
/// `force_n` in N.
///
/// # Valid for
/// Finite forces; for others the text is `out of range`.
pub fn force(force_n: f64, family: Family) -> String {
    match family {
        Family::Inch => {
            printable(force_n / POUND_FORCE).map_or_else(out_of_range, |lbf| below_ten(lbf, "lbf"))
        }
        Family::Metric => match printable(force_n) {
            Some(n) if n.abs().round() >= 1e3 => format!("{} kN", significant(n / 1e3, 3)),
            Some(n) => below_ten(n, "N"),
            None => out_of_range(),
        },
    }
}

/// A stress to three digits, in MPa, kPa or Pa by its size, or in psi.
///
/// # Units
/// `stress_pa` in Pa.
///
/// # Valid for
/// Finite stresses; for others the text is `out of range`.
///
/// # Examples
/// ```
/// use beam_core::quantity::{stress, Family};
/// assert_eq!(stress(31_240.0, Family::Metric), "31.2 kPa");
/// assert_eq!(stress(172.4e6, Family::Inch), "25000 psi");
/// ```
pub fn stress(stress_pa: f64, family: Family) -> String {
    let Some(pa) = printable(stress_pa) else { return out_of_range() };
    let rounded = rounded(pa, 3).abs();
    match family {
        Family::Inch if pa != 0.0 && rounded < 0.1 * PSI => "under 0.1 psi".to_owned(),
        Family::Inch => format!("{} psi", significant(pa / PSI, 3)),
        Family::Metric if rounded >= 1e6 => format!("{} MPa", significant(pa / 1e6, 3)),
        Family::Metric if rounded >= 1e3 => format!("{} kPa", significant(pa / 1e3, 3)),
        Family::Metric => below_ten(pa, "Pa"),
    }
}

/// A demand over its limit in percent, rounded up: what uses more than all never prints as 100 %.
///
/// # Valid for
/// Ratios that are finite and not negative; for others the text is `out of range`.
///
/// # Examples
/// ```
/// use beam_core::quantity::percent;
/// assert_eq!(percent(0.83), "83 %");
/// assert_eq!(percent(1.001), "101 %");
/// assert_eq!(percent(0.0), "under 1 %");
/// ```
pub fn percent(ratio: f64) -> String {
    /// Above this the number says no more than that it is far too much.
    const MOST: f64 = 9999.0;
    /// 0.07 x 100 is a little over 7 in binary; so much is not rounded up.
    const NOISE: f64 = 1e-9;
    match printable(ratio) {
        Some(ratio) if ratio >= 0.0 => {
            let percents = (ratio * 100.0 - NOISE).ceil();
            let percents = if ratio > 1.0 { percents.max(101.0) } else { percents };
            if ratio < 0.01 {
                "under 1 %".to_owned()
            } else if percents > MOST {
                format!("over {MOST} %")
            } else {
                format!("{percents} %")
            }
        }
        _ => out_of_range(),
    }
}

/// A number to `digits` significant digits, without a power of ten: 24 937 to three is `24900`.
///
/// # Valid for
/// Finite numbers; for others the text is `out of range`. Fewer than one digit counts as one.
///
/// # Examples
/// ```
/// use beam_core::quantity::significant;
/// assert_eq!(significant(0.012345, 3), "0.0123");
/// assert_eq!(significant(2.0, 3), "2.00");
/// ```
pub fn significant(x: f64, digits: usize) -> String {
    let Some(x) = printable(x) else { return out_of_range() };
    let digits = digits.clamp(1, 17);
    let rounded = rounded(x, digits);
    if rounded == 0.0 {
        return "0".to_owned();
    }
    let lead = exponent(rounded, digits);
    let decimals = (digits as i32 - 1 - lead).max(0) as usize;
    format!("{rounded:.decimals$}")
}

/// `x` rounded to so many significant digits.
fn rounded(x: f64, digits: usize) -> f64 {
    format!("{x:.*e}", digits - 1).parse().unwrap_or(x)
}

/// The power of ten of the first digit of a number with so many digits.
fn exponent(x: f64, digits: usize) -> i32 {
    format!("{x:.*e}", digits - 1).split_once('e').and_then(|(_, power)| power.parse().ok()).unwrap_or(0)
}

/// Lets pass what can be printed as a number. A number that is none is a fault of the caller.
fn printable(x: f64) -> Option<f64> {
    debug_assert!(!x.is_nan(), "a number for people must be a number");
    (x.is_finite() && x.abs() <= PRINTABLE).then_some(x)
}

fn out_of_range() -> String {
    OUT_OF_RANGE.to_owned()
}

fn minus(negative: bool) -> &'static str {
    if negative { "-" } else { "" }
}

/// Inches to the nearest sixteenth, the fraction in lowest terms.
fn sixteenths(inches: f64) -> String {
    let count = (inches.abs() * 16.0).round() as u64;
    let (whole, rest) = (count / 16, count % 16);
    let minus = minus(inches < 0.0 && count > 0);
    if rest == 0 {
        return format!("{minus}{whole} in");
    }
    let common = 1 << rest.trailing_zeros();
    let (top, bottom) = (rest / common, 16 / common);
    if whole == 0 { format!("{minus}{top}/{bottom} in") } else { format!("{minus}{whole} {top}/{bottom} in") }
}

/// Tenths; what rounds to none but is not zero is said to be under a tenth.
fn tenths(count: f64, unit: &str) -> String {
    let tenths = (count.abs() * 10.0).round();
    if count == 0.0 {
        format!("0 {unit}")
    } else if tenths == 0.0 {
        format!("under 0.1 {unit}")
    } else {
        format!("{}{:.1} {unit}", minus(count < 0.0), tenths / 10.0)
    }
}

/// Tenths below ten, whole numbers from ten on.
fn below_ten(count: f64, unit: &str) -> String {
    if (count.abs() * 10.0).round() < 100.0 {
        tenths(count, unit)
    } else {
        format!("{}{} {unit}", minus(count < 0.0), count.abs().round())
    }
}

#[cfg(test)]
mod tests {
    use super::Family::{Inch, Metric};
    use super::*;

    #[test]
    fn lengths_to_the_sixteenth() {
        let rows = [
            (46.125, "46 1/8 in"),
            (0.875, "7/8 in"),
            (0.0, "0 in"),
            (0.03, "0 in"),
            (-0.03, "0 in"),
            (0.032, "1/16 in"),
            (-2.25, "-2 1/4 in"),
            (-0.5, "-1/2 in"),
            (92.97, "93 in"),
            (92.96, "92 15/16 in"),
        ];
        for (inches, text) in rows {
            assert_eq!(tape(inches * INCH, Inch), text, "{inches}");
        }
    }

    #[test]
    fn lengths_in_millimetres() {
        let rows = [
            (1.171575, "1172 mm"),
            (0.0034, "3.4 mm"),
            (0.00994, "9.9 mm"),
            (0.00996, "10 mm"),
            (0.0, "0 mm"),
            (0.00004, "under 0.1 mm"),
            (-0.0034, "-3.4 mm"),
            (-0.0254, "-25 mm"),
        ];
        for (metres, text) in rows {
            assert_eq!(tape(metres, Metric), text, "{metres}");
        }
    }

    #[test]
    fn sags() {
        assert_eq!(sag(0.031 * INCH, Inch), "under 1/16 in");
        assert_eq!(sag(0.032 * INCH, Inch), "1/16 in");
        assert_eq!(sag(0.0, Inch), "0 in");
        assert_eq!(sag(0.875 * INCH, Inch), "7/8 in");
        assert_eq!(sag(0.02222, Metric), "22.2 mm");
        assert_eq!(sag(0.00004, Metric), "under 0.1 mm");
        assert_eq!(sag(-0.00123, Metric), "-1.2 mm");
    }

    #[test]
    fn weights_and_forces() {
        assert_eq!(weight(45.359237, Inch), "100 lb");
        assert_eq!(weight(45.359237, Metric), "45 kg");
        assert_eq!(weight(4.54, Metric), "4.5 kg");
        assert_eq!(weight(0.01, Metric), "under 0.1 kg");
        assert_eq!(force(889.6, Metric), "890 N");
        assert_eq!(force(999.6, Metric), "1.00 kN");
        assert_eq!(force(-1234.0, Metric), "-1.23 kN");
        assert_eq!(force(444.82216152605, Inch), "100 lbf");
    }

    #[test]
    fn stresses() {
        assert_eq!(stress(172.4e6, Metric), "172 MPa");
        assert_eq!(stress(999.9e3, Metric), "1.00 MPa");
        assert_eq!(stress(31.24e3, Metric), "31.2 kPa");
        assert_eq!(stress(0.0, Metric), "0 Pa");
        assert_eq!(stress(250.0, Metric), "250 Pa");
        assert_eq!(stress(-5.0e6, Metric), "-5.00 MPa");
        assert_eq!(stress(172.4e6, Inch), "25000 psi");
        assert_eq!(stress(100.0, Inch), "under 0.1 psi");
    }

    #[test]
    fn percents_never_flatter() {
        let rows = [
            (0.83, "83 %"),
            (0.07, "7 %"),
            (0.831, "84 %"),
            (0.9999, "100 %"),
            (1.0, "100 %"),
            (1.0 + f64::EPSILON, "101 %"),
            (1.001, "101 %"),
            (0.0, "under 1 %"),
            (0.0099, "under 1 %"),
            (0.01, "1 %"),
            (1e9, "over 9999 %"),
            (-0.5, "out of range"),
            (1e300, "out of range"),
        ];
        for (ratio, text) in rows {
            assert_eq!(percent(ratio), text, "{ratio}");
        }
    }

    #[test]
    fn significant_digits() {
        let rows = [
            (24_937.0, 3, "24900"),
            (0.012345, 3, "0.0123"),
            (2.0, 3, "2.00"),
            (9.999, 3, "10.0"),
            (-0.5, 1, "-0.5"),
            (0.0, 3, "0"),
            (123.456, 0, "100"),
        ];
        for (x, digits, text) in rows {
            assert_eq!(significant(x, digits), text, "{x}");
        }
    }

    #[test]
    fn infinity_is_out_of_range() {
        for family in [Inch, Metric] {
            for print in [tape, sag, radius, weight, force, stress] {
                assert_eq!(print(f64::INFINITY, family), "out of range");
                assert_eq!(print(-1e300, family), "out of range");
            }
        }
    }

    /// A number that is none stops a test run at once; where assertions are off it prints as out of range.
    #[test]
    #[cfg_attr(debug_assertions, should_panic(expected = "must be a number"))]
    fn no_number_is_printed_for_none() {
        assert_eq!(tape(f64::NAN, Metric), "out of range");
    }
}

//! Water that lies in the sag it makes.

use super::{OutOfRange, positive, within};
use crate::quantity::{ForcePerLength, Length, Moment, Ratio, si};
use std::f64::consts::PI;

/// Weight of water, N/m3.
pub(crate) const WATER: f64 = 9810.0;
/// Beyond this the amplification is a matter of chance: no number is given.
const LARGEST: f64 = 0.25;

/// Ponding coefficient of a simply supported panel: sag under the water that fills its own first-mode dent, over the
/// depth of that dent, `gamma_w (1/(D lambda^2) + 1/(S lambda))`, `lambda = (pi/a)^2 + (pi/b)^2`.
///
/// # Units
/// `rigidity` per width, N m; `shear` per width, N/m.
///
/// # Errors
/// [`OutOfRange`] unless all are above zero.
///
/// # References
/// First mode of a shear-flexible plate; the argument of ponding is Haussler's 1962 (from memory).
pub fn coefficient(
    rigidity: Moment,
    shear: ForcePerLength,
    across: Length,
    along: Length,
) -> Result<Ratio, OutOfRange> {
    const RULE: &str = "ponding coefficient";
    let d = positive(RULE, "bending stiffness (N m)", rigidity.value)?;
    let s = positive(RULE, "shear stiffness (N/m)", shear.value)?;
    let a = positive(RULE, "span across (m)", across.value)?;
    let b = positive(RULE, "length along (m)", along.value)?;
    let lambda = (PI / a).powi(2) + (PI / b).powi(2);
    Ok(si(WATER * (1.0 / (d * lambda * lambda) + 1.0 / (s * lambda))))
}

/// What standing water multiplies sag and stress with: `1/(1 - C)`.
///
/// # Valid for
/// `C < 0.25` (judged); beyond, water gathers faster than a linear model may tell.
///
/// # Errors
/// [`OutOfRange`] at 0.25 and beyond.
pub fn amplification(coefficient: Ratio) -> Result<f64, OutOfRange> {
    const RULE: &str = "ponding";
    let c = within(RULE, "ponding coefficient", coefficient.value, 0.0, 1e9)?;
    if c >= LARGEST {
        return Err(OutOfRange::new(
            RULE,
            "ponding coefficient",
            c,
            "must be below 0.25: stiffen or drain the roof",
        ));
    }
    Ok(1.0 / (1.0 - c))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// 3/40/3 panel of 2.3 x 2.4 m: D 20.7424 kN m, S 115.5625 kN/m: 0.06063581 (computed apart).
    #[test]
    fn coefficient_matches_computed() {
        let c = coefficient(si(20_742.4), si(115_562.5), si(2.3), si(2.4)).unwrap();
        assert_relative_eq!(c.value, 0.06063581, max_relative = 1e-5);
        assert_relative_eq!(amplification(c).unwrap(), 1.064_549_9, max_relative = 1e-5);
    }

    #[test]
    fn soft_roofs_get_no_number() {
        assert!(amplification(si(0.25)).is_err());
        assert!(amplification(si(-0.1)).is_err());
        assert!(amplification(si(f64::NAN)).is_err());
    }
}

//! A channel through the full depth of the core, across the path of the shear force: the skins bridge it as a frame
//! without diagonals (Vierendeel).

use super::{OutOfRange, at_least_zero, positive};
use crate::quantity::{Force, ForcePerLength, Length, Moment, si};

const RULE: &str = "channel across the core";

/// What a channel leaves of the shear stiffness, per width, over its own width: `12 (EI1 + EI2)/w^2`.
///
/// # Units
/// `upper` and `lower` are the bending stiffnesses of the skins per width (flexural modulus in the crossing direction,
/// with any foam left on them), N m; the result is N/m.
///
/// # Valid for
/// Skins held against rotation by sound core on both sides of the channel.
///
/// # Errors
/// [`OutOfRange`] unless all are above zero.
///
/// # References
/// Two parallel beams with fixed ends; derived.
pub fn shear_stiffness(upper: Moment, lower: Moment, width: Length) -> Result<ForcePerLength, OutOfRange> {
    let (a, b) = skins(upper, lower)?;
    let w = positive(RULE, "width of the channel (m)", width.value)?;
    Ok(si(12.0 * (a + b) / (w * w)))
}

/// Moments per width at the edges of the channel, upper and lower skin, under the shear force `q` per width.
///
/// The skins share the force by their stiffness; equal skins get `Q w/4` each.
///
/// # Errors
/// As [`shear_stiffness`].
pub fn skin_moments(
    q: ForcePerLength,
    upper: Moment,
    lower: Moment,
    width: Length,
) -> Result<[Force; 2], OutOfRange> {
    let (a, b) = skins(upper, lower)?;
    let w = positive(RULE, "width of the channel (m)", width.value)?;
    let q = at_least_zero(RULE, "shear force per width (N/m)", q.value.abs())?;
    let moment = |share: f64| si(q * w / 2.0 * share);
    Ok([moment(a / (a + b)), moment(b / (a + b))])
}

fn skins(upper: Moment, lower: Moment) -> Result<(f64, f64), OutOfRange> {
    Ok((
        positive(RULE, "bending stiffness of the upper skin (N m)", upper.value)?,
        positive(RULE, "bending stiffness of the lower skin (N m)", lower.value)?,
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// Skins of 15 750 N mm: 420 N/mm over 30 mm, 37.8 over 100 mm (arithmetic, rows CH).
    #[test]
    fn stiffness_falls_with_the_square_of_the_width() {
        let s = |w: f64| shear_stiffness(si(15.75), si(15.75), si(w)).unwrap().value / 1e3;
        assert_relative_eq!(s(0.030), 420.0, max_relative = 1e-9);
        assert_relative_eq!(s(0.100), 37.8, max_relative = 1e-9);
    }

    #[test]
    fn equal_skins_take_a_quarter_each_side() {
        let [u, l] = skin_moments(si(-1000.0), si(15.75), si(15.75), si(0.1)).unwrap();
        assert_relative_eq!(u.value, 1000.0 * 0.1 / 4.0, max_relative = 1e-12);
        assert_eq!(u, l);
        let [u, l] = skin_moments(si(1000.0), si(30.0), si(10.0), si(0.1)).unwrap();
        assert_relative_eq!(u.value, 3.0 * l.value, max_relative = 1e-12);
    }

    #[test]
    fn one_skin_alone_is_no_frame() {
        assert!(shear_stiffness(si(15.75), si(0.0), si(0.1)).is_err());
    }
}

//! Plastic mechanisms of a skin punched into crushing foam: upper bounds.
//!
//! They lie far above first yield of the foam (about four times) and suppose a skin that yields without cracking.
//! They bound a collapse from above; a service limit never rests on them.

use super::error::{LocalError, positive};
use crate::quantity::{Force, Length, Pressure, si};
use std::f64::consts::PI;

/// What the skin does when it reaches its bending strength.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SkinKind {
    /// Yields (metal): plastic moment `f t^2/4`.
    Yields,
    /// Cracks (plywood): elastic moment `f t^2/6`.
    Cracks,
}

impl SkinKind {
    /// Moment capacity per width of a skin, N.
    pub(crate) fn capacity(self, strength: f64, thickness: f64) -> f64 {
        let divisor = match self {
            Self::Yields => 4.0,
            Self::Cracks => 6.0,
        };
        strength * thickness * thickness / divisor
    }
}

/// Load at which a circular punch of radius `a` forms a conical dent with yield circles at `a` and `R`, least over `R`.
///
/// `P = min over R of 4 pi Mp R/(R - a) + sc pi (R^2 + R a + a^2)/3`
///
/// # Units
/// `capacity` is the skin's moment per width, N m/m = N.
///
/// # Valid for
/// An upper bound for ductile skins far from edges.
///
/// # Errors
/// [`LocalError::OutOfRange`].
///
/// # References
/// Yield-line method (Johansen), derived for this cone.
pub fn circular_punch(capacity: Force, crush: Pressure, radius: Length) -> Result<Force, LocalError> {
    let mp = positive("moment capacity of the skin (N m/m)", capacity.value)?;
    let sc = positive("crushing stress of the foam (Pa)", crush.value)?;
    let a = positive("radius of the punch (m)", radius.value)?;
    // The derivative vanishes where (2R + a)(R - a)^2 = 12 Mp a/sc, whose left side grows from zero.
    let target = 12.0 * mp * a / sc;
    let (mut low, mut high) = (a, a + target.cbrt() + (target / a).sqrt());
    for _ in 0..200 {
        let mid = 0.5 * (low + high);
        if (2.0 * mid + a) * (mid - a).powi(2) < target { low = mid } else { high = mid }
    }
    let r = 0.5 * (low + high);
    Ok(si(4.0 * PI * mp * r / (r - a) + sc * PI * (r * r + r * a + a * a) / 3.0))
}

/// Load at which a strip of skin of width `b` dents under a punch of length `a`: `P = 2 b sqrt(4 Mu sc) + sc a b`.
///
/// With `Mu = f t^2/4` this is the familiar `2 b t sqrt(f sc) + sc a b`; a cracking skin has 1.633 in place of 2.
///
/// # Valid for
/// A strip that bends in one direction, with a hinge at each edge of the punch and one beyond; exact for a ductile
/// strip, an upper bound for one that cracks.
///
/// # Errors
/// [`LocalError::OutOfRange`].
///
/// # References
/// Indentation formula of sandwich beams, Ashby et al. 2000 (from memory).
pub fn line_punch(
    skin: SkinKind,
    skin_strength: Pressure,
    thickness: Length,
    crush: Pressure,
    punch_length: Length,
    strip_width: Length,
) -> Result<Force, LocalError> {
    let f = positive("bending strength of the skin (Pa)", skin_strength.value)?;
    let t = positive("thickness of the skin (m)", thickness.value)?;
    let sc = positive("crushing stress of the foam (Pa)", crush.value)?;
    let a = positive("length of the punch (m)", punch_length.value)?;
    let b = positive("width of the strip (m)", strip_width.value)?;
    Ok(si(2.0 * b * (4.0 * skin.capacity(f, t) * sc).sqrt() + sc * a * b))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// Minimum found independently by numeric search (rows ME1 to ME3). N, mm, MPa.
    #[test]
    fn circular_punch_matches_numeric_minimum() {
        for (mp, sc, a, p) in [
            (67.5, 0.1, 28.2094792, 2215.87),
            (67.5, 0.1, 56.4189584, 3916.697),
            (33.75, 0.07, 28.2094792, 1246.207),
        ] {
            let got = circular_punch(si(mp), si(sc * 1e6), si(a / 1e3)).unwrap();
            assert_relative_eq!(got.value, p, max_relative = 1e-5);
        }
    }

    /// Row ME4, and the brittle coefficient 4/sqrt 6 = 1.633 beside the ductile 2.
    #[test]
    fn line_punch_matches_formula() {
        let at = |kind| line_punch(kind, si(30e6), si(0.003), si(0.1e6), si(0.05), si(0.1)).unwrap().value;
        assert_relative_eq!(at(SkinKind::Yields), 1539.23, max_relative = 1e-6);
        let foam_only = 0.1e6 * 0.05 * 0.1;
        let ratio = (at(SkinKind::Cracks) - foam_only) / (at(SkinKind::Yields) - foam_only);
        assert_relative_eq!(ratio, 1.633 / 2.0, max_relative = 1e-4);
    }
}

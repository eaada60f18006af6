//! Shear of the webs, ADM 2020 chapter G.

use super::super::RectangularTube;
use super::alloy::{AdmAlloy, Weld};
use super::element::shear_web;
use super::format::{Format, LimitState};
use crate::quantity::{Force, si};
use crate::strength::{Basis, OutOfRange};

/// Shear strengths, allowable or design by the format asked.
#[derive(Debug, Clone, PartialEq)]
pub struct ShearStrength {
    /// G.2 yielding or buckling of the webs.
    pub buckling: Force,
    /// Rupture of the webs' net area.
    pub rupture: Force,
    /// The lesser.
    pub least: Force,
    /// What the numbers rest on.
    pub basis: Basis,
}

/// Shear strength of a tube along its depth: two webs of full depth for yielding and buckling, their clear depth for
/// rupture.
///
/// # Valid for
/// Webs without stiffeners and without holes.
///
/// # Errors
/// [`OutOfRange`] for a wall thinner than the alloy's strengths hold for.
///
/// # References
/// ADM 2020, G.1, G.2; part VII examples 4 and 20.
pub fn shear(
    tube: &RectangularTube,
    alloy: &AdmAlloy,
    weld: Weld,
    format: Format,
) -> Result<ShearStrength, OutOfRange> {
    alloy.admits(tube)?;
    let metal = alloy.section(weld);
    let fs = shear_web(&metal).at(tube.clear_depth() / tube.wall);
    let buckling = format.factor(LimitState::YieldOrBuckling) * fs * 2.0 * tube.depth * tube.wall;
    let rupture = format.factor(LimitState::RuptureOrCrippling) * metal.fsu() / metal.kt
        * 2.0
        * tube.wall
        * tube.inside_depth();
    Ok(ShearStrength {
        buckling: si(buckling),
        rupture: si(rupture),
        least: si(buckling.min(rupture)),
        basis: Basis::published(format!("{}, chapter G", format.name())),
    })
}

#[cfg(test)]
mod tests {
    use super::super::alloy::samples::*;
    use super::*;
    use approx::assert_relative_eq;

    const KIP: f64 = 4448.2216152605;

    /// Part VII, example 20: RT 4x2x0.188 of 6063-T5, 8.7 kip; example 4: Fs/Omega 9.1 ksi.
    #[test]
    fn matches_part_vii() {
        let v = shear(&tube(2.0, 4.0, 0.188), &a6063_t5(), Weld::None, Format::Asd).unwrap();
        printed(v.buckling.value / KIP, 8.7, 0.06);
        let t = tube(3.0, 3.0, 0.095);
        let v = shear(&t, &a6063_t6(), Weld::None, Format::Asd).unwrap();
        printed(v.buckling.value / (2.0 * t.depth * t.wall) / KSI, 9.1, 0.05);
    }

    /// Part VI shear-rupture column: Fsu/Omega 11.7 (6061-T6), 6.8 (6063-T5), 9.2 (6063-T6), 7.4 (6061-T6 welded).
    /// Example 20 divides by 1.65 (8.0 ksi), an erratum: rupture has 1.95.
    #[test]
    fn rupture_stress_matches_part_vi() {
        let t = tube(2.0, 2.0, 0.125);
        let stress = |a: AdmAlloy, w| {
            let v = shear(&t, &a, w, Format::Asd).unwrap();
            v.rupture.value / (2.0 * t.wall * t.clear_depth()) / KSI
        };
        printed(stress(a6061_t6(), Weld::None), 11.7, 0.06);
        printed(stress(a6063_t5(), Weld::None), 6.8, 0.06);
        printed(stress(a6063_t6(), Weld::None), 9.2, 0.06);
        printed(stress(a6061_t6(), Weld::Within), 7.4, 0.06);
    }

    #[test]
    fn formats_keep_their_factors() {
        let t = tube(2.0, 2.0, 0.125);
        let v = |f| shear(&t, &a6061_t6(), Weld::None, f).unwrap();
        let ratio = |a: Force, b: Force| a.value / b.value;
        let (l, a) = (v(Format::Lrfd), v(Format::Asd));
        assert_relative_eq!(ratio(l.buckling, a.buckling), 0.9 * 1.65, max_relative = 1e-12);
        assert_relative_eq!(ratio(l.rupture, a.rupture), 0.75 * 1.95, max_relative = 1e-12);
    }
}

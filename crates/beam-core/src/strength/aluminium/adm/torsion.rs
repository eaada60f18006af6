//! Torsion of rectangular tubes, ADM 2020 H.2.2.

use super::super::RectangularTube;
use super::alloy::{AdmAlloy, Weld};
use super::element::shear_web;
use super::format::{Format, LimitState};
use crate::quantity::{Moment, si};
use crate::strength::{Basis, Limit, OutOfRange};

/// Torsional strength `Tn = Fs C` with `C = 2 t (B - t)(H - t)` and the shear stress of the slenderer wall, rupture
/// with its own factor.
///
/// # Errors
/// [`OutOfRange`] for a wall thinner than the alloy's strengths hold for.
///
/// # References
/// ADM 2020, H.2.2; the shear constant is that of a thin closed tube (Bredt).
pub fn torsion(
    tube: &RectangularTube,
    alloy: &AdmAlloy,
    weld: Weld,
    format: Format,
) -> Result<Limit<Moment>, OutOfRange> {
    alloy.admits(tube)?;
    let metal = alloy.section(weld);
    let fs = shear_web(&metal).at(tube.clear_depth().max(tube.clear_width()) / tube.wall);
    let stress = (format.factor(LimitState::YieldOrBuckling) * fs)
        .min(format.factor(LimitState::RuptureOrCrippling) * metal.fsu() / metal.kt);
    Ok(Limit::new(
        "torsion",
        si(stress * tube.torsion_modulus()),
        Basis::published(format!("{}, H.2.2", format.name())),
    ))
}

#[cfg(test)]
mod tests {
    use super::super::alloy::samples::*;
    use super::*;
    use approx::assert_relative_eq;

    /// Bredt: torque over twice the enclosed area and the wall; 6063-T5, Fs/Omega 5.8 ksi (part VI).
    #[test]
    fn torque_is_shear_stress_around_the_enclosed_area() {
        let t = torsion(&tube(1.5, 1.5, 0.125), &a6063_t5(), Weld::None, Format::Asd).unwrap();
        let kip_in = 4448.2216152605 * INCH;
        assert_relative_eq!(t.value.value / kip_in, 5.8 * 2.0 * 1.375 * 1.375 * 0.125, max_relative = 0.004);
    }

    /// Shear rupture 11.7 ksi is below shear yield 12.7 ksi in 6061-T6 (part VI): it must govern.
    #[test]
    fn rupture_governs_6061() {
        let t = torsion(&tube(2.0, 2.0, 0.125), &a6061_t6(), Weld::None, Format::Asd).unwrap();
        let kip_in = 4448.2216152605 * INCH;
        assert_relative_eq!(t.value.value / kip_in, 11.7 * 2.0 * 1.875 * 1.875 * 0.125, max_relative = 0.004);
    }
}

//! Crippling of webs under a concentrated force, ADM 2020 J.9.3.

use super::super::RectangularTube;
use super::alloy::{AdmAlloy, Weld};
use super::format::{Format, LimitState};
use crate::quantity::{Force, Length, si};
use crate::strength::{Basis, Limit, OutOfRange, positive};

/// Strength of both webs under a force nearer to the end than half the depth:
/// `Rn = 0.40 t^2 (1 + 3 (lb/d)(tw/tf)^1.5) sqrt(E Fty tf/tw)` a web.
///
/// Farther from the end a web carries more, so this serves there too, on the safe side.
///
/// # Valid for
/// Walls of one thickness (`tw = tf`); bearing no longer than the tube is deep.
///
/// # Errors
/// [`OutOfRange`].
///
/// # References
/// ADM 2020, J.9.3.1; part VII example 4.
pub fn end_crippling(
    tube: &RectangularTube,
    alloy: &AdmAlloy,
    bearing: Length,
    weld: Weld,
    format: Format,
) -> Result<Limit<Force>, OutOfRange> {
    alloy.admits(tube)?;
    let lb = positive("ADM 2020 J.9.3, web crippling", "bearing length (m)", bearing.value)?.min(tube.depth);
    let metal = alloy.section(weld);
    let web = 0.40 * tube.wall.powi(2) * (1.0 + 3.0 * lb / tube.depth) * (metal.e * metal.fty).sqrt();
    Ok(Limit::new(
        "web crippling",
        si(format.factor(LimitState::RuptureOrCrippling) * 2.0 * web),
        Basis::published(format!("{}, J.9.3.1", format.name())),
    ))
}

#[cfg(test)]
mod tests {
    use super::super::alloy::samples::*;
    use super::*;

    /// Part VII, example 4: t 0.095, lb 0.10, d 3 in, Fty 25 ksi: 2.0 kip a web, nominal.
    #[test]
    fn matches_example_4() {
        let r = end_crippling(&tube(3.0, 3.0, 0.095), &a6063_t6(), si(0.1 * INCH), Weld::None, Format::Asd)
            .unwrap();
        printed(r.value.value * 1.95 / 2.0 / 4448.2216152605, 2.0, 0.04);
    }

    #[test]
    fn refuses_no_bearing() {
        let r = end_crippling(&tube(3.0, 3.0, 0.095), &a6063_t6(), si(0.0), Weld::None, Format::Asd);
        assert!(r.is_err());
    }
}

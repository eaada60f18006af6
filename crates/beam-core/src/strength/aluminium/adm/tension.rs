//! Tension, ADM 2020 chapter D.

use super::super::RectangularTube;
use super::alloy::{AdmAlloy, Weld};
use super::format::{Format, LimitState};
use crate::quantity::{Area, Force, si};
use crate::strength::{Basis, OutOfRange, within};

/// Tensile strengths, allowable or design by the format asked.
#[derive(Debug, Clone, PartialEq)]
pub struct TensionStrength {
    /// D.2 yielding of the gross area.
    pub yield_: Force,
    /// D.2 rupture of the net area.
    pub rupture: Force,
    /// The lesser.
    pub least: Force,
    /// What the numbers rest on.
    pub basis: Basis,
}

/// Tensile strength of a tube; `net` is the area left by its holes, effective where only part is connected.
///
/// # Valid for
/// A net area above zero and not beyond the gross area. Drilled holes count with their nominal size, punched ones with
/// 1/32 in more.
///
/// # Errors
/// [`OutOfRange`].
///
/// # References
/// ADM 2020, D.2; part VI tables 2-19 to 2-22.
pub fn tension(
    tube: &RectangularTube,
    alloy: &AdmAlloy,
    net: Area,
    weld: Weld,
    format: Format,
) -> Result<TensionStrength, OutOfRange> {
    const RULE: &str = "ADM 2020 D.2, tension";
    alloy.admits(tube)?;
    let gross = tube.a();
    let net = within(RULE, "net area (m2)", net.value, f64::MIN_POSITIVE, gross * (1.0 + 1e-9))?;
    let metal = alloy.section(weld);
    let yield_ = format.factor(LimitState::YieldOrBuckling) * metal.fty * gross;
    let rupture = format.factor(LimitState::RuptureOrCrippling) * metal.ftu * net / metal.kt;
    Ok(TensionStrength {
        yield_: si(yield_),
        rupture: si(rupture),
        least: si(yield_.min(rupture)),
        basis: Basis::published(format!("{}, D.2", format.name())),
    })
}

#[cfg(test)]
mod tests {
    use super::super::alloy::samples::*;
    use super::*;

    /// Part VI: net and gross tension columns, ksi.
    #[test]
    fn stresses_match_part_vi() {
        let t = tube(2.0, 2.0, 0.25);
        for (alloy, weld, net, gross) in [
            (a6061_t6(), Weld::None, 19.5, 21.2),
            (a6063_t5(), Weld::None, 11.3, 9.7),
            (a6063_t6(), Weld::None, 15.4, 15.2),
            (a6082_t6(), Weld::None, 23.1, 23.0),
            (a6061_t6(), Weld::Within, 12.3, 9.1),
            (a6063_t5(), Weld::Within, 8.7, 4.8),
        ] {
            let p = tension(&t, &alloy, t.area(), weld, Format::Asd).unwrap();
            printed(p.rupture.value / t.a() / KSI, net, 0.06);
            printed(p.yield_.value / t.a() / KSI, gross, 0.06);
        }
    }

    #[test]
    fn refuses_impossible_net_area() {
        let t = tube(2.0, 2.0, 0.25);
        for net in [0.0, 2.0 * t.a(), f64::NAN] {
            assert!(tension(&t, &a6061_t6(), si(net), Weld::None, Format::Asd).is_err());
        }
    }
}

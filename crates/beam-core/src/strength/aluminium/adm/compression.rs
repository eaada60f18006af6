//! Tubes in compression, ADM 2020 chapter E.

use super::super::RectangularTube;
use super::alloy::{AdmAlloy, Metal, Weld};
use super::constants::Constants;
use super::element::{elastic_buckling, flange};
use super::format::{Format, LimitState};
use crate::quantity::{Force, Length, si};
use crate::strength::{Basis, OutOfRange, positive};
use std::f64::consts::PI;

/// The mode that governs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CompressionMode {
    /// E.2 buckling of the member.
    Member,
    /// E.3 local buckling of its walls.
    Local,
    /// E.4 interaction of both.
    Interaction,
}

/// Compressive strengths of all modes, allowable or design by the format asked.
#[derive(Debug, Clone, PartialEq)]
pub struct CompressionStrength {
    /// E.2.
    pub member: Force,
    /// E.3.1.
    pub local: Force,
    /// E.4, where the walls buckle elastically before the member would.
    pub interaction: Option<Force>,
    /// The least of them.
    pub least: Force,
    /// The mode of the least.
    pub governing: CompressionMode,
    /// What the numbers rest on.
    pub basis: Basis,
}

/// Compressive strength of a tube whose ends are held in place; `k = 1`, as for members that provide stability (C.3).
///
/// The corners are counted with the walls, which is on the safe side of E.3.1 and is what part VII example 12 does.
/// Torsional buckling never governs a closed tube.
///
/// # Valid for
/// Rectangular tubes with sharp corners; `length` between points held both ways.
///
/// # Errors
/// [`OutOfRange`], also for a wall thinner than the alloy's strengths hold for.
///
/// # References
/// ADM 2020, E.2, E.3.1, E.4; part VII examples 9, 10, 12.
pub fn compression(
    tube: &RectangularTube,
    alloy: &AdmAlloy,
    length: Length,
    weld: Weld,
    format: Format,
) -> Result<CompressionStrength, OutOfRange> {
    alloy.admits(tube)?;
    let length = positive("ADM 2020 chapter E, compression", "length (m)", length.value)?;
    let (section, member) = (alloy.section(weld), alloy.member(weld));
    let factor = format.factor(LimitState::YieldOrBuckling);
    let lambda = length / tube.r_min();
    let fc = member_stress(&member, lambda);
    let (b, h, t) = (tube.clear_width(), tube.clear_depth(), tube.wall);
    let curve = flange(&section);
    // Mean over the walls, each by its middle line.
    let (wide, deep) = (tube.width - t, tube.depth - t);
    let walls = tube.a() * (wide * curve.at(b / t) + deep * curve.at(h / t)) / (wide + deep);
    // Table B.5.1 with the slenderer pair of walls.
    let fe = elastic_buckling(&section, b.max(h) / t);
    let both = (0.85 * PI * PI * member.e / (lambda * lambda)).cbrt() * fe.powf(2.0 / 3.0) * tube.a();

    let (member, local) = (factor * fc * tube.a(), factor * walls);
    let interaction = (fe < fc).then_some(factor * both);
    let mut governing = (CompressionMode::Member, member);
    if local < governing.1 {
        governing = (CompressionMode::Local, local);
    }
    if let Some(both) = interaction
        && both < governing.1
    {
        governing = (CompressionMode::Interaction, both);
    }
    Ok(CompressionStrength {
        member: si(member),
        local: si(local),
        interaction: interaction.map(si),
        least: si(governing.1),
        governing: governing.0,
        basis: Basis::published(format!("{}, chapter E", format.name())),
    })
}

/// E.2, nominal, Pa: exact expression; the quadratics printed in part VI are rounded.
fn member_stress(metal: &Metal, lambda: f64) -> f64 {
    let c = Constants::of(metal).column;
    let lambda1 = (c.b - metal.fcy) / c.d;
    if lambda <= lambda1 {
        metal.fcy
    } else if lambda < c.c {
        (c.b - c.d * lambda) * (0.85 + 0.15 * (c.c - lambda) / (c.c - lambda1))
    } else {
        0.85 * PI * PI * metal.e / (lambda * lambda)
    }
}

#[cfg(test)]
mod tests {
    use super::super::alloy::samples::*;
    use super::*;
    use approx::assert_relative_eq;

    const KIP: f64 = 4448.2216152605;

    /// Part VII examples 9, 10 and 12: allowable member stress at kL/r 35.3, 53.4 (6061-T6) and 29.8 (3003-H14).
    #[test]
    fn member_stress_matches_part_vii() {
        let asd = |m: &Metal, l| member_stress(m, l) / 1.65 / KSI;
        printed(asd(&a6061_t6().sound(), 35.3), 17.6, 0.06);
        printed(asd(&a6061_t6().sound(), 53.4), 14.2, 0.1);
        printed(asd(&a3003_h14().sound(), 29.8), 8.7, 0.06);
        // Part VI: 51 352/L^2 beyond Cc.
        assert_relative_eq!(asd(&a6061_t6().sound(), 100.0), 5.1352, max_relative = 1e-4);
    }

    /// The mended quadratic of part VI, 25.2 - 0.232 L + 0.00047 L^2, is the exact line within its own rounding; the
    /// 2005 line 20.2 - 0.126 L is another rule.
    #[test]
    fn rounded_quadratic_is_near_and_the_old_line_is_not() {
        let at = |l: f64| member_stress(&a6061_t6().sound(), l) / 1.65 / KSI;
        for l in [20.0, 40.0, 60.0f64] {
            assert!((at(l) - (0.000466 * l * l - 0.231922 * l + 25.1845)).abs() < 0.003);
        }
        assert!((at(40.0) - (20.2 - 0.126 * 40.0)).abs() > 1.0);
    }

    /// Part VII, example 12: 4 x 4 x 0.063 tube column of 3003-H14, 48 in; as printed.
    #[test]
    fn example_12() {
        let t = tube(4.0, 4.0, 0.063);
        printed(t.a() / (INCH * INCH), 0.992, 0.0006);
        printed(t.r_min() / INCH, 1.61, 0.006);
        let p = compression(&t, &a3003_h14(), si(48.0 * INCH), Weld::None, Format::Asd).unwrap();
        printed(p.member.value / KIP, 8.6, 0.1);
        printed(p.local.value / KIP, 5.6, 0.06);
        printed(p.interaction.unwrap().value / KIP, 13.0, 0.06);
        printed(p.least.value / KIP, 5.6, 0.06);
        assert_eq!(p.governing, CompressionMode::Local);
    }

    /// Long tubes, kL 90 in, computed apart from this code.
    #[test]
    fn computed_long_tubes() {
        for (alloy, b, t, p) in [
            (a6061_t6(), 1.0, 0.125, 0.3611502494),
            (a6061_t6(), 2.0, 0.125, 3.49799813),
            (a6063_t5(), 1.5, 0.0625, 0.7861467036),
            (a6063_t6(), 1.5, 0.125, 1.384753242),
        ] {
            let got = compression(&tube(b, b, t), &alloy, si(90.0 * INCH), Weld::None, Format::Asd).unwrap();
            assert_relative_eq!(got.member.value / KIP, p, max_relative = 1e-7);
            assert_eq!(got.governing, CompressionMode::Member);
        }
    }

    /// Weld near the ends: the member keeps its buckling strength, the walls do not; farther in, nothing does.
    #[test]
    fn welds_cost_what_they_should() {
        let at =
            |w| compression(&tube(2.0, 2.0, 0.125), &a6061_t6(), si(20.0 * INCH), w, Format::Asd).unwrap();
        assert_eq!(at(Weld::NearEnds).member, at(Weld::None).member);
        assert!(at(Weld::NearEnds).local.value < 0.5 * at(Weld::None).local.value);
        assert!(at(Weld::Within).member.value < 0.55 * at(Weld::None).member.value);
    }

    #[test]
    fn refuses_no_length() {
        for l in [0.0, -1.0, f64::INFINITY] {
            assert!(
                compression(&tube(2.0, 2.0, 0.125), &a6061_t6(), si(l), Weld::None, Format::Asd).is_err()
            );
        }
    }
}

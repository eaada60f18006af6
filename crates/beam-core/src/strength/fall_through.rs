//! A foot going through: punching and bending of the skins that are there.
//!
//! Which side each number errs on:
//!
//! * punching takes the whole load on the skin along the pad's edge, the foam's help left out: below the true load;
//! * bending takes strips of skin beyond the pad's four edges that carry part of the load to foam beyond the pad by
//!   their elastic moment at the pad's edge alone: an equilibrium that breaks no limit, so below the true load of a skin
//!   that can redistribute at all;
//! * the mechanism with a second yield line at the strips' far ends lies above it; it is reported beside the limit,
//!   never used as one.
//!
//! The skins go one after the other, so their strengths do not add: the strongest skin counts. The weakened patch as a
//! whole is judged by the roof model.

use super::{Basis, Limit, OutOfRange, positive};
use crate::local::mechanism::SkinKind;
use crate::quantity::{Force, Length, Pressure, si};

const RULE: &str = "fall through";

/// A skin under a foot; strengths are design values.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SkinUnderFoot {
    /// Yields or cracks.
    pub kind: SkinKind,
    /// Thickness.
    pub thickness: Length,
    /// Shear through the thickness (panel shear).
    pub panel_shear: Pressure,
    /// Bending across.
    pub bending_across: Pressure,
    /// Bending along.
    pub bending_along: Pressure,
}

/// What breaks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FallMode {
    /// The skin is punched out along the pad's edge.
    Punching,
    /// The skin bends through and the foam crushes.
    Bending,
}

/// Load at which a foot goes through one skin.
#[derive(Debug, Clone, PartialEq)]
pub struct FallThrough {
    /// Punching of the skin.
    pub punching: Force,
    /// Bending of the skin on crushing foam, the weaker of both directions.
    pub bending: Force,
    /// Mechanism of the same strip: an upper bound, for comparison.
    pub mechanism: Force,
    /// What breaks first.
    pub governing: FallMode,
    /// The lesser of punching and bending.
    pub limit: Limit<Force>,
}

/// Load at which a pad goes through a skin lying on foam that crushes at `crush` (a design value).
///
/// # Valid for
/// Foam under the pad and for `sqrt(2 Mu/crush)` about it. Over a slot: [`fall_through_over_slot`].
///
/// # Errors
/// [`OutOfRange`] unless all are above zero.
///
/// # References
/// Static (lower-bound) strip; punching by perimeter. Derived; safe sides as told on the module page.
pub fn fall_through(
    skin: &SkinUnderFoot,
    crush: Pressure,
    across: Length,
    along: Length,
) -> Result<FallThrough, OutOfRange> {
    let sc = positive(
        RULE,
        "crushing stress of the foam (Pa); over a void the skin is not judged here",
        crush.value,
    )?;
    let t = positive(RULE, "thickness of the skin (m)", skin.thickness.value)?;
    let fv = positive(RULE, "panel shear strength (Pa)", skin.panel_shear.value)?;
    let a = positive(RULE, "size of the pad across (m)", across.value)?;
    let b = positive(RULE, "size of the pad along (m)", along.value)?;
    // Strips beyond each edge of the pad hang on its skin: a strip whose skin breaks at the moment m reaches as far as
    // m = sc x2/2 and carries sc x = sqrt(2 m sc) per length. Along the grain and across it the skin breaks by itself,
    // so the strips both ways act at once.
    let edge = |f: Pressure, doubled: f64| -> Result<f64, OutOfRange> {
        let f = positive(RULE, "bending strength of the skin (Pa)", f.value)?;
        Ok((2.0 * doubled * skin.kind.capacity(f, t) * sc).sqrt())
    };
    let cross = |doubled: f64| -> Result<f64, OutOfRange> {
        Ok(sc * a * b
            + 2.0 * b * edge(skin.bending_across, doubled)?
            + 2.0 * a * edge(skin.bending_along, doubled)?)
    };
    // Statics, and the mechanism that turns about the far end of the strips too.
    let (bending, mechanism) = (cross(1.0)?, cross(2.0)?);
    let punching = fv * t * 2.0 * (a + b);
    let (governing, least, what) = if punching < bending {
        (FallMode::Punching, punching, "punching by the pad's perimeter, foam left out")
    } else {
        (FallMode::Bending, bending, "static cross of skin strips on crushing foam")
    };
    Ok(FallThrough {
        punching: si(punching),
        bending: si(bending),
        mechanism: si(mechanism),
        governing,
        limit: Limit::new("fall through", si(least), Basis::computed(what)),
    })
}

/// The same over or beside a long slot in the foam that is `width` wide, the pad's middle `middle` from that of the slot;
/// `across` is square to the slot.
///
/// Where an edge of the pad hangs over the slot, its strip of skin reaches the foam beyond the lip only, at `g`:
/// `m = sc x (g + x/2)` and it carries `sc x`. Edges along the slot carry where there is foam under them. The pad stays
/// level: of the stronger side no more counts than balances the weaker one about the load.
///
/// # Valid for
/// The slot long beside the pad. Foam on both its sides; what is left of foam over or under the slot is not counted.
///
/// # Errors
/// As [`fall_through`].
pub fn fall_through_over_slot(
    skin: &SkinUnderFoot,
    crush: Pressure,
    [across, along]: [Length; 2],
    width: Length,
    middle: Length,
) -> Result<FallThrough, OutOfRange> {
    let sound = fall_through(skin, crush, across, along)?;
    let width = positive(RULE, "width of the slot (m)", width.value)?;
    let (sc, t) = (crush.value, skin.thickness.value);
    let (a, b) = (across.value, along.value);
    let lip = width / 2.0;
    let edges = [middle.value - a / 2.0, middle.value + a / 2.0];
    let capacity = |f: Pressure, doubled: f64| doubled * skin.kind.capacity(f.value, t);
    let cross = |doubled: f64| -> f64 {
        let m = capacity(skin.bending_across, doubled);
        let reach = (2.0 * m / sc).sqrt();
        // Beyond an edge at `x` from the middle of the slot, outward of the pad.
        let strip = |x: f64| {
            if x >= lip {
                sc * reach
            } else if x > -lip {
                let gap = lip - x;
                sc * ((gap * gap + reach * reach).sqrt() - gap)
            } else {
                sc * reach.min(-lip - x)
            }
        };
        let along_edges = 2.0 * (2.0 * capacity(skin.bending_along, doubled) * sc).sqrt();
        let per_length = sc * b + along_edges;
        let mut forces = vec![(strip(-edges[0]) * b, -a / 2.0), (strip(edges[1]) * b, a / 2.0)];
        for (from, to) in [(edges[0], edges[1].min(-lip)), (edges[0].max(lip), edges[1])] {
            for (from, to) in [(from, to.min(middle.value)), (from.max(middle.value), to)] {
                if to > from {
                    forces.push((per_length * (to - from), (from + to) / 2.0 - middle.value));
                }
            }
        }
        let side = |sign: f64| -> [f64; 2] {
            forces
                .iter()
                .filter(|(_, arm)| arm * sign > 0.0)
                .fold([0.0; 2], |[f, m], (force, arm)| [f + force, m + force * arm * sign])
        };
        let [[left, turns_left], [right, turns_right]] = [side(-1.0), side(1.0)];
        let balance = turns_left.min(turns_right);
        [(left, turns_left), (right, turns_right)]
            .into_iter()
            .map(|(force, turns)| if turns > 0.0 { force * balance / turns } else { 0.0 })
            .sum()
    };
    let (bending, mechanism) = (cross(1.0), cross(2.0));
    let (governing, least, what) = if sound.punching.value < bending {
        (FallMode::Punching, sound.punching.value, "punching by the pad's perimeter, foam left out")
    } else {
        (FallMode::Bending, bending, "static cross of skin strips on crushing foam beside a slot")
    };
    Ok(FallThrough {
        punching: sound.punching,
        bending: si(bending),
        mechanism: si(mechanism),
        governing,
        limit: Limit::new("fall through", si(least), Basis::computed(what)),
    })
}

/// The strongest of the skins that are there.
///
/// # Errors
/// [`OutOfRange`] where there is none.
pub fn strongest(skins: Vec<FallThrough>) -> Result<FallThrough, OutOfRange> {
    skins
        .into_iter()
        .max_by(|a, b| a.limit.value.value.total_cmp(&b.limit.value.value))
        .ok_or_else(|| OutOfRange::new(RULE, "number of skins", 0.0, "no skin is left: nothing holds a foot"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn plywood(bending_across: f64) -> SkinUnderFoot {
        SkinUnderFoot {
            kind: SkinKind::Cracks,
            thickness: si(0.003),
            panel_shear: si(4e6),
            bending_across: si(bending_across),
            bending_along: si(30e6),
        }
    }

    fn shoe(skin: &SkinUnderFoot, crush: f64) -> FallThrough {
        fall_through(skin, si(crush), si(0.1), si(0.18)).unwrap()
    }

    /// Worked by hand: punching 4 x 3 x 560 = 6720 N; 0.1 x 100 x 180 = 1800 N of foam, and by each edge
    /// sqrt(2 x 30 x 9/6 x 0.1) = 3 N/mm over 560 mm: 3480 N.
    #[test]
    fn worked_by_hand() {
        let f = shoe(&plywood(30e6), 0.1e6);
        assert_relative_eq!(f.punching.value, 6720.0, max_relative = 1e-12);
        assert_relative_eq!(f.bending.value, 3480.0, max_relative = 1e-12);
        assert_eq!((f.governing, f.limit.value), (FallMode::Bending, f.bending));
    }

    /// The lower bound stays below the mechanism, and above the foam alone, for skins weak and strong.
    #[test]
    fn bounds_are_in_order() {
        for strength in [1e6, 8e6, 30e6, 200e6] {
            for crush in [0.02e6, 0.1e6, 0.4e6] {
                let f = shoe(&plywood(strength), crush);
                assert!(f.bending < f.mechanism && f.bending.value > crush * 0.018);
            }
        }
    }

    #[test]
    fn skins_do_not_add() {
        let (weak, strong) = (shoe(&plywood(2e6), 0.05e6), shoe(&plywood(30e6), 0.1e6));
        assert_eq!(strongest(vec![weak, strong.clone()]).unwrap(), strong);
        assert!(strongest(vec![]).is_err());
    }

    fn over(width: f64, middle: f64) -> f64 {
        let sole = [si(0.1), si(0.18)];
        let skin = plywood(30e6);
        fall_through_over_slot(&skin, si(0.1e6), sole, si(width), si(middle)).unwrap().bending.value
    }

    /// Worked by hand, as above with a slot of 20 mm in the middle: 80 mm of foam, 0.1 x 80 x 180 = 1440 N; edges along the
    /// slot 3 N/mm over 360 mm, edges across it over 2 x 80 mm: 1560 N. Right over a slot as wide as three soles each edge
    /// hangs 100 mm over: strips of sc (sqrt(g2 + 2m/sc) - g) = 0.1 (sqrt(10000 + 900) - 100) = 0.4403 N/mm on two sides.
    #[test]
    fn slot_worked_by_hand() {
        assert_relative_eq!(over(0.020, 0.0), 1440.0 + 1560.0, max_relative = 1e-9);
        assert_relative_eq!(
            over(0.300, 0.0),
            0.1 * (10_900f64.sqrt() - 100.0) * 2.0 * 180.0,
            max_relative = 1e-9
        );
    }

    /// Without a slot, and far from it, it is the pad on sound foam; a slot never helps, the less the wider it is.
    #[test]
    fn slot_takes_away() {
        assert_relative_eq!(over(1e-9, 0.0), 3480.0, max_relative = 1e-6);
        assert_relative_eq!(over(0.1, 0.5), 3480.0, max_relative = 1e-9);
        for middle in [0.0, 0.03, 0.05, 0.08] {
            let mut last = 3480.1;
            for width in [0.001, 0.02, 0.05, 0.1, 0.3] {
                let now = over(width, middle);
                assert!(now < last && now > 0.0, "{width} {middle}: {now} {last}");
                last = now;
            }
        }
    }

    #[test]
    fn void_is_not_judged() {
        assert!(fall_through(&plywood(30e6), si(0.0), si(0.1), si(0.18)).is_err());
    }
}

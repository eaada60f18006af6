//! The foam: shear, crushing, and being punched through.

use super::format::lasting_and_short;
use super::{Basis, Limit, OutOfRange, positive, within};
use crate::quantity::{Force, Length, Pressure, Ratio, si};
use std::f64::consts::PI;

/// Used share of the core in shear: `tau_lasting/(k f) + tau_short/f`, with `f` the short limit and `k` the share of it
/// that lasts (0.3 to 0.5, by default 0.4).
///
/// # Errors
/// [`OutOfRange`] unless `k` lies above 0 and not above 1, and the limit is above zero.
///
/// # References
/// Long-term shear strength of rigid foams, EN 14509 (from memory).
///
/// # Examples
/// ```
/// use beam_core::quantity::si;
/// use beam_core::strength::core::shear_use;
/// let used = shear_use(si(10e3), si(20e3), si(50e3), 0.4)?; // 10/20 + 20/50
/// assert!((used.value - 0.9).abs() < 1e-12);
/// # Ok::<(), beam_core::strength::OutOfRange>(())
/// ```
pub fn shear_use(
    lasting: Pressure,
    short: Pressure,
    short_limit: Pressure,
    lasting_share: f64,
) -> Result<Ratio, OutOfRange> {
    let k = within("core shear", "share of the strength that lasts", lasting_share, f64::MIN_POSITIVE, 1.0)?;
    lasting_and_short((lasting, si(k * short_limit.value)), (short, short_limit))
}

/// How long the foam is pressed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Pressing {
    /// Once, briefly: the whole of the crushing stress.
    Short,
    /// For good: a share of it (0.30, from memory).
    Lasting {
        /// Share of the crushing stress.
        share: f64,
    },
    /// Over and over: a share of it (0.35, after Duskov).
    Cyclic {
        /// Share of the crushing stress.
        share: f64,
    },
}

/// Pressure the foam bears: share of its crushing stress (sigma10) over the partial factor.
///
/// # Errors
/// [`OutOfRange`] unless the stress is above zero, a share lies above 0 and not above 1, and the factor between 1
/// and 10.
///
/// # References
/// Cyclic share 0.35: civil-engineering guidance on EPS, 2009, after Duskov; lasting share 0.30 from memory.
pub fn crush(sigma10: Pressure, pressing: Pressing, gamma_m: f64) -> Result<Limit<Pressure>, OutOfRange> {
    const RULE: &str = "core crushing";
    let f = positive(RULE, "crushing stress (Pa)", sigma10.value)?;
    let gamma = within(RULE, "partial factor", gamma_m, 1.0, 10.0)?;
    let (mode, share, basis) = match pressing {
        Pressing::Short => ("core crush", 1.0, Basis::published("compressive stress at 10 percent strain")),
        Pressing::Lasting { share } => {
            ("core crush, lasting", share, Basis::memory("long-term share of sigma10"))
        }
        Pressing::Cyclic { share } => {
            ("core crush, cyclic", share, Basis::published("EPS in civil engineering, 2009, after Duskov"))
        }
    };
    let share = within(RULE, "share of the crushing stress", share, f64::MIN_POSITIVE, 1.0)?;
    Ok(Limit::new(mode, si(share * f / gamma), basis))
}

/// Force that punches a pad through the core: shear limit on the surface half a depth outside the pad, corners
/// rounded, `f d (2 (a + b) + pi d)`, with `d` the distance of the skins' middles.
///
/// # Errors
/// [`OutOfRange`] unless all are above zero.
///
/// # References
/// Control perimeter of punching shear, applied to foam; common practice, no source.
pub fn punch_through(
    shear_limit: Pressure,
    depth: Length,
    across: Length,
    along: Length,
) -> Result<Limit<Force>, OutOfRange> {
    const RULE: &str = "punching through the core";
    let f = positive(RULE, "shear limit of the core (Pa)", shear_limit.value)?;
    let d = positive(RULE, "distance of the skins (m)", depth.value)?;
    let a = positive(RULE, "size of the pad across (m)", across.value)?;
    let b = positive(RULE, "size of the pad along (m)", along.value)?;
    Ok(Limit::new(
        "punching through the core",
        si(f * d * (2.0 * (a + b) + PI * d)),
        Basis::practice("control perimeter half a depth outside the pad"),
    ))
}

/// The same beside a long slot right through the core, `width` wide, the pad's middle `middle` from that of the slot and
/// `across` square to it: no shear passes the slot.
///
/// Each side of the slot bears what rests on it, and of what hangs over the slot by the lever; its surface goes round three
/// sides of its part of the pad, or from the lip where no part of the pad is on it.
///
/// # Errors
/// As [`punch_through`].
///
/// # References
/// Control perimeter beside a free edge, as for columns at the edge of a slab; common practice, no source.
pub fn punch_through_beside_slot(
    shear_limit: Pressure,
    depth: Length,
    [across, along]: [Length; 2],
    width: Length,
    middle: Length,
) -> Result<Limit<Force>, OutOfRange> {
    const RULE: &str = "punching through the core beside a slot";
    let sound = punch_through(shear_limit, depth, across, along)?.value.value;
    let w = positive(RULE, "width of the slot (m)", width.value)?;
    let (f, d, a, b) = (shear_limit.value, depth.value, across.value, along.value);
    let lip = w / 2.0;
    let [from, to] = [middle.value - a / 2.0, middle.value + a / 2.0];
    let over = [from.max(-lip), to.min(lip)];
    let hangs = (over[1] - over[0]).max(0.0);
    // Of what hangs over the slot the farther side bears its distance from the nearer lip.
    let lever = if hangs > 0.0 { ((over[0] + over[1]) / 2.0 + lip) / w } else { 0.0 };
    let side = |rests: f64, share: f64| {
        let load = (rests + hangs * share) / a;
        let surface = f * d * (b + PI * d / 2.0 + 2.0 * rests);
        if load > 0.0 { surface / load } else { f64::INFINITY }
    };
    let (left, right) = ((to.min(-lip) - from).max(0.0), (to - from.max(lip)).max(0.0));
    let least = side(left, 1.0 - lever).min(side(right, lever)).min(sound);
    Ok(Limit::new(
        "punching through the core",
        si(least),
        Basis::practice("control perimeter half a depth outside the pad, beside a slot"),
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// Published for EPS of sigma10 100 kPa: 35 kPa cyclic, 28 kPa with a partial factor of 1.25.
    #[test]
    fn cyclic_limit_matches_published() {
        let at = |gamma| crush(si(100e3), Pressing::Cyclic { share: 0.35 }, gamma).unwrap().value.value;
        assert_relative_eq!(at(1.0), 35e3, max_relative = 1e-12);
        assert_relative_eq!(at(1.25), 28e3, max_relative = 1e-12);
    }

    #[test]
    fn short_limit_is_the_whole_stress() {
        let f = crush(si(90e3), Pressing::Short, 1.4).unwrap();
        assert_relative_eq!(f.value.value, 90e3 / 1.4, max_relative = 1e-12);
        assert!(crush(si(90e3), Pressing::Lasting { share: 1.2 }, 1.4).is_err());
    }

    /// By hand: 0.1 MPa, 40 mm deep, pad 100 x 180 mm. Over the middle of 20 mm each side bears half of it round 180 + 20 pi +
    /// 2 x 40 mm; flush beside the slot one side bears all of it round 180 + 20 pi + 200 mm; within one of 300 mm, from a lip
    /// of 180 + 20 pi mm.
    #[test]
    fn slot_takes_the_perimeter() {
        let at = |width: f64, middle: f64| {
            let pad = [si(0.1), si(0.18)];
            punch_through_beside_slot(si(1e5), si(0.04), pad, si(width), si(middle)).unwrap().value.value
        };
        let round = 20.0 * PI;
        assert_relative_eq!(at(0.020, 0.0), 4.0 * 2.0 * (260.0 + round), max_relative = 1e-9);
        assert_relative_eq!(at(0.020, 0.060), 4.0 * (380.0 + round), max_relative = 1e-9);
        assert_relative_eq!(at(0.300, 0.0), 4.0 * 2.0 * (180.0 + round), max_relative = 1e-9);
        assert_relative_eq!(at(1e-9, 0.0), 4.0 * (560.0 + 40.0 * PI), max_relative = 1e-6);
    }

    /// A round pad of no size leaves a cylinder of radius d/2.
    #[test]
    fn punching_perimeter_of_a_point_is_a_circle() {
        let p = punch_through(si(1e5), si(0.04), si(1e-12), si(1e-12)).unwrap();
        assert_relative_eq!(p.value.value, 1e5 * 0.04 * PI * 0.04, max_relative = 1e-9);
    }

    #[test]
    fn nothing_lasting_leaves_nothing() {
        assert!(shear_use(si(1.0), si(1.0), si(10.0), 0.0).is_err());
    }
}

//! Existing rafters and blocking of solid wood: bending, shear, bearing on their seats.
//!
//! ```text
//!        width
//!       +-----+
//!       |     |  depth, the way it sags; grain along the member
//!       +-----+
//! ```

use super::wood::{bearing_across_grain, duration_strength};
use super::{Basis, Limit, OutOfRange, at_least_zero, positive, within};
use crate::quantity::{Force, Length, Moment, Pressure, si};

/// A solid rectangle of wood and its characteristic (5 percent) strengths.
///
/// Bending and shear limits are design values: loads that are held against them carry the factors of EN 1990.
///
/// # Valid for
/// Straight solid timber without notches, of density up to 700 kg/m3, bent about its horizontal axis. Rot, splits and
/// a cut end lie outside: what is left must be measured.
///
/// # References
/// EN 1995-1-1, 3.2, 6.1.5, 6.1.6, 6.1.7, 6.3.3, from memory.
///
/// # Examples
/// A rafter 45 x 95 mm of C24, short duration: `k_mod f_m k_h W/gamma_M` with `k_h = (150/95)^0.2`, 1.23 kN m.
/// ```
/// use beam_core::quantity::si;
/// use beam_core::strength::wood_member::{Hold, WoodMember};
/// let rafter = WoodMember {
///     width: si(0.045), depth: si(0.095), bending: si(24e6), shear: si(4e6), across_grain: si(2.5e6),
///     k_mod: 0.9, gamma_m: 1.3, size_effect: true, hold: Hold::AllAlong,
/// };
/// assert!((rafter.moment()?.value.value / 1232.0 - 1.0).abs() < 1e-3);
/// # Ok::<(), beam_core::strength::OutOfRange>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WoodMember {
    /// Width.
    pub width: Length,
    /// Depth, upright.
    pub depth: Length,
    /// Characteristic bending strength f_m,k.
    pub bending: Pressure,
    /// Characteristic shear strength f_v,k.
    pub shear: Pressure,
    /// Characteristic strength across the grain f_c,90,k.
    pub across_grain: Pressure,
    /// Duration and moisture factor.
    pub k_mod: f64,
    /// Partial factor, 1.3 for solid timber.
    pub gamma_m: f64,
    /// Whether small depths count as stronger (k_h).
    pub size_effect: bool,
    /// How its compression side is held sideways.
    pub hold: Hold,
}

/// How the compression side of a member is held sideways.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Hold {
    /// By a deck or skin that is fixed to it all along.
    AllAlong,
    /// At places only.
    Every {
        /// Effective length l_ef between them.
        length: Length,
        /// 5-percent modulus along the grain E_0,05.
        modulus: Pressure,
    },
}

const RULE: &str = "EN 1995-1-1, solid timber member";
/// Part of the width that splits leave for shear, solid timber (6.1.7).
const K_CR: f64 = 0.67;
/// A bearing counts so much longer on either side, at most (6.1.5).
const BESIDE: f64 = 0.030;

impl WoodMember {
    /// Largest moment: `k_crit k_h f_m,d b h^2/6`.
    ///
    /// # Errors
    /// [`OutOfRange`] for sizes, strengths or factors that cannot be.
    pub fn moment(&self) -> Result<Limit<Moment>, OutOfRange> {
        let [b, h] = self.size()?;
        let strength = duration_strength(self.bending, self.k_mod, self.gamma_m)?.value.value;
        let k_h = if self.size_effect { size_factor(h) } else { 1.0 };
        let k_crit = self.stability()?;
        let moment = k_crit * k_h * strength * b * h * h / 6.0;
        Ok(Limit::new("bending of wood", si(moment), Basis::memory("EN 1995-1-1, 6.1.6, 6.3.3, 3.2")))
    }

    /// Largest shear force: `f_v,d 2/3 (0.67 b) h`.
    ///
    /// # Errors
    /// As [`WoodMember::moment`].
    pub fn shear_force(&self) -> Result<Limit<Force>, OutOfRange> {
        let [b, h] = self.size()?;
        let strength = duration_strength(self.shear, self.k_mod, self.gamma_m)?.value.value;
        Ok(Limit::new(
            "shear of wood",
            si(strength * K_CR * b * h / 1.5),
            Basis::memory("EN 1995-1-1, 6.1.7, k_cr 0.67"),
        ))
    }

    /// Largest reaction of a seat: `k_c90 f_c90,d b l_ef`. On either side the bearing counts 30 mm longer, but no more
    /// than the wood reaches past it there (`beside`), nor than its own length.
    ///
    /// # Errors
    /// As [`WoodMember::moment`]; a seat not above zero, wood beside it below zero.
    pub fn bearing(
        &self,
        length: Length,
        beside: [Length; 2],
        k_c90: f64,
    ) -> Result<Limit<Force>, OutOfRange> {
        let [b, _] = self.size()?;
        let seat = positive(RULE, "length of the seat (m)", length.value)?;
        let mut effective = seat;
        for past in beside {
            let past = at_least_zero(RULE, "wood past the seat (m)", past.value)?;
            effective += past.min(BESIDE).min(seat);
        }
        let design = duration_strength(self.across_grain, self.k_mod, self.gamma_m)?.value;
        let stress = bearing_across_grain(design, k_c90)?;
        Ok(Limit::new("bearing of wood on its seat", si(stress.value.value * b * effective), stress.basis))
    }

    fn size(&self) -> Result<[f64; 2], OutOfRange> {
        Ok([
            positive(RULE, "width of the member (m)", self.width.value)?,
            positive(RULE, "depth of the member (m)", self.depth.value)?,
        ])
    }

    /// k_crit: 1 where it is held, less the more slender it is.
    fn stability(&self) -> Result<f64, OutOfRange> {
        let Hold::Every { length, modulus } = self.hold else { return Ok(1.0) };
        let [b, h] = self.size()?;
        let l = positive(RULE, "length between holds (m)", length.value)?;
        let e = positive(RULE, "5-percent modulus (Pa)", modulus.value)?;
        let f = positive(RULE, "characteristic bending strength (Pa)", self.bending.value)?;
        // Lying flat it does not tip; the formula, made for softwood on edge, is then not needed.
        if h <= b {
            return Ok(1.0);
        }
        let critical = 0.78 * b * b * e / (h * l);
        let slender = within(RULE, "relative slenderness in bending", (f / critical).sqrt(), 0.0, 4.0)?;
        Ok(if slender <= 0.75 {
            1.0
        } else if slender <= 1.4 {
            1.56 - 0.75 * slender
        } else {
            1.0 / (slender * slender)
        })
    }
}

/// `k_h = min((150 mm/h)^0.2, 1.3)` under 150 mm.
fn size_factor(depth: f64) -> f64 {
    (0.150 / depth).powf(0.2).clamp(1.0, 1.3)
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// C24 by EN 338, from memory: f_m 24, f_v 4.0, f_c90 2.5, E_0,05 7400 MPa.
    fn rafter() -> WoodMember {
        WoodMember {
            width: si(0.050),
            depth: si(0.200),
            bending: si(24e6),
            shear: si(4e6),
            across_grain: si(2.5e6),
            k_mod: 0.8,
            gamma_m: 1.3,
            size_effect: true,
            hold: Hold::AllAlong,
        }
    }

    /// By hand: f_m,d = 0.8 x 24/1.3 = 14.769 MPa, W = 50 x 200^2/6 = 333 333 mm3, M = 4923 N m; deeper than 150 mm, so
    /// k_h = 1. f_v,d = 2.4615 MPa, V = 2.4615 x 0.67 x 50 x 200/1.5 = 10 995 N.
    #[test]
    fn bending_and_shear_by_hand() {
        assert_relative_eq!(rafter().moment().unwrap().value.value, 4923.077, max_relative = 1e-6);
        assert_relative_eq!(rafter().shear_force().unwrap().value.value, 10_994.87, max_relative = 1e-6);
    }

    /// k_h by hand: 100 mm, 1.5^0.2 = 1.08447; 40 mm, 3.75^0.2 = 1.3026, cut to 1.3; 150 mm, 1.
    #[test]
    fn small_depths_count_as_stronger() {
        for (depth, factor) in [(0.1, 1.084472), (0.04, 1.3), (0.15, 1.0), (0.3, 1.0)] {
            assert_relative_eq!(size_factor(depth), factor, max_relative = 1e-6);
        }
        let plain = WoodMember { size_effect: false, depth: si(0.1), ..rafter() };
        let counted = WoodMember { size_effect: true, ..plain };
        let ratio = counted.moment().unwrap().value / plain.moment().unwrap().value;
        assert_relative_eq!(ratio.value, 1.084472, max_relative = 1e-6);
    }

    /// By hand: sigma_crit = 0.78 x 50^2 x 7400/(200 x 3000) = 24.05 MPa, slenderness sqrt(24/24.05) = 0.99896,
    /// k_crit = 1.56 - 0.74922 = 0.81078. At 9 m: 8.0167 MPa, 1.73025, k_crit = 1/2.99376 = 0.33403. At 1 m: 1.
    #[test]
    fn what_is_not_held_tips() {
        let at = |length: f64| {
            let hold = Hold::Every { length: si(length), modulus: si(7400e6) };
            WoodMember { hold, ..rafter() }.moment().unwrap().value.value / 4923.077
        };
        assert_relative_eq!(at(3.0), 0.81078, max_relative = 1e-5);
        assert_relative_eq!(at(9.0), 0.33403, max_relative = 1e-5);
        assert_relative_eq!(at(1.0), 1.0, max_relative = 1e-6);
        let flat = WoodMember {
            width: si(0.2),
            depth: si(0.05),
            hold: Hold::Every { length: si(3.0), modulus: si(7400e6) },
            ..rafter()
        };
        assert_eq!(flat.moment().unwrap(), WoodMember { hold: Hold::AllAlong, ..flat }.moment().unwrap());
    }

    /// By hand: f_c90,d = 1.53846 MPa; seat 40 mm with 100 mm of wood past it on one side, none on the other: 70 mm;
    /// x 50 mm x 1.0 = 5384.6 N. A seat of 20 mm gains its own length only: 40 mm.
    #[test]
    fn bearing_by_hand() {
        let at = |length: f64, past: f64| {
            rafter().bearing(si(length), [si(past), si(0.0)], 1.0).unwrap().value.value
        };
        assert_relative_eq!(at(0.04, 0.1), 5384.615, max_relative = 1e-6);
        assert_relative_eq!(at(0.02, 0.1), 5384.615 * 40.0 / 70.0, max_relative = 1e-6);
        assert_relative_eq!(at(0.04, 0.0), 5384.615 * 40.0 / 70.0, max_relative = 1e-6);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let good = rafter();
        for bad in [
            WoodMember { width: si(0.0), ..good },
            WoodMember { bending: si(f64::NAN), ..good },
            WoodMember { k_mod: 1.4, ..good },
            WoodMember { gamma_m: 0.9, ..good },
            WoodMember { hold: Hold::Every { length: si(0.0), modulus: si(7e9) }, ..good },
            WoodMember { hold: Hold::Every { length: si(900.0), modulus: si(7e9) }, ..good },
        ] {
            assert!(bad.moment().is_err(), "{bad:?}");
        }
        assert!(good.bearing(si(0.0), [si(0.0); 2], 1.0).is_err());
        assert!(good.bearing(si(0.04), [si(-0.1), si(0.0)], 1.0).is_err());
        assert!(good.bearing(si(0.04), [si(0.0); 2], 3.0).is_err());
        assert!(WoodMember { shear: si(-1.0), ..good }.shear_force().is_err());
    }
}

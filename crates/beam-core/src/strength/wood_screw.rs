//! Screws through a metal part into the side grain of wood: pulled out, and pushed sideways.
//!
//! Allowable loads of the National Design Specification for Wood Construction, held against unfactored loads; its
//! gains for short loads are not taken.

use super::{Basis, Limit, OutOfRange, positive, within};
use crate::quantity::{Force, INCH, Length, POUND_FORCE, PSI, Pressure, si};

const RULE: &str = "NDS, wood screws";
/// Diameter at the root of the thread over the nominal one (practice).
const ROOT: f64 = 0.65;

/// One screw through a metal part into wood.
///
/// # Valid for
/// Screws of 2.4 to 9.5 mm in softwood or hardwood of oven-dry specific gravity 0.3 to 0.75, dry, in drilled holes,
/// at least six diameters deep; not in end grain.
///
/// # References
/// NDS 2018, 12.2.2, 12.3.1, 12.3.3, table I1, from memory; withdrawal agrees with a printed example (below) and is
/// 1/5.5 of what the Wood Handbook measured, `15 700 G^2 D` lb/in.
///
/// # Examples
/// Printed elsewhere: spruce of 0.45 holds a 0.190 in screw by 109 lb an inch.
/// ```
/// use beam_core::quantity::si;
/// use beam_core::strength::wood_screw::WoodScrew;
/// let (inch, lbf) = (0.0254, 4.448_222);
/// let screw = WoodScrew {
///     diameter: si(0.190 * inch), penetration: si(2.0 * inch), gravity: 0.45,
///     side: si(0.060 * inch), side_bearing: si(500e6),
/// };
/// assert!((screw.withdrawal()?.value.value / lbf - 2.0 * 109.7).abs() < 0.5);
/// # Ok::<(), beam_core::strength::OutOfRange>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WoodScrew {
    /// Nominal diameter.
    pub diameter: Length,
    /// Length of thread in the wood.
    pub penetration: Length,
    /// Specific gravity of the wood, oven-dry.
    pub gravity: f64,
    /// Thickness of the metal part.
    pub side: Length,
    /// Strength of the metal part in bearing.
    pub side_bearing: Pressure,
}

impl WoodScrew {
    /// Allowable pull: `2850 G^2 D` lb an inch of thread.
    ///
    /// # Errors
    /// [`OutOfRange`].
    pub fn withdrawal(&self) -> Result<Limit<Force>, OutOfRange> {
        let [d, p] = self.sizes()?;
        let per_inch = 2850.0 * self.gravity.powi(2) * d / INCH;
        let force = per_inch * POUND_FORCE * p / INCH;
        Ok(Limit::new("withdrawal of a screw", si(force), Basis::memory("NDS 12.2.2")))
    }

    /// Allowable push sideways in one shear plane: the least of the yield modes, with the root diameter.
    ///
    /// # Errors
    /// [`OutOfRange`].
    pub fn lateral(&self) -> Result<Limit<Force>, OutOfRange> {
        let [nominal, lm] = self.sizes()?;
        let ls = positive(RULE, "thickness of the metal part (m)", self.side.value)?;
        let fes = positive(RULE, "bearing strength of the metal part (Pa)", self.side_bearing.value)?;
        let d = ROOT * nominal;
        let inches = d / INCH;
        let bearing =
            if nominal < 0.25 * INCH { 16_600.0 * self.gravity.powf(1.84) } else { 11_200.0 * self.gravity };
        let fem = bearing * PSI;
        let fyb = bending_yield(nominal / INCH) * PSI;
        let down = if inches <= 0.17 { 2.2 } else { 10.0 * inches + 0.5 };
        let re = fem / fes;
        let rt = lm / ls;
        let k1 = ((re + 2.0 * re * re * (1.0 + rt + rt * rt) + rt * rt * re.powi(3)).sqrt()
            - re * (1.0 + rt))
            / (1.0 + re);
        let k2 =
            -1.0 + (2.0 * (1.0 + re) + 2.0 * fyb * (1.0 + 2.0 * re) * d * d / (3.0 * fem * lm * lm)).sqrt();
        let k3 =
            -1.0 + (2.0 * (1.0 + re) / re + 2.0 * fyb * (2.0 + re) * d * d / (3.0 * fem * ls * ls)).sqrt();
        let modes = [
            d * lm * fem,
            d * ls * fes,
            k1 * d * ls * fes,
            k2 * d * lm * fem / (1.0 + 2.0 * re),
            k3 * d * ls * fem / (2.0 + re),
            d * d * (2.0 * fem * fyb / (3.0 * (1.0 + re))).sqrt(),
        ];
        let least = modes.into_iter().fold(f64::INFINITY, f64::min) / down;
        Ok(Limit::new("screw in wood pushed sideways", si(least), Basis::memory("NDS 12.3.1")))
    }

    /// Nominal diameter and penetration.
    fn sizes(&self) -> Result<[f64; 2], OutOfRange> {
        let d = within(RULE, "diameter (m)", self.diameter.value, 2.4e-3, 9.5e-3)?;
        within(RULE, "specific gravity", self.gravity, 0.3, 0.75)?;
        let least = 6.0 * d * (1.0 - 1e-9);
        let p = within(RULE, "length of thread in the wood (m)", self.penetration.value, least, 0.3)?;
        Ok([d, p])
    }
}

/// Bending yield strength of a screw's steel by its diameter in inches, psi.
fn bending_yield(inches: f64) -> f64 {
    match inches {
        d if d <= 0.142 => 100_000.0,
        d if d <= 0.177 => 90_000.0,
        d if d <= 0.236 => 80_000.0,
        d if d <= 0.273 => 70_000.0,
        d if d <= 0.344 => 60_000.0,
        _ => 45_000.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn screw() -> WoodScrew {
        WoodScrew {
            diameter: si(0.19 * INCH),
            penetration: si(1.2 * INCH),
            gravity: 0.42,
            side: si(0.1 * INCH),
            side_bearing: si(76_000.0 * PSI),
        }
    }

    /// By hand, in pounds and inches: root 0.1235 in, Fem 16600 x 0.42^1.84 = 3364 psi, Re 0.04427, Fyb 80 ksi. Mode IV
    /// 0.01525 sqrt(2 x 3364 x 80000/(3 x 1.04427)) = 199.9; IIIs k3 = -1 + sqrt(47.18 + 49.44) = 8.830,
    /// 8.830 x 0.1235 x 0.1 x 3364/2.04427 = 179.5; over 2.2: 81.6 lb.
    #[test]
    fn sideways_by_hand() {
        let pounds = screw().lateral().unwrap().value.value / POUND_FORCE;
        assert_relative_eq!(pounds, 81.6, max_relative = 5e-3);
    }

    /// A thin soft part is crushed by the screw: mode Is, D t Fes/2.2.
    #[test]
    fn a_soft_part_gives_way_first() {
        let thin = WoodScrew { side: si(0.02 * INCH), side_bearing: si(5_000.0 * PSI), ..screw() };
        let pounds = thin.lateral().unwrap().value.value / POUND_FORCE;
        assert!(pounds <= 0.1235 * 0.02 * 5_000.0 / 2.2 * 1.0001);
    }

    #[test]
    fn short_or_odd_screws_are_refused() {
        assert!(WoodScrew { penetration: si(5.0 * 0.19 * INCH), ..screw() }.withdrawal().is_err());
        assert!(WoodScrew { diameter: si(0.001), ..screw() }.lateral().is_err());
        assert!(WoodScrew { gravity: f64::NAN, ..screw() }.withdrawal().is_err());
        assert!(WoodScrew { side: si(0.0), ..screw() }.lateral().is_err());
    }
}

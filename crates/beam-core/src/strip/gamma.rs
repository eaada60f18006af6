//! Two parts that slip on each other: the gamma method, and Newmark's exact closed forms.

use super::error::StripError;
use crate::quantity::{
    FlexuralRigidity, Force, ForcePerLength, Length, Pressure, Ratio, not_negative, positive, si,
};

/// Two members over one span, joined by a bond that gives.
///
/// # Valid for
/// Simple supports, no shear deformation of the members, linear bond.
///
/// # Examples
/// A skin 200 x 3 mm on a 25.4 x 3.2 mm tube, bond 25.4 N/mm2.
/// ```
/// use beam_core::quantity::si;
/// use beam_core::strip::PartialBond;
///
/// let pair = PartialBond {
///     span: si(2.3), axial: [si(4.2e6), si(19.758e6)], bending: [si(3.15), si(1659.777)],
///     distance: si(0.0142), bond: si(25.4e6),
/// };
/// let sag = pair.point(si(1000.0))?;
/// assert!((sag.value - 0.114523).abs() < 1e-5);
/// # Ok::<(), beam_core::strip::StripError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartialBond {
    /// Span.
    pub span: Length,
    /// Axial stiffness E A of each; the first is the one that slips (gamma 1).
    pub axial: [Force; 2],
    /// Own bending stiffness E I of each.
    pub bending: [FlexuralRigidity; 2],
    /// Distance between their axes.
    pub distance: Length,
    /// Force per length of bond for unit slip; 0 for none.
    pub bond: Pressure,
}

/// Outcome of the gamma method.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct GammaSection {
    /// Share of the full bond that acts, 0 to 1.
    pub gamma: Ratio,
    /// Effective bending stiffness.
    pub bending: FlexuralRigidity,
    /// Distance of each axis from the common neutral axis.
    pub lever: [Length; 2],
}

/// [`PartialBond`] in SI numbers, checked.
#[derive(Debug, Clone, Copy)]
struct Pair {
    span: f64,
    axial: [f64; 2],
    bond: f64,
    distance: f64,
    /// E I without and with full bond.
    loose: f64,
    full: f64,
}

impl PartialBond {
    fn pair(&self) -> Result<Pair, StripError> {
        let remedy = "look the section up";
        let [first, second] = self.axial.map(|ea| positive("E A", ea.value, "N", remedy));
        let [one, other] = self.bending.map(|ei| positive("E I", ei.value, "N m2", remedy));
        let (axial, loose) = ([first?, second?], one? + other?);
        let distance = not_negative("distance between axes", self.distance.value, "m", "give it upwards")?;
        let together = axial[0] * axial[1] / (axial[0] + axial[1]);
        Ok(Pair {
            span: positive("span", self.span.value, "m", "measure it")?,
            axial,
            bond: not_negative("bond", self.bond.value, "Pa", "0 for none")?,
            distance,
            loose,
            full: loose + together * distance * distance,
        })
    }

    /// Effective section for a load spread like a half sine, and nearly so for any spread load.
    ///
    /// # Errors
    /// A stiffness or span not above 0.
    ///
    /// # References
    /// EN 1995-1-1, Annex B, from memory.
    pub fn gamma(&self) -> Result<GammaSection, StripError> {
        let pair = self.pair()?;
        let pi2 = std::f64::consts::PI.powi(2);
        let gamma = pair.bond / (pair.bond + pi2 * pair.axial[0] / pair.span.powi(2));
        let slipping = gamma * pair.axial[0];
        let second = slipping * pair.distance / (slipping + pair.axial[1]);
        let first = pair.distance - second;
        Ok(GammaSection {
            gamma: si(gamma),
            bending: si(pair.loose + slipping * first * first + pair.axial[1] * second * second),
            lever: [si(first), si(second)],
        })
    }

    /// Bending stiffness with no bond.
    ///
    /// # Errors
    /// A stiffness or span not above 0.
    pub fn bending_loose(&self) -> Result<FlexuralRigidity, StripError> {
        Ok(si(self.pair()?.loose))
    }

    /// Bending stiffness with a bond that does not give.
    ///
    /// # Errors
    /// A stiffness or span not above 0.
    pub fn bending_full(&self) -> Result<FlexuralRigidity, StripError> {
        Ok(si(self.pair()?.full))
    }

    /// Exact sag at mid-span under an even load.
    ///
    /// # Errors
    /// A stiffness or span not above 0.
    ///
    /// # References
    /// Newmark, Siess and Viest (1951), from memory; the factor of the slip term is the difference of the
    /// two flexibilities.
    pub fn uniform(&self, load: ForcePerLength) -> Result<Length, StripError> {
        let pair = self.pair()?;
        let u = pair.alpha() * pair.span / 2.0;
        // (sech u - 1 + u2/2) / u4, by its series where it would lose digits.
        let slip = if u < 0.02 {
            5.0 / 24.0 - 61.0 / 720.0 * u * u
        } else {
            (1.0 / u.cosh() - 1.0 + u * u / 2.0) / u.powi(4)
        };
        let q = load.value;
        let half = pair.span / 2.0;
        Ok(si(5.0 * q * pair.span.powi(4) / (384.0 * pair.full) + q * half.powi(4) * pair.gain() * slip))
    }

    /// Exact sag at mid-span under a central load.
    ///
    /// # Errors
    /// A stiffness or span not above 0.
    ///
    /// # References
    /// As [`PartialBond::uniform`].
    pub fn point(&self, load: Force) -> Result<Length, StripError> {
        let pair = self.pair()?;
        let u = pair.alpha() * pair.span / 2.0;
        // (u - tanh u) / u3, likewise.
        let slip = if u < 0.02 { 1.0 / 3.0 - 2.0 / 15.0 * u * u } else { (u - u.tanh()) / u.powi(3) };
        let p = load.value;
        let half = pair.span / 2.0;
        Ok(si(p * pair.span.powi(3) / (48.0 * pair.full) + p / 2.0 * half.powi(3) * pair.gain() * slip))
    }
}

impl Pair {
    fn alpha(&self) -> f64 {
        let [a, b] = self.axial;
        (self.bond * (1.0 / a + 1.0 / b + self.distance * self.distance / self.loose)).sqrt()
    }

    fn gain(&self) -> f64 {
        1.0 / self.loose - 1.0 / self.full
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// Skin 200 x 3 mm (7000 MPa) on a 25.4 x 3.175 mm tube (70000 MPa), 2300 mm: the GA and NM rows.
    fn pair(bond: f64) -> PartialBond {
        PartialBond {
            span: si(2.3),
            axial: [si(7.0e9 * 600e-6), si(70.0e9 * 282.2575e-6)],
            bending: [si(7.0e9 * 0.2 * 0.003_f64.powi(3) / 12.0), si(70.0e9 * 23711.10e-12)],
            distance: si(0.0142),
            bond: si(bond * 1e6),
        }
    }

    #[test]
    fn gamma_method() {
        for (bond, gamma, bending) in [(2.54, 0.2447961, 1859.988), (254.0, 0.9700729, 2344.022)] {
            let section = pair(bond).gamma().unwrap();
            assert_relative_eq!(section.gamma.value, gamma, max_relative = 1e-6);
            assert_relative_eq!(section.bending.value, bending, max_relative = 1e-6);
        }
    }

    #[test]
    fn exact_partial_bond() {
        let q = |bond| pair(bond).uniform(si(500.0)).unwrap().value * 1e3;
        let p = |bond| pair(bond).point(si(1000.0)).unwrap().value * 1e3;
        assert_relative_eq!(q(2.54), 97.91411, max_relative = 1e-6);
        assert_relative_eq!(q(254.0), 77.71077, max_relative = 1e-6);
        assert_relative_eq!(p(2.54), 136.4798, max_relative = 1e-6);
        assert_relative_eq!(p(25.4), 114.523, max_relative = 1e-6);
    }

    /// No bond and full bond (NM_lim rows), and the sag tends to both, without losing digits on the way.
    #[test]
    fn limits() {
        let none = pair(0.0);
        assert_relative_eq!(none.bending_loose().unwrap().value, 1662.927, max_relative = 1e-6);
        assert_relative_eq!(none.bending_full().unwrap().value, 2361.35, max_relative = 1e-6);
        let beam = |ei: f64| 1000.0 * 2.3_f64.powi(3) / (48.0 * ei);
        let sag = |bond| pair(bond).point(si(1000.0)).unwrap().value;
        assert_relative_eq!(sag(0.0), beam(1662.927), max_relative = 1e-6);
        assert_relative_eq!(sag(1e9), beam(2361.35), max_relative = 1e-6);
        let even = |bond| pair(bond).uniform(si(500.0)).unwrap().value;
        assert_relative_eq!(
            even(0.0),
            5.0 * 500.0 * 2.3_f64.powi(4) / (384.0 * 1662.927),
            max_relative = 1e-6
        );
        for bond in [1e-6, 1e-5, 1e-4, 1e-3, 1e-2] {
            assert!(even(bond) < even(0.0) && sag(bond) < sag(0.0));
        }
    }

    #[test]
    fn what_is_no_pair_is_named() {
        assert!(pair(-1.0).gamma().is_err());
        assert!(PartialBond { span: si(f64::NAN), ..pair(1.0) }.uniform(si(1.0)).is_err());
    }
}

//! How tight a tube may be bent before it cracks or dishes.

use super::error::{FormingError, out_of_range};
use crate::quantity::{Length, Pressure, Ratio, positive, si};
use crate::strength::{Basis, BasisKind};

/// Share of the guaranteed elongation that the outer fibre may use: the rest is for scatter, seam and dies.
const SHARE_OF_ELONGATION: f64 = 0.5;
/// Depth over inside radius that extruders allow.
const EXTRUDERS: f64 = 0.10;
/// Elongations beyond this belong to no structural alloy.
const MOST_ELONGATION: f64 = 0.5;

/// A rule and the smallest radius of the centre line it allows.
#[derive(Debug, Clone, PartialEq)]
pub struct BendLimit {
    /// The rule in words.
    pub rule: &'static str,
    /// Smallest radius of the centre line.
    pub least_radius: Length,
    /// What it rests on.
    pub basis: Basis,
}

/// The bend rules for one tube.
#[derive(Debug, Clone, PartialEq)]
pub struct BendLimits {
    /// Outer fibre against half the elongation at break.
    pub elongation: BendLimit,
    /// Depth over inside radius, the rule of extruders.
    pub extruders: BendLimit,
}

impl BendLimits {
    /// Both rules for a tube of this depth and an alloy of this least elongation at break.
    ///
    /// # Valid for
    /// Closed simple sections bent cold. The extruders' rule is printed for 6063-T5 and carried over to the others,
    /// for which no rule for tube was found.
    ///
    /// # Errors
    /// [`FormingError::OutOfRange`] unless the depth is above zero and the elongation between 0 and 50 %.
    ///
    /// # Examples
    /// ```
    /// use beam_core::forming::BendLimits;
    /// use beam_core::quantity::{si, INCH};
    /// // 8 % elongation: 12.5 times the depth.
    /// let limits = BendLimits::new(si(1.5 * INCH), si(0.08))?;
    /// assert!((limits.governing().least_radius.value / INCH - 18.75).abs() < 1e-9);
    /// # Ok::<(), beam_core::forming::FormingError>(())
    /// ```
    pub fn new(depth: Length, elongation: Ratio) -> Result<Self, FormingError> {
        let depth = positive("depth", depth.value, "m", "measure the outside of the tube")?;
        let elongation = elongation.value;
        if !(elongation > 0.0 && elongation <= MOST_ELONGATION) {
            return Err(out_of_range(
                "elongation at break",
                elongation,
                "",
                format!("above 0 to {MOST_ELONGATION}"),
                "without it nothing says when the metal cracks: take it from the mill certificate, or bend a trial piece",
            ));
        }
        Ok(Self {
            elongation: BendLimit {
                rule: "outer-fibre strain of at most half the elongation at break",
                least_radius: si(depth / (2.0 * SHARE_OF_ELONGATION * elongation)),
                basis: Basis::computed("plane sections; half of the least elongation, an engineering choice"),
            },
            extruders: BendLimit {
                rule: "depth of at most a tenth of the inside radius",
                least_radius: si(depth / EXTRUDERS + depth / 2.0),
                basis: Basis {
                    source: "extruders' guidance for 6063-T5, carried over to other tempers".into(),
                    kind: BasisKind::Memory,
                },
            },
        })
    }

    /// The rule that asks for the larger radius.
    pub fn governing(&self) -> &BendLimit {
        if self.elongation.least_radius >= self.extruders.least_radius {
            &self.elongation
        } else {
            &self.extruders
        }
    }
}

/// How the flanges of a curved tube bend across their width under the bending stress along them.
///
/// # References
/// Stress along a flange of wall t at radius R presses on it with `stress t / R`; the flange carries that as a strip
/// held at both webs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dishing {
    number: f64,
    dip: f64,
}

impl Dishing {
    /// Above this the flange may dish without a mandrel (guidance, from memory).
    pub const MAY: f64 = 0.5;
    /// Above this it will.
    pub const WILL: f64 = 1.0;

    /// A flange of clear width `clear` and thickness `wall` at a radius, stressed to `stress`.
    ///
    /// # Errors
    /// [`FormingError::OutOfRange`] unless all are above zero.
    pub fn new(
        clear: Length,
        wall: Length,
        radius: Length,
        stress: Pressure,
        modulus: Pressure,
    ) -> Result<Self, FormingError> {
        const POISSON: f64 = 0.33;
        let w = positive("clear width of the flange", clear.value, "m", "outside width less two walls")?;
        let t = positive("wall", wall.value, "m", "measure the wall at a cut end")?;
        let r = positive("radius", radius.value, "m", "it is that of the centre line")?;
        let stress = positive("stress along the flange", stress.value, "Pa", "take the yield strength")?;
        let e = positive("modulus of elasticity", modulus.value, "Pa", "take it from the alloy's row")?;
        let stiffness = e * t.powi(3) / (12.0 * (1.0 - POISSON * POISSON));
        Ok(Self { number: w * w / (r * t), dip: stress * t / r * w.powi(4) / (384.0 * stiffness) })
    }

    /// `w^2 / (R t)`: below [`Dishing::MAY`] the walls stay flat to the eye.
    pub fn number(&self) -> Ratio {
        si(self.number)
    }

    /// Stress across the flange over the stress along it, at the webs: `w^2 / (2 R t)`.
    pub fn cross_stress(&self) -> Ratio {
        si(self.number / 2.0)
    }

    /// Dip of the middle of the flange while it is elastic.
    pub fn dip(&self) -> Length {
        si(self.dip)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// Extruders' guidance, e <= 10 %: inside radius 15 for a depth of 1.5, 20 for 2, 400 for 40 mm; and half of 8 %
    /// elongation: 12.5 depths.
    #[test]
    fn least_radii() {
        for (depth, inside) in [(1.5, 15.0), (2.0, 20.0), (40.0, 400.0)] {
            let limits = BendLimits::new(si(depth), si(0.08)).unwrap();
            assert_relative_eq!(
                limits.extruders.least_radius.value - depth / 2.0,
                inside,
                max_relative = 1e-14
            );
            assert_relative_eq!(limits.elongation.least_radius.value, 12.5 * depth, max_relative = 1e-14);
            assert_eq!(limits.governing(), &limits.elongation);
        }
        let soft = BendLimits::new(si(1.5), si(0.16)).unwrap();
        assert_eq!(soft.governing(), &soft.extruders);
    }

    #[test]
    fn without_elongation_nothing_is_allowed() {
        for elongation in [0.0, -0.1, f64::NAN, f64::INFINITY, 8.0] {
            let told = BendLimits::new(si(1.5), si(elongation)).unwrap_err().to_string();
            assert!(told.contains("mill certificate"), "{told}");
        }
    }

    /// A strip fixed at both edges: edge moment p w^2 / 12, middle p w^4 / 384 D (handbooks, from memory), with
    /// p = stress t / R. 1.5 x 1/8 in: 0.0417 at R 150, 0.417 at R 15.
    #[test]
    fn flange_as_a_strip() {
        for (radius, cross) in [(150.0, 0.0417), (15.0, 0.417)] {
            let flange = Dishing::new(si(1.25), si(0.125), si(radius), si(16.0), si(10_100.0)).unwrap();
            assert_relative_eq!(flange.cross_stress().value, cross, max_relative = 2e-3);
            let pressure = 16.0 * 0.125 / radius;
            let by_moment = pressure * 1.25 * 1.25 / 12.0 / (0.125 * 0.125 / 6.0) / 16.0;
            assert_relative_eq!(flange.cross_stress().value, by_moment, max_relative = 1e-12);
            // A strip of unit width with the modulus of a plate.
            let bending = 10_100.0 / (1.0 - 0.33 * 0.33) * 0.125_f64.powi(3) / 12.0;
            let dip = pressure * 1.25_f64.powi(4) / (384.0 * bending);
            assert_relative_eq!(flange.dip().value, dip, max_relative = 1e-12);
        }
        assert!(Dishing::new(si(1.25), si(0.125), si(0.0), si(16.0), si(10_100.0)).is_err());
    }
}

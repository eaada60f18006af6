//! A straight tube sprung into the curve instead of bent to it.

use super::arc::Arc;
use super::error::{FormingError, out_of_range};
use super::springback::BentSection;
use crate::quantity::{Force, Length, Pressure, Ratio, positive, si};

/// A tube that is held to a curve it was not bent to.
///
/// It stays elastic, pushes back for good and has spent a part of its strength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sprung {
    stress: f64,
    share: f64,
    force: f64,
}

impl Sprung {
    /// Most of the yield that springing in may spend: the loads need the rest (judged).
    pub const MOST_OF_YIELD: f64 = 0.25;
    /// Most push against the crown that glue and foam of a roof are asked to hold for good (judged): about what one
    /// person holds up overhead.
    pub const MOST_FORCE: f64 = 300.0;

    /// A tube of radius `own` (straight: `None`) held to an arc.
    ///
    /// # Errors
    /// [`FormingError::OutOfRange`] unless modulus and yield are above zero and the own radius above half the depth.
    pub fn new(
        section: BentSection,
        modulus: Pressure,
        yield_strength: Pressure,
        own: Option<Length>,
        arc: Arc,
    ) -> Result<Self, FormingError> {
        let e = positive("modulus of elasticity", modulus.value, "Pa", "take it from the alloy's row")?;
        let yield_ = positive("yield strength", yield_strength.value, "Pa", "take it from the alloy's row")?;
        let half = section.depth() / 2.0;
        let own_curvature = match own {
            None => 0.0,
            Some(radius) if radius.value.is_finite() && radius.value > half => 1.0 / radius.value,
            Some(radius) => {
                let allowed = format!("above half the depth, {half:.6} m");
                return Err(out_of_range(
                    "own radius",
                    radius.value,
                    "m",
                    allowed,
                    "give none for a straight tube",
                ));
            }
        };
        let change = 1.0 / arc.radius().value - own_curvature;
        let stress = e * half * change.abs();
        // A simple span pushed up by the rise that is missing: 48 E I h / L^3.
        let span = arc.span().value;
        let missing = change * span * span / 8.0;
        let force = 48.0 * e * section.second_moment() * missing / span.powi(3);
        Ok(Self { stress, share: stress / yield_, force })
    }

    /// Stress of the outer fibre, `E d / 2` times the change of curvature.
    pub fn stress(&self) -> Pressure {
        si(self.stress)
    }

    /// That stress over the yield strength. From 1 on the tube takes a set and the stress is not what it says.
    pub fn share_of_yield(&self) -> Ratio {
        si(self.share)
    }

    /// Push in the middle that holds it to the rise between two ends; it lasts, and flattens the crown.
    pub fn force(&self) -> Force {
        si(self.force)
    }

    /// Whether it needs no bender: it may be sprung in and glued.
    ///
    /// # Valid for
    /// A judged line, no rule of any standard: a quarter of the yield spent, a push of 300 N.
    pub fn needs_no_bender(&self) -> bool {
        self.share <= Self::MOST_OF_YIELD && self.force.abs() <= Self::MOST_FORCE
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::forming::Metal;
    use approx::assert_relative_eq;

    const KSI: f64 = 6.894757293168361e6;
    const INCH: f64 = 0.0254;

    fn sprung(side: f64, wall: f64, span: f64, rise: f64, yield_: f64) -> Sprung {
        let tube = BentSection::tube(si(side * INCH), si(side * INCH), si(wall * INCH)).unwrap();
        let arc = Arc::new(si(span * INCH), si(rise * INCH)).unwrap();
        Sprung::new(tube, si(10_100.0 * KSI), si(yield_ * KSI), None, arc).unwrap()
    }

    /// Euler: stress = E (d/2) / R; the moment that holds a beam at a curvature is E I / R, inside the elastic range
    /// the same as the springback kernel has; handbook sag P L^3 / 48 E I.
    #[test]
    fn a_straight_tube_pressed_to_a_crown() {
        let found = sprung(1.5, 0.125, 84.0, 3.0, 35.0);
        assert_relative_eq!(found.stress().value / KSI, 10_100.0 * 0.75 / 295.5, max_relative = 1e-12);
        let inertia = 0.2184244792;
        let kip = 4448.2216152605;
        let sag = found.force().value / kip * 84.0_f64.powi(3) / (48.0 * 10_100.0 * inertia);
        assert_relative_eq!(sag, 3.0, max_relative = 0.006);
        assert!(!found.needs_no_bender(), "over 500 lbf is no job for glue");
        let tube = BentSection::tube(si(1.5 * INCH), si(1.5 * INCH), si(0.125 * INCH)).unwrap();
        let metal = Metal::new(si(10_100.0 * KSI), si(35.0 * KSI)).unwrap();
        let moment = tube.moment(metal, si(295.5 * INCH)).unwrap().value;
        let elastic = moment * 0.75 * INCH / (inertia * INCH.powi(4));
        assert_relative_eq!(elastic, found.stress().value, max_relative = 1e-9);
    }

    #[test]
    fn a_light_tube_on_a_gentle_crown_needs_no_bender() {
        assert!(sprung(0.75, 0.0625, 92.5, 1.75, 35.0).needs_no_bender());
        assert!(!sprung(2.0, 0.125, 92.5, 1.75, 35.0).needs_no_bender());
    }

    /// What is bent already is not strained by the curve it has, and pulls the crown up if it is bent further.
    #[test]
    fn what_is_bent_to_the_curve_is_free_of_stress() {
        let tube = BentSection::tube(si(0.04), si(0.04), si(0.003)).unwrap();
        let arc = Arc::new(si(2.3), si(0.07)).unwrap();
        let to = |own: f64| Sprung::new(tube, si(70e9), si(240e6), Some(si(own)), arc);
        assert!(to(arc.radius().value).unwrap().stress().value < 1.0);
        assert!(to(arc.radius().value / 2.0).unwrap().force().value < 0.0);
        assert!(to(0.01).is_err() && to(f64::NAN).is_err());
    }
}

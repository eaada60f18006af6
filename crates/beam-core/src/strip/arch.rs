//! A curved brace as a circular arch, by the force method.
//!
//! ```text
//!               P  x from the left end
//!               v____
//!          __---     ---__       rise
//!     H ->/                \<- H
//!        |<----- span ----->|
//! ```
//!
//! Bending, axial and shear deformation count; the sharp-curve coupling of force and moment does not (a
//! thousandth for a brace). The integrals over the arc are taken by Gauss's rule on short pieces, to the
//! last digit. An arch pushes only where its ends cannot spread: the walls of a vehicle mostly let them.

use nalgebra::{Matrix3, Vector3};

use super::error::StripError;
use crate::quantity::{
    FlexuralRigidity, Force, ForcePerLength, Length, Moment, Ratio, not_negative, positive, si,
};

/// How both ends sit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ArchEnds {
    /// Free to turn, held sideways (by [`Arch::hold`] where that is given).
    Pinned,
    /// Held against turning, held sideways likewise.
    Fixed,
    /// Free to turn, one end free to slide: the curve then does nothing.
    Roller,
}

/// What acts on an arch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ArchLoad {
    /// A force down, at a distance along the chord from the left end.
    Point {
        /// Force.
        force: Force,
        /// Distance from the left end.
        x: Length,
    },
    /// An even load down per length of chord.
    Uniform(ForcePerLength),
    /// Lengthening per length by warmth, `alpha dT`.
    Warming(Ratio),
    /// Movement of the ends away from each other, in all.
    Spread(Length),
}

/// A circular arch of one section.
///
/// # Valid for
/// Rise above a millionth of the span and up to a half circle; small movements: where the sag is more than
/// about a tenth of the rise, the arch is softer than this says and may snap through.
///
/// # Examples
/// Thrust of a nearly flat pinned arch that hardly shortens under a central load: `25 P L / 128 h`
/// (handbooks, from memory).
/// ```
/// use beam_core::quantity::si;
/// use beam_core::strip::{Arch, ArchEnds, ArchLoad};
///
/// let arch = Arch {
///     span: si(2.3), rise: si(0.023), axial: si(1e12), bending: si(1e3), shear: si(1e12),
///     ends: ArchEnds::Pinned, hold: None,
/// };
/// let state = arch.solve(ArchLoad::Point { force: si(100.0), x: si(1.15) })?;
/// assert!((state.thrust().value / (25.0 * 100.0 * 2.3 / (128.0 * 0.023)) - 1.0).abs() < 1e-3);
/// # Ok::<(), beam_core::strip::StripError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arch {
    /// Chord between the ends.
    pub span: Length,
    /// Height of the crown above the chord.
    pub rise: Length,
    /// Axial stiffness E A.
    pub axial: Force,
    /// Bending stiffness E I.
    pub bending: FlexuralRigidity,
    /// Shear stiffness G As.
    pub shear: Force,
    /// How both ends sit.
    pub ends: ArchEnds,
    /// Sideways stiffness of each end; `None` for walls that do not give. Not read for a roller.
    pub hold: Option<ForcePerLength>,
}

/// An arch under one load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ArchState {
    shape: Shape,
    load: ArchLoad,
    thrust: f64,
    ends: [f64; 2],
    crown_sag: f64,
}

/// Forces at a place of an arch.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Station {
    /// Distance along the chord from the left end.
    pub x: Length,
    /// Moment, sagging positive.
    pub moment: Moment,
    /// Axial force, compression positive.
    pub compression: Force,
    /// Shear force; its sign is of no use.
    pub shear: Force,
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct Shape {
    span: f64,
    radius: f64,
    half_angle: f64,
}

/// Moment, compression and shear force at a section.
#[derive(Debug, Clone, Copy)]
struct Forces {
    moment: f64,
    compression: f64,
    shear: f64,
}

impl Arch {
    /// Forces and crown sag under one load.
    ///
    /// # Errors
    /// A measure or stiffness not above 0; a rise out of range; a load off the arch or not finite.
    ///
    /// # References
    /// Force method, as in Timoshenko, Strength of Materials, from memory.
    pub fn solve(&self, load: ArchLoad) -> Result<ArchState, StripError> {
        let shape = self.shape()?;
        shape.check(&load)?;
        let stiffness = [
            positive("E I", self.bending.value, "N m2", "look the section up")?,
            positive("E A", self.axial.value, "N", "look the section up")?,
            positive("G As", self.shear.value, "N", "look the section up")?,
        ];
        let hold = self.hold.map_or(Ok(f64::INFINITY), |k| {
            not_negative("sideways stiffness of an end", k.value, "N/m", "leave it out for stiff walls")
        })?;
        let work = |one: &dyn Fn(f64) -> Forces, other: &dyn Fn(f64) -> Forces| {
            shape.integrate(&load, |angle| {
                let (a, b) = (one(angle), other(angle));
                a.moment * b.moment / stiffness[0]
                    + a.compression * b.compression / stiffness[1]
                    + a.shear * b.shear / stiffness[2]
            })
        };
        let given = |angle: f64| shape.simple(&load, angle);
        let units: [&dyn Fn(f64) -> Forces; 3] =
            [&|angle| shape.push(angle), &|angle| shape.end(angle, 0), &|angle| shape.end(angle, 1)];
        let lengthening = match load {
            ArchLoad::Warming(strain) => strain.value,
            _ => 0.0,
        };
        let spread = match load {
            ArchLoad::Spread(movement) => movement.value,
            _ => 0.0,
        };
        let active = match self.ends {
            ArchEnds::Pinned => [hold > 0.0, false, false],
            ArchEnds::Fixed => [hold > 0.0, true, true],
            ArchEnds::Roller => [false; 3],
        };
        let mut flexibility = Matrix3::identity();
        let mut gap = Vector3::zeros();
        for i in (0..3).filter(|i| active[*i]) {
            gap[i] = -work(units[i], &given)
                + shape.integrate(&load, |angle| units[i](angle).compression * lengthening);
            for j in (0..3).filter(|j| active[*j]) {
                flexibility[(i, j)] = work(units[i], units[j]);
            }
        }
        if active[0] {
            gap[0] -= spread;
            flexibility[(0, 0)] += 2.0 / hold;
        }
        // Scaled to a unit diagonal, a push and a moment being unlike.
        let scale = flexibility.diagonal().map(|d: f64| 1.0 / d.sqrt());
        let scaled = Matrix3::from_fn(|i, j| flexibility[(i, j)] * scale[i] * scale[j]);
        let found = scaled.lu().solve(&gap.component_mul(&scale)).map(|x| x.component_mul(&scale));
        let Some(unknown) = found else {
            return Err(StripError::Mechanism {
                movement: "the arch".into(),
                x: 0.0,
                remedy: "check its stiffness and ends",
            });
        };
        let [thrust, left, right] = [unknown[0], unknown[1], unknown[2]];
        let mut state = ArchState { shape, load, thrust, ends: [left, right], crown_sag: 0.0 };
        let crown = ArchLoad::Point { force: si(1.0), x: self.span / 2.0 };
        let virtual_force = |angle: f64| shape.simple(&crown, angle);
        state.crown_sag = work(&virtual_force, &|angle| state.forces(angle))
            - shape.integrate(&load, |angle| virtual_force(angle).compression * lengthening);
        Ok(state)
    }

    fn shape(&self) -> Result<Shape, StripError> {
        let span = positive("span", self.span.value, "m", "measure from end to end")?;
        let rise = self.rise.value;
        if !(1e-6 * span..=span / 2.0).contains(&rise) {
            return Err(StripError::out_of_range(
                "rise",
                rise,
                "m",
                format!("{:.1e} to {:.4} m, a half circle", 1e-6 * span, span / 2.0),
                "take a flat brace as a beam",
            ));
        }
        let radius = (span * span / 4.0 + rise * rise) / (2.0 * rise);
        Ok(Shape { span, radius, half_angle: 2.0 * (2.0 * rise / span).atan() })
    }

    /// Radius of the arc.
    ///
    /// # Errors
    /// A span not above 0; a rise out of range.
    pub fn radius(&self) -> Result<Length, StripError> {
        Ok(si(self.shape()?.radius))
    }
}

impl ArchState {
    /// Horizontal push of each end, positive inwards on the arch.
    pub fn thrust(&self) -> Force {
        si(self.thrust)
    }

    /// Moments at the left and right end, sagging positive; 0 where the ends turn.
    pub fn end_moments(&self) -> [Moment; 2] {
        self.ends.map(si)
    }

    /// Moment at the crown, sagging positive.
    pub fn crown_moment(&self) -> Moment {
        si(self.forces(0.0).moment)
    }

    /// Sag of the crown, positive down.
    pub fn crown_sag(&self) -> Length {
        si(self.crown_sag)
    }

    /// Moment at a distance along the chord from the left end, sagging positive; `None` off the arch.
    pub fn moment_at(&self, x: Length) -> Option<Moment> {
        self.station(x).map(|station| station.moment)
    }

    /// Forces at a distance along the chord from the left end, just right of a load there; `None` off the arch.
    pub fn station(&self, x: Length) -> Option<Station> {
        (0.0..=self.shape.span).contains(&x.value).then(|| {
            let forces = self.forces(self.shape.angle(x.value));
            Station {
                x,
                moment: si(forces.moment),
                compression: si(forces.compression),
                shear: si(forces.shear),
            }
        })
    }

    fn forces(&self, angle: f64) -> Forces {
        let given = self.shape.simple(&self.load, angle);
        let parts = [
            (self.thrust, self.shape.push(angle)),
            (self.ends[0], self.shape.end(angle, 0)),
            (self.ends[1], self.shape.end(angle, 1)),
        ];
        parts.into_iter().fold(given, |sum, (factor, part)| Forces {
            moment: sum.moment + factor * part.moment,
            compression: sum.compression + factor * part.compression,
            shear: sum.shear + factor * part.shear,
        })
    }
}

impl Shape {
    fn check(&self, load: &ArchLoad) -> Result<(), StripError> {
        let (value, place) = match load {
            ArchLoad::Point { force, x } => (force.value, x.value),
            ArchLoad::Uniform(load) => (load.value, 0.0),
            ArchLoad::Warming(strain) => (strain.value, 0.0),
            ArchLoad::Spread(movement) => (movement.value, 0.0),
        };
        if !value.is_finite() {
            return Err(StripError::out_of_range(
                "load on the arch",
                value,
                "SI",
                "a finite number",
                "give it",
            ));
        }
        if !(0.0..=self.span).contains(&place) {
            return Err(StripError::out_of_range(
                "place of a load",
                place,
                "m",
                format!("0 to {:.4} m", self.span),
                "count from the left end",
            ));
        }
        Ok(())
    }

    /// Angle from the crown at `x` from the left end.
    fn angle(&self, x: f64) -> f64 {
        ((x - self.span / 2.0) / self.radius).clamp(-1.0, 1.0).asin()
    }

    /// The arch on a pin and a roller.
    fn simple(&self, load: &ArchLoad, angle: f64) -> Forces {
        let x = self.span / 2.0 + self.radius * angle.sin();
        let (moment, shear) = match load {
            ArchLoad::Point { force, x: at } => {
                let (p, a) = (force.value, at.value);
                if angle < self.angle(a) {
                    let reaction = p * (self.span - a) / self.span;
                    (reaction * x, reaction)
                } else {
                    let reaction = p * a / self.span;
                    (reaction * (self.span - x), -reaction)
                }
            }
            ArchLoad::Uniform(load) => {
                (load.value * x * (self.span - x) / 2.0, load.value * (self.span / 2.0 - x))
            }
            ArchLoad::Warming(_) | ArchLoad::Spread(_) => (0.0, 0.0),
        };
        vertical(moment, shear, angle)
    }

    /// Unit inward push at both ends.
    fn push(&self, angle: f64) -> Forces {
        let (sum, difference) = ((self.half_angle + angle) / 2.0, (self.half_angle - angle) / 2.0);
        Forces {
            moment: -2.0 * self.radius * sum.sin() * difference.sin(),
            compression: angle.cos(),
            shear: angle.sin(),
        }
    }

    /// Unit sagging moment at the left (0) or right (1) end.
    fn end(&self, angle: f64, which: usize) -> Forces {
        let part = 0.5 + self.radius * angle.sin() / self.span;
        match which {
            0 => vertical(1.0 - part, -1.0 / self.span, angle),
            _ => vertical(part, 1.0 / self.span, angle),
        }
    }

    /// Integral along the arc, in pieces that end at the load and at the crown.
    fn integrate(&self, load: &ArchLoad, f: impl Fn(f64) -> f64) -> f64 {
        const PIECES: usize = 8;
        const RULE: [(f64, f64); 5] = [
            (-0.906_179_845_938_664, 0.236_926_885_056_189_08),
            (-0.538_469_310_105_683_1, 0.478_628_670_499_366_47),
            (0.0, 0.568_888_888_888_888_9),
            (0.538_469_310_105_683_1, 0.478_628_670_499_366_47),
            (0.906_179_845_938_664, 0.236_926_885_056_189_08),
        ];
        let at = match load {
            ArchLoad::Point { x, .. } => self.angle(x.value),
            _ => 0.0,
        };
        let ends = [-self.half_angle, at.min(0.0), at.max(0.0), self.half_angle];
        let mut sum = 0.0;
        for pair in ends.windows(2) {
            let half = (pair[1] - pair[0]) / (2 * PIECES) as f64;
            for piece in 0..PIECES {
                let middle = pair[0] + half * (2 * piece + 1) as f64;
                sum += RULE.iter().map(|(at, weight)| weight * half * f(middle + half * at)).sum::<f64>();
            }
        }
        sum * self.radius
    }
}

/// Section forces from the moment and vertical shear of a straight beam under the same load.
fn vertical(moment: f64, shear: f64, angle: f64) -> Forces {
    Forces { moment, compression: -shear * angle.sin(), shear: shear * angle.cos() }
}

#[cfg(test)]
mod tests;

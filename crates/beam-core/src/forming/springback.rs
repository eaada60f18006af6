//! How far a bent tube springs back, and how far it must be bent to stay at a radius.
//!
//! Plane sections; the metal is elastic up to its yield and then yields at constant stress, or hardens along a
//! straight line. Bent to curvature k, the section carries M(k); let go, it straightens by M / E I:
//!
//! ```text
//! 1/R_released = 1/R_loaded - M / (E I)
//! ```
//!
//! A hollow is a solid rectangle less a smaller one, and of a solid rectangle of half depth c that yields beyond
//! u c from its middle, the share `(1 - u)^2 (2 + u) / 2` of the curvature stays. So nothing is lost to a difference
//! of nearly equal numbers where the tube has hardly yielded.
//!
//! # References
//! Gardiner 1957, "The springback of metals" (solid strip, from memory); the hollow section follows from the same
//! assumptions and is held against quadrature in the tests.

use super::error::{FormingError, out_of_range};
use crate::quantity::{Length, Moment, Pressure, Ratio, positive, si};

/// Loaded radius over depth below which a bend is no longer a beam: the walls thin, dish and shift the neutral axis.
const TIGHTEST: f64 = 5.0;

/// How the metal yields.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Metal {
    e: f64,
    yield_: f64,
    hardening: f64,
}

impl Metal {
    /// Elastic, then yielding at constant stress.
    ///
    /// # Errors
    /// [`FormingError::OutOfRange`] unless both are above zero and the yield is below a tenth of the modulus.
    pub fn new(modulus: Pressure, yield_strength: Pressure) -> Result<Self, FormingError> {
        Self::hardening(modulus, yield_strength, si(0.0))
    }

    /// Elastic, then along a straight line of slope `tangent_modulus`.
    ///
    /// # Errors
    /// As [`Metal::new`]; and unless the tangent modulus is at least zero and below the modulus.
    pub fn hardening(
        modulus: Pressure,
        yield_strength: Pressure,
        tangent_modulus: Pressure,
    ) -> Result<Self, FormingError> {
        let e = positive("modulus of elasticity", modulus.value, "Pa", "take it from the alloy's row")?;
        let yield_ = positive("yield strength", yield_strength.value, "Pa", "take it from the alloy's row")?;
        if yield_ >= e / 10.0 {
            let allowed = format!("below a tenth of the modulus, {:.6} Pa", e / 10.0);
            return Err(out_of_range("yield strength", yield_, "Pa", allowed, "check the units of both"));
        }
        let hardening = tangent_modulus.value / e;
        if !(0.0..1.0).contains(&hardening) {
            let allowed = "0 to below the modulus of elasticity";
            let value = tangent_modulus.value;
            return Err(out_of_range("tangent modulus", value, "Pa", allowed, "0 is safe: no hardening"));
        }
        Ok(Self { e, yield_, hardening })
    }
}

/// A rectangular section that is bent upright, corners taken as sharp.
///
/// # Examples
/// A tube that is to end at a radius of 295.5 in is bent to 137 in if it yields at 25 ksi.
/// ```
/// use beam_core::forming::{BentSection, Metal};
/// use beam_core::quantity::{si, Length, INCH, KSI};
///
/// let inch = |v: f64| -> Length { si(v * INCH) };
/// let tube = BentSection::tube(inch(1.5), inch(1.5), inch(0.125))?;
/// let metal = Metal::new(si(10_100.0 * KSI), si(25.0 * KSI))?;
/// let loaded = tube.loaded_radius(metal, inch(295.5))?;
/// assert!((loaded.value / INCH - 136.91).abs() < 0.01);
/// # Ok::<(), beam_core::forming::FormingError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BentSection {
    /// Width and half depth: outside, and the hollow (zeros for a solid).
    outer: (f64, f64),
    inner: (f64, f64),
}

impl BentSection {
    /// A tube from its outside measures and wall.
    ///
    /// # Errors
    /// [`FormingError::OutOfRange`] unless all are above zero and two walls leave a hollow.
    pub fn tube(width: Length, depth: Length, wall: Length) -> Result<Self, FormingError> {
        let solid = Self::solid(width, depth)?;
        let wall = positive("wall", wall.value, "m", "measure the wall at a cut end")?;
        let (width, half) = solid.outer;
        let least = width.min(2.0 * half);
        if 2.0 * wall >= least {
            let allowed = format!("below half the smaller side, {:.6} m", least / 2.0);
            return Err(out_of_range("wall", wall, "m", allowed, "give a bar as a solid"));
        }
        Ok(Self { inner: (width - 2.0 * wall, half - wall), ..solid })
    }

    /// A solid bar or strip.
    ///
    /// # Errors
    /// [`FormingError::OutOfRange`] unless both are above zero.
    pub fn solid(width: Length, depth: Length) -> Result<Self, FormingError> {
        let width = positive("width", width.value, "m", "measure the outside of the tube")?;
        let depth = positive("depth", depth.value, "m", "measure the outside of the tube")?;
        Ok(Self { outer: (width, depth / 2.0), inner: (0.0, 0.0) })
    }

    /// Moment that holds the section at a radius of its centre line.
    ///
    /// # Errors
    /// [`FormingError::OutOfRange`] for a radius below five times the depth.
    pub fn moment(&self, metal: Metal, radius: Length) -> Result<Moment, FormingError> {
        let k = 1.0 / self.not_too_tight(radius.value)?;
        Ok(si(metal.e * self.second_moment() * (k - self.kept(metal, k))))
    }

    /// Radius of the centre line after letting go; `None` if it springs back straight.
    ///
    /// # Errors
    /// [`FormingError::OutOfRange`] for a radius below five times the depth.
    pub fn released_radius(&self, metal: Metal, loaded: Length) -> Result<Option<Length>, FormingError> {
        let kept = self.kept(metal, 1.0 / self.not_too_tight(loaded.value)?);
        Ok((kept > 0.0).then(|| si(1.0 / kept)))
    }

    /// Radius of the centre line to bend to, so that it ends at `released` after letting go.
    ///
    /// # Errors
    /// [`FormingError::OutOfRange`] if either radius is below five times the depth.
    pub fn loaded_radius(&self, metal: Metal, released: Length) -> Result<Length, FormingError> {
        let wanted = 1.0 / self.not_too_tight(released.value)?;
        // Without hardening the moment is never above the plastic one, so the curvature lies in this bracket.
        let unhardened = wanted / (1.0 - metal.hardening);
        let [mut low, mut high] =
            [unhardened, unhardened + metal.yield_ * self.plastic() / (metal.e * self.second_moment())];
        // Halving until no number is left between the two: some sixty steps, and it cannot fail.
        loop {
            let middle = low + (high - low) / 2.0;
            if middle <= low || middle >= high {
                break;
            }
            if self.kept(metal, middle) < wanted { low = middle } else { high = middle }
        }
        self.not_too_tight(1.0 / high).map(si)
    }

    /// Largest radius that leaves a set: `E d / (2 yield)`. At a larger one the tube is still elastic.
    pub fn first_yield_radius(&self, metal: Metal) -> Length {
        si(metal.e * self.outer.1 / metal.yield_)
    }

    /// Strain of the outer fibre at a radius of the centre line, `d / 2R`.
    ///
    /// # Errors
    /// [`FormingError::OutOfRange`] unless the radius is above half the depth.
    pub fn fibre_strain(&self, radius: Length) -> Result<Ratio, FormingError> {
        let half = self.outer.1;
        if !(radius.value.is_finite() && radius.value > half) {
            let allowed = format!("above half the depth, {half:.6} m");
            return Err(out_of_range("radius", radius.value, "m", allowed, "it is that of the centre line"));
        }
        Ok(si(half / radius.value))
    }

    /// Curvature that stays after bending to curvature `k`, 1/m.
    fn kept(&self, metal: Metal, k: f64) -> f64 {
        let elastic_half = metal.yield_ / (metal.e * k);
        let share = |(width, half): (f64, f64)| {
            if elastic_half >= half {
                return 0.0;
            }
            let u = elastic_half / half;
            width * half.powi(3) * (1.0 - u).powi(2) * (2.0 + u) / 3.0
        };
        (1.0 - metal.hardening) * k * (share(self.outer) - share(self.inner)) / self.second_moment()
    }

    pub(super) fn depth(&self) -> f64 {
        2.0 * self.outer.1
    }

    pub(super) fn second_moment(&self) -> f64 {
        let one = |(width, half): (f64, f64)| width * half.powi(3) * 2.0 / 3.0;
        one(self.outer) - one(self.inner)
    }

    fn plastic(&self) -> f64 {
        let one = |(width, half): (f64, f64)| width * half * half;
        one(self.outer) - one(self.inner)
    }

    fn not_too_tight(&self, radius: f64) -> Result<f64, FormingError> {
        let least = TIGHTEST * self.depth();
        if radius.is_finite() && radius >= least {
            return Ok(radius);
        }
        Err(out_of_range(
            "radius of the bend",
            radius,
            "m",
            format!("at least {TIGHTEST} times the depth, {least:.6} m"),
            "take a shallower tube or less rise, or have it bent over a mandrel by a tube bender",
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;
    use proptest::prelude::*;

    /// Kernels do not care which unit: these cases are in inches and ksi, or millimetres and MPa.
    fn tube(side: f64, wall: f64) -> BentSection {
        BentSection::tube(si(side), si(side), si(wall)).unwrap()
    }

    fn metal(e: f64, yield_: f64) -> Metal {
        Metal::new(si(e), si(yield_)).unwrap()
    }

    fn released(section: BentSection, metal: Metal, loaded: f64) -> f64 {
        section.released_radius(metal, si(loaded)).unwrap().unwrap().value
    }

    /// Moment by adding up stress over the depth (midpoint rule on smooth pieces, extrapolated): the second route.
    fn moment_by_quadrature(width: f64, depth: f64, wall: f64, metal: Metal, k: f64) -> f64 {
        let half = depth / 2.0;
        let stress = |y: f64| {
            let elastic = metal.e * k * y;
            if elastic <= metal.yield_ {
                elastic
            } else {
                metal.yield_ + metal.hardening * (elastic - metal.yield_)
            }
        };
        let breadth = |y: f64| if y > half - wall { width } else { 2.0 * wall };
        let mut ends = [0.0, (metal.yield_ / (metal.e * k)).min(half), half - wall, half];
        ends.sort_by(f64::total_cmp);
        // Three-point Gauss is exact on each piece: stress is linear there, breadth constant.
        let nodes = [(0.0, 8.0 / 9.0), (0.6_f64.sqrt(), 5.0 / 9.0), (-(0.6_f64.sqrt()), 5.0 / 9.0)];
        let pieces = ends.windows(2).map(|ends| {
            let (centre, reach) = (f64::midpoint(ends[0], ends[1]), (ends[1] - ends[0]) / 2.0);
            let sum = nodes.iter().map(|(at, weight)| {
                let y = centre + at * reach;
                weight * stress(y) * breadth(y) * y
            });
            sum.sum::<f64>() * reach
        });
        2.0 * pieces.sum::<f64>()
    }

    /// SPR-BOX: closed form verified by quadrature at 30 digits, elastic-perfectly plastic, in and ksi, mm and MPa.
    #[test]
    fn released_radii_of_square_tubes() {
        let inch = tube(1.5, 0.125);
        for (yield_, loaded, expected) in
            [(16.0, 100.0, 134.461), (35.0, 100.0, 221.2788059), (35.0, 50.0, 69.44390845)]
        {
            let tolerance = if yield_ == 16.0 { 4e-6 } else { 1e-9 };
            let found = released(inch, metal(10_100.0, yield_), loaded);
            assert_relative_eq!(found, expected, max_relative = tolerance);
        }
        let found = released(tube(40.0, 3.0), metal(70_000.0, 160.0), 2000.0);
        assert_relative_eq!(found, 2758.271211, max_relative = 1e-9);
    }

    /// SPR-INV: radius to bend to, 1.5 x 1.5 x 1/8 in, E 10 100 ksi; and the four yields of one roof.
    #[test]
    fn loaded_radii_of_square_tubes() {
        for (yield_, wanted, expected, tolerance) in [
            (16.0, 295.5, 168.95048, 1e-7),
            (35.0, 295.5, 113.38427, 1e-7),
            (16.0, 150.0, 108.37823, 1e-7),
            (35.0, 150.0, 81.970098, 1e-7),
            (25.0, 295.5, 136.91, 4e-5),
            (40.0, 295.5, 104.49, 4e-5),
        ] {
            let found = tube(1.5, 0.125).loaded_radius(metal(10_100.0, yield_), si(wanted)).unwrap();
            assert_relative_eq!(found.value, expected, max_relative = tolerance);
        }
    }

    /// Gardiner's formula for a solid strip (SPR-GARD; textbook form from memory, also printed on open pages):
    /// R_i / R_f = 4 X^3 - 3 X + 1, X = yield R_i / (E t).
    #[test]
    fn a_solid_strip_is_gardiners() {
        let ratio =
            50.0 / released(BentSection::solid(si(100.0), si(2.0)).unwrap(), metal(210_000.0, 300.0), 50.0);
        assert_relative_eq!(ratio, 0.8930393586, max_relative = 1e-9);
        let strip = BentSection::solid(si(25.0), si(3.0)).unwrap();
        assert_relative_eq!(released(strip, metal(68_900.0, 275.0), 100.0), 163.8563882, max_relative = 1e-9);
        for x in [0.05, 0.2, 0.35, 0.49] {
            let loaded = x * 68_900.0 * 3.0 / 275.0;
            let found = loaded / released(strip, metal(68_900.0, 275.0), loaded);
            let gardiner: f64 = 4.0 * f64::powi(x, 3) - 3.0 * x + 1.0;
            assert_relative_eq!(found, gardiner, max_relative = 1e-11);
        }
    }

    /// The published page's limit: fully elastic from X = 1/2 on.
    #[test]
    fn a_gentle_bend_springs_back_straight() {
        let (tube, metal) = (tube(1.5, 0.125), metal(10_100.0, 35.0));
        let first = tube.first_yield_radius(metal).value;
        assert_relative_eq!(first, 10_100.0 * 1.5 / 70.0, max_relative = 1e-15);
        assert_eq!(tube.released_radius(metal, si(first * 1.0001)).unwrap(), None);
        assert!(released(tube, metal, first * 0.9999) > 1e3 * first);
    }

    /// Common practice, no source: a gentle crown in a 1.5 in tube of 6061-T6 is inside the tube's elastic range,
    /// so it has to be bent to a third to two fifths of the wanted radius, one of 6063 to about half.
    #[test]
    fn the_rule_of_the_trade() {
        for (span, rise, wanted) in [(90.0, 3.0, 339.0), (84.0, 3.0, 295.5)] {
            let share = |yield_: f64| {
                let loaded = tube(1.5, 0.125).loaded_radius(metal(10_100.0, yield_), si(wanted)).unwrap();
                loaded.value / wanted
            };
            assert!((0.31..0.40).contains(&share(40.0)), "{span} {rise}: {}", share(40.0));
            assert!((0.32..0.40).contains(&share(35.0)), "{span} {rise}: {}", share(35.0));
            assert!((0.40..0.60).contains(&share(25.0)), "{span} {rise}: {}", share(25.0));
            assert!((0.45..0.60).contains(&share(16.0)), "{span} {rise}: {}", share(16.0));
        }
    }

    proptest! {
        /// The closed form against quadrature, with and without hardening, to 1e-9.
        #[test]
        fn closed_form_is_the_quadrature(
            width in 0.02..0.06_f64, depth in 0.02..0.06_f64, share in 0.03..0.45_f64,
            yield_ in 80e6..320e6_f64, hardening in 0.0..0.2_f64, tightness in 5.0..800.0_f64,
        ) {
            let wall = share * width.min(depth);
            let section = BentSection::tube(si(width), si(depth), si(wall)).unwrap();
            let metal = Metal::hardening(si(70e9), si(yield_), si(hardening * 70e9)).unwrap();
            let radius = tightness * depth;
            let closed = section.moment(metal, si(radius)).unwrap().value;
            let added = moment_by_quadrature(width, depth, wall, metal, 1.0 / radius);
            prop_assert!((closed / added - 1.0).abs() < 1e-9, "{closed} {added}");
        }

        /// Bent to the radius found, and let go, the tube is at the radius wanted; and was bent further.
        #[test]
        fn there_and_back(
            depth in 0.02..0.06_f64, share in 0.03..0.45_f64, yield_ in 80e6..320e6_f64,
            hardening in 0.0..0.2_f64, tightness in 30.0..5000.0_f64,
        ) {
            let section = BentSection::tube(si(depth), si(depth), si(share * depth)).unwrap();
            let metal = Metal::hardening(si(70e9), si(yield_), si(hardening * 70e9)).unwrap();
            let wanted = tightness * depth;
            let loaded = section.loaded_radius(metal, si(wanted)).unwrap();
            prop_assert!(loaded.value < wanted && loaded < section.first_yield_radius(metal));
            let back = section.released_radius(metal, loaded).unwrap().unwrap();
            prop_assert!((back.value / wanted - 1.0).abs() < 1e-9, "{}", back.value / wanted);
        }
    }

    #[test]
    fn what_cannot_be_bent_is_named() {
        assert!(BentSection::tube(si(0.025), si(0.025), si(0.0125)).is_err());
        assert!(BentSection::tube(si(0.025), si(f64::NAN), si(0.002)).is_err());
        assert!(BentSection::solid(si(0.0), si(0.025)).is_err());
        assert!(Metal::new(si(70e9), si(0.0)).is_err());
        assert!(Metal::new(si(70.0), si(160.0)).is_err());
        assert!(Metal::hardening(si(70e9), si(160e6), si(70e9)).is_err());
        let (tube, metal) = (tube(0.04, 0.003), metal(70e9, 240e6));
        let told = tube.loaded_radius(metal, si(0.15)).unwrap_err().to_string();
        assert!(told.contains("5 times the depth") && told.contains("mandrel"), "{told}");
        assert!(tube.moment(metal, si(f64::INFINITY)).is_err());
        assert!(tube.fibre_strain(si(0.02)).is_err());
        assert_relative_eq!(tube.fibre_strain(si(2.0)).unwrap().value, 0.01, max_relative = 1e-15);
    }
}

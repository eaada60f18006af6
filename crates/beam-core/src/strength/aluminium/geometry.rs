//! Rectangular tube with sharp corners, as the tables of ADM part V take it.

use crate::quantity::{Area, Length, SecondMoment, SectionModulus, si};
use crate::strength::{OutOfRange, positive};

/// A rectangular tube with sharp corners, bent about its horizontal axis (`depth` is upright).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SharpTube {
    pub(crate) width: f64,
    pub(crate) depth: f64,
    pub(crate) wall: f64,
}

impl SharpTube {
    /// A tube from its outside width, outside depth and wall.
    ///
    /// # Errors
    /// [`OutOfRange`] unless all are above zero and the wall is thinner than half the smaller side.
    ///
    /// # Examples
    /// RT 3x3x0.095 of the ADM: area 1.10 in2, plastic modulus 1.20 in3 (part VII, example 4).
    /// ```
    /// use beam_core::quantity::si;
    /// use beam_core::strength::aluminium::SharpTube;
    /// let inch = 0.0254;
    /// let tube = SharpTube::new(si(3.0 * inch), si(3.0 * inch), si(0.095 * inch))?;
    /// assert!((tube.plastic_modulus().value / inch.powi(3) - 1.20).abs() < 0.005);
    /// # Ok::<(), beam_core::strength::OutOfRange>(())
    /// ```
    pub fn new(width: Length, depth: Length, wall: Length) -> Result<Self, OutOfRange> {
        const RULE: &str = "rectangular tube";
        let width = positive(RULE, "outside width (m)", width.value)?;
        let depth = positive(RULE, "outside depth (m)", depth.value)?;
        let wall = positive(RULE, "wall (m)", wall.value)?;
        if 2.0 * wall >= width.min(depth) {
            return Err(OutOfRange::new(
                RULE,
                "wall (m)",
                wall,
                "must be thinner than half the smaller side",
            ));
        }
        Ok(Self { width, depth, wall })
    }

    /// The same tube lying on its side.
    #[must_use]
    pub fn turned(self) -> Self {
        Self { width: self.depth, depth: self.width, wall: self.wall }
    }

    /// Cross-section area.
    pub fn area(&self) -> Area {
        si(self.a())
    }

    /// Second moment about the bending axis.
    pub fn second_moment(&self) -> SecondMoment {
        si(self.i_x())
    }

    /// Elastic section modulus about the bending axis.
    pub fn elastic_modulus(&self) -> SectionModulus {
        si(self.s_x())
    }

    /// Plastic section modulus about the bending axis.
    pub fn plastic_modulus(&self) -> SectionModulus {
        si(self.z_x())
    }

    /// Torsion constant (Bredt).
    pub fn torsion_constant(&self) -> SecondMoment {
        si(self.j())
    }

    /// Least radius of gyration.
    pub fn least_radius(&self) -> Length {
        si(self.r_min())
    }

    /// Clear depth of a web.
    pub(crate) fn clear_depth(&self) -> f64 {
        self.depth - 2.0 * self.wall
    }

    /// Clear width of a flange.
    pub(crate) fn clear_width(&self) -> f64 {
        self.width - 2.0 * self.wall
    }

    pub(crate) fn a(&self) -> f64 {
        self.width * self.depth - self.clear_width() * self.clear_depth()
    }

    pub(crate) fn i_x(&self) -> f64 {
        (self.width * self.depth.powi(3) - self.clear_width() * self.clear_depth().powi(3)) / 12.0
    }

    pub(crate) fn i_y(&self) -> f64 {
        self.turned().i_x()
    }

    pub(crate) fn s_x(&self) -> f64 {
        2.0 * self.i_x() / self.depth
    }

    pub(crate) fn z_x(&self) -> f64 {
        (self.width * self.depth.powi(2) - self.clear_width() * self.clear_depth().powi(2)) / 4.0
    }

    pub(crate) fn j(&self) -> f64 {
        let (b, h, t) = (self.width - self.wall, self.depth - self.wall, self.wall);
        2.0 * t * (b * h).powi(2) / (b + h)
    }

    pub(crate) fn r_min(&self) -> f64 {
        (self.i_x().min(self.i_y()) / self.a()).sqrt()
    }

    /// Shear stress per torque is one over this: `2 t (B - t)(H - t)`.
    pub(crate) fn torsion_modulus(&self) -> f64 {
        2.0 * self.wall * (self.width - self.wall) * (self.depth - self.wall)
    }

    /// Both flanges about the bending axis, m4.
    pub(crate) fn i_flanges(&self) -> f64 {
        let arm = (self.depth - self.wall) / 2.0;
        2.0 * (self.width * self.wall.powi(3) / 12.0 + self.width * self.wall * arm * arm)
    }

    /// Both webs between the flanges about the bending axis, m4.
    pub(crate) fn i_webs(&self) -> f64 {
        2.0 * self.wall * self.clear_depth().powi(3) / 12.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    const IN: f64 = 0.0254;

    fn tube(b: f64, h: f64, t: f64) -> SharpTube {
        SharpTube::new(si(b * IN), si(h * IN), si(t * IN)).unwrap()
    }

    /// ADM 2020 part VII: example 4 (RT 3x3x0.095) and example 20 (RT 4x2x0.188), as printed.
    #[test]
    fn properties_match_adm_part_vii() {
        let t = tube(3.0, 3.0, 0.095);
        let printed = |v: f64, power: i32, p: f64, half: f64| {
            let got = v / IN.powi(power);
            assert!((got - p).abs() <= half, "{got} {p}");
        };
        printed(t.i_x(), 4, 1.55, 0.006);
        printed(t.s_x(), 3, 1.04, 0.006);
        printed(t.z_x(), 3, 1.20, 0.006);
        printed(t.j(), 4, 2.33, 0.006);
        printed(t.i_flanges(), 4, 1.203, 0.0006);
        printed(t.i_webs(), 4, 0.351, 0.0006);
        let r = tube(2.0, 4.0, 0.188);
        printed(r.i_x(), 4, 4.23, 0.006);
        printed(r.i_y(), 4, 1.37, 0.006);
        printed(r.j(), 4, 3.19, 0.006);
        printed(r.z_x(), 3, 2.67, 0.006);
    }

    #[test]
    fn flanges_and_webs_make_the_whole() {
        let t = tube(2.0, 3.0, 0.125);
        assert_relative_eq!(t.i_flanges() + t.i_webs(), t.i_x(), max_relative = 1e-12);
    }

    #[test]
    fn refuses_a_solid_bar() {
        assert!(SharpTube::new(si(0.02), si(0.05), si(0.01)).is_err());
        assert!(SharpTube::new(si(0.02), si(f64::NAN), si(0.001)).is_err());
    }
}

//! Rectangular tube, sharp corners as the tables of ADM part V take it, or rounded ones.

use crate::quantity::{Area, Length, SecondMoment, SectionModulus, si};
use crate::section::{Hollow, SectionProperties};
use crate::strength::{OutOfRange, positive};

const RULE: &str = "rectangular tube";

/// A rectangular tube bent about its horizontal axis (`depth` is upright).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RectangularTube {
    pub(crate) width: f64,
    pub(crate) depth: f64,
    pub(crate) wall: f64,
    /// Outside corner radius; 0 is sharp.
    corner: f64,
    properties: SectionProperties,
}

impl RectangularTube {
    /// A tube with sharp corners from its outside width, outside depth and wall.
    ///
    /// # Errors
    /// [`OutOfRange`] unless all are above zero and the wall is thinner than half the smaller side.
    ///
    /// # Examples
    /// RT 3x3x0.095 of the ADM: area 1.10 in2, plastic modulus 1.20 in3 (part VII, example 4).
    /// ```
    /// use beam_core::quantity::si;
    /// use beam_core::strength::aluminium::RectangularTube;
    /// let inch = 0.0254;
    /// let tube = RectangularTube::new(si(3.0 * inch), si(3.0 * inch), si(0.095 * inch))?;
    /// assert!((tube.plastic_modulus().value / inch.powi(3) - 1.20).abs() < 0.005);
    /// # Ok::<(), beam_core::strength::OutOfRange>(())
    /// ```
    pub fn new(width: Length, depth: Length, wall: Length) -> Result<Self, OutOfRange> {
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
        Self::made(width, depth, wall, 0.0)
    }

    fn made(width: f64, depth: f64, wall: f64, corner: f64) -> Result<Self, OutOfRange> {
        let section = Hollow::tube_si(width, depth, wall, corner)
            .map_err(|e| OutOfRange::new(RULE, "outside corner radius (m)", corner, e.to_string()))?;
        Ok(Self { width, depth, wall, corner, properties: section.properties() })
    }

    /// The same tube with this outside corner radius; inside it is less by the wall.
    ///
    /// # Errors
    /// [`OutOfRange`] unless the radius lies between zero and half the smaller side.
    pub fn with_corner(self, corner: Length) -> Result<Self, OutOfRange> {
        Self::made(self.width, self.depth, self.wall, corner.value)
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

    /// Flat depth of a web between the fillets; an inside radius above 4 walls counts as 4 (ADM B.5).
    pub(crate) fn clear_depth(&self) -> f64 {
        self.depth - 2.0 * self.wall - 2.0 * self.fillet()
    }

    /// Flat width of a flange between the fillets.
    pub(crate) fn clear_width(&self) -> f64 {
        self.width - 2.0 * self.wall - 2.0 * self.fillet()
    }

    /// Depth between the flanges.
    pub(crate) fn inside_depth(&self) -> f64 {
        self.depth - 2.0 * self.wall
    }

    fn fillet(&self) -> f64 {
        (self.corner - self.wall).clamp(0.0, 4.0 * self.wall)
    }

    pub(crate) fn a(&self) -> f64 {
        self.properties.area.value
    }

    pub(crate) fn i_x(&self) -> f64 {
        self.properties.second_moment.value
    }

    pub(crate) fn i_y(&self) -> f64 {
        self.properties.second_moment_sideways.value
    }

    pub(crate) fn s_x(&self) -> f64 {
        self.properties.elastic.value
    }

    pub(crate) fn z_x(&self) -> f64 {
        self.properties.plastic.value
    }

    pub(crate) fn j(&self) -> f64 {
        self.properties.torsion.value
    }

    pub(crate) fn r_min(&self) -> f64 {
        self.properties.gyration.value.min(self.properties.gyration_sideways.value)
    }

    /// Shear stress per torque is one over this: `2 t (B - t)(H - t)` for sharp corners.
    pub(crate) fn torsion_modulus(&self) -> f64 {
        self.properties.torsion_shear.value
    }

    /// Both flanges about the bending axis, with the corners, m4.
    pub(crate) fn i_flanges(&self) -> f64 {
        self.i_x() - self.i_webs()
    }

    /// Both webs between the flanges about the bending axis, m4.
    pub(crate) fn i_webs(&self) -> f64 {
        2.0 * self.wall * self.inside_depth().powi(3) / 12.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    const IN: f64 = 0.0254;

    fn tube(b: f64, h: f64, t: f64) -> RectangularTube {
        RectangularTube::new(si(b * IN), si(h * IN), si(t * IN)).unwrap()
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

    /// Flanges by themselves: `B t^3/12 + B t` times the square of their arm, twice.
    #[test]
    fn flanges_and_webs_make_the_whole() {
        let t = tube(2.0, 3.0, 0.125);
        let arm = (t.depth - t.wall) / 2.0;
        let flanges = 2.0 * (t.width * t.wall.powi(3) / 12.0 + t.width * t.wall * arm * arm);
        assert_relative_eq!(t.i_flanges(), flanges, max_relative = 1e-12);
    }

    /// 50 x 50 x 3 with an outside radius of 4.5 mm: closed form, checked by pixel integration apart from this code.
    #[test]
    fn rounded_corners_cost_area_and_flat_width() {
        let mm = 1e-3;
        let sharp = RectangularTube::new(si(50.0 * mm), si(50.0 * mm), si(3.0 * mm)).unwrap();
        let t = sharp.with_corner(si(4.5 * mm)).unwrap();
        assert_relative_eq!(t.a() / mm.powi(2), 548.5486678, max_relative = 1e-9);
        assert_relative_eq!(t.z_x() / mm.powi(3), 9578.747689, max_relative = 1e-9);
        assert_relative_eq!(t.clear_width(), sharp.clear_width() - 3.0 * mm, max_relative = 1e-12);
        assert!(sharp.with_corner(si(26.0 * mm)).is_err());
    }

    #[test]
    fn refuses_a_solid_bar() {
        assert!(RectangularTube::new(si(0.02), si(0.05), si(0.01)).is_err());
        assert!(RectangularTube::new(si(0.02), si(f64::NAN), si(0.001)).is_err());
    }
}

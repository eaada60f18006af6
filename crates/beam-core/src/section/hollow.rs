//! Rectangular hollow sections and solid rectangles.
//!
//! ```text
//!        width
//!     +---------+
//!     | +-----+ |  ^
//!     | |     | |  | depth (up, the way the roof sags)
//!     | +-----+ |  v
//!     +---------+   wall, outside corner radius
//! ```

use std::f64::consts::PI;

use super::error::SectionError;
use crate::quantity::{Area, Density, Length, MassPerLength, SecondMoment, SectionModulus, positive, si};

/// A rectangular tube, or a solid rectangle.
///
/// # Examples
/// A 1 x 2 in tube, wall 0.065 in, has a second moment of 0.1926 in4 in a tube maker's printed table.
/// ```
/// use beam_core::quantity::{si, Length};
/// use beam_core::section::Hollow;
///
/// let inch = |v: f64| -> Length { si(v * 0.0254) };
/// let tube = Hollow::new(inch(1.0), inch(2.0), inch(0.065), inch(0.0))?;
/// let in4 = tube.properties().second_moment.value / 0.0254_f64.powi(4);
/// assert!((in4 - 0.1926).abs() < 0.0004);
/// # Ok::<(), beam_core::section::SectionError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hollow {
    width: f64,
    depth: f64,
    shape: Shape,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Shape {
    Tube { wall: f64, corner: f64 },
    Solid,
}

/// Section properties of a [`Hollow`].
///
/// "Upright" is bending as the roof sags (stress varies over the depth); "sideways" over the width.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct SectionProperties {
    /// Area.
    pub area: Area,
    /// Second moment of area, upright.
    pub second_moment: SecondMoment,
    /// Second moment of area, sideways.
    pub second_moment_sideways: SecondMoment,
    /// Elastic section modulus, upright.
    pub elastic: SectionModulus,
    /// Elastic section modulus, sideways.
    pub elastic_sideways: SectionModulus,
    /// Plastic section modulus, upright.
    pub plastic: SectionModulus,
    /// Plastic section modulus, sideways.
    pub plastic_sideways: SectionModulus,
    /// Radius of gyration, upright.
    pub gyration: Length,
    /// Radius of gyration, sideways.
    pub gyration_sideways: Length,
    /// Torsion constant J.
    pub torsion: SecondMoment,
    /// Torsion shear constant C: greatest shear stress = T / C.
    pub torsion_shear: SectionModulus,
    /// Shear area for the Timoshenko stiffness G As, upright.
    pub shear_area: Area,
}

/// [`SectionProperties`] as SI numbers: m, m2, m3, m4.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct PropertiesSi {
    pub(crate) area: f64,
    pub(crate) second_moment: f64,
    pub(crate) second_moment_sideways: f64,
    pub(crate) elastic: f64,
    pub(crate) elastic_sideways: f64,
    pub(crate) plastic: f64,
    pub(crate) plastic_sideways: f64,
    pub(crate) gyration: f64,
    pub(crate) gyration_sideways: f64,
    pub(crate) torsion: f64,
    pub(crate) torsion_shear: f64,
    pub(crate) shear_area: f64,
}

impl Hollow {
    /// A tube from its outside measures, wall and outside corner radius (0 for sharp corners).
    ///
    /// The inside corner radius is `corner - wall`, and sharp where that is not above 0.
    ///
    /// # Errors
    /// A measure that is not above 0; twice the wall reaching the width or the depth; a corner radius
    /// below 0 or above half the smaller side.
    pub fn new(width: Length, depth: Length, wall: Length, corner: Length) -> Result<Self, SectionError> {
        Self::tube_si(width.value, depth.value, wall.value, corner.value)
    }

    /// A solid rectangle.
    ///
    /// # Errors
    /// A measure that is not above 0.
    pub fn solid(width: Length, depth: Length) -> Result<Self, SectionError> {
        Self::solid_si(width.value, depth.value)
    }

    /// [`Hollow::new`] from lengths in m.
    pub(crate) fn tube_si(width: f64, depth: f64, wall: f64, corner: f64) -> Result<Self, SectionError> {
        let solid = Self::solid_si(width, depth)?;
        positive("wall", wall, "m", "measure the wall at a cut end")?;
        let least = width.min(depth);
        if 2.0 * wall >= least {
            return Err(SectionError::out_of_range(
                "wall",
                wall,
                "m",
                format!("below half the smaller side, {:.6} m", least / 2.0),
                "check the wall, or give the member as a solid",
            ));
        }
        if !(0.0..=least / 2.0).contains(&corner) {
            return Err(SectionError::out_of_range(
                "outside corner radius",
                corner,
                "m",
                format!("0 to half the smaller side, {:.6} m", least / 2.0),
                "give 0 for sharp corners",
            ));
        }
        Ok(Self { shape: Shape::Tube { wall, corner }, ..solid })
    }

    /// [`Hollow::solid`] from lengths in m.
    pub(crate) fn solid_si(width: f64, depth: f64) -> Result<Self, SectionError> {
        positive("width", width, "m", "measure the outside of the member")?;
        positive("depth", depth, "m", "measure the outside of the member")?;
        Ok(Self { width, depth, shape: Shape::Solid })
    }

    /// Area, moments, moduli, radii, torsion.
    ///
    /// The shear area is `2 depth wall` for a tube (Aluminum Design Manual's webs; thin-wall theory gives
    /// 0.44 of the area to 5/6 of the webs, a small part of a slender brace's sag) and 5/6 of a solid.
    /// Torsion of a tube is Bredt's single cell on the mid-line of the wall; of a solid, the closed
    /// approximations of Roark (J, within 0.4 percent) and Timoshenko (C, within 4 percent), from memory.
    ///
    /// # References
    /// Aluminum Design Manual 2020, Part V (sharp tubes); corner pieces: geometry.
    pub fn properties(&self) -> SectionProperties {
        let p = self.properties_si();
        SectionProperties {
            area: si(p.area),
            second_moment: si(p.second_moment),
            second_moment_sideways: si(p.second_moment_sideways),
            elastic: si(p.elastic),
            elastic_sideways: si(p.elastic_sideways),
            plastic: si(p.plastic),
            plastic_sideways: si(p.plastic_sideways),
            gyration: si(p.gyration),
            gyration_sideways: si(p.gyration_sideways),
            torsion: si(p.torsion),
            torsion_shear: si(p.torsion_shear),
            shear_area: si(p.shear_area),
        }
    }

    /// Mass per length from a density.
    pub fn mass_per_length(&self, density: Density) -> MassPerLength {
        si(self.properties_si().area * density.value)
    }

    pub(crate) fn properties_si(&self) -> PropertiesSi {
        let (width, depth) = (self.width, self.depth);
        let (area, [upright, sideways], [plastic, plastic_sideways], torsion, torsion_shear, shear_area) =
            match self.shape {
                Shape::Tube { wall, corner } => {
                    let inside = (corner - wall).max(0.0);
                    let outer = Rounded::new(width, depth, corner);
                    let inner = Rounded::new(width - 2.0 * wall, depth - 2.0 * wall, inside);
                    let middle = (corner + inside) / 2.0;
                    let (b, h) = (width - wall, depth - wall);
                    let cell = b * h - (4.0 - PI) * middle * middle;
                    let round = 2.0 * (b + h) - 2.0 * middle * (4.0 - PI);
                    (
                        outer.area - inner.area,
                        [0, 1].map(|i| outer.second[i] - inner.second[i]),
                        [0, 1].map(|i| outer.plastic[i] - inner.plastic[i]),
                        4.0 * cell * cell * wall / round,
                        2.0 * cell * wall,
                        2.0 * depth * wall,
                    )
                }
                Shape::Solid => {
                    let all = Rounded::new(width, depth, 0.0);
                    let (a, b) = (width.max(depth), width.min(depth));
                    let ratio = b / a;
                    let torsion = a * b.powi(3) * (1.0 / 3.0 - 0.21 * ratio * (1.0 - ratio.powi(4) / 12.0));
                    let shear = a * b * b / (3.0 + 1.8 * ratio);
                    (all.area, all.second, all.plastic, torsion, shear, all.area * 5.0 / 6.0)
                }
            };
        PropertiesSi {
            area,
            second_moment: upright,
            second_moment_sideways: sideways,
            elastic: 2.0 * upright / depth,
            elastic_sideways: 2.0 * sideways / width,
            plastic,
            plastic_sideways,
            gyration: (upright / area).sqrt(),
            gyration_sideways: (sideways / area).sqrt(),
            torsion,
            torsion_shear,
            shear_area,
        }
    }
}

/// A solid rectangle with rounded corners; arrays are [upright, sideways].
struct Rounded {
    area: f64,
    second: [f64; 2],
    plastic: [f64; 2],
}

impl Rounded {
    /// A full rectangle less four corner pieces, each a square of side `r` less a quarter disc.
    fn new(width: f64, depth: f64, r: f64) -> Self {
        let piece = r * r * (1.0 - PI / 4.0);
        let disc = PI * r * r / 4.0;
        let arm = r - 4.0 * r / (3.0 * PI);
        // Centroid of the piece from the outer sides, and its own inertia about that centroid.
        let inset = if r > 0.0 { (r.powi(3) / 2.0 - disc * arm) / piece } else { 0.0 };
        let own = r.powi(4) / 3.0 - (r.powi(4) * (PI / 16.0 - 4.0 / (9.0 * PI)) + disc * arm * arm);
        let about = own - piece * inset * inset;
        let one = |b: f64, h: f64| {
            let lever = h / 2.0 - inset;
            (
                b * h.powi(3) / 12.0 - 4.0 * (about + piece * lever * lever),
                b * h * h / 4.0 - 4.0 * piece * lever,
            )
        };
        let (upright, sideways) = (one(width, depth), one(depth, width));
        Self {
            area: width * depth - 4.0 * piece,
            second: [upright.0, sideways.0],
            plastic: [upright.1, sideways.1],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    const INCH: f64 = 0.0254;
    const MM: f64 = 1e-3;

    fn tube(unit: f64, width: f64, depth: f64, wall: f64, corner: f64) -> PropertiesSi {
        Hollow::tube_si(width * unit, depth * unit, wall * unit, corner * unit).unwrap().properties_si()
    }

    /// A tube maker's printed table of rectangular tubes (geometry only), 3 to 4 digits.
    #[test]
    fn printed_rectangular_tubes() {
        // width, depth, wall, A, I, S, r, then sideways I, S, r; in and powers of it.
        let rows = [
            [1.0, 2.0, 0.065, 0.3731, 0.1926, 0.1926, 0.7185, 0.064, 0.128, 0.4142],
            [1.0, 2.0, 0.12, 0.6624, 0.3213, 0.3213, 0.6965, 0.1023, 0.2046, 0.393],
            [3.0, 4.0, 0.12, 1.6224, 3.7739, 1.887, 1.5252, 2.4122, 1.6081, 1.2194],
            [1.25, 1.5, 0.083, 0.4289, 0.1372, 0.1829, 0.5656, 0.1025, 0.164, 0.4889],
        ];
        for [width, depth, wall, area, i, s, r, i2, s2, r2] in rows {
            let p = tube(INCH, width, depth, wall, 0.0);
            for (got, power, printed) in [
                (p.area, 2, area),
                (p.second_moment, 4, i),
                (p.elastic, 3, s),
                (p.gyration, 1, r),
                (p.second_moment_sideways, 4, i2),
                (p.elastic_sideways, 3, s2),
                (p.gyration_sideways, 1, r2),
            ] {
                assert_relative_eq!(got / INCH.powi(power), printed, max_relative = 0.002);
            }
        }
    }

    /// Aluminum Design Manual 2020, Part V: RT 3 x 3 x .095 and RT 4 x 2 x .188, three digits.
    #[test]
    fn printed_aluminium_tubes() {
        let p = tube(INCH, 3.0, 3.0, 0.095, 0.0);
        for (got, power, printed) in
            [(p.second_moment, 4, 1.55), (p.elastic, 3, 1.04), (p.plastic, 3, 1.20), (p.torsion, 4, 2.33)]
        {
            assert_relative_eq!(got / INCH.powi(power), printed, max_relative = 0.005);
        }
        let p = tube(INCH, 2.0, 4.0, 0.188, 0.0);
        for (got, power, printed) in [
            (p.second_moment, 4, 4.23),
            (p.second_moment_sideways, 4, 1.37),
            (p.torsion, 4, 3.19),
            (p.plastic, 3, 2.67),
        ] {
            assert_relative_eq!(got / INCH.powi(power), printed, max_relative = 0.005);
        }
    }

    /// Rounded corners; 50 x 50 x 3 was checked by counting pixels (SEC-SQm rows).
    #[test]
    fn rounded_corners() {
        for (side, wall, corner, area, i, z, j) in [
            (50.0, 3.0, 4.5, 548.5486678, 199378.1639, 9578.747689, 318006.2649),
            (40.0, 2.0, 3.0, 297.1327412, 70747.5274, 4201.923268, 111747.0372),
            (40.0, 3.0, 0.0, 444.0, 101972.0, 6174.0, 151959.0),
        ] {
            let p = tube(MM, side, side, wall, corner);
            assert_relative_eq!(p.area / MM.powi(2), area, max_relative = 1e-8);
            assert_relative_eq!(p.second_moment / MM.powi(4), i, max_relative = 1e-8);
            assert_relative_eq!(p.plastic / MM.powi(3), z, max_relative = 1e-8);
            assert_relative_eq!(p.torsion / MM.powi(4), j, max_relative = 1e-8);
        }
    }

    /// Square tubes, closed form to ten digits (SEC-SQ rows): A, I, S, Z, r, J, lb/ft at 0.098 lb/in3.
    #[test]
    fn square_tubes() {
        let rows = [
            [
                0.75,
                0.0625,
                0.171875,
                0.01365152995,
                0.03640407986,
                0.04443359375,
                0.2818281096,
                0.02030944824,
                0.202125,
            ],
            [1.5, 0.125, 0.6875, 0.2184244792, 0.2912326389, 0.35546875, 0.5636562191, 0.3249511719, 0.8085],
            [2.0, 0.25, 1.75, 0.9114583333, 0.9114583333, 1.15625, 0.7216878365, 1.33984375, 2.058],
        ];
        let density = 0.098 * 0.45359237 / INCH.powi(3);
        for [side, wall, a, i, s, z, r, j, weight] in rows {
            let p = tube(INCH, side, side, wall, 0.0);
            for (got, power, expected) in [
                (p.area, 2, a),
                (p.second_moment, 4, i),
                (p.elastic, 3, s),
                (p.plastic, 3, z),
                (p.gyration, 1, r),
                (p.torsion, 4, j),
            ] {
                assert_relative_eq!(got / INCH.powi(power), expected, max_relative = 1e-8);
            }
            let tube = Hollow::tube_si(side * INCH, side * INCH, wall * INCH, 0.0).unwrap();
            let mass = tube.mass_per_length(si(density)).value / 0.45359237 * 0.3048;
            assert_relative_eq!(mass, weight, max_relative = 1e-9);
        }
    }

    /// Saint-Venant torsion of a square bar: J = 0.1406 a4, C = 0.208 a3 (Timoshenko, from memory).
    #[test]
    fn solid_square_torsion() {
        let p = Hollow::solid_si(0.02, 0.02).unwrap().properties_si();
        assert_relative_eq!(p.torsion / 0.02_f64.powi(4), 0.1406, max_relative = 0.004);
        assert_relative_eq!(p.torsion_shear / 0.02_f64.powi(3), 0.208, max_relative = 0.01);
        assert_relative_eq!(p.second_moment, 0.02_f64.powi(4) / 12.0, max_relative = 1e-14);
    }

    #[test]
    fn what_cannot_be_a_tube_is_named() {
        assert!(Hollow::tube_si(0.025, 0.025, 0.0125, 0.0).unwrap_err().to_string().contains("solid"));
        assert!(Hollow::tube_si(0.025, 0.025, f64::NAN, 0.0).is_err());
        assert!(Hollow::tube_si(0.025, 0.025, 0.002, 0.013).is_err());
        assert!(Hollow::tube_si(0.025, 0.025, 0.002, f64::NAN).is_err());
        assert!(Hollow::solid_si(0.0, 0.025).is_err());
    }
}

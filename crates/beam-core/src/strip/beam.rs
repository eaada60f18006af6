//! A sandwich beam on two supports by the closed forms of the textbooks.
//!
//! *Thin-face* theory adds the sag of bending and of shear. *Thick-face* theory (Allen) also lets each face
//! bend by itself, which is what happens under a line load and at the edge of an opening.

use super::error::StripError;
use crate::quantity::{FlexuralRigidity, Force, ForcePerLength, Length, Moment, Pressure, positive, si};

/// A symmetric sandwich beam, simply supported.
///
/// # Examples
/// Three-point bending of 3 mm faces on 40 mm foam, 100 mm wide, 500 mm span, 200 N: 2.431 mm.
/// ```
/// use beam_core::quantity::si;
/// use beam_core::strip::SandwichBeam;
///
/// let beam = SandwichBeam {
///     span: si(0.5), width: si(0.1), face: si(0.003), core: si(0.040),
///     face_modulus: si(7.0e9), core_modulus: si(5.0e6), core_shear_modulus: si(2.5e6),
/// };
/// let sag = beam.point(si(200.0))?;
/// assert!((sag.total().value - 2.4308e-3).abs() < 1e-7);
/// # Ok::<(), beam_core::strip::StripError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SandwichBeam {
    /// Span between supports.
    pub span: Length,
    /// Width.
    pub width: Length,
    /// Thickness of one face.
    pub face: Length,
    /// Thickness of the core.
    pub core: Length,
    /// Modulus of the faces along the span; for a wide plate divided by `1 - nu^2`.
    pub face_modulus: Pressure,
    /// Modulus of the core along the span.
    pub core_modulus: Pressure,
    /// Shear modulus of the core.
    pub core_shear_modulus: Pressure,
}

/// A sag in its two parts: creep and damage change them by different factors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sag {
    /// By bending.
    pub bending: Length,
    /// By shear of the core.
    pub shear: Length,
}

impl Sag {
    /// Both together.
    pub fn total(&self) -> Length {
        self.bending + self.shear
    }

    fn from_si([bending, shear]: [f64; 2]) -> Self {
        Self { bending: si(bending), shear: si(shear) }
    }
}

/// Stiffness parts of a symmetric sandwich, N m2 and N.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Parts {
    /// The faces about the middle of the sandwich.
    pub(crate) couple: f64,
    /// Both faces, each about its own middle.
    pub(crate) faces: f64,
    /// The core.
    pub(crate) core: f64,
    /// Shear stiffness `G b d2 / c`.
    pub(crate) shear: f64,
}

impl SandwichBeam {
    fn parts(&self) -> Result<(f64, Parts), StripError> {
        let [span, width, face, core] = [
            ("span", self.span),
            ("width", self.width),
            ("face thickness", self.face),
            ("core thickness", self.core),
        ]
        .map(|(what, v)| positive(what, v.value, "m", "measure it"));
        let [e_f, e_c, g_c] = [
            ("face modulus", self.face_modulus),
            ("core modulus", self.core_modulus),
            ("core shear modulus", self.core_shear_modulus),
        ]
        .map(|(what, v)| positive(what, v.value, "Pa", "look the material up"));
        Ok((span?, Parts::symmetric(width?, face?, core?, e_f?, e_c?, g_c?)))
    }

    /// Bending stiffness, faces and core: `b (E t d2/2 + E t3/6 + Ec c3/12)`.
    ///
    /// # Errors
    /// A measure or modulus not above 0.
    pub fn bending_stiffness(&self) -> Result<FlexuralRigidity, StripError> {
        Ok(si(self.parts()?.1.bending()))
    }

    /// Shear stiffness `G b d2 / c`.
    ///
    /// # Errors
    /// A measure or modulus not above 0.
    pub fn shear_stiffness(&self) -> Result<Force, StripError> {
        Ok(si(self.parts()?.1.shear))
    }

    /// Sag under a central load, thin faces: `P L3/48 D + P L/4 S`.
    ///
    /// # Errors
    /// A measure or modulus not above 0.
    ///
    /// # References
    /// Allen, Analysis and Design of Structural Sandwich Panels (1969), from memory.
    pub fn point(&self, load: Force) -> Result<Sag, StripError> {
        let (span, parts) = self.parts()?;
        Ok(Sag::from_si(four_point(parts.bending(), parts.shear, span, 0.0, load.value)))
    }

    /// Sag under two equal loads, `load` in total, `apart` from each other and placed evenly.
    ///
    /// # Errors
    /// A measure or modulus not above 0; loads further apart than the supports.
    ///
    /// # References
    /// ASTM D7250, from memory.
    pub fn two_points(&self, load: Force, apart: Length) -> Result<Sag, StripError> {
        let (span, parts) = self.parts()?;
        let apart = within_span(apart.value, span)?;
        Ok(Sag::from_si(four_point(parts.bending(), parts.shear, span, apart, load.value)))
    }

    /// Sag under an even load, thin faces: `5 q L4/384 D + q L2/8 S`.
    ///
    /// # Errors
    /// A measure or modulus not above 0.
    pub fn uniform(&self, load: ForcePerLength) -> Result<Sag, StripError> {
        let (span, parts) = self.parts()?;
        Ok(Sag::from_si(uniform(parts.bending(), parts.shear, span, load.value)))
    }

    /// Sag under a central load, thick faces, the core without direct stress.
    ///
    /// # Errors
    /// A measure or modulus not above 0.
    ///
    /// # References
    /// Allen (1969), from memory.
    pub fn point_thick(&self, load: Force) -> Result<Sag, StripError> {
        let (span, parts) = self.parts()?;
        Ok(Sag::from_si(parts.thick_point(span, load.value)))
    }

    /// Sag under an even load, thick faces, the core without direct stress.
    ///
    /// # Errors
    /// A measure or modulus not above 0.
    ///
    /// # References
    /// Allen (1969), from memory.
    pub fn uniform_thick(&self, load: ForcePerLength) -> Result<Sag, StripError> {
        let (span, parts) = self.parts()?;
        Ok(Sag::from_si(parts.thick_uniform(span, load.value)))
    }

    /// Bending moment in both faces together, right under a central line load; each takes half.
    ///
    /// # Errors
    /// A measure or modulus not above 0.
    ///
    /// # References
    /// Allen (1969), from memory.
    pub fn face_moment(&self, load: Force) -> Result<Moment, StripError> {
        let (span, parts) = self.parts()?;
        Ok(si(parts.face_moment(span, load.value)))
    }

    /// Membrane stress in the faces at mid-span under two loads, as ASTM C393 writes it:
    /// `P (L - apart) / (2 (h + c) b t)`.
    ///
    /// # Errors
    /// A measure or modulus not above 0; loads further apart than the supports.
    pub fn face_stress(&self, load: Force, apart: Length) -> Result<Pressure, StripError> {
        let (span, _) = self.parts()?;
        let apart = within_span(apart.value, span)?;
        let (face, core) = (self.face.value, self.core.value);
        let total = core + 2.0 * face;
        Ok(si(load.value * (span - apart) / (2.0 * (total + core) * self.width.value * face)))
    }
}

impl Parts {
    pub(crate) fn symmetric(width: f64, face: f64, core: f64, e_f: f64, e_c: f64, g_c: f64) -> Self {
        let d = core + face;
        Self {
            couple: width * e_f * face * d * d / 2.0,
            faces: width * e_f * face.powi(3) / 6.0,
            core: width * e_c * core.powi(3) / 12.0,
            shear: width * g_c * d * d / core,
        }
    }

    pub(crate) fn bending(&self) -> f64 {
        self.couple + self.faces + self.core
    }

    /// `1/a`: how far the bending of the faces themselves reaches from a line load; and the sandwich's `D'`.
    fn decay(&self) -> (f64, f64) {
        let both = self.couple + self.faces;
        ((self.shear * both / (self.couple * self.faces)).sqrt(), both)
    }

    /// `[bending, shear]` parts of the sag.
    pub(crate) fn thick_point(&self, span: f64, load: f64) -> [f64; 2] {
        let (a, both) = self.decay();
        let theta = a * span / 2.0;
        let share = (self.couple / both).powi(2);
        [
            load * span.powi(3) / (48.0 * both),
            load * span / (4.0 * self.shear) * share * (1.0 - theta.tanh() / theta),
        ]
    }

    /// `[bending, shear]` parts of the sag.
    pub(crate) fn thick_uniform(&self, span: f64, load: f64) -> [f64; 2] {
        let (a, both) = self.decay();
        let theta = a * span / 2.0;
        let share = (self.couple / both).powi(2);
        [
            5.0 * load * span.powi(4) / (384.0 * both),
            load * span * span / (8.0 * self.shear)
                * share
                * (1.0 - 2.0 / (theta * theta) * (1.0 - 1.0 / theta.cosh())),
        ]
    }

    pub(crate) fn face_moment(&self, span: f64, load: f64) -> f64 {
        let (a, both) = self.decay();
        self.faces / both * load * span / 4.0
            + load / (2.0 * a) * self.couple / both * (a * span / 2.0).tanh()
    }
}

/// `[bending, shear]` parts of the sag at mid-span under two loads `apart`; one central load at 0.
pub(crate) fn four_point(d: f64, s: f64, span: f64, apart: f64, load: f64) -> [f64; 2] {
    [
        load * (2.0 * span.powi(3) - 3.0 * span * apart * apart + apart.powi(3)) / (96.0 * d),
        load * (span - apart) / (4.0 * s),
    ]
}

/// `[bending, shear]` parts of the sag at mid-span under an even load.
pub(crate) fn uniform(d: f64, s: f64, span: f64, load: f64) -> [f64; 2] {
    [5.0 * load * span.powi(4) / (384.0 * d), load * span * span / (8.0 * s)]
}

/// One bending test: total load, support span, distance between the two loads, sag at mid-span.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BendingTest {
    /// Total load.
    pub load: Force,
    /// Distance between the supports.
    pub span: Length,
    /// Distance between the two loads; 0 for a central one.
    pub apart: Length,
    /// Sag at mid-span.
    pub sag: Length,
}

/// Bending and shear stiffness of a beam from two tests with different spans.
///
/// # Errors
/// A load, span or sag not above 0; loads further apart than the supports; two tests so alike that they do
/// not tell bending from shear; a pair that no beam could give.
///
/// # References
/// ASTM D7250, from memory.
pub fn stiffness_from_tests(tests: [BendingTest; 2]) -> Result<(FlexuralRigidity, Force), StripError> {
    let mut rows = [[0.0; 3]; 2];
    for (row, test) in rows.iter_mut().zip(tests) {
        let load = positive("test load", test.load.value, "N", "read the scale again")?;
        let span = positive("test span", test.span.value, "m", "measure it")?;
        let sag = positive("test sag", test.sag.value, "m", "read the gauge again")?;
        let apart = within_span(test.apart.value, span)?;
        let [bending, shear] = four_point(1.0, 1.0, span, apart, load);
        *row = [bending / sag, shear / sag, 1.0];
    }
    let [[a, b, _], [c, d, _]] = rows;
    let determinant = a * d - b * c;
    if determinant.abs() < 1e-3 * (a * d).abs().max((b * c).abs()) {
        return Err(StripError::out_of_range(
            "difference between the two tests",
            determinant.abs() / (a * d).abs().max((b * c).abs()),
            "",
            "0.001 or more",
            "test at a span two or three times the other",
        ));
    }
    let [bend, slide] = [(d - b) / determinant, (a - c) / determinant];
    let remedy = "the two tests contradict each other: repeat them";
    Ok((
        si(1.0 / positive("bending flexibility from the tests", bend, "1/(N m2)", remedy)?),
        si(1.0 / positive("shear flexibility from the tests", slide, "1/N", remedy)?),
    ))
}

fn within_span(apart: f64, span: f64) -> Result<f64, StripError> {
    if (0.0..span).contains(&apart) {
        return Ok(apart);
    }
    Err(StripError::out_of_range(
        "distance between the loads",
        apart,
        "m",
        format!("0 up to the span, {span:.4} m"),
        "measure it",
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// 3 / 40 / 3 mm, 100 mm wide: the panel of rows BM04 to BM10.
    fn beam(span: f64) -> SandwichBeam {
        SandwichBeam {
            span: si(span),
            width: si(0.1),
            face: si(0.003),
            core: si(0.040),
            face_modulus: si(7.0e9),
            core_modulus: si(5.0e6),
            core_shear_modulus: si(2.5e6),
        }
    }

    fn mm(sag: Sag) -> f64 {
        sag.total().value * 1e3
    }

    #[test]
    fn thin_faces() {
        assert_relative_eq!(mm(beam(0.5).point(si(200.0)).unwrap()), 2.4308, max_relative = 1e-6);
        assert_relative_eq!(mm(beam(2.3).uniform(si(100.0)).unwrap()), 24.43421, max_relative = 1e-6);
    }

    #[test]
    fn thick_faces() {
        assert_relative_eq!(mm(beam(0.5).uniform_thick(si(100.0)).unwrap()), 0.3090431, max_relative = 1e-6);
        assert_relative_eq!(mm(beam(2.3).uniform_thick(si(100.0)).unwrap()), 24.439, max_relative = 1e-6);
        assert_relative_eq!(mm(beam(2.3).point_thick(si(200.0)).unwrap()), 35.84688, max_relative = 1e-6);
    }

    /// Local bending of the faces under a line load: 5.62 MPa against 1.81 MPa of membrane stress, for 200 N
    /// on 500 mm (rows BM15 to BM18, three digits).
    #[test]
    fn faces_bend_under_a_line_load() {
        let beam = beam(0.5);
        let local = beam.face_moment(si(200.0)).unwrap().value / 2.0 * 6.0 / (0.1 * 0.003 * 0.003);
        assert_relative_eq!(local / 1e6, 5.62, max_relative = 2e-3);
    }

    /// ASTM forms: face stress, quarter- and third-point bending (BM10, BM12, BM13).
    #[test]
    fn standard_test_forms() {
        let stress = beam(0.5).face_stress(si(200.0), si(0.0)).unwrap();
        assert_relative_eq!(stress.value / 1e6, 1.937984, max_relative = 1e-6);
        let (d, s) = (1947.267, 11556.25);
        let sum = |v: [f64; 2]| (v[0] + v[1]) * 1e3;
        assert_relative_eq!(sum(four_point(d, s, 1.0, 0.5, 400.0)), 7.268821, max_relative = 1e-6);
        assert_relative_eq!(sum(four_point(d, s, 1.2, 0.4, 400.0)), 13.22209, max_relative = 1e-6);
    }

    /// Two spans give back D and S (BM14).
    #[test]
    fn stiffness_from_two_spans() {
        let test = |load: f64, span: f64, apart: f64, sag: f64| BendingTest {
            load: si(load),
            span: si(span),
            apart: si(apart),
            sag: si(sag),
        };
        let short = test(100.0, 0.5, 0.0, 1.2154002e-3);
        let long = test(100.0, 1.5, 0.75, 4.1049447e-3);
        let (d, s) = stiffness_from_tests([short, long]).unwrap();
        assert_relative_eq!(s.value, 11556.25, max_relative = 1e-4);
        assert_relative_eq!(d.value, 1947.267, max_relative = 1e-3);
        assert!(stiffness_from_tests([short, short]).is_err());
        assert!(stiffness_from_tests([short, test(100.0, 1.5, 0.75, 1e-4)]).is_err());
    }

    #[test]
    fn what_is_no_beam_is_named() {
        assert!(beam(0.0).point(si(1.0)).is_err());
        assert!(beam(1.0).two_points(si(1.0), si(1.2)).is_err());
        assert!(SandwichBeam { core: si(f64::NAN), ..beam(1.0) }.uniform(si(1.0)).is_err());
    }
}

//! EN 1999-1-1:2007: rectangular tubes, design resistances to be held against factored loads.
//!
//! What the worked examples of TALAT lecture 2301 print was checked against them; constants of buckling class B, of
//! welded parts and of the interaction are from memory, and each basis says so. A second-generation EN 1999-1-1:2023
//! with other tables exists: it is not this one.
//!
//! Effective section means effective **thickness**. `N_cr` takes the gross section, `epsilon` is `sqrt(250/fo)` (fo in
//! MPa), a web in pure bending counts 0.40 of its slenderness.

mod bending;
mod class;
mod combined;
mod compression;
mod crippling;
mod metal;
mod shear;
mod tension;

pub use bending::{EnBending, EnBendingMode};
pub use class::{Edges, Part, part};
pub use combined::{member_used, section_used};
pub use compression::EnCompression;
pub use metal::{EnMetal, EnStrengths, PartialFactors};
pub use section_tables::BucklingClass;
pub use tension::EnTension;

use super::RectangularTube;

/// A tube judged by EN 1999-1-1.
///
/// # Examples
/// TALAT lecture 2301, example 5.1: 70 x 70 x 1.9 mm of class A, 200 MPa, 1 m long, carries 73.8 kN.
/// ```
/// use beam_core::quantity::si;
/// use beam_core::strength::aluminium::{RectangularTube, en1999::*};
/// let metal = EnMetal::new(EnStrengths {
///     fo: si(200e6), fu: si(245e6), fo_haz: si(75e6), fu_haz: si(130e6), e: si(70e9), g: si(27e9),
///     class: BucklingClass::A, wall_over: si(0.0), wall_to: si(0.010),
/// })?;
/// let tube = EnTube {
///     tube: RectangularTube::new(si(0.070), si(0.070), si(0.0019))?,
///     metal, factors: PartialFactors::new(1.0, 1.25)?, welded: false,
/// };
/// let n = tube.compression(si(1.0), si(1.0), None)?;
/// assert!((n.member.value - 73.8e3).abs() < 100.0);
/// # Ok::<(), beam_core::strength::OutOfRange>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EnTube {
    /// Section.
    pub tube: RectangularTube,
    /// Metal.
    pub metal: EnMetal,
    /// Partial factors.
    pub factors: PartialFactors,
    /// Whether a weld across the tube softens the section judged: every wall then counts as welded.
    pub welded: bool,
}

/// The tubes and metals of the examples, for the tests of this folder.
#[cfg(test)]
pub(crate) mod samples {
    use super::*;
    use crate::quantity::si;

    pub(crate) const MM: f64 = 1e-3;

    pub(crate) fn metal(fo: f64, class: BucklingClass) -> EnMetal {
        EnMetal::new(EnStrengths {
            fo: si(fo * 1e6),
            fu: si(1.2 * fo * 1e6),
            fo_haz: si(0.4 * fo * 1e6),
            fu_haz: si(0.7 * fo * 1e6),
            e: si(70e9),
            g: si(27e9),
            class,
            wall_over: si(0.0),
            wall_to: si(0.025),
        })
        .unwrap()
    }

    /// Width, depth and wall in mm, proof strength in MPa.
    pub(crate) fn tube(b: f64, h: f64, t: f64, fo: f64, class: BucklingClass) -> EnTube {
        EnTube {
            tube: RectangularTube::new(si(b * MM), si(h * MM), si(t * MM)).unwrap(),
            metal: metal(fo, class),
            factors: PartialFactors::default(),
            welded: false,
        }
    }
}

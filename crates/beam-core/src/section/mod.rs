//! Geometry and stiffness of cross-sections: hollow tubes and laminates.

mod error;
mod hollow;
pub(crate) mod laminate;
pub(crate) mod ortho;
mod ply;
mod ring;
mod shear;

pub use error::SectionError;
pub use hollow::{Hollow, SectionProperties};
pub use laminate::{Laminate, Layer, LayerStress};
pub use ply::{PlyModuli, ply_rule};
pub use ring::{RingFactors, ring_factors};

// The same, in SI numbers, for the rooms that work with bare numbers.
pub(crate) use laminate::LayerSi;

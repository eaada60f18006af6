//! Under a foot: a skin on foam, which the two-way roof model does not see.
//!
//! [`foot`] is what the checks use: an orthotropic skin on an elastic foam layer under a rectangular patch. The
//! closed forms of [`winkler`] and the circular integral of [`layer`] are the second route it is held against;
//! [`mechanism`] gives the plastic bounds beyond first yield of the foam.

mod bed;
mod edge;
mod error;
pub(crate) mod field;
pub mod foot;
pub(crate) mod indent;
mod kelvin;
pub mod layer;
pub mod mechanism;
mod quadrature;
mod slot;
mod under;
pub mod winkler;

pub use error::LocalError;

pub(crate) use edge::dent_at_edge;
pub(crate) use field::{Patch, PlateD};
pub(crate) use foot::edge_distance_needed;
pub(crate) use indent::{FootCase, foam_stress, indent, moments_of};
pub(crate) use layer::Layer;
pub(crate) use quadrature::bessel_k1;
pub(crate) use slot::{SlotCase, SlotDent, SlotPatch, Void, dents};
pub(crate) use under::Below;

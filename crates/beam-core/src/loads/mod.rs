//! Cases and factors, each with its source.
//!
//! A basis load is a set of forces on the roof, solved once in each state of the roof; a case adds basis loads up.
//! This room knows nothing of sections or materials.

mod basis;
mod case;
mod factor;

pub(crate) use basis::{Basis, BasisLoad, basis_loads, person_basis, unit_rect};
pub(crate) use case::{
    Case, CaseKind, Footing, Lasting, LockedIn, Term, permanent_cases, person_cases, with_locked_in,
};
pub(crate) use factor::{Aluminium, Factors, partial_factors};

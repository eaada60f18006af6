//! Aluminum Design Manual 2020, part I: rectangular tubes, allowable strength (ASD) and load-and-resistance (LRFD).
//!
//! Required strength is held against `Rn/Omega` (loads unfactored) or `phi Rn` (loads factored 1.2/1.6); `Rn` is the
//! same. The formulas were read from a damaged copy and mended until they reproduced the printed tables of part VI
//! and the examples of part VII: those are the tests beside each file. Never mix with the 2005 edition, whose column
//! line `20.2 - 0.126 kL/r` still fills textbooks.
//!
//! Braces are taken as building-type structures.

mod alloy;
mod combined;
mod compression;
pub mod constants;
mod crippling;
pub mod element;
mod fastener;
mod fatigue;
mod flexure;
mod format;
mod screw;
mod shear;
mod tension;
mod torsion;

pub use alloy::{AdmAlloy, AdmStrengths, Metal, Temper, Weld};
pub use combined::{axial_and_bending, flat_element};
pub use compression::{CompressionMode, CompressionStrength, compression};
pub use crippling::end_crippling;
pub use fastener::{fastener_bearing, rivet_shear};
pub use fatigue::{DetailCategory, equivalent_range};
pub use flexure::{BendingMode, BendingStrength, Flexure, LocalMethod, moment_gradient};
pub use format::{Format, LimitState};
pub use screw::{Ply, ScrewJoint, Thread};
pub use shear::{ShearStrength, shear};
pub use tension::{TensionStrength, tension};
pub use torsion::torsion;

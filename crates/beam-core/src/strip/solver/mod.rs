//! The strip across the roof as a beam with shear, and its braces: the line solver.
//!
//! ```text
//!     left wall                                             right wall
//!        |  zone  |        zone (lanes either side          |
//!        |        |        of an opening)      |            |
//!     0 =+========+============================+============+= L      panel: w, u, b
//!         -----------------------------------------------------       brace: u_b, th, sharing w
//!        ^  may stop short of a wall
//! ```
//!
//! Kinematics, z up from the roof's one reference plane: `u(z) = u + z b`, shear angle `w,x + b`; a crowned
//! strip adds `z0,x w,x` to the stretch (Marguerre's shallow arch), for panel and braces alike. A brace turns
//! by itself: its glued face moves by `u_b - (z_axis - z_glue) th`, and slips on the panel's `u + z_glue b`
//! against the bond. The panel is in cylindrical bending: it neither narrows nor widens along the vehicle.
//!
//! Three-node elements, two Gauss points for every term: free of locking, and exact at the nodes for a
//! uniform strip under loads that the nodes meet. Stretch, curvature and shear angle are read at the Gauss
//! points, where they are most exact, and carried to the ends and middle of the element as straight lines:
//! under a spread load q the moment is then over by at most `q h2/12` at the ends of an element of length h.
//!
//! Here, and only here in the public interface, numbers are bare SI: m, N, Pa. Sag and load are positive
//! down, sagging moment, tension and upward reaction positive.
//!
//! # References
//! Zienkiewicz, Taylor and Too (1971) for reduced integration; Marguerre (1938) for the shallow arch; both
//! from memory.

mod assemble;
mod mesh;
mod recover;
#[cfg(test)]
mod tests;

use std::sync::Arc;

pub use assemble::FactoredStrip;
pub use recover::{BraceResponse, BraceStation, LayerState, Response, Station};

use crate::section::Laminate;

/// Least number of three-node elements over the span, 160 steps from node to node. Twice as many change
/// nothing that matters and lose a digit to rounding.
pub const ELEMENTS: usize = 80;

/// A strip of the roof from wall to wall, with the braces it carries.
#[derive(Debug, Clone)]
pub struct StripModel {
    /// Clear span, m.
    pub span: f64,
    /// Stretches of equal make-up, from the left wall to the right, without gaps.
    pub zones: Vec<Zone>,
    /// Braces, in any order.
    pub braces: Vec<StripBrace>,
    /// Crown rise of the circular arc over the span, m; 0 for a flat roof.
    pub rise: f64,
    /// Sideways hold of the walls; `None` lets them spread.
    pub thrust: Option<Thrust>,
    /// Further places where a node is wanted, m: edges of loads, places where an answer is read.
    pub breaks: Vec<f64>,
    /// Least number of elements over the span; [`ELEMENTS`] is the usual choice.
    pub elements: usize,
}

/// A stretch of the strip in which nothing changes along the span.
#[derive(Debug, Clone)]
pub struct Zone {
    /// Left end, m from the left wall.
    pub from: f64,
    /// Right end, m.
    pub to: f64,
    /// What lies side by side; an opening is a lane left out.
    pub lanes: Vec<Lane>,
}

/// One make-up over part of the strip's width.
#[derive(Debug, Clone)]
pub struct Lane {
    /// The make-up, x across the roof.
    pub laminate: Arc<Laminate>,
    /// Its width along the vehicle, m.
    pub width: f64,
}

/// A brace, or all like braces of one strip taken together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StripBrace {
    /// Left end, m from the left wall.
    pub from: f64,
    /// Right end, m.
    pub to: f64,
    /// Axial stiffness E A, N.
    pub axial: f64,
    /// Bending stiffness E I, N m2.
    pub bending: f64,
    /// Shear stiffness G As, N.
    pub shear: f64,
    /// Height of its axis above the reference plane, m.
    pub z_axis: f64,
    /// Height of its glue line, m.
    pub z_glue: f64,
    /// Force per length of brace for unit slip, N/m2; 0 for a brace that lies loose.
    pub bond: f64,
    /// Sideways hold of each seat on a wall that it reaches, at its axis, N/m; 0 for a seat that slides.
    pub seat_hold: f64,
}

/// Sideways hold of the walls on the panel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thrust {
    /// Stiffness of the left wall, N/m over the strip's width.
    pub left: f64,
    /// Stiffness of the right wall, N/m.
    pub right: f64,
    /// Height at which it acts above the reference plane, m.
    pub z: f64,
}

/// One load of a right-hand side; positive down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Load {
    /// Force per length of span over a stretch, N/m.
    Uniform {
        /// N/m.
        per_length: f64,
        /// Left end, m.
        from: f64,
        /// Right end, m.
        to: f64,
    },
    /// A force at one place, N.
    Point {
        /// N.
        force: f64,
        /// m from the left wall.
        x: f64,
    },
    /// Strain and curvature that brace `brace` would have if it were free: heat, or being sprung in.
    Free {
        /// Index into [`StripModel::braces`].
        brace: usize,
        /// Lengthening per length.
        strain: f64,
        /// Curvature from the roof's line, sagging positive, 1/m; a straight tube sprung into a crown of
        /// radius R has 1/R.
        curvature: f64,
    },
}

impl Load {
    /// A total force spread evenly over a stretch.
    pub fn patch(total: f64, from: f64, to: f64) -> Self {
        if to > from {
            Self::Uniform { per_length: total / (to - from), from, to }
        } else {
            Self::Point { force: total, x: from }
        }
    }
}

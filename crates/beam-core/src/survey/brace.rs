//! Braces and trimmers.

use super::{Interval, LayerMaterial, ListedAlloy};
use crate::quantity::Length;

/// Cross-section of a member; depth is vertical.
#[derive(Debug, Clone, PartialEq)]
pub enum MemberSection {
    /// Rectangular tube.
    Tube {
        /// Row of the tables, if it came from one.
        id: Option<String>,
        /// Outside width.
        width: Length,
        /// Outside depth.
        depth: Length,
        /// Wall.
        wall: Length,
        /// Outside corner radius.
        corner: Length,
    },
    /// Solid rectangle.
    Solid {
        /// Width.
        width: Length,
        /// Depth.
        depth: Length,
    },
}

impl MemberSection {
    /// Outside width.
    pub fn width(&self) -> Length {
        match self {
            MemberSection::Tube { width, .. } | MemberSection::Solid { width, .. } => *width,
        }
    }
    /// Outside depth.
    pub fn depth(&self) -> Length {
        match self {
            MemberSection::Tube { depth, .. } | MemberSection::Solid { depth, .. } => *depth,
        }
    }
}

/// What a member is made of.
#[derive(Debug, Clone)]
pub enum MemberMaterial {
    /// An aluminium alloy of the tables.
    Alloy(Box<ListedAlloy>),
    /// Another material (wood, steel: response only).
    Other(LayerMaterial),
}

/// Where a brace sits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sits {
    /// Let into the foam.
    InTheFoam,
    /// Under the ceiling.
    UnderTheCeiling,
    /// On the inner skin, in the foam.
    OnTheInnerSkin,
}

/// Its sides.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sides {
    /// Foam glued against the tube.
    FoamGlued,
    /// Slot left open: the foam beside it is missing.
    SlotLeftOpen,
}

/// How it got its curve.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Formed {
    /// Bent to the crown.
    Bent,
    /// Sprung in.
    Sprung,
}

/// Glue between a brace and the layers it is bonded to.
#[derive(Debug, Clone)]
pub struct Glue {
    /// Product row of the tables.
    pub product: section_tables::Adhesive,
    /// Width of the bed.
    pub width: Length,
    /// Thickness of the bed.
    pub bed: Length,
    /// Share of the face really wetted, 0 to 1.
    pub coverage: f64,
}

/// How the ends land on the wall.
#[derive(Debug, Clone, PartialEq)]
pub struct Seat {
    /// Length of bearing on the ledger.
    pub bearing_length: Length,
    /// Number of screws at one end.
    pub screws: Option<u32>,
    /// Screw diameter.
    pub screw: Option<Length>,
    /// Edge distance.
    pub edge: Option<Length>,
}

/// A member that runs across, wall to wall, following the crown.
#[derive(Debug, Clone)]
pub struct Brace {
    /// Unique name.
    pub name: String,
    /// Cross-section.
    pub section: MemberSection,
    /// Material.
    pub material: MemberMaterial,
    /// Centre line.
    pub along: Length,
    /// Where it runs; 0 to span unless cut short.
    pub across: Interval,
    /// Where it sits.
    pub sits: Sits,
    /// Indices of the layers it is bonded to; empty: lies loose.
    pub glued: Vec<usize>,
    /// The glue, if given.
    pub glue: Option<Glue>,
    /// Its sides.
    pub sides: Sides,
    /// How it got its curve.
    pub formed: Formed,
    /// Already in the roof.
    pub existing: bool,
    /// Its seats, if given.
    pub seat: Option<Seat>,
    /// Across-positions of welds.
    pub welds: Vec<Length>,
}

/// Short member along, between two braces.
#[derive(Debug, Clone)]
pub struct Trimmer {
    /// Indices of the two braces.
    pub between: [usize; 2],
    /// Where across.
    pub across: Length,
    /// Cross-section.
    pub section: MemberSection,
    /// Material.
    pub material: MemberMaterial,
}

//! Shape of the roof and how its ends are held.

use crate::quantity::Length;

/// Family of construction: it decides which checks mean anything.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RoofKind {
    /// Skins bonded to foam, no framing.
    Laminated,
    /// Skins bonded to foam with timber or tube in it.
    LaminatedWithFraming,
    /// Rafters with a deck.
    RaftersAndDeck,
    /// Riveted metal shell on ribs.
    RivetedShell,
    /// Moulded glass-fibre shell.
    MouldedShell,
    /// Not known.
    NotKnown,
}

/// How the roof ends at front or rear.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// It runs on: no support counted.
    RunsOn,
    /// A partition that carries the roof, floor to roof.
    CrossWall,
}

/// Shape and ends of the roof.
#[derive(Debug, Clone, PartialEq)]
pub struct Roof {
    /// Family of construction.
    pub kind: RoofKind,
    /// Inside wall to inside wall, the smallest found.
    pub span: Length,
    /// Crown wanted; zero if flat.
    pub rise: Length,
    /// From the front mark to the end of what is looked at.
    pub length: Length,
    /// Front end.
    pub front: End,
    /// Rear end.
    pub rear: End,
}

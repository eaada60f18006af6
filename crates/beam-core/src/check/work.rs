//! What the workshop is told beside the verdict: how to glue, and what the roof asks of the side walls.

use super::{Bond, Finite};
use serde::Serialize;

/// How one brace is glued.
#[derive(Debug, Clone, Serialize)]
pub struct GlueWork {
    /// The brace.
    pub brace: String,
    /// The glue.
    pub product: String,
    /// What is glued to the brace: names of layers.
    pub to: Vec<String>,
    /// Area to be wetted, all faces, m2: width of the bed times length times coverage.
    pub area: Finite,
    /// Thickness of the bed, m.
    pub bed: Finite,
    /// Most that clamps may press on the foam while it cures, Pa; absent where its crush strength is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub clamp_at_most: Option<Finite>,
    /// Hours until it carries, at `cure_at` or warmer.
    pub cure_hours: Finite,
    /// Coldest at which it cures in that time, degrees Celsius.
    pub cure_at: Finite,
    /// Temperature above which it is not counted on, degrees Celsius.
    pub heat_limit: Finite,
    /// What heat, damp and gaps do to it.
    pub note: String,
}

/// What one brace puts on its two seats, the most over all loads and brackets.
#[derive(Debug, Clone, Serialize)]
pub struct SeatForces {
    /// The brace.
    pub brace: String,
    /// Largest push down on the left and the right seat, N.
    pub down: [Finite; 2],
    /// Largest pull up, N.
    pub up: [Finite; 2],
    /// The load of the largest push.
    pub load: String,
}

/// What the roof asks of its side walls, the most over all loads and brackets, braces as surveyed.
#[derive(Debug, Clone, Serialize)]
pub struct WallWork {
    /// Whether the braces' glue counts in it.
    pub bond: Bond,
    /// Push down on the left and the right wall spread over its length, braces' ends among it, N/m.
    pub down: [Finite; 2],
    /// Pull up, spread the same way, N/m.
    pub up: [Finite; 2],
    /// Thrust outward, N/m; 0 where walls are taken to give way.
    pub thrust: [Finite; 2],
    /// Seats.
    pub seats: Vec<SeatForces>,
}

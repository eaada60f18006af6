//! The result document of `walk`: SI throughout (m).

use serde::Serialize;

use crate::check::{At, Finite, MadeWith, NotChecked, ReadIn, Verdict, Words};

/// Every place of a regular raster, with the check that a person standing there uses most.
#[derive(Debug, Clone, Default, Serialize)]
pub struct Places {
    /// Lines of places from the left wall, m.
    pub across: Vec<Finite>,
    /// Lines of places from the front mark, m.
    pub along: Vec<Finite>,
    /// Worst ratio at each place, rows along; null: not a place to stand.
    pub ratio: Vec<Vec<Option<Finite>>>,
    /// The check it belongs to, an index into `checks`, rows along.
    pub check: Vec<Vec<Option<usize>>>,
    /// Names of checks.
    pub checks: Vec<String>,
    /// Whether a place is null because something needed could not be checked there; rows along.
    pub unknown: Vec<Vec<bool>>,
}

/// The place that uses most.
#[derive(Debug, Clone, Serialize)]
pub struct WorstPlace {
    /// Where the person stands, from the left wall, m.
    pub across: Finite,
    /// Where the person stands, from the front mark, m.
    pub along: Finite,
    /// Ratio with default materials.
    pub ratio: Finite,
    /// Ratio with low, default and high materials.
    pub ratio_by_materials: [Option<Finite>; 3],
    /// Check.
    pub check: String,
    /// Where the roof is used most.
    pub at: At,
}

/// A board to stand on.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WalkBoardWords {
    /// Size across, m, or along where it is turned.
    pub across: Finite,
    /// Size along, m.
    pub along: Finite,
    /// Thickness, m.
    pub thickness: Finite,
    /// Material.
    pub material: String,
}

/// Where somebody may stand in one stage.
#[derive(Debug, Clone, Serialize)]
pub struct StageAnswer {
    /// Stage.
    pub stage: String,
    /// "holds" without a board, "only on a board", "does not hold" or "cannot say".
    pub verdict: Verdict,
    /// In words.
    pub words: String,
}

/// The whole result of `walk`.
#[derive(Debug, Clone, Serialize)]
pub struct WalkDocument {
    /// Schema number: 1.
    pub schema: u32,
    /// What made it.
    pub made_with: MadeWith,
    /// Title of the survey.
    pub title: String,
    /// Quantities that people read it in; every number in the document is SI all the same.
    pub read_in: ReadIn,
    /// Stage of the map.
    pub stage: String,
    /// How people stand on the map: "bare" or "on a board".
    pub way: String,
    /// The board of the map, where people stand on one.
    pub surveyed_board: Option<WalkBoardWords>,
    /// Whether what was asked holds: everywhere outside the edge strip, as surveyed or on the board chosen.
    pub verdict: Verdict,
    /// As found, and the stage asked for.
    pub answers: Vec<StageAnswer>,
    /// The smallest stock board on which the roof holds everywhere outside the edge strip; null where none is needed,
    /// or none does.
    pub board: Option<WalkBoardWords>,
    /// In words, what `board` says.
    pub board_words: String,
    /// Strip along the edge of an opening where nobody stands, m; absent where there is no opening.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub edge_strip: Option<Finite>,
    /// The map.
    pub places: Places,
    /// The worst place of the map.
    pub worst: Option<WorstPlace>,
    /// Unknowns of the two-way model; 0 where nothing was solved.
    pub unknowns: u64,
    /// Checks not made.
    pub not_checked: Vec<NotChecked>,
    /// Assumptions.
    pub assumptions: Vec<Words>,
    /// Cautions.
    pub cautions: Vec<Words>,
}

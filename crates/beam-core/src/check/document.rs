//! The result document of `check`: SI throughout (m, N, N m, Pa, kg).
//!
//! Sag positive down; stress: tension positive; reactions positive up on the roof; thrust positive outward on the
//! wall; brace moment sagging positive; axial tension positive.

use super::{Finite, GlueWork, MadeWith, WallWork};
use serde::{Serialize, Serializer};

/// Verdict on a whole roof, or on one question.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Verdict {
    /// Everything asked was checked, and holds.
    #[serde(rename = "holds")]
    Holds,
    /// No new brace surveyed, and what fails is what bracing cures.
    #[serde(rename = "brace needed")]
    BraceNeeded,
    /// New braces surveyed, and what bracing cures still fails, or the brace, its glue or its seat fails.
    #[serde(rename = "brace too weak")]
    BraceTooWeak,
    /// Something fails that bracing does not cure.
    #[serde(rename = "does not hold")]
    DoesNotHold,
    /// Nothing fails for sure, but something required is not known.
    #[serde(rename = "cannot say")]
    CannotSay,
    /// Only where a board spreads the foot (answers only).
    #[serde(rename = "only on a board")]
    OnlyOnABoard,
}

impl Verdict {
    /// The words of the contract.
    pub fn words(self) -> &'static str {
        match self {
            Verdict::Holds => "holds",
            Verdict::BraceNeeded => "brace needed",
            Verdict::BraceTooWeak => "brace too weak",
            Verdict::DoesNotHold => "does not hold",
            Verdict::CannotSay => "cannot say",
            Verdict::OnlyOnABoard => "only on a board",
        }
    }
}

/// Answer to one plain question.
#[derive(Debug, Clone, Serialize)]
pub struct QuestionAnswer {
    /// "unit parked", "unit on the road", "standing without a board", "standing on a board", "a foot at the edge of the
    /// opening", "the board over an opening" (how it bends there), "sag now", "sag later", "braces", "ends", "wall thrust" (where the walls' hold is surveyed), "props".
    pub question: String,
    /// Its verdict.
    pub verdict: Verdict,
    /// The check that decides.
    pub check: Option<String>,
    /// Its ratio.
    pub ratio: Option<Finite>,
    /// In words, with what and where.
    pub words: String,
}

/// The check that decides the verdict.
#[derive(Debug, Clone, Serialize)]
pub struct Governing {
    /// Check.
    pub check: String,
    /// Part of the roof.
    pub part: String,
    /// Load.
    pub load: String,
    /// Stage.
    pub stage: String,
    /// Demand times model factor over limit.
    pub ratio: Finite,
}

/// A place on the roof, m.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct At {
    /// From the inside face of the left wall.
    pub across: Finite,
    /// From the front mark.
    pub along: Finite,
}

/// Where a limit comes from.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BasisWords {
    /// Source: rule, clause, author.
    pub source: String,
    /// "published", "computed", "memory" or "practice".
    pub kind: String,
}

/// One check, at its worst load, place and material bracket.
#[derive(Debug, Clone, Serialize)]
pub struct CheckRow {
    /// Check.
    pub check: String,
    /// Whether a brace can change it: what a foot or a rim presses into the foam it cannot.
    pub moved_by_bracing: bool,
    /// Part.
    pub part: String,
    /// Stage.
    pub stage: String,
    /// Load.
    pub load: String,
    /// "with" or "without" the new braces.
    pub bracing: Bracing,
    /// Worst place.
    pub at: At,
    /// Demand.
    pub demand: Finite,
    /// Limit.
    pub limit: Finite,
    /// SI symbol of both.
    pub si: String,
    /// Demand times model factor over limit.
    pub ratio: Finite,
    /// holds, does not hold, or cannot say where the material brackets disagree.
    pub verdict: Verdict,
    /// Whether the verdict rests on it: a bare foot's dent does not where people stand on a board only.
    pub counts: bool,
    /// Material bracket at which the worst was found.
    pub materials: Materials,
    /// Ratio in each material bracket: low, default, high.
    pub ratio_by_materials: [Finite; 3],
    /// Where the limit comes from.
    pub basis: BasisWords,
}

/// With or without the new braces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Bracing {
    /// With them.
    With,
    /// Without them, their slots refilled.
    Without,
}

/// Bond of the braces in a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Bond {
    /// Glue as surveyed.
    Full,
    /// The braces share the sag only.
    None,
}

/// Material bracket.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Materials {
    /// Low stiffness, low strength.
    Low,
    /// Default stiffness, default strength.
    Default,
    /// High stiffness, low strength.
    High,
}

impl Materials {
    /// The three brackets in order.
    pub const ALL: [Materials; 3] = [Materials::Low, Materials::Default, Materials::High];
}

/// Model of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Model {
    /// The strip.
    Strip,
    /// The two-way plate.
    Plate,
}

/// Largest sag and its place.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct SagMax {
    /// Sag.
    pub value: Finite,
    /// Across.
    pub across: Finite,
    /// Along.
    pub along: Finite,
}

/// Stress in one layer at its mid-thickness.
#[derive(Debug, Clone, Serialize)]
pub struct LayerStress {
    /// Layer name.
    pub name: String,
    /// Across.
    pub sx: Finite,
    /// Along.
    pub sy: Finite,
    /// Shear.
    pub sxy: Finite,
}

/// Shear stress in the core.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct CoreShear {
    /// In the plane across.
    pub xz: Finite,
    /// In the plane along.
    pub yz: Finite,
}

/// What happens at a reading.
#[derive(Debug, Clone, Serialize)]
pub struct ReadingResult {
    /// Name.
    pub name: String,
    /// Sag.
    pub sag: Finite,
    /// Layer stresses; empty where there is no roof (over an opening).
    pub layers: Vec<LayerStress>,
    /// Core shear; absent where there is no core.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub core_shear: Option<CoreShear>,
}

/// What one brace does.
#[derive(Debug, Clone, Serialize)]
pub struct BraceResult {
    /// Name.
    pub name: String,
    /// Axial force at its middle.
    pub mid_axial: Finite,
    /// Moment at its middle.
    pub mid_moment: Finite,
    /// Largest stress.
    pub max_stress: Finite,
    /// Where across.
    pub max_at: Finite,
    /// End reactions, left and right.
    pub end_reactions: [Finite; 2],
}

/// Reactions at the walls.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Walls {
    /// Left.
    pub left: Finite,
    /// Right.
    pub right: Finite,
    /// Front.
    pub front: Finite,
    /// Rear.
    pub rear: Finite,
    /// Thrust on the left wall, outward positive.
    pub left_thrust: Finite,
    /// Thrust on the right wall, outward positive.
    pub right_thrust: Finite,
}

/// Load against reaction, and the residual of the solution.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Balance {
    /// Load.
    pub load: Finite,
    /// Sum of reactions.
    pub reaction: Finite,
    /// Relative residual.
    pub residual: Finite,
}

/// One solved run.
#[derive(Debug, Clone, Serialize)]
pub struct Run {
    /// Stage.
    pub stage: String,
    /// Load.
    pub load: String,
    /// With or without new braces.
    pub bracing: Bracing,
    /// Bond.
    pub bond: Bond,
    /// Materials.
    pub materials: Materials,
    /// Model.
    pub model: Model,
    /// Whether the walls' sideways hold was counted: where one is surveyed, every run is told with it and without.
    pub thrust: bool,
    /// Largest sag.
    pub sag_max: SagMax,
    /// Readings.
    pub readings: Vec<ReadingResult>,
    /// Braces.
    pub braces: Vec<BraceResult>,
    /// Walls.
    pub walls: Walls,
    /// Balance.
    pub balance: Balance,
}

/// A measured dip beside the computed one.
#[derive(Debug, Clone, Serialize)]
pub struct MeasuredAgainst {
    /// Reading.
    pub name: String,
    /// Measured.
    pub measured: Finite,
    /// Computed with default materials.
    pub computed: Finite,
    /// What that means.
    pub words: String,
}

/// A check that was not made.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct NotChecked {
    /// Check.
    pub check: String,
    /// Part.
    pub part: String,
    /// Why.
    pub why: String,
    /// Whether it keeps the verdict from "holds".
    pub blocks: bool,
}

/// A sentence with a stable code.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Words {
    /// Stable code.
    pub code: String,
    /// The sentence.
    pub words: String,
}

/// Sag in the cases people ask about, default materials.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct SagSummary {
    /// Unit and own weight, first day, with the new braces.
    pub now_with: Option<Finite>,
    /// The same without them.
    pub now_without: Option<Finite>,
    /// After years, with the new braces.
    pub later_with: Option<Finite>,
    /// The same without them.
    pub later_without: Option<Finite>,
}

/// How far the deciding ratio rests on the grid.
#[derive(Debug, Clone, Serialize)]
pub struct GridWords {
    /// Unknowns of the two-way model.
    pub unknowns: u64,
    /// The check compared.
    pub check: String,
    /// Relative movement of its ratio between this grid and one twice as fine.
    pub moves: Finite,
}

/// The pencil check: one strip, beside the two-way roof.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct PencilWords {
    /// Largest sag of the strip, first day.
    pub strip_sag: Finite,
    /// Largest sag of the two-way roof, first day.
    pub two_way_sag: Finite,
    /// Strip over two-way, less one.
    pub difference: Finite,
}

/// Family of quantities that people read the answer in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ReadIn(pub crate::quantity::Family);

impl Serialize for ReadIn {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.serialize_str(match self.0 {
            crate::quantity::Family::Inch => "in",
            crate::quantity::Family::Metric => "mm",
        })
    }
}

/// The whole result of `check`.
#[derive(Debug, Clone, Serialize)]
pub struct CheckDocument {
    /// Schema number: 1.
    pub schema: u32,
    /// What made it.
    pub made_with: MadeWith,
    /// Title of the survey.
    pub title: String,
    /// Quantities that people read it in; every number in the document is SI all the same.
    pub read_in: ReadIn,
    /// Stage judged.
    pub stage: String,
    /// Verdict.
    pub verdict: Verdict,
    /// Whether the same roof without its new braces fails a check that bracing cures.
    pub brace_needed: Option<bool>,
    /// What the verdict is for, and what not.
    pub scope: String,
    /// Why, in one or two sentences.
    pub why: String,
    /// Plain answers.
    pub answers: Vec<QuestionAnswer>,
    /// The check that decides.
    pub governing: Option<Governing>,
    /// Numbered steps for the technician; the first settles a "cannot say".
    pub next_steps: Vec<Words>,
    /// How each glued brace is glued.
    pub glue: Vec<GlueWork>,
    /// What the roof asks of its side walls; absent where nothing was solved.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub walls: Option<WallWork>,
    /// Sag now and later, with and without braces.
    pub sag: SagSummary,
    /// Measured against computed.
    pub measured: Vec<MeasuredAgainst>,
    /// How far the deciding ratio rests on the grid; absent where nothing was solved.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grid: Option<GridWords>,
    /// The pencil check beside it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pencil: Option<PencilWords>,
    /// Checks, worst first.
    pub checks: Vec<CheckRow>,
    /// What governs, worked through; empty where it was not asked for.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub working: Vec<super::Working>,
    /// Runs.
    pub runs: Vec<Run>,
    /// Checks not made.
    pub not_checked: Vec<NotChecked>,
    /// Assumptions.
    pub assumptions: Vec<Words>,
    /// Cautions.
    pub cautions: Vec<Words>,
}

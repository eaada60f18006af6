//! What was measured: the survey file, read as a neutral tree, taken apart key by key, every problem collected.
//!
//! This room never guesses a missing value in silence (each default is recorded in [`Survey::givens`]) and never
//! applies a factor.

mod alloy;
mod brace;
mod codes;
mod conditions;
mod damage;
mod layer;
mod load;
mod material;
mod opening;
mod person;
mod place;
mod problem;
mod read;
mod reading;
mod roof;
mod source;
mod stage;
mod take;
mod tree;
mod unit;
mod wall;

pub use alloy::ListedAlloy;
pub use brace::*;
pub use codes::{PROBLEM_CODES, problem_words};
pub use conditions::*;
pub use damage::*;
pub use layer::*;
pub use load::*;
pub use material::*;
pub use opening::*;
pub use person::*;
pub use place::*;
pub use problem::{Problem, Problems};
pub use reading::*;
pub use roof::*;
pub use source::{LARGEST_SURVEY, read_path, read_text};
pub use stage::*;
pub use unit::*;
pub use wall::*;

use crate::quantity::Family;

/// One roof as surveyed: checked values, names resolved against the tables.
#[derive(Debug, Clone)]
pub struct Survey {
    /// Title of the job.
    pub title: String,
    /// Quantities the answers come in (the declared `lengths`, or those of the span).
    pub family: Family,
    /// Shape and ends.
    pub roof: Roof,
    /// Layers from the weather side down; at least one where the roof is laminated.
    pub layers: Vec<Layer>,
    /// Id of the build-up named by `like`, if the layers came from one.
    pub like: Option<String>,
    /// Openings.
    pub openings: Vec<Opening>,
    /// Damaged patches.
    pub damages: Vec<Damage>,
    /// Duct and wire ways in the core.
    pub slots: Vec<Slot>,
    /// Joints in skins.
    pub joints: Vec<Joint>,
    /// Braces, new and existing.
    pub braces: Vec<Brace>,
    /// Short members along, between two braces.
    pub trimmers: Vec<Trimmer>,
    /// What braces and panel land on.
    pub wall: Wall,
    /// The rooftop unit, if any.
    pub unit: Option<Unit>,
    /// The person who will stand on the roof.
    pub person: Person,
    /// Further loads.
    pub loads: Vec<Load>,
    /// Road, weather, service life.
    pub conditions: Conditions,
    /// Limits chosen by the user.
    pub limits: Limits,
    /// Order of work.
    pub stages: Vec<Stage>,
    /// Places where an answer is wanted.
    pub readings: Vec<Reading>,
    /// Every value with what was typed and where it came from, in the order of the file.
    pub givens: Vec<Given>,
    /// FNV-1a hash of the survey text, 16 hex digits.
    pub hash: String,
}

/// Where one value of the survey came from.
#[derive(Debug, Clone, PartialEq)]
pub struct Given {
    /// Dotted key, e.g. `opening.1.across.1` or `roof.span`.
    pub key: String,
    /// As typed; empty for a default.
    pub typed: String,
    /// In SI, where it is a quantity.
    pub si: Option<f64>,
    /// SI symbol of `si`; empty where there is none.
    pub unit: &'static str,
    /// Origin.
    pub from: Origin,
}

/// Origin of a value.
#[derive(Debug, Clone, PartialEq)]
pub enum Origin {
    /// A line of the survey file (1-based).
    Line(usize),
    /// A default: the words say which and why.
    Default {
        /// Stable code, e.g. `default-person`.
        code: &'static str,
        /// One sentence for the technician.
        words: String,
    },
    /// A build-up of the tables (`like`), by id.
    BuildUp(String),
}

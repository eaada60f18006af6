//! Text for people: answer first, words before numbers, each number with its unit.

mod answer;
mod bend;
mod brace;
mod checks;
mod drawing;
mod explain;
mod layers;
mod page;
mod plan;
mod seat;
mod sheet;
mod size;
mod style;
mod table;
mod table_rows;
mod tube;
mod walk;
mod work;
mod working;

pub(crate) use answer::check;
pub(crate) use bend::bend;
pub(crate) use brace::brace;
pub(crate) use explain::explain;
pub(crate) use plan::plan;
pub(crate) use seat::seat;
pub(crate) use sheet::blank_sheet;
pub(crate) use size::{size, size_alone};
pub(crate) use table_rows::tables;
pub(crate) use tube::tube;
pub(crate) use walk::walk;

//! Text for people: answer first, words before numbers, each number with its unit.

mod answer;
mod bend;
mod brace;
mod checks;
mod drawing;
mod layers;
mod page;
mod plan;
mod sheet;
mod style;
mod table;
mod table_rows;
mod tube;
mod walk;
mod work;

pub(crate) use answer::check;
pub(crate) use bend::bend;
pub(crate) use brace::brace;
pub(crate) use plan::plan;
pub(crate) use sheet::blank_sheet;
pub(crate) use table_rows::tables;
pub(crate) use tube::tube;
pub(crate) use walk::walk;

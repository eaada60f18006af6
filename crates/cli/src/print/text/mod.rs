//! Text for people: answer first, words before numbers, each number with its unit.

mod answer;
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

pub(crate) use answer::check;
pub(crate) use brace::brace;
pub(crate) use plan::plan;
pub(crate) use sheet::blank_sheet;
pub(crate) use table_rows::tables;

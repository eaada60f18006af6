//! A shop's own tables on the command line.

use std::borrow::Cow;
use std::path::PathBuf;

use clap::Args;
use section_tables::Tables;

use crate::command::{Refusal, refuse};
use crate::exit::Exit;

/// Where a shop keeps its own rows.
#[derive(Debug, Args)]
pub(crate) struct OwnTables {
    /// Folder of a shop's own tables
    ///
    /// CSV files by the names and columns of the shipped ones ("tubes/metric.csv", "materials/strength.csv"). Their
    /// rows are added to the shipped ones and replace none; the answer says which they are.
    #[arg(long = "tables", value_name = "DIR", hide_short_help = true)]
    folder: Option<PathBuf>,
}

impl OwnTables {
    /// The shipped tables, with the shop's rows where there are any.
    pub(crate) fn read(&self) -> Result<Cow<'static, Tables>, Refusal> {
        let Some(folder) = &self.folder else { return Ok(Cow::Borrowed(Tables::shipped())) };
        Tables::read_dir(folder).map(Cow::Owned).map_err(|error| {
            let count = match error.faults.len() {
                1 => "1 fault".to_owned(),
                many => format!("{many} faults"),
            };
            refuse(Exit::WrongInput, &format!("the tables in {} have {count}:\n{error}", folder.display()))
        })
    }
}

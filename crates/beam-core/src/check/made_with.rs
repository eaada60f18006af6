//! What made a document, and whose numbers are in it.

use super::Words;
use section_tables::Tables;
use serde::Serialize;

/// What made the document.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct MadeWith {
    /// Version of the library.
    pub version: String,
    /// Edition of the tables; with a shop's own rows among them, their folder too.
    pub tables: String,
    /// Rule books used.
    pub rules: Vec<String>,
    /// Hash of the survey text; absent where there is no survey.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub survey_hash: Option<String>,
}

impl MadeWith {
    /// This library with these tables, by these rule books, from a survey with this hash.
    pub fn new(tables: &Tables, rules: &[&str], survey_hash: Option<&str>) -> Self {
        let edition = match &tables.own {
            None => Tables::version().to_owned(),
            Some(own) => format!("{} with the shop's own rows in {}", Tables::version(), own.folder),
        };
        Self {
            version: env!("CARGO_PKG_VERSION").to_owned(),
            tables: edition,
            rules: rules.iter().map(|rule| (*rule).to_owned()).collect(),
            survey_hash: survey_hash.map(str::to_owned),
        }
    }
}

/// Which rows are a shop's own, for the assumptions; none where all are shipped.
pub fn own_tables(tables: &Tables) -> Option<Words> {
    tables.own.as_ref().map(|own| Words {
        code: "own-tables".to_owned(),
        words: format!(
            "Rows of the shop's own are read from {}: {own}. Only the shop answers for them; limits that rest on one are \
             marked so.",
            own.folder
        ),
    })
}

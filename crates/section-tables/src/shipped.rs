//! The data files that are built into the crate.

use crate::read::DataFile;

macro_rules! shipped {
    ($($file:literal),* $(,)?) => {
        /// Every data file: its path under `data/`, and its text.
        pub(crate) const SHIPPED: &[(&str, &str)] = &[$(($file, include_str!(concat!("../data/", $file)))),*];
    };
}

shipped![
    "sources.csv",
    "alloys/adm_2020.csv",
    "alloys/en_1999_1_1.csv",
    "alloys/yield_met.csv",
    "tubes/inch.csv",
    "tubes/metric.csv",
    "materials/names.csv",
    "materials/stiffness.csv",
    "materials/strength.csv",
    "materials/density.csv",
    "materials/ratios.csv",
    "materials/thermal.csv",
    "buildups.csv",
    "damage.csv",
    "adhesives.csv",
    "factors.csv",
    "walk_boards.csv",
    "rack.csv",
    "dies.csv",
];

/// The shipped files, ready to read.
pub(crate) fn shipped_files() -> Vec<DataFile> {
    SHIPPED
        .iter()
        .map(|(table, text)| DataFile {
            table,
            shown_as: format!("data/{table}"),
            own: false,
            text: (*text).to_owned(),
        })
        .collect()
}

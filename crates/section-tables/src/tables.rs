//! All tables together, and how to ask them.

use std::path::Path;
use std::sync::LazyLock;

use crate::lookup::find;
use crate::shipped::{SHIPPED, shipped_files};
use crate::{
    Adhesive, Alloy, BuildUp, DamageState, Factor, Fault, LoadError, Material, NotFound, Source, Tube, load,
    read::DataFile,
};

static TABLES: LazyLock<Tables> =
    LazyLock::new(|| load::load(&shipped_files()).unwrap_or_else(|error| panic!("{error}")));

/// Every table, read and cross-checked: each number has a known source, each name belongs to one row.
///
/// Names are found whatever their case, blanks, hyphens or `×` for `x`; a name that is only similar is
/// an error that says what is near.
#[derive(Debug, Clone, PartialEq)]
pub struct Tables {
    /// Where the numbers come from.
    pub sources: Vec<Source>,
    /// Aluminium alloys and tempers.
    pub alloys: Vec<Alloy>,
    /// Stock tubes, inch sizes first.
    pub tubes: Vec<Tube>,
    /// Skins, cores and blocking.
    pub materials: Vec<Material>,
    /// Build-ups met on the job.
    pub buildups: Vec<BuildUp>,
    /// States of damage.
    pub damage: Vec<DamageState>,
    /// Glues.
    pub adhesives: Vec<Adhesive>,
    /// Safety, duration and load factors.
    pub factors: Vec<Factor>,
}

impl Tables {
    /// The tables that come with this crate.
    pub fn shipped() -> &'static Self {
        &TABLES
    }

    /// The issue of the shipped tables: it changes when a number does.
    pub fn version() -> &'static str {
        "2026.1"
    }

    /// The shipped tables with a shop's own rows added.
    ///
    /// The folder holds any of the shipped files by the same names and columns
    /// (`alloys/adm_2020.csv`, `tubes/metric.csv`, ...). Own sources go in its `sources.csv`.
    ///
    /// # Errors
    /// Every fault of every file at once: a file that is not a table's, a column unknown, missing or
    /// doubled, a number that is not one, a band out of order, a source that is not listed, a name that
    /// another row (a shipped one too) already has.
    pub fn read_dir(folder: impl AsRef<Path>) -> Result<Self, LoadError> {
        let (own, faults) = own_files(folder.as_ref());
        if !faults.is_empty() {
            return Err(LoadError { faults });
        }
        load::load(&[shipped_files(), own].concat())
    }

    /// # Errors
    /// [`NotFound`] with the near names.
    pub fn source(&self, key: &str) -> Result<&Source, NotFound> {
        find(&self.sources, "source", key)
    }

    /// # Errors
    /// [`NotFound`] with the near names.
    pub fn alloy(&self, name: &str) -> Result<&Alloy, NotFound> {
        find(&self.alloys, "alloy", name)
    }

    /// # Errors
    /// [`NotFound`] with the near names.
    pub fn tube(&self, name: &str) -> Result<&Tube, NotFound> {
        find(&self.tubes, "tube", name)
    }

    /// # Errors
    /// [`NotFound`] with the near names.
    pub fn material(&self, name: &str) -> Result<&Material, NotFound> {
        find(&self.materials, "material", name)
    }

    /// # Errors
    /// [`NotFound`] with the near names.
    pub fn buildup(&self, name: &str) -> Result<&BuildUp, NotFound> {
        find(&self.buildups, "build-up", name)
    }

    /// # Errors
    /// [`NotFound`] with the near names.
    pub fn damage_state(&self, name: &str) -> Result<&DamageState, NotFound> {
        find(&self.damage, "state of damage", name)
    }

    /// # Errors
    /// [`NotFound`] with the near names.
    pub fn adhesive(&self, name: &str) -> Result<&Adhesive, NotFound> {
        find(&self.adhesives, "adhesive", name)
    }

    /// # Errors
    /// [`NotFound`] with the near keys.
    pub fn factor(&self, key: &str) -> Result<&Factor, NotFound> {
        find(&self.factors, "factor", key)
    }
}

/// The files of a shop's folder, and what in it is no table.
fn own_files(folder: &Path) -> (Vec<DataFile>, Vec<Fault>) {
    let (mut files, mut faults) = (Vec::new(), Vec::new());
    let mut folders = vec![folder.to_path_buf()];
    while let Some(inside) = folders.pop() {
        let fault = |path: &Path, why: String| Fault {
            file: path.display().to_string(),
            line: 0,
            value: "file".into(),
            why,
        };
        let entries = match std::fs::read_dir(&inside).and_then(|all| all.collect::<Result<Vec<_>, _>>()) {
            Ok(entries) => entries,
            Err(error) => {
                faults.push(fault(&inside, error.to_string()));
                continue;
            }
        };
        let mut paths: Vec<_> = entries.iter().map(std::fs::DirEntry::path).collect();
        paths.sort();
        for path in paths {
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            if path.extension().is_none_or(|ending| ending != "csv") {
                continue;
            }
            let table = SHIPPED.iter().map(|(table, _)| *table).find(|table| folder.join(table) == path);
            match (table, std::fs::read_to_string(&path)) {
                (Some(table), Ok(text)) => {
                    files.push(DataFile { table, shown_as: path.display().to_string(), text });
                }
                (Some(_), Err(error)) => faults.push(fault(&path, error.to_string())),
                (None, _) => {
                    let known: Vec<_> = SHIPPED.iter().map(|(table, _)| *table).collect();
                    faults.push(fault(&path, format!("is no table; the tables are {}", known.join(", "))));
                }
            }
        }
    }
    (files, faults)
}

//! All tables together, and how to ask them.

use std::path::Path;
use std::sync::LazyLock;

use crate::lookup::find;
use crate::shipped::shipped_files;
use crate::{
    Adhesive, Alloy, BuildUp, DamageState, Die, EnAlloy, Factor, LoadError, Material, NotFound, OwnRows,
    RackTube, Source, Tube, WalkBoard, YieldMet, load, own_files,
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
    /// The same by EN 1999-1-1; not every alloy stands in both.
    pub en_alloys: Vec<EnAlloy>,
    /// Yield strengths as met; not every alloy has one.
    pub yields_met: Vec<YieldMet>,
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
    /// Boards to stand on, the default first.
    pub walk_boards: Vec<WalkBoard>,
    /// What lies on a shop's rack; none in the shipped tables.
    pub rack: Vec<RackTube>,
    /// What a shop's bender takes; none in the shipped tables.
    pub dies: Vec<Die>,
    /// Which rows are a shop's own; none in the shipped tables.
    pub own: Option<OwnRows>,
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
    /// (`alloys/adm_2020.csv`, `tubes/metric.csv`, ...). Own sources go in its `sources.csv`. Whatever grade a row
    /// claims, here it is [`SourceKind::Own`](crate::SourceKind::Own), the weakest. Nothing shipped is replaced.
    ///
    /// # Errors
    /// Every fault of every file at once: a folder without tables, a file that is none, a column unknown, missing or
    /// doubled, a number that is not one, a band out of order, a source that is not listed, a name that
    /// another row (a shipped one too) already has.
    pub fn read_dir(folder: impl AsRef<Path>) -> Result<Self, LoadError> {
        let (own, faults) = own_files::read(folder.as_ref());
        if !faults.is_empty() {
            return Err(LoadError { faults });
        }
        let mut tables = load::load(&[shipped_files(), own].concat())?;
        if let Some(own) = &mut tables.own {
            own.folder = folder.as_ref().display().to_string();
        }
        Ok(tables)
    }

    /// The document or habit behind a source key.
    ///
    /// # Errors
    /// [`NotFound`] with the near names.
    pub fn source(&self, key: &str) -> Result<&Source, NotFound> {
        find(&self.sources, "source", key)
    }

    /// An alloy and temper, with the strengths of the Aluminum Design Manual.
    ///
    /// # Errors
    /// [`NotFound`] with the near names.
    pub fn alloy(&self, name: &str) -> Result<&Alloy, NotFound> {
        find(&self.alloys, "alloy", name)
    }

    /// An alloy and temper, with the strengths of EN 1999-1-1.
    ///
    /// # Errors
    /// [`NotFound`] with the near names.
    pub fn en_alloy(&self, name: &str) -> Result<&EnAlloy, NotFound> {
        find(&self.en_alloys, "alloy of EN 1999-1-1", name)
    }

    /// The yield strengths an alloy is met with.
    ///
    /// # Errors
    /// [`NotFound`]: the alloy has no row, whether it is known or not.
    pub fn yield_met(&self, alloy: &Alloy) -> Result<&YieldMet, NotFound> {
        find(&self.yields_met, "yield strength as met", &alloy.id)
    }

    /// A stock tube.
    ///
    /// # Errors
    /// [`NotFound`] with the near names.
    pub fn tube(&self, name: &str) -> Result<&Tube, NotFound> {
        find(&self.tubes, "tube", name)
    }

    /// A skin, core or blocking material.
    ///
    /// # Errors
    /// [`NotFound`] with the near names.
    pub fn material(&self, name: &str) -> Result<&Material, NotFound> {
        find(&self.materials, "material", name)
    }

    /// A build-up, layers from the weather side down.
    ///
    /// # Errors
    /// [`NotFound`] with the near names.
    pub fn buildup(&self, name: &str) -> Result<&BuildUp, NotFound> {
        find(&self.buildups, "build-up", name)
    }

    /// A state of damage.
    ///
    /// # Errors
    /// [`NotFound`] with the near names.
    pub fn damage_state(&self, name: &str) -> Result<&DamageState, NotFound> {
        find(&self.damage, "state of damage", name)
    }

    /// A glue.
    ///
    /// # Errors
    /// [`NotFound`] with the near names.
    pub fn adhesive(&self, name: &str) -> Result<&Adhesive, NotFound> {
        find(&self.adhesives, "adhesive", name)
    }

    /// A factor or standing number.
    ///
    /// # Errors
    /// [`NotFound`] with the near keys.
    pub fn factor(&self, key: &str) -> Result<&Factor, NotFound> {
        find(&self.factors, "factor", key)
    }

    /// A board to stand on.
    ///
    /// # Errors
    /// [`NotFound`] with the near names.
    pub fn walk_board(&self, name: &str) -> Result<&WalkBoard, NotFound> {
        find(&self.walk_boards, "walk board", name)
    }
}

//! From data files to checked tables. Every fault is collected; one is enough to refuse all.

use std::collections::BTreeMap;

use serde::de::DeserializeOwned;

use crate::lookup::{Named, find};
use crate::read::{self, DataFile, Place, Row};
use crate::value::keys;
use crate::{Alloy, Factor, Fault, LoadError, Material, OwnRows, Source, SourceKind, Tables, Value};

mod adhesives;
mod buildups;
mod damage;
mod dies;
mod en_alloys;
mod materials;
mod rack;
mod tubes;
mod walk_boards;
mod yields_met;

/// Reads and cross-checks every table.
pub(crate) fn load(files: &[DataFile]) -> Result<Tables, LoadError> {
    let own = files.iter().any(|file| file.own).then(OwnRows::default);
    let mut loader = Loader { files, grades: BTreeMap::new(), faults: Vec::new(), own };
    let sources = loader.sources();
    let alloys = loader.alloys();
    let yields_met = yields_met::read(&mut loader, &alloys);
    let materials = materials::read(&mut loader);
    let buildups = buildups::read(&mut loader, &materials);
    let walk_boards = walk_boards::read(&mut loader, &materials);
    let tubes = tubes::read(&mut loader);
    let rack = rack::read(&mut loader, &tubes, &alloys);
    let tables = Tables {
        sources,
        alloys,
        yields_met,
        en_alloys: en_alloys::read(&mut loader),
        tubes,
        materials,
        buildups,
        damage: damage::read(&mut loader),
        adhesives: adhesives::read(&mut loader),
        factors: loader.factors(),
        walk_boards,
        rack,
        dies: dies::read(&mut loader),
        own: None,
    };
    let tables = Tables { own: loader.own.take(), ..tables };
    if loader.faults.is_empty() { Ok(tables) } else { Err(LoadError { faults: loader.faults }) }
}

struct Loader<'a> {
    files: &'a [DataFile],
    grades: BTreeMap<String, SourceKind>,
    faults: Vec<Fault>,
    own: Option<OwnRows>,
}

impl Loader<'_> {
    fn rows<R: DeserializeOwned>(&mut self, table: &'static str, columns: &[&str]) -> Vec<Row<R>> {
        let rows = read::rows(self.files, table, columns, &mut self.faults);
        if let Some(own) = &mut self.own {
            for row in rows.iter().filter(|row| row.place.own) {
                own.add(table, &row.place.name);
            }
        }
        rows
    }

    fn fault(&mut self, place: &Place, value: impl Into<String>, why: impl Into<String>) {
        self.faults.push(place.fault(value, why));
    }

    fn sources(&mut self) -> Vec<Source> {
        let columns = ["key", "author", "year", "title", "place", "licence_note", "kind"];
        let rows = self.rows::<Source>("sources.csv", &columns);
        self.grades = rows.iter().map(|row| (row.cells.key.clone(), row.cells.kind)).collect();
        self.unique(rows)
    }

    fn alloys(&mut self) -> Vec<Alloy> {
        let columns = [
            "id",
            "names",
            "product",
            "wall_min_in",
            "wall_max_in",
            "f_tu_ksi",
            "f_ty_ksi",
            "f_cy_ksi",
            "f_tuw_ksi",
            "f_tyw_ksi",
            "k_t",
            "e_ksi",
            "g_ksi",
            "density_lb_in3",
            "elongation_percent",
            "source",
            "kind",
            "note",
        ];
        let mut rows = self.rows::<Alloy>("alloys/adm_2020.csv", &columns);
        for Row { place, cells: alloy } in &mut rows {
            alloy.kind = self.origin(place, &alloy.source, alloy.kind);
            if alloy.wall_min_in > alloy.wall_max_in {
                self.fault(place, &alloy.id, "wall_min_in is more than wall_max_in");
            }
        }
        self.unique(rows)
    }

    fn factors(&mut self) -> Vec<Factor> {
        let mut rows =
            self.rows::<Factor>("factors.csv", &["key", "value", "unit", "source", "kind", "note"]);
        for Row { place, cells: factor } in &mut rows {
            factor.kind = self.origin(place, &factor.source, factor.kind);
        }
        self.unique(rows)
    }

    /// Sources must be listed, and no number can be graded better than the weakest of them. Answers the grade that
    /// stands: a shop's own row is its own, whatever it claims.
    fn origin(&mut self, place: &Place, source: &str, kind: SourceKind) -> SourceKind {
        if keys(source).next().is_none() {
            self.fault(place, "source", "is empty; every number names a key of sources.csv");
        }
        for key in keys(source) {
            match self.grades.get(key).copied() {
                None => self.fault(place, key, "is no key of sources.csv"),
                Some(grade) if kind < grade => {
                    self.fault(place, kind.to_string(), format!("is a better grade than {key} has, {grade}"));
                }
                Some(_) => {}
            }
        }
        if place.own { SourceKind::Own } else { kind }
    }

    /// A row may only name a material by its id.
    fn known_material(&mut self, place: &Place, id: &str, materials: &[Material]) {
        if materials.iter().any(|material| material.id == id) {
            return;
        }
        let why = match find(materials, "material", id) {
            Ok(material) => format!("write the id, \"{}\"", material.id),
            Err(error) => error.to_string(),
        };
        self.fault(place, id, why);
    }

    /// A low, default and high number in that order.
    fn band(
        &mut self,
        place: &Place,
        what: &str,
        [low, default, high]: [f64; 3],
        source: &str,
        kind: SourceKind,
    ) -> Value {
        if low > default || default > high {
            self.fault(
                place,
                format!("{what} {low}, {default}, {high}"),
                "must not fall from low over default to high",
            );
        }
        Value { low, default, high, source: source.to_owned(), kind }
    }

    /// Each id and other name must belong to one row only, spelling evened out.
    fn unique<T: Named>(&mut self, rows: Vec<Row<T>>) -> Vec<T> {
        let mut owners: BTreeMap<String, String> = BTreeMap::new();
        for Row { place, cells } in &rows {
            if cells.id().is_empty() {
                self.fault(place, "id", "is empty");
            }
            for name in cells.spellings() {
                if let Some(owner) = owners.insert(name.clone(), cells.id().to_owned()) {
                    self.fault(place, name, format!("is a name of \"{owner}\" already"));
                }
            }
        }
        rows.into_iter().map(|row| row.cells).collect()
    }
}

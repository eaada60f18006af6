//! The tables as people read them: names, values under a heading with the unit, kind and source of each row.

use beam_core::check::own_tables;
use clap::ValueEnum;
use section_tables::{Tables, Tube, TubeSystem, Value};

mod alloys;

use super::page::Page;
use super::table::{Set, Table};
use crate::args::TableName;

/// Lays out one table, or the list of all, in so many columns.
pub(crate) fn tables(tables: &Tables, which: Option<TableName>, width: usize) -> String {
    let mut page = Page::new(width);
    let mut cited = Cited::default();
    match which {
        None => overview(&mut page, tables),
        Some(TableName::Alloys) => alloys::alloys(&mut page, tables, &mut cited),
        Some(TableName::Tubes) => tubes(&mut page, tables, &mut cited),
        Some(TableName::Materials) => materials(&mut page, tables, &mut cited),
        Some(TableName::BuildUps) => build_ups(&mut page, tables, &mut cited),
        Some(TableName::WalkBoards) => walk_boards(&mut page, tables, &mut cited),
        Some(TableName::Rack) => rack(&mut page, tables, &mut cited),
        Some(TableName::Dies) => dies(&mut page, tables, &mut cited),
        Some(TableName::Damage) => damage(&mut page, tables, &mut cited),
        Some(TableName::Adhesives) => adhesives(&mut page, tables, &mut cited),
        Some(TableName::Factors) => factors(&mut page, tables, &mut cited),
        Some(TableName::Sources) => sources(&mut page, tables),
    }
    cited.list(&mut page, tables);
    if let Some(own) = own_tables(tables) {
        page.gap();
        page.note(&own.words);
    }
    page.finish()
}

/// How many rows a table has.
fn count(tables: &Tables, which: TableName) -> usize {
    match which {
        TableName::Alloys => {
            tables.alloys.len() + tables.en_alloys.iter().map(|alloy| alloy.ranges.len()).sum::<usize>()
        }
        TableName::Tubes => tables.tubes.len(),
        TableName::Materials => tables.materials.len(),
        TableName::BuildUps => tables.buildups.len(),
        TableName::WalkBoards => tables.walk_boards.len(),
        TableName::Rack => tables.rack.len(),
        TableName::Dies => tables.dies.len(),
        TableName::Damage => tables.damage.len(),
        TableName::Adhesives => tables.adhesives.len(),
        TableName::Factors => tables.factors.len(),
        TableName::Sources => tables.sources.len(),
    }
}

fn overview(page: &mut Page, tables: &Tables) {
    page.heading(&format!("Tables {}", Tables::version()));
    let mut table = Table::new(&[("table", Set::Left), ("rows", Set::Right), ("what", Set::Words)]);
    for which in TableName::value_variants() {
        let Some(value) = which.to_possible_value() else { continue };
        let what = value.get_help().map_or_else(String::new, ToString::to_string);
        table.row([value.get_name().to_owned(), count(tables, *which).to_string(), what]);
    }
    page.table(&table);
    page.gap();
    page.note("\"bracewright tables TABLE\" lists the rows of one, each with its source.");
}

fn tubes(page: &mut Page, tables: &Tables, cited: &mut Cited) {
    tubes_in(
        page,
        tables,
        cited,
        TubeSystem::Inch,
        ["width, in", "depth, in", "wall, in", "corner radius, in"],
    );
    tubes_in(
        page,
        tables,
        cited,
        TubeSystem::Metric,
        ["width, mm", "depth, mm", "wall, mm", "corner radius, mm"],
    );
}

fn tubes_in(
    page: &mut Page,
    tables: &Tables,
    cited: &mut Cited,
    system: TubeSystem,
    heads: [&'static str; 4],
) {
    page.heading(&format!("Tubes, sizes in {system}"));
    let [width, depth, wall, corner] = heads;
    let mut table = Table::new(&[
        ("tube", Set::Left),
        (width, Set::Right),
        (depth, Set::Right),
        (wall, Set::Right),
        (corner, Set::Right),
        ("kind", Set::Left),
        ("source", Set::Left),
    ]);
    let of_system = |tube: &&Tube| tube.system == system;
    for tube in tables.tubes.iter().filter(of_system) {
        table.row([
            tube.id.clone(),
            tube.width.to_string(),
            tube.depth.to_string(),
            tube.wall.to_string(),
            tube.corner.to_string(),
            tube.kind.to_string(),
            cited.cite(&tube.source),
        ]);
    }
    page.table(&table);
}

fn materials(page: &mut Page, tables: &Tables, cited: &mut Cited) {
    for material in &tables.materials {
        page.heading(&material.id);
        also_called(page, &material.names);
        page.note(&format!(
            "{}. {}",
            crate::print::words::capital(&material.family.to_string()),
            material.note
        ));
        let mut table = Table::new(&[
            ("property", Set::Left),
            ("low", Set::Right),
            ("default", Set::Right),
            ("high", Set::Right),
            ("unit", Set::Left),
            ("strength is", Set::Left),
            ("kind", Set::Left),
            ("source", Set::Left),
        ]);
        for (property, value) in material.iter() {
            table.row([
                property.key().to_owned(),
                value.low.to_string(),
                value.default.to_string(),
                value.high.to_string(),
                property.unit().to_owned(),
                material.strength_is(property).map_or_else(String::new, |is| is.to_string()),
                value.kind.to_string(),
                cited.cite(&value.source),
            ]);
        }
        page.table(&table);
    }
}

fn build_ups(page: &mut Page, tables: &Tables, cited: &mut Cited) {
    for build_up in &tables.buildups {
        page.heading(&build_up.id);
        also_called(page, &build_up.names);
        page.note(&format!(
            "From the weather side down; {} {}.",
            build_up.kind,
            cited.cite(&build_up.source)
        ));
        let mut table = Table::new(&[
            ("", Set::Right),
            ("layer", Set::Left),
            ("thickness", Set::Right),
            ("", Set::Left),
            ("material", Set::Words),
        ]);
        for layer in &build_up.layers {
            table.row([
                layer.position.to_string(),
                layer.name.clone(),
                layer.thickness_value.to_string(),
                layer.thickness_unit.to_string(),
                layer.material.clone(),
            ]);
        }
        page.table(&table);
    }
}

fn walk_boards(page: &mut Page, tables: &Tables, cited: &mut Cited) {
    page.heading("Boards to stand on");
    let mut table = Table::new(&[
        ("board", Set::Words),
        ("long", Set::Right),
        ("short", Set::Right),
        ("thick", Set::Right),
        ("", Set::Left),
        ("material", Set::Words),
        ("kind", Set::Left),
        ("source", Set::Left),
    ]);
    for board in &tables.walk_boards {
        table.row([
            board.id.clone(),
            board.long.to_string(),
            board.short.to_string(),
            board.thickness.to_string(),
            board.unit.to_string(),
            board.material.clone(),
            board.kind.to_string(),
            cited.cite(&board.source),
        ]);
    }
    page.table(&table);
}

/// Said where a table has no rows because no shop has written any.
const NO_OWN_ROWS: &str = "No rows: a shop writes its own and names their folder with --tables DIR.";

fn rack(page: &mut Page, tables: &Tables, cited: &mut Cited) {
    page.heading("On the rack");
    if tables.rack.is_empty() {
        page.note(NO_OWN_ROWS);
        return;
    }
    let mut table = Table::new(&[
        ("name", Set::Words),
        ("tube", Set::Words),
        ("alloy", Set::Left),
        ("kg/m", Set::Right),
        ("price per m", Set::Right),
        ("", Set::Left),
        ("source", Set::Left),
    ]);
    let number = |value: Option<f64>| value.map_or_else(String::new, |value| value.to_string());
    for own in &tables.rack {
        table.row([
            own.id.clone(),
            own.tube.clone(),
            own.alloy.clone(),
            number(own.kg_per_m),
            number(own.price_per_m),
            own.currency.clone(),
            cited.cite(&own.source),
        ]);
    }
    page.table(&table);
}

fn dies(page: &mut Page, tables: &Tables, cited: &mut Cited) {
    page.heading("What the bender takes");
    if tables.dies.is_empty() {
        page.note(NO_OWN_ROWS);
        return;
    }
    let mut table = Table::new(&[
        ("dies", Set::Words),
        ("tube's width, mm", Set::Right),
        ("depth, mm", Set::Right),
        ("least radius under load, mm", Set::Right),
        ("source", Set::Left),
    ]);
    for die in &tables.dies {
        table.row([
            die.id.clone(),
            die.width_mm.to_string(),
            die.depth_mm.to_string(),
            die.least_radius_mm.to_string(),
            cited.cite(&die.source),
        ]);
    }
    page.table(&table);
}

fn damage(page: &mut Page, tables: &Tables, cited: &mut Cited) {
    page.heading("Damage: share of the sound layer that is left");
    let mut table = Table::new(&[
        ("state", Set::Words),
        ("layer", Set::Left),
        ("stiffness", Set::Words),
        ("strength", Set::Words),
        ("crush", Set::Words),
        ("bonded", Set::Left),
        ("water, kg/m3", Set::Words),
        ("kind", Set::Left),
        ("source", Set::Left),
    ]);
    for state in &tables.damage {
        for effect in &state.effects {
            table.row([
                state.id.clone(),
                effect.layer.to_string(),
                band(&effect.stiffness),
                band(&effect.strength),
                band(&effect.crush),
                if effect.bond { "yes" } else { "no" }.to_owned(),
                band(&effect.added_water_kg_m3),
                effect.stiffness.kind.to_string(),
                cited.cite(&effect.stiffness.source),
            ]);
        }
    }
    page.table(&table);
    for state in tables.damage.iter().filter(|state| !state.names.is_empty()) {
        page.item("-", &format!("{} is also called: {}", state.id, state.names.join("; ")));
    }
    for state in &tables.damage {
        for effect in state.effects.iter().filter(|effect| !effect.note.is_empty()) {
            page.item("-", &format!("{}, {}: {}", state.id, effect.layer, effect.note));
        }
    }
}

fn adhesives(page: &mut Page, tables: &Tables, cited: &mut Cited) {
    page.heading("Adhesives");
    let mut table = Table::new(&[
        ("glue", Set::Words),
        ("shear modulus, MPa", Set::Words),
        ("short shear, MPa", Set::Words),
        ("lasting shear, MPa", Set::Words),
        ("up to, C", Set::Right),
        ("cure, h", Set::Right),
        ("from, C", Set::Right),
        ("kind", Set::Left),
        ("source", Set::Left),
    ]);
    for glue in &tables.adhesives {
        table.row([
            glue.id.clone(),
            band(&glue.shear_modulus_mpa),
            band(&glue.shear_short_mpa),
            band(&glue.shear_permanent_mpa),
            glue.heat_limit_c.to_string(),
            glue.cure_hours.to_string(),
            glue.cure_at_c.to_string(),
            glue.kind.to_string(),
            cited.cite(&glue.source),
        ]);
    }
    page.table(&table);
    for glue in tables.adhesives.iter().filter(|glue| !glue.names.is_empty()) {
        page.item("-", &format!("{} is also called: {}", glue.id, glue.names.join("; ")));
    }
    for glue in tables.adhesives.iter().filter(|glue| !glue.heat_note.is_empty()) {
        page.item("-", &format!("{}: {}", glue.id, glue.heat_note));
    }
}

fn factors(page: &mut Page, tables: &Tables, cited: &mut Cited) {
    page.heading("Factors and standing numbers");
    let mut table = Table::new(&[
        ("key", Set::Left),
        ("value", Set::Right),
        ("unit", Set::Left),
        ("what for", Set::Words),
        ("kind", Set::Left),
        ("source", Set::Left),
    ]);
    for factor in &tables.factors {
        table.row([
            factor.key.clone(),
            factor.value.to_string(),
            factor.unit.clone(),
            factor.note.clone(),
            factor.kind.to_string(),
            cited.cite(&factor.source),
        ]);
    }
    page.table(&table);
}

fn sources(page: &mut Page, tables: &Tables) {
    page.heading("Sources");
    let mut table = Table::new(&[
        ("key", Set::Left),
        ("kind", Set::Left),
        ("author, year", Set::Words),
        ("title", Set::Words),
        ("place", Set::Words),
    ]);
    for source in &tables.sources {
        table.row([
            source.key.clone(),
            source.kind.to_string(),
            format!("{}, {}", source.author, source.year).trim_end_matches([' ', ',']).to_owned(),
            source.title.clone(),
            source.place.clone(),
        ]);
    }
    page.table(&table);
}

/// Source keys cited on this page, in the order of their first appearance.
#[derive(Debug, Default)]
struct Cited {
    keys: Vec<String>,
}

impl Cited {
    /// The numbers of the sources behind `;`-separated keys, as the list below the rows has them.
    fn cite(&mut self, keys: &str) -> String {
        let numbers: Vec<String> = keys
            .split(';')
            .map(str::trim)
            .filter(|key| !key.is_empty())
            .map(|key| {
                let known = self.keys.iter().position(|known| known == key);
                let number = known.unwrap_or_else(|| {
                    self.keys.push(key.to_owned());
                    self.keys.len() - 1
                });
                (number + 1).to_string()
            })
            .collect();
        format!("[{}]", numbers.join(", "))
    }

    /// What the numbers stand for.
    fn list(&self, page: &mut Page, tables: &Tables) {
        if self.keys.is_empty() {
            return;
        }
        page.heading("Sources");
        for (i, key) in self.keys.iter().enumerate() {
            // The tables are cross-checked when they are read: a key without a source does not get here.
            let Ok(source) = tables.source(key) else { continue };
            let parts = [&source.author, &source.year, &source.title, &source.place];
            let words: Vec<&str> =
                parts.into_iter().map(String::as_str).filter(|part| !part.is_empty()).collect();
            page.item(&format!("[{}]", i + 1), &format!("{} ({}, {key})", words.join(", "), source.kind));
        }
    }
}

fn also_called(page: &mut Page, names: &[String]) {
    if !names.is_empty() {
        page.note(&format!("Also called: {}.", names.join("; ")));
    }
}

/// Default first, then the band where there is one.
fn band(value: &Value) -> String {
    if value.low == value.high {
        value.default.to_string()
    } else {
        format!("{} ({} to {})", value.default, value.low, value.high)
    }
}

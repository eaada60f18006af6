//! What the roof is made of and what carries it: layers, braces, landing, unit, people, loads.

use beam_core::quantity::{Family, tape, weight};
use beam_core::survey::{
    Bonded, Brace, LayerMaterial, MemberMaterial, MemberSection, Person, Survey, Thickness, Way,
};

use super::page::Page;
use super::table::{Set, Table};
use crate::print::words;

/// The layers from the weather side down.
pub(super) fn layers(page: &mut Page, survey: &Survey) {
    page.heading("Layers, from the weather side down");
    if let Some(like) = &survey.like {
        page.note(&format!("From the build-up \"{like}\": every value it fills is an assumption."));
    }
    let mut table = Table::new(&[
        ("", Set::Right),
        ("layer", Set::Words),
        ("material", Set::Words),
        ("thickness", Set::Words),
        ("grain", Set::Words),
        ("bonded to the next", Set::Words),
    ]);
    let last = survey.layers.len();
    for (i, layer) in survey.layers.iter().enumerate() {
        table.row([
            (i + 1).to_string(),
            layer.name.clone(),
            material(&layer.material),
            thickness(&layer.thickness, survey.family),
            layer.grain.map_or("not given", words::grain).to_owned(),
            match layer.bonded {
                _ if i + 1 == last => "-".to_owned(),
                Bonded::No => "NO, loose".to_owned(),
                other => words::bonded(other).to_owned(),
            },
        ]);
    }
    page.table(&table);
}

/// The braces, new and existing.
pub(super) fn braces(page: &mut Page, survey: &Survey) {
    page.heading("Braces");
    if survey.braces.is_empty() {
        page.note("None.");
        return;
    }
    let family = survey.family;
    let mut table = Table::new(&[
        ("brace", Set::Words),
        ("section", Set::Words),
        ("of", Set::Words),
        ("along", Set::Right),
        ("across", Set::Words),
        ("glued to", Set::Words),
    ]);
    for brace in &survey.braces {
        table.row([
            format!("{} ({})", brace.name, if brace.existing { "existing" } else { "new" }),
            section(&brace.section, family),
            match &brace.material {
                MemberMaterial::Alloy(alloy) => alloy.id.clone(),
                MemberMaterial::Other(other) => material(other),
            },
            tape(brace.along.value, family),
            format!("{} to {}", tape(brace.across.from.value, family), tape(brace.across.to.value, family)),
            glued(brace, survey),
        ]);
    }
    page.table(&table);
}

/// The unit, the people and the other loads.
pub(super) fn loads(page: &mut Page, survey: &Survey) {
    let family = survey.family;
    page.heading("Loads");
    match &survey.unit {
        Some(unit) => {
            let over = unit.opening.and_then(|opening| survey.openings.get(opening));
            let over =
                over.map_or_else(String::new, |opening| format!(", over the opening \"{}\"", opening.name));
            page.item("-", &format!("unit, {}{over}", weight(unit.mass.value, family)));
        }
        None => page.item("-", "no unit"),
    }
    page.item("-", &people(&survey.person, family));
    for load in &survey.loads {
        page.item(
            "-",
            &format!("{}, {}, {}", load.name, weight(load.mass.value, family), words::load_kind(load.kind)),
        );
    }
}

fn people(person: &Person, family: Family) -> String {
    let mass = weight(person.mass.value, family);
    let people = match person.count {
        1 => format!("one person of {mass} with tools"),
        count => format!("{count} people at once, {mass} each with tools"),
    };
    let board = &person.board;
    match person.way {
        Way::Nobody => "nobody walks on it".to_owned(),
        Way::Bare => format!("{people}, without a board"),
        Way::OnABoard => format!(
            "{people}, on a board {} across x {} along, {} of {}",
            tape(board.size[0].value, family),
            tape(board.size[1].value, family),
            tape(board.thickness.value, family),
            material(&board.material)
        ),
    }
}

fn material(material: &LayerMaterial) -> String {
    match material {
        LayerMaterial::Table(row) => row.id.clone(),
        LayerMaterial::Own(own) => format!("{} (the survey's own)", own.id),
    }
}

fn thickness(thickness: &Thickness, family: Family) -> String {
    let (wall, crown) = (tape(thickness.wall.value, family), tape(thickness.crown.value, family));
    if wall == crown { wall } else { format!("{wall} at the walls, {crown} at the crown") }
}

fn section(section: &MemberSection, family: Family) -> String {
    match section {
        MemberSection::Tube { id: Some(id), .. } => format!("tube {id}"),
        MemberSection::Tube { id: None, width, depth, wall, .. } => format!(
            "tube {} wide, {} deep, wall {}",
            tape(width.value, family),
            tape(depth.value, family),
            tape(wall.value, family)
        ),
        MemberSection::Solid { width, depth } => {
            format!("solid {} wide, {} deep", tape(width.value, family), tape(depth.value, family))
        }
    }
}

fn glued(brace: &Brace, survey: &Survey) -> String {
    let names: Vec<&str> = brace
        .glued
        .iter()
        .filter_map(|&layer| survey.layers.get(layer))
        .map(|layer| layer.name.as_str())
        .collect();
    if names.is_empty() { "lies loose".to_owned() } else { names.join(", ") }
}

//! From the tree to the checked survey, one file a section.
//!
//! The sections are read in such an order that a name is known before it is used: materials, layers, openings,
//! braces, loads, then what refers to them.

mod brace;
mod brace_fit;
mod conditions;
mod damage;
mod head;
mod layer;
mod limits;
mod load;
mod material;
mod member;
mod opening;
mod person;
mod reading;
mod roof;
mod sample;
mod slot;
mod stage;
mod trimmer;
mod unit;
mod wall;

use section_tables::Tables;

use super::problem::Problem;
use super::take::{Context, Table};
use super::{Given, Origin, Survey, tree};

/// Reads and checks a whole survey.
pub(super) fn survey(name: &str, text: &str, tables: &Tables) -> Result<Survey, Vec<Problem>> {
    let tree = tree::parse(text)?;
    let mut cx = Context::new(tables, text);
    let survey = take(&mut cx, name, &tree);
    match survey {
        Some(survey) if cx.problems.is_empty() => Ok(survey),
        _ => Err(cx.problems),
    }
}

/// Every section is read, whatever the earlier ones had.
fn take(cx: &mut Context<'_>, name: &str, tree: &tree::Node) -> Option<Survey> {
    let mut root = Table::open(cx, "", tree)?;
    let head = head::read(cx, &mut root, name);
    material::read(cx, &mut root);
    let (roof, like) = roof::read(cx, &mut root);
    let kind = roof.as_ref().map(|roof| roof.kind);
    let (mut layers, like) = layer::read(cx, &mut root, like, kind);
    let openings = opening::read(cx, &mut root);
    let stage_names = stage::names(&mut root);
    let damages = damage::read(cx, &mut root, &layers, &stage_names);
    sample::weigh(cx, &root, &mut layers, &damages);
    let slots = slot::read(cx, &mut root, &layers);
    let joints = slot::joints(cx, &mut root, &layers);
    let braces = brace::read(cx, &mut root, &layers, &openings);
    let trimmers = trimmer::read(cx, &mut root, &braces, &openings);
    let wall = wall::read(cx, &mut root);
    let unit = unit::read(cx, &mut root, &openings);
    let person = person::read(cx, &mut root);
    let loads = load::read(cx, &mut root, &openings);
    let conditions = conditions::read(cx, &mut root);
    let limits = limits::read(cx, &mut root);
    let known = stage::Known { layers: &layers, braces: &braces, loads: &loads, openings: &openings };
    let stages = stage::read(cx, &mut root, &known);
    let readings =
        reading::read(cx, &mut root, &openings, &loads, unit.as_ref().is_some_and(Option::is_some));
    root.close(cx);
    head::check_sure(cx);

    Some(Survey {
        title: head.title?,
        family: head.family.unwrap_or_else(|| head::family_of(cx)),
        roof: roof?,
        layers: layers.into_values()?,
        like,
        openings: openings.into_values()?,
        damages: damages.into_values()?,
        slots: slots.into_values()?,
        joints: joints.into_values()?,
        braces: braces.into_values()?,
        trimmers: trimmers.into_values()?,
        wall: wall?,
        unit: unit?,
        person: person?,
        loads: loads.into_values()?,
        conditions: conditions?,
        limits: limits?,
        stages: stages.into_values()?,
        readings: readings.into_values()?,
        givens: in_file_order(std::mem::take(&mut cx.givens)),
        hash: hash(cx.text),
    })
}

/// What stands in the file by its lines, then what nobody gave.
fn in_file_order(mut givens: Vec<Given>) -> Vec<Given> {
    givens.sort_by_key(|given| match given.from {
        Origin::Line(line) => line,
        _ => usize::MAX,
    });
    givens
}

/// FNV-1a, 64 bits, of the text with its line ends made alike.
///
/// Reference: Fowler, Noll and Vo (1991), offset basis and prime for 64 bits, from memory.
fn hash(text: &str) -> String {
    let bytes = text.replace("\r\n", "\n");
    let hash = bytes.bytes().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    });
    format!("{hash:016x}")
}

#[cfg(test)]
mod tests {
    /// Test vectors of the authors of FNV (Noll, `test_fnv.c`), from memory.
    #[test]
    fn the_hash_is_fnv_1a() {
        assert_eq!(super::hash(""), "cbf29ce484222325");
        assert_eq!(super::hash("a"), "af63dc4c8601ec8c");
        assert_eq!(super::hash("foobar"), "85944171f73967e8");
        assert_eq!(super::hash("a\r\nb"), super::hash("a\nb"));
    }
}

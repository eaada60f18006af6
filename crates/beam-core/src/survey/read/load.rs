//! `[[load]]`.

use super::opening::not_over_nothing;
use crate::quantity::{Measure, si};
use crate::survey::take::{Bound, Context, Items, Naming, Table, Words, patch};
use crate::survey::{Load, LoadKind, Opening};

const WEIGHT: Bound = Bound::above_zero(Measure::Weight).plausible(
    0.1..1000.0,
    "0.1 kg to 1000 kg (1/4 lb to 2200 lb)",
    "lighter than any load worth a line",
    "heavier than any load on such a roof",
);
const KIND: Words<LoadKind> = Words(&[
    ("fixed", LoadKind::Fixed),
    ("person", LoadKind::Person),
    ("snow", LoadKind::Snow),
    ("test", LoadKind::Test),
]);

/// Names of loads that every survey has; a load of its own would be taken for them.
pub(super) const BUILT_IN: [&str; 15] = [
    "self-weight",
    "unit parked, first day",
    "unit parked, service life",
    "unit on the road",
    "unit rebound",
    "braking",
    "sideways",
    "person",
    "two persons",
    "fitting the unit",
    "snow",
    "hot",
    "cold",
    "wind",
    "test weight",
];

pub(super) fn read(cx: &mut Context<'_>, root: &mut Table<'_>, openings: &Items<Opening>) -> Items<Load> {
    Items::read(cx, root, "load", Naming::Key, |cx, table, name, _| load(cx, table, name, openings))
}

fn load(cx: &mut Context<'_>, table: &mut Table<'_>, name: &str, openings: &Items<Opening>) -> Option<Load> {
    let mass = table.required(cx, "weight", &WEIGHT, "\"25 lb\"");
    let place = patch(cx, table);
    let words = format!(
        "it is not said what kind of load \"{name}\" is: taken as fixed, shaken on the road and lasting"
    );
    let kind = table.or(cx, "kind", &KIND, (LoadKind::Fixed, "default-load-kind", &words));
    // All test loads make one run of that name: there is nothing to mistake.
    let harmless = name == "test weight" && matches!(kind, Some(LoadKind::Test) | None);
    if BUILT_IN.contains(&name) && !harmless {
        cx.fault(
            "name-reserved",
            table.span_of("name"),
            format!("\"{name}\" is the name of a load that every survey has"),
            "a name of its own",
            format!("another name, such as \"{name} here\""),
        );
    }
    let place = place?;
    not_over_nothing(cx, &format!("the load \"{name}\""), table.span_of("across"), &place, openings)?;
    Some(Load { name: name.to_string(), mass: si(mass?), patch: place, kind: kind? })
}

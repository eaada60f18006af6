//! `[[reading]]`.

use super::opening::not_over_nothing;
use crate::quantity::{Measure, si};
use crate::survey::take::{Bound, Context, Items, Naming, Table, Words, point};
use crate::survey::{Interval, Load, LoadKind, Measured, Opening, Patch, Reading, When};

const DIP: Bound = Bound::zero_or_more(Measure::Length).plausible(
    0.0..0.3,
    "0 to 300 mm (0 to 11 3/4 in)",
    "no dip",
    "deeper than any roof that still stands",
);
const MOVED: Bound = Bound::zero_or_more(Measure::Length).plausible(
    0.0..0.1,
    "0 to 100 mm (0 to 4 in)",
    "no movement",
    "more than any test weight should move a roof",
);
const WHEN: Words<When> =
    Words(&[("unit on", When::UnitOn), ("unit off", When::UnitOff), ("test weight", When::TestWeight)]);

pub(super) fn read(
    cx: &mut Context<'_>,
    root: &mut Table<'_>,
    openings: &Items<Opening>,
    loads: &Items<Load>,
    unit: bool,
) -> Items<Reading> {
    // A load that could not be read may be a test weight.
    let test =
        loads.list.iter().any(|item| item.value.as_ref().is_none_or(|load| load.kind == LoadKind::Test));
    Items::read(cx, root, "reading", Naming::Key, |cx, table, name, _| {
        reading(cx, table, name, openings, test, unit)
    })
}

fn reading(
    cx: &mut Context<'_>,
    table: &mut Table<'_>,
    name: &str,
    openings: &Items<Opening>,
    test: bool,
    unit: bool,
) -> Option<Reading> {
    let (span, length) = (cx.span.clone(), cx.length.clone());
    let across = point(cx, table, "across", span);
    let along = point(cx, table, "along", length);
    table.not_both(cx, "dip", "moved");
    let dip = table.optional(cx, "dip", &DIP);
    let moved = table.optional(cx, "moved", &MOVED);
    let measured = match (dip?, moved?) {
        (Some(dip), _) => Some(Measured::Dip(si(dip))),
        (None, Some(moved)) => Some(Measured::Moved(si(moved))),
        (None, None) => None,
    };
    let when = match measured {
        Some(Measured::Moved(_)) => {
            (When::TestWeight, "default-when", "a movement is taken to be under the test weight")
        }
        _ if unit => (When::UnitOn, "default-when", "it is not said when this was read: with the unit on"),
        _ => {
            (When::UnitOff, "default-when", "it is not said when this was read: there is no unit on the roof")
        }
    };
    let when = table.or(cx, "when", &WHEN, when);
    let (across, along, when) = (across?, along?, when?);
    let fits = match measured {
        Some(Measured::Moved(_)) => when == When::TestWeight,
        Some(Measured::Dip(_)) => when != When::TestWeight,
        None => true,
    };
    if !fits {
        cx.fault(
            "reading-and-when",
            table.span_of("when"),
            format!("the reading \"{name}\" was not measured so"),
            "`dip` with the unit on or off, `moved` under the test weight",
            "dip, for a depth below the wanted shape; moved, for what a zeroed dial gauge reads",
        );
    }
    if when == When::TestWeight && !test {
        cx.fault(
            "reading-without-load",
            table.span_of(if table.holds("when") { "when" } else { "moved" }),
            format!("the reading \"{name}\" is under a test weight, and the survey has none"),
            "a [[load]] of kind \"test\"",
            "the test weight as a [[load]] with kind = \"test\"",
        );
    }
    let place = Patch {
        across: Interval { from: si(across), to: si(across) },
        along: Interval { from: si(along), to: si(along) },
    };
    not_over_nothing(cx, &format!("the reading \"{name}\""), table.span_of("across"), &place, openings)?;
    Some(Reading { name: name.to_string(), across: si(across), along: si(along), measured, when })
}

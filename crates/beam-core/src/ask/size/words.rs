//! The answer in words.

use super::document::{CandidateRow, StaysOver};
use super::pattern::words;
use super::rack::currency;
use super::search::Field;
use crate::check::{NotChecked, Words};
use crate::quantity::{percent, tape};
use crate::survey::RoofKind;

/// "two of 1 x 1 x 1/8, 6061-T6, at 3 ft and 5 ft from the front mark, 6 lb together".
pub(super) fn described(row: &CandidateRow, field: &Field<'_>) -> String {
    let survey = field.survey;
    let places: Vec<String> = row.along.iter().map(|y| tape(y.get(), survey.family)).collect();
    let places = match places.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
        None => String::new(),
    };
    let trimmers: Vec<String> = row.trimmers.iter().map(|x| tape(x.get(), survey.family)).collect();
    let trimmers = match &trimmers[..] {
        [] => String::new(),
        [one] => format!(", with a trimmer between them at {one} from the left wall"),
        all => format!(", with trimmers between them at {} from the left wall", all.join(" and ")),
    };
    let together = if row.count > 1 { " together" } else { "" };
    format!(
        "{} of {}, {}, at {places} from the front mark{trimmers}, {}{together}",
        number(row.count),
        row.tube,
        row.alloy,
        row.measured(survey.family, currency(field.tables))
    )
}

fn number(n: usize) -> String {
    match n {
        1 => "one".to_owned(),
        2 => "two".to_owned(),
        3 => "three".to_owned(),
        4 => "four".to_owned(),
        5 => "five".to_owned(),
        _ => n.to_string(),
    }
}

/// What the joints of a roof's trimmers must carry: what nobody has checked.
pub(super) fn trimmer_joints(gaps: &[NotChecked]) -> Option<String> {
    let joint = gaps.iter().find(|n| n.blocks && n.part.starts_with("trimmer"))?;
    Some(format!("{}: {}", joint.part, joint.why))
}

/// What it uses.
pub(super) fn uses(row: &CandidateRow) -> String {
    match (&row.check, row.ratio) {
        (Some(check), Some(ratio)) => format!("It uses {} in {check}.", percent(ratio.get())),
        _ => String::new(),
    }
}

/// First thing that keeps it from "holds", and how many more.
pub(super) fn held_back(gaps: &[NotChecked]) -> String {
    let blocking: Vec<&NotChecked> = gaps.iter().filter(|n| n.blocks).collect();
    let Some(first) = blocking.first() else { return String::new() };
    let more = match blocking.len() - 1 {
        0 => String::new(),
        1 => ", and one thing more".to_owned(),
        n => format!(", and {n} things more"),
    };
    format!("{} ({}): {}{more}", first.check, first.part, first.why)
}

/// "core shear (core under the board) at 180 % or more".
pub(super) fn over(list: &[StaysOver]) -> String {
    let told: Vec<String> = list
        .iter()
        .map(|s| {
            let more = if s.beyond_bracing { "" } else { " or more" };
            format!("{} ({}) at {}{more}", s.check, s.part, percent(s.least_ratio.get()))
        })
        .collect();
    told.join("; ")
}

/// What mends what no brace does.
pub(super) fn cures(list: &[StaysOver]) -> Vec<Words> {
    let mut out: Vec<Words> = Vec::new();
    for stays in list {
        let (code, told) = match stays.check.as_str() {
            "dent" | "heel" => (
                "spread-the-foot",
                "A foot dents the foam whatever braces it has: survey a longer, stiffer walk board, or nobody on the roof (`walk` finds a board); or lay denser foam.",
            ),
            "core shear" => (
                "denser-core",
                "The foam shears where no brace reaches: cut it out there and glue in a denser core, or survey a longer, stiffer walk board, or nobody on the roof.",
            ),
            "core crush" | "clamp" => (
                "frame-the-hole",
                "The unit crushes the foam at its rim: frame the hole with wood between the skins.",
            ),
            "fall through" | "outer skin" | "inner skin" | "wrinkling" | "slot" => (
                "new-skin",
                "A skin is used up: lay a new or a thicker one, bonded all over; over a slot, fill the slot with foam glued in.",
            ),
            "loose skin" => (
                "bond-the-skin",
                "A loose skin stays loose beside a brace: open it, glue it down under pressure, or lay a new one.",
            ),
            "skin at opening corner" => (
                "round-the-corners",
                "The corners of the opening are a crack waiting to start: frame the hole, round the corners, lay a doubler over them.",
            ),
            "sag" | "sag, lasting" => (
                "stiffer-panel",
                "It sags too far with every brace that fits: a tube under the ceiling may be deeper; a thicker core or thicker skins cure it for good.",
            ),
            "glue line" => {
                ("other-glue", "The glue line fails: glue a wider face, both faces, or take another glue.")
            }
            "seat bearing" => (
                "longer-seat",
                "The ledger is crushed under the ends: give them a longer bearing or a plate.",
            ),
            "brace" | "brace shear" => (
                "stronger-brace",
                "Every tube that fits is overstressed: ask for more braces (--count), a stronger alloy (--alloys), or a place under the ceiling.",
            ),
            _ => continue,
        };
        if !out.iter().any(|w| w.code == code) {
            out.push(words(code, told.to_owned()));
        }
    }
    out
}

/// Why a roof of this kind is not searched.
pub(super) fn not_modelled(kind: RoofKind) -> &'static str {
    match kind {
        RoofKind::NotKnown => "the kind of roof is not known: look into the opening or a lamp hole",
        _ => "this kind of roof is not modelled: only skins bonded to foam without framing are",
    }
}

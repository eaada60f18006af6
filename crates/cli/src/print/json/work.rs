//! Braces, trimmers and the order of work.

use beam_core::survey::{
    Brace, Cure, Formed, MemberMaterial, MemberSection, Prop, Sides, Sits, Stage, Survey, Trimmer,
};
use serde_json::{Value, json};

use super::roof::material;
use super::survey::{brace_name, interval, layer_name, list, number};

pub(super) fn brace(brace: &Brace, survey: &Survey) -> Value {
    json!({
        "name": brace.name,
        "section": section(&brace.section),
        "material": member_material(&brace.material),
        "along": number(brace.along.value),
        "across": interval(&brace.across),
        "sits": match brace.sits {
            Sits::InTheFoam => "in the foam",
            Sits::UnderTheCeiling => "under the ceiling",
            Sits::OnTheInnerSkin => "on the inner skin",
        },
        "glued": brace.glued.iter().filter_map(|&layer| layer_name(survey, layer)).collect::<Vec<_>>(),
        "glue": brace.glue.as_ref().map(|glue| json!({
            "product": glue.product.id, "width": number(glue.width.value), "bed": number(glue.bed.value),
            "coverage": number(glue.coverage),
        })),
        "sides": match brace.sides {
            Sides::FoamGlued => "foam glued",
            Sides::SlotLeftOpen => "slot left open",
        },
        "formed": match brace.formed {
            Formed::Bent => "bent",
            Formed::Sprung => "sprung",
        },
        "existing": brace.existing,
        "seat": brace.seat.as_ref().map(|seat| json!({
            "bearing_length": number(seat.bearing_length.value), "screws": seat.screws,
            "screw": seat.screw.map(|screw| number(screw.value)),
            "edge": seat.edge.map(|edge| number(edge.value)),
        })),
        "welds": list(&brace.welds, |weld| number(weld.value)),
    })
}

pub(super) fn trimmer(trimmer: &Trimmer, survey: &Survey) -> Value {
    json!({
        "between": trimmer.between.map(|brace| brace_name(survey, brace)),
        "across": number(trimmer.across.value),
        "section": section(&trimmer.section),
        "material": member_material(&trimmer.material),
    })
}

pub(super) fn stage(stage: &Stage, survey: &Survey) -> Value {
    json!({
        "name": stage.name,
        "layers": stage.layers.iter().filter_map(|&layer| layer_name(survey, layer)).collect::<Vec<_>>(),
        "braces": stage.braces.iter().filter_map(|&brace| brace_name(survey, brace)).collect::<Vec<_>>(),
        "cured": match stage.cured {
            Cure::Full => json!("full"),
            Cure::Time { hours, at } => json!({ "hours": number(hours), "at": number(at) }),
            Cure::Share(share) => json!({ "share": number(share) }),
        },
        "raise": stage.raise.map(|raise| number(raise.value)),
        "props": list(&stage.props, prop),
        "loads": stage.loads,
    })
}

fn prop(prop: &Prop) -> Value {
    json!({
        "across": number(prop.across.value),
        "along": number(prop.along.value),
        "pad": prop.pad.map(|pad| pad.map(|side| number(side.value))),
    })
}

fn section(section: &MemberSection) -> Value {
    match section {
        MemberSection::Tube { id, width, depth, wall, corner } => json!({
            "tube": id, "width": number(width.value), "depth": number(depth.value), "wall": number(wall.value),
            "corner": number(corner.value),
        }),
        MemberSection::Solid { width, depth } => {
            json!({ "solid": true, "width": number(width.value), "depth": number(depth.value) })
        }
    }
}

fn member_material(member: &MemberMaterial) -> Value {
    match member {
        MemberMaterial::Alloy(alloy) => json!(alloy.id),
        MemberMaterial::Other(other) => material(other),
    }
}

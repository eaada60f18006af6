//! What a check of a roof does not look at: each gap is told, and blocks "holds" where safety needs it.

use crate::check::{NotChecked, screw_limits};
use crate::loads::Factors;
use crate::model::{StageChoice, is_foam, mended};
use crate::survey::{
    AluminiumRules, Bonded, Condition, Damage, DamageState, Formed, JointKind, JointLine, LayerMaterial,
    MemberMaterial, MemberSection, RoofKind, Sits, Survey, Thrust, Way,
};
use section_tables::{DamagedLayer, MaterialFamily};

fn gap(check: &str, part: &str, blocks: bool, why: impl Into<String>) -> NotChecked {
    NotChecked { check: check.to_owned(), part: part.to_owned(), why: why.into(), blocks }
}

/// Crown over span beyond which the squares of the slopes are no longer small (judged; common practice of shallow shells
/// goes to a fifth, from memory).
const STEEPEST: f64 = 0.1;
const SPREADS: &str = "whether a loose face spreads further on the road is not worked out: glue it down";

/// Why damage that stays may be worse in some years than it was when it was measured.
fn spreading(survey: &Survey, damage: &Damage) -> Option<NotChecked> {
    let DamageState::Table(state) = &damage.state else { return None };
    let layer = &survey.layers[damage.layer];
    let effect =
        state.effect_on(if is_foam(&layer.material) { DamagedLayer::Core } else { DamagedLayer::Skin })?;
    let (check, why) = if effect.stiffness.high <= 0.0 {
        return None;
    } else if effect.added_water_kg_m3.default > 0.0 {
        ("decay", "what is wet goes on to decay, and its years are not worked out: dry it and find the leak")
    } else if !effect.bond {
        ("loose skin", SPREADS)
    } else {
        return None;
    };
    Some(gap(check, &format!("{}, {}", layer.name, damage.name), true, why))
}

/// Gaps that follow from the survey alone, in a stage of the work.
pub(crate) fn gaps(survey: &Survey, factors: &Factors, stage: StageChoice) -> Vec<NotChecked> {
    let mut out = Vec::new();
    if survey.conditions.roof_hot > factors.foam_service_limit {
        out.push(gap(
            "all",
            "core",
            true,
            format!(
                "foam has no listed strength above {:.0} C, and {:.0} C is surveyed: shade the roof, or name a core made for such heat to an engineer",
                factors.foam_service_limit, survey.conditions.roof_hot
            ),
        ));
    }
    if survey.roof.kind != RoofKind::Laminated {
        let why = match survey.roof.kind {
            RoofKind::NotKnown => "the kind of roof is not known: look into the opening or a lamp hole",
            _ => "this kind of roof is not modelled: only skins bonded to foam without framing are",
        };
        out.push(gap("all", "panel", true, why));
    }
    if survey.roof.rise.value > STEEPEST * survey.roof.span.value {
        out.push(gap(
            "all",
            "panel",
            true,
            "the crown is higher than a tenth of the span: the shell is too deep for the shallow theory used here",
        ));
    }
    out.extend(
        survey.damages.iter().filter(|d| !mended(d, survey, stage)).filter_map(|d| spreading(survey, d)),
    );
    for layer in survey.layers.iter().filter(|l| l.bonded == Bonded::No) {
        out.push(gap("loose skin", &layer.name, true, SPREADS));
    }
    match survey.wall.condition {
        Condition::Sound => {}
        Condition::Soft => out.push(gap(
            "seat bearing",
            "walls",
            true,
            "the ledger is soft, and the roof itself rests on it: replace it before anything else",
        )),
        Condition::NotKnown => out.push(gap(
            "seat bearing",
            "walls",
            false,
            "nobody has said that the ledger is sound, and the roof itself rests on it: try it with an awl all along",
        )),
    }
    let new_braces = || survey.braces.iter().filter(|b| !b.existing);
    if survey.limits.aluminium != AluminiumRules::Adm2020Asd && !survey.braces.is_empty() {
        out.push(gap(
            "brace",
            "formats",
            false,
            format!(
                "only bending, axial force, shear and torsion of tubes are held against {} with its load factors; panel, glue, seats, screws and fatigue keep their own factors on unfactored loads",
                survey.limits.aluminium.name()
            ),
        ));
    }
    for b in &survey.braces {
        let part = format!("brace {}", b.name);
        if b.glue.is_none() && !b.glued.is_empty() {
            out.push(gap("glue line", &part, true, "no glue is given: the brace is taken to lie loose"));
        }
        if b.seat.is_none() {
            out.push(gap(
                "seat bearing",
                &part,
                !b.existing,
                "no seat is given: measure how long its ends bear on the ledger",
            ));
        } else if survey.wall.condition != Condition::Sound {
            let why = match survey.wall.condition {
                Condition::Soft => "the ledger is soft: replace it before anything lands on it",
                _ => "the ledger is not known to be sound: try it with an awl at both ends",
            };
            out.push(gap("seat bearing", &part, true, why));
        } else if survey.wall.material.is_none() {
            out.push(gap("seat bearing", &part, true, "the material of the ledger is not known"));
        }
        if b.seat.is_some()
            && let Err(why) = screw_limits(survey, factors, b)
        {
            out.push(gap("seat screws", &part, !b.existing, why));
        }
        match (&b.material, &b.section) {
            (MemberMaterial::Alloy(_), MemberSection::Tube { .. }) => {}
            (MemberMaterial::Other(LayerMaterial::Table(m)), MemberSection::Solid { .. })
                if m.family == MaterialFamily::Timber =>
            {
                let why = "years of road shocks on wood are not worked out, nor knots, splits and rot that were not surveyed";
                out.push(gap("fatigue", &part, !b.existing, why));
            }
            _ => {
                let why =
                    "strength and fatigue of what is neither aluminium tube nor solid timber are not checked";
                out.push(gap("brace", &part, !b.existing, why));
            }
        }
        if b.formed == Formed::Sprung {
            out.push(gap("brace", &part, true, "stress locked in by springing the tube in is not added yet"));
        }
        if b.sits == Sits::UnderTheCeiling && b.glued.is_empty() {
            out.push(gap(
                "brace",
                &part,
                true,
                "a brace under the ceiling carries only what presses on it: fixings are not checked",
            ));
        }
    }
    if new_braces().next().is_some() {
        out.push(gap(
            "seat screws",
            "braces",
            false,
            "screws are taken to bite six diameters into dry, sound wood, with heads of two diameters: measure them",
        ));
        out.push(gap(
            "snap",
            "braces",
            false,
            "walls that spread give an arch no thrust: a bent brace does not snap",
        ));
        if new_braces().any(|b| b.glue.is_some()) {
            out.push(gap(
                "glue line",
                "braces",
                true,
                "strain between aluminium and ply from heat and cold is not worked out yet",
            ));
        }
    }
    if !survey.trimmers.is_empty() {
        out.push(gap(
            "brace",
            "trimmers",
            false,
            "trimmers are left out of the model: what they add is not counted",
        ));
    }
    for joint in survey.joints.iter().filter(|j| j.kind != JointKind::Scarfed) {
        let (part, at) = (&survey.layers[joint.layer].name, matches!(joint.line, JointLine::AtAcross(_)));
        let why = match (joint.kind, at) {
            (JointKind::Butt, true) => "a butt joint cuts the force path across: not worked out yet",
            (JointKind::Butt, false) => "a butt joint cuts the force path along: not worked out yet",
            _ => "strength of a backed joint is not worked out yet",
        };
        out.push(gap(if at { "outer skin" } else { "inner skin" }, part, true, why));
    }
    if let Some(unit) = &survey.unit {
        let framed = unit.opening.is_some_and(|o| survey.openings[o].frame.is_some());
        if framed {
            out.push(gap(
                "clamp",
                "panel",
                false,
                "the frame is taken to hold the skins apart under the bolts",
            ));
        } else if unit.bolts.is_none() {
            out.push(gap("clamp", "panel", true, "the hole is not framed and no bolts are given: bolts pull such a roof hollow. Frame the hole, or give bolts and torque"));
        }
        out.push(gap(
            "natural frequency",
            "panel",
            false,
            "shaking in step with body and axles is not worked out yet",
        ));
        out.push(gap(
            "seat screws",
            "panel",
            false,
            "what holds the roof's edges down in rebound is not worked out yet",
        ));
    }
    if survey.conditions.wind.is_some() {
        out.push(gap("seat screws", "panel", true, "wind uplift is not worked out yet"));
    }
    if survey.conditions.cold.is_some() && !survey.braces.is_empty() {
        out.push(gap("glue line", "braces", true, "cold is not worked out yet"));
    }
    if survey.wall.thrust != Thrust::None {
        out.push(gap("wall thrust", "walls", true, "what the walls must hold sideways is not judged yet"));
    }
    for stage in survey.stages.iter().filter(|s| !s.props.is_empty() || s.raise.is_some()) {
        out.push(gap("props", &stage.name, false, "props and lifting are not worked out yet"));
    }
    if survey.person.way != Way::Nobody {
        out.push(gap(
            "dent",
            "edges",
            false,
            "a foot within the edge strip of an opening, a slot or the roof's end is not checked",
        ));
    }
    out
}

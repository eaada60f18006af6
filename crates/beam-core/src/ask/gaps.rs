//! What a check of a roof does not look at: each gap is told, and blocks "holds" where safety needs it.

use crate::check::{NotChecked, screw_limits};
use crate::loads::Factors;
use crate::model::{StageChoice, is_foam, mended, parts};
use crate::quantity::percent;
use crate::survey::{
    AluminiumRules, Bonded, Brace, Condition, Damage, DamageState, Formed, Layer, LayerMaterial,
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

pub(super) const HOLD_DOWN: &str =
    "look at its screws and give wall.hold_down, the pull that a metre of them takes (\"2 kN/m\")";

/// What of a glue line is not worked out.
fn glue_gaps(brace: &Brace, part: &str) -> Vec<NotChecked> {
    let mut out = Vec::new();
    let screwed = brace.seat.as_ref().is_some_and(|s| s.screws.is_some_and(|n| n > 0));
    let peel = if screwed {
        "peel at its ends is not worked out: its screws there are counted on to keep it down, so never leave them out"
    } else {
        "peel at its ends is not worked out, and no screws are given that keep it down there: give seat.screws"
    };
    out.push(gap("glue line", &format!("{part}, ends"), !screwed, peel));
    let tube =
        matches!((&brace.material, &brace.section), (MemberMaterial::Alloy(_), MemberSection::Tube { .. }));
    if !tube {
        let why = "strain between it and the skin from heat and cold is worked out for aluminium tube only";
        out.push(gap("glue line", part, true, why));
    }
    out
}

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
    out.extend(super::untried::gaps(survey));
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
    if survey.wall.depth.is_none() {
        out.push(gap(
            "core crush",
            "walls",
            new_braces().next().is_some(),
            "how deep the ledger is, is not known: whether the foam over it is pressed flat, and what a screw bites, is not checked",
        ));
    }
    if survey.limits.aluminium != AluminiumRules::Adm2020Asd && !survey.braces.is_empty() {
        out.push(gap(
            "brace",
            "formats",
            false,
            format!(
                "bending, axial force, shear and torsion of tubes and their webs over a seat are held against {} with its load factors; panel, glue, seats, screws and fatigue keep their own factors on unfactored loads",
                survey.limits.aluminium.name()
            ),
        ));
    }
    for b in &survey.braces {
        let part = format!("brace {}", b.name);
        if b.glue.is_none() && !b.glued.is_empty() {
            out.push(gap("glue line", &part, true, "no glue is given: the brace is taken to lie loose"));
        }
        if let (Some(_), false) = (&b.glue, b.glued.is_empty()) {
            out.extend(glue_gaps(b, &part));
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
                // Old or new: what it carries it must bear.
                out.push(gap("brace", &part, true, why));
            }
        }
        if b.formed == Formed::Sprung {
            out.push(if b.glued.is_empty() {
                gap("brace", &part, true, "nothing is surveyed that holds a sprung brace to the crown: glue it")
            } else {
                gap(
                    "glue line",
                    &part,
                    true,
                    "a sprung brace pulls across its glue and on the foam for good, most of all near its ends: that pull is not worked out",
                )
            });
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
            match survey.wall.thrust {
                Thrust::None => "walls that spread give an arch no thrust: a bent brace does not snap",
                _ => "whether a brace by itself snaps between walls that hold is not worked out: the roof is judged as a whole",
            },
        ));
    }
    if !survey.trimmers.is_empty() && new_braces().next().is_none() {
        out.push(gap(
            "brace",
            "trimmers",
            false,
            "trimmers between braces that are there already are left out of the model: what they add is not counted",
        ));
    }
    let is_core = |layer: usize| {
        let foam = |l: &Layer| is_foam(&l.material);
        survey.layers[..=layer].iter().any(foam) && survey.layers[layer..].iter().any(foam)
    };
    for joint in survey.joints.iter().filter(|j| parts(j) && is_core(j.layer)) {
        let part = &survey.layers[joint.layer].name;
        out.push(gap(
            "core shear",
            part,
            true,
            "a joint inside the core that is not glued is not worked out",
        ));
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
            "shaking in step with axle hop (8 to 15 Hz) is not worked out: most light roofs lie there, and the road factor is the trade's experience with such roofs",
        ));
    }
    if survey.wall.hold_down.is_none() && survey.conditions.wind.is_some_and(|w| w.value > 0.0) {
        out.push(gap(
            "seat screws",
            "panel",
            true,
            format!("wind lifts the roof, and it is not known what holds its edges down: {HOLD_DOWN}"),
        ));
    }
    if survey.wall.thrust != Thrust::None {
        // The roof is judged without them too: it does not rest on walls that nobody has proved.
        out.push(gap(
            "wall thrust",
            "walls",
            false,
            "no limit is known for side walls pushed outward: what they would have to hold is told, and every check was made with walls that spread too",
        ));
    }
    for (i, one) in survey.stages.iter().enumerate() {
        match (one.props.is_empty(), one.raise.is_some()) {
            (false, _) if stage == StageChoice::Named(i) => out.extend(super::props::gaps(survey, one)),
            (true, true) if stage == StageChoice::Named(i) => {
                out.push(gap(
                    "props",
                    &one.name,
                    true,
                    "a lift without props: nothing is said of what lifts the roof",
                ));
            }
            (true, false) => {}
            _ => out.push(gap("props", &one.name, false, "its props are judged by checking that stage")),
        }
    }
    if survey
        .layers
        .iter()
        .any(|l| matches!(&l.material, LayerMaterial::Table(m) if m.family == MaterialFamily::Plywood))
    {
        // Its limit of the road is `k_mod f/(1.5 gamma_M)`: the share of that at which the swings are held to do no harm.
        let share = factors.fatigue_plywood * factors.panel * factors.gamma_plywood / factors.k_mod_short;
        out.push(gap(
            "fatigue",
            "plywood",
            false,
            format!(
                "years of road shocks on plywood are not worked out, for no published limit is known: from memory they do no harm below {} of its strength, which is a skin that uses no more than {} on the road",
                percent(factors.fatigue_plywood),
                percent(share)
            ),
        ));
    }
    if survey.person.way != Way::Nobody {
        out.push(gap(
            "dent",
            "edges",
            false,
            "a bare foot right over a wall or at the roof's end is not checked, nor whether the roof as a whole carries somebody on a board within the edge strip of an opening",
        ));
    }
    out
}

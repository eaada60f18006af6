//! What stands on the roof on feet of its own: a rack, a panel, a second unit, the unit's pads. The two-way roof does not
//! see the dent under them.
//!
//! The same local theory as a foot's ([`super::foot`]): no edge, opening, void or joint near.

use super::context::{Context, basis};
use super::finding::{Check, Finding};
use super::foot::{Foam, FootPlace, below, foam, neutral, skin_plate};
use crate::loads::Footing;
use crate::local::{Below, FootCase, Layer, Patch, PlateD, indent};
use crate::model::{Rect, Time};
use crate::quantity::{STANDARD_GRAVITY, si};
use crate::strength::core::punch_through;
use crate::survey::{LoadKind, Survey};
use section_tables::Property;

/// A pad: what it is called, where, its standing weight and what it grows to for a moment.
struct Pad<'a> {
    name: &'a str,
    rect: Rect,
    /// Weight that stays for years, N; 0 of what only passes.
    stands: f64,
    /// The most it presses with, N.
    most: f64,
    load: &'static str,
}

fn pads<'a>(context: &Context<'_>, survey: &'a Survey) -> Vec<Pad<'a>> {
    let factors = context.factors;
    let of_unit = survey.unit.iter().flat_map(|unit| {
        unit.pads.iter().map(|pad| {
            let weight = unit.mass.value * STANDARD_GRAVITY * pad.share;
            Pad {
                name: "the unit's pad",
                rect: Rect::of(&pad.patch),
                stands: weight,
                most: weight * factors.road,
                load: "unit on the road",
            }
        })
    });
    let of_loads = survey.loads.iter().filter_map(|load| {
        let weight = load.mass.value * STANDARD_GRAVITY;
        let (stands, most, name) = match load.kind {
            LoadKind::Fixed => (weight, weight * factors.road, "unit on the road"),
            LoadKind::Person => (0.0, weight * factors.walking, "person"),
            LoadKind::Snow | LoadKind::Test => return None,
        };
        Some(Pad { name: &load.name, rect: Rect::of(&load.patch), stands, most, load: name })
    });
    of_unit.chain(of_loads).collect()
}

/// Findings under every pad, and what kept one from being judged.
pub(crate) fn pad_findings(context: &Context<'_>, survey: &Survey) -> (Vec<Finding>, Vec<String>) {
    let (mut found, mut trouble) = (Vec::new(), Vec::new());
    for pad in pads(context, survey) {
        let r = pad.rect;
        let (cx, cy) = r.centre();
        // A pad that reaches into a patch of damage stands on the damage as well, and on a tapered core on its thin end.
        let mut seen = Vec::new();
        for (x, y) in [(cx, cy), (r.x0, r.y0), (r.x1, r.y0), (r.x0, r.y1), (r.x1, r.y1)] {
            // A hair inside, so that what begins at the pad's edge does not count.
            let (x, y) = (x + (cx - x) * 1e-6, y + (cy - y) * 1e-6);
            let make_up = (context.roof.state_at(x, y), context.roof.levels(x));
            if seen.contains(&make_up) {
                continue;
            }
            match under(context, &pad, &FootPlace { state: &make_up.0, x, y, curvature: 0.0 }) {
                Ok(list) => found.extend(list),
                Err(why) => trouble.push(format!("{}: {why}", pad.name)),
            }
            seen.push(make_up);
        }
    }
    (found, trouble)
}

fn under(context: &Context<'_>, pad: &Pad<'_>, place: &FootPlace<'_>) -> Result<Vec<Finding>, String> {
    let foam = foam(context, place)?;
    let core = &context.roof.layers[foam.layer].name;
    let finding = |check, part: &str, demand: f64, used: f64, si, basis| Finding {
        check,
        part: format!("{part} under {}", pad.name),
        load: pad.load.to_owned(),
        footing: Footing::NotAFoot,
        person: None,
        x: place.x,
        y: place.y,
        demand,
        limit: if used > 0.0 { demand / used } else { 0.0 },
        si,
        ratio: used * context.model_factor,
        basis,
    };
    let mut out = Vec::new();
    let hot = context.heat_strength(foam.layer, true);

    // Foam: a dent, not a collapse, so without the 1.5. Standing weight by creep, its shaking by crushing when hot.
    let crush = foam.crush / context.factors.gamma_core_crush;
    let share = context.ratio(foam.layer, Property::LongTermCrush, context.factors.long_term_core_crush);
    let pressed = press(context, pad, place, &foam)?;
    let used = (pressed.foam * pad.stands / pad.most / (crush * share)).max(pressed.foam / (crush * hot));
    // What stays on is shaken for years: foam that is pressed harder than this goes on sinking.
    let swings = foam.crush * context.factors.cyclic_core_crush;
    let used = if pad.stands > 0.0 { used.max(pressed.foam / swings) } else { used };
    let from = basis(
        &foam.known,
        "lasting share and gamma_M 1.4 (EN 14509, from memory), hot roof; 0.35 over 1.25 under repeated load",
    );
    out.push(finding(Check::CoreCrush, core, pressed.foam, used, "Pa", from));

    // Foam: the pad goes through, over a perimeter half a depth outside it.
    let known = context.strengths[foam.layer]
        .shear_core
        .as_ref()
        .ok_or_else(|| format!("no shear strength is known for the {core}"))?;
    let f = known.value * place.state[foam.layer].strength
        / (context.factors.panel * context.factors.gamma_core_shear);
    let size = [pad.rect.x1 - pad.rect.x0, pad.rect.y1 - pad.rect.y0];
    let limit = punch_through(si(f), si(foam.depth), si(size[0]), si(size[1]))
        .map_err(|e| e.to_string())?
        .value
        .value;
    let share = context.ratio(foam.layer, Property::LongTermShear, context.factors.long_term_core_shear);
    let used = pad.stands / (limit * share) + (pad.most - pad.stands) / (limit * hot);
    let from =
        basis(known, "perimeter half a depth outside the pad (practice), gamma_M 1.5 and 1.5, hot roof");
    out.push(finding(Check::FootShear, core, pad.most, used, "N", from));

    // Skins over the foam: their own bending round the pad.
    for bent in pressed.skins {
        let (gamma, why) = context.gamma_skin(bent.layer);
        let safe = context.factors.panel * gamma;
        let duration = context.skin_duration(bent.layer, crate::loads::Lasting::Short, false);
        let name = &context.roof.layers[bent.layer].name;
        for (known, most) in context.strengths[bent.layer].bending.iter().zip(bent.stress) {
            let known =
                known.as_ref().ok_or_else(|| format!("no bending strength is known for the {name}"))?;
            let limit = known.value * place.state[bent.layer].strength / safe;
            let stands = most * pad.stands / pad.most;
            let used = stands / (limit * duration.years) + (most - stands) / (limit * duration.top);
            out.push(finding(Check::PadBending, name, most, used, "Pa", basis(known, why)));
        }
    }
    Ok(out)
}

/// What the most that a pad presses with does.
struct Pressed {
    foam: f64,
    skins: Vec<Bent>,
}

/// Largest bending stress of one skin, across and along.
struct Bent {
    layer: usize,
    stress: [f64; 2],
}

/// The worst of a dent with the lower skin where it is, and with one that does not move: a panel that lies on a wall or a
/// brace there stands on that. Foam stress, and the largest moments of the skin per width.
fn worst_dent(skin: PlateD, foam: Layer, below: Below, patch: Patch) -> Result<(f64, [f64; 2]), String> {
    let dent = |below| indent(&FootCase { plates: &[skin], foam, below, patch }).map_err(|e| e.to_string());
    let (moving, rigid) = (dent(below)?, dent(Below::Rigid)?);
    let (a, b) = (moving.moments[0].largest(), rigid.moments[0].largest());
    Ok((moving.foam_stress.max(rigid.foam_stress), [a[0].max(b[0]), a[1].max(b[1])]))
}

fn press(
    context: &Context<'_>,
    pad: &Pad<'_>,
    place: &FootPlace<'_>,
    foam: &Foam,
) -> Result<Pressed, String> {
    let [across, along] = [pad.rect.x1 - pad.rect.x0, pad.rect.y1 - pad.rect.y0];
    let Some((plate, lay_up)) = skin_plate(context, place, Time::Fresh)? else {
        return Ok(Pressed { foam: pad.most / (across * along), skins: Vec::new() });
    };
    let layer = Layer::new(foam.e, foam.nu, foam.depth).map_err(|e| e.to_string())?;
    let patch = Patch { load: pad.most, across, along };
    let (foam_stress, moments) = worst_dent(plate, layer, below(context, place)?, patch)?;
    let curvature = [moments[0] / plate.d11, moments[1] / plate.d22];
    let strain = neutral(&lay_up, curvature);
    let skins = lay_up
        .layer_of
        .iter()
        .enumerate()
        .filter_map(|(index, &layer)| {
            let faces = lay_up.laminate.layer_stress_si(index, strain, [curvature[0], curvature[1], 0.0])?;
            let worst = |d: usize| faces[0][d].abs().max(faces[2][d].abs());
            Some(Bent { layer, stress: [worst(0), worst(1)] })
        })
        .collect();
    Ok(Pressed { foam: foam_stress, skins })
}

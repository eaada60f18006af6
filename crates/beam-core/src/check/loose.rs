//! A skin that has let go of its core: it carries compression only up to the buckling of its strip.

use super::context::{CaseState, Context};
use super::finding::{Check, Finding, Numbers};
use crate::model::{IdealRoof, LayerState, Role, Time};
use crate::quantity::si;
use crate::response::{Layout, is_worse, worse_of};
use crate::strength::wrinkling::WrinklingSkin;

/// A loose patch of a skin: which, and how long across.
#[derive(Debug, Clone)]
pub(crate) struct LoosePatch {
    pub layer: usize,
    pub x0: f64,
    pub x1: f64,
    pub y0: f64,
    pub y1: f64,
}

/// Skins, or parts of them, that do not hold to what is under or over them, or have a void there.
pub(crate) fn loose_patches(roof: &IdealRoof) -> Vec<LoosePatch> {
    let mut out = Vec::new();
    let is_skin = |i: usize| roof.layers[i].role != Role::Core;
    for i in 0..roof.layers.len() {
        let let_go = !roof.layers[i].bonded_below && i + 1 < roof.layers.len();
        if let_go {
            // The face between a layer and the one below is loose: the skin of the two is the one that buckles.
            let skin = if is_skin(i) { i } else { i + 1 };
            if is_skin(skin) {
                out.push(LoosePatch { layer: skin, x0: 0.0, x1: roof.span, y0: 0.0, y1: roof.length });
            }
        }
    }
    for zone in
        roof.zones.iter().filter(|z| (!z.state.bonded && z.state.stiffness > 0.0) || z.state.slot >= 1.0)
    {
        let skins: Vec<usize> = if is_skin(zone.layer) {
            vec![zone.layer]
        } else {
            [zone.layer.checked_sub(1), Some(zone.layer + 1)]
                .into_iter()
                .flatten()
                .filter(|&i| i < roof.layers.len() && is_skin(i))
                .collect()
        };
        out.extend(skins.into_iter().map(|layer| LoosePatch {
            layer,
            x0: zone.rect.x0,
            x1: zone.rect.x1,
            y0: zone.rect.y0,
            y1: zone.rect.y1,
        }));
    }
    out
}

/// The same roof with every face bonded: what the loose skin would carry if it were held.
pub(crate) fn held(roof: &IdealRoof) -> IdealRoof {
    let mut roof = roof.clone();
    roof.layers.iter_mut().for_each(|l| l.bonded_below = true);
    roof.zones.iter_mut().for_each(|z| z.state = LayerState { bonded: true, ..z.state });
    roof
}

/// Findings of loose skins in one case of the roof with every face held.
pub(crate) fn loose_findings(
    context: &Context<'_>,
    patches: &[LoosePatch],
    layout: &Layout,
    case: &CaseState<'_>,
) -> Vec<Finding> {
    let mut out = Vec::new();
    for patch in patches {
        let modulus =
            context.moduli(patch.layer, if case.hot { Time::Hot } else { Time::Fresh }).e_x_flexural;
        let levels = context.roof.levels(context.roof.span / 2.0);
        let t = levels[patch.layer].1 - levels[patch.layer].0;
        let Ok(limit) = WrinklingSkin::new(si(modulus * t.powi(3) / 12.0), si(t))
            .and_then(|skin| skin.loose_strip(si(patch.x1 - patch.x0)))
        else {
            continue;
        };
        let places = layout.skins.iter().zip(case.years.skins.iter().zip(&case.top.skins));
        let worst = places
            .filter(|(p, _)| {
                p.layer == patch.layer
                    && (patch.x0..=patch.x1).contains(&p.x)
                    && (patch.y0..=patch.y1).contains(&p.y)
            })
            .map(|(p, (y, t))| (-(y.middle[0] + case.dynamic * t.middle[0]), p))
            .reduce(|kept, one| if is_worse(one.0, kept.0) { one } else { kept });
        let Some((demand, place)) = worst else { continue };
        // No compression: it hangs or is pulled, and does not buckle.
        let demand = worse_of(0.0, demand);
        out.push(case.finding(
            Check::LooseSkin,
            context.roof.layers[patch.layer].name.clone(),
            (place.x, place.y),
            Numbers {
                demand,
                limit: limit.value.value,
                si: "Pa",
                ratio: demand / limit.value.value * context.model_factor,
            },
            limit.basis,
        ));
    }
    out
}

//! A slot in the foam, or foam that is missing, where a foot is tried: how wide, what lies beside it, and whether it lies by
//! itself.

use super::context::Context;
use super::foot::FootPlace;
use crate::local::Void;
use crate::model::{IdealRoof, PanelState, Rect, Role, Zone, voids};
use crate::quantity::{Family, tape};

/// Nearer to a lip than this, or than two core thicknesses, nothing else may disturb the foam, m (judged: twice the longest
/// that a dent fades over on such roofs).
const BY_ITSELF: f64 = 0.15;
/// A slot no longer than this many widths, taken by the fourth root of the skin's stiffness both ways, is bridged along as
/// well as across (judged: beyond it the clamped ends of a plate are not felt in its middle).
const LONG: f64 = 3.0;
/// Places looked at beside each side.
const LOOKS: usize = 8;
/// How far outside a side the make-up is read, m.
const BESIDE: f64 = 1e-3;

/// A void that a foot is tried over.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct VoidPlace {
    rect: Rect,
    cut: [f64; 2],
    /// States of the panel beside it with the skins as weak as over it: each once.
    pub beside: Vec<PanelState>,
}

/// The void at a place, as wide as one that a foot within `strip` of a lip feels (m).
pub(crate) fn void_near(roof: &IdealRoof, x: f64, y: f64, strip: f64) -> Option<Rect> {
    voids(roof).map(|z| z.rect).find(|r| r.grown([strip; 2]).contains(x, y))
}

impl VoidPlace {
    /// The void at a place.
    ///
    /// # Errors
    /// In words: why it is not worked out.
    pub(super) fn at(
        context: &Context<'_>,
        place: &FootPlace<'_>,
        family: Family,
    ) -> Result<VoidPlace, String> {
        let roof = context.roof;
        let core = (0..roof.layers.len()).find(|i| roof.layers[*i].role == Role::Core);
        let name = core.map_or("core", |c| roof.layers[c].name.as_str());
        let here: Vec<&Zone> = voids(roof).filter(|z| z.rect.contains(place.x, place.y)).collect();
        let [zone] = here[..] else {
            return Err(format!("voids of the {name} overlap there: survey them as one"));
        };
        if Some(zone.layer) != core {
            return Err(format!(
                "the {} is hollow there, under other foam: what foam that lies over a void bears is not worked out",
                roof.layers[zone.layer].name
            ));
        }
        let depth = roof.levels(place.x)[zone.layer];
        let depth = depth.1 - depth.0;
        let clear = BY_ITSELF.max(2.0 * depth);
        let rect = zone.rect;
        if let Some(near) = in_the_way(roof, zone, clear) {
            return Err(format!(
                "the {name} is hollow there, and {near} within {} of it: a foot between is not worked out. Fill it with foam glued in, or keep off it",
                tape(clear, family)
            ));
        }
        let share = zone.state.slot.min(1.0);
        let cut = if zone.state.slot_from_top { [1.0 - share, 1.0] } else { [0.0, share] };
        let mut beside: Vec<PanelState> = Vec::new();
        for (x, y) in around(&rect) {
            if !(x > 0.0 && x < roof.span && y > 0.0 && y < roof.length) || roof.is_open(x, y) {
                continue;
            }
            let state: PanelState = roof
                .state_at(x, y)
                .iter()
                .zip(place.state)
                .zip(&roof.layers)
                .map(
                    |((outside, over), layer)| {
                        if layer.role == Role::Core { *outside } else { outside.worst(*over) }
                    },
                )
                .collect();
            if !beside.contains(&state) {
                beside.push(state);
            }
        }
        if beside.is_empty() {
            return Err(format!("the {name} is missing everywhere: nothing bears the skin"));
        }
        Ok(VoidPlace { rect, cut, beside })
    }

    /// The slots that it is judged as: the width of each, and whether it runs across the vehicle. Endless ones: over a void
    /// that is short for its width, one each way.
    pub(super) fn slots(&self, skin: &crate::local::PlateD) -> Vec<(Void, bool)> {
        let [wx, wy] = [self.rect.x1 - self.rect.x0, self.rect.y1 - self.rect.y0];
        let across = wx >= wy;
        let (width, length) = if across { (wy, wx) } else { (wx, wy) };
        let stiffer = if across { skin.d11 / skin.d22 } else { skin.d22 / skin.d11 };
        let mut out = vec![(Void { width, cut: self.cut }, across)];
        if length < LONG * width * stiffer.powf(0.25).max(1.0) {
            out.push((Void { width: length, cut: self.cut }, !across));
        }
        out
    }

    /// Its longer and its shorter side would have to be bridged by a board: the one that counts, m.
    pub(super) fn to_bridge(&self) -> f64 {
        (self.rect.x1 - self.rect.x0).min(self.rect.y1 - self.rect.y0)
    }
}

/// What disturbs the foam beside a void, if anything does. Its ends may run out at a wall or an opening.
fn in_the_way(roof: &IdealRoof, zone: &Zone, clear: f64) -> Option<&'static str> {
    let rect = zone.rect;
    let [wx, wy] = [rect.x1 - rect.x0, rect.y1 - rect.y0];
    let along_x = wx >= wy;
    if voids(roof).any(|z| !std::ptr::eq(z, zone) && z.rect.overlaps(&rect.grown([clear; 2]))) {
        return Some("another void lies");
    }
    let sides = if along_x { [0.0, clear] } else { [clear, 0.0] };
    if roof.openings.iter().any(|o| o.overlaps(&rect.grown(sides))) {
        return Some("an opening lies");
    }
    let near = |from: f64, to: f64, whole: f64| from < clear || to > whole - clear;
    let [by_x, by_y] = [near(rect.x0, rect.x1, roof.span), near(rect.y0, rect.y1, roof.length)];
    // What is about as long as it is wide may be bridged either way: it has no ends.
    let ends = if along_x { wx > LONG * wy } else { wy > LONG * wx };
    let walls = match (ends, along_x) {
        (true, true) => by_y,
        (true, false) => by_x,
        (false, _) => by_x || by_y,
    };
    walls.then_some("a wall or the roof's end is")
}

/// Places just outside the sides.
fn around(r: &Rect) -> impl Iterator<Item = (f64, f64)> + use<> {
    let r = *r;
    (0..LOOKS).flat_map(move |i| {
        let part = (i as f64 + 0.5) / LOOKS as f64;
        let (x, y) = (r.x0 + part * (r.x1 - r.x0), r.y0 + part * (r.y1 - r.y0));
        [(r.x0 - BESIDE, y), (r.x1 + BESIDE, y), (x, r.y0 - BESIDE), (x, r.y1 + BESIDE)]
    })
}

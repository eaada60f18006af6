//! The laminate at a place: layers that are there, at their heights, with what is left of their moduli.

use super::{IdealRoof, LayerState, Moduli, Time};
use crate::section::{Laminate, LayerSi, SectionError};

/// A layer with less than this share of its stiffness is taken for gone: its shear would be all in the remainder.
const GONE_BELOW: f64 = 1e-3;
/// What stands for no stiffness across a joint: the laminate wants every modulus above none.
const CUT: f64 = 1e-6;
/// Layers farther apart than this have a void between them, m.
const GAP: f64 = 1e-6;

/// The laminate at a place.
#[derive(Debug, Clone)]
pub(crate) struct LayUp {
    pub laminate: Laminate,
    /// Roof layer of each laminate layer; the laminate counts from the lowest.
    pub layer_of: Vec<usize>,
}

/// Builds the laminate for the panel state at `x`; `None` where nothing is left that carries.
///
/// `slot_size`: size of a slot across and along where one is cut here: the skins, and foam left on one of them, bridge
/// it.
///
/// # Errors
/// A laminate the section room refuses.
pub(crate) fn lay_up(
    roof: &IdealRoof,
    moduli: &[Moduli],
    state: &[LayerState],
    x: f64,
    time: Time,
    slot_size: Option<[f64; 2]>,
) -> Result<Option<LayUp>, SectionError> {
    let levels = roof.levels(x);
    // A gap shorter than the foam is deep does not stretch it as a beam: it tears there, and is not counted on.
    let jointed = state.iter().any(LayerState::is_cut);
    let mut layers = Vec::new();
    let mut layer_of = Vec::new();
    // From the lowest up; `loose_above` says whether the face on top of the layer below lets go.
    let mut loose_above = false;
    for i in (0..roof.layers.len()).rev() {
        let (m, s) = (&moduli[i], &state[i]);
        if s.stiffness < GONE_BELOW || s.slot >= 1.0 {
            loose_above = false;
            continue;
        }
        let share = s.stiffness;
        let [across, along] = s.cut.map(|cut| if cut { CUT } else { 1.0 });
        let foam = roof.layers[i].role == super::Role::Core;
        let (bottom, top) = levels[i];
        let cut = s.slot * (top - bottom);
        let (z_bottom, z_top) = if s.slot_from_top { (bottom, top - cut) } else { (bottom + cut, top) };
        layers.push(LayerSi {
            z_bottom,
            z_top,
            e_x: m.e_x * share * across,
            e_y: m.e_y * share * along,
            nu_xy: if s.is_cut() { 0.0 } else { m.nu_xy },
            g_xy: m.g_xy * share * across * along,
            g_xz: m.g_xz * share,
            g_yz: m.g_yz * share,
            flexural: Some([m.e_x_flexural * share * across, m.e_y_flexural * share * along]),
            direct: !(foam && (time == Time::Aged || jointed)),
            bonded_below: roof.layers[i].bonded_below && s.bonded && !loose_above,
        });
        layer_of.push(i);
        loose_above = !s.bonded;
    }
    let gap = layers.windows(2).any(|pair| pair[1].z_bottom - pair[0].z_top > GAP);
    let made = match slot_size {
        _ if layers.is_empty() => return Ok(None),
        Some(size) if gap => Laminate::over_void_si(layers, size),
        _ => Laminate::from_si(layers),
    };
    match made {
        Ok(laminate) => Ok(Some(LayUp { laminate, layer_of })),
        Err(SectionError::NothingCarries { .. }) => Ok(None),
        Err(other) => Err(other),
    }
}

/// Size across and along of the slot cut at a place, if one is.
pub(crate) fn slot_size(roof: &IdealRoof, x: f64, y: f64) -> Option<[f64; 2]> {
    voids(roof).find(|z| z.rect.contains(x, y)).map(|z| [z.rect.x1 - z.rect.x0, z.rect.y1 - z.rect.y0])
}

/// Slots, and foam that is missing.
pub(crate) fn voids(roof: &IdealRoof) -> impl Iterator<Item = &super::Zone> {
    roof.zones.iter().filter(|z| z.state.slot > 0.0 && z.state.stiffness > 0.0)
}

/// Weight of the panel at a place, N/m2, with the water in it.
pub(crate) fn panel_weight(roof: &IdealRoof, state: &super::PanelState, x: f64) -> f64 {
    let levels = roof.levels(x);
    let mass: f64 = roof
        .layers
        .iter()
        .zip(state)
        .zip(&levels)
        .filter(|((_, s), _)| s.stiffness > 0.0 || s.water > 0.0)
        .map(|((l, s), (bottom, top))| {
            (super::density(&l.material).unwrap_or(0.0) * (1.0 - s.slot) + s.water) * (top - bottom)
        })
        .sum();
    mass * crate::quantity::STANDARD_GRAVITY
}

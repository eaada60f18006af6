//! The laminate at a place: layers that are there, at their heights, with what is left of their moduli.

use super::{IdealRoof, LayerState, Moduli, Time};
use crate::section::{Laminate, LayerSi, SectionError};

/// A layer with less than this share of its stiffness is taken for gone: its shear would be all in the remainder.
const GONE_BELOW: f64 = 1e-3;

/// The laminate at a place.
#[derive(Debug, Clone)]
pub(crate) struct LayUp {
    pub laminate: Laminate,
    /// Roof layer of each laminate layer; the laminate counts from the lowest.
    pub layer_of: Vec<usize>,
}

/// Builds the laminate for the panel state at `x`; `None` where nothing is left that carries.
///
/// `slot_size`: size of a slot across and along where one is cut here. The skins bridge it as a Vierendeel frame,
/// `Ks = 12 (EI1 + EI2)/w2` in the direction that crosses it.
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
    let mut layers = Vec::new();
    let mut layer_of = Vec::new();
    // From the lowest up; `loose_above` says whether the face on top of the layer below lets go.
    let mut loose_above = false;
    for i in (0..roof.layers.len()).rev() {
        let (m, s) = (&moduli[i], &state[i]);
        if s.stiffness < GONE_BELOW {
            loose_above = false;
            continue;
        }
        let share = s.stiffness;
        let foam = roof.layers[i].role == super::Role::Core;
        layers.push(LayerSi {
            z_bottom: levels[i].0,
            z_top: levels[i].1,
            e_x: m.e_x * share,
            e_y: m.e_y * share,
            nu_xy: m.nu_xy,
            g_xy: m.g_xy * share,
            g_xz: m.g_xz * share,
            g_yz: m.g_yz * share,
            flexural: Some([m.e_x_flexural * share, m.e_y_flexural * share]),
            direct: !(foam && time == Time::Aged),
            bonded_below: roof.layers[i].bonded_below && s.bonded && !loose_above,
        });
        layer_of.push(i);
        loose_above = !s.bonded;
    }
    if layers.is_empty() {
        return Ok(None);
    }
    match Laminate::from_si(layers.clone()) {
        Ok(laminate) => {
            let laminate = match slot_size {
                Some(size) => {
                    let skins = side_stiffness(roof, &layers, &layer_of, state);
                    laminate.with_shear([0, 1].map(|i| 12.0 * (skins[i][0] + skins[i][1]) / size[i].powi(2)))
                }
                None => laminate,
            };
            Ok(Some(LayUp { laminate, layer_of }))
        }
        Err(SectionError::NothingCarries { .. }) => Ok(None),
        Err(other) => Err(other),
    }
}

/// Bending stiffness per width, above and below the slot, across and along: each layer by itself, which leaves out
/// what a backer gains by its bond and what foam is left beside a slot of part depth.
fn side_stiffness(
    roof: &IdealRoof,
    layers: &[LayerSi],
    layer_of: &[usize],
    state: &[LayerState],
) -> [[f64; 2]; 2] {
    let mut sides = [[0.0; 2]; 2];
    for (layer, &i) in layers.iter().zip(layer_of) {
        let below = match roof.layers[i].role {
            super::Role::Outer => 0,
            super::Role::Inner => 1,
            super::Role::Core => continue,
        };
        debug_assert!(state[i].stiffness > 0.0);
        let inertia = (layer.z_top - layer.z_bottom).powi(3) / 12.0;
        let [ex, ey] = layer.flexural.unwrap_or([layer.e_x, layer.e_y]);
        sides[0][below] += ex * inertia;
        sides[1][below] += ey * inertia;
    }
    sides
}

/// Size across and along of the slot cut at a place, if one is.
pub(crate) fn slot_size(roof: &IdealRoof, x: f64, y: f64) -> Option<[f64; 2]> {
    roof.zones
        .iter()
        .find(|z| z.state.slot > 0.0 && z.state.stiffness > 0.0 && z.rect.contains(x, y))
        .map(|z| [z.rect.x1 - z.rect.x0, z.rect.y1 - z.rect.y0])
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

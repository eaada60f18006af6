//! A roof held sideways is an arch, and an arch that is pressed hard sways: how far it is from doing so.

use super::context::Context;
use crate::model::{LayerState, Time, lay_up};
use crate::response::{Layout, Response};

/// Thrust over its critical value up to which the change of shape is left out of account: EN 1993-1-1 5.2.1 asks for a
/// factor of 10, from memory.
pub(crate) const SMALL_THRUST: f64 = 0.1;

/// What the walls must hold sideways.
#[derive(Debug, Clone)]
pub(crate) struct Push {
    /// Load that pushes most.
    pub load: String,
    /// Push on one wall, N, and its mean per metre of wall, N/m.
    pub whole: f64,
    pub per_length: f64,
    /// Mean push over the one under which the roof would sway.
    pub share: f64,
}

/// The largest push outward on a wall among loads by name.
///
/// The sway is the buckling of a shallow arch into two half waves, `1/(1/(4 pi^2 D/L^2) + 1/S)` per width with bending
/// and shear (Timoshenko and Gere 1961, from memory), aged, as if the whole roof were as weak as its weakest patch, and a slot as wide as the roof.
///
/// # Errors
/// In words, a laminate that cannot be made.
pub(crate) fn push(
    context: &Context<'_>,
    layout: &Layout,
    totals: &[(String, Response)],
) -> Result<Option<Push>, String> {
    let roof = context.roof;
    let most = |r: &Response| r.walls.left_thrust.max(r.walls.right_thrust);
    let Some((load, whole)) = totals
        .iter()
        .map(|(load, r)| (load, most(r)))
        .max_by(|a, b| a.1.total_cmp(&b.1))
        .filter(|(_, push)| *push > 0.0)
    else {
        return Ok(None);
    };
    let moduli: Vec<_> = (0..roof.layers.len()).map(|i| *context.moduli(i, Time::Aged)).collect();
    let sound = vec![LayerState::SOUND; roof.layers.len()];
    let mut critical = f64::INFINITY;
    for state in layout.states.iter().chain([&sound]) {
        let made = lay_up(roof, &moduli, state, roof.span / 4.0, Time::Aged, Some([roof.span; 2]))
            .map_err(|e| e.to_string())?;
        let one = made.map_or(0.0, |made| {
            let bent = 4.0 * std::f64::consts::PI.powi(2) * made.laminate.bending_free_si().xx
                / (roof.span * roof.span);
            1.0 / (1.0 / bent + 1.0 / made.laminate.shear_si()[0])
        });
        critical = critical.min(one);
    }
    let per_length = whole / roof.length;
    Ok(Some(Push { load: load.clone(), whole, per_length, share: per_length / critical }))
}

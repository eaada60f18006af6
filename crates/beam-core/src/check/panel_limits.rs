//! Limits of the panel, made once for each state of each layer, so that a place costs a few multiplications.

use super::context::{CaseState, Context, basis};
use super::finding::Check;
use super::panel::Unknown;
use crate::loads::{Footing, Lasting};
use crate::model::{LayerState, PanelState, Rect, Role, Time};
use crate::quantity::si;
use crate::response::{LayerPlace, SkinStress};
use crate::strength::Basis;
use crate::strength::wrinkling::hoff_mautner;
use section_tables::Property;

/// A demand and the share of the limits it uses up.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Used {
    pub demand: f64,
    pub ratio: f64,
    /// Limit under a passing load, told where nothing is demanded.
    pub passing: f64,
}

impl Used {
    pub(crate) fn limit(&self) -> f64 {
        if self.demand > 0.0 && self.ratio > 0.0 { self.demand / self.ratio } else { self.passing }
    }
}

/// Share of a lasting and a passing stress, given their reciprocal limits. Where one relieves the other, what is left
/// passes; the lasting one is judged by itself in the case of years.
fn share(years: f64, top: f64, over: [f64; 2]) -> f64 {
    if years * top < 0.0 {
        (years + top).abs() * over[1]
    } else {
        years.abs() * over[0] + top.abs() * over[1]
    }
}

/// Reciprocal limits of a skin: tension, compression, bending per direction, shear; for years and on top.
pub(crate) struct SkinLimits {
    pub check: Check,
    pub basis: Basis,
    tension: [[f64; 2]; 2],
    compression: [[f64; 2]; 2],
    bending: [[f64; 2]; 2],
    shear: [f64; 2],
}

impl SkinLimits {
    /// Membrane and own bending per direction, shear by quadratic sum.
    pub(crate) fn used(&self, case: &CaseState<'_>, years: &SkinStress, top: &SkinStress) -> Used {
        let k = case.dynamic;
        let shear = share(years.middle[2], k * top.middle[2], self.shear);
        let mut out = Used::default();
        for d in 0..2 {
            let (my, mt) = (years.middle[d], k * top.middle[d]);
            let (by, bt) = (years.own(d), k * top.own(d));
            let f = if my + mt > 0.0 { self.tension[d] } else { self.compression[d] };
            let direct = share(my, mt, f) + share(by, bt, self.bending[d]);
            let ratio = (direct * direct + shear * shear).sqrt();
            if ratio >= out.ratio {
                out = Used { demand: (my + mt).abs() + (by + bt).abs(), ratio, passing: 1.0 / f[1] };
            }
        }
        out
    }
}

/// Reciprocal wrinkling stress per direction. Time does not lower it, as in EN 14509 (from memory).
pub(crate) struct WrinklingLimits([f64; 2]);

impl WrinklingLimits {
    /// `r_max + r_min^3`, tension counted as none. Beyond its limit the smaller share counts no more than once.
    pub(crate) fn used(&self, case: &CaseState<'_>, years: &SkinStress, top: &SkinStress) -> Used {
        let pressed = |d: usize| (-years.middle[d] - case.dynamic * top.middle[d]).max(0.0);
        let share = |d: usize| pressed(d) * self.0[d];
        let (x, y) = (share(0), share(1));
        let (more, less, d) = if x >= y { (x, y, 0) } else { (y, x, 1) };
        Used { demand: pressed(d), ratio: more + less.min(1.0).powi(3), passing: 1.0 / self.0[d] }
    }
}

/// Reciprocal shear limits of a core, lasting and short.
pub(crate) struct CoreLimits {
    pub basis: Basis,
    lasting: f64,
    short: f64,
}

impl CoreLimits {
    /// `tau_years/(k f) + tau_top/f`.
    pub(crate) fn used(&self, case: &CaseState<'_>, years: &[f64; 2], top: &[f64; 2]) -> Used {
        let size = |tau: &[f64; 2]| (tau[0] * tau[0] + tau[1] * tau[1]).sqrt();
        let (long, short) = (size(years), case.dynamic * size(top));
        Used {
            demand: long + short,
            ratio: long * self.lasting + short * self.short,
            passing: 1.0 / self.short,
        }
    }
}

/// Limits of one layer in one state.
pub(crate) struct LayerLimits {
    pub skin: Result<SkinLimits, Unknown>,
    pub wrinkling: Option<WrinklingLimits>,
    pub core: Option<Result<CoreLimits, Unknown>>,
}

/// All limits of a roof in one bracket: cold and short, cold and medium, hot.
pub(crate) struct PanelLimits {
    made: [Vec<Vec<LayerLimits>>; 3],
    half_core: f64,
    framed: bool,
    corner_reference: f64,
    corner_exponent: f64,
    pub corner_basis: Basis,
    pub wrinkling_basis: Basis,
}

impl PanelLimits {
    /// Limits for every layer in every state.
    pub(crate) fn new(context: &Context<'_>, states: &[PanelState], framed: bool) -> PanelLimits {
        let make = |lasting: Lasting, hot: bool| {
            states
                .iter()
                .map(|state| {
                    (0..context.roof.layers.len())
                        .map(|i| layer_limits(context, state, i, lasting, hot))
                        .collect()
                })
                .collect()
        };
        let core: f64 =
            context.roof.layers.iter().filter(|l| l.role == Role::Core).map(|l| l.thickness[1]).sum();
        let half_core = (core / 2.0).max(1e-3);
        PanelLimits {
            made: [make(Lasting::Short, false), make(Lasting::Medium, false), make(Lasting::Short, true)],
            half_core,
            framed,
            corner_reference: context.factors.corner_reference,
            corner_exponent: context.factors.corner_exponent,
            corner_basis: Basis::memory(if framed {
                "skin limit half a core thickness from the corner of a framed opening"
            } else {
                "skin limit 4 mm from a sharp corner, from farther out by distance^0.456 (elastic notch of 90 degrees)"
            }),
            wrinkling_basis: Basis::published(
                "Hoff and Mautner 1945, 0.5 (Ef Ec Gc)^(1/3) with the flexural modulus of the skin; gamma_M 1.25 (EN 14509, from memory) and 1.5",
            ),
        }
    }

    pub(crate) fn of(&self, state: usize, layer: usize, case: &CaseState<'_>) -> &LayerLimits {
        let set = match (case.hot, case.lasting) {
            (true, _) => 2,
            (false, Lasting::Medium) => 1,
            (false, Lasting::Short) => 0,
        };
        &self.made[set][state][layer]
    }

    /// Distance of a place to the nearest corner of an opening, in half core thicknesses.
    pub(crate) fn corner_distance(&self, place: &LayerPlace) -> f64 {
        place.to_corner / self.half_core
    }

    /// What a sharp corner makes of the stress read at a distance from it, in half core thicknesses.
    pub(crate) fn corner_factor(&self, distance: f64) -> f64 {
        if self.framed {
            return 1.0;
        }
        (distance * self.half_core / self.corner_reference).max(1.0).powf(self.corner_exponent)
    }

    /// Whether a place lies so near to a bare foot that the checks of the foot tell how the skin bends by itself.
    pub(crate) fn by_a_bare_foot(&self, case: &CaseState<'_>, x: f64, y: f64) -> bool {
        case.footing == Footing::Bare && case.feet.iter().any(|f| self.near_foot(f, x, y))
    }

    /// Whether a place lies under a foot, or within a core thickness of it.
    pub(crate) fn near_foot(&self, foot: &Rect, x: f64, y: f64) -> bool {
        let reach = 2.0 * self.half_core;
        x > foot.x0 - reach && x < foot.x1 + reach && y > foot.y0 - reach && y < foot.y1 + reach
    }
}

fn layer_limits(
    context: &Context<'_>,
    state: &PanelState,
    layer: usize,
    lasting: Lasting,
    hot: bool,
) -> LayerLimits {
    let role = context.roof.layers[layer].role;
    LayerLimits {
        skin: skin_limits(context, &state[layer], layer, lasting, hot),
        wrinkling: wrinkling_limits(context, state, layer, hot),
        core: (role == Role::Core).then(|| core_limits(context, &state[layer], layer, hot)),
    }
}

fn skin_limits(
    context: &Context<'_>,
    state: &LayerState,
    layer: usize,
    lasting: Lasting,
    hot: bool,
) -> Result<SkinLimits, Unknown> {
    let strengths = &context.strengths[layer];
    let ideal = &context.roof.layers[layer];
    let check = if ideal.role == Role::Inner { Check::InnerSkin } else { Check::OuterSkin };
    let lacking = |what: &str| Unknown { check, part: ideal.name.clone(), what: what.to_owned() };
    let duration = context.skin_duration(layer, lasting, hot);
    let (gamma, gamma_basis) = context.gamma_skin(layer);
    let over = |known: f64| {
        let k = known * state.strength / (context.factors.panel * gamma);
        [1.0 / (k * duration.years), 1.0 / (k * duration.top)]
    };
    let both = |pair: &[Option<crate::model::Known>; 2], what: &str| -> Result<[[f64; 2]; 2], Unknown> {
        match pair {
            [Some(x), Some(y)] => Ok([over(x.value), over(y.value)]),
            _ => Err(lacking(what)),
        }
    };
    let known = strengths.tension[0].as_ref().ok_or_else(|| lacking("tension strength"))?;
    Ok(SkinLimits {
        check,
        basis: basis(known, gamma_basis),
        tension: both(&strengths.tension, "tension strength")?,
        compression: both(&strengths.compression, "compression strength")?,
        bending: both(&strengths.bending, "bending strength")?,
        shear: over(
            strengths.shear_panel.as_ref().ok_or_else(|| lacking("shear strength in its plane"))?.value,
        ),
    })
}

/// Wrinkling of a skin that lies bonded on foam, by its flexural modulus in each direction. `None` where no bonded
/// foam is beside it: it does not wrinkle on foam there, and is judged as loose.
fn wrinkling_limits(
    context: &Context<'_>,
    states: &PanelState,
    layer: usize,
    hot: bool,
) -> Option<WrinklingLimits> {
    let core = context.core_beside(layer)?;
    if core.abs_diff(layer) != 1 {
        return None;
    }
    let (skin, foam) = (&states[layer], &states[core]);
    if !(skin.bonded && foam.bonded && foam.stiffness > 0.0 && skin.stiffness > 0.0 && foam.slot < 1.0) {
        return None;
    }
    let over = |time: Time, d: usize| -> Option<f64> {
        let (f, c) = (context.moduli(layer, time), context.moduli(core, time));
        let e = if d == 0 { f.e_x_flexural } else { f.e_y_flexural };
        let limit =
            hoff_mautner(si(e * skin.stiffness), si(c.e_x * foam.stiffness), si(c.g_xz * foam.stiffness))
                .ok()?;
        Some(context.factors.panel * context.factors.gamma_wrinkling / limit.value.value)
    };
    let time = if hot { Time::Hot } else { Time::Fresh };
    Some(WrinklingLimits([over(time, 0)?, over(time, 1)?]))
}

fn core_limits(
    context: &Context<'_>,
    state: &LayerState,
    layer: usize,
    hot: bool,
) -> Result<CoreLimits, Unknown> {
    let ideal = &context.roof.layers[layer];
    let known = context.strengths[layer].shear_core.as_ref().ok_or_else(|| Unknown {
        check: Check::CoreShear,
        part: ideal.name.clone(),
        what: "shear strength".to_owned(),
    })?;
    let safe = context.factors.panel * context.factors.gamma_core_shear;
    let f = known.value * state.strength * context.heat_strength(layer, hot) / safe;
    let lasting = context.ratio(layer, Property::LongTermShear, context.factors.long_term_core_shear);
    Ok(CoreLimits {
        basis: basis(
            known,
            "gamma_M 1.5 (EN 14509) and 1.5, lasting part against a reduced strength, from memory",
        ),
        lasting: 1.0 / (lasting * f),
        short: 1.0 / f,
    })
}

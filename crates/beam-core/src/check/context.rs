//! What every check reads: the roof, its strengths in one bracket, the factors, and the case at hand.

use std::sync::{Arc, OnceLock};

use super::Materials;
use super::finding::{Check, Finding, Numbers};
use super::pressed::Pressed;
use super::rafter::{Rafter, rafter};
use super::screws::{ScrewLimits, screw_limits};
use super::thermal::Strained;
use super::tube::{Resistance, section_strength};
use crate::loads::{Case, CaseKind, Factors, Footing, Lasting};
use crate::local::mechanism::SkinKind;
use crate::model::{IdealRoof, Known, Moduli, OWN_FOAM_HEAT, Rect, Role, Strengths, Time, moduli, strengths};
use crate::response::Response;
use crate::strength::Basis;
use crate::survey::{LayerMaterial, Survey};
use section_tables::{MaterialFamily, Property};

/// Sag limits, m.
#[derive(Debug, Clone, Copy)]
pub(crate) struct SagLimits {
    pub short: f64,
    pub lasting: f64,
}

/// What a ledger bears across its grain, Pa.
#[derive(Debug, Clone)]
pub(crate) struct Bearing {
    pub short: f64,
    pub lasting: f64,
    pub basis: Basis,
}

/// How much of a strength a load of some duration may use, with heat.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Duration {
    pub years: f64,
    pub top: f64,
}

/// What every check reads.
pub(crate) struct Context<'a> {
    pub roof: &'a IdealRoof,
    pub factors: &'a Factors,
    pub materials: Materials,
    pub model_factor: f64,
    pub sag: SagLimits,
    pub ledger: Option<Bearing>,
    /// Depth of the ledger under the panel's edge, m, where it is known.
    pub landing: Option<f64>,
    /// What the screws at either end of each brace hold, in the roof's order; a gap tells where it is not known.
    pub screws: Vec<Option<ScrewLimits>>,
    /// What each trimmer may carry, or why that is not known. Nothing holds it sideways between its ends.
    pub trimmers: Vec<Result<(Resistance, [Basis; 2]), String>>,
    /// What braces of solid wood carry, in the same order.
    pub rafters: Vec<Option<Rafter>>,
    /// Temperature of the roof in the sun.
    pub roof_hot: f64,
    /// Temperature at gluing, and the coldest where one is surveyed.
    pub glued_at: f64,
    pub cold: Option<f64>,
    /// Characteristic strengths of each layer in this bracket.
    pub strengths: Vec<Strengths>,
    /// Moduli of each layer in this bracket: fresh, aged, hot.
    fresh: Vec<Moduli>,
    aged: Vec<Moduli>,
    hot: Vec<Moduli>,
    /// What cold, and heat, do to each brace; found when first asked.
    pub(super) strained: [OnceLock<Vec<Result<Strained, String>>>; 2],
    /// Feet pressed in before, here or on a roof like this.
    pub(super) pressed: Arc<Pressed>,
}

/// A case in one state of the roof: what acts for years and what comes on top.
#[derive(Clone, Copy)]
pub(crate) struct CaseState<'a> {
    pub name: &'a str,
    pub kind: CaseKind,
    pub years: &'a Response,
    pub top: &'a Response,
    pub lasting: Lasting,
    pub hot: bool,
    pub dynamic: f64,
    pub footing: Footing,
    pub feet: &'a [Rect],
}

impl<'a> CaseState<'a> {
    /// A case with what acts for years and what comes on top.
    pub(crate) fn new(case: &'a Case, years: &'a Response, top: &'a Response) -> Self {
        Self {
            name: &case.name,
            kind: case.kind,
            years,
            top,
            lasting: case.lasting,
            hot: case.hot,
            dynamic: case.dynamic,
            footing: case.footing,
            feet: &case.feet,
        }
    }

    /// What a check finds in this case.
    pub(crate) fn finding(
        &self,
        check: Check,
        part: String,
        (x, y): (f64, f64),
        numbers: Numbers,
        basis: Basis,
    ) -> Finding {
        let Numbers { demand, limit, si, ratio } = numbers;
        Finding {
            check,
            part,
            load: self.name.to_owned(),
            footing: self.footing,
            person: None,
            x,
            y,
            demand,
            limit,
            si,
            ratio,
            basis,
        }
    }
}

impl<'a> Context<'a> {
    /// The same, knowing feet that were pressed in before.
    pub(crate) fn knowing(self, pressed: Arc<Pressed>) -> Context<'a> {
        Context { pressed, ..self }
    }

    /// Gathers it.
    ///
    /// # Errors
    /// In words, a modulus that is not known.
    pub(crate) fn new(
        survey: &Survey,
        roof: &'a IdealRoof,
        factors: &'a Factors,
        materials: Materials,
    ) -> Result<Context<'a>, String> {
        let of = |time: Time| -> Result<Vec<Moduli>, String> {
            roof.layers
                .iter()
                .map(|l| moduli(&l.material, l.grain_across, materials, time, roof.creep_hours))
                .collect()
        };
        let surveyed = || roof.braces.iter().map(|b| (survey.braces.iter().find(|s| s.name == b.name), b));
        Ok(Context {
            roof,
            factors,
            materials,
            model_factor: survey.limits.model_factor,
            sag: super::sag::limits(survey),
            ledger: super::seat::bearing(survey, factors, materials),
            landing: survey.wall.depth.map(|d| d.value),
            screws: surveyed().map(|(s, _)| screw_limits(survey, factors, s?).ok()).collect(),
            rafters: surveyed().map(|(s, ideal)| rafter(s?, ideal, factors, materials)).collect(),
            trimmers: roof
                .trimmers
                .iter()
                .map(|t| section_strength(&t.kind, [t.width, t.depth], t.y1 - t.y0, factors))
                .collect(),
            roof_hot: survey.conditions.roof_hot,
            glued_at: survey.conditions.glued_at.unwrap_or(factors.glued_at),
            cold: survey.conditions.cold,
            strengths: roof
                .layers
                .iter()
                .map(|l| strengths(&l.material, l.grain_across, materials))
                .collect(),
            fresh: of(Time::Fresh)?,
            aged: of(Time::Aged)?,
            hot: of(Time::Hot)?,
            strained: Default::default(),
            pressed: Arc::default(),
        })
    }

    /// Moduli of a layer.
    pub(crate) fn moduli(&self, layer: usize, time: Time) -> &Moduli {
        match time {
            Time::Fresh => &self.fresh[layer],
            Time::Aged => &self.aged[layer],
            Time::Hot => &self.hot[layer],
        }
    }

    /// Family of a layer's material; an own material counts as a board.
    fn family(&self, layer: usize) -> MaterialFamily {
        match &self.roof.layers[layer].material {
            LayerMaterial::Table(m) => m.family,
            LayerMaterial::Own(_) => MaterialFamily::Board,
        }
    }

    /// Partial factor of a skin material, with its basis.
    pub(crate) fn gamma_skin(&self, layer: usize) -> (f64, &'static str) {
        match self.family(layer) {
            MaterialFamily::Metal => (self.factors.gamma_metal_face, "gamma_M 1.1, EN 14509, from memory"),
            MaterialFamily::Sheet => (self.factors.gamma_glass_fibre, "gamma_M for glass fibre judged"),
            _ => (self.factors.gamma_plywood, "gamma_M 1.2, EN 1995-1-1, from memory"),
        }
    }

    /// Whether a skin yields or cracks when bent too far.
    pub(crate) fn skin_kind(&self, layer: usize) -> SkinKind {
        if self.family(layer) == MaterialFamily::Metal { SkinKind::Yields } else { SkinKind::Cracks }
    }

    /// Share of a skin's strength by duration and heat. Metal does not tire of standing loads; all else is taken
    /// as plywood.
    pub(crate) fn skin_duration(&self, layer: usize, lasting: Lasting, hot: bool) -> Duration {
        let heat = self.heat_strength(layer, hot);
        if self.family(layer) == MaterialFamily::Metal {
            return Duration { years: heat, top: heat };
        }
        let top = match lasting {
            Lasting::Short => self.factors.k_mod_short,
            Lasting::Medium => self.factors.k_mod_medium,
        };
        Duration { years: self.factors.k_mod_permanent * heat, top: top * heat }
    }

    /// Share of strength left in the heat: foam's. Plywood dries in the sun as it warms; its loss is not counted.
    pub(crate) fn heat_strength(&self, layer: usize, hot: bool) -> f64 {
        if hot && self.roof.layers[layer].role == Role::Core {
            self.ratio(layer, Property::HeatStrength, OWN_FOAM_HEAT)
        } else {
            1.0
        }
    }

    /// A ratio of the tables.
    pub(crate) fn ratio(&self, layer: usize, property: Property, otherwise: f64) -> f64 {
        match &self.roof.layers[layer].material {
            LayerMaterial::Table(m) => m.get(property).map_or(otherwise, |v| match self.materials {
                Materials::Default => v.default,
                Materials::Low | Materials::High => v.low,
            }),
            LayerMaterial::Own(_) => otherwise,
        }
    }

    /// The core next to a skin: for an outer skin the first core below it, for an inner one the last above.
    pub(crate) fn core_beside(&self, layer: usize) -> Option<usize> {
        let cores = || (0..self.roof.layers.len()).filter(|i| self.roof.layers[*i].role == Role::Core);
        match self.roof.layers[layer].role {
            Role::Outer => cores().find(|c| *c > layer),
            Role::Inner => cores().rfind(|c| *c < layer),
            Role::Core => None,
        }
    }
}

/// Where a strength comes from, as a basis.
pub(crate) fn basis(known: &Known, with: &str) -> Basis {
    let kind = known.kind.into();
    Basis {
        source: if with.is_empty() { known.source.clone() } else { format!("{}; {with}", known.source) }
            .into(),
        kind,
    }
}

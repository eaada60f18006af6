//! A stumble over a void: the upper skin by statics, or as it bends.

use super::super::finding::{Check, Finding};
use super::super::foot::{at, stumble, weight};
use super::{Over, most};
use crate::loads::Footing;
use crate::local::SlotDent;
use crate::model::Role;
use crate::quantity::{Force, si};
use crate::strength::fall_through::{SkinUnderFoot, fall_through_over_slot};
use crate::strength::{Basis, Limit};

impl Over<'_> {
    /// Where statics by strips do not show that a stumble holds, the elastic skin on foam that yields may: it too breaks no
    /// limit, so the lesser ratio of the two counts.
    fn or_elastic(&self, finding: &mut Finding, punching: f64) -> Result<(), String> {
        let factors = self.context.factors;
        let soles: Vec<&[SlotDent]> = self.bare.iter().map(|bed| &bed[..self.soles.len()]).collect();
        let more = factors.stumble / factors.walking;
        let breaks = 1.0 / self.stumble_over_heel();
        let Ok(bent) =
            self.bent(&self.soles, &soles, [more, breaks], self.foam.crush / factors.gamma_core_crush)
        else {
            return Ok(());
        };
        let ratio = most(punching, bent.iter().map(|f| f.ratio * self.stumble_over_heel()));
        if ratio < finding.ratio {
            finding.limit = finding.demand / ratio * self.context.model_factor;
            finding.ratio = ratio;
            finding.basis = Basis::computed("elastic skin over a slot, on foam that yields, and punching");
        }
        Ok(())
    }

    /// Fall through: the strongest of the skins over the void. What holds only by a lower skin is not tried.
    pub(super) fn stumble(&self) -> Result<Vec<Finding>, String> {
        let context = self.context;
        let load = weight(self.survey) * context.factors.stumble;
        let [a, b] = context.factors.sole;
        let crush = si(self.foam.crush / context.factors.gamma_core_crush);
        let levels = context.roof.levels(self.place.x);
        let mut finding = at(&self.place, Check::FallThrough, Footing::Bare, "panel, void".to_owned());
        finding.si = "N";
        finding.demand = load;
        let mut punching: f64 = 0.0;
        for (i, layer) in context.roof.layers.iter().enumerate().filter(|(_, l)| l.role == Role::Outer) {
            let state = &self.place.state[i];
            if state.stiffness <= 0.0 || state.strength <= 0.0 {
                continue;
            }
            let s = &context.strengths[i];
            let (Some(shear), Some(bx), Some(by)) = (&s.shear_panel, &s.bending[0], &s.bending[1]) else {
                return Err(format!("no shear or bending strength is known for the {}", layer.name));
            };
            let (gamma, _) = context.gamma_skin(i);
            let safe = state.strength * context.factors.k_mod_instantaneous / (context.factors.panel * gamma);
            let (square, along) = if self.turned { (by, bx) } else { (bx, by) };
            let skin = SkinUnderFoot {
                kind: context.skin_kind(i),
                thickness: si(levels[i].1 - levels[i].0),
                panel_shear: si(shear.value * safe),
                bending_across: si(square.value * safe),
                bending_along: si(along.value * safe),
            };
            let mut least: Option<Limit<Force>> = None;
            for (across, along) in [(a, b), (b, a)] {
                for middle in self.middles(across) {
                    let pad = [si(across), si(along)];
                    let one = fall_through_over_slot(&skin, crush, pad, si(self.void.width), si(middle))
                        .map_err(|e| e.to_string())?;
                    punching = punching.max(one.punching.value);
                    let one = one.limit;
                    if least.as_ref().is_none_or(|l| one.value < l.value) {
                        least = Some(one);
                    }
                }
            }
            if let Some(limit) = least.filter(|l| l.value.value > finding.limit) {
                finding.part = format!("{}, void", layer.name);
                finding.limit = limit.value.value;
                finding.basis = limit.basis;
            }
        }
        finding.ratio = load / finding.limit * context.model_factor;
        if finding.ratio > 1.0 {
            self.or_elastic(&mut finding, load / punching * context.model_factor)?;
        }
        let sound = stumble(context, self.survey, &self.place)?;
        if finding.ratio > 1.0 && sound.iter().all(|f| f.ratio <= 1.0 && !finding.part.starts_with(&f.part)) {
            return Err("the skin over the void does not hold a stumble, and whether the lower one catches a foot is not worked out".to_owned());
        }
        Ok(vec![finding])
    }
}

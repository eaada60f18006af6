//! Beside a joint that passes no force the foam shears the skin's force out of it.
//!
//! What the skin carries a little way off, `N = s t`, is gone at the gap. It leaves over about the depth of the foam,
//! on top of the shear that is there anyway: `tau = V/d + N/c`. The peak right at the gap is higher and narrower than
//! the foam is deep; like every such peak it is averaged over that depth.

use std::collections::BTreeMap;

use super::context::{CaseState, Context};
use super::finding::{Check, Finding};
use super::panel::Worst;
use super::panel_limits::PanelLimits;
use crate::response::{Layout, Response, SkinStress};

/// A skin beside a gap, and the foam under or over it: places of a layout.
pub(crate) struct BesideJoint {
    pub skin: usize,
    pub core: usize,
    direction: usize,
    /// Depth of the skin over that of the foam.
    slope: f64,
}

impl BesideJoint {
    /// Shear stress in the foam there, Pa: its own, and what the skin gives up at the gap.
    pub(crate) fn shear(&self, core: &[f64; 2], skin: &SkinStress) -> [f64; 2] {
        let mut tau = *core;
        tau[self.direction] = tau[self.direction].abs() + (skin.middle[self.direction] * self.slope).abs();
        tau
    }
}

/// Places of the layout right beside the gaps, both sides.
pub(crate) fn beside_joints(context: &Context<'_>, layout: &Layout) -> Vec<BesideJoint> {
    let mut out = Vec::new();
    for joint in &context.roof.joints {
        let Some(foam) = context.core_beside(joint.layer) else { continue };
        let key = |x: f64, y: f64| (x.to_bits(), y.to_bits());
        let cores: BTreeMap<(u64, u64), usize> = (layout.cores.iter().enumerate())
            .filter(|(_, p)| p.layer == foam)
            .map(|(i, p)| (key(p.x, p.y), i))
            .collect();
        let (from, to) = [(joint.rect.x0, joint.rect.x1), (joint.rect.y0, joint.rect.y1)][joint.direction];
        let skins = || {
            layout.skins.iter().enumerate().filter_map(|(i, p)| {
                let sound = p.layer == joint.layer && !layout.states[p.state][p.layer].cut[joint.direction];
                sound.then_some((i, [p.x, p.y][joint.direction], p))
            })
        };
        let before = skins().map(|s| s.1).filter(|at| *at <= from).fold(f64::NEG_INFINITY, f64::max);
        let after = skins().map(|s| s.1).filter(|at| *at >= to).fold(f64::INFINITY, f64::min);
        for (skin, _, place) in skins().filter(|(_, at, _)| *at == before || *at == after) {
            let Some(&core) = cores.get(&key(place.x, place.y)) else { continue };
            let levels = context.roof.levels(place.x);
            let deep = |layer: usize| levels[layer].1 - levels[layer].0;
            let slope = deep(joint.layer) / deep(foam);
            out.push(BesideJoint { skin, core, direction: joint.direction, slope });
        }
    }
    out
}

/// Core shear beside the gaps in one case.
pub(crate) fn joint_findings(
    context: &Context<'_>,
    limits: &PanelLimits,
    layout: &Layout,
    places: &[BesideJoint],
    case: &CaseState<'_>,
) -> Vec<Finding> {
    let mut worst = Worst::default();
    for p in places {
        let at = &layout.cores[p.core];
        // No limit known for the foam: the panel's own check has told so.
        let Some(Ok(core)) = &limits.of(at.state, at.layer, case).core else { continue };
        let tau = |response: &Response| p.shear(&response.cores[p.core], &response.skins[p.skin]);
        worst.keep(Check::CoreShear, at, &core.used(case, &tau(case.years), &tau(case.top)), &core.basis);
    }
    worst.findings(context, case)
}

//! A joint in a skin that passes no force: a narrow zone in which that skin has no stiffness across the joint.
//!
//! Beside the gap the skin's force goes to nothing over a short way: the foam shears it into the other skin, which bends
//! by itself. With thick faces (Allen 1969, from memory) the moment that the skins bend with falls off as `exp(-b x)`,
//! `b = sqrt(S/EI)`, with `S` the shear stiffness of the panel and `EI` the sum of the skins' own: the kink is
//! `2 M/(b EI)`. A zone as wide as `2 EI_left/sqrt(EI S)`, in which only the skin that is left bends, has the same kink.
//! The moment in it is that of statics however wide it is: the width decides the sag, not the stress, of a roof that has
//! no other way to carry.

use super::panel::{LayerState, Rect, Role, Zone};
use super::{IdealRoof, Moduli, Time, lay_up, moduli};
use crate::check::Materials;
use crate::survey::{Joint, JointKind, JointLine};

/// No zone is narrower, m: lines of the grid nearer than a millimetre are one.
const NARROWEST: f64 = 4e-3;

/// A joint that passes no force.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct IdealJoint {
    pub layer: usize,
    /// The direction no force passes in: 0 across, 1 along.
    pub direction: usize,
    pub rect: Rect,
}

impl IdealJoint {
    /// The zone that stands for it.
    pub(crate) fn zone(&self) -> Zone {
        let cut = [0, 1].map(|d| d == self.direction);
        Zone { rect: self.rect, layer: self.layer, state: LayerState { cut, ..LayerState::SOUND } }
    }
}

/// Whether a joint is taken to gape: what backs a joint has no known strength, so that it counts as none.
pub(crate) fn parts(joint: &Joint) -> bool {
    joint.kind != JointKind::Scarfed
}

/// The joint on a roof whose layers are known.
///
/// # Errors
/// In words, a modulus that is not known.
pub(crate) fn ideal_joint(
    joint: &Joint,
    roof: &IdealRoof,
    materials: Materials,
) -> Result<IdealJoint, String> {
    let direction = usize::from(matches!(joint.line, JointLine::AtAlong(_)));
    let half = width(roof, joint.layer, direction, materials)? / 2.0;
    let whole = Rect { x0: 0.0, x1: roof.span, y0: 0.0, y1: roof.length };
    let rect = match joint.line {
        JointLine::AtAcross(x) => {
            Rect { x0: (x.value - half).max(0.0), x1: (x.value + half).min(roof.span), ..whole }
        }
        JointLine::AtAlong(y) => {
            Rect { y0: (y.value - half).max(0.0), y1: (y.value + half).min(roof.length), ..whole }
        }
    };
    Ok(IdealJoint { layer: joint.layer, direction, rect })
}

/// Width of the zone that kinks as the joint does, m; no wider than the foam is deep.
fn width(roof: &IdealRoof, layer: usize, direction: usize, materials: Materials) -> Result<f64, String> {
    let moduli: Vec<Moduli> = roof
        .layers
        .iter()
        .map(|l| moduli(&l.material, l.grain_across, materials, Time::Fresh, roof.creep_hours))
        .collect::<Result<_, _>>()?;
    let sound = vec![LayerState::SOUND; roof.layers.len()];
    let lay_up = lay_up(roof, &moduli, &sound, roof.span / 2.0, Time::Fresh, None)
        .map_err(|e| e.to_string())?
        .ok_or("nothing carries in the sound roof")?;
    let shear = lay_up.laminate.shear_si()[direction];
    let own = |i: usize| {
        let e = [moduli[i].e_x_flexural, moduli[i].e_y_flexural][direction];
        e * roof.layers[i].thickness[1].powi(3) / 12.0
    };
    let of = |role: fn(Role) -> bool| (0..roof.layers.len()).filter(move |&i| role(roof.layers[i].role));
    let all: f64 = of(|r| r != Role::Core).map(own).sum();
    let foam: f64 = of(|r| r == Role::Core).map(|i| roof.layers[i].thickness[1]).sum();
    let kinks = 2.0 * (all - own(layer)) / (all * shear).sqrt();
    Ok(kinks.min(foam).max(NARROWEST))
}

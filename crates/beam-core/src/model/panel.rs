//! The panel: layers at their heights, and what is left of each in a zone.

use crate::survey::{LayerMaterial, Patch};

/// A rectangle on the roof, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Rect {
    pub x0: f64,
    pub x1: f64,
    pub y0: f64,
    pub y1: f64,
}

impl Rect {
    pub(crate) fn of(patch: &Patch) -> Rect {
        Rect {
            x0: patch.across.from.value,
            x1: patch.across.to.value,
            y0: patch.along.from.value,
            y1: patch.along.to.value,
        }
    }
    pub(crate) fn contains(&self, x: f64, y: f64) -> bool {
        self.x0 <= x && x <= self.x1 && self.y0 <= y && y <= self.y1
    }
    /// The same, larger by these much on the sides across and along.
    pub(crate) fn grown(&self, [across, along]: [f64; 2]) -> Rect {
        Rect { x0: self.x0 - across, x1: self.x1 + across, y0: self.y0 - along, y1: self.y1 + along }
    }
    /// Whether they have more than an edge in common.
    pub(crate) fn overlaps(&self, other: &Rect) -> bool {
        const SAME: f64 = 1e-9;
        self.x0 < other.x1 - SAME
            && other.x0 < self.x1 - SAME
            && self.y0 < other.y1 - SAME
            && other.y0 < self.y1 - SAME
    }
    pub(crate) fn area(&self) -> f64 {
        (self.x1 - self.x0) * (self.y1 - self.y0)
    }
    pub(crate) fn centre(&self) -> (f64, f64) {
        ((self.x0 + self.x1) / 2.0, (self.y0 + self.y1) / 2.0)
    }
    /// Share of its size along that lies between `y0` and `y1`.
    pub(crate) fn share_along(&self, y0: f64, y1: f64) -> f64 {
        ((self.y1.min(y1) - self.y0.max(y0)) / (self.y1 - self.y0)).clamp(0.0, 1.0)
    }
}

/// What a layer does in the roof.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Role {
    /// Above the core.
    Outer,
    /// Foam.
    Core,
    /// Below the core.
    Inner,
}

/// A layer at its place.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct IdealLayer {
    pub name: String,
    pub role: Role,
    pub material: LayerMaterial,
    /// Thickness at the walls and at the crown.
    pub thickness: [f64; 2],
    /// Whether the face grain lies across the vehicle.
    pub grain_across: bool,
    /// Bond to the layer below, sound places.
    pub bonded_below: bool,
}

/// What is left of one layer at a place: shares of the sound values.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct LayerState {
    pub stiffness: f64,
    pub strength: f64,
    pub crush: f64,
    /// Whether it holds to the layers above and below.
    pub bonded: bool,
    /// Thickness of the layer cut away by a slot, as a share; 1: all of it.
    pub slot: f64,
    /// Whether the slot is cut from the weather side.
    pub slot_from_top: bool,
    /// Water taken up, kg/m3.
    pub water: f64,
    /// Whether a joint keeps its force from passing across, and along.
    pub cut: [bool; 2],
}

impl LayerState {
    pub(crate) const SOUND: LayerState = LayerState {
        stiffness: 1.0,
        strength: 1.0,
        crush: 1.0,
        bonded: true,
        slot: 0.0,
        slot_from_top: false,
        water: 0.0,
        cut: [false; 2],
    };

    /// Whether a joint runs through it.
    pub(crate) fn is_cut(&self) -> bool {
        self.cut.contains(&true)
    }

    /// The worse of two in each respect.
    pub(crate) fn worst(self, other: LayerState) -> LayerState {
        LayerState {
            stiffness: self.stiffness.min(other.stiffness),
            strength: self.strength.min(other.strength),
            crush: self.crush.min(other.crush),
            bonded: self.bonded && other.bonded,
            slot: self.slot.max(other.slot),
            slot_from_top: if other.slot > self.slot { other.slot_from_top } else { self.slot_from_top },
            water: self.water.max(other.water),
            cut: [0, 1].map(|d| self.cut[d] || other.cut[d]),
        }
    }
}

/// State of every layer at a place, from the weather side down.
pub(crate) type PanelState = Vec<LayerState>;

/// A patch of one layer that is not sound.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Zone {
    pub rect: Rect,
    pub layer: usize,
    pub state: LayerState,
}

/// Distance of a place to the nearest corner of any opening, m; infinite without openings.
pub(crate) fn nearest_corner(openings: &[Rect], x: f64, y: f64) -> f64 {
    let square = |o: &Rect| {
        let (dx, dy) = ((o.x0 - x).abs().min((o.x1 - x).abs()), (o.y0 - y).abs().min((o.y1 - y).abs()));
        dx * dx + dy * dy
    };
    openings.iter().map(square).fold(f64::INFINITY, f64::min).sqrt()
}

/// State of all `layers` layers at a place: the worst of the zones that cover it.
pub(crate) fn state_at(zones: &[Zone], layers: usize, x: f64, y: f64) -> PanelState {
    let mut state = vec![LayerState::SOUND; layers];
    for zone in zones.iter().filter(|z| z.rect.contains(x, y)) {
        state[zone.layer] = state[zone.layer].worst(zone.state);
    }
    state
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn where_patches_overlap_the_worst_counts() {
        let zone = |x1: f64, stiffness: f64, strength: f64| Zone {
            rect: Rect { x0: 0.0, x1, y0: 0.0, y1: 1.0 },
            layer: 0,
            state: LayerState { stiffness, strength, ..LayerState::SOUND },
        };
        let zones = [zone(1.0, 0.3, 0.9), zone(2.0, 0.5, 0.2)];
        let both = state_at(&zones, 1, 0.5, 0.5)[0];
        assert_eq!((both.stiffness, both.strength), (0.3, 0.2));
        assert_eq!(state_at(&zones, 1, 1.5, 0.5)[0].stiffness, 0.5);
        assert_eq!(state_at(&zones, 1, 2.5, 0.5)[0], LayerState::SOUND);
    }
}

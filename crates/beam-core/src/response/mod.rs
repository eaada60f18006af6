//! What a roof does under a load: linear, so that responses add.
//!
//! A [`Layout`] says where the numbers of a [`Response`] belong; one layout serves all loads of one solved state.
//! Both the strip and the two-way roof fill it, and the checks read nothing else.

mod worse;

pub(crate) use worse::{is_worse, worse_of};

use crate::model::PanelState;

/// A place in one layer.
#[derive(Debug, Clone, Copy)]
pub(crate) struct LayerPlace {
    pub layer: usize,
    pub x: f64,
    pub y: f64,
    /// Index into [`Layout::states`].
    pub state: usize,
    /// Distance to the nearest corner of an opening, m; infinite without openings.
    pub to_corner: f64,
}

/// A place over a slot, which the skins bridge.
#[derive(Debug, Clone, Copy)]
pub(crate) struct SlotPlace {
    pub x: f64,
    pub y: f64,
    pub state: usize,
    /// Size of the slot across and along, m.
    pub size: [f64; 2],
}

/// A place on a brace.
#[derive(Debug, Clone, Copy)]
pub(crate) struct BracePlace {
    pub brace: usize,
    pub x: f64,
}

/// A place on a trimmer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct TrimmerPlace {
    pub trimmer: usize,
    pub x: f64,
    pub y: f64,
}

/// Where the numbers of a response belong.
#[derive(Debug, Clone, Default)]
pub(crate) struct Layout {
    pub sag: Vec<(f64, f64)>,
    pub skins: Vec<LayerPlace>,
    pub cores: Vec<LayerPlace>,
    pub slots: Vec<SlotPlace>,
    /// Nodes of the model that the places of `sag` stand for, where it numbers them.
    pub nodes: Vec<usize>,
    pub braces: Vec<BracePlace>,
    pub trimmers: Vec<TrimmerPlace>,
    /// Indices of the roof's braces whose ends are reported, in order.
    pub ends: Vec<usize>,
    pub states: Vec<PanelState>,
    /// How many of the pushes are those of walls and props; the others are those of members that lie loose.
    pub wall_contacts: usize,
}

/// Stress in a layer that carries direct stress, Pa: at mid-thickness, and what its own bending adds at its top.
///
/// The strip leaves out what the foam's shear adds: it is a pencil check.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(crate) struct SkinStress {
    /// sx, sy, sxy at mid-thickness.
    pub middle: [f64; 3],
    /// Top face minus middle, as the skin bends with the panel.
    pub bending: [f64; 3],
    /// What the foam's shear adds to that of sx, sy, at the fibre farthest from the middle of all skins on that side.
    pub sheared: [f64; 2],
}

impl SkinStress {
    /// What the skin's own bending adds in one direction, with the panel and by the foam's shear.
    pub(crate) fn own(&self, direction: usize) -> f64 {
        self.bending[direction] + self.sheared[direction]
    }

    /// Adds `factor` times another.
    pub(crate) fn add(&mut self, other: &SkinStress, factor: f64) {
        self.with(other, |a, b| *a += factor * b);
    }

    /// Does something to every number with that of another.
    fn with(&mut self, other: &SkinStress, mut make: impl FnMut(&mut f64, f64)) {
        let SkinStress { middle, bending, sheared } = self;
        let numbers = middle.iter_mut().chain(bending).chain(sheared);
        let others = other.middle.iter().chain(&other.bending).chain(&other.sheared);
        numbers.zip(others).for_each(|(a, b)| make(a, *b));
    }

    /// As it is judged of a load: round a bare foot the skin bends by itself as the checks of the foot tell, finer than a
    /// plate can.
    pub(crate) fn judged(&self, by_a_bare_foot: bool) -> SkinStress {
        SkinStress { sheared: if by_a_bare_foot { [0.0; 2] } else { self.sheared }, ..*self }
    }
}

/// Forces in a brace: N (tension positive), M (sagging positive), V, the shear flow in its glue line, N/m, and torque.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(crate) struct BraceForces {
    pub axial: f64,
    pub moment: f64,
    pub shear: f64,
    pub flow: f64,
    pub torsion: f64,
}

/// Reactions, N: up on the roof; thrust outward on the wall.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(crate) struct WallForces {
    pub left: f64,
    pub right: f64,
    pub front: f64,
    pub rear: f64,
    pub left_thrust: f64,
    pub right_thrust: f64,
}

/// Numbers of one load.
#[derive(Debug, Clone, Default)]
pub(crate) struct Response {
    /// Sag, m, positive down.
    pub sag: Vec<f64>,
    pub skins: Vec<SkinStress>,
    /// Shear stress xz, yz, Pa.
    pub cores: Vec<[f64; 2]>,
    /// Shear force per width across and along over a slot, N/m.
    pub slots: Vec<[f64; 2]>,
    pub braces: Vec<BraceForces>,
    pub trimmers: Vec<BraceForces>,
    /// End reactions left and right, N.
    pub ends: Vec<[f64; 2]>,
    /// Push of each contact that pushes only, N.
    pub pushes: Vec<f64>,
    pub walls: WallForces,
    /// Total load, N, down positive.
    pub load: f64,
    /// Largest relative residual.
    pub residual: f64,
}

impl Response {
    /// No load at all, in the shape of a layout.
    pub(crate) fn zero(layout: &Layout) -> Response {
        Response {
            sag: vec![0.0; layout.sag.len()],
            skins: vec![SkinStress::default(); layout.skins.len()],
            cores: vec![[0.0; 2]; layout.cores.len()],
            slots: vec![[0.0; 2]; layout.slots.len()],
            braces: vec![BraceForces::default(); layout.braces.len()],
            trimmers: vec![BraceForces::default(); layout.trimmers.len()],
            ends: vec![[0.0; 2]; layout.ends.len()],
            ..Response::default()
        }
    }

    /// Adds `factor` times another response of the same layout.
    pub(crate) fn add(&mut self, other: &Response, factor: f64) {
        self.with(other, |a, b| *a += factor * b);
    }

    /// Does something to every number with that of another response of the same layout; the larger residual stays.
    fn with(&mut self, other: &Response, make: impl Fn(&mut f64, f64)) {
        let pairs = |list: &mut [[f64; 2]], others: &[[f64; 2]]| {
            for (a, b) in list.as_flattened_mut().iter_mut().zip(others.as_flattened()) {
                make(a, *b);
            }
        };
        for (a, b) in self.sag.iter_mut().zip(&other.sag) {
            make(a, *b);
        }
        for (a, b) in self.skins.iter_mut().zip(&other.skins) {
            a.with(b, &make);
        }
        pairs(&mut self.cores, &other.cores);
        pairs(&mut self.slots, &other.slots);
        pairs(&mut self.ends, &other.ends);
        if self.pushes.len() < other.pushes.len() {
            self.pushes.resize(other.pushes.len(), 0.0);
        }
        for (a, b) in self.pushes.iter_mut().zip(&other.pushes) {
            make(a, *b);
        }
        let members = self.braces.iter_mut().zip(&other.braces);
        for (a, b) in members.chain(self.trimmers.iter_mut().zip(&other.trimmers)) {
            make(&mut a.axial, b.axial);
            make(&mut a.moment, b.moment);
            make(&mut a.shear, b.shear);
            make(&mut a.flow, b.flow);
            make(&mut a.torsion, b.torsion);
        }
        let (w, o) = (&mut self.walls, &other.walls);
        make(&mut w.left, o.left);
        make(&mut w.right, o.right);
        make(&mut w.front, o.front);
        make(&mut w.rear, o.rear);
        make(&mut w.left_thrust, o.left_thrust);
        make(&mut w.right_thrust, o.right_thrust);
        make(&mut self.load, other.load);
        self.residual = self.residual.max(other.residual);
    }

    /// Sum of `(response, factor)`.
    pub(crate) fn sum<'a>(layout: &Layout, parts: impl IntoIterator<Item = (&'a Response, f64)>) -> Response {
        let mut parts = parts.into_iter();
        // Copied, not added to zeros: those would be a second pass over memory that is mapped anew.
        let mut total = parts.next().map_or_else(
            || Response::zero(layout),
            |(part, factor)| {
                let mut first = part.clone();
                first.with(part, |a, b| *a = factor * b);
                first
            },
        );
        for (part, factor) in parts {
            total.add(part, factor);
        }
        total
    }

    /// Largest sag and the index of its place.
    pub(crate) fn largest_sag(&self) -> (usize, f64) {
        let sags = self.sag.iter().copied().enumerate();
        sags.reduce(|kept, one| if is_worse(one.1, kept.1) { one } else { kept }).unwrap_or((0, 0.0))
    }
}

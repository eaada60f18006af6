//! The unknowns of one roof, their elimination order, and where each element's stiffness goes.
//!
//! Every node carries `u v w bx by`, then the own unknowns of the members through it. The *full* numbering
//! (`5 node + k`, then members) includes what is held; one slot past its end takes what an element does not
//! use. The *unknown* numbering is the elimination order of what is free.

use std::collections::HashMap;
use std::sync::Arc;

use super::brace::{Along, Bond, Brace, PIECE_NODE, PIECE_UNKNOWNS};
use super::element::ELEMENT_UNKNOWNS;
use super::error::PlateError;
use super::factor::Symbolic;
use super::grid::Grid;
use super::numbering::Numbering;
use super::order::nested_dissection;
use super::room::Room;
use super::scatter::{ElementList, Groups, NONE};
use super::support::NodalSupports;
use super::system::slope;

/// Cells that are alike but for how they slope.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct FlatClass {
    pub(crate) zone: usize,
    pub(crate) dx: f64,
    pub(crate) dy: f64,
}

/// Cells with one stiffness matrix.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct CellClass {
    /// Index of its [`FlatClass`].
    pub(crate) flat: usize,
    pub(crate) slope: f64,
}

/// A piece of a member between two neighbouring nodes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct PiecePlace {
    pub(crate) brace: usize,
    pub(crate) length: f64,
    pub(crate) slope: f64,
}

/// Everything about a roof that does not depend on how stiff it is.
#[derive(Debug)]
pub(crate) struct Layout {
    /// Number of full unknowns; index `full` is the slot for what is unused.
    pub(crate) full: usize,
    /// Cells, then pieces of members, then thrust springs.
    list: ElementList,
    pub(crate) flat: Vec<FlatClass>,
    pub(crate) classes: Vec<CellClass>,
    pub(crate) pieces: Vec<PiecePlace>,
    /// First element that is a piece of each member, then the first that is a spring.
    pub(crate) first_piece: Vec<usize>,
    pub(crate) brace_nodes: Vec<Vec<usize>>,
    /// Gap of each member at each of its nodes, as a full unknown; empty for members that cannot part.
    pub(crate) gaps: Vec<Vec<usize>>,
    /// Which nodes carry panel.
    pub(crate) active: Vec<bool>,
    pub(crate) supports: NodalSupports,
    /// For each one-way contact the elements that hang on it, and which of their unknowns it is.
    on_contact: Vec<Vec<(usize, usize)>>,
    scatter: Vec<u32>,
    pub(crate) symbolic: Arc<Symbolic>,
}

impl Layout {
    pub(crate) fn new(
        grid: &Grid,
        rise: &[f64],
        braces: &[Brace],
        active: &[bool],
        mut supports: NodalSupports,
        room: &Arc<Room>,
    ) -> Result<Self, PlateError> {
        let brace_nodes: Vec<Vec<usize>> =
            braces.iter().map(|b| b.nodes(grid, active)).collect::<Result<_, _>>()?;
        let mut own_start = Vec::with_capacity(braces.len());
        let mut full = 5 * grid.nodes();
        for (brace, nodes) in braces.iter().zip(&brace_nodes) {
            own_start.push(full);
            full += brace.own_unknowns() * nodes.len();
        }
        let gaps = gaps(braces, &brace_nodes, &own_start);
        hold_gaps(&mut supports, full, braces, &brace_nodes, (&own_start, &gaps));

        let mut list = ElementList::default();
        let (flat, classes) = list_cells(grid, rise, &mut list);
        let mut matrix = classes.len();
        let mut pieces = Vec::new();
        let mut first_piece = Vec::new();
        for (index, (brace, nodes)) in braces.iter().zip(&brace_nodes).enumerate() {
            first_piece.push(list.elements.len());
            for (k, pair) in nodes.windows(2).enumerate() {
                let [length, slope] = piece_place(grid, rise, brace.along, pair);
                pieces.push(PiecePlace { brace: index, length, slope });
                let own = own_start[index] + brace.own_unknowns() * k;
                let gap = gaps[index].get(k..k + 2);
                list.push(piece_unknowns(brace, pair, own, gap, full).into_iter(), pair, matrix);
                matrix += 1;
            }
        }
        first_piece.push(list.elements.len());
        for &(node, _) in &supports.springs {
            list.push([5 * node as u32, 5 * node as u32 + 3].into_iter(), &[node], matrix);
            matrix += 1;
        }

        let order = nested_dissection(grid.x().len(), grid.y().len(), active);
        let mut carried: Vec<Vec<usize>> = vec![Vec::new(); grid.nodes()];
        for ((brace, nodes), start) in braces.iter().zip(&brace_nodes).zip(&own_start) {
            let own = brace.own_unknowns();
            for (k, &node) in nodes.iter().enumerate() {
                carried[node].extend((0..own).map(|r| start + own * k + r));
            }
        }
        let mut position = vec![NONE; grid.nodes()];
        let mut unknown_of = vec![NONE; full + 1];
        let mut full_of = Vec::new();
        let mut group_start = vec![0];
        for (p, &node) in order.iter().enumerate() {
            position[node] = p as u32;
            let all = (5 * node..5 * node + 5).chain(carried[node].iter().copied());
            for f in all.filter(|&f| !supports.fixed[f]) {
                unknown_of[f] = full_of.len() as u32;
                full_of.push(f as u32);
            }
            group_start.push(full_of.len());
        }
        let groups = Groups::new(group_start, list.neighbours(&position));
        let pattern = groups.pattern();
        let scatter = list.scatter(&unknown_of, &position, &groups, &pattern);
        let mut contact_of = vec![NONE; full + 1];
        for (number, &contact) in supports.one_way.iter().enumerate() {
            contact_of[contact] = number as u32;
        }
        let mut on_contact = vec![Vec::new(); supports.one_way.len()];
        for element in 0..list.elements.len() {
            for (local, &f) in list.element(element).iter().enumerate() {
                if let Some(on) = on_contact.get_mut(contact_of[f as usize] as usize) {
                    on.push((element, local));
                }
            }
        }
        Ok(Self {
            full,
            on_contact,
            list,
            flat,
            classes,
            pieces,
            first_piece,
            brace_nodes,
            gaps,
            active: active.to_vec(),
            supports,
            scatter,
            symbolic: Arc::new(Symbolic::new(pattern, Numbering::new(full_of, unknown_of), room.clone())),
        })
    }

    /// What turns full numbers into unknowns.
    pub(crate) fn numbering(&self) -> &Numbering {
        &self.symbolic.numbering
    }

    /// Full unknowns of one element.
    pub(crate) fn element(&self, element: usize) -> &[u32] {
        self.list.element(element)
    }

    /// Sum of the element matrices: values of the lower triangle, and one more for what is unused.
    pub(crate) fn assemble(&self, matrices: &[Vec<f64>], values: &mut [f64]) {
        values.fill(0.0);
        let mut scatter = self.scatter.iter();
        for (element, &(_, matrix)) in self.list.elements.iter().enumerate() {
            let size = self.element(element).len();
            for (i, row) in matrices[matrix as usize].chunks_exact(size).enumerate() {
                for (value, &at) in row[..=i].iter().zip(scatter.by_ref()) {
                    values[at as usize] += value;
                }
            }
        }
    }

    /// Forces that hold every full unknown when they move by `u`.
    pub(crate) fn internal_force(&self, matrices: &[Vec<f64>], u: &[f64]) -> Vec<f64> {
        let mut force = zeros(self.full + 1);
        for element in 0..self.list.elements.len() {
            self.add_element_force(element, matrices, u, &mut force);
        }
        force[self.full] = 0.0;
        force
    }

    /// Forces on the one-way contacts when the full unknowns move by `u`.
    pub(crate) fn contact_force(&self, matrices: &[Vec<f64>], u: &[f64]) -> Vec<f64> {
        let row = |&(element, local): &(usize, usize)| -> f64 {
            let moved = self.element(element).iter().map(|&f| u[f as usize]);
            self.stiffness_row(matrices, element, local).iter().zip(moved).map(|(k, moved)| k * moved).sum()
        };
        self.on_contact.iter().map(|on| on.iter().map(row).sum()).collect()
    }

    /// Calls `take` with parts of the forces on the full unknowns when each one-way contact moves by its entry of `moves`,
    /// all else held.
    pub(crate) fn force_of_contacts(
        &self,
        matrices: &[Vec<f64>],
        moves: impl Iterator<Item = (usize, f64)>,
        mut take: impl FnMut(usize, f64),
    ) {
        for (contact, moved) in moves {
            for &(element, local) in &self.on_contact[contact] {
                let row = self.stiffness_row(matrices, element, local);
                let used = row.iter().zip(self.element(element)).filter(|(_, f)| (**f as usize) < self.full);
                used.for_each(|(k, &f)| take(f as usize, k * moved));
            }
        }
    }

    /// One row of the stiffness of an element, which is a column of it too.
    fn stiffness_row<'m>(&self, matrices: &'m [Vec<f64>], element: usize, local: usize) -> &'m [f64] {
        let size = self.element(element).len();
        &matrices[self.list.elements[element].1 as usize][local * size..][..size]
    }

    /// Adds the forces of one element to `force`.
    fn add_element_force(&self, element: usize, matrices: &[Vec<f64>], u: &[f64], force: &mut [f64]) {
        let unknowns = self.element(element);
        let mut own = [0.0; ELEMENT_UNKNOWNS];
        let own = &mut own[..unknowns.len()];
        for (local, &f) in unknowns.iter().enumerate() {
            let moved = u[f as usize];
            let row = self.stiffness_row(matrices, element, local);
            own.iter_mut().zip(row).for_each(|(sum, k)| *sum += k * moved);
        }
        unknowns.iter().zip(own).for_each(|(&f, own)| force[f as usize] += *own);
    }

    /// Name and node of a full unknown, for messages.
    pub(crate) fn describe(&self, full: usize, nodes: usize) -> (&'static str, usize) {
        const PANEL: [&str; 5] =
            ["movement across", "movement along", "deflection", "rotation across", "rotation along"];
        if full < 5 * nodes {
            return (PANEL[full % 5], full / 5);
        }
        for (brace, on_line) in self.brace_nodes.iter().enumerate() {
            for element in self.first_piece[brace]..self.first_piece[brace + 1] {
                if self.element(element).contains(&(full as u32)) {
                    return ("rotation or movement of a brace", on_line[element - self.first_piece[brace]]);
                }
            }
        }
        ("an unknown", 0)
    }
}

/// Zeros that are written once: memory that is read before it is written is mapped twice.
fn zeros(count: usize) -> Vec<f64> {
    let mut out = Vec::with_capacity(count);
    out.resize(count, 0.0);
    out
}

/// Gap of each member at each of its nodes. At the ends of a jointed member it is the gap of the resting one that it
/// meets on the same side of the panel.
fn gaps(braces: &[Brace], brace_nodes: &[Vec<usize>], own_start: &[usize]) -> Vec<Vec<usize>> {
    let own = |member: usize, k: usize| own_start[member] + 2 * k + 1;
    let meets = |member: &Brace, node: usize| {
        braces.iter().zip(brace_nodes).enumerate().find_map(|(other, (brace, nodes))| {
            let k = nodes.iter().position(|n| *n == node)?;
            (brace.bond == Bond::Resting && brace.is_below() == member.is_below()).then(|| own(other, k))
        })
    };
    let of = |(index, (brace, nodes)): (usize, (&Brace, &Vec<usize>))| -> Vec<usize> {
        if !brace.may_part() {
            return Vec::new();
        }
        let mut gaps: Vec<usize> = (0..nodes.len()).map(|k| own(index, k)).collect();
        if brace.bond == Bond::Jointed {
            for k in [0, nodes.len() - 1] {
                gaps[k] = meets(brace, nodes[k]).unwrap_or(gaps[k]);
            }
        }
        gaps
    };
    braces.iter().zip(brace_nodes).enumerate().map(of).collect()
}

/// Holds the gaps of resting members closed, one-way where their node is not held itself. A jointed member has no
/// gaps of its own at its ends: they are its neighbour's, or closed for good.
fn hold_gaps(
    supports: &mut NodalSupports,
    full: usize,
    braces: &[Brace],
    brace_nodes: &[Vec<usize>],
    (own_start, gaps): (&[usize], &[Vec<usize>]),
) {
    supports.fixed.resize(full + 1, false);
    for (((brace, nodes), gaps), own) in braces.iter().zip(brace_nodes).zip(gaps).zip(own_start) {
        for (k, (&node, &gap)) in nodes.iter().zip(gaps).enumerate() {
            let joint = brace.bond == Bond::Jointed && (k == 0 || k + 1 == nodes.len());
            supports.fixed[own + 2 * k + 1] = true;
            if !joint && !supports.fixed[5 * node + 2] {
                supports.one_way.push(gap);
            }
        }
    }
}

/// Lists the cells and finds their classes: size and zone, and those with crown slope.
fn list_cells(grid: &Grid, rise: &[f64], list: &mut ElementList) -> (Vec<FlatClass>, Vec<CellClass>) {
    let (mut flats, mut classes) = (Vec::new(), Vec::new());
    let (mut flat_of, mut class_of) = (HashMap::new(), HashMap::new());
    let rounded = |v: f64| (v * 1e12).round() as i64;
    for (cell, zone) in grid.present() {
        let (dx, dy) = grid.size(cell);
        let slope = slope(grid, rise, grid.column_row(cell).0);
        let flat = *flat_of.entry((zone, [dx, dy].map(rounded))).or_insert_with(|| {
            flats.push(FlatClass { zone, dx, dy });
            flats.len() - 1
        });
        let class = *class_of.entry((flat, rounded(slope))).or_insert_with(|| {
            classes.push(CellClass { flat, slope });
            classes.len() - 1
        });
        let unknowns = grid.corners(cell).into_iter().flat_map(|n| (5 * n..5 * n + 5).map(|f| f as u32));
        list.push(unknowns, &grid.corners(cell), class);
    }
    (flats, classes)
}

/// Full unknowns of the piece between two nodes; `own` is the first own unknown at its start, `gap` its two gaps,
/// `unused` the slot for what it does not have.
fn piece_unknowns(
    brace: &Brace,
    pair: &[usize],
    own: usize,
    gap: Option<&[usize]>,
    unused: usize,
) -> [u32; PIECE_UNKNOWNS] {
    let mut unknowns = [unused as u32; PIECE_UNKNOWNS];
    for (end, node) in pair.iter().enumerate() {
        let at = end * PIECE_NODE;
        for (slot, panel) in brace.panel_unknowns().into_iter().enumerate() {
            unknowns[at + slot] = (5 * node + panel) as u32;
        }
        for r in 0..brace.own_unknowns() {
            unknowns[at + 4 + r] = (own + brace.own_unknowns() * end + r) as u32;
        }
        if let Some(gap) = gap {
            unknowns[at + 5] = gap[end] as u32;
        }
    }
    unknowns
}

/// Length and crown slope of the piece between two neighbouring nodes.
pub(crate) fn piece_place(grid: &Grid, rise: &[f64], along: Along, pair: &[usize]) -> [f64; 2] {
    let (from, to) = (grid.place(pair[0]), grid.place(pair[1]));
    match along {
        Along::X => [to.0 - from.0, slope(grid, rise, pair[0] % grid.x().len())],
        Along::Y => [to.1 - from.1, 0.0],
    }
}

//! The unknowns of one roof, their elimination order, and where each element's stiffness goes.
//!
//! Every node carries `u v w bx by`, then the own unknowns of the members through it. The *full* numbering
//! (`5 node + k`, then members) includes what is held; one slot past its end takes what an element does not
//! use. The *unknown* numbering is the elimination order of what is free.

use std::collections::HashMap;
use std::sync::Arc;

use super::brace::{Along, Bond, Brace, PIECE_NODE};
use super::error::PlateError;
use super::factor::{Pattern, Symbolic};
use super::grid::Grid;
use super::order::nested_dissection;
use super::support::NodalSupports;
use super::system::slope;

/// Marks what is held or not there.
const NONE: u32 = u32::MAX;

/// Cells with one stiffness matrix.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct CellClass {
    pub(crate) zone: usize,
    pub(crate) dx: f64,
    pub(crate) dy: f64,
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
    /// Full number of each unknown.
    pub(crate) full_of: Vec<u32>,
    /// Full unknowns of all elements, one after the other: cells, pieces of members, thrust springs.
    element_unknowns: Vec<u32>,
    /// Where each element's unknowns begin, and the matrix it takes.
    elements: Vec<(u32, u32)>,
    pub(crate) classes: Vec<CellClass>,
    pub(crate) pieces: Vec<PiecePlace>,
    /// First element that is a piece of each member, then the first that is a spring.
    pub(crate) first_piece: Vec<usize>,
    pub(crate) brace_nodes: Vec<Vec<usize>>,
    /// First own unknown of each member.
    pub(crate) own_start: Vec<usize>,
    /// Which nodes carry panel.
    pub(crate) active: Vec<bool>,
    pub(crate) supports: NodalSupports,
    /// Elements that hang on a one-way contact.
    contact_elements: Vec<usize>,
    pub(crate) entries: usize,
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
    ) -> Result<Self, PlateError> {
        let brace_nodes: Vec<Vec<usize>> =
            braces.iter().map(|b| b.nodes(grid, active)).collect::<Result<_, _>>()?;
        let mut own_start = Vec::with_capacity(braces.len());
        let mut full = 5 * grid.nodes();
        for (brace, nodes) in braces.iter().zip(&brace_nodes) {
            own_start.push(full);
            full += brace.own_unknowns() * nodes.len();
        }
        supports.fixed.resize(full + 1, false);
        for ((brace, nodes), own) in braces.iter().zip(&brace_nodes).zip(&own_start) {
            for (k, &node) in nodes.iter().enumerate().filter(|_| brace.bond == Bond::Resting) {
                let gap = own + 2 * k + 1;
                supports.fixed[gap] = true;
                if !supports.fixed[5 * node + 2] {
                    supports.one_way.push(gap);
                }
            }
        }

        let mut list = ElementList::default();
        let slope = |column: usize| slope(grid, rise, column);
        let mut classes = Vec::new();
        let mut class_of = HashMap::new();
        for (cell, zone) in grid.present() {
            let (dx, dy) = grid.size(cell);
            let slope = slope(grid.column_row(cell).0);
            let key = (zone, [dx, dy, slope].map(|v| (v * 1e12).round() as i64));
            let class = *class_of.entry(key).or_insert_with(|| {
                classes.push(CellClass { zone, dx, dy, slope });
                classes.len() - 1
            });
            let unknowns = grid.corners(cell).into_iter().flat_map(|n| (5 * n..5 * n + 5).map(|f| f as u32));
            list.push(unknowns, &grid.corners(cell), class);
        }
        let mut matrix = classes.len();
        let mut pieces = Vec::new();
        let mut first_piece = Vec::new();
        for (index, (brace, nodes)) in braces.iter().zip(&brace_nodes).enumerate() {
            first_piece.push(list.elements.len());
            for (k, pair) in nodes.windows(2).enumerate() {
                let (from, to) = (grid.place(pair[0]), grid.place(pair[1]));
                let (length, slope) = match brace.along {
                    Along::X => (to.0 - from.0, slope(pair[0] % grid.x().len())),
                    Along::Y => (to.1 - from.1, 0.0),
                };
                pieces.push(PiecePlace { brace: index, length, slope });
                let mut unknowns = [full as u32; 2 * PIECE_NODE];
                for end in 0..2 {
                    for (slot, panel) in brace.panel_unknowns().into_iter().enumerate() {
                        unknowns[end * PIECE_NODE + slot] = (5 * pair[end] + panel) as u32;
                    }
                    let own = own_start[index] + brace.own_unknowns() * (k + end);
                    unknowns[end * PIECE_NODE + 4] = own as u32;
                    if brace.own_unknowns() == 2 {
                        unknowns[end * PIECE_NODE + 5] = own as u32 + 1;
                    }
                }
                list.push(unknowns.into_iter(), pair, matrix);
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
        for (index, (brace, nodes)) in braces.iter().zip(&brace_nodes).enumerate() {
            let own = brace.own_unknowns();
            for (k, &node) in nodes.iter().enumerate() {
                carried[node].extend((0..own).map(|r| own_start[index] + own * k + r));
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
        let mut one_way = vec![false; full + 1];
        for &contact in &supports.one_way {
            one_way[contact] = true;
        }
        let contact_elements =
            (0..list.elements.len()).filter(|&e| list.element(e).iter().any(|&f| one_way[f as usize]));
        Ok(Self {
            full,
            contact_elements: contact_elements.collect(),
            full_of,
            element_unknowns: list.unknowns,
            elements: list.elements,
            classes,
            pieces,
            first_piece,
            brace_nodes,
            own_start,
            active: active.to_vec(),
            supports,
            entries: pattern.rows.len(),
            scatter,
            symbolic: Arc::new(Symbolic::new(Arc::new(pattern))),
        })
    }

    /// Full unknowns of one element.
    pub(crate) fn element(&self, element: usize) -> &[u32] {
        let from = self.elements[element].0 as usize;
        let to = self.elements.get(element + 1).map_or(self.element_unknowns.len(), |e| e.0 as usize);
        &self.element_unknowns[from..to]
    }

    /// Sum of the element matrices: values of the lower triangle.
    pub(crate) fn assemble(&self, matrices: &[Vec<f64>]) -> Vec<f64> {
        let mut values = vec![0.0; self.entries + 1];
        let mut scatter = self.scatter.as_slice();
        for &(_, matrix) in &self.elements {
            let packed = &matrices[matrix as usize];
            let (own, rest) = scatter.split_at(packed.len());
            for (&at, value) in own.iter().zip(packed) {
                values[at as usize] += value;
            }
            scatter = rest;
        }
        values.truncate(self.entries);
        values
    }

    /// Forces that hold every full unknown when they move by `u`.
    pub(crate) fn internal_force(&self, matrices: &[Vec<f64>], u: &[f64]) -> Vec<f64> {
        let mut force = vec![0.0; self.full + 1];
        for element in 0..self.elements.len() {
            self.add_element_force(element, matrices, u, &mut force);
        }
        force[self.full] = 0.0;
        force
    }

    /// Forces of the elements that hang on a one-way contact.
    pub(crate) fn contact_force(&self, matrices: &[Vec<f64>], u: &[f64]) -> Vec<f64> {
        let mut force = vec![0.0; self.full + 1];
        for &element in &self.contact_elements {
            self.add_element_force(element, matrices, u, &mut force);
        }
        force[self.full] = 0.0;
        force
    }

    /// Adds the forces of one element to `force`.
    fn add_element_force(&self, element: usize, matrices: &[Vec<f64>], u: &[f64], force: &mut [f64]) {
        let unknowns = self.element(element);
        let mut packed = matrices[self.elements[element].1 as usize].iter();
        for (i, &fi) in unknowns.iter().enumerate() {
            let mut own = 0.0;
            for (j, (&fj, k)) in unknowns[..=i].iter().zip(packed.by_ref()).enumerate() {
                own += k * u[fj as usize];
                if j != i {
                    force[fj as usize] += k * u[fi as usize];
                }
            }
            force[fi as usize] += own;
        }
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

/// Elements while they are being collected.
#[derive(Default)]
struct ElementList {
    unknowns: Vec<u32>,
    elements: Vec<(u32, u32)>,
    nodes: Vec<Vec<usize>>,
}

impl ElementList {
    fn push(&mut self, unknowns: impl Iterator<Item = u32>, nodes: &[usize], matrix: usize) {
        self.elements.push((self.unknowns.len() as u32, matrix as u32));
        self.unknowns.extend(unknowns);
        self.nodes.push(nodes.to_vec());
    }

    fn element(&self, element: usize) -> &[u32] {
        let from = self.elements[element].0 as usize;
        let to = self.elements.get(element + 1).map_or(self.unknowns.len(), |e| e.0 as usize);
        &self.unknowns[from..to]
    }

    /// Pairs of positions (lower first) that some element joins, sorted.
    fn neighbours(&self, position: &[u32]) -> Vec<(u32, u32)> {
        let mut pairs = Vec::with_capacity(6 * self.nodes.len());
        for nodes in &self.nodes {
            for (k, &a) in nodes.iter().enumerate() {
                for &b in &nodes[k + 1..] {
                    let (a, b) = (position[a], position[b]);
                    pairs.push((a.min(b), a.max(b)));
                }
            }
        }
        pairs.sort_unstable();
        pairs.dedup();
        pairs
    }

    /// For every entry of every element's packed triangle, its place among the matrix's values.
    fn scatter(&self, unknown_of: &[u32], position: &[u32], groups: &Groups, pattern: &Pattern) -> Vec<u32> {
        let unused = pattern.rows.len() as u32;
        let mut scatter = Vec::new();
        for (element, nodes) in self.nodes.iter().enumerate() {
            let unknowns: Vec<u32> = self.element(element).iter().map(|&f| unknown_of[f as usize]).collect();
            let each = unknowns.len() / nodes.len();
            let mut offset = [[0usize; 4]; 4];
            for (a, &first) in nodes.iter().enumerate() {
                for (b, &second) in nodes.iter().enumerate() {
                    offset[a][b] = groups.offset(position[first], position[second]);
                }
            }
            for i in 0..unknowns.len() {
                for j in 0..=i {
                    let (low, high) = if unknowns[i] < unknowns[j] { (i, j) } else { (j, i) };
                    let (column, row) = (unknowns[low], unknowns[high]);
                    scatter.push(if row == NONE || column == NONE {
                        unused
                    } else {
                        let group = position[nodes[low / each]] as usize;
                        let own_end = groups.start[group + 1];
                        let column = column as usize;
                        let base = pattern.column_start[column];
                        if position[nodes[high / each]] as usize == group {
                            (base + row as usize - column) as u32
                        } else {
                            let other = groups.start[position[nodes[high / each]] as usize];
                            (base + own_end - column + offset[low / each][high / each] + row as usize - other)
                                as u32
                        }
                    });
                }
            }
        }
        scatter
    }
}

/// Unknowns grouped by node, and which later groups each one meets.
struct Groups {
    start: Vec<usize>,
    /// First pair of each group.
    first: Vec<usize>,
    /// Later neighbours, by group, ascending, each with the number of unknowns before it in the column.
    later: Vec<(u32, usize)>,
}

impl Groups {
    fn new(start: Vec<usize>, pairs: Vec<(u32, u32)>) -> Self {
        let count = start.len() - 1;
        let mut first = vec![0; count + 1];
        for &(low, _) in &pairs {
            first[low as usize + 1] += 1;
        }
        for group in 0..count {
            first[group + 1] += first[group];
        }
        let mut later = Vec::with_capacity(pairs.len());
        for group in 0..count {
            let mut before = 0;
            for &(_, high) in &pairs[first[group]..first[group + 1]] {
                later.push((high, before));
                before += start[high as usize + 1] - start[high as usize];
            }
        }
        Self { start, first, later }
    }

    /// Unknowns of earlier neighbours between the end of group `low` and group `high` in a column.
    fn offset(&self, low: u32, high: u32) -> usize {
        let later = &self.later[self.first[low as usize]..self.first[low as usize + 1]];
        later.binary_search_by_key(&high, |&(group, _)| group).map_or(0, |at| later[at].1)
    }

    fn pattern(&self) -> Pattern {
        let mut column_start = vec![0];
        let mut rows = Vec::new();
        for group in 0..self.start.len() - 1 {
            let end = self.start[group + 1];
            for column in self.start[group]..end {
                rows.extend(column..end);
                for &(high, _) in &self.later[self.first[group]..self.first[group + 1]] {
                    rows.extend(self.start[high as usize]..self.start[high as usize + 1]);
                }
                column_start.push(rows.len());
            }
        }
        Pattern { column_start, rows }
    }
}

//! What a solved roof shows: sag, strains, stresses, member forces, reactions, and the proof of balance.

use std::borrow::Cow;
use std::sync::OnceLock;

use super::brace::{Along, Bond, Brace, PIECE_UNKNOWNS, Piece, dot};
use super::loads::LoadVector;
use super::system::PlateSystem;

/// The response of a roof to one load.
#[derive(Debug, Clone)]
pub struct Response<'a> {
    pub(super) system: &'a PlateSystem,
    pub(super) u: Cow<'a, [f64]>,
    pub(super) load: Cow<'a, LoadVector>,
    pub(super) internal: OnceLock<Vec<f64>>,
}

/// Forces and strain state at the centre of a cell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CellState {
    /// `exx eyy gxy` at the reference plane, `kx ky kxy` (1/m), `gxz gyz`; `z` up.
    pub strain: [f64; 8],
    /// Membrane forces `Nx Ny Nxy`, N/m, tension positive.
    pub membrane: [f64; 3],
    /// Moments `Mx My Mxy` about the reference plane, N, sagging positive.
    pub moment: [f64; 3],
    /// Shear forces `Qx Qy`, N/m, positive where the sagging moment grows.
    pub shear: [f64; 2],
}

/// Forces in one piece of a member, between two grid lines.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BraceForces {
    /// Start and end along the member, m.
    pub span: [f64; 2],
    /// Axial force, N, tension positive.
    pub axial: f64,
    /// Moment about the member's own axis at start and end, N m, sagging positive. A glued member takes the glue's
    /// couples at the grid lines, so that its moment steps there by the step of `axial` times the arm from glue
    /// to axis; the mean of both sides is the moment of the smooth member.
    pub moment: [f64; 2],
    /// Shear force, N, positive where the sagging moment grows.
    pub shear: f64,
    /// Shear flow in the bed at start and end, N/m; `None` without a bed. In a rigid bond it is the step of `axial`
    /// between two pieces over the length that belongs to the line between them.
    pub slip_flow: Option<[f64; 2]>,
    /// Torque, N m; zero for a member that turns by itself.
    pub torsion: f64,
}

impl BraceForces {
    /// Largest stress in the piece for a section of `area` (m2) and `modulus` (m3), Pa, with the sign of the
    /// fibre it occurs in (tension positive).
    pub fn worst_stress(&self, area: f64, modulus: f64) -> f64 {
        let bending = self.moment[0].abs().max(self.moment[1].abs()) / modulus;
        let axial = self.axial / area;
        if axial < 0.0 { axial - bending } else { axial + bending }
    }
}

/// How well a response satisfies the laws it must.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Balance {
    /// Whole downward load, N.
    pub load: f64,
    /// Sum of the upward reactions, N.
    pub reactions: f64,
    /// Largest force left over at a free unknown over the largest force anywhere.
    pub residual: f64,
    /// Energy stored, J.
    pub stored: f64,
    /// Work of the loads at their final value over two, J.
    pub work: f64,
}

impl<'a> Response<'a> {
    pub(crate) fn new(system: &'a PlateSystem, u: Cow<'a, [f64]>, load: Cow<'a, LoadVector>) -> Self {
        Self { system, u, load, internal: OnceLock::new() }
    }

    /// Forces that hold every full unknown where it is.
    pub(super) fn internal(&self) -> &[f64] {
        self.internal.get_or_init(|| self.system.internal_force(&self.u))
    }

    /// Sag at a node, m, down positive; `None` where there is no panel.
    pub fn sag_at_node(&self, node: usize) -> Option<f64> {
        self.system.layout.active.get(node)?.then(|| -self.u[5 * node + 2])
    }

    /// Sag at a point, m, down positive; `None` where there is no panel.
    pub fn sag(&self, x: f64, y: f64) -> Option<f64> {
        let grid = &self.system.model.grid;
        let cell = grid.cell_at(x, y).filter(|&c| grid.zone(c).is_some())?;
        let shares = self.system.corner_shares(cell, x, y);
        Some(grid.corners(cell).into_iter().zip(shares).map(|(n, s)| -s * self.u[5 * n + 2]).sum())
    }

    /// Largest sag of a node and its place, m. Where the whole roof rises this is the smallest rise, negative.
    pub fn worst_sag(&self) -> (f64, (f64, f64)) {
        let grid = &self.system.model.grid;
        (0..grid.nodes())
            .filter_map(|node| Some((self.sag_at_node(node)?, grid.place(node))))
            .max_by(|a, b| a.0.total_cmp(&b.0))
            .expect("a roof without panel is refused before it is solved")
    }

    /// State at the centre of a cell; `None` in an opening.
    pub fn cell(&self, cell: usize) -> Option<CellState> {
        let model = &self.system.model;
        let laminate = &model.laminates[model.grid.zone(cell)?];
        let (dx, dy) = model.grid.size(cell);
        let corners = model.grid.corners(cell).map(|node| &self.u[5 * node..5 * node + 5]);
        // At the centre every shape function is a quarter, and its slopes are those of the edges' mid-points.
        let field = |k: usize| {
            let [a, b, c, d] = corners.map(|u| u[k]);
            [(b + c - a - d) / (2.0 * dx), (c + d - a - b) / (2.0 * dy), (a + b + c + d) / 4.0]
        };
        let [u, v, w, bx, by] = [0, 1, 2, 3, 4].map(field);
        let slope = model.slope_of(cell);
        let strain = [
            u[0] + slope * w[0],
            v[1],
            u[1] + v[0] + slope * w[1],
            bx[0],
            by[1],
            bx[1] + by[0],
            w[0] + bx[2],
            w[1] + by[2],
        ];
        let mut force = [0.0; 8];
        for i in 0..3 {
            for j in 0..3 {
                force[i] += laminate.a[i][j] * strain[j] + laminate.b[i][j] * strain[j + 3];
                force[i + 3] += laminate.b[j][i] * strain[j] + laminate.d[i][j] * strain[j + 3];
            }
            if i < 2 {
                force[i + 6] = laminate.ks[i] * strain[i + 6];
            }
        }
        Some(CellState {
            strain,
            membrane: [force[0], force[1], force[2]],
            moment: [-force[3], -force[4], -force[5]],
            shear: [-force[6], -force[7]],
        })
    }

    /// State at a node: the mean of the cells around it that belong to `zone`, each by the nearness of its
    /// centre; `None` if no cell there does.
    pub fn at_node(&self, node: usize, zone: usize) -> Option<CellState> {
        let grid = &self.system.model.grid;
        let (columns, rows) = (grid.x().len() - 1, grid.y().len() - 1);
        let (i, j) = (node % (columns + 1), node / (columns + 1));
        let mut sum = [0.0; 16];
        let mut weight = 0.0;
        for row in j.saturating_sub(1)..=j.min(rows - 1) {
            for column in i.saturating_sub(1)..=i.min(columns - 1) {
                let cell = row * columns + column;
                if grid.zone(cell) != Some(zone) {
                    continue;
                }
                let state = self.cell(cell)?;
                let (dx, dy) = grid.size(cell);
                let own = 1.0 / (dx * dy);
                weight += own;
                let values =
                    state.strain.iter().chain(&state.membrane).chain(&state.moment).chain(&state.shear);
                for (total, value) in sum.iter_mut().zip(values) {
                    *total += own * value;
                }
            }
        }
        if weight == 0.0 {
            return None;
        }
        let mean = sum.map(|v| v / weight);
        Some(CellState {
            strain: std::array::from_fn(|k| mean[k]),
            membrane: std::array::from_fn(|k| mean[8 + k]),
            moment: std::array::from_fn(|k| mean[11 + k]),
            shear: std::array::from_fn(|k| mean[14 + k]),
        })
    }

    /// Forces in the pieces of a member, from its start to its end; empty if there is no such member.
    pub fn brace(&self, brace: usize) -> Vec<BraceForces> {
        let layout = &self.system.layout;
        let Some(member) = self.system.model.braces.get(brace) else { return Vec::new() };
        let [free_axial, free_curvature] = self.load.brace_strain[brace];
        let mut from = member.ends[0];
        (layout.first_piece[brace]..layout.first_piece[brace + 1])
            .map(|element| {
                let place = &layout.pieces[element - layout.first_piece[0]];
                let mut nodal = [0.0; PIECE_UNKNOWNS];
                for (value, &f) in nodal.iter_mut().zip(layout.element(element)) {
                    *value = self.u[f as usize];
                }
                let piece = Piece::new(member, place.length, place.slope);
                let start = from;
                from += place.length;
                piece_forces(member, &piece, &nodal, [start, from], [free_axial, free_curvature])
            })
            .collect()
    }

    /// Upward reactions: place (m, m) and force (N) of every node whose deflection is held.
    pub fn reactions(&self) -> Vec<((f64, f64), f64)> {
        let grid = &self.system.model.grid;
        let internal = self.internal();
        (0..grid.nodes())
            .filter(|&n| self.system.layout.supports.fixed[5 * n + 2])
            .map(|n| (grid.place(n), internal[5 * n + 2] - self.load.force.at(5 * n + 2)))
            .collect()
    }

    /// Openings of a member that lies against the panel: place along it (m) and gap (m) at every node it may
    /// part from; empty for other members.
    pub fn gaps(&self, brace: usize) -> Vec<(f64, f64)> {
        let layout = &self.system.layout;
        let Some(member) = self.system.model.braces.get(brace) else { return Vec::new() };
        if !member.may_part() {
            return Vec::new();
        }
        let grid = &self.system.model.grid;
        let place = |node: usize| match member.along {
            Along::X => grid.place(node).0,
            Along::Y => grid.place(node).1,
        };
        layout.brace_nodes[brace]
            .iter()
            .enumerate()
            .map(|(k, &n)| (place(n), self.u[layout.gaps[brace][k]]))
            .collect()
    }

    /// Outward push on the left and the right wall, N; `None` if the walls are taken to spread freely.
    pub fn thrust(&self) -> Option<[f64; 2]> {
        let model = &self.system.model;
        let thrust = model.supports.thrust?;
        let mut push = [0.0; 2];
        for &(node, stiffness) in &self.system.layout.supports.springs {
            let moved = self.u[5 * node] + thrust.z * self.u[5 * node + 3];
            let left = node % model.grid.x().len() == 0;
            push[usize::from(!left)] += stiffness * if left { -moved } else { moved };
        }
        Some(push)
    }

    /// Proof that the response balances its load.
    pub fn balance(&self) -> Balance {
        let layout = &self.system.layout;
        let (force, internal) = (&self.load.force, self.internal());
        let largest = internal.iter().fold(force.largest(), |m: f64, v| m.max(v.abs()));
        let mut left_over = internal.to_vec();
        force.iter().for_each(|(full, force)| left_over[full] -= force);
        let free = layout.numbering().full_of.iter();
        let left_over = free.map(|&f| left_over[f as usize].abs()).fold(0.0, f64::max);
        Balance {
            load: self.load.total(self.system),
            reactions: self.reactions().iter().map(|(_, r)| r).sum(),
            residual: if largest > 0.0 { left_over / largest } else { 0.0 },
            stored: dot(&self.u, internal) / 2.0,
            work: force.dot(&self.u) / 2.0,
        }
    }
}

/// Forces in one piece from its twelve unknowns and its free axial strain and curvature.
pub(crate) fn piece_forces(
    member: &Brace,
    piece: &Piece,
    nodal: &[f64; PIECE_UNKNOWNS],
    span: [f64; 2],
    free: [f64; 2],
) -> BraceForces {
    let axial = if member.is_bonded() { member.ea * (dot(&piece.axial, nodal) - free[0]) } else { 0.0 };
    let middle = -member.ei * (dot(&piece.curvature, nodal) - free[1]);
    let shear = -piece.gas * dot(&piece.shear, nodal);
    let half = shear * piece.length / 2.0;
    let slip_flow = match member.bond {
        Bond::Slip(k) => Some(piece.slip.map(|row| k * dot(&row, nodal))),
        Bond::Rigid | Bond::Loose | Bond::Resting | Bond::Jointed => None,
    };
    let torsion = member.gj * dot(&piece.twist, nodal);
    BraceForces { span, axial, moment: [middle - half, middle + half], shear, slip_flow, torsion }
}

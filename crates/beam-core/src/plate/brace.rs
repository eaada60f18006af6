//! A brace or trimmer: a Timoshenko member along a grid line, eccentric, glued, bedded or loose.
//!
//! The member has its own rotation `th` at every node. Glued, its axis moves by
//! `u_axis = u + z_glue b + (z_axis - z_glue) th`; on a bed its axis has an unknown of its own, tied to that
//! movement by the bed's slip spring; loose, it shares `w` alone; resting, it may part from `w`. Its strains are `u_axis,x + z0,x w,x`
//! (axial), `th,x` (bending), `w,x + th` (shear) and the panel's twist along it.
//!
//! # References
//! MacNeal (1978), residual bending flexibility of a two-node Timoshenko member (from memory):
//! `1/GAs* = 1/GAs + h^2/(12 EI)` makes the member's nodal deflections exact.

use super::error::{PlateError, checked};
use super::grid::Grid;

/// Direction of a member.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Along {
    /// Across the roof (x), as braces do.
    X,
    /// Along the vehicle (y), as trimmers do.
    Y,
}

/// How a member hangs together with the panel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Bond {
    /// Glued without slip.
    Rigid,
    /// On a bed with this slip stiffness per length, N/m2.
    Slip(f64),
    /// Not bonded, but kept from parting: shares the deflection only.
    Loose,
    /// Not bonded: lies against the panel and pushes only. Below the panel (axis below the touching face) it
    /// pushes up. Over a wall, prop or other held node it stays in touch.
    Resting,
    /// Resting, and jointed at both ends to the members that it meets there: the joints carry shear alone, either
    /// way. Where it meets none, its ends stay in touch with the panel.
    Jointed,
}

/// A member along one grid line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Brace {
    /// Direction.
    pub along: Along,
    /// The coordinate of its line: y of a brace across, x of a trimmer, m.
    pub line: f64,
    /// Start and end along its direction, m; both on grid lines.
    pub ends: [f64; 2],
    /// Axial stiffness, N.
    pub ea: f64,
    /// Bending stiffness about its own axis, N m2.
    pub ei: f64,
    /// Shear stiffness, N.
    pub gas: f64,
    /// Torsional stiffness, N m2 (0: none counted).
    pub gj: f64,
    /// Height of its axis above the reference plane, m.
    pub z_axis: f64,
    /// Height of the glued face above the reference plane, m.
    pub z_glue: f64,
    /// Bond.
    pub bond: Bond,
}

impl Brace {
    /// Refuses a member that is not stiff or not finite.
    pub(crate) fn check(&self) -> Result<(), PlateError> {
        let positive = |v: f64| v > 0.0;
        checked("brace axial stiffness (N)", self.ea, "positive", positive)?;
        checked("brace bending stiffness (N m2)", self.ei, "positive", positive)?;
        checked("brace shear stiffness (N)", self.gas, "positive", positive)?;
        checked("brace torsional stiffness (N m2)", self.gj, "not negative", |v| v >= 0.0)?;
        checked("height of the brace's axis (m)", self.z_axis, "finite", |_| true)?;
        checked("height of the glue (m)", self.z_glue, "finite", |_| true)?;
        if let Bond::Slip(k) = self.bond {
            checked("slip stiffness (N/m2)", k, "positive; without a bond, say loose", positive)?;
        }
        Ok(())
    }

    /// Unknowns of its own at each node: `th`, and on a bed the movement of its axis, at rest the gap.
    pub(crate) fn own_unknowns(&self) -> usize {
        match self.bond {
            Bond::Slip(_) | Bond::Resting | Bond::Jointed => 2,
            Bond::Rigid | Bond::Loose => 1,
        }
    }

    /// Whether it lies against the panel and may part from it.
    pub(crate) fn may_part(&self) -> bool {
        matches!(self.bond, Bond::Resting | Bond::Jointed)
    }

    /// Whether it lies under the face it touches, and so pushes up.
    pub(crate) fn is_below(&self) -> bool {
        self.z_axis <= self.z_glue
    }

    /// What the numbering of a roof knows of it: its line, the kind of its bond and its side of the panel.
    pub(crate) fn place(&self) -> (Along, [f64; 3], std::mem::Discriminant<Bond>, bool) {
        let line = [self.line, self.ends[0], self.ends[1]];
        (self.along, line, std::mem::discriminant(&self.bond), self.is_below())
    }

    /// Whether it takes part in the panel's movement along it.
    pub(crate) fn is_bonded(&self) -> bool {
        matches!(self.bond, Bond::Rigid | Bond::Slip(_))
    }

    /// The nodes it runs through, in order.
    ///
    /// # Errors
    /// A line or end that is on no grid line, a member without length, or one that crosses an opening.
    pub(crate) fn nodes(&self, grid: &Grid, active: &[bool]) -> Result<Vec<usize>, PlateError> {
        let (from, to, line);
        let nodes: Vec<usize> = match self.along {
            Along::X => {
                line = grid.y_line("brace line", self.line)?;
                from = grid.x_line("brace end", self.ends[0])?;
                to = grid.x_line("brace end", self.ends[1])?;
                (from..=to).map(|i| grid.node(i, line)).collect()
            }
            Along::Y => {
                line = grid.x_line("trimmer line", self.line)?;
                from = grid.y_line("trimmer end", self.ends[0])?;
                to = grid.y_line("trimmer end", self.ends[1])?;
                (from..=to).map(|j| grid.node(line, j)).collect()
            }
        };
        checked("brace length in cells", nodes.len() as f64 - 1.0, "at least 1", |v| v >= 1.0)?;
        if let Some(&node) = nodes.iter().find(|&&node| !active[node]) {
            let (x, y) = grid.place(node);
            return Err(PlateError::NoPanel { what: "a brace".into(), x, y });
        }
        Ok(nodes)
    }

    /// The panel's unknowns at a node that the member takes part in, out of `u v w bx by`: the movement along
    /// it, the deflection, the rotation along it and the twist about it.
    pub(crate) fn panel_unknowns(&self) -> [usize; 4] {
        match self.along {
            Along::X => [0, 2, 3, 4],
            Along::Y => [1, 2, 4, 3],
        }
    }
}

/// Unknowns of one piece at each of its two nodes: movement, deflection, rotation, twist of the panel; own
/// rotation `th`; own axial movement (bed) or gap (at rest).
pub(crate) const PIECE_NODE: usize = 6;
/// Unknowns of one piece.
pub(crate) const PIECE_UNKNOWNS: usize = 2 * PIECE_NODE;

/// Strain rows of a piece of a member between two nodes.
pub(crate) struct Piece {
    /// Length, m.
    pub(crate) length: f64,
    /// Axial strain; zero rows for a loose member.
    pub(crate) axial: [f64; PIECE_UNKNOWNS],
    /// Curvature `th,x`.
    pub(crate) curvature: [f64; PIECE_UNKNOWNS],
    /// Shear strain `w,x + th` at the middle.
    pub(crate) shear: [f64; PIECE_UNKNOWNS],
    /// Twist of the panel along the member.
    pub(crate) twist: [f64; PIECE_UNKNOWNS],
    /// Slip of the axis against the panel at the two nodes (bed only).
    pub(crate) slip: [[f64; PIECE_UNKNOWNS]; 2],
    /// Shear stiffness with the residual bending correction, N.
    pub(crate) gas: f64,
}

impl Piece {
    /// A piece of `length` whose crown rises by `slope` per metre along it.
    pub(crate) fn new(brace: &Brace, length: f64, slope: f64) -> Self {
        let [u, w, b, t, th, own] = [0, 1, 2, 3, 4, 5];
        let mut piece = Self {
            length,
            axial: [0.0; PIECE_UNKNOWNS],
            curvature: [0.0; PIECE_UNKNOWNS],
            shear: [0.0; PIECE_UNKNOWNS],
            twist: [0.0; PIECE_UNKNOWNS],
            slip: [[0.0; PIECE_UNKNOWNS]; 2],
            gas: 1.0 / (1.0 / brace.gas + length * length / (12.0 * brace.ei)),
        };
        for (node, sign) in [(0, -1.0), (1, 1.0)] {
            let at = node * PIECE_NODE;
            let gradient = sign / length;
            piece.curvature[at + th] = gradient;
            piece.shear[at + w] = gradient;
            piece.shear[at + th] = 0.5;
            if brace.may_part() {
                piece.shear[at + own] = if brace.is_below() { -gradient } else { gradient };
            }
            if !brace.is_bonded() {
                continue;
            }
            piece.twist[at + t] = gradient;
            piece.axial[at + w] = slope * gradient;
            let panel_side = [(u, 1.0), (b, brace.z_glue), (th, brace.z_axis - brace.z_glue)];
            if matches!(brace.bond, Bond::Slip(_)) {
                piece.axial[at + own] = gradient;
                piece.slip[node][at + own] = 1.0;
                for (unknown, arm) in panel_side {
                    piece.slip[node][at + unknown] = -arm;
                }
            } else {
                for (unknown, arm) in panel_side {
                    piece.axial[at + unknown] = arm * gradient;
                }
            }
        }
        piece
    }

    /// Stiffness by rows.
    pub(crate) fn stiffness(&self, brace: &Brace) -> Vec<f64> {
        let mut terms = vec![
            (brace.ea * self.length, self.axial, self.axial),
            (brace.ei * self.length, self.curvature, self.curvature),
            (self.gas * self.length, self.shear, self.shear),
            (brace.gj * self.length, self.twist, self.twist),
        ];
        if let Bond::Slip(k) = brace.bond {
            let [first, second] = self.slip;
            let whole = k * self.length;
            terms.extend([
                (whole / 3.0, first, first),
                (whole / 3.0, second, second),
                (whole / 6.0, first, second),
                (whole / 6.0, second, first),
            ]);
        }
        let all = 0..PIECE_UNKNOWNS;
        let entry = |i: usize, j: usize| terms.iter().map(|(c, left, right)| c * left[i] * right[j]).sum();
        all.clone().flat_map(|i| all.clone().map(move |j| (i, j))).map(|(i, j)| entry(i, j)).collect()
    }

    /// Nodal forces that an initial axial strain and an initial curvature put on the member.
    pub(crate) fn initial_strain_force(
        &self,
        brace: &Brace,
        axial: f64,
        curvature: f64,
    ) -> [f64; PIECE_UNKNOWNS] {
        std::array::from_fn(|i| {
            self.length * (brace.ea * axial * self.axial[i] + brace.ei * curvature * self.curvature[i])
        })
    }
}

/// `row . values`.
pub(crate) fn dot(row: &[f64], values: &[f64]) -> f64 {
    row.iter().zip(values).map(|(a, b)| a * b).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn brace(bond: Bond) -> Brace {
        Brace {
            along: Along::X,
            line: 0.0,
            ends: [0.0, 1.0],
            ea: 3.0,
            ei: 5.0,
            gas: 7.0,
            gj: 11.0,
            z_axis: -0.4,
            z_glue: -0.3,
            bond,
        }
    }

    /// Energy of a piece of length 2 whose nodes move by `start` and `end` (`u w b t th own`).
    fn energy(bond: Bond, slope: f64, start: [f64; 6], end: [f64; 6]) -> f64 {
        let brace = brace(bond);
        let k = Piece::new(&brace, 2.0, slope).stiffness(&brace);
        let u: Vec<f64> = start.into_iter().chain(end).collect();
        let each = (0..12).flat_map(|i| (0..12).map(move |j| (i, j)));
        each.zip(k).map(|((i, j), k)| k * u[i] * u[j] / 2.0).sum()
    }

    #[track_caller]
    fn stores(energy: f64, wanted: f64) {
        assert!((energy - wanted).abs() < 1e-12, "{energy} {wanted}");
    }

    /// Energies of simple movements, by hand.
    #[test]
    fn simple_movements_store_what_they_should() {
        let still = [0.0; 6];
        let bed = Bond::Slip(13.0);
        stores(energy(Bond::Rigid, 0.0, still, [0.2, 0.0, 0.0, 0.0, 0.0, 0.0]), 3.0 * 0.1 * 0.1);
        stores(energy(Bond::Rigid, 0.0, still, [0.0, 0.0, 0.2, 0.0, 0.0, 0.0]), 3.0 * 0.03 * 0.03);
        stores(energy(Bond::Rigid, 0.0, still, [0.0, 0.0, 0.0, 0.2, 0.0, 0.0]), 11.0 * 0.1 * 0.1);
        // Turned as a whole on a slope of one half, with the axial strain that this means.
        let turned = [0.0, 0.4, -0.2, 0.0, -0.2, 0.0];
        stores(energy(Bond::Rigid, 0.5, [0.0, 0.0, -0.2, 0.0, -0.2, 0.0], turned), 3.0 * 0.1 * 0.1);
        stores(energy(bed, 0.0, [0.1, 0.0, 0.0, 0.0, 0.0, 0.0], [0.1, 0.0, 0.0, 0.0, 0.0, 0.0]), 13.0 * 0.01);
        // Slip growing from nothing: a third of its largest square.
        stores(energy(bed, 0.0, still, [0.1, 0.0, 0.0, 0.0, 0.0, 0.0]), 13.0 * 0.01 / 3.0);
        stores(energy(Bond::Loose, 0.5, still, [0.3, 0.0, 0.2, 0.1, 0.0, 0.0]), 0.0);
    }

    /// A cantilever in one piece: tip deflection `P L^3/(3 EI) + P L/GAs` (beam theory), so that the energy is
    /// half the force times it. Tip rotation from beam theory too.
    #[test]
    fn one_piece_is_an_exact_cantilever() {
        let (l, ei, gas) = (2.0_f64, 5.0, 7.0);
        let (tip, turn) = (l.powi(3) / (3.0 * ei) + l / gas, -l * l / (2.0 * ei));
        stores(energy(Bond::Loose, 0.0, [0.0; 6], [0.0, tip, 0.0, 0.0, turn, 0.0]), tip / 2.0);
    }
}

//! One number of a response, and how every load place changes it.
//!
//! By reciprocity (Maxwell, Betti) one solve for an output gives that output for every place of a load.

use super::brace::Piece;
use super::element::strain_matrix;
use super::error::{PlateError, checked};
use super::loads::LoadVector;
use super::system::PlateSystem;

/// One number of a response. Each is linear in the movements, free strains of braces aside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Output {
    /// Sag at a point, m.
    Sag {
        /// Across, m.
        x: f64,
        /// Along, m.
        y: f64,
    },
    /// Weighted sum of the strains `exx eyy gxy kx ky kxy gxz gyz` at a cell's centre: with a row of a layer's
    /// stiffness a stress, with a row of the section's stiffness a force or moment.
    CellStrain {
        /// The cell.
        cell: usize,
        /// Weight of each strain.
        weights: [f64; 8],
    },
    /// Axial force of a piece of a member, N.
    BraceAxial {
        /// The member.
        brace: usize,
        /// The piece, from the member's start.
        piece: usize,
    },
    /// Moment in the middle of a piece of a member, N m, sagging positive.
    BraceMoment {
        /// The member.
        brace: usize,
        /// The piece, from the member's start.
        piece: usize,
    },
}

/// How an output answers to loads, with every support closed.
#[derive(Debug, Clone, PartialEq)]
pub struct Influence {
    movements: Vec<f64>,
}

impl Influence {
    /// The output under a load.
    pub fn of(&self, load: &LoadVector) -> f64 {
        load.force.dot(&self.movements)
    }

    /// The output per newton pressing down on a node.
    pub fn at_node(&self, node: usize) -> f64 {
        -self.movements[5 * node + 2]
    }
}

impl PlateSystem {
    /// Influence of every load place on one output.
    ///
    /// # Valid for
    /// Every support and resting brace closed: one-way contacts that would open are held.
    ///
    /// # Errors
    /// A point without panel, a cell in an opening, a member or piece that is not there.
    pub fn influence(&self, output: &Output) -> Result<Influence, PlateError> {
        let row = self.functional(output)?;
        Ok(Influence {
            movements: self.factor.solve_one(|side| row.iter().for_each(|(f, c)| side.add(*f, *c))),
        })
    }

    /// The output as a weighted sum of full unknowns.
    pub(crate) fn functional(&self, output: &Output) -> Result<Vec<(usize, f64)>, PlateError> {
        let grid = &self.model.grid;
        match *output {
            Output::Sag { x, y } => {
                let cell = grid.cell_at(x, y).filter(|&c| grid.zone(c).is_some());
                let cell = cell.ok_or(PlateError::NoPanel { what: "a place of sag".into(), x, y })?;
                let shares = self.corner_shares(cell, x, y);
                Ok(grid.corners(cell).into_iter().zip(shares).map(|(n, s)| (5 * n + 2, -s)).collect())
            }
            Output::CellStrain { cell, weights } => {
                let cells = grid.cells() as f64;
                checked("index of a cell", cell as f64, "below the number of cells", |v| v < cells)?;
                if grid.zone(cell).is_none() {
                    let (x, y) = grid.centre(cell);
                    return Err(PlateError::NoPanel { what: "a cell asked for".into(), x, y });
                }
                let (dx, dy) = grid.size(cell);
                let b = strain_matrix(dx, dy, self.model.slope_of(cell), 0.0, 0.0);
                let unknowns = grid.corners(cell).into_iter().flat_map(|n| 5 * n..5 * n + 5);
                let weigh = |column| (0..8).map(|row| weights[row] * b[row][column]).sum();
                Ok(unknowns.enumerate().map(|(column, full)| (full, weigh(column))).collect())
            }
            Output::BraceAxial { brace, piece } => self.piece_functional(brace, piece, |member, p| {
                if member.is_bonded() { p.axial.map(|v| member.ea * v) } else { [0.0; 12] }
            }),
            Output::BraceMoment { brace, piece } => {
                self.piece_functional(brace, piece, |member, p| p.curvature.map(|v| -member.ei * v))
            }
        }
    }

    fn piece_functional(
        &self,
        brace: usize,
        piece: usize,
        row: impl Fn(&super::brace::Brace, &Piece) -> [f64; 12],
    ) -> Result<Vec<(usize, f64)>, PlateError> {
        let layout = &self.layout;
        let pieces = self
            .model
            .braces
            .get(brace)
            .map_or(0, |_| layout.first_piece[brace + 1] - layout.first_piece[brace]);
        checked("piece of a member", piece as f64, "below the member's number of pieces", |v| {
            v < pieces as f64
        })?;
        let element = layout.first_piece[brace] + piece;
        let place = &layout.pieces[element - layout.first_piece[0]];
        let member = &self.model.braces[brace];
        let row = row(member, &Piece::new(member, place.length, place.slope));
        Ok(layout.element(element).iter().map(|&f| f as usize).zip(row).collect())
    }
}

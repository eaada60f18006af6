//! A roof made ready to be solved: stiffness matrices, factor, and what the loads do to it.

use std::borrow::Cow;
use std::sync::{Arc, Mutex};

use super::brace::{Brace, Piece};
use super::contact::{ContactStiffness, Free, Openings};
use super::element;
use super::error::{PlateError, checked};
use super::factor::{Factor, FactorFailure, Side};
use super::grid::Grid;
use super::known::Layouts;
use super::laminate::PlateLaminate;
use super::layout::{CellClass, Layout};
use super::loads::{Load, LoadVector};
use super::recover::Response;
use super::support::Supports;

/// A roof as the two-way model sees it, in SI.
#[derive(Debug, Clone, PartialEq)]
pub struct PlateModel {
    /// Cells and their zones.
    pub grid: Grid,
    /// Build-up of each zone.
    pub laminates: Vec<PlateLaminate>,
    /// Height of the crowned reference surface at each grid line across, m, up; empty for a flat roof.
    pub rise: Vec<f64>,
    /// Braces and trimmers.
    pub braces: Vec<Brace>,
    /// Supports.
    pub supports: Supports,
}

impl PlateModel {
    /// Rise of the crown per metre across, in a cell: the same all over it, so that a roof turned as a whole is
    /// not strained.
    pub(crate) fn slope_of(&self, cell: usize) -> f64 {
        let column = self.grid.column_row(cell).0;
        slope(&self.grid, &self.rise, column)
    }
}

/// Rise of the crown per metre across, between grid lines `column` and `column + 1`.
pub(crate) fn slope(grid: &Grid, rise: &[f64], column: usize) -> f64 {
    match rise {
        [] => 0.0,
        z => (z[column + 1] - z[column]) / (grid.x()[column + 1] - grid.x()[column]),
    }
}

/// Height of a circular arc of `rise` (m) over `span` (m) at `x` (m) from its left end.
///
/// # Valid for
/// Rises up to half the span; 0 gives a flat roof.
pub fn arc_height(span: f64, rise: f64, x: f64) -> f64 {
    if rise == 0.0 {
        return 0.0;
    }
    let radius = span * span / (8.0 * rise) + rise / 2.0;
    let from_crown = x - span / 2.0;
    // Written without the difference of two large numbers.
    let fall = from_crown * from_crown / (radius + (radius * radius - from_crown * from_crown).sqrt());
    rise - fall
}

/// A roof with its factor: every load is one more right-hand side.
#[derive(Debug)]
pub struct PlateSystem {
    pub(crate) model: PlateModel,
    pub(crate) layout: Arc<Layout>,
    pub(crate) matrices: Vec<Vec<f64>>,
    pub(crate) factor: Factor,
    pub(crate) contact_stiffness: Mutex<ContactStiffness>,
}

impl PlateSystem {
    /// Numbers the unknowns, assembles and factorises.
    ///
    /// # Errors
    /// Numbers that are not finite or not stiff, a line that is not on the grid, a roof that can move.
    pub fn new(model: PlateModel) -> Result<Self, PlateError> {
        Self::laid_out(model, &Layouts::default())
    }

    /// The same, from the numbering of a roof that differs only in how stiff it is, where one is known.
    ///
    /// # Errors
    /// As [`PlateSystem::new`].
    pub(crate) fn laid_out(model: PlateModel, layouts: &Layouts) -> Result<Self, PlateError> {
        let active = check_model(&model)?;
        let layout = layouts.of(&model, &active)?;
        Self::factorise(model, layout)
    }

    /// The same roof in another state of its materials; numbering and symbolic analysis are shared.
    ///
    /// # Errors
    /// As [`PlateSystem::new`], and a number of zones, or a place or kind of bond of a brace, that differs.
    pub fn with_state(&self, laminates: Vec<PlateLaminate>, braces: Vec<Brace>) -> Result<Self, PlateError> {
        if laminates.len() != self.model.laminates.len() {
            return Err(PlateError::OtherLayout { what: "another number of zones" });
        }
        if !braces.iter().map(Brace::place).eq(self.model.braces.iter().map(Brace::place)) {
            return Err(PlateError::OtherLayout {
                what: "braces in other places or with another kind of bond",
            });
        }
        let model = PlateModel { laminates, braces, ..self.model.clone() };
        check_model(&model)?;
        Self::factorise(model, self.layout.clone())
    }

    fn factorise(model: PlateModel, layout: Arc<Layout>) -> Result<Self, PlateError> {
        let matrices = element_matrices(&model, &layout)?;
        let factor =
            Factor::of(&layout.symbolic, |values| layout.assemble(&matrices, values)).map_err(|failure| {
                match failure {
                    FactorFailure::NotStable { unknown } => {
                        let full = layout.numbering().full_of.get(unknown).map_or(0, |&f| f as usize);
                        let (unknown, node) = layout.describe(full, model.grid.nodes());
                        let (x, y) = model.grid.place(node);
                        PlateError::NotStable { unknown, x, y }
                    }
                    FactorFailure::Residual { residual, allowed } => {
                        PlateError::Residual { residual, allowed }
                    }
                }
            })?;
        let contact_stiffness = Mutex::new(ContactStiffness::new(layout.supports.one_way.len()));
        Ok(Self { model, layout, matrices, factor, contact_stiffness })
    }

    /// The roof.
    pub fn model(&self) -> &PlateModel {
        &self.model
    }

    /// Number of unknowns.
    pub fn unknowns(&self) -> usize {
        self.factor.size()
    }

    /// Number of entries of the factor.
    pub fn factor_entries(&self) -> usize {
        self.factor.entries()
    }

    /// Additions and multiplications that one factorisation takes.
    pub fn factor_operations(&self) -> f64 {
        self.factor.operations()
    }

    /// Response to one load.
    ///
    /// # Errors
    /// Supports that push up only and cannot find a state in which they do.
    pub fn solve(&self, load: &LoadVector) -> Result<Response<'_>, PlateError> {
        let mut u = self.factor.solve_one(|side| put(load, side));
        if let Some(opened) = self.openings(&u, load, Free::All)? {
            u = self.factor.solve_one(|side| {
                put(load, side);
                self.put_openings(&opened, side);
            });
            self.open(&mut u, &opened);
        }
        Ok(Response::new(self, Cow::Owned(u), Cow::Owned(load.clone())))
    }

    /// Solves many cases, each a sum of loads, in blocks on all threads; each response is reduced at once. Cases
    /// that open a one-way contact are solved a second time, in blocks again.
    ///
    /// # Errors
    /// As [`PlateSystem::load`] and [`PlateSystem::solve`], for the first case that fails.
    pub fn solve_each<T: Send>(
        &self,
        cases: &[Vec<Load>],
        reduce: impl Fn(usize, &Response<'_>) -> T + Sync,
    ) -> Result<Vec<T>, PlateError> {
        let closed = self.factor.solve_each(
            cases.len(),
            |k, side| {
                let load = self.load(&cases[k])?;
                put(&load, side);
                Ok(load)
            },
            |k, u, load: Result<LoadVector, PlateError>| {
                let load = load?;
                Ok(match self.openings(u, &load, Free::All)? {
                    Some(opened) => Err((load, opened)),
                    None => Ok(reduce(k, &Response::new(self, Cow::Borrowed(u), Cow::Owned(load)))),
                })
            },
        );
        let closed = closed.into_iter().collect::<Result<Vec<_>, PlateError>>()?;
        let open: Vec<_> =
            closed.iter().enumerate().filter_map(|(k, c)| c.as_ref().err().map(|o| (k, o))).collect();
        let mut again = self
            .factor
            .solve_each(
                open.len(),
                |at, side| {
                    let (load, opened) = open[at].1;
                    put(load, side);
                    self.put_openings(opened, side);
                },
                |at, u, ()| {
                    let (k, (load, opened)) = open[at];
                    reduce(k, &Response::new(self, self.with_openings(u, opened), Cow::Borrowed(load)))
                },
            )
            .into_iter();
        Ok(closed.into_iter().filter_map(|c| c.ok().or_else(|| again.next())).collect())
    }

    /// Adds what holds all else while contacts have `opened` to a right-hand side.
    pub(super) fn put_openings(&self, opened: &Openings, side: &mut Side<'_>) {
        let moves = opened.iter().copied();
        self.layout.force_of_contacts(&self.matrices, moves, |full, force| side.add(full, -force));
    }

    /// Adds the movements of contacts that have `opened` to a solution by full numbers.
    fn open(&self, u: &mut [f64], opened: &Openings) {
        opened.iter().for_each(|(number, moved)| u[self.layout.supports.one_way[*number]] += moved);
    }

    /// A solution with the movements of contacts that have `opened`.
    pub(super) fn with_openings<'u>(&self, u: &[f64], opened: &Openings) -> Cow<'u, [f64]> {
        let mut u = u.to_vec();
        self.open(&mut u, opened);
        Cow::Owned(u)
    }

    pub(crate) fn internal_force(&self, u: &[f64]) -> Vec<f64> {
        self.layout.internal_force(&self.matrices, u)
    }
}

/// Adds a load to a right-hand side.
pub(super) fn put(load: &LoadVector, side: &mut Side<'_>) {
    load.force.iter().for_each(|(full, force)| side.add(full, force));
}

/// Refuses what is not finite or stiff; returns which nodes carry panel.
fn check_model(model: &PlateModel) -> Result<Vec<bool>, PlateError> {
    let grid = &model.grid;
    for laminate in &model.laminates {
        laminate.check()?;
    }
    for brace in &model.braces {
        brace.check()?;
    }
    if !model.rise.is_empty() {
        let lines = grid.x().len();
        checked("number of crown ordinates", model.rise.len() as f64, "one per grid line across", |v| {
            v == lines as f64
        })?;
    }
    for &z in &model.rise {
        checked("crown ordinate (m)", z, "finite", |_| true)?;
    }
    let mut active = vec![false; grid.nodes()];
    for (cell, zone) in grid.present() {
        checked("zone of a cell", zone as f64, "below the number of build-ups", |v| {
            v < model.laminates.len() as f64
        })?;
        for node in grid.corners(cell) {
            active[node] = true;
        }
    }
    checked("cells with panel", grid.present().count() as f64, "at least 1", |v| v >= 1.0)?;
    Ok(active)
}

/// Stiffness by rows of every class of cells, then of every piece of a member, then of every thrust spring.
fn element_matrices(model: &PlateModel, layout: &Layout) -> Result<Vec<Vec<f64>>, PlateError> {
    let flat = layout
        .flat
        .iter()
        .map(|class| {
            let laminate = &model.laminates[class.zone];
            element::stiffness(class.dx, class.dy, laminate).ok_or(PlateError::BadNumber {
                what: format!("membrane stiffness of zone {}", class.zone),
                value: laminate.a[2][2],
                allowed: "a stiffness that resists every in-plane strain",
            })
        })
        .collect::<Result<Vec<_>, _>>()?;
    let sloped = |class: &CellClass| element::on_slope(&flat[class.flat], class.slope);
    let mut matrices: Vec<Vec<f64>> = layout.classes.iter().map(sloped).collect();
    for place in &layout.pieces {
        let brace = &model.braces[place.brace];
        matrices.push(Piece::new(brace, place.length, place.slope).stiffness(brace));
    }
    let arm = model.supports.thrust.map_or(0.0, |t| t.z);
    for &(_, k) in &layout.supports.springs {
        matrices.push(vec![k, k * arm, k * arm, k * arm * arm]);
    }
    Ok(matrices)
}

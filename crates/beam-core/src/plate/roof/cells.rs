//! Where the numbers of each cell belong in a roof's layout, and what reading them takes.

use super::turning::{Change, changes};
use super::{PlateShape, ZoneReading};
use crate::model::{LayUp, Role};
use crate::plate::Grid;

/// A cell with panel, and where its numbers belong in the roof's layout.
pub(crate) struct CellPlace {
    pub x: f64,
    pub y: f64,
    /// Index of its first skin among the layout's; the others follow.
    pub skins: std::ops::Range<usize>,
    /// Index of its cores, the same way.
    pub cores: std::ops::Range<usize>,
    /// Index of its slot.
    pub slot: Option<usize>,
    pub(super) cell: usize,
    pub(super) zone: usize,
    pub(super) corners: [usize; 4],
    /// Halves of the reciprocal sides.
    pub(super) over_x: f64,
    pub(super) over_y: f64,
    pub(super) slope: f64,
    /// Cells whose mean its shear is, with their weights; none where it stands for itself.
    pub(super) around: Vec<(usize, f64)>,
    /// How the shear strain changes across and along here, from that of the cells round it.
    pub(super) changes: [Change; 2],
}

/// The cells with panel, and the index among them of each cell of the grid.
#[derive(Default)]
pub(super) struct Cells {
    pub(super) places: Vec<CellPlace>,
    pub(super) at: Vec<Option<usize>>,
}

impl Cells {
    /// Cells in the order of the layout; `slope_of` is the crown's slope in one.
    pub(super) fn new(
        shape: &PlateShape,
        lay_ups: &[LayUp],
        readings: &[ZoneReading],
        roles: &[Role],
        slope_of: impl Fn(usize) -> f64,
    ) -> Cells {
        let grid = &shape.grid;
        let mut at = vec![None; grid.cells()];
        let mut places: Vec<CellPlace> = Vec::new();
        let (mut skin, mut core, mut slot) = (0, 0, 0);
        for (cell, zone) in grid.present() {
            let slotted = shape.makes[zone].slot.is_some();
            let all = &lay_ups[zone].layer_of;
            let foams = all.iter().filter(|l| roles[**l] == Role::Core).count();
            let (skins, cores) = (all.len() - foams, if slotted { 0 } else { foams });
            let (x, y) = grid.centre(cell);
            let (dx, dy) = grid.size(cell);
            at[cell] = Some(places.len());
            places.push(CellPlace {
                x,
                y,
                skins: skin..skin + skins,
                cores: core..core + cores,
                slot: slotted.then_some(slot),
                cell,
                zone,
                corners: grid.corners(cell),
                over_x: 0.5 / dx,
                over_y: 0.5 / dy,
                slope: slope_of(cell),
                around: Vec::new(),
                changes: Default::default(),
            });
            skin += skins;
            core += cores;
            slot += usize::from(slotted);
        }
        let mut changes = changes(shape, readings);
        for place in &mut places {
            place.changes = std::mem::take(&mut changes[place.cell]);
            // They lie side by side with panel in all of them.
            for (cell, _) in place.changes.iter_mut().flatten() {
                *cell = at[*cell].unwrap_or(*cell);
            }
            // Numbers of the grid's cells become numbers of cells with panel.
            if let several @ [_, _, ..] = &shape.around[place.cell][..] {
                place.around = several.iter().filter_map(|(c, w)| at[*c].map(|k| (k, *w))).collect();
            }
        }
        Cells { places, at }
    }
}

/// For each cell the cells of its make-up whose centres lie within `reach` both ways, with their share of the area. A
/// peak of shear narrower than the core is thick is no stress that a plate theory knows.
pub(super) fn around(grid: &Grid, reach: f64) -> Vec<Vec<(usize, f64)>> {
    let columns = grid.x().len() - 1;
    let rows = grid.y().len() - 1;
    (0..grid.cells())
        .map(|cell| {
            let (column, row) = grid.column_row(cell);
            let (xc, yc) = grid.centre(cell);
            let span = |lines: &[f64], at: f64, own: usize, count: usize| {
                let near = |k: &usize| ((lines[*k] + lines[*k + 1]) / 2.0 - at).abs() <= reach;
                let first = (0..=own).rev().take_while(near).last().unwrap_or(own);
                let last = (own..count).take_while(near).last().unwrap_or(own);
                first..=last
            };
            let mut list = Vec::new();
            for j in span(grid.y(), yc, row, rows) {
                for i in span(grid.x(), xc, column, columns) {
                    let other = j * columns + i;
                    if grid.zone(other).is_some() && grid.zone(other) == grid.zone(cell) {
                        let (dx, dy) = grid.size(other);
                        list.push((other, dx * dy));
                    }
                }
            }
            let total: f64 = list.iter().map(|(_, a)| a).sum();
            list.iter_mut().for_each(|(_, a)| *a /= total);
            list
        })
        .collect()
}

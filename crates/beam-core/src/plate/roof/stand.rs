//! One load after another on a solved roof, read only where it is asked for.
//!
//! A person on every place of a roof is thousands of loads. Keeping every number of every one of them would cost more
//! than solving; here a response is alive while it is reduced and numbers are made for the cells that are looked at.

use std::cell::{Cell, OnceCell};

use super::super::recover::{BraceForces, Response};
use super::PlateRoof;
use super::cells::CellPlace;
use crate::loads::BasisLoad;
use crate::model::{LayUp, Rect, Role};
use crate::response::{SkinStress, is_worse};

/// What a skin makes of strains: a layer's axes lie across and along, so that shear goes by itself.
#[derive(Debug, Default)]
pub(super) struct SkinReading {
    /// Stress across and along at mid-thickness from `exx eyy kx ky`.
    middle: [[f64; 4]; 2],
    /// Shear there from `gxy kxy`.
    shear: [f64; 2],
    /// Top face less middle, from `kx ky`, and its shear from `kxy`.
    bending: [[f64; 2]; 2],
    twist: f64,
    /// The same at the fibre farthest from the neutral plane of all skins on its side, where they bend as one.
    sheared: [[f64; 2]; 2],
}

impl SkinReading {
    /// Stress from `exx eyy gxy` at the reference plane, `kx ky kxy`, and `kx ky` that the foam's shear adds.
    pub(super) fn stress(&self, strain: [f64; 3], curvature: [f64; 3], added: [f64; 2]) -> SkinStress {
        let direct = [strain[0], strain[1], curvature[0], curvature[1]];
        let middle = |row: &[f64; 4]| {
            row[0] * direct[0] + row[1] * direct[1] + row[2] * direct[2] + row[3] * direct[3]
        };
        let bending = |row: &[f64; 2]| row[0] * curvature[0] + row[1] * curvature[1];
        SkinStress {
            middle: [
                middle(&self.middle[0]),
                middle(&self.middle[1]),
                self.shear[0] * strain[2] + self.shear[1] * curvature[2],
            ],
            bending: [bending(&self.bending[0]), bending(&self.bending[1]), self.twist * curvature[2]],
            sheared: [0, 1].map(|d| self.sheared[d][0] * added[0] + self.sheared[d][1] * added[1]),
        }
    }
}

/// What one make-up makes of strains.
#[derive(Debug)]
pub(super) struct ZoneReading {
    /// Skins, the lowest first.
    pub(super) skins: Vec<SkinReading>,
    /// For each core: shear stress per mean shear strain, across and along.
    cores: Vec<[f64; 2]>,
    shear: [f64; 2],
    /// How far the skins' own bending reaches from a line load, across and along, m; `None` where no foam shears
    /// between them.
    pub(super) reach: Option<[f64; 2]>,
}

/// Everything that reading a response anywhere needs.
#[derive(Clone, Copy)]
pub(crate) struct Reader<'a> {
    roof: &'a PlateRoof,
    pub cells: &'a [CellPlace],
}

impl<'a> Reader<'a> {
    pub(crate) fn new(roof: &'a PlateRoof) -> Reader<'a> {
        Reader { roof, cells: &roof.cells.places }
    }

    /// Number of cells across and along, those without panel counted too.
    fn size(&self) -> [usize; 2] {
        let grid = &self.roof.makes.grid;
        [grid.x().len() - 1, grid.y().len() - 1]
    }

    /// A response to one load, to be read.
    pub(super) fn standing(self, response: &'a Response<'a>) -> Standing<'a> {
        Standing { reader: self, response, shears: OnceCell::new() }
    }

    /// Cells in squares of `size` by `size`, each with the one nearest to its middle first.
    pub(crate) fn squares(&self, size: usize) -> Vec<Vec<usize>> {
        let [columns, rows] = self.size();
        let mut out = Vec::new();
        for j in (0..rows).step_by(size) {
            for i in (0..columns).step_by(size) {
                let mut square = Vec::new();
                for row in j..(j + size).min(rows) {
                    for column in i..(i + size).min(columns) {
                        let middle = column.abs_diff(i + size / 2) + row.abs_diff(j + size / 2);
                        square.extend(self.roof.cells.at[row * columns + column].map(|k| (middle, k)));
                    }
                }
                square.sort_unstable();
                if !square.is_empty() {
                    out.push(square.into_iter().map(|(_, k)| k).collect());
                }
            }
        }
        out
    }

    /// Cells beside another make-up, an opening or a brace.
    pub(crate) fn beside_edges(&self) -> Vec<usize> {
        let grid = &self.roof.makes.grid;
        let brace_lines: Vec<f64> = self.roof.braces.iter().map(|b| b.y).collect();
        let trimmer_lines: Vec<f64> = self.roof.trimmers.iter().map(|t| t.x).collect();
        let [columns, rows] = self.size();
        let zone = |i: usize, j: usize| grid.zone(j * columns + i);
        let mut out = Vec::new();
        for (k, place) in self.cells.iter().enumerate() {
            let (i, j) = grid.column_row(place.cell);
            let own = zone(i, j);
            let mut edge = false;
            for row in j.saturating_sub(1)..=(j + 1).min(rows - 1) {
                for column in i.saturating_sub(1)..=(i + 1).min(columns - 1) {
                    edge |= zone(column, row) != own;
                }
            }
            let depth = 0.5 / place.over_y;
            edge |= brace_lines.iter().any(|y| (place.y - y).abs() < depth);
            let width = 0.5 / place.over_x;
            edge |= trimmer_lines.iter().any(|x| (place.x - x).abs() < width);
            if edge {
                out.push(k);
            }
        }
        out
    }

    /// Cells whose centres lie within `reach` of a rectangle, both ways.
    pub(crate) fn near(&self, rect: &Rect, reach: f64, mut take: impl FnMut(usize)) {
        let grid = &self.roof.makes.grid;
        let range = |lines: &[f64], from: f64, to: f64| {
            let first = lines.partition_point(|l| *l < from).saturating_sub(1);
            let last = lines.partition_point(|l| *l < to).min(lines.len() - 1);
            first..last
        };
        let columns = range(grid.x(), rect.x0 - reach, rect.x1 + reach);
        for j in range(grid.y(), rect.y0 - reach, rect.y1 + reach) {
            for i in columns.clone() {
                if let Some(k) = self.roof.cells.at[j * self.size()[0] + i] {
                    take(k);
                }
            }
        }
    }

    /// Solves many loads with every contact closed and reduces each at once; `None` for a load with no panel under it.
    pub(crate) fn stand_each<T: Send>(
        &self,
        loads: &[BasisLoad],
        reduce: impl Fn(usize, &Standing<'_>) -> T + Sync,
    ) -> Vec<Option<T>> {
        self.roof.system.solve_made_each(
            loads.len(),
            |k| self.roof.vector(&loads[k]).ok(),
            |k, response| reduce(k, &self.standing(response)),
        )
    }
}

/// Stress is linear in strain: found once for every make-up.
///
/// `statics`: the skins bend there by what statics asks of them, and the foam's shear adds nothing.
pub(super) fn zone_reading(lay_up: &LayUp, ks: [f64; 2], roles: &[Role], statics: bool) -> ZoneReading {
    let factors = lay_up.laminate.shear_factors();
    let mut reading =
        ZoneReading { skins: Vec::new(), cores: Vec::new(), shear: ks.map(|k| -k), reach: None };
    // Skins that lie on one another are a side: below the first core, above it, and so on.
    let mut sides = vec![Vec::new()];
    for ((index, &layer), [bottom, top]) in lay_up.layer_of.iter().enumerate().zip(lay_up.laminate.heights())
    {
        if roles[layer] == Role::Core {
            reading.cores.push([0, 1].map(|d| -ks[d] * factors[index][d]));
            sides.push(Vec::new());
            continue;
        }
        // Stress is linear in strain: unit strains show how.
        let mut skin = SkinReading::default();
        for column in 0..3 {
            let unit = [0, 1, 2].map(|k| f64::from(u8::from(k == column)));
            let none = [0.0; 3];
            let by = |strain, curvature| lay_up.laminate.layer_stress_si(index, strain, curvature);
            let (Some(stretched), Some(bent)) = (by(unit, none), by(none, unit)) else { continue };
            if column == 2 {
                skin.shear = [stretched[1][2], bent[1][2]];
                skin.twist = bent[2][2] - bent[1][2];
                continue;
            }
            for d in 0..2 {
                skin.middle[d][column] = stretched[1][d];
                skin.middle[d][2 + column] = bent[1][d];
                skin.bending[d][column] = bent[2][d] - bent[1][d];
            }
        }
        let last = sides.len() - 1;
        sides[last].push((reading.skins.len(), (top - bottom).value));
        reading.skins.push(skin);
    }
    let stiff = sides
        .iter()
        .map(|side| bend_as_one(&mut reading.skins, side))
        .fold([0.0; 2], |sum, own| [sum[0] + own[0], sum[1] + own[1]]);
    if !(statics || reading.cores.is_empty()) {
        let reach = [0, 1].map(|d| (stiff[d] / ks[d]).sqrt());
        reading.reach = reach.iter().all(|l| l.is_finite() && *l > 0.0).then_some(reach);
    }
    reading
}

/// Skins on one side of the foam, given with their depths, bend about their common neutral plane: what their outer fibres
/// get of a curvature. Gives their bending stiffness across and along, N m.
fn bend_as_one(skins: &mut [SkinReading], side: &[(usize, f64)]) -> [f64; 2] {
    [0, 1].map(|d| {
        let sum = |of: &dyn Fn(&SkinReading, f64) -> f64| -> f64 {
            side.iter().map(|(k, depth)| of(&skins[*k], *depth)).sum()
        };
        let area = sum(&|s, depth| s.middle[d][d] * depth);
        let neutral = sum(&|s, depth| s.middle[d][2 + d] * depth) / area;
        let lift = |s: &SkinReading| s.middle[d][2 + d] / s.middle[d][d] - neutral;
        let stiffness =
            sum(&|s, depth| s.bending[d][d] * depth * depth / 6.0 + s.middle[d][d] * depth * lift(s).powi(2));
        for (k, _) in side {
            let skin = &mut skins[*k];
            let whole = 1.0 + lift(skin).abs() * skin.middle[d][d] / skin.bending[d][d];
            // A layer that carries nothing has no stress.
            skin.sheared[d] = if whole.is_finite() { skin.bending[d].map(|b| whole * b) } else { [0.0; 2] };
        }
        if stiffness.is_finite() { stiffness } else { 0.0 }
    })
}

/// Strains at the middle of a cell: `exx eyy gxy` at the reference plane, `kx ky kxy` (1/m), `gxz gyz`.
pub(crate) struct Strains {
    plane: [f64; 3],
    curvature: [f64; 3],
    pub(super) shear: [f64; 2],
}

/// One load on the roof.
pub(crate) struct Standing<'a> {
    reader: Reader<'a>,
    response: &'a Response<'a>,
    /// Shear strains of the cells asked for so far: what foam and skins do in a cell hangs on those of many round it.
    shears: OnceCell<Vec<Cell<[f64; 2]>>>,
}

impl Standing<'_> {
    /// Differences of one movement across and along a cell, and its mean.
    fn field(&self, place: &CellPlace, unknown: usize) -> [f64; 3] {
        let u: &[f64] = &self.response.u;
        let [a, b, c, d] = place.corners.map(|node| u[5 * node + unknown]);
        [place.over_x * (b + c - a - d), place.over_y * (c + d - a - b), (a + b + c + d) / 4.0]
    }

    /// Strains at the middle of a cell.
    pub(crate) fn strains(&self, place: &CellPlace) -> Strains {
        let [ux, uy, _] = self.field(place, 0);
        let [vx, vy, _] = self.field(place, 1);
        let [wx, wy, _] = self.field(place, 2);
        let [px, py, p] = self.field(place, 3);
        let [qx, qy, q] = self.field(place, 4);
        Strains {
            plane: [ux + place.slope * wx, vy, uy + vx + place.slope * wy],
            curvature: [px, qy, py + qx],
            shear: [wx + p, wy + q],
        }
    }

    /// Stress in every skin of a cell.
    pub(crate) fn skins(&self, place: &CellPlace, at: &Strains, take: impl FnMut(usize, SkinStress)) {
        self.skins_by(place, at, |other| self.shear_strain(other), take);
    }

    /// The same where the shear strain of every cell is known.
    pub(super) fn skins_by(
        &self,
        place: &CellPlace,
        at: &Strains,
        of: impl Fn(usize) -> [f64; 2],
        mut take: impl FnMut(usize, SkinStress),
    ) {
        let change = |d: usize| -> f64 { place.changes[d].iter().map(|(k, share)| share * of(*k)[d]).sum() };
        // A skin follows the sag: it bends as the panel turns, less as its shear strain grows.
        let added = [-change(0), -change(1)];
        for (skin, number) in self.reader.roof.readings[place.zone].skins.iter().zip(place.skins.clone()) {
            take(number, skin.stress(at.plane, at.curvature, added));
        }
    }

    fn shear_strain(&self, cell: usize) -> [f64; 2] {
        let shears = self.shears.get_or_init(|| vec![Cell::new([f64::NAN; 2]); self.reader.cells.len()]);
        let known = shears[cell].get();
        if known[0].is_nan() {
            shears[cell].set(self.shear_strain_anew(&self.reader.cells[cell]));
        }
        shears[cell].get()
    }

    fn shear_strain_anew(&self, place: &CellPlace) -> [f64; 2] {
        let [wx, wy, _] = self.field(place, 2);
        [wx + self.field(place, 3)[2], wy + self.field(place, 4)[2]]
    }

    /// Shear stress in every core of a cell.
    pub(crate) fn cores(&self, place: &CellPlace, at: &Strains, take: impl FnMut(usize, [f64; 2])) {
        self.cores_by(place, at.shear, |other| self.shear_strain(other), take);
    }

    /// The same where the shear strain of every cell is known: `own` that of the cell, `of` that of any.
    pub(super) fn cores_by(
        &self,
        place: &CellPlace,
        own: [f64; 2],
        of: impl Fn(usize) -> [f64; 2],
        mut take: impl FnMut(usize, [f64; 2]),
    ) {
        if place.cores.is_empty() {
            return;
        }
        let mut mean = if place.around.is_empty() { own } else { [0.0; 2] };
        for (other, weight) in &place.around {
            let one = of(*other);
            mean = [mean[0] + weight * one[0], mean[1] + weight * one[1]];
        }
        for (factor, number) in self.reader.roof.readings[place.zone].cores.iter().zip(place.cores.clone()) {
            take(number, [factor[0] * mean[0], factor[1] * mean[1]]);
        }
    }

    /// Shear force over the slot of a cell.
    pub(crate) fn slot(&self, place: &CellPlace, at: &Strains) -> [f64; 2] {
        let shear = self.reader.roof.readings[place.zone].shear;
        [shear[0] * at.shear[0], shear[1] * at.shear[1]]
    }

    /// Places of the nodes and their sag, m.
    pub(crate) fn sags(&self) -> impl Iterator<Item = ((f64, f64), f64)> + Clone {
        let layout = &self.reader.roof.layout;
        let u: &[f64] = &self.response.u;
        layout.sag.iter().copied().zip(layout.nodes.iter().map(|n| -u[5 * n + 2]))
    }

    /// Largest sag of a node and its index in the layout.
    pub(crate) fn largest_sag(&self) -> (usize, f64) {
        let u: &[f64] = &self.response.u;
        let sags = self.reader.roof.layout.nodes.iter().map(|n| -u[5 * n + 2]).enumerate();
        sags.fold((0, f64::NEG_INFINITY), |kept, one| if is_worse(one.1, kept.1) { one } else { kept })
    }

    /// Forces in the pieces of all trimmers, at both ends of each piece, in the order of the layout.
    pub(crate) fn trimmers(&self) -> Vec<crate::response::BraceForces> {
        self.reader.roof.trimmer_forces(self.response)
    }

    /// Forces in the pieces of a brace.
    pub(crate) fn brace(&self, brace: usize) -> Vec<BraceForces> {
        self.response.brace(brace)
    }

    /// Push of every contact that pushes only, N, and the whole load, N.
    pub(crate) fn pushes(&self) -> (Vec<f64>, f64) {
        (self.response.pushes(), self.response.whole_load())
    }
}

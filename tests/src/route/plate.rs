//! The two-way roof: rectangles on four hard edges, with a brace or an opening; on two of them; or clamped.
//!
//! Each is solved on a grid and on one twice as fine, and carried on to no grid at all by the second order of the
//! element (Richardson); around an opening the order is lower, so there the finer grid speaks for itself.
//!
//! Clamped edges, which no roof has, are a rim a million times as stiff that lies on hard edges.

use std::collections::HashMap;
use std::sync::{LazyLock, Mutex};

use beam_core::plate::{
    Along, Bond, Brace, CellState, Edge, Finer, Grid, Load, PlateError, PlateLaminate, PlateModel,
    PlateSystem, Supports, graded_lines,
};

use super::{unknown, words};
use crate::inputs::Inputs;

/// A rectangle as the rows describe it, SI.
#[derive(Debug, Clone, Copy)]
pub(super) struct Panel {
    pub size: [f64; 2],
    /// Across, coupling, along, twist.
    pub d: [f64; 4],
    /// Across, along.
    pub s: [f64; 2],
    pub load: Pushed,
    pub edges: Edges,
    pub brace: Option<f64>,
    pub opening: Option<f64>,
}

/// What the rectangle lies on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Edges {
    /// Four hard edges.
    Hard,
    /// Hard edges left and right, none in front and behind.
    Sides,
    /// Clamped all round.
    Clamped,
}

#[derive(Debug, Clone, Copy)]
pub(super) enum Pushed {
    Pressure(f64),
    /// Half a wave each way, by its pressure in the middle.
    Wave(f64),
    Patch {
        middle: [f64; 2],
        side: f64,
        force: f64,
    },
    Point(f64),
}

/// What is read off: sag, moments and shear force at places that rows ask for.
#[derive(Debug, Clone, Copy)]
pub(super) struct Read {
    pub sag_centre: f64,
    sag_load: f64,
    pub moments: [f64; 2],
    /// How the shear strain across changes across, and that along along, at the centre, 1/m.
    pub turning: [f64; 2],
    /// Shear force and moment across at the middle of the left edge.
    pub edge: [f64; 2],
    brace: f64,
    sag_mid_edge: f64,
    sag_corner: f64,
}

pub(super) fn plate(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let panel = Panel::from_inputs(inputs)?;
    let read = panel.read()?;
    // Numbers without dimension, as textbooks print them.
    let (a, d) = (panel.size[0], panel.d[0]);
    let pushed = match panel.load {
        Pushed::Pressure(q) | Pushed::Wave(q) => q * a * a,
        Pushed::Patch { force, .. } | Pushed::Point(force) => force,
    };
    Ok(match quantity {
        "sag at the centre" => read.sag_centre,
        "sag under the load" => read.sag_load,
        "moment across at the centre" => read.moments[0],
        "moment along at the centre" => read.moments[1],
        "moment of the brace" => read.brace,
        "sag at the opening's side" => read.sag_mid_edge,
        "sag at the opening's corner" => read.sag_corner,
        "w D/(q a4)" | "w D/(P a2)" => read.sag_centre * d / (pushed * a * a),
        "Mx/(q a2)" => read.moments[0] / pushed,
        "w S/(q a2)" => read.sag_centre * panel.s[0] / pushed,
        "Qx/(q a)" => read.edge[0] * a / pushed,
        "moment across at the edge" => read.edge[1],
        "100 w E h3/(q a4)" => {
            100.0 * read.sag_centre * inputs.si("E")? * inputs.si("h")?.powi(3) / (pushed * a * a)
        }
        // What the same panel, stiff in shear, sags less.
        "shear part of the sag" => {
            read.sag_centre - Panel { s: panel.s.map(|s| 1e6 * s), ..panel }.read()?.sag_centre
        }
        _ => return Err(unknown(quantity)),
    })
}

impl Panel {
    fn from_inputs(inputs: &Inputs) -> Result<Self, String> {
        let size = [inputs.si("a")?, inputs.si("b")?];
        let isotropic = |d: f64, nu: f64| [d, nu * d, d, (1.0 - nu) / 2.0 * d];
        let (d, s) = if let Some(e) = inputs.maybe("E")? {
            // A homogeneous plate by Reissner.
            let (h, nu) = (inputs.si("h")?, inputs.si("nu")?);
            let s = 5.0 / 6.0 * e / (2.0 * (1.0 + nu)) * h;
            (isotropic(e * h.powi(3) / (12.0 * (1.0 - nu * nu)), nu), s)
        } else if let Some(d) = inputs.maybe("D")? {
            (isotropic(d, inputs.si("nu")?), inputs.si("S")?)
        } else {
            ([inputs.si("D11")?, inputs.si("D12")?, inputs.si("D22")?, inputs.si("D66")?], inputs.si("S")?)
        };
        let load = if let Some(q) = inputs.maybe("wave")? {
            Pushed::Wave(q)
        } else if let Some(q) = inputs.maybe("q")? {
            Pushed::Pressure(q)
        } else if let Some(side) = inputs.maybe("patch")? {
            let middle =
                [inputs.maybe("x0")?.unwrap_or(size[0] / 2.0), inputs.maybe("y0")?.unwrap_or(size[1] / 2.0)];
            Pushed::Patch { middle, side, force: inputs.si("P")? }
        } else {
            Pushed::Point(inputs.si("P")?)
        };
        let edges = match inputs.word_or("edges", "hard") {
            "hard" => Edges::Hard,
            "sides" => Edges::Sides,
            "clamped" => Edges::Clamped,
            other => return Err(format!("edges \"{other}\"")),
        };
        let (brace, opening) = (inputs.maybe("EI")?, inputs.maybe("opening")?);
        Ok(Self { size, d, s: [s; 2], load, edges, brace, opening })
    }

    /// Solved once for all rows that ask about the same panel.
    pub(super) fn read(&self) -> Result<Read, String> {
        static SOLVED: LazyLock<Mutex<HashMap<String, Result<Read, String>>>> = LazyLock::new(Mutex::default);
        let key = format!("{self:?}");
        if let Some(read) = SOLVED.lock().map_err(words)?.get(&key) {
            return read.clone();
        }
        let read = self.extrapolated().map_err(words);
        SOLVED.lock().map_err(words)?.insert(key, read.clone());
        read
    }

    fn extrapolated(&self) -> Result<Read, PlateError> {
        let lines = [self.lines(0)?, self.lines(1)?];
        let fine = self.solve(&lines.each_ref().map(|l| halved(l)))?;
        if self.opening.is_some() {
            return Ok(fine);
        }
        let coarse = self.solve(&lines)?;
        let limit = |f: fn(&Read) -> f64| (4.0 * f(&fine) - f(&coarse)) / 3.0;
        Ok(Read {
            sag_centre: limit(|r| r.sag_centre),
            sag_load: limit(|r| r.sag_load),
            moments: [limit(|r| r.moments[0]), limit(|r| r.moments[1])],
            turning: [limit(|r| r.turning[0]), limit(|r| r.turning[1])],
            edge: [limit(|r| r.edge[0]), limit(|r| r.edge[1])],
            brace: limit(|r| r.brace),
            ..fine
        })
    }

    /// Grid lines of one direction: 24 cells over the width, six over a patch, fine at an opening's sides.
    fn lines(&self, axis: usize) -> Result<Vec<f64>, PlateError> {
        let length = self.size[axis];
        let (mut hit, mut finer) = (vec![length / 2.0], Vec::new());
        if let Pushed::Patch { middle, side, .. } = self.load {
            let (from, to) = (middle[axis] - side / 2.0, middle[axis] + side / 2.0);
            hit.extend([from, middle[axis], to]);
            finer.push(Finer { from, to, size: side / 6.0 });
        }
        if let Some(opening) = self.opening {
            for side in [length / 2.0 - opening / 2.0, length / 2.0 + opening / 2.0] {
                hit.push(side);
                finer.push(Finer { from: side - 0.02, to: side + 0.02, size: 0.02 });
            }
        }
        graded_lines(length, &hit, self.size[0] / 24.0, &finer)
    }

    fn solve(&self, [x, y]: &[Vec<f64>; 2]) -> Result<Read, PlateError> {
        let [a, b] = self.size;
        // The panel begins at (0, 0); a rim lies outside it.
        let rim = if self.edges == Edges::Clamped { a / 24.0 } else { 0.0 };
        let rimmed = |lines: &[f64]| -> Vec<f64> {
            if rim == 0.0 {
                return lines.to_vec();
            }
            let end = lines.last().map(|l| l + 2.0 * rim);
            std::iter::once(0.0).chain(lines.iter().map(|l| l + rim)).chain(end).collect()
        };
        let half = self.opening.map_or(0.0, |o| o / 2.0);
        let zone = |x: f64, y: f64| {
            let (x, y) = (x - rim, y - rim);
            let hole = (x - a / 2.0).abs() < half && (y - b / 2.0).abs() < half;
            let inside = (0.0..a).contains(&x) && (0.0..b).contains(&y);
            (!hole).then_some(usize::from(!inside))
        };
        let laminate = |stiffer: f64| {
            let [d11, d12, d22, d66] = self.d.map(|d| d * stiffer);
            PlateLaminate {
                a: [[4e7, 1e7, 0.0], [1e7, 4e7, 0.0], [0.0, 0.0, 1.5e7]],
                b: [[0.0; 3]; 3],
                d: [[d11, d12, 0.0], [d12, d22, 0.0], [0.0, 0.0, d66]],
                ks: self.s.map(|s| s * stiffer),
                layers: Vec::new(),
            }
        };
        let sides = Supports { left: Edge::Hard, right: Edge::Hard, ..Supports::side_walls() };
        let system = PlateSystem::new(PlateModel {
            grid: Grid::new(rimmed(x), rimmed(y), zone)?,
            laminates: vec![laminate(1.0), laminate(1e6)],
            rise: Vec::new(),
            braces: self.brace.map(|ei| concentric(a, b, ei)).into_iter().collect(),
            supports: if self.edges == Edges::Sides { sides } else { Supports::all_round(Edge::Hard) },
        })?;
        let [xm, ym] = [rim + a / 2.0, rim + b / 2.0];
        let (loads, under) = match self.load {
            Pushed::Pressure(q) => (vec![Load::Pressure(q)], [xm, ym]),
            Pushed::Wave(q) => (wave(q, x, y), [xm, ym]),
            Pushed::Point(force) => (vec![Load::Point { x: xm, y: ym, force }], [xm, ym]),
            Pushed::Patch { middle, side, force } => {
                let [x, y] = middle.map(|m| [m - side / 2.0, m + side / 2.0]);
                (vec![Load::Patch { x, y, force }], middle)
            }
        };
        let response = system.solve(&system.load(&loads)?)?;
        let grid = &system.model().grid;
        let line = |lines: &[f64], at: f64| lines.iter().position(|l| (l - at).abs() < 1e-9).unwrap_or(0);
        let (i, j) = (line(grid.x(), xm), line(grid.y(), ym));
        let sag = |x: f64, y: f64| response.sag(x, y).unwrap_or(f64::NAN);
        let brace = response.brace(0).into_iter().find(|p| (p.span[0] - a / 2.0).abs() < 1e-9);
        // The mean of the two cells at half the length, in the three columns from the left edge on.
        let columns = grid.x().len() - 1;
        let first = usize::from(rim > 0.0);
        let beside = [0, 1, 2].map(|k| {
            let [below, above] = [j - 1, j].map(|row| response.cell(row * columns + first + k));
            let mean = |f: fn(&CellState) -> f64| match (&below, &above) {
                (Some(p), Some(q)) => (f(p) + f(q)) / 2.0,
                _ => f64::NAN,
            };
            [mean(|c| c.shear[0]), mean(|c| c.moment[0])]
        });
        // From the four cells about the centre.
        let strain = |column: usize, row: usize, d: usize| {
            response.cell(row * columns + column).map_or(f64::NAN, |c| c.strain[6 + d])
        };
        let apart = |lines: &[f64], k: usize| (lines[k + 1] - lines[k - 1]) / 2.0;
        let turning = [
            (strain(i, j, 0) + strain(i, j - 1, 0) - strain(i - 1, j, 0) - strain(i - 1, j - 1, 0))
                / (2.0 * apart(grid.x(), i)),
            (strain(i, j, 1) + strain(i - 1, j, 1) - strain(i, j - 1, 1) - strain(i - 1, j - 1, 1))
                / (2.0 * apart(grid.y(), j)),
        ];
        // A parabola through the middles of the cells, at the edge.
        let edge = [0, 1].map(|k| (15.0 * beside[0][k] - 10.0 * beside[1][k] + 3.0 * beside[2][k]) / 8.0);
        Ok(Read {
            sag_centre: sag(xm, ym),
            sag_load: sag(under[0], under[1]),
            moments: response
                .at_node(grid.node(i, j), 0)
                .map_or([f64::NAN; 2], |s| [s.moment[0], s.moment[1]]),
            turning,
            edge,
            brace: brace.map_or(f64::NAN, |p| p.moment[0]),
            sag_mid_edge: sag(xm + half, ym),
            sag_corner: sag(xm + half, ym + half),
        })
    }
}

/// A pressure of half a wave each way as forces on the crossings of the lines.
pub(super) fn wave(q: f64, x: &[f64], y: &[f64]) -> Vec<Load> {
    let shares = |lines: &[f64]| -> Vec<(f64, f64)> {
        let length = lines.last().copied().unwrap_or(f64::NAN);
        let three = lines.windows(3);
        three.map(|l| (l[1], (l[2] - l[0]) / 2.0 * (std::f64::consts::PI * l[1] / length).sin())).collect()
    };
    let (across, along) = (shares(x), shares(y));
    let point = |&(x, fx): &(f64, f64), &(y, fy): &(f64, f64)| Load::Point { x, y, force: q * fx * fy };
    across.iter().flat_map(|x| along.iter().map(move |y| point(x, y))).collect()
}

/// A member across the middle that shares the sag only.
fn concentric(a: f64, b: f64, ei: f64) -> Brace {
    Brace {
        along: Along::X,
        line: b / 2.0,
        ends: [0.0, a],
        ea: 1.0,
        ei,
        gas: 1e12,
        gj: 0.0,
        z_axis: 0.0,
        z_glue: 0.0,
        bond: Bond::Loose,
    }
}

/// Every cell cut in two.
fn halved(lines: &[f64]) -> Vec<f64> {
    let mut all: Vec<f64> = lines.windows(2).flat_map(|w| [w[0], 0.5 * (w[0] + w[1])]).collect();
    all.extend(lines.last());
    all
}

//! The two-way roof: rectangles on four hard edges, with a brace or an opening.
//!
//! Each is solved on a grid and on one twice as fine, and carried on to no grid at all by the second order of the
//! element (Richardson); around an opening the order is lower, so there the finer grid speaks for itself.

use std::collections::HashMap;
use std::sync::{LazyLock, Mutex};

use beam_core::plate::{
    Along, Bond, Brace, Edge, Finer, Grid, Load, PlateError, PlateLaminate, PlateModel, PlateSystem,
    Supports, graded_lines,
};

use super::{unknown, words};
use crate::inputs::Inputs;

/// A rectangle as the rows describe it, SI.
#[derive(Debug, Clone, Copy)]
struct Panel {
    size: [f64; 2],
    /// Across, coupling, along, twist.
    d: [f64; 4],
    s: f64,
    load: Pushed,
    brace: Option<f64>,
    opening: Option<f64>,
}

#[derive(Debug, Clone, Copy)]
enum Pushed {
    Pressure(f64),
    Patch { middle: [f64; 2], side: f64, force: f64 },
    Point(f64),
}

/// What is read off: sag, moments and shear force at places that rows ask for.
#[derive(Debug, Clone, Copy)]
struct Read {
    sag_centre: f64,
    sag_load: f64,
    moments: [f64; 2],
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
        Pushed::Pressure(q) => q * a * a,
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
        "w S/(q a2)" => read.sag_centre * panel.s / pushed,
        _ => return Err(unknown(quantity)),
    })
}

impl Panel {
    fn from_inputs(inputs: &Inputs) -> Result<Self, String> {
        let size = [inputs.si("a")?, inputs.si("b")?];
        let d = match inputs.maybe("D")? {
            Some(d) => {
                let nu = inputs.si("nu")?;
                [d, nu * d, d, (1.0 - nu) / 2.0 * d]
            }
            None => [inputs.si("D11")?, inputs.si("D12")?, inputs.si("D22")?, inputs.si("D66")?],
        };
        let load = if let Some(q) = inputs.maybe("q")? {
            Pushed::Pressure(q)
        } else if let Some(side) = inputs.maybe("patch")? {
            let middle =
                [inputs.maybe("x0")?.unwrap_or(size[0] / 2.0), inputs.maybe("y0")?.unwrap_or(size[1] / 2.0)];
            Pushed::Patch { middle, side, force: inputs.si("P")? }
        } else {
            Pushed::Point(inputs.si("P")?)
        };
        let (s, brace, opening) = (inputs.si("S")?, inputs.maybe("EI")?, inputs.maybe("opening")?);
        Ok(Self { size, d, s, load, brace, opening })
    }

    /// Solved once for all rows that ask about the same panel.
    fn read(&self) -> Result<Read, String> {
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
        let half = self.opening.map_or(0.0, |o| o / 2.0);
        let present = |x: f64, y: f64| (x - a / 2.0).abs() >= half || (y - b / 2.0).abs() >= half;
        let [d11, d12, d22, d66] = self.d;
        let system = PlateSystem::new(PlateModel {
            grid: Grid::new(x.clone(), y.clone(), |x, y| present(x, y).then_some(0))?,
            laminates: vec![PlateLaminate {
                a: [[4e7, 1e7, 0.0], [1e7, 4e7, 0.0], [0.0, 0.0, 1.5e7]],
                b: [[0.0; 3]; 3],
                d: [[d11, d12, 0.0], [d12, d22, 0.0], [0.0, 0.0, d66]],
                ks: [self.s; 2],
                layers: Vec::new(),
            }],
            rise: Vec::new(),
            braces: self.brace.map(|ei| concentric(a, b, ei)).into_iter().collect(),
            supports: Supports::all_round(Edge::Hard),
        })?;
        let (load, under) = match self.load {
            Pushed::Pressure(q) => (Load::Pressure(q), [a / 2.0, b / 2.0]),
            Pushed::Point(force) => (Load::Point { x: a / 2.0, y: b / 2.0, force }, [a / 2.0, b / 2.0]),
            Pushed::Patch { middle, side, force } => {
                let [x, y] = middle.map(|m| [m - side / 2.0, m + side / 2.0]);
                (Load::Patch { x, y, force }, middle)
            }
        };
        let response = system.solve(&system.load(&[load])?)?;
        let grid = &system.model().grid;
        let middle = |lines: &[f64], at: f64| lines.iter().position(|l| (l - at).abs() < 1e-9).unwrap_or(0);
        let centre = grid.node(middle(grid.x(), a / 2.0), middle(grid.y(), b / 2.0));
        let sag = |x: f64, y: f64| response.sag(x, y).unwrap_or(f64::NAN);
        let brace = response.brace(0).into_iter().find(|p| (p.span[0] - a / 2.0).abs() < 1e-9);
        Ok(Read {
            sag_centre: sag(a / 2.0, b / 2.0),
            sag_load: sag(under[0], under[1]),
            moments: response.at_node(centre, 0).map_or([f64::NAN; 2], |s| [s.moment[0], s.moment[1]]),
            brace: brace.map_or(f64::NAN, |p| p.moment[0]),
            sag_mid_edge: sag(a / 2.0 + half, b / 2.0),
            sag_corner: sag(a / 2.0 + half, b / 2.0 + half),
        })
    }
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

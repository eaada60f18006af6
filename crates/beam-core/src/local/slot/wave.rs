//! One wave along the slot: foam as an elastic solid, skins as plates that bend and shear, on quadratic cells.
//!
//! With `u, w ~ cos(eta y)` and `v ~ sin(eta y)` the solid becomes a plane problem with three unknowns a node. A skin's
//! unknowns are its sinking and its turns `p`; the foam glued to its face moves sideways by `-(z - z_n) p`. The neutral
//! planes do not stretch, as in [`super::super::under`].

use super::mesh::{BEAD, Mesh};
use super::profile::{Factor, Profile};
use crate::local::error::LocalError;
use crate::local::field::PlateD;
use crate::local::layer::Layer;
use crate::local::under::Below;

/// Points and weights of Gauss's rule of two and of three points on -1 .. 1.
const TWO: [f64; 2] = [-0.577_350_269_189_625_8, 0.577_350_269_189_625_8];
const THREE: [(f64, f64); 3] =
    [(-0.774_596_669_241_483_4, 5.0 / 9.0), (0.0, 8.0 / 9.0), (0.774_596_669_241_483_4, 5.0 / 9.0)];
/// A plate that does not shear is given the stiffness of one whose shear is felt over this length, m.
const SHEARS_OVER: f64 = 3e-4;

fn shape(s: f64) -> [f64; 3] {
    [s * (s - 1.0) / 2.0, 1.0 - s * s, s * (s + 1.0) / 2.0]
}

fn slope(s: f64) -> [f64; 3] {
    [s - 0.5, -2.0 * s, s + 0.5]
}

/// Integrals over one quadratic cell of length `h`: of the shapes' products, of slope by shape, of slope by slope.
struct Line {
    mass: [[f64; 3]; 3],
    mixed: [[f64; 3]; 3],
    stiff: [[f64; 3]; 3],
}

impl Line {
    fn new(h: f64) -> Line {
        let mut out = Line { mass: [[0.0; 3]; 3], mixed: [[0.0; 3]; 3], stiff: [[0.0; 3]; 3] };
        for (s, weight) in THREE {
            let (n, d) = (shape(s), slope(s));
            for a in 0..3 {
                for b in 0..3 {
                    out.mass[a][b] += weight * h / 2.0 * n[a] * n[b];
                    out.mixed[a][b] += weight * d[a] * n[b];
                    out.stiff[a][b] += weight * 2.0 / h * d[a] * d[b];
                }
            }
        }
        out
    }
}

/// What is read from one wave, in this order for every place: see [`Places`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Read {
    /// Moments of a plate, counted from the upper skin, square to the slot and along it.
    Moment(usize, usize),
    /// Pressure on the foam.
    Press,
    /// Pressure on the foam, part of the mean over a bead at a lip: number of the mean, and share.
    AtLip(usize, f64),
    /// Stretch of the foam left on the upper skin, square to the slot and along it.
    Stretch(usize),
}

/// The section made ready for any wave.
pub(super) struct Section<'a> {
    pub mesh: &'a Mesh,
    pub foam: Layer,
    pub below: Below,
    /// The upper skin, then what lies loose on it.
    pub plates: &'a [PlateD],
}

/// How an unknown of a node goes into the system: its place, and how much of it.
type Goes = Option<(usize, f64)>;

impl Section<'_> {
    fn rows(&self) -> usize {
        2 * self.mesh.cells()[1] + 1
    }

    fn column(&self) -> usize {
        3 * self.rows() + 2 * (self.plates.len() - 1)
    }

    fn columns(&self) -> usize {
        2 * self.mesh.cells()[0] + 1
    }

    /// Sinking and turns of a plate at a column of nodes; the lower skin is the plate past the last.
    fn of_plate(&self, column: usize, plate: usize) -> [usize; 3] {
        let start = column * self.column();
        let top = start + 3 * (self.rows() - 1);
        match plate {
            0 => [top, top + 1, top + 2],
            n if n == self.plates.len() => [start, start + 1, start + 2],
            n => [top, top + 1 + 2 * n, top + 2 + 2 * n],
        }
    }

    /// Where the foam's movements `u, v, w` at a node go.
    fn of_foam(&self, column: usize, row: usize) -> [Goes; 3] {
        let last = self.rows() - 1;
        if row == last {
            let [w, px, py] = self.of_plate(column, 0);
            let over = self.plates[0].over;
            return [Some((px, over)), Some((py, over)), Some((w, 1.0))];
        }
        if row == 0 {
            let [w, px, py] = self.of_plate(column, self.plates.len());
            return match self.below {
                Below::Rigid => [None; 3],
                Below::Nothing => [None, None, Some((w, 1.0))],
                Below::Skin(skin) => [Some((px, -skin.over)), Some((py, -skin.over)), Some((w, 1.0))],
            };
        }
        let at = column * self.column() + 3 * row;
        [0, 1, 2].map(|c| Some((at + c, 1.0)))
    }

    fn lame(&self) -> (f64, f64) {
        let Layer { e, nu, .. } = self.foam;
        (e * nu / ((1.0 + nu) * (1.0 - 2.0 * nu)), self.foam.shear())
    }

    /// The system of one wave, factored.
    pub(super) fn factor(&self, eta: f64) -> Result<Factor, LocalError> {
        let column = self.column();
        // Nodes between two cells reach to the end of the next, those inside one to its own.
        let last = self.columns() - 1;
        let ends: Vec<usize> =
            (0..column * (last + 1)).map(|i| column * ((i / column / 2 * 2 + 2).min(last) + 1)).collect();
        let mut k = Profile::zeros(&ends);
        let mut touched = vec![false; column * self.columns()];
        self.add_foam(eta, &mut k, &mut touched);
        for n in 0..self.plates.len() {
            self.add_plate(&self.plates[n], n, eta, &mut k, &mut touched);
        }
        if let Below::Skin(skin) = &self.below {
            self.add_plate(skin, self.plates.len(), eta, &mut k, &mut touched);
        }
        for (i, _) in touched.iter().enumerate().filter(|(_, t)| !**t) {
            k.hold(i);
        }
        // The section's ends: what goes on beyond is alike.
        for end in [0, self.columns() - 1] {
            for row in 1..self.rows() - 1 {
                k.hold(end * column + 3 * row);
            }
            for n in 0..self.plates.len() {
                k.hold(self.of_plate(end, n)[1]);
            }
            if self.below != Below::Rigid {
                let [w, px, _] = self.of_plate(end, self.plates.len());
                k.hold(w);
                k.hold(px);
            }
        }
        k.cholesky().ok_or(LocalError::NotSettled { change: f64::INFINITY, wanted: 0.0 })
    }

    fn add_foam(&self, eta: f64, k: &mut Profile, touched: &mut [bool]) {
        let [nx, nz] = self.mesh.cells();
        let (lambda, g) = self.lame();
        let m = lambda + 2.0 * g;
        let across: Vec<Line> = self.mesh.x.windows(2).map(|p| Line::new(p[1] - p[0])).collect();
        let deep: Vec<Line> = self.mesh.z.windows(2).map(|p| Line::new(p[1] - p[0])).collect();
        for (i, ex) in across.iter().enumerate().take(nx) {
            for (j, ez) in deep.iter().enumerate().take(nz) {
                if !self.mesh.is_foam(i, j) {
                    continue;
                }
                let nodes: Vec<(usize, usize, [Goes; 3])> =
                    (0..9).map(|n| (n / 3, n % 3, self.of_foam(2 * i + n / 3, 2 * j + n % 3))).collect();
                for (p, (ax, az, a)) in nodes.iter().enumerate() {
                    for (bx, bz, b) in &nodes[p..] {
                        let (ax, az, bx, bz) = (*ax, *az, *bx, *bz);
                        let own = ex.mass[ax][bx] * ez.mass[az][bz] * eta * eta;
                        let xx = ex.stiff[ax][bx] * ez.mass[az][bz];
                        let zz = ex.mass[ax][bx] * ez.stiff[az][bz];
                        // Slope of the first by the second itself, and turned round.
                        let x_n = ex.mixed[ax][bx] * ez.mass[az][bz] * eta;
                        let n_x = ex.mixed[bx][ax] * ez.mass[az][bz] * eta;
                        let z_n = ex.mass[ax][bx] * ez.mixed[az][bz] * eta;
                        let n_z = ex.mass[ax][bx] * ez.mixed[bz][az] * eta;
                        let x_z = ex.mixed[ax][bx] * ez.mixed[bz][az];
                        let z_x = ex.mixed[bx][ax] * ez.mixed[az][bz];
                        let block = [
                            [m * xx + g * (zz + own), lambda * x_n - g * n_x, lambda * x_z + g * z_x],
                            [lambda * n_x - g * x_n, m * own + g * (zz + xx), lambda * n_z - g * z_n],
                            [lambda * z_x + g * x_z, lambda * z_n - g * n_z, m * zz + g * (xx + own)],
                        ];
                        let same = (ax, az) == (bx, bz);
                        for (c, from) in a.iter().enumerate() {
                            for (d, to) in b.iter().enumerate() {
                                let (Some((r, fr)), Some((s, fs))) = (from, to) else { continue };
                                if !same || r <= s {
                                    k.add(*r, *s, block[c][d] * fr * fs);
                                }
                            }
                        }
                    }
                    a.iter().flatten().for_each(|(at, _)| touched[*at] = true);
                }
            }
        }
    }

    fn add_plate(&self, d: &PlateD, plate: usize, eta: f64, k: &mut Profile, touched: &mut [bool]) {
        let felt = SHEARS_OVER * SHEARS_OVER;
        let [sx, sy] = if d.is_thin() { [d.d11 / felt, d.d22 / felt] } else { d.shear };
        for (i, pair) in self.mesh.x.windows(2).enumerate() {
            let h = pair[1] - pair[0];
            let at: Vec<usize> = (0..3).flat_map(|n| self.of_plate(2 * i + n, plate)).collect();
            let mut add = |rows: &[([f64; 9], f64)]| {
                for (row, weight) in rows {
                    for a in 0..9 {
                        for b in a..9 {
                            let v = weight * row[a] * row[b];
                            if v != 0.0 {
                                k.add(at[a], at[b], v);
                            }
                        }
                    }
                }
            };
            for (s, weight) in THREE {
                let (n, dn) = (shape(s), slope(s).map(|v| v * 2.0 / h));
                let w = weight * h / 2.0;
                let bend = row(|a| [0.0, dn[a], 0.0]);
                let along = row(|a| [0.0, 0.0, eta * n[a]]);
                let both: [f64; 9] = std::array::from_fn(|a| bend[a] + along[a]);
                let twist = row(|a| [0.0, -eta * n[a], dn[a]]);
                let slide = row(|a| [eta * n[a], 0.0, n[a]]);
                add(&[
                    (bend, w * (d.d11 - d.d12)),
                    (along, w * (d.d22 - d.d12)),
                    (both, w * d.d12),
                    (twist, w * d.d66),
                    (slide, w * sy),
                ]);
            }
            for s in TWO {
                let (n, dn) = (shape(s), slope(s).map(|v| v * 2.0 / h));
                add(&[(row(|a| [dn[a], -n[a], 0.0]), h / 2.0 * sx)]);
            }
            at.iter().for_each(|at| touched[*at] = true);
        }
    }

    /// Load of a pressure of 1 Pa on the uppermost plate from `x0` to `x1`.
    pub(super) fn load(&self, x0: f64, x1: f64) -> Vec<f64> {
        let mut f = vec![0.0; self.column() * self.columns()];
        for (i, pair) in self.mesh.x.windows(2).enumerate() {
            let (a, b) = (pair[0].max(x0), pair[1].min(x1));
            if b <= a {
                continue;
            }
            for (s, weight) in THREE {
                let x = (a + b) / 2.0 + s * (b - a) / 2.0;
                let n = shape((2.0 * x - pair[0] - pair[1]) / (pair[1] - pair[0]));
                for (c, n) in n.iter().enumerate() {
                    f[self.of_plate(2 * i + c, 0)[0]] -= weight * (b - a) / 2.0 * n;
                }
            }
        }
        f
    }

    /// What is read, in the order of [`Section::read`].
    pub(super) fn reads(&self) -> Vec<Read> {
        let mut out = Vec::new();
        self.each(|read, _| out.push(read));
        out
    }

    /// All that is read of a solved wave.
    pub(super) fn read(&self, eta: f64, solved: &[f64]) -> Vec<f64> {
        let mut out = Vec::new();
        let (lambda, g) = self.lame();
        let foam = |i: usize, j: usize, s: f64, t: f64| self.strain(i, j, s, t, eta, solved);
        self.each(|read, Place { cell: [i, j], s, t }| {
            out.push(match read {
                Read::Moment(plate, direction) => {
                    let d = if plate < self.plates.len() { &self.plates[plate] } else { return };
                    let h = self.mesh.x[i + 1] - self.mesh.x[i];
                    let (n, dn) = (shape(s), slope(s).map(|v| v * 2.0 / h));
                    let (mut across, mut along) = (0.0, 0.0);
                    for a in 0..3 {
                        let [_, px, py] = self.of_plate(2 * i + a, plate);
                        across += dn[a] * solved[px];
                        along += eta * n[a] * solved[py];
                    }
                    let (cx, cy) = if direction == 0 { (d.d11, d.d12) } else { (d.d12, d.d22) };
                    cx * across + cy * along
                }
                Read::Press | Read::AtLip(..) => {
                    let [x, y, z] = foam(i, j, s, t);
                    -(lambda * (x + y + z) + 2.0 * g * z)
                }
                Read::Stretch(direction) => {
                    let e = foam(i, j, s, t);
                    lambda * (e[0] + e[1] + e[2]) + 2.0 * g * e[direction]
                }
            });
        });
        out
    }

    /// Strains of the foam across, along and through its depth.
    fn strain(&self, i: usize, j: usize, s: f64, t: f64, eta: f64, solved: &[f64]) -> [f64; 3] {
        let [hx, hz] = [self.mesh.x[i + 1] - self.mesh.x[i], self.mesh.z[j + 1] - self.mesh.z[j]];
        let (nx, nz) = (shape(s), shape(t));
        let (dx, dz) = (slope(s).map(|v| v * 2.0 / hx), slope(t).map(|v| v * 2.0 / hz));
        let mut out = [0.0; 3];
        for a in 0..3 {
            for b in 0..3 {
                let [u, v, w] = self
                    .of_foam(2 * i + a, 2 * j + b)
                    .map(|goes| goes.map_or(0.0, |(at, share)| share * solved[at]));
                out[0] += dx[a] * nz[b] * u;
                out[1] += eta * nx[a] * nz[b] * v;
                out[2] += nx[a] * dz[b] * w;
            }
        }
        out
    }

    /// Calls for every place that is read.
    fn each(&self, mut call: impl FnMut(Read, Place)) {
        let [nx, nz] = self.mesh.cells();
        let [[from, to], [low, high]] = self.mesh.gone;
        let slotted = to > from;
        for i in 0..nx {
            for plate in 0..self.plates.len() {
                for direction in 0..2 {
                    for s in TWO {
                        call(Read::Moment(plate, direction), Place { cell: [i, nz - 1], s, t: 1.0 });
                    }
                }
            }
            if !self.mesh.is_foam(i, nz - 1) {
                continue;
            }
            if !(slotted && self.at_lip(i).is_some()) {
                for s in TWO {
                    call(Read::Press, Place { cell: [i, nz - 1], s, t: 1.0 });
                }
            }
            if slotted && high < nz && (from..to).contains(&i) {
                // Foam left under the upper skin: its lower face.
                for direction in 0..2 {
                    for s in TWO {
                        call(Read::Stretch(direction), Place { cell: [i, high], s, t: -1.0 });
                    }
                }
            }
        }
        if !slotted {
            return;
        }
        // Means over a bead at each lip: right under the skin, and down along the slot's wall.
        let mut mean = 0;
        for side in 0..2 {
            let columns: Vec<(usize, f64)> = (0..nx)
                .filter_map(|i| self.at_lip(i).filter(|(s, _)| *s == side).map(|(_, w)| (i, w)))
                .collect();
            let faces = (low.min(high)..nz).map(|j| (j, 0.0)).chain([(nz - 1, 1.0)]);
            for (j, t) in faces {
                for (i, share) in &columns {
                    for (s, weight) in THREE {
                        call(Read::AtLip(mean, share * weight / 2.0), Place { cell: [*i, j], s, t });
                    }
                }
                mean += 1;
            }
        }
    }

    /// Which lip a column of cells lies at, and its share of the bead.
    fn at_lip(&self, i: usize) -> Option<(usize, f64)> {
        let [[from, to], _] = self.mesh.gone;
        let [left, right] = [self.mesh.x[from], self.mesh.x[to]];
        let [x0, x1] = [self.mesh.x[i], self.mesh.x[i + 1]];
        let bead = BEAD * 1.001;
        if x1 <= left + 1e-9 && x0 >= left - bead {
            Some((0, (x1 - x0) / BEAD))
        } else if x0 >= right - 1e-9 && x1 <= right + bead {
            Some((1, (x1 - x0) / BEAD))
        } else {
            None
        }
    }
}

fn row(of: impl Fn(usize) -> [f64; 3]) -> [f64; 9] {
    std::array::from_fn(|n| of(n / 3)[n % 3])
}

/// A place in a cell, by its own coordinates from -1 to 1.
struct Place {
    cell: [usize; 2],
    s: f64,
    t: f64,
}

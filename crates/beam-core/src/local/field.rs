//! The dent as a field: double Fourier integral of a plate on a bed whose stiffness depends on the wave number.
//!
//! ```text
//! w(x, y) = 1/pi^2 double integral over xi, eta > 0 of P sinc(xi a/2) sinc(eta b/2) cos(xi x) cos(eta y)
//!           / (D11 xi^4 + 2 (D12 + 2 D66) xi^2 eta^2 + D22 eta^4 + K(|xi|))
//! ```
//!
//! Summed by the trapezoid rule, which on a decaying field converges exponentially in the half-period `pi/step` and
//! means a row of feet so far apart that they do not feel each other. The cosines separate, so a field is two
//! products of matrices. Each level of refinement moves the images away, adds shorter waves and looks closer.

use nalgebra::DMatrix;

/// Bending stiffness per width of one plate (or the sum of several that share their deflection), N m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct PlateD {
    pub d11: f64,
    pub d22: f64,
    pub d12: f64,
    pub d66: f64,
}

impl std::ops::Add for PlateD {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        Self { d11: self.d11 + o.d11, d22: self.d22 + o.d22, d12: self.d12 + o.d12, d66: self.d66 + o.d66 }
    }
}

/// A uniform rectangular patch, centred at the origin.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Patch {
    /// Total force, N.
    pub load: f64,
    /// Full size across (x), m.
    pub across: f64,
    /// Full size along (y), m.
    pub along: f64,
}

/// Lengths that set the grid in one direction, m.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Scale {
    /// Below this the plate alone is stiff: sets how short the waves must be, and how close the look.
    pub fine: f64,
    /// Over this the dent fades: sets how far the images must be.
    pub reach: f64,
}

/// Samples of the fields on a quadrant, rows along x, columns along y.
pub(crate) struct Field {
    pub sag: DMatrix<f64>,
    /// `-w,xx`: positive where the plate sags.
    pub kx: DMatrix<f64>,
    pub ky: DMatrix<f64>,
    /// `w,xy`.
    pub kxy: DMatrix<f64>,
    /// Normal stress of the bed, compression positive.
    pub bed: DMatrix<f64>,
}

/// Wave numbers with their trapezoid weights, and the places looked at, in one direction.
struct Axis {
    waves: Vec<f64>,
    cos: DMatrix<f64>,
    sin: DMatrix<f64>,
    /// Weight times the transform of the patch's side.
    load: Vec<f64>,
}

fn axis(side: f64, scale: Scale, level: i32) -> Axis {
    let growth = 1.4f64.powi(level);
    let half_period = side / 2.0 + 6.0 * growth * scale.reach;
    let step = std::f64::consts::PI / half_period;
    let count = (14.0 * growth / scale.fine / step).ceil() as usize + 1;
    let waves: Vec<f64> = (0..count).map(|i| i as f64 * step).collect();
    let end = side / 2.0 + 2.5 * scale.reach.min(1.5 * scale.fine);
    let looks = ((5.0 * growth * end / scale.fine).ceil() as usize).clamp(16, 128);
    let place = |j: usize| end * j as f64 / (looks - 1) as f64;
    let load = waves
        .iter()
        .map(|&k| {
            let weight = if k == 0.0 { step / 2.0 } else { step };
            let half = k * side / 2.0;
            weight / std::f64::consts::PI * if half < 1e-8 { 1.0 } else { half.sin() / half }
        })
        .collect();
    Axis {
        cos: DMatrix::from_fn(count, looks, |i, j| (waves[i] * place(j)).cos()),
        sin: DMatrix::from_fn(count, looks, |i, j| (waves[i] * place(j)).sin()),
        waves,
        load,
    }
}

/// The field of one patch on the plate `d`, at one level of refinement.
pub(crate) fn field(
    d: PlateD,
    bed: &impl Fn(f64) -> f64,
    patch: Patch,
    x: Scale,
    y: Scale,
    level: i32,
) -> Field {
    let (ax, ay) = (axis(patch.across, x, level), axis(patch.along, y, level));
    let (nx, ny) = (ax.waves.len(), ay.waves.len());
    let mixed = 2.0 * (d.d12 + 2.0 * d.d66);
    let mut sag = DMatrix::zeros(nx, ny);
    let mut press = DMatrix::zeros(nx, ny);
    for (j, &eta) in ay.waves.iter().enumerate() {
        let e2 = eta * eta;
        for (i, &xi) in ax.waves.iter().enumerate() {
            let x2 = xi * xi;
            let k = bed((x2 + e2).sqrt());
            let w = patch.load * ax.load[i] * ay.load[j]
                / (d.d11 * x2 * x2 + mixed * x2 * e2 + d.d22 * e2 * e2 + k);
            sag[(i, j)] = w;
            press[(i, j)] = k * w;
        }
    }
    let scaled_columns = |power: i32| {
        let mut m = sag.clone();
        for (mut column, eta) in m.column_iter_mut().zip(&ay.waves) {
            column *= eta.powi(power);
        }
        m
    };
    let scaled_rows = |mut m: DMatrix<f64>, power: i32| {
        for (mut row, xi) in m.row_iter_mut().zip(&ax.waves) {
            row *= xi.powi(power);
        }
        m
    };
    let along_y = &sag * &ay.cos;
    let twist_y = scaled_rows(scaled_columns(1) * &ay.sin, 1);
    Field {
        kx: ax.cos.tr_mul(&scaled_rows(along_y.clone(), 2)),
        sag: ax.cos.tr_mul(&along_y),
        ky: ax.cos.tr_mul(&(scaled_columns(2) * &ay.cos)),
        kxy: ax.sin.tr_mul(&twist_y),
        bed: ax.cos.tr_mul(&(press * &ay.cos)),
    }
}

/// The largest value of a sampled field that is even about both axes, with a parabola through the neighbours.
pub(crate) fn peak(f: &DMatrix<f64>) -> f64 {
    let (mut at, mut best) = ((0, 0), f64::NEG_INFINITY);
    for j in 0..f.ncols() {
        for i in 0..f.nrows() {
            if f[(i, j)] > best {
                (at, best) = ((i, j), f[(i, j)]);
            }
        }
    }
    let lift = |before: f64, after: f64| {
        let bend = 2.0 * best - before - after;
        if bend > 0.0 { (after - before).powi(2) / (8.0 * bend) } else { 0.0 }
    };
    let neighbours = |k: usize, last: usize| (if k == 0 { 1 } else { k - 1 }, (k + 1).min(last));
    let (i, j) = at;
    let (i0, i1) = neighbours(i, f.nrows() - 1);
    let (j0, j1) = neighbours(j, f.ncols() - 1);
    best + lift(f[(i0, j)], f[(i1, j)]) + lift(f[(i, j0)], f[(i, j1)])
}

//! The dent as a field: double Fourier integral of a plate on a bed whose stiffness depends on the wave number.
//!
//! ```text
//! w(x, y) = 1/pi^2 double integral over xi, eta > 0 of P sinc(xi a/2) sinc(eta b/2) cos(xi x) cos(eta y)
//!           / (D11 xi^4 + 2 (D12 + 2 D66) xi^2 eta^2 + D22 eta^4 + K(|xi|))
//! ```
//!
//! Summed by the trapezoid rule, which on a decaying field converges exponentially in the half-period `pi/step` and
//! means a row of feet so far apart that they do not feel each other. The cosines separate, so a field is two
//! products of matrices. Each level of refinement moves the images away and adds shorter waves.

use nalgebra::DMatrix;
use std::f64::consts::PI;

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
    /// Below this the plate alone is stiff: sets how short the waves must be, and how close to look.
    pub fine: f64,
    /// Over this the dent fades: sets how far the images must be.
    pub reach: f64,
}

impl Scale {
    /// Places to look at, from the middle of a patch with this side outwards past the hogging ring.
    pub(crate) fn places(&self, side: f64) -> Vec<f64> {
        let end = side / 2.0 + 2.5 * self.reach.min(1.5 * self.fine);
        let count = (4.0 * end / self.fine).ceil().max(12.0);
        (0..=count as usize).map(|i| end * i as f64 / count).collect()
    }
}

/// What is sampled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Quantity {
    /// Deflection.
    Sag,
    /// Normal stress of the bed, compression positive.
    Bed,
    /// A bending moment: factors on `-w,xx` and `-w,yy`.
    Bending(f64, f64),
    /// A twisting moment: factor on `w,xy`.
    Twisting(f64),
}

/// The transform of the dent, each coefficient with its trapezoid weight.
pub(crate) struct Spectrum {
    xi: Vec<f64>,
    eta: Vec<f64>,
    sag: DMatrix<f64>,
    bed: DMatrix<f64>,
}

impl Spectrum {
    /// The transform for one patch on the plate `d`, at one level of refinement.
    pub(crate) fn new(
        d: PlateD,
        bed: &impl Fn(f64) -> f64,
        patch: Patch,
        (x, y): (Scale, Scale),
        level: i32,
    ) -> Self {
        let (xi, load_x) = waves(patch.across, x, level);
        let (eta, load_y) = waves(patch.along, y, level);
        let mixed = 2.0 * (d.d12 + 2.0 * d.d66);
        let mut sag = DMatrix::zeros(xi.len(), eta.len());
        let mut press = DMatrix::zeros(xi.len(), eta.len());
        for (j, e) in eta.iter().enumerate() {
            let e2 = e * e;
            for (i, x) in xi.iter().enumerate() {
                let x2 = x * x;
                let k = bed((x2 + e2).sqrt());
                let plate = d.d11 * x2 * x2 + mixed * x2 * e2 + d.d22 * e2 * e2;
                let w = patch.load * load_x[i] * load_y[j] / (plate + k);
                sag[(i, j)] = w;
                press[(i, j)] = k * w;
            }
        }
        Self { xi, eta, sag, bed: press }
    }

    /// A look at all pairs of places, rows along x, columns along y.
    pub(crate) fn look<'a>(&'a self, xs: &'a [f64], ys: &'a [f64]) -> Look<'a> {
        Look {
            spectrum: self,
            xs,
            ys,
            cos_x: table(&self.xi, xs, f64::cos),
            cos_y: table(&self.eta, ys, f64::cos),
        }
    }

    fn weighted(&self, weight: impl Fn(f64, f64) -> f64) -> DMatrix<f64> {
        let mut m = self.sag.clone();
        for (mut column, &eta) in m.column_iter_mut().zip(&self.eta) {
            for (v, &xi) in column.iter_mut().zip(&self.xi) {
                *v *= weight(xi, eta);
            }
        }
        m
    }
}

/// The cosines of some places, ready for any quantity.
pub(crate) struct Look<'a> {
    spectrum: &'a Spectrum,
    xs: &'a [f64],
    ys: &'a [f64],
    cos_x: DMatrix<f64>,
    cos_y: DMatrix<f64>,
}

impl Look<'_> {
    /// The quantity at all pairs of places.
    pub(crate) fn sample(&self, quantity: Quantity) -> DMatrix<f64> {
        let s = self.spectrum;
        let even = |m: &DMatrix<f64>| self.cos_x.tr_mul(&(m * &self.cos_y));
        match quantity {
            Quantity::Sag => even(&s.sag),
            Quantity::Bed => even(&s.bed),
            Quantity::Bending(cx, cy) => even(&s.weighted(|xi, eta| cx * xi * xi + cy * eta * eta)),
            Quantity::Twisting(c) => {
                let along = s.weighted(|xi, eta| c * xi * eta) * table(&s.eta, self.ys, f64::sin);
                table(&s.xi, self.xs, f64::sin).tr_mul(&along)
            }
        }
    }
}

fn table(waves: &[f64], places: &[f64], f: fn(f64) -> f64) -> DMatrix<f64> {
    DMatrix::from_fn(waves.len(), places.len(), |i, j| f(waves[i] * places[j]))
}

/// Wave numbers in one direction, and the transform of the patch's side with the trapezoid weight.
fn waves(side: f64, scale: Scale, level: i32) -> (Vec<f64>, Vec<f64>) {
    let growth = 1.4f64.powi(level);
    let step = PI / (side / 2.0 + 6.0 * growth * scale.reach);
    let count = (14.0 * growth / scale.fine / step).ceil() as usize + 1;
    let waves: Vec<f64> = (0..count).map(|i| i as f64 * step).collect();
    let load = waves.iter().map(|&k| {
        let weight = if k == 0.0 { step / 2.0 } else { step };
        let half = k * side / 2.0;
        weight / PI * if half < 1e-8 { 1.0 } else { half.sin() / half }
    });
    let load = load.collect();
    (waves, load)
}

/// Place and value of the largest sample.
pub(crate) fn largest(f: &DMatrix<f64>) -> ((usize, usize), f64) {
    let at = f
        .transpose()
        .iter()
        .copied()
        .enumerate()
        .fold((0, f64::NEG_INFINITY), |best, (n, v)| if v > best.1 { (n, v) } else { best });
    ((at.0 / f.ncols(), at.0 % f.ncols()), at.1)
}

/// The largest value of an evenly sampled field, lifted by a parabola through the neighbours where it has both.
pub(crate) fn summit(f: &DMatrix<f64>) -> f64 {
    let ((i, j), best) = largest(f);
    let lift = |k: usize, count: usize, at: &dyn Fn(usize) -> f64| {
        if k == 0 || k + 1 == count {
            return 0.0;
        }
        let (before, after) = (at(k - 1), at(k + 1));
        let bend = 2.0 * best - before - after;
        if bend > 0.0 { (after - before).powi(2) / (8.0 * bend) } else { 0.0 }
    };
    best + lift(i, f.nrows(), &|k| f[(k, j)]) + lift(j, f.ncols(), &|k| f[(i, k)])
}

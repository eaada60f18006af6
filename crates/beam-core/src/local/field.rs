//! The dent as a field: double Fourier integral of a plate on a bed whose stiffness depends on the wave number.
//!
//! ```text
//! w(x, y) = 1/pi^2 double integral over xi, eta > 0 of P sinc(xi a/2) sinc(eta b/2) cos(xi x) cos(eta y)
//!           / (D11 xi^4 + 2 (D12 + 2 D66) xi^2 eta^2 + D22 eta^4 + K(|xi|))
//! ```
//!
//! for a plate that does not shear and has no thickness. A plywood skin gives in rolling shear, and its lower face, which
//! the foam is glued to, moves sideways as it turns: then the plate's part comes from [`PlateD::wave`].
//!
//! Summed by the trapezoid rule, which on a decaying field converges exponentially in the half-period `pi/step` and
//! means a row of feet so far apart that they do not feel each other. The cosines separate, so a field is two
//! products of matrices. A level of refinement moves the images away, or adds shorter waves.

use super::under::Bedding;
use nalgebra::{DMatrix, Matrix3};
use std::f64::consts::PI;
use std::ops::Range;

/// One plate as it bends and shears, per width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct PlateD {
    /// Bending stiffness, N m.
    pub d11: f64,
    pub d22: f64,
    pub d12: f64,
    pub d66: f64,
    /// Transverse shear stiffness across and along, N/m; infinite where shear is left out.
    pub shear: [f64; 2],
    /// Height of its neutral plane over the foam glued to it, m; 0 where that is left out, or where it lies loose.
    pub over: f64,
}

impl PlateD {
    /// A plate that does not shear, its foam glued to its middle.
    pub(crate) const fn thin(d11: f64, d22: f64, d12: f64, d66: f64) -> Self {
        Self { d11, d22, d12, d66, shear: [f64::INFINITY; 2], over: 0.0 }
    }

    /// The same plate with across and along changed round.
    pub(crate) fn turned(self) -> Self {
        let [across, along] = self.shear;
        Self { d11: self.d22, d22: self.d11, shear: [along, across], ..self }
    }

    /// Whether it does not shear.
    pub(crate) fn is_thin(&self) -> bool {
        !self.shear.iter().all(|s| s.is_finite())
    }

    /// Energy of one wave, doubled, by its sinking and its turns about each axis; of a plate that does not shear the
    /// bending alone, its turns being the slopes.
    pub(crate) fn own(&self, xi: f64, eta: f64) -> Matrix3<f64> {
        let (x2, e2) = (xi * xi, eta * eta);
        let [sx, sy] = if self.is_thin() { [0.0; 2] } else { self.shear };
        let (m11, m22) = (self.d11 * x2 + self.d66 * e2 + sx, self.d66 * x2 + self.d22 * e2 + sy);
        let (m12, s1, s2) = ((self.d12 + self.d66) * xi * eta, -sx * xi, -sy * eta);
        Matrix3::new(sx * x2 + sy * e2, s1, s2, s1, m11, m12, s2, m12, m22)
    }

    /// Stiffness against one wave of deflection, the foam's own against sinking left out, and how far the plate turns
    /// about each axis with it: `(N/m3, [1/m, 1/m])`.
    ///
    /// The energy of deflection `w` and turns `p` is `p M p/2 - s p w + S w^2/2`; the plate turns so that it is least.
    fn wave(&self, xi: f64, eta: f64, bed: &Bedding) -> (f64, [f64; 2]) {
        let (x2, e2) = (xi * xi, eta * eta);
        let rho2 = (x2 + e2).max(f64::MIN_POSITIVE);
        let [wu, ws, uu, us, ss] = [(0, 1), (0, 2), (1, 1), (1, 2), (2, 2)].map(|at| bed.face[at]);
        if self.is_thin() {
            let bends = self.d11 * x2 * x2 + 2.0 * (self.d12 + 2.0 * self.d66) * x2 * e2 + self.d22 * e2 * e2;
            let drags = 2.0 * self.over * wu * rho2.sqrt() + self.over * self.over * uu * rho2;
            return (bends + drags, [xi, eta]);
        }
        // The foam under the turning face: along the wave and square to it.
        let own = self.own(xi, eta);
        let over2 = self.over * self.over;
        let (nx2, ny2, nxy) = (x2 / rho2, e2 / rho2, xi * eta / rho2);
        let m11 = own[(1, 1)] + over2 * (uu * nx2 - 2.0 * us * nxy + ss * ny2);
        let m22 = own[(2, 2)] + over2 * (uu * ny2 + 2.0 * us * nxy + ss * nx2);
        let m12 = own[(1, 2)] + over2 * ((uu - ss) * nxy + us * (nx2 - ny2));
        let drag = self.over / rho2.sqrt();
        let s1 = -own[(0, 1)] - drag * (wu * xi - ws * eta);
        let s2 = -own[(0, 2)] - drag * (wu * eta + ws * xi);
        let det = m11 * m22 - m12 * m12;
        let turn = [(m22 * s1 - m12 * s2) / det, (m11 * s2 - m12 * s1) / det];
        ((own[(0, 0)] - s1 * turn[0] - s2 * turn[1]).max(0.0), turn)
    }
}

/// Plates that lie on each other and do not shear, as one.
impl std::ops::Add for PlateD {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        Self::thin(self.d11 + o.d11, self.d22 + o.d22, self.d12 + o.d12, self.d66 + o.d66)
    }
}

/// A uniform rectangular patch, centred at the origin.
#[derive(Debug, Clone, Copy, PartialEq)]
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

/// How far a transform is refined.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Level {
    /// How often the images were moved away.
    pub images: i32,
    /// How often shorter waves were added.
    pub waves: i32,
}

/// What is sampled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Quantity {
    /// Deflection.
    Sag,
    /// Normal stress of the bed, compression positive.
    Bed,
    /// A bending moment of the plate of that number among those asked for: factors on its curvatures across and along.
    Bending(usize, f64, f64),
    /// A twisting moment of such a plate: factor on its twist.
    Twisting(usize, f64),
}

/// The transform of the dent, each coefficient with its trapezoid weight.
pub(crate) struct Spectrum {
    xi: Vec<f64>,
    eta: Vec<f64>,
    /// Sinking of the skin, less that of a lower one.
    sag: DMatrix<f64>,
    bed: DMatrix<f64>,
    /// Of each plate asked for the curvatures across and along, and the twist.
    curved: Vec<[DMatrix<f64>; 3]>,
    /// What the images add to the curvature of each such plate, over the square of the distance, 1/m3.
    images: Vec<f64>,
    /// Mean over the patch of the square of its place across, less that along, m2.
    patch: f64,
}

/// The longest wave, which has no direction, is taken this part of a step long and askew: where a panel sways the
/// curvatures there have no limit but a mean.
pub(super) const ORIGIN: f64 = 1e-3;
/// Sum of `1/z^4` over the square lattice of distance 1 without its origin: `Gamma(1/4)^8/(960 pi^2)`.
pub(super) const G4: f64 = 3.151_212_002;

impl Spectrum {
    /// The transform for one patch on plates that share their deflection, at one level of refinement.
    ///
    /// The steps are the same both ways, so that the images make a square: what two skins that sway are curved by falls
    /// with the square of the distance, by as much across as along with the sign turned, and on a square cancels at the
    /// origin. About it the images of a sag `-q ln r` curve by `q Re(3 G4 z^2)/s^4`, `s` their distance, `G4` the sum of
    /// `1/z^4` over the square lattice (Weierstrass): that is taken off.
    ///
    /// `asked`: numbers of the plates that are asked for curvatures.
    pub(crate) fn new(
        plates: &[PlateD],
        asked: Range<usize>,
        bed: &impl Fn(f64, f64) -> Bedding,
        patch: Patch,
        (x, y): (Scale, Scale),
        square: bool,
        level: Level,
    ) -> Self {
        let mut steps = [step(patch.across, x, level.images), step(patch.along, y, level.images)];
        if square {
            steps = [steps[0].min(steps[1]); 2];
        }
        let (xi, load_x) = waves(patch.across, x, level.waves, steps[0]);
        let (eta, load_y) = waves(patch.along, y, level.waves, steps[1]);
        let mut sag = DMatrix::zeros(xi.len(), eta.len());
        let mut press = sag.clone();
        let mut curved = vec![[sag.clone(), sag.clone(), sag.clone()]; asked.len()];
        let mut turned = vec![[0.0; 2]; plates.len()];
        let mut images = vec![0.0; asked.len()];
        let distance = 2.0 * PI / steps[0];
        for (j, &e) in eta.iter().enumerate() {
            for (i, &x) in xi.iter().enumerate() {
                let first = i + j == 0;
                let (x, e) = if first { (ORIGIN * steps[0], ORIGIN * steps[1]) } else { (x, e) };
                let rho = (x * x + e * e).sqrt();
                let bed = bed(x, e);
                let mut stiffness = bed.face[(0, 0)];
                for (plate, turned) in plates.iter().zip(&mut turned) {
                    let (own, turn) = plate.wave(x, e, &bed);
                    stiffness += own;
                    *turned = turn;
                }
                let w = patch.load * load_x[i] * load_y[j] / stiffness;
                let mut pressed = bed.face[(0, 0)];
                let mut sunk = 1.0 - bed.lower[0];
                for ([xx, yy, xy], turn) in curved.iter_mut().zip(&turned[asked.clone()]) {
                    xx[(i, j)] = x * turn[0] * w;
                    yy[(i, j)] = e * turn[1] * w;
                    xy[(i, j)] = (e * turn[0] + x * turn[1]) / 2.0 * w;
                }
                for (plate, turn) in plates.iter().zip(&turned) {
                    // What the face pushes sideways presses the foam too, and what is under it.
                    let along = plate.over * (turn[0] * x + turn[1] * e) / rho;
                    let aside = plate.over * (turn[1] * x - turn[0] * e) / rho;
                    pressed += bed.face[(0, 1)] * along + bed.face[(0, 2)] * aside;
                    sunk -= bed.lower[1] * along + bed.lower[2] * aside;
                }
                if first && square {
                    for (image, turn) in images.iter_mut().zip(&turned[asked.clone()]) {
                        let log = patch.load / stiffness * (x * turn[0] + e * turn[1]) / (2.0 * PI);
                        *image = -3.0 * G4 * log / distance.powi(4);
                    }
                }
                sag[(i, j)] = sunk * w;
                press[(i, j)] = pressed * w;
            }
        }
        let patch = (patch.across.powi(2) - patch.along.powi(2)) / 12.0;
        Self { xi, eta, sag, bed: press, curved, images, patch }
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
            Quantity::Bending(plate, cx, cy) => {
                let [xx, yy, _] = &s.curved[plate];
                let image = (cx - cy) * s.images[plate];
                let mut f = even(&(xx * cx + yy * cy));
                for ((i, x), (j, y)) in pairs(self.xs, self.ys) {
                    f[(i, j)] -= image * (x * x - y * y + s.patch);
                }
                f
            }
            Quantity::Twisting(plate, c) => {
                let along = &s.curved[plate][2] * table(&s.eta, self.ys, f64::sin);
                let mut f = table(&s.xi, self.xs, f64::sin).tr_mul(&along) * c;
                for ((i, x), (j, y)) in pairs(self.xs, self.ys) {
                    f[(i, j)] -= c * s.images[plate] * 2.0 * x * y;
                }
                f
            }
        }
    }
}

fn pairs<'a>(xs: &'a [f64], ys: &'a [f64]) -> impl Iterator<Item = ((usize, &'a f64), (usize, &'a f64))> {
    xs.iter().enumerate().flat_map(move |x| ys.iter().enumerate().map(move |y| (x, y)))
}

fn table(waves: &[f64], places: &[f64], f: fn(f64) -> f64) -> DMatrix<f64> {
    DMatrix::from_fn(waves.len(), places.len(), |i, j| f(waves[i] * places[j]))
}

/// Step of the wave numbers that moves the images far enough away in one direction.
fn step(side: f64, scale: Scale, level: i32) -> f64 {
    PI / (side / 2.0 + 6.0 * growth(level) * scale.reach)
}

fn growth(level: i32) -> f64 {
    1.4f64.powi(level)
}

/// Wave numbers in one direction, and the transform of the patch's side with the trapezoid weight.
fn waves(side: f64, scale: Scale, level: i32, step: f64) -> (Vec<f64>, Vec<f64>) {
    let count = (14.0 * growth(level) / scale.fine / step).ceil() as usize + 1;
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

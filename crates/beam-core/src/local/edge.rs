//! A foot near a free edge: the skin and the foam both end there, as at an opening that is not framed.
//!
//! The roof is mirrored in the edge. Then skin and foam go on without end and the foam's stiffness `K` holds as it does
//! anywhere, with no shear on the mirror plane; what is left is to make the skin's edge free of moment and of edge
//! shear. A kink of slope `J(eta)` along the edge does both: with `g = D11 xi^2 + D12 eta^2` the transform of the dent
//! is
//!
//! ```text
//! w = (q - J g)/(D11 xi^4 + 2 (D12 + 2 D66) xi^2 eta^2 + D22 eta^4 + K)
//! J = -integral of q g/(B + K) / integral of (D11 - g^2/(B + K))        over xi, for each eta
//! ```
//!
//! What this does not know: the foam's cut face is free to bulge, here it is held, and the skin gives in rolling shear.
//! Beside a solid model with a free face (the tests) sag and foam come out right within 3 percent, and the skin's bending
//! up to a tenth too high.
//!
//! # References
//! Derived; edge conditions of Kirchhoff's plate (Timoshenko and Woinowsky-Krieger 1959, from memory); held against
//! Hetenyi 1946 for a strip that ends on springs.

use super::bed::BedTable;
use super::error::{LocalError, positive};
use super::field::{Patch, PlateD};
use super::layer::Layer;
use nalgebra::DMatrix;
use std::f64::consts::PI;

/// Foam is read over this length across the edge, m: about a bead. At the edge itself the stress of an elastic layer
/// under a kinked skin grows without bound, slowly, and means nothing.
const BEAD: f64 = 0.005;
/// Change between the two grids beyond which nothing is said.
const SETTLED: f64 = 0.01;
/// Grids: how far the images are, in lengths over which the dent fades, and how short the waves are, in lengths of the
/// skin; the second over the kink, which fades slowly with the wave number.
const GRIDS: [(f64, f64, f64); 2] = [(8.0, 20.0, 100.0), (11.0, 28.0, 200.0)];

/// The worst of a dent beside a free edge, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct EdgeDent {
    /// Largest deflection of the skin.
    pub sag: f64,
    /// Largest normal stress of the foam, mean over a bead across the edge.
    pub foam_stress: f64,
    /// Largest moment across the edge, either sign, N.
    pub moment_across: f64,
    /// Largest moment along the edge, either sign, N.
    pub moment_along: f64,
}

impl EdgeDent {
    fn change(&self, finer: &Self) -> f64 {
        let moment = finer.moment_across.max(finer.moment_along);
        [
            (self.sag - finer.sag) / finer.sag,
            (self.foam_stress - finer.foam_stress) / finer.foam_stress,
            (self.moment_across - finer.moment_across) / moment,
            (self.moment_along - finer.moment_along) / moment,
        ]
        .into_iter()
        .fold(0.0, |most, c| if c.is_finite() { most.max(c.abs()) } else { f64::INFINITY })
    }
}

/// Dent of a patch whose near side is `clear` from a free edge; `across` is square to the edge.
///
/// # Errors
/// [`LocalError`].
pub(crate) fn dent_at_edge(
    skin: PlateD,
    foam: &Layer,
    patch: Patch,
    clear: f64,
) -> Result<EdgeDent, LocalError> {
    let foam = Layer::new(foam.e, foam.nu, foam.depth)?;
    let table = BedTable::new(&foam);
    let lengths = |d: f64| {
        let winkler = (d / foam.wide()).powf(0.25);
        (winkler.min((d / foam.short_slope()).cbrt()), winkler.max(foam.depth / 2.0))
    };
    on_bed(skin, &|xi| table.at(xi), (lengths(skin.d11), lengths(skin.d22)), patch, clear, BEAD)
}

/// (short, long) length of the skin in one direction: see [`GRIDS`].
type Lengths = (f64, f64);

fn on_bed(
    skin: PlateD,
    bed: &impl Fn(f64) -> f64,
    lengths: (Lengths, Lengths),
    patch: Patch,
    clear: f64,
    bead: f64,
) -> Result<EdgeDent, LocalError> {
    positive("load of the foot (N)", patch.load)?;
    positive("size of the foot across the edge (m)", patch.across)?;
    positive("size of the foot along the edge (m)", patch.along)?;
    if !(0.0..=1.0).contains(&clear) {
        return Err(LocalError::OutOfRange {
            quantity: "distance of the foot from the edge (m)",
            value: clear,
            allowed: "0 to 1 m",
        });
    }
    for (side, (short, _)) in [(patch.across + clear, lengths.0), (patch.along, lengths.1)] {
        if side > 40.0 * short {
            return Err(LocalError::OutOfRange {
                quantity: "size of the foot over the skin's characteristic length",
                value: side / short,
                allowed: "must not exceed 40: under so wide a foot the foam stress is the pressure",
            });
        }
    }
    let [coarse, fine] = GRIDS.map(|grid| Transform::new(skin, bed, lengths, patch, clear, grid).worst(bead));
    let change = coarse.change(&fine);
    if change > SETTLED {
        return Err(LocalError::NotSettled { change, wanted: SETTLED });
    }
    Ok(fine)
}

/// The transform of one dent: rows are waves across the edge, columns waves along it, each with its weight.
struct Transform {
    skin: PlateD,
    xi: Vec<f64>,
    eta: Vec<f64>,
    sag: DMatrix<f64>,
    press: DMatrix<f64>,
    /// The kink's part of `-w,xx`, which is no part of the curvature.
    kink: DMatrix<f64>,
    places: [Vec<f64>; 2],
}

impl Transform {
    fn new(
        skin: PlateD,
        bed: &impl Fn(f64) -> f64,
        (x, y): (Lengths, Lengths),
        patch: Patch,
        clear: f64,
        (images, short, kinked): (f64, f64, f64),
    ) -> Self {
        let waves = |size: f64, (fine, reach): Lengths, short: f64| -> (Vec<f64>, f64) {
            let step = PI / (size + images * reach);
            ((0..=(short / fine / step).ceil() as usize).map(|i| i as f64 * step).collect(), step)
        };
        let (xi, step_x) = waves(clear + patch.across, x, kinked);
        let (eta, step_y) = waves(patch.along / 2.0, y, short);
        let weight = |k: f64, step: f64| if k == 0.0 { step / 2.0 } else { step } / PI;
        let middle = clear + patch.across / 2.0;
        let (rows, columns) = (xi.len(), eta.len());
        let mut sag = DMatrix::zeros(rows, columns);
        let (mut press, mut kink) = (sag.clone(), sag.clone());
        let mixed = 2.0 * (skin.d12 + 2.0 * skin.d66);
        for (j, &e) in eta.iter().enumerate() {
            let e2 = e * e;
            let (mut turned, mut turns) = (0.0, 0.0);
            let row = |x: f64| {
                let x2 = x * x;
                let k = bed((x2 + e2).sqrt());
                let whole = skin.d11 * x2 * x2 + mixed * x2 * e2 + skin.d22 * e2 * e2 + k;
                (k, whole, skin.d11 * x2 + skin.d12 * e2)
            };
            let load = |x: f64| {
                2.0 * patch.load
                    * sinc(x * patch.across / 2.0)
                    * (x * middle).cos()
                    * sinc(e * patch.along / 2.0)
            };
            for &x in &xi {
                let (_, whole, g) = row(x);
                turned += weight(x, step_x) * g * load(x) / whole;
                turns += weight(x, step_x) * (skin.d11 - g * g / whole);
            }
            let end = xi[rows - 1];
            // What the kink still turns beyond the shortest wave, where the plate alone is left.
            turns += (mixed - 2.0 * skin.d12) * e2 / end / PI;
            let j_eta = -turned / turns;
            for (i, &x) in xi.iter().enumerate() {
                let (k, whole, g) = row(x);
                let weight = weight(x, step_x) * weight(e, step_y);
                let w = weight * (load(x) - j_eta * g) / whole;
                sag[(i, j)] = w;
                press[(i, j)] = k * w;
                kink[(i, j)] = weight * j_eta;
            }
        }
        let look = |from: f64, size: f64, (fine, reach): Lengths| -> Vec<f64> {
            let end = from + size + 2.5 * reach.min(1.5 * fine);
            let count = (5.0 * end / fine).ceil().max(24.0);
            (0..=count as usize).map(|i| end * i as f64 / count).collect()
        };
        let places = [look(clear, patch.across, x), look(0.0, patch.along / 2.0, y)];
        Self { skin, xi, eta, sag, press, kink, places }
    }

    /// The largest of everything on the places looked at.
    fn worst(&self, bead: f64) -> EdgeDent {
        let cosines = |waves: &[f64], places: &[f64]| {
            DMatrix::from_fn(waves.len(), places.len(), |i, j| (waves[i] * places[j]).cos())
        };
        let (cos_x, cos_y) = (cosines(&self.xi, &self.places[0]), cosines(&self.eta, &self.places[1]));
        let field = |m: &DMatrix<f64>| cos_x.tr_mul(&(m * &cos_y));
        // The mean over a bead that lies wholly on the foam.
        let inside: Vec<f64> = self.places[0].iter().map(|x| x.max(bead / 2.0)).collect();
        let mean = DMatrix::from_fn(self.xi.len(), inside.len(), |i, j| {
            (self.xi[i] * inside[j]).cos() * sinc(self.xi[i] * bead / 2.0)
        });
        let bend = |cx: f64, cy: f64| {
            let m = DMatrix::from_fn(self.xi.len(), self.eta.len(), |i, j| {
                let w = self.sag[(i, j)];
                cx * (self.xi[i].powi(2) * w + self.kink[(i, j)]) + cy * self.eta[j].powi(2) * w
            });
            field(&m).amax()
        };
        EdgeDent {
            sag: field(&self.sag).max(),
            foam_stress: mean.tr_mul(&(&self.press * &cos_y)).max(),
            moment_across: bend(self.skin.d11, self.skin.d12),
            moment_along: bend(self.skin.d12, self.skin.d22),
        }
    }
}

fn sinc(t: f64) -> f64 {
    if t.abs() < 1e-8 { 1.0 } else { t.sin() / t }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// 1/8 in lauan plywood, face grain along the edge: 1.2 and 8 GPa flexural.
    const PLY: PlateD = PlateD::thin(3.2037, 21.358, 0.2563, 1.3336);
    const FOAM: Layer = Layer { e: 5e6, nu: 0.1, depth: 0.050 };

    /// A strip that ends on springs, pressed over `a` from its end (Hetenyi 1946, article 11, from memory): sag of the
    /// end `q/k (1 + e^-ba (sin ba - cos ba))`; under a line load at the end the moment reaches `0.3224 P/b`. Read in the
    /// middle of a patch so long that its ends are not felt there.
    #[test]
    fn long_patch_at_the_edge_matches_hetenyi() {
        let (d, k, q) = (4.0f64, 1e8, 1000.0);
        let beta = (k / (4.0 * d)).powf(0.25);
        let lengths = (1.0 / beta, 1.0 / beta);
        for a in [0.002, 0.015, 0.03] {
            let patch = Patch { load: q * 0.5 * a, across: a, along: 0.5 };
            let skin = PlateD::thin(d, d, 0.0, d / 2.0);
            let mut transform = Transform::new(skin, &|_| k, (lengths, lengths), patch, 0.0, GRIDS[1]);
            transform.places[1] = vec![0.0];
            let (got, t) = (transform.worst(1e-6), beta * a);
            let end = q / k * (1.0 + (-t).exp() * (t.sin() - t.cos()));
            assert_relative_eq!(got.sag, end, max_relative = 5e-3);
            if a < 0.01 {
                // The load's middle lies a/2 in: the couple q a^2/2 at the end takes 0.645 of itself off.
                let moment = 0.3224 * q * a / beta - 0.6448 * q * a * a / 2.0;
                assert_relative_eq!(got.moment_across, moment, max_relative = 0.01);
            }
        }
    }

    /// Against a solid model whose foam ends in a free face (`tests/second_route/feet.py`).
    #[test]
    fn solid_model_of_a_foot_at_the_edge() {
        let solid = include_str!("../../../../data/second_route/feet.csv");
        let section = 0.003_175f64.powi(2) / 6.0;
        for (id, across, along) in [("heel_edge", 0.050, 0.050), ("shoe_edge", 0.100, 0.180)] {
            let value = |what: &str| -> f64 {
                let row = solid.lines().find(|l| l.starts_with(&format!("{id},{what},"))).unwrap();
                row.rsplit(',').next().unwrap().parse().unwrap()
            };
            let got = dent_at_edge(PLY, &FOAM, Patch { load: 1000.0, across, along }, 0.0).unwrap();
            for (ours, solid, least, most) in [
                (got.sag, value("dent"), 0.97, 1.03),
                (got.foam_stress, value("foam_5mm"), 0.94, 1.06),
                (got.moment_across / section, value("sag_x").max(value("hog_x")), 0.97, 1.20),
                (got.moment_along / section, value("sag_y").max(value("hog_y")), 0.97, 1.20),
            ] {
                assert!(ours / solid > least && ours / solid < most, "{id}: {ours:.5e}, solid {solid:.5e}");
            }
        }
    }

    /// Far from the edge it is the foot on an endless skin.
    #[test]
    fn far_from_the_edge_nothing_is_felt_of_it() {
        let patch = Patch { load: 1000.0, across: 0.05, along: 0.05 };
        let got = dent_at_edge(PLY, &FOAM, patch, 0.25).unwrap();
        let free = super::super::indent(&super::super::FootCase {
            plates: &[PLY],
            foam: FOAM,
            below: super::super::Below::Rigid,
            patch,
        })
        .unwrap();
        assert_relative_eq!(got.sag, free.sag, max_relative = 2e-3);
        assert_relative_eq!(got.foam_stress, free.foam_stress, max_relative = 5e-3);
        assert_relative_eq!(got.moment_across, free.moments[0].sagging_x, max_relative = 0.01);
        assert_relative_eq!(got.moment_along, free.moments[0].sagging_y, max_relative = 0.01);
    }

    #[test]
    fn edge_is_worse_than_the_middle_and_nonsense_is_refused() {
        let patch = Patch { load: 1000.0, across: 0.05, along: 0.05 };
        let [edge, near] = [0.0, 0.03].map(|clear| dent_at_edge(PLY, &FOAM, patch, clear).unwrap());
        assert!(edge.sag > 1.2 * near.sag && edge.foam_stress > 1.05 * near.foam_stress, "{edge:?} {near:?}");
        assert!(dent_at_edge(PLY, &FOAM, patch, f64::NAN).is_err());
        assert!(dent_at_edge(PLY, &FOAM, Patch { along: 0.0, ..patch }, 0.0).is_err());
    }
}

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
//! Over a lower skin that moves both end there: each face has its kink, and `B + K` and `g` become matrices of the two.
//! The faces do not move sideways, so that the panel as a whole is left out as in [`super::under`].
//!
//! What this does not know: the foam's cut face is free to bulge, here it is held, and the skin gives in rolling shear.
//! Beside a solid model with a free face (the tests) sag and foam come out right within 3 percent, and the skin's bending
//! up to a tenth too high.
//!
//! # References
//! Derived; edge conditions of Kirchhoff's plate (Timoshenko and Woinowsky-Krieger 1959, from memory); held against
//! Hetenyi 1946 for a strip that ends on springs.

use super::error::{LocalError, positive};
use super::field::{G4, ORIGIN, Patch, PlateD};
use super::layer::Layer;
use super::under::{Bed, Below};
use nalgebra::{DMatrix, Matrix2, Vector2};
use std::f64::consts::PI;

/// Foam is read over this length across the edge, m: about a bead. At the edge itself the stress of an elastic layer
/// under a kinked skin grows without bound, slowly, and means nothing.
const BEAD: f64 = 0.005;
/// Change between the two grids beyond which nothing is said.
const SETTLED: f64 = 0.01;
/// The same over a lower skin that moves, where the skin's bending comes out a sixth too high beside the solid.
const SETTLED_MOVING: f64 = 0.02;
/// Grids: how far the images are, in lengths over which the dent fades, and how short the waves are, in lengths of the
/// skin; the second over the kink, which fades slowly with the wave number.
const GRIDS: [(f64, f64, f64); 2] = [(8.0, 20.0, 100.0), (11.0, 28.0, 200.0)];

/// The worst of a dent beside a free edge, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct EdgeDent {
    /// Largest deflection of the skin, less that of a lower one.
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
    below: Below,
    patch: Patch,
    clear: f64,
) -> Result<EdgeDent, LocalError> {
    let bed = Bed::new(foam, below)?;
    let fade = bed.fade(skin.d11.max(skin.d22));
    let lengths = |d: f64| {
        let winkler = (d / foam.wide()).powf(0.25);
        (winkler.min((d / foam.short_slope()).cbrt()), winkler.max(fade))
    };
    let lower = match below {
        Below::Skin(lower) => Some(lower),
        Below::Rigid | Below::Nothing => None,
    };
    let lengths = (lengths(skin.d11), lengths(skin.d22));
    on_bed([Some(skin), lower], &|xi| bed.faces(xi), lengths, patch, clear, BEAD)
}

/// (short, long) length of the skin in one direction: see [`GRIDS`].
type Lengths = (f64, f64);

/// `skins`: the upper, and a lower one that moves; `bed`: what a face of the foam resists its own sinking with, and the
/// other's.
fn on_bed(
    skins: [Option<PlateD>; 2],
    bed: &impl Fn(f64) -> [f64; 2],
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
    let [coarse, fine] =
        GRIDS.map(|grid| Transform::new(skins, bed, lengths, patch, clear, grid).worst(bead));
    let change = coarse.change(&fine);
    let wanted = if skins[1].is_some() { SETTLED_MOVING } else { SETTLED };
    if change > wanted {
        return Err(LocalError::NotSettled { change, wanted });
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
    /// Curvatures of the upper skin across, its kink taken off, and along.
    curved: [DMatrix<f64>; 2],
    /// What the images add to the curvature, over the square of the distance, as in [`super::field`], 1/m3.
    images: f64,
    /// Mean over the patch of the square of its place across, less that along, m2.
    patch: f64,
    places: [Vec<f64>; 2],
}

/// Waves of both faces: how they give under a force on each, and the moment that each has of its sinking.
struct Wave {
    bed: [f64; 2],
    gives: Matrix2<f64>,
    bends: Vector2<f64>,
}

impl Wave {
    fn new(skins: [PlateD; 2], bed: [f64; 2], xi: f64, eta: f64) -> Self {
        let (x2, e2) = (xi * xi, eta * eta);
        let whole =
            |d: &PlateD| d.d11 * x2 * x2 + 2.0 * (d.d12 + 2.0 * d.d66) * x2 * e2 + d.d22 * e2 * e2 + bed[0];
        let [a, b] = [whole(&skins[0]), whole(&skins[1])];
        let det = a * b - bed[1] * bed[1];
        let gives = Matrix2::new(b, -bed[1], -bed[1], a) / det;
        let [u, l] = skins.map(|d| d.d11 * x2 + d.d12 * e2);
        Self { bed, gives, bends: Vector2::new(u, l) }
    }
}

impl Transform {
    fn new(
        skins: [Option<PlateD>; 2],
        bed: &impl Fn(f64) -> [f64; 2],
        (x, y): (Lengths, Lengths),
        patch: Patch,
        clear: f64,
        (images, short, kinked): (f64, f64, f64),
    ) -> Self {
        let step = |size: f64, reach: f64| PI / (size + images * reach);
        let (mut step_x, mut step_y) = (step(clear + patch.across, x.1), step(patch.along / 2.0, y.1));
        if bed(step_x)[1] != 0.0 {
            // Two faces that sway: the images make a square, as in [`super::field`].
            step_x = step_x.min(step_y);
            step_y = step_x;
        }
        let waves = |fine: f64, short: f64, step: f64| -> Vec<f64> {
            (0..=(short / fine / step).ceil() as usize).map(|i| i as f64 * step).collect()
        };
        let (xi, eta) = (waves(x.0, kinked, step_x), waves(y.0, short, step_y));
        let weight = |k: f64, step: f64| if k == 0.0 { step / 2.0 } else { step } / PI;
        let middle = clear + patch.across / 2.0;
        let (rows, columns) = (xi.len(), eta.len());
        let mut sag = DMatrix::zeros(rows, columns);
        let (mut press, mut curved) = (sag.clone(), [sag.clone(), sag.clone()]);
        let moves = skins[1].is_some();
        let skins = skins.map(|s| s.unwrap_or(PlateD::thin(0.0, 0.0, 0.0, 0.0)));
        // What depends on one wave number alone.
        let in_x: Vec<f64> = xi
            .iter()
            .map(|&x| 2.0 * patch.load * sinc(x * patch.across / 2.0) * (x * middle).cos())
            .collect();
        let in_y: Vec<f64> = eta.iter().map(|&e| sinc(e * patch.along / 2.0)).collect();
        let mut log = 0.0;
        let mut waves = Vec::with_capacity(rows);
        for (j, &e) in eta.iter().enumerate() {
            let e2 = e * e;
            waves.clear();
            waves.extend(xi.iter().map(|&x| {
                let x = x.max(ORIGIN * step_x);
                Wave::new(skins, bed(x.hypot(e)), x, e)
            }));
            let (mut turned, mut turns) = (Vector2::<f64>::zeros(), Matrix2::<f64>::zeros());
            let stiff = Matrix2::from_diagonal(&Vector2::new(skins[0].d11, skins[1].d11));
            for ((&x, along), Wave { gives, bends, .. }) in xi.iter().zip(&in_x).zip(&waves) {
                let load = along * in_y[j];
                turned += weight(x, step_x) * load * bends.component_mul(&gives.column(0));
                turns += weight(x, step_x) * (stiff - gives.component_mul(&(bends * bends.transpose())));
            }
            // What the kinks still turn beyond the shortest wave, where the plates alone are left.
            for (n, d) in skins.iter().enumerate() {
                turns[(n, n)] += 4.0 * d.d66 * e2 / xi[rows - 1] / PI;
            }
            let kinks = if moves {
                turns.try_inverse().map_or(Vector2::from_element(f64::NAN), |t| -t * turned)
            } else {
                Vector2::new(-turned[0] / turns[(0, 0)], 0.0)
            };
            if j == 0 {
                // The longest wave of all is taken askew.
                let least = ORIGIN * step_x;
                waves[0] = Wave::new(skins, bed(least.hypot(least)), least, least);
                log = in_x[0] * in_y[0] * waves[0].gives[(0, 0)] * 2.0 * least.powi(2) / (2.0 * PI);
            }
            for (i, (&x, Wave { bed, gives, bends })) in xi.iter().zip(&waves).enumerate() {
                let (at_x, at_e) = if i + j == 0 { (ORIGIN * step_x, ORIGIN * step_x) } else { (x, e) };
                let weight = weight(x, step_x) * weight(e, step_y);
                let force = Vector2::new(in_x[i] * in_y[j], 0.0);
                let w = weight * gives * (force - kinks.component_mul(bends));
                sag[(i, j)] = w[0] - w[1];
                press[(i, j)] = bed[0] * w[0] + bed[1] * w[1];
                curved[0][(i, j)] = at_x.powi(2) * w[0] + weight * kinks[0];
                curved[1][(i, j)] = at_e.powi(2) * w[0];
            }
        }
        let look = |from: f64, size: f64, (fine, reach): Lengths| -> Vec<f64> {
            let end = from + size + 2.5 * reach.min(1.5 * fine);
            let count = (5.0 * end / fine).ceil().max(24.0);
            (0..=count as usize).map(|i| end * i as f64 / count).collect()
        };
        let places = [look(clear, patch.across, x), look(0.0, patch.along / 2.0, y)];
        let images = -3.0 * G4 * log * (step_x / (2.0 * PI)).powi(4);
        let patch = middle.powi(2) + (patch.across.powi(2) - patch.along.powi(2)) / 12.0;
        Self { skin: skins[0], xi, eta, sag, press, curved, images, patch, places }
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
            let mut f = field(&(&self.curved[0] * cx + &self.curved[1] * cy));
            for (i, x) in self.places[0].iter().enumerate() {
                for (j, y) in self.places[1].iter().enumerate() {
                    f[(i, j)] -= (cx - cy) * self.images * (x * x - y * y + self.patch);
                }
            }
            f.amax()
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
            let mut transform =
                Transform::new([Some(skin), None], &|_| [k, 0.0], (lengths, lengths), patch, 0.0, GRIDS[1]);
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
            let got =
                dent_at_edge(PLY, &FOAM, Below::Rigid, Patch { load: 1000.0, across, along }, 0.0).unwrap();
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

    /// The same of a panel of two such skins on 25 mm, hung free: dent 5 percent below, foam 3 above, the skin's bending a
    /// sixth above, though what the panel as a whole bends it by is in the solid and not here.
    #[test]
    fn solid_model_of_a_heel_at_the_edge_of_a_panel() {
        let solid = include_str!("../../../../data/second_route/feet.csv");
        let value = |what: &str| -> f64 {
            let row = solid.lines().find(|l| l.starts_with(&format!("hung_heel_edge,{what},"))).unwrap();
            row.rsplit(',').next().unwrap().parse().unwrap()
        };
        let section = 0.003_175f64.powi(2) / 6.0;
        let (foam, patch) =
            (Layer { depth: 0.025, ..FOAM }, Patch { load: 1000.0, across: 0.050, along: 0.050 });
        let got = dent_at_edge(PLY, &foam, Below::Skin(PLY), patch, 0.0).unwrap();
        for (what, ours, solid, least, most) in [
            ("dent", got.sag, value("dent"), 0.94, 1.06),
            ("foam", got.foam_stress, value("foam_5mm"), 0.94, 1.06),
            ("across", got.moment_across / section, value("sag_x"), 0.90, 1.25),
            ("along", got.moment_along / section, value("sag_y"), 0.90, 1.25),
        ] {
            assert!(ours / solid > least && ours / solid < most, "{what}: {}", ours / solid);
        }
    }

    /// Far from the edge it is the foot on an endless skin.
    #[test]
    fn far_from_the_edge_nothing_is_felt_of_it() {
        let patch = Patch { load: 1000.0, across: 0.05, along: 0.05 };
        for below in [Below::Rigid, Below::Skin(PLY), Below::Nothing] {
            let got = dent_at_edge(PLY, &FOAM, below, patch, 0.25).unwrap();
            let case = super::super::FootCase { plates: &[PLY], foam: FOAM, below, patch };
            let free = super::super::indent(&case).unwrap();
            assert_relative_eq!(got.sag, free.sag, max_relative = 2e-3);
            assert_relative_eq!(got.foam_stress, free.foam_stress, max_relative = 5e-3);
            assert_relative_eq!(got.moment_across, free.moments[0].sagging_x, max_relative = 0.01);
            assert_relative_eq!(got.moment_along, free.moments[0].sagging_y, max_relative = 0.01);
        }
    }

    #[test]
    fn edge_is_worse_than_the_middle_and_nonsense_is_refused() {
        let patch = Patch { load: 1000.0, across: 0.05, along: 0.05 };
        let [edge, near] =
            [0.0, 0.03].map(|clear| dent_at_edge(PLY, &FOAM, Below::Rigid, patch, clear).unwrap());
        assert!(edge.sag > 1.2 * near.sag && edge.foam_stress > 1.05 * near.foam_stress, "{edge:?} {near:?}");
        assert!(dent_at_edge(PLY, &FOAM, Below::Rigid, patch, f64::NAN).is_err());
        assert!(dent_at_edge(PLY, &FOAM, Below::Rigid, Patch { along: 0.0, ..patch }, 0.0).is_err());
    }
}

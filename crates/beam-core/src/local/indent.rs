//! The kernel behind a foot: the worst of the dent's field, refined until it no longer moves.

use super::error::{LocalError, positive};
use super::field::{Field, Patch, PlateD, Scale, field, peak};
use super::layer::{FarSide, Layer};

/// Change of foam stress and sag between two levels of refinement at which a field counts as settled. The moments,
/// whose series converges slower and whose peaks are sharp, may move ten times as much, relative to the largest.
const SETTLED: f64 = 1e-4;
/// Levels tried; the last costs some thirty times the first.
const LEVELS: i32 = 6;

/// The four stiffnesses, if a stable plate has them.
pub(crate) fn plate(d11: f64, d22: f64, d12: f64, d66: f64) -> Result<PlateD, LocalError> {
    positive("bending stiffness across (N m)", d11)?;
    positive("bending stiffness along (N m)", d22)?;
    positive("twisting stiffness (N m)", d66)?;
    if !(d12.is_finite() && d12 * d12 < d11 * d22) {
        return Err(LocalError::OutOfRange {
            quantity: "coupling stiffness D12 (N m)",
            value: d12,
            allowed: "its square must be below D11 D22",
        });
    }
    Ok(PlateD { d11, d22, d12, d66 })
}

/// A foot, SI.
#[derive(Debug, Clone)]
pub(crate) struct FootCase<'a> {
    /// The skin first, then boards lying on it.
    pub plates: &'a [PlateD],
    pub foam: Layer,
    pub patch: Patch,
}

/// Largest moments per width in one plate, N, all as magnitudes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct PlateMoments {
    pub sagging_x: f64,
    pub hogging_x: f64,
    pub sagging_y: f64,
    pub hogging_y: f64,
    pub twist: f64,
}

/// The worst of the field, SI.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct FootResult {
    pub foam_stress: f64,
    pub sag: f64,
    /// In the order of the plates.
    pub moments: Vec<PlateMoments>,
    /// Last relative change of foam stress and sag, or a tenth of that of the moments, whichever is larger.
    pub change: f64,
}

/// Dent of one foot.
pub(crate) fn indent(case: &FootCase<'_>) -> Result<FootResult, LocalError> {
    let foam = Layer::new(case.foam.e, case.foam.nu, case.foam.depth)?;
    let table = BedTable::new(&foam);
    indent_on(case, &|xi| table.at(xi), foam.wide(), foam.short_slope(), foam.depth / 2.0)
}

fn indent_on(
    case: &FootCase<'_>,
    bed: &impl Fn(f64) -> f64,
    wide: f64,
    slope: f64,
    fade: f64,
) -> Result<FootResult, LocalError> {
    let patch = case.patch;
    positive("load of the foot (N)", patch.load)?;
    positive("size of the foot across (m)", patch.across)?;
    positive("size of the foot along (m)", patch.along)?;
    let total = case.plates.iter().copied().reduce(|a, b| a + b).ok_or(LocalError::OutOfRange {
        quantity: "number of plates under the foot",
        value: 0.0,
        allowed: "at least the skin: on bare foam the foot's pressure is the foam's",
    })?;
    let scale = |d: f64| {
        let winkler = (d / wide).powf(0.25);
        Scale { fine: winkler.min((d / slope).cbrt()), reach: winkler.max(fade) }
    };
    let (x, y) = (scale(total.d11), scale(total.d22));
    for (side, scale) in [(patch.across, x), (patch.along, y)] {
        if side > 40.0 * scale.fine {
            return Err(LocalError::OutOfRange {
                quantity: "size of the foot over the skin's characteristic length",
                value: side / scale.fine,
                allowed: "must not exceed 40: under so wide a foot the foam stress is the pressure",
            });
        }
    }
    let look = |level| worst(&field(total, bed, patch, x, y, level), case.plates);
    let mut last = look(0);
    for level in 1..LEVELS {
        let mut next = look(level);
        next.change = change(&last, &next);
        if next.change <= SETTLED {
            return Ok(next);
        }
        last = next;
    }
    Err(LocalError::NotSettled { change: last.change, wanted: SETTLED })
}

fn worst(f: &Field, plates: &[PlateD]) -> FootResult {
    let moments = plates
        .iter()
        .map(|d| {
            let mx = &f.kx * d.d11 + &f.ky * d.d12;
            let my = &f.kx * d.d12 + &f.ky * d.d22;
            let mxy = &f.kxy * (2.0 * d.d66);
            PlateMoments {
                sagging_x: peak(&mx).max(0.0),
                hogging_x: peak(&-mx).max(0.0),
                sagging_y: peak(&my).max(0.0),
                hogging_y: peak(&-my).max(0.0),
                twist: peak(&mxy).max(peak(&-mxy)),
            }
        })
        .collect();
    FootResult { foam_stress: peak(&f.bed), sag: peak(&f.sag), moments, change: f64::INFINITY }
}

fn change(a: &FootResult, b: &FootResult) -> f64 {
    let mut worst =
        ((a.foam_stress - b.foam_stress) / b.foam_stress).abs().max(((a.sag - b.sag) / b.sag).abs());
    for (m, n) in a.moments.iter().zip(&b.moments) {
        let of = |m: &PlateMoments| [m.sagging_x, m.hogging_x, m.sagging_y, m.hogging_y, m.twist];
        let largest = of(n).into_iter().fold(0.0, f64::max);
        for (p, q) in of(m).into_iter().zip(of(n)) {
            worst = worst.max(0.1 * (p - q).abs() / largest);
        }
    }
    worst
}

/// `K(xi)` by cubic interpolation up to twelve core depths of wave number, by its exact asymptote beyond.
struct BedTable {
    step: f64,
    slope: f64,
    values: Vec<f64>,
}

impl BedTable {
    const END: f64 = 12.0;
    const CELLS: usize = 240;

    fn new(foam: &Layer) -> Self {
        let step = Self::END / foam.depth / Self::CELLS as f64;
        let values = (0..Self::CELLS + 3).map(|i| foam.stiffness(i as f64 * step, FarSide::Rigid)).collect();
        Self { step, slope: foam.short_slope(), values }
    }

    fn at(&self, xi: f64) -> f64 {
        let s = xi / self.step;
        if s >= Self::CELLS as f64 {
            return self.slope * xi;
        }
        let i = (s as usize).max(1);
        let t = s - i as f64;
        let [a, b, c, d] = [self.values[i - 1], self.values[i], self.values[i + 1], self.values[i + 2]];
        // Lagrange through t = -1, 0, 1, 2.
        -t * (t - 1.0) * (t - 2.0) / 6.0 * a + (t + 1.0) * (t - 1.0) * (t - 2.0) / 2.0 * b
            - (t + 1.0) * t * (t - 2.0) / 2.0 * c
            + (t + 1.0) * t * (t - 1.0) / 6.0 * d
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::local::layer::circle_on_layer;
    use crate::local::quadrature::integrate;
    use crate::local::winkler::PlateOnSprings;
    use crate::quantity::si;
    use approx::assert_relative_eq;
    use std::f64::consts::PI;

    /// 3 mm of E 7000 MPa, nu 0.25: D = 16.8 N m.
    fn isotropic(d: f64) -> PlateD {
        PlateD { d11: d, d22: d, d12: 0.25 * d, d66: 0.375 * d }
    }

    /// 3 mm plywood, face grain along: 885 MPa across, 9005 MPa along, G 500 MPa.
    const PLY: PlateD = PlateD { d11: 1.998, d22: 20.33, d12: 0.6, d66: 1.125 };

    const FOAM: Layer = Layer { e: 5e6, nu: 0.1, depth: 0.040 };

    fn foot(load: f64, across: f64, along: f64) -> Patch {
        Patch { load, across, along }
    }

    fn on_springs(d: PlateD, k: f64, patch: Patch) -> FootResult {
        let case = FootCase { plates: &[d], foam: FOAM, patch };
        indent_on(&case, &|_| k, k, 0.0, 0.0).unwrap()
    }

    /// Values at one place by a polar integral, an independent route: foam stress, sag, `-w,xx`, `-w,yy`.
    fn polar(d: PlateD, foam: &Layer, patch: Patch, at: (f64, f64)) -> [f64; 4] {
        let sinc = |t: f64| if t.abs() < 1e-9 { 1.0 } else { t.sin() / t };
        let reach = patch.across.max(patch.along) + at.0.max(at.1) + foam.depth;
        let end = 80.0 / (d.d11.min(d.d22) / foam.short_slope()).cbrt();
        integrate(PI / 2.0, 12, |theta| {
            let (s, c) = theta.sin_cos();
            integrate(end, (end * reach / 4.0).ceil() as u32, |rho| {
                let (xi, eta) = (rho * c, rho * s);
                let k = foam.stiffness(rho, FarSide::Rigid);
                let bend = d.d11 * xi.powi(4)
                    + 2.0 * (d.d12 + 2.0 * d.d66) * (xi * eta).powi(2)
                    + d.d22 * eta.powi(4);
                let load = patch.load * sinc(xi * patch.across / 2.0) * sinc(eta * patch.along / 2.0);
                let w = rho / (PI * PI) * load / (bend + k) * (xi * at.0).cos() * (eta * at.1).cos();
                [k * w, w, xi * xi * w, eta * eta * w]
            })
        })
    }

    /// Navier's series for a simply supported 600 mm square on springs, 1 kN on 100 x 100 mm at the centre (rows W13
    /// and W14): the plate is wide enough to pass for infinite. The centre moment is not the largest: read there.
    #[test]
    fn square_on_springs_matches_navier() {
        let (d, k) = (isotropic(16.8), 0.125e9);
        let scale = Scale { fine: (16.8f64 / k).powf(0.25), reach: (16.8f64 / k).powf(0.25) };
        let f = field(d, &|_| k, foot(1000.0, 0.1, 0.1), scale, scale, 3);
        assert_relative_eq!(f.sag[(0, 0)] * 1e3, 0.8341628, max_relative = 1e-5);
        assert_relative_eq!(d.d11 * f.kx[(0, 0)] + d.d12 * f.ky[(0, 0)], 6.643931, max_relative = 1e-4);
    }

    /// A square and a circle of equal area: within 1.3 percent (sag) on springs, and alike on the layer.
    #[test]
    fn square_is_close_to_circle_of_equal_area() {
        let (p, side) = (1000.0, 0.050);
        let radius = side / PI.sqrt();
        let springs = PlateOnSprings::new(si(16.8), 0.25, si(0.125e9)).unwrap();
        let w = springs.sag_within_circle(si(p), si(radius), si(0.0)).unwrap().value;
        assert_relative_eq!(
            on_springs(isotropic(16.8), 0.125e9, foot(p, side, side)).sag,
            w,
            max_relative = 0.013
        );

        let circle = circle_on_layer(si(16.8), 0.25, si(5e6), 0.1, si(0.04), si(p), si(radius)).unwrap();
        let square =
            indent(&FootCase { plates: &[isotropic(16.8)], foam: FOAM, patch: foot(p, side, side) }).unwrap();
        assert_relative_eq!(square.foam_stress, circle.foam_stress.value, max_relative = 0.013);
        assert_relative_eq!(square.sag, circle.sag.value, max_relative = 0.013);
        assert_relative_eq!(square.moments[0].sagging_x, circle.moment.value, max_relative = 0.02);
    }

    /// Orthotropic skin, heel: the centre is the worst place, and the polar integral knows it.
    #[test]
    fn heel_on_plywood_matches_polar_integral() {
        for depth in [0.025, 0.040, 0.090] {
            let (foam, patch) = (Layer { depth, ..FOAM }, foot(1000.0, 0.020, 0.020));
            let got = indent(&FootCase { plates: &[PLY], foam, patch }).unwrap();
            let [stress, sag, kx, ky] = polar(PLY, &foam, patch, (0.0, 0.0));
            assert_relative_eq!(got.foam_stress, stress, max_relative = 1e-4);
            assert_relative_eq!(got.sag, sag, max_relative = 1e-4);
            assert_relative_eq!(got.moments[0].sagging_x, PLY.d11 * kx + PLY.d12 * ky, max_relative = 1e-3);
            assert_relative_eq!(got.moments[0].sagging_y, PLY.d12 * kx + PLY.d22 * ky, max_relative = 1e-3);
        }
    }

    /// Under a shoe the centre is not the worst: the field's peaks equal the largest of polar values along the axes.
    #[test]
    fn shoe_on_plywood_is_worst_away_from_the_centre() {
        let patch = foot(1000.0, 0.100, 0.180);
        let got = indent(&FootCase { plates: &[PLY], foam: FOAM, patch }).unwrap();
        let (mut mx, mut my, mut hog) = (0f64, 0f64, 0f64);
        for i in 0..24 {
            let [_, _, kx, ky] = polar(PLY, &FOAM, patch, (0.003 * f64::from(i), 0.0));
            mx = mx.max(PLY.d11 * kx + PLY.d12 * ky);
            hog = hog.max(-PLY.d11 * kx - PLY.d12 * ky);
            let [_, _, kx, ky] = polar(PLY, &FOAM, patch, (0.0, 0.006 * f64::from(i)));
            my = my.max(PLY.d12 * kx + PLY.d22 * ky);
        }
        let [_, _, kx, ky] = polar(PLY, &FOAM, patch, (0.0, 0.0));
        assert!(got.moments[0].sagging_x > 1.5 * (PLY.d11 * kx + PLY.d12 * ky), "the centre understates");
        // The field may peak off the axes, so it can only be larger.
        for (got, axis) in
            [(got.moments[0].sagging_x, mx), (got.moments[0].sagging_y, my), (got.moments[0].hogging_x, hog)]
        {
            assert!(got > 0.999 * axis && got < 1.25 * axis, "{got} {axis}");
        }
    }

    /// Plates lying on each other act as one of summed stiffness, and split the moments by their stiffness.
    #[test]
    fn board_takes_its_share() {
        let (patch, board) = (foot(1000.0, 0.1, 0.18), isotropic(1000.0));
        let both = indent(&FootCase { plates: &[PLY, board], foam: FOAM, patch }).unwrap();
        let one = indent(&FootCase { plates: &[PLY + board], foam: FOAM, patch }).unwrap();
        assert_relative_eq!(both.foam_stress, one.foam_stress, max_relative = 1e-9);
        let bare = indent(&FootCase { plates: &[PLY], foam: FOAM, patch }).unwrap();
        assert!(both.foam_stress < 0.6 * bare.foam_stress);
        assert!(both.moments[1].sagging_x > 50.0 * both.moments[0].sagging_x);
    }

    /// The foam carries the foot: the stress integrates to the load, so a wide foot leaves the mean pressure.
    #[test]
    fn wide_foot_leaves_the_pressure() {
        let got = indent(&FootCase { plates: &[PLY], foam: FOAM, patch: foot(1000.0, 0.15, 0.2) }).unwrap();
        let pressure = 1000.0 / (0.15 * 0.2);
        assert!(got.foam_stress > 0.95 * pressure && got.foam_stress < 1.3 * pressure, "{}", got.foam_stress);
    }

    #[test]
    fn table_follows_the_layer() {
        for depth in [0.02, 0.09] {
            let foam = Layer { depth, ..FOAM };
            let table = BedTable::new(&foam);
            for i in 0..400 {
                let xi = (f64::from(i) + 0.37) * 0.05 / depth;
                assert_relative_eq!(table.at(xi), foam.stiffness(xi, FarSide::Rigid), max_relative = 2e-5);
            }
        }
    }

    #[test]
    fn refuses_nonsense() {
        let with = |plates: &[PlateD], patch| indent(&FootCase { plates, foam: FOAM, patch });
        assert!(with(&[], foot(1.0, 0.1, 0.1)).is_err());
        assert!(with(&[PLY], foot(f64::NAN, 0.1, 0.1)).is_err());
        assert!(with(&[PLY], foot(1.0, 0.0, 0.1)).is_err());
        assert!(with(&[PLY], foot(1.0, 2.0, 0.1)).is_err(), "far wider than the skin's length");
        assert!(plate(1.0, 1.0, 1.0, 1.0).is_err(), "an unstable plate");
    }
}

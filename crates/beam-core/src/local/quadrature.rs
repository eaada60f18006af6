//! Gauss-Legendre panels and the Bessel functions they are used with.

/// Eight-point Gauss-Legendre rule on (-1, 1): positive abscissae and weights (Abramowitz and Stegun 25.4.30).
const GAUSS_8: [(f64, f64); 4] = [
    (0.183_434_642_495_649_8, 0.362_683_783_378_362),
    (0.525_532_409_916_329, 0.313_706_645_877_887_3),
    (0.796_666_477_413_626_7, 0.222_381_034_453_374_48),
    (0.960_289_856_497_536_2, 0.101_228_536_290_376_26),
];

/// Sum of `f(x) w` over `panels` equal panels of `(0, end)`; `f` may return several numbers at once.
pub(crate) fn integrate<const N: usize>(
    end: f64,
    panels: u32,
    mut f: impl FnMut(f64) -> [f64; N],
) -> [f64; N] {
    let half = end / f64::from(panels) / 2.0;
    let mut sum = [0.0; N];
    for panel in 0..panels {
        let middle = half * f64::from(2 * panel + 1);
        for (x, w) in GAUSS_8 {
            for side in [-x, x] {
                for (s, v) in sum.iter_mut().zip(f(middle + half * side)) {
                    *s += v * w * half;
                }
            }
        }
    }
    sum
}

/// Bessel function `J1(x)`, `x >= 0`, by the trapezoid rule on its integral over a full period, which is exact to
/// rounding once the points outnumber the argument.
pub(crate) fn bessel_j1(x: f64) -> f64 {
    let points = 32 + x.ceil() as u32;
    let step = std::f64::consts::TAU / f64::from(points);
    let sum: f64 = (0..points).map(|n| step * f64::from(n)).map(|t| (t - x * t.sin()).cos()).sum();
    sum / f64::from(points)
}

/// Modified Bessel function `K1(x)`, `x > 0`: its integral of `exp(-x cosh t) cosh t`.
pub(crate) fn bessel_k1(x: f64) -> f64 {
    // Beyond this the integrand is nothing.
    let end = (700.0 / x).max(1.0).acosh();
    let [sum] = integrate(end, 60, |t| [(-x * t.cosh()).exp() * t.cosh()]);
    sum
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// Abramowitz and Stegun, table 9.1.
    #[test]
    fn bessel_matches_table() {
        for (x, j1) in [(1.0, 0.440_050_585_7), (5.0, -0.327_579_137_6), (10.0, 0.043_472_746_2)] {
            assert_relative_eq!(bessel_j1(x), j1, max_relative = 1e-9);
        }
    }

    /// Abramowitz and Stegun, table 9.8, from memory.
    #[test]
    fn modified_bessel_matches_table() {
        for (x, k1) in [(0.1, 9.853_844_780_9), (1.0, 0.601_907_230_2), (5.0, 0.004_044_613_4)] {
            assert_relative_eq!(bessel_k1(x), k1, max_relative = 1e-7);
        }
    }

    #[test]
    fn gauss_integrates_degree_fifteen_exactly() {
        let [v] = integrate(2.0, 1, |x| [x.powi(15)]);
        assert_relative_eq!(v, 2f64.powi(16) / 16.0, max_relative = 1e-13);
    }
}

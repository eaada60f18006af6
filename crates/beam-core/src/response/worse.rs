//! Which of two numbers is worse.

/// Two numbers this near to each other, as a share of them, differ by rounding: of mirrored places the first stays, whatever
/// the processor.
const ROUNDING: f64 = 1e-9;

/// Whether a ratio, or a sag, is worse than the one kept so far. What is no number is the worst there is.
pub(crate) fn is_worse(ratio: f64, kept: f64) -> bool {
    !kept.is_nan() && (ratio.is_nan() || ratio > kept + ROUNDING * kept.abs().min(f64::MAX))
}

/// The worse of two; what is no number stays.
pub(crate) fn worse_of(kept: f64, other: f64) -> f64 {
    if is_worse(other, kept) { other } else { kept }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_number_is_worst_and_stays_worst() {
        let none = f64::NAN;
        assert!(is_worse(none, 5.0) && is_worse(none, f64::INFINITY));
        assert!(!is_worse(5.0, none) && !is_worse(f64::INFINITY, none) && !is_worse(none, none));
        assert!(is_worse(0.5, 0.4) && !is_worse(0.4, 0.5) && !is_worse(0.4, 0.4));
        assert!(is_worse(0.1, f64::NEG_INFINITY) && is_worse(f64::INFINITY, 0.1) && is_worse(1e-300, 0.0));
        assert!(worse_of(none, 5.0).is_nan() && worse_of(0.0, none).is_nan());
        assert_eq!((worse_of(0.0, -2.0), worse_of(0.0, 2.0)), (0.0, 2.0));
        assert!(!is_worse(0.4 + 1e-12, 0.4) && is_worse(0.4 + 1e-8, 0.4));
    }
}

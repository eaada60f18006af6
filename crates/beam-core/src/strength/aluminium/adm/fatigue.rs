//! Fatigue by detail category, ADM 2020 Appendix 3.
//!
//! Stress ranges are nominal, of unfactored loads. The strength depends on the detail, not on alloy or temper, and the
//! rule leaves the mean stress out.

use crate::quantity::{Pressure, si};
use crate::strength::{Basis, Limit, OutOfRange, at_least_zero, positive, within};

use super::constants::KSI;

const RULE: &str = "ADM 2020 Appendix 3, fatigue";
/// Fewer cycles than this count as so many (from memory).
const FEWEST: f64 = 1e5;

/// How a detail gathers stress.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum DetailCategory {
    /// Plain metal, extruded, rolled or drawn.
    A,
    /// Continuous weld along the stress.
    B,
    /// Weld across the stress, short attachment.
    C,
    /// Attachment of 2 to 4 in; bolted joint with a stress ratio between 0 and 0.5.
    D,
    /// Long attachment; net section at screwed, riveted or bearing-bolted holes: a drilled brace.
    E,
    /// Throat of a fillet weld in shear.
    F,
}

impl DetailCategory {
    /// `Cf` in ksi, `m`, constant-amplitude limit in ksi.
    fn constants(self) -> (f64, f64, f64) {
        match self {
            Self::A => (96.5, 6.85, 10.2),
            Self::B => (130.0, 4.84, 5.4),
            Self::C => (278.0, 3.64, 4.0),
            Self::D => (157.0, 3.73, 2.5),
            Self::E => (160.0, 3.45, 1.8),
            Self::F => (174.0, 3.42, 1.9),
        }
    }

    fn basis(self) -> Basis {
        match self {
            Self::B | Self::C => Basis::published("ADM 2020, Appendix 3, as in part VII, example 17"),
            _ => Basis::memory("ADM 2020, Appendix 3"),
        }
    }

    /// Stress range allowed so many times, `Cf N^(-1/m)`; also what an [`equivalent_range`] may reach.
    ///
    /// # Valid for
    /// Fewer than 1e5 cycles count as 1e5.
    ///
    /// # Errors
    /// [`OutOfRange`] for a number of cycles that is not above zero.
    ///
    /// # References
    /// ADM 2020, Appendix 3; constants of B and C by part VII, example 17, the others from memory.
    pub fn allowed_range(self, cycles: f64) -> Result<Limit<Pressure>, OutOfRange> {
        let n = positive(RULE, "number of cycles", cycles)?.max(FEWEST);
        let (cf, m, _) = self.constants();
        Ok(Limit::new("fatigue", si(cf * KSI * n.powf(-1.0 / m)), self.basis()))
    }

    /// Where every range stays below this, nothing need be checked: the constant-amplitude limit, from memory.
    pub fn constant_amplitude_limit(self) -> Limit<Pressure> {
        let basis = Basis::memory("ADM 2020, Appendix 3, constant-amplitude limit");
        Limit::new("fatigue, constant amplitude", si(self.constants().2 * KSI), basis)
    }
}

/// The one range that harms as much as all of these together: `(sum(a_i S_i^m))^(1/m)`, `a_i` the share of cycles.
/// Pairs are range and number of cycles.
///
/// # Errors
/// [`OutOfRange`] for no cycles at all, or a range or number that is none.
///
/// # References
/// ADM 2020, Appendix 3; part VII, example 17.
///
/// # Examples
/// Example 17: 100 000 of 9.5, 50 000 of 10 and 350 000 of 7.1 ksi are as 500 000 of 8.2 ksi (category B).
/// ```
/// use beam_core::quantity::si;
/// use beam_core::strength::aluminium::adm::{DetailCategory, equivalent_range};
/// let ksi = 6.894_757e6;
/// let ranges = [(9.5, 1e5), (10.0, 5e4), (7.1, 3.5e5)].map(|(s, n)| (si(s * ksi), n));
/// let s = equivalent_range(DetailCategory::B, &ranges)?;
/// assert!((s.value / ksi - 8.2).abs() < 0.05);
/// # Ok::<(), beam_core::strength::OutOfRange>(())
/// ```
pub fn equivalent_range(
    category: DetailCategory,
    ranges: &[(Pressure, f64)],
) -> Result<Pressure, OutOfRange> {
    let m = category.constants().1;
    let mut cycles = 0.0;
    // Powers of the share of the largest range stay in reach of a number.
    let mut largest = 0.0f64;
    for (range, n) in ranges {
        largest = largest.max(at_least_zero(RULE, "stress range (Pa)", range.value)?);
        cycles += at_least_zero(RULE, "number of cycles", *n)?;
    }
    let cycles = within(RULE, "number of cycles", cycles, f64::MIN_POSITIVE, f64::MAX)?;
    if largest == 0.0 {
        return Ok(si(0.0));
    }
    let harm: f64 = ranges.iter().map(|(range, n)| n / cycles * (range.value / largest).powf(m)).sum();
    Ok(si(largest * harm.powf(1.0 / m)))
}

#[cfg(test)]
mod tests {
    use super::super::alloy::samples::printed;
    use super::DetailCategory::*;
    use super::*;
    use approx::assert_relative_eq;

    /// Part VII, example 17, 500 000 cycles: B 8.6 ksi, C 7.6 ksi.
    #[test]
    fn example_17() {
        for (category, ksi) in [(B, 8.6), (C, 7.6)] {
            let s = category.allowed_range(5e5).unwrap();
            printed(s.value.value / KSI, ksi, 0.05);
            assert_eq!(s.basis.kind, crate::strength::BasisKind::Published);
        }
    }

    /// One million cycles, ksi, computed apart from this code; limits from memory.
    #[test]
    fn a_million_cycles() {
        for (category, ksi, limit) in [
            (A, 12.84147482, 10.2),
            (C, 6.247311306, 4.0),
            (D, 3.866522697, 2.5),
            (E, 2.917356801, 1.8),
            (F, 3.063114868, 1.9),
        ] {
            assert_relative_eq!(
                category.allowed_range(1e6).unwrap().value.value / KSI,
                ksi,
                max_relative = 1e-8
            );
            let of_all = category.constant_amplitude_limit().value.value / KSI;
            assert_relative_eq!(of_all, limit, max_relative = 1e-12);
        }
    }

    #[test]
    fn few_cycles_gain_nothing_and_none_are_refused() {
        assert_eq!(E.allowed_range(10.0).unwrap().value, E.allowed_range(1e5).unwrap().value);
        assert!(E.allowed_range(0.0).is_err() && E.allowed_range(f64::NAN).is_err());
        assert!(equivalent_range(E, &[]).is_err());
        assert!(equivalent_range(E, &[(si(-1.0), 1.0)]).is_err());
        assert_eq!(equivalent_range(E, &[(si(0.0), 5.0)]).unwrap(), si(0.0));
    }
}

//! The safety format of the panel: a characteristic strength with every factor kept by name.
//!
//! `limit = k_duration k_heat k_wet k_damage R_k / (1.5 gamma_M)` with loads unfactored. Where a rule book's own load
//! factors are applied, the 1.5 is dropped; the two are never mixed in one check.

use super::{Basis, Limit, OutOfRange, at_least_zero, positive, within};
use crate::quantity::{Pressure, Ratio, si};
use std::borrow::Cow;

const RULE: &str = "safety format of the panel";

/// Whether the loads of a check carry factors.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Loads {
    /// They do not: the strength is divided by 1.5.
    Unfactored,
    /// They do, by a rule book.
    Factored,
}

/// Whether a factor multiplies or divides.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Role {
    /// Multiplies the strength.
    Times,
    /// Divides the strength.
    Over,
}

/// One factor and where it comes from.
#[derive(Debug, Clone, PartialEq)]
pub struct Factor {
    /// What it stands for.
    pub name: Cow<'static, str>,
    /// Its value.
    pub value: f64,
    /// Multiplies or divides.
    pub role: Role,
    /// Source.
    pub basis: Basis,
}

/// A characteristic strength and the factors on it, in the order they were applied.
///
/// # Examples
/// Foam shear 0.15 MPa, short, hot, gamma_M 1.5, loads unfactored: `0.6 x 0.15/(1.5 x 1.5)` = 40 kPa.
/// ```
/// use beam_core::quantity::si;
/// use beam_core::strength::Basis;
/// use beam_core::strength::format::{Factored, Loads};
/// let limit = Factored::new("core shear", si(150e3), Basis::memory("EN 13163"))?
///     .times("heat", 0.6, Basis::published("heat-cycle study"))?
///     .over("gamma_M core shear", 1.5, Basis::memory("EN 14509"))?
///     .loads(Loads::Unfactored)
///     .limit();
/// assert!((limit.value.value - 40e3).abs() < 1e-6);
/// # Ok::<(), beam_core::strength::OutOfRange>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Factored {
    mode: &'static str,
    strength: f64,
    basis: Basis,
    factors: Vec<Factor>,
}

impl Factored {
    /// From a 5-percent value.
    ///
    /// # Errors
    /// [`OutOfRange`] unless the strength is finite and above zero.
    pub fn new(mode: &'static str, characteristic: Pressure, basis: Basis) -> Result<Self, OutOfRange> {
        let strength = positive(RULE, "characteristic strength (Pa)", characteristic.value)?;
        Ok(Self { mode, strength, basis, factors: Vec::new() })
    }

    /// Multiplies: duration, heat, wet, damage. Zero means the part is gone.
    ///
    /// # Errors
    /// [`OutOfRange`] unless the factor lies between 0 and 2.
    pub fn times(
        mut self,
        name: impl Into<Cow<'static, str>>,
        value: f64,
        basis: Basis,
    ) -> Result<Self, OutOfRange> {
        within(RULE, "reduction factor", value, 0.0, 2.0)?;
        self.factors.push(Factor { name: name.into(), value, role: Role::Times, basis });
        Ok(self)
    }

    /// Divides: partial factors.
    ///
    /// # Errors
    /// [`OutOfRange`] unless the factor lies between 1 and 10.
    pub fn over(
        mut self,
        name: impl Into<Cow<'static, str>>,
        value: f64,
        basis: Basis,
    ) -> Result<Self, OutOfRange> {
        within(RULE, "partial factor", value, 1.0, 10.0)?;
        self.factors.push(Factor { name: name.into(), value, role: Role::Over, basis });
        Ok(self)
    }

    /// Divides by 1.5 where the loads are unfactored.
    #[must_use]
    pub fn loads(mut self, loads: Loads) -> Self {
        if loads == Loads::Unfactored {
            self.factors.push(Factor {
                name: "loads unfactored".into(),
                value: 1.5,
                role: Role::Over,
                basis: Basis::memory("EN 1990, factor of variable loads"),
            });
        }
        self
    }

    /// The characteristic strength.
    pub fn characteristic(&self) -> Pressure {
        si(self.strength)
    }

    /// The factors, for showing the working.
    pub fn factors(&self) -> &[Factor] {
        &self.factors
    }

    /// The limit. Its basis names the strength's source and is as weak as the weakest factor.
    pub fn limit(&self) -> Limit<Pressure> {
        let value = self.factors.iter().fold(self.strength, |v, f| match f.role {
            Role::Times => v * f.value,
            Role::Over => v / f.value,
        });
        let kind = self.factors.iter().map(|f| f.basis.kind).fold(self.basis.kind, Ord::max);
        Limit::new(self.mode, si(value), Basis { source: self.basis.source.clone(), kind })
    }
}

/// Lasting and short demands against their own limits: `lasting/limit_lasting + short/limit_short`, at most one.
///
/// # Errors
/// [`OutOfRange`] for a limit not above zero or a demand that is no number.
///
/// # References
/// Linear sum of used shares, as for creep of sandwich cores (EN 14509, from
/// memory).
pub fn lasting_and_short(
    lasting: (Pressure, Pressure),
    short: (Pressure, Pressure),
) -> Result<Ratio, OutOfRange> {
    const SUM: &str = "lasting and short demands";
    let part = |(demand, limit): (Pressure, Pressure)| -> Result<f64, OutOfRange> {
        Ok(at_least_zero(SUM, "demand (Pa)", demand.value.abs())? / positive(SUM, "limit (Pa)", limit.value)?)
    };
    Ok(si(part(lasting)? + part(short)?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::strength::BasisKind;
    use approx::assert_relative_eq;

    fn wood() -> Factored {
        Factored::new("skin bending", si(30e6), Basis::published("data sheet")).unwrap()
    }

    /// Written out by hand: 0.9 x 0.8 x 30/(1.2 x 1.5) = 12 MPa.
    #[test]
    fn factors_multiply_and_divide() {
        let f = wood()
            .times("duration", 0.9, Basis::memory("EN 1995-1-1 table 3.1"))
            .unwrap()
            .times("damage", 0.8, Basis::practice("judged"))
            .unwrap()
            .over("gamma_M", 1.2, Basis::memory("EN 1995-1-1"))
            .unwrap();
        assert_relative_eq!(
            f.clone().loads(Loads::Unfactored).limit().value.value,
            12e6,
            max_relative = 1e-12
        );
        assert_relative_eq!(f.clone().loads(Loads::Factored).limit().value.value, 18e6, max_relative = 1e-12);
        assert_eq!(f.factors().len(), 3);
        assert_eq!(f.limit().basis.kind, BasisKind::Practice, "as weak as its weakest factor");
    }

    #[test]
    fn doubtful_factors_are_refused() {
        let any = || Basis::practice("test");
        assert!(wood().times("duration", f64::NAN, any()).is_err());
        assert!(wood().times("duration", -0.1, any()).is_err());
        assert!(wood().over("gamma_M", 0.9, any()).is_err());
        assert!(Factored::new("x", si(0.0), any()).is_err());
    }

    /// tau_long/(0.4 f) + tau_short/f with f = 100: 20/40 + 30/100 = 0.8; a sign does not relieve.
    #[test]
    fn sums_add_without_sign() {
        let used = |long: f64| lasting_and_short((si(long), si(40.0)), (si(30.0), si(100.0))).unwrap().value;
        assert_relative_eq!(used(20.0), 0.8, max_relative = 1e-12);
        assert_eq!(used(20.0), used(-20.0));
        assert!(lasting_and_short((si(1.0), si(0.0)), (si(0.0), si(1.0))).is_err());
    }
}

//! Tension, 6.2.3.

use super::EnTube;
use crate::quantity::{Area, Force, si};
use crate::strength::{Basis, OutOfRange, within};

/// Tensile resistances.
#[derive(Debug, Clone, PartialEq)]
pub struct EnTension {
    /// `A fo/gamma_M1`.
    pub yield_: Force,
    /// `0.9 A_net fu/gamma_M2` at holes, or `A fu,haz/gamma_M2` beside a weld: whichever is less; none without both.
    pub rupture: Option<Force>,
    /// The least.
    pub least: Force,
    /// What the numbers rest on.
    pub basis: Basis,
}

impl EnTube {
    /// Tensile resistance; `net` is the area left by holes, the whole area where there are none.
    ///
    /// # Errors
    /// [`OutOfRange`] for a net area not above zero or beyond the whole one, or a wall outside the strengths' range.
    ///
    /// # References
    /// EN 1999-1-1:2007, 6.2.3, from memory.
    pub fn tension(&self, net: Area) -> Result<EnTension, OutOfRange> {
        self.metal.admits(&self.tube)?;
        let gross = self.tube.a();
        let rule = "EN 1999-1-1:2007 6.2.3, tension";
        let net = within(rule, "net area (m2)", net.value, f64::MIN_POSITIVE, gross * (1.0 + 1e-9))?;
        let s = self.metal.strengths();
        let yield_ = gross * s.fo.value / self.factors.m1;
        let holes = (net < gross * (1.0 - 1e-9)).then(|| 0.9 * net * s.fu.value / self.factors.m2);
        let weld = self.welded.then(|| net * s.fu_haz.value / self.factors.m2);
        let rupture = [holes, weld].into_iter().flatten().reduce(f64::min);
        Ok(EnTension {
            yield_: si(yield_),
            rupture: rupture.map(si),
            least: si(rupture.map_or(yield_, |r| r.min(yield_))),
            basis: Basis::memory("EN 1999-1-1:2007, 6.2.3"),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::super::BucklingClass::A;
    use super::super::samples::*;
    use super::*;
    use approx::assert_relative_eq;

    /// 40 x 40 x 3 has 444 mm2: 444 x 240/1.1; with 300 mm2 left, 0.9 x 300 x 288/1.25; welded, 444 x 168/1.25.
    #[test]
    fn yielding_holes_and_welds() {
        let t = tube(40.0, 40.0, 3.0, 240.0, A);
        let whole = t.tension(t.tube.area()).unwrap();
        assert_relative_eq!(whole.least.value, 444.0 * 240.0 / 1.1, max_relative = 1e-9);
        assert_eq!(whole.rupture, None);
        let drilled = t.tension(si(300e-6)).unwrap();
        assert_relative_eq!(drilled.least.value, 0.9 * 300.0 * 288.0 / 1.25, max_relative = 1e-9);
        let welded = EnTube { welded: true, ..t }.tension(t.tube.area()).unwrap();
        assert_relative_eq!(welded.least.value, 444.0 * 168.0 / 1.25, max_relative = 1e-9);
        assert!(t.tension(si(500e-6)).is_err() && t.tension(si(0.0)).is_err());
    }
}

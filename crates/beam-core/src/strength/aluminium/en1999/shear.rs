//! Shear, 6.2.6, and what it leaves for bending, 6.2.8.

use super::EnTube;
use crate::quantity::{Force, Pressure, si};
use crate::strength::{Basis, Limit, OutOfRange, at_least_zero, positive};

const RULE: &str = "EN 1999-1-1:2007 6.2.6, shear";

impl EnTube {
    /// Shear resistance along the depth: `V_Rd = A_v fo/(sqrt(3) gamma_M1)`, both webs between the flanges.
    ///
    /// # Valid for
    /// Webs with `h_w/t < 39 epsilon`; slenderer ones need 6.7.4, which is not made here.
    ///
    /// # Errors
    /// [`OutOfRange`].
    ///
    /// # References
    /// EN 1999-1-1:2007, 6.2.6, from memory. Beside a weld across the tube the softened proof strength counts.
    pub fn shear(&self) -> Result<Limit<Force>, OutOfRange> {
        self.metal.admits(&self.tube)?;
        let (slenderness, most) = (self.tube.inside_depth() / self.tube.wall, 39.0 * self.metal.epsilon());
        if slenderness >= most {
            let allowed = format!("must be below 39 epsilon = {most:.1}; slenderer webs need 6.7.4");
            return Err(OutOfRange::new(RULE, "web slenderness hw/t", slenderness, allowed));
        }
        let s = self.metal.strengths();
        let strength = if self.welded { s.fo_haz } else { s.fo };
        let area = 2.0 * self.tube.inside_depth() * self.tube.wall;
        let v = area * strength.value / (3.0f64.sqrt() * self.factors.m1);
        Ok(Limit::new("shear", si(v), Basis::memory("EN 1999-1-1:2007, 6.2.6")))
    }

    /// Proof strength left for bending beside a shear force: whole up to half the shear resistance, then
    /// `fo (1 - (2 V_Ed/V_Rd - 1)^2)`.
    ///
    /// # Errors
    /// [`OutOfRange`] for a shear force above the resistance, or no numbers.
    ///
    /// # References
    /// EN 1999-1-1:2007, 6.2.8, from memory.
    pub fn proof_beside_shear(&self, applied: Force, resistance: Force) -> Result<Pressure, OutOfRange> {
        const RULE: &str = "EN 1999-1-1:2007 6.2.8, bending and shear";
        let v = at_least_zero(RULE, "shear force (N)", applied.value.abs())?;
        let used = v / positive(RULE, "shear resistance (N)", resistance.value)?;
        if used > 1.0 {
            return Err(OutOfRange::new(RULE, "shear force over resistance", used, "must not exceed 1"));
        }
        let fo = self.metal.strengths().fo;
        Ok(if used <= 0.5 { fo } else { fo * (1.0 - (2.0 * used - 1.0).powi(2)) })
    }
}

#[cfg(test)]
mod tests {
    use super::super::BucklingClass::{A, B};
    use super::super::samples::*;
    use super::*;
    use approx::assert_relative_eq;

    /// Computed apart from this code, N; the depth between flanges, not the full depth of the American book.
    #[test]
    fn computed_tubes() {
        for (t, v) in [
            (tube(40.0, 40.0, 3.0, 130.0, B), 13919.39013),
            (tube(40.0, 40.0, 3.0, 240.0, A), 25697.33562),
            (tube(50.0, 50.0, 2.0, 160.0, A), 15451.99266),
            (tube(40.0, 40.0, 2.0, 160.0, A), 12092.86382),
        ] {
            assert_relative_eq!(t.shear().unwrap().value.value, v, max_relative = 1e-8);
        }
    }

    #[test]
    fn slender_webs_are_refused_with_the_clause() {
        let refused = tube(100.0, 100.0, 2.0, 250.0, A).shear().unwrap_err();
        assert!(refused.to_string().contains("6.2.6") && refused.to_string().contains("6.7.4"));
    }

    #[test]
    fn high_shear_leaves_less_and_full_shear_nothing() {
        let t = tube(40.0, 40.0, 3.0, 240.0, A);
        let left = |v: f64| t.proof_beside_shear(si(v), si(100.0)).unwrap().value;
        assert_eq!(left(50.0), 240e6);
        assert_relative_eq!(left(-75.0), 0.75 * 240e6, max_relative = 1e-12);
        assert!(left(100.0).abs() < 1e-6);
        assert!(t.proof_beside_shear(si(101.0), si(100.0)).is_err());
    }
}

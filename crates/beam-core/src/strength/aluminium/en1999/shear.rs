//! Shear, 6.2.6, and what it leaves for bending, 6.2.8.

use super::EnTube;
use crate::quantity::{Force, Moment, Pressure, si};
use crate::strength::{Basis, Limit, OutOfRange, at_least_zero, positive};

/// Buckling factor of a long web in shear, its edges simply held.
const LONG_WEB: f64 = 5.34;

impl EnTube {
    /// Shear resistance along the depth: `V_Rd = nu A_v fo/(sqrt(3) gamma_M1)`, both webs between the flanges. `nu` is
    /// 1 for webs with `h_w/t < 39 epsilon`, else what buckling leaves of it, without a field of tension:
    /// `nu_1 = 17 epsilon sqrt(k_tau) t/h_w`, at most `430 k_tau (epsilon t/h_w)^2`, which is the elastic buckling load
    /// of the web, and at most 1; `k_tau = 5.34`, a long web without stiffeners.
    ///
    /// # Valid for
    /// Webs without stiffeners; supports and loads that crush the web are another check.
    ///
    /// # Errors
    /// [`OutOfRange`].
    ///
    /// # References
    /// EN 1999-1-1:2007, 6.2.6 and 6.5.5, from memory. Beside a weld across the tube the softened proof strength counts,
    /// in `epsilon` too.
    pub fn shear(&self) -> Result<Limit<Force>, OutOfRange> {
        self.metal.admits(&self.tube)?;
        let s = self.metal.strengths();
        let strength = if self.welded { s.fo_haz } else { s.fo };
        let area = 2.0 * self.tube.inside_depth() * self.tube.wall;
        let v = area * strength.value / (3.0f64.sqrt() * self.factors.m1);
        let stocky = self.stockiness();
        if !self.slender_webs() {
            return Ok(Limit::new("shear", si(v), Basis::memory("EN 1999-1-1:2007, 6.2.6")));
        }
        Ok(Limit::new("shear", si(left_by_buckling(stocky) * v), Basis::memory("EN 1999-1-1:2007, 6.5.5")))
    }

    /// Torsional resistance without warping: Bredt's closed tube at its shear yield stress.
    ///
    /// # References
    /// EN 1999-1-1:2007, 6.2.7, from memory; beside a weld the softened proof strength counts. Walls that buckle in shear
    /// first reach no more than their share of it.
    pub fn torsion(&self) -> Limit<Moment> {
        let s = self.metal.strengths();
        let strength = if self.welded { s.fo_haz } else { s.fo };
        let slender = (250e6 / strength.value).sqrt() * self.tube.wall
            / self.tube.inside_depth().max(self.tube.width - 2.0 * self.tube.wall);
        let stress = strength.value / (3.0f64.sqrt() * self.factors.m1) * left_by_buckling(slender);
        let basis = Basis::memory("EN 1999-1-1:2007, 6.2.7 and 6.5.5");
        Limit::new("torsion", si(stress * self.tube.torsion_modulus()), basis)
    }

    /// Whether the webs buckle in shear before they yield.
    pub(crate) fn slender_webs(&self) -> bool {
        39.0 * self.stockiness() <= 1.0
    }

    /// `epsilon t/h_w`.
    fn stockiness(&self) -> f64 {
        let s = self.metal.strengths();
        let strength = if self.welded { s.fo_haz } else { s.fo };
        (250e6 / strength.value).sqrt() * self.tube.wall / self.tube.inside_depth()
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

/// Share of shear yielding that buckling leaves a wall of this `epsilon t/h_w`: 1 where it is stocky.
fn left_by_buckling(stocky: f64) -> f64 {
    if 39.0 * stocky > 1.0 {
        return 1.0;
    }
    (17.0 * LONG_WEB.sqrt() * stocky).min(430.0 * LONG_WEB * stocky * stocky).min(1.0)
}

#[cfg(test)]
mod tests {
    use super::super::BucklingClass::{A, B};
    use super::super::samples::*;
    use super::*;
    use approx::assert_relative_eq;
    use std::f64::consts::PI;

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

    /// Theory of plates (Timoshenko and Gere 1961, 9.7): a long plate with simply held edges buckles in shear at
    /// `5.34 pi^2 E/(12 (1 - nu^2)) (t/b)^2`, nu 0.3. The rule lies at most 3 percent below where the web is slender,
    /// never above; it meets yielding at 39 epsilon, and welded metal is never worth more.
    #[test]
    fn slender_webs_buckle() {
        let fo = 250.0;
        for inside in [76.0, 78.0, 80.0, 96.0, 120.0, 200.0, 400.0, 800.0] {
            let t = tube(100.0, inside + 4.0, 2.0, fo, A);
            let stress = t.shear().unwrap().value.value * 1.1 / (2.0 * inside * 2.0);
            let elastic = 5.34 * PI * PI * 70e3 / (12.0 * 0.91) * (2.0 / inside).powi(2);
            assert!(stress <= elastic.min(fo / 3.0f64.sqrt()) * (1.0 + 1e-9), "{inside}");
            if inside >= 120.0 {
                assert!(stress > 0.97 * elastic, "{inside}: {stress} {elastic}");
            }
            let welded = EnTube { welded: true, ..t }.shear().unwrap();
            assert!(welded.value.value < t.shear().unwrap().value.value * (1.0 + 1e-9), "{inside}");
        }
        let at = |inside: f64| tube(100.0, inside + 4.0, 2.0, fo, A).shear().unwrap();
        assert_relative_eq!(at(77.999).value.value, at(78.001).value.value, max_relative = 1e-3);
        assert!(at(77.0).basis.source.ends_with("6.2.6") && at(79.0).basis.source.ends_with("6.5.5"));
    }

    /// 40 x 40 x 3, 240 MPa: `2 t (b - t)^2 fo/(sqrt(3) 1.1)`; a wall that buckles in shear carries its share of that.
    #[test]
    fn torsion_by_bredt() {
        let stocky = tube(40.0, 40.0, 3.0, 240.0, A).torsion().value.value;
        assert_relative_eq!(
            stocky,
            2.0 * 3.0 * 37.0f64.powi(2) * 240.0 / 3.0f64.sqrt() / 1.1e3,
            max_relative = 1e-9
        );
        let slender = tube(100.0, 204.0, 2.0, 250.0, A);
        let whole = 2.0 * 2.0 * 98.0 * 202.0 * 250.0 / 3.0f64.sqrt() / 1.1e3;
        let left = slender.shear().unwrap().value.value * 1.1 * 3.0f64.sqrt() / (2.0 * 200.0 * 2.0 * 250.0);
        assert_relative_eq!(slender.torsion().value.value, left * whole, max_relative = 1e-9);
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

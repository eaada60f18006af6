//! Webs under a concentrated force, 6.2.11 and 6.7.5.

use super::EnTube;
use crate::quantity::{Force, Length, si};
use crate::strength::{Basis, Limit, OutOfRange, positive};

/// A web's flange counts no wider than so many times its thickness on a side.
const WIDE: f64 = 25.0;

impl EnTube {
    /// Resistance of both webs to the force of a seat right at the end of the tube, where nothing stiffens them (type
    /// c, the seat's far edge flush with the end): `F_Rd = chi_F l_y t fo/gamma_M1` a web, with
    ///
    /// ```text
    /// k_F   = 2 + 6 s_s/h_w, at most 6       F_cr = 0.9 k_F E t^3/h_w
    /// l_e   = k_F E t^2/(2 fo h_w), at most s_s
    /// l_y   = l_e + t min(sqrt(m1/2 + (l_e/t)^2 + m2), sqrt(m1 + m2))
    /// m1    = b_f/t,   m2 = 0.02 (h_w/t)^2 where lambda_F > 0.5, else 0
    /// chi_F = 0.5/lambda_F, at most 1        lambda_F = sqrt(l_y t fo/F_cr)
    /// ```
    ///
    /// Each web has half of the flange, at most 25 walls of it. Beside a weld the softened proof strength counts.
    ///
    /// # Valid for
    /// A seat no longer than the web is deep; a longer one counts as that. Next to no moment, as at an end.
    ///
    /// # Errors
    /// [`OutOfRange`].
    ///
    /// # References
    /// EN 1999-1-1:2007, 6.2.11 and 6.7.5, from memory; the same as EN 1993-1-5, section 6.
    pub fn end_crippling(&self, bearing: Length) -> Result<Limit<Force>, OutOfRange> {
        const RULE: &str = "EN 1999-1-1:2007 6.7.5, webs under a seat";
        self.metal.admits(&self.tube)?;
        let s = self.metal.strengths();
        let (fo, e) = (if self.welded { s.fo_haz } else { s.fo }.value, s.e.value);
        let (t, deep) = (self.tube.wall, self.tube.inside_depth());
        let seat = positive(RULE, "bearing length (m)", bearing.value)?.min(deep);
        let k = (2.0 + 6.0 * seat / deep).min(6.0);
        let critical = 0.9 * k * e * t.powi(3) / deep;
        let reach = (k * e * t * t / (2.0 * fo * deep)).min(seat);
        let m1 = (self.tube.width / 2.0).min(WIDE * t) / t;
        let loaded = |m2: f64| reach + t * (m1 / 2.0 + (reach / t).powi(2) + m2).sqrt().min((m1 + m2).sqrt());
        let slender = |length: f64| (length * t * fo / critical).sqrt();
        let mut length = loaded(0.0);
        if slender(length) > 0.5 {
            length = loaded(0.02 * (deep / t).powi(2));
        }
        let web = (0.5 / slender(length)).min(1.0) * length * t * fo / self.factors.m1;
        Ok(Limit::new("web crippling", si(2.0 * web), Basis::memory("EN 1999-1-1:2007, 6.7.5")))
    }
}

#[cfg(test)]
mod tests {
    use super::super::BucklingClass::{A, B};
    use super::super::samples::*;
    use super::*;
    use approx::assert_relative_eq;

    fn both(t: EnTube, seat: f64) -> f64 {
        t.end_crippling(si(seat * MM)).unwrap().value.value
    }

    /// 40 x 40 x 3, 160 MPa, seat 30 mm, by hand: h_w 34, k_F 6, F_cr 300 176 N, l_e 30 (of 347.4), m1 6.667,
    /// l_y 37.746, lambda_F 0.2457: both webs 2 x 37.746 x 3 x 160/1.1.
    #[test]
    fn stocky_webs_yield() {
        let by_hand = 2.0 * (30.0 + 3.0 * (20.0f64 / 3.0).sqrt()) * 3.0 * 160.0 / 1.1;
        assert_relative_eq!(both(tube(40.0, 40.0, 3.0, 160.0, A), 30.0), by_hand, max_relative = 1e-12);
    }

    /// 50 x 150 x 1.5, 240 MPa, seat 40 mm, by hand: h_w 147, k_F 3.632653, F_cr 5254.27 N, l_e 8.108, m2 192.08,
    /// l_y = 8.108 + 1.5 sqrt(208.747) = 29.780 (the other root is longer), lambda_F 1.42847, chi_F 0.35003.
    #[test]
    fn slender_webs_buckle() {
        let found = both(tube(50.0, 150.0, 1.5, 240.0, A), 40.0);
        let (k, h) = (2.0 + 240.0 / 147.0, 147.0);
        let critical = 0.9 * k * 70e3 * 1.5f64.powi(3) / h;
        let reach = k * 70e3 * 2.25 / (2.0 * 240.0 * h);
        let length = reach + 1.5 * (50.0f64 / 3.0 + 0.02 * (h / 1.5).powi(2)).sqrt();
        // chi_F l_y t fo = 0.5 sqrt(F_cr l_y t fo).
        let web = 0.5 * (critical * length * 1.5 * 240.0).sqrt() / 1.1;
        assert_relative_eq!(length, 29.78, max_relative = 1e-3);
        assert_relative_eq!(found, 2.0 * web, max_relative = 1e-12);
    }

    /// A longer seat, a thicker wall and sound metal never cost; a seat of nothing is refused.
    #[test]
    fn what_helps_never_costs() {
        for (b, h) in [(25.0, 25.0), (40.0, 80.0), (50.0, 150.0)] {
            for wall in [1.0, 2.0, 3.0, 4.0] {
                let at = |wall, seat| both(tube(b, h, wall, 130.0, B), seat);
                assert!(at(wall, 40.0) >= at(wall, 20.0) && at(wall + 0.5, 20.0) > at(wall, 20.0));
                let welded = EnTube { welded: true, ..tube(b, h, wall, 130.0, B) };
                assert!(both(welded, 20.0) <= at(wall, 20.0), "{b} {h} {wall}");
            }
        }
        assert!(tube(40.0, 40.0, 3.0, 160.0, A).end_crippling(si(0.0)).is_err());
    }
}

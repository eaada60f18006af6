//! Compression, 6.2.4 and 6.3.1.

use super::bending::reduction;
use super::class::worst;
use super::{BucklingClass, EnTube};
use crate::quantity::{Area, Force, Length, si};
use crate::strength::{Basis, OutOfRange, positive, within};
use std::f64::consts::PI;

const RULE: &str = "EN 1999-1-1:2007 6.3.1, buckling";

/// Compressive resistances.
#[derive(Debug, Clone, PartialEq)]
pub struct EnCompression {
    /// Class of the section in compression.
    pub class: u8,
    /// `A_eff`, by effective thickness.
    pub effective_area: Area,
    /// Relative slenderness `lambda_bar` of the axis that buckles first.
    pub slenderness: f64,
    /// Reduction `chi`.
    pub chi: f64,
    /// Factor `omega_x` of a weld across the tube; 1 without.
    pub omega: f64,
    /// `A_eff fo/gamma_M1`, less beside a weld: the section.
    pub section: Force,
    /// `N_b,Rd = chi omega_x A_eff fo/gamma_M1`: the member.
    pub member: Force,
    /// What the numbers rest on.
    pub basis: Basis,
}

impl EnTube {
    /// Compressive resistance of a tube with ends held in place; buckling lengths for upright and sideways buckling.
    ///
    /// A weld across the tube at `weld` from one end of the upright buckling length softens the member most in its
    /// middle: `omega_x = omega_0/(chi + (1 - chi) sin(pi x/l))`, `omega_0 = (fu,haz/gamma_M2)/(fo/gamma_M1)`, both at
    /// most 1.
    ///
    /// # Valid for
    /// Centric force; no weld along the tube.
    ///
    /// # Errors
    /// [`OutOfRange`], also for a wall outside the range of the strengths.
    ///
    /// # References
    /// EN 1999-1-1:2007, 6.2.4, 6.3.1, 6.3.3.3; class A: TALAT lecture 2301, example 5.1; class B and welds from memory.
    pub fn compression(
        &self,
        upright: Length,
        sideways: Length,
        weld: Option<Length>,
    ) -> Result<EnCompression, OutOfRange> {
        self.metal.admits(&self.tube)?;
        let l_up = positive(RULE, "buckling length, upright (m)", upright.value)?;
        let l_side = positive(RULE, "buckling length, sideways (m)", sideways.value)?;
        let s = self.metal.strengths();
        let parts = self.parts(1.0);
        let t = self.tube.wall;
        let lost =
            (1.0 - parts[0].rho) * (self.tube.width - t) + (1.0 - parts[1].rho) * (self.tube.depth - t);
        let area = self.tube.a() - 2.0 * t * lost;
        // The gross section buckles.
        let critical = |i: f64, l: f64| PI * PI * s.e.value * i / (l * l);
        let n_cr = critical(self.tube.i_x(), l_up).min(critical(self.tube.i_y(), l_side));
        let slenderness = (area * s.fo.value / n_cr).sqrt();
        let (imperfection, plateau) = self.buckling_curve();
        let chi = reduction(slenderness, imperfection, plateau);
        let squash = area * s.fo.value / self.factors.m1;
        let (at_weld, omega) = match weld {
            None => (1.0, 1.0),
            Some(x) => {
                let x = within(RULE, "place of the weld (m)", x.value, 0.0, l_up)?;
                let least = (s.fu_haz.value / self.factors.m2 * self.factors.m1 / s.fo.value).min(1.0);
                (least, (least / (chi + (1.0 - chi) * (PI * x / l_up).sin())).min(1.0))
            }
        };
        let source = "EN 1999-1-1:2007, 6.2.4 and 6.3.1";
        let printed = s.class == BucklingClass::A && !self.welded && weld.is_none();
        Ok(EnCompression {
            class: worst(parts),
            effective_area: si(area),
            slenderness,
            chi,
            omega,
            section: si(at_weld * squash),
            member: si(chi * omega * squash),
            basis: if printed { Basis::published(source) } else { Basis::memory(source) },
        })
    }
}

#[cfg(test)]
mod tests {
    use super::super::PartialFactors;
    use super::super::samples::*;
    use super::*;
    use BucklingClass::{A, B};
    use approx::assert_relative_eq;

    fn column(t: EnTube, l: f64) -> EnCompression {
        t.compression(si(l), si(l), None).unwrap()
    }

    /// TALAT lecture 2301, example 5.1, as printed (gamma 1.0): effective **thickness** 1.52 mm gives 414.2 mm2, gross I
    /// in N_cr.
    #[test]
    fn talat_example_5_1() {
        let t =
            EnTube { factors: PartialFactors::new(1.0, 1.25).unwrap(), ..tube(70.0, 70.0, 1.9, 200.0, A) };
        let n = column(t, 1.0);
        assert_eq!(n.class, 4);
        assert_relative_eq!(n.effective_area.value, 414.2e-6, max_relative = 0.001);
        assert_relative_eq!(n.slenderness, 0.547, max_relative = 0.001);
        assert_relative_eq!(n.chi, 0.891, max_relative = 0.001);
        assert_relative_eq!(n.member.value, 73.8e3, max_relative = 0.001);
    }

    /// TALAT lecture 2301, example 9.2, 180 x 120 x 6 mm, 140 MPa; lambda and chi of both axes computed apart: 0.804,
    /// 0.779 and 1.105, 0.586 at the buckling lengths these stand for.
    #[test]
    fn talat_example_9_2_section() {
        let n = column(tube(120.0, 180.0, 6.0, 140.0, A), 0.1);
        assert_relative_eq!(n.section.value, 439.9e3, max_relative = 0.001);
    }

    /// Computed apart from this code, gamma_M1 1.10: lambda_bar, chi, N_b,Rd (N). 6063-T5 is of class B.
    #[test]
    fn computed_tubes() {
        for (t, l, lambda, chi, n) in [
            (tube(40.0, 40.0, 3.0, 130.0, B), 2.0, 1.810313523, 0.2471163335, 12966.86797),
            (tube(40.0, 40.0, 3.0, 240.0, A), 2.0, 2.459731712, 0.1513682264, 14663.0),
            (tube(40.0, 40.0, 3.0, 160.0, A), 2.0, 2.0084, 0.2211, 14277.0),
            (tube(50.0, 50.0, 2.0, 160.0, A), 2.0, 1.551846701, 0.3502478925, 19563.0),
            (tube(40.0, 40.0, 2.0, 160.0, A), 2.2, 2.155138194, 0.1940021575, 8578.0),
            (tube(50.0, 50.0, 2.0, 240.0, A), 2.0, 1.8880, 0.2475, 20465.0),
        ] {
            let got = column(t, l);
            assert_relative_eq!(got.slenderness, lambda, max_relative = 6e-5);
            assert_relative_eq!(got.chi, chi, max_relative = 3e-4);
            assert_relative_eq!(got.member.value, n, max_relative = 2e-4);
        }
    }

    /// A weld in the middle costs the softened share, at an end only the section's strength.
    #[test]
    fn welds_cost_by_their_place() {
        let t = EnTube { welded: true, ..tube(40.0, 40.0, 3.0, 240.0, A) };
        let at = |x: f64| t.compression(si(2.0), si(2.0), Some(si(x))).unwrap();
        let omega = 0.7 / 1.25 * 1.1;
        assert_relative_eq!(at(1.0).omega, omega, max_relative = 1e-12);
        assert_relative_eq!(at(0.0).omega, 1.0, max_relative = 1e-12);
        assert!(at(0.2).member > at(0.5).member && at(0.5).member > at(1.0).member);
        assert!(t.compression(si(2.0), si(2.0), Some(si(2.1))).is_err());
    }
}

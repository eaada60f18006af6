//! Bending, 6.2.5 and 6.3.2.

use super::class::{BENT_WEB, Part, worst};
use super::{BucklingClass, EnTube};
use crate::quantity::{Length, Moment, si};
use crate::strength::{Basis, OutOfRange, positive};
use std::f64::consts::PI;

/// The check that governs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum EnBendingMode {
    /// Yielding of the whole section, classes 1 and 2.
    Yield,
    /// The section with its shape factor, where walls buckle before it has yielded whole.
    Local,
    /// Rupture beside a weld.
    Rupture,
    /// Lateral-torsional buckling.
    LateralTorsional,
}

/// Bending resistances.
#[derive(Debug, Clone, PartialEq)]
pub struct EnBending {
    /// Class of the section in bending.
    pub class: u8,
    /// Shape factor `alpha` of Table 6.4.
    pub alpha: f64,
    /// `W_pl fo/gamma_M1`: the section yielded whole, whatever its class.
    pub yield_: Moment,
    /// `M_c,Rd = alpha W_el fo/gamma_M1`.
    pub local: Moment,
    /// `W_el fu,haz/gamma_M2` beside a weld across the tube.
    pub rupture: Option<Moment>,
    /// `chi_LT` times the section; none where the tube is no deeper than wide and cannot buckle sideways.
    pub lateral_torsional: Option<Moment>,
    /// The least of them.
    pub least: Moment,
    /// The check of the least.
    pub governing: EnBendingMode,
    /// What the numbers rest on.
    pub basis: Basis,
}

impl EnTube {
    /// Bending resistance; `unbraced` is the distance between points where the compression side is held sideways.
    ///
    /// # Valid for
    /// Tubes without holes; uniform moment over the unbraced length is assumed, which is on the safe side.
    ///
    /// # Errors
    /// [`OutOfRange`], also for a wall outside the range of the strengths.
    ///
    /// # References
    /// EN 1999-1-1:2007, 6.2.5, Table 6.4, 6.3.2, from memory; classes as in TALAT lecture 2301, example 9.2.
    pub fn bending(&self, unbraced: Length) -> Result<EnBending, OutOfRange> {
        self.metal.admits(&self.tube)?;
        let length = positive("EN 1999-1-1:2007 6.3.2", "unbraced length (m)", unbraced.value)?;
        let s = self.metal.strengths();
        let parts = self.parts(BENT_WEB);
        let class = worst(parts);
        let alpha = self.shape_factor(parts);
        let (w_el, fo) = (self.tube.s_x(), s.fo.value);
        let yield_ = self.tube.z_x() * fo / self.factors.m1;
        let local = alpha * w_el * fo / self.factors.m1;
        let rupture = self.welded.then(|| w_el * s.fu_haz.value / self.factors.m2);
        let section = rupture.map_or(local, |r| r.min(local));
        let lateral_torsional = (self.tube.depth > self.tube.width * (1.0 + 1e-9)).then(|| {
            let critical = PI / length * (s.e.value * self.tube.i_y() * s.g.value * self.tube.j()).sqrt();
            let lambda = (alpha * w_el * fo / critical).sqrt();
            let (imperfection, plateau) = if class <= 2 { (0.10, 0.6) } else { (0.20, 0.4) };
            reduction(lambda, imperfection, plateau) * section
        });
        let whole = if class <= 2 { EnBendingMode::Yield } else { EnBendingMode::Local };
        let mut governing = (whole, local);
        for (mode, moment) in
            [(EnBendingMode::Rupture, rupture), (EnBendingMode::LateralTorsional, lateral_torsional)]
        {
            if let Some(moment) = moment.filter(|m| *m < governing.1) {
                governing = (mode, moment);
            }
        }
        Ok(EnBending {
            class,
            alpha,
            yield_: si(yield_),
            local: si(local),
            rupture: rupture.map(si),
            lateral_torsional: lateral_torsional.map(si),
            least: si(governing.1),
            governing: governing.0,
            basis: Basis::memory("EN 1999-1-1:2007, 6.2.5, Table 6.4 and 6.3.2"),
        })
    }

    /// `alpha` of Table 6.4.
    fn shape_factor(&self, parts: [Part; 2]) -> f64 {
        let plastic = self.tube.z_x() / self.tube.s_x();
        match worst(parts) {
            1 | 2 => plastic,
            3 => {
                let share = |p: &Part| (p.limits[2] - p.beta) / (p.limits[2] - p.limits[1]);
                let least = parts.iter().filter(|p| p.class == 3).map(share).fold(1.0, f64::min);
                1.0 + least * (plastic - 1.0)
            }
            _ => self.effective_modulus(parts) / self.tube.s_x(),
        }
    }

    /// `W_eff`, m3: compressed flange and compressed halves of the webs with their share of the thickness. The
    /// compressed half is that of the gross section; no iteration.
    fn effective_modulus(&self, [flange, web]: [Part; 2]) -> f64 {
        let (t, half) = (self.tube.wall, self.tube.inside_depth() / 2.0);
        let lost_flange = (1.0 - flange.rho) * t * (self.tube.width - t);
        let lost_webs = 2.0 * (1.0 - web.rho) * t * half;
        let arm = (self.tube.depth - t) / 2.0;
        let area = self.tube.a() - lost_flange - lost_webs;
        let shift = (lost_flange * arm + lost_webs * half / 2.0) / area;
        let second =
            self.tube.i_x() - lost_flange * arm * arm - lost_webs * half * half / 3.0 - area * shift * shift;
        second / (self.tube.depth / 2.0 + shift)
    }

    /// Imperfection factor and plateau of the buckling class, flexural buckling (Table 6.6).
    pub(crate) fn buckling_curve(&self) -> (f64, f64) {
        match self.metal.strengths().class {
            BucklingClass::A => (0.20, 0.10),
            BucklingClass::B => (0.32, 0.0),
        }
    }
}

/// `chi` of a slenderness, at most 1.
pub(crate) fn reduction(lambda: f64, imperfection: f64, plateau: f64) -> f64 {
    let phi = 0.5 * (1.0 + imperfection * (lambda - plateau) + lambda * lambda);
    (1.0 / (phi + (phi * phi - lambda * lambda).max(0.0).sqrt())).min(1.0)
}

#[cfg(test)]
mod tests {
    use super::super::samples::*;
    use super::*;
    use crate::quantity::si;
    use BucklingClass::{A, B};
    use approx::assert_relative_eq;

    fn bent(t: EnTube) -> EnBending {
        t.bending(si(2.0)).unwrap()
    }

    /// Computed apart from this code: class, alpha and M_c,Rd in N m, gamma_M1 1.10, sharp corners.
    #[test]
    fn computed_tubes() {
        for (t, class, alpha, m) in [
            (tube(40.0, 40.0, 3.0, 130.0, B), 1, 1.210920645, 729.6545455),
            (tube(40.0, 40.0, 3.0, 240.0, A), 2, 1.210920645, 1347.05),
            (tube(50.0, 50.0, 2.0, 160.0, A), 3, 1.102312608, 947.34),
            (tube(40.0, 40.0, 2.0, 160.0, A), 2, 1.18202966, 630.6909091),
        ] {
            let got = bent(t);
            assert_eq!(got.class, class);
            assert_relative_eq!(got.alpha, alpha, max_relative = 1e-8);
            assert_relative_eq!(got.local.value, m, max_relative = 1e-5);
            assert_eq!(got.least, got.local);
            assert_eq!(got.lateral_torsional, None);
        }
    }

    /// At the limit of class 3 the whole section counts elastically from both sides (32/22 - 220/22^2 = 1).
    #[test]
    fn classes_3_and_4_meet() {
        let limit = 22.0 * (250.0f64 / 160.0).sqrt();
        let at = |beta: f64| bent(tube(2.0 * (beta + 2.0), 2.0 * (beta + 2.0), 2.0, 160.0, A));
        let (below, above) = (at(limit * 0.9999), at(limit * 1.0001));
        assert_eq!((below.class, above.class), (3, 4));
        assert_relative_eq!(below.alpha, above.alpha, max_relative = 1e-3);
    }

    /// 100 x 100 x 2, 240 MPa: flange 48 (class 4), web 19.2 (class 3): only the flange is thinned. By hand: its lost
    /// strip at 49 mm, the axis shifted away from it, the modulus of the compressed side.
    #[test]
    fn class_4_effective_section() {
        let t = tube(100.0, 100.0, 2.0, 240.0, A);
        let x: f64 = 48.0 / (250.0f64 / 240.0).sqrt();
        let rho = 32.0 / x - 220.0 / (x * x);
        let lost = (1.0 - rho) * 2.0 * 98.0;
        let shift = lost * 49.0 / (784.0 - lost);
        let i =
            (100.0f64.powi(4) - 96.0f64.powi(4)) / 12.0 - lost * 49.0 * 49.0 - (784.0 - lost) * shift * shift;
        let m = i / (50.0 + shift) * 240.0 / 1.1 / 1e3;
        let got = bent(t);
        assert_eq!(got.class, 4);
        assert_relative_eq!(got.least.value, m, max_relative = 1e-9);
        assert_eq!(got.governing, EnBendingMode::Local);
    }

    /// A tube deeper than wide may buckle sideways; a longer one sooner; a square one never.
    #[test]
    fn deep_tubes_buckle_sideways() {
        let deep = tube(20.0, 120.0, 4.0, 240.0, A);
        let at = |l: f64| deep.bending(si(l)).unwrap();
        assert_eq!(at(0.05).least, at(0.05).local);
        assert!(at(6.0).lateral_torsional.unwrap() < at(3.0).lateral_torsional.unwrap());
        assert_eq!(at(6.0).governing, EnBendingMode::LateralTorsional);
    }

    /// Beside a weld the softened ultimate strength and 1.25 count.
    #[test]
    fn a_weld_costs() {
        let t = tube(40.0, 40.0, 3.0, 240.0, A);
        let welded = bent(EnTube { welded: true, ..t });
        assert_relative_eq!(
            welded.rupture.unwrap().value,
            5098.6e-9 * 0.7 * 240e6 / 1.25,
            max_relative = 1e-5
        );
        assert_eq!(welded.governing, EnBendingMode::Rupture);
        assert_eq!(bent(t).rupture, None);
    }
}

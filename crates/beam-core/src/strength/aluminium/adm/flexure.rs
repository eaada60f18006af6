//! Bending of rectangular tubes, ADM 2020 chapter F.

use super::super::RectangularTube;
use super::alloy::{AdmAlloy, Metal, Weld};
use super::constants::Constants;
use super::element::{flange, web};
use super::format::{Format, LimitState};
use crate::quantity::{Length, Moment, si};
use crate::strength::{Basis, OutOfRange, positive, within};
use std::f64::consts::PI;

const RULE: &str = "ADM 2020 chapter F, bending";

/// How local buckling is reckoned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum LocalMethod {
    /// F.3.1: flanges and webs each at their own stress, weighted by their second moments.
    #[default]
    Weighted,
    /// F.3.3: the element that reaches its stress first.
    LimitingElement,
}

/// A tube in bending about its horizontal axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flexure {
    /// Section.
    pub tube: RectangularTube,
    /// Metal.
    pub alloy: AdmAlloy,
    /// Distance between points where the compression side is held sideways.
    pub unbraced: Length,
    /// Moment-gradient factor `Cb`, 1 when in doubt; see [`moment_gradient`].
    pub cb: f64,
    /// Weld across the tube.
    pub weld: Weld,
    /// Local buckling.
    pub local: LocalMethod,
}

/// The mode that governs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum BendingMode {
    /// Yielding.
    Yield,
    /// Rupture.
    Rupture,
    /// Local buckling.
    Local,
    /// Lateral-torsional buckling.
    LateralTorsional,
}

impl BendingMode {
    /// In words.
    pub fn name(self) -> &'static str {
        match self {
            Self::Yield => "bending, yield",
            Self::Rupture => "bending, rupture",
            Self::Local => "bending, local buckling",
            Self::LateralTorsional => "bending, lateral-torsional buckling",
        }
    }
}

/// Bending strengths of all modes, allowable or design by the format asked.
#[derive(Debug, Clone, PartialEq)]
pub struct BendingStrength {
    /// F.2 yielding.
    pub yield_: Moment,
    /// F.2 rupture, with its own factor.
    pub rupture: Moment,
    /// F.3 local buckling.
    pub local: Moment,
    /// F.4 lateral-torsional buckling.
    pub lateral_torsional: Moment,
    /// The least of them.
    pub least: Moment,
    /// The mode of the least.
    pub governing: BendingMode,
    /// What the numbers rest on.
    pub basis: Basis,
}

impl Flexure {
    /// Bending strength in the format asked.
    ///
    /// # Valid for
    /// Rectangular tubes with sharp corners bent about an axis of symmetry; `Cb` from 1 to 3.
    ///
    /// # Errors
    /// [`OutOfRange`], also for a wall thinner than the alloy's strengths hold for.
    ///
    /// # References
    /// ADM 2020, F.2, F.3.1, F.3.3, F.4.2.3; part VII examples 4 and 20.
    ///
    /// # Examples
    /// Part VII, example 4: RT 3x3x0.095 of 6063-T6 over 40 in is governed by lateral-torsional buckling, 17.1 kip-in.
    /// ```
    /// use beam_core::quantity::si;
    /// use beam_core::strength::aluminium::{RectangularTube, adm::*};
    /// let (inch, ksi) = (0.0254, 6.894_757e6);
    /// let alloy = AdmAlloy::new(AdmStrengths {
    ///     ftu: si(30.0 * ksi), fty: si(25.0 * ksi), fcy: si(25.0 * ksi),
    ///     ftuw: si(17.0 * ksi), ftyw: si(8.0 * ksi), kt: 1.0,
    ///     e: si(10_100.0 * ksi), g: si(3_800.0 * ksi),
    ///     temper: Temper::Aged, thinnest_wall: None, thickest_wall: None,
    /// })?;
    /// let tube = RectangularTube::new(si(3.0 * inch), si(3.0 * inch), si(0.095 * inch))?;
    /// let beam = Flexure {
    ///     tube, alloy, unbraced: si(40.0 * inch), cb: 1.0, weld: Weld::None, local: LocalMethod::Weighted,
    /// };
    /// let m = beam.strength(Format::Asd)?;
    /// let kip_in = 4448.222 * inch;
    /// assert!((m.least.value / kip_in - 17.1).abs() < 0.05);
    /// assert_eq!(m.governing, BendingMode::LateralTorsional);
    /// # Ok::<(), beam_core::strength::OutOfRange>(())
    /// ```
    pub fn strength(&self, format: Format) -> Result<BendingStrength, OutOfRange> {
        self.alloy.admits(&self.tube)?;
        let unbraced = positive(RULE, "unbraced length (m)", self.unbraced.value)?;
        let cb = within(RULE, "moment-gradient factor Cb", self.cb, 1.0, 3.0)?;
        let section = self.alloy.section(self.weld);
        let member = self.alloy.member(self.weld);
        let (steady, rupture) =
            (format.factor(LimitState::YieldOrBuckling), format.factor(LimitState::RuptureOrCrippling));
        let local = match self.local {
            LocalMethod::Weighted => weighted(&self.tube, &section),
            LocalMethod::LimitingElement => limiting(&self.tube, &section),
        };
        let all = [
            (BendingMode::Yield, steady * yielding(&self.tube, &section)),
            (BendingMode::Rupture, rupture * self.tube.z_x() * section.ftu / section.kt),
            (BendingMode::Local, steady * local),
            (BendingMode::LateralTorsional, steady * lateral(&self.tube, &member, unbraced, cb)),
        ];
        let (governing, least) = all.into_iter().fold(all[0], |a, b| if b.1 < a.1 { b } else { a });
        Ok(BendingStrength {
            yield_: si(all[0].1),
            rupture: si(all[1].1),
            local: si(all[2].1),
            lateral_torsional: si(all[3].1),
            least: si(least),
            governing,
            basis: Basis::published(format!("{}, chapter F", format.name())),
        })
    }
}

/// F.2: `min(Z Fcy, 1.5 S Fty, 1.5 S Fcy)`, N m.
fn yielding(tube: &RectangularTube, metal: &Metal) -> f64 {
    (tube.z_x() * metal.fcy).min(1.5 * tube.s_x() * metal.fty.min(metal.fcy))
}

/// F.3.1: flange stress at the flange's middle, web stress at the web's extreme fibre.
fn weighted(tube: &RectangularTube, metal: &Metal) -> f64 {
    let (fc, fb) = element_stresses(tube, metal);
    let half = tube.depth / 2.0;
    fc * tube.i_flanges() / (half - tube.wall / 2.0) + fb * tube.i_webs() / (half - tube.wall)
}

/// F.3.3: flange stress at the extreme fibre of the tube, web stress at its own.
fn limiting(tube: &RectangularTube, metal: &Metal) -> f64 {
    let (fc, fb) = element_stresses(tube, metal);
    (fc * tube.s_x()).min(fb * tube.i_x() / (tube.depth / 2.0 - tube.wall))
}

fn element_stresses(tube: &RectangularTube, metal: &Metal) -> (f64, f64) {
    (flange(metal).at(tube.clear_width() / tube.wall), web(metal).at(tube.clear_depth() / tube.wall))
}

/// F.4 for closed shapes (F.4.2.3). There is no plateau: every slenderness costs.
///
/// A square tube cannot buckle sideways in truth; the rule is kept because the examples of part VII apply it.
fn lateral(tube: &RectangularTube, metal: &Metal, unbraced: f64, cb: f64) -> f64 {
    let s = tube.s_x();
    let lambda = slenderness(tube, unbraced, cb);
    let cc = Constants::of(metal).column.c;
    if lambda < cc {
        yielding(tube, metal) * (1.0 - lambda / cc) + PI * PI * metal.e * lambda * s / cc.powi(3)
    } else {
        PI * PI * metal.e * s / (lambda * lambda)
    }
}

fn slenderness(tube: &RectangularTube, unbraced: f64, cb: f64) -> f64 {
    2.3 * (unbraced * tube.s_x() / (cb * (tube.i_y() * tube.j()).sqrt())).sqrt()
}

/// Moment-gradient factor of equation F.4-2: `4 Mmax / sqrt(Mmax^2 + 4 MA^2 + 7 MB^2 + 4 MC^2)`, with the moments at
/// the quarter, middle and three-quarter points of the unbraced length.
///
/// # Errors
/// [`OutOfRange`] unless `max` is above zero and the others do not exceed it.
///
/// # Examples
/// A simply supported span under a central load: 1.265.
/// ```
/// use beam_core::quantity::si;
/// use beam_core::strength::aluminium::adm::moment_gradient;
/// let cb = moment_gradient(si(1.0), [si(0.5), si(1.0), si(0.5)])?;
/// assert!((cb - 1.264911064).abs() < 1e-9);
/// # Ok::<(), beam_core::strength::OutOfRange>(())
/// ```
pub fn moment_gradient(max: Moment, quarters: [Moment; 3]) -> Result<f64, OutOfRange> {
    let max = positive("ADM 2020 F.4-2", "largest moment (N m)", max.value)?;
    let mut sum = max * max;
    for (m, weight) in quarters.into_iter().zip([4.0, 7.0, 4.0]) {
        within("ADM 2020 F.4-2", "moment at a quarter point (N m)", m.value.abs(), 0.0, max * (1.0 + 1e-9))?;
        sum += weight * m.value * m.value;
    }
    Ok(4.0 * max / sum.sqrt())
}

#[cfg(test)]
mod tests {
    use super::super::alloy::samples::*;
    use super::*;
    use approx::assert_relative_eq;

    const KIP_IN: f64 = 4448.2216152605 * INCH;

    fn beam(alloy: AdmAlloy, tube: RectangularTube, lb: f64) -> Flexure {
        Flexure {
            tube,
            alloy,
            unbraced: si(lb * INCH),
            cb: 1.0,
            weld: Weld::None,
            local: LocalMethod::Weighted,
        }
    }

    fn asd(f: Flexure) -> BendingStrength {
        f.strength(Format::Asd).unwrap()
    }

    /// Part VII, example 4: RT 3x3x0.095, 6063-T6, 40 in; as printed.
    #[test]
    fn example_4() {
        let tube = tube(3.0, 3.0, 0.095);
        let m = asd(beam(a6063_t6(), tube, 40.0));
        let (fc, fb) = element_stresses(&tube, &a6063_t6().sound());
        printed(tube.clear_width() / tube.wall, 29.6, 0.05);
        printed(fc / 1.65 / KSI, 14.0, 0.05);
        printed(fb / 1.65 / KSI, 22.7, 0.05);
        printed(slenderness(&tube, 40.0 * INCH, 1.0), 10.8, 0.08);
        printed(m.yield_.value / KIP_IN, 18.2, 0.06);
        printed(m.rupture.value / KIP_IN, 18.5, 0.06);
        printed(m.local.value / KIP_IN, 17.3, 0.06);
        printed(m.lateral_torsional.value / KIP_IN, 17.1, 0.06);
        assert_eq!((m.governing, m.least), (BendingMode::LateralTorsional, m.lateral_torsional));
    }

    /// Part VII, example 20: RT 4x2x0.188, 6063-T5, 144 in, by the limiting element; as printed.
    #[test]
    fn example_20() {
        let f =
            Flexure { local: LocalMethod::LimitingElement, ..beam(a6063_t5(), tube(2.0, 4.0, 0.188), 144.0) };
        let m = asd(f);
        printed(m.yield_.value / KIP_IN, 25.9, 0.06);
        printed(m.rupture.value / KIP_IN, 30.1, 0.06);
        printed(m.local.value / KIP_IN, 20.5, 0.06);
        printed(m.lateral_torsional.value / KIP_IN, 22.3, 0.06);
        let weighted = asd(Flexure { local: LocalMethod::Weighted, ..f });
        printed(weighted.local.value / KIP_IN, 25.88, 0.03);
    }

    /// Square tubes, Lb 90 in, computed apart from this code: Mny, Mnu, Mnlb, Mnmb over Omega, and phi Mn; kip-in.
    #[test]
    fn computed_square_tubes() {
        for (alloy, b, t, v) in [
            (a6061_t6(), 1.0, 0.125, [3.065814394, 2.81650641, 3.081597222, 2.438570853, 3.621277717]),
            (a6061_t6(), 2.0, 0.125, [14.00331439, 12.86458333, 14.01804503, 12.11748347, 17.99446295]),
            (a6063_t5(), 1.5, 0.0625, [1.879734848, 2.186999199, 1.8805583, 1.681944457, 2.497687519]),
            (a6063_t6(), 1.5, 0.125, [5.385890152, 5.46875, 5.396651171, 4.651837584, 6.907978813]),
        ] {
            let f = beam(alloy, tube(b, b, t), 90.0);
            let (m, d) = (asd(f), f.strength(Format::Lrfd).unwrap());
            for (got, want) in [m.yield_, m.rupture, m.local, m.lateral_torsional, d.least].into_iter().zip(v)
            {
                assert_relative_eq!(got.value / KIP_IN, want, max_relative = 1e-7);
            }
        }
    }

    /// Held closely, 6061-T6 is governed by rupture with its own Omega, 6063-T5 by yield.
    #[test]
    fn rupture_has_its_own_factor() {
        let close = |a| asd(beam(a, tube(1.5, 1.5, 0.125), 0.5)).governing;
        assert_eq!(close(a6061_t6()), BendingMode::Rupture);
        // 6063-T5: yield 3.447 beside rupture 4.010; lateral-torsional buckling has no plateau and shaves the yield.
        let m = asd(beam(a6063_t5(), tube(1.5, 1.5, 0.125), 0.5));
        assert!(m.yield_ < m.rupture && m.lateral_torsional < m.yield_);
    }

    /// No plateau: a lambda of 22.8 costs 16 percent (1.5 x 1.5 x 0.125, 6061-T6, 90 in).
    #[test]
    fn lateral_buckling_has_no_plateau() {
        let f = beam(a6061_t6(), tube(1.5, 1.5, 0.125), 90.0);
        printed(slenderness(&f.tube, 90.0 * INCH, 1.0), 22.8, 0.05);
        let m = asd(f);
        printed(1.0 - m.lateral_torsional.value / m.yield_.value, 0.16, 0.005);
    }

    /// A weld in the middle drops the whole member; near the ends only the section there.
    #[test]
    fn weld_within_the_length_costs_the_member() {
        let f = beam(a6061_t6(), tube(2.0, 2.0, 0.125), 40.0);
        let (none, ends, within) =
            (asd(f), asd(Flexure { weld: Weld::NearEnds, ..f }), asd(Flexure { weld: Weld::Within, ..f }));
        assert_relative_eq!(within.yield_.value, none.yield_.value * 15.0 / 35.0, max_relative = 1e-12);
        assert_eq!(ends.lateral_torsional, none.lateral_torsional);
        assert!(within.lateral_torsional.value < 0.5 * none.lateral_torsional.value);
    }

    /// Uniform load: 1.1314 (computed); example 19 prints 1.41 for a point of its own.
    #[test]
    fn moment_gradients() {
        let cb = |max: f64, q: [f64; 3]| moment_gradient(si(max), q.map(si)).unwrap();
        assert_relative_eq!(cb(1.0, [0.75, 1.0, 0.75]), 1.13137085, max_relative = 1e-8);
        printed(cb(2.25, [0.0, 2.25, 0.0]), 1.41, 0.005);
        assert!(moment_gradient(si(1.0), [si(2.0), si(0.0), si(0.0)]).is_err());
        assert!(moment_gradient(si(0.0), [si(0.0); 3]).is_err());
    }

    #[test]
    fn refuses_what_it_cannot_judge() {
        let good = beam(a6061_t6(), tube(2.0, 2.0, 0.125), 40.0);
        for bad in [
            Flexure { cb: 0.9, ..good },
            Flexure { unbraced: si(0.0), ..good },
            Flexure { unbraced: si(f64::NAN), ..good },
        ] {
            assert!(bad.strength(Format::Asd).is_err());
        }
    }
}

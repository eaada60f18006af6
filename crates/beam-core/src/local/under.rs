//! What bears the upper skin, wave by wave: foam on a rigid bed, or foam over a lower skin that moves.
//!
//! A foot on a panel presses half of itself through the foam (both skins move against each other: pinch), and half
//! moves both skins down together (sway): there the foam shears, and each skin bends over it. With the foam's stiffness
//! against pinch and sway ([`super::layer`] for sinking, the page below for the rest) the two faces `t` and `b` of the
//! foam resist
//!
//! ```text
//! K_tt = K_bb = (K_pinch + K_sway)/2        K_tb = (K_sway - K_pinch)/2
//! ```
//!
//! and the lower skin, which nothing presses from below, gives way so that the energy is least.
//!
//! Both skins' neutral planes do not stretch here. So they cannot bend as the two flanges of one beam: that is the panel
//! as a whole, which the plate model has. What is left is what a skin is bent by beside it, `D (w'' - psi')` with `psi`
//! the turn of the panel's sections. By the thick-face theory (Allen 1969, from memory) that moment is
//! `q/(Df lam + S (1 + Df/Ds))` for a wave, against `q/(Df lam + S)` here: on the safe side, by `Df/Ds`, which is
//! `(t/d)^2/3` for equal skins.
//!
//! ```text
//! th = xi c, kappa = 3 - 4 nu       sinking           along the wave            both
//! pinch, 2 G xi/(kappa sh th - th)  2 (1-nu)(ch th + 1)  2 (1-nu)(ch th - 1)  (1-2 nu) sh th - th
//! sway,  2 G xi/(kappa sh th + th)  2 (1-nu)(ch th - 1)  2 (1-nu)(ch th + 1)  (1-2 nu) sh th + th
//! square to the wave                pinch  G xi tanh(th/2)       sway  G xi coth(th/2)
//! ```
//!
//! # References
//! Plane strain layer by Airy's function, derived; held against the layer's equations integrated through its depth.

use super::bed::BedTable;
use super::error::LocalError;
use super::field::PlateD;
use super::layer::Layer;
use nalgebra::{Matrix3, Vector3};

/// What lies below the foam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Below {
    /// Nothing there moves.
    Rigid,
    /// A lower skin, free to move.
    Skin(PlateD),
    /// No skin. The foam's face is taken not to stretch: what bends as a beam of skin and foam is the panel as a whole.
    Nothing,
}

/// What a bed resists one wave of its surface with, N/m3.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Bedding {
    /// Against sinking, against moving sideways along the wave (outward from its trough), and square to it.
    pub face: Matrix3<f64>,
    /// How far the lower skin sinks with each of them.
    pub lower: Vector3<f64>,
}

impl Bedding {
    /// A bed that does not couple the wave with what is square to it, on something that does not move.
    pub(crate) fn on_rigid(ww: f64, wu: f64, uu: f64, sh: f64) -> Self {
        Self { face: Matrix3::new(ww, wu, 0.0, wu, uu, 0.0, 0.0, 0.0, sh), lower: Vector3::zeros() }
    }

    /// Springs that resist sinking alone.
    #[cfg(test)]
    pub(crate) fn springs(k: f64) -> Self {
        Self::on_rigid(k, 0.0, 0.0, 0.0)
    }
}

/// A foam layer and what lies below it, ready to be asked ten thousand times.
pub(crate) struct Bed {
    foam: Layer,
    table: BedTable,
    below: Below,
}

impl Bed {
    pub(crate) fn new(foam: &Layer, below: Below) -> Result<Self, LocalError> {
        let foam = Layer::new(foam.e, foam.nu, foam.depth)?;
        Ok(Self { table: BedTable::new(&foam), foam, below })
    }

    /// How far from a foot the dent is felt, m, the plates over the foam having this bending stiffness.
    pub(crate) fn fade(&self, over: f64) -> f64 {
        let shear_length = |lower: f64| ((over + lower) / (self.foam.shear() * self.foam.depth)).sqrt();
        let sways = match self.below {
            Below::Rigid => 0.0,
            Below::Skin(skin) => shear_length(skin.d11.max(skin.d22)),
            Below::Nothing => shear_length(0.0),
        };
        sways.max(self.foam.depth / 2.0)
    }

    /// Against the wave of these numbers across and along, not both 0.
    pub(crate) fn at(&self, xi: f64, eta: f64) -> Bedding {
        let rho = xi.hypot(eta);
        let skin = match self.below {
            Below::Rigid => return self.foam.bedding(rho, self.table.at(rho)),
            Below::Nothing => None,
            Below::Skin(skin) => Some(skin),
        };
        let (pinch, sway) = Modes::of(&self.foam, rho);
        let (same, cross) = (pinch.half_sum(&sway), pinch.half_difference(&sway));
        let top = Matrix3::new(same.ww, same.wu, 0.0, same.wu, same.uu, 0.0, 0.0, 0.0, same.sh);
        let Some(skin) = skin else {
            // The lower face sinks alone.
            let from = Vector3::new(-cross.ww, -cross.wu, 0.0);
            return Bedding { face: top - from * from.transpose() / same.ww, lower: -from / same.ww };
        };
        // The lower skin sinks and turns; its face, over its neutral plane, moves inward as it turns outward.
        let lever = -skin.over;
        let (c, s) = (xi / rho, eta / rho);
        let turned = Matrix3::new(1.0, 0.0, 0.0, 0.0, lever * c, lever * s, 0.0, -lever * s, lever * c);
        // Sinking towards its skin is against this face's own outward: the sign of what couples them turns.
        let own = Matrix3::new(same.ww, -same.wu, 0.0, -same.wu, same.uu, 0.0, 0.0, 0.0, same.sh);
        let couples = Matrix3::new(-cross.ww, cross.wu, 0.0, -cross.wu, cross.uu, 0.0, 0.0, 0.0, cross.sh);
        let moves = turned.transpose() * own * turned + skin.own(xi, eta);
        let from = couples * turned;
        if skin.is_thin() {
            let with = Vector3::new(1.0, xi, eta);
            let (stiff, from) = (with.dot(&(moves * with)), from * with);
            return Bedding { face: top - from * from.transpose() / stiff, lower: -from / stiff };
        }
        let Some(inverse) = moves.try_inverse() else {
            return Bedding { face: Matrix3::from_element(f64::NAN), lower: Vector3::from_element(f64::NAN) };
        };
        let gives = from * inverse;
        Bedding { face: top - gives * from.transpose(), lower: -gives.column(0) }
    }

    /// Sinking of both faces alone, neither moving sideways: one face under itself, and under the other, N/m3.
    pub(crate) fn faces(&self, rho: f64) -> [f64; 2] {
        if self.below == Below::Rigid {
            return [self.table.at(rho), 0.0];
        }
        let (pinch, sway) = Modes::of(&self.foam, rho);
        [(pinch.ww + sway.ww) / 2.0, (sway.ww - pinch.ww) / 2.0]
    }
}

/// Stiffness of one face when both do the same, N/m3.
#[derive(Debug, Clone, Copy)]
struct Modes {
    ww: f64,
    wu: f64,
    uu: f64,
    sh: f64,
}

impl Modes {
    /// Pinch and sway, for a wave number above 0.
    fn of(foam: &Layer, xi: f64) -> (Self, Self) {
        let (th, nu) = (xi * foam.depth, foam.nu);
        let kappa = 3.0 - 4.0 * nu;
        let m = -(-th).exp_m1();
        let u = 1.0 - m;
        // Twice sinh, cosh + 1 and cosh - 1, each by e^-th.
        let (sinh, plus, minus) = (m * (1.0 + u), (1.0 + u) * (1.0 + u), m * m);
        let shear = foam.shear() * xi;
        let mode = |sign: f64, ww: f64, uu: f64, sh: f64| {
            let over = 2.0 * shear / (kappa * sinh + sign * 2.0 * th * u);
            Self {
                ww: over * 2.0 * (1.0 - nu) * ww,
                wu: over * ((1.0 - 2.0 * nu) * sinh + sign * 2.0 * th * u),
                uu: over * 2.0 * (1.0 - nu) * uu,
                sh: shear * sh,
            }
        };
        (mode(-1.0, plus, minus, m / (1.0 + u)), mode(1.0, minus, plus, (1.0 + u) / m))
    }

    fn half_sum(&self, o: &Self) -> Self {
        let half = |a: f64, b: f64| (a + b) / 2.0;
        Self {
            ww: half(self.ww, o.ww),
            wu: half(self.wu, o.wu),
            uu: half(self.uu, o.uu),
            sh: half(self.sh, o.sh),
        }
    }

    fn half_difference(&self, o: &Self) -> Self {
        self.half_sum(&Self { ww: -o.ww, wu: -o.wu, uu: -o.uu, sh: -o.sh })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// Against the layer's equations integrated through its depth (plane strain, matrix exponential, scipy): E 1, depth 1.
    #[test]
    fn pinch_and_sway_match_the_integrated_layer() {
        // nu, xi; sinking, both, along the wave: pinch, then sway.
        for (nu, xi, pinch, sway) in [
            (
                0.1,
                0.3,
                [2.041_829_444, -0.031_270_573, 0.045_260_729],
                [0.020_386_565, 0.135_799_036, 0.919_691_074],
            ),
            (
                0.1,
                1.0,
                [2.024_499_101, -0.026_464_860, 0.432_336_373],
                [0.219_127_688, 0.434_908_800, 1.026_107_994],
            ),
            (
                0.1,
                3.0,
                [2.357_504_101, 0.593_382_007, 1.931_487_459],
                [1.532_508_759, 1.034_170_241, 1.870_525_055],
            ),
            (
                0.3,
                0.3,
                [2.663_056_820, -0.165_720_073, 0.059_031_323],
                [0.017_270_601, 0.114_769_653, 0.779_121_818],
            ),
            (
                0.3,
                1.0,
                [2.455_437_658, -0.365_469_101, 0.524_364_278],
                [0.187_732_931, 0.362_985_452, 0.879_095_942],
            ),
            (
                0.3,
                3.0,
                [2.378_701_827, 0.154_614_503, 1.948_854_615],
                [1.392_890_823, 0.768_838_515, 1.700_112_426],
            ),
        ] {
            let (p, s) = Modes::of(&Layer { e: 1.0, nu, depth: 1.0 }, xi);
            for (mode, [ww, wu, uu]) in [(p, pinch), (s, sway)] {
                assert_relative_eq!(mode.ww, ww, max_relative = 1e-7);
                assert_relative_eq!(mode.wu, wu, max_relative = 1e-7);
                assert_relative_eq!(mode.uu, uu, max_relative = 1e-7);
            }
        }
    }

    /// A lower skin too stiff to move is a bed that does not move (the face glued to it neither).
    #[test]
    fn a_lower_skin_that_is_stiff_is_a_rigid_bed() {
        let foam = Layer { e: 5e6, nu: 0.1, depth: 0.04 };
        let stiff = PlateD { over: 0.001, ..PlateD::thin(1e9, 1e9, 1e8, 4e8) };
        let (on, rigid) =
            (Bed::new(&foam, Below::Skin(stiff)).unwrap(), Bed::new(&foam, Below::Rigid).unwrap());
        for (xi, eta) in [(30.0, 40.0), (100.0, 0.0), (10.0, 200.0)] {
            let (a, b) = (on.at(xi, eta).face, rigid.at(xi, eta).face);
            assert_relative_eq!(a[(0, 0)], b[(0, 0)], max_relative = 1e-3);
            assert_relative_eq!(a[(0, 1)], b[(0, 1)], max_relative = 1e-3);
            assert_relative_eq!(a[(1, 1)], b[(1, 1)], max_relative = 1e-3);
        }
    }
}

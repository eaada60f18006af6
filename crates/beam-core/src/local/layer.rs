//! Stiffness of an elastic foam layer against a ripple of wave number `xi` pressed into its bonded skin.
//!
//! A Winkler bed `E/c` understates the foam stress under small feet down to 0.57; this layer does not. With
//! `kappa = 3 - 4 nu`, `G = E/(2 (1 + nu))`, plane strain in the plane of the ripple, skin bonded (no slip):
//!
//! ```text
//! rigid base, depth H, x = xi H    K = 4 G (1-nu) xi (kappa sinh x cosh x + x)/(kappa^2 sinh^2 x - x^2)
//! both skins pinch, th = xi c      K = 4 G (1-nu) xi (cosh th + 1)/(kappa sinh th - th)
//! both skins sway, th = xi c       K = 4 G (1-nu) xi (cosh th - 1)/(kappa sinh th + th)
//! xi -> 0 (rigid base)             K = M_oed/H
//! xi -> infinity (all)             K = 2 E (1-nu) xi/((1+nu)(3-4 nu))
//! ```
//!
//! The surface of the rigid-based layer that is moved sideways too, `D = kappa^2 sinh^2 x - x^2`:
//!
//! ```text
//! along the wave    Kuu = 4 G (1-nu) xi (kappa sinh x cosh x - x)/D
//! both              Kwu = 2 G xi ((1-2 nu) kappa sinh^2 x - x^2)/D
//! square to it      Ksh = G xi coth x
//! ```
//!
//! # References
//! Plane-strain elastic layer, e.g. Allen 1969, chapter 8 (from memory); the closed forms were verified against a
//! numerical state-space solution of the layer.

use super::error::{LocalError, foam_poisson, positive};
use super::quadrature::{bessel_j1, integrate};
use super::under::Bedding;
use crate::quantity::{BedModulus, Force, Length, Moment, Pressure, si};

/// What lies on the far side of the foam, or how the far skin moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FarSide {
    /// The foam is glued to something that does not move; the depth is the whole core.
    Rigid,
    /// Both skins move against each other (both compressed: pinch).
    Symmetric,
    /// Both skins move together.
    Antisymmetric,
}

/// Elastic, isotropic foam layer, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Layer {
    /// Young's modulus, Pa.
    pub e: f64,
    /// Poisson's ratio.
    pub nu: f64,
    /// Thickness of the core, m.
    pub depth: f64,
}

impl Layer {
    pub(crate) fn new(e: f64, nu: f64, depth: f64) -> Result<Self, LocalError> {
        Ok(Self {
            e: positive("modulus of the foam (Pa)", e)?,
            nu: foam_poisson(nu)?,
            depth: positive("thickness of the foam (m)", depth)?,
        })
    }

    /// Shear modulus, Pa.
    pub(crate) fn shear(&self) -> f64 {
        self.e / (2.0 * (1.0 + self.nu))
    }

    /// Bed stiffness under a load spread wide: constrained modulus over depth, N/m3.
    pub(crate) fn wide(&self) -> f64 {
        self.e * (1.0 - self.nu) / ((1.0 + self.nu) * (1.0 - 2.0 * self.nu)) / self.depth
    }

    /// Slope `K/xi` for short ripples, which do not feel the far side, Pa.
    pub(crate) fn short_slope(&self) -> f64 {
        2.0 * self.e * (1.0 - self.nu) / ((1.0 + self.nu) * (3.0 - 4.0 * self.nu))
    }

    /// The layer on a rigid base against a wave of its surface, its stiffness against sinking given.
    pub(crate) fn bedding(&self, xi: f64, ww: f64) -> Bedding {
        let (x, g) = (xi * self.depth, self.shear());
        if x < 1e-6 {
            return Bedding::on_rigid(ww, 0.0, g / self.depth, g / self.depth);
        }
        let kappa = 3.0 - 4.0 * self.nu;
        let u2 = (-2.0 * x).exp();
        let s = -(-2.0 * x).exp_m1();
        let below = (kappa * s).powi(2) - 4.0 * x * x * u2;
        Bedding::on_rigid(
            ww,
            2.0 * g * xi * ((1.0 - 2.0 * self.nu) * kappa * s * s - 4.0 * x * x * u2) / below,
            4.0 * g * (1.0 - self.nu) * xi * (kappa * s * (1.0 + u2) - 4.0 * x * u2) / below,
            g * xi * (1.0 + u2) / s,
        )
    }

    /// `K(xi)`, N/m3, for `xi >= 0` in 1/m. Written in decaying exponentials: no overflow, no 0/0.
    pub(crate) fn stiffness(&self, xi: f64, far: FarSide) -> f64 {
        let x = xi * self.depth;
        let kappa = 3.0 - 4.0 * self.nu;
        let scale = 2.0 * self.e * (1.0 - self.nu) / (1.0 + self.nu) / self.depth;
        if x < 1e-6 {
            return match far {
                FarSide::Rigid => self.wide(),
                FarSide::Symmetric => 2.0 * self.wide(),
                FarSide::Antisymmetric => scale * x * x / (2.0 * (kappa + 1.0)),
            };
        }
        let u = (-x).exp();
        let one_minus_u2 = -(-2.0 * x).exp_m1();
        let shape = match far {
            FarSide::Rigid => {
                let u2 = u * u;
                (kappa * one_minus_u2 * (1.0 + u2) + 4.0 * x * u2)
                    / ((kappa * one_minus_u2).powi(2) - 4.0 * x * x * u2)
            }
            FarSide::Symmetric => (1.0 + u).powi(2) / (kappa * one_minus_u2 - 2.0 * x * u),
            FarSide::Antisymmetric => (-(-x).exp_m1()).powi(2) / (kappa * one_minus_u2 + 2.0 * x * u),
        };
        scale * x * shape
    }
}

/// Values at the centre of a circular load on an isotropic skin bonded to a foam layer on a rigid base.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CircleOnLayer {
    /// Normal stress in the foam under the centre, compression positive.
    pub foam_stress: Pressure,
    /// Deflection of the centre.
    pub sag: Length,
    /// Bending moment of the skin per width.
    pub moment: Force,
}

/// Isotropic skin on an elastic layer under a uniform circular load, values at the centre.
///
/// The second route for the rectangular foot; its centre moment is the largest only for loads of radius below about
/// 2.5 characteristic lengths.
///
/// # Units
/// `rigidity` is the plate rigidity `E t^3/(12 (1-nu^2))`, N m; the moment comes per width, N m/m = N.
///
/// # Valid for
/// Small strain, foam bonded to skin and base, foam Poisson's ratio 0 to 0.45, no edge near.
///
/// # Errors
/// [`LocalError::OutOfRange`] with the quantity at fault.
///
/// # References
/// Hankel integral of the bonded layer; see the module page.
pub fn circle_on_layer(
    rigidity: Moment,
    skin_poisson: f64,
    foam_modulus: Pressure,
    foam_poisson: f64,
    foam_depth: Length,
    load: Force,
    radius: Length,
) -> Result<CircleOnLayer, LocalError> {
    let d = positive("plate rigidity of the skin (N m)", rigidity.value)?;
    let r0 = positive("radius of the load (m)", radius.value)?;
    let p = positive("load (N)", load.value)?;
    if !(0.0..0.5).contains(&skin_poisson) {
        return Err(LocalError::OutOfRange {
            quantity: "Poisson's ratio of the skin",
            value: skin_poisson,
            allowed: "must lie between 0 and 0.5",
        });
    }
    let layer = Layer::new(foam_modulus.value, foam_poisson, foam_depth.value)?;
    // The moment falls slowest, as xi^-2.5 and swinging; the panels follow the load's oscillation and the layer.
    let length = (d / layer.wide()).powf(0.25).min((d / layer.short_slope()).cbrt());
    let end = 200.0 / length;
    let panels = (end * (r0 / 3.0 + layer.depth / 3.0)).ceil().clamp(60.0, 20_000.0) as u32;
    let q = p / (std::f64::consts::PI * r0 * r0);
    let [w, s, m] = integrate(end, panels, |xi| {
        let k = layer.stiffness(xi, FarSide::Rigid);
        let w = q * r0 * bessel_j1(xi * r0) / (d * xi.powi(4) + k);
        [w, k * w, 0.5 * (1.0 + skin_poisson) * d * xi * xi * w]
    });
    Ok(CircleOnLayer { foam_stress: si(s), sag: si(w), moment: si(m) })
}

/// Bed stiffness of a foam layer against a ripple with the half-wave given.
///
/// # Units
/// N/m3: pressure per deflection.
///
/// # Valid for
/// Small strain, foam Poisson's ratio 0 to 0.45.
///
/// # Errors
/// [`LocalError::OutOfRange`].
///
/// # Examples
/// A long ripple feels the constrained modulus over the depth, 5 MPa x 1.0227/40 mm.
/// ```
/// use beam_core::local::layer::{FarSide, layer_stiffness};
/// use beam_core::quantity::si;
/// let k = layer_stiffness(si(5e6), 0.1, si(0.040), si(10.0), FarSide::Rigid)?;
/// assert!((k.value / 1.2784e8 - 1.0).abs() < 1e-3);
/// # Ok::<(), beam_core::local::LocalError>(())
/// ```
pub fn layer_stiffness(
    foam_modulus: Pressure,
    foam_poisson: f64,
    foam_depth: Length,
    half_wave: Length,
    far: FarSide,
) -> Result<BedModulus, LocalError> {
    let layer = Layer::new(foam_modulus.value, foam_poisson, foam_depth.value)?;
    let xi = std::f64::consts::PI / positive("half-wave (m)", half_wave.value)?;
    Ok(si(layer.stiffness(xi, far)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    const FOAM: Layer = Layer { e: 5e6, nu: 0.1, depth: 0.040 };

    /// Against the layer's equations integrated through its depth (matrix exponential, scipy 1.17): E 1, depth 1.
    #[test]
    fn sideways_stiffness_matches_the_integrated_layer() {
        for (nu, x, uu, wu) in [
            (0.1, 0.3, 0.482_475_90, 0.052_264_23),
            (0.1, 1.0, 0.729_222_18, 0.204_221_97),
            (0.1, 3.0, 1.901_006_26, 0.813_776_12),
            (0.3, 1.0, 0.701_730_11, -0.001_241_824_8),
            (0.3, 3.0, 1.824_483_52, 0.461_726_51),
        ] {
            let bed = Layer { e: 1.0, nu, depth: 1.0 }.bedding(x, 0.0);
            assert_relative_eq!(bed.face[(1, 1)], uu, max_relative = 1e-7);
            assert_relative_eq!(bed.face[(0, 1)], wu, max_relative = 1e-6);
        }
    }

    /// The closed forms as printed on the module page, where they neither overflow nor cancel.
    #[test]
    fn decaying_form_equals_the_hyperbolic_one() {
        let kappa = 3.0 - 4.0 * FOAM.nu;
        let g4 = 2.0 * FOAM.e * (1.0 - FOAM.nu) / (1.0 + FOAM.nu);
        for x in [0.01, 0.3, 1.0, 2.5, 7.0, 15.0f64] {
            let xi = x / FOAM.depth;
            let (sh, ch) = (x.sinh(), x.cosh());
            let rigid = g4 * xi * (kappa * sh * ch + x) / (kappa * kappa * sh * sh - x * x);
            let pinch = g4 * xi * (ch + 1.0) / (kappa * sh - x);
            let sway = g4 * xi * (ch - 1.0) / (kappa * sh + x);
            assert_relative_eq!(FOAM.stiffness(xi, FarSide::Rigid), rigid, max_relative = 1e-11);
            assert_relative_eq!(FOAM.stiffness(xi, FarSide::Symmetric), pinch, max_relative = 1e-11);
            assert_relative_eq!(FOAM.stiffness(xi, FarSide::Antisymmetric), sway, max_relative = 1e-9);
        }
    }

    #[test]
    fn long_and_short_ripples_reach_their_limits() {
        // M_oed = E (1-nu)/((1+nu)(1-2 nu)) = 5.1136 MPa for E 5, nu 0.1.
        assert_relative_eq!(
            FOAM.stiffness(1e-3, FarSide::Rigid),
            5.113_636_363_6e6 / 0.040,
            max_relative = 1e-6
        );
        assert_relative_eq!(
            FOAM.stiffness(1e-3, FarSide::Symmetric),
            5.113_636_363_6e6 / 0.020,
            max_relative = 1e-4
        );
        assert!(FOAM.stiffness(1e-3, FarSide::Antisymmetric) < 1.0);
        for far in [FarSide::Rigid, FarSide::Symmetric, FarSide::Antisymmetric] {
            let xi = 1e6; // xi H = 40 000: sinh would overflow
            assert_relative_eq!(FOAM.stiffness(xi, far), FOAM.short_slope() * xi, max_relative = 1e-12);
        }
    }

    #[test]
    fn no_jump_where_the_limit_takes_over() {
        for far in [FarSide::Rigid, FarSide::Symmetric, FarSide::Antisymmetric] {
            let (a, b) = (FOAM.stiffness(0.99e-6 / 0.04, far), FOAM.stiffness(1.01e-6 / 0.04, far));
            assert!((a - b).abs() <= 0.05 * b, "{far:?}: {a} {b}");
        }
    }

    /// Centre of a circular load, computed elsewhere from the printed closed form (LI rows): skin 3 mm of
    /// E 7000 MPa, nu 0.25; foam 5 MPa, nu 0.1; 1 kN. N, mm, MPa. Their integral stops at 3/mm, which leaves the
    /// moments good to 2e-4 only.
    #[test]
    fn circular_load_matches_independent_integration() {
        for (c, r0, stress, sag, moment) in [
            (40.0, 20.0, 0.3382982, 1.792294, 57.21737),
            (40.0, 28.2094792, 0.2587058, 1.496785, 33.75579),
            (25.0, 56.4189584, 0.1091016, 0.5142328, 3.52777),
        ] {
            let v =
                circle_on_layer(si(16.8), 0.25, si(5e6), 0.1, si(c / 1e3), si(1000.0), si(r0 / 1e3)).unwrap();
            assert_relative_eq!(v.foam_stress.value / 1e6, stress, max_relative = 2e-5);
            assert_relative_eq!(v.sag.value * 1e3, sag, max_relative = 2e-5);
            assert_relative_eq!(v.moment.value, moment, max_relative = 2e-4);
        }
    }

    #[test]
    fn refuses_what_it_cannot_judge() {
        let bad =
            |e: f64, nu: f64, c: f64| layer_stiffness(si(e), nu, si(c), si(0.1), FarSide::Rigid).is_err();
        assert!(
            bad(-1.0, 0.1, 0.04) && bad(5e6, 0.5, 0.04) && bad(5e6, 0.1, 0.0) && bad(f64::NAN, 0.1, 0.04)
        );
    }
}

//! Aliases of uom's quantities, and the ones it has no name for.

use uom::si::{ISQ, Quantity, SI};
use uom::typenum::{N1, N2, P1, P2, P3, P4, Z0};

/// Length, m.
pub type Length = uom::si::f64::Length;
/// Area, m2.
pub type Area = uom::si::f64::Area;
/// Mass, kg.
pub type Mass = uom::si::f64::Mass;
/// Force, N.
pub type Force = uom::si::f64::Force;
/// Stress, pressure or modulus of elasticity, Pa.
pub type Pressure = uom::si::f64::Pressure;
/// Mass density, kg/m3.
pub type Density = uom::si::f64::MassDensity;
/// Dimensionless ratio.
pub type Ratio = uom::si::f64::Ratio;
/// Section modulus (elastic or plastic), m3.
pub type SectionModulus = Quantity<ISQ<P3, Z0, Z0, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Second moment of area or torsion constant, m4.
pub type SecondMoment = Quantity<ISQ<P4, Z0, Z0, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Moment of a force about an axis, N m.
pub type Moment = Quantity<ISQ<P2, P1, N2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Bending stiffness of a member (E I), N m2.
pub type FlexuralRigidity = Quantity<ISQ<P3, P1, N2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Force per length (line load, membrane force, shear stiffness per width), N/m.
pub type ForcePerLength = Quantity<ISQ<Z0, P1, N2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Mass per length, kg/m.
pub type MassPerLength = Quantity<ISQ<N1, P1, Z0, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Mass per area, kg/m2.
pub type MassPerArea = Quantity<ISQ<N2, P1, Z0, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Stiffness of a bed per volume (Winkler modulus), N/m3.
pub type BedModulus = Quantity<ISQ<N2, P1, N2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Curvature, 1/m.
pub type Curvature = Quantity<ISQ<N1, Z0, Z0, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Temperature on the Celsius scale, degrees C, as a plain number: only differences and thresholds are used.
pub type Celsius = f64;

/// A quantity from its number in SI base units.
///
/// # Examples
/// ```
/// use beam_core::quantity::{si, Length};
/// let span: Length = si(2.3495);
/// assert_eq!(span.value, 2.3495);
/// ```
pub fn si<D, U>(value: f64) -> Quantity<D, U, f64>
where
    D: uom::si::Dimension + ?Sized,
    U: uom::si::Units<f64> + ?Sized,
{
    Quantity { dimension: std::marker::PhantomData, units: std::marker::PhantomData, value }
}

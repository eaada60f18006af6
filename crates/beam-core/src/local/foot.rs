//! A foot on a roof: skin on foam under a rectangular patch, the worst of the whole field.
//!
//! ```text
//!            shoe or heel, across x along
//!            vvvvvvvvvvvv
//!   ======================================  walk board, if any: lies on the skin, shares its deflection
//!   --------------------------------------  skin: orthotropic, bends
//!   ::::::::::::::::::::::::::::::::::::::  foam: elastic layer, bonded
//!   ######################################  lower skin: taken rigid
//! ```

use super::error::{LocalError, positive};
use super::field::{Patch, PlateD};
use super::indent::{FootCase, indent, plate};
use super::layer::Layer;
use super::under::Below;
use crate::quantity::{BedModulus, Force, Length, Moment, Pressure, Ratio, si};

/// Bending stiffness per width of a plate that bends under the foot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BendingPlate(PlateD);

impl BendingPlate {
    /// From the four stiffnesses per width (N m): across, along, coupling, twist.
    ///
    /// # Errors
    /// [`LocalError::OutOfRange`] unless `d11`, `d22`, `d66` are above zero and `d12^2 < d11 d22`.
    pub fn new(d11: Moment, d22: Moment, d12: Moment, d66: Moment) -> Result<Self, LocalError> {
        plate(d11.value, d22.value, d12.value, d66.value).map(Self)
    }

    /// A homogeneous plate from its flexural moduli across and along, shear modulus, Poisson's ratio `nu_xy`
    /// (shortening along per stretch across) and thickness.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn from_moduli(
        across: Pressure,
        along: Pressure,
        shear: Pressure,
        poisson_xy: f64,
        thickness: Length,
    ) -> Result<Self, LocalError> {
        let ex = positive("flexural modulus across (Pa)", across.value)?;
        let ey = positive("flexural modulus along (Pa)", along.value)?;
        let t = positive("thickness of the plate (m)", thickness.value)?;
        let other = poisson_xy * ey / ex;
        let inertia = t * t * t / 12.0;
        let q = 1.0 - poisson_xy * other;
        if !(q.is_finite() && q > 0.0) {
            return Err(LocalError::OutOfRange {
                quantity: "Poisson's ratio of the plate",
                value: poisson_xy,
                allowed: "its square times E_along/E_across must be below one",
            });
        }
        plate(ex / q * inertia, ey / q * inertia, other * ex / q * inertia, shear.value * inertia).map(Self)
    }
}

/// A person's foot, heel or knee, or any other pad, on a roof panel.
#[derive(Debug, Clone, PartialEq)]
pub struct Foot {
    /// The skin first, then boards lying loose on it.
    pub plates: Vec<BendingPlate>,
    /// Young's modulus of the foam through its thickness.
    pub foam_modulus: Pressure,
    /// Poisson's ratio of the foam, 0 to 0.45.
    pub foam_poisson: f64,
    /// Thickness of the foam.
    pub foam_depth: Length,
    /// Force.
    pub load: Force,
    /// Size of the pad across.
    pub across: Length,
    /// Size of the pad along.
    pub along: Length,
}

/// Largest bending moments per width of one plate, as magnitudes (N m/m = N).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PeakMoments {
    /// Bending across, sagging: below the pad.
    pub sagging_across: Force,
    /// Bending across, hogging: in a ring about the pad.
    pub hogging_across: Force,
    /// Bending along, sagging.
    pub sagging_along: Force,
    /// Bending along, hogging.
    pub hogging_along: Force,
    /// Twisting moment, near the corners of the pad.
    pub twisting: Force,
}

/// The worst of the field under a foot.
#[derive(Debug, Clone, PartialEq)]
pub struct Dent {
    /// Largest normal stress of the foam at the skin, compression positive.
    pub foam_stress: Pressure,
    /// Largest deflection relative to the lower skin.
    pub sag: Length,
    /// Peak moments, in the order of the plates.
    pub moments: Vec<PeakMoments>,
    /// Estimate of the relative error of foam stress and sag; that of the moments is up to five times it.
    pub error: Ratio,
}

impl Foot {
    /// Solves the dent.
    ///
    /// # Valid for
    /// Small elastic strain; a foam layer bonded to both skins, the lower one not moving; no edge, opening, void or
    /// joint nearer than [`edge_distance_needed`]; a pad no longer than 40 characteristic lengths of the plate.
    ///
    /// # Errors
    /// [`LocalError::OutOfRange`], or [`LocalError::NotSettled`] when the integral does not converge to 1e-4.
    ///
    /// # References
    /// Timoshenko and Woinowsky-Krieger 1959, chapter 8, for the plate on an elastic half-space (from memory); layer
    /// stiffness of [`super::layer`].
    ///
    /// # Examples
    /// A heel of 50 x 50 mm and 1 kN on 3 mm of plywood over 40 mm of EPS presses the foam to about 0.26 MPa.
    /// ```
    /// use beam_core::local::foot::{BendingPlate, Foot};
    /// use beam_core::quantity::si;
    /// let skin = BendingPlate::from_moduli(si(7e9), si(7e9), si(2.8e9), 0.25, si(0.003))?;
    /// let heel = Foot {
    ///     plates: vec![skin],
    ///     foam_modulus: si(5e6),
    ///     foam_poisson: 0.1,
    ///     foam_depth: si(0.040),
    ///     load: si(1000.0),
    ///     across: si(0.050),
    ///     along: si(0.050),
    /// };
    /// let dent = heel.indent()?;
    /// assert!((dent.foam_stress.value / 0.2587e6 - 1.0).abs() < 0.02); // circle of equal area: 0.2587 MPa
    /// # Ok::<(), beam_core::local::LocalError>(())
    /// ```
    pub fn indent(&self) -> Result<Dent, LocalError> {
        let plates: Vec<PlateD> = self.plates.iter().map(|p| p.0).collect();
        let result = indent(&FootCase {
            plates: &plates,
            foam: Layer::new(self.foam_modulus.value, self.foam_poisson, self.foam_depth.value)?,
            below: Below::Rigid,
            patch: Patch { load: self.load.value, across: self.across.value, along: self.along.value },
        })?;
        let moments = result
            .moments
            .iter()
            .map(|m| PeakMoments {
                sagging_across: si(m.sagging_x),
                hogging_across: si(m.hogging_x),
                sagging_along: si(m.sagging_y),
                hogging_along: si(m.hogging_y),
                twisting: si(m.twist),
            })
            .collect();
        Ok(Dent {
            foam_stress: si(result.foam_stress),
            sag: si(result.sag),
            moments,
            error: si(result.change),
        })
    }

    /// Distance from the pad to any edge, opening, void or joint within which [`Self::indent`] does not hold.
    ///
    /// # Errors
    /// As [`edge_distance_needed`].
    pub fn edge_distance_needed(&self) -> Result<Length, LocalError> {
        let layer = Layer::new(self.foam_modulus.value, self.foam_poisson, self.foam_depth.value)?;
        let d = self.plates.iter().map(|p| p.0).reduce(|a, b| a + b);
        edge_distance_needed(si(d.map_or(0.0, |d| d.d11.max(d.d22))), si(layer.wide()))
    }
}

/// Distance `2 (D/k)^(1/4)` from the pad to any edge, opening, void or joint within which an endless plate is no
/// picture of the skin: there the foot is not checked, or by a free-edge strip.
///
/// # Units
/// `rigidity` is the larger bending stiffness per width, N m.
///
/// # Errors
/// [`LocalError::OutOfRange`].
pub fn edge_distance_needed(rigidity: Moment, bed: BedModulus) -> Result<Length, LocalError> {
    let d = positive("bending stiffness of the skin (N m)", rigidity.value)?;
    let k = positive("bed modulus (N/m3)", bed.value)?;
    Ok(si(2.0 * (d / k).powf(0.25)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn edge_distance_is_two_lengths() {
        // D 16.8 N m, k 0.125 N/mm3: l = 19.14696 mm (row W1l).
        let d = edge_distance_needed(si(16.8), si(0.125e9)).unwrap();
        assert_relative_eq!(d.value, 2.0 * 0.019_146_96, max_relative = 1e-6);
        assert!(edge_distance_needed(si(0.0), si(0.125e9)).is_err());
    }

    #[test]
    fn moduli_give_plate_rigidity() {
        let p = BendingPlate::from_moduli(si(7e9), si(7e9), si(2.8e9), 0.25, si(0.003)).unwrap().0;
        assert_relative_eq!(p.d11, 16.8, max_relative = 1e-12);
        assert_relative_eq!(p.d12 + 2.0 * p.d66, 16.8, max_relative = 1e-12);
        assert!(BendingPlate::from_moduli(si(7e9), si(-7e9), si(2.8e9), 0.25, si(0.003)).is_err());
    }
}

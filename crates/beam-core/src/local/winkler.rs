//! Skin on independent springs (Winkler bed): closed forms, for comparison only.
//!
//! A bed `k = E/c` understates the foam stress under small feet on thick foam (down to 0.57 of the true value) and
//! overstates the skin moment, so no check rests on it. The forms stay public because they are what an engineer can
//! work by hand, and because they hold the integral of [`super::foot`] to account.

use super::error::{LocalError, positive};
use super::kelvin::{ber_bei, ker_kei_prime};
use crate::quantity::{BedModulus, Force, ForcePerLength, Length, Moment, Pressure, si};
use std::f64::consts::PI;

/// An infinite isotropic plate on a bed of springs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlateOnSprings {
    rigidity: f64,
    poisson: f64,
    bed: f64,
}

impl PlateOnSprings {
    /// A plate of rigidity `D` (N m) and Poisson's ratio on a bed (N/m3).
    ///
    /// # Errors
    /// [`LocalError::OutOfRange`] unless rigidity and bed are above zero and the ratio lies in `0..0.5`.
    pub fn new(rigidity: Moment, poisson: f64, bed: BedModulus) -> Result<Self, LocalError> {
        if !(0.0..0.5).contains(&poisson) {
            return Err(LocalError::OutOfRange {
                quantity: "Poisson's ratio of the skin",
                value: poisson,
                allowed: "must lie between 0 and 0.5",
            });
        }
        Ok(Self {
            rigidity: positive("plate rigidity (N m)", rigidity.value)?,
            poisson,
            bed: positive("bed modulus (N/m3)", bed.value)?,
        })
    }

    /// Characteristic length `(D/k)^(1/4)`.
    pub fn length(&self) -> Length {
        si(self.l())
    }

    fn l(&self) -> f64 {
        (self.rigidity / self.bed).powf(0.25)
    }

    /// Deflection at distance `r` from the centre of a load spread over a circle, `r` within the circle.
    ///
    /// # Valid for
    /// `0 <= r <= radius`, radius up to 10 characteristic lengths.
    ///
    /// # Errors
    /// [`LocalError::OutOfRange`].
    ///
    /// # References
    /// Schleicher 1926; Timoshenko and Woinowsky-Krieger 1959, chapter 8 (from memory).
    pub fn sag_within_circle(&self, load: Force, radius: Length, r: Length) -> Result<Length, LocalError> {
        let (alpha, q) = self.circle(load, radius)?;
        let rho = r.value / self.l();
        if !(0.0..=alpha).contains(&rho) {
            return Err(LocalError::OutOfRange {
                quantity: "distance from the centre (m)",
                value: r.value,
                allowed: "must lie within the loaded circle",
            });
        }
        let (kerp, keip) = ker_kei_prime(alpha);
        let (ber, bei) = ber_bei(rho);
        Ok(si(q / self.bed * (1.0 + alpha * kerp * ber - alpha * keip * bei)))
    }

    /// Stress of the bed under the centre of a circular load, `k w(0)`.
    ///
    /// # Errors
    /// As [`Self::sag_within_circle`].
    pub fn bed_stress_under_circle(&self, load: Force, radius: Length) -> Result<Pressure, LocalError> {
        Ok(si(self.bed * self.sag_within_circle(load, radius, si(0.0))?.value))
    }

    /// Bending moment per width at the centre of a circular load, `(1 + nu) P kei'(alpha)/(2 pi alpha)`.
    ///
    /// # Errors
    /// As [`Self::sag_within_circle`].
    pub fn moment_under_circle(&self, load: Force, radius: Length) -> Result<Force, LocalError> {
        let (alpha, _) = self.circle(load, radius)?;
        let (_, keip) = ker_kei_prime(alpha);
        Ok(si((1.0 + self.poisson) * load.value * keip / (2.0 * PI * alpha)))
    }

    /// Deflection under a point load, `P/(8 sqrt(k D))` (Hertz 1884).
    pub fn sag_under_point(&self, load: Force) -> Length {
        si(load.value / (8.0 * (self.bed * self.rigidity).sqrt()))
    }

    /// Westergaard's moment per width under a small circle, `(1 + nu) P/(4 pi) (ln(l/r0) + 0.6159)`.
    ///
    /// # Valid for
    /// `r0/l < 0.5`; at `r0/l = 1` it would be 13 percent low.
    ///
    /// # Errors
    /// [`LocalError::OutOfRange`] beyond.
    ///
    /// # References
    /// Westergaard 1926; the constant as printed in pavement design codes.
    pub fn westergaard_moment(&self, load: Force, radius: Length) -> Result<Force, LocalError> {
        let r0 = positive("radius of the load (m)", radius.value)?;
        let ratio = r0 / self.l();
        if ratio >= 0.5 {
            return Err(LocalError::OutOfRange {
                quantity: "radius of the load over the characteristic length",
                value: ratio,
                allowed: "must be below 0.5: use the Kelvin form",
            });
        }
        Ok(si(load.value * (1.0 + self.poisson) / (4.0 * PI) * (-ratio.ln() + 0.6159)))
    }

    fn circle(&self, load: Force, radius: Length) -> Result<(f64, f64), LocalError> {
        let p = positive("load (N)", load.value)?;
        let r0 = positive("radius of the load (m)", radius.value)?;
        let alpha = r0 / self.l();
        if alpha > 10.0 {
            return Err(LocalError::OutOfRange {
                quantity: "radius of the load over the characteristic length",
                value: alpha,
                allowed: "must not exceed 10: under so wide a load the foam stress is the pressure",
            });
        }
        Ok((alpha, p / (PI * r0 * r0)))
    }
}

/// Deflection and moment under a load on a beam strip on springs, per width of strip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StripUnderLoad {
    /// Deflection under the middle of the load.
    pub sag: Length,
    /// Moment per width under the middle of the load.
    pub moment: Force,
}

/// A long strip on springs under a line load: `w0 = p beta/(2 k)`, `M0 = p/(4 beta)`, `beta = (k/(4 EI))^(1/4)`.
///
/// # Units
/// `rigidity` `E I` per width, N m; `load` N/m.
///
/// # Errors
/// [`LocalError::OutOfRange`].
///
/// # References
/// Hetenyi 1946, chapter 2 (from memory).
pub fn strip_under_line(
    rigidity: Moment,
    bed: BedModulus,
    load: ForcePerLength,
) -> Result<StripUnderLoad, LocalError> {
    let (beta, k) = strip(rigidity, bed)?;
    let p = positive("line load (N/m)", load.value)?;
    Ok(StripUnderLoad { sag: si(p * beta / (2.0 * k)), moment: si(p / (4.0 * beta)) })
}

/// A long strip on springs under pressure `q` over the length `2 a`: `w0 = (q/k)(1 - e^(-beta a) cos(beta a))`,
/// `M0 = q/(2 beta^2) e^(-beta a) sin(beta a)`.
///
/// # Errors
/// [`LocalError::OutOfRange`].
///
/// # References
/// Hetenyi 1946, chapter 2 (from memory).
pub fn strip_under_pressure(
    rigidity: Moment,
    bed: BedModulus,
    pressure: Pressure,
    loaded_length: Length,
) -> Result<StripUnderLoad, LocalError> {
    let (beta, k) = strip(rigidity, bed)?;
    let q = positive("pressure (Pa)", pressure.value)?;
    let ba = beta * positive("loaded length (m)", loaded_length.value)? / 2.0;
    let fade = (-ba).exp();
    Ok(StripUnderLoad {
        sag: si(q / k * (1.0 - fade * ba.cos())),
        moment: si(q / (2.0 * beta * beta) * fade * ba.sin()),
    })
}

fn strip(rigidity: Moment, bed: BedModulus) -> Result<(f64, f64), LocalError> {
    let k = positive("bed modulus (N/m3)", bed.value)?;
    let ei = positive("rigidity per width (N m)", rigidity.value)?;
    Ok(((k / (4.0 * ei)).powf(0.25), k))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// Plate 3 mm of E 7000 MPa, nu 0.25 (D = 16 800 N mm); computed, and agreeing with the Hankel integral to 1e-6
    /// (rows W1 to W5). N, mm, MPa.
    #[test]
    fn circle_matches_computed_values() {
        for (k, r0, l, w, s, m) in [
            (0.125, 20.0, 19.14696, 2.085448, 0.260681, 66.50406),
            (0.125, 56.4189584, 19.14696, 0.8447359, 0.105592, 6.572639),
            (0.2, 56.4189584, 17.02432, 0.5510461, 0.1102092, 3.87073),
            (0.0769230769, 28.2094792, 21.61788, 2.392606, 0.1840466, 49.10604),
        ] {
            let plate = PlateOnSprings::new(si(16.8), 0.25, si(k * 1e9)).unwrap();
            let (p, r) = (si(1000.0), si(r0 / 1e3));
            assert_relative_eq!(plate.length().value * 1e3, l, max_relative = 1e-6);
            let sag = plate.sag_within_circle(p, r, si(0.0)).unwrap();
            assert_relative_eq!(sag.value * 1e3, w, max_relative = 1e-6);
            assert_relative_eq!(
                plate.bed_stress_under_circle(p, r).unwrap().value / 1e6,
                s,
                max_relative = 1e-6
            );
            assert_relative_eq!(plate.moment_under_circle(p, r).unwrap().value, m, max_relative = 1e-6);
        }
    }

    /// Rows W6 (Hertz) and W7 (Westergaard, constant published), W8 (exact, within 0.4 percent of W7).
    #[test]
    fn point_and_small_circle() {
        let plate = PlateOnSprings::new(si(16.8), 0.25, si(0.125e9)).unwrap();
        assert_relative_eq!(plate.sag_under_point(si(1000.0)).value * 1e3, 2.727724, max_relative = 1e-6);
        let (p, r) = (si(1000.0), si(0.005));
        assert_relative_eq!(plate.westergaard_moment(p, r).unwrap().value, 194.8261, max_relative = 1e-5);
        assert_relative_eq!(plate.moment_under_circle(p, r).unwrap().value, 195.4877, max_relative = 1e-6);
        assert!(plate.westergaard_moment(p, si(0.019)).is_err());
    }

    /// The deflection satisfies the plate equation inside the circle: falls from the centre outwards.
    #[test]
    fn sag_falls_from_the_centre() {
        let plate = PlateOnSprings::new(si(16.8), 0.25, si(0.125e9)).unwrap();
        let at = |r: f64| plate.sag_within_circle(si(1000.0), si(0.02), si(r)).unwrap().value;
        assert!(at(0.0) > at(0.01) && at(0.01) > at(0.02));
        assert!(plate.sag_within_circle(si(1000.0), si(0.02), si(0.021)).is_err());
    }

    /// Rows W9 to W12 (Hetenyi): strip 3 mm, E 7000 MPa, k 0.125 N/mm3.
    #[test]
    fn strips_match_hetenyi() {
        let (ei, k) = (si(7000.0 * 27.0 / 12.0 / 1e3), si(0.125e9));
        let line = strip_under_line(ei, k, si(10e3)).unwrap();
        assert_relative_eq!(line.sag.value * 1e3, 1.501248, max_relative = 1e-6);
        assert_relative_eq!(line.moment.value, 66.61126, max_relative = 1e-6);
        let patch = strip_under_pressure(ei, k, si(0.2e6), si(0.050)).unwrap();
        assert_relative_eq!(patch.sag.value * 1e3, 1.229876, max_relative = 1e-6);
        assert_relative_eq!(patch.moment.value, 22.4054, max_relative = 1e-6);
    }
}

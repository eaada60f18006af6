//! A flat unit base on a curved roof: gap, packing, bolts, gasket.
//!
//! ```text
//!     ===================   flat base
//!     gap ___-------___ gap
//!      --               --  roof, radius R
//! ```

use super::error::{FormingError, out_of_range};
use crate::quantity::{Length, Ratio, positive, si};

/// What sits on the roof, and the roof under it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seat {
    /// Radius of the roof's outer face across the unit.
    pub radius: Length,
    /// Width of the gasket ring across, outside to outside.
    pub width: Length,
    /// From the crown to the middle of the unit.
    pub off_crown: Length,
    /// Roof between gasket and ceiling frame, at the bolts.
    pub roof: Length,
    /// Gasket as it comes.
    pub gasket: Length,
    /// Share of the gasket that is left where it is pressed most.
    pub pressed_to: Ratio,
    /// Largest share of the gasket left with which it still seals.
    pub seals_below: Ratio,
    /// Base plate, ceiling frame, washers and nut: what the bolt passes beside roof, gasket and packing.
    pub hardware: Length,
}

/// How the unit sits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seating {
    gap: f64,
    taper: f64,
    tilt: f64,
    least: f64,
    takes_up: f64,
    beside: f64,
}

impl Seat {
    /// Works out how the base sits, tangent to the roof at its middle.
    ///
    /// # Errors
    /// [`FormingError::OutOfRange`] for lengths that are not above zero, a base that reaches past a quarter of the
    /// radius, and shares that are not `0 < pressed_to < seals_below <= 1`.
    pub fn seating(&self) -> Result<Seating, FormingError> {
        let radius = positive("radius of the roof", self.radius.value, "m", "measure span and rise")?;
        let width = positive("width of the gasket ring", self.width.value, "m", "measure it across")?;
        let roof = positive("thickness of the roof", self.roof.value, "m", "measure it in the opening")?;
        let gasket = positive("gasket", self.gasket.value, "m", "measure it unpressed")?;
        let hardware = positive("hardware", self.hardware.value, "m", "lay plate, washers and nut together")?;
        let off = self.off_crown.value.abs();
        let reach = off + width / 2.0;
        if reach.is_nan() || reach > radius / 4.0 {
            let allowed = format!("up to a quarter of the radius, {:.6} m from the crown", radius / 4.0);
            return Err(out_of_range(
                "reach of the base",
                reach,
                "m",
                allowed,
                "no flat base sits on so round a roof",
            ));
        }
        let (pressed, seals) = (self.pressed_to.value, self.seals_below.value);
        if !(pressed > 0.0 && pressed < seals && seals <= 1.0) {
            let allowed = format!("above 0 and below the share that still seals, {seals:.6} (at most 1)");
            return Err(out_of_range(
                "share of the gasket left",
                pressed,
                "",
                allowed,
                "see the gasket's sheet",
            ));
        }
        let half = width / 2.0;
        let least = pressed * gasket;
        Ok(Seating {
            gap: half * half / (radius + (radius * radius - half * half).sqrt()),
            taper: (half / radius).asin(),
            tilt: (off / radius).asin(),
            least,
            takes_up: seals * gasket - least,
            beside: roof + hardware,
        })
    }
}

impl Seating {
    /// Gap under both edges of the ring while its middle rests on the roof: thickness of the packing there.
    pub fn gap(&self) -> Length {
        si(self.gap)
    }

    /// Slope of the packing's face at the edge, rad; level in the middle.
    pub fn taper(&self) -> Ratio {
        si(self.taper)
    }

    /// Tilt of the unit, rad.
    pub fn tilt(&self) -> Ratio {
        si(self.tilt)
    }

    /// Gasket left in the middle, and at the edges without packing.
    pub fn gasket_left(&self) -> [Length; 2] {
        [si(self.least), si(self.least + self.gap)]
    }

    /// Whether the bolts must pull the roof flat before the edges seal: the gasket cannot take the gap up, and
    /// packing is needed.
    pub fn pulls_flat(&self) -> bool {
        self.gap > self.takes_up
    }

    /// Length of a bolt at the edge, packing included: the next longer one is taken.
    pub fn bolt_length(&self) -> Length {
        si(self.beside + self.least + self.gap)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn seat(radius: f64) -> Seat {
        Seat {
            radius: si(radius),
            width: si(0.42),
            off_crown: si(0.0),
            roof: si(0.056),
            gasket: si(0.025),
            pressed_to: si(0.5),
            seals_below: si(0.75),
            hardware: si(0.02),
        }
    }

    /// Segment height R - sqrt(R^2 - w^2/4), by hand: R 7.5, half width 0.21 gives 2.9406 mm.
    #[test]
    fn gap_of_a_flat_base() {
        let sits = seat(7.5).seating().unwrap();
        assert_relative_eq!(
            sits.gap().value,
            7.5 - (7.5_f64 * 7.5 - 0.21 * 0.21).sqrt(),
            max_relative = 1e-9
        );
        assert_relative_eq!(sits.gap().value, 2.9406e-3, max_relative = 1e-4);
        assert_relative_eq!(sits.taper().value.sin(), 0.028, max_relative = 1e-12);
        assert_relative_eq!(sits.bolt_length().value, 0.0885 + sits.gap().value, max_relative = 1e-12);
        let [middle, edge] = sits.gasket_left();
        assert_relative_eq!(middle.value, 0.0125, max_relative = 1e-12);
        assert_relative_eq!((edge - middle).value, sits.gap().value, max_relative = 1e-12);
    }

    /// A gasket of 25 mm that goes from three quarters to half takes up 6.25 mm.
    #[test]
    fn a_round_roof_is_pulled_flat() {
        assert!(!seat(7.5).seating().unwrap().pulls_flat());
        assert!(seat(3.0).seating().unwrap().pulls_flat());
    }

    #[test]
    fn off_the_crown_it_tilts_and_past_the_roof_it_is_refused() {
        let aside = Seat { off_crown: si(-0.75), ..seat(7.5) };
        assert_relative_eq!(aside.seating().unwrap().tilt().value.sin(), 0.1, max_relative = 1e-12);
        assert!(Seat { off_crown: si(2.0), ..seat(7.5) }.seating().is_err());
        assert!(Seat { pressed_to: si(0.8), ..seat(7.5) }.seating().is_err());
        assert!(Seat { gasket: si(f64::NAN), ..seat(7.5) }.seating().is_err());
        assert!(seat(0.0).seating().is_err());
    }
}

//! A circular arc from its span and rise.
//!
//! ```text
//!          __---+---__        rise
//!      _--      |      --_
//!     +---------+---------+   chord = span
//!     |<- x ->|  offset above the chord at x
//! ```
//!
//! No formula here subtracts two large numbers, so a crown of a hair and a half circle are equally sound.

use super::error::{FormingError, out_of_range};
use crate::quantity::{Length, Ratio, positive, si};

/// A circular arc, up to a half circle.
///
/// # Examples
/// Span 90, rise 3: radius 339, and the arc is 0.27 longer than its chord (worked by hand).
/// ```
/// use beam_core::forming::Arc;
/// use beam_core::quantity::{si, INCH};
///
/// let arc = Arc::new(si(90.0 * INCH), si(3.0 * INCH))?;
/// assert!((arc.radius().value / INCH - 339.0).abs() < 1e-9);
/// assert!(((arc.length() - arc.span()).value / INCH - 0.27).abs() < 0.005);
/// # Ok::<(), beam_core::forming::FormingError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arc {
    span: f64,
    rise: f64,
}

impl Arc {
    /// The arc over `span` that is `rise` high in the middle.
    ///
    /// # Valid for
    /// A rise above a millionth of the span (less is straight to any tape) and up to half of it (a half circle).
    ///
    /// # Errors
    /// [`FormingError::OutOfRange`] for anything else.
    pub fn new(span: Length, rise: Length) -> Result<Self, FormingError> {
        let span = positive("span", span.value, "m", "measure from end to end of the brace")?;
        let rise = rise.value;
        if !(span * 1e-6..=span / 2.0).contains(&rise) {
            return Err(out_of_range(
                "rise",
                rise,
                "m",
                format!(
                    "{:.6} m (a millionth of the span) to {:.6} m (half the span)",
                    span * 1e-6,
                    span / 2.0
                ),
                "a straight brace needs no bending; a rise of more than half the span is no crown",
            ));
        }
        Ok(Self { span, rise })
    }

    /// The arc of a given radius over `span`.
    ///
    /// # Errors
    /// [`FormingError::OutOfRange`] unless the span is above zero and the radius at least half of it.
    pub fn with_radius(span: Length, radius: Length) -> Result<Self, FormingError> {
        let (l, r) = (span.value, radius.value);
        let half = positive("span", l, "m", "measure from end to end of the brace")? / 2.0;
        if !(r.is_finite() && r >= half) {
            return Err(out_of_range(
                "radius",
                r,
                "m",
                format!("at least half the span, {half:.6} m"),
                "a tighter curve does not reach across",
            ));
        }
        Self::new(span, si(half * half / (r + (r * r - half * half).sqrt())))
    }

    /// Chord from end to end.
    pub fn span(&self) -> Length {
        si(self.span)
    }

    /// Height of the middle above the chord.
    pub fn rise(&self) -> Length {
        si(self.rise)
    }

    /// Radius: `(span^2 / 4 + rise^2) / (2 rise)`.
    pub fn radius(&self) -> Length {
        si((self.span * self.span / 4.0 + self.rise * self.rise) / (2.0 * self.rise))
    }

    /// Slope of the arc against the chord at its ends, rad: also half the angle it subtends, and the angle to cut
    /// the ends at if they are to stand upright.
    pub fn end_angle(&self) -> Ratio {
        si(2.0 * (2.0 * self.rise / self.span).atan())
    }

    /// Length along the curve.
    pub fn length(&self) -> Length {
        let angle = self.end_angle().value;
        si(self.span * angle / angle.sin())
    }

    /// Height above the chord at a distance along it from one end.
    ///
    /// # Errors
    /// [`FormingError::OutOfRange`] outside the span.
    pub fn offset(&self, along_chord: Length) -> Result<Length, FormingError> {
        let x = along_chord.value;
        if !(0.0..=self.span).contains(&x) {
            return Err(out_of_range(
                "place along the chord",
                x,
                "m",
                format!("0 to {:.6} m", self.span),
                "count from one end of the brace",
            ));
        }
        Ok(si(self.offset_si(x)))
    }

    /// [`Arc::offset`] between the ends.
    pub(crate) fn offset_si(&self, x: f64) -> f64 {
        let radius = self.radius().value;
        let from_middle = x - self.span / 2.0;
        // (y + R - h)^2 = R^2 - s^2, solved for y without a difference of squares.
        let below = ((radius - from_middle) * (radius + from_middle)).max(0.0).sqrt() + (radius - self.rise);
        if below > 0.0 { x * (self.span - x) / below } else { 0.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::INCH;
    use approx::{assert_abs_diff_eq, assert_relative_eq};
    use proptest::prelude::*;

    fn arc(span: f64, rise: f64) -> Arc {
        Arc::new(si(span), si(rise)).unwrap()
    }

    /// Handbook geometry of a circular segment, worked to the digits shown: span 84 rise 3 has R 295.5 and half
    /// angle 0.142614929571; span 96 rise 4, R 290; span 96 rise 5, R 232.9 and 11.9 degrees.
    #[test]
    fn worked_arcs() {
        assert_relative_eq!(arc(84.0, 3.0).radius().value, 295.5, max_relative = 1e-14);
        assert_relative_eq!(arc(84.0, 3.0).end_angle().value, 0.142614929571, max_relative = 1e-11);
        assert_relative_eq!(arc(96.0, 4.0).radius().value, 290.0, max_relative = 1e-14);
        let steep = arc(96.0, 5.0);
        assert_relative_eq!(steep.radius().value, 232.9, max_relative = 1e-14);
        assert_abs_diff_eq!(steep.end_angle().value.to_degrees(), 11.9, epsilon = 0.05);
        assert_abs_diff_eq!(steep.length().value, 96.69, epsilon = 0.005);
    }

    /// A half circle: radius half the span, length pi R, ends upright.
    #[test]
    fn half_circle() {
        let half = arc(2.0, 1.0);
        assert_relative_eq!(half.radius().value, 1.0);
        assert_relative_eq!(half.length().value, std::f64::consts::PI, max_relative = 1e-15);
        assert_relative_eq!(half.end_angle().value, std::f64::consts::FRAC_PI_2, max_relative = 1e-15);
        assert_eq!(half.offset_si(0.0), 0.0);
        assert_relative_eq!(half.offset_si(0.5), 0.75_f64.sqrt(), max_relative = 1e-15);
    }

    /// Euclid III 35: at the crown of a nearly flat arc the offset falls as the square, `x^2 / 2R`, and the arc is
    /// longer than its chord by `8 h^2 / 3 L`.
    #[test]
    fn a_hair_of_rise_keeps_its_digits() {
        let flat = arc(2.0, 2.0e-6);
        assert_relative_eq!(flat.offset_si(0.5), 0.75 * 2.0e-6, max_relative = 1e-9);
        let longer = flat.length().value - 2.0;
        assert_abs_diff_eq!(longer, 8.0 * 4.0e-12 / 6.0, epsilon = 1e-15);
    }

    proptest! {
        /// Every point of the arc lies on the circle, and radius and rise lead back to each other.
        #[test]
        fn points_lie_on_the_circle(span in 0.1..5.0_f64, share in 1e-4..0.5_f64, at in 0.0..1.0_f64) {
            let arc = arc(span, share * span);
            let radius = arc.radius().value;
            let (x, y) = (at * span - span / 2.0, arc.offset_si(at * span) + radius - arc.rise);
            prop_assert!((x.hypot(y) / radius - 1.0).abs() < 1e-13);
            let back = Arc::with_radius(si(span), si(radius)).unwrap();
            prop_assert!((back.rise / arc.rise - 1.0).abs() < 1e-6);
            prop_assert!(arc.length().value > span && arc.length().value < span * 1.571);
        }
    }

    #[test]
    fn what_is_no_arc_is_named() {
        for (span, rise) in
            [(0.0, 0.1), (2.0, 0.0), (2.0, -0.1), (2.0, 1.1), (f64::NAN, 0.1), (2.0, f64::NAN)]
        {
            assert!(Arc::new(si(span), si(rise)).is_err(), "{span} {rise}");
        }
        assert!(Arc::with_radius(si(2.0), si(0.9)).is_err());
        assert!(arc(2.0, 0.1).offset(si(2.1)).is_err());
        assert!(arc(92.5 * INCH, 1.75 * INCH).offset(si(f64::NAN)).is_err());
    }
}

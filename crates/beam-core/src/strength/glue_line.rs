//! A glue line between brace and layer.

use super::format::lasting_and_short;
use super::{OutOfRange, positive, within};
use crate::quantity::{ForcePerLength, Length, Pressure, Ratio, si};

/// A bead or film of glue.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GlueLine {
    /// Width of the joint.
    pub width: Length,
    /// Share of it that is really glued, above 0 and not above 1.
    pub coverage: f64,
    /// Design shear for short loads.
    pub short: Pressure,
    /// Design shear for permanent loads.
    pub permanent: Pressure,
}

impl GlueLine {
    /// Used share under a lasting and a short shear flow: each over the glued width, each against its own limit, added.
    ///
    /// # Valid for
    /// Shear along the line. Peel at the ends of a brace governs before average shear does: it is another check.
    ///
    /// # Errors
    /// [`OutOfRange`].
    ///
    /// # References
    /// Shear flow over width; linear sum of lasting and short parts.
    ///
    /// # Examples
    /// ```
    /// use beam_core::quantity::si;
    /// use beam_core::strength::glue_line::GlueLine;
    /// let line = GlueLine { width: si(0.025), coverage: 0.8, short: si(0.6e6), permanent: si(0.12e6) };
    /// let used = line.shear_use(si(600.0), si(3000.0))?; // 0.030/0.12 + 0.15/0.6
    /// assert!((used.value - 0.5).abs() < 1e-12);
    /// # Ok::<(), beam_core::strength::OutOfRange>(())
    /// ```
    pub fn shear_use(&self, lasting: ForcePerLength, short: ForcePerLength) -> Result<Ratio, OutOfRange> {
        const RULE: &str = "glue line";
        let width = positive(RULE, "width of the joint (m)", self.width.value)?
            * within(RULE, "glued share of the width", self.coverage, f64::MIN_POSITIVE, 1.0)?;
        lasting_and_short((si(lasting.value / width), self.permanent), (si(short.value / width), self.short))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_glue_is_no_joint() {
        let line = GlueLine { width: si(0.025), coverage: 0.0, short: si(0.6e6), permanent: si(0.12e6) };
        assert!(line.shear_use(si(1.0), si(1.0)).is_err());
        assert!(GlueLine { coverage: 1.1, ..line }.shear_use(si(1.0), si(1.0)).is_err());
        assert!(GlueLine { coverage: 1.0, permanent: si(0.0), ..line }.shear_use(si(0.0), si(1.0)).is_err());
    }

    /// The sign of the flow does not relieve.
    #[test]
    fn flows_add_whatever_their_sign() {
        let line = GlueLine { width: si(0.025), coverage: 1.0, short: si(0.6e6), permanent: si(0.12e6) };
        assert_eq!(
            line.shear_use(si(100.0), si(-300.0)).unwrap(),
            line.shear_use(si(-100.0), si(300.0)).unwrap()
        );
    }
}

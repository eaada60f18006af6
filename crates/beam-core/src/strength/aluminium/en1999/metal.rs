//! The metal as EN 1999-1-1 sees it, and the partial factors.

use super::super::RectangularTube;
use super::BucklingClass;
use crate::quantity::{Length, Pressure, si};
use crate::strength::{OutOfRange, at_least_zero, positive, within};

const RULE: &str = "EN 1999-1-1:2007 3.2.2, Table 3.2b";

/// Characteristic strengths of an alloy, temper and range of walls, as tabulated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EnStrengths {
    /// 0.2 percent proof strength.
    pub fo: Pressure,
    /// Ultimate strength.
    pub fu: Pressure,
    /// Proof strength in the heat-affected zone of a weld.
    pub fo_haz: Pressure,
    /// Ultimate strength in the heat-affected zone of a weld.
    pub fu_haz: Pressure,
    /// Modulus of elasticity.
    pub e: Pressure,
    /// Shear modulus.
    pub g: Pressure,
    /// Buckling class.
    pub class: BucklingClass,
    /// Walls are thicker than this.
    pub wall_over: Length,
    /// Walls are at most this thick.
    pub wall_to: Length,
}

/// A metal whose numbers have been looked over.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EnMetal(EnStrengths);

impl EnMetal {
    /// Checks the strengths.
    ///
    /// # Errors
    /// [`OutOfRange`] unless all are above zero, proof does not exceed ultimate and softened does not exceed sound.
    pub fn new(s: EnStrengths) -> Result<Self, OutOfRange> {
        for (name, value) in [
            ("proof strength fo (Pa)", s.fo),
            ("ultimate strength fu (Pa)", s.fu),
            ("softened proof strength (Pa)", s.fo_haz),
            ("softened ultimate strength (Pa)", s.fu_haz),
            ("modulus of elasticity (Pa)", s.e),
            ("shear modulus (Pa)", s.g),
        ] {
            positive(RULE, name, value.value)?;
        }
        within(RULE, "proof strength fo (Pa)", s.fo.value, 0.0, s.fu.value)?;
        within(RULE, "softened proof strength (Pa)", s.fo_haz.value, 0.0, s.fo.value)?;
        within(RULE, "softened ultimate strength (Pa)", s.fu_haz.value, 0.0, s.fu.value)?;
        at_least_zero(RULE, "wall (m)", s.wall_over.value)?;
        Ok(Self(s))
    }

    /// A row of the tables.
    ///
    /// # Errors
    /// As [`EnMetal::new`].
    pub fn from_table(row: &section_tables::EnStrength) -> Result<Self, OutOfRange> {
        let mpa = |v: f64| si(v * 1e6);
        Self::new(EnStrengths {
            fo: mpa(row.f_o_mpa),
            fu: mpa(row.f_u_mpa),
            fo_haz: mpa(row.f_o_haz_mpa),
            fu_haz: mpa(row.f_u_haz_mpa),
            e: mpa(row.e_mpa),
            g: mpa(row.g_mpa),
            class: row.buckling_class,
            wall_over: si(row.wall_over_mm * 1e-3),
            wall_to: si(row.wall_to_mm * 1e-3),
        })
    }

    /// The strengths as given.
    pub fn strengths(&self) -> &EnStrengths {
        &self.0
    }

    /// `sqrt(250 MPa/fo)`: not the 235 of steel.
    pub(crate) fn epsilon(&self) -> f64 {
        (250e6 / self.0.fo.value).sqrt()
    }

    /// The wall must lie in the range that the strengths hold for.
    pub(crate) fn admits(&self, tube: &RectangularTube) -> Result<(), OutOfRange> {
        let (over, to) = (self.0.wall_over.value, self.0.wall_to.value);
        if tube.wall > over * (1.0 + 1e-9) && tube.wall <= to * (1.0 + 1e-9) {
            return Ok(());
        }
        let allowed =
            format!("these strengths hold for walls over {:.1} mm up to {:.1} mm", over * 1e3, to * 1e3);
        Err(OutOfRange::new(RULE, "wall (m)", tube.wall, allowed))
    }
}

/// Partial factors of 6.1.3; a national annex may set others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartialFactors {
    pub(crate) m1: f64,
    pub(crate) m2: f64,
}

impl Default for PartialFactors {
    /// The recommended values: `gamma_M1` 1.10 for yielding and buckling, `gamma_M2` 1.25 for rupture.
    fn default() -> Self {
        Self { m1: 1.10, m2: 1.25 }
    }
}

impl PartialFactors {
    /// National values of `gamma_M1` and `gamma_M2`.
    ///
    /// # Errors
    /// [`OutOfRange`] unless both lie between 1 and 2.
    pub fn new(m1: f64, m2: f64) -> Result<Self, OutOfRange> {
        const RULE: &str = "EN 1999-1-1:2007 6.1.3, partial factors";
        Ok(Self { m1: within(RULE, "gamma_M1", m1, 1.0, 2.0)?, m2: within(RULE, "gamma_M2", m2, 1.0, 2.0)? })
    }
}

#[cfg(test)]
mod tests {
    use super::super::samples::*;
    use super::*;

    /// Table 3.2b: 6063-T5 has one row up to 3 mm and a weaker one above; 1/8 in (3.175 mm) is above.
    #[test]
    fn a_wall_outside_its_row_is_refused() {
        let thin = EnMetal::new(EnStrengths {
            wall_to: si(3.0 * MM),
            ..*metal(130.0, BucklingClass::B).strengths()
        })
        .unwrap();
        let of = |t: f64| tube(40.0, 40.0, t, 130.0, BucklingClass::B).tube;
        assert!(thin.admits(&of(3.0)).is_ok());
        let refused = thin.admits(&of(3.175)).unwrap_err();
        assert!(refused.clause.contains("Table 3.2b"), "{refused}");
    }

    #[test]
    fn doubtful_numbers_are_refused() {
        let good = *metal(160.0, BucklingClass::A).strengths();
        assert!(EnMetal::new(EnStrengths { fo: si(1e9), ..good }).is_err());
        assert!(EnMetal::new(EnStrengths { fu_haz: si(f64::NAN), ..good }).is_err());
        assert!(PartialFactors::new(0.9, 1.25).is_err() && PartialFactors::new(1.1, f64::NAN).is_err());
    }
}

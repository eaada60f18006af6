//! The metal as ADM sees it: minimum strengths, sound and weld-affected.

use super::super::RectangularTube;
use super::constants::KSI;
use crate::quantity::{INCH, Length, Pressure, si};
use crate::strength::{OutOfRange, positive, within};

const RULE: &str = "ADM 2020 A.3 material strengths";

/// Groups of tempers with their own buckling constants.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Temper {
    /// T5, T6, T7, T8, T9: table B.4.2.
    Aged,
    /// O, H, T1 to T4: table B.4.1, which also holds for the weld-affected metal of every temper.
    NotAged,
}

impl Temper {
    /// The group that a name such as `6061-T6` or `5052-H32` puts the metal in. A name without a temper stands for
    /// the weakest of the aged extrusions.
    fn of(name: &str) -> Self {
        let temper = name.split_once('-').map_or("", |(_, temper)| temper);
        let annealed = ["O", "H", "T1", "T2", "T3", "T4"].iter().any(|start| temper.starts_with(start));
        if annealed { Self::NotAged } else { Self::Aged }
    }
}

/// Where a weld touches the member.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Weld {
    /// No weld.
    None,
    /// Across the tube within 0.05 of its length from an end: weakens the section there, not the member's buckling.
    NearEnds,
    /// Across the tube anywhere else: section and buckling take the weld-affected strengths.
    Within,
}

impl Weld {
    /// A weld across the tube at `distance` from its nearer end.
    ///
    /// # Errors
    /// [`OutOfRange`] unless the distance lies between zero and half the length.
    pub fn at(distance: Length, length: Length) -> Result<Self, OutOfRange> {
        let l = positive(RULE, "length of the member (m)", length.value)?;
        let x = within(RULE, "distance of the weld from the nearer end (m)", distance.value, 0.0, l / 2.0)?;
        Ok(if x <= 0.05 * l * (1.0 + 1e-9) { Self::NearEnds } else { Self::Within })
    }
}

/// Minimum strengths of an alloy, temper and product, as tabulated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AdmStrengths {
    /// Tensile ultimate strength.
    pub ftu: Pressure,
    /// Tensile yield strength.
    pub fty: Pressure,
    /// Compressive yield strength: `fty` for T tempers, `0.9 fty` for H tempers.
    pub fcy: Pressure,
    /// Tensile ultimate strength, weld-affected.
    pub ftuw: Pressure,
    /// Tensile yield strength, weld-affected.
    pub ftyw: Pressure,
    /// Tension coefficient.
    pub kt: f64,
    /// Modulus of elasticity.
    pub e: Pressure,
    /// Shear modulus.
    pub g: Pressure,
    /// Group of the temper.
    pub temper: Temper,
    /// Wall below which the listed strengths do not hold (0.2 in for 6082-T6), if any.
    pub thinnest_wall: Option<Length>,
    /// Wall above which the listed strengths do not hold, if any.
    pub thickest_wall: Option<Length>,
}

/// An alloy whose numbers have been looked over.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AdmAlloy(AdmStrengths);

/// One state of the metal, sound or weld-affected, in Pa.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Metal {
    pub(crate) ftu: f64,
    pub(crate) fty: f64,
    pub(crate) fcy: f64,
    pub(crate) kt: f64,
    pub(crate) e: f64,
    pub(crate) temper: Temper,
}

impl Metal {
    /// Shear yield strength, 0.6 of the tensile.
    pub(crate) fn fsy(&self) -> f64 {
        0.6 * self.fty
    }

    /// Shear ultimate strength, 0.6 of the tensile.
    pub(crate) fn fsu(&self) -> f64 {
        0.6 * self.ftu
    }
}

impl AdmAlloy {
    /// Checks the strengths.
    ///
    /// # Errors
    /// [`OutOfRange`] unless all are above zero, yield does not exceed ultimate, weld-affected does not exceed sound,
    /// and `kt` lies between 1 and 1.5.
    pub fn new(s: AdmStrengths) -> Result<Self, OutOfRange> {
        for (name, value) in [
            ("tensile ultimate strength (Pa)", s.ftu),
            ("tensile yield strength (Pa)", s.fty),
            ("compressive yield strength (Pa)", s.fcy),
            ("weld-affected ultimate strength (Pa)", s.ftuw),
            ("weld-affected yield strength (Pa)", s.ftyw),
            ("modulus of elasticity (Pa)", s.e),
            ("shear modulus (Pa)", s.g),
        ] {
            positive(RULE, name, value.value)?;
        }
        within(RULE, "tension coefficient kt", s.kt, 1.0, 1.5)?;
        within(RULE, "tensile yield strength (Pa)", s.fty.value, 0.0, s.ftu.value)?;
        within(RULE, "weld-affected ultimate strength (Pa)", s.ftuw.value, 0.0, s.ftu.value)?;
        within(RULE, "weld-affected yield strength (Pa)", s.ftyw.value, 0.0, s.ftuw.value.min(s.fty.value))?;
        Ok(Self(s))
    }

    /// A row of the tables.
    ///
    /// # Errors
    /// As [`AdmAlloy::new`].
    pub fn from_table(row: &section_tables::Alloy) -> Result<Self, OutOfRange> {
        Self::new(AdmStrengths {
            ftu: si(row.f_tu_ksi * KSI),
            fty: si(row.f_ty_ksi * KSI),
            fcy: si(row.f_cy_ksi * KSI),
            ftuw: si(row.f_tuw_ksi * KSI),
            ftyw: si(row.f_tyw_ksi * KSI),
            kt: row.k_t,
            e: si(row.e_ksi * KSI),
            g: si(row.g_ksi * KSI),
            temper: Temper::of(&row.id),
            thinnest_wall: Some(si(row.wall_min_in * INCH)),
            thickest_wall: Some(si(row.wall_max_in * INCH)),
        })
    }

    /// The strengths as given.
    pub fn strengths(&self) -> &AdmStrengths {
        &self.0
    }

    /// Sound metal.
    pub fn sound(&self) -> Metal {
        let s = &self.0;
        Metal {
            ftu: s.ftu.value,
            fty: s.fty.value,
            fcy: s.fcy.value,
            kt: s.kt,
            e: s.e.value,
            temper: s.temper,
        }
    }

    /// Weld-affected metal: constants of table B.4.1 whatever the temper, `Fcyw = Ftyw`.
    pub fn weld_affected(&self) -> Metal {
        let s = &self.0;
        Metal {
            ftu: s.ftuw.value,
            fty: s.ftyw.value,
            fcy: s.ftyw.value,
            temper: Temper::NotAged,
            ..self.sound()
        }
    }

    /// The metal that sets the strength of the cross-section.
    pub(crate) fn section(&self, weld: Weld) -> Metal {
        if weld == Weld::None { self.sound() } else { self.weld_affected() }
    }

    /// The metal that sets the buckling of the member.
    pub(crate) fn member(&self, weld: Weld) -> Metal {
        if weld == Weld::Within { self.weld_affected() } else { self.sound() }
    }

    /// The strengths must hold for the tube's wall.
    pub(crate) fn admits(&self, tube: &RectangularTube) -> Result<(), OutOfRange> {
        match self.0.thinnest_wall {
            Some(t) if tube.wall < t.value * (1.0 - 1e-9) => Err(OutOfRange::new(
                RULE,
                "wall (m)",
                tube.wall,
                format!(
                    "this alloy has no listed strength below {:.2} mm: use the EN 1999-1-1 values for thin walls",
                    t.value * 1e3
                ),
            )),
            _ => match self.0.thickest_wall {
                Some(t) if tube.wall > t.value * (1.0 + 1e-9) => Err(OutOfRange::new(
                    RULE,
                    "wall (m)",
                    tube.wall,
                    format!("this alloy has no listed strength above {:.2} mm", t.value * 1e3),
                )),
                _ => Ok(()),
            },
        }
    }
}

/// Alloys of the ADM in ksi, for the tests of this folder.
#[cfg(test)]
pub(crate) mod samples {
    use super::*;

    pub(crate) use super::super::constants::KSI;
    pub(crate) use crate::quantity::INCH;

    pub(crate) fn alloy(ftu: f64, fty: f64, fcy: f64, ftuw: f64, ftyw: f64, temper: Temper) -> AdmAlloy {
        let k = |v: f64| si(v * KSI);
        AdmAlloy::new(AdmStrengths {
            ftu: k(ftu),
            fty: k(fty),
            fcy: k(fcy),
            ftuw: k(ftuw),
            ftyw: k(ftyw),
            kt: 1.0,
            e: k(10_100.0),
            g: k(3_800.0),
            temper,
            thinnest_wall: None,
            thickest_wall: None,
        })
        .unwrap()
    }

    pub(crate) fn a6061_t6() -> AdmAlloy {
        alloy(38.0, 35.0, 35.0, 24.0, 15.0, Temper::Aged)
    }

    pub(crate) fn a6063_t5() -> AdmAlloy {
        alloy(22.0, 16.0, 16.0, 17.0, 8.0, Temper::Aged)
    }

    pub(crate) fn a6063_t6() -> AdmAlloy {
        alloy(30.0, 25.0, 25.0, 17.0, 8.0, Temper::Aged)
    }

    pub(crate) fn a6082_t6() -> AdmAlloy {
        alloy(45.0, 38.0, 38.0, 28.0, 16.0, Temper::Aged)
    }

    /// 3003-H14: only its compressive yield (15.3 ksi) enters the example used.
    pub(crate) fn a3003_h14() -> AdmAlloy {
        alloy(20.0, 17.0, 15.3, 14.0, 5.0, Temper::NotAged)
    }

    pub(crate) fn tube(b: f64, h: f64, t: f64) -> RectangularTube {
        RectangularTube::new(si(b * INCH), si(h * INCH), si(t * INCH)).unwrap()
    }

    /// Equal within the half-unit of the last printed digit (given).
    pub(crate) fn printed(got: f64, print: f64, half: f64) {
        assert!((got - print).abs() <= half, "got {got}, printed {print}");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weld_beyond_a_twentieth_is_within() {
        assert_eq!(Weld::at(si(0.1), si(2.0)).unwrap(), Weld::NearEnds);
        assert_eq!(Weld::at(si(0.101), si(2.0)).unwrap(), Weld::Within);
        assert!(Weld::at(si(1.1), si(2.0)).is_err());
    }

    /// ADM lists 6082-T6 only from 0.2 in up.
    #[test]
    fn thin_wall_is_refused() {
        let alloy = AdmAlloy::new(AdmStrengths {
            thinnest_wall: Some(si(0.2 * samples::INCH)),
            ..*samples::a6082_t6().strengths()
        })
        .unwrap();
        assert!(alloy.admits(&samples::tube(2.0, 2.0, 0.125)).is_err());
        assert!(alloy.admits(&samples::tube(2.0, 2.0, 0.2)).is_ok());
    }

    /// The groups of tables B.4.1 and B.4.2.
    #[test]
    fn tempers_by_name() {
        for (name, temper) in [
            ("6061-T6 drawn", Temper::Aged),
            ("6063-T52", Temper::Aged),
            ("6061-T4", Temper::NotAged),
            ("5052-H32", Temper::NotAged),
            ("alloy not known", Temper::Aged),
        ] {
            assert_eq!(Temper::of(name), temper, "{name}");
        }
    }

    /// The stand-in for an alloy that is not known is worth no more than any aged extrusion, at any slenderness.
    #[test]
    fn what_is_not_known_is_worth_least() {
        let tables = section_tables::Tables::shipped();
        let of = |name: &str| AdmAlloy::from_table(tables.alloy(name).unwrap()).unwrap();
        for row in tables.alloys.iter().filter(|row| row.wall_min_in == 0.0) {
            for length in [0.05, 0.3, 0.6, 1.0, 2.0, 4.0] {
                let at = |alloy: &AdmAlloy| {
                    let tube = samples::tube(1.5, 1.5, 0.0625);
                    let format = super::super::Format::Asd;
                    super::super::compression(&tube, alloy, si(length), Weld::None, format).unwrap().least
                };
                let (least, known) = (at(&of("alloy not known")), at(&of(&row.id)));
                assert!(least.value <= known.value * (1.0 + 1e-12), "{} {length}", row.id);
            }
        }
    }

    #[test]
    fn doubtful_strengths_are_refused() {
        let good = *samples::a6061_t6().strengths();
        assert!(AdmAlloy::new(AdmStrengths { fty: si(400e6), ..good }).is_err());
        assert!(AdmAlloy::new(AdmStrengths { kt: 0.9, ..good }).is_err());
        assert!(AdmAlloy::new(AdmStrengths { e: si(f64::NAN), ..good }).is_err());
    }
}

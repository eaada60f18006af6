//! Buckling constants, ADM 2020 tables B.4.1, B.4.2 and B.4.3.
//!
//! Intercept `B`, slope `D`, intersection `C` of each straight line. The formulas are from memory; they reproduce the
//! constants printed in part VII, example 16, and every allowable-stress row of part VI. The tables are written for
//! ksi: the reference stresses below carry that unit, so everything here is SI.

use super::alloy::{Metal, Temper};
use crate::quantity::{Pressure, si};

/// 1 ksi in Pa.
pub(crate) const KSI: f64 = 6.894_757_293_168e6;

/// One buckling line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    pub(crate) b: f64,
    pub(crate) d: f64,
    pub(crate) c: f64,
}

impl Line {
    /// Intercept `B`.
    pub fn intercept(&self) -> Pressure {
        si(self.b)
    }

    /// Slope `D`, stress per slenderness.
    pub fn slope(&self) -> Pressure {
        si(self.d)
    }

    /// Slenderness `C` where the line meets the elastic curve.
    pub fn intersection(&self) -> f64 {
        self.c
    }

    /// `B = y (1 + (y/reference)^power)` with the slope and intersection of the temper's table.
    fn new(yield_: f64, reference_ksi: f64, power: f64, e: f64, aged: bool) -> Self {
        let b = yield_ * (1.0 + (yield_ / (reference_ksi * KSI)).powf(power));
        if aged {
            let d = b / 10.0 * (b / e).sqrt();
            Self { b, d, c: 0.41 * b / d }
        } else {
            Self::steep(b, e)
        }
    }

    fn steep(b: f64, e: f64) -> Self {
        let d = b / 20.0 * (6.0 * b / e).sqrt();
        Self { b, d, c: 2.0 * b / (3.0 * d) }
    }
}

/// Constants of one state of the metal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Constants {
    /// Columns and lateral-torsional buckling.
    pub column: Line,
    /// Flat elements in uniform compression.
    pub flat: Line,
    /// Flat elements in flexure.
    pub bent: Line,
    /// Shear.
    pub shear: Line,
    /// Post-buckling constants `k1`, `k2` in uniform compression; in flexure they are always 0.50 and 2.04.
    pub post: (f64, f64),
}

/// Post-buckling constants in flexure, all tempers (table B.4.3).
pub(crate) const POST_FLEXURE: (f64, f64) = (0.50, 2.04);

impl Constants {
    /// The constants of a metal.
    pub fn of(metal: &Metal) -> Self {
        let aged = metal.temper == Temper::Aged;
        let pick = |of_aged: f64, other: f64| if aged { of_aged } else { other };
        let line = |y: f64, reference: f64, power: f64| Line::new(y, reference, power, metal.e, aged);
        let bent = 1.3 * metal.fcy * (1.0 + (metal.fcy / (340.0 * KSI)).cbrt());
        Self {
            column: line(metal.fcy, pick(2250.0, 1000.0), 0.5),
            flat: line(metal.fcy, pick(1500.0, 440.0), 1.0 / 3.0),
            bent: Line::steep(bent, metal.e),
            shear: line(metal.fsy(), pick(800.0, 240.0), 1.0 / 3.0),
            post: if aged { (0.35, 2.27) } else { (0.50, 2.04) },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::alloy::samples::*;
    use super::*;
    use approx::assert_relative_eq;

    /// Part VII, example 16: 5456-H321 sound (Fcy 27.9 ksi) and welded (19 ksi), as printed, ksi.
    #[test]
    fn table_b41_matches_example_16() {
        let metal = Metal {
            fcy: 27.9 * KSI,
            temper: Temper::NotAged,
            ..alloy(46., 31., 27.9, 42., 19., Temper::NotAged).sound()
        };
        for (fcy, column, flat, bent, tol) in [
            (27.9, (32.6, 0.226, 95.9), (39.0, 0.297, 87.6), (52.0, 0.457, 75.8), 0.004),
            (19.0, (21.6, 0.123, 117.7), (25.7, 0.158, 108.0), (34.1, 0.243, 93.6), 0.005),
        ] {
            let c = Constants::of(&Metal { fcy: fcy * KSI, ..metal });
            for (line, (b, d, s)) in [(c.column, column), (c.flat, flat), (c.bent, bent)] {
                assert_relative_eq!(line.b / KSI, b, max_relative = tol);
                assert_relative_eq!(line.d / KSI, d, max_relative = tol);
                assert_relative_eq!(line.c, s, max_relative = tol);
            }
        }
    }

    /// More digits, computed apart from this code: Bc, Dc, Cc, Bp, Dp, Bbr, Dbr, Bs, Ds, Cs in ksi.
    #[test]
    fn table_b42_matches_computed_values() {
        let check = |a: crate::strength::aluminium::adm::AdmAlloy, v: [f64; 10]| {
            let c = Constants::of(&a.sound());
            let got = [
                c.column.b / KSI,
                c.column.d / KSI,
                c.column.c,
                c.flat.b / KSI,
                c.flat.d / KSI,
                c.bent.b / KSI,
                c.bent.d / KSI,
                c.shear.b / KSI,
                c.shear.d / KSI,
                c.shear.c,
            ];
            for (g, v) in got.into_iter().zip(v) {
                assert_relative_eq!(g, v, max_relative = 1e-7);
            }
        };
        check(
            a6061_t6(),
            [
                39.36526695,
                0.2457588208,
                65.67316444,
                45.0013887,
                0.3003849619,
                66.82428308,
                0.6657120296,
                27.24111805,
                0.1414740237,
                78.94635433,
            ],
        );
        check(
            a6063_t5(),
            [
                17.34923847,
                0.07190514028,
                98.9246074,
                19.52205573,
                0.08582773182,
                28.3094885,
                0.1835620827,
                11.79785135,
                0.04032215109,
                119.9618304,
            ],
        );
        check(
            a6082_t6(),
            [
                42.9383758,
                0.2799675728,
                62.88133266,
                49.16043295,
                0.3429753134,
                73.19551867,
                0.7631531154,
                29.76439081,
                0.1615789607,
                75.52592353,
            ],
        );
        check(
            alloy(31.0, 23.0, 20.7, 25.0, 9.5, Temper::NotAged),
            [
                23.67821138,
                0.1404133117,
                112.4214938,
                28.17267742,
                0.1822330427,
                37.49629943,
                0.279812786,
                19.12641541,
                0.1019378146,
                125.0855108,
            ],
        );
    }

    /// Weld-affected metal takes table B.4.1 even where the sound metal is T6.
    #[test]
    fn welded_metal_uses_table_b41() {
        let c = Constants::of(&a6061_t6().weld_affected());
        printed(c.column.b / KSI, 16.837, 0.0006);
        printed(c.column.d / KSI, 0.0842, 0.00006);
        printed(c.column.c, 133.3, 0.06);
        printed(c.flat.b / KSI, 19.864, 0.0006);
        printed(c.shear.b / KSI, 12.012, 0.0006);
        assert_eq!(c.post, POST_FLEXURE);
    }
}

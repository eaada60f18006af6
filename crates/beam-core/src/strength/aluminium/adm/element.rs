//! Strength of the flat elements of a section, ADM 2020 B.5.4, B.5.5 and G.2, nominal.
//!
//! `b/t` is the clear width over the wall: inner faces for sharp corners. Members are judged by the functions of
//! [`super`]; these are the rows printed in part VI.

use super::alloy::Metal;
use super::constants::{Constants, POST_FLEXURE};
use crate::quantity::{Pressure, si};
use std::f64::consts::PI;

/// Slenderness coefficient of a flange held along both edges.
const BOTH_EDGES: f64 = 1.6;
/// Slenderness coefficient of a leg held along one edge.
const ONE_EDGE: f64 = 5.0;
/// Slenderness coefficient of a web in shear.
const SHEAR: f64 = 1.25;

/// A buckling curve of three branches: a plateau, a straight line, and a falling branch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Curve {
    yield_: f64,
    lambda1: f64,
    intercept: f64,
    slope: f64,
    lambda2: f64,
    falling: (f64, i32),
}

impl Curve {
    /// Nominal stress at slenderness `b/t`.
    pub fn stress(&self, slenderness: f64) -> Pressure {
        si(self.at(slenderness))
    }

    /// Plateau.
    pub fn plateau(&self) -> Pressure {
        si(self.yield_)
    }

    /// Slendernesses where the plateau and the line end.
    pub fn limits(&self) -> (f64, f64) {
        (self.lambda1, self.lambda2)
    }

    /// Intercept and slope of the line.
    pub fn line(&self) -> (Pressure, Pressure) {
        (si(self.intercept), si(self.slope))
    }

    /// Coefficient of the falling branch, to be divided by the slenderness to the power given beside it.
    pub fn falling(&self) -> (Pressure, i32) {
        (si(self.falling.0), self.falling.1)
    }

    pub(crate) fn at(&self, slenderness: f64) -> f64 {
        if slenderness <= self.lambda1 {
            self.yield_
        } else if slenderness < self.lambda2 {
            self.intercept - self.slope * slenderness
        } else {
            self.falling.0 / slenderness.powi(self.falling.1)
        }
    }
}

/// Flat element held along both edges, uniform compression (a tube's flange): B.5.4.2.
pub fn flange(metal: &Metal) -> Curve {
    compressed(metal, BOTH_EDGES)
}

/// Flat element held along one edge, uniform compression (the leg of an angle): B.5.4.1.
///
/// # Valid for
/// Beams, and columns that buckle about an axis of symmetry.
pub fn leg(metal: &Metal) -> Curve {
    compressed(metal, ONE_EDGE)
}

fn compressed(metal: &Metal, edges: f64) -> Curve {
    let c = Constants::of(metal);
    let (k1, k2) = c.post;
    Curve {
        yield_: metal.fcy,
        lambda1: (c.flat.b - metal.fcy) / (edges * c.flat.d),
        intercept: c.flat.b,
        slope: edges * c.flat.d,
        lambda2: k1 * c.flat.b / (edges * c.flat.d),
        falling: (k2 * (c.flat.b * metal.e).sqrt() / edges, 1),
    }
}

/// Flat element held along both edges, bent in its own plane about its middle (a tube's web, `m = 0.65`): B.5.5.1.
///
/// The plateau is 1.5 times the yield strength, at the web's own extreme fibre.
pub fn web(metal: &Metal) -> Curve {
    let m = stress_gradient(1.0, -1.0);
    let c = Constants::of(metal);
    let (k1, k2) = POST_FLEXURE;
    Curve {
        yield_: 1.5 * metal.fcy,
        lambda1: (c.bent.b - 1.5 * metal.fcy) / (m * c.bent.d),
        intercept: c.bent.b,
        slope: m * c.bent.d,
        lambda2: k1 * c.bent.b / (m * c.bent.d),
        falling: (k2 * (c.bent.b * metal.e).sqrt() / m, 1),
    }
}

/// Coefficient `m` of B.5.5.1 from the distances of the two edge fibres from the neutral axis: `compressed` (`cc`)
/// negative, `other` (`co`) positive in tension.
///
/// `1.15 + co/(2 cc)` while the other edge lies nearer than the compressed one, else `1.3/(1 - co/cc)`.
pub(crate) fn stress_gradient(other: f64, compressed: f64) -> f64 {
    let ratio = other / compressed;
    if ratio > -1.0 { 1.15 + ratio / 2.0 } else { 1.3 / (1.0 - ratio) }
}

/// Flat web in shear: G.2, with the clear depth between flanges.
pub fn shear_web(metal: &Metal) -> Curve {
    let c = Constants::of(metal).shear;
    Curve {
        yield_: metal.fsy(),
        lambda1: (c.b - metal.fsy()) / (SHEAR * c.d),
        intercept: c.b,
        slope: SHEAR * c.d,
        lambda2: c.c / SHEAR,
        falling: (PI * PI * metal.e / (SHEAR * SHEAR), 2),
    }
}

/// Elastic local buckling stress of a flat element held along both edges, table B.5.1, Pa.
pub(crate) fn elastic_buckling(metal: &Metal, slenderness: f64) -> f64 {
    PI * PI * metal.e / (BOTH_EDGES * slenderness).powi(2)
}

#[cfg(test)]
mod tests {
    use super::super::alloy::samples::*;
    use super::*;
    use approx::assert_relative_eq;

    /// Printed allowable stresses (over 1.65): plateau, lambda1, intercept, slope, lambda2, falling coefficient; ksi.
    fn row(curve: Curve, v: [f64; 6]) {
        let asd = 1.65 * KSI;
        for (got, want, tol) in [
            (curve.yield_ / asd, v[0], 0.009),
            (curve.lambda1, v[1], 0.009),
            (curve.intercept / asd, v[2], 0.009),
            (curve.slope / asd, v[3], 0.016),
            (curve.lambda2, v[4], 0.02),
            (curve.falling.0 / asd, v[5], 0.008),
        ] {
            assert_relative_eq!(got, want, max_relative = tol);
        }
    }

    /// ADM 2020 part VI tables 2-19 to 2-22 and 2-19W.
    #[test]
    fn flange_rows_match_part_vi() {
        row(flange(&a6061_t6().sound()), [21.2, 20.8, 27.3, 0.291, 33.0, 580.0]);
        row(flange(&a6063_t5().sound()), [9.7, 25.6, 11.8, 0.083, 50.0, 382.0]);
        row(flange(&a6063_t6().sound()), [15.2, 22.8, 19.0, 0.170, 39.0, 484.0]);
        row(flange(&a6082_t6().sound()), [23.0, 20.3, 29.8, 0.333, 31.0, 606.0]);
        row(flange(&a6061_t6().weld_affected()), [9.1, 28.2, 12.0, 0.105, 58.0, 346.0]);
    }

    /// The same tables, elements held along one edge.
    #[test]
    fn leg_rows_match_part_vi() {
        row(leg(&a6061_t6().sound()), [21.2, 6.7, 27.3, 0.91, 10.5, 186.0]);
        row(leg(&a6063_t5().sound()), [9.7, 8.2, 11.8, 0.26, 15.9, 122.0]);
        row(leg(&a6063_t6().sound()), [15.2, 7.3, 19.0, 0.53, 12.6, 155.0]);
    }

    /// The same tables; two cells of 6063-T6 are unreadable in the copy at hand and were computed (0.1503, 1298).
    #[test]
    fn web_rows_match_part_vi() {
        row(web(&a6061_t6().sound()), [31.8, 33.1, 40.5, 0.262, 77.0, 1563.0]);
        row(web(&a6063_t5().sound()), [14.5, 36.1, 17.2, 0.072, 119.0, 1017.0]);
        row(web(&a6063_t6().sound()), [22.7, 34.7, 27.9, 0.1503, 93.0, 1298.1]);
        row(web(&a6082_t6().sound()), [34.5, 32.6, 44.4, 0.301, 74.0, 1635.0]);
        row(web(&a6061_t6().weld_affected()), [13.6, 36.2, 16.0, 0.065, 123.0, 982.0]);
    }

    #[test]
    fn shear_rows_match_part_vi() {
        row(shear_web(&a6061_t6().sound()), [12.7, 35.3, 16.5, 0.107, 63.0, 38665.0]);
        for (metal, y, l1, b, s, l2) in [
            (a6063_t5().sound(), 5.8, 43.6, 7.2, 0.031, 96.0),
            (a6063_t6().sound(), 9.1, 38.7, 11.5, 0.062, 76.0),
            (a6082_t6().sound(), 13.8, 34.5, 18.0, 0.122, 60.0),
            (a6061_t6().weld_affected(), 5.5, 47.5, 7.3, 0.038, 126.0),
        ] {
            row(shear_web(&metal), [y, l1, b, s, l2, 38665.0]);
        }
    }

    /// `k1`, `k2` change with the temper in uniform compression only.
    #[test]
    fn post_buckling_constants_follow_the_temper_only_in_compression() {
        let (sound, welded) = (a6061_t6().sound(), a6061_t6().weld_affected());
        let share = |c: Curve| c.lambda2 * c.slope / c.intercept;
        assert_relative_eq!(share(flange(&sound)), 0.35, max_relative = 1e-12);
        assert_relative_eq!(share(flange(&welded)), 0.50, max_relative = 1e-12);
        assert_relative_eq!(share(web(&sound)), 0.50, max_relative = 1e-12);
        assert_relative_eq!(share(web(&welded)), 0.50, max_relative = 1e-12);
    }

    /// Division, not multiplication, in the second form of m; both meet at the symmetric web: 0.65.
    #[test]
    fn stress_gradient_coefficient() {
        assert_relative_eq!(stress_gradient(1.0, -1.0), 0.65, max_relative = 1e-12);
        assert_relative_eq!(stress_gradient(1.0 - 1e-9, -1.0), 0.65, max_relative = 1e-8);
        assert_relative_eq!(stress_gradient(2.0, -1.0), 1.3 / 3.0, max_relative = 1e-12);
        assert_relative_eq!(stress_gradient(-1.0, -1.0 - 1e-12), 1.65, max_relative = 1e-9);
    }

    /// Part VII example 12: 4 x 4 x 0.063 tube wall, elastic buckling 10.3 ksi.
    #[test]
    fn elastic_stress_matches_example_12() {
        printed(elastic_buckling(&a3003_h14().sound(), (4.0 - 0.126) / 0.063) / KSI, 10.3, 0.05);
    }
}

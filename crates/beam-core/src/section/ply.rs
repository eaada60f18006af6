//! Moduli of plywood from those of its veneers: the ply rule.

use super::error::SectionError;
use crate::quantity::{Length, Pressure, positive, si};

/// The four moduli of a plywood, along and across the grain of its face veneers.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct PlyModuli {
    /// Stretching, along the face grain.
    pub membrane_along: Pressure,
    /// Stretching, across the face grain.
    pub membrane_across: Pressure,
    /// Bending, along the face grain.
    pub flexural_along: Pressure,
    /// Bending, across the face grain.
    pub flexural_across: Pressure,
}

/// Moduli of a plywood whose veneers alternate in direction, faces along the grain.
///
/// `plies` are the veneer thicknesses from face to face. `along` and `across` are the veneer's own moduli.
///
/// # Valid for
/// An odd number of veneers, at least 3, the same from both faces; stiffness only, no shear between plies.
///
/// # Errors
/// A modulus or thickness not above 0; an even or too small number of veneers; a lay-up that is not symmetric.
///
/// # References
/// Parallel-axis sum over the plies; Wood Handbook FPL-GTR-282 (2021) for the veneer moduli.
pub fn ply_rule(along: Pressure, across: Pressure, plies: &[Length]) -> Result<PlyModuli, SectionError> {
    let thick: Vec<f64> = plies.iter().map(|t| t.value).collect();
    let [membrane_along, membrane_across, flexural_along, flexural_across] =
        ply_rule_si(along.value, across.value, &thick)?;
    Ok(PlyModuli {
        membrane_along: si(membrane_along),
        membrane_across: si(membrane_across),
        flexural_along: si(flexural_along),
        flexural_across: si(flexural_across),
    })
}

/// [membrane along, membrane across, flexural along, flexural across] in Pa; `plies` in any one unit.
pub(crate) fn ply_rule_si(along: f64, across: f64, plies: &[f64]) -> Result<[f64; 4], SectionError> {
    positive("veneer modulus along the grain", along, "Pa", "look it up by species")?;
    positive("veneer modulus across the grain", across, "Pa", "about 0.06 of the one along the grain")?;
    for (i, t) in plies.iter().enumerate() {
        positive(format!("veneer {} thickness", i + 1), *t, "m", "measure at a cut edge")?;
    }
    if plies.len() < 3 || plies.len().is_multiple_of(2) {
        return Err(SectionError::out_of_range(
            "number of veneers",
            plies.len() as f64,
            "",
            "3, 5, 7 ...",
            "count the veneers at a cut edge; two parallel ones that touch are one",
        ));
    }
    let total: f64 = plies.iter().sum();
    for (i, (a, b)) in plies.iter().zip(plies.iter().rev()).enumerate() {
        if (a - b).abs() > 1e-6 * total {
            return Err(SectionError::out_of_range(
                format!("veneer {} thickness", i + 1),
                *a,
                "m",
                format!("{b:.6} m, as its partner from the other face"),
                "only symmetric plywood has one neutral plane for both directions",
            ));
        }
    }
    let mut moduli = [0.0; 4];
    let mut z = -total / 2.0;
    for (i, t) in plies.iter().enumerate() {
        let (e_along, e_across) = if i % 2 == 0 { (along, across) } else { (across, along) };
        let stretch = t / total;
        let bend = 4.0 * ((z + t).powi(3) - z.powi(3)) / total.powi(3);
        moduli[0] += e_along * stretch;
        moduli[1] += e_across * stretch;
        moduli[2] += e_along * bend;
        moduli[3] += e_across * bend;
        z += t;
    }
    Ok(moduli)
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// Thin faces (a fifth each), red meranti veneer: E_L 9330, E_T 560 MPa (PLY_thin rows).
    #[test]
    fn thin_faced_three_ply() {
        let got = ply_rule_si(9330.0, 560.0, &[0.2, 0.6, 0.2]).unwrap();
        for (value, expected) in got.into_iter().zip([4068.0, 5822.0, 7435.68, 2454.32]) {
            assert_relative_eq!(value, expected, max_relative = 1e-9);
        }
    }

    /// Three equal plies: the bending moduli are 26/27 and 1/27 of the veneer's, by hand.
    #[test]
    fn equal_three_ply() {
        let got = ply_rule_si(27.0, 1e-9, &[1.0, 1.0, 1.0]).unwrap();
        for (value, expected) in got.into_iter().zip([18.0, 9.0, 26.0, 1.0]) {
            assert_relative_eq!(value, expected, max_relative = 1e-9);
        }
    }

    #[test]
    fn lay_ups_without_one_neutral_plane_are_refused() {
        assert!(ply_rule_si(9330.0, 560.0, &[1.0, 1.0]).is_err());
        assert!(ply_rule_si(9330.0, 560.0, &[1.0, 1.0, 2.0]).is_err());
        assert!(ply_rule_si(9330.0, f64::NAN, &[1.0, 1.0, 1.0]).is_err());
    }
}

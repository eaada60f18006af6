//! Axial force with bending of hollow sections: used parts of the resistance, which must not exceed one.

use crate::quantity::{Force, Moment, Ratio, si};
use crate::strength::{Basis, Limit, OutOfRange, at_least_zero, positive, within};

const SECTION: &str = "EN 1999-1-1:2007 6.2.9.2";
const MEMBER: &str = "EN 1999-1-1:2007 6.3.3.1(3)";

/// The section, 6.2.9.2: `(N/(w0 N_Rd))^1.3 + ((My/(w0 My,Rd))^1.7 + (Mz/(w0 Mz,Rd))^1.7)^0.6`. Pairs are applied and
/// resistance; `omega_0` is 1 without a weld.
///
/// # Errors
/// [`OutOfRange`] for a resistance not above zero, an `omega_0` outside 0 to 1, or an action that is no number.
///
/// # References
/// EN 1999-1-1:2007, 6.2.9.2, from memory.
pub fn section_used(
    axial: (Force, Force),
    about_y: (Moment, Moment),
    about_z: (Moment, Moment),
    omega_0: Ratio,
) -> Result<Limit<Ratio>, OutOfRange> {
    let w = within(SECTION, "omega_0", omega_0.value, 1e-3, 1.0)?;
    let n = part(SECTION, "axial force (N)", axial.0.value, axial.1.value)? / w;
    let used = n.powf(1.3) + bending(SECTION, about_y, about_z, w)?;
    Ok(Limit::new("axial force and bending", si(used), Basis::memory("EN 1999-1-1:2007, 6.2.9.2")))
}

/// The member, 6.3.3.1(3): `(N/N_b,Rd)^0.8 + (1/w0)((My/My,Rd)^1.7 + (Mz/Mz,Rd)^1.7)^0.6`, with `N_b,Rd` of the axis
/// that buckles first and `omega_x` in it.
///
/// With one moment alone the bending term has the power 1.02. Moments are those of the undeformed member with its
/// initial bow left out: the rule itself stands for second-order effects.
///
/// # Errors
/// As [`section_used`].
///
/// # References
/// EN 1999-1-1:2007, 6.3.3.1(3), from memory.
pub fn member_used(
    axial: (Force, Force),
    about_y: (Moment, Moment),
    about_z: (Moment, Moment),
    omega_0: Ratio,
) -> Result<Limit<Ratio>, OutOfRange> {
    let w = within(MEMBER, "omega_0", omega_0.value, 1e-3, 1.0)?;
    let n = part(MEMBER, "axial force (N)", axial.0.value, axial.1.value)?;
    let used = n.powf(0.8) + bending(MEMBER, about_y, about_z, 1.0)? / w;
    Ok(Limit::new("buckling with bending", si(used), Basis::memory("EN 1999-1-1:2007, 6.3.3.1(3)")))
}

fn bending(
    rule: &'static str,
    y: (Moment, Moment),
    z: (Moment, Moment),
    omega_0: f64,
) -> Result<f64, OutOfRange> {
    let y = part(rule, "moment about y (N m)", y.0.value, y.1.value)? / omega_0;
    let z = part(rule, "moment about z (N m)", z.0.value, z.1.value)? / omega_0;
    Ok((y.powf(1.7) + z.powf(1.7)).powf(0.6))
}

fn part(rule: &'static str, what: &'static str, applied: f64, resistance: f64) -> Result<f64, OutOfRange> {
    Ok(at_least_zero(rule, what, applied.abs())? / positive(rule, "resistance", resistance)?)
}

#[cfg(test)]
mod tests {
    use super::super::BucklingClass::A;
    use super::super::samples::*;
    use super::*;
    use approx::assert_relative_eq;

    /// 40 x 40 x 3, 160 MPa, 2 m, N 3 kN, M 300 N m: 0.6138875782, computed apart from this code.
    #[test]
    fn member_with_one_moment() {
        let t = tube(40.0, 40.0, 3.0, 160.0, A);
        let n = t.compression(si(2.0), si(2.0), None).unwrap().member;
        let m = t.bending(si(2.0)).unwrap().least;
        let used = member_used((si(-3000.0), n), (si(300.0), m), (si(0.0), m), si(1.0)).unwrap();
        assert_relative_eq!(used.value.value, 0.6138875782, max_relative = 1e-8);
    }

    /// Two equal moments of half use (2 x 0.5^1.7)^0.6; one moment has the power 1.02, not 1.
    #[test]
    fn section_powers() {
        let none = (si(0.0), si(1.0));
        let half = (si(0.5), si(1.0));
        let one = section_used((si(0.0), si(1.0)), half, none, si(1.0)).unwrap().value.value;
        assert_relative_eq!(one, 0.5f64.powf(1.02), max_relative = 1e-12);
        let two = section_used((si(0.5), si(1.0)), half, half, si(1.0)).unwrap().value.value;
        let by_hand = 0.5f64.powf(1.3) + (2.0 * 0.5f64.powf(1.7)).powf(0.6);
        assert_relative_eq!(two, by_hand, max_relative = 1e-12);
        let welded = section_used((si(0.0), si(1.0)), half, none, si(0.5)).unwrap().value.value;
        assert_relative_eq!(welded, 1.0, max_relative = 1e-12);
    }

    #[test]
    fn nothing_to_hold_against_is_no_ratio() {
        let m = (si(1.0), si(1.0));
        assert!(section_used((si(1.0), si(0.0)), m, m, si(1.0)).is_err());
        assert!(member_used((si(f64::NAN), si(1.0)), m, m, si(1.0)).is_err());
        assert!(member_used((si(1.0), si(1.0)), m, m, si(0.0)).is_err());
    }
}

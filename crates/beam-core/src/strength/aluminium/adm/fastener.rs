//! Bolts and rivets, ADM 2020 J.3 and J.4.

use super::format::{Format, LimitState};
use crate::quantity::{Force, Length, Pressure, si};
use crate::strength::{Basis, Limit, OutOfRange, positive};
use std::f64::consts::PI;

/// Bearing of one bolt or rivet on a ply: `de t Ftu`, at most `2 D t Ftu`; `edge` is the distance from the centre of
/// the hole to the edge the force points at.
///
/// # Valid for
/// Edge distances from 1.5 D (from memory); round holes.
///
/// # Errors
/// [`OutOfRange`] for a nearer edge, or a measure that is not above zero.
///
/// # References
/// ADM 2020, J.3.6 and J.4.6; part VII, example 7.
pub fn fastener_bearing(
    diameter: Length,
    thickness: Length,
    ftu: Pressure,
    edge: Length,
    format: Format,
) -> Result<Limit<Force>, OutOfRange> {
    let rule = "ADM 2020 J.3.6 and J.4.6, bearing";
    let nominal = bearing(rule, diameter, thickness, ftu, edge)?;
    let available = format.factor(LimitState::RuptureOrCrippling) * nominal;
    Ok(Limit::new("bearing", si(available), Basis::published(format!("{}, J.3.6, J.4.6", format.name()))))
}

/// Nominal bearing, N.
pub(super) fn bearing(
    rule: &'static str,
    diameter: Length,
    thickness: Length,
    ftu: Pressure,
    edge: Length,
) -> Result<f64, OutOfRange> {
    let d = positive(rule, "diameter (m)", diameter.value)?;
    let t = positive(rule, "thickness (m)", thickness.value)?;
    let ftu = positive(rule, "tensile ultimate strength (Pa)", ftu.value)?;
    let edge = positive(rule, "edge distance (m)", edge.value)?;
    if edge < 1.5 * d * (1.0 - 1e-9) {
        let allowed = format!("must be at least 1.5 diameters, {:.2} mm", 1.5 * d * 1e3);
        return Err(OutOfRange::new(rule, "edge distance (m)", edge, allowed));
    }
    Ok(edge.min(2.0 * d) * t * ftu)
}

/// Shear of one solid rivet in one plane, by the diameter of its hole, which it fills.
///
/// # Errors
/// [`OutOfRange`] for a measure that is not above zero.
///
/// # References
/// ADM 2020, J.4; part VII, example 7.
pub fn rivet_shear(hole: Length, fsu: Pressure, format: Format) -> Result<Limit<Force>, OutOfRange> {
    let rule = "ADM 2020 J.4, rivet shear";
    let d = positive(rule, "diameter of the hole (m)", hole.value)?;
    let fsu = positive(rule, "shear ultimate strength (Pa)", fsu.value)?;
    let available = format.factor(LimitState::FastenerShear) * PI * d * d / 4.0 * fsu;
    Ok(Limit::new("rivet shear", si(available), Basis::published(format!("{}, J.4", format.name()))))
}

#[cfg(test)]
mod tests {
    use super::super::alloy::samples::{INCH, KSI, printed};
    use super::*;

    const KIP: f64 = 4448.2216152605;

    /// Part VII, example 7: rivet hole 0.191 in, 26 ksi: 0.32 kip; bearing on 0.063 in, 37 ksi, edge 0.375 in: 0.448,
    /// capped at 0.46 kip.
    #[test]
    fn example_7() {
        let (d, t, ftu) = (si(0.191 * INCH), si(0.063 * INCH), si(37.0 * KSI));
        printed(rivet_shear(d, si(26.0 * KSI), Format::Asd).unwrap().value.value / KIP, 0.32, 0.005);
        let at =
            |edge: f64| fastener_bearing(d, t, ftu, si(edge * INCH), Format::Asd).unwrap().value.value / KIP;
        printed(at(0.375), 0.448, 0.0006);
        printed(at(2.0), 0.46, 0.005);
    }

    #[test]
    fn too_near_an_edge_is_refused() {
        let refused = fastener_bearing(si(0.005), si(0.002), si(250e6), si(0.007), Format::Asd).unwrap_err();
        assert!(refused.to_string().contains("1.5 diameters"), "{refused}");
    }
}

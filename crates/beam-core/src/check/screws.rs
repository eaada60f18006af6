//! Screws that hold a brace's ends on the ledger: against lifting in rebound, and against creeping off the seat.

use crate::loads::Factors;
use crate::quantity::{INCH, KSI, si};
use crate::strength::aluminium::adm::{Format, Ply, ScrewJoint};
use crate::strength::wood_screw::WoodScrew;
use crate::strength::{Basis, OutOfRange};
use crate::survey::{Brace, LayerMaterial, MemberMaterial, MemberSection, Survey};
use section_tables::Property;

/// A screw is taken to bite so many diameters into the ledger: the least that counts.
const BITES: f64 = 6.0;
/// Least distance from the ledger's edge, in diameters: loaded edge, NDS, from memory.
const EDGE: f64 = 4.0;
/// A wood screw's head over its diameter (practice).
const HEAD: f64 = 2.0;
/// Weight at 12 percent moisture over weight oven-dry; the little that wood swells is left out.
const MOIST: f64 = 1.12;

/// What the screws of one end hold together, N.
#[derive(Debug, Clone)]
pub(crate) struct ScrewLimits {
    pub pull: f64,
    pub push: f64,
    pub basis: Basis,
}

/// Limits of the screws at either end of a brace, loads unfactored: least of wood and tube.
///
/// # Errors
/// In words, what is not known or not allowed.
pub(crate) fn screw_limits(survey: &Survey, factors: &Factors, brace: &Brace) -> Result<ScrewLimits, String> {
    let seat = brace.seat.as_ref().ok_or("no seat is given")?;
    let n = match seat.screws {
        Some(n) if n > 0 => f64::from(n),
        _ => {
            return Err(
                "no screws are given: nothing keeps the brace from creeping off its seat on the road"
                    .to_owned(),
            );
        }
    };
    let d = seat.screw.ok_or("the diameter of the seat's screws is not given")?.value;
    let edge = seat.edge.ok_or("the distance of the screws from the nearest edge is not given")?.value;
    if edge < EDGE * d * (1.0 - 1e-9) {
        return Err(format!(
            "screws of {:.1} mm need {:.0} mm to the nearest edge of the ledger, and {:.0} mm are given: it splits",
            d * 1e3,
            EDGE * d * 1e3,
            edge * 1e3
        ));
    }
    if survey.wall.depth.is_some_and(|depth| depth.value < BITES * d) {
        return Err(format!("the ledger is too thin: screws must bite {:.0} mm", BITES * d * 1e3));
    }
    let Some(LayerMaterial::Table(wood)) = &survey.wall.material else {
        return Err("the material of the ledger is not a wood of the tables".to_owned());
    };
    // Only timber is known across its grain.
    let Some(density) = wood.get(Property::CompressionPerpendicular).and(wood.get(Property::Density)) else {
        return Err(format!("screws in {} are not worked out", wood.id));
    };
    let (MemberMaterial::Alloy(alloy), MemberSection::Tube { wall, .. }) = (&brace.material, &brace.section)
    else {
        return Err("screws through anything but an aluminium tube are not worked out".to_owned());
    };
    // Screws are judged by the manual whatever book is chosen, loads unfactored.
    let alloy =
        alloy.by_adm().map_err(|why| format!("screws are judged by ADM 2020 J.5 alone, and {why}"))?;
    let wall = wall.value * factors.wall_tolerance;
    let ply = Ply { thickness: si(wall), ftu: si(alloy.f_tu_ksi * KSI), fty: si(alloy.f_ty_ksi * KSI) };
    let limits = || -> Result<ScrewLimits, OutOfRange> {
        let screw = WoodScrew {
            diameter: si(d),
            penetration: si(BITES * d),
            gravity: density.low / (1000.0 * MOIST),
            side: si(wall),
            side_bearing: si(2.0 * alloy.f_tu_ksi * KSI),
        };
        // Tilting counts as if what lies behind were no thicker than the tube's wall.
        let joint = ScrewJoint { diameter: si(d), head_ply: ply, far_ply: ply, edge: si(edge) };
        let head = HEAD * d;
        let over = joint.pull_over(si(head), si(d), true, Format::Asd)?;
        Ok(ScrewLimits {
            pull: n * screw.withdrawal()?.value.value.min(over.value.value),
            push: n * screw.lateral()?.value.value.min(joint.shear(Format::Asd)?.value.value),
            basis: Basis::memory(
                "NDS 12.2.2, 12.3.1 and ADM 2020 ASD J.5; bite 6 diameters, head 2 diameters (practice)",
            ),
        })
    };
    limits().map_err(|e| format!("{e}{}", small_head(d)))
}

/// Pull-over is given for heads of 5/16 in and more.
fn small_head(d: f64) -> &'static str {
    if HEAD * d < 5.0 / 16.0 * INCH { "; take screws of 4 mm or more" } else { "" }
}

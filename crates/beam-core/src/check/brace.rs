//! Braces: bending with axial force and shear by the Aluminum Design Manual, glue line, bearing on the ledger.

use super::context::{CaseState, Context};
use super::finding::{Check, Finding};
use crate::model::{IdealBrace, MemberKind};
use crate::quantity::si;
use crate::response::Layout;
use crate::strength::aluminium::RectangularTube;
use crate::strength::aluminium::adm::{
    AdmAlloy, Flexure, Format, LocalMethod, Weld, compression, shear, tension,
};
use crate::strength::{Basis, OutOfRange};

/// Held length of a tube whose whole length is glued to a skin, m: the rule wants a length above zero.
const HELD: f64 = 0.01;

/// What one tube may carry, allowable strength design, SI.
#[derive(Debug, Clone)]
pub(crate) struct TubeStrength {
    pub bending: f64,
    pub shear: f64,
    pub tension: f64,
    pub compression: f64,
    pub basis: Basis,
}

/// What a brace may carry. Its nominal wall is taken less the tolerance; glued to a skin it is held all along.
///
/// # Errors
/// In words, why no number can be given.
pub(crate) fn tube_strength(brace: &IdealBrace, wall_tolerance: f64) -> Result<TubeStrength, String> {
    let held = if brace.bonded { HELD } else { brace.x1 - brace.x0 };
    section_strength(&brace.kind, [brace.width, brace.depth], held, wall_tolerance)
}

/// What a member of a kind and of a width and depth may carry, held every so far.
///
/// # Errors
/// In words, why no number can be given.
pub(super) fn section_strength(
    kind: &MemberKind,
    [width, depth]: [f64; 2],
    held: f64,
    wall_tolerance: f64,
) -> Result<TubeStrength, String> {
    let MemberKind::AluminiumTube { alloy, wall, corner } = kind else {
        let MemberKind::ResponseOnly { why } = kind else { unreachable!("two kinds of member") };
        return Err(why.clone());
    };
    let strength = || -> Result<TubeStrength, OutOfRange> {
        let tube = RectangularTube::new(si(width), si(depth), si(wall * wall_tolerance))?
            .with_corner(si(*corner))?;
        let metal = AdmAlloy::from_table(alloy)?;
        let flexure = Flexure {
            tube,
            alloy: metal,
            unbraced: si(held),
            cb: 1.0,
            weld: Weld::None,
            local: LocalMethod::Weighted,
        }
        .strength(Format::Asd)?;
        Ok(TubeStrength {
            bending: flexure.least.value,
            shear: shear(&tube, &metal, Weld::None, Format::Asd)?.least.value,
            tension: tension(&tube, &metal, tube.area(), Weld::None, Format::Asd)?.least.value,
            compression: compression(&tube, &metal, si(held), Weld::None, Format::Asd)?.least.value,
            basis: Basis::published(format!(
                "ADM 2020 ASD, F ({}) and H.1 (from memory), wall less 10 % (practice)",
                flexure.governing.name()
            )),
        })
    };
    strength().map_err(|e| e.to_string())
}

/// Findings of all braces in one case.
pub(crate) fn brace_findings(
    context: &Context<'_>,
    layout: &Layout,
    case: &CaseState<'_>,
    strengths: &[Result<TubeStrength, String>],
) -> Vec<Finding> {
    let mut out = Vec::new();
    let factor = context.model_factor;
    for (place, (years, top)) in layout.braces.iter().zip(case.years.braces.iter().zip(&case.top.braces)) {
        let brace = &context.roof.braces[place.brace];
        let axial = years.axial + case.dynamic * top.axial;
        let moment = years.moment + case.dynamic * top.moment;
        let shear = years.shear + case.dynamic * top.shear;
        let finding = |check, demand: f64, limit: f64, si, ratio: f64, basis: &Basis| Finding {
            check,
            part: format!("brace {}", brace.name),
            load: case.name.to_owned(),
            footing: case.footing,
            person: None,
            x: place.x,
            y: brace.y,
            demand,
            limit,
            si,
            ratio,
            basis: basis.clone(),
        };
        if let Ok(s) = &strengths[place.brace] {
            let along = if axial < 0.0 { s.compression } else { s.tension };
            let used = axial.abs() / along + moment.abs() / s.bending;
            // One number beside another: the moment that alone would use as much.
            let demand = used * s.bending;
            out.push(finding(Check::Brace, demand, s.bending, "N m", used * factor, &s.basis));
            out.push(finding(
                Check::BraceShear,
                shear.abs(),
                s.shear,
                "N",
                shear.abs() / s.shear * factor,
                &s.basis,
            ));
        }
        if let (true, Some(glue)) = (brace.bonded, &brace.glue) {
            // Softer than its limit allows, a glue is not counted on at all.
            let left = if case.hot && context.roof_hot > glue.heat_limit_c { 0.0 } else { 1.0 };
            let share = |flow: f64, strength: f64| {
                if flow == 0.0 { 0.0 } else { flow.abs() / (brace.glue_width * strength * left) }
            };
            let lasting = share(years.flow, glue.lasting);
            let short = share(case.dynamic * top.flow, glue.short);
            let demand = (years.flow + case.dynamic * top.flow).abs() / brace.glue_width;
            let used = lasting + short;
            let limit = if used > 0.0 && used.is_finite() { demand / used } else { glue.short * left };
            let basis = Basis { source: format!("adhesives table: {}", glue.source).into(), kind: glue.kind };
            out.push(finding(Check::GlueLine, demand, limit, "Pa", used * factor, &basis));
        }
    }
    for (i, (years, top)) in case.years.ends.iter().zip(&case.top.ends).enumerate() {
        let brace = &context.roof.braces[layout.ends[i]];
        let (Some(seat), Some(bearing)) = (&brace.seat, &context.ledger) else { continue };
        let area = seat.bearing_length.value * brace.width;
        for (end, x) in [(0, brace.x0), (1, brace.x1)] {
            let lasting = years[end].max(0.0) / area;
            let short = case.dynamic * top[end].max(0.0) / area;
            let used = lasting / bearing.lasting + short / bearing.short;
            let limit = if used > 0.0 { (lasting + short) / used } else { bearing.short };
            out.push(Finding {
                check: Check::SeatBearing,
                part: format!("brace {}", brace.name),
                load: case.name.to_owned(),
                footing: case.footing,
                person: None,
                x,
                y: brace.y,
                demand: lasting + short,
                limit,
                si: "Pa",
                ratio: used * factor,
                basis: bearing.basis.clone(),
            });
        }
    }
    out
}

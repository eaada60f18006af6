//! The tube against the Aluminum Design Manual, by second-order forces.

use super::{BraceError, BraceStrength, Case, LOPSIDED, TubeSection};
use crate::check::{BasisWords, Finite, Verdict};
use crate::quantity::{si, significant};
use crate::strength::aluminium::RectangularTube;
use crate::strength::aluminium::adm::{
    AdmAlloy, Flexure, Format, LocalMethod, Weld, compression, shear, tension,
};
use crate::strength::{BasisKind, OutOfRange};
use crate::strip::{Arch, ArchLoad};
use section_tables::{Alloy, Tables};

/// ADM 2020 C.2, from memory: stiffness for the second-order analysis, and what ASD loads are raised by in it.
const STIFFNESS: f64 = 0.8;
const RAISED: f64 = 1.6;

/// What the tube may carry, N m and N.
struct Limits {
    bending: f64,
    tension: f64,
    compression: f64,
    shear: f64,
    mode: &'static str,
}

/// The verdict, or in words why the rules give none.
pub(super) fn judge(
    case: &Case<'_>,
    tables: &Tables,
) -> Result<(Option<BraceStrength>, Option<String>), BraceError> {
    let tolerance = match case.question.section {
        TubeSection::Named(_) => tables.factor("wall_thickness_tolerance")?.value,
        TubeSection::Measured { .. } => 1.0,
    };
    if let Some(why) = flattens(case) {
        return Ok((None, Some(why)));
    }
    let row = match case.alloy.by_adm() {
        Ok(row) => row,
        Err(why) => return Ok((None, Some(why))),
    };
    let limits = match limits(case, row, tolerance) {
        Ok(limits) => limits,
        Err(why) => return Ok((None, Some(why.to_string()))),
    };
    let found = used(case, &limits)?;
    let (check, ratio) = match found {
        Some([bent, sheared]) if sheared > bent => ("shear", Some(sheared)),
        Some([bent, _]) => ("axial force and bending", Some(bent)),
        None => ("snap", None),
    };
    let verdict = if ratio.is_some_and(|ratio| ratio <= 1.0) { Verdict::Holds } else { Verdict::DoesNotHold };
    Ok((
        Some(BraceStrength {
            verdict,
            check: check.to_owned(),
            ratio: ratio.map(|ratio| Finite::new(ratio, "ratio")).transpose()?,
            bending: Finite::new(limits.bending, "allowable moment")?,
            compression: Finite::new(limits.compression, "allowable compression")?,
            shear: Finite::new(limits.shear, "allowable shear")?,
            basis: BasisWords {
                source: format!("ADM 2020 ASD, E, F ({}), G; C.2 and H.1 from memory", limits.mode),
                kind: BasisKind::Memory.max(row.kind.into()).to_string(),
            },
        }),
        None,
    ))
}

/// A tube bent so sharply that its walls bend across, against what the rules for straight tubes know; in words.
///
/// Stress `s` along a flange of a tube bent to the radius `R` presses it in or out with `s t/R`; as a strip of clear
/// width `w` held at both edges it is bent across by `s w^2/(2 R t)` (beam theory, computed).
fn flattens(case: &Case<'_>) -> Option<String> {
    /// Stress across over stress along that is let pass.
    const SMALL: f64 = 0.2;
    let [width, _, wall, _] = case.size;
    let radius = case.arch.radius().ok()?.value;
    let across = (width - 2.0 * wall).powi(2) / (2.0 * radius * wall);
    (across > SMALL).then(|| {
        format!(
            "ADM 2020 E, F are for straight tubes: at a radius of {} mm these walls bend across by {:.0} % of the stress \
             along, and more than {:.0} % is not judged; take a thicker wall, a smaller tube or a flatter curve",
            significant(radius * 1e3, 3),
            across * 100.0,
            SMALL * 100.0
        )
    })
}

fn limits(case: &Case<'_>, row: &Alloy, tolerance: f64) -> Result<Limits, OutOfRange> {
    let [width, depth, wall, corner] = case.size;
    let tube = RectangularTube::new(si(width), si(depth), si(wall * tolerance))?.with_corner(si(corner))?;
    let metal = AdmAlloy::from_table(row)?;
    // Nothing holds it sideways between its ends: the whole arc may buckle out of its plane.
    let half = 2.0 * (2.0 * case.arch.rise.value / case.arch.span.value).atan();
    let arc = si(case.arch.span.value * half / half.sin());
    let flexure = Flexure {
        tube,
        alloy: metal,
        unbraced: arc,
        cb: 1.0,
        weld: Weld::None,
        local: LocalMethod::Weighted,
    }
    .strength(Format::Asd)?;
    Ok(Limits {
        bending: flexure.least.value,
        tension: tension(&tube, &metal, tube.area(), Weld::None, Format::Asd)?.least.value,
        compression: compression(&tube, &metal, arc, Weld::None, Format::Asd)?.least.value,
        shear: shear(&tube, &metal, Weld::None, Format::Asd)?.least.value,
        mode: flexure.governing.name(),
    })
}

/// Used parts of strength, by axial force with bending and by shear, of the softened and lopsided brace; `None` where
/// it gives way before it carries the raised load.
fn used(case: &Case<'_>, limits: &Limits) -> Result<Option<[f64; 2]>, BraceError> {
    let arch = Arch {
        axial: case.arch.axial * STIFFNESS,
        bending: case.arch.bending * STIFFNESS,
        shear: case.arch.shear * STIFFNESS,
        ..case.arch
    };
    let loads: Vec<ArchLoad> = case
        .loads
        .iter()
        .map(|load| match *load {
            ArchLoad::Point { force, x } => ArchLoad::Point { force: force * RAISED, x },
            ArchLoad::Uniform(load) => ArchLoad::Uniform(load * RAISED),
            other => other,
        })
        .collect();
    let mut worst = [0.0_f64; 2];
    for sign in [1.0, -1.0] {
        let Some(state) = arch.solve_large(&loads, arch.span * (sign * LOPSIDED))? else { return Ok(None) };
        for station in state.stations() {
            let axial = station.compression.value / RAISED;
            let along = if axial > 0.0 { limits.compression } else { limits.tension };
            let bent =
                axial.abs() / along + case.curved * station.moment.value.abs() / RAISED / limits.bending;
            worst[0] = worst[0].max(bent);
            worst[1] = worst[1].max(station.shear.value.abs() / RAISED / limits.shear);
        }
    }
    Ok(Some(worst))
}

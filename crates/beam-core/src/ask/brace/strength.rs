//! The tube against the rule book chosen, by second-order forces.

use super::{BraceError, BraceStrength, Case, LOPSIDED, TubeSection};
use crate::check::{BasisWords, Clauses, Finite, Resistance, Verdict, resistance};
use crate::loads::Aluminium;
use crate::quantity::{si, significant};
use crate::response::BraceForces;
use crate::strength::aluminium::RectangularTube;
use crate::strength::aluminium::en1999::BucklingClass;
use crate::strength::{BasisKind, OutOfRange};
use crate::strip::{Arch, ArchLoad};
use crate::survey::AluminiumRules;
use section_tables::Tables;

/// How a book has forces of the second order worked out, from memory.
struct Way {
    /// On the stiffness of the tube.
    stiffness: f64,
    /// On the loads; forces are divided by it again.
    raised: f64,
    /// Lopsidedness, part of the span.
    lopsided: f64,
}

impl Way {
    /// ADM 2020 C.2: stiffness times 0.8, ASD loads times 1.6. EN 1999-1-1 5.3: a bow of a part of the half wave, which
    /// is half the span, by buckling class (plastic analysis, Table 5.1); stiffness as it is.
    fn of(rules: AluminiumRules, class: BucklingClass) -> Self {
        match rules {
            AluminiumRules::Adm2020Asd => Self { stiffness: 0.8, raised: 1.6, lopsided: LOPSIDED },
            AluminiumRules::Adm2020Lrfd => Self { stiffness: 0.8, raised: 1.0, lopsided: LOPSIDED },
            AluminiumRules::En1999 => {
                let bow = if class == BucklingClass::A { 1.0 / 250.0 } else { 1.0 / 150.0 };
                Self { stiffness: 1.0, raised: 1.0, lopsided: bow / 2.0 }
            }
        }
    }
}

/// What the tube may carry, by which clauses, and its buckling class where the book has one.
struct Limits {
    may: Resistance,
    clauses: Clauses,
    class: BucklingClass,
}

/// The verdict, or in words why the rules give none.
pub(super) fn judge(
    case: &Case<'_>,
    tables: &Tables,
) -> Result<(Option<BraceStrength>, Option<String>), BraceError> {
    let rules = case.question.rules;
    let aluminium = Aluminium::of(rules, case.question.partial_factors, tables)?;
    let tolerance = match case.question.section {
        TubeSection::Named(_) => tables.factor("wall_thickness_tolerance")?.value,
        TubeSection::Measured { .. } => 1.0,
    };
    let limits = match flattens(case).map_or_else(|| limits(case, &aluminium, tolerance), Err) {
        Ok(limits) => limits,
        Err(why) => return Ok((None, Some(why))),
    };
    let found = match used(case, &limits)? {
        Ok(found) => found,
        Err(why) => return Ok((None, Some(why.to_string()))),
    };
    let (check, ratio) = match found {
        Some([bent, sheared]) if sheared > bent => ("shear", Some(sheared)),
        Some([bent, _]) => ("axial force and bending", Some(bent)),
        None => ("snap", None),
    };
    let verdict = if ratio.is_some_and(|ratio| ratio <= 1.0) { Verdict::Holds } else { Verdict::DoesNotHold };
    let second_order =
        if rules == AluminiumRules::En1999 { "5.3 (from memory)" } else { "E; C.2 (from memory)" };
    Ok((
        Some(BraceStrength {
            verdict,
            check: check.to_owned(),
            ratio: ratio.map(|ratio| Finite::new(ratio, "ratio")).transpose()?,
            bending: Finite::new(limits.may.bending, "allowable moment")?,
            compression: Finite::new(limits.may.compression, "allowable compression")?,
            shear: Finite::new(limits.may.shear, "allowable shear")?,
            basis: BasisWords {
                source: format!("{}; {}; {second_order}", limits.clauses.bending, limits.clauses.shear),
                kind: BasisKind::Memory.max(limits.clauses.metal).to_string(),
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
    /// Stress across over stress along that is let pass (judged, no source).
    const SMALL: f64 = 0.2;
    let [width, _, wall, _] = case.size;
    let radius = case.arch.radius().ok()?.value;
    let across = (width - 2.0 * wall).powi(2) / (2.0 * radius * wall);
    (across > SMALL).then(|| {
        format!(
            "the rules are for straight tubes (ADM 2020 E, F; EN 1999-1-1 6.2, 6.3): at a radius of {} mm these walls bend across by {:.0} % of the stress \
             along, and more than {:.0} % is not judged; take a thicker wall, a smaller tube or a flatter curve",
            significant(radius * 1e3, 3),
            across * 100.0,
            SMALL * 100.0
        )
    })
}

/// Nothing holds it sideways between its ends: the whole arc may buckle out of its plane.
fn limits(case: &Case<'_>, aluminium: &Aluminium, tolerance: f64) -> Result<Limits, String> {
    let [width, depth, wall, corner] = case.size;
    let tube = RectangularTube::new(si(width), si(depth), si(wall * tolerance))
        .and_then(|tube| tube.with_corner(si(corner)))
        .map_err(|e| e.to_string())?;
    let half = 2.0 * (2.0 * case.arch.rise.value / case.arch.span.value).atan();
    let arc = case.arch.span.value * half / half.sin();
    let (may, clauses) = resistance(&tube, &case.alloy, [wall, arc], aluminium)?;
    let class = if aluminium.rules == AluminiumRules::En1999 {
        case.alloy.by_en(si(wall), &aluminium.en_alloys)?.1.buckling_class
    } else {
        BucklingClass::A
    };
    Ok(Limits { may, clauses, class })
}

/// Used parts of strength, by axial force with bending and by shear, of the softened and lopsided brace; `None` where
/// it gives way before it carries the raised load.
fn used(case: &Case<'_>, limits: &Limits) -> Result<Result<Option<[f64; 2]>, OutOfRange>, BraceError> {
    let Way { stiffness, raised, lopsided } = Way::of(case.question.rules, limits.class);
    let arch = Arch {
        axial: case.arch.axial * stiffness,
        bending: case.arch.bending * stiffness,
        shear: case.arch.shear * stiffness,
        ..case.arch
    };
    let loads: Vec<ArchLoad> = case
        .loads
        .iter()
        .map(|load| match *load {
            ArchLoad::Point { force, x } => ArchLoad::Point { force: force * raised, x },
            ArchLoad::Uniform(load) => ArchLoad::Uniform(load * raised),
            other => other,
        })
        .collect();
    let mut worst = [0.0_f64; 2];
    for sign in [1.0, -1.0] {
        let Some(state) = arch.solve_large(&loads, arch.span * (sign * lopsided))? else {
            return Ok(Ok(None));
        };
        for station in state.stations() {
            let forces = BraceForces {
                axial: -station.compression.value / raised,
                moment: case.curved * station.moment.value / raised,
                shear: station.shear.value / raised,
                ..BraceForces::default()
            };
            let used = match limits.may.used(case.question.rules, &forces) {
                Ok(used) => used,
                Err(why) => return Ok(Err(why)),
            };
            worst = [worst[0].max(used.bending), worst[1].max(used.shear)];
        }
    }
    Ok(Ok(Some(worst)))
}

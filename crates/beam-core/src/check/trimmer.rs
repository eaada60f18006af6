//! Trimmers: bending and shear, as braces are checked; the force in their end joints is told, not judged.

use super::context::{CaseState, Context};
use super::finding::{Check, Finding, Numbers};
use super::tube::factored;
use crate::response::{BraceForces, Layout};
use crate::strength::Basis;

/// Findings of all trimmers in one case.
pub(crate) fn trimmer_findings(context: &Context<'_>, layout: &Layout, case: &CaseState<'_>) -> Vec<Finding> {
    let mut out = Vec::new();
    let forces = case.years.trimmers.iter().zip(&case.top.trimmers);
    for (place, (years, top)) in layout.trimmers.iter().zip(forces) {
        let trimmer = &context.roof.trimmers[place.trimmer];
        let Ok((strength, [bent, sheared])) = &context.trimmers[place.trimmer] else { continue };
        let forces = factored(&context.factors.aluminium, case.kind, years, top, case.dynamic);
        let most = |of: fn(&BraceForces) -> f64| forces.iter().map(|f| of(f).abs()).fold(0.0, f64::max);
        let (moment, shear) = (most(|f| f.moment), most(|f| f.shear));
        let finding = |check, demand: f64, limit: f64, si, basis: &Basis| {
            case.finding(
                check,
                trimmer.name.clone(),
                (place.x, place.y),
                Numbers { demand, limit, si, ratio: demand / limit * context.model_factor },
                basis.clone(),
            )
        };
        out.push(finding(Check::Brace, moment, strength.bending, "N m", bent));
        out.push(finding(Check::BraceShear, shear, strength.shear, "N", sheared));
    }
    out
}

/// Largest shear force at an end of each trimmer in one case, N: what its joints carry.
pub(crate) fn joint_forces(context: &Context<'_>, layout: &Layout, case: &CaseState<'_>) -> Vec<f64> {
    let mut most = vec![0.0; context.roof.trimmers.len()];
    let forces = case.years.trimmers.iter().zip(&case.top.trimmers);
    for (place, (years, top)) in layout.trimmers.iter().zip(forces) {
        let shear = context.model_factor * (years.shear + case.dynamic * top.shear).abs();
        most[place.trimmer] = f64::max(most[place.trimmer], shear);
    }
    most
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::Materials;
    use crate::loads::{CaseKind, Factors, Footing, Lasting};
    use crate::model::{Configuration, Hold, StageChoice, idealise};
    use crate::response::{Response, TrimmerPlace};
    use crate::survey;
    use section_tables::Tables;

    const ROOF: &str = r#"
survey = 1
title = "Seed library, potting bench"
lengths = "mm"
weights = "kg"
[roof]
kind = "laminated"
span = "2000"
rise = "30"
length = "1400"
like = "ply 3 / bead foam 50 / ply 3"
[[brace]]
name = "front"
tube = "1 x 1 x 1/8"
alloy = "6061-T6"
along = "400"
glued = []
[[brace]]
name = "rear"
tube = "1 x 1 x 1/8"
alloy = "6061-T6"
along = "1000"
glued = []
[[trimmer]]
between = ["front", "rear"]
across = "700"
tube = "1 x 1 x 1/8"
alloy = "6061-T6"
[limits]
model_factor = 1.05
"#;

    /// The used share is moment over moment, and shear over shear, whatever its sign; a road that shakes counts.
    #[test]
    fn a_trimmer_bent_twice_over_fails_twice_over() {
        let tables = Tables::shipped();
        let survey = survey::read_text("bench.toml", ROOF, tables).expect("a sound survey");
        let factors = Factors::of(&survey, tables).expect("factors");
        let configuration = Configuration {
            stage: StageChoice::Finished,
            with_new: true,
            bond: true,
            hold: Hold::all(&survey)[0],
        };
        let roof = idealise(&survey, configuration, Materials::Low, true).expect("a roof");
        let context = Context::new(&survey, &roof, &factors, Materials::Low).expect("a context");
        let (strength, _) = context.trimmers[0].as_ref().expect("a strength");
        let layout =
            Layout { trimmers: vec![TrimmerPlace { trimmer: 0, x: 0.7, y: 0.7 }], ..Layout::default() };
        let forces = |moment, shear| Response {
            trimmers: vec![BraceForces { moment, shear, ..BraceForces::default() }],
            ..Response::default()
        };
        let (years, top) = (forces(0.0, 10.0), forces(-strength.bending, -strength.shear - 5.0));
        let case = CaseState {
            name: "person",
            kind: CaseKind::Person,
            years: &years,
            top: &top,
            lasting: Lasting::Short,
            hot: false,
            dynamic: 2.0,
            footing: Footing::OnABoard,
            feet: &[],
        };
        let found = trimmer_findings(&context, &layout, &case);
        let of = |check| found.iter().find(|f| f.check == check).expect("a finding").ratio;
        assert!((of(Check::Brace) - 2.0 * 1.05).abs() < 1e-12);
        assert!((of(Check::BraceShear) - 2.0 * 1.05).abs() < 1e-12);
        assert!(found.iter().all(|f| f.part == "trimmer at 700 mm between front and rear"));
        assert!((joint_forces(&context, &layout, &case)[0] - 2.1 * strength.shear).abs() < 1e-9);
    }
}

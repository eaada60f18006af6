//! Rebound where nobody has said how the walls hold the roof down: what they would have to pull is told.
//!
//! Net upward by the factor of the tables: every roof with a unit lifts. Roofs of the trade lie on screws and sealant that are
//! seldom surveyed, so it is told with its figure and does not block, as it did before there was one.

use super::gaps::HOLD_DOWN;
use crate::check::{Context, Materials, NotChecked, rebound_pull};
use crate::loads::Factors;
use crate::model::IdealRoof;
use crate::quantity::{force, percent};
use crate::survey::Survey;

/// What is not checked of it.
pub(crate) fn gap(survey: &Survey, factors: &Factors, roof: &IdealRoof) -> Option<NotChecked> {
    if survey.wall.hold_down.is_some() || survey.unit.is_none() {
        return None;
    }
    let pulled = Context::new(survey, roof, factors, Materials::Default)
        .and_then(|context| rebound_pull(&context, survey).map_err(|e| e.to_string()));
    let (told, blocks) = match pulled {
        Ok((pull, _, _)) => (
            format!(
                "which pulls with up to {} on each metre (3.3 ft) of the side walls",
                force(pull * survey.limits.model_factor, survey.family)
            ),
            false,
        ),
        Err(why) => (format!("and with what it pulls cannot be told ({why})"), true),
    };
    Some(NotChecked {
        check: "seat screws".to_owned(),
        part: "panel".to_owned(),
        why: format!(
            "in rebound the roof lifts by {} of its weight, {told}, and it is not known what holds its edges down: {HOLD_DOWN}",
            percent(factors.rebound)
        ),
        blocks,
    })
}

#[cfg(test)]
mod tests {
    use crate::ask::{CheckOptions, check};
    use crate::survey::read_text;
    use section_tables::Tables;

    /// Statics by hand: 0.75 x (weight of a metre of roof)/2, and 1.5 x 0.75 x unit/(2 x span) in the middle of it.
    #[test]
    fn the_pull_is_that_of_statics() {
        let text = r#"
survey = 1
title = "Mask store, roof over the costume rail"
lengths = "mm"
weights = "kg"
[roof]
kind = "laminated"
span = "2000"
rise = "0"
length = "1600"
[material.board]
E = "7 GPa"
nu = 0.2
strength = { tension = "25 MPa", compression = "25 MPa", shear = "8 MPa", bending = "30 MPa" }
strength_is = "5 percent"
density = "600 kg/m3"
[material.foam]
E = "30 MPa"
nu = 0.3
strength = { tension = "0.6 MPa", compression = "0.6 MPa", shear = "0.45 MPa", crush = "0.6 MPa" }
strength_is = "5 percent"
density = "60 kg/m3"
[[layer]]
name = "outer skin"
material = "board"
thickness = "5"
[[layer]]
name = "core"
material = "foam"
thickness = "50"
[[layer]]
name = "inner skin"
material = "board"
thickness = "5"
[[opening]]
name = "hatch"
across = ["800", "1200"]
along = ["600", "1000"]
[unit]
weight = "40"
opening = "hatch"
[person]
way = "nobody"
HOLD
"#;
        let gap = |hold: &str| {
            let survey = read_text("store.toml", text.replace("HOLD", hold), Tables::shipped());
            let survey = survey.unwrap_or_else(|p| panic!("{p}"));
            let document = check(&survey, Tables::shipped(), CheckOptions::default()).unwrap();
            document.not_checked.into_iter().find(|n| n.why.starts_with("in rebound"))
        };
        let told = gap("").expect("it is told");
        let by_hand = 1.05 * 0.75 * 9.80665 * (9.0 * 2.0 / 2.0 + 1.5 * 40.0 / (2.0 * 2.0));
        let figure = told.why.split("up to ").nth(1).and_then(|t| t.split(' ').next()).expect("a figure");
        let figure: f64 = figure.parse().expect("a number");
        assert!(!told.blocks && (figure / by_hand - 1.0).abs() < 0.05, "{} and {by_hand}", told.why);
        assert!(gap("[wall]\nhold_down = \"2 kN/m\"").is_none());
    }
}

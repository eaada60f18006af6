//! End joints of trimmers: their force is told, their strength is not known.

use super::document::Study;
use crate::check::NotChecked;
use crate::survey::Survey;

/// The largest force in the end joints of each trimmer over all that was studied.
pub(crate) fn trimmer_ends(survey: &Survey, study: &Study) -> Vec<NotChecked> {
    let mut most: Vec<(&str, f64)> = Vec::new();
    for (name, force) in study.studied.iter().flat_map(|s| &s.joints) {
        match most.iter_mut().find(|(n, _)| n == name) {
            Some((_, kept)) => *kept = kept.max(*force),
            None => most.push((name, *force)),
        }
    }
    let told = |force: f64| crate::quantity::force(force, survey.family);
    most.into_iter()
        .map(|(name, force)| NotChecked {
            check: "brace shear".to_owned(),
            part: name.to_owned(),
            why: format!(
                "its end joints must carry {} each, in shear and either way: their strength is not checked",
                told(force)
            ),
            blocks: true,
        })
        .collect()
}

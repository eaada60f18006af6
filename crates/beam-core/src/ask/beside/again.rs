//! A changed roof studied again.

use crate::ask::study::{Job, Trouble, Variant};
use crate::check::{Finding, counts};

/// What came of it.
pub(super) struct Found {
    findings: Vec<Finding>,
    curvature: f64,
}

impl Found {
    /// Solves and evaluates a variant of a changed roof.
    ///
    /// # Errors
    /// In words, what is not known: a check that could not be made is no pass.
    pub(super) fn of(job: &Job<'_>, variant: Variant) -> Result<Found, String> {
        let found = job.study(variant).map_err(told)?.found;
        if let Some(what) = found.unknown.first() {
            return Err(format!("no {} is known for the {}", what.what, what.part));
        }
        match found.trouble.first() {
            Some(why) => Err(why.clone()),
            None => Ok(Found { findings: found.findings, curvature: found.curvature }),
        }
    }

    /// The same with feet tried too.
    ///
    /// # Errors
    /// See [`Found::of`]; and in words, a foot that counts and could not be tried.
    pub(super) fn with_feet(job: &Job<'_>, variant: Variant) -> Result<Found, String> {
        let mut found = Found::of(job, variant)?;
        let (feet, untried) = job.feet(variant, found.curvature).map_err(told)?;
        let way = job.survey.person.way;
        if let Some((check, _, why)) =
            untried.iter().find(|(check, footing, _)| counts(*check, *footing, way))
        {
            return Err(format!("{}: {why}", check.name()));
        }
        found.findings.extend(feet);
        Ok(found)
    }

    /// The worst of those wanted. A ratio that is no number is the worst there is.
    pub(super) fn worst(self, wanted: impl Fn(&&Finding) -> bool) -> Option<Finding> {
        let rank = |f: &Finding| if f.ratio.is_nan() { f64::INFINITY } else { f.ratio };
        let worst = self.findings.iter().filter(wanted).max_by(|a, b| rank(a).total_cmp(&rank(b)))?;
        Some(Finding { ratio: rank(worst).min(crate::check::RATIO_CAP), ..worst.clone() })
    }
}

/// What keeps a study from being made, in words.
pub(super) fn told(trouble: Trouble) -> String {
    match trouble {
        Trouble::Missing(list) => {
            list.into_iter().map(|m| format!("{}: {}", m.part, m.why)).collect::<Vec<_>>().join("; ")
        }
        Trouble::NotFinite(error) => error.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::Bracing;
    use crate::loads::Factors;
    use crate::model::Hold;
    use crate::survey::read_text;
    use section_tables::Tables;

    /// A foot over a slot is not worked out: a roof changed and tried with it has no finding, and is no pass.
    #[test]
    fn a_foot_that_could_not_be_tried_is_no_pass() {
        let of = |slot: &str| {
            let text = format!(
                r#"
survey = 1
title = "Puppet theatre, roof over the light rack"
lengths = "mm"
weights = "kg"
[roof]
kind = "laminated"
span = "1200"
rise = "0"
length = "800"
front = "cross wall"
rear = "cross wall"
like = "ply 3 / bead foam 50 / ply 3"
{slot}
[person]
mass = "80"
"#
            );
            let survey = read_text("rack.toml", &text, Tables::shipped()).unwrap_or_else(|p| panic!("{p}"));
            let factors = Factors::of(&survey, Tables::shipped()).unwrap();
            let job = Job::new(&survey, &factors, "finished".to_owned(), Vec::new());
            Found::with_feet(&job, Variant::finished(Bracing::Without, Hold::all(&survey)[0])).err()
        };
        assert_eq!(of(""), None);
        // Two wire ways beside each other: a foot between them is not worked out.
        let way = |from: u32| {
            format!("[[slot]]\nacross = [\"{from}\", \"{}\"]\nalong = [\"0\", \"800\"]\n", from + 40)
        };
        let why = of(&(way(500) + &way(600))).expect("not tried");
        assert!(why.contains("void"), "{why}");
    }
}

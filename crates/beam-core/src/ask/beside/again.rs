//! A changed roof studied again.

use crate::ask::study::{Job, Trouble, Variant};
use crate::check::Finding;

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
    /// See [`Found::of`].
    pub(super) fn with_feet(job: &Job<'_>, variant: Variant) -> Result<Found, String> {
        let mut found = Found::of(job, variant)?;
        let feet = job.feet(variant, found.curvature).map_err(told)?.0;
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

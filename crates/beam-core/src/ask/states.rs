//! The states of a finished roof alone, solved and evaluated: what the benchmarks time. It is no answer.

use super::check::{AskError, as_surveyed, grain_matters, variants};
use super::each::each;
use super::places::people_walking;
use super::study::{Job, Trouble};
use crate::check::Materials;
use crate::loads::Factors;
use crate::model::{Hold, StageChoice, idealise};
use crate::survey::Survey;
use section_tables::Tables;

/// Which states.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum States {
    /// One factorisation: default materials, fresh, its glue holding. Every load is solved and read, and every case of it
    /// that is not hot is judged as if nothing aged.
    One,
    /// The same roof fresh, aged and hot: one bracket of the answer.
    Bracket,
    /// All materials, glued and loose, with its new braces and without: each fresh, aged and hot.
    All,
}

/// How many states were solved, the unknowns of the first, and how many findings were made; 0 where the roof cannot be
/// modelled.
///
/// # Errors
/// [`AskError`].
pub fn solve_states(
    survey: &Survey,
    tables: &Tables,
    states: States,
) -> Result<(usize, usize, usize), AskError> {
    let factors = Factors::of(survey, tables)?;
    let (first, braced) = as_surveyed(survey, StageChoice::Finished);
    let Ok(roof) = idealise(survey, first.configuration(), Materials::Default, true) else {
        return Ok((0, 0, 0));
    };
    let people = people_walking(survey, &roof, &factors, survey.person.way);
    let mut job = Job::new(survey, &factors, "finished".to_owned(), people);
    let grains: &[bool] = if grain_matters(survey) { &[true, false] } else { &[true] };
    let wanted = match states {
        States::One | States::Bracket => vec![first],
        States::All => variants(first, braced, grains, &Hold::all(survey)),
    };
    let studied = if states == States::One {
        job.cases.retain(|c| !c.hot);
        vec![job.study_fresh(first)]
    } else {
        each(&wanted, |v| job.study(*v))
    };
    let mut out = (0, 0, 0);
    for one in studied {
        match one {
            Ok(one) => {
                out = (
                    out.0 + 1,
                    if out.0 == 0 { one.unknowns } else { out.1 },
                    out.2 + one.found.findings.len(),
                );
            }
            Err(Trouble::NotFinite(e)) => return Err(e.into()),
            Err(Trouble::Missing(_)) => {}
        }
    }
    Ok(out)
}

//! What the roof moved under a test weight, beside what it should in each bracket of its materials.

use super::study::Studied;
use crate::check::{Finite, Materials, MeasuredAgainst, NotChecked, NotFinite};
use crate::quantity::sag;
use crate::survey::{Measured, Survey, When};

/// A movement is read to no better than this, m (a ruler; common practice, no source).
const READS: f64 = 0.0005;

/// Whether a movement was measured under a test weight.
pub(crate) fn is_asked(survey: &Survey) -> bool {
    moved(survey).next().is_some()
}

/// Number, name and value of each movement measured.
fn moved(survey: &Survey) -> impl Iterator<Item = (usize, &str, f64)> {
    survey.readings.iter().enumerate().filter_map(|(i, r)| match (r.when, r.measured) {
        (When::TestWeight, Some(Measured::Moved(m))) => Some((i, r.name.as_str(), m.value)),
        _ => None,
    })
}

/// What the measured movement says of the materials.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Says {
    /// More than the softest bracket: something is not as surveyed.
    Softer,
    /// Inside, nearest to this bracket.
    Like(Materials),
    /// Less than the stiffest bracket.
    Stiffer,
}

/// `computed`: low, default, high stiffness.
fn says(measured: f64, computed: [f64; 3]) -> Says {
    let most = computed.into_iter().fold(f64::NEG_INFINITY, f64::max);
    let least = computed.into_iter().fold(f64::INFINITY, f64::min);
    if measured > most + READS {
        return Says::Softer;
    }
    if measured < least - READS {
        return Says::Stiffer;
    }
    let off = |i: usize| (measured - computed[i]).abs();
    // As surveyed unless it is plainly nearer to an outer one.
    let nearest = [1, 0, 2].into_iter().fold(1, |best, i| if off(i) < off(best) { i } else { best });
    Says::Like(Materials::ALL[nearest])
}

/// Movements beside those computed of the roof as found in its three brackets, and what of them keeps a roof from "holds".
///
/// # Errors
/// A number that is not finite.
pub(crate) fn against(
    survey: &Survey,
    as_found: &[Studied],
) -> Result<(Vec<MeasuredAgainst>, Vec<NotChecked>), NotFinite> {
    let (mut out, mut doubts) = (Vec::new(), Vec::new());
    // A bracket that could not be solved is told as such already.
    let wanted = (as_found.len() == Materials::ALL.len()).then(|| moved(survey));
    for (index, name, measured) in wanted.into_iter().flatten() {
        let computed: Vec<Finite> = as_found
            .iter()
            .filter_map(|s| s.runs.iter().find(|r| r.load == "test weight"))
            .filter_map(|run| run.readings.get(index).map(|r| r.sag))
            .collect();
        let [low, default, high] = computed[..] else {
            doubts.push(NotChecked {
                check: "sag".to_owned(),
                part: name.to_owned(),
                why: "it moved under a test weight that the survey does not have: add it as a load of kind \"test\"".to_owned(),
                blocks: false,
            });
            continue;
        };
        let told = |m: f64| sag(m, survey.family);
        let between = format!(
            "It moved {} under the test weight where {} is computed ({} with the stiffest materials, {} with the softest)",
            told(measured),
            told(default.get()),
            told(high.get()),
            told(low.get())
        );
        let what = match says(measured, [low.get(), default.get(), high.get()]) {
            Says::Softer => {
                doubts.push(NotChecked {
                    check: "all".to_owned(),
                    part: name.to_owned(),
                    why: format!(
                        "under the test weight it moved {}, more than the {} that the softest materials allow: something is broken that the survey does not show",
                        told(measured),
                        told(low.get())
                    ),
                    blocks: true,
                });
                "something is broken that the survey does not show. Open it up before trusting this answer"
            }
            Says::Stiffer => {
                "stiffer than its materials: walls or framing help it that are not surveyed, or the weight or the reading is off"
            }
            Says::Like(Materials::Low) => "inside the bracket, by its soft end: read the low values",
            Says::Like(Materials::Default) => "inside the bracket, near its middle: the default values fit",
            Says::Like(Materials::High) => {
                "inside the bracket, by its stiff end; that says nothing of strength"
            }
        };
        out.push(MeasuredAgainst {
            name: name.to_owned(),
            measured: Finite::new(measured, "measured movement")?,
            computed: default,
            words: format!("{between}: {what}."),
        });
    }
    Ok((out, doubts))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Computed 4, 3 and 2 mm: half a millimetre of reading is allowed beyond either end.
    #[test]
    fn a_movement_lies_in_the_bracket_or_not() {
        let says = |mm: f64| says(mm / 1e3, [0.004, 0.003, 0.002]);
        assert_eq!(says(4.6), Says::Softer);
        assert_eq!(says(4.4), Says::Like(Materials::Low));
        assert_eq!(says(3.1), Says::Like(Materials::Default));
        assert_eq!(says(3.5), Says::Like(Materials::Default));
        assert_eq!(says(1.6), Says::Like(Materials::High));
        assert_eq!(says(1.4), Says::Stiffer);
    }
}

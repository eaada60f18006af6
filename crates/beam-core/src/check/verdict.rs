//! From outcomes to a verdict, in the order of the contract: does not hold, brace too weak, brace needed,
//! cannot say, holds.

use super::finding::{Check, Cure, Key, Outcome, outcome};
use super::{Bracing, Finding, NotChecked, Verdict};
use crate::loads::Footing;
use crate::survey::Way;

/// What the verdict depends on beside the findings.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Asked {
    /// Whether new braces are surveyed.
    pub new_braces: bool,
    /// How people will stand on the roof.
    pub way: Way,
}

/// Whether a finding counts for the verdict: a bare foot's dent and heel do not where people stand on a board only,
/// and no foot does where nobody walks. A stumble through the roof always counts where somebody walks.
pub(crate) fn counts(check: Check, footing: Footing, way: Way) -> bool {
    match (footing, way) {
        (Footing::NotAFoot, _) => true,
        (_, Way::Nobody) => false,
        (Footing::Bare, Way::Bare) | (Footing::OnABoard, Way::OnABoard) => true,
        (Footing::Bare, Way::OnABoard) => check == Check::FallThrough,
        (Footing::OnABoard, Way::Bare) => false,
    }
}

/// Ratios of the three brackets.
pub(crate) fn ratios(found: &[Option<Finding>; 3]) -> [Option<f64>; 3] {
    [0, 1, 2].map(|i| found[i].as_ref().map(|f| f.ratio))
}

/// Outcome of three brackets for a check: beyond an estimated limit nobody can say.
pub(crate) fn outcome_of(check: Check, found: &[Option<Finding>; 3]) -> Outcome {
    match outcome(ratios(found)) {
        Outcome::Fails if check.cure() == Cure::NotSure => Outcome::Disagrees,
        other => other,
    }
}

/// The finding that decides a verdict: the worst of those that bring it about.
pub(crate) fn deciding<'a>(
    findings: impl Iterator<Item = (&'a Key, &'a [Option<Finding>; 3])>,
    verdict: Verdict,
    asked: Asked,
) -> Option<(&'a Key, &'a Finding)> {
    let as_surveyed = if asked.new_braces { Bracing::With } else { Bracing::Without };
    let rank = |key: &Key, found: &[Option<Finding>; 3]| {
        let brings = match (outcome_of(key.check, found), key.check.cure()) {
            (Outcome::Fails, Cure::NotBracing) => verdict == Verdict::DoesNotHold,
            (Outcome::Fails, Cure::StrongerBrace) => verdict == Verdict::BraceTooWeak,
            (Outcome::Fails, _) => matches!(verdict, Verdict::BraceTooWeak | Verdict::BraceNeeded),
            (Outcome::Disagrees, _) => verdict == Verdict::CannotSay,
            (Outcome::Holds, _) => false,
        };
        u8::from(brings)
    };
    findings
        .filter(|(k, _)| k.bracing == as_surveyed && counts(k.check, k.footing, asked.way))
        .flat_map(|(k, f)| f.iter().flatten().map(move |one| (rank(k, f), k, one)))
        .max_by(|a, b| a.0.cmp(&b.0).then(a.2.ratio.total_cmp(&b.2.ratio)))
        .map(|(_, k, f)| (k, f))
}

/// Verdict over findings of the roof as surveyed.
pub(crate) fn verdict<'a>(
    findings: impl Iterator<Item = (&'a Key, &'a [Option<Finding>; 3])>,
    not_checked: &[NotChecked],
    asked: Asked,
) -> Verdict {
    let as_surveyed = if asked.new_braces { Bracing::With } else { Bracing::Without };
    let (mut any, mut fails_bracing, mut fails_brace, mut fails_other, mut unsure) =
        (false, false, false, false, false);
    for (key, found) in findings {
        if key.bracing != as_surveyed || !counts(key.check, key.footing, asked.way) {
            continue;
        }
        any = true;
        match outcome_of(key.check, found) {
            Outcome::Holds => {}
            Outcome::Disagrees => unsure = true,
            Outcome::Fails => match key.check.cure() {
                Cure::NotSure => unsure = true,
                Cure::Bracing => fails_bracing = true,
                Cure::StrongerBrace => fails_brace = true,
                Cure::NotBracing => fails_other = true,
            },
        }
    }
    if fails_other {
        Verdict::DoesNotHold
    } else if fails_brace || (fails_bracing && asked.new_braces) {
        Verdict::BraceTooWeak
    } else if fails_bracing {
        Verdict::BraceNeeded
    } else if unsure || !any || not_checked.iter().any(|n| n.blocks) {
        Verdict::CannotSay
    } else {
        Verdict::Holds
    }
}

/// Whether the roof without its new braces fails a check that bracing cures.
pub(crate) fn brace_needed<'a>(
    findings: impl Iterator<Item = (&'a Key, &'a [Option<Finding>; 3])>,
    not_checked: &[NotChecked],
    asked: Asked,
) -> Option<bool> {
    let mut all_hold = true;
    let mut any = false;
    for (key, found) in findings {
        if key.bracing != Bracing::Without
            || key.check.cure() != Cure::Bracing
            || !counts(key.check, key.footing, asked.way)
        {
            continue;
        }
        any = true;
        match outcome(ratios(found)) {
            Outcome::Fails => return Some(true),
            Outcome::Disagrees => all_hold = false,
            Outcome::Holds => {}
        }
    }
    let unknown = not_checked
        .iter()
        .any(|n| n.blocks && !n.part.starts_with("brace") && !n.part.starts_with("trimmer"));
    (any && all_hold && !unknown).then_some(false)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::{Ledger, Materials};

    fn ledger(rows: &[(Check, Footing, [f64; 3])], bracing: Bracing) -> Ledger {
        let mut ledger = Ledger::default();
        for (check, footing, ratios) in rows {
            for (materials, ratio) in Materials::ALL.into_iter().zip(ratios) {
                let finding = Finding {
                    check: *check,
                    part: "panel".into(),
                    load: "person".into(),
                    footing: *footing,
                    person: None,
                    x: 1.0,
                    y: 1.0,
                    demand: *ratio,
                    limit: 1.0,
                    si: "Pa",
                    ratio: *ratio,
                    basis: crate::strength::Basis::practice("invented"),
                };
                ledger.keep(bracing, materials, finding);
            }
        }
        ledger
    }

    const BOARD: Asked = Asked { new_braces: false, way: Way::OnABoard };

    #[test]
    fn nothing_checked_is_no_pass() {
        assert_eq!(verdict(Ledger::default().iter(), &[], BOARD), Verdict::CannotSay);
    }

    #[test]
    fn a_blocking_gap_keeps_it_from_holding() {
        let good = ledger(&[(Check::CoreShear, Footing::NotAFoot, [0.3, 0.2, 0.3])], Bracing::Without);
        let gap =
            |blocks| NotChecked { check: "slot".into(), part: "panel".into(), why: String::new(), blocks };
        assert_eq!(verdict(good.iter(), &[gap(false)], BOARD), Verdict::Holds);
        assert_eq!(verdict(good.iter(), &[gap(true)], BOARD), Verdict::CannotSay);
        assert_eq!(brace_needed(good.iter(), &[gap(true)], BOARD), None);
        assert_eq!(brace_needed(good.iter(), &[], BOARD), Some(false));
    }

    #[test]
    fn the_order_of_the_contract() {
        let rows = [
            (Check::Sag, Footing::NotAFoot, [2.0, 2.0, 2.0]),
            (Check::Brace, Footing::NotAFoot, [2.0, 2.0, 2.0]),
            (Check::FallThrough, Footing::Bare, [2.0, 2.0, 2.0]),
        ];
        let braced = Asked { new_braces: true, ..BOARD };
        assert_eq!(verdict(ledger(&rows, Bracing::With).iter(), &[], braced), Verdict::DoesNotHold);
        assert_eq!(verdict(ledger(&rows[..2], Bracing::With).iter(), &[], braced), Verdict::BraceTooWeak);
        assert_eq!(verdict(ledger(&rows[..1], Bracing::With).iter(), &[], braced), Verdict::BraceTooWeak);
        assert_eq!(verdict(ledger(&rows[..1], Bracing::Without).iter(), &[], BOARD), Verdict::BraceNeeded);
    }

    #[test]
    fn a_dent_under_a_bare_foot_counts_only_where_people_go_bare() {
        let dented = ledger(&[(Check::Dent, Footing::Bare, [2.0, 2.0, 2.0])], Bracing::Without);
        let sound = ledger(&[(Check::CoreShear, Footing::NotAFoot, [0.2, 0.2, 0.2])], Bracing::Without);
        let both = || dented.iter().chain(sound.iter());
        assert_eq!(verdict(both(), &[], BOARD), Verdict::Holds);
        assert_eq!(verdict(both(), &[], Asked { way: Way::Bare, ..BOARD }), Verdict::DoesNotHold);
        assert_eq!(verdict(both(), &[], Asked { way: Way::Nobody, ..BOARD }), Verdict::Holds);
    }
}

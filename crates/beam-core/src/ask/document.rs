//! From studies to the result document.

use super::answers::{answers, sags};
use super::beside::{self, Beside};
use super::evaluate::glue_ratio;
use super::props::{Pad, Told, each, stage_named};
use super::study::{Studied, Variant};
use super::water::water;
use super::words::{assumptions, cautions, next_steps, scope, why};
use super::work::{glue_work, wall_work};
use crate::check::{
    Asked, At, BasisWords, Bond, Bracing, Check, CheckDocument, CheckRow, Finding, Finite, Governing,
    GridWords, Key, Ledger, MadeWith, Materials, MeasuredAgainst, NotChecked, NotFinite, Outcome,
    PencilWords, ReadIn, SMALL_THRUST, Untried, Verdict, Working, brace_needed, counts, deciding, outcome_of,
    own_tables, ratios, verdict,
};
use crate::loads::{Factors, Footing};
use crate::quantity::{percent, tape};
use crate::survey::{AluminiumRules, Cure, Measured, Survey, Way, When};
use section_tables::Tables;

/// How far the deciding ratio may move on a grid twice as fine.
const GRID_MOVES: f64 = 0.03;
/// A dip this many times the computed one means damage that the survey does not show.
const DIP_TOO_DEEP: f64 = 2.0;
/// Dips are read to no better than this, m.
const DIP_READS: f64 = 0.002;

/// Everything studied.
pub(crate) struct Study {
    pub stage_name: String,
    /// The props it stands on, and its studies with them taken out.
    pub pads: Vec<Pad>,
    pub without_props: Option<Vec<Studied>>,
    pub braced: bool,
    pub edge_strip: f64,
    pub studied: Vec<Studied>,
    pub feet: Vec<(Materials, Vec<Finding>, Vec<Untried>)>,
    /// A foot at the unframed edges of openings, in each bracket.
    pub edge_feet: Vec<super::edge_feet::EdgeFoot>,
    pub pencil: Option<Studied>,
    /// The deciding finding, and what a grid twice as fine multiplies its ratio with.
    pub finer: Option<(Finding, f64)>,
    /// The roof as found where something was measured on it: in each bracket for a test weight, else in the default one.
    pub as_found: Vec<Studied>,
    pub beside: Beside,
    /// What governs, worked through, where that was asked for.
    pub working: Vec<Working>,
}

impl Study {
    /// Nothing studied: the roof is not modelled.
    pub(crate) fn empty(stage_name: String) -> Study {
        Study {
            stage_name,
            pads: Vec::new(),
            without_props: None,
            braced: false,
            edge_strip: 0.0,
            studied: Vec::new(),
            feet: Vec::new(),
            edge_feet: Vec::new(),
            pencil: None,
            finer: None,
            as_found: Vec::new(),
            beside: Beside::default(),
            working: Vec::new(),
        }
    }
}

/// What the writers of words need.
pub(crate) struct Summary<'a> {
    pub survey: &'a Survey,
    pub factors: &'a Factors,
    pub study: &'a Study,
    pub ledger: &'a Ledger,
    pub not_checked: &'a [NotChecked],
    pub asked: Asked,
    pub surveyed: Bracing,
    pub verdict: Verdict,
    /// Whether the glue lines hold in every bracket, so that the bonded runs count.
    pub glue_holds: bool,
    /// What is to be said of the props of the stage.
    pub props: Option<Told>,
}

/// Builds the document.
///
/// # Errors
/// A number that is not finite.
pub(crate) fn document(
    survey: &Survey,
    factors: &Factors,
    tables: &Tables,
    study: Study,
    mut not_checked: Vec<NotChecked>,
) -> Result<CheckDocument, NotFinite> {
    let asked = Asked { new_braces: study.braced, way: survey.person.way };
    let surveyed = if study.braced { Bracing::With } else { Bracing::Without };
    let glue_holds = study
        .studied
        .iter()
        .filter(|s| s.variant.bracing == Bracing::With && s.variant.bond == Bond::Full)
        .all(|s| bonded_counts(&study.studied, s.variant));
    let ledger = raised_ledger(&study);
    let loose_only = study.braced && glue_holds && !loose_holds(&study, asked);
    add_gaps(survey, &study, &mut not_checked);
    not_checked.extend(super::trimmer_ends::trimmer_ends(survey, &study));
    not_checked.extend(water(survey, &study, &ledger, asked));
    let (moved, doubts) = super::test_weight::against(survey, &study.as_found)?;
    not_checked.extend(doubts);
    let grid = grid(&study, &mut not_checked)?;
    let verdict = verdict(ledger.iter(), &not_checked, asked);
    let needed =
        if study.studied.is_empty() { None } else { brace_needed(ledger.iter(), &not_checked, asked) };
    let checks = rows(&ledger, tables, &study.stage_name, asked)?;
    let governing = governing(deciding(ledger.iter(), verdict, asked), &study.stage_name)?;
    let runs = study
        .studied
        .iter()
        .filter(|s| {
            let (told, first) = (&s.variant, &study.studied[0].variant);
            told.grain_across == first.grain_across && told.hold.joints == first.hold.joints
        })
        .chain(study.pencil.iter())
        .flat_map(|s| s.runs.iter().cloned())
        .collect();
    let mut measured = measured(survey, &study)?;
    measured.extend(moved);
    let pencil = pencil(&study)?;
    let props = told_props(survey, &study, asked, surveyed);
    let summary = Summary {
        survey,
        factors,
        study: &study,
        ledger: &ledger,
        not_checked: &not_checked,
        asked,
        surveyed,
        verdict,
        glue_holds,
        props,
    };
    let mut cautions = cautions(&summary);
    if loose_only {
        cautions.insert(0, crate::check::Words {
            code: "only-the-glue".to_owned(),
            words: "It holds only while the glue between braces and skin holds. Add a mechanical fixing at the ends and look for lifting at every service.".to_owned(),
        });
    }
    cautions.extend(beside::cautions(&summary));
    let mut answers = answers(&summary)?;
    answers.extend(beside::answers(&summary)?);
    let sag = sags(&summary)?;
    let next_steps = next_steps(&summary, &measured);
    let why = why(&summary, governing.as_ref());
    let mut assumptions = assumptions(&summary, grid.as_ref());
    assumptions.extend(beside::assumptions(&summary));
    assumptions.extend(super::hot_bow::hot_bow(survey, factors.glued_at));
    assumptions.extend(own_tables(tables));
    Ok(CheckDocument {
        schema: 1,
        made_with: MadeWith::new(tables, &rule_books(survey), Some(&survey.hash)),
        title: survey.title.clone(),
        read_in: ReadIn(survey.family),
        stage: study.stage_name.clone(),
        verdict,
        brace_needed: needed,
        scope: scope(&summary),
        why,
        answers,
        governing,
        next_steps,
        glue: glue_work(survey, factors)?,
        walls: wall_work(survey, &study, surveyed, glue_holds)?,
        sag,
        measured,
        grid,
        pencil,
        checks,
        working: study.working.clone(),
        runs,
        not_checked,
        assumptions,
        cautions,
    })
}

/// The rule book chosen, and the one that screws and fatigue of braces are judged by whatever is chosen.
fn rule_books(survey: &Survey) -> Vec<&'static str> {
    let chosen = survey.limits.aluminium;
    let ends = (chosen != AluminiumRules::Adm2020Asd && !survey.braces.is_empty())
        .then_some(AluminiumRules::Adm2020Asd);
    [Some(chosen), ends].into_iter().flatten().map(AluminiumRules::name).collect()
}

/// Findings of all studies. Braced roofs count with their glue where its lines hold, else without. What decides
/// counts as the finer grid reads it.
pub(super) fn raised_ledger(study: &Study) -> Ledger {
    let mut ledger = ledger(&study.studied, &study.feet, study.braced);
    if let Some((most, factor)) = &study.finer {
        ledger.raise(if study.braced { Bracing::With } else { Bracing::Without }, most, *factor);
    }
    ledger
}

fn ledger(studied: &[Studied], feet: &[(Materials, Vec<Finding>, Vec<Untried>)], braced: bool) -> Ledger {
    let mut ledger = Ledger::default();
    for s in studied {
        let v = &s.variant;
        let bonded_counts = bonded_counts(studied, *v);
        let keeps = |f: &Finding| match (v.bracing, v.bond) {
            (Bracing::Without, _) => true,
            (Bracing::With, Bond::Full) => bonded_counts || f.check == Check::GlueLine,
            (Bracing::With, Bond::None) => !bonded_counts,
        };
        for finding in s.found.findings.iter().filter(|f| keeps(f)) {
            ledger.keep(v.bracing, v.materials, finding.clone());
        }
    }
    for (materials, found, _) in feet {
        for finding in found {
            ledger.keep(Bracing::Without, *materials, finding.clone());
            if braced {
                ledger.keep(Bracing::With, *materials, finding.clone());
            }
        }
    }
    ledger
}

/// Whether the bonded run of a bracket counts: its glue lines hold.
pub(super) fn bonded_counts(studied: &[Studied], like: Variant) -> bool {
    let bonded = Variant { bracing: Bracing::With, bond: Bond::Full, ..like };
    let full = studied.iter().find(|s| s.variant == bonded);
    full.and_then(|f| glue_ratio(&f.found.findings)).is_some_and(|r| r <= 1.0)
}

/// What is to be said of the props of the stage; nothing where it has none.
fn told_props(survey: &Survey, study: &Study, asked: Asked, surveyed: Bracing) -> Option<Told> {
    let stage = stage_named(survey, &study.stage_name).filter(|_| !study.pads.is_empty())?;
    let without = study.without_props.as_ref().map_or(Verdict::CannotSay, |alone| {
        let ledger = ledger(alone, &study.feet, study.braced);
        match alone.iter().any(|s| !s.found.trouble.is_empty() || !s.found.unknown.is_empty()) {
            true => Verdict::CannotSay,
            false => verdict(ledger.iter(), &[], asked),
        }
    });
    Some(Told {
        without,
        uncured: stage.cured != Cure::Full && stage.braces.iter().any(|b| !survey.braces[*b].existing),
        each: each(survey, &study.pads, &study.studied, surveyed),
    })
}

/// Whether the braced roof would hold with its braces lying loose.
fn loose_holds(study: &Study, asked: Asked) -> bool {
    let mut loose = Ledger::default();
    for s in
        study.studied.iter().filter(|s| s.variant.bracing == Bracing::With && s.variant.bond == Bond::None)
    {
        s.found.findings.iter().for_each(|f| loose.keep(Bracing::With, s.variant.materials, f.clone()));
    }
    verdict(loose.iter(), &[], asked) == Verdict::Holds
}

/// Gaps that the studies came upon.
fn add_gaps(survey: &Survey, study: &Study, gaps: &mut Vec<NotChecked>) {
    let mut add = |gap: NotChecked| {
        if !gaps.contains(&gap) {
            gaps.push(gap);
        }
    };
    for s in &study.studied {
        for unknown in &s.found.unknown {
            add(NotChecked {
                check: unknown.check.name().to_owned(),
                part: unknown.part.clone(),
                why: format!("no {} is known for it", unknown.what),
                blocks: true,
            });
        }
        if s.push.as_ref().is_some_and(|p| p.share.is_nan() || p.share > SMALL_THRUST) {
            add(NotChecked {
                check: "snap".to_owned(),
                part: "panel".to_owned(),
                why: "held sideways it is an arch pressed to more than a tenth of what makes it sway, and the change of its shape is not worked out: survey thrust = \"none\"".to_owned(),
                blocks: true,
            });
        }
        for trouble in &s.found.trouble {
            add(NotChecked {
                check: "all".to_owned(),
                part: "panel".to_owned(),
                why: trouble.clone(),
                blocks: true,
            });
        }
    }
    if let Some(footing) = Footing::of(survey.person.way)
        && !study.studied.is_empty()
    {
        let wanted =
            [(Check::Dent, footing), (Check::FootShear, footing), (Check::FallThrough, Footing::Bare)];
        let board = (footing == Footing::OnABoard).then_some((Check::WalkBoard, footing));
        for (check, footing) in wanted.into_iter().chain(board) {
            let tried = Materials::ALL.iter().all(|m| {
                study.feet.iter().any(|(n, found, _)| {
                    n == m && found.iter().any(|f| f.check == check && f.footing == footing)
                })
            });
            if !tried {
                add(NotChecked {
                    check: check.name().to_owned(),
                    part: footed("panel", footing),
                    why: "no place was found to try a foot on".to_owned(),
                    blocks: true,
                });
            }
        }
    }
    super::edge_feet::gaps(survey, &study.edge_feet).into_iter().for_each(&mut add);
    for (_, _, untried) in &study.feet {
        for (check, footing, why) in untried {
            add(NotChecked {
                check: check.name().to_owned(),
                part: footed("panel", *footing),
                why: why.clone(),
                blocks: counts(*check, *footing, survey.person.way),
            });
        }
    }
}

/// A part, and how a person stands on it.
pub(crate) fn footed(part: &str, footing: Footing) -> String {
    match footing {
        Footing::NotAFoot => part.to_owned(),
        Footing::Bare => format!("{part} under a bare foot"),
        Footing::OnABoard => format!("{part} under the board"),
    }
}

/// A basis with the keys of sources spelt out as author and year.
pub(super) fn cite(tables: &Tables, source: &str) -> String {
    source
        .split("; ")
        .map(|part| {
            let (head, key) = part.rsplit_once(": ").map_or(("", part), |(head, key)| (head, key));
            match tables.source(key) {
                Ok(s) => {
                    let by = [s.author.as_str(), s.year.as_str()];
                    let by: Vec<&str> = by.into_iter().filter(|t| !t.is_empty()).collect();
                    let cited = if by.is_empty() {
                        s.title.clone()
                    } else {
                        format!("{} ({})", s.title, by.join(" "))
                    };
                    if head.is_empty() { cited } else { format!("{head}: {cited}") }
                }
                Err(_) => part.to_owned(),
            }
        })
        .collect::<Vec<_>>()
        .join("; ")
}

/// How far the deciding ratio moves between the grid of the answer and one twice as fine.
fn grid(study: &Study, gaps: &mut Vec<NotChecked>) -> Result<Option<GridWords>, NotFinite> {
    let Some(solved) = study.studied.first() else { return Ok(None) };
    let Some((most, factor)) = &study.finer else {
        gaps.push(NotChecked {
            check: "grid".to_owned(),
            part: "panel".to_owned(),
            why: "the roof could not be solved on a finer grid to compare with".to_owned(),
            blocks: true,
        });
        return Ok(None);
    };
    let moves = (factor - 1.0).abs();
    if !moves.is_finite() || moves > GRID_MOVES {
        gaps.push(NotChecked {
            check: "grid".to_owned(),
            part: most.part.clone(),
            why: format!(
                "{} still moves by {} on a grid twice as fine: more than 3 % is too much to rest on",
                most.check.name(),
                percent(moves)
            ),
            blocks: true,
        });
    }
    Ok(Some(GridWords {
        unknowns: solved.unknowns as u64,
        check: most.check.name().to_owned(),
        moves: Finite::new(moves, "movement on the finer grid")?,
    }))
}

fn rows(ledger: &Ledger, tables: &Tables, stage: &str, asked: Asked) -> Result<Vec<CheckRow>, NotFinite> {
    let mut out: Vec<(Key, [Option<Finding>; 3])> = Vec::new();
    for (key, found) in ledger.iter() {
        let same = |k: &Key| {
            k.bracing == key.bracing && k.check == key.check && k.part == key.part && k.footing == key.footing
        };
        match out.iter_mut().find(|(k, _)| same(k)) {
            Some((_, kept)) => {
                for (slot, finding) in kept.iter_mut().zip(found) {
                    let better = match (&slot, finding) {
                        (None, Some(_)) => true,
                        (Some(a), Some(b)) => b.ratio > a.ratio,
                        (_, None) => false,
                    };
                    if better {
                        slot.clone_from(finding);
                    }
                }
            }
            None => out.push((key.clone(), found.clone())),
        }
    }
    let mut rows = Vec::with_capacity(out.len());
    for (key, found) in out {
        let worst = Materials::ALL
            .into_iter()
            .zip(&found)
            .filter_map(|(m, f)| f.as_ref().map(|f| (m, f)))
            .max_by(|a, b| a.1.ratio.total_cmp(&b.1.ratio));
        let Some((materials, f)) = worst else { continue };
        let name = key.check.name();
        let n = |value: f64, what: &str| Finite::new(value, &format!("{what} of {name}"));
        let by = ratios(&found);
        rows.push(CheckRow {
            check: name.to_owned(),
            moved_by_bracing: key.check.moved_by_bracing(),
            part: footed(&key.part, key.footing),
            stage: stage.to_owned(),
            load: f.load.clone(),
            bracing: key.bracing,
            at: At { across: n(f.x, "place")?, along: n(f.y, "place")? },
            demand: n(f.demand, "demand")?,
            limit: n(f.limit, "limit")?,
            si: f.si.to_owned(),
            ratio: n(f.ratio, "ratio")?,
            verdict: match outcome_of(key.check, &found) {
                Outcome::Holds => Verdict::Holds,
                Outcome::Fails => Verdict::DoesNotHold,
                Outcome::Disagrees => Verdict::CannotSay,
            },
            counts: counts(key.check, key.footing, asked.way),
            materials,
            ratio_by_materials: [
                n(by[0].unwrap_or(f.ratio), "ratio")?,
                n(by[1].unwrap_or(f.ratio), "ratio")?,
                n(by[2].unwrap_or(f.ratio), "ratio")?,
            ],
            basis: BasisWords { source: cite(tables, &f.basis.source), kind: f.basis.kind.to_string() },
        });
    }
    rows.sort_by(|a, b| b.ratio.get().total_cmp(&a.ratio.get()));
    Ok(rows)
}

fn governing(found: Option<(&Key, &Finding)>, stage: &str) -> Result<Option<Governing>, NotFinite> {
    let Some((key, f)) = found else { return Ok(None) };
    Ok(Some(Governing {
        check: key.check.name().to_owned(),
        part: footed(&f.part, key.footing),
        load: f.load.clone(),
        stage: stage.to_owned(),
        ratio: Finite::new(f.ratio, "governing ratio")?,
    }))
}

/// Dips measured on the roof as found, beside what own weight and unit would do to it.
fn measured(survey: &Survey, study: &Study) -> Result<Vec<MeasuredAgainst>, NotFinite> {
    let found = study.as_found.iter().find(|s| s.variant.materials == Materials::Default);
    let Some(found) = found else { return Ok(Vec::new()) };
    let mut out = Vec::new();
    for (index, reading) in survey.readings.iter().enumerate() {
        let Some(Measured::Dip(dip)) = reading.measured else { continue };
        let load = match reading.when {
            When::UnitOn => ["unit parked, service life", "own weight, service life"],
            When::UnitOff => ["self-weight, service life", "own weight, service life"],
            When::TestWeight => continue,
        };
        let Some(run) = found.runs.iter().find(|r| load.contains(&r.load.as_str())) else { continue };
        let computed = run.readings[index].sag;
        let (dip, sag) = (dip.value, computed.get());
        let told = |m: f64| tape(m, survey.family);
        let words = if dip > DIP_TOO_DEEP * sag + DIP_READS {
            format!(
                "Measured {} where {} is computed: something is broken that the survey does not show. Open it up before trusting this answer.",
                told(dip),
                told(sag)
            )
        } else if sag > DIP_TOO_DEEP * dip + DIP_READS {
            format!(
                "Measured {} where {} is computed: the roof is stiffer than surveyed, or has not crept yet.",
                told(dip),
                told(sag)
            )
        } else {
            format!("Measured {}, computed {}: the survey explains the dip.", told(dip), told(sag))
        };
        out.push(MeasuredAgainst {
            name: reading.name.clone(),
            measured: Finite::new(dip, "measured dip")?,
            computed,
            words,
        });
    }
    Ok(out)
}

/// The strip beside the two-way roof: largest sag of the first day.
fn pencil(study: &Study) -> Result<Option<PencilWords>, NotFinite> {
    let Some(strip) = &study.pencil else { return Ok(None) };
    let plate = study.studied.iter().find(|s| {
        let (a, b) = (&s.variant, &strip.variant);
        a.bracing == b.bracing
            && a.materials == b.materials
            && a.grain_across == b.grain_across
            && a.hold == b.hold
            && (a.bond == b.bond || a.bracing == Bracing::Without)
    });
    let day =
        |s: &Studied| s.runs.iter().find(|r| r.load.ends_with("first day")).map(|r| r.sag_max.value.get());
    let (Some(two_way), Some(one_way)) = (plate.and_then(&day), day(strip)) else { return Ok(None) };
    // A roof that weighs nothing does not sag: nothing to compare.
    if two_way == 0.0 {
        return Ok(None);
    }
    Ok(Some(PencilWords {
        strip_sag: Finite::new(one_way, "sag of the strip")?,
        two_way_sag: Finite::new(two_way, "sag of the two-way roof")?,
        difference: Finite::new(one_way / two_way - 1.0, "difference of the strip")?,
    }))
}

/// Whether anybody is to stand on the roof.
pub(crate) fn walked(survey: &Survey) -> bool {
    survey.person.way != Way::Nobody
}

//! How a candidate is built in: as the first new brace of the survey, else by stated defaults.

use super::search::Candidate;
use super::stock::Stock;
use crate::check::Words;
use crate::model::is_foam;
use crate::quantity::{Family, INCH, Length, si, tape};
use crate::survey::{Brace, Formed, Glue, Interval, MemberMaterial, Seat, Sides, Sits, Survey, Trimmer};
use section_tables::{NotFound, Tables};

/// Screws at each end where none are surveyed, their diameter and distance from the edge, m (common practice, no source).
const SCREWS: u32 = 3;
const SCREW: f64 = 0.005;
const SCREW_EDGE: f64 = 0.02;
/// Glue taken where no new brace is surveyed.
const GLUE: &str = "rigid polyurethane";
/// Its bed, m, and the share of the face that is wetted (common practice, no source).
const BED: f64 = 0.3e-3;
const COVERAGE: f64 = 0.7;
/// Bearing of an end on the ledger where none is surveyed, m (common practice, no source).
const BEARING: f64 = 1.5 * INCH;

/// What every candidate has in common.
#[derive(Debug, Clone)]
pub(super) struct Pattern {
    sits: Sits,
    glued: Vec<usize>,
    /// Glue; its width is the face's where `whole_face`.
    glue: Option<Glue>,
    whole_face: bool,
    sides: Sides,
    seat: Option<Seat>,
    formed: Formed,
    /// What was taken, in words.
    pub words: Vec<Words>,
}

impl Pattern {
    /// From the first new brace of the survey, else defaults.
    ///
    /// # Errors
    /// A glue that the tables do not have.
    pub(super) fn of(survey: &Survey, tables: &Tables) -> Result<Pattern, NotFound> {
        match survey.braces.iter().find(|b| !b.existing) {
            Some(brace) => Ok(Pattern::like(brace)),
            None => Pattern::usual(survey, tables),
        }
    }

    fn like(brace: &Brace) -> Pattern {
        let whole_face =
            brace.glue.as_ref().is_some_and(|g| g.width.value >= brace.section.width().value - 1e-6);
        Pattern {
            sits: brace.sits,
            glued: brace.glued.clone(),
            glue: brace.glue.clone(),
            whole_face,
            sides: brace.sides,
            seat: brace.seat.clone(),
            formed: brace.formed,
            words: vec![words(
                "like-surveyed-brace",
                format!(
                    "every candidate sits, is glued and is seated as the surveyed brace \"{}\", in one piece without welds; the surveyed new braces are left out and their slots refilled",
                    brace.name
                ),
            )],
        }
    }

    fn usual(survey: &Survey, tables: &Tables) -> Result<Pattern, NotFound> {
        let first_core = survey.layers.iter().position(|l| is_foam(&l.material));
        let glued: Vec<usize> = first_core.and_then(|c| c.checked_sub(1)).into_iter().collect();
        let bearing = survey.wall.depth.map_or(BEARING, |d| d.value.min(BEARING));
        let glue = if glued.is_empty() {
            None
        } else {
            let product = tables.adhesive(GLUE)?.clone();
            Some(Glue { product, width: Length::default(), bed: si(BED), coverage: COVERAGE })
        };
        let mut said = vec![words(
            "default-candidate-seat",
            format!(
                "no new brace is surveyed: each end is taken to bear on the ledger for {} and to be held by {SCREWS} wood screws of {}, {} from its edge (common practice, no source): measure it",
                tape(bearing, survey.family),
                tape(SCREW, survey.family),
                tape(SCREW_EDGE, survey.family)
            ),
        )];
        said.push(match (&glue, glued.first()) {
            (Some(_), Some(&layer)) => words(
                "default-candidate-glue",
                format!(
                    "no new brace is surveyed: let into the foam and glued over its whole face to the {} with {GLUE}, bed {}, {:.0} % of the face wetted (common practice, no source)",
                    survey.layers[layer].name,
                    match survey.family {
                        Family::Inch => "0.012 in",
                        Family::Metric => "0.3 mm",
                    },
                    100.0 * COVERAGE
                ),
            ),
            _ => words(
                "default-candidate-loose",
                "no new brace is surveyed and there is no skin above the foam to glue to: candidates lie loose".to_owned(),
            ),
        });
        Ok(Pattern {
            sits: Sits::InTheFoam,
            sides: if glue.is_some() { Sides::FoamGlued } else { Sides::SlotLeftOpen },
            glued,
            glue,
            whole_face: true,
            seat: Some(Seat {
                bearing_length: si(bearing),
                screws: Some(SCREWS),
                screw: Some(si(SCREW)),
                edge: Some(si(SCREW_EDGE)),
            }),
            formed: Formed::Bent,
            words: said,
        })
    }

    /// Whether candidates lie within the thickness of the core.
    pub(super) fn in_the_core(&self) -> bool {
        self.sits != Sits::UnderTheCeiling
    }

    /// What candidates must have in common to lie on one panel: their width, by which they lie from the opening; where
    /// slots stay open beside them, also the places of these.
    pub(super) fn panel(&self, candidate: &Candidate<'_>) -> Vec<u64> {
        let open = self.in_the_core() && self.sides == Sides::SlotLeftOpen;
        let trimmers = candidate.trimmers.iter().flat_map(|t| &t.across);
        let slots = candidate.along.iter().chain(trimmers).filter(|_| open);
        std::iter::once(&candidate.stock.size[0]).chain(slots).map(|v| v.to_bits()).collect()
    }

    /// Width of the glue bed on a face, m; 0 without glue.
    pub(super) fn bed_width(&self, face: f64) -> f64 {
        self.glue.as_ref().map_or(0.0, |g| if self.whole_face { face } else { g.width.value.min(face) })
    }

    /// The glue, if any.
    pub(super) fn glue(&self) -> Option<&Glue> {
        self.glue.as_ref()
    }

    /// Number of faces that are glued.
    pub(super) fn faces(&self) -> usize {
        if self.glue.is_some() { self.glued.len() } else { 0 }
    }

    /// Length of bearing at one end.
    pub(super) fn seat(&self) -> Option<&Seat> {
        self.seat.as_ref()
    }

    /// The survey with a candidate in place of its new braces and their trimmers.
    pub(super) fn built_in(&self, survey: &Survey, candidate: &Candidate<'_>) -> Survey {
        let stock = &candidate.stock;
        let new = candidate.along.iter().enumerate().map(|(i, y)| self.brace(survey, stock, i, *y));
        let mut out = replaced(survey, new.collect());
        let first = out.braces.len() - candidate.along.len();
        if let Some(places) = &candidate.trimmers {
            out.trimmers.extend(places.across.iter().map(|x| Trimmer {
                between: places.between.map(|b| first + b),
                across: si(*x),
                section: stock.section(),
                material: material(stock),
            }));
        }
        out
    }

    fn brace(&self, survey: &Survey, stock: &Stock<'_>, index: usize, y: f64) -> Brace {
        Brace {
            name: mark(index),
            section: stock.section(),
            material: material(stock),
            along: si(y),
            across: Interval { from: si(0.0), to: survey.roof.span },
            sits: self.sits,
            glued: self.glued.clone(),
            glue: self.glue.as_ref().map(|g| Glue { width: si(self.bed_width(stock.size[0])), ..g.clone() }),
            sides: self.sides,
            formed: self.formed,
            existing: false,
            seat: self.seat.clone(),
            welds: Vec::new(),
        }
    }
}

/// The survey with other new braces; what stages and trimmers say of the old ones goes with them.
pub(super) fn replaced(survey: &Survey, new: Vec<Brace>) -> Survey {
    let mut out = survey.clone();
    let kept: Vec<usize> = (0..survey.braces.len()).filter(|i| survey.braces[*i].existing).collect();
    out.braces = kept.iter().map(|i| survey.braces[*i].clone()).collect();
    let from = out.braces.len();
    out.braces.extend(new);
    let place = |old: usize| kept.iter().position(|k| *k == old);
    for stage in &mut out.stages {
        let had_new = stage.braces.iter().any(|b| place(*b).is_none());
        stage.braces = stage.braces.iter().filter_map(|b| place(*b)).collect();
        if had_new {
            stage.braces.extend(from..out.braces.len());
        }
    }
    let both = |t: &Trimmer| Some([place(t.between[0])?, place(t.between[1])?]);
    out.trimmers = survey
        .trimmers
        .iter()
        .filter_map(|t| both(t).map(|between| Trimmer { between, ..t.clone() }))
        .collect();
    out
}

fn material(stock: &Stock<'_>) -> MemberMaterial {
    MemberMaterial::Alloy(Box::new(stock.alloy.clone().into()))
}

/// Mark of a candidate's brace, from the front.
pub(super) fn mark(index: usize) -> String {
    format!("B{}", index + 1)
}

pub(super) fn words(code: &str, words: String) -> Words {
    Words { code: code.to_owned(), words }
}

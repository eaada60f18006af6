//! One roof in one bracket of its materials: solved, evaluated, its runs told.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::evaluate::{Findings, evaluate, evaluate_loose, keep_worst, sum};
use super::on_the_road::on_the_road;
use super::places::PersonPlace;
use super::probe::probe;
use super::props::{Pad, on_props, pads, propped, pushes};
use super::reading::run;
use super::solve::{BasisSet, SolvePlate, basis_set, solve_fresh, solve_plate, solve_strip};
use crate::check::{
    Bond, Bracing, CaseState, Context, Finding, FootPlace, Materials, Model, NotFinite, PanelLimits,
    PropLoad, Push, Run, Untried, foot_findings, held, loose_patches, pad_findings, prop_findings, push,
    rim_findings, springing_in, tube_strengths, void_near,
};
use crate::loads::{
    Basis, Case, Factors, Footing, Term, permanent_cases, person_basis, person_cases, with_locked_in,
};
use crate::model::{Configuration, Hold, IdealRoof, MemberKind, Missing, StageChoice, Time, idealise};
use crate::plate::{GridSize, Layouts, PlateRoof, Wanted, shape};
use crate::response::{Layout, Response};
use crate::strip::StripPlace;
use crate::survey::{Survey, Way};

/// What is studied, beside the bracket of its materials.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Variant {
    pub stage: StageChoice,
    pub bracing: Bracing,
    pub bond: Bond,
    pub materials: Materials,
    pub grain_across: bool,
    pub hold: Hold,
}

impl Variant {
    /// The finished roof of default materials, grain across; its new braces, where they are in it, glued as surveyed.
    pub(crate) fn finished(bracing: Bracing, hold: Hold) -> Variant {
        Variant {
            stage: StageChoice::Finished,
            bracing,
            bond: if bracing == Bracing::With { Bond::Full } else { Bond::None },
            materials: Materials::Default,
            grain_across: true,
            hold,
        }
    }

    pub(crate) fn configuration(&self) -> Configuration {
        Configuration {
            stage: self.stage,
            with_new: self.bracing == Bracing::With,
            bond: self.bond == Bond::Full,
            hold: self.hold,
        }
    }
}

/// Why a variant could not be studied.
#[derive(Debug)]
pub(crate) enum Trouble {
    /// Something is not known, or cannot be modelled.
    Missing(Vec<Missing>),
    /// A number that is no number.
    NotFinite(NotFinite),
}

impl From<NotFinite> for Trouble {
    fn from(e: NotFinite) -> Self {
        Trouble::NotFinite(e)
    }
}

/// Why a roof cannot be modelled, in one line.
pub(super) fn reasons(missing: Vec<Missing>) -> String {
    missing.into_iter().map(|m| m.why).collect::<Vec<_>>().join("; ")
}

pub(super) fn missing(why: String) -> Trouble {
    Trouble::Missing(vec![Missing { part: "panel".to_owned(), why }])
}

/// The cases of a roof: with sprung braces each with and without what they lock in.
pub(super) fn locked_in(roof: &IdealRoof, cases: Vec<Case>) -> Vec<Case> {
    if roof.braces.iter().any(|b| b.sprung != 0.0) { with_locked_in(cases) } else { cases }
}

/// What came of a variant.
pub(crate) struct Studied {
    pub variant: Variant,
    pub found: Findings,
    pub runs: Vec<Run>,
    pub unknowns: usize,
    /// What the walls must hold sideways, where that is counted.
    pub push: Option<Push>,
    /// Trimmers, with the largest force in their end joints, N.
    pub joints: Vec<(String, f64)>,
    /// How hard each prop pushes in each load.
    pub props: Vec<PropLoad>,
}

/// Everything the study of any variant needs.
pub(crate) struct Job<'a> {
    pub survey: &'a Survey,
    pub factors: &'a Factors,
    pub stage_name: String,
    pub wanted: Wanted,
    pub set: BasisSet,
    pub cases: Vec<Case>,
    /// Pads of the stage's props, where they stand.
    pub pads: Vec<Pad>,
    /// Roofs laid out so far: those of other materials are numbered alike.
    pub layouts: Layouts,
}

impl<'a> Job<'a> {
    /// Prepares the loads and cases.
    pub(crate) fn new(
        survey: &'a Survey,
        factors: &'a Factors,
        stage_name: String,
        people: Vec<PersonPlace>,
    ) -> Job<'a> {
        let mut wanted = Wanted {
            x: survey.readings.iter().map(|r| r.across.value).collect(),
            y: survey.readings.iter().map(|r| r.along.value).collect(),
        };
        wanted.y.extend(survey.braces.iter().map(|b| b.along.value));
        wanted.x.extend(survey.trimmers.iter().map(|t| t.across.value));
        let set = basis_set(survey, factors, &people);
        let mut cases = permanent_cases(survey, factors);
        if survey.person.way != Way::Nobody {
            for (i, p) in people.iter().enumerate() {
                let feet = person_basis(survey, factors, p.patch, p.x, p.y);
                cases.extend(person_cases(survey, factors, i, p.footing, &feet));
            }
        }
        Job { survey, factors, stage_name, wanted, set, cases, pads: Vec::new(), layouts: Layouts::default() }
    }

    /// The roof on the props of its stage, or with them taken out: the loads are those of a roof on props.
    pub(crate) fn on_props(mut self, they_stand: bool) -> Job<'a> {
        let pads = pads(self.survey, &self.stage_name);
        if pads.is_empty() {
            return self;
        }
        self.cases.retain(on_props);
        if they_stand {
            self.set.lasting.extend(pushes(&pads));
            self.set.all.extend(pushes(&pads));
            self.pads = pads;
        }
        self
    }

    /// Whether a load is one of those that the roof is solved for.
    pub(crate) fn solves(&self, load: &str) -> bool {
        self.cases.iter().any(|c| c.name == load)
    }

    /// Whether every opening is framed.
    pub(crate) fn framed(&self) -> bool {
        self.survey.openings.iter().all(|o| o.frame.is_some())
    }

    /// The roof of a variant.
    ///
    /// # Errors
    /// [`Trouble::Missing`].
    pub(crate) fn roof(&self, v: &Variant) -> Result<IdealRoof, Trouble> {
        idealise(self.survey, v.configuration(), v.materials, v.grain_across).map_err(Trouble::Missing)
    }

    /// Solves a variant by the two-way model and evaluates every case.
    ///
    /// # Errors
    /// [`Trouble`].
    pub(crate) fn study(&self, variant: Variant) -> Result<Studied, Trouble> {
        self.study_on(variant, GridSize::DEFAULT)
    }

    /// The same on a grid of a given fineness.
    ///
    /// # Errors
    /// [`Trouble`].
    pub(crate) fn study_on(&self, variant: Variant, size: GridSize) -> Result<Studied, Trouble> {
        self.study_by(solve_plate, variant, size)
    }

    /// The same fresh alone, as if the roof neither aged nor was heated: no answer, but what one state costs.
    ///
    /// # Errors
    /// [`Trouble`].
    pub(crate) fn study_fresh(&self, variant: Variant) -> Result<Studied, Trouble> {
        self.study_by(solve_fresh, variant, GridSize::DEFAULT)
    }

    fn study_by(&self, solve: SolvePlate, variant: Variant, size: GridSize) -> Result<Studied, Trouble> {
        let roof = self.roof(&variant)?;
        let context = Context::new(self.survey, &roof, self.factors, variant.materials).map_err(missing)?;
        let shape = Arc::new(shape(&roof, &self.wanted, size).map_err(missing)?);
        let (solved, unknowns) =
            solve(&roof, &shape, variant.materials, &self.set, &self.layouts).map_err(missing)?;
        let tubes = tube_strengths(&roof, self.factors);
        let (cases, props) = if self.pads.is_empty() {
            (self.cases.clone(), Vec::new())
        } else {
            propped(self, &variant, &solved).map_err(missing)?
        };
        let cases = locked_in(&roof, cases);
        let mut found = evaluate(&context, &solved, &cases, &tubes, self.framed());
        if found.let_go && !self.pads.is_empty() {
            found.trouble.push(
                "walls or loose braces let go beside the props, and what the props then carry is not solved again"
                    .to_owned(),
            );
        }
        for load in &props {
            match prop_findings(&context, &self.pads[load.prop].rect, load) {
                Ok(list) => list.into_iter().for_each(|f| keep_worst(&mut found.findings, f)),
                Err(why) => found.trouble.push(why),
            }
        }
        found.findings.extend(springing_in(&context, &tubes));
        found.findings.extend(rim_findings(&context, self.survey));
        let (pads, untried) = pad_findings(&context, self.survey);
        found.findings.extend(pads);
        found.trouble.extend(untried);
        on_the_road(self, &context, &solved, &mut found);
        let patches = loose_patches(&roof);
        if !patches.is_empty() {
            let held = held(&roof);
            let (solved, _) =
                solve(&held, &shape, variant.materials, &self.set, &self.layouts).map_err(missing)?;
            evaluate_loose(&context, &solved, &cases, &patches, &mut found);
        }
        for (brace, strength) in roof.braces.iter().zip(&tubes) {
            // What no rule book is asked about is told as a gap already.
            if let (Err(why), MemberKind::AluminiumTube { .. }) = (strength, &brace.kind) {
                found.trouble.push(format!("brace {}: {why}", brace.name));
            }
        }
        for (trimmer, strength) in roof.trimmers.iter().zip(&context.trimmers) {
            if let Err(why) = strength {
                found.trouble.push(format!("{}: {why}", trimmer.name));
            }
        }
        let joints = roof.trimmers.iter().map(|t| t.name.clone()).zip(found.joints.iter().copied()).collect();
        let runs = found
            .totals
            .iter()
            .map(|(name, total)| run(self, &variant, Model::Plate, &roof, &solved.layout, name, total))
            .collect::<Result<Vec<_>, NotFinite>>()?;
        let push = push(&context, &solved.layout, &found.totals).map_err(missing)?;
        Ok(Studied { variant, found, runs, unknowns, push, joints, props })
    }

    /// Ratio of a finding at its own place, every contact closed, on a grid of a given fineness.
    ///
    /// # Errors
    /// [`Trouble`].
    pub(crate) fn read_again(
        &self,
        variant: Variant,
        size: GridSize,
        like: &Finding,
    ) -> Result<Option<f64>, Trouble> {
        let roof = self.roof(&variant)?;
        let context = Context::new(self.survey, &roof, self.factors, variant.materials).map_err(missing)?;
        let shape = Arc::new(shape(&roof, &self.wanted, size).map_err(missing)?);
        let cases: Vec<Case> = locked_in(&roof, self.cases.clone())
            .into_iter()
            .filter(|c| c.name == like.load && c.footing == like.footing && c.person == like.person)
            // Locked in counts as lasting on both grids: what is read is how far the grid moves it.
            .map(|c| Case { years: c.years_and_locked_in(), ..c })
            .collect();
        // What a grid of its own leaves behind serves nobody else.
        let own = Layouts::default();
        let layouts = if size == GridSize::DEFAULT { &self.layouts } else { &own };
        let solve = |time: Time,
                     wanted: fn(&Case) -> &[Term]|
         -> Result<(Arc<Layout>, BTreeMap<Basis, Response>), String> {
            let used = |b: &Basis| cases.iter().any(|c| wanted(c).iter().any(|(t, _)| t == b));
            let loads: Vec<_> = self.set.all.iter().filter(|(b, _)| used(b)).cloned().collect();
            let plate = PlateRoof::new(&roof, &shape, variant.materials, time, layouts)?;
            let solved = plate.solve(&loads)?;
            Ok((plate.layout.clone(), loads.iter().map(|(b, _)| *b).zip(solved).collect()))
        };
        let hot = cases.iter().any(|c| c.hot);
        let (years, top) = rayon::join(
            || solve(Time::Aged, |c| &c.years),
            || solve(if hot { Time::Hot } else { Time::Fresh }, |c| &c.top),
        );
        let ((layout, years), (_, top)) = (years.map_err(missing)?, top.map_err(missing)?);
        let limits = PanelLimits::new(&context, &layout.states, self.framed());
        let tubes = tube_strengths(&roof, self.factors);
        let ratios = cases.iter().filter_map(|case| {
            let (years, top) = (sum(&layout, &years, &case.years), sum(&layout, &top, &case.top));
            let state = CaseState::new(case, &years, &top);
            probe(&context, &limits, &layout, &state, &tubes, like)
        });
        Ok(ratios.reduce(f64::max))
    }

    /// The same by the strip, for the pencil.
    ///
    /// # Errors
    /// [`Trouble`].
    pub(crate) fn pencil(&self, variant: Variant, place: StripPlace) -> Result<Studied, Trouble> {
        let roof = self.roof(&variant)?;
        let context = Context::new(self.survey, &roof, self.factors, variant.materials).map_err(missing)?;
        let fixed = basis_set(self.survey, self.factors, &[]);
        let solved = solve_strip(&roof, place, variant.materials, &fixed).map_err(missing)?;
        let tubes = tube_strengths(&roof, self.factors);
        let fixed = permanent_cases(self.survey, self.factors);
        let cases = locked_in(&roof, fixed);
        let found = evaluate(&context, &solved, &cases, &tubes, self.framed());
        let runs = found
            .totals
            .iter()
            .map(|(name, total)| run(self, &variant, Model::Strip, &roof, &solved.layout, name, total))
            .collect::<Result<Vec<_>, NotFinite>>()?;
        Ok(Studied { variant, found, runs, unknowns: 0, push: None, joints: Vec::new(), props: Vec::new() })
    }

    /// A foot on every make-up of the panel that there is, and the walk board under it, which the roof bends by
    /// `curvature` (1/m) as it sags: see [`Findings::curvature`].
    ///
    /// # Errors
    /// [`Trouble`].
    pub(crate) fn feet(
        &self,
        variant: Variant,
        curvature: f64,
    ) -> Result<(Vec<Finding>, Vec<Untried>), Trouble> {
        let roof = self.roof(&variant)?;
        let context = Context::new(self.survey, &roof, self.factors, variant.materials).map_err(missing)?;
        let mut seen = Vec::new();
        let (mut found, mut untried) = (Vec::new(), Vec::new());
        for (x, y) in self.foot_places(&roof) {
            let make_up = (roof.state_at(x, y), roof.levels(x), void_near(&roof, x, y, 0.0));
            if roof.is_open(x, y) || seen.contains(&make_up) {
                continue;
            }
            let place = FootPlace { state: &make_up.0, x, y, curvature };
            let spread = super::places::patch(self.survey, &roof, self.factors, Footing::OnABoard);
            let (f, u) = foot_findings(&context, self.survey, &place, spread, |_, _| true);
            for finding in f {
                keep_worst(&mut found, finding);
            }
            untried.extend(u);
            seen.push(make_up);
        }
        Ok((found, untried))
    }

    /// Places that between them meet every make-up: the middles of what the zones' edges cut the roof into, and of a
    /// tapered core also where each piece is thinnest and deepest.
    fn foot_places(&self, roof: &IdealRoof) -> Vec<(f64, f64)> {
        let cut = |edges: Vec<f64>, to: f64| -> Vec<[f64; 2]> {
            let mut lines = vec![0.0, to];
            lines.extend(edges.into_iter().filter(|e| *e > 0.0 && *e < to));
            lines.sort_by(f64::total_cmp);
            lines.windows(2).filter(|p| p[1] - p[0] > 1e-3).map(|p| [p[0], p[1]]).collect()
        };
        let middle = |[from, to]: [f64; 2]| (from + to) / 2.0;
        // No foot stands nearer to a wall than half its width, nor just on the line between two make-ups.
        let half = (self.factors.sole[0] / 2.0).min(roof.span / 2.0);
        let across = |piece: [f64; 2]| -> Vec<f64> {
            if !roof.is_tapered() {
                return vec![middle(piece)];
            }
            let inside = [piece[0] + 1e-6, piece[1] - 1e-6];
            [inside[0].max(half), middle(inside), roof.span / 2.0, inside[1].min(roof.span - half)]
                .map(|x| x.clamp(inside[0], inside[1]))
                .to_vec()
        };
        let rects = || roof.zones.iter().map(|z| z.rect).chain(roof.openings.iter().copied());
        let xs: Vec<f64> = cut(rects().flat_map(|r| [r.x0, r.x1]).collect(), roof.span)
            .into_iter()
            .flat_map(across)
            .collect();
        let ys: Vec<f64> =
            cut(rects().flat_map(|r| [r.y0, r.y1]).collect(), roof.length).into_iter().map(middle).collect();
        ys.iter().flat_map(|y| xs.iter().map(move |x| (*x, *y))).collect()
    }
}

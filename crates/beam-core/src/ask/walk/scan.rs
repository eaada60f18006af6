//! The worst of all checks under one person, from the limits that the checks themselves make.
//!
//! What a check asks of a skin, a core, a brace or a slot is found once for every place by asking the check itself; a
//! person then costs a few multiplications a place. Far from the feet stress changes slowly: there one cell of a
//! square speaks for it, and the whole square is read where that one comes near the worst.

use crate::check::{
    BesideJoint, CaseState, Check, Context, CoreLimits, Cure, EdgeAsked, PanelLimits, SkinLimits,
    TubeStrength, Unknown, WrinklingLimits, beside_joints, brace_findings, panel_findings, trimmer_findings,
};
use crate::loads::Footing;
use crate::model::Rect;
use crate::plate::{CellPlace, Reader, Standing};
use crate::response::{BraceForces, BracePlace, Layout, Response, SkinStress, SlotPlace, is_worse};

/// Side of a square of cells that one cell speaks for.
const SQUARE: usize = 4;
/// A square is read whole where its speaker uses this share of the worst.
const NEARLY: f64 = 0.8;
/// Every cell this near to a foot is read, m.
const ROUND_A_FOOT: f64 = 0.12;
/// How far round an opening's corner only the corner's own check speaks, and where it is read, in half core depths.
/// Kept the same as in the panel's checks by a test that compares them.
const CORNER: [f64; 3] = [1.0, 2.0, 3.0];

/// The worst of a person.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Worst {
    pub ratio: f64,
    pub check: Check,
    /// Where the roof is used most.
    pub x: f64,
    pub y: f64,
    /// The worst of those checks beyond whose limit a roof fails for sure.
    pub sure: f64,
}

impl Worst {
    /// One check. What is no number counts as the worst there is.
    pub(crate) fn of(check: Check, ratio: f64, x: f64, y: f64) -> Worst {
        let ratio = if ratio.is_nan() { f64::INFINITY } else { ratio };
        let sure = if check.cure() == Cure::NotSure { 0.0 } else { ratio };
        Worst { ratio, check, x, y, sure }
    }

    pub(crate) fn keep(&mut self, other: Worst) {
        let sure = self.sure.max(other.sure);
        if is_worse(other.ratio, self.ratio) {
            *self = other;
        }
        self.sure = sure;
    }
}

/// How a skin at a place is judged.
enum SkinAsked<'a> {
    Not,
    /// Beside an opening's corner, with the corner's factor.
    Corner(&'a SkinLimits, f64),
    Plain(Option<&'a SkinLimits>, Option<&'a WrinklingLimits>),
}

/// Shares of the limits of a brace per unit of force, model factor included.
struct BraceAsked {
    tension: f64,
    compression: f64,
    bending: f64,
    shear: f64,
    /// Per shear flow that lasts and that passes.
    glue: [f64; 2],
    /// Per reaction at the left and the right end, lasting and passing.
    seat: [[f64; 2]; 2],
}

/// Shares per unit of shear force over a slot: lasting and passing, across and along, for each skin that bridges it.
type SlotAsked = Vec<[[f64; 2]; 2]>;

/// One state of a roof with what stays on it, ready for people.
pub(crate) struct Scan<'a> {
    context: &'a Context<'a>,
    limits: &'a PanelLimits,
    reader: &'a Reader<'a>,
    layout: &'a Layout,
    case: CaseState<'a>,
    skins: Vec<SkinAsked<'a>>,
    cores: Vec<Option<&'a CoreLimits>>,
    edges: Vec<Option<EdgeAsked>>,
    braces: Vec<BraceAsked>,
    /// First place of each brace in the layout.
    brace_start: Vec<usize>,
    slots: Vec<SlotAsked>,
    /// Beside joints that pass no force: the cell, and what is read there.
    joints: Vec<(usize, BesideJoint)>,
    squares: Vec<Vec<usize>>,
    always: Vec<usize>,
    /// What could not be judged for want of a strength.
    pub unknown: Vec<Unknown>,
}

impl<'a> Scan<'a> {
    /// `case` carries what stays on for years, and how the person on top counts; its own upper part is not read.
    pub(crate) fn new(
        context: &'a Context<'a>,
        limits: &'a PanelLimits,
        tubes: &[Result<TubeStrength, String>],
        reader: &'a Reader<'a>,
        layout: &'a Layout,
        case: CaseState<'a>,
    ) -> Scan<'a> {
        let mut unknown: Vec<Unknown> = Vec::new();
        let mut lacking = |what: &Unknown| {
            if !unknown.contains(what) {
                unknown.push(what.clone());
            }
        };
        let near: Vec<f64> = layout.skins.iter().map(|p| limits.corner_distance(p)).collect();
        let skins = layout
            .skins
            .iter()
            .zip(&near)
            .map(|(place, &near)| {
                let own = limits.of(place.state, place.layer, &case);
                let [from, to, reach] = CORNER;
                match &own.skin {
                    Ok(skin) if (from..to).contains(&near) => {
                        SkinAsked::Corner(skin, limits.corner_factor(near))
                    }
                    _ if near < reach => SkinAsked::Not,
                    Ok(skin) => SkinAsked::Plain(Some(skin), own.wrinkling.as_ref()),
                    Err(what) => {
                        lacking(what);
                        SkinAsked::Plain(None, own.wrinkling.as_ref())
                    }
                }
            })
            .collect();
        let cores = layout
            .cores
            .iter()
            .map(|place| {
                if limits.corner_distance(place) < CORNER[2] {
                    return None;
                }
                match &limits.of(place.state, place.layer, &case).core {
                    Some(Ok(core)) => Some(core),
                    Some(Err(what)) => {
                        lacking(what);
                        None
                    }
                    None => None,
                }
            })
            .collect();
        let slots = layout
            .slots
            .iter()
            .map(|place| {
                let (asked, what) = slot_asked(context, limits, layout, &case, place);
                what.iter().for_each(&mut lacking);
                asked
            })
            .collect();
        let braces = (0..context.roof.braces.len()).map(|b| brace_asked(context, &case, tubes, b)).collect();
        let start = |b: usize| layout.braces.iter().position(|p| p.brace == b).unwrap_or(0);
        Scan {
            context,
            limits,
            reader,
            layout,
            case,
            skins,
            cores,
            edges: layout.cores.iter().map(|p| EdgeAsked::at(context, layout, p, case.hot)).collect(),
            braces,
            brace_start: (0..context.roof.braces.len()).map(start).collect(),
            slots,
            joints: joints(context, reader, layout),
            squares: reader.squares(SQUARE),
            always: reader.beside_edges(),
            unknown,
        }
    }

    /// The worst of all checks of the roof as a whole with a person on it, and the most that a glue line uses.
    pub(crate) fn worst(&self, person: &Standing<'_>, feet: &[Rect]) -> (Worst, f64) {
        let mut worst = self.sag(person);
        for &k in &self.always {
            worst.keep(self.cell(person, k, feet));
        }
        for foot in feet {
            self.reader.near(foot, ROUND_A_FOOT, |k| worst.keep(self.cell(person, k, feet)));
        }
        let spoken: Vec<f64> = self
            .squares
            .iter()
            .map(|square| {
                let one = self.cell(person, square[0], feet);
                worst.keep(one);
                one.ratio
            })
            .collect();
        for (square, spoken) in self.squares.iter().zip(spoken) {
            if spoken > NEARLY * worst.ratio {
                square[1..].iter().for_each(|k| worst.keep(self.cell(person, *k, feet)));
            }
        }
        self.beside_joints(person, &mut worst);
        let glue = self.brace_worst(person, &mut worst);
        self.trimmers(person, &mut worst);
        (worst, glue)
    }

    /// As [`Scan::worst`], with every cell read.
    #[cfg(test)]
    pub(crate) fn worst_of_all(&self, person: &Standing<'_>, feet: &[Rect]) -> Worst {
        let mut worst = self.sag(person);
        (0..self.reader.cells.len()).for_each(|k| worst.keep(self.cell(person, k, feet)));
        self.beside_joints(person, &mut worst);
        self.brace_worst(person, &mut worst);
        self.trimmers(person, &mut worst);
        worst
    }

    fn beside_joints(&self, person: &Standing<'_>, worst: &mut Worst) {
        let years = self.case.years;
        for (k, joint) in &self.joints {
            let place = &self.reader.cells[*k];
            let Some(Ok(limits)) = &self.core_limits(joint.core) else { continue };
            let strains = person.strains(place);
            let (mut skin, mut core) = (SkinStress::default(), [0.0; 2]);
            person.skins(place, &strains, |at, stress| skin = if at == joint.skin { stress } else { skin });
            person.cores(place, &strains, |at, stress| core = if at == joint.core { stress } else { core });
            let lasting = joint.shear(&years.cores[joint.core], &years.skins[joint.skin]);
            let used = limits.used(&self.case, &lasting, &joint.shear(&core, &skin));
            let ratio = used.ratio * self.context.model_factor;
            worst.keep(Worst::of(Check::CoreShear, ratio, place.x, place.y));
        }
    }

    /// Limits of a core's place of the layout.
    fn core_limits(&self, core: usize) -> &'a Option<Result<CoreLimits, Unknown>> {
        let place = &self.layout.cores[core];
        &self.limits.of(place.state, place.layer, &self.case).core
    }

    fn trimmers(&self, person: &Standing<'_>, worst: &mut Worst) {
        if self.layout.trimmers.is_empty() {
            return;
        }
        let top = Response { trimmers: person.trimmers(), ..Response::default() };
        let state = CaseState { top: &top, ..self.case };
        for f in trimmer_findings(self.context, self.layout, &state) {
            worst.keep(Worst::of(f.check, f.ratio, f.x, f.y));
        }
    }

    fn sag(&self, person: &Standing<'_>) -> Worst {
        let (index, sag) = person.largest_sag();
        let (x, y) = self.layout.sag.get(index).copied().unwrap_or((0.0, 0.0));
        let ratio = sag * self.context.model_factor / self.context.sag.short;
        Worst::of(Check::Sag, ratio, x, y)
    }

    fn cell(&self, person: &Standing<'_>, k: usize, feet: &[Rect]) -> Worst {
        let place: &CellPlace = &self.reader.cells[k];
        let factor = self.context.model_factor;
        let years = self.case.years;
        let mut worst = Worst::of(Check::OuterSkin, 0.0, place.x, place.y);
        let mut keep = |check: Check, ratio: f64| {
            worst.keep(Worst::of(check, ratio * factor, place.x, place.y));
        };
        let strains = person.strains(place);
        // Round a foot the plate is no picture of the core, nor of how the skin bends by itself: both are checked apart.
        let by_a_foot = feet.iter().any(|f| self.limits.near_foot(f, place.x, place.y));
        person.skins(place, &strains, |at, top| {
            let top = top.judged(by_a_foot && self.case.footing == Footing::Bare);
            match &self.skins[at] {
                SkinAsked::Not => {}
                SkinAsked::Corner(skin, factor) => {
                    let used = skin.used(&self.case, &years.skins[at], &top);
                    keep(Check::OpeningCorner, used.ratio * factor);
                }
                SkinAsked::Plain(skin, wrinkling) => {
                    if let Some(skin) = skin {
                        keep(skin.check, skin.used(&self.case, &years.skins[at], &top).ratio);
                    }
                    if let Some(w) = wrinkling {
                        keep(Check::Wrinkling, w.used(&self.case, &years.skins[at], &top).ratio);
                    }
                }
            }
        });
        person.cores(place, &strains, |at, top| {
            if let (Some(core), false) = (self.cores[at], by_a_foot) {
                keep(Check::CoreShear, core.used(&self.case, &years.cores[at], &top).ratio);
            }
            let edge = self.edges[at].as_ref();
            if let Some(used) = edge.and_then(|e| e.used(self.case.dynamic, &years.cores[at], &top)) {
                keep(Check::CoreCrush, used.ratio);
            }
        });
        if let Some(slot) = place.slot {
            let (long, short) = (years.slots[slot], person.slot(place, &strains));
            for skin in &self.slots[slot] {
                for d in 0..2 {
                    // Model factor and walking are in the shares already.
                    let ratio = long[d].abs() * skin[d][0] + short[d].abs() * skin[d][1];
                    keep(Check::Slot, ratio / factor);
                }
            }
        }
        worst
    }

    /// Braces, their glue lines and seats; returns the most that a glue line uses.
    fn brace_worst(&self, person: &Standing<'_>, worst: &mut Worst) -> f64 {
        let k = self.case.dynamic;
        let mut most_glue: f64 = 0.0;
        for (number, asked) in self.braces.iter().enumerate() {
            let brace = &self.context.roof.braces[number];
            let pieces = person.brace(number);
            let mut at = self.brace_start[number];
            for piece in &pieces {
                let flows = piece.slip_flow.unwrap_or([0.0; 2]);
                for (moment, flow) in piece.moment.into_iter().zip(flows) {
                    let years = &self.case.years.braces[at];
                    let x = self.layout.braces[at].x;
                    at += 1;
                    let axial = years.axial + k * piece.axial;
                    let moment = years.moment + k * moment;
                    let shear = years.shear + k * piece.shear;
                    let along = if axial < 0.0 { asked.compression } else { asked.tension };
                    let mut keep = |check, ratio| worst.keep(Worst::of(check, ratio, x, brace.y));
                    keep(Check::Brace, axial.abs() * along + moment.abs() * asked.bending);
                    keep(Check::BraceShear, shear.abs() * asked.shear);
                    let glue = share(years.flow, asked.glue[0]) + share(k * flow, asked.glue[1]);
                    most_glue = most_glue.max(glue);
                    keep(Check::GlueLine, glue);
                }
            }
            if let (Some(first), Some(last)) = (pieces.first(), pieces.last()) {
                let years = self.case.years.ends[number];
                for (end, (short, x)) in
                    [(first.shear, brace.x0), (-last.shear, brace.x1)].into_iter().enumerate()
                {
                    let [lasting, passing] = asked.seat[end];
                    let ratio = years[end].max(0.0) * lasting + k * short.max(0.0) * passing;
                    worst.keep(Worst::of(Check::SeatBearing, ratio, x, brace.y));
                }
            }
        }
        most_glue
    }
}

/// Use of a glue line by a flow; none where nothing flows, however soft the glue.
fn share(flow: f64, per_flow: f64) -> f64 {
    if flow == 0.0 { 0.0 } else { flow.abs() * per_flow }
}

/// Where the foam beside joints is read, with the cells that those places lie in.
fn joints(context: &Context<'_>, reader: &Reader<'_>, layout: &Layout) -> Vec<(usize, BesideJoint)> {
    let cell_of = |core: usize| reader.cells.iter().position(|c| c.cores.contains(&core));
    let places = beside_joints(context, layout).into_iter();
    places.filter_map(|joint| Some((cell_of(joint.core)?, joint))).collect()
}

/// What the brace checks make of unit forces: their limits, without writing them down twice.
fn brace_asked(
    context: &Context<'_>,
    case: &CaseState<'_>,
    tubes: &[Result<TubeStrength, String>],
    brace: usize,
) -> BraceAsked {
    let place = BracePlace { brace, x: context.roof.braces[brace].x0 };
    let layout = Layout { braces: vec![place], ends: vec![brace], ..Layout::default() };
    let ask = |check: Check, forces: BraceForces, ends: [f64; 2], lasting: bool| -> [f64; 2] {
        let unit = Response { braces: vec![forces], ends: vec![ends], ..Response::default() };
        let none = Response::zero(&layout);
        let (years, top) = if lasting { (&unit, &none) } else { (&none, &unit) };
        let state = CaseState { years, top, dynamic: 1.0, ..*case };
        let mut found =
            brace_findings(context, &layout, &state, tubes).into_iter().filter(|f| f.check == check);
        let mut next = || found.next().map_or(0.0, |f| f.ratio);
        [next(), next()]
    };
    let force = |axial: f64, moment: f64, shear: f64, flow: f64| BraceForces {
        axial,
        moment,
        shear,
        flow,
        torsion: 0.0,
    };
    let one = |check, forces, lasting| ask(check, forces, [0.0; 2], lasting)[0];
    let seat = |end: usize, lasting: bool| {
        let ends = if end == 0 { [1.0, 0.0] } else { [0.0, 1.0] };
        ask(Check::SeatBearing, BraceForces::default(), ends, lasting)[end]
    };
    BraceAsked {
        tension: one(Check::Brace, force(1.0, 0.0, 0.0, 0.0), false),
        compression: one(Check::Brace, force(-1.0, 0.0, 0.0, 0.0), false),
        bending: one(Check::Brace, force(0.0, 1.0, 0.0, 0.0), false),
        shear: one(Check::BraceShear, force(0.0, 0.0, 1.0, 0.0), false),
        glue: [true, false].map(|lasting| one(Check::GlueLine, force(0.0, 0.0, 0.0, 1.0), lasting)),
        seat: [0, 1].map(|end| [seat(end, true), seat(end, false)]),
    }
}

/// What the slot check makes of unit shear forces, skin by skin.
fn slot_asked(
    context: &Context<'_>,
    limits: &PanelLimits,
    layout: &Layout,
    case: &CaseState<'_>,
    place: &SlotPlace,
) -> (SlotAsked, Vec<Unknown>) {
    let alone = Layout { slots: vec![*place], states: layout.states.clone(), ..Layout::default() };
    let mut asked: Vec<(String, [[f64; 2]; 2])> = Vec::new();
    let mut unknown = Vec::new();
    for d in 0..2 {
        for (n, lasting) in [true, false].into_iter().enumerate() {
            let mut unit = Response::zero(&alone);
            unit.slots[0][d] = 1.0;
            let none = Response::zero(&alone);
            let (years, top) = if lasting { (&unit, &none) } else { (&none, &unit) };
            let (found, lacking) =
                panel_findings(context, limits, &alone, &CaseState { years, top, ..*case });
            unknown.extend(lacking);
            for f in found.into_iter().filter(|f| f.check == Check::Slot) {
                let at = asked.iter().position(|(part, _)| *part == f.part).unwrap_or_else(|| {
                    asked.push((f.part.clone(), [[0.0; 2]; 2]));
                    asked.len() - 1
                });
                asked[at].1[d][n] = f.ratio;
            }
        }
    }
    (asked.into_iter().map(|(_, shares)| shares).collect(), unknown)
}

/// A person's part of a case, with what stays on for years.
pub(crate) fn person_state<'a>(
    case: &'a crate::loads::Case,
    years: &'a Response,
    top: &'a Response,
) -> CaseState<'a> {
    CaseState { footing: Footing::NotAFoot, feet: &[], ..CaseState::new(case, years, top) }
}

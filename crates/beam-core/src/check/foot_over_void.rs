//! A foot over a slot in the foam, or over foam that is missing, and right beside one.
//!
//! The foot is tried over the middle, with a side flush with a lip from within and from without, with its middle on a lip,
//! and a little way off; both ways round. The slot has no end ([`crate::local::dents`]): where the void is short for its
//! width it is judged as an endless one each way, the other sides left out. Nothing under a skin over the void is counted
//! on, and of foam left on the skin only what stays whole.
//!
//! Not in it: the edge of an opening where a slot runs out, what lies closer than the foam forgets, a lower skin as a
//! floor to fall on.

use super::context::{Context, basis};
use super::finding::{Check, Finding};
use super::foot::{
    Foam, FootPlace, OF_A_FOOT, OnRigidBed, Untried, at, below, board_plate, foam, skin_bending, skin_plate,
    weight,
};
use super::void_place::VoidPlace;
use super::walk_board::walk_board;
use crate::loads::Footing;
use crate::local::{Below, Layer, PlateD, SlotCase, SlotDent, SlotPatch, Void, dents, edge_distance_needed};
use crate::model::{LayUp, LayerState, PanelState, Role, Time};
use crate::quantity::si;
use crate::strength::Basis;
use crate::strength::core::punch_through_beside_slot;
use crate::survey::Survey;
use std::cell::OnceCell;

/// A board reaches beyond both lips by this, or it is not counted on, m (judged: over less the foam gives way under it).
const BOARD_BEYOND: f64 = 0.1;
/// Foam left on the upper skin is counted on while its tension stays under this share of what crushes it. Listed tensile
/// strengths of bead foam (ASTM C578) are no less than that stress: the rest is for what is brittle (judged).
const WHOLE: f64 = 0.5;
/// Tries at the softened foam that yields under a heel.
const YIELD_STEPS: usize = 8;
/// Each makes the foam softer by this power of what it is pressed too hard: a little too soft bends the skin more.
const SOFTER: f64 = 2.5;
/// Places of a pad from the middle of the slot to flush beside it, where closed forms are asked.
const STEPS: usize = 24;

/// What is said where a void is too short to be taken for an endless slot, and does not hold as one turned.
const SHORT: &str = "the void in the foam is short, and that its skin holds along it as well as across is not shown: fill it with foam glued in";

mod stumble;

/// One slot with a foot about it: what stays the same for every check.
struct Over<'a> {
    context: &'a Context<'a>,
    survey: &'a Survey,
    place: FootPlace<'a>,
    foam: Foam,
    plate: PlateD,
    lay_up: LayUp,
    below: Below,
    void: Void,
    /// Whether the slot runs across the vehicle: 11 of the plates is square to it.
    turned: bool,
    /// Walking soles, then heels, about the slot.
    soles: Vec<SlotPatch>,
    heels: Vec<SlotPatch>,
    /// What they do on sound foam: on a bed that does not move, and over the lower skin where it does.
    bare: Vec<Vec<SlotDent>>,
    /// What walking soles do on a board.
    boarded: OnceCell<Result<Vec<Vec<SlotDent>>, String>>,
}

/// Findings about a foot at a void, bare and on the board; only those of which `asked` says so are made.
pub(super) fn void_findings(
    context: &Context<'_>,
    survey: &Survey,
    place: &FootPlace<'_>,
    spread: [f64; 2],
    asked: impl Fn(Check, Footing) -> bool,
) -> (Vec<Finding>, Vec<Untried>) {
    let all = || OF_A_FOOT.into_iter().filter(|(check, footing)| asked(*check, *footing));
    let untried =
        |why: &String| all().map(|(check, footing)| (check, footing, why.clone())).collect::<Vec<_>>();
    let no_skin = |i: usize| {
        let (layer, state) = (&context.roof.layers[i], &place.state[i]);
        layer.role == Role::Core || state.stiffness <= 0.0 || state.strength <= 0.0
    };
    if (0..place.state.len()).all(no_skin) {
        return nothing_carries(place);
    }
    let void = match VoidPlace::at(context, place, survey.family) {
        Ok(void) => void,
        Err(why) => return (Vec::new(), untried(&why)),
    };
    let (mut found, mut open) = (Vec::new(), Vec::new());
    for state in &void.beside {
        let place = FootPlace { state, ..*place };
        let made = made(context, survey, &place, &void);
        let slots = match made {
            Ok(slots) => slots,
            Err(why) => {
                open.extend(untried(&why));
                continue;
            }
        };
        for (n, over) in slots.into_iter().enumerate() {
            let bridged = void.to_bridge() + 2.0 * BOARD_BEYOND
                <= survey.person.board.size.iter().map(|s| s.value).fold(f64::INFINITY, f64::min);
            let sole = context.factors.sole;
            let make = |check, footing| {
                match (check, footing) {
                (_, Footing::OnABoard) if !bridged => Err(
                    "the walk board does not reach well over the void in the foam: take a larger one, or fill it"
                        .to_owned(),
                ),
                (Check::Dent, _) => over.dent(footing),
                (Check::FootShear, Footing::OnABoard) => over.punch(footing, spread),
                (Check::FootShear, _) => over.punch(footing, sole),
                (Check::Heel, _) => over.heel(),
                (Check::FallThrough, _) => over.stumble(),
                _ => over.board(),
            }
            };
            for (check, footing) in all() {
                match make(check, footing) {
                    // A short void judged as an endless one along it too is judged hard: so it may hold, and not fail.
                    Ok(list) if n > 0 && list.iter().any(|f| f.ratio.is_nan() || f.ratio > 1.0) => {
                        open.push((check, footing, SHORT.to_owned()));
                    }
                    Ok(list) => found.extend(list),
                    Err(why) => open.push((check, footing, why)),
                }
            }
        }
    }
    (found, open)
}

/// Where no skin is left over and under a void, a foot goes through.
fn nothing_carries(place: &FootPlace<'_>) -> (Vec<Finding>, Vec<Untried>) {
    let mut finding = at(place, Check::FallThrough, Footing::Bare, "panel, void".to_owned());
    finding.si = "N";
    finding.ratio = f64::INFINITY;
    finding.basis = Basis::computed("no skin is left over or under the void: nothing holds a foot");
    (vec![finding], Vec::new())
}

/// The slots that a void is judged as, with one state of the panel beside it.
fn made<'a>(
    context: &'a Context<'a>,
    survey: &'a Survey,
    place: &FootPlace<'a>,
    void: &VoidPlace,
) -> Result<Vec<Over<'a>>, String> {
    let place = FootPlace { ..*place };
    if place.state.iter().any(LayerState::is_cut) {
        return Err("a joint of a skin runs over or beside a void: a foot there is not worked out".to_owned());
    }
    let Some((plate, lay_up)) = skin_plate(context, &place, Time::Fresh)? else {
        return Err("no skin is left over the void there: a foot would stand in it".to_owned());
    };
    let slots = void.slots(&plate);
    slots
        .into_iter()
        .map(|(void, turned)| {
            let foam = foam(context, &place)?;
            let mut over = Over {
                context,
                survey,
                place: FootPlace { ..place },
                foam,
                plate: if turned { plate.turned() } else { plate },
                lay_up: lay_up.clone(),
                below: match below(context, &place)? {
                    Below::Skin(lower) if turned => Below::Skin(lower.turned()),
                    below => below,
                },
                void,
                turned,
                soles: Vec::new(),
                heels: Vec::new(),
                bare: Vec::new(),
                boarded: OnceCell::new(),
            };
            over.soles = over.patches(weight(survey) * context.factors.walking, context.factors.sole)?;
            let heel = weight(survey).max(context.factors.heel_force);
            over.heels = over.patches(heel, [context.factors.heel_side; 2])?;
            over.bare = over.tried(&[over.plate])?;
            if void.leaves_foam_above() && !over.stays_whole() {
                over.void.cut[1] = 1.0;
                over.bare = over.tried(&[over.plate])?;
            }
            Ok(over)
        })
        .collect()
}

impl Over<'_> {
    fn part(&self, layer: usize) -> String {
        format!("{}, void", self.context.roof.layers[layer].name)
    }

    /// Patches of this size about the slot; `both`: turned as well.
    fn patches(&self, load: f64, [a, b]: [f64; 2]) -> Result<Vec<SlotPatch>, String> {
        let layer = Layer::new(self.foam.e, self.foam.nu, self.foam.depth).map_err(|e| e.to_string())?;
        let strip = edge_distance_needed(si(self.plate.d11.max(self.plate.d22)), si(layer.wide()))
            .map_err(|e| e.to_string())?
            .value;
        let lip = self.void.width / 2.0;
        let mut out: Vec<SlotPatch> = Vec::new();
        for (across, along) in [(a, b), (b, a)] {
            let half = across / 2.0;
            for middle in [0.0, (lip - half).abs(), lip, lip + half, lip + half + strip / 2.0] {
                let patch = SlotPatch { load, across, along, middle };
                if !out.contains(&patch) {
                    out.push(patch);
                }
            }
        }
        Ok(out)
    }

    fn press(
        &self,
        plates: &[PlateD],
        below: Below,
        e: f64,
        patches: &[SlotPatch],
    ) -> Result<Vec<SlotDent>, String> {
        let foam = Layer::new(e, self.foam.nu, self.foam.depth).map_err(|e| e.to_string())?;
        dents(&SlotCase { plates, foam, below, void: self.void }, patches).map_err(|e| e.to_string())
    }

    /// What lies below: as it is, and a bed that does not move. The worse counts.
    fn beds(&self) -> Vec<Below> {
        if self.below == Below::Rigid { vec![Below::Rigid] } else { vec![Below::Rigid, self.below] }
    }

    /// Soles and heels on sound foam, under these plates, on each bed.
    fn tried(&self, plates: &[PlateD]) -> Result<Vec<Vec<SlotDent>>, String> {
        let all: Vec<SlotPatch> = self.soles.iter().chain(&self.heels).copied().collect();
        self.beds().into_iter().map(|bed| self.press(plates, bed, self.foam.e, &all)).collect()
    }

    /// Walking soles on a board.
    fn boarded(&self) -> Result<&Vec<Vec<SlotDent>>, String> {
        let made = self.boarded.get_or_init(|| {
            let plates = [self.plate, self.board_plate()?];
            self.beds().into_iter().map(|bed| self.press(&plates, bed, self.foam.e, &self.soles)).collect()
        });
        made.as_ref().map_err(String::clone)
    }

    /// Whether foam left on the upper skin over the slot is not torn.
    fn stays_whole(&self) -> bool {
        most(0.0, self.bare.iter().flatten().map(|d| d.stretch)) <= WHOLE * self.crush_limit()
    }

    fn crush_limit(&self) -> f64 {
        self.foam.crush * self.context.heat_strength(self.foam.layer, true)
            / self.context.factors.gamma_core_crush
    }

    /// The foam under a sole and at the lips stays under its crushing stress over 1.4, on a hot roof.
    fn dent(&self, footing: Footing) -> Result<Vec<Finding>, String> {
        let stress = if footing == Footing::OnABoard {
            most(0.0, self.boarded()?.iter().flatten().map(|d| d.foam_stress))
        } else {
            most(0.0, self.bare.iter().flat_map(|bed| &bed[..self.soles.len()]).map(|d| d.foam_stress))
        };
        let mut finding = at(&self.place, Check::Dent, footing, self.part(self.foam.layer));
        finding.demand = stress;
        finding.limit = self.crush_limit();
        finding.ratio = stress / finding.limit * self.context.model_factor;
        finding.basis = basis(
            &self.foam.known,
            "compressive stress at 10 % strain over 1.4 (EN 14509, from memory), hot roof; at a lip the mean over 5 mm",
        );
        Ok(vec![finding])
    }

    fn board_plate(&self) -> Result<PlateD, String> {
        let board = board_plate(self.context, self.survey)?;
        Ok(if self.turned { board.turned() } else { board })
    }

    /// Core shear round a foot, that does not pass the slot.
    fn punch(&self, footing: Footing, [a, b]: [f64; 2]) -> Result<Vec<Finding>, String> {
        let (context, layer) = (self.context, self.foam.layer);
        let known = context.strengths[layer].shear_core.as_ref().ok_or_else(|| {
            format!("no shear strength is known for the {}", context.roof.layers[layer].name)
        })?;
        let f = known.value * self.place.state[layer].strength * context.heat_strength(layer, true)
            / (context.factors.panel * context.factors.gamma_core_shear);
        let mut limit = f64::INFINITY;
        for (across, along) in [(a, b), (b, a)] {
            for middle in self.middles(across) {
                let pad = [si(across), si(along)];
                let one = punch_through_beside_slot(
                    si(f),
                    si(self.foam.depth),
                    pad,
                    si(self.void.width),
                    si(middle),
                )
                .map_err(|e| e.to_string())?;
                limit = limit.min(one.value.value);
            }
        }
        let load = weight(self.survey) * context.factors.walking;
        let part = format!("{} round the foot, void", context.roof.layers[layer].name);
        let mut finding = at(&self.place, Check::FootShear, footing, part);
        finding.si = "N";
        finding.demand = load;
        finding.limit = limit;
        finding.ratio = load / limit * context.model_factor;
        finding.basis = basis(
            known,
            "perimeter half a depth outside the foot, none across the slot (practice), gamma_M 1.5 and 1.5, hot roof",
        );
        Ok(vec![finding])
    }

    /// Middles of a pad from over the slot to flush beside it.
    fn middles(&self, across: f64) -> impl Iterator<Item = f64> + use<> {
        let end = self.void.width / 2.0 + across / 2.0;
        (0..=STEPS).map(move |i| end * i as f64 / STEPS as f64)
    }

    /// The skin's bending under a heel, the foam yielding at its crushing stress.
    ///
    /// As on sound foam, the foam is softened evenly until it just bears what presses it, here most of all at a lip: that
    /// lets the skin sink and turn more at the lips than foam that yields only there. One softness is taken for all places
    /// of the heel, that of the worst.
    fn heel(&self) -> Result<Vec<Finding>, String> {
        let heels: Vec<&[SlotDent]> = self.bare.iter().map(|bed| &bed[self.soles.len()..]).collect();
        let mut findings = self.bent(&self.heels, &heels, [1.0; 2], self.foam.crush)?;
        findings.iter_mut().for_each(|f| f.part.push_str(", void"));
        Ok(findings)
    }

    /// The skin bent by the worst of these patches times `more`, on foam softened until none presses it beyond `crush`;
    /// `sound`: what they do before, on each bed. Where a skin uses more than `breaks` on foam that is too stiff yet, no softer
    /// one is tried.
    fn bent(
        &self,
        patches: &[SlotPatch],
        sound: &[&[SlotDent]],
        [more, breaks]: [f64; 2],
        crush: f64,
    ) -> Result<Vec<Finding>, String> {
        let moments = |dents: &[SlotDent]| {
            [0, 1].map(|d| most(0.0, dents.iter().map(|dent| more * dent.moments[0][d])))
        };
        let stress = |dents: &[SlotDent]| most(0.0, dents.iter().map(|dent| more * dent.foam_stress));
        let (Some(rigid), Some(moving)) = (sound.first(), sound.last()) else {
            return Err("nothing was tried".to_owned());
        };
        let (on_rigid, moving_moments) = (moments(rigid), moments(moving));
        let mut pressed = most(stress(rigid), [stress(moving)]);
        let (mut e, mut yielding) = (self.foam.e, on_rigid);
        for step in 0.. {
            let bent = OnRigidBed { sound: on_rigid, yielding }.swayed(moving_moments);
            let across_first = if self.turned { [bent[1], bent[0]] } else { bent };
            let findings =
                skin_bending(self.context, &self.place, &self.upright(), &self.lay_up, across_first)?;
            let broken = findings.iter().any(|f| f.ratio.is_nan() || f.ratio > breaks);
            if broken || pressed <= crush * 1.001 {
                return Ok(findings);
            }
            if step == YIELD_STEPS {
                break;
            }
            e /= (pressed / crush).powf(SOFTER).min(100.0);
            let dents = self.press(&[self.plate], Below::Rigid, e, patches)?;
            (pressed, yielding) = (stress(&dents), moments(&dents));
        }
        Err("the foam beside the void yields everywhere under a heel".to_owned())
    }

    /// What a stumble's limit takes off that of a heel: the panel's factor, less what so short a load adds to wood.
    fn stumble_over_heel(&self) -> f64 {
        let f = self.context.factors;
        f.panel * f.k_mod_short / f.k_mod_instantaneous
    }

    /// The skin as it lies, across first.
    fn upright(&self) -> PlateD {
        if self.turned { self.plate.turned() } else { self.plate }
    }

    /// The walk board, bent over the slot by as much more as over sound foam as a board in its middle is.
    fn board(&self) -> Result<Vec<Finding>, String> {
        let plates = [self.plate, self.board_plate()?];
        let layer = Layer::new(self.foam.e, self.foam.nu, self.foam.depth).map_err(|e| e.to_string())?;
        let middle: Vec<SlotPatch> = self.soles.iter().filter(|p| p.middle == 0.0).copied().collect();
        let bent =
            |dents: &[SlotDent]| [0, 1].map(|d| most(0.0, dents.iter().map(|dent| dent.moments[1][d])));
        let mut more = [1.0f64; 2];
        for (bed, hollow) in self.beds().into_iter().zip(self.boarded()?) {
            let void = Void { width: 0.0, ..self.void };
            let sound = dents(&SlotCase { plates: &plates, foam: layer, below: bed, void }, &middle)
                .map_err(|e| e.to_string())?;
            let (hollow, sound) = (bent(hollow), bent(&sound));
            more = [0, 1].map(|d| most(more[d], [hollow[d] / sound[d]]));
        }
        if self.turned {
            more.swap(0, 1);
        }
        let mut found = walk_board(self.context, self.survey, &self.place, more)?;
        // So much is only judged: it may hold, and may not fail, a board that holds on sound foam.
        if found.iter().any(|f| f.ratio.is_nan() || f.ratio > 1.0) {
            let sound = walk_board(self.context, self.survey, &self.place, [1.0; 2])?;
            if sound.iter().all(|f| f.ratio <= 1.0) {
                return Err("that the walk board holds over the void in the foam is not shown: take a thicker one, or fill the void".to_owned());
            }
        }
        found.iter_mut().for_each(|f| f.part.push_str(", void"));
        Ok(found)
    }
}

/// The largest of all; what is no number is the worst there is.
fn most(first: f64, others: impl IntoIterator<Item = f64>) -> f64 {
    others.into_iter().fold(first, |m, v| if v.is_nan() || v > m { v } else { m })
}

/// Whether a place of the panel has a void in any of its foam.
pub(super) fn is_hollow(state: &PanelState) -> bool {
    state.iter().any(|s| s.slot > 0.0 && s.stiffness > 0.0)
}

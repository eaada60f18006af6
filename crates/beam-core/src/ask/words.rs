//! Scope, reasons, next steps, assumptions, cautions.

use super::answers::place;
use super::beside::{rests_on, settling_steps, settling_words};
use super::document::{Summary, walked};
use crate::check::{
    Check, Governing, GridWords, MeasuredAgainst, Outcome, Verdict, Words, deciding, outcome_of,
};
use crate::model::{OWN_BOARD_CREEP, OWN_FOAM_CREEP, OWN_FOAM_HEAT, is_foam, parts};
use crate::quantity::{percent, tape, weight};
use crate::survey::{
    Condition, Formed, JointKind, LayerMaterial, Origin, OwnMaterial, Road, Snow, Thrust, Way,
};

fn words(code: &str, text: impl Into<String>) -> Words {
    Words { code: code.to_owned(), words: text.into() }
}

/// What the verdict is for, and what not.
pub(crate) fn scope(s: &Summary<'_>) -> String {
    let survey = s.survey;
    let family = survey.family;
    let mut parts = Vec::new();
    match survey.person.way {
        Way::Nobody => parts.push("nobody on the roof".to_owned()),
        way => {
            let who = if survey.person.count == 1 {
                "one person".to_owned()
            } else {
                format!("{} persons", survey.person.count)
            };
            let how = match way {
                Way::Bare => "without a board, off the roof's own edges".to_owned(),
                _ => {
                    let strip = if survey.openings.is_empty() {
                        String::new()
                    } else {
                        format!(" outside the opening's edge strip of {}", tape(s.study.edge_strip, family))
                    };
                    let [across, along] = survey.person.board.size.map(|side| tape(side.value, family));
                    format!("on a {across} x {along} board{strip}")
                }
            };
            parts.push(format!("{who} of {} {how}", weight(survey.person.mass.value, family)));
        }
    }
    match &survey.unit {
        Some(unit) => parts.push(format!("a unit of {}", weight(unit.mass.value, family))),
        None => parts.push("no unit".to_owned()),
    }
    for load in &survey.loads {
        parts.push(format!("{} of {}", load.name, weight(load.mass.value, family)));
    }
    parts.push(match survey.conditions.snow {
        Snow::None => "no snow".to_owned(),
        _ => format!("snow of {} kPa", crate::quantity::significant(s.factors.snow(survey) / 1000.0, 2)),
    });
    let on_props = !s.study.pads.is_empty();
    parts.push(match survey.conditions.road {
        _ if on_props => "standing on its props, not to be driven".to_owned(),
        Road::Smooth => "smooth roads".to_owned(),
        Road::Mixed => "mixed roads".to_owned(),
        Road::Rough => "rough roads".to_owned(),
        Road::Factor(f) => format!("a road factor of {}", crate::quantity::significant(f, 2)),
    });
    parts.push(format!("up to {:.0} C", survey.conditions.roof_hot));
    let head = if s.verdict == Verdict::Holds { "Holds for" } else { "Asked for" };
    let mut not_for =
        vec!["feet outside what is named", "racks, tents or loads not surveyed", "damage not surveyed"];
    if survey.conditions.snow == Snow::None {
        not_for.push("snow: clear it");
    }
    if survey.wall.condition == Condition::NotKnown {
        not_for.push("a ledger that is not sound: try it with an awl");
    }
    let mut scope = format!("{head}: {}. Not for: {}.", parts.join(", "), not_for.join("; "));
    if let Some(rests) = rests_on(s) {
        scope = format!("{scope} {rests}");
    }
    scope
}

/// Why, in one or two sentences.
pub(crate) fn why(s: &Summary<'_>, governing: Option<&Governing>) -> String {
    let decides = deciding(s.ledger.iter(), s.verdict, s.asked);
    match s.verdict {
        Verdict::Holds => governing.map_or_else(String::new, |g| {
            format!("The nearest to its limit is {} ({}) under {}: it uses {}.", g.check, g.part, g.load, percent(g.ratio.get()))
        }),
        Verdict::CannotSay => {
            let unsure = s.ledger.iter().any(|(k, found)| {
                k.bracing == s.surveyed
                    && crate::check::counts(k.check, k.footing, s.asked.way)
                    && outcome_of(k.check, found) == Outcome::Disagrees
            });
            if let (Some((k, f)), true) = (decides, unsure) {
                let unsure = format!(
                    "{} ({}) under {} uses up to {}, but not in every case the materials may be: what they really are decides.",
                    k.check.name(), f.part, f.load, percent(f.ratio)
                );
                return settling_words(s).map_or_else(|| unsure.clone(), |by| format!("{by} It is open because {unsure}"));
            }
            s.not_checked.iter().find(|n| n.blocks).map_or_else(
                || "Nothing could be checked.".to_owned(),
                |n| format!("Nothing checked fails, but {} ({}) is not checked: {}.", n.check, n.part, n.why),
            )
        }
        _ => decides.map_or_else(String::new, |(k, f)| {
            format!(
                "{} ({}) under {} uses {} of what it may, {}, whatever the materials are within their bracket.",
                k.check.name(), f.part, f.load, percent(f.ratio), place(s, f)
            )
        }),
    }
}

/// What cures that braces, or stronger ones, do.
fn bracing_steps(fails: &dyn Fn(Check) -> bool) -> Vec<Words> {
    let mut steps = Vec::new();
    if fails(Check::CoreShear) {
        steps.push(words("core-shear", "The foam shears under a person: a brace cures that only beside it. Run `walk` for where a person may stand and on which board; survey a longer, stiffer board or nobody on the roof; or lay denser foam where it shears."));
    }
    let of_a_brace = [
        Check::GlueLine,
        Check::Brace,
        Check::BraceShear,
        Check::SeatBearing,
        Check::SeatScrews,
        Check::WebCrippling,
        Check::Fatigue,
    ];
    if of_a_brace.into_iter().any(fails) {
        steps.push(stronger_braces());
    }
    steps
}

fn stronger_braces() -> Words {
    words(
        "stronger-braces",
        "Leave the props in. Try a deeper tube, a third brace, glue to the skin or a longer seat, and check again.",
    )
}

/// Numbered steps; the first settles a "cannot say".
pub(crate) fn next_steps(s: &Summary<'_>, measured: &[MeasuredAgainst]) -> Vec<Words> {
    let mut steps = Vec::new();
    let fails = |check: Check| {
        s.ledger.iter().any(|(k, f)| {
            k.bracing == s.surveyed
                && k.check == check
                && outcome_of(k.check, f) == Outcome::Fails
                && crate::check::counts(k.check, k.footing, s.asked.way)
        })
    };
    let unsure = s
        .ledger
        .iter()
        .filter(|(k, f)| {
            k.bracing == s.surveyed
                && crate::check::counts(k.check, k.footing, s.asked.way)
                && outcome_of(k.check, f) == Outcome::Disagrees
        })
        .flat_map(|(k, f)| f.iter().flatten().map(move |f| (k.check, f.ratio)))
        .max_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(check, _)| check);
    if let Some(m) = measured.iter().find(|m| m.words.contains("something is broken")) {
        steps.push(words("open-up", format!("At {}: {}", m.name, m.words)));
    }
    match s.verdict {
        Verdict::DoesNotHold => {
            if fails(Check::LooseSkin) {
                steps.push(words("loose-skin", "Take off or glue down the loose skin on dry, sound core: a brace does not cure it. Then survey the roof again as it will be."));
            }
            if fails(Check::FallThrough) {
                steps.push(words("fall-through", "Keep everybody off: a stumbling person goes through. Put a new skin on, thicker or of better ply, before anyone climbs up."));
            }
            if fails(Check::Dent) || fails(Check::Heel) {
                steps.push(match s.asked.way {
                    Way::OnABoard => words("foot", "The board does not spread a person far enough for this foam: survey a longer, stiffer one, or nobody on the roof (`walk` looks for a board); or refill the core with a harder foam under a thicker skin."),
                    _ => words("foot", "Stand on a board, and survey it so; or refill the core with a harder foam under a thicker skin."),
                });
            }
            if fails(Check::CoreCrush) {
                steps.push(words("pressed-flat", "The foam is pressed flat where something stands on it: set loads on a plate or plank, give the roof's edge a deeper ledger or a wooden rim, or lay harder foam there."));
            }
            if fails(Check::Clamp) {
                steps.push(words("frame-the-hole", "The unit's bolts crush the foam at its rim: frame the hole with wood between the skins, or tighten less."));
            }
            if fails(Check::HoldDown) {
                steps.push(words("hold-it-down", "The edges lift: fix them down harder, with more or longer screws into sound wood, and survey how hard they hold."));
            }
            if fails(Check::Slot) {
                steps.push(words("slot", "Fill the slot again with glued-in foam, and survey it as filled."));
            }
            steps.extend(bracing_steps(&fails));
        }
        Verdict::BraceNeeded => {
            steps.push(words(
                "add-braces",
                "Leave the props in. Survey two braces, one each side of what is weak, and check again.",
            ));
        }
        Verdict::BraceTooWeak => {
            steps.extend(bracing_steps(&fails));
            if steps.iter().all(|step| step.code != "stronger-braces") {
                steps.push(stronger_braces());
            }
        }
        Verdict::CannotSay | Verdict::Holds | Verdict::OnlyOnABoard => {}
    }
    let settling = settling_steps(s);
    if s.verdict == Verdict::CannotSay && !settling.is_empty() {
        steps.extend(settling);
    } else if s.verdict == Verdict::CannotSay
        && let Some(check) = unsure
    {
        let stays = s.survey.damages.iter().any(|d| d.until.is_none()) || s.study.stage_name == "as found";
        let step = match check {
            _ if stays => words(
                "probe-damage",
                "Probe the damaged patch with an awl and tap round it: how much is left of the layer, and how far the damage reaches, decides.",
            ),
            Check::CoreShear | Check::FootShear | Check::Dent | Check::Wrinkling | Check::CoreCrush => words(
                "weigh-foam",
                "Weigh an offcut of the foam and measure its three sizes: its density tells the grade, and the grade decides. Or ask the maker for its shear strength.",
            ),
            Check::OuterSkin | Check::InnerSkin | Check::OpeningCorner | Check::Heel | Check::FallThrough => {
                words(
                    "look-at-ply",
                    "Look at a cut edge of the skin: how thick its plies are, which way their grain lies and what wood it is decides.",
                )
            }
            Check::GlueEnds => words(
                "glue-ends",
                "Heat and cold strain the ends of a long glue line more than can be shown to last. Bed the brace in an elastic glue of 3 mm or more, or survey it as lying loose (glued = []) and let its seats carry; and screw its ends down.",
            ),
            _ => words(
                "test-weight",
                "Put a known weight on the middle, read the dip with a ruler or dial gauge, and survey it as a test weight: it tells how stiff the roof really is.",
            ),
        };
        steps.push(step);
    }
    if s.verdict == Verdict::CannotSay {
        for gap in s.not_checked.iter().filter(|n| n.blocks).take(3) {
            steps.push(words("close-gap", format!("{} ({}): {}.", gap.check, gap.part, gap.why)));
        }
    }
    if s.asked.new_braces {
        steps.push(words(
            "dry-fit",
            "Before gluing: dry-fit each brace; no gap to the skin wider than 1/8 in (3 mm).",
        ));
    }
    if s.verdict == Verdict::Holds {
        steps.push(words("record", "Write down the scope above for the owner: it is the roof's limit."));
    }
    if steps.is_empty() {
        steps.push(words("engineer", "Ask a licensed engineer: this tool has no further step."));
    }
    steps
}

/// Every default and simplification.
pub(crate) fn assumptions(s: &Summary<'_>, grid: Option<&GridWords>) -> Vec<Words> {
    let survey = s.survey;
    let mut out: Vec<Words> = Vec::new();
    for given in &survey.givens {
        match &given.from {
            Origin::Default { code, words: text } => {
                let w = words(code, text.clone());
                if !out.contains(&w) {
                    out.push(w);
                }
            }
            Origin::BuildUp(id) => {
                let w = words(
                    "build-up",
                    format!(
                        "Layers are those of the build-up \"{id}\" (common practice, no source): measure them."
                    ),
                );
                if !out.contains(&w) {
                    out.push(w);
                }
            }
            Origin::Line(_) => {}
        }
    }
    if s.study.studied.is_empty() {
        return out;
    }
    if survey.layers.iter().any(|l| l.grain.is_none() && !is_foam(&l.material)) {
        out.push(words("grain-both", "Where no face grain is given, grain across and grain along were both tried, all skins alike; the worse counts."));
    }
    out.push(words("walls-soft", "Side walls and cross walls hold the roof up and let its edges turn and spread; supports push up only, small pulls under 5 % of the load aside."));
    if survey.wall.thrust == Thrust::None && survey.roof.rise.value > 0.0 {
        out.push(words("no-thrust", "Walls spread: the crown is counted as shape, not as an arch."));
    }
    if survey.wall.thrust != Thrust::None {
        out.push(words("thrust-both", "Every check was made with walls that hold the roof's edges sideways as surveyed, and with walls that spread; the worse counts. Walls that hold less than surveyed are taken to lie between the two."));
    }
    if survey.joints.iter().any(parts) {
        out.push(words("joints-both", "No force of its skin crosses a butt joint: the other skin bends there by itself. Every check was made so, and with the joint pressed shut as if it were none; the worse counts."));
    }
    if survey.joints.iter().any(|j| j.kind == JointKind::Backed) {
        out.push(words(
            "joint-backed",
            "What backs a joint has no known strength: a backed joint is judged as a butt joint.",
        ));
    }
    out.push(words("skin-bending", "A skin bends with the panel and, besides, as the foam shears: both count. Right round a bare foot the second is told by the foot's own checks."));
    out.push(words("bracket", "Everything was solved three times: low stiffness with low strength, default, and high stiffness with low strength."));
    out.push(words(
        "creep",
        "Lasting loads are solved again with aged moduli; foam then carries shear only.",
    ));
    out.push(words("walking", format!("A walking person counts {} times in strength, a stumbling one {} times (common practice, no source).", s.factors.walking, s.factors.stumble)));
    out.push(words(
        "road",
        format!("On the road every fixed mass counts {} times (common practice, no source).", s.factors.road),
    ));
    if !s.study.pads.is_empty() {
        out.push(words("props", "A prop pushes on its pad evenly and never pulls; it holds the roof as it was found under its own weight, without unit or load, less what it was lifted by. Props are taken as stiff, with the floor under them, and what they carry is worked out on the fresh roof."));
    }
    out.push(words("hot", "\"Hot\" is the roof on the road, or with a person on it, with its moduli and strengths at roof heat."));
    if !survey.braces.is_empty() {
        out.push(words(
            "tube-wall",
            "Tube walls are taken 10 % under nominal for strength (common practice, no source).",
        ));
        if survey.braces.iter().any(|b| b.glue.is_some()) {
            if survey.conditions.glued_at.is_none() {
                out.push(words(
                    "glued-at",
                    format!(
                        "Glued at {} C: say at what temperature it really is (conditions.glued_at).",
                        s.factors.glued_at
                    ),
                ));
            }
            out.push(words("damp-skin", "Skins that swell and shrink with damp strain a glue line much as heat does: only the glue's own factor on its environment stands for it."));
        }
        out.push(words("held-tube", "A tube glued to a skin is taken as held sideways all along; a loose one over its whole length not at all."));
    }
    if survey.braces.iter().any(|b| b.formed == Formed::Sprung) {
        out.push(words(
            "sprung",
            "A sprung brace was straight before: what it locks in acts from the day the props go, flattens the crown and relaxes in part. Every check was made with all of it, fresh and after years, and with none; the worse counts.",
        ));
    }
    if survey.slots.iter().any(|slot| slot.filled.is_some()) {
        out.push(words("slot-filled", "A filled slot counts as sound core."));
    }
    if survey.layers.iter().any(|l| l.thickness.wall != l.thickness.crown) {
        out.push(words(
            "taper",
            "A tapered core follows the crown, in eight steps to each side; the ceiling is taken flat.",
        ));
    }
    if survey.layers.iter().any(|l| matches!(&l.material, LayerMaterial::Own(m) if m.density.is_none())) {
        out.push(words(
            "no-density",
            "An own material without a density weighs nothing here: its weight is missing from the loads.",
        ));
    }
    let own = |wanted: &dyn Fn(&OwnMaterial) -> bool| {
        survey.layers.iter().any(|l| matches!(&l.material, LayerMaterial::Own(m) if wanted(m)))
    };
    if own(&|_| true) {
        out.push(words(
            "own-creep",
            format!(
                "Creep of own materials is taken as that of bead foam ({} times the first shear) or of plywood ({} times); own foam is taken to keep {} of its stiffness and strength in heat. None of it is measured.",
                OWN_FOAM_CREEP[0], OWN_BOARD_CREEP, OWN_FOAM_HEAT
            ),
        ));
    }
    if own(&|m| m.bending.is_none() && m.tension.is_some()) {
        out.push(words(
            "own-bending",
            "An own material without a bending strength is taken to have its tension strength in bending.",
        ));
    }
    if let Some(g) = grid {
        out.push(words(
            "grid",
            format!(
                "Two-way model with {} unknowns; {} moves by {} on a grid twice as fine.",
                g.unknowns,
                g.check,
                percent(g.moves.get())
            ),
        ));
    }
    out
}

/// The cautions that stand under every answer.
pub(crate) fn cautions(s: &Summary<'_>) -> Vec<Words> {
    let mut out = vec![
        words(
            "fragile-roof",
            "Treat this roof as fragile until a competent person has said otherwise. People have died falling through vehicle roofs and off them: work from a platform, never alone.",
        ),
        words(
            "props-first",
            "Prop from inside before anyone climbs up or cuts, on pads above and below; floors are sandwich too.",
        ),
        words(
            "not-an-engineer",
            "This is a calculation from what was surveyed. It is no substitute for a licensed engineer who has seen the roof.",
        ),
        words(
            "local-rules",
            "Rules of the place and of the vehicle's type approval go before anything here.",
        ),
        words(
            "hidden-damage",
            "Damage that was not found is not in it: tap, probe and look wider than the patch.",
        ),
    ];
    if s.survey.conditions.snow == Snow::None {
        out.push(words("snow", "Clear all snow, from a ladder: none was counted."));
    }
    if walked(s.survey) && !s.survey.openings.is_empty() {
        out.push(words(
            "edge-strip",
            format!("Stay {} away from the edge of an opening.", tape(s.study.edge_strip, s.survey.family)),
        ));
        if s.survey.person.way == Way::OnABoard {
            out.push(words("board-off-the-hole", "Lay the board flat, with all of it on the roof: never over an opening, no corner in the air, and step on its middle."));
        }
    }
    if s.survey.wall.thrust != Thrust::None {
        out.push(words("walls-spread", "Side walls spread with time: do not rest a repair on thrust."));
    }
    if s.survey.unit.is_some() {
        out.push(words(
            "clamp",
            "Tighten the unit's bolts on a framed hole only, and never until the roof flattens.",
        ));
    }
    out
}

//! What a bender needs to hear.

use super::{Bend, NOT_KNOWN, Worked};
use crate::check::{NotChecked, Words};
use crate::forming::{Dishing, SHIM_FROM, Sprung};
use crate::quantity::{force, percent, radius, sag, stress, tape};

/// The answer in two or three sentences.
pub(super) fn answer(bend: &Bend<'_>, worked: &Worked<'_>) -> String {
    let wanted = radius(bend.arc.radius().value, bend.family);
    let mut parts = Vec::new();
    if worked.sprung.needs_no_bender() {
        parts.push(format!(
            "This tube needs no bender: spring it in. That takes a push of about {} in the middle and spends {} of \
             its yield.",
            force(worked.sprung.force().value, bend.family),
            percent(worked.sprung.share_of_yield().value)
        ));
    }
    parts.push(match (&worked.loaded, worked.bendable) {
        (Ok([large, typical, small]), Some(true)) => format!(
            "Roll it to a radius of {}: it springs back to {wanted}. The yield of the piece decides: it may take {} to {}.",
            radius(*typical, bend.family),
            radius(*small, bend.family),
            radius(*large, bend.family)
        ),
        (Ok([large, _, small]), None) => format!(
            "How far to roll it cannot be said: the alloy is not known, and to stay at {wanted} it may take a radius of {} \
             to {}. Find the mark on the tube, or bend a trial piece.",
            radius(*small, bend.family),
            radius(*large, bend.family)
        ),
        (loaded, _) => {
            let limit = worked.limits.governing();
            let least = limit.least_radius.value;
            // The shop's own bender is named where nothing else stands in the way.
            let by_rule = bend.arc.radius().value >= least && loaded.is_ok() && worked.tightest >= least;
            if let Some(why) = worked.bender.why(bend.family).filter(|_| by_rule) {
                let wanted = radius(worked.tightest, bend.family);
                return format!(
                    "{}It cannot be bent in this shop: {why}, and it may take {wanted}. Have it bent elsewhere, or take a tube that \
                     the dies fit.",
                    parts.iter().map(|p| format!("{p} ")).collect::<String>()
                );
            }
            let reach = match loaded {
                Ok(_) => format!("to stay at {wanted} it would be bent to {}", radius(worked.tightest, bend.family)),
                Err(_) => format!("a radius of {wanted} is wanted"),
            };
            format!(
                "It cannot be bent cold to this crown: {reach}, and the smallest allowed is {} ({}). Take less rise, a \
                 shallower tube, a softer temper, or a brace built up of thin pieces.",
                radius(limit.least_radius.value, bend.family),
                limit.rule
            )
        }
    });
    parts.join(" ")
}

pub(super) fn next_steps(bend: &Bend<'_>, worked: &Worked<'_>) -> Vec<Words> {
    let family = bend.family;
    let mut steps = Vec::new();
    if worked.bendable == Some(false) {
        return steps;
    }
    steps.push(words(
        "template",
        "Draw the finished curve full size from the stations below, on board; the loaded heights are for a second one.",
    ));
    let length = bend.arc.length().value;
    let sprung = if worked.sprung.needs_no_bender() {
        format!(" To spring it in, cut it to {}.", tape(length, family))
    } else {
        String::new()
    };
    steps.push(words(
        "cut",
        format!(
            "To roll it, cut the tube to {}: {} along the curve and {} at each end, which a roller bender leaves flat. \
             Trim after bending; ends that stand upright are cut at {:.1} degrees.{sprung}",
            tape(length + 2.0 * worked.trim, family),
            tape(length, family),
            tape(worked.trim, family),
            bend.arc.end_angle().value.to_degrees()
        ),
    ));
    if let (Ok([large, ..]), Some([chord, finished, loaded])) = (&worked.loaded, worked.gauge) {
        steps.push(words(
            "gauge",
            format!(
                "Bend by a straight edge of {}: the curve stands {} over its middle under load, {} after letting go.",
                tape(chord, family),
                sag(loaded, family),
                sag(finished, family)
            ),
        ));
        steps.push(words(
            "sneak-up",
            format!(
                "Sneak up: first pass to a radius of {}, let go, lay it on the template, then a little tighter each \
                 pass until it lies down. Stop short rather than bend back: that uses up the metal.",
                radius(*large, family)
            ),
        ));
    }
    if let Some(fit) = bend.fit.as_ref().filter(|fit| fit.shims().next().is_some()) {
        let at: Vec<String> = fit
            .shims()
            .map(|(x, gap)| format!("{} at {}", sag(gap.value, family), tape(x.value, family)))
            .collect();
        steps.push(words(
            "shim",
            format!("Fill what gaps more than {}: {}.", sag(SHIM_FROM, family), at.join(", ")),
        ));
    }
    steps
}

pub(super) fn not_checked(worked: &Worked<'_>) -> Vec<NotChecked> {
    let gap = |check: &str, why: &str| NotChecked {
        check: check.to_owned(),
        part: "brace".to_owned(),
        why: why.to_owned(),
        blocks: false,
    };
    let mut gaps = vec![
        gap("strength and sag of the brace", "asked of the commands tube and check"),
        gap(
            "walls under the dies",
            "it depends on the bender's dies: square ones as wide as the tube keep them flat",
        ),
    ];
    if let Err(why) = &worked.loaded {
        gaps.push(gap("spring-back", why));
    }
    gaps
}

pub(super) fn assumptions(bend: &Bend<'_>) -> Vec<Words> {
    let family = bend.family;
    let mut all = vec![
        words(
            "centre-line",
            "Span and stations lie on the chord of the tube's centre line, ends included; radii are those of the centre line.",
        ),
        words(
            "even-arc",
            "The crown is taken as part of a circle, and the yield as the same all along the tube and in both faces.",
        ),
        words(
            "no-hardening",
            "The metal is taken to yield at constant stress: real metal hardens a little and then springs back more.",
        ),
        words("loaded-chord", "Loaded heights are those of an arc of the loaded radius over the same chord."),
        words("trim", "A roller bender leaves the ends flat; the trim for it is common practice, no source."),
        words(
            "yield",
            format!(
                "Yield reckoned with: at least {}, typically {}, up to {}.",
                stress(bend.yields[0], family),
                stress(bend.yields[1], family),
                stress(bend.yields[2], family)
            ),
        ),
    ];
    if bend.yield_guessed {
        all.push(words(
            "default-yield-scatter",
            format!(
                "No yield as met is known for {}: its minimum and 15 and 30 percent more are taken, common practice, no source.",
                bend.alloy.id
            ),
        ));
    }
    if bend.tube.corner > 0.0 {
        all.push(words(
            "sharp-corners",
            "The tube's corners are taken as sharp; rounded ones spring back a little less.",
        ));
    }
    all
}

pub(super) fn cautions(bend: &Bend<'_>, worked: &Worked<'_>) -> Vec<Words> {
    let family = bend.family;
    let mut all = vec![
        words(
            "trial",
            "The figures are where to start: the template decides. Try an offcut of the same length of stock first.",
        ),
        words(
            "no-heat",
            "Bend it cold. Heat takes the temper out, and with it the strength the brace was chosen for.",
        ),
        words(
            "first-crack",
            "Look at the outer face after every pass. A crack, however fine, ends the life of the piece.",
        ),
    ];
    if bend.alloy.id == NOT_KNOWN {
        all.push(words(
            "alloy-not-known",
            "Pure or cast tube can crack where a structural alloy would not: bend a trial piece.",
        ));
    }
    let dishing = worked.dishing.number().value;
    if dishing > Dishing::WILL {
        all.push(words("dishes", "The walls are thin for this bend: the inner and outer face will dish without a mandrel or filling."));
    } else if dishing > Dishing::MAY {
        all.push(words("may-dish", "The walls are thin for this bend: the inner and outer face may dish; fill the tube or take a thicker wall."));
    }
    let share = worked.sprung.share_of_yield().value;
    if share < 1.0 {
        let push = force(worked.sprung.force().value, family);
        let held = if worked.sprung.needs_no_bender() {
            "that lasts: the glue must hold it, and the survey says formed = \"sprung\""
        } else {
            "too much to ask of glue and foam for good"
        };
        all.push(words(
            "sprung",
            format!(
                "Sprung in instead of bent, the tube pushes the crown down with about {push} and stands at {} ({} of its \
                 least yield; at most {} is advised): {held}.",
                stress(worked.sprung.stress().value, family),
                percent(share),
                percent(Sprung::MOST_OF_YIELD)
            ),
        ));
    } else {
        all.push(words(
            "sprung-yields",
            "It cannot be sprung in: it would take a set before it lies in the curve.",
        ));
    }
    all
}

fn words(code: &str, words: impl Into<String>) -> Words {
    Words { code: code.to_owned(), words: words.into() }
}

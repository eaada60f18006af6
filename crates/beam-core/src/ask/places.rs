//! Where a person is tried, and on how large a patch.

use crate::check::Materials;
use crate::loads::{Factors, Footing};
use crate::model::{IdealRoof, Role, Time, moduli};
use crate::survey::{Survey, Way};

/// Least distance of a foot from the edge of an opening, m.
const EDGE_STRIP: f64 = 0.1;
/// How far from an end that runs on a person is tried, m.
pub(super) const FROM_A_CUT: f64 = 0.4;
/// Room between the wall and where shear by a foot is read, m: for one reading, and for a few.
const BY_WALL: [f64; 2] = [0.025, 0.075];
/// A patch takes no more of a roof than this share, so that it has a place on it.
const WHOLE: f64 = 0.999;
/// Places nearer than this are one, m.
const SAME: f64 = 0.03;

/// A person at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct PersonPlace {
    pub x: f64,
    pub y: f64,
    pub footing: Footing,
    pub patch: [f64; 2],
}

/// Strip along the edge of an opening where nobody stands: the larger of 100 mm, one core thickness, and two
/// characteristic lengths of the skin on its foam, where the dent of an endless skin is no picture of it.
pub(crate) fn edge_strip(roof: &IdealRoof) -> f64 {
    let core = roof.layers.iter().find(|l| l.role == Role::Core);
    let Some(core) = core else { return EDGE_STRIP };
    let depth = core.thickness[1];
    EDGE_STRIP.max(depth).max(2.0 * spread_length(roof, 0.0))
}

/// `(D/k)^(1/4)` of the outer skins on the core, with `extra` rigidity lying on them, m; 0 without a core.
fn spread_length(roof: &IdealRoof, extra: f64) -> f64 {
    let rigidity = |role: Role| -> f64 {
        roof.layers
            .iter()
            .filter(|l| l.role == role)
            .filter_map(|l| {
                let m =
                    moduli(&l.material, l.grain_across, Materials::Default, Time::Fresh, roof.creep_hours)
                        .ok()?;
                Some(m.e_x_flexural.max(m.e_y_flexural) * l.thickness[1].powi(3) / 12.0)
            })
            .sum()
    };
    let bed = roof.layers.iter().find(|l| l.role == Role::Core).and_then(|l| {
        let m = moduli(&l.material, true, Materials::Default, Time::Fresh, roof.creep_hours).ok()?;
        Some(m.e_x / l.thickness[1])
    });
    bed.map_or(0.0, |k| ((rigidity(Role::Outer) + extra) / k).powf(0.25))
}

/// Patch of a foot on the roof as a whole: the sole, or what a board spreads it to, two characteristic lengths of the
/// board on the foam each side and no more than the board, or than lies on the roof.
pub(crate) fn patch(survey: &Survey, roof: &IdealRoof, factors: &Factors, footing: Footing) -> [f64; 2] {
    let [short, long] = factors.sole.map(|side| side.min(room(roof)));
    if footing != Footing::OnABoard {
        return [short, long];
    }
    let board = &survey.person.board;
    let rigidity = moduli(&board.material, true, Materials::Default, Time::Fresh, 0.0)
        .map_or(0.0, |m| m.e_x_flexural.min(m.e_y_flexural) * board.thickness.value.powi(3) / 12.0);
    let reach = 4.0 * spread_length(roof, rigidity);
    [(short + reach).min(board.size[0].value), (long + reach).min(board.size[1].value)]
        .map(|side| side.min(room(roof)))
}

/// The longest side of a patch that lies on the roof either way round, m.
fn room(roof: &IdealRoof) -> f64 {
    WHOLE * roof.span.min(roof.length)
}

/// The places of people who walk this way; none where nobody does.
pub(crate) fn people_walking(
    survey: &Survey,
    roof: &IdealRoof,
    factors: &Factors,
    way: Way,
) -> Vec<PersonPlace> {
    Footing::of(way).map_or_else(Vec::new, |footing| person_places(survey, roof, factors, footing))
}

/// Places that bring out the worst: mid-span and quarter of the clear roof, by the wall, each side of an opening, each
/// damaged patch, on and between braces; the foot or board both ways round. Ends that run on are no edge of the roof: nobody is tried right at them.
pub(crate) fn person_places(
    survey: &Survey,
    roof: &IdealRoof,
    factors: &Factors,
    footing: Footing,
) -> Vec<PersonPlace> {
    let along = patch(survey, roof, factors, footing);
    let mut places = Vec::new();
    add_places(&mut places, roof, footing, along);
    add_places(&mut places, roof, footing, [along[1], along[0]]);
    places
}

/// The same with the foot or board one way round.
fn add_places(places: &mut Vec<PersonPlace>, roof: &IdealRoof, footing: Footing, patch: [f64; 2]) {
    let half = patch.map(|p| p / 2.0);
    // Whoever goes bare steps right beside the hole too.
    let strip = edge_strip(roof);
    let (clear, clears) =
        if footing == Footing::Bare { (0.0, vec![strip, 0.0]) } else { (strip, vec![strip]) };
    let (span, length) = (roof.span, roof.length);
    // The model is cut where the roof runs on: what stands near the cut would seem to stand on an edge.
    let ends =
        [roof.front_held, roof.rear_held].map(|held| if held { 0.0 } else { FROM_A_CUT.min(length / 4.0) });
    // Within a core thickness of the foot the load goes straight through the core, and shear is not read there: the
    // foot stands a little farther off, so that the shear between it and the wall is seen.
    let core: f64 = roof.layers.iter().filter(|l| l.role == Role::Core).map(|l| l.thickness[0]).sum();
    let y_clear = clear_middle(roof);
    let mut wanted: Vec<(f64, f64)> =
        vec![(span / 2.0, y_clear), (span / 4.0, y_clear), (0.75 * span, y_clear)];
    let beside: Vec<f64> = std::iter::once(y_clear)
        .chain(roof.openings.iter().map(|o| o.centre().1))
        .chain(roof.zones.iter().map(|z| z.rect.centre().1))
        .chain([0.0, length])
        .collect();
    for room in BY_WALL {
        let x = half[0] + core + room;
        wanted.extend(beside.iter().flat_map(|y| [(x, *y), (span - x, *y)]));
        let y = half[1] + core + room;
        wanted.extend(
            [(roof.front_held, y), (roof.rear_held, length - y)]
                .iter()
                .filter(|(held, _)| *held)
                .map(|(_, y)| (span / 2.0, *y)),
        );
    }
    for (o, clear) in roof.openings.iter().flat_map(|o| clears.iter().map(move |c| (o, c))) {
        let (xm, ym) = o.centre();
        wanted.extend([
            (xm, o.y0 - clear - half[1]),
            (xm, o.y1 + clear + half[1]),
            (o.x0 - clear - half[0], ym),
            (o.x1 + clear + half[0], ym),
        ]);
    }
    for z in &roof.zones {
        wanted.push(z.rect.centre());
        wanted.push((z.rect.x0 / 2.0 + z.rect.x1 / 2.0, z.rect.y0 + half[1]));
    }
    wanted.extend(super::pieces::places_on_pieces(roof));
    let mut lines: Vec<f64> = roof.braces.iter().map(|b| b.y).collect();
    lines.sort_by(f64::total_cmp);
    wanted.extend(lines.iter().map(|y| (span / 2.0, *y)));
    wanted.extend(lines.windows(2).map(|pair| (span / 2.0, (pair[0] + pair[1]) / 2.0)));
    for (x, y) in wanted {
        let (x, y) = (
            x.clamp(half[0], span - half[0]),
            y.clamp(half[1].max(ends[0]), (length - half[1]).min(length - ends[1])),
        );
        let on_opening = roof.openings.iter().any(|o| {
            x + half[0] > o.x0 - clear + 1e-9
                && x - half[0] < o.x1 + clear - 1e-9
                && y + half[1] > o.y0 - clear + 1e-9
                && y - half[1] < o.y1 + clear - 1e-9
        });
        let known =
            places.iter().any(|p| p.patch == patch && (p.x - x).abs() < SAME && (p.y - y).abs() < SAME);
        if !on_opening && !known {
            places.push(PersonPlace { x, y, footing, patch });
        }
    }
}

/// Middle of the longest stretch along the roof without brace, opening or damage.
fn clear_middle(roof: &IdealRoof) -> f64 {
    let mut taken: Vec<[f64; 2]> = vec![[0.0, 0.0], [roof.length, roof.length]];
    taken.extend(roof.braces.iter().map(|b| [b.y, b.y]));
    taken.extend(roof.openings.iter().map(|o| [o.y0, o.y1]));
    taken.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let mut reached: f64 = 0.0;
    let mut best = [0.0, 0.0];
    for [from, to] in taken {
        if from - reached > best[1] - best[0] {
            best = [reached, from];
        }
        reached = reached.max(to);
    }
    (best[0] + best[1]) / 2.0
}

//! A roof that its openings cut into pieces: each is a roof of its own, and people are tried on each.

use super::places::PersonPlace;
use crate::check::NotChecked;
use crate::model::{IdealRoof, Rect};
use crate::quantity::tape;
use crate::survey::Survey;

/// Lines nearer than this are one, m.
const SAME: f64 = 1e-3;

/// Pieces that openings cut a roof into, each as the rectangles between the openings' edges; one where it is whole.
pub(super) fn pieces(roof: &IdealRoof) -> Vec<Vec<Rect>> {
    let lines = |edges: Vec<f64>, to: f64| -> Vec<f64> {
        let mut lines: Vec<f64> = edges.into_iter().chain([0.0, to]).map(|e| e.clamp(0.0, to)).collect();
        lines.sort_by(f64::total_cmp);
        lines.dedup_by(|next, kept| *next - *kept < SAME);
        lines
    };
    let x = lines(roof.openings.iter().flat_map(|o| [o.x0, o.x1]).collect(), roof.span);
    let y = lines(roof.openings.iter().flat_map(|o| [o.y0, o.y1]).collect(), roof.length);
    let (columns, rows) = (x.len() - 1, y.len() - 1);
    let cell = |k: usize| -> Rect {
        let (i, j) = (k % columns, k / columns);
        Rect { x0: x[i], x1: x[i + 1], y0: y[j], y1: y[j + 1] }
    };
    let panel: Vec<bool> = (0..columns * rows)
        .map(|k| {
            let (xm, ym) = cell(k).centre();
            !roof.is_open(xm, ym)
        })
        .collect();
    let mut taken = vec![false; panel.len()];
    let mut out = Vec::new();
    for start in 0..panel.len() {
        if !panel[start] || taken[start] {
            continue;
        }
        taken[start] = true;
        let (mut piece, mut open) = (Vec::new(), vec![start]);
        while let Some(k) = open.pop() {
            piece.push(cell(k));
            let (i, j) = (k % columns, k / columns);
            let beside = [
                (i > 0).then(|| k - 1),
                (i + 1 < columns).then_some(k + 1),
                (j > 0).then(|| k - columns),
                (j + 1 < rows).then_some(k + columns),
            ];
            for next in beside.into_iter().flatten() {
                if panel[next] && !taken[next] {
                    taken[next] = true;
                    open.push(next);
                }
            }
        }
        out.push(piece);
    }
    out
}

/// Places on the pieces of a roof in more than one: the middle and the quarters of the rectangles that make them up.
pub(super) fn places_on_pieces(roof: &IdealRoof) -> Vec<(f64, f64)> {
    let pieces = pieces(roof);
    if pieces.len() < 2 {
        return Vec::new();
    }
    let of = |r: &Rect| {
        let (xm, ym) = r.centre();
        let (x, y) = ((r.x1 - r.x0) / 4.0, (r.y1 - r.y0) / 4.0);
        [(xm, ym), (xm - x, ym), (xm + x, ym), (xm, ym - y), (xm, ym + y)]
    };
    pieces.iter().flatten().flat_map(of).collect()
}

/// Pieces on which nobody finds room, and so nobody was tried.
pub(super) fn nobody_on_a_piece(
    survey: &Survey,
    roof: &IdealRoof,
    people: &[PersonPlace],
) -> Vec<NotChecked> {
    let pieces = pieces(roof);
    if pieces.len() < 2 || people.is_empty() {
        return Vec::new();
    }
    let tried = |piece: &&Vec<Rect>| !people.iter().any(|p| piece.iter().any(|r| r.contains(p.x, p.y)));
    pieces
        .iter()
        .filter(tried)
        .map(|piece| {
            let least = |of: fn(&Rect) -> f64| piece.iter().map(of).fold(f64::INFINITY, f64::min);
            let most = |of: fn(&Rect) -> f64| piece.iter().map(of).fold(0.0, f64::max);
            let told = |v: f64| tape(v, survey.family);
            let why = format!(
                "openings cut the roof into pieces, and on the one from {} to {} across and {} to {} along nobody finds room clear of their edges: it was not tried with anybody on it, so keep off it, or survey it by itself",
                told(least(|r| r.x0)),
                told(most(|r| r.x1)),
                told(least(|r| r.y0)),
                told(most(|r| r.y1))
            );
            NotChecked { check: "all".to_owned(), part: "panel".to_owned(), why, blocks: true }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ask::check::{CheckOptions, check};
    use crate::check::Verdict;
    use crate::model::{Configuration, Hold, StageChoice, idealise};
    use crate::survey::read_text;
    use section_tables::Tables;

    fn survey(openings: &str) -> Survey {
        let text = format!(
            r#"
survey = 1
title = "Seed library, roof with a gap"
lengths = "mm"
weights = "kg"
[roof]
kind = "laminated"
span = "1500"
rise = "0"
length = "2400"
front = "cross wall"
rear = "cross wall"
like = "ply 3 / bead foam 50 / ply 3"
{openings}
[person]
mass = "80"
"#
        );
        read_text("gap.toml", &text, Tables::shipped()).unwrap_or_else(|p| panic!("{p}"))
    }

    fn roof(survey: &Survey) -> IdealRoof {
        let finished = Configuration {
            stage: StageChoice::Finished,
            with_new: false,
            bond: false,
            hold: Hold::all(survey)[0],
        };
        idealise(survey, finished, crate::check::Materials::Default, true).unwrap_or_else(|e| panic!("{e:?}"))
    }

    const FROM_WALL_TO_WALL: &str =
        "[[opening]]\nname = \"skylight\"\nacross = [\"0\", \"1500\"]\nalong = [\"1500\", \"1700\"]\n";
    const HATCH: &str =
        "[[opening]]\nname = \"hatch\"\nacross = [\"500\", \"900\"]\nalong = [\"1500\", \"1700\"]\n";

    #[test]
    fn a_hole_leaves_one_piece_and_a_gap_two() {
        assert_eq!(pieces(&roof(&survey(""))).len(), 1);
        assert_eq!(pieces(&roof(&survey(HATCH))).len(), 1);
        let two = pieces(&roof(&survey(FROM_WALL_TO_WALL)));
        let area = |piece: &Vec<Rect>| piece.iter().map(Rect::area).sum::<f64>();
        let areas: Vec<f64> = two.iter().map(area).collect();
        assert!((areas[0] - 1.5 * 1.5).abs() < 1e-9 && (areas[1] - 1.5 * 0.7).abs() < 1e-9, "{areas:?}");
    }

    /// People stand on the short piece too; on a sliver nobody finds room, and that blocks.
    #[test]
    fn each_piece_is_trodden_or_blocks() {
        let gaps_of = |openings: &str| {
            let survey = survey(openings);
            let factors = crate::loads::Factors::of(&survey, Tables::shipped()).unwrap();
            let roof = roof(&survey);
            let people = super::super::places::people_walking(&survey, &roof, &factors, survey.person.way);
            let short = people.iter().filter(|p| p.y > 1.7).count();
            (short, nobody_on_a_piece(&survey, &roof, &people))
        };
        let (short, gaps) = gaps_of(FROM_WALL_TO_WALL);
        assert!(short >= 3 && gaps.is_empty(), "{short} {gaps:?}");
        let sliver = FROM_WALL_TO_WALL.replace("1700", "2200");
        let (short, gaps) = gaps_of(&sliver);
        assert!(short == 0 && gaps.len() == 1 && gaps[0].blocks, "{short} {gaps:?}");
        let document = check(&survey(&sliver), Tables::shipped(), CheckOptions::default()).unwrap();
        assert!(document.verdict != Verdict::Holds);
    }
}

//! Stock boards, smallest first.

use super::document::WalkBoardWords;
use crate::check::{Finite, NotFinite};
use crate::quantity::{Family, INCH, si, tape};
use crate::survey::{Board, LayerMaterial, Survey};
use section_tables::{Tables, ThicknessUnit};

/// Boards this alike are one, m.
const SAME: f64 = 5e-4;

/// The surveyed board and those of the tables, by area, then by thickness. Of two that are nearly the same in inches
/// and millimetres both stay: a workshop has one or the other.
pub(crate) fn stock(survey: &Survey, tables: &Tables) -> Vec<Board> {
    let mut out = vec![survey.person.board.clone()];
    for row in &tables.walk_boards {
        let Ok(material) = tables.material(&row.material) else { continue };
        let unit = match row.unit {
            ThicknessUnit::In => INCH,
            ThicknessUnit::Mm => 1e-3,
        };
        let fits = survey.family == Family::Inch && row.unit == ThicknessUnit::In
            || survey.family == Family::Metric && row.unit == ThicknessUnit::Mm;
        let board = Board {
            size: [row.short * unit, row.long * unit].map(si),
            material: LayerMaterial::Table(Box::new(material.clone())),
            thickness: si(row.thickness * unit),
        };
        if fits && !out.iter().any(|b| same(b, &board)) {
            out.push(board);
        }
    }
    let area = |b: &Board| b.size[0].value * b.size[1].value;
    out.sort_by(|a, b| area(a).total_cmp(&area(b)).then(a.thickness.value.total_cmp(&b.thickness.value)));
    out
}

fn same(a: &Board, b: &Board) -> bool {
    let near = |p: f64, q: f64| (p - q).abs() < SAME;
    near(a.size[0].value, b.size[0].value)
        && near(a.size[1].value, b.size[1].value)
        && near(a.thickness.value, b.thickness.value)
        && a.material.id() == b.material.id()
}

/// A board for the document.
pub(crate) fn board_words(board: &Board) -> Result<WalkBoardWords, NotFinite> {
    Ok(WalkBoardWords {
        across: Finite::new(board.size[0].value, "size of the board")?,
        along: Finite::new(board.size[1].value, "size of the board")?,
        thickness: Finite::new(board.thickness.value, "thickness of the board")?,
        material: board.material.id().to_owned(),
    })
}

/// A board in words: "24 in x 48 in board, 1/2 in sheathing plywood".
pub(crate) fn board_told(board: &Board, family: Family) -> String {
    let [across, along] = board.size.map(|s| tape(s.value, family));
    let short = across.strip_suffix(" in").or_else(|| across.strip_suffix(" mm")).unwrap_or(&across);
    format!("{short} x {along} board, {} {}", tape(board.thickness.value, family), board.material.id())
}

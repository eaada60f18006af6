//! The plan of a roof in plain characters: front on top, walls left and right, each thing with its letter.

use beam_core::quantity::{Family, Length, tape};
use beam_core::survey::{Interval, JointLine, Patch, Survey};

use crate::print::words;

/// A character is about twice as high as it is wide.
const HEIGHT_OVER_WIDTH: f64 = 2.0;
/// Columns left of the drawing for measures from the front mark.
const MARGIN: usize = 12;
/// Fewer columns than this show nothing.
const FEWEST: usize = 24;
/// More columns than this are a long way for the eye.
const MOST_COLUMNS: usize = 64;
/// More rows than this are off the screen.
const MOST_ROWS: usize = 48;
/// Rows of measures from the left wall.
const RULER_ROWS: usize = 3;

/// How a patch is filled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Fill {
    /// Outlined, empty inside: a hole.
    Hole,
    /// Filled with one character.
    With(char),
    /// A line across or along.
    Line(char),
    /// The letter alone.
    Point,
}

/// One thing on the plan.
#[derive(Debug, Clone)]
pub(super) struct Thing {
    /// Its letter on the drawing.
    pub(super) letter: char,
    /// What it is, in words.
    pub(super) what: String,
    /// Where.
    pub(super) patch: Patch,
    fill: Fill,
}

/// Everything that has a place, in the order in which it is drawn: what comes later lies on top.
pub(super) fn things(survey: &Survey) -> Vec<Thing> {
    let mut things = Vec::new();
    let mut letters = ('A'..='Z').chain('a'..='z').chain('0'..='9');
    let mut add = |what: String, patch: Patch, fill: Fill| {
        // After 62 things every further one is a '?': the list below the drawing still has them all.
        things.push(Thing { letter: letters.next().unwrap_or('?'), what, patch, fill });
    };
    for damage in &survey.damages {
        let layer = survey.layers.get(damage.layer).map_or("", |layer| layer.name.as_str());
        let what = format!("damage: {}, {layer}, {}", damage.name, words::damage_state(&damage.state));
        add(what, damage.patch, Fill::With('/'));
    }
    for slot in &survey.slots {
        add("slot in the core".to_owned(), slot.patch, Fill::With(':'));
    }
    for joint in &survey.joints {
        let layer = survey.layers.get(joint.layer).map_or("", |layer| layer.name.as_str());
        let whole = |to: Length| Interval { from: to * 0.0, to };
        let patch = match joint.line {
            JointLine::AtAlong(at) => Patch { across: whole(survey.roof.span), along: point(at) },
            JointLine::AtAcross(at) => Patch { across: point(at), along: whole(survey.roof.length) },
        };
        add(format!("joint in the {layer}, {}", words::joint_kind(joint.kind)), patch, Fill::Line('~'));
    }
    for brace in &survey.braces {
        let what = format!("{} brace: {}", if brace.existing { "existing" } else { "new" }, brace.name);
        let line = Fill::Line(if brace.existing { '-' } else { '=' });
        add(what, Patch { across: brace.across, along: point(brace.along) }, line);
    }
    for trimmer in &survey.trimmers {
        let along = trimmer.between.map(|brace| survey.braces.get(brace).map(|brace| brace.along));
        if let [Some(from), Some(to)] = along {
            let along = if from < to { Interval { from, to } } else { Interval { from: to, to: from } };
            add("trimmer".to_owned(), Patch { across: point(trimmer.across), along }, Fill::Line('|'));
        }
    }
    for (i, opening) in survey.openings.iter().enumerate() {
        let under_unit = survey.unit.as_ref().is_some_and(|unit| unit.opening == Some(i));
        let unit = if under_unit { ", the unit stands over it" } else { "" };
        add(format!("opening: {}{unit}", opening.name), opening.patch, Fill::Hole);
    }
    for pad in survey.unit.iter().flat_map(|unit| &unit.pads) {
        add("pad of the unit".to_owned(), pad.patch, Fill::With('%'));
    }
    for load in &survey.loads {
        add(format!("load: {}", load.name), load.patch, Fill::With('#'));
    }
    for reading in &survey.readings {
        let patch = Patch { across: point(reading.across), along: point(reading.along) };
        add(format!("reading: {}", reading.name), patch, Fill::Point);
    }
    things
}

fn point(at: Length) -> Interval {
    Interval { from: at, to: at }
}

/// The drawing, line by line, in at most `width` columns.
pub(super) fn drawing(survey: &Survey, things: &[Thing], width: usize) -> Vec<String> {
    let mut canvas = Canvas::new(survey, width);
    for thing in things {
        canvas.draw(thing);
    }
    // Letters last: nothing may hide one.
    for thing in things {
        canvas.letter(thing);
    }
    let mut lines = canvas.ruler(things, survey.family);
    lines.extend(canvas.rows(things, survey));
    lines
}

/// Characters over the roof between its walls.
#[derive(Debug)]
struct Canvas {
    cells: Vec<Vec<char>>,
    span: Length,
    length: Length,
}

impl Canvas {
    fn new(survey: &Survey, width: usize) -> Canvas {
        let (span, length) = (survey.roof.span, survey.roof.length);
        let rows_for = |columns: usize| {
            let rows = (length / span).value * columns as f64 / HEIGHT_OVER_WIDTH;
            (rows.round() as usize).max(4)
        };
        let mut columns = width.saturating_sub(MARGIN + 3).clamp(FEWEST, MOST_COLUMNS);
        while rows_for(columns) > MOST_ROWS && columns > FEWEST {
            columns -= 1;
        }
        let rows = rows_for(columns).min(2 * MOST_ROWS);
        Canvas { cells: vec![vec![' '; columns]; rows], span, length }
    }

    fn columns(&self) -> usize {
        self.cells[0].len()
    }

    fn column(&self, across: Length) -> usize {
        cell(across, self.span, self.columns())
    }

    fn row(&self, along: Length) -> usize {
        cell(along, self.length, self.cells.len())
    }

    /// First and last row and column of a patch.
    fn bounds(&self, patch: &Patch) -> [usize; 4] {
        let (top, left) = (self.row(patch.along.from), self.column(patch.across.from));
        [top, self.row(patch.along.to).max(top), left, self.column(patch.across.to).max(left)]
    }

    fn draw(&mut self, thing: &Thing) {
        let [top, bottom, left, right] = self.bounds(&thing.patch);
        for row in top..=bottom {
            for column in left..=right {
                let on_row = row == top || row == bottom;
                let on_column = column == left || column == right;
                self.cells[row][column] = match thing.fill {
                    Fill::With(mark) | Fill::Line(mark) => mark,
                    Fill::Point => continue,
                    Fill::Hole if on_row && on_column => '+',
                    Fill::Hole if on_row => '-',
                    Fill::Hole if on_column => '|',
                    Fill::Hole => ' ',
                };
            }
        }
    }

    fn letter(&mut self, thing: &Thing) {
        let [top, bottom, left, right] = self.bounds(&thing.patch);
        let (row, column) = match thing.fill {
            Fill::Hole => (top.midpoint(bottom), left.midpoint(right)),
            Fill::With(_) => (top, left),
            Fill::Line(_) if left == right => (top.midpoint(bottom), left),
            Fill::Line(_) => (top, (left + 2).min(right)),
            Fill::Point => (top, left),
        };
        // Two things with one corner: the later letter moves right to the first cell without one.
        let free = (column..=right).find(|&column| !self.cells[row][column].is_alphanumeric());
        self.cells[row][free.unwrap_or(column)] = thing.letter;
    }

    /// Measures from the left wall over the columns where something begins or ends.
    fn ruler(&self, things: &[Thing], family: Family) -> Vec<String> {
        let mut edges: Vec<(usize, Length)> = vec![(0, self.span * 0.0), (self.columns() - 1, self.span)];
        for thing in things.iter().filter(|thing| !matches!(thing.fill, Fill::Line('=' | '-' | '~'))) {
            for across in [thing.patch.across.from, thing.patch.across.to] {
                let column = self.column(across);
                if edges.iter().all(|(taken, _)| *taken != column) {
                    edges.push((column, across));
                }
            }
        }
        // The label of the right wall ends over it: nothing is wider than the drawing.
        let width = MARGIN + 1 + self.columns();
        let mut rows = vec![vec![' '; width]; RULER_ROWS];
        let mut ticks = vec![' '; width];
        for (column, across) in edges {
            let label: Vec<char> = tape(across.value, family).chars().collect();
            let tick = MARGIN + 1 + column;
            let at = tick.min(width.saturating_sub(label.len()));
            let end = (at + label.len()).min(width);
            // From the lowest row up: the first in which the label touches nothing.
            let clear =
                |row: &Vec<char>| row[at.saturating_sub(1)..(end + 1).min(width)].iter().all(|c| *c == ' ');
            if let Some(row) = rows.iter_mut().rev().find(|row| clear(row)) {
                row[at..end].copy_from_slice(&label[..end - at]);
                ticks[tick] = 'v';
            }
        }
        rows.into_iter()
            .chain([ticks])
            .map(|row| row.into_iter().collect::<String>().trim_end().to_owned())
            .skip_while(String::is_empty)
            .collect()
    }

    /// The rows between the walls, with measures from the front mark where something begins or ends.
    fn rows(&self, things: &[Thing], survey: &Survey) -> Vec<String> {
        let mut labels = vec![String::new(); self.cells.len()];
        let edges = things.iter().flat_map(|thing| [thing.patch.along.from, thing.patch.along.to]);
        // The ends of the roof have their measures on the end lines.
        for along in edges.filter(|along| *along > self.length * 0.0 && *along < self.length) {
            let label = &mut labels[self.row(along)];
            if label.is_empty() {
                *label = tape(along.value, survey.family);
            }
        }
        let end = |end, along: Length| {
            let words = format!(" {} ", words::end(end));
            let before = self.columns().saturating_sub(words.len()) / 2;
            let after = self.columns().saturating_sub(words.len() + before);
            let rule = |length: usize| words::end_mark(end).to_string().repeat(length);
            format!("{:>MARGIN$} +{}{words}{}+", tape(along.value, survey.family), rule(before), rule(after))
        };
        let mut lines = vec![end(survey.roof.front, self.length * 0.0)];
        lines.extend(self.cells.iter().zip(&labels).map(|(row, label)| {
            let row: String = row.iter().collect();
            format!("{label:>MARGIN$} |{row}|").trim_end().to_owned()
        }));
        lines.push(end(survey.roof.rear, self.length));
        lines
    }
}

fn cell(at: Length, whole: Length, cells: usize) -> usize {
    let share = (at / whole).value.clamp(0.0, 1.0);
    ((share * cells as f64) as usize).min(cells - 1)
}

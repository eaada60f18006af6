//! How to glue, and what the roof asks of the side walls.

use beam_core::check::{CheckDocument, Finite, GlueWork, WallWork};
use beam_core::quantity::{FOOT, Family, force, significant, stress};

use super::page::Page;
use super::table::{Set, Table};

/// Both, where there is something to tell.
pub(super) fn work(page: &mut Page, document: &CheckDocument) {
    let family = document.read_in.0;
    if !document.glue.is_empty() {
        page.heading("Gluing");
        document.glue.iter().for_each(|one| page.item("-", &glue(one, family)));
    }
    if let Some(walls) = document.walls.as_ref().filter(|w| !w.seats.is_empty()) {
        asked(page, walls, family);
    }
}

fn glue(work: &GlueWork, family: Family) -> String {
    let clamp = match work.clamp_at_most {
        Some(most) => format!(
            "press with clamps or weights, never more than {} on the foam",
            stress(most.get(), family)
        ),
        None => "press lightly: how much the foam bears is not known".to_owned(),
    };
    format!(
        "{} to {}: {}, {} m2 wetted in a bed of {} mm. Roughen and wipe the metal, glue within the hour; {clamp}; leave \
         it {} h at {} C or warmer before it carries. Not counted on above {} C; {}.",
        work.brace,
        work.to.join(" and "),
        work.product,
        significant(work.area.get(), 2),
        // A bed is set by wires or beads of a size in mm, whatever the tape shows.
        significant(1000.0 * work.bed.get(), 2),
        significant(work.cure_hours.get(), 3),
        significant(work.cure_at.get(), 2),
        significant(work.heat_limit.get(), 3),
        work.note,
    )
}

fn asked(page: &mut Page, walls: &WallWork, family: Family) {
    page.heading("What the roof asks of the side walls, at most");
    let mut table = Table::new(&[
        ("where", Set::Words),
        ("down, left", Set::Right),
        ("down, right", Set::Right),
        ("up, left", Set::Right),
        ("up, right", Set::Right),
    ]);
    let cells = |pair: [Finite; 2], scale: f64, per: &str| {
        pair.map(|f| format!("{}{per}", force(scale * f.get(), family)))
    };
    for seat in &walls.seats {
        let ([dl, dr], [ul, ur]) = (cells(seat.down, 1.0, ""), cells(seat.up, 1.0, ""));
        table.row([format!("seat of {}", seat.brace), dl, dr, ul, ur]);
    }
    let (scale, per) = match family {
        Family::Inch => (FOOT, "/ft"),
        Family::Metric => (1.0, "/m"),
    };
    let ([dl, dr], [ul, ur]) = (cells(walls.down, scale, per), cells(walls.up, scale, per));
    table.row(["all along, seats among it".to_owned(), dl, dr, ul, ur]);
    let [tl, tr] = cells(walls.thrust, scale, per);
    if walls.thrust.iter().any(|t| t.get() > 0.0) {
        table.row(["thrust outward".to_owned(), tl, tr, String::new(), String::new()]);
    }
    page.table(&table);
}

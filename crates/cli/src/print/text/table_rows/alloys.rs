//! The alloys of both books.

use section_tables::{Tables, YieldMet};

use super::{Cited, Page, Set, Table};

/// Both books, one after the other.
pub(super) fn alloys(page: &mut Page, tables: &Tables, cited: &mut Cited) {
    page.heading("Alloys by ADM 2020");
    page.note(
        "Ftu, Fty: tension, ultimate and yield; Fcy: compression yield; w: within 1 in of a weld. All minimum values.",
    );
    let mut table = Table::new(&[
        ("alloy", Set::Left),
        ("wall, in", Set::Words),
        ("Ftu, ksi", Set::Right),
        ("Fty, ksi", Set::Right),
        ("Fcy, ksi", Set::Right),
        ("Ftuw, ksi", Set::Right),
        ("Ftyw, ksi", Set::Right),
        ("E, ksi", Set::Right),
        ("kind", Set::Left),
        ("source", Set::Left),
    ]);
    for alloy in &tables.alloys {
        table.row([
            alloy.id.clone(),
            format!("{} to {}", alloy.wall_min_in, alloy.wall_max_in),
            alloy.f_tu_ksi.to_string(),
            alloy.f_ty_ksi.to_string(),
            alloy.f_cy_ksi.to_string(),
            alloy.f_tuw_ksi.to_string(),
            alloy.f_tyw_ksi.to_string(),
            alloy.e_ksi.to_string(),
            alloy.kind.to_string(),
            cited.cite(&alloy.source),
        ]);
    }
    page.table(&table);
    for alloy in &tables.alloys {
        let parts: Vec<&str> = [&alloy.product, &alloy.note]
            .map(String::as_str)
            .into_iter()
            .filter(|part| !part.is_empty())
            .collect();
        page.item("-", &format!("{}: {}", alloy.id, parts.join("; ")));
    }
    yields_met(page, tables, cited);
    by_en_1999(page, tables, cited);
}

fn yields_met(page: &mut Page, tables: &Tables, cited: &mut Cited) {
    page.gap();
    page.note("Yield as met, for spring-back only; never a strength to design with:");
    for met in &tables.yields_met {
        let cited = cited.cite(&met.source);
        let YieldMet { id, typical_ksi, high_ksi, kind, note, .. } = met;
        page.item(
            "-",
            &format!("{id}: typically {typical_ksi} ksi, up to {high_ksi} ksi ({kind} {cited}): {note}"),
        );
    }
}

/// One row a range of wall.
fn by_en_1999(page: &mut Page, tables: &Tables, cited: &mut Cited) {
    page.heading("Alloys by EN 1999-1-1");
    page.note(
        "fo, fu: characteristic 0.2 % proof and ultimate strength; haz: beside a weld. Not every alloy stands in both \
         books.",
    );
    let mut table = Table::new(&[
        ("alloy", Set::Left),
        ("wall, mm", Set::Words),
        ("fo, MPa", Set::Right),
        ("fu, MPa", Set::Right),
        ("fo,haz", Set::Right),
        ("fu,haz", Set::Right),
        ("A, %", Set::Right),
        ("class", Set::Left),
        ("kind", Set::Left),
        ("source", Set::Left),
    ]);
    for alloy in &tables.en_alloys {
        for range in &alloy.ranges {
            table.row([
                alloy.id.clone(),
                format!("over {} to {}", range.wall_over_mm, range.wall_to_mm),
                range.f_o_mpa.to_string(),
                range.f_u_mpa.to_string(),
                range.f_o_haz_mpa.to_string(),
                range.f_u_haz_mpa.to_string(),
                range.elongation_percent.to_string(),
                range.buckling_class.to_string(),
                range.kind.to_string(),
                cited.cite(&range.source),
            ]);
        }
    }
    page.table(&table);
    for alloy in &tables.en_alloys {
        for range in alloy.ranges.iter().filter(|range| !range.note.is_empty()) {
            page.item("-", &format!("{}, to {} mm: {}", alloy.id, range.wall_to_mm, range.note));
        }
    }
}

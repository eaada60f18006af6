//! A condensed panel against the same roof solved as a whole with the braces in, on the same grid.

use super::super::pattern::Pattern;
use super::super::screen::first_variant;
use super::super::search::candidates;
use super::super::tests::{room, stock, theatre};
use super::super::{FirstBy, Trimmers};
use super::*;
use crate::check::Bond;
use crate::response::{BraceForces, Layout, Response};
use crate::survey::Formed;
use section_tables::Tables;

const MORE: &str = r#"
[[brace]]
name = "old bow"
tube = "1 x 1 x 1/8"
alloy = "6063-T5"
along = "20"
existing = true
glued = []
[[damage]]
name = "soaked corner"
layer = "core"
across = ["60", "80"]
along = ["75", "95"]
state = "wet"
"#;

/// Agreement asked for: a part of the largest number of the kind.
const AGREES: f64 = 1e-6;

#[track_caller]
fn near(what: &str, pairs: &[(f64, f64)]) {
    let largest = pairs.iter().fold(0.0_f64, |m, (_, wanted)| m.max(wanted.abs()));
    for (found, wanted) in pairs {
        assert!((found - wanted).abs() <= AGREES * largest, "{what}: {found} {wanted} of {largest}");
    }
}

/// One condensed response against the whole one.
fn agree(what: &str, (layout, found): (&Layout, &Response), (all, whole): (&Layout, &Response)) {
    let sag = layout.sag.iter().zip(&found.sag).map(|(place, value)| {
        let at = all.sag.iter().position(|p| p == place).expect("a node of the whole");
        (*value, whole.sag[at])
    });
    near(&format!("sag, {what}"), &sag.collect::<Vec<_>>());
    let same = |a: &crate::response::LayerPlace, b: &crate::response::LayerPlace| {
        (a.layer, a.x, a.y) == (b.layer, b.x, b.y)
    };
    let skins = layout.skins.iter().zip(&found.skins).flat_map(|(place, s)| {
        let at = all.skins.iter().position(|p| same(p, place)).expect("a skin of the whole");
        let w = whole.skins[at];
        s.middle.into_iter().zip(w.middle).chain(s.bending.into_iter().zip(w.bending))
    });
    near(&format!("skins, {what}"), &skins.collect::<Vec<_>>());
    let cores = layout.cores.iter().zip(&found.cores).flat_map(|(place, c)| {
        let at = all.cores.iter().position(|p| same(p, place)).expect("a core of the whole");
        c.iter().copied().zip(whole.cores[at])
    });
    near(&format!("cores, {what}"), &cores.collect::<Vec<_>>());
    // Every piece shows both its ends: the end of one stands where the next begins, so that pairs are told apart.
    let pairs: Vec<(&crate::response::BracePlace, &crate::response::BracePlace)> =
        all.braces.chunks_exact(2).map(|p| (&p[0], &p[1])).collect();
    let picks: [fn(&BraceForces) -> f64; 5] =
        [|f| f.axial, |f| f.moment, |f| f.shear, |f| f.flow, |f| f.torsion];
    for pick in picks {
        let forces =
            layout.braces.chunks_exact(2).zip(found.braces.chunks_exact(2)).flat_map(|(place, own)| {
                let is = |p: &(&crate::response::BracePlace, &crate::response::BracePlace)| {
                    (p.0.brace, p.0.x, p.1.x) == (place[0].brace, place[0].x, place[1].x)
                };
                let at = pairs.iter().position(is).expect("a piece of the whole");
                [0, 1].map(|k| (pick(&own[k]), pick(&whole.braces[2 * at + k])))
            });
        near(&format!("braces, {what}"), &forces.collect::<Vec<_>>());
    }
    assert_eq!(layout.trimmers, all.trimmers, "{what}");
    let picks: [fn(&BraceForces) -> f64; 2] = [|f| f.moment, |f| f.shear];
    for pick in picks {
        let forces = found.trimmers.iter().zip(&whole.trimmers).map(|(f, w)| (pick(f), pick(w)));
        near(&format!("trimmers, {what}"), &forces.collect::<Vec<_>>());
    }
    let ends = found.ends.iter().flatten().copied().zip(whole.ends.iter().flatten().copied());
    near(&format!("ends, {what}"), &ends.collect::<Vec<_>>());
    // A couple has no sum: rounding is measured by 1 N.
    near(&format!("load, {what}"), &[(found.load, whole.load), (1.0, 1.0)]);
}

/// What walls and contacts push, in the state in which they are read.
fn walls_agree(what: &str, found: &Response, whole: &Response) {
    assert_eq!(found.pushes.len(), whole.pushes.len(), "{what}");
    let pushes = found.pushes.iter().copied().zip(whole.pushes.iter().copied());
    near(&format!("pushes, {what}"), &pushes.collect::<Vec<_>>());
    let (f, w) = (&found.walls, &whole.walls);
    near(
        &format!("walls, {what}"),
        &[(f.left, w.left), (f.right, w.right), (f.front, w.front), (f.rear, w.rear)],
    );
}

#[test]
fn a_random_sample_agrees_with_whole_roofs_bonded_and_loose() {
    let survey = theatre(MORE);
    let tables = Tables::shipped();
    let factors = Factors::of(&survey, tables).unwrap();
    let pattern = Pattern::of(&survey, tables).unwrap();
    let tubes = ["1-1/2 x 1-1/2 x 1/16", "1-1/2 x 1-1/2 x 1/8"].map(|t| stock(t, "6061-T6"));
    let list = candidates(&survey, tables, &room(&tubes, &[1, 2, 3], Trimmers::Both), FirstBy::Weight);
    let of = |trimmers: bool| -> Vec<usize> {
        (0..list.len()).filter(|i| list[*i].trimmers.is_some() == trimmers).collect()
    };
    let kinds = [of(false), of(true)];
    let brackets = [
        (Bond::Full, Materials::Low, Formed::Bent),
        (Bond::None, Materials::High, Formed::Bent),
        (Bond::Full, Materials::Default, Formed::Sprung),
    ];
    // Drawn by a linear congruential generator (multiplier 16807, Park and Miller 1988).
    let mut seed = 2026_usize;
    for (bond, materials, formed) in brackets {
        let mut built: Vec<Survey> = list.iter().map(|c| pattern.built_in(&survey, c)).collect();
        let new = built.iter_mut().flat_map(|s| s.braces.iter_mut().filter(|b| !b.existing));
        new.for_each(|brace| brace.formed = formed);
        let first = first_variant(&built[0]);
        let panel = Panel::new(&factors, built.iter().collect(), first, GridSize { nodes: 400.0 }).unwrap();
        let variant = Variant { bond, materials, ..first };
        let condensed = Condensed::new(&panel, variant).unwrap();
        let (job, _, shape) = panel.bare(panel.candidates[0], variant).unwrap();
        for draw in 0..4 {
            seed = seed * 16_807 % 2_147_483_647;
            let kind = &kinds[draw % 2];
            let index = kind[seed % kind.len()];
            let tried = condensed.tried(index).unwrap();
            let kinds = tried.braces.kinds;
            let all = [tried];
            let ready = condensed.ready(&kinds, &all).unwrap();
            let [tried] = all;
            let roof = &tried.roof;
            let solved = condensed.solved(&ready, &tried, &condensed.cases_of(&tried)).unwrap();
            let (whole, _) = solve_plate(roof, &shape, materials, &job.set, &job.layouts).unwrap();
            // Springing in uses most at the braces: next to nothing else is read then.
            let panel_read = solved.layout.skins.len() > 3 && !solved.layout.cores.is_empty();
            assert!(panel_read || formed == Formed::Sprung);
            let times =
                [(&solved.fresh, &whole.fresh), (&solved.aged, &whole.aged), (&solved.hot, &whole.hot)];
            for (time, (found, wanted)) in times.into_iter().enumerate() {
                assert!(!found.is_empty());
                for (basis, response) in found {
                    let what = format!("{bond:?} {materials:?} {basis:?} {time} of {:?}", list[index].along);
                    agree(&what, (&solved.layout, response), (&whole.layout, &wanted[basis]));
                    if time == 0 {
                        walls_agree(&what, response, &wanted[basis]);
                    }
                }
            }
        }
    }
}

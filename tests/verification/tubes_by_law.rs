//! Laws of tubes: a thicker wall, a closer hold and less load never make anything worse.

use beam_core::ask::{BraceLoad, BraceQuestion, TubeQuestion, TubeSection, brace, tube};
use beam_core::quantity::si;
use beam_core::strip::ArchEnds;
use beam_core::survey::AluminiumRules;
use proptest::prelude::*;
use section_tables::Tables;

const RULES: [AluminiumRules; 3] =
    [AluminiumRules::Adm2020Asd, AluminiumRules::Adm2020Lrfd, AluminiumRules::En1999];
/// Alloys of both books whose strength does not step with the wall below 5 mm.
const ALLOYS: [&str; 3] = ["6061-T6", "6063-T6", "5052-H32"];

/// Tension, compression, bending and shear.
fn strengths(size: [f64; 3], alloy: &str, rules: AluminiumRules, [length, held]: [f64; 2]) -> [f64; 4] {
    let [width, depth, wall] = size.map(si);
    let question = TubeQuestion {
        section: TubeSection::Measured { width, depth, wall, corner: si(0.0) },
        alloy: alloy.to_owned(),
        length: si(length),
        held_every: Some(si(held)),
        rules,
        weld_at: None,
        partial_factors: [None; 2],
    };
    let s = tube(&question, Tables::shipped()).unwrap().strength;
    [s.tension.unwrap(), s.compression.unwrap(), s.bending.unwrap().least, s.shear.unwrap()].map(|v| v.get())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    /// What a given force or moment uses falls as the wall grows and as the tube is held closer. (A wall of more than a
    /// quarter of the depth leaves less web between the flanges.)
    #[test]
    fn thicker_and_closer_never_cost(
        width in 0.015..0.1f64, depth in 0.015..0.15f64, wall in 0.0008..0.004f64, more in 1.0..1.3f64,
        length in 0.3..3.0f64, held in 0.1..1.0f64, closer in 0.2..1.0f64, alloy in 0..3usize, rules in 0..3usize,
    ) {
        let (alloy, rules) = (ALLOYS[alloy], RULES[rules]);
        let thick = (wall * more).min(0.2 * width.min(depth));
        prop_assume!(thick >= wall);
        let lengths = [length, held * length];
        let thin = strengths([width, depth, wall], alloy, rules, lengths);
        let thicker = strengths([width, depth, thick], alloy, rules, lengths);
        let held_closer = strengths([width, depth, wall], alloy, rules, [length, closer * held * length]);
        for i in 0..4 {
            prop_assert!(thicker[i] >= thin[i] * (1.0 - 1e-9), "{i} {thin:?} {thicker:?} {alloy} {rules:?}");
            prop_assert!(held_closer[i] >= thin[i] * (1.0 - 1e-9), "{i} {thin:?} {held_closer:?} {alloy} {rules:?}");
        }
    }

    /// Twice the load uses at least twice as much: the share used is convex in the load from nothing. (A rise too small
    /// to snap ends as a rope between firm ends, which stiffens.)
    #[test]
    fn demand_is_convex_in_the_load(
        rise in 0.05..0.15f64, force in 20.0..150.0f64, firm in any::<bool>(),
    ) {
        let used = |times: f64| {
            let question = BraceQuestion {
                span: si(2.3),
                rise: si(rise),
                section: TubeSection::Named("1-1/2 x 1-1/2 x 1/8".to_owned()),
                alloy: "6061-T6".to_owned(),
                load: Some(BraceLoad::Force(si(force * times))),
                at: None,
                uniform: None,
                ends: Some(if firm { ArchEnds::Pinned } else { ArchEnds::Roller }),
                thrust_spring: None,
                rules: AluminiumRules::Adm2020Asd,
                partial_factors: [None; 2],
            };
            let strength = brace(&question, Tables::shipped()).unwrap().strength.unwrap();
            strength.ratio.map_or(f64::INFINITY, |ratio| ratio.get())
        };
        let [one, two, three] = [1.0, 2.0, 3.0].map(used);
        prop_assert!(two >= 2.0 * one * (1.0 - 1e-3), "{one} {two}");
        prop_assert!(one + three >= 2.0 * two * (1.0 - 1e-3), "{one} {two} {three}");
    }
}

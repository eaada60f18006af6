use super::*;
use crate::check::Verdict;
use crate::quantity::{INCH, KIP, KSI, POUND};
use approx::assert_relative_eq;

fn question(load_kip: f64) -> BraceQuestion {
    BraceQuestion {
        span: si(84.0 * INCH),
        rise: si(3.0 * INCH),
        section: TubeSection::Named("1-1/2 x 1-1/2 x 1/8".to_owned()),
        alloy: "6061-T6".to_owned(),
        load: (load_kip > 0.0).then(|| BraceLoad::Force(si(load_kip * KIP))),
        at: None,
        uniform: None,
        ends: Some(ArchEnds::Pinned),
        thrust_spring: None,
        rules: AluminiumRules::Adm2020Asd,
        partial_factors: [None; 2],
    }
}

fn ask(question: &BraceQuestion) -> BraceAnswer {
    brace(question, Tables::shipped()).unwrap()
}

/// ARCH rows, worked by the force method to 30 digits: kip and inches.
#[test]
fn numbers_of_small_movements() {
    let kip_in = KIP * INCH;
    let pinned = ask(&question(0.3));
    assert_relative_eq!(pinned.thrust.get() / KIP, 1.53712882683, max_relative = 1e-7);
    assert_relative_eq!(pinned.crown_moment.get() / kip_in, 1.68861351951, max_relative = 1e-7);
    assert_relative_eq!(pinned.max_moment.get() / kip_in, 1.68861351951, max_relative = 1e-7);
    assert_relative_eq!(pinned.crown_sag.get() / INCH, 0.143544827891, max_relative = 1e-7);
    let fixed = ask(&BraceQuestion { ends: Some(ArchEnds::Fixed), ..question(0.3) });
    assert_relative_eq!(fixed.end_moment.get() / kip_in, -0.324939037483, max_relative = 1e-7);
    let aside = ask(&BraceQuestion { at: Some(si(21.0 * INCH)), ..question(0.3) });
    assert_relative_eq!(aside.thrust.get() / KIP, 1.095844257, max_relative = 1e-7);
    assert_relative_eq!(aside.max_moment.get() / kip_in, 2.256213479, max_relative = 1e-6);
    assert_relative_eq!(aside.max_moment_at.get() / INCH, 21.0, max_relative = 1e-6);
    let even = BraceQuestion { uniform: Some(si(0.004 * KIP / INCH)), ..question(0.0) };
    let even_fixed = ask(&BraceQuestion { ends: Some(ArchEnds::Fixed), ..even.clone() });
    assert_relative_eq!(even_fixed.max_moment.get() / kip_in, -0.659570017403, max_relative = 1e-7);
    assert_relative_eq!(ask(&even).crown_sag.get() / INCH, 0.0737374927192, max_relative = 1e-7);
    // Loads add.
    let both = ask(&BraceQuestion { uniform: even.uniform, ..question(0.3) });
    assert_relative_eq!(both.thrust.get() / KIP, 1.53712882683 + 1.10227399685, max_relative = 1e-7);
}

/// BUCK-SH: 1.523 kip by shallow-arch theory between rigid supports.
#[test]
fn snap_load_of_a_tube() {
    let snap = |question: &BraceQuestion| ask(question).snap_load.map(|load| load.get() / KIP);
    let rigid = snap(&question(0.3)).unwrap();
    assert_relative_eq!(rigid, 1.523, max_relative = 0.02);
    let spring = |k: f64| snap(&BraceQuestion { thrust_spring: Some(si(k * KIP / INCH)), ..question(0.3) });
    let soft = spring(100.0).unwrap();
    assert!(soft < rigid);
    assert!(spring(1.0).is_none());
    assert!(snap(&BraceQuestion { ends: None, ..question(0.3) }).is_none());
    // Twice the load is no other snap load.
    assert_relative_eq!(snap(&question(0.6)).unwrap(), rigid, max_relative = 1e-4);
}

#[test]
fn stiffer_walls_take_more_thrust() {
    let at = |k: f64| ask(&BraceQuestion { thrust_spring: Some(si(k)), ..question(0.1) });
    let answers: Vec<BraceAnswer> = [0.0, 1e4, 1e5, 1e6, 1e8, 1e12].into_iter().map(at).collect();
    let roller = ask(&BraceQuestion { ends: None, ..question(0.1) });
    let pinned = ask(&question(0.1));
    assert_relative_eq!(answers[0].crown_sag.get(), roller.crown_sag.get(), max_relative = 1e-12);
    assert_relative_eq!(answers[5].thrust.get(), pinned.thrust.get(), max_relative = 1e-4);
    for pair in answers.windows(2) {
        assert!(pair[1].thrust > pair[0].thrust);
        assert!(pair[1].crown_moment < pair[0].crown_moment);
    }
}

/// Between firm ends the use grows faster than the load, and the brace fails before it snaps.
#[test]
fn use_grows_faster_than_the_load() {
    let strength = |load: f64| ask(&question(load)).strength.unwrap();
    let ratios: Vec<f64> = (1..=5).map(|i| strength(0.08 * f64::from(i)).ratio.unwrap().get()).collect();
    for w in ratios.windows(3) {
        assert!(w[2] - w[1] > w[1] - w[0], "{ratios:?}");
    }
    assert_eq!(strength(0.05).verdict, Verdict::Holds);
    let late = strength(1.4);
    assert_eq!((late.verdict, late.check.as_str()), (Verdict::DoesNotHold, "snap"));
}

/// A bent beam of 84 in under 100 lbf: moment 2100 lbf in of 6061-T6, whose least strength with a wall of 0.1125 in
/// and 84 in unbraced is governed by lateral-torsional buckling, as the Manual has it for square tubes too.
#[test]
fn a_bent_beam_by_the_manual() {
    let answer = ask(&BraceQuestion { ends: None, ..question(0.1) });
    let strength = answer.strength.unwrap();
    assert!(strength.basis.source.contains("lateral-torsional"), "{:?}", strength.basis);
    let first_order = 2.1 * KIP * INCH / strength.bending.get();
    assert_relative_eq!(strength.ratio.unwrap().get(), first_order, max_relative = 0.03);
    assert_relative_eq!(answer.max_stress.get() / KSI, 2.1 / 0.2912326389, max_relative = 0.02);
}

#[test]
fn what_cannot_be_is_named() {
    let error = |change: &dyn Fn(&mut BraceQuestion)| {
        let mut asked = question(0.3);
        change(&mut asked);
        brace(&asked, Tables::shipped()).unwrap_err()
    };
    for wrong in [
        error(&|q| q.rise = q.span),
        error(&|q| q.rise = si(-0.01)),
        error(&|q| q.span = si(f64::NAN)),
        error(&|q| q.at = Some(q.span * 1.1)),
        error(&|q| q.load = None),
        error(&|q| q.load = Some(BraceLoad::Force(si(-1.0)))),
        error(&|q| (q.load, q.at, q.uniform) = (None, Some(si(0.1)), Some(si(5.0)))),
        error(&|q| q.alloy = "unobtainium".to_owned()),
        error(&|q| q.section = TubeSection::Named("9 x 9 x 9".to_owned())),
        error(&|q| (q.ends, q.thrust_spring) = (Some(ArchEnds::Roller), Some(si(1e5)))),
        error(&|q| q.thrust_spring = Some(si(-1.0))),
    ] {
        assert!(!wrong.cannot_say(), "{wrong}");
    }
}

/// An alloy that the manual does not list bends like any other; its strength cannot be told. A temper that nobody named
/// is no mistake of typing.
#[test]
fn what_the_manual_does_not_list_has_no_strength() {
    for alloy in ["6063-T66", "6060-T6", "6005A-T6", "alloy not known"] {
        let answer = ask(&BraceQuestion { alloy: alloy.to_owned(), ..question(0.1) });
        assert!(answer.holds().is_none() && answer.thrust.get() > 0.0, "{alloy}");
        let gap = answer.not_checked.iter().find(|gap| gap.blocks).unwrap();
        assert!(gap.why.contains("ADM 2020 A.3"), "{}", gap.why);
    }
    let asked = BraceQuestion { alloy: "6063".to_owned(), ..question(0.1) };
    let error = brace(&asked, Tables::shipped()).unwrap_err();
    assert!(error.cannot_say() && error.to_string().contains("no temper"), "{error}");
}

/// A half circle of 40 in of 1.5 x 1/8 in: `1.25^2/(2 x 20 x 0.125)` = 31 % of the stress along bends the walls across.
#[test]
fn a_tube_that_flattens_is_not_judged() {
    let ring = BraceQuestion { span: si(40.0 * INCH), rise: si(20.0 * INCH), ..question(0.1) };
    let answer = ask(&ring);
    assert!(answer.holds().is_none());
    let gap = answer.not_checked.iter().find(|gap| gap.blocks).unwrap();
    assert!(gap.why.contains("31 %") && gap.why.contains("508 mm"), "{}", gap.why);
    let thick = TubeSection::Named("1-1/2 x 1-1/2 x 1/4".to_owned());
    assert!(ask(&BraceQuestion { section: thick, ..ring }).holds().is_some());
}

#[test]
fn a_flat_brace_is_a_beam_and_a_weight_is_a_mass() {
    let mut flat = question(0.0);
    flat.rise = si(0.0);
    flat.ends = None;
    flat.load = Some(BraceLoad::Weight(si(250.0 * POUND)));
    let answer = ask(&flat);
    assert_relative_eq!(answer.crown_moment.get(), 0.25 * KIP * 84.0 * INCH / 4.0, max_relative = 1e-9);
    assert!(answer.assumptions.iter().any(|a| a.code == "weight-is-mass" && a.words.contains("1112 N")));
    assert!(answer.cautions.iter().all(|c| c.code != "side-walls-spread"));
    assert!(ask(&question(0.3)).cautions.iter().any(|c| c.code == "side-walls-spread"));
}

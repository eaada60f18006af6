//! The question as a whole; the numbers are held beside the rules.

use super::*;
use crate::quantity::si;
use approx::assert_relative_eq;

const KIP_IN: f64 = 112.984829;

fn ask(tube: &str, alloy: &str, length: f64, rules: AluminiumRules) -> TubeQuestion {
    TubeQuestion {
        section: TubeSection::Named(tube.to_owned()),
        alloy: alloy.to_owned(),
        length: si(length),
        held_every: None,
        rules,
        weld_at: None,
        partial_factors: [None; 2],
    }
}

fn answer(question: &TubeQuestion) -> TubeAnswer {
    tube(question, Tables::shipped()).unwrap()
}

/// Square tubes over 90 in by the ADM, kip-in: yield, rupture, local, lateral-torsional; computed apart from this code.
#[test]
fn bending_by_the_adm() {
    for (name, alloy, v) in [
        ("1 x 1 x 1/8", "6061-T6", [3.0658, 2.8165, 3.0816, 2.4386]),
        ("1-1/2 x 1-1/2 x 1/8", "6061-T6", [7.5402, 6.9271, 7.5553, 6.3380]),
        ("2 x 2 x 1/8", "6061-T6", [14.0033, 12.8646, 14.0180, 12.1175]),
        ("1-1/2 x 1-1/2 x 1/8", "6063-T5", [3.4470, 4.0104, 3.4539, 3.0667]),
        ("1-1/2 x 1-1/2 x 1/8", "6063-T6", [5.3859, 5.4688, 5.3967, 4.6518]),
    ] {
        let b = answer(&ask(name, alloy, 90.0 * INCH, AluminiumRules::Adm2020Asd)).strength.bending.unwrap();
        let got = [b.yield_, b.rupture, b.local, b.lateral_torsional].map(|f| f.unwrap().get() / KIP_IN);
        for (got, v) in got.into_iter().zip(v) {
            assert_relative_eq!(got, v, max_relative = 3e-5);
        }
        assert_relative_eq!(b.least.get() / KIP_IN, v[3], max_relative = 3e-5);
    }
}

/// 40 x 40 x 3 of 6063-T5 and 6061-T6 by EN 1999-1-1, 2 m: computed apart from this code.
#[test]
fn strengths_by_en_1999() {
    for (alloy, class, n, m, v) in
        [("6063-T5", 1, 12966.86797, 729.6545455, 13919.39013), ("6061-T6", 2, 14663.0, 1347.05, 25697.33562)]
    {
        let a = answer(&ask("40 x 40 x 3", alloy, 2.0, AluminiumRules::En1999));
        assert_eq!(a.class, Some(class));
        assert_relative_eq!(a.strength.compression.unwrap().get(), n, max_relative = 5e-5);
        assert_relative_eq!(a.strength.bending.unwrap().least.get(), m, max_relative = 5e-5);
        assert_relative_eq!(a.strength.shear.unwrap().get(), v, max_relative = 1e-8);
        assert!(!a.cannot_say());
    }
}

/// 1/8 in is over 3 mm: 6063-T5 falls to 110 MPa there (Table 3.2b).
#[test]
fn a_hair_over_three_millimetres_costs() {
    let tension = |name| {
        let a = answer(&ask(name, "6063-T5", 1.0, AluminiumRules::En1999));
        a.strength.tension.unwrap().get() / a.properties.area.get() * 1.1
    };
    assert_relative_eq!(tension("40 x 40 x 3"), 130e6, max_relative = 1e-9);
    assert_relative_eq!(tension("1-1/2 x 1-1/2 x 1/8"), 110e6, max_relative = 1e-9);
}

/// The manual lists 6082-T6 from 0.2 in only; 6063-T52 and 6060 stand in one book each; 6061-T4 is no temper held.
#[test]
fn what_a_book_does_not_list_has_no_number() {
    use AluminiumRules::{Adm2020Asd, En1999};
    for (name, alloy, rules, said) in [
        ("2 x 2 x 1/8", "6082-T6", Adm2020Asd, "A.3"),
        ("2 x 2 x 1/8", "6060-T6", Adm2020Asd, "EN 1999-1-1 lists it"),
        ("2 x 2 x 1/8", "6061-T4", Adm2020Asd, "temper"),
        ("2 x 2 x 1/8", "6063-T66", Adm2020Asd, "nearest that is listed is 6063-T6"),
        ("2 x 2 x 1/8", "6061", Adm2020Asd, "temper"),
        ("2 x 2 x 1/8", "alloy not known", Adm2020Asd, "neither is known"),
        ("2 x 2 x 1/8", "alloy not known", En1999, "neither is known"),
        ("2 x 2 x 1/8", "6063-T52", En1999, "ADM 2020 lists it"),
        ("2 x 2 x 1/8", "6063", En1999, "temper"),
    ] {
        let a = answer(&ask(name, alloy, 1.0, rules));
        assert!(a.cannot_say(), "{alloy}");
        assert_eq!(a.strength, TubeStrength::default(), "{alloy}");
        assert!(a.not_checked[0].why.contains(said), "{alloy}: {}", a.not_checked[0].why);
    }
    let section =
        TubeSection::Measured { width: si(0.06), depth: si(0.06), wall: si(0.012), corner: si(0.0) };
    let a = answer(&TubeQuestion { section, ..ask("", "6063-T66", 1.0, En1999) });
    assert!(a.cannot_say() && a.not_checked[0].why.contains("none for 12 mm"), "{}", a.not_checked[0].why);
    let thick = answer(&ask("2 x 2 x 1/4", "6082-T6", 1.0, Adm2020Asd));
    assert!(thick.strength.bending.is_some() && !thick.cannot_say());
    assert!(tube(&ask("2 x 2 x 1/8", "titanium", 1.0, Adm2020Asd), Tables::shipped()).is_err());
}

/// Webs of 98 x 1 mm of 6061-T6 buckle in shear before they yield: 430 x 5.34 x 250/240 / 98^2 of 240/sqrt(3) MPa.
#[test]
fn a_slender_web_carries_what_buckling_leaves() {
    let section = TubeSection::Measured { width: si(0.05), depth: si(0.1), wall: si(0.001), corner: si(0.0) };
    let a = answer(&TubeQuestion { section, ..ask("", "6061-T6", 2.0, AluminiumRules::En1999) });
    let left = 430.0 * 5.34 * 250.0 / 240.0 / (98.0 * 98.0);
    let v = left * 196.0 * 240.0 / 3.0f64.sqrt() / 1.1;
    assert!((a.strength.shear.unwrap().get() / v - 1.0).abs() < 1e-9 && !a.cannot_say());
    let shear = a.basis.iter().find(|b| b.of == "shear").unwrap();
    assert!(shear.source.contains("6.5.5") && shear.kind == "memory" && shear.check.contains("buckling"));
}

/// National factors enter as divisors, and only where that book is asked.
#[test]
fn national_partial_factors() {
    let usual = ask("40 x 40 x 3", "6063-T66", 2.0, AluminiumRules::En1999);
    let national = TubeQuestion { partial_factors: [Some(1.2), None], ..usual.clone() };
    let shear = |q: &TubeQuestion| answer(q).strength.shear.unwrap().get();
    assert_relative_eq!(shear(&usual) / shear(&national), 1.2 / 1.1, max_relative = 1e-12);
    assert!(answer(&national).assumptions.iter().any(|a| a.words.contains("gamma_M1 1.20")));
    for bad in [[Some(0.9), None], [None, Some(f64::NAN)]] {
        let asked = TubeQuestion { partial_factors: bad, ..usual.clone() };
        assert!(tube(&asked, Tables::shipped()).is_err(), "{bad:?}");
    }
    let manual = TubeQuestion { rules: AluminiumRules::Adm2020Asd, ..national };
    assert_eq!(tube(&manual, Tables::shipped()).unwrap_err(), TubeError::FactorsOfAnotherBook);
}

/// Held closer, a tube carries more moment; its compression upright stays.
#[test]
fn a_closer_held_length_helps_bending() {
    for rules in [AluminiumRules::Adm2020Asd, AluminiumRules::Adm2020Lrfd, AluminiumRules::En1999] {
        let free = ask("1 x 3 x 1/8", "6061-T6", 2.5, rules);
        let held = answer(&TubeQuestion { held_every: Some(si(0.3)), ..free.clone() });
        let free = answer(&free);
        let least = |a: &TubeAnswer| a.strength.bending.unwrap().least;
        assert!(least(&held) > least(&free), "{rules:?}");
        assert!(held.strength.compression > free.strength.compression, "{rules:?}");
    }
    let square = ask("2 x 2 x 1/8", "6061-T6", 2.5, AluminiumRules::Adm2020Asd);
    let held = answer(&TubeQuestion { held_every: Some(si(0.3)), ..square.clone() });
    let free = answer(&square).strength.compression.unwrap();
    assert_relative_eq!(held.strength.compression.unwrap().get(), free.get(), max_relative = 1e-12);
}

/// A weld in the middle of 6061-T6: 35 ksi falls to 15 in yield and member buckling; at an end only the section falls.
#[test]
fn welds_cost_by_their_place() {
    let sound = ask("2 x 2 x 1/8", "6061-T6", 1.0, AluminiumRules::Adm2020Asd);
    let bending = |q: &TubeQuestion| answer(q).strength.bending.unwrap();
    let at = |x: f64| bending(&TubeQuestion { weld_at: Some(si(x)), ..sound.clone() });
    let ratio = |a: Option<Finite>, b: Option<Finite>| a.unwrap().get() / b.unwrap().get();
    assert_relative_eq!(ratio(at(0.5).yield_, bending(&sound).yield_), 15.0 / 35.0, max_relative = 1e-9);
    assert_eq!(at(0.04).lateral_torsional, bending(&sound).lateral_torsional);
    assert_eq!(at(0.96), at(0.04));
    assert!(at(0.06).lateral_torsional < at(0.04).lateral_torsional);
    let off = TubeQuestion { weld_at: Some(si(1.1)), ..sound };
    assert!(tube(&off, Tables::shipped()).is_err());
}

#[test]
fn measures_that_cannot_be_are_refused() {
    let good = ask("2 x 2 x 1/8", "6061-T6", 1.0, AluminiumRules::Adm2020Asd);
    for bad in [
        TubeQuestion { length: si(0.0), ..good.clone() },
        TubeQuestion { length: si(f64::NAN), ..good.clone() },
        TubeQuestion { length: si(1e9), ..good.clone() },
        TubeQuestion { held_every: Some(si(2.0)), ..good.clone() },
        TubeQuestion { held_every: Some(si(-1.0)), ..good.clone() },
        TubeQuestion {
            section: TubeSection::Measured {
                width: si(0.01),
                depth: si(0.01),
                wall: si(0.005),
                corner: si(0.0),
            },
            ..good.clone()
        },
        TubeQuestion {
            section: TubeSection::Measured {
                width: si(0.04),
                depth: si(0.04),
                wall: si(0.002),
                corner: si(0.03),
            },
            ..good
        },
    ] {
        assert!(tube(&bad, Tables::shipped()).is_err(), "{bad:?}");
    }
}

/// Exactly one check of each kind governs, and its value is the strength.
#[test]
fn one_check_of_each_kind_governs() {
    for rules in [AluminiumRules::Adm2020Asd, AluminiumRules::Adm2020Lrfd, AluminiumRules::En1999] {
        let a = answer(&ask("1 x 2 x 1/8", "6061-T6", 1.5, rules));
        for (of, value) in [
            ("tension", a.strength.tension.unwrap()),
            ("compression", a.strength.compression.unwrap()),
            ("bending", a.strength.bending.unwrap().least),
            ("shear", a.strength.shear.unwrap()),
        ] {
            let governing: Vec<_> = a.basis.iter().filter(|b| b.of == of && b.governs).collect();
            assert_eq!(governing.len(), 1, "{of} {rules:?}");
            assert_eq!(governing[0].value, value);
        }
    }
}

/// Every stocked tube of every alloy by every book: a number or a reason, never neither.
#[test]
fn every_stocked_tube_has_a_number_or_a_reason() {
    let tables = Tables::shipped();
    let alloys: Vec<&String> =
        tables.alloys.iter().map(|a| &a.id).chain(tables.en_alloys.iter().map(|a| &a.id)).collect();
    for row in &tables.tubes {
        for alloy in &alloys {
            for rules in [AluminiumRules::Adm2020Asd, AluminiumRules::En1999] {
                let a = answer(&ask(&row.id, alloy, 2.3, rules));
                let s = a.strength;
                let whole = s.tension.is_some()
                    && s.compression.is_some()
                    && s.bending.is_some()
                    && s.shear.is_some();
                assert_ne!(whole, a.cannot_say(), "{} {alloy} {rules:?}", row.id);
            }
        }
    }
}

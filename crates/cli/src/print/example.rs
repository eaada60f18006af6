//! A survey and a result document made up by hand: the layouts are tested on them. No number here was computed.

use beam_core::check::{
    At, BasisWords, Bond, Bracing, CheckDocument, CheckRow, Finite, GlueWork, Governing, MadeWith, Materials,
    MeasuredAgainst, NotChecked, QuestionAnswer, ReadIn, SagSummary, SeatForces, Verdict, WallWork, Words,
};
use beam_core::quantity::{Family, INCH, POUND, si};
use beam_core::survey::*;
use section_tables::Tables;

fn finite(value: f64) -> Finite {
    Finite::new(value, "example").expect("a finite example")
}

fn sentence(code: &str, words: &str) -> Words {
    Words { code: code.to_owned(), words: words.to_owned() }
}

fn row(check: &str, load: &str, ratio: f64, bracing: Bracing, source: (&str, &str)) -> CheckRow {
    CheckRow {
        check: check.to_owned(),
        moved_by_bracing: true,
        part: "panel".to_owned(),
        stage: "finished".to_owned(),
        load: load.to_owned(),
        bracing,
        at: At { across: finite(38.125 * INCH), along: finite(52.0 * INCH) },
        demand: finite(30.0e3),
        limit: finite(40.0e3),
        si: "Pa".to_owned(),
        ratio: finite(ratio),
        counts: true,
        verdict: if ratio > 1.0 { Verdict::DoesNotHold } else { Verdict::Holds },
        materials: Materials::Low,
        ratio_by_materials: [finite(ratio); 3],
        basis: BasisWords { source: source.0.to_owned(), kind: source.1.to_owned() },
    }
}

/// A result with something under every heading.
pub(crate) fn document(verdict: Verdict) -> CheckDocument {
    let answer = |question: &str, verdict, ratio: Option<f64>, words: &str| QuestionAnswer {
        question: question.to_owned(),
        verdict,
        check: None,
        ratio: ratio.map(finite),
        words: words.to_owned(),
    };
    CheckDocument {
        schema: 1,
        made_with: MadeWith::new(Tables::shipped(), &["ADM 2020 ASD"], Some("0123456789abcdef")),
        title: "Touring puppet theatre, roof over the cooling unit".to_owned(),
        read_in: ReadIn(Family::Inch),
        stage: "finished".to_owned(),
        verdict,
        brace_needed: Some(true),
        scope: "Holds for: one person of 250 lb on a board outside the opening's edge strip, a unit of 100 lb, no snow, \
                mixed road, up to 158 F. Not for: standing without a board; a second unit."
            .to_owned(),
        why: "The foam beside the rear edge of the opening carries most, and the two braces keep it below its limit."
            .to_owned(),
        answers: vec![
            answer("unit parked", Verdict::Holds, Some(0.61), "core shear beside the opening, 38 1/8 in from the left"),
            answer("standing without a board", Verdict::OnlyOnABoard, Some(1.4), "a heel dents the outer skin"),
            answer("ends", Verdict::CannotSay, None, "nobody has looked at the ledger"),
        ],
        governing: Some(Governing {
            check: "core shear".to_owned(),
            part: "panel".to_owned(),
            load: "unit on the road".to_owned(),
            stage: "finished".to_owned(),
            ratio: finite(0.83),
        }),
        next_steps: vec![
            sentence("look-at-ledger", "Prick the ledger with an awl where the braces land, and write what you find."),
            sentence("board", "Lay a board of 24 x 48 in before anyone steps on the roof."),
        ],
        glue: vec![GlueWork {
            brace: "front".to_owned(),
            product: "rigid polyurethane".to_owned(),
            to: vec!["outer skin".to_owned()],
            area: finite(0.062),
            bed: finite(0.000_3),
            clamp_at_most: Some(finite(22_000.0)),
            cure_hours: finite(24.0),
            cure_at: finite(20.0),
            heat_limit: finite(80.0),
            note: "needs moisture".to_owned(),
        }],
        walls: Some(WallWork {
            bond: Bond::Full,
            down: [finite(700.0), finite(680.0)],
            up: [finite(120.0), finite(110.0)],
            thrust: [finite(0.0), finite(0.0)],
            seats: vec![SeatForces {
                brace: "front".to_owned(),
                down: [finite(310.0), finite(300.0)],
                up: [finite(90.0), finite(90.0)],
                load: "unit on the road".to_owned(),
            }],
        }),
        sag: SagSummary {
            now_with: Some(finite(0.003)),
            now_without: Some(finite(0.009)),
            later_with: Some(finite(0.006)),
            later_without: None,
        },
        measured: vec![MeasuredAgainst {
            name: "rear edge of the opening".to_owned(),
            measured: finite(0.022),
            computed: finite(0.006),
            words: "The roof hangs lower than a sound one would: look for more damage.".to_owned(),
        }],
        grid: None,
        pencil: None,
        checks: vec![
            row("core shear", "unit on the road", 1.21, Bracing::Without, ("EN 14509 Annex E", "memory")),
            row("core shear", "unit on the road", 0.83, Bracing::With, ("EN 14509 Annex E", "memory")),
            row("sag", "person", 0.4, Bracing::With, ("span over 180", "practice")),
        ],
        working: Vec::new(),
        runs: Vec::new(),
        not_checked: vec![
            NotChecked {
                check: "water".to_owned(),
                part: "panel".to_owned(),
                why: "no fall was measured".to_owned(),
                blocks: false,
            },
            NotChecked {
                check: "glue line".to_owned(),
                part: "brace front".to_owned(),
                why: "no glue given".to_owned(),
                blocks: true,
            },
        ],
        assumptions: vec![sentence("default-person", "A person with tools weighs 122 kg (1.2 kN).")],
        cautions: vec![
            sentence("fragile-roof", "Treat the roof as fragile until every check that is named here holds."),
            sentence("not-an-engineer", "This does not replace a licensed engineer, nor the local rules."),
        ],
    }
}

fn interval(from: f64, to: f64) -> Interval {
    Interval { from: si(from * INCH), to: si(to * INCH) }
}

fn patch(across: [f64; 2], along: [f64; 2]) -> Patch {
    Patch { across: interval(across[0], across[1]), along: interval(along[0], along[1]) }
}

/// A roof with one of everything that a plan draws.
pub(crate) fn survey() -> Survey {
    let tables = Tables::shipped();
    let material = |id: usize| LayerMaterial::Table(Box::new(tables.materials[id].clone()));
    let inches = |value: f64| si(value * INCH);
    let layer = |name: &str, id: usize, thickness: f64, bonded| Layer {
        name: name.to_owned(),
        material: material(id),
        thickness: Thickness { wall: inches(thickness), crown: inches(thickness) },
        grain: None,
        bonded,
        sample: None,
    };
    let brace = |name: &str, along: f64, existing| Brace {
        name: name.to_owned(),
        section: MemberSection::Tube {
            id: Some("1 x 1 x 1/8".to_owned()),
            width: inches(1.0),
            depth: inches(1.0),
            wall: inches(0.125),
            corner: inches(0.0),
        },
        material: MemberMaterial::Alloy(Box::new(tables.alloys[0].clone().into())),
        along: inches(along),
        across: interval(0.0, 92.5),
        sits: Sits::InTheFoam,
        glued: vec![0],
        glue: None,
        sides: Sides::FoamGlued,
        formed: Formed::Bent,
        existing,
        seat: None,
        welds: Vec::new(),
    };
    let stage = |name: &str, braces: Vec<usize>| Stage {
        name: name.to_owned(),
        layers: vec![0, 1, 2],
        braces,
        cured: Cure::Full,
        raise: None,
        props: Vec::new(),
        loads: Vec::new(),
    };
    Survey {
        title: "Touring puppet theatre, roof over the cooling unit".to_owned(),
        family: Family::Inch,
        roof: Roof {
            kind: RoofKind::Laminated,
            span: inches(92.5),
            rise: inches(1.75),
            length: inches(120.0),
            front: End::RunsOn,
            rear: End::CrossWall,
        },
        layers: vec![
            layer("outer skin", 0, 0.125, Bonded::NotKnown),
            layer("core", 1, 2.0, Bonded::Yes),
            layer("inner skin", 0, 0.125, Bonded::Yes),
        ],
        like: None,
        openings: vec![Opening {
            name: "unit opening".to_owned(),
            patch: patch([39.0, 53.25], [52.0, 66.25]),
            frame: None,
        }],
        damages: vec![Damage {
            name: "branch strike".to_owned(),
            layer: 1,
            patch: patch([24.0, 67.0], [28.0, 67.0]),
            state: DamageState::Remaining { stiffness: 0.3, strength: 0.2 },
            until: None,
        }],
        slots: vec![Slot {
            patch: patch([10.0, 18.0], [0.0, 120.0]),
            depth: None,
            from: SlotFrom::Top,
            filled: None,
        }],
        joints: Vec::new(),
        braces: vec![brace("front", 37.5, false), brace("old bow", 90.0, true)],
        trimmers: vec![Trimmer {
            between: [0, 1],
            across: inches(37.0),
            section: MemberSection::Solid { width: inches(1.0), depth: inches(1.0) },
            material: MemberMaterial::Other(material(0)),
        }],
        wall: Wall {
            material: None,
            depth: None,
            condition: Condition::NotKnown,
            hold_down: None,
            thrust: Thrust::None,
        },
        unit: Some(Unit {
            mass: si(100.0 * POUND),
            opening: Some(0),
            gasket_width: inches(1.0),
            pads: Vec::new(),
            heavy_end: None,
            height: None,
            base: None,
            bolts: None,
        }),
        person: Person {
            mass: si(122.0),
            way: Way::OnABoard,
            count: 1,
            board: Board {
                size: [inches(24.0), inches(48.0)],
                material: material(0),
                thickness: inches(0.5),
            },
        },
        loads: vec![Load {
            name: "panel foot".to_owned(),
            mass: si(25.0 * POUND),
            patch: patch([15.0, 19.0], [11.0, 15.0]),
            kind: LoadKind::Fixed,
        }],
        conditions: Conditions {
            road: Road::Mixed,
            snow: Snow::None,
            wind: None,
            roof_hot: 70.0,
            cold: None,
            glued_at: None,
            years: 10.0,
        },
        limits: Limits {
            sag: SagLimit::SpanOver(180.0),
            sag_lasting: SagLimit::SpanOver(100.0),
            aluminium: AluminiumRules::Adm2020Asd,
            partial_factors: [None; 2],
            model_factor: 1.05,
        },
        stages: vec![stage("as found", Vec::new()), stage("finished", vec![0, 1])],
        readings: vec![Reading {
            name: "rear edge of the opening".to_owned(),
            across: inches(46.0),
            along: inches(67.0),
            measured: Some(Measured::Dip(inches(0.875))),
            when: When::UnitOn,
        }],
        givens: vec![
            Given {
                key: "roof.span".to_owned(),
                typed: "92 1/2".to_owned(),
                si: Some(92.5 * INCH),
                unit: "m",
                from: Origin::Line(7),
            },
            Given {
                key: "person.mass".to_owned(),
                typed: String::new(),
                si: Some(122.0),
                unit: "kg",
                from: Origin::Default {
                    code: "default-person",
                    words: "A person with tools weighs 122 kg (1.2 kN).".to_owned(),
                },
            },
        ],
        hash: "0123456789abcdef".to_owned(),
    }
}

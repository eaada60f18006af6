//! The survey file: short and full form, both families, TOML and JSON, defaults, what is lifted and what never is.

use std::path::{Path, PathBuf};

use beam_core::quantity::{Family, INCH, POUND};
use beam_core::survey::{
    AluminiumRules, Condition, Cure, DamageState, Given, Origin, PROBLEM_CODES, Problems, Road, RoofKind,
    SagLimit, Snow, Survey, Way, read_path, read_text,
};
use proptest::prelude::*;
use section_tables::Tables;

const SHORT: &str = include_str!("surveys/short.toml");
const FULL: &str = include_str!("surveys/full.toml");
const FULL_JSON: &str = include_str!("surveys/full.json");

fn file(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/surveys").join(name)
}

fn read(name: &str) -> Survey {
    read_path(&file(name), Tables::shipped()).unwrap_or_else(|problems| panic!("{problems}"))
}

fn parse(text: &str) -> Result<Survey, Problems> {
    read_text("survey.toml", text, Tables::shipped())
}

fn good(text: &str) -> Survey {
    parse(text).unwrap_or_else(|problems| panic!("{problems}"))
}

/// The codes of a survey's problems, in the order of its lines.
fn codes(text: &str) -> Vec<&'static str> {
    parse(text).expect_err("has problems").list.iter().map(|problem| problem.code).collect()
}

fn given<'s>(survey: &'s Survey, key: &str) -> &'s Given {
    survey
        .givens
        .iter()
        .find(|given| given.key == key)
        .unwrap_or_else(|| panic!("nothing is recorded of {key}"))
}

fn default_code(survey: &Survey, key: &str) -> &'static str {
    let of_key = survey.givens.iter().filter(|given| given.key == key);
    let mut codes = of_key.filter_map(|given| match &given.from {
        Origin::Default { code, words } if !words.is_empty() => Some(*code),
        _ => None,
    });
    codes.next().unwrap_or_else(|| panic!("no default is recorded of {key}"))
}

/// Everything that was understood, without how it was typed.
fn understood(survey: &Survey) -> String {
    let Survey { roof, layers, openings, damages, slots, joints, braces, trimmers, .. } = survey;
    let Survey { wall, unit, person, loads, conditions, limits, stages, readings, .. } = survey;
    format!(
        "{roof:?}{layers:?}{openings:?}{damages:?}{slots:?}{joints:?}{braces:?}{trimmers:?}\
         {wall:?}{unit:?}{person:?}{loads:?}{conditions:?}{limits:?}{stages:?}{readings:?}"
    )
}

#[test]
fn the_short_form_is_enough_for_an_answer() {
    let survey = read("short.toml");
    assert_eq!(survey.family, Family::Inch);
    assert_eq!(survey.roof.kind, RoofKind::Laminated);
    assert_eq!(survey.roof.span.value, 2.3495);
    assert_eq!(survey.roof.rise.value, 0.04445);
    assert_eq!(
        survey.layers.iter().map(|layer| layer.name.as_str()).collect::<Vec<_>>(),
        ["outer skin", "core", "inner skin"]
    );
    assert_eq!(survey.layers[1].thickness.wall.value, 0.0508);
    assert_eq!(survey.like.as_deref(), Some("ply 1/8 / bead foam 2 / ply 1/8"));
    assert_eq!(given(&survey, "layer.2.material").from, Origin::BuildUp(survey.like.clone().unwrap()));
    let unit = survey.unit.as_ref().unwrap();
    assert_eq!(unit.mass.value, 100.0 * POUND);
    assert_eq!(unit.opening, Some(0));
    assert_eq!(survey.person.mass.value, 250.0 * POUND);
}

#[test]
fn every_default_of_the_short_form_is_said() {
    let bare = SHORT.split("[person]").next().unwrap();
    let survey = good(bare);
    assert_eq!(survey.person.mass.value, 122.0);
    assert_eq!(survey.person.way, Way::OnABoard);
    assert_eq!(survey.person.board.size.map(|side| side.value), [24.0 * INCH, 48.0 * INCH]);
    assert_eq!(survey.person.board.thickness.value, 0.5 * INCH);
    assert_eq!(survey.conditions.road, Road::Mixed);
    assert_eq!(survey.conditions.snow, Snow::None);
    assert_eq!(survey.conditions.roof_hot, 70.0);
    assert_eq!(survey.conditions.years, 10.0);
    assert_eq!(survey.limits.sag, SagLimit::SpanOver(180.0));
    assert_eq!(survey.limits.sag_lasting, SagLimit::SpanOver(100.0));
    assert_eq!(survey.limits.aluminium, AluminiumRules::Adm2020Asd);
    assert_eq!(survey.limits.model_factor, 1.05);
    assert_eq!(survey.wall.condition, Condition::NotKnown);
    for (key, code) in [
        ("person.mass", "default-person"),
        ("person.way", "default-way"),
        ("person.board.thickness", "default-board"),
        ("conditions.road", "default-road"),
        ("conditions.snow", "default-snow"),
        ("conditions.roof_hot", "default-roof-hot"),
        ("conditions.years", "default-years"),
        ("limits.sag", "default-sag"),
        ("limits.sag_lasting", "default-sag-lasting"),
        ("limits.aluminium", "default-rules"),
        ("limits.model_factor", "default-model-factor"),
        ("wall.condition", "default-wall-condition"),
        ("wall.thrust", "default-thrust"),
        ("wall.hold_down", "default-hold-down"),
        ("unit.gasket_width", "default-gasket"),
        ("unit.heavy_end", "default-heavy-end"),
        ("layer.1.bonded", "default-bonded"),
        ("layer.1.grain", "default-grain"),
    ] {
        assert_eq!(default_code(&survey, key), code);
    }
    assert!(
        !survey.givens.iter().any(|given| given.key == "layer.3.bonded"),
        "nothing lies below the lowest layer"
    );
}

#[test]
fn the_full_form_fills_every_part() {
    let survey = read("full.toml");
    assert_eq!((survey.braces.len(), survey.stages.len(), survey.readings.len()), (3, 2, 2));
    assert_eq!(survey.layers[1].thickness.crown.value, 0.1524);
    assert_eq!(survey.damages[1].patch.across.from.value, 1.905);
    assert!(matches!(survey.damages[1].state, DamageState::Remaining { stiffness: 0.3, strength: 0.2 }));
    assert_eq!(survey.stages[0].layers, [1, 2]);
    assert_eq!(survey.stages[0].cured, Cure::Time { hours: 24.0, at: 16.0 });
    assert_eq!(survey.stages[1].cured, Cure::Share(0.5));
    assert_eq!(survey.trimmers[0].between, [0, 1]);
    // Beside the opening: its rear edge, the gap, and half the brace.
    let centre = survey.braces[1].along.value;
    assert!((centre - (66.25 + 2.0 + 0.5) * INCH).abs() < 1e-12, "{centre}");
    let typed = given(&survey, "roof.span");
    assert_eq!((typed.typed.as_str(), typed.unit, &typed.from), ("92 1/2", "m", &Origin::Line(10)));
    assert_eq!(survey.damages[0].until.as_deref(), Some("finished"));
    assert!(
        survey
            .givens
            .iter()
            .any(|given| matches!(given.from, Origin::Default { code: "until-finished", .. }))
    );
}

#[test]
fn inch_and_metric_toml_and_json_say_the_same() {
    let inch = read("full.toml");
    let metric = read("full_metric.toml");
    assert_eq!(metric.family, Family::Metric);
    assert_eq!(understood(&inch), understood(&metric));
    assert_eq!(understood(&inch), understood(&read("full.json")));
    assert_eq!(understood(&read("short.toml")), understood(&good(&SHORT.replace('\n', "\r\n"))));
}

#[test]
fn line_ends_and_a_mark_do_not_change_the_hash_and_a_number_does() {
    let hash = good(SHORT).hash;
    assert_eq!(hash.len(), 16);
    assert_eq!(good(&format!("\u{feff}{}", SHORT.replace('\n', "\r\n"))).hash, hash);
    assert_ne!(good(&SHORT.replace("92 1/2", "92 1/4")).hash, hash);
}

#[test]
fn without_a_header_the_span_tells_the_family() {
    let text =
        "survey = 1\n[roof]\nkind = \"not known\"\nspan = \"2.30 m\"\nrise = \"0 mm\"\nlength = \"3 m\"\n";
    let survey = good(text);
    assert_eq!(survey.family, Family::Metric);
    assert!(survey.layers.is_empty(), "only a laminated roof needs its layers");
    assert_eq!(default_code(&survey, "title"), "default-title");
    assert_eq!(good(&text.replace("2.30 m", "7 ft 6 in")).family, Family::Inch);
}

#[test]
fn sure_lifts_what_is_not_believed_and_nothing_else() {
    let narrow = SHORT.replace("92 1/2", "46 in").replace("[\"39\", \"53 1/4\"]", "[\"10\", \"24 1/4\"]");
    assert_eq!(codes(&narrow), ["not-plausible"]);
    let sure = narrow.replace("survey  = 1", "survey = 1\nsure = [\"roof.span\"]");
    assert_eq!(good(&sure).roof.span.value, 1.1684);
    let zero = sure.replace("46 in", "0 in");
    assert!(codes(&zero).contains(&"not-positive"), "{:?}", codes(&zero));
}

const BRACE: &str = "[[brace]]\nname = \"front\"\ntube = \"1 x 1 x 1/8\"\nalloy = \"6061-T6\"\n";

#[test]
fn a_brace_may_end_at_an_opening_or_be_cut_there() {
    let with = |keys: &str| format!("{SHORT}\n{BRACE}along = \"59\"\n{keys}\n");
    assert_eq!(codes(&with("")), ["brace-through-opening"]);
    assert_eq!(codes(&with("across = [\"40\", \"50\"]")), ["brace-through-opening"]);
    assert_eq!(good(&with("across = [\"0\", \"39\"]")).braces[0].across.to.value, 0.9906);
    let inside = good(&with("across = [\"0\", \"41\"]"));
    assert_eq!(inside.braces[0].across.to.value, 0.9906);
    assert_eq!(default_code(&inside, "brace.1.across.2"), "brace-cut-at-opening");
    // A rafter that was there before the opening was cut: its longer piece is counted, 39 in on the
    // left against 39 1/4 in on the right.
    let cut = good(&with("existing = true"));
    assert_eq!((cut.braces[0].across.from.value, cut.braces[0].across.to.value), (0.0254 * 53.25, 2.3495));
    assert_eq!(default_code(&cut, "brace.1.across.1"), "brace-cut-at-opening");
}

#[test]
fn a_loose_brace_leaves_its_slot_open_unless_it_is_said_otherwise() {
    let with = |keys: &str| good(&format!("{SHORT}\n{BRACE}along = \"30\"\n{keys}\n"));
    let loose = with("");
    assert_eq!(default_code(&loose, "brace.1.glued"), "default-glued");
    assert_eq!(format!("{:?}", loose.braces[0].sides), "SlotLeftOpen");
    assert_eq!(format!("{:?}", with("glued = [\"outer skin\"]").braces[0].sides), "FoamGlued");
}

#[test]
fn strengths_of_an_unknown_kind_are_taken_as_means() {
    let text = format!("{SHORT}\n[material.board]\nE = \"6 GPa\"\nstrength = {{ tension = \"16 MPa\" }}\n");
    let survey = good(&text);
    assert_eq!(default_code(&survey, "material.board.strength_is"), "default-strength-is");
    assert_eq!(default_code(&survey, "material.board.density"), "default-density");
    assert_eq!(default_code(&survey, "material.board.nu"), "default-poisson");
}

#[test]
fn a_state_that_a_layer_never_has_is_an_error() {
    let mut tables = Tables::shipped().clone();
    for state in &mut tables.damage {
        state.effects.retain(|effect| effect.layer != section_tables::DamagedLayer::Core);
    }
    let damage = "[[damage]]\nlayer = \"core\"\nacross = [\"1\", \"2\"]\nalong = [\"1\", \"2\"]\nstate = \"crushed\"\n";
    let problems = read_text("survey.toml", format!("{SHORT}\n{damage}"), &tables).unwrap_err();
    assert_eq!(problems.list[0].code, "state-not-for-layer");
    assert!(problems.list[0].allowed.contains("missing"), "{}", problems.list[0].allowed);
}

#[test]
fn every_problem_of_a_file_is_told_with_its_place() {
    let text = SHORT
        .replace("92 1/2", "92 mm")
        .replace("1 3/4", "1,75 in")
        .replace("\"cross wall\"", "\"cross wal\"")
        .replace("weight  = \"100\"", "weight = \"100 in\"");
    let problems = parse(&text).unwrap_err();
    let told: Vec<_> = problems.list.iter().map(|p| (p.code, p.line, p.column, p.value.as_str())).collect();
    assert_eq!(
        told,
        [
            ("not-plausible", 8, 10, "92 mm"),
            ("decimal-comma", 9, 11, "1,75 in"),
            ("word-unknown", 12, 10, "cross wal"),
            ("wrong-measure", 21, 15, "100 in"),
        ]
    );
    assert!(problems.list.iter().all(|p| !p.allowed.is_empty() && !p.write_instead.is_empty()));
}

#[test]
fn codes_are_sorted_and_unlike() {
    assert!(PROBLEM_CODES.windows(2).all(|pair| pair[0].0 < pair[1].0));
}

#[test]
fn the_demo_surveys_read() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../data");
    let entries = std::fs::read_dir(folder).expect("the demo surveys are there");
    let paths = entries
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|e| e == "toml"));
    let read =
        paths.map(|path| read_path(&path, Tables::shipped()).unwrap_or_else(|problems| panic!("{problems}")));
    assert!(read.count() > 0);
}

/// A problem may be anything, but it has a known code, and its place lies in the text.
fn is_sane(text: &[u8]) -> Result<(), TestCaseError> {
    let Err(problems) = read_text("survey.toml", text, Tables::shipped()) else {
        return Ok(());
    };
    prop_assert!(!problems.list.is_empty());
    for problem in &problems.list {
        prop_assert!(PROBLEM_CODES.iter().any(|(code, _)| *code == problem.code), "{}", problem.code);
        prop_assert!(problems.text.get(problem.span.clone()).is_some(), "{:?}", problem);
        prop_assert!(
            !problem.message.is_empty() && !problem.allowed.is_empty() && !problem.write_instead.is_empty(),
            "{:?}",
            problem
        );
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn no_slip_of_the_keys_is_a_panic(
        json in any::<bool>(),
        at in any::<prop::sample::Index>(),
        length in 0_usize..12,
        put in prop_oneof![
            Just(String::new()), "[-0-9./ a-z\"'\\[\\]{}=,½″]{0,6}", ".{0,4}", Just("\n".to_string()), Just("\"\"\"".to_string())
        ],
    ) {
        let text = if json { FULL_JSON } else { FULL };
        let mut bytes = text.as_bytes().to_vec();
        let start = at.index(bytes.len());
        let end = (start + length).min(bytes.len());
        bytes.splice(start..end, put.into_bytes());
        is_sane(&bytes)?;
    }

    #[test]
    fn no_bytes_are_a_panic(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        is_sane(&bytes)?;
    }

    #[test]
    fn no_value_of_a_key_is_a_panic(line in any::<prop::sample::Index>(), value in "[-\"0-9./ a-z{}\\[\\],=]{0,10}|[0-9]{1,3} [0-9]/[0-9]|\\PC{0,5}") {
        let mut lines: Vec<String> = FULL.lines().map(str::to_string).collect();
        let index = line.index(lines.len());
        if let Some((key, _)) = lines[index].split_once('=') {
            lines[index] = format!("{key}= {value}");
        }
        is_sane(lines.join("\n").as_bytes())?;
    }
}

#[test]
fn one_slip_gets_one_message() {
    let brace = format!("{BRACE}along = \"30\"\nglued = [\"outer skin\"]\n");
    let unknown = SHORT.replace("bead foam 2", "bead foam 9");
    assert_eq!(codes(&format!("{unknown}\n{brace}")), ["row-unknown"]);
    let missing = SHORT.replace("like ", "# like ");
    assert_eq!(codes(&format!("{missing}\n{brace}")), ["layers-missing"]);
    // An opening that could not be read is still there for the unit.
    assert_eq!(codes(&SHORT.replace("\"39\"", "\"39 lb\"")), ["wrong-measure"]);
    assert_eq!(codes(&SHORT.replace("92 1/2", "92,5")), ["decimal-comma"]);
}

/// A trimmer beside an opening or on its edge stands; through it, or between braces in one line, it does not.
#[test]
fn a_trimmer_keeps_clear_of_openings() {
    let roof = |across: &str, rear: &str| {
        format!(
            "{SHORT}\n[[brace]]\nname = \"front\"\ntube = \"1 x 1 x 1/8\"\nalloy = \"6061-T6\"\nalong = \"37.5\"\nglued = []\n\
             [[brace]]\nname = \"rear\"\ntube = \"1 x 1 x 1/8\"\nalloy = \"6061-T6\"\nalong = \"{rear}\"\nglued = []\n\
             sits = \"under the ceiling\"\n\
             [[trimmer]]\nbetween = [\"front\", \"rear\"]\nacross = \"{across}\"\ntube = \"1 x 1 x 1/8\"\nalloy = \"6061-T6\"\n"
        )
    };
    assert_eq!(default_code(&good(&roof("37", "80")), "trimmer.1.sits"), "default-trimmer-sits");
    good(&roof("39", "80"));
    good(&roof("46", "48"));
    assert_eq!(codes(&roof("46", "80")), ["trimmer-through-opening"]);
    assert_eq!(codes(&roof("37", "37.5")), ["trimmer-between"]);
}

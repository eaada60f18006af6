//! A weighed offcut. Densities of the grades are those of ASTM C578 (least of types I, VIII, II, IX: 15, 18, 22, 29 kg/m3,
//! from memory).

use beam_core::survey::{LayerMaterial, Origin, Problems, Survey, read_text};
use section_tables::Tables;

const ROOF: &str = r#"
survey = 1
title = "Mobile darkroom, roof over the enlarger"
lengths = "mm"
weights = "kg"
[roof]
kind = "laminated"
span = "2100"
rise = "30"
length = "1800"
[[layer]]
name = "outer skin"
material = "birch plywood"
thickness = "4"
[[layer]]
name = "core"
material = "MATERIAL"
thickness = "50"
sample = { weight = "WEIGHT", size = ["200", "200", "50"] }
[[layer]]
name = "inner skin"
material = "birch plywood"
thickness = "4"
"#;

fn read(material: &str, weight: &str, more: &str) -> Result<Survey, Problems> {
    let text = ROOF.replace("MATERIAL", material).replace("WEIGHT", weight) + more;
    read_text("darkroom.toml", &text, Tables::shipped())
}

fn core(survey: &Survey) -> &str {
    survey.layers[1].material.id()
}

fn told(survey: &Survey) -> (f64, &str) {
    let given = survey.givens.iter().find(|g| g.key == "layer.2.sample.density").expect("the sample is told");
    match &given.from {
        Origin::Default { code: "sample-density", words } => (given.si.expect("a density"), words),
        other => panic!("{other:?}"),
    }
}

/// 200 x 200 x 50 mm is 2 litres: 40 g is 20 kg/m3, 52 g 26, 60 g 30, 66 g 33.
#[test]
fn a_density_tells_the_grade_and_never_a_better_one() {
    let unknown = "white bead foam, grade not known";
    for (grams, grade, density) in [
        ("31 g", unknown, 15.5),
        ("34 g", "EPS 15", 17.0),
        ("40 g", "EPS 20", 20.0),
        // 22 at its middle, 20.4 at the least that scale and tape allow.
        ("44 g", "EPS 20", 22.0),
        ("52 g", "EPS 25", 26.0),
        ("66 g", "EPS 30", 33.0),
    ] {
        let survey = read(unknown, grams, "").unwrap_or_else(|p| panic!("{p}"));
        assert_eq!(core(&survey), grade, "{grams}");
        let (read, words) = told(&survey);
        assert!((read - density).abs() < 1e-9 && words.contains(grade), "{grams}: {read} {words}");
    }
}

#[test]
fn a_lighter_foam_is_not_what_it_is_called() {
    for (material, grams) in
        [("EPS 25", "36 g"), ("white bead foam, grade not known", "24 g"), ("XPS 30", "40 g")]
    {
        let problems = read(material, grams, "").expect_err("too light");
        assert_eq!(problems.list.len(), 1, "{problems}");
        assert_eq!(problems.list[0].code, "sample-contradicts");
        assert_eq!(problems.list[0].line, 19, "the line of the sample");
        assert!(problems.list[0].value.contains("kg/m3"));
    }
}

#[test]
fn a_heavier_foam_stays_what_it_is_called() {
    let survey = read("EPS 15", "60 g", "").unwrap_or_else(|p| panic!("{p}"));
    assert_eq!(core(&survey), "EPS 15");
    assert!(told(&survey).1.contains("damp, or a better grade"), "{}", told(&survey).1);
}

/// A damp foam weighs like a better one.
#[test]
fn a_damp_core_tells_no_grade() {
    let wet = "\n[[damage]]\nname = \"leak\"\nlayer = \"core\"\nacross = [\"100\", \"400\"]\nalong = [\"100\", \"400\"]\nstate = \"wet\"\n";
    let survey = read("white bead foam, grade not known", "60 g", wet).unwrap_or_else(|p| panic!("{p}"));
    assert_eq!(core(&survey), "white bead foam, grade not known");
    assert!(told(&survey).1.contains("damp"));
}

#[test]
fn a_sample_fills_the_density_of_an_own_material_or_contradicts_it() {
    let own = |density: &str| format!("\n[material.shop_foam]\nE = \"6 MPa\"\nnu = 0.3\n{density}\n");
    let survey = read("shop_foam", "60 g", &own("")).unwrap_or_else(|p| panic!("{p}"));
    let LayerMaterial::Own(foam) = &survey.layers[1].material else { panic!("an own material") };
    assert!((foam.density.expect("filled").value - 30.0).abs() < 1e-9);
    assert!(survey.givens.iter().all(|g| g.key != "material.shop_foam.density"), "no longer a default");
    read("shop_foam", "60 g", &own("density = \"32 kg/m3\"")).unwrap_or_else(|p| panic!("{p}"));
    let problems = read("shop_foam", "60 g", &own("density = \"60 kg/m3\"")).expect_err("half as heavy");
    assert_eq!(problems.list[0].code, "sample-contradicts");
}

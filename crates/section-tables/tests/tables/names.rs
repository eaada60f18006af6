//! What is found by which name, and what is offered when nothing is.

use section_tables::{Tables, TubeSystem};

#[test]
fn a_tube_is_found_by_every_way_of_writing_it() {
    for name in [
        "1 x 1 x 1/8",
        "1x1x.125",
        "1 X 1 × 0.125",
        "1 in sq x 1/8",
        "1\" x 1\" x 1/8\"",
        "25.4 x 25.4 x 3.175",
        "25.4 mm x 25.4 mm x 3.175 mm",
    ] {
        assert_eq!(Tables::shipped().tube(name).map(|tube| tube.id.as_str()), Ok("1 x 1 x 1/8"), "{name}");
    }
    for name in
        ["1-1/2 x 1-1/2 x 1/8", "1 1/2 x 1 1/2 x 1/8", "1½ x 1½ x ⅛", "1.5x1.5x.125", "38.1 x 38.1 x 3.175"]
    {
        let found = Tables::shipped().tube(name).map(|tube| tube.id.as_str());
        assert_eq!(found, Ok("1-1/2 x 1-1/2 x 1/8"), "{name}");
    }
    for name in ["40 x 40 x 3", "40x40x3", "40 mm x 40 mm x 3.0 mm", "40x40x3 mm"] {
        assert_eq!(Tables::shipped().tube(name).map(|tube| tube.id.as_str()), Ok("40 x 40 x 3"), "{name}");
    }
}

#[test]
fn an_eighth_of_an_inch_is_not_3_2_mm() {
    let tables = Tables::shipped();
    let (inch, metric) = (tables.tube("25.4 x 25.4 x 3.175"), tables.tube("25.4 x 25.4 x 3.2"));
    let (inch, metric) = (inch.expect("shipped"), metric.expect("shipped"));
    assert_eq!((inch.system, inch.wall), (TubeSystem::Inch, 0.125));
    assert_eq!((metric.system, metric.wall), (TubeSystem::Metric, 3.2));
    let near = tables.tube("25.4 x 25.4 x 3.18").expect_err("neither of the two").near;
    assert!(near.contains(&inch.id) && near.contains(&metric.id), "{near:?}");
}

#[test]
fn a_near_miss_is_an_error_that_names_what_is_near() {
    let tables = Tables::shipped();
    for (error, nearest) in [
        (tables.alloy("6061-T5").expect_err("no such row"), "6061-T6"),
        (tables.tube("1 x 1 x 1/9").expect_err("no such row"), "1 x 1 x 1/8"),
        (tables.material("birch plywod").expect_err("no such row"), "birch plywood"),
        (tables.material("EPS typ VIII").expect_err("no such row"), "EPS 20"),
        (
            tables.buildup("ply 1/8 / bead foam 4 / ply 1/8").expect_err("no such row"),
            "ply 1/8 / bead foam 2 / ply 1/8",
        ),
        (tables.damage_state("crusht").expect_err("no such row"), "crushed"),
        (tables.adhesive("ridgid polyurethane").expect_err("no such row"), "rigid polyurethane"),
        (tables.factor("gamma_m_core_sheer").expect_err("no such row"), "gamma_m_core_shear"),
    ] {
        assert!(error.near.iter().any(|id| id == nearest), "{error}");
        assert!(error.near.len() <= 5, "{error}");
        assert!(error.to_string().contains(nearest) && error.to_string().contains(&error.wanted));
    }
}

#[test]
fn a_name_like_no_other_is_answered_with_all_that_is_known() {
    let error = Tables::shipped().alloy("titanium, grade 5 or so").expect_err("no such row");
    assert!(error.near.is_empty());
    assert_eq!(error.known.len(), Tables::shipped().alloys.len());
    assert!(error.to_string().contains("6063-T52"), "{error}");
    assert!(Tables::shipped().alloy("").is_err());
    assert!(Tables::shipped().material(" - ").is_err());
}

#[test]
fn every_id_and_name_finds_its_own_row() {
    let tables = Tables::shipped();
    for material in &tables.materials {
        for name in material.names.iter().chain([&material.id]) {
            assert_eq!(tables.material(name).map(|found| &found.id), Ok(&material.id), "{name}");
        }
    }
    for tube in &tables.tubes {
        for name in tube.names.iter().chain([&tube.id]) {
            assert_eq!(tables.tube(name).map(|found| &found.id), Ok(&tube.id), "{name}");
        }
    }
}

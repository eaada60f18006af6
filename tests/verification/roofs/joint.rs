//! A butt joint in the outer skin: what decides beside it is read on both grids.

use bracewright_tests::roof::{MAP_ROOM, answer, with};

/// With somebody on a board by the joint the foam beside it decides. It is read again on cells half as wide, and
/// hardly moves: nothing is held back for want of a comparison.
#[test]
#[ignore = "takes long: .ci/deep runs it"]
fn the_foam_beside_a_joint_is_compared_on_a_finer_grid() {
    let text = with(MAP_ROOM, "front  = \"cross wall\"", "front  = \"runs on\"");
    let text = with(&text, "rear   = \"cross wall\"", "rear   = \"runs on\"");
    let text = with(&text, "shear = \"0.45 MPa\"", "shear = \"0.1 MPa\"");
    let answer =
        answer(&format!("{text}\n[[joint]]\nlayer = \"outer skin\"\nacross = \"700\"\nkind = \"butt\"\n"));
    assert_eq!(answer["grid"]["check"], "core shear", "{}", answer["grid"]);
    let moves = answer["grid"]["moves"].as_f64().expect("a movement");
    assert!(moves < 0.03, "{moves}");
    assert!(!answer["not_checked"].as_array().expect("a list").iter().any(|gap| gap["check"] == "grid"));
}

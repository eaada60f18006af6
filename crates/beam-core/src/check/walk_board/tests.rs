use super::*;
use approx::assert_relative_eq;

/// Sag of a paraboloid on a grid, 1 mm at the corner across and 2 mm along.
fn paraboloid() -> Vec<((f64, f64), f64)> {
    let places = (0..11).flat_map(|i| (0..11).map(move |j| (f64::from(i) * 0.05, f64::from(j) * 0.05)));
    places
        .map(|(x, y)| ((x, y), 0.01 - 0.3 * (x - 0.25).powi(2) / 2.0 - 0.2 * (y - 0.25).powi(2) / 2.0))
        .collect()
}

#[test]
fn curvature_of_a_paraboloid_is_its_own() {
    let sags = paraboloid();
    let board = Rect { x0: 0.1, x1: 0.4, y0: 0.1, y1: 0.4 };
    let found = curvature_under(sags.iter().copied(), &board).unwrap();
    assert_relative_eq!(found, 0.3, max_relative = 1e-9);
    let far = Rect { x0: 5.0, x1: 5.1, y0: 5.0, y1: 5.1 };
    assert!(curvature_under(sags.iter().copied(), &far).is_err());
}

/// A roof of stiff skins on foam 50 mm deep, somebody of 80 kg on a board of the given make.
fn store(board: &str, foam: &str) -> Survey {
    let text = format!(
        r#"
survey = 1
title = "Mask store, roof over the costume rail"
lengths = "mm"
weights = "kg"
[roof]
kind = "laminated"
span = "2000"
rise = "0"
length = "1600"
front = "cross wall"
rear = "cross wall"
[material.foam]
E = "{foam}"
nu = 0.1
strength = {{ tension = "0.6 MPa", compression = "0.6 MPa", shear = "0.45 MPa", crush = "0.6 MPa" }}
strength_is = "5 percent"
density = "30 kg/m3"
[material.plate]
E = "6 GPa"
nu = 0.15
strength = {{ bending = "20 MPa", shear = "2 MPa", tension = "15 MPa", compression = "15 MPa" }}
strength_is = "5 percent"
density = "600 kg/m3"
[material.unknown]
E = "6 GPa"
nu = 0.15
density = "600 kg/m3"
[[layer]]
name = "outer skin"
material = "lauan plywood"
thickness = "3"
[[layer]]
name = "core"
material = "foam"
thickness = "50"
[[layer]]
name = "inner skin"
material = "lauan plywood"
thickness = "3"
[person]
mass = "80"
board = {{ size = ["600", "1200"], {board} }}
"#
    );
    crate::survey::read_text("store.toml", &text, section_tables::Tables::shipped())
        .unwrap_or_else(|p| panic!("{p}"))
}

/// The worst of the board's rows with default materials, and why it could not be tried.
fn tried(survey: &Survey, curvature: f64) -> (Option<Finding>, Vec<String>) {
    use crate::ask::for_tests::feet;
    let (found, untried) = feet(survey, curvature);
    let mine = found.into_iter().filter(|f| f.check == Check::WalkBoard);
    let why = untried.into_iter().filter(|u| u.0 == Check::WalkBoard).map(|u| u.2).collect();
    (mine.max_by(|a, b| a.ratio.total_cmp(&b.ratio)), why)
}

fn bending_stress(survey: &Survey, curvature: f64) -> f64 {
    use crate::ask::for_tests::feet;
    let (found, _) = feet(survey, curvature);
    let rows = found.into_iter().filter(|f| f.check == Check::WalkBoard && f.part.ends_with("bending"));
    rows.map(|f| f.demand).fold(0.0, f64::max)
}

/// Westergaard's slab loaded at its edge over a circle, 1948, as textbooks of pavements quote it (from memory), with the
/// bed `E_oed/depth` of a warm foam and a circle as large as the sole. The sole is oblong and the foam bears sideways
/// too: a seventh is left for that.
#[test]
fn bending_at_the_side_of_a_board_is_that_of_a_slabs_edge() {
    let survey = store("material = \"plate\", thickness = \"18\"", "12 MPa");
    let (e, nu, h) = (6e9, 0.15f64, 0.018f64);
    let oed = (1.0 - 0.1) / (1.1 * 0.8);
    let k = 0.6 * 12e6 * oed / 0.050;
    let a = (0.1 * 0.18 / std::f64::consts::PI).sqrt();
    let l = (e * h.powi(3) / (12.0 * (1.0 - nu * nu) * k)).powf(0.25);
    let load = 80.0 * 9.80665 * 1.2;
    let stress = 3.0 * (1.0 + nu) * load / (std::f64::consts::PI * (3.0 + nu) * h * h)
        * ((e * h.powi(3) / (100.0 * k * a.powi(4))).ln() + 1.84 - 4.0 * nu / 3.0
            + (1.0 - nu) / 2.0
            + 1.18 * (1.0 + 2.0 * nu) * a / l);
    // Half of it, and the sway, where that is more.
    let d = e * h.powi(3) / (12.0 * (1.0 - nu * nu));
    let board = PlateD::thin(d, d, nu * d, (1.0 - nu) / 2.0 * d);
    let foam = Layer { e: 0.6 * 12e6, nu: 0.1, depth: 0.050 };
    let patch = Patch { load, across: 0.18, along: 0.1 };
    let sway = 6.0 * at_a_side(board, &foam, patch)[1] * swayed(board, &foam, patch)[1] / (h * h);
    let stress = stress.max(stress / 2.0 + sway);
    assert_relative_eq!(bending_stress(&survey, 0.0), stress, max_relative = 1.0 / 7.0);
}

/// A plate on a layer that only shears, summed wave by wave over a wide square with a rectangle in its middle: the
/// round patch and its shares bend it no less, and at most a fifth more.
#[test]
fn a_swaying_board_is_bent_as_its_waves_say() {
    let (d, nu) = (650.0, 0.2);
    let board = PlateD::thin(d, d, nu * d, (1.0 - nu) / 2.0 * d);
    for (e, a, b) in [(5e6, 0.1, 0.18), (1e6, 0.1, 0.18), (5e6, 0.05, 0.05)] {
        let foam = Layer { e, nu: 0.1, depth: 0.050 };
        let (s, side, count) = (foam.shear() * foam.depth, 3.0, 601);
        let (mut x, mut y) = (0.0, 0.0);
        let wave = |m: usize| m as f64 * std::f64::consts::PI / side;
        for m in (1..count).step_by(2) {
            for n in (1..count).step_by(2) {
                let (p, q) = (wave(m), wave(n));
                let load = 16.0 * 1000.0 / (side * side) * (p * a / 2.0).sin() / (p * a / 2.0)
                    * (q * b / 2.0).sin()
                    / (q * b / 2.0)
                    / 4.0;
                let lap = p * p + q * q;
                let w = load / (d * lap * lap + s * lap);
                x += p * p * w;
                y += q * q * w;
            }
        }
        let got = swayed(board, &foam, Patch { load: 1000.0, across: a, along: b });
        for (got, exact) in got.into_iter().zip([d * (x + nu * y), d * (y + nu * x)]) {
            assert!(got > 0.99 * exact && got < 1.35 * exact, "{e} {a} {b}: {got} {exact}");
        }
    }
}

/// The same by another program, in the middle and flush with a side of the board (`tests/second_route/boards.py`): along the
/// side more than in the middle where the board is stiff, across it never.
#[test]
fn a_swaying_board_by_another_program() {
    let stored = include_str!("../../../../../data/second_route/boards.csv");
    let rows = stored.lines().filter(|l| !l.starts_with('#')).skip(1);
    let (mut count, mut more_along) = (0, 0);
    for row in rows {
        let v: Vec<f64> =
            row.split(',').skip(1).map(|v| v.parse().unwrap_or_else(|e| panic!("{v}: {e}"))).collect();
        let [d, nu, g, depth, across, along, middle_x, middle_y, side_x, side_y] = v[..] else {
            panic!("{row}")
        };
        let board = PlateD::thin(d, d, nu * d, (1.0 - nu) / 2.0 * d);
        let foam = Layer { e: 2.0 * g, nu: 0.0, depth };
        let patch = Patch { load: 1000.0, across, along };
        let (middle, beside) = (swayed(board, &foam, patch), at_a_side(board, &foam, patch));
        for (got, stored) in [
            (middle[0], middle_x),
            (middle[1], middle_y),
            // Square to the side the middle covers it.
            (middle[0], side_x),
            (beside[1] * middle[1], side_y),
        ] {
            assert!(got > 0.99 * stored, "{row}: {got} and {stored}");
        }
        assert!(middle[0] < 1.35 * middle_x && middle[1] < 1.35 * middle_y, "{row}: {middle:?}");
        assert!(beside[1] * middle[1] < 1.6 * side_y, "{row}: {beside:?}");
        more_along += usize::from(side_y > 1.05 * middle_y);
        count += 1;
    }
    assert!(count == 6 && more_along > 0, "{count} rows, {more_along} of them bent more along a side");
}

/// A board that follows a roof is bent by its stiffness times the curvature, and no more than on two trestles.
#[test]
fn a_board_follows_the_roof() {
    let survey = store("material = \"plate\", thickness = \"18\"", "12 MPa");
    let flat = bending_stress(&survey, 0.0);
    let d = 6e9 * 0.018f64.powi(3) / 12.0 / (1.0 - 0.15 * 0.15) * 1.15;
    let more = 6.0 * d * 1.2 * 0.02 / (0.018 * 0.018);
    assert_relative_eq!(bending_stress(&survey, 0.02) - flat, more, max_relative = 1e-6);
    let trestles = 6.0 * 80.0 * 9.80665 * 1.2 * 2.0 / 4.0 / (0.018 * 0.018);
    assert_relative_eq!(bending_stress(&survey, 1e3) - flat, trestles, max_relative = 1e-6);
}

/// A thin board on soft foam breaks, a thick one bears; of what nobody knows the strength of nothing is said.
#[test]
fn thin_boards_break_and_unknown_ones_are_no_pass() {
    let plywood = |mm: u32| format!("material = \"sheathing plywood\", thickness = \"{mm}\"");
    let ratio = |board: &str, foam: &str| tried(&store(board, foam), 0.0).0.expect("a row").ratio;
    assert!(ratio(&plywood(4), "1 MPa") > 1.0);
    assert!(ratio(&plywood(18), "5 MPa") < 0.9);
    assert!(ratio(&plywood(12), "1 MPa") > ratio(&plywood(12), "10 MPa"));
    for (board, why) in [
        ("material = \"unknown\", thickness = \"12\"", "no bending strength is known"),
        ("material = \"softwood\", thickness = \"22\"", "take plywood"),
    ] {
        let (found, untried) = tried(&store(board, "10 MPa"), 0.0);
        assert!(found.is_none() && untried[0].contains(why), "{untried:?}");
    }
}

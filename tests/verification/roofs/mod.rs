//! Laws that hold on every roof, whatever its numbers: nothing here was computed beforehand.

mod balance;
mod braced;
mod crutch;
mod joint;
mod mirror;
mod missing;
mod monotone;
mod must_hold;
mod must_not_hold;
mod must_not_hold_members;
mod must_not_hold_too;
mod same;
mod superposition;
mod unsafe_roofs;
mod weights;

use bracewright_tests::roof::{MAP_ROOM, with};

/// The map room with a crown, an opening off the middle, crushed foam, one glued tube, a test weight and a reading.
fn busy() -> String {
    let text = with(MAP_ROOM, "rise   = \"0\"", "rise   = \"20\"");
    let text = with(&text, "rear   = \"cross wall\"", "rear   = \"runs on\"");
    format!(
        "{text}
[[opening]]
name = \"hatch\"
across = [\"400\", \"800\"]
along  = [\"300\", \"600\"]

[[damage]]
name = \"dropped case\"
layer = \"core\"
across = [\"850\", \"1200\"]
along  = [\"150\", \"500\"]
state  = \"crushed\"

[[brace]]
name  = \"tube\"
tube  = \"25 x 25 x 2\"
alloy = \"6061-T6\"
along = \"800\"
sits  = \"in the foam\"
glued = [\"outer skin\"]
glue  = {{ product = \"rigid polyurethane\", width = \"25 mm\", bed = \"0.3 mm\", coverage = 0.7 }}
seat  = {{ bearing_length = \"40 mm\", screws = 3, screw = \"5 mm\", edge = \"20 mm\" }}

[[load]]
name = \"sandbag\"
weight = \"60\"
across = [\"900\", \"1100\"]
along  = [\"550\", \"750\"]
kind = \"test\"

[[reading]]
name   = \"beside the hatch\"
across = \"820\"
along  = \"450\"
"
    )
}

/// Fails unless two numbers are equal but for rounding.
#[track_caller]
fn same(what: &str, a: f64, b: f64, tolerance: f64, floor: f64) {
    let size = a.abs().max(b.abs()).max(floor);
    assert!((a - b).abs() <= tolerance * size, "{what}: {a} and {b}");
}

//! Left and right: a mirrored roof does the mirrored thing.

use bracewright_tests::roof::{answer, number, run_name, runs, verdict, with};
use serde_json::Value;

use super::{busy, same};

const SPAN: f64 = 1.524;

fn mirrored() -> String {
    let text = busy();
    let swap = |text: String, from: [f64; 2]| {
        let written = |[a, b]: [f64; 2]| format!("across = [\"{a}\", \"{b}\"]");
        with(&text, &written(from), &written([1524.0 - from[1], 1524.0 - from[0]]))
    };
    let text = swap(swap(swap(text, [400.0, 800.0]), [850.0, 1200.0]), [900.0, 1100.0]);
    with(&text, "across = \"820\"", "across = \"704\"")
}

#[test]
fn a_mirrored_roof_gives_mirrored_runs() {
    let (one, other) = (answer(&busy()), answer(&mirrored()));
    assert_eq!(verdict(&one), verdict(&other));
    let (ours, theirs) = (runs(&one), runs(&other));
    assert_eq!(ours.len(), theirs.len());
    for (a, b) in ours.iter().zip(theirs) {
        let name = run_name(a);
        assert_eq!(name, run_name(b));
        let pair = |what: &str, p: &str, q: &str, floor: f64| {
            same(&format!("{name}: {what}"), number(a, p), number(b, q), 1e-6, floor);
        };
        let load = number(a, "/balance/load").abs().max(1.0);
        pair("sag", "/sag_max/value", "/sag_max/value", 0.0);
        pair("wall", "/walls/left", "/walls/right", load);
        pair("wall", "/walls/right", "/walls/left", load);
        if let Err(how) = mirrored_places(a, b) {
            panic!("{name}: {how}");
        }
    }
}

/// The sag at the reading, and the place of the largest sag.
fn mirrored_places(a: &Value, b: &Value) -> Result<(), String> {
    let near = |p: f64, q: f64, size: f64| (p - q).abs() <= 1e-6 * size;
    let [p, q] = [a, b].map(|run| number(run, "/readings/0/sag"));
    if !near(p, q, p.abs().max(q.abs())) {
        return Err(format!("sag at the reading: {p} and {q}"));
    }
    let (x, y) = (number(a, "/sag_max/across"), SPAN - number(b, "/sag_max/across"));
    if number(a, "/sag_max/value") > 0.0 && !near(x, y, SPAN) {
        return Err(format!("place of the largest sag: {x} and {y}"));
    }
    Ok(())
}

#[test]
fn a_mirrored_roof_uses_the_same() {
    let (one, other) = (answer(&busy()), answer(&mirrored()));
    let used = |document: &Value, part: fn(&str) -> String| -> Vec<(String, f64)> {
        let mut rows: Vec<_> = document["checks"]
            .as_array()
            .expect("checks")
            .iter()
            .map(|row| {
                let name =
                    ["check", "part", "load", "bracing"].map(|k| row[k].as_str().unwrap_or("?")).join(", ");
                (part(&name), number(row, "/ratio"))
            })
            .collect();
        rows.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        rows
    };
    let swapped = |name: &str| {
        name.replace("left wall", "LEFT").replace("right wall", "left wall").replace("LEFT", "right wall")
    };
    let (ours, theirs) = (used(&one, str::to_owned), used(&other, swapped));
    assert_eq!(ours.len(), theirs.len());
    for (a, b) in ours.iter().zip(&theirs) {
        assert_eq!(a.0, b.0);
        same(&a.0, a.1, b.1, 1e-6, 1e-6);
    }
}

//! `check --working`: the numbers of the steps, put together again by hand here, come to the ratio of the table.

use serde_json::Value;

use super::{bracewright, demo};

fn run(name: &str, format: &str) -> String {
    let run = bracewright().args(["check", &demo(name), "--working", "--format", format]).assert();
    String::from_utf8(run.get_output().stdout.clone()).expect("UTF-8")
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("no number: {value}"))
}

/// The ratio of a step by its sign.
fn sign(working: &Value, sign: &str) -> Option<f64> {
    let steps = working["steps"].as_array().expect("steps");
    steps.iter().find(|s| s["sign"] == sign).map(|s| number(&s["value"]))
}

fn near(a: f64, b: f64) -> bool {
    (a / b - 1.0).abs() < 1e-6
}

/// u by the formula that each check names, out of the other steps.
fn by_hand(working: &Value) -> Option<f64> {
    let s = |name: &str| sign(working, name);
    match working["check"].as_str().expect("a check") {
        "core shear" => Some(s("t_years")? / s("f_years")? + s("t_top")? / s("f")?),
        "outer skin" | "inner skin" => Some((s("u_s")? + s("u_b")?).hypot(s("u_v")?)),
        "wrinkling" => Some(s("r_max")? + s("r_min")?.powi(3)),
        "sag" | "sag, lasting" => Some(s("w")? / s("w_lim")?),
        "brace" => Some(s("N")?.abs() / s("N_c")? + s("M")?.abs() / s("M_c")?),
        "dent" | "heel" => Some(s("s")? / s("f")?),
        _ => None,
    }
}

fn checked(name: &str) -> Vec<String> {
    let document: Value = serde_json::from_str(&run(name, "json")).expect("JSON");
    let rows = document["checks"].as_array().expect("checks");
    let mut by_steps = Vec::new();
    for working in document["working"].as_array().expect("workings") {
        let same = |row: &&Value| ["check", "part", "bracing"].iter().all(|key| row[*key] == working[*key]);
        let row = rows.iter().find(same).unwrap_or_else(|| panic!("no row for {working}"));
        let ratio = sign(working, "ratio").expect("the ratio");
        assert!(near(ratio, number(&row["ratio"])), "{working}");
        let u = sign(working, "u").expect("the share used");
        let product = u * sign(working, "g").unwrap_or(1.0) * 1.05;
        assert!(near(product, ratio), "{product} {ratio}: {working}");
        if let Some(by_hand) = by_hand(working) {
            assert!(near(by_hand, u), "{by_hand} {u}: {working}");
            by_steps.push(working["check"].as_str().expect("a check").to_owned());
        }
        // The causes of a kind add up to its demand.
        if working["check"] == "core shear" && sign(working, "t_years").is_some() {
            let sum = |acts: &str| -> f64 {
                let causes = working["causes"].as_array().expect("causes");
                causes.iter().filter(|c| c["acts"] == acts).map(|c| number(&c["part"])).sum()
            };
            let years = sign(working, "t_years").expect("t_years");
            assert!((sum("for years") - years).abs() < 1e-6 * years, "{working}");
            let top = sign(working, "t_top").expect("t_top");
            assert!((sum("on top") - top).abs() < 1e-6 * top.max(1.0), "{working}");
        }
    }
    by_steps
}

#[test]
fn the_steps_come_to_the_ratio_of_the_table() {
    let braced = checked("puppet-theatre-braced.toml");
    for check in ["core shear", "brace"] {
        assert!(braced.iter().any(|c| c == check), "{check} is not worked through: {braced:?}");
    }
    let bay = checked("seed-library.toml");
    assert!(bay.iter().any(|c| c == "core shear"), "{bay:?}");
    assert!(bay.len() >= 3, "{bay:?}");
}

#[test]
fn the_text_names_formula_numbers_and_source() {
    let text = run("seed-library.toml", "text");
    assert!(text.contains("Worked through: core shear, core under the board, under hot"), "{text}");
    for words in ["t_years/f_years + t_top/f", "EN 14509", "u x model factor", "own weight, for years", "kPa"]
    {
        assert!(text.contains(words), "{words}: {text}");
    }
}

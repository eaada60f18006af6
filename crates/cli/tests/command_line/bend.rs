//! `bend`: how to bring a tube to the crown.

use serde_json::Value;

use super::bracewright;

const THEATRE: [&str; 8] =
    ["--span", "84 in", "--rise", "3 in", "--tube", "1 1/2 x 1 1/2 x 1/8", "--alloy", "6061-T6"];

/// Exit status, standard output and standard error.
fn bend(arguments: &[&str]) -> (i32, String, String) {
    let run = bracewright().arg("bend").args(arguments).output().expect("the program starts");
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("UTF-8");
    (run.status.code().unwrap_or(-1), text(run.stdout), text(run.stderr))
}

/// A page as one line, blanks evened out.
fn unwrapped(page: &str) -> String {
    page.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn document(arguments: &[&str]) -> (i32, Value) {
    let (status, text, told) = bend(&[arguments, &["--format", "json"]].concat());
    assert_eq!(told, "", "{arguments:?}");
    (status, serde_json::from_str(&text).expect("JSON"))
}

fn number(document: &Value, key: &str) -> f64 {
    document[key].as_f64().unwrap_or_else(|| panic!("{key} is no number in {document}"))
}

/// Segment geometry by hand: R = (84^2/4 + 9) / 6 = 295.5 in, half angle 0.142614929571; spring-back of a square tube
/// by quadrature: at 35 ksi it is bent to 113.38 in, at 40 ksi to 104.49 in.
#[test]
fn the_json_is_in_si_and_has_every_promised_key() {
    let (status, found) = document(&THEATRE);
    assert_eq!(status, 0);
    for key in
        ["schema", "made_with", "assumptions", "not_checked", "cautions", "basis", "bendable", "stations"]
    {
        assert!(!found[key].is_null(), "{key}");
    }
    let close = |value: f64, expected: f64, digits: f64| {
        assert!((value / expected - 1.0).abs() < digits, "{value} against {expected}");
    };
    close(number(&found, "radius"), 295.5 * 0.0254, 1e-12);
    close(number(&found, "end_angle"), 0.142614929571, 1e-10);
    close(number(&found, "arc_length"), 2.0 * 0.142614929571 * 295.5 * 0.0254, 1e-10);
    close(number(&found, "loaded_radius"), 104.49 * 0.0254, 1e-4);
    close(found["loaded_radius_range"][1].as_f64().unwrap_or(0.0), 113.38427 * 0.0254, 1e-6);
    close(number(&found, "fibre_strain"), 0.75 / 295.5, 1e-12);
    // 10 100 ksi x 0.75 / 295.5.
    close(number(&found, "sprung_stress"), 10_100.0 * 0.75 / 295.5 * 6.894757293168361e6, 1e-9);
    assert_eq!(found["bendable"], true);
}

#[test]
fn stations_run_from_end_to_end_with_the_middle() {
    let (_, found) = document(&[&THEATRE as &[&str], &["--station", "9 in"]].concat());
    let stations = found["stations"].as_array().expect("stations");
    let inches: Vec<f64> = stations
        .iter()
        .map(|station| (station["along_chord"].as_f64().unwrap_or(-1.0) / 0.0254 * 1e6).round() / 1e6)
        .collect();
    assert_eq!(inches, [0.0, 9.0, 18.0, 27.0, 36.0, 42.0, 45.0, 54.0, 63.0, 72.0, 81.0, 84.0]);
    assert_eq!(stations[0]["offset"], 0.0);
    assert_eq!(stations[11]["offset"], 0.0);
    let middle = stations[5]["offset"].as_f64().unwrap_or(0.0);
    assert!((middle / 0.0254 - 3.0).abs() < 1e-12, "{middle}");
    assert!(stations.iter().all(|s| s["loaded_offset"].as_f64() >= s["offset"].as_f64()));
}

#[test]
fn the_text_answers_first_in_the_units_typed() {
    let (status, text, _) = bend(&THEATRE);
    assert_eq!(status, 0, "{text}");
    assert!(
        text.starts_with("CAN BE DONE. Roll it to a radius of 104 in: it springs back to 296 in."),
        "{text}"
    );
    let heading = text.find("\nTemplate").expect("a template");
    assert!(text.find("Sneak up").is_some_and(|at| at < heading), "{text}");
    assert!(unwrapped(&text).contains(" 42 in 3 in 8 13/16 in "), "{text}");
    let (_, metric, _) = bend(&[
        "--span",
        "2.13 m",
        "--rise",
        "76 mm",
        "--outside",
        "40 mm x 40 mm",
        "--wall",
        "3 mm",
        "--alloy",
        "6063-T6",
    ]);
    assert!(metric.contains("600 mm"), "{metric}");
    let words: Vec<&str> = metric.split_whitespace().collect();
    let inches =
        words.windows(2).find(|pair| pair[0].ends_with(|c: char| c.is_ascii_digit()) && pair[1] == "in");
    assert_eq!(inches, None, "{metric}");
    assert!(text.lines().chain(metric.lines()).all(|line| line.chars().count() <= 100));
}

/// A row of the tables and the same measures typed give one answer.
#[test]
fn own_measures_are_as_good_as_a_row() {
    let (_, row) = document(&THEATRE);
    let mut own = THEATRE[..4].to_vec();
    own.extend(["--outside", "1 1/2 in x 1 1/2 in", "--wall", "1/8 in", "--alloy", "6061-T6"]);
    let (_, typed) = document(&own);
    assert!((number(&row, "loaded_radius") / number(&typed, "loaded_radius") - 1.0).abs() < 1e-12);
}

#[test]
fn the_exit_status_follows_the_answer() {
    let tight = ["--span", "20 in", "--rise", "8 in", "--tube", "2 x 2 x 1/8", "--alloy", "6061-T6"];
    let (status, text, _) = bend(&tight);
    assert_eq!(status, 1, "{text}");
    assert!(text.starts_with("CANNOT BE BENT.") && unwrapped(&text).contains("Take less rise"), "{text}");
    assert_eq!(document(&tight).1["bendable"], false);

    let (status, found) = document(&[&THEATRE[..7], &["not known"]].concat());
    assert_eq!(status, 2);
    assert!(found["bendable"].is_null());
    let (status, text, _) = bend(&[&THEATRE[..7], &["not known"]].concat());
    assert_eq!(status, 2);
    assert!(text.starts_with("CANNOT SAY.") && unwrapped(&text).contains("trial piece"), "{text}");

    // So light a tube on so gentle a crown needs no bender, whatever its alloy.
    let (status, text, _) =
        bend(&["--span", "92 in", "--rise", "1 in", "--tube", "3/4 x 3/4 x 1/16", "--alloy", "not known"]);
    assert_eq!(status, 0, "{text}");
    assert!(unwrapped(&text).contains("needs no bender: spring it in"), "{text}");
}

#[test]
fn measured_heights_find_their_arc_and_their_shims() {
    let (status, found) = document(&[
        "--span",
        "96 in",
        "--ordinates",
        "0 in, 1 3/4 in, 3 in, 3 3/4 in, 4 in, 3 3/4 in, 2 3/4 in, 1 3/4 in, 0 in",
        "--tube",
        "2 x 2 x 1/8",
        "--alloy",
        "6063-T52",
    ]);
    assert_eq!(status, 0);
    let radius = number(&found, "radius") / 0.0254;
    assert!((radius - 290.0).abs() < 8.0, "{radius}");
    assert_eq!(found["fit"]["shim_needed"], true);
    let (status, text, _) =
        bend(&[&THEATRE as &[&str], &["--ordinates", "0 in, 2 1/4 in, 3 in, 2 1/4 in, 0 in"]].concat());
    assert_eq!(status, 0);
    assert!(text.contains("Against the measured roof") && unwrapped(&text).contains("no shim"), "{text}");
}

#[test]
fn wrong_input_is_3_and_says_the_way_out() {
    let with = |at: usize, typed: &'static str| {
        let mut arguments = THEATRE;
        arguments[at] = typed;
        let (status, text, told) = bend(&arguments);
        assert_eq!((status, text.as_str()), (3, ""), "{arguments:?}");
        told
    };
    assert!(with(1, "0 in").contains("300 mm to 3.5 m"));
    assert!(with(1, "84").contains("span"));
    assert!(with(1, "84 mm").contains("check the unit"));
    assert!(with(1, "nan in").contains("span"));
    assert!(with(3, "0 in").contains("needs no bending"));
    assert!(with(3, "84 in").contains("half the span"));
    assert!(with(5, "1 1/2 x 1 1/2 x 1/9").contains("near it"));
    assert!(with(7, "6061-T66").contains("6061-T6"));
    let ordinates = |typed: &str| {
        let (status, text, told) =
            bend(&["--span", "84 in", "--ordinates", typed, "--tube", "1 x 1 x 1/8", "--alloy", "6061-T6"]);
        assert_eq!((status, text.as_str()), (3, ""), "{typed}");
        told
    };
    assert!(ordinates("0 in, 3 in, 0 in").contains("5 to 200"));
    assert!(ordinates("0 in, -1 in, -2 in, -1 in, 0 in").contains("do not rise to a crown"));
    assert!(ordinates("0 in, 3 in, 0 in, 3 in, 0 in").contains("are no arc"));
    assert!(ordinates("0 in, 3 in, , 3 in, 0 in").contains("ordinates"));
}

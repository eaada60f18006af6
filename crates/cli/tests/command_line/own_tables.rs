//! `--tables`: a shop's own rows serve beside the shipped ones, and every answer says so.

use std::fs;
use std::path::Path;

use serde_json::Value;
use tempfile::TempDir;

use super::{bracewright, demo};

const TUBES: &str = "id,names,width_mm,depth_mm,wall_mm,corner_mm,source,kind\n\
                     45 x 45 x 2.5,offcut bin,45,45,2.5,0,shelf,practice\n";
const SOURCES: &str = "key,author,year,title,place,licence_note,kind\nshelf,the workshop,2026,Measured on the shelf,,own,practice\n";
/// The weakest of the manual's 6063-T5 by another name.
const ALLOYS: &str = "id,names,product,wall_min_in,wall_max_in,f_tu_ksi,f_ty_ksi,f_cy_ksi,f_tuw_ksi,f_tyw_ksi,k_t,e_ksi,\
                      g_ksi,density_lb_in3,elongation_percent,source,kind,note\n\
                      rack bars,,as bought,0,0.5,22,16,16,17,8,1,10100,3800,0.097,7,shelf,practice,\n";
const BOARDS: &str = "id,names,long,short,thickness,unit,material,source,kind\n\
                      bench top,,900,500,18,mm,birch plywood,shelf,practice\n";

fn folder(files: &[(&str, &str)]) -> TempDir {
    let folder = tempfile::tempdir().expect("a folder to write in");
    for (name, text) in files {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().expect("inside the folder")).expect("writable");
        fs::write(path, text).expect("writable");
    }
    folder
}

fn rack() -> TempDir {
    folder(&[
        ("sources.csv", SOURCES),
        ("tubes/metric.csv", TUBES),
        ("alloys/adm_2020.csv", ALLOYS),
        ("walk_boards.csv", BOARDS),
    ])
}

/// Exit status, standard output and standard error.
fn run(arguments: &[&str], folder: &Path) -> (i32, String, String) {
    let output =
        bracewright().args(arguments).arg("--tables").arg(folder).output().expect("the program starts");
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("UTF-8");
    (output.status.code().unwrap_or(-1), text(output.stdout), text(output.stderr))
}

/// A page as one line, blanks evened out.
fn unwrapped(page: &str) -> String {
    page.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The film archive's roof is not modelled, so that nothing is solved here: what matters is what made the answer.
#[test]
fn every_command_that_reads_tables_names_the_folder_and_the_rows() {
    let rack = rack();
    let named = rack.path().display().to_string();
    let survey = demo("film-archive.toml");
    let tube = ["--tube", "offcut bin", "--alloy", "rack bars"];
    let alone = [&["tube", "--length", "2 m"], &tube[..]].concat();
    let brace = [&["brace", "--span", "2.3 m", "--rise", "60 mm", "--load", "0.1 kN"], &tube[..]].concat();
    let bend = [&["bend", "--span", "2.1 m", "--rise", "60 mm"], &tube[..]].concat();
    let (check, walk, plan) = (["check", &survey], ["walk", &survey], ["plan", &survey]);
    for arguments in [&alone[..], &brace, &bend, &check, &walk, &plan, &["tables", "tubes"]] {
        let (status, text, told) = run(&[arguments, &["--format", "json"]].concat(), rack.path());
        assert!((0..=2).contains(&status), "{arguments:?}: {status} {told}");
        let document: Value = serde_json::from_str(&text).expect("JSON");
        let edition = document["made_with"]["tables"].as_str().unwrap_or_default();
        assert!(edition.contains(&named), "{arguments:?}: {edition}");
        let own = document["assumptions"]
            .as_array()
            .and_then(|all| all.iter().find(|words| words["code"] == "own-tables"))
            .unwrap_or_else(|| panic!("{arguments:?} does not tell"));
        let words = own["words"].as_str().unwrap_or_default();
        for row in ["45 x 45 x 2.5", "rack bars", "bench top", &named] {
            assert!(words.contains(row), "{arguments:?}: {words}");
        }
        let (_, page, _) = run(arguments, rack.path());
        assert!(unwrapped(&page).contains("tubes/metric.csv: 45 x 45 x 2.5"), "{arguments:?}: {page}");
        assert!(page.contains("the shop's own"), "{arguments:?}: {page}");
    }
}

#[test]
fn what_rests_on_an_own_row_is_of_kind_own() {
    let rack = rack();
    let arguments = ["tube", "--tube", "offcut bin", "--alloy", "rack bars", "--length", "2 m"];
    let (status, text, _) = run(&[&arguments[..], &["--format", "json"]].concat(), rack.path());
    assert_eq!(status, 0);
    let document: Value = serde_json::from_str(&text).expect("JSON");
    let basis = document["basis"].as_array().expect("checks");
    assert!(!basis.is_empty() && basis.iter().all(|check| check["kind"] == "own"), "{document}");
    let (_, rows, _) = run(&["tables", "tubes", "--format", "json"], rack.path());
    let rows: Value = serde_json::from_str(&rows).expect("JSON");
    let own = |row: &&Value| row["kind"] == "own";
    assert_eq!(rows["rows"].as_array().map_or(0, |rows| rows.iter().filter(own).count()), 1);
}

/// A survey may name them too: the tube of its brace.
#[test]
fn a_survey_reads_own_rows() {
    let rack = rack();
    let bare = fs::read_to_string(demo("puppet-theatre-bare.toml")).expect("a demo");
    let survey = format!(
        "{bare}\n[[brace]]\nname = \"front\"\ntube = \"offcut bin\"\nalloy = \"rack bars\"\nalong = \"37.5\"\n"
    );
    let plan = |own: bool| {
        let mut command = bracewright();
        command.args(["plan", "-"]).write_stdin(survey.clone());
        if own {
            command.arg("--tables").arg(rack.path());
        }
        command.output().expect("the program starts")
    };
    assert_eq!(plan(false).status.code(), Some(3));
    let told = plan(true);
    assert_eq!(told.status.code(), Some(0), "{}", String::from_utf8_lossy(&told.stderr));
    assert!(String::from_utf8_lossy(&told.stdout).contains("45 x 45 x 2.5"));
}

#[test]
fn every_fault_comes_at_once_with_file_and_line_and_is_3() {
    let bad = folder(&[
        ("tubes/metric.csv", &TUBES.replace("2.5,0,shelf", "thin,0,hearsay")),
        ("alloys/adm_2020.csv", &ALLOYS.replace(",22,16,", ",NaN,16,")),
        ("tubes/imperial.csv", TUBES),
    ]);
    // A file that is no table is told before anything is read, so that no row is missed in silence.
    let (status, text, told) = run(&["tables"], bad.path());
    assert_eq!((status, text.as_str()), (3, ""));
    assert!(told.contains("imperial.csv") && told.contains("1 fault"), "{told}");
    fs::remove_file(bad.path().join("tubes/imperial.csv")).expect("removable");
    for arguments in [
        &["tables"] as &[&str],
        &["tube", "--tube", "1 x 1 x 1/8", "--alloy", "6061-T6", "--length", "2 m"],
        &["check", &demo("film-archive.toml")],
    ] {
        let (status, text, told) = run(arguments, bad.path());
        assert_eq!((status, text.as_str()), (3, ""), "{arguments:?}");
        for said in
            ["metric.csv, line 2", "`thin` is not a number", "adm_2020.csv, line 2", "`NaN` must be finite"]
        {
            assert!(told.contains(said), "{arguments:?}: {told}");
        }
    }
    let (status, _, told) = run(&["tables"], Path::new("/nowhere/at/all"));
    assert_eq!(status, 3);
    assert!(told.contains("/nowhere/at/all"), "{told}");
}

/// A shipped row cannot be replaced: a name belongs to one row.
#[test]
fn a_shipped_row_is_not_replaced() {
    let twice = folder(&[(
        "tubes/metric.csv",
        &TUBES.replace("45 x 45 x 2.5,offcut bin", "40 x 40 x 3,").replace("shelf", "trade_practice"),
    )]);
    let (status, _, told) = run(&["tables"], twice.path());
    assert_eq!(status, 3);
    assert!(told.contains("is a name of \"40 x 40 x 3\" already"), "{told}");
}

const RACK: &str = "id,tube,alloy,kg_per_m,price_per_m,currency,source,kind\n\
                    bay 1,40x40x3,6061-T6,1.25,9,crowns,shelf,practice\n\
                    bay 2,50 x 50 x 3,6063-T52,,4.5,crowns,shelf,practice\n";
const DIES: &str = "id,width_mm,depth_mm,least_radius_mm,source,kind\nforties,40,40,1500,shelf,practice\n";
const ALONE: [&str; 8] = ["size", "--span", "2 m", "--rise", "40 mm", "--load", "30 kg", "--format"];

/// Only what is on the rack is tried: the heavier tube is the cheaper one, and the dies do not take it.
#[test]
fn the_rack_and_the_dies_decide_what_is_chosen() {
    let chosen = |files: &[(&str, &str)], more: &[&str]| {
        let folder = folder(files);
        let (status, text, told) = run(&[&ALONE[..], &["json"], more].concat(), folder.path());
        assert!(status <= 1, "{status} {told}");
        let document: Value = serde_json::from_str(&text).expect("JSON");
        document
    };
    let files = [("sources.csv", SOURCES), ("rack.csv", RACK)];
    let lightest = chosen(&files, &[]);
    assert_eq!(lightest["searched"]["candidates"], 2);
    assert_eq!(lightest["chosen"]["tube"], "40 x 40 x 3");
    // The shop's own weight along the arc: 2 m and 8/3 of 40 mm squared over 2 m more.
    let mass = lightest["chosen"]["mass"].as_f64().expect("a mass");
    assert!((mass - 1.25 * 2.0021).abs() < 1e-3, "{mass}");
    let cheapest = chosen(&files, &["--first-by", "price"]);
    assert_eq!(cheapest["chosen"]["tube"], "50 x 50 x 3");
    assert_eq!(cheapest["searched"]["currency"], "crowns");
    let price = cheapest["chosen"]["price"].as_f64().expect("a price");
    assert!((price - 4.5 * 2.0021).abs() < 1e-2, "{price}");
    let with_dies = [&files[..], &[("dies.csv", DIES)]].concat();
    let bendable = chosen(&with_dies, &["--first-by", "price"]);
    assert_eq!(bendable["chosen"]["tube"], "40 x 40 x 3", "the dies take no other");
}

#[test]
fn a_bender_without_dies_for_a_tube_cannot_bend_it() {
    let folder = folder(&[("sources.csv", SOURCES), ("dies.csv", DIES)]);
    let bend = |tube: &str, rise: &str| {
        let arguments = ["bend", "--span", "2 m", "--rise", rise, "--tube", tube, "--alloy", "6063-T52"];
        let (status, text, _) = run(&arguments, folder.path());
        (status, unwrapped(&text))
    };
    let (status, text) = bend("50 x 50 x 3", "60 mm");
    assert_eq!(status, 1, "{text}");
    assert!(text.contains("none of the shop's dies takes this tube"), "{text}");
    let (status, text) = bend("40 x 40 x 3", "60 mm");
    assert_eq!(status, 0, "{text}");
    assert!(text.contains("the shop's dies \"forties\""), "{text}");
    let (status, text) = bend("40 x 40 x 3", "350 mm");
    assert_eq!(status, 1, "{text}");
    assert!(text.contains("bend it to 1.5 m") || text.contains("bend it to 1500 mm"), "{text}");
}

#[test]
fn a_rack_with_faults_tells_them_all() {
    let folder = folder(&[
        ("sources.csv", SOURCES),
        (
            "rack.csv",
            &format!(
                "{RACK}bay 3,60 x 60 x 9,6061-T6,,3,crowns,shelf,practice\nbay 4,40 x 40 x 3,6061-T6,,3,shillings,shelf,practice\n\
                 bay 5,40 x 40 x 3,6061-T6,-1,3,crowns,shelf,practice\nbay 6,40 x 40 x 3,6061-T6,,3,,shelf,practice\n"
            ),
        ),
        ("dies.csv", &DIES.replace(",1500,", ",15,")),
    ]);
    let (status, _, told) = run(&["tables", "rack"], folder.path());
    assert_eq!(status, 3);
    for said in
        ["line 4", "60 x 60 x 9", "another currency", "not negative", "a price needs one", "half the depth"]
    {
        assert!(told.contains(said), "{said}: {told}");
    }
    // Without a price of everything tried, nothing can be put in order by it.
    let (status, _, told) = run(&[&ALONE[..], &["text", "--first-by", "price"]].concat(), rack().path());
    assert_eq!(status, 3);
    assert!(told.contains("price_per_m"), "{told}");
}

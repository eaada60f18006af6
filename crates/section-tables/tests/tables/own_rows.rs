//! A shop's own rows: added to the shipped ones, or refused with every fault and its place.

use std::fs;
use std::path::Path;

use section_tables::{LoadError, Property, SourceKind, Tables};

const TUBE_HEADER: &str = "id,names,width_mm,depth_mm,wall_mm,corner_mm,source,kind";
const STIFFNESS_HEADER: &str = "material,property,low_mpa,default_mpa,high_mpa,source,kind";
const STRENGTH_HEADER: &str = "material,property,low_mpa,default_mpa,high_mpa,is,source,kind";

fn read(files: &[(&str, String)]) -> Result<Tables, LoadError> {
    let folder = tempfile::tempdir().expect("a folder to write in");
    for (name, text) in files {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().expect("inside the folder")).expect("writable");
        fs::write(path, text).expect("writable");
    }
    Tables::read_dir(folder.path())
}

/// The one fault of a one-row file: its line, and value and reason in one text.
fn fault(file: &str, header: &str, row: &str) -> (u64, String) {
    let error = read(&[(file, format!("# own rows\n{header}\n{row}\n"))]).expect_err(row);
    assert_eq!(error.faults.len(), 1, "{error}");
    assert!(error.faults[0].file.ends_with(file), "{error}");
    (error.faults[0].line, format!("{}: {}", error.faults[0].value, error.faults[0].why))
}

#[test]
fn own_rows_join_the_shipped_ones() {
    let tables = read(&[
        ("sources.csv", "key,author,year,title,place,licence_note,kind\nshelf,the workshop,2026,Measured on the shelf,,own,practice\n".into()),
        ("tubes/metric.csv", format!("\u{feff}{TUBE_HEADER}\r\n45 x 45 x 2.5,offcut bin,45,45,2.5,0,shelf,practice\r\n")),
        ("materials/names.csv", "id,names,family,note\nshop board,,board,\n".into()),
        ("materials/stiffness.csv", format!("{STIFFNESS_HEADER}\nshop board,e1_membrane,4000,5000,6000,shelf,practice\n")),
        ("readme.txt", "not a table, left alone".into()),
    ])
    .expect("sound rows");
    assert_eq!(tables.tube("offcut bin").expect("own").wall, 2.5);
    assert_eq!(tables.tubes.len(), Tables::shipped().tubes.len() + 1);
    assert_eq!(
        tables.material("shop board").expect("own").get(Property::E1Membrane).expect("own").default,
        5000.0
    );
    assert!(tables.alloy("6063-T6").is_ok());
}

/// A yield as met belongs to a known alloy and never lies below its minimum.
#[test]
fn a_yield_as_met_below_the_minimum_is_refused() {
    const HEADER: &str = "id,typical_ksi,high_ksi,source,kind,note";
    for (row, said) in [
        ("7075-T9,60,70,trade_practice,practice,", "is no id of alloys/adm_2020.csv"),
        ("6061-T6,30,45,trade_practice,practice,", "minimum <= typical_ksi <= high_ksi does not hold"),
        ("6061-T6,46,45,trade_practice,practice,", "minimum <= typical_ksi <= high_ksi does not hold"),
    ] {
        // The shipped row of the same alloy is the second fault of its kind.
        let error = read(&[("alloys/yield_met.csv", format!("{HEADER}\n{row}\n"))]).expect_err(row);
        assert!(error.faults.iter().any(|fault| fault.why == said), "{error}");
    }
}

#[test]
fn a_row_that_cannot_be_is_refused_with_its_line_and_value() {
    for (row, said) in [
        ("own,,45,45,NaN,0,trade_practice,practice", "`NaN` must be finite"),
        ("own,,45,45,-2,0,trade_practice,practice", "`-2` must be finite and not negative"),
        ("own,,45,inf,2,0,trade_practice,practice", "`inf` must be finite"),
        ("own,,45,45,two,0,trade_practice,practice", "`two` is not a number"),
        ("own,,45,45,\"2,5\",0,trade_practice,practice", "decimal point"),
        ("own,,45,45,0,0,trade_practice,practice", "above 0"),
        ("own,,45,45,30,0,trade_practice,practice", "leave a hollow"),
        ("own,,45,45,2,30,trade_practice,practice", "half a side"),
        ("own,,45,45,2,0,,practice", "names a key of sources.csv"),
        ("own,,45,45,2,0,hearsay,practice", "hearsay: is no key of sources.csv"),
        ("own,,45,45,2,0,trade_practice,published", "better grade"),
        ("own,,45,45,2,0,trade_practice,certain", "certain"),
        ("own,,45,45,2,0,trade_practice", "record with 7 fields"),
        (",,45,45,2,0,trade_practice,practice", "is empty"),
        ("40X40x3,,40,40,3,0,trade_practice,practice", "name of \"40 x 40 x 3\" already"),
        ("own,\"a tube; 1x1x.125\",45,45,2,0,trade_practice,practice", "name of \"1 x 1 x 1/8\" already"),
    ] {
        let (line, text) = fault("tubes/metric.csv", TUBE_HEADER, row);
        assert_eq!(line, 3, "{row}");
        assert!(text.contains(said), "{row}: {text}");
    }
}

#[test]
fn a_material_value_must_fit_its_file() {
    for (row, said) in [
        ("EPS 20,e_core,5,4,6,judgement,memory", "must not fall"),
        ("softwood,e_core,1,2,1.5,judgement,memory", "must not fall"),
        ("EPS 20,g_core,1,2,3,judgement,memory", "stands twice for EPS 20"),
        ("EPS 20,crush,1,2,3,judgement,memory", "does not belong in this file"),
        ("softwood,e_core,0,1,2,judgement,memory", "must be above 0"),
        ("EPS 20,strength,1,2,3,judgement,memory", "unknown variant"),
        ("EPS 20,,1,2,3,judgement,memory", "property: is empty"),
        ("bead foam,e_core,1,2,3,judgement,memory", "write the id, \"white bead foam, grade not known\""),
        ("EPS 21,e_core,1,2,3,judgement,memory", "EPS 20"),
    ] {
        let error =
            read(&[("materials/stiffness.csv", format!("{STIFFNESS_HEADER}\n{row}\n"))]).expect_err(row);
        assert!(error.faults.iter().all(|fault| fault.line == 2), "{error}");
        assert!(error.to_string().contains(said), "{row}: {error}");
    }
    let (_, text) =
        fault("materials/strength.csv", STRENGTH_HEADER, "softwood,crush,1,2,3,,judgement,memory");
    assert!(text.contains("5 percent"), "{text}");
}

#[test]
fn columns_are_known_once_and_complete() {
    for (header, said) in [
        (
            "id,names,width_mm,depth_mm,wall_in,corner_mm,source,kind",
            ["wall_in: unknown column", "wall_mm: this column is missing"],
        ),
        (
            "id,names,width_mm,width_mm,wall_mm,corner_mm,source,kind",
            ["width_mm: this column stands twice", "depth_mm: this column is missing"],
        ),
    ] {
        let error = read(&[("tubes/metric.csv", format!("{header}\na,b,c,d,e,f,g,h\n"))]).expect_err(header);
        assert_eq!(error.faults.len(), 2, "{error}");
        assert!(said.iter().all(|part| error.to_string().contains(part)), "{error}");
    }
    let empty = read(&[("tubes/metric.csv", String::new())]).expect_err("no header");
    assert_eq!(empty.faults.len(), TUBE_HEADER.split(',').count(), "{empty}");
}

#[test]
fn all_faults_of_all_files_come_at_once() {
    let error = read(&[
        (
            "tubes/metric.csv",
            format!(
                "{TUBE_HEADER}\na,,45,45,x,0,trade_practice,practice\nb,,45,45,y,0,trade_practice,practice\n"
            ),
        ),
        (
            "factors.csv",
            "key,value,unit,source,kind,note\ngamma_m_plywood,1.0,-,trade_practice,practice,\n".into(),
        ),
        ("damage.csv", "state\n".into()),
    ])
    .expect_err("three bad files");
    let text = error.to_string();
    for said in [
        "`x` is not a number",
        "`y` is not a number",
        "gamma_m_plywood",
        "stiffness_low: this column is missing",
    ] {
        assert!(text.contains(said), "{text}");
    }
}

#[test]
fn a_file_that_is_no_table_and_a_folder_that_is_not_there_are_told() {
    let error = read(&[("tubes/imperial.csv", TUBE_HEADER.into())]).expect_err("no such table");
    assert!(error.to_string().contains("tubes/inch.csv"), "{error}");
    let error = read(&[("readme.txt", "no table here".into())]).expect_err("no table");
    assert!(error.to_string().contains("holds no table"), "{error}");
    assert_eq!(Tables::read_dir(Path::new("/nowhere/at/all")).expect_err("no folder").faults.len(), 1);
}

#[test]
fn damage_and_build_up_rows_stay_together() {
    let header = "buildup,names,position,layer_name,material,thickness_value,thickness_unit,source,kind";
    for (rows, said) in [
        ("own,,2,core,EPS 20,50,mm,trade_practice,practice", "positions run 1, 2, 3"),
        ("own,,1,skin,EPS 21,50,mm,trade_practice,practice", "near it: EPS 20"),
        ("own,,1,skin,EPS 20,0,mm,trade_practice,practice", "above 0"),
        ("own,,1,skin,EPS 20,5,cm,trade_practice,practice", "unknown variant"),
    ] {
        let (_, text) = fault("buildups.csv", header, rows);
        assert!(text.contains(said), "{text}");
    }
    let rows =
        "own,,1,skin,EPS 20,5,mm,trade_practice,practice\nown,,2,skin,EPS 20,5,mm,trade_practice,practice";
    assert!(fault("buildups.csv", header, rows).1.contains("stands twice"));
}

/// Whatever grade a shop claims for its row, an answer calls it the shop's own; the tables tell which rows those are.
#[test]
fn own_rows_are_told_from_the_shipped_ones() {
    let tables = read(&[
        (
            "tubes/metric.csv",
            format!(
                "{TUBE_HEADER}\n45 x 45 x 2.5,,45,45,2.5,0,trade_practice,practice\n46 x 46 x 2,,46,46,2,0,trade_practice,own\n"
            ),
        ),
        (
            "materials/stiffness.csv",
            format!("{STIFFNESS_HEADER}\nsoftwood,g_core,40,50,60,judgement,memory\n"),
        ),
    ]);
    let tables = match tables {
        Ok(tables) => tables,
        Err(error) => panic!("{error}"),
    };
    let own = tables.own.as_ref().expect("own rows");
    assert_eq!(
        own.to_string(),
        "materials/stiffness.csv: softwood; tubes/metric.csv: 45 x 45 x 2.5, 46 x 46 x 2"
    );
    assert_eq!(tables.tube("45 x 45 x 2.5").expect("own").kind, SourceKind::Own);
    let softwood = tables.material("softwood").expect("shipped");
    assert_eq!(softwood.get(Property::GCore).expect("own").kind, SourceKind::Own);
    assert!(softwood.iter().filter(|(_, value)| value.kind == SourceKind::Own).count() == 1);
    assert_eq!(tables.tube("40 x 40 x 3").expect("shipped").kind, SourceKind::Practice);
    assert_eq!(Tables::shipped().own, None);
}

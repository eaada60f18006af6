//! JSON that programs can rely on.

use serde_json::Value;

use super::output;

const TABLES: [&str; 9] =
    ["alloys", "tubes", "materials", "build-ups", "walk-boards", "damage", "adhesives", "factors", "sources"];

fn document(arguments: &[&str]) -> Value {
    let text = output(arguments);
    assert!(text.ends_with("}\n"), "a newline ends the document");
    serde_json::from_str(&text).expect("JSON")
}

#[test]
fn every_table_has_rows_and_the_common_keys() {
    for table in TABLES {
        let document = document(&["tables", table, "--format", "json"]);
        for key in ["schema", "made_with", "assumptions", "not_checked", "cautions", "rows"] {
            assert!(!document[key].is_null(), "{table}: {key}");
        }
        let rows = document["rows"].as_array().expect("rows");
        assert!(!rows.is_empty(), "{table}");
        assert!(rows.iter().all(|row| row["table"] == table), "{table}");
    }
}

#[test]
fn no_value_of_a_table_is_null_and_each_has_a_source() {
    fn walk(value: &Value, path: &str) {
        match value {
            Value::Null => panic!("{path} is null"),
            Value::Array(items) => {
                items.iter().enumerate().for_each(|(i, item)| walk(item, &format!("{path}.{i}")));
            }
            Value::Object(keys) => {
                if keys.contains_key("default") {
                    assert!(keys.contains_key("source") && keys.contains_key("kind"), "{path}");
                }
                keys.iter().for_each(|(key, item)| walk(item, &format!("{path}.{key}")));
            }
            _ => {}
        }
    }
    walk(&document(&["tables", "--format", "json"]), "");
}

#[test]
fn all_tables_together_are_the_sum_of_each() {
    let rows = |arguments: &[&str]| document(arguments)["rows"].as_array().map_or(0, Vec::len);
    let sum: usize = TABLES.iter().map(|table| rows(&["tables", table, "--format", "json"])).sum();
    assert_eq!(rows(&["tables", "--format", "json"]), sum);
}

//! Exit status: the one promise that scripts build on.

use super::bracewright;

#[test]
fn a_wrong_command_line_is_3_with_an_empty_standard_output() {
    for arguments in [
        &["chekc", "roof.toml"] as &[&str],
        &["check"],
        &["check", "roof.toml", "--format", "yaml"],
        &["plan", "roof.toml", "--stage", "finished"],
        &["bend", "--span", "90 in", "--tube", "1 x 1 x 1/8", "--alloy", "6061-T6"],
        &["bend", "--span", "90 in", "--rise", "2 in", "--outside", "1 in x 1 in", "--alloy", "6061-T6"],
        &["survey"],
        &["survey", "--blank", "--inch", "--metric"],
        &["tables", "prices"],
        &["tables", "--color", "sometimes"],
    ] {
        let run = bracewright().args(arguments).assert().code(3);
        assert!(run.get_output().stdout.is_empty(), "{arguments:?}");
        assert!(!run.get_output().stderr.is_empty(), "{arguments:?}: no word about what is wrong");
    }
}

#[test]
fn a_survey_that_is_not_there_is_3() {
    for command in ["check", "plan"] {
        let run = bracewright().args([command, "no/such/roof.toml"]).assert().code(3);
        let told = String::from_utf8_lossy(&run.get_output().stderr).into_owned();
        assert!(told.contains("no/such/roof.toml"), "{told}");
        assert!(run.get_output().stdout.is_empty());
    }
}

#[test]
fn standard_input_that_is_no_survey_is_3() {
    for command in ["check", "plan"] {
        for input in ["", "survey = ", "\u{0}\u{1}", "{}", "[roof]\nspan = 92"] {
            let run = bracewright().args([command, "-"]).write_stdin(input).assert().code(3);
            assert!(!run.get_output().stderr.is_empty(), "{command}: {input:?}");
            assert!(run.get_output().stdout.is_empty(), "{command}: {input:?}");
        }
    }
}

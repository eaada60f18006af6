//! What the README shows is what the program prints.

use super::{demo, ran};

#[test]
fn the_readme_shows_the_demo_as_it_prints() {
    let readme = include_str!("../../../../README.md");
    let shown =
        readme.split("```text\n").nth(1).and_then(|rest| rest.split("```").next()).expect("a text block");
    let run = ran(&["check", &demo("puppet-theatre-braced.toml")]);
    assert_eq!(run.status.code(), Some(1));
    let printed = String::from_utf8(run.stdout.clone()).expect("UTF-8");
    assert!(printed.starts_with(shown), "the README shows\n{shown}\nand the program prints\n{printed}");
}

//! Numbers printed by others, as printed; the rows lie in `data/validation/`, one test a file.
//!
//! A row is `id, route, quantity, printed, unit, within, shift, kind, source, inputs`. The head of each file says what
//! its source prints beyond what the library covers.

use bracewright_tests::{Folder, suite};

#[test]
fn tubes() {
    suite::hold(Folder::Validation, "tubes");
}

#[test]
fn adm_constants() {
    suite::hold(Folder::Validation, "adm_constants");
}

#[test]
fn adm_elements() {
    suite::hold(Folder::Validation, "adm_elements");
}

#[test]
fn adm_examples() {
    suite::hold(Folder::Validation, "adm_examples");
}

#[test]
fn en_alloys() {
    suite::hold(Folder::Validation, "en_alloys");
}

#[test]
fn en_tubes() {
    suite::hold(Folder::Validation, "en_tubes");
}

#[test]
fn plates() {
    suite::hold(Folder::Validation, "plates");
}

#[test]
fn materials() {
    suite::hold(Folder::Validation, "materials");
}

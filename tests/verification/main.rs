//! Other routes to the same number, and laws on whole roofs.
//!
//! The rows lie in `data/verification/`, one test a file; the harness then shows that every row of both folders can
//! fail, and keeps the index fresh.

mod harness;
mod roofs;
mod second_route;
mod traps;
mod tubes_by_law;

use bracewright_tests::{Folder, suite};

#[test]
fn tubes() {
    suite::hold(Folder::Verification, "tubes");
}

#[test]
fn adm_constants() {
    suite::hold(Folder::Verification, "adm_constants");
}

#[test]
fn adm_members() {
    suite::hold(Folder::Verification, "adm_members");
}

#[test]
fn en_members() {
    suite::hold(Folder::Verification, "en_members");
}

/// Rows printed by `tests/second_route/aluminium.py`.
#[test]
fn aluminium() {
    suite::hold(Folder::Verification, "aluminium");
}

#[test]
fn sandwiches() {
    suite::hold(Folder::Verification, "sandwiches");
}

#[test]
fn bonds() {
    suite::hold(Folder::Verification, "bonds");
}

#[test]
fn arches() {
    suite::hold(Folder::Verification, "arches");
}

#[test]
fn rings() {
    suite::hold(Folder::Verification, "rings");
}

#[test]
fn feet() {
    suite::hold(Folder::Verification, "feet");
}

#[test]
fn wrinkling() {
    suite::hold(Folder::Verification, "wrinkling");
}

#[test]
fn plates() {
    suite::hold(Folder::Verification, "plates");
}

#[test]
fn materials() {
    suite::hold(Folder::Verification, "materials");
}

//! Whole-check benchmarks.
fn main() {}

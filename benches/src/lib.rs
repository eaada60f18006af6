//! Benchmarks live in `benches/`; this crate holds nothing else.

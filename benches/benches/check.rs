//! Few, representative cases: the whole answer on demo roofs, a walk over them, and the two-way kernel as it grows.
//! `benches/scikit_fem.py` times a general-purpose library on the same plate.
//!
//! Noise floor: on a shared two-core machine medians repeat to about 10 percent; quote ratios, not single times. Not
//! covered: reading of the survey alone, the command line, printing.

use std::hint::black_box;
use std::path::Path;
use std::time::Duration;

use beam_core::ask::{CheckOptions, SizeOptions, WalkOptions, check, size, walk};
use beam_core::plate::{Load, PlateSystem};
use beam_core::survey::{Survey, read_path};
use bracewright_benches::plate;
use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use section_tables::Tables;

fn demo(name: &str) -> Survey {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../data").join(format!("{name}.toml"));
    read_path(&path, Tables::shipped()).unwrap_or_else(|problems| panic!("{problems}"))
}

fn whole_check(c: &mut Criterion) {
    let mut group = c.benchmark_group("check");
    group.sample_size(10).measurement_time(Duration::from_secs(20));
    for name in ["seed-library", "puppet-theatre-bare", "puppet-theatre-braced"] {
        let survey = demo(name);
        group.bench_function(name, |b| {
            b.iter(|| {
                check(black_box(&survey), Tables::shipped(), CheckOptions::default()).map(|d| d.verdict)
            });
        });
    }
    group.finish();
}

fn whole_walk(c: &mut Criterion) {
    let mut group = c.benchmark_group("walk");
    group.sample_size(10).measurement_time(Duration::from_secs(20));
    for name in ["seed-library", "puppet-theatre-braced"] {
        let survey = demo(name);
        group.bench_function(name, |b| {
            b.iter(|| walk(black_box(&survey), Tables::shipped(), WalkOptions::default()).map(|d| d.verdict));
        });
    }
    group.finish();
}

fn kernel(c: &mut Criterion) {
    let mut group = c.benchmark_group("plate");
    group.sample_size(10).measurement_time(Duration::from_secs(10));
    for cells in [2_500, 10_000, 40_000] {
        let model = plate(cells);
        let system = PlateSystem::new(model.clone()).expect("a held plate");
        let unknowns = system.unknowns();
        group.bench_with_input(BenchmarkId::new("assemble and factorise", unknowns), &model, |b, model| {
            b.iter(|| PlateSystem::new(black_box(model.clone())).map(|s| s.unknowns()));
        });
        let laminates = system.model().laminates.clone();
        group.bench_with_input(BenchmarkId::new("factorise again", unknowns), &laminates, |b, laminates| {
            b.iter(|| system.with_state(black_box(laminates.clone()), Vec::new()).map(|s| s.unknowns()));
        });
        let loads: Vec<Vec<Load>> = (0..64)
            .map(|k| {
                let x = 0.2 + 0.024 * f64::from(k);
                vec![Load::Patch { x: [x, x + 0.1], y: [0.5, 0.68], force: 1000.0 }]
            })
            .collect();
        group.bench_with_input(BenchmarkId::new("64 loads", unknowns), &loads, |b, loads| {
            b.iter(|| system.solve_each(black_box(loads), |_, r| r.worst_sag().0));
        });
    }
    group.finish();
}

/// The whole search on a demo roof.
fn whole_size(c: &mut Criterion) {
    let mut group = c.benchmark_group("size");
    group.sample_size(10).measurement_time(Duration::from_secs(60));
    let survey = demo("puppet-theatre-which-tube");
    group.bench_function("puppet-theatre-which-tube", |b| {
        b.iter(|| size(black_box(&survey), Tables::shipped(), &SizeOptions::default()).map(|d| d.verdict));
    });
    group.finish();
}

criterion_group!(benches, whole_check, whole_walk, whole_size, kernel);
criterion_main!(benches);

//! Few, representative cases: the whole answer on demo roofs, a walk over them, and the two-way kernel as it grows.
//! `benches/scikit_fem.py` times a general-purpose library on the same plate.
//!
//! Noise floor: on a shared two-core machine medians repeat to about 10 percent; quote ratios, not single times. Not
//! covered: reading of the survey alone, the command line, printing.

use std::hint::black_box;
use std::path::Path;
use std::time::Duration;

use beam_core::ask::{CheckOptions, SizeOptions, WalkOptions, check, size, walk};
use beam_core::plate::{
    Along, Bond, Brace, BraceLine, Candidate, CondensedPanel, Grid, Load, Output, PlateModel, PlateSystem,
    graded_lines,
};
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

/// A 38 mm square tube of 3 mm wall, glued, across the plate.
fn tube(line: f64, stiffer: f64) -> Brace {
    Brace {
        along: Along::X,
        line,
        ends: [0.0, 2.0],
        ea: 3.0e7 * stiffer,
        ei: 6.0e3 * stiffer,
        gas: 4.5e6 * stiffer,
        gj: 3.5e3 * stiffer,
        z_axis: -0.02,
        z_glue: 0.0,
        bond: Bond::Slip(1e9),
    }
}

/// Two braces on two of eight lines, 12 loads, 500 numbers read: by condensation, and by a factorisation of their own.
fn candidates(c: &mut Criterion) {
    let mut group = c.benchmark_group("two braces");
    group.sample_size(10).measurement_time(Duration::from_secs(10));
    let lines = [0.35, 0.4, 0.45, 0.5, 0.75, 0.8, 0.85, 0.9];
    let mut model = plate(1_000);
    let x = model.grid.x().to_vec();
    let y = graded_lines(1.25, &lines, 0.05, &[]).expect("a sound size");
    model.grid = Grid::new(x, y, |_, _| Some(0)).expect("a sound grid");
    let system = PlateSystem::new(model.clone()).expect("a held plate");
    let load = |k: u32| Load::Patch {
        x: [0.2 + 0.1 * f64::from(k), 0.3 + 0.1 * f64::from(k)],
        y: [0.5, 0.68],
        force: 1000.0,
    };
    let loads: Vec<_> = (0..12).map(|k| system.load(&[load(k)]).expect("panel under it")).collect();
    let outputs: Vec<Output> = (0..500)
        .map(|k| Output::CellStrain { cell: 2 * k, weights: [1e5, 2e4, 0.0, 3e3, 1e3, 0.0, 0.0, 0.0] })
        .collect();
    let places = lines.map(|line| BraceLine { along: Along::X, line, ends: [0.0, 2.0] });
    group.bench_function("condense the panel", |b| {
        b.iter(|| CondensedPanel::new(&system, &places, &loads, &outputs).map(|p| p.coupled()));
    });
    let panel = CondensedPanel::new(&system, &places, &loads, &outputs).expect("lines on the grid");
    let laid = |stiffer: f64| {
        let candidate = |line| Candidate { brace: tube(line, stiffer), free_axial: 0.0, free_curvature: 0.0 };
        [None, Some(candidate(lines[1])), None, None, None, None, Some(candidate(lines[6])), None]
    };
    group.bench_function("condensed", |b| b.iter(|| panel.with(black_box(&laid(1.3))).map(|t| t.len())));
    group.bench_function("factorised afresh", |b| {
        b.iter(|| {
            let braces = vec![tube(lines[1], 1.3), tube(lines[6], 1.3)];
            let whole = PlateSystem::new(PlateModel { braces, ..model.clone() }).expect("a held plate");
            let cases: Vec<Vec<Load>> = (0..12).map(|k| vec![load(k)]).collect();
            whole.solve_each(&cases, |_, r| r.worst_sag().0)
        });
    });
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

criterion_group!(benches, whole_check, whole_walk, whole_size, kernel, candidates);
criterion_main!(benches);

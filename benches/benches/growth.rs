//! How the two-way kernel grows: time and memory up to 200 000 unknowns, and how near the factorisation comes to what
//! the processor multiplies at all.
//!
//! ```text
//! cargo bench -p bracewright-benches --bench growth
//! ```
//!
//! CPU time of one thread, so that other work on the machine does not count for much; the least of several turns. Memory
//! is the peak of the process so far, so that sizes come in ascending order. The dense rate is that of a product of two
//! full square matrices, measured in the same run.

use std::fs;

use beam_core::plate::{Load, PlateSystem};
use bracewright_benches::plate;
use faer::linalg::matmul::matmul;
use faer::{Accum, Mat, Par};

/// Cells of the plate, in two rows of four times as many each time.
const CELLS: [usize; 5] = [2_500, 4_500, 10_000, 18_000, 40_000];
/// Loads solved together.
const LOADS: usize = 64;
/// Side of the full matrices.
const FULL: usize = 1024;

/// Time that all threads of the process have spent on a processor, s; from `/proc`, so on Linux only.
fn cpu() -> f64 {
    let threads = fs::read_dir("/proc/self/task").expect("a process has threads").flatten();
    let spent = threads.filter_map(|thread| fs::read_to_string(thread.path().join("schedstat")).ok());
    spent.filter_map(|s| s.split_whitespace().next()?.parse::<f64>().ok()).sum::<f64>() / 1e9
}

/// Least time of several turns, s.
fn least<T>(turns: usize, mut once: impl FnMut() -> T) -> f64 {
    let time = |_| {
        let start = cpu();
        std::hint::black_box(once());
        cpu() - start
    };
    (0..turns).map(time).fold(f64::INFINITY, f64::min)
}

/// Operations a second of a dense product.
fn dense_rate() -> f64 {
    let a = Mat::from_fn(FULL, FULL, |i, j| ((3 * i + 7 * j) % 11) as f64);
    let mut c = Mat::zeros(FULL, FULL);
    let time = least(10, || matmul(&mut c, Accum::Replace, &a, &a, 1.0, Par::Seq));
    2.0 * (FULL as f64).powi(3) / time
}

/// Peak memory of the process, MB; 0 where the system does not tell.
fn peak() -> f64 {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|l| l.strip_prefix("VmHWM:"));
    line.and_then(|l| l.split_whitespace().next()?.parse::<f64>().ok()).map_or(0.0, |kb| kb / 1024.0)
}

#[expect(clippy::print_stdout, reason = "a table for people")]
fn main() {
    rayon::ThreadPoolBuilder::new().num_threads(1).build_global().expect("the first pool of the process");
    let dense = dense_rate();
    println!("dense product: {:.1} GF/s", dense / 1e9);
    println!("unknowns  factor entries  first ms  again ms  per load ms  share of dense  peak MB");
    for cells in CELLS {
        let model = plate(cells);
        let first = least(3, || PlateSystem::new(model.clone()).expect("a held plate"));
        let system = PlateSystem::new(model.clone()).expect("a held plate");
        let laminates = &model.laminates;
        let again = least(5, || system.with_state(laminates.clone(), Vec::new()).expect("the same plate"));
        let loads: Vec<Vec<Load>> = (0..LOADS)
            .map(|k| {
                let x = 0.2 + 0.024 * k as f64;
                vec![Load::Patch { x: [x, x + 0.1], y: [0.5, 0.68], force: 1000.0 }]
            })
            .collect();
        let solved = least(5, || system.solve_each(&loads, |_, r| r.worst_sag().0).expect("held"));
        println!(
            "{:8} {:15} {:9.1} {:9.1} {:12.3} {:15.2} {:8.0}",
            system.unknowns(),
            system.factor_entries(),
            first * 1e3,
            again * 1e3,
            solved * 1e3 / LOADS as f64,
            system.factor_operations() / again / dense,
            peak()
        );
    }
}

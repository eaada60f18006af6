//! What two more braces cost on a condensed panel, against a roof factorised afresh with them in.
//!
//! ```text
//! cargo bench -p bracewright-benches --bench candidates
//! ```
//!
//! Every pair of eight lines, each for tubes of 72 stiffnesses: 2 016 candidates, 500 numbers read of the panel and the
//! forces in both braces, for 12 loads and for 200, in one state of the materials. Checks are not in it. CPU time of one
//! thread, so that other work on the machine does not count for much; the least of several turns. The rate is wall time on
//! all cores, with all that a tube costs once.

use std::fs;
use std::hint::black_box;
use std::time::Instant;

use beam_core::plate::{
    Along, Bond, Brace, BraceLine, Candidate, CondensedPanel, Grid, Load, Output, PlateModel, PlateSystem,
    Ready, graded_lines,
};
use bracewright_benches::plate;
use rayon::prelude::*;

/// Lines on which braces may lie, m.
const LINES: [f64; 8] = [0.35, 0.4, 0.45, 0.5, 0.75, 0.8, 0.85, 0.9];
/// Stiffnesses of tube.
const TUBES: usize = 72;
/// Numbers read of the panel.
const READ: usize = 500;

/// Time that this thread has spent on a processor, s; from `/proc`, so on Linux only.
fn cpu() -> f64 {
    let spent = fs::read_to_string("/proc/thread-self/schedstat").expect("Linux tells");
    spent.split_whitespace().next().and_then(|s| s.parse::<f64>().ok()).expect("nanoseconds") / 1e9
}

/// A turn takes at least so long, s: some clocks tick every 4 ms.
const TURN: f64 = 0.2;

/// Least time of several turns, s; in a turn the same is done again and again.
fn least<T>(turns: usize, mut once: impl FnMut() -> T) -> f64 {
    let time = |_| {
        let (start, mut times) = (cpu(), 0.0);
        loop {
            black_box(once());
            times += 1.0;
            let spent = cpu() - start;
            if spent > TURN {
                return spent / times;
            }
        }
    };
    (0..turns).map(time).fold(f64::INFINITY, f64::min)
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

fn candidate(stiffer: f64) -> Candidate {
    Candidate { brace: tube(LINES[0], stiffer), free_axial: 0.0, free_curvature: 0.0 }
}

fn load(k: usize) -> Load {
    let x = 0.05 + 0.008 * k as f64;
    Load::Patch { x: [x, x + 0.1], y: [0.5, 0.68], force: 1000.0 }
}

fn model() -> PlateModel {
    let mut model = plate(1_000);
    let x = model.grid.x().to_vec();
    let y = graded_lines(1.25, &LINES, 0.05, &[]).expect("a sound size");
    model.grid = Grid::new(x, y, |_, _| Some(0)).expect("a sound grid");
    model
}

fn every_pair(panel: &CondensedPanel, ready: &Ready) -> f64 {
    let mut most = 0.0_f64;
    for a in 0..LINES.len() {
        for b in a + 1..LINES.len() {
            let trials = panel.with_ready(&[(ready, a), (ready, b)]).expect("stiff braces");
            most = trials.iter().map(|t| t.outputs[0]).fold(most, f64::max);
        }
    }
    most
}

#[expect(clippy::print_stdout, reason = "a table for people")]
fn main() {
    // Before the pool is up: everything below runs on this thread until the rate is taken.
    let one = rayon::ThreadPoolBuilder::new().num_threads(1).use_current_thread().build().expect("a pool");
    let model = model();
    let all: Vec<usize> = (0..LINES.len()).collect();
    let pairs = (LINES.len() * (LINES.len() - 1) / 2) as f64;
    let places = LINES.map(|line| BraceLine { along: Along::X, line, ends: [0.0, 2.0] });
    let outputs: Vec<Output> = (0..READ)
        .map(|k| Output::CellStrain { cell: 2 * k, weights: [1e5, 2e4, 0.0, 3e3, 1e3, 0.0, 0.0, 0.0] })
        .collect();
    let panels = one.install(|| {
        let system = PlateSystem::new(model.clone()).expect("a held plate");
        println!("{} unknowns", system.unknowns());
        println!("loads  condense ms  ready ms a tube  candidate ms  with its share of ready  afresh ms  afresh / candidate");
        [12, 200].map(|count| {
            let loads: Vec<_> = (0..count).map(|k| system.load(&[load(k)]).expect("panel under it")).collect();
            let condense = || CondensedPanel::new(&system, &places, &loads, &outputs).expect("lines on the grid");
            let once = least(3, condense);
            let panel = condense();
            let make = || panel.ready(candidate(1.3), &all).expect("a stiff tube");
            let ready = least(5, make);
            let made = make();
            let each = least(5, || every_pair(&panel, &made)) / pairs;
            let afresh = least(3, || {
                let braces = vec![tube(LINES[1], 1.3), tube(LINES[6], 1.3)];
                let whole = PlateSystem::new(PlateModel { braces, ..model.clone() }).expect("a held plate");
                let cases: Vec<Vec<Load>> = (0..count).map(|k| vec![load(k)]).collect();
                whole.solve_each(&cases, |_, r| r.worst_sag().0).expect("held")
            });
            let whole = each + ready / pairs;
            println!(
                "{count:5} {:12.1} {:16.2} {:13.3} {:24.3} {:10.1} {:19.0}",
                once * 1e3,
                ready * 1e3,
                each * 1e3,
                whole * 1e3,
                afresh * 1e3,
                afresh / whole
            );
            panel
        })
    });
    // This thread belongs to the pool of one: the rate is taken in another.
    let every = rayon::ThreadPoolBuilder::new().build().expect("a pool");
    for (count, panel) in [12, 200].into_iter().zip(&panels) {
        let start = Instant::now();
        let one_tube = |t: usize| {
            let ready = panel.ready(candidate(0.2 + 0.05 * t as f64), &all).expect("a stiff tube");
            every_pair(panel, &ready)
        };
        let most = every.install(|| (0..TUBES).into_par_iter().map(one_tube).reduce(|| 0.0, f64::max));
        black_box(most);
        let wall = start.elapsed().as_secs_f64();
        let tried = pairs * TUBES as f64;
        println!(
            "{count} loads: {tried:.0} candidates in {wall:.2} s on all cores, {:.0} a second",
            tried / wall
        );
    }
}

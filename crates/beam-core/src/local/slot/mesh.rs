//! The section square to a slot: quadratic cells, fine at the lips, the slot's cells left out.

use super::Void;

/// Foam at a lip is read over this length square to it, m: about a bead, as at an edge. At the lip itself the stress of an
/// elastic layer under a skin grows without bound, slowly, and means nothing.
pub(super) const BEAD: f64 = 0.005;
/// The bead is cut into these shares, the smallest at the lip.
const AT_THE_LIP: [f64; 2] = [0.4, 0.6];
/// No more cells than this over a slot: over a wide one a foot is small and the skin bends in long waves.
const MOST: usize = 48;
/// Cells grow by this much from one to the next.
const GROWTH: f64 = 1.5;
/// Depths of the cells through sound foam, from the skin down, as shares.
const ROWS: [f64; 4] = [0.1, 0.2, 0.3, 0.4];
/// The same of foam that has another cell face at both its ends.
const PART: [f64; 2] = [0.4, 0.6];

/// The section's cells.
#[derive(Debug, Clone)]
pub(super) struct Mesh {
    /// Lines square to the slot, m from its middle.
    pub x: Vec<f64>,
    /// Heights over the foam's lower face, m.
    pub z: Vec<f64>,
    /// Columns and rows of cells that are missing.
    pub gone: [[usize; 2]; 2],
}

impl Mesh {
    /// `reach`: how far from the middle of the slot a patch gets on either side, m; `fade`: how far beyond it the section
    /// goes on; `cell`: largest cell near a patch.
    pub(super) fn new(void: &Void, depth: f64, reach: [f64; 2], fade: f64, cell: f64, finer: f64) -> Mesh {
        let half = void.width / 2.0;
        let side = |reach: f64| -> Vec<f64> {
            let mut out = Vec::new();
            let mut at = half;
            let mut step = cell / finer;
            if void.width > 0.0 {
                for part in AT_THE_LIP {
                    step = BEAD * part;
                    let parts = finer.round().max(1.0) as usize;
                    for _ in 0..parts {
                        at += step / parts as f64;
                        out.push(at);
                    }
                }
                step /= finer;
            }
            while at < reach.max(half) + fade {
                let near = at < reach;
                step = if near { (step * GROWTH).min(cell / finer) } else { step * GROWTH.powf(1.0 / finer) };
                at += step;
                out.push(at);
            }
            out
        };
        let mut x: Vec<f64> = side(reach[0]).into_iter().rev().map(|x| -x).collect();
        let first = x.len();
        let inside = if void.width > 0.0 { across(void.width, cell / finer) } else { 0 };
        for i in 0..=inside {
            // Smaller cells towards the lips.
            let turn = std::f64::consts::PI * (i as f64 / inside.max(1) as f64);
            x.push(-half * turn.cos());
        }
        x.extend(side(reach[1]));
        let fine = finer.round().max(1.0) as usize;
        let cut = |z: &mut Vec<f64>, share: &[f64], to: f64| {
            let from = *z.last().unwrap_or(&0.0);
            let mut sum = 0.0;
            for part in share {
                for n in 1..=fine {
                    z.push(from + (to - from) * (sum + part * n as f64 / fine as f64));
                }
                sum += part;
            }
            if let Some(last) = z.last_mut() {
                *last = to;
            }
        };
        let mut z = vec![0.0];
        let up = |share: &[f64]| share.iter().rev().copied().collect::<Vec<f64>>();
        let [from, to] = void.cut.map(|c| c * depth);
        let rows = if void.width <= 0.0 || (void.cut[0] <= 0.0 && void.cut[1] >= 1.0) {
            cut(&mut z, &up(&ROWS), depth);
            [0, z.len() - 1]
        } else if void.cut[0] > 0.0 {
            cut(&mut z, &up(&PART), from);
            let first = z.len() - 1;
            cut(&mut z, &up(&[0.15, 0.35, 0.5]), to);
            [first, z.len() - 1]
        } else {
            cut(&mut z, &up(&[0.15, 0.35, 0.5]), to);
            let last = z.len() - 1;
            cut(&mut z, &up(&[0.25, 0.35, 0.4]), depth);
            [0, last]
        };
        Mesh { x, z, gone: [[first, first + inside], rows] }
    }

    /// Cells square to the slot, and through the depth.
    pub(super) fn cells(&self) -> [usize; 2] {
        [self.x.len() - 1, self.z.len() - 1]
    }

    /// Whether there is foam in a cell.
    pub(super) fn is_foam(&self, column: usize, row: usize) -> bool {
        let within = |at: usize, [from, to]: [usize; 2]| from <= at && at < to;
        !(within(column, self.gone[0]) && within(row, self.gone[1]))
    }
}

/// Cells over a slot of this width.
fn across(width: f64, cell: f64) -> usize {
    ((width / cell * 1.5).ceil() as usize).clamp(4, MOST)
}

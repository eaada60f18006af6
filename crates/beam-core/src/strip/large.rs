//! A chain of straight members that moves far: every member turns with its chord, and bends little about it.
//!
//! Loads keep their direction and grow together. The path is followed by the sag that the loads do work on; as long
//! as the chain is stable that sag grows with the load, so nothing is missed before the first critical state. Where
//! a step leads to an unstable state it is halved; the last stable state is the critical one.

use super::banded::Banded;

/// A chain with its loads. Unknowns of a point: along, up, turn (against the clock).
#[derive(Debug, Clone)]
pub(crate) struct Chain {
    points: Vec<[f64; 2]>,
    members: Vec<Member>,
    /// Sideways stiffness of the left and right end; infinite where they do not give.
    sideways: [f64; 2],
    clamped: bool,
    /// Forces of a total load of 1, by unknown.
    pattern: Vec<f64>,
}

#[derive(Debug, Clone, Copy)]
struct Member {
    length: f64,
    chord: [f64; 2],
    axial: f64,
    /// `E I/(l (1 + soft))` times `(4 + soft)` and `(2 - soft)`.
    near: f64,
    far: f64,
}

/// A state of equilibrium.
#[derive(Debug, Clone)]
pub(crate) struct Moved {
    moved: Vec<f64>,
    /// Total load.
    pub(crate) load: f64,
    /// Growth of the load per sag that it does work on.
    slope: f64,
}

/// How a walk along the path ended.
#[derive(Debug, Clone)]
pub(crate) enum Walk {
    /// At the load asked for.
    Reached(Moved),
    /// At the first load that the chain cannot carry stably.
    Critical {
        /// The last stable state.
        state: Moved,
        /// Whether the load has its largest value there.
        limit: bool,
    },
    /// Never: the curve is turned inside out and pulls, or nothing bends it.
    Stable,
    /// No equilibrium could be followed that far.
    Lost,
}

/// Forces at a point of the chain.
#[derive(Debug, Clone, Copy)]
pub(crate) struct At {
    pub(crate) x: f64,
    pub(crate) sag: f64,
    /// Sagging positive.
    pub(crate) moment: f64,
    pub(crate) compression: f64,
    pub(crate) shear: f64,
}

/// Stiffness of a chain's section: `E A`, `E I`, `G As`.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Stiffness {
    pub(crate) axial: f64,
    pub(crate) bending: f64,
    pub(crate) shear: f64,
}

impl Chain {
    /// A chain through points; `pattern` holds the force down at each point for a total load of 1.
    pub(crate) fn new(
        points: Vec<[f64; 2]>,
        stiffness: Stiffness,
        sideways: [f64; 2],
        clamped: bool,
        down: &[f64],
    ) -> Self {
        let members = points.windows(2).map(|p| Member::new(p[0], p[1], stiffness)).collect();
        let pattern = down.iter().flat_map(|force| [0.0, -force, 0.0]).collect();
        let mut chain = Self { points, members, sideways, clamped, pattern };
        for unknown in chain.held() {
            chain.pattern[unknown] = 0.0;
        }
        chain
    }

    fn held(&self) -> Vec<usize> {
        let size = 3 * self.points.len();
        let mut held = vec![1, size - 2];
        for (first, stiffness) in [0, size - 3].into_iter().zip(self.sideways) {
            if stiffness.is_infinite() {
                held.push(first);
            }
            if self.clamped {
                held.push(first + 2);
            }
        }
        held
    }

    /// Tangent stiffness and forces of the members, and of the springs at the ends.
    fn assemble(&self, moved: &[f64]) -> (Banded, Vec<f64>) {
        let mut matrix = Banded::zeros(moved.len(), 5);
        let mut forces = vec![0.0; moved.len()];
        for (i, member) in self.members.iter().enumerate() {
            let (tangent, force) = member.tangent(&moved[3 * i..3 * i + 6]);
            for row in 0..6 {
                forces[3 * i + row] += force[row];
                for (column, value) in tangent[row].iter().enumerate().take(row + 1) {
                    matrix.add(3 * i + row, 3 * i + column, *value);
                }
            }
        }
        for (end, stiffness) in [0, moved.len() - 3].into_iter().zip(self.sideways) {
            if stiffness.is_finite() {
                matrix.add(end, end, stiffness);
                forces[end] += stiffness * moved[end];
            }
        }
        for unknown in self.held() {
            matrix.hold(unknown);
            forces[unknown] = 0.0;
        }
        (matrix, forces)
    }

    /// Newton steps from a state to one with the sag, or the load, given; `None` where they do not lead to a stable
    /// one.
    fn settle(&self, from: &Moved, target: Target) -> Option<Moved> {
        const STEPS: usize = 20;
        let span = self.points[self.points.len() - 1][0] - self.points[0][0];
        let mut state = from.clone();
        for step in 0..STEPS {
            let (matrix, forces) = self.assemble(&state.moved);
            let factor = matrix.cholesky().ok()?;
            let mut rest: Vec<f64> =
                self.pattern.iter().zip(&forces).map(|(f, inside)| state.load * f - inside).collect();
            let mut answer = self.pattern.clone();
            factor.solve(&mut rest);
            factor.solve(&mut answer);
            let flexibility = dot(&self.pattern, &answer);
            let more = match target {
                Target::Sag(sag) => {
                    (sag - dot(&self.pattern, &state.moved) - dot(&self.pattern, &rest)) / flexibility
                }
                Target::Load(load) => load - state.load,
            };
            state.load += more;
            state.slope = 1.0 / flexibility;
            let mut largest: f64 = 0.0;
            for (i, value) in state.moved.iter_mut().enumerate() {
                let change = rest[i] + more * answer[i];
                *value += change;
                largest = largest.max(change.abs() / if i % 3 == 2 { 1.0 } else { span });
            }
            if !largest.is_finite() || largest > 0.5 {
                return None;
            }
            if step > 0 && largest < 1e-11 {
                return Some(state);
            }
        }
        None
    }

    /// Follows the path to the load given, or to the first critical state.
    pub(crate) fn walk(&self, rise: f64, until: Option<f64>) -> Walk {
        /// A step so much smaller than the rise is none.
        const LEAST: f64 = 1e-8;
        /// A step that turns any point by more may have led to another path.
        const FARTHEST_TURN: f64 = 0.05;
        let span = self.points[self.points.len() - 1][0] - self.points[0][0];
        let inverted = 3.0 * rise;
        let farthest = if until.is_some() { span / 4.0 } else { inverted };
        let mut state = Moved { moved: vec![0.0; self.pattern.len()], load: 0.0, slope: 0.0 };
        if self.pattern.iter().all(|f| *f == 0.0) {
            return until.map_or(Walk::Stable, |load| Walk::Reached(Moved { load, ..state }));
        }
        let mut sag = 0.0;
        let mut step = 1e-4 * rise;
        while sag < farthest {
            let next = self
                .settle(&state, Target::Sag(sag + step))
                .filter(|next| next.load > state.load && next.turned_from(&state) < FARTHEST_TURN);
            let Some(next) = next else {
                step /= 2.0;
                if step > LEAST * rise {
                    continue;
                }
                if sag == 0.0 {
                    return Walk::Lost;
                }
                // At a limit the load hardly grows any more; where the chain sways it would still grow.
                let limit = state.slope < 0.01 * state.load / sag;
                return Walk::Critical { state, limit };
            };
            if let Some(load) = until.filter(|load| next.load >= *load) {
                return self.settle(&state, Target::Load(load)).map_or(Walk::Lost, Walk::Reached);
            }
            if until.is_none() && self.thrust(&next) <= 0.0 {
                return Walk::Stable;
            }
            state = next;
            sag += step;
            step = (1.5 * step).min(if sag < inverted { rise / 40.0 } else { span / 100.0 });
        }
        if until.is_some() { Walk::Lost } else { Walk::Stable }
    }

    /// Push of the ends outwards.
    pub(crate) fn thrust(&self, state: &Moved) -> f64 {
        self.members[0].tangent(&state.moved[0..6]).1[0]
    }

    /// Forces along the chain; at a point between two members those of the left one, then of the right one.
    pub(crate) fn along(&self, state: &Moved) -> Vec<At> {
        let mut along = Vec::with_capacity(2 * self.members.len());
        for (i, member) in self.members.iter().enumerate() {
            let own = member.own(&state.moved[3 * i..3 * i + 6]);
            let shear = (own.turning[0] + own.turning[1]) / own.length;
            for (point, moment) in [(i, -own.turning[0]), (i + 1, own.turning[1])] {
                along.push(At {
                    x: self.points[point][0],
                    sag: -state.moved[3 * point + 1],
                    moment,
                    compression: -own.axial,
                    shear,
                });
            }
        }
        along
    }
}

impl Moved {
    /// Largest turn of a point between two states.
    fn turned_from(&self, other: &Self) -> f64 {
        let turns = self.moved.iter().zip(&other.moved).skip(2).step_by(3);
        turns.map(|(a, b)| (a - b).abs()).fold(0.0, f64::max)
    }
}

#[derive(Debug, Clone, Copy)]
enum Target {
    Sag(f64),
    Load(f64),
}

/// A member in its own, turned, axes.
struct Own {
    length: f64,
    cos: f64,
    sin: f64,
    axial: f64,
    turning: [f64; 2],
}

impl Member {
    fn new(a: [f64; 2], b: [f64; 2], stiffness: Stiffness) -> Self {
        let chord = [b[0] - a[0], b[1] - a[1]];
        let length = chord[0].hypot(chord[1]);
        let soft = 12.0 * stiffness.bending / (stiffness.shear * length * length);
        let unit = stiffness.bending / (length * (1.0 + soft));
        Self {
            length,
            chord,
            axial: stiffness.axial / length,
            near: (4.0 + soft) * unit,
            far: (2.0 - soft) * unit,
        }
    }

    fn own(&self, moved: &[f64]) -> Own {
        let [x0, z0] = self.chord;
        let (dx, dz) = (moved[3] - moved[0], moved[4] - moved[1]);
        let (x, z) = (x0 + dx, z0 + dz);
        let length = x.hypot(z);
        // l - l0 and the turn of the chord, each without a difference of large numbers.
        let longer = (dx * (2.0 * x0 + dx) + dz * (2.0 * z0 + dz)) / (length + self.length);
        let turned = (x0 * dz - z0 * dx).atan2(x0 * x + z0 * z);
        let [a, b] = [moved[2] - turned, moved[5] - turned];
        Own {
            length,
            cos: x / length,
            sin: z / length,
            axial: self.axial * longer,
            turning: [self.near * a + self.far * b, self.far * a + self.near * b],
        }
    }

    /// Tangent stiffness and forces at its ends (Crisfield, Non-linear Finite Element Analysis, 1991, chapter 7,
    /// from memory).
    fn tangent(&self, moved: &[f64]) -> ([[f64; 6]; 6], [f64; 6]) {
        let own = self.own(moved);
        let (c, s, l) = (own.cos, own.sin, own.length);
        let stretch = [-c, -s, 0.0, c, s, 0.0];
        let turn = [s / l, -c / l, 0.0, -s / l, c / l, 0.0];
        let unit = |at: usize, i: usize| f64::from(u8::from(at == i)) - turn[i];
        let both = (own.turning[0] + own.turning[1]) / l;
        let forces = std::array::from_fn(|i| {
            own.axial * stretch[i] + own.turning[0] * unit(2, i) + own.turning[1] * unit(5, i)
        });
        let tangent = std::array::from_fn(|i| {
            std::array::from_fn(|j| {
                self.axial * stretch[i] * stretch[j]
                    + self.near * (unit(2, i) * unit(2, j) + unit(5, i) * unit(5, j))
                    + self.far * (unit(2, i) * unit(5, j) + unit(5, i) * unit(2, j))
                    + own.axial * l * turn[i] * turn[j]
                    + both * (stretch[i] * turn[j] + turn[i] * stretch[j])
            })
        });
        (tangent, forces)
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// The tangent against central differences of the forces, far from rest.
    #[test]
    fn tangent_is_the_slope_of_the_forces() {
        let member = Member::new([0.0, 0.0], [0.3, 0.1], Stiffness { axial: 1e5, bending: 40.0, shear: 2e4 });
        let moved = [0.01, -0.02, 0.3, -0.005, 0.04, -0.1];
        let (tangent, _) = member.tangent(&moved);
        for j in 0..6 {
            let step = 1e-6;
            let side = |sign: f64| {
                let mut moved = moved;
                moved[j] += sign * step;
                member.tangent(&moved).1
            };
            let (up, down) = (side(1.0), side(-1.0));
            for i in 0..6 {
                let slope = (up[i] - down[i]) / (2.0 * step);
                assert_relative_eq!(tangent[i][j], slope, max_relative = 1e-6, epsilon = 1e-3);
            }
        }
    }

    /// A turn of the whole member, however far, strains nothing.
    #[test]
    fn turning_as_one_strains_nothing() {
        let member = Member::new([0.0, 0.0], [0.5, 0.0], Stiffness { axial: 1e6, bending: 1e3, shear: 1e5 });
        let turn = 1.2_f64;
        let moved = [0.0, 0.0, turn, 0.5 * (turn.cos() - 1.0), 0.5 * turn.sin(), turn];
        for force in member.tangent(&moved).1 {
            assert!(force.abs() < 1e-9, "{force}");
        }
    }
}

//! A curved brace of any measured shape, as a chain of straight members: the second route to an arch.
//!
//! Each member is an exact straight Timoshenko beam; only the shape is approximated, by chords.

use super::arch::ArchEnds;
use super::banded::Banded;
use super::error::StripError;
use crate::quantity::{
    FlexuralRigidity, Force, ForcePerLength, Length, Moment, Ratio, not_negative, positive, si,
};

/// A curved member given by points along it.
///
/// # Valid for
/// Small movements; points from left to right, ends at one level.
#[derive(Debug, Clone, PartialEq)]
pub struct CurvedLine {
    /// Points along the axis: distance from the left end, height.
    pub points: Vec<[Length; 2]>,
    /// Axial stiffness E A.
    pub axial: Force,
    /// Bending stiffness E I.
    pub bending: FlexuralRigidity,
    /// Shear stiffness G As.
    pub shear: Force,
    /// How both ends sit.
    pub ends: ArchEnds,
    /// Sideways stiffness of each end; `None` for walls that do not give.
    pub hold: Option<ForcePerLength>,
}

/// What acts on a curved line.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct LineLoad {
    /// Forces down at points of the line, by index.
    pub points: Vec<(usize, Force)>,
    /// Even load down per horizontal length.
    pub uniform: ForcePerLength,
    /// Lengthening per length by warmth.
    pub warming: Ratio,
}

/// A curved line under load.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct LineState {
    /// Push of the left and right end, positive inwards on the line.
    pub thrust: [Force; 2],
    /// Sag at each point, positive down.
    pub sag: Vec<Length>,
    /// Moment at each point, sagging positive.
    pub moment: Vec<Moment>,
}

/// Stiffness of a member's ends in its own axes: `[along, across, turn]` at either end.
type EndMatrix = [[f64; 6]; 6];

impl CurvedLine {
    /// Points evenly spaced along a circular arc.
    pub fn circle(span: Length, rise: Length, members: usize) -> Vec<[Length; 2]> {
        let (span, rise) = (span.value, rise.value);
        let half = 2.0 * (2.0 * rise / span).atan();
        let radius = span / 2.0 / half.sin();
        (0..=members)
            .map(|i| {
                let angle = half * (2.0 * i as f64 / members as f64 - 1.0);
                let height = 2.0 * radius * ((half + angle) / 2.0).sin() * ((half - angle) / 2.0).sin();
                [si(span / 2.0 + radius * angle.sin()), si(height)]
            })
            .collect()
    }

    /// Forces, moments and sag.
    ///
    /// # Errors
    /// Fewer than 2 members; points not from left to right or not finite; a stiffness not above 0; a load
    /// not finite or at a point that is not there.
    pub fn solve(&self, load: &LineLoad) -> Result<LineState, StripError> {
        let points = self.checked(load)?;
        let size = 3 * points.len();
        let mut matrix = Banded::zeros(size, 5);
        let mut f = vec![0.0; size];
        let members: Vec<Member> = points.windows(2).map(|p| Member::new(self, p[0], p[1], load)).collect();
        for (i, member) in members.iter().enumerate() {
            let (stiffness, forces) = member.turned();
            for (row, (values, force)) in stiffness.iter().zip(forces).enumerate() {
                f[3 * i + row] += force;
                for (column, value) in values.iter().enumerate().take(row + 1) {
                    matrix.add(3 * i + row, 3 * i + column, *value);
                }
            }
        }
        for (point, force) in &load.points {
            f[3 * point + 1] -= force.value;
        }
        // A wall that does not give is a spring far stiffer than the line.
        let firm = 1e7 * self.axial.value / points[points.len() - 1][0];
        let hold = match self.ends {
            ArchEnds::Roller => [firm, 0.0],
            _ => [self.hold.map_or(firm, |k| k.value.min(firm)); 2],
        };
        let ends = [0, size - 3];
        let mut held = vec![1, size - 2];
        if hold == [0.0; 2] {
            held.push(0);
        }
        for (first, stiffness) in ends.into_iter().zip(hold) {
            matrix.add(first, first, stiffness);
            if self.ends == ArchEnds::Fixed {
                held.push(first + 2);
            }
        }
        for unknown in held {
            matrix.hold(unknown);
            f[unknown] = 0.0;
        }
        let factor = matrix.cholesky().map_err(|singular| StripError::Mechanism {
            movement: "the curved line".into(),
            x: points[singular.0 / 3][0],
            remedy: "check its stiffness and ends",
        })?;
        factor.solve(&mut f);
        let moved = f;
        let moment = (0..points.len())
            .map(|i| {
                let left = i.checked_sub(1).map(|m| members[m].moments(&moved[3 * m..3 * m + 6])[1]);
                let right = members.get(i).map(|m| m.moments(&moved[3 * i..3 * i + 6])[0]);
                match (left, right) {
                    (Some(a), Some(b)) => (a + b) / 2.0,
                    (a, b) => a.or(b).unwrap_or(0.0),
                }
            })
            .map(si)
            .collect();
        Ok(LineState {
            thrust: [si(-hold[0] * moved[0]), si(hold[1] * moved[size - 3])],
            sag: moved.iter().skip(1).step_by(3).map(|v| si(-v)).collect(),
            moment,
        })
    }

    fn checked(&self, load: &LineLoad) -> Result<Vec<[f64; 2]>, StripError> {
        positive("E A", self.axial.value, "N", "look the section up")?;
        positive("E I", self.bending.value, "N m2", "look the section up")?;
        positive("G As", self.shear.value, "N", "look the section up")?;
        if let Some(k) = self.hold {
            not_negative("sideways stiffness of an end", k.value, "N/m", "leave it out for stiff walls")?;
        }
        if self.points.len() < 3 {
            return Err(StripError::out_of_range(
                "number of points",
                self.points.len() as f64,
                "",
                "3 or more",
                "measure more ordinates",
            ));
        }
        for (pair, i) in self.points.windows(2).zip(1..) {
            positive(
                format!("step to point {}", i + 1),
                (pair[1][0] - pair[0][0]).value,
                "m",
                "left to right",
            )?;
        }
        let loads = load.points.iter().map(|(_, p)| p.value).chain([load.uniform.value, load.warming.value]);
        let heights = self.points.iter().map(|p| p[1].value);
        for value in loads.chain(heights) {
            if !value.is_finite() {
                return Err(StripError::out_of_range(
                    "load or height",
                    value,
                    "SI",
                    "a finite number",
                    "give it",
                ));
            }
        }
        for (point, _) in &load.points {
            if *point >= self.points.len() {
                return Err(StripError::out_of_range(
                    "point of a load",
                    *point as f64,
                    "",
                    format!("below {}", self.points.len()),
                    "count the points from 0",
                ));
            }
        }
        let start = self.points[0][0].value;
        Ok(self.points.iter().map(|p| [p[0].value - start, p[1].value]).collect())
    }
}

/// A straight member.
struct Member {
    cos: f64,
    sin: f64,
    stiffness: EndMatrix,
    /// Work-equivalent end forces in roof axes.
    forces: [f64; 6],
}

impl Member {
    fn new(line: &CurvedLine, a: [f64; 2], b: [f64; 2], load: &LineLoad) -> Self {
        let (dx, dz) = (b[0] - a[0], b[1] - a[1]);
        let length = dx.hypot(dz);
        let (cos, sin) = (dx / length, dz / length);
        let (ea, ei, ga) = (line.axial.value, line.bending.value, line.shear.value);
        let soft = 12.0 * ei / (ga * length * length);
        let unit = ei / (length.powi(3) * (1.0 + soft));
        let (across, mixed) = (12.0 * unit, 6.0 * unit * length);
        let near = (4.0 + soft) * unit * length * length;
        let far = (2.0 - soft) * unit * length * length;
        let along = ea / length;
        let stiffness = [
            [along, 0.0, 0.0, -along, 0.0, 0.0],
            [0.0, across, mixed, 0.0, -across, mixed],
            [0.0, mixed, near, 0.0, -mixed, far],
            [-along, 0.0, 0.0, along, 0.0, 0.0],
            [0.0, -across, -mixed, 0.0, across, -mixed],
            [0.0, mixed, far, 0.0, -mixed, near],
        ];
        let (q, grow) = (load.uniform.value, ea * load.warming.value);
        let end_moment = q * dx * dx / 12.0;
        let forces = [
            -grow * cos,
            -q * dx / 2.0 - grow * sin,
            -end_moment,
            grow * cos,
            -q * dx / 2.0 + grow * sin,
            end_moment,
        ];
        Self { cos, sin, stiffness, forces }
    }

    fn turn(&self) -> EndMatrix {
        let mut turn = [[0.0; 6]; 6];
        for end in [0, 3] {
            turn[end][end] = self.cos;
            turn[end][end + 1] = self.sin;
            turn[end + 1][end] = -self.sin;
            turn[end + 1][end + 1] = self.cos;
            turn[end + 2][end + 2] = 1.0;
        }
        turn
    }

    /// Stiffness in roof axes, and the end forces of the loads on the member.
    fn turned(&self) -> (EndMatrix, [f64; 6]) {
        let turn = self.turn();
        let mut turned = [[0.0; 6]; 6];
        for (i, row) in turned.iter_mut().enumerate() {
            for (j, value) in row.iter_mut().enumerate() {
                for a in 0..6 {
                    for b in 0..6 {
                        *value += turn[a][i] * self.stiffness[a][b] * turn[b][j];
                    }
                }
            }
        }
        (turned, self.forces)
    }

    /// Sagging moments at its left and right end.
    fn moments(&self, moved: &[f64]) -> [f64; 2] {
        let turn = self.turn();
        let own: [f64; 6] = std::array::from_fn(|i| (0..6).map(|j| turn[i][j] * moved[j]).sum());
        let force = |row: usize| -> f64 { (0..6).map(|j| self.stiffness[row][j] * own[j]).sum() };
        [-(force(2) - self.forces[2]), force(5) - self.forces[5]]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::strip::arch::{Arch, ArchLoad};
    use approx::assert_relative_eq;

    const MEMBERS: usize = 400;

    fn pair(ends: ArchEnds, hold: Option<f64>) -> (Arch, CurvedLine) {
        // 40 x 40 x 3 mm tube, aluminium, 2.3 m span, 90 mm rise.
        let arch = Arch {
            span: si(2.3),
            rise: si(0.09),
            axial: si(31.08e6),
            bending: si(7138.0),
            shear: si(6.24e6),
            ends,
            hold: hold.map(si),
        };
        let line = CurvedLine {
            points: CurvedLine::circle(arch.span, arch.rise, MEMBERS),
            axial: arch.axial,
            bending: arch.bending,
            shear: arch.shear,
            ends,
            hold: arch.hold,
        };
        (arch, line)
    }

    /// Two routes: force method over the arc, stiffness method over a chain of chords.
    #[test]
    fn chain_agrees_with_the_arc() {
        for (ends, hold) in [
            (ArchEnds::Pinned, None),
            (ArchEnds::Pinned, Some(2.0e5)),
            (ArchEnds::Fixed, None),
            (ArchEnds::Fixed, Some(2.0e5)),
            (ArchEnds::Roller, None),
        ] {
            let (arch, line) = pair(ends, hold);
            let quarter = MEMBERS / 4;
            let cases = [
                (
                    ArchLoad::Point { force: si(450.0), x: line.points[quarter][0] },
                    LineLoad { points: vec![(quarter, si(450.0))], ..LineLoad::default() },
                ),
                (ArchLoad::Uniform(si(300.0)), LineLoad { uniform: si(300.0), ..LineLoad::default() }),
                (ArchLoad::Warming(si(1e-3)), LineLoad { warming: si(1e-3), ..LineLoad::default() }),
            ];
            for (on_arch, on_line) in cases {
                let state = arch.solve(on_arch).unwrap();
                let chain = line.solve(&on_line).unwrap();
                let thrust = state.thrust().value;
                for end in chain.thrust {
                    assert_relative_eq!(end.value, thrust, max_relative = 1e-4, epsilon = 1e-3);
                }
                let sag = state.crown_sag().value;
                assert_relative_eq!(chain.sag[MEMBERS / 2].value, sag, max_relative = 1e-4, epsilon = 1e-8);
                // Moments are small differences: held against the parts they are made of.
                let part = 1e-4 * (thrust * 0.09).abs() + 0.02;
                for place in [0, quarter, MEMBERS / 2, MEMBERS] {
                    let expected = state.moment_at(line.points[place][0]).unwrap().value;
                    assert_relative_eq!(chain.moment[place].value, expected, epsilon = part);
                }
            }
        }
    }

    #[test]
    fn what_is_no_line_is_named() {
        let (_, line) = pair(ArchEnds::Pinned, None);
        let load = LineLoad { uniform: si(1.0), ..LineLoad::default() };
        let mut back = line.clone();
        back.points.swap(3, 4);
        assert!(back.solve(&load).is_err());
        assert!(CurvedLine { points: vec![], ..line.clone() }.solve(&load).is_err());
        assert!(CurvedLine { bending: si(0.0), ..line.clone() }.solve(&load).is_err());
        let off = LineLoad { points: vec![(MEMBERS + 1, si(1.0))], ..LineLoad::default() };
        assert!(line.solve(&off).is_err());
        let unknown = LineLoad { uniform: si(f64::NAN), ..LineLoad::default() };
        assert!(line.solve(&unknown).is_err());
    }
}

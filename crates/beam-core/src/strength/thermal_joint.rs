//! A bar glued along a sheet or another bar, and heat or cold that lengthens the two unlike.
//!
//! In the middle of a long joint both are strained alike and the glue carries nothing; near the ends the difference comes
//! out as slip, and the glue carries all of it within a short way.

use super::{OutOfRange, positive};
use crate::quantity::{Force, ForcePerLength, Length, Pressure, Ratio, si};
use std::f64::consts::PI;

/// Terms of the series, and with them the shortest wave.
const TERMS: usize = 4000;

/// What the bar is glued to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Partner {
    /// A bar of this axial stiffness.
    Bar(Force),
    /// A wide sheet loaded along a line: `2 t sqrt(E G)`, `t` its thickness, `E` its modulus along the bar, `G` its shear
    /// modulus in its plane. The shorter the wave, the less of it takes part.
    Sheet(ForcePerLength),
}

/// A joint along the whole of a bar with free ends, axes held straight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThermalJoint {
    /// Length.
    pub length: Length,
    /// Slip stiffness of the glue per length of joint: force per length and slip.
    pub slip: Pressure,
    /// Axial stiffness of the bar.
    pub bar: Force,
    /// The other side.
    pub partner: Partner,
}

/// What a difference of free strains does to a joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mismatch {
    /// Shear flow in the glue at both ends; its sign is that of the strain.
    pub end_flow: ForcePerLength,
    /// Force in the middle of the bar, with the sign of the strain: the bar that wants to be longer is pressed by it.
    pub middle_force: Force,
}

impl ThermalJoint {
    /// Flow at the ends and force in the middle for a free strain of the bar that is larger than the partner's by `strain`.
    ///
    /// By waves `sin(k x)` from the middle, `k = (2 n - 1) pi/L`, each of which leaves both ends free of force:
    /// `q_n = e_n/(1/K + 1/(EA k^2) + c(k))`, `e_n = 4 strain/(L k^2)`, with `c = 1/(EA2 k^2)` for a bar and
    /// `c = 1/(2 t sqrt(E G) k)` for a sheet in shear lag. For two bars the sum is Volkersen's
    /// `K strain/l tanh(l L/2)`, `l^2 = K (1/EA + 1/EA2)`.
    ///
    /// # Valid for
    /// Elastic glue. Bending by the distance of the axes is left out, and that errs to the safe side in the flow; so
    /// does a sheet that is taken to be stiff along its edges.
    ///
    /// # Errors
    /// [`OutOfRange`] for a stiffness or length not above zero, or a strain that is no number.
    ///
    /// # References
    /// Volkersen 1938, shear lag of lap joints (from memory); Kuhn 1956, shear lag of sheet (from memory).
    ///
    /// # Examples
    /// Two equal bars on a soft bed: the ends slip almost freely, `K strain L/2`.
    /// ```
    /// use beam_core::quantity::si;
    /// use beam_core::strength::thermal_joint::{Partner, ThermalJoint};
    /// let joint =
    ///     ThermalJoint { length: si(2.0), slip: si(1e4), bar: si(3e7), partner: Partner::Bar(si(3e7)) };
    /// let one = joint.mismatch(si(1e-3))?;
    /// assert!((one.end_flow.value - 10.0).abs() < 0.01);
    /// # Ok::<(), beam_core::strength::OutOfRange>(())
    /// ```
    pub fn mismatch(&self, strain: Ratio) -> Result<Mismatch, OutOfRange> {
        const RULE: &str = "strain between two glued bars";
        let length = positive(RULE, "length of the joint (m)", self.length.value)?;
        let slip = positive(RULE, "slip stiffness of the glue (N/m2)", self.slip.value)?;
        let bar = positive(RULE, "axial stiffness of the bar (N)", self.bar.value)?;
        let partner = match self.partner {
            Partner::Bar(ea) => positive(RULE, "axial stiffness of the partner (N)", ea.value)?,
            Partner::Sheet(b) => positive(RULE, "stiffness of the sheet along a line (N/m)", b.value)?,
        };
        if !strain.value.is_finite() {
            return Err(OutOfRange::new(RULE, "strain", strain.value, "must be a finite number"));
        }
        let (mut flow, mut force) = (0.0, 0.0);
        for n in 1..=TERMS {
            let k = (2 * n - 1) as f64 * PI / length;
            let partner_gives = match self.partner {
                Partner::Bar(_) => 1.0 / (partner * k * k),
                Partner::Sheet(_) => 1.0 / (partner * k),
            };
            let wave = 4.0 / (length * k * k) / (1.0 / slip + 1.0 / (bar * k * k) + partner_gives);
            flow += wave;
            force += if n % 2 == 1 { wave / k } else { -wave / k };
        }
        // Beyond the last term only the glue gives: sum of 1/(2 n - 1)^2 from there on.
        flow += slip * length / (PI * PI * TERMS as f64);
        Ok(Mismatch { end_flow: si(flow * strain.value), middle_force: si(force * strain.value) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    const STRAIN: f64 = 8.5e-4;

    fn joint(slip: f64, partner: Partner) -> ThermalJoint {
        ThermalJoint { length: si(2.35), slip: si(slip), bar: si(3.1e7), partner }
    }

    /// Volkersen's closed form, for a soft and a stiff bed: `K e/l tanh(l L/2)` and `e/(1/EA + 1/EA2) (1 - 1/cosh(l L/2))`.
    #[test]
    fn two_bars_are_those_of_volkersen() {
        for slip in [1e6_f64, 1e7, 1e9, 2.7e10] {
            let (ea, other, half) = (3.1e7, 9.4e6, 2.35 / 2.0);
            let c = 1.0 / ea + 1.0 / other;
            let l = (slip * c).sqrt();
            let got = joint(slip, Partner::Bar(si(other))).mismatch(si(STRAIN)).unwrap();
            assert_relative_eq!(
                got.end_flow.value,
                slip * STRAIN / l * (l * half).tanh(),
                max_relative = 2e-3
            );
            assert_relative_eq!(
                got.middle_force.value,
                STRAIN / c * (1.0 - 1.0 / (l * half).cosh()),
                max_relative = 1e-4
            );
        }
    }

    /// Second route: finite differences along a bar on a row of springs, both ends free, two unknowns a node.
    #[test]
    fn two_bars_by_finite_differences() {
        let (slip, ea, other, half) = (8.9e6, 3.1e7, 9.4e6, 2.35 / 2.0);
        let cells = 20_000;
        let h = half / f64::from(cells);
        // Relative slip s: s'' = K (1/EA + 1/EA2) s, s(0) = 0, s'(half) = strain; shooting, as s is linear in its start.
        let c = slip * (1.0 / ea + 1.0 / other);
        let (mut before, mut now) = (0.0, h);
        for _ in 1..cells {
            (before, now) = (now, 2.0 * now - before + h * h * c * now);
        }
        let slope = (now - before) / h + h * c * now / 2.0;
        let got = joint(slip, Partner::Bar(si(other))).mismatch(si(STRAIN)).unwrap();
        assert_relative_eq!(got.end_flow.value, slip * now * STRAIN / slope, max_relative = 1e-3);
    }

    /// Second route for a sheet: finite differences of `E t u,xx + G t u,yy = 0` on a quarter of it, far wider than it
    /// takes part, ends free, the bar and its glue along one edge; relaxed until it rests.
    #[test]
    fn a_sheet_by_finite_differences() {
        let (half, wide, e, g, t) = (2.35 / 2.0, 1.2, 6.4e9, 0.7e9, 0.003_2_f64);
        let (slip, ea) = (8.9e6, 3.1e7);
        let (nx, ny) = (80_usize, 60_usize);
        let (hx, hy) = (half / nx as f64, wide / ny as f64);
        let mut u = vec![vec![0.0_f64; ny + 1]; nx + 1];
        let mut v = vec![0.0_f64; nx + 1];
        for _ in 0..6000 {
            for i in 1..=nx {
                // Half a cell at the free end.
                let share = if i == nx { 0.5 } else { 1.0 };
                for j in 0..=ny {
                    let strip = if j == 0 || j == ny { 0.5 } else { 1.0 };
                    let (ax, ay) = (e * t * hy * strip / hx, g * t * hx * share / hy);
                    let (mut sum, mut stiff) = (ax * u[i - 1][j], ax);
                    if i < nx {
                        sum += ax * u[i + 1][j];
                        stiff += ax;
                    }
                    for other in [j.checked_sub(1), (j < ny).then_some(j + 1)].into_iter().flatten() {
                        sum += ay * u[i][other];
                        stiff += ay;
                    }
                    if j == 0 {
                        // The joint loads both halves of the sheet.
                        let bed = slip * hx * share / 2.0;
                        sum += bed * v[i];
                        stiff += bed;
                    }
                    u[i][j] += 1.9 * (sum / stiff - u[i][j]);
                }
                let (bed, along) = (slip * hx * share, ea / hx);
                let (mut sum, mut stiff) = (bed * u[i][0] + along * v[i - 1], bed + along);
                if i < nx {
                    sum += along * v[i + 1];
                    stiff += along;
                } else {
                    sum += ea * STRAIN;
                }
                v[i] += 1.9 * (sum / stiff - v[i]);
            }
        }
        let got = joint(slip, Partner::Sheet(si(2.0 * t * (e * g).sqrt()))).mismatch(si(STRAIN)).unwrap();
        let end = slip * (v[nx] - u[nx][0]);
        assert_relative_eq!(got.end_flow.value, end, max_relative = 1e-2);
        assert_relative_eq!(got.middle_force.value, ea * STRAIN - ea * v[1] / hx, max_relative = 1e-2);
    }

    #[test]
    fn what_is_no_joint_gives_no_number() {
        let stiff = Partner::Bar(si(1e7));
        assert!(joint(0.0, stiff).mismatch(si(1e-3)).is_err());
        assert!(joint(1e7, stiff).mismatch(si(f64::NAN)).is_err());
        assert!(joint(1e7, Partner::Sheet(si(-1.0))).mismatch(si(1e-3)).is_err());
    }
}

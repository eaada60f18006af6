//! How far an arch goes before it snaps or sways, and what its sag adds to its forces.
//!
//! ```text
//!      ___---P---___             load |      _ snaps
//!   /                 \               |    /   \        /
//!  A                   A              |  /      \     /
//!      ~~~___P___~~~  (after)         |/_________\_/___ sag
//! ```

use super::arch::{Arch, ArchEnds, ArchLoad, Station};
use super::error::StripError;
use super::large::{Chain, Stiffness, Walk};
use super::shallow::SnapKind;
use crate::quantity::{Force, Length, Moment, not_negative, positive, si};

/// Members of the chain that stands for the arch.
const MEMBERS: f64 = 96.0;

/// First load that a perfect, or slightly lopsided, arch cannot carry stably.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Snap {
    /// All load on the arch.
    pub total: Force,
    /// How it gives way.
    pub kind: SnapKind,
}

/// An arch under load, with its own sag taken into account.
#[derive(Debug, Clone, PartialEq)]
pub struct LargeState {
    thrust: f64,
    crown_sag: f64,
    moment: f64,
    stations: Vec<Station>,
}

impl Arch {
    /// All load under which the arch first snaps or sways when the loads given grow together; `None` where it never
    /// does: it then sags until it hangs.
    ///
    /// `lopsided` is the height of an initial `sin(2 pi x/L)` error of shape; 0 for the perfect arch. Either sign of
    /// it counts, the worse of the two.
    ///
    /// # Valid for
    /// Elastic material; an arch held out of its plane; loads that stay vertical.
    ///
    /// # Errors
    /// As [`Arch::solve`]; a load that is not a force down; an equilibrium that cannot be followed.
    ///
    /// # References
    /// Corotational chain (Crisfield, 1991, from memory); held against [`shallow_snap`](super::shallow_snap).
    ///
    /// # Examples
    /// A flat pinned arch of lambda 8 snaps at `49.42 E I r/a^3`.
    /// ```
    /// use beam_core::quantity::si;
    /// use beam_core::strip::{Arch, ArchEnds, ArchLoad};
    /// let arch = Arch {
    ///     span: si(2.0), rise: si(0.02), axial: si(4e4), bending: si(1.0), shear: si(1e9),
    ///     ends: ArchEnds::Pinned, hold: None, // r = 5 mm
    /// };
    /// let crown = ArchLoad::Point { force: si(1.0), x: si(1.0) };
    /// let snap = arch.snap(&[crown], si(0.0))?.expect("it snaps");
    /// assert!((snap.total.value / (49.42 * 0.005) - 1.0).abs() < 5e-3);
    /// # Ok::<(), beam_core::strip::StripError>(())
    /// ```
    pub fn snap(&self, loads: &[ArchLoad], lopsided: Length) -> Result<Option<Snap>, StripError> {
        let lopsided = not_negative("error of shape", lopsided.value, "m", "give its height")?;
        let signs: &[f64] = if lopsided == 0.0 { &[0.0] } else { &[1.0, -1.0] };
        let mut least: Option<Snap> = None;
        for sign in signs {
            let (chain, _) = self.chain(loads, sign * lopsided)?;
            if !self.pushes() {
                continue;
            }
            let found = match chain.walk(self.rise.value, None) {
                Walk::Critical { state, limit } => {
                    let kind = if limit { SnapKind::Limit } else { SnapKind::Sway };
                    Some(Snap { total: si(state.load), kind })
                }
                Walk::Stable => None,
                Walk::Reached(_) | Walk::Lost => return Err(self.lost()),
            };
            least = [least, found].into_iter().flatten().reduce(|a, b| if b.total < a.total { b } else { a });
        }
        Ok(least)
    }

    /// Forces and sag with the change of shape taken into account; `None` where the arch snaps, sways or folds up
    /// before it carries the loads.
    ///
    /// `lopsided` is the height of an initial `sin(2 pi x/L)` error of shape, up on the left where it is positive.
    ///
    /// # Errors
    /// As [`Arch::snap`].
    pub fn solve_large(
        &self,
        loads: &[ArchLoad],
        lopsided: Length,
    ) -> Result<Option<LargeState>, StripError> {
        let (chain, total) = self.chain(loads, lopsided.value)?;
        let Walk::Reached(state) = chain.walk(self.rise.value, Some(total)) else { return Ok(None) };
        let along = chain.along(&state);
        let middle = self.span.value / 2.0;
        let nearest = along
            .iter()
            .min_by(|a, b| (a.x - middle).abs().total_cmp(&(b.x - middle).abs()))
            .ok_or_else(|| self.lost())?;
        Ok(Some(LargeState {
            thrust: if self.pushes() { chain.thrust(&state) } else { 0.0 },
            crown_sag: nearest.sag,
            moment: nearest.moment,
            stations: along
                .iter()
                .map(|at| Station {
                    x: si(at.x),
                    moment: si(at.moment),
                    compression: si(at.compression),
                    shear: si(at.shear),
                })
                .collect(),
        }))
    }

    /// Whether its ends are held sideways at all.
    fn pushes(&self) -> bool {
        self.ends != ArchEnds::Roller && self.hold.is_none_or(|k| k.value > 0.0)
    }

    fn lost(&self) -> StripError {
        StripError::Mechanism {
            movement: "the arch, whose equilibrium could not be followed,".into(),
            x: self.span.value / 2.0,
            remedy: "check span, rise and section",
        }
    }

    /// The chain through points of the arc, and all load on it.
    fn chain(&self, loads: &[ArchLoad], lopsided: f64) -> Result<(Chain, f64), StripError> {
        let span = self.span.value;
        let radius = self.radius()?.value;
        let mut breaks = vec![0.0, span / 2.0, span];
        let mut total = 0.0;
        for load in loads {
            total += match load {
                ArchLoad::Point { force, x } => {
                    breaks.push(x.value);
                    not_negative("force on the arch", force.value, "N", "give it as a force down")?
                }
                ArchLoad::Uniform(load) => {
                    span * not_negative("even load", load.value, "N/m", "give it as a load down")?
                }
                ArchLoad::Warming(_) | ArchLoad::Spread(_) => {
                    return Err(StripError::out_of_range(
                        "loads of another kind",
                        1.0,
                        "",
                        "none: warmth and spread do not grow with the load",
                        "give forces down",
                    ));
                }
            };
            // Everything that the force method refuses.
            self.solve(*load)?;
        }
        positive("all load on the arch", total, "N", "give a load")?;
        let angle = |x: f64| ((x - span / 2.0) / radius).clamp(-1.0, 1.0).asin();
        let half = angle(span);
        breaks.sort_by(f64::total_cmp);
        breaks.dedup_by(|a, b| (*a - *b).abs() < 1e-9 * span);
        let mut angles = vec![-half];
        for pair in breaks.windows(2) {
            let (from, to) = (angle(pair[0]), angle(pair[1]));
            let members = (MEMBERS * (to - from) / (2.0 * half)).ceil().max(2.0);
            angles.extend((1..=members as usize).map(|i| from + (to - from) * i as f64 / members));
        }
        let points: Vec<[f64; 2]> = angles
            .into_iter()
            .map(|angle| {
                let x = span / 2.0 + radius * angle.sin();
                let height = 2.0 * radius * ((half + angle) / 2.0).sin() * ((half - angle) / 2.0).sin();
                [x, height + lopsided * (2.0 * std::f64::consts::PI * x / span).sin()]
            })
            .collect();
        let mut down = vec![0.0; points.len()];
        for load in loads {
            match load {
                ArchLoad::Point { force, x } => {
                    let distance = |p: &[f64; 2]| (p[0] - x.value).abs();
                    let near =
                        points.iter().enumerate().min_by(|a, b| distance(a.1).total_cmp(&distance(b.1)));
                    if let Some((i, _)) = near {
                        down[i] += force.value / total;
                    }
                }
                ArchLoad::Uniform(load) => {
                    for (i, pair) in points.windows(2).enumerate() {
                        let share = load.value * (pair[1][0] - pair[0][0]) / (2.0 * total);
                        down[i] += share;
                        down[i + 1] += share;
                    }
                }
                ArchLoad::Warming(_) | ArchLoad::Spread(_) => {}
            }
        }
        let stiffness =
            Stiffness { axial: self.axial.value, bending: self.bending.value, shear: self.shear.value };
        let sideways = if self.pushes() {
            [self.hold.map_or(f64::INFINITY, |k| k.value); 2]
        } else {
            [f64::INFINITY, 0.0]
        };
        Ok((Chain::new(points, stiffness, sideways, self.ends == ArchEnds::Fixed, &down), total))
    }
}

impl LargeState {
    /// Horizontal push of each end, positive inwards on the arch.
    pub fn thrust(&self) -> Force {
        si(self.thrust)
    }

    /// Sag of the crown, positive down.
    pub fn crown_sag(&self) -> Length {
        si(self.crown_sag)
    }

    /// Moment at the crown, sagging positive.
    pub fn crown_moment(&self) -> Moment {
        si(self.moment)
    }

    /// Forces from left to right; twice where two members of the chain meet.
    pub fn stations(&self) -> &[Station] {
        &self.stations
    }
}

#[cfg(test)]
mod tests;

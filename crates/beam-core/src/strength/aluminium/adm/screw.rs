//! Tapping screws through one ply into another, ADM 2020 J.5.
//!
//! Safety 3.0 (resistance 0.5) holds for the whole joint: bearing, tilting, pull-out, pull-over, the screw itself.

use super::fastener::bearing;
use super::format::{Format, LimitState};
use crate::quantity::{Force, INCH, Length, Pressure, si};
use crate::strength::{Basis, Limit, OutOfRange, positive, within};

/// One ply of a screwed joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ply {
    /// Thickness.
    pub thickness: Length,
    /// Tensile ultimate strength.
    pub ftu: Pressure,
    /// Tensile yield strength.
    pub fty: Pressure,
}

/// Threads of a screw.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Thread {
    /// Machine thread (coarse), in a thread of its own cutting.
    Machine {
        /// Area of the internal thread that is stripped, per length of engagement, m2/m.
        internal_area: Length,
    },
    /// Spaced thread, with this pitch.
    Spaced {
        /// Distance between threads, 1/n.
        pitch: Length,
    },
}

/// One screw through the ply under its head into the ply behind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScrewJoint {
    /// Nominal diameter.
    pub diameter: Length,
    /// Ply under the head.
    pub head_ply: Ply,
    /// Ply behind it.
    pub far_ply: Ply,
    /// From the centre of the hole to the nearest edge that the force points at.
    pub edge: Length,
}

impl ScrewJoint {
    /// Shear of the joint, the least of bearing in both plies (`2 D t Ftu`, less near an edge) and, where the far ply
    /// is no thicker than the near one, tilting (`4.2 sqrt(t2^3 D) Ftu2`).
    ///
    /// # Valid for
    /// Edge distances from 1.5 D (from memory). The screw itself is judged by [`ScrewJoint::own`].
    ///
    /// # Errors
    /// [`OutOfRange`].
    ///
    /// # References
    /// ADM 2020, J.5.6; part VII, example 30.
    pub fn shear(&self, format: Format) -> Result<Limit<Force>, OutOfRange> {
        const RULE: &str = "ADM 2020 J.5, screw shear";
        let at = |p: &Ply| bearing(RULE, self.diameter, p.thickness, p.ftu, self.edge);
        let mut least = ("screw bearing", at(&self.head_ply)?);
        let far = at(&self.far_ply)?;
        if far < least.1 {
            least.1 = far;
        }
        let t2 = self.far_ply.thickness.value;
        if t2 <= self.head_ply.thickness.value {
            let tilting = 4.2 * (t2.powi(3) * self.diameter.value).sqrt() * self.far_ply.ftu.value;
            if tilting < least.1 {
                least = ("screw tilting", tilting);
            }
        }
        Ok(available(least.0, least.1, format, Basis::published(format!("{}, J.5", format.name()))))
    }

    /// Pull-over of a round or hexagon head: `C t1 Ftu1 (Dws - Dh)`. `washer` is the diameter under the head, `hole`
    /// that of the hole; `touching` says whether the plies touch at the screw (else 0.7).
    ///
    /// # Valid for
    /// `washer` of 5/16 in or more, larger than the hole.
    ///
    /// # Errors
    /// [`OutOfRange`].
    ///
    /// # References
    /// ADM 2020, J.5.5; part VII, example 30 (C = 1.0); 0.7 and 5/16 in from memory.
    pub fn pull_over(
        &self,
        washer: Length,
        hole: Length,
        touching: bool,
        format: Format,
    ) -> Result<Limit<Force>, OutOfRange> {
        const RULE: &str = "ADM 2020 J.5, pull-over";
        let hole = positive(RULE, "hole (m)", hole.value)?;
        let least = (5.0 / 16.0 * INCH).max(hole);
        let washer = within(RULE, "diameter under the head (m)", washer.value, least * (1.0 - 1e-9), 0.1)?;
        let t1 = positive(RULE, "thickness (m)", self.head_ply.thickness.value)?;
        let ftu = positive(RULE, "tensile ultimate strength (Pa)", self.head_ply.ftu.value)?;
        let (c, basis) = if touching {
            (1.0, Basis::published(format!("{}, J.5", format.name())))
        } else {
            (0.7, Basis::memory(format!("{}, J.5", format.name())))
        };
        Ok(available("pull-over", c * t1 * ftu * (washer - hole), format, basis))
    }

    /// Pull-out from the far ply, engaged over its whole thickness: a tapping point beyond it does not count.
    ///
    /// # Valid for
    /// Machine threads: engagement from 0.060 to 0.375 in; spaced threads: from 0.038 to 0.375 in. Thin plies hold by
    /// their **yield** strength.
    ///
    /// # Errors
    /// [`OutOfRange`].
    ///
    /// # References
    /// ADM 2020, J.5.4; part VII, example 30 (`Ks` 1.01); the other branches from memory.
    pub fn pull_out(&self, thread: Thread, format: Format) -> Result<Limit<Force>, OutOfRange> {
        const RULE: &str = "ADM 2020 J.5, pull-out";
        let d = positive(RULE, "diameter (m)", self.diameter.value)?;
        let fty = positive(RULE, "tensile yield strength (Pa)", self.far_ply.fty.value)?;
        let ftu = positive(RULE, "tensile ultimate strength (Pa)", self.far_ply.ftu.value)?;
        let engaged = |least: f64| {
            let (low, high) = (least * INCH * (1.0 - 1e-9), 0.375 * INCH * (1.0 + 1e-9));
            within(RULE, "thread engagement (m)", self.far_ply.thickness.value, low, high)
        };
        let (thick, nominal) = match thread {
            Thread::Machine { internal_area } => {
                let le = engaged(0.060)?;
                let asn = positive(RULE, "thread area per length (m2/m)", internal_area.value)?;
                let (eighth, quarter) = (0.125 * INCH, 0.25 * INCH);
                if le <= eighth {
                    (le >= 0.080 * INCH, thin_hold(le) * d * le * fty)
                } else if le <= quarter {
                    (true, 1.2 * d * fty * (quarter - le) + 1.16 * asn * ftu * (le - eighth))
                } else {
                    (true, 0.58 * asn * le * ftu)
                }
            }
            Thread::Spaced { pitch } => {
                let le = engaged(0.038)?;
                let pitch = positive(RULE, "thread pitch (m)", pitch.value)?;
                let nominal = if le <= 2.0 * pitch {
                    thin_hold(le) * d * le * fty
                } else if le < 4.0 * pitch {
                    1.2 * d * fty * (4.0 * pitch - le) + 3.26 * d * ftu * (le - 2.0 * pitch)
                } else {
                    1.63 * d * le * ftu
                };
                (true, nominal)
            }
        };
        let source = format!("{}, J.5", format.name());
        let basis = if thick { Basis::memory(source) } else { Basis::published(source) };
        Ok(available("pull-out", nominal, format, basis))
    }

    /// The screw itself, from its maker's ultimate shear or tension: less 1.25, then the factor of the joint.
    ///
    /// # Errors
    /// [`OutOfRange`] for a strength that is not above zero.
    ///
    /// # References
    /// ADM 2020, J.5; part VII, example 30.
    pub fn own(maker: Force, format: Format) -> Result<Limit<Force>, OutOfRange> {
        let strength = positive("ADM 2020 J.5, screw", "maker's strength (N)", maker.value)? / 1.25;
        Ok(available("screw", strength, format, Basis::published(format!("{}, J.5", format.name()))))
    }
}

/// `Ks`: 1.01 below 0.080 in of engagement, else 1.20.
fn thin_hold(engaged: f64) -> f64 {
    if engaged < 0.080 * INCH { 1.01 } else { 1.20 }
}

fn available(mode: &'static str, nominal: f64, format: Format, basis: Basis) -> Limit<Force> {
    Limit::new(mode, si(format.factor(LimitState::Screw) * nominal), basis)
}

#[cfg(test)]
mod tests {
    use super::super::alloy::samples::{KSI, printed};
    use super::*;

    const KIP: f64 = 4448.2216152605;

    /// Part VII, example 30: 1/4 in screw through 0.06 in (24 ksi) into 0.06 in of 5052-H32 (31, 23 ksi).
    fn example_30() -> ScrewJoint {
        let ply =
            |ftu: f64, fty: f64| Ply { thickness: si(0.06 * INCH), ftu: si(ftu * KSI), fty: si(fty * KSI) };
        ScrewJoint {
            diameter: si(0.25 * INCH),
            head_ply: ply(24.0, 15.0),
            far_ply: ply(31.0, 23.0),
            edge: si(1.0 * INCH),
        }
    }

    fn machine(asn: f64) -> Thread {
        Thread::Machine { internal_area: si(asn * INCH) }
    }

    /// As printed: bearing 0.24 and 0.31, tilting 0.32, pull-out 0.12, pull-over 0.16, tension 0.52, shear 0.31 kip.
    #[test]
    fn example_30_as_printed() {
        let joint = example_30();
        let kip = |l: Limit<Force>| l.value.value / KIP;
        printed(kip(joint.shear(Format::Asd).unwrap()), 0.24, 0.005);
        let strong = ScrewJoint { head_ply: Ply { ftu: si(90.0 * KSI), ..joint.head_ply }, ..joint };
        printed(kip(strong.shear(Format::Asd).unwrap()), 0.31, 0.006);
        // Tilting governs thinner far plies; at 0.06 in it is 0.319.
        printed(4.2 * (0.06f64.powi(3) * 0.25).sqrt() * 31.0 / 3.0, 0.32, 0.005);
        printed(kip(joint.pull_out(machine(0.5), Format::Asd).unwrap()), 0.12, 0.005);
        let over = joint.pull_over(si(0.625 * INCH), si(0.28125 * INCH), true, Format::Asd).unwrap();
        printed(kip(over), 0.16, 0.006);
        printed(kip(ScrewJoint::own(si(1.94 * KIP), Format::Asd).unwrap()), 0.52, 0.005);
        printed(kip(ScrewJoint::own(si(1.17 * KIP), Format::Asd).unwrap()), 0.31, 0.005);
    }

    /// Thin sheets tilt the screw: 0.03 in far ply, 4.2 sqrt(0.03^3 0.25) 31/3 = 0.1128 kip.
    #[test]
    fn thin_far_plies_tilt() {
        let joint = example_30();
        let thin = ScrewJoint { far_ply: Ply { thickness: si(0.03 * INCH), ..joint.far_ply }, ..joint };
        let shear = thin.shear(Format::Asd).unwrap();
        assert_eq!(shear.mode, "screw tilting");
        printed(shear.value.value / KIP, 0.11277, 0.0001);
        // A thicker far ply does not tilt.
        let thick = ScrewJoint { far_ply: Ply { thickness: si(0.07 * INCH), ..joint.far_ply }, ..joint };
        assert_eq!(thick.shear(Format::Asd).unwrap().mode, "screw bearing");
    }

    /// Machine thread: the branches meet at 1/8 in where Ks is 1.2 (1.2 D Fty/8 on both sides), and the last two at
    /// 1/4 in (0.145 Asn Ftu); out of range is refused.
    #[test]
    fn pull_out_branches_meet() {
        let at = |t: f64| {
            let joint = example_30();
            ScrewJoint { far_ply: Ply { thickness: si(t * INCH), ..joint.far_ply }, ..joint }
                .pull_out(machine(0.5), Format::Asd)
                .map(|l| l.value.value)
        };
        for edge in [0.125, 0.25] {
            let (below, above) = (at(edge - 1e-7).unwrap(), at(edge + 1e-7).unwrap());
            assert!((below / above - 1.0).abs() < 1e-4, "{edge}: {below} {above}");
        }
        assert!(at(0.05).is_err() && at(0.4).is_err());
    }

    #[test]
    fn spaced_thread_branches() {
        let pitch = 1.0 / 14.0;
        let at = |t: f64| {
            let joint = example_30();
            ScrewJoint { far_ply: Ply { thickness: si(t * INCH), ..joint.far_ply }, ..joint }
                .pull_out(Thread::Spaced { pitch: si(pitch * INCH) }, Format::Asd)
                .map(|l| l.value.value)
        };
        // By hand, kip: 1.01 D Le Fty/3 and 1.63 D Le Ftu/3.
        printed(at(0.06).unwrap() / KIP, 1.01 * 0.25 * 0.06 * 23.0 / 3.0, 1e-6);
        printed(at(0.3).unwrap() / KIP, 1.63 * 0.25 * 0.3 * 31.0 / 3.0, 1e-6);
        assert!(at(0.03).is_err());
    }

    #[test]
    fn heads_that_slip_through_are_refused() {
        let joint = example_30();
        assert!(joint.pull_over(si(0.25 * INCH), si(0.2 * INCH), true, Format::Asd).is_err());
        assert!(joint.pull_over(si(0.4 * INCH), si(0.5 * INCH), true, Format::Asd).is_err());
    }
}

//! A foot over a long slot in the foam, or beside it: a duct, a wire way, foam that is missing.
//!
//! ```text
//!        vvvvvvvvvvvv   foot, anywhere beside
//!   ==========================  skin (and a board that lies on it)
//!   :::::::::::|   |::::::::::  foam, the slot cut right through it or part of its depth
//!   :::::::::::|   |::::::::::
//!   --------------------------  lower skin that moves, or a bed that does not
//!              x = 0
//! ```
//!
//! Along the slot everything goes in waves `cos(eta y)`; the section square to it is solved for a dozen of them
//! ([`wave`]). What a wave does is smooth in `asinh(eta/eta_0)`, so that Chebyshev's polynomial through those gives every
//! other wave, and a sum over waves gives a patch of any length.
//!
//! The slot has no end here. Where it ends the skin finds a third side to rest on: the long slot lets it sink more.
//!
//! # References
//! Finite strip method (Cheung 1976, from memory), the section by quadratic finite elements. Held against
//! [`super::indent`] without a slot, closed forms over rigid lips, and solids (`tests/second_route/slots.py`).

mod mesh;
mod profile;
mod wave;

use super::error::{LocalError, positive};
use super::field::PlateD;
use super::layer::Layer;
use super::under::{Bed, Below};
use mesh::Mesh;
use rayon::prelude::*;
use std::f64::consts::PI;
use wave::{Read, Section};

/// A slot in the foam, its sides square to x.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Void {
    /// Clear width, m; 0 where there is none.
    pub width: f64,
    /// From and to which share of the foam's depth it is cut, counted from below.
    pub cut: [f64; 2],
}

impl Void {
    /// Whether foam is left on the upper skin.
    pub(crate) fn leaves_foam_above(&self) -> bool {
        self.cut[1] < 1.0
    }
}

/// A uniform patch over or beside the slot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct SlotPatch {
    /// Total force, N.
    pub load: f64,
    /// Size square to the slot, m.
    pub across: f64,
    /// Size along it, m.
    pub along: f64,
    /// Its middle, from the middle of the slot, m; at or over 0.
    pub middle: f64,
}

/// What all patches have in common, SI.
#[derive(Debug, Clone)]
pub(crate) struct SlotCase<'a> {
    /// The upper skin first, then boards lying on it; 11 is square to the slot.
    pub plates: &'a [PlateD],
    pub foam: Layer,
    pub below: Below,
    pub void: Void,
}

/// The worst that one patch does, SI.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct SlotDent {
    /// Largest pressure on the foam, at a lip its mean over a bead.
    pub foam_stress: f64,
    /// Largest moments of each plate, square to the slot and along it, either sign, N.
    pub moments: Vec<[f64; 2]>,
    /// Largest tension in foam that is left on the upper skin over the slot.
    pub stretch: f64,
}

/// How fine things are cut.
#[derive(Debug, Clone, Copy)]
struct Fineness {
    /// Waves that are solved.
    waves: usize,
    /// The shortest, in lengths of the skin.
    shortest: f64,
    /// Cells are cut by this.
    cells: f64,
    /// How far beyond the patches the section goes on, in lengths over which the dent fades.
    fade: f64,
}

const FINENESS: Fineness = Fineness { waves: 13, shortest: 8.0, cells: 1.0, fade: 16.0 };
/// Half the distance of the images along the slot, m.
const IMAGES: f64 = 2.5;
/// Places looked at along half a patch, and beyond it.
const LOOKS: [usize; 2] = [12, 5];

/// What each patch does.
///
/// # Errors
/// [`LocalError::OutOfRange`].
pub(crate) fn dents(case: &SlotCase<'_>, patches: &[SlotPatch]) -> Result<Vec<SlotDent>, LocalError> {
    dents_by(case, patches, FINENESS)
}

fn dents_by(
    case: &SlotCase<'_>,
    patches: &[SlotPatch],
    fineness: Fineness,
) -> Result<Vec<SlotDent>, LocalError> {
    let Some(total) = case.plates.iter().copied().reduce(|a, b| a + b) else {
        return Err(LocalError::OutOfRange {
            quantity: "number of plates over the slot",
            value: 0.0,
            allowed: "at least the skin: nothing carries over a slot without one",
        });
    };
    for p in patches {
        positive("load of the foot (N)", p.load)?;
        positive("size of the foot across (m)", p.across)?;
        positive("size of the foot along (m)", p.along)?;
    }
    let foam = Layer::new(case.foam.e, case.foam.nu, case.foam.depth)?;
    let fade = Bed::new(&foam, case.below)?.fade(total.d11.max(total.d22));
    let length = |d: f64| {
        let winkler = (d / foam.wide()).powf(0.25);
        (winkler.min((d / foam.short_slope()).cbrt()), winkler.max(fade))
    };
    let skin = case.plates[0];
    let ((fine, reach), (fine_along, reach_along)) = (length(skin.d11), length(total.d22));
    let fine_along = fine_along.min(length(skin.d22).0);
    let reach = reach.max(length(total.d11).1).max(reach_along);
    let ends = |sign: f64| {
        patches.iter().map(|p| sign * p.middle + p.across / 2.0).fold(case.void.width / 2.0, f64::max)
    };
    let cell = (0.6 * fine).clamp(0.003, 0.020);
    let mesh = Mesh::new(
        &case.void,
        foam.depth,
        [ends(-1.0), ends(1.0)],
        fineness.fade * reach,
        cell,
        fineness.cells,
    );
    let section = Section { mesh: &mesh, foam, below: case.below, plates: case.plates };
    let shortest = fineness.shortest / fine_along;
    let waves = Waves::new(fineness.waves, 1.0 / reach.max(case.void.width).max(0.02), shortest);
    // Patches that differ in length alone are one load.
    let mut loads: Vec<[f64; 2]> = Vec::new();
    let which: Vec<usize> = patches
        .iter()
        .map(|p| {
            let ends = [p.middle - p.across / 2.0, p.middle + p.across / 2.0];
            loads.iter().position(|l| *l == ends).unwrap_or_else(|| {
                loads.push(ends);
                loads.len() - 1
            })
        })
        .collect();
    let loaded: Vec<Vec<f64>> = loads.iter().map(|[a, b]| section.load(*a, *b)).collect();
    let solved: Vec<Vec<Vec<f64>>> = waves
        .eta
        .par_iter()
        .map(|&eta| {
            let factor = section.factor(eta)?;
            Ok(loaded
                .iter()
                .map(|f| {
                    let mut x = f.clone();
                    factor.solve(&mut x);
                    section.read(eta, &x)
                })
                .collect())
        })
        .collect::<Result<_, LocalError>>()?;
    let reads = section.reads();
    let plates = case.plates.len();
    Ok(patches
        .iter()
        .zip(which)
        .map(|(p, load)| {
            let of: Vec<&[f64]> = solved.iter().map(|wave| wave[load].as_slice()).collect();
            worst(p, &of, &reads, plates, &waves, fine_along)
        })
        .collect())
}

/// The largest of everything that is read under one patch.
fn worst(
    patch: &SlotPatch,
    waves: &[&[f64]],
    reads: &[Read],
    plates: usize,
    grid: &Waves,
    fine: f64,
) -> SlotDent {
    let mut out = SlotDent { foam_stress: 0.0, moments: vec![[0.0; 2]; plates], stretch: 0.0 };
    let half = patch.along / 2.0;
    let inside = (0..=LOOKS[0]).map(|i| half * i as f64 / LOOKS[0] as f64);
    let beyond = (1..=LOOKS[1]).map(|i| half + 1.5 * fine * i as f64 / LOOKS[1] as f64);
    let pressure = patch.load / (patch.across * patch.along);
    let means = reads.iter().filter_map(|r| if let Read::AtLip(n, _) = r { Some(n + 1) } else { None });
    let mut lips = vec![0.0; means.max().unwrap_or(0)];
    // What is no number stays none.
    let keep = |most: &mut f64, v: f64| *most = if v.is_nan() || v > *most { v } else { *most };
    for y in inside.chain(beyond) {
        let shares = grid.shares(y, patch.along);
        lips.iter_mut().for_each(|l| *l = 0.0);
        for (n, read) in reads.iter().enumerate() {
            let v = pressure * waves.iter().zip(&shares).map(|(wave, share)| wave[n] * share).sum::<f64>();
            match read {
                Read::Moment(plate, d) => keep(&mut out.moments[*plate][*d], v.abs()),
                Read::Press => keep(&mut out.foam_stress, v),
                Read::AtLip(mean, share) => lips[*mean] += share * v,
                Read::Stretch(_) => keep(&mut out.stretch, v),
            }
        }
        lips.iter().for_each(|v| keep(&mut out.foam_stress, *v));
    }
    out
}

/// The waves that are solved, and what stands between them.
struct Waves {
    /// Chebyshev's points in `asinh(eta/eta_0)`, the longest wave first.
    eta: Vec<f64>,
    /// All waves that are summed, and of each the share that every solved one has in it.
    all: Vec<(f64, Vec<f64>)>,
}

impl Waves {
    fn new(count: usize, longest: f64, shortest: f64) -> Waves {
        let end = (shortest / longest).asinh();
        let nodes: Vec<f64> =
            (0..count).map(|i| end / 2.0 * (1.0 - (PI * i as f64 / (count - 1) as f64).cos())).collect();
        let eta = nodes.iter().map(|s| longest * s.sinh()).collect();
        let step = PI / IMAGES;
        let all = (0..=(shortest / step).floor() as usize)
            .map(|i| {
                let at = (i as f64 * step / longest).asinh();
                (i as f64 * step, barycentric(&nodes, at))
            })
            .collect();
        Waves { eta, all }
    }

    /// Share of each solved wave in what a patch of this length does at `y` along it, per pressure.
    fn shares(&self, y: f64, along: f64) -> Vec<f64> {
        let step = PI / IMAGES;
        let mut out = vec![0.0; self.eta.len()];
        for (eta, share) in &self.all {
            let half = eta * along / 2.0;
            let sinc = if half < 1e-8 { 1.0 } else { half.sin() / half };
            let weight = if *eta == 0.0 { step / 2.0 } else { step };
            let c = weight / PI * along * sinc * (eta * y).cos();
            out.iter_mut().zip(share).for_each(|(o, s)| *o += c * s);
        }
        out
    }
}

/// Weights of the values at Chebyshev's extreme points in the polynomial through them, at a place.
fn barycentric(nodes: &[f64], at: f64) -> Vec<f64> {
    if let Some(hit) = nodes.iter().position(|n| (n - at).abs() < 1e-12) {
        return (0..nodes.len()).map(|i| if i == hit { 1.0 } else { 0.0 }).collect();
    }
    let last = nodes.len() - 1;
    let terms: Vec<f64> = nodes
        .iter()
        .enumerate()
        .map(|(i, n)| {
            let end = if i == 0 || i == last { 0.5 } else { 1.0 };
            let sign = if i % 2 == 0 { 1.0 } else { -1.0 };
            end * sign / (at - n)
        })
        .collect();
    let sum: f64 = terms.iter().sum();
    terms.into_iter().map(|t| t / sum).collect()
}

#[cfg(test)]
mod tests;

//! A stack of layers as one plate: stretching, bending, their coupling, and transverse shear.
//!
//! ```text
//!     z ^   +-----------------------+  z_top of the last layer     x across the roof (the span)
//!       |   |  outer skin           |                              y along the vehicle
//!       |   |- - - - - - - - - - - -|
//!       |   |  core                 |
//!     0 |   |  inner skin           |  z = 0 is ONE plane for the whole roof: a zone with a layer gone
//!           +-----------------------+  keeps the heights of what is left
//! ```
//!
//! Layers that are bonded, or that touch, form a *stack*. A face that is loose, or a gap, ends one: the
//! stacks then share the sag and the turn of the plate but slip on one another. The stack that is stiffest
//! in bending carries stretch (A, B) and shear; each of the others adds only its own bending about its own
//! neutral plane, and takes its part of the shear force as it takes its part of the moment.
//!
//! A *void* (a duct, a slot, foam cut out) is another thing: the stacks above and below it are joined again at
//! its sides, so all of them carry stretch, and across the void they pass shear by their own bending, like the
//! posts and beams of a Vierendeel girder. [`Laminate::over_void`] is for these.

use super::error::SectionError;
use super::ortho::Ortho;
use super::shear::{ShearProfile, Slice, shear_profile};
use crate::quantity::{Curvature, Force, ForcePerLength, Length, Moment, Pressure, Ratio, positive, si};

/// One layer, its moduli already turned to the roof: x across, y along.
///
/// Ply with its grain along y has the moduli along and across the grain swapped.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layer {
    /// Height of its lower face.
    pub z_bottom: Length,
    /// Height of its upper face.
    pub z_top: Length,
    /// Stretching modulus across.
    pub e_x: Pressure,
    /// Stretching modulus along.
    pub e_y: Pressure,
    /// Poisson's ratio: shortening along y per lengthening along x.
    pub nu_xy: Ratio,
    /// In-plane shear modulus.
    pub g_xy: Pressure,
    /// Transverse shear modulus, x-z.
    pub g_xz: Pressure,
    /// Transverse shear modulus, y-z.
    pub g_yz: Pressure,
    /// Bending moduli across and along where they differ from the stretching ones (plywood).
    pub flexural: Option<[Pressure; 2]>,
    /// Whether its own direct stress counts; a hot or long-loaded foam's does not.
    pub direct: bool,
    /// Whether it is bonded to the layer below. The lowest layer's is not read.
    pub bonded_below: bool,
}

/// [`Layer`] in m and Pa.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct LayerSi {
    pub(crate) z_bottom: f64,
    pub(crate) z_top: f64,
    pub(crate) e_x: f64,
    pub(crate) e_y: f64,
    pub(crate) nu_xy: f64,
    pub(crate) g_xy: f64,
    pub(crate) g_xz: f64,
    pub(crate) g_yz: f64,
    pub(crate) flexural: Option<[f64; 2]>,
    pub(crate) direct: bool,
    pub(crate) bonded_below: bool,
}

impl From<&Layer> for LayerSi {
    fn from(layer: &Layer) -> Self {
        Self {
            z_bottom: layer.z_bottom.value,
            z_top: layer.z_top.value,
            e_x: layer.e_x.value,
            e_y: layer.e_y.value,
            nu_xy: layer.nu_xy.value,
            g_xy: layer.g_xy.value,
            g_xz: layer.g_xz.value,
            g_yz: layer.g_yz.value,
            flexural: layer.flexural.map(|pair| pair.map(|e| e.value)),
            direct: layer.direct,
            bonded_below: layer.bonded_below,
        }
    }
}

/// Direct and in-plane shear stress `[x, y, xy]` in one layer, tension positive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LayerStress {
    /// At its lower face.
    pub bottom: [Pressure; 3],
    /// At its middle: the membrane part.
    pub middle: [Pressure; 3],
    /// At its upper face.
    pub top: [Pressure; 3],
}

/// A stack of layers as one plate.
///
/// # Examples
/// Bending and shear stiffness of 3 mm faces on 40 mm of foam, per width; Allen's `E t d2/2` and `G d2/c`
/// (Analysis and Design of Structural Sandwich Panels, 1969, from memory) give 38.8 kN m and 115.6 kN/m.
/// ```
/// use beam_core::quantity::{si, Pressure};
/// use beam_core::section::{Laminate, Layer};
///
/// let layer = |bottom: f64, top: f64, e: f64, g: f64| Layer {
///     z_bottom: si(bottom), z_top: si(top),
///     e_x: si(e), e_y: si(e), nu_xy: si(0.0), g_xy: si(g), g_xz: si(g), g_yz: si(g),
///     flexural: None, direct: true, bonded_below: true,
/// };
/// let panel = Laminate::new(&[
///     layer(-0.023, -0.020, 7.0e9, 2.5e9),
///     layer(-0.020, 0.020, 5.0e6, 2.5e6),
///     layer(0.020, 0.023, 7.0e9, 2.5e9),
/// ])?;
/// assert!((panel.bending()[0][0].value - 19.4e3).abs() < 100.0);
/// assert!((panel.shear_stiffness_x().value - 115.6e3).abs() < 600.0);
/// # Ok::<(), beam_core::section::SectionError>(())
/// ```
#[derive(Debug, Clone)]
pub struct Laminate {
    layers: Vec<LayerSi>,
    stacks: Vec<Stack>,
    carrying: usize,
    /// Size of the void across and along, m.
    void: Option<[f64; 2]>,
    a: Ortho,
    b: Ortho,
    d: Ortho,
}

/// Layers that move as one; fields per width about z = 0.
#[derive(Debug, Clone)]
struct Stack {
    layers: std::ops::Range<usize>,
    a: Ortho,
    b: Ortho,
    /// Bending stiffness free of in-plane force.
    own: Ortho,
    shear_x: ShearProfile,
    shear_y: ShearProfile,
}

impl Laminate {
    /// A laminate from its layers, lowest first.
    ///
    /// # Errors
    /// No layer; a thickness or modulus not above 0; Poisson's ratio outside `nu^2 < e_x/e_y`; layers that
    /// overlap or are out of order; a stack none of whose layers carries direct stress.
    pub fn new(layers: &[Layer]) -> Result<Self, SectionError> {
        Self::from_si(layers.iter().map(LayerSi::from).collect())
    }

    /// The layers above and below a void of the given size across and along; the void is the gap between two.
    ///
    /// Shear stiffness of a direction is `12 sum(EI) / size^2` with that direction's size of the void: a wide
    /// void passes next to none.
    ///
    /// # Valid for
    /// Voids longer than the panel is thick; for shorter ones the sound panel's own stiffness is nearer.
    ///
    /// # Errors
    /// As [`Laminate::new`]; a size not above 0; no gap between any two layers.
    ///
    /// # References
    /// Fixed-ended beams side by side (Vierendeel girder), textbook statics.
    pub fn over_void(layers: &[Layer], size: [Length; 2]) -> Result<Self, SectionError> {
        Self::over_void_si(layers.iter().map(LayerSi::from).collect(), size.map(|l| l.value))
    }

    /// [`Laminate::over_void`] from SI numbers.
    pub(crate) fn over_void_si(layers: Vec<LayerSi>, size: [f64; 2]) -> Result<Self, SectionError> {
        for (what, value) in ["across", "along"].into_iter().zip(size) {
            positive(format!("size of the void {what}"), value, "m", "measure it")?;
        }
        let mut laminate = Self::from_si(layers)?;
        if laminate.stacks.len() < 2 {
            return Err(SectionError::out_of_range(
                "number of gaps between layers",
                0.0,
                "",
                "at least 1",
                "leave the layer that is missing out, keeping the heights of the others",
            ));
        }
        laminate.void = Some(size);
        [laminate.a, laminate.b, laminate.d] = [Ortho::default(); 3];
        for s in &laminate.stacks {
            laminate.a = laminate.a.plus(s.a, 1.0);
            laminate.b = laminate.b.plus(s.b, 1.0);
            laminate.d = laminate.d.plus(s.about_reference(), 1.0);
        }
        Ok(laminate)
    }

    /// [`Laminate::new`] from SI numbers.
    pub(crate) fn from_si(layers: Vec<LayerSi>) -> Result<Self, SectionError> {
        check(&layers)?;
        let mut stacks = Vec::new();
        let mut start = 0;
        for i in 1..=layers.len() {
            if i == layers.len() || !joined(&layers[i - 1], &layers[i]) {
                stacks.push(Stack::new(&layers, start..i)?);
                start = i;
            }
        }
        let stiffness = |s: &Stack| s.own.xx + s.own.yy;
        let carrying =
            (0..stacks.len()).max_by(|i, j| stiffness(&stacks[*i]).total_cmp(&stiffness(&stacks[*j])));
        let Some(carrying) = carrying else {
            return Err(SectionError::NothingCarries { layers: layers.len() });
        };
        let main = &stacks[carrying];
        let (a, b) = (main.a, main.b);
        let d = stacks
            .iter()
            .enumerate()
            .filter(|(i, _)| *i != carrying)
            .fold(main.about_reference(), |d, (_, s)| d.plus(s.own, 1.0));
        Ok(Self { layers, a, b, d, stacks, carrying, void: None })
    }

    /// Stretching stiffness A, rows and columns x, y, xy.
    pub fn membrane(&self) -> [[ForcePerLength; 3]; 3] {
        self.a.matrix().map(|row| row.map(si))
    }

    /// Coupling B between stretch and bending about z = 0.
    pub fn coupling(&self) -> [[Force; 3]; 3] {
        self.b.matrix().map(|row| row.map(si))
    }

    /// Bending stiffness D about z = 0 per width, in-plane movement held.
    pub fn bending(&self) -> [[Moment; 3]; 3] {
        self.d.matrix().map(|row| row.map(si))
    }

    /// Bending stiffness per width where nothing holds the plate in its plane: `D - B inv(A) B`.
    pub fn bending_free(&self) -> [[Moment; 3]; 3] {
        self.bending_free_si().matrix().map(|row| row.map(si))
    }

    /// Transverse shear stiffness per width across, by energy; for thin skins `G d2/c`.
    pub fn shear_stiffness_x(&self) -> ForcePerLength {
        si(self.shear_si()[0])
    }

    /// Transverse shear stiffness per width along, by energy.
    pub fn shear_stiffness_y(&self) -> ForcePerLength {
        si(self.shear_si()[1])
    }

    /// Largest transverse shear stress in each layer under shear forces per width `[across, along]`,
    /// each direction by itself: `[x-z, y-z]` per layer.
    pub fn shear_stress(&self, force: [ForcePerLength; 2]) -> Vec<[Pressure; 2]> {
        self.shear_factors()
            .into_iter()
            .map(|peak| [si(peak[0] * force[0].value), si(peak[1] * force[1].value)])
            .collect()
    }

    /// Stresses of layer `index` (lowest first) from the strain at z = 0 and the curvature, each `[x, y, xy]`.
    ///
    /// The strain at height z is `strain + z curvature`; a sagging roof has a negative x curvature.
    /// `None` where there is no such layer.
    pub fn layer_stress(
        &self,
        index: usize,
        strain: [Ratio; 3],
        curvature: [Curvature; 3],
    ) -> Option<LayerStress> {
        let [bottom, middle, top] =
            self.layer_stress_si(index, strain.map(|e| e.value), curvature.map(|k| k.value))?;
        Some(LayerStress { bottom: bottom.map(si), middle: middle.map(si), top: top.map(si) })
    }

    /// A, B, D about z = 0, SI.
    pub(crate) fn abd_si(&self) -> [Ortho; 3] {
        [self.a, self.b, self.d]
    }

    /// `D - B inv(A) B`, SI.
    pub(crate) fn bending_free_si(&self) -> Ortho {
        Ortho::bending_free(self.a, self.b, self.d)
    }

    /// Shear stiffness per width `[across, along]`, N/m.
    pub(crate) fn shear_si(&self) -> [f64; 2] {
        let main = &self.stacks[self.carrying];
        match self.void {
            Some([across, along]) => {
                let own = self.own();
                [12.0 * own.xx / (across * across), 12.0 * own.yy / (along * along)]
            }
            None => [main.shear_x.stiffness, main.shear_y.stiffness],
        }
    }

    /// Largest shear stress per shear force per width, per layer: `[x-z, y-z]`, 1/m.
    pub(crate) fn shear_factors(&self) -> Vec<[f64; 2]> {
        let total = self.own();
        self.stacks
            .iter()
            .flat_map(|s| {
                let share = [s.own.xx / total.xx, s.own.yy / total.yy];
                let peaks = s.shear_x.peak.iter().zip(&s.shear_y.peak);
                peaks.map(move |(x, y)| [x * share[0], y * share[1]])
            })
            .collect()
    }

    /// `[bottom, middle, top]` stresses `[x, y, xy]` of a layer, Pa.
    pub(crate) fn layer_stress_si(
        &self,
        index: usize,
        strain: [f64; 3],
        curvature: [f64; 3],
    ) -> Option<[[f64; 3]; 3]> {
        let layer = self.layers.get(index)?;
        let at = self.stacks.iter().position(|s| s.layers.contains(&index))?;
        let base = if at == self.carrying || self.void.is_some() {
            strain
        } else {
            let stack = &self.stacks[at];
            stack.a.solve(stack.b.times(curvature)).map(|e| -e)
        };
        let (stretch, bend) = layer.stiffness();
        let middle_height = (layer.z_bottom + layer.z_top) / 2.0;
        let half = (layer.z_top - layer.z_bottom) / 2.0;
        let middle = stretch.times([0, 1, 2].map(|i| base[i] + middle_height * curvature[i]));
        let local = bend.times(curvature.map(|k| k * half));
        Some([-1.0, 0.0, 1.0].map(|side| [0, 1, 2].map(|i| middle[i] + side * local[i])))
    }

    /// Bending moments per width at the sides of a void in each stack, lowest first, under shear forces per
    /// width `[across, along]`: `Q size/2`, shared as the stacks' own stiffness. Empty where there is no void.
    ///
    /// They come on top of [`Laminate::layer_stress`].
    pub fn void_moments(&self, force: [ForcePerLength; 2]) -> Vec<[Force; 2]> {
        self.void_moments_si(force.map(|q| q.value)).into_iter().map(|pair| pair.map(si)).collect()
    }

    /// [`Laminate::void_moments`] from SI numbers, N m per m.
    pub(crate) fn void_moments_si(&self, force: [f64; 2]) -> Vec<[f64; 2]> {
        let Some(size) = self.void else {
            return Vec::new();
        };
        let total = self.own();
        self.stacks
            .iter()
            .map(|s| {
                let share = [s.own.xx / total.xx, s.own.yy / total.yy];
                [0, 1].map(|i| force[i] * size[i] / 2.0 * share[i])
            })
            .collect()
    }

    /// Bending stiffness of all stacks, each by itself.
    fn own(&self) -> Ortho {
        self.stacks.iter().fold(Ortho::default(), |sum, s| sum.plus(s.own, 1.0))
    }

    /// Heights of the lower and upper face of each layer, lowest first.
    pub fn heights(&self) -> Vec<[Length; 2]> {
        self.layers.iter().map(|layer| [si(layer.z_bottom), si(layer.z_top)]).collect()
    }
}

impl LayerSi {
    /// Plane-stress stiffness for stretching, and for the layer's own bending; zero where it is not counted.
    fn stiffness(&self) -> (Ortho, Ortho) {
        if !self.direct {
            return (Ortho::default(), Ortho::default());
        }
        let [f_x, f_y] = self.flexural.unwrap_or([self.e_x, self.e_y]);
        (
            Ortho::plane_stress(self.e_x, self.e_y, self.nu_xy, self.g_xy),
            // Poisson's ratio follows the stiffness across, so that the matrix stays positive.
            Ortho::plane_stress(f_x, f_y, self.nu_xy * (self.e_y / self.e_x * f_x / f_y).sqrt(), self.g_xy),
        )
    }
}

impl Stack {
    fn new(all: &[LayerSi], layers: std::ops::Range<usize>) -> Result<Self, SectionError> {
        let own = &all[layers.clone()];
        let [mut a, mut b, mut d] = [Ortho::default(); 3];
        for layer in own {
            let (stretch, bend) = layer.stiffness();
            let thick = layer.z_top - layer.z_bottom;
            let middle = (layer.z_top + layer.z_bottom) / 2.0;
            a = a.plus(stretch, thick);
            b = b.plus(stretch, thick * middle);
            d = d.plus(stretch, thick * middle * middle).plus(bend, thick.powi(3) / 12.0);
        }
        let profile = |slice: fn(&LayerSi) -> (f64, f64)| {
            let slices: Vec<Slice> = own
                .iter()
                .map(|layer| {
                    let (q, g) = slice(layer);
                    Slice { z: [layer.z_bottom, layer.z_top], q, g }
                })
                .collect();
            shear_profile(&slices).ok_or(SectionError::NothingCarries { layers: own.len() })
        };
        let shear_x = profile(|l| (l.stiffness().0.xx, l.g_xz))?;
        let shear_y = profile(|l| (l.stiffness().0.yy, l.g_yz))?;
        Ok(Self { layers, a, b, own: Ortho::bending_free(a, b, d), shear_x, shear_y })
    }

    /// Bending stiffness about z = 0.
    fn about_reference(&self) -> Ortho {
        self.own.plus(Ortho::bending_free(self.a, self.b, Ortho::default()), -1.0)
    }
}

/// Two neighbours that act together: bonded, and no gap between them.
fn joined(below: &LayerSi, above: &LayerSi) -> bool {
    above.bonded_below && above.z_bottom - below.z_top < 1e-6
}

fn check(layers: &[LayerSi]) -> Result<(), SectionError> {
    for (i, layer) in layers.iter().enumerate() {
        let name = |what: &str| format!("layer {} {what}", i + 1);
        let leave_out = "leave a layer that carries nothing out";
        positive(
            name("thickness"),
            layer.z_top - layer.z_bottom,
            "m",
            "give the upper face above the lower",
        )?;
        for (what, value) in [
            ("modulus across", layer.e_x),
            ("modulus along", layer.e_y),
            ("in-plane shear modulus", layer.g_xy),
            ("shear modulus x-z", layer.g_xz),
            ("shear modulus y-z", layer.g_yz),
        ] {
            positive(name(what), value, "Pa", leave_out)?;
        }
        for value in layer.flexural.into_iter().flatten() {
            positive(name("bending modulus"), value, "Pa", leave_out)?;
        }
        let stable = layer.nu_xy.powi(2) < layer.e_x / layer.e_y;
        if !stable {
            return Err(SectionError::out_of_range(
                name("Poisson's ratio"),
                layer.nu_xy,
                "",
                format!("below {:.4} in size", (layer.e_x / layer.e_y).sqrt()),
                "it belongs to the direction across; along it is nu e_y/e_x",
            ));
        }
        if i > 0 && layer.z_bottom < layers[i - 1].z_top - 1e-6 {
            return Err(SectionError::out_of_range(
                name("lower face"),
                layer.z_bottom,
                "m",
                format!("{:.6} m or above, the top of the layer below", layers[i - 1].z_top),
                "give the layers lowest first",
            ));
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests;

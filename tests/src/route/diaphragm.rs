//! A crowned panel between diaphragms: its edges are kept from moving along themselves and free to move square to
//! themselves, as no wall of a roof does. There the crown has a closed answer under one wave of pressure.
//!
//! The library's edges are free in their plane; a hem a tenth of a millimetre wide, too stiff to stretch along the edge and
//! soft across it, makes the diaphragm.

use beam_core::plate::{
    Edge, Grid, PlateError, PlateLaminate, PlateModel, PlateSystem, Supports, arc_height,
};

use super::plate::wave;
use super::{unknown, words};
use crate::inputs::Inputs;

const HEM: f64 = 1e-4;

struct Crowned {
    size: [f64; 2],
    rise: f64,
    /// Bending and shear stiffness, modulus times thickness of both skins, Poisson's ratio.
    d: f64,
    s: f64,
    eh: f64,
    nu: f64,
    q: f64,
}

pub(super) fn crowned(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let panel = Crowned {
        size: [inputs.si("a")?, inputs.si("b")?],
        rise: inputs.si("rise")?,
        d: inputs.si("D")?,
        s: inputs.si("S")?,
        eh: inputs.si("Eh")?,
        nu: inputs.si("nu")?,
        q: inputs.si("wave")?,
    };
    if quantity != "sag at the centre" {
        return Err(unknown(quantity));
    }
    let [coarse, fine] = [10, 20].map(|cells| panel.sag(cells));
    Ok((4.0 * fine.map_err(words)? - coarse.map_err(words)?) / 3.0)
}

impl Crowned {
    fn sag(&self, cells: usize) -> Result<f64, PlateError> {
        let lines = |length: f64| -> Vec<f64> {
            let inner = (0..=cells).map(|i| HEM + (length - 2.0 * HEM) * i as f64 / cells as f64);
            std::iter::once(0.0).chain(inner).chain([length]).collect()
        };
        let [a, b] = self.size;
        let (x, y) = (lines(a), lines(b));
        let isotropic = |k: f64| {
            let nu = self.nu;
            [[k, nu * k, 0.0], [nu * k, k, 0.0], [0.0, 0.0, (1.0 - nu) / 2.0 * k]]
        };
        let membrane = self.eh / (1.0 - self.nu * self.nu);
        let hem = |across: f64, along: f64| {
            let diagonal = [membrane * across, membrane * along, membrane * 1e-3];
            [0, 1, 2].map(|i| [0, 1, 2].map(|j| if i == j { diagonal[i] } else { 0.0 }))
        };
        let laminate = |a| PlateLaminate {
            a,
            b: [[0.0; 3]; 3],
            d: isotropic(self.d),
            ks: [self.s; 2],
            layers: Vec::new(),
        };
        let zone = |x: f64, y: f64| {
            let beside = |at: f64, length: f64| at < HEM || at > length - HEM;
            Some(if beside(x, a) { 1 } else { 2 * usize::from(beside(y, b)) })
        };
        let system = PlateSystem::new(PlateModel {
            grid: Grid::new(x.clone(), y.clone(), zone)?,
            laminates: vec![
                laminate(isotropic(membrane)),
                laminate(hem(1e-3, 1e9)),
                laminate(hem(1e9, 1e-3)),
            ],
            rise: x.iter().map(|&x| arc_height(a, self.rise, x)).collect(),
            braces: Vec::new(),
            supports: Supports::all_round(Edge::Hard),
        })?;
        let response = system.solve(&system.load(&wave(self.q, &x, &y))?)?;
        Ok(response.sag(a / 2.0, b / 2.0).unwrap_or(f64::NAN))
    }
}

//! A panel of equal skins on foam under one half wave of pressure each way: where exact elasticity has an answer.
//!
//! ```text
//!   push on the upper skin   =   half on both, downwards   +   half on each, towards the other
//!   vvvvvvv                      vvvvvv                        vvvvvv
//!   =======                      ======                        ======
//!   :::::::                      ::::::  the panel sags        ::::::  the foam is dented
//!   =======                      ======                        ======
//!                                vvvvvv                        ^^^^^^
//! ```
//!
//! The first half is the two-way roof's, the second that of the foam layer under its skin.

use beam_core::local::layer::{FarSide, layer_stiffness};
use beam_core::quantity::si;
use beam_core::section::{Laminate, Layer};
use std::f64::consts::PI;

use super::plate::{Edges, Panel, Pushed, Read};
use super::{unknown, words};
use crate::inputs::Inputs;

pub(super) fn layers(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let (t, c) = (inputs.si("tf")?, inputs.si("c")?);
    let (half, top) = (c / 2.0, c / 2.0 + t);
    let laminate = Laminate::new(&[
        layer(inputs, "f", [-top, -half])?,
        layer(inputs, "c", [-half, half])?,
        layer(inputs, "f", [half, top])?,
    ])
    .map_err(words)?;
    let d = laminate.bending_free().map(|row| row.map(|v| v.value));
    let own = [laminate.shear_stiffness_x(), laminate.shear_stiffness_y()].map(|s| s.value);
    let s = [inputs.maybe("S13")?.unwrap_or(own[0]), inputs.maybe("S23")?.unwrap_or(own[1])];
    let (size, q) = ([inputs.si("a")?, inputs.si("b")?], inputs.si("wave")?);
    let panel = Panel {
        size,
        d: [d[0][0], d[0][1], d[1][1], d[2][2]],
        s,
        load: Pushed::Wave(q),
        edges: Edges::Hard,
        brace: None,
        opening: None,
    };
    let read = panel.read()?;
    Ok(match quantity {
        "sag of the loaded skin" => read.sag_centre + dent(inputs, size, q)? / 2.0,
        "sag of the far skin" => read.sag_centre - dent(inputs, size, q)? / 2.0,
        "100 w E2 h3/(q a4)" => {
            100.0 * read.sag_centre * inputs.si("Ef2")? * (2.0 * top).powi(3) / (q * size[0].powi(4))
        }
        "shear stress of the core, h/(q a)" => {
            let stress = laminate.shear_stress([si(read.edge[0]), si(0.0)]);
            stress[1][0].value * 2.0 * top / (q * size[0])
        }
        "outer fibre of the loaded skin" => outer_fibre(&laminate, &d, &read)?,
        "outer fibre of the loaded skin, h2/(q a2)" => {
            outer_fibre(&laminate, &d, &read)? * (2.0 * top / size[0]).powi(2) / q
        }
        _ => return Err(unknown(quantity)),
    })
}

/// Compression across at the top of the loaded skin, Pa: the panel's bending, and the skin's own by the foam's shear.
fn outer_fibre(laminate: &Laminate, d: &[[f64; 3]; 3], read: &Read) -> Result<f64, String> {
    let [mx, my] = read.moments;
    let det = d[0][0] * d[1][1] - d[0][1] * d[0][1];
    let panel = [(mx * d[1][1] - my * d[0][1]) / det, (my * d[0][0] - mx * d[0][1]) / det];
    let stress = |curvature: [f64; 2]| {
        let curvature = [si(-curvature[0]), si(-curvature[1]), si(0.0)];
        laminate.layer_stress(2, [si(0.0); 3], curvature).ok_or("no upper skin")
    };
    let own = stress(read.turning)?;
    Ok(-(stress(panel)?.top[0] + own.top[0] - own.middle[0]).value)
}

/// How far the skins come together in the middle of the wave.
fn dent(inputs: &Inputs, size: [f64; 2], q: f64) -> Result<f64, String> {
    let xi = PI * (1.0 / size[0]).hypot(1.0 / size[1]);
    let (e, nu, t) = (inputs.si("Ef")?, inputs.si("nuf")?, inputs.si("tf")?);
    let (foam, depth) = (si(inputs.si("Ec")?), si(inputs.si("c")?));
    let bed = layer_stiffness(foam, inputs.si("nuc")?, depth, si(PI / xi), FarSide::Symmetric);
    Ok(q / (e * t.powi(3) / (12.0 * (1.0 - nu * nu)) * xi.powi(4) + bed.map_err(words)?.value))
}

/// `Ef Ef2 nuf Gf12 Gf13 Gf23` for a skin, the same with `c` for the foam; what is left out is that of a material alike
/// in all directions.
fn layer(inputs: &Inputs, of: &str, [bottom, top]: [f64; 2]) -> Result<Layer, String> {
    let or = |name: String, otherwise: f64| inputs.maybe(&name).map(|v| v.unwrap_or(otherwise));
    let (e, nu) = (inputs.si(&format!("E{of}"))?, inputs.si(&format!("nu{of}"))?);
    let g = or(format!("G{of}12"), e / (2.0 * (1.0 + nu)))?;
    let g13 = or(format!("G{of}13"), g)?;
    Ok(Layer {
        z_bottom: si(bottom),
        z_top: si(top),
        e_x: si(e),
        e_y: si(or(format!("E{of}2"), e)?),
        nu_xy: si(nu),
        g_xy: si(g),
        g_xz: si(g13),
        g_yz: si(or(format!("G{of}23"), g13)?),
        flexural: None,
        direct: true,
        bonded_below: true,
    })
}

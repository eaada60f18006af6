//! A run as the result document tells it: largest sag, readings, braces, walls, balance.

use super::study::{Job, Variant};
use crate::check::{
    Balance, BraceResult, CoreShear, Finite, LayerStress, Model, NotFinite, ReadingResult, Run, SagMax, Walls,
};
use crate::model::IdealRoof;
use crate::response::{LayerPlace, Layout, Response};

/// Distances below this count as none, m.
const SAME: f64 = 1e-6;

/// The run of one load.
///
/// # Errors
/// A number that is not finite.
pub(crate) fn run(
    job: &Job<'_>,
    variant: &Variant,
    model: Model,
    roof: &IdealRoof,
    layout: &Layout,
    load: &str,
    r: &Response,
) -> Result<Run, NotFinite> {
    let f = |value: f64, what: &str| Finite::new(value, &format!("{what} under {load}"));
    let (index, sag) = r.largest_sag();
    let (x, y) = layout.sag.get(index).copied().unwrap_or((0.0, 0.0));
    let readings = job
        .survey
        .readings
        .iter()
        .map(|reading| {
            let at = (reading.across.value, reading.along.value);
            Ok(ReadingResult {
                name: reading.name.clone(),
                sag: f(sag_at(layout, r, at), "sag at a reading")?,
                layers: layers_at(roof, layout, r, at, load)?,
                core_shear: core_at(layout, r, at, load)?,
            })
        })
        .collect::<Result<Vec<_>, NotFinite>>()?;
    let braces = layout
        .ends
        .iter()
        .enumerate()
        .map(|(end, &index)| {
            let brace = &roof.braces[index];
            let on: Vec<_> = layout.braces.iter().zip(&r.braces).filter(|(p, _)| p.brace == index).collect();
            let middle = (brace.x0 + brace.x1) / 2.0;
            // Two pieces meet at a place, and each has its own numbers there: their mean.
            let nearest = on.iter().map(|(p, _)| (p.x - middle).abs()).fold(f64::INFINITY, f64::min);
            let there: Vec<_> = on.iter().filter(|(p, _)| (p.x - middle).abs() < nearest + SAME).collect();
            let mean = |of: fn(&crate::response::BraceForces) -> f64| -> f64 {
                there.iter().map(|(_, forces)| of(forces)).sum::<f64>() / (there.len().max(1) as f64)
            };
            let mid = (mean(|f| f.axial), mean(|f| f.moment));
            let stress = |forces: &crate::response::BraceForces| {
                let axial = forces.axial / brace.area;
                let bending = forces.moment.abs() / brace.elastic;
                if axial < 0.0 { axial - bending } else { axial + bending }
            };
            let worst = on.iter().max_by(|a, b| stress(a.1).abs().total_cmp(&stress(b.1).abs()));
            let (worst_x, worst_stress) = worst.map_or((middle, 0.0), |(p, forces)| (p.x, stress(forces)));
            Ok(BraceResult {
                name: brace.name.clone(),
                mid_axial: f(mid.0, "brace force")?,
                mid_moment: f(mid.1, "brace moment")?,
                max_stress: f(worst_stress, "brace stress")?,
                max_at: f(worst_x, "place on a brace")?,
                end_reactions: [f(r.ends[end][0], "brace reaction")?, f(r.ends[end][1], "brace reaction")?],
            })
        })
        .collect::<Result<Vec<_>, NotFinite>>()?;
    let w = &r.walls;
    Ok(Run {
        stage: job.stage_name.clone(),
        load: load.to_owned(),
        bracing: variant.bracing,
        bond: variant.bond,
        materials: variant.materials,
        model,
        thrust: variant.hold.walls,
        sag_max: SagMax { value: f(sag, "sag")?, across: f(x, "place")?, along: f(y, "place")? },
        readings,
        braces,
        walls: Walls {
            left: f(w.left, "reaction")?,
            right: f(w.right, "reaction")?,
            front: f(w.front, "reaction")?,
            rear: f(w.rear, "reaction")?,
            left_thrust: f(w.left_thrust, "thrust")?,
            right_thrust: f(w.right_thrust, "thrust")?,
        },
        balance: Balance {
            load: f(r.load, "load")?,
            reaction: f(w.left + w.right + w.front + w.rear, "reaction")?,
            residual: f(r.residual, "residual")?,
        },
    })
}

/// Weights of the places round a point: on a rectangle of places they interpolate linearly both ways.
pub(crate) fn weights(places: impl Iterator<Item = (f64, f64)>, (x, y): (f64, f64)) -> Vec<(usize, f64)> {
    let mut near: Vec<(usize, f64, f64, f64)> = places
        .enumerate()
        .map(|(i, (px, py))| (i, (px - x).abs(), (py - y).abs(), (px - x).hypot(py - y)))
        .collect();
    near.sort_by(|a, b| a.3.total_cmp(&b.3));
    near.truncate(4);
    let exact: Vec<(usize, f64)> = near.iter().filter(|n| n.3 < SAME).map(|n| (n.0, 1.0)).collect();
    let chosen = if exact.is_empty() {
        near.iter().map(|n| (n.0, 1.0 / (n.1.max(SAME) * n.2.max(SAME)))).collect()
    } else {
        exact
    };
    let total: f64 = chosen.iter().map(|(_, w)| w).sum();
    chosen.into_iter().map(|(i, w)| (i, w / total)).collect()
}

/// Sag at a place.
pub(super) fn sag_at(layout: &Layout, r: &Response, at: (f64, f64)) -> f64 {
    weights(layout.sag.iter().copied(), at).into_iter().map(|(i, w)| w * r.sag[i]).sum()
}

/// Places of one layer that have a point among them, with their numbers.
fn of_layer(places: &[LayerPlace], layer: usize) -> Vec<usize> {
    places.iter().enumerate().filter(|(_, p)| p.layer == layer).map(|(i, _)| i).collect()
}

fn layers_at(
    roof: &IdealRoof,
    layout: &Layout,
    r: &Response,
    at: (f64, f64),
    load: &str,
) -> Result<Vec<LayerStress>, NotFinite> {
    let mut out = Vec::new();
    for (layer, ideal) in roof.layers.iter().enumerate() {
        let numbers = of_layer(&layout.skins, layer);
        if numbers.is_empty() {
            continue;
        }
        let near = weights(numbers.iter().map(|&i| (layout.skins[i].x, layout.skins[i].y)), at);
        let mean = |d: usize| -> f64 { near.iter().map(|(i, w)| w * r.skins[numbers[*i]].middle[d]).sum() };
        let f = |d: usize| Finite::new(mean(d), &format!("stress in the {} under {load}", ideal.name));
        out.push(LayerStress { name: ideal.name.clone(), sx: f(0)?, sy: f(1)?, sxy: f(2)? });
    }
    Ok(out)
}

fn core_at(
    layout: &Layout,
    r: &Response,
    at: (f64, f64),
    load: &str,
) -> Result<Option<CoreShear>, NotFinite> {
    if layout.cores.is_empty() {
        return Ok(None);
    }
    let near = weights(layout.cores.iter().map(|p| (p.x, p.y)), at);
    let mean = |d: usize| -> f64 { near.iter().map(|(i, w)| w * r.cores[*i][d]).sum() };
    let f = |d: usize| Finite::new(mean(d), &format!("core shear under {load}"));
    Ok(Some(CoreShear { xz: f(0)?, yz: f(1)? }))
}

//! Nodes along the span, and what lies on each element.

use super::StripModel;
use crate::quantity::{not_negative, positive};
use crate::strip::error::StripError;

/// Breaks nearer than this are one, m: no tape reads finer.
const MERGE: f64 = 1e-4;

/// Elements of three nodes; element `e` has nodes `2 e`, `2 e + 1`, `2 e + 2`.
#[derive(Debug, Clone)]
pub(super) struct Mesh {
    /// Places of the nodes, m.
    pub(super) nodes: Vec<f64>,
    /// Zone of each element.
    pub(super) zone: Vec<usize>,
    /// First and one-past-last element of each brace.
    pub(super) braces: Vec<std::ops::Range<usize>>,
}

impl Mesh {
    pub(super) fn new(model: &StripModel) -> Result<Self, StripError> {
        check(model)?;
        let span = model.span;
        let mut breaks = vec![0.0, span];
        breaks.extend(&model.breaks);
        breaks.extend(model.zones.iter().map(|z| z.to));
        breaks.extend(model.braces.iter().flat_map(|b| [b.from, b.to]));
        breaks.iter_mut().for_each(|x| *x = x.clamp(0.0, span));
        breaks.sort_by(f64::total_cmp);
        breaks.dedup_by(|next, kept| *next - *kept < MERGE);
        if let Some(last) = breaks.last_mut() {
            *last = span;
        }
        let widest = span / model.elements as f64;
        let mut nodes = vec![0.0];
        for pair in breaks.windows(2) {
            let parts = 2 * ((pair[1] - pair[0]) / widest - 1e-9).ceil().max(1.0) as usize;
            let step = (pair[1] - pair[0]) / parts as f64;
            nodes.extend((1..parts).map(|i| pair[0] + step * i as f64));
            nodes.push(pair[1]);
        }
        let middles: Vec<f64> = nodes.iter().copied().skip(1).step_by(2).collect();
        let last = model.zones.len() - 1;
        let zone = middles.iter().map(|x| model.zones.partition_point(|z| z.to < *x).min(last)).collect();
        let braces = model
            .braces
            .iter()
            .map(|b| middles.partition_point(|x| *x < b.from)..middles.partition_point(|x| *x < b.to))
            .collect();
        Ok(Self { nodes, zone, braces })
    }

    pub(super) fn elements(&self) -> usize {
        self.zone.len()
    }

    /// The element that holds `x`.
    pub(super) fn element_at(&self, x: f64) -> usize {
        let node = self.nodes.partition_point(|node| *node <= x);
        (node.saturating_sub(1) / 2).min(self.elements() - 1)
    }

    /// Slope of the crown at `x`.
    pub(super) fn slope(span: f64, rise: f64, x: f64) -> f64 {
        if rise == 0.0 {
            return 0.0;
        }
        let radius = (span * span / 4.0 + rise * rise) / (2.0 * rise);
        let off = x - span / 2.0;
        -off / (radius * radius - off * off).sqrt()
    }
}

fn check(model: &StripModel) -> Result<(), StripError> {
    let span = positive("span", model.span, "m", "measure from wall to wall")?;
    if model.elements == 0 || model.elements > 20_000 {
        return Err(StripError::out_of_range(
            "number of elements",
            model.elements as f64,
            "",
            "1 to 20000",
            "80 is the usual choice",
        ));
    }
    if !(0.0..=0.1 * span).contains(&model.rise) {
        return Err(StripError::out_of_range(
            "rise",
            model.rise,
            "m",
            format!("0 to a tenth of the span, {:.4} m", 0.1 * span),
            "shallow-arch theory ends here; use the circular arch",
        ));
    }
    for x in &model.breaks {
        not_negative("break", *x, "m", "count from the left wall")?;
    }
    let mut reached = 0.0;
    for zone in &model.zones {
        let follows = (zone.from - reached).abs() < MERGE && zone.to > zone.from;
        if !follows {
            return Err(StripError::out_of_range(
                "start of a zone",
                zone.from,
                "m",
                format!("{reached:.4} m, where the one before ends, and before its own end"),
                "give the zones from left to right without gaps",
            ));
        }
        for lane in &zone.lanes {
            positive("width of a lane", lane.width, "m", "leave an opening's lane out")?;
        }
        reached = zone.to;
    }
    let reaches = (reached - span).abs() < MERGE;
    if !reaches {
        return Err(StripError::out_of_range(
            "end of the last zone",
            reached,
            "m",
            format!("the span, {span:.4} m"),
            "zones reach from wall to wall",
        ));
    }
    if let Some(thrust) = model.thrust {
        not_negative("sideways stiffness of the left wall", thrust.left, "N/m", "0 for none")?;
        not_negative("sideways stiffness of the right wall", thrust.right, "N/m", "0 for none")?;
        if !thrust.z.is_finite() {
            return Err(StripError::out_of_range("height of the thrust", thrust.z, "m", "finite", "give it"));
        }
    }
    for brace in &model.braces {
        if !(brace.from >= -MERGE && brace.to <= span + MERGE && brace.to - brace.from > MERGE) {
            return Err(StripError::out_of_range(
                "start of a brace",
                brace.from,
                "m",
                format!("0 to {span:.4} m, and before its end at {:.4} m", brace.to),
                "count from the left wall",
            ));
        }
        positive("brace E A", brace.axial, "N", "look the section up")?;
        positive("brace E I", brace.bending, "N m2", "look the section up")?;
        positive("brace G As", brace.shear, "N", "look the section up")?;
        not_negative("bond", brace.bond, "N/m2", "0 for a loose brace")?;
        not_negative("sideways hold of a seat", brace.seat_hold, "N/m", "0 for a seat that slides")?;
        for z in [brace.z_axis, brace.z_glue] {
            if !z.is_finite() {
                return Err(StripError::out_of_range("height of a brace", z, "m", "finite", "give it"));
            }
        }
    }
    Ok(())
}

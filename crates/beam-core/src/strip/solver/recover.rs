//! From the unknowns to what a check reads: sag, stresses, brace forces, glue, reactions.

use super::assemble::{FactoredStrip, GAUSS, PANEL, Section};
use super::{Load, Zone};

/// What one load case does to the strip.
#[derive(Debug, Clone)]
pub struct Response {
    /// Panel, three stations an element: its left end, middle and right end, in order. Two elements that
    /// meet have a station each, so that a step in the make-up or in the shear force shows on both sides.
    /// Elements without a panel have none.
    pub stations: Vec<Station>,
    /// Place and sag of every node, m.
    pub sag: Vec<[f64; 2]>,
    /// Braces, in the order of the model.
    pub braces: Vec<BraceResponse>,
    /// Upward reaction of the left and right wall on panel and braces together, N.
    pub reaction: [f64; 2],
    /// Inward push of the left and right wall on the panel, N; 0 where the walls spread.
    pub thrust: [f64; 2],
    /// Total load, down, N.
    pub load: f64,
    /// `|K x - f| / |f|` over what is free to move; 0 under no load.
    pub residual: f64,
}

/// The panel at one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Station {
    /// m from the left wall.
    pub x: f64,
    /// Index of the zone.
    pub zone: usize,
    /// Sag, m.
    pub sag: f64,
    /// Stretch at the reference plane.
    pub strain: f64,
    /// Curvature `b,x` that multiplies z, 1/m; negative where the roof sags.
    pub curvature: f64,
    /// Shear angle, positive with a positive shear force.
    pub shear_angle: f64,
    /// Axial force over the strip's width, tension positive, N.
    pub force: f64,
    /// Bending moment about the reference plane over the strip's width, sagging positive, N m.
    pub moment: f64,
    /// Shear force over the strip's width, the left part pushed up, N.
    pub shear: f64,
}

/// One layer of one lane at a station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LayerState {
    /// Stress across the roof at its lower face, middle and upper face, Pa.
    pub across: [f64; 3],
    /// Stress along the vehicle, alike, Pa: what holds the strip from narrowing.
    pub along: [f64; 3],
    /// Largest transverse shear stress in the layer, with the sign of the shear force, Pa.
    pub shear: f64,
}

/// A brace under one load case.
#[derive(Debug, Clone)]
pub struct BraceResponse {
    /// Along its length, as [`Response::stations`].
    pub stations: Vec<BraceStation>,
    /// Upward force on its left and right end, N: from the wall where it reaches it, else from the panel.
    pub end_force: [f64; 2],
    /// Inward push on its left and right seat, N.
    pub seat_thrust: [f64; 2],
}

/// A brace at one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BraceStation {
    /// m from the left wall.
    pub x: f64,
    /// Axial force, tension positive, N.
    pub force: f64,
    /// Bending moment about its own axis, sagging positive, N m.
    pub moment: f64,
    /// Shear force, N.
    pub shear: f64,
    /// Slip of its glued face over the panel, to the right, m.
    pub slip: f64,
    /// Force per length in the glue, N/m; 0 where nothing is glued.
    pub slip_flow: f64,
}

impl Zone {
    /// Stresses in each layer of lane `lane`, lowest first, at a station of this zone; `None` without such a lane.
    ///
    /// Over a void, [`Laminate::void_moments`](crate::section::Laminate::void_moments) come on top.
    pub fn layers(&self, lane: usize, station: &Station) -> Option<Vec<LayerState>> {
        let laminate = &self.lanes.get(lane)?.laminate;
        let force = laminate.shear_si()[0] * station.shear_angle;
        laminate
            .shear_factors()
            .iter()
            .enumerate()
            .map(|(index, factor)| {
                let faces = laminate.layer_stress_si(
                    index,
                    [station.strain, 0.0, 0.0],
                    [station.curvature, 0.0, 0.0],
                )?;
                Some(LayerState {
                    across: faces.map(|s| s[0]),
                    along: faces.map(|s| s[1]),
                    shear: factor[0] * force,
                })
            })
            .collect()
    }

    /// Shear force that lane `lane` takes at a station, N.
    pub fn lane_shear(&self, lane: usize, station: &Station) -> Option<f64> {
        let lane = self.lanes.get(lane)?;
        Some(lane.laminate.shear_si()[0] * lane.width * station.shear_angle)
    }
}

impl Response {
    /// Place and size of the greatest sag, m.
    pub fn greatest_sag(&self) -> [f64; 2] {
        self.sag.iter().copied().max_by(|a, b| a[1].total_cmp(&b[1])).unwrap_or([0.0, 0.0])
    }

    /// Sag at `x`, between nodes as the element has it; `None` off the roof.
    pub fn sag_at(&self, x: f64) -> Option<f64> {
        let last = self.sag.len().checked_sub(1)?;
        if !(self.sag[0][0]..=self.sag[last][0]).contains(&x) {
            return None;
        }
        let node = self.sag.partition_point(|s| s[0] <= x).clamp(1, last);
        let first = (node - 1) / 2 * 2;
        let [a, b, c] = [self.sag[first], self.sag[first + 1], self.sag[first + 2]];
        let xi = (x - b[0]) / (c[0] - b[0]);
        Some(a[1] * xi * (xi - 1.0) / 2.0 + b[1] * (1.0 - xi * xi) + c[1] * xi * (xi + 1.0) / 2.0)
    }
}

impl FactoredStrip {
    pub(super) fn recover(&self, loads: &[Load], f: &[f64], x: &[f64]) -> Response {
        let layout = self.layout();
        let (step, last) = (layout.per_node(), self.mesh.nodes.len() - 1);
        let mut rest = self.free.times(x);
        rest.iter_mut().zip(f).for_each(|(r, f)| *r -= f);
        let reaction = [rest[0], rest[last * step]];
        self.held.iter().for_each(|i| rest[*i] = 0.0);
        let scale = norm(f);
        let thrust = self.model.thrust.map_or([0.0; 2], |t| {
            let moved = |node: usize| x[node * step + 1] + t.z * x[node * step + 2];
            [-t.left * moved(0), t.right * moved(last)]
        });
        Response {
            stations: self.panel(x),
            sag: self.mesh.nodes.iter().enumerate().map(|(i, at)| [*at, -x[i * step]]).collect(),
            braces: (0..self.model.braces.len()).map(|j| self.brace(j, loads, x)).collect(),
            reaction,
            thrust,
            load: loads.iter().map(Load::total).sum(),
            residual: if scale > 0.0 { norm(&rest) / scale } else { 0.0 },
        }
    }

    fn panel(&self, x: &[f64]) -> Vec<Station> {
        let layout = self.layout();
        let mut stations = Vec::with_capacity(3 * self.mesh.elements());
        for e in (0..self.mesh.elements()).filter(|e| layout.panelled(*e)) {
            let Section { a, b, d, s } = layout.section(e);
            let at = [0, 1].map(|g| {
                let rows = layout.panel_rows(&layout.point(e, g));
                [rows.stretch.of(x), rows.curvature.of(x), rows.shear.of(x)]
            });
            stations.extend((0..3).map(|i| {
                let node = 2 * e + i;
                let [strain, curvature, angle] = line(at, i);
                Station {
                    x: self.mesh.nodes[node],
                    zone: self.mesh.zone[e],
                    sag: -x[node * layout.per_node()],
                    strain,
                    curvature,
                    shear_angle: -angle,
                    force: a * strain + b * curvature,
                    moment: -(b * strain + d * curvature),
                    shear: -s * angle,
                }
            }));
        }
        stations
    }

    fn brace(&self, j: usize, loads: &[Load], x: &[f64]) -> BraceResponse {
        let layout = self.layout();
        let (brace, on, step) = (&self.model.braces[j], &self.mesh.braces[j], layout.per_node());
        let [mut free_strain, mut free_curvature] = [0.0; 2];
        for load in loads {
            if let Load::Free { brace, strain, curvature } = load
                && *brace == j
            {
                free_strain += strain;
                free_curvature += curvature;
            }
        }
        let mut end_force = [0.0; 2];
        let mut stations = Vec::with_capacity(3 * on.len());
        for e in on.clone() {
            let at = [0, 1].map(|g| {
                let rows = layout.brace_rows(j, &layout.point(e, g));
                let force = brace.axial * (rows.stretch.of(x) - free_strain);
                let shear = brace.shear * rows.shear.of(x);
                for (end, (own, node)) in [(on.start, 2 * e), (on.end - 1, 2 * e + 2)].into_iter().enumerate()
                {
                    if e == own {
                        let up = force * rows.stretch.at(node * step) + shear * rows.shear.at(node * step);
                        end_force[end] += up * layout.length(e) / 2.0;
                    }
                }
                let moment = -brace.bending * (rows.curvature.of(x) + free_curvature);
                [force, moment, -shear, rows.slip.of(x)]
            });
            let bond = if layout.bonded(j, e) { brace.bond } else { 0.0 };
            stations.extend((0..3).map(|i| {
                let [force, moment, shear, slip] = line(at, i);
                BraceStation {
                    x: self.mesh.nodes[2 * e + i],
                    force,
                    moment,
                    shear,
                    slip,
                    slip_flow: bond * slip,
                }
            }));
        }
        let push = |node: Option<usize>| node.map_or(0.0, |n| brace.seat_hold * x[n * step + PANEL + 2 * j]);
        let [left, right] = layout.seats(j).map(push);
        BraceResponse { stations, end_force, seat_thrust: [-left, right] }
    }
}

impl Load {
    /// Total force, down, N.
    fn total(&self) -> f64 {
        match *self {
            Self::Uniform { per_length, from, to } => per_length * (to - from),
            Self::Point { force, .. } => force,
            Self::Free { .. } => 0.0,
        }
    }
}

/// Values at the left end, middle or right end (0, 1, 2) of an element from those at its Gauss points.
fn line<const N: usize>(at: [[f64; N]; 2], place: usize) -> [f64; N] {
    let xi = place as f64 - 1.0;
    let mut value = [0.0; N];
    for (i, value) in value.iter_mut().enumerate() {
        let (middle, slope) = ((at[0][i] + at[1][i]) / 2.0, (at[1][i] - at[0][i]) / 2.0);
        *value = middle + slope * xi / GAUSS[1];
    }
    value
}

fn norm(v: &[f64]) -> f64 {
    v.iter().map(|a| a * a).sum::<f64>().sqrt()
}

//! From a strip to a factored stiffness matrix, and from loads to right-hand sides.

use super::mesh::Mesh;
use super::recover::Response;
use super::{Load, StripModel};
use crate::strip::banded::{Banded, Cholesky};
use crate::strip::error::StripError;

/// Places of the two Gauss points on (-1, 1).
pub(super) const GAUSS: [f64; 2] = [-0.577_350_269_189_625_8, 0.577_350_269_189_625_8];

/// Unknowns of the panel at a node, in order: sag upwards `w`, movement `u`, turn `b`.
pub(super) const PANEL: usize = 3;

/// A row of numbers, mostly zero: how a strain follows from the unknowns. Each part belongs to one kind of
/// unknown at the three nodes of an element.
#[derive(Debug, Clone, Copy)]
pub(super) struct Row<const PARTS: usize> {
    parts: [(usize, [f64; 3]); PARTS],
    step: usize,
}

impl<const PARTS: usize> Row<PARTS> {
    fn iter(&self) -> impl Iterator<Item = (usize, f64)> {
        let step = self.step;
        self.parts.into_iter().flat_map(move |(first, shape)| {
            shape.into_iter().enumerate().map(move |(node, factor)| (first + node * step, factor))
        })
    }

    /// The strain itself.
    pub(super) fn of(&self, x: &[f64]) -> f64 {
        let part = |(first, [a, b, c]): (usize, [f64; 3])| {
            a * x[first] + b * x[first + self.step] + c * x[first + 2 * self.step]
        };
        self.parts.into_iter().map(part).sum()
    }

    /// The factor of one unknown.
    pub(super) fn at(&self, unknown: usize) -> f64 {
        self.iter().filter(|(i, _)| *i == unknown).map(|(_, f)| f).sum()
    }

    fn into(self, f: &mut [f64], scale: f64) {
        for (i, factor) in self.iter() {
            f[i] += scale * factor;
        }
    }
}

/// Strains of the panel at a Gauss point.
pub(super) struct PanelRows {
    pub(super) stretch: Row<2>,
    pub(super) curvature: Row<1>,
    pub(super) shear: Row<2>,
}

/// Strains of a brace at a Gauss point.
pub(super) struct BraceRows {
    pub(super) stretch: Row<2>,
    pub(super) curvature: Row<1>,
    pub(super) shear: Row<2>,
    pub(super) slip: Row<4>,
}

/// Stiffness of one zone over the strip's width: stretch, coupling, bending, shear.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Section {
    pub(super) a: f64,
    pub(super) b: f64,
    pub(super) d: f64,
    pub(super) s: f64,
}

/// A strip whose stiffness matrix is factored: any number of load cases follow cheaply.
#[derive(Debug, Clone)]
pub struct FactoredStrip {
    pub(super) model: StripModel,
    pub(super) mesh: Mesh,
    pub(super) sections: Vec<Section>,
    /// The matrix with no unknown held, for reactions.
    pub(super) free: Banded,
    pub(super) held: Vec<usize>,
    factor: Cholesky,
}

impl StripModel {
    /// Assembles and factors the strip.
    ///
    /// # Errors
    /// A value out of its range; a part that nothing holds.
    pub fn factor(&self) -> Result<FactoredStrip, StripError> {
        let mesh = Mesh::new(self)?;
        let sections: Vec<Section> = self.zones.iter().map(|zone| section(&zone.lanes)).collect();
        let layout = Layout { model: self, mesh: &mesh, sections: &sections };
        let per_node = layout.per_node();
        let size = mesh.nodes.len() * per_node;
        let mut free = Banded::zeros(size, 3 * per_node - 1);
        layout.assemble(&mut free);
        let held = layout.held();
        let mut matrix = free.clone();
        held.iter().for_each(|i| matrix.hold(*i));
        let factor = matrix.cholesky().map_err(|singular| StripError::Mechanism {
            movement: layout.movement(singular.0 % per_node),
            x: mesh.nodes[singular.0 / per_node],
            remedy: "give the part a wall, a bond or a brace that holds it",
        })?;
        Ok(FactoredStrip { model: self.clone(), mesh, sections, free, held, factor })
    }
}

impl FactoredStrip {
    /// Answers one load case.
    ///
    /// # Errors
    /// A load off the roof, not finite, or on a brace that is not there.
    pub fn solve(&self, loads: &[Load]) -> Result<Response, StripError> {
        let f = self.right_hand_side(loads)?;
        let mut x = f.clone();
        self.held.iter().for_each(|i| x[*i] = 0.0);
        self.factor.solve(&mut x);
        Ok(self.recover(loads, &f, &x))
    }

    /// Strip as given.
    pub fn model(&self) -> &StripModel {
        &self.model
    }

    pub(super) fn layout(&self) -> Layout<'_> {
        Layout { model: &self.model, mesh: &self.mesh, sections: &self.sections }
    }

    fn right_hand_side(&self, loads: &[Load]) -> Result<Vec<f64>, StripError> {
        let layout = self.layout();
        let mut f = vec![0.0; self.mesh.nodes.len() * layout.per_node()];
        for load in loads {
            layout.check(load)?;
            match *load {
                Load::Uniform { per_length, from, to } => layout.spread(&mut f, per_length, from, to),
                Load::Point { force, x } => layout.place(&mut f, force, x),
                Load::Free { brace, strain, curvature } => layout.free(&mut f, brace, strain, curvature),
            }
        }
        Ok(f)
    }
}

/// Where each unknown sits.
#[derive(Clone, Copy)]
pub(super) struct Layout<'a> {
    pub(super) model: &'a StripModel,
    pub(super) mesh: &'a Mesh,
    pub(super) sections: &'a [Section],
}

impl Layout<'_> {
    pub(super) fn per_node(&self) -> usize {
        PANEL + 2 * self.model.braces.len()
    }

    /// Length of element `e`.
    pub(super) fn length(&self, e: usize) -> f64 {
        self.mesh.nodes[2 * e + 2] - self.mesh.nodes[2 * e]
    }

    pub(super) fn section(&self, e: usize) -> Section {
        self.sections[self.mesh.zone[e]]
    }

    /// Whether there is any panel on element `e`.
    pub(super) fn panelled(&self, e: usize) -> bool {
        self.section(e).a > 0.0
    }

    /// Panel strains at a Gauss point.
    pub(super) fn panel_rows(&self, at: &Point) -> PanelRows {
        let Point { n, d, slope, first, step } = *at;
        PanelRows {
            stretch: Row { parts: [(first + 1, d), (first, d.map(|v| v * slope))], step },
            curvature: Row { parts: [(first + 2, d)], step },
            shear: Row { parts: [(first, d), (first + 2, n)], step },
        }
    }

    /// Strains of brace `j`; slip is its glued face less the panel's.
    pub(super) fn brace_rows(&self, j: usize, at: &Point) -> BraceRows {
        let Point { n, d, slope, first, step } = *at;
        let brace = &self.model.braces[j];
        let (along, turn) = (first + PANEL + 2 * j, first + PANEL + 2 * j + 1);
        let lever = brace.z_axis - brace.z_glue;
        let slip = [
            (along, n),
            (turn, n.map(|v| -v * lever)),
            (first + 1, n.map(|v| -v)),
            (first + 2, n.map(|v| -v * brace.z_glue)),
        ];
        BraceRows {
            stretch: Row { parts: [(along, d), (first, d.map(|v| v * slope))], step },
            curvature: Row { parts: [(turn, d)], step },
            shear: Row { parts: [(first, d), (turn, n)], step },
            slip: Row { parts: slip, step },
        }
    }

    /// Gauss point `g` of element `e`.
    pub(super) fn point(&self, e: usize, g: usize) -> Point {
        let (xi, length) = (GAUSS[g], self.length(e));
        let x = self.mesh.nodes[2 * e] + length * (1.0 + xi) / 2.0;
        let scale = 2.0 / length;
        Point {
            n: shape(xi),
            d: [(xi - 0.5) * scale, -2.0 * xi * scale, (xi + 0.5) * scale],
            slope: Mesh::slope(self.model.span, self.model.rise, x),
            first: 2 * e * self.per_node(),
            step: self.per_node(),
        }
    }

    fn assemble(&self, matrix: &mut Banded) {
        for e in 0..self.mesh.elements() {
            let half = self.length(e) / 2.0;
            for g in 0..GAUSS.len() {
                let at = self.point(e, g);
                if self.panelled(e) {
                    let Section { a, b, d, s } = self.section(e);
                    let rows = self.panel_rows(&at);
                    square(matrix, &rows.stretch, a * half);
                    cross(matrix, &rows.stretch, &rows.curvature, b * half);
                    square(matrix, &rows.curvature, d * half);
                    square(matrix, &rows.shear, s * half);
                }
                for (j, brace) in self.model.braces.iter().enumerate() {
                    if !self.mesh.braces[j].contains(&e) {
                        continue;
                    }
                    let rows = self.brace_rows(j, &at);
                    square(matrix, &rows.stretch, brace.axial * half);
                    square(matrix, &rows.curvature, brace.bending * half);
                    square(matrix, &rows.shear, brace.shear * half);
                    if self.bonded(j, e) {
                        square(matrix, &rows.slip, brace.bond * half);
                    }
                }
            }
        }
        let last = self.mesh.nodes.len() - 1;
        if let Some(thrust) = self.model.thrust {
            for (node, stiffness) in [(0, thrust.left), (last, thrust.right)] {
                let first = node * self.per_node();
                matrix.add(first + 1, first + 1, stiffness);
                matrix.add(first + 1, first + 2, stiffness * thrust.z);
                matrix.add(first + 2, first + 2, stiffness * thrust.z * thrust.z);
            }
        }
        for (j, brace) in self.model.braces.iter().enumerate() {
            for node in self.seats(j).into_iter().flatten() {
                let along = node * self.per_node() + PANEL + 2 * j;
                matrix.add(along, along, brace.seat_hold);
            }
        }
    }

    /// Whether brace `j` is glued to the panel on element `e`.
    pub(super) fn bonded(&self, j: usize, e: usize) -> bool {
        self.model.braces[j].bond > 0.0 && self.panelled(e) && self.mesh.braces[j].contains(&e)
    }

    /// Nodes at which brace `j` reaches the left and the right wall.
    pub(super) fn seats(&self, j: usize) -> [Option<usize>; 2] {
        let on = &self.mesh.braces[j];
        [(on.start == 0).then_some(0), (on.end == self.mesh.elements()).then_some(2 * self.mesh.elements())]
    }

    /// Unknowns that are zero: sag at the walls, parts that are not there, and one hold for each part that
    /// nothing else keeps from sliding away.
    fn held(&self) -> Vec<usize> {
        let (step, last) = (self.per_node(), self.mesh.nodes.len() - 1);
        let mut held = vec![0, last * step];
        let mut there = vec![[false; 2]; self.mesh.nodes.len()]; // panel; brace in hand
        for e in 0..self.mesh.elements() {
            if self.panelled(e) {
                (2 * e..=2 * e + 2).for_each(|node| there[node][0] = true);
            }
        }
        for (node, _) in there.iter().enumerate().filter(|(_, t)| !t[0]) {
            held.extend([node * step + 1, node * step + 2]);
        }
        for (count, part) in self.panels().into_iter().enumerate() {
            let pushed = self.model.thrust.is_some_and(|t| {
                (part.start == 0 && t.left > 0.0) || (part.end == self.mesh.elements() && t.right > 0.0)
            });
            let by_brace = (0..self.model.braces.len())
                .any(|j| part.clone().any(|e| self.bonded(j, e)) && (count > 0 || self.seat_holds(j)));
            if !pushed && !by_brace {
                held.push(2 * part.start * step + 1);
            }
        }
        for (j, on) in self.mesh.braces.iter().enumerate() {
            let (along, turn) = (PANEL + 2 * j, PANEL + 2 * j + 1);
            for node in (0..=last).filter(|node| *node < 2 * on.start || *node > 2 * on.end) {
                held.extend([node * step + along, node * step + turn]);
            }
            if !self.seat_holds(j) && !on.clone().any(|e| self.bonded(j, e)) {
                held.push(2 * on.start * step + along);
            }
        }
        held
    }

    fn seat_holds(&self, j: usize) -> bool {
        self.model.braces[j].seat_hold > 0.0 && self.seats(j).iter().any(Option::is_some)
    }

    /// Runs of elements that have a panel.
    fn panels(&self) -> Vec<std::ops::Range<usize>> {
        let mut parts: Vec<std::ops::Range<usize>> = Vec::new();
        for e in (0..self.mesh.elements()).filter(|e| self.panelled(*e)) {
            match parts.last_mut() {
                Some(part) if part.end == e => part.end = e + 1,
                _ => parts.push(e..e + 1),
            }
        }
        parts
    }

    fn movement(&self, unknown: usize) -> String {
        match unknown {
            0 => "sag".into(),
            1 => "sliding of the panel across".into(),
            2 => "turning of the panel".into(),
            other if (other - PANEL).is_multiple_of(2) => {
                format!("sliding of brace {}", (other - PANEL) / 2 + 1)
            }
            other => format!("turning of brace {}", (other - PANEL) / 2 + 1),
        }
    }

    fn check(&self, load: &Load) -> Result<(), StripError> {
        let span = self.model.span;
        let on_roof = |what: &str, x: f64| {
            if (-1e-9..=span + 1e-9).contains(&x) {
                return Ok(());
            }
            Err(StripError::out_of_range(
                what,
                x,
                "m",
                format!("0 to {span:.4} m"),
                "count from the left wall",
            ))
        };
        let finite = |what: &str, value: f64, unit| {
            if value.is_finite() {
                return Ok(());
            }
            Err(StripError::out_of_range(what, value, unit, "a finite number", "give it"))
        };
        match *load {
            Load::Uniform { per_length, from, to } => {
                finite("load per length", per_length, "N/m")?;
                on_roof("left end of a load", from)?;
                on_roof("right end of a load", to)?;
                if to < from {
                    return Err(StripError::out_of_range(
                        "right end of a load",
                        to,
                        "m",
                        format!("{from:.4} m or more, its left end"),
                        "give the left end first",
                    ));
                }
                Ok(())
            }
            Load::Point { force, x } => {
                finite("load", force, "N")?;
                on_roof("place of a load", x)
            }
            Load::Free { brace, strain, curvature } => {
                finite("free strain", strain, "")?;
                finite("free curvature", curvature, "1/m")?;
                if brace < self.model.braces.len() {
                    return Ok(());
                }
                Err(StripError::out_of_range(
                    "brace of a load",
                    brace as f64,
                    "",
                    format!("below {}", self.model.braces.len()),
                    "count the braces from 0",
                ))
            }
        }
    }

    /// Work-equivalent nodal forces of an even load; exact whether or not its ends meet nodes.
    fn spread(&self, f: &mut [f64], per_length: f64, from: f64, to: f64) {
        for e in self.mesh.element_at(from)..=self.mesh.element_at(to) {
            let left = self.mesh.nodes[2 * e];
            let (a, b) = (from.max(left), to.min(self.mesh.nodes[2 * e + 2]));
            let half = (b - a).max(0.0) / 2.0;
            for g in GAUSS {
                let x = a + half * (1.0 + g);
                self.nodal(f, e, -per_length * half, (x - left) / self.length(e) * 2.0 - 1.0);
            }
        }
    }

    fn place(&self, f: &mut [f64], force: f64, x: f64) {
        let e = self.mesh.element_at(x);
        let xi = (x - self.mesh.nodes[2 * e]) / self.length(e) * 2.0 - 1.0;
        self.nodal(f, e, -force, xi);
    }

    fn nodal(&self, f: &mut [f64], e: usize, up: f64, xi: f64) {
        for (node, n) in shape(xi).into_iter().enumerate() {
            f[(2 * e + node) * self.per_node()] += n * up;
        }
    }

    fn free(&self, f: &mut [f64], j: usize, strain: f64, curvature: f64) {
        let brace = &self.model.braces[j];
        for e in self.mesh.braces[j].clone() {
            let half = self.length(e) / 2.0;
            for g in 0..GAUSS.len() {
                let rows = self.brace_rows(j, &self.point(e, g));
                rows.stretch.into(f, brace.axial * strain * half);
                rows.curvature.into(f, -brace.bending * curvature * half);
            }
        }
    }
}

/// A Gauss point: shape functions, their slopes, slope of the crown, first unknown of the element.
pub(super) struct Point {
    n: [f64; 3],
    d: [f64; 3],
    slope: f64,
    first: usize,
    step: usize,
}

fn shape(xi: f64) -> [f64; 3] {
    [xi * (xi - 1.0) / 2.0, 1.0 - xi * xi, xi * (xi + 1.0) / 2.0]
}

fn section(lanes: &[super::Lane]) -> Section {
    lanes.iter().fold(Section::default(), |sum, lane| {
        let [a, b, d] = lane.laminate.abd_si();
        Section {
            a: sum.a + a.xx * lane.width,
            b: sum.b + b.xx * lane.width,
            d: sum.d + d.xx * lane.width,
            s: sum.s + lane.laminate.shear_si()[0] * lane.width,
        }
    })
}

fn square<const N: usize>(matrix: &mut Banded, row: &Row<N>, stiffness: f64) {
    for (part, (first, one)) in row.parts.iter().enumerate() {
        for (second, other) in &row.parts[..part] {
            block(matrix, (*first, one), (*second, other), row.step, stiffness);
        }
        for i in 0..3 {
            for j in i..3 {
                let value = stiffness * one[i] * one[j];
                matrix.add(first + i * row.step, first + j * row.step, value);
            }
        }
    }
}

/// Two rows that share no unknown, and both orders of them.
fn cross<const N: usize, const M: usize>(matrix: &mut Banded, one: &Row<N>, other: &Row<M>, stiffness: f64) {
    for (first, a) in &one.parts {
        for (second, b) in &other.parts {
            block(matrix, (*first, a), (*second, b), one.step, stiffness);
        }
    }
}

/// Parts of two different kinds of unknown, and both orders of them.
fn block(
    matrix: &mut Banded,
    (first, one): (usize, &[f64; 3]),
    (second, other): (usize, &[f64; 3]),
    step: usize,
    stiffness: f64,
) {
    for (i, a) in one.iter().enumerate() {
        for (j, b) in other.iter().enumerate() {
            matrix.add(first + i * step, second + j * step, stiffness * a * b);
        }
    }
}

//! What holds the roof: walls, cross walls, props, and the walls' resistance to spreading.

use super::error::{PlateError, checked};
use super::grid::Grid;

/// What is under one edge of the roof.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edge {
    /// Nothing: the roof is free there, or runs on.
    Free,
    /// A wall at the reference plane: it holds the deflection and leaves rotations and in-plane movement free.
    Wall,
    /// A wall that also keeps the edge's normals from leaning along it, and is held down. The closed
    /// solutions by Navier's series are for this edge.
    Hard,
}

/// Resistance of the side walls to being pushed apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thrust {
    /// Stiffness of one wall per length of wall, N/m2.
    pub stiffness: f64,
    /// Height of the seat (the lower skin) above the reference plane, m.
    pub z: f64,
}

/// All supports of a roof.
#[derive(Debug, Clone, PartialEq)]
pub struct Supports {
    /// Along x = 0.
    pub left: Edge,
    /// Along x = width.
    pub right: Edge,
    /// Along y = 0.
    pub front: Edge,
    /// Along y = length.
    pub rear: Edge,
    /// Whether the walls also hold the roof down; otherwise they push up only.
    pub hold_down: bool,
    /// Resistance of both side walls to spreading; without it they spread freely.
    pub thrust: Option<Thrust>,
    /// Places (m, m) of props under the roof; a prop pushes up only.
    pub props: Vec<[f64; 2]>,
}

impl Supports {
    /// Both side walls, front and rear free, no hold-down, no thrust, no props.
    pub fn side_walls() -> Self {
        Self {
            left: Edge::Wall,
            right: Edge::Wall,
            front: Edge::Free,
            rear: Edge::Free,
            hold_down: false,
            thrust: None,
            props: Vec::new(),
        }
    }

    /// All four edges on the same kind of edge.
    pub fn all_round(edge: Edge) -> Self {
        Self { left: edge, right: edge, front: edge, rear: edge, ..Self::side_walls() }
    }
}

/// Supports as they fall on the nodes.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct NodalSupports {
    /// Unknowns held at zero.
    pub(crate) fixed: Vec<bool>,
    /// Among them, those that push only: deflections over walls and props, gaps of braces.
    pub(crate) one_way: Vec<usize>,
    /// Thrust springs: node and stiffness, N/m.
    pub(crate) springs: Vec<(usize, f64)>,
}

impl NodalSupports {
    /// Places the supports on the active nodes of the grid.
    pub(crate) fn new(supports: &Supports, grid: &Grid, active: &[bool]) -> Result<Self, PlateError> {
        let (nx, ny) = (grid.x().len(), grid.y().len());
        let mut fixed = vec![false; 5 * grid.nodes()];
        let mut one_way = Vec::new();
        let side = |i: usize| (0..ny).map(move |j| j * nx + i).collect::<Vec<_>>();
        let end = |j: usize| (0..nx).map(move |i| j * nx + i).collect::<Vec<_>>();
        // The rotation that leans the normal along the edge: by on the sides, bx at the ends.
        let mut edges = [
            (supports.left, side(0), 4),
            (supports.right, side(nx - 1), 4),
            (supports.front, end(0), 3),
            (supports.rear, end(ny - 1), 3),
        ];
        // Hard edges first: a corner shared with a plain wall stays held down.
        edges.sort_by_key(|(edge, ..)| *edge != Edge::Hard);
        for (edge, nodes, leaning) in edges {
            for node in nodes.into_iter().filter(|&n| active[n] && edge != Edge::Free) {
                if edge == Edge::Hard {
                    fixed[5 * node + leaning] = true;
                } else if !supports.hold_down && !fixed[5 * node + 2] {
                    one_way.push(5 * node + 2);
                }
                fixed[5 * node + 2] = true;
            }
        }
        for &[x, y] in &supports.props {
            let node = grid.node(grid.x_line("prop", x)?, grid.y_line("prop", y)?);
            if !active[node] {
                return Err(PlateError::NoPanel { what: "a prop".into(), x, y });
            }
            if !fixed[5 * node + 2] {
                fixed[5 * node + 2] = true;
                one_way.push(5 * node + 2);
            }
        }
        let springs = match supports.thrust {
            Some(thrust) => {
                checked("thrust stiffness (N/m2)", thrust.stiffness, "positive", |v| v > 0.0)?;
                checked("height of the seat (m)", thrust.z, "finite", |_| true)?;
                thrust_springs(thrust, grid, active)
            }
            None => Vec::new(),
        };
        hold_in_plane(grid, active, springs.is_empty(), &mut fixed);
        Ok(Self { fixed, one_way, springs })
    }
}

fn thrust_springs(thrust: Thrust, grid: &Grid, active: &[bool]) -> Vec<(usize, f64)> {
    let y = grid.y();
    let mut springs = Vec::new();
    for i in [0, grid.x().len() - 1] {
        for j in 0..y.len() {
            let node = grid.node(i, j);
            let before = if j > 0 { y[j] - y[j - 1] } else { 0.0 };
            let after = if j + 1 < y.len() { y[j + 1] - y[j] } else { 0.0 };
            if active[node] {
                springs.push((node, thrust.stiffness * (before + after) / 2.0));
            }
        }
    }
    springs
}

/// Holds the three in-plane movements of each piece of the roof and nothing more, so that no in-plane force arises:
/// `v` at one point, and `u` at two points of one line unless the walls' springs hold it.
fn hold_in_plane(grid: &Grid, active: &[bool], hold_u: bool, fixed: &mut [bool]) {
    let (nx, ny) = (grid.x().len(), grid.y().len());
    for piece in pieces(grid) {
        let line = (0..nx)
            .map(|i| {
                let nodes = (0..ny).map(|j| grid.node(i, j));
                nodes.filter(|&n| active[n] && piece[n]).collect::<Vec<_>>()
            })
            .find(|line| line.len() >= 2);
        if let Some(line) = line {
            fixed[5 * line[0] + 1] = true;
            if hold_u {
                fixed[5 * line[0]] = true;
                fixed[5 * line[line.len() - 1]] = true;
            }
        }
    }
}

/// Nodes of each piece that hangs together by the sides of its cells.
fn pieces(grid: &Grid) -> Vec<Vec<bool>> {
    let columns = grid.x().len() - 1;
    let rows = grid.y().len() - 1;
    let mut taken = vec![false; grid.cells()];
    let mut out = Vec::new();
    for (start, _) in grid.present() {
        if taken[start] {
            continue;
        }
        taken[start] = true;
        let (mut nodes, mut open) = (vec![false; grid.nodes()], vec![start]);
        while let Some(cell) = open.pop() {
            grid.corners(cell).into_iter().for_each(|n| nodes[n] = true);
            let (i, j) = grid.column_row(cell);
            let beside = [
                (i > 0).then(|| cell - 1),
                (i + 1 < columns).then_some(cell + 1),
                (j > 0).then(|| cell - columns),
                (j + 1 < rows).then_some(cell + columns),
            ];
            for next in beside.into_iter().flatten() {
                if grid.zone(next).is_some() && !taken[next] {
                    taken[next] = true;
                    open.push(next);
                }
            }
        }
        out.push(nodes);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn nodal(supports: &Supports) -> NodalSupports {
        let lines = vec![0.0, 1.0, 2.0];
        let grid = Grid::new(lines.clone(), lines, |_, _| Some(0)).unwrap();
        NodalSupports::new(supports, &grid, &[true; 9]).unwrap()
    }

    #[test]
    fn a_corner_shared_with_a_hard_edge_is_held_down() {
        let supports = Supports { front: Edge::Hard, ..Supports::side_walls() };
        let one_way = nodal(&supports).one_way;
        assert_eq!(one_way.len(), 4, "two nodes of each side wall");
        assert!(one_way.iter().all(|f| f / 5 >= 3), "{one_way:?}");
    }

    #[test]
    fn the_plane_is_held_by_three_points() {
        let count = |supports: &Supports| {
            let fixed = nodal(supports).fixed;
            (0..9).flat_map(|n| [5 * n, 5 * n + 1]).filter(|&f| fixed[f]).count()
        };
        assert_eq!(count(&Supports::side_walls()), 3);
        let thrust = Some(Thrust { stiffness: 1e6, z: 0.0 });
        assert_eq!(count(&Supports { thrust, ..Supports::side_walls() }), 1);
    }

    /// A gap from wall to wall leaves two roofs, each held by itself.
    #[test]
    fn each_piece_is_held_in_its_plane() {
        let lines = vec![0.0, 1.0, 2.0, 3.0];
        let grid = Grid::new(lines.clone(), lines, |_, y| (!(1.0..2.0).contains(&y)).then_some(0)).unwrap();
        let fixed = NodalSupports::new(&Supports::side_walls(), &grid, &[true; 16]).unwrap().fixed;
        let held = |nodes: std::ops::Range<usize>| {
            nodes.flat_map(|n| [5 * n, 5 * n + 1]).filter(|&f| fixed[f]).count()
        };
        assert_eq!((held(0..8), held(8..16)), (3, 3));
    }

    #[test]
    fn springs_share_the_whole_wall() {
        let thrust = Some(Thrust { stiffness: 1e6, z: 0.0 });
        let springs = nodal(&Supports { thrust, ..Supports::side_walls() }).springs;
        let total: f64 = springs.iter().map(|(_, k)| k).sum();
        assert!((total - 2.0 * 2e6).abs() < 1e-6, "{total}");
    }
}

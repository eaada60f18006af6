//! The panel element: four nodes, a laminate with shear, and the crown's slope.
//!
//! Unknowns a node: `u, v, w, bx, by` with `u(z) = u + z bx`, `v(z) = v + z by`; `z` and `w` point up.
//! Strains: `exx = u,x + z0,x w,x`, `eyy = v,y`, `gxy = u,y + v,x + z0,x w,y` (Marguerre's shallow shell),
//! `kx = bx,x`, `ky = by,y`, `kxy = bx,y + by,x`, `gxz = w,x + bx`, `gyz = w,y + by`.
//!
//! # References
//! - Dvorkin and Bathe (1984): transverse shear strains tied at the edge mid-points.
//! - Taylor, Beresford and Wilson (1976): incompatible modes for in-plane bending, condensed.
//! - Marguerre (1938): membrane strains of a shallow shell. (All three from memory.)

use super::laminate::PlateLaminate;

/// Unknowns of one element.
pub(crate) const ELEMENT_UNKNOWNS: usize = 20;
/// Strain rows: `exx eyy gxy kx ky kxy gxz gyz`.
pub(crate) const STRAINS: usize = 8;
/// Internal modes: `1 - xi^2` and `1 - eta^2` for `u` and `v`.
const MODES: usize = 4;
const COLUMNS: usize = ELEMENT_UNKNOWNS + MODES;
/// Corner signs, anticlockwise from the left front corner.
const CORNERS: [(f64, f64); 4] = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];

/// Strains from the 20 nodal unknowns at (`xi`, `eta`) of a `dx` by `dy` rectangle whose crown rises by
/// `slope` per metre across.
pub(crate) fn strain_matrix(
    dx: f64,
    dy: f64,
    slope: f64,
    xi: f64,
    eta: f64,
) -> [[f64; ELEMENT_UNKNOWNS]; STRAINS] {
    let mut b = [[0.0; ELEMENT_UNKNOWNS]; STRAINS];
    for (n, (sx, sy)) in CORNERS.into_iter().enumerate() {
        let [u, v, w, bx, by] = [5 * n, 5 * n + 1, 5 * n + 2, 5 * n + 3, 5 * n + 4];
        let along_x = sx * (1.0 + eta * sy) / (2.0 * dx);
        let along_y = sy * (1.0 + xi * sx) / (2.0 * dy);
        b[0][u] = along_x;
        b[0][w] = slope * along_x;
        b[1][v] = along_y;
        b[2][u] = along_y;
        b[2][v] = along_x;
        b[2][w] = slope * along_y;
        b[3][bx] = along_x;
        b[4][by] = along_y;
        b[5][bx] = along_y;
        b[5][by] = along_x;
        // Tied at the mid-points of the edges: linear across them, constant along them.
        b[6][w] = along_x;
        b[6][bx] = (1.0 + eta * sy) / 4.0;
        b[7][w] = along_y;
        b[7][by] = (1.0 + xi * sx) / 4.0;
    }
    b
}

/// Stiffness of one flat rectangle by rows; `None` if the laminate is not stiff in its plane.
pub(crate) fn stiffness(dx: f64, dy: f64, laminate: &PlateLaminate) -> Option<Vec<f64>> {
    integrated(dx, dy, 0.0, laminate)
}

/// The stiffness of a flat rectangle where the crown rises by `slope` per metre across: the panel is strained by `u + slope w`
/// as it is by `u` where it is flat.
pub(crate) fn on_slope(flat: &[f64], slope: f64) -> Vec<f64> {
    let mut k = flat.to_vec();
    let nodes = (0..ELEMENT_UNKNOWNS).step_by(5);
    for row in k.chunks_exact_mut(ELEMENT_UNKNOWNS) {
        nodes.clone().for_each(|u| row[u + 2] += slope * row[u]);
    }
    for node in k.chunks_exact_mut(5 * ELEMENT_UNKNOWNS) {
        let (u, others) = node.split_at_mut(ELEMENT_UNKNOWNS);
        let w = &mut others[ELEMENT_UNKNOWNS..2 * ELEMENT_UNKNOWNS];
        w.iter_mut().zip(u).for_each(|(w, u)| *w += slope * *u);
    }
    k
}

fn integrated(dx: f64, dy: f64, slope: f64, laminate: &PlateLaminate) -> Option<Vec<f64>> {
    let section = laminate.section_stiffness();
    let weight = dx * dy / 4.0;
    let point = 1.0 / 3f64.sqrt();
    let mut k = [[0.0; COLUMNS]; COLUMNS];
    for (sx, sy) in CORNERS {
        let (xi, eta) = (sx * point, sy * point);
        let nodal = strain_matrix(dx, dy, slope, xi, eta);
        let mut b = [[0.0; COLUMNS]; STRAINS];
        for (row, nodal_row) in b.iter_mut().zip(&nodal) {
            row[..ELEMENT_UNKNOWNS].copy_from_slice(nodal_row);
        }
        let (mode_x, mode_y) = (-4.0 * xi / dx, -4.0 * eta / dy);
        b[0][20] = mode_x;
        b[2][21] = mode_y;
        b[2][22] = mode_x;
        b[1][23] = mode_y;
        add_triple_product(&mut k, &b, &section, weight);
    }
    condense_modes(&mut k)?;
    let all = 0..ELEMENT_UNKNOWNS;
    Some(
        all.clone()
            .flat_map(|i| all.clone().map(move |j| (i.max(j), i.min(j))))
            .map(|(i, j)| k[i][j])
            .collect(),
    )
}

/// `k += weight * b' c b`, lower triangle.
fn add_triple_product(
    k: &mut [[f64; COLUMNS]; COLUMNS],
    b: &[[f64; COLUMNS]; STRAINS],
    c: &[[f64; STRAINS]; STRAINS],
    weight: f64,
) {
    for (c_row, b_row) in c.iter().zip(b) {
        let mut cb = [0.0; COLUMNS];
        for (&c_value, row) in c_row.iter().zip(b) {
            if c_value != 0.0 {
                for (sum, &value) in cb.iter_mut().zip(row) {
                    *sum += weight * c_value * value;
                }
            }
        }
        for (i, &left) in b_row.iter().enumerate() {
            if left != 0.0 {
                for (sum, &right) in k[i][..=i].iter_mut().zip(&cb) {
                    *sum += left * right;
                }
            }
        }
    }
}

/// Gaussian elimination of the internal modes from the lower triangle, last first.
fn condense_modes(k: &mut [[f64; COLUMNS]; COLUMNS]) -> Option<()> {
    for m in (ELEMENT_UNKNOWNS..COLUMNS).rev() {
        let row = k[m];
        if row[m] <= 0.0 || !row[m].is_finite() {
            return None;
        }
        for i in 0..m {
            let factor = row[i] / row[m];
            if factor != 0.0 {
                for j in 0..=i {
                    k[i][j] -= factor * row[j];
                }
            }
        }
    }
    Some(())
}

#[cfg(test)]
mod tests {
    use super::super::validation::panel_40;
    use super::*;

    #[test]
    fn a_sloping_cell_is_a_flat_one_whose_sag_strains_it_too() {
        let (dx, dy, slope) = (0.04, 0.025, -0.07);
        let mut laminate = panel_40();
        laminate.b = [[3e5, 1e5, 0.0], [1e5, -2e5, 0.0], [0.0, 0.0, 4e4]];
        let wanted = integrated(dx, dy, slope, &laminate).unwrap();
        let found = on_slope(&stiffness(dx, dy, &laminate).unwrap(), slope);
        let largest = wanted.iter().fold(0.0, |m: f64, k| m.max(k.abs()));
        for (found, wanted) in found.iter().zip(&wanted) {
            assert!((found - wanted).abs() < 1e-13 * largest, "{found} {wanted}");
        }
    }
}

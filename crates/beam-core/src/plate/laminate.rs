//! What the two-way model knows of a build-up: its stiffness about the reference plane, and its layers.

use super::error::{PlateError, checked};

/// Stiffness of one zone's build-up about the roof's one reference plane, in SI.
///
/// `N = A e + B k`, `M = B e + D k` with `e = (exx, eyy, gxy)` at the reference plane and `k = (bx,x, by,y,
/// bx,y + by,x)`; transverse shear `Q = Ks g`.
#[derive(Debug, Clone, PartialEq)]
pub struct PlateLaminate {
    /// Membrane stiffness, N/m.
    pub a: [[f64; 3]; 3],
    /// Coupling, N.
    pub b: [[f64; 3]; 3],
    /// Bending stiffness, N m.
    pub d: [[f64; 3]; 3],
    /// Transverse shear stiffness across (x-z) and along (y-z), N/m.
    pub ks: [f64; 2],
    /// Layers for the recovery of stresses, from the bottom up; may be empty.
    pub layers: Vec<PlateLayer>,
}

/// One layer, for the recovery of its stresses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlateLayer {
    /// Plane-stress stiffness in the roof's axes, Pa.
    pub q: [[f64; 3]; 3],
    /// Lower face above the reference plane, m.
    pub bottom: f64,
    /// Upper face above the reference plane, m.
    pub top: f64,
}

impl PlateLayer {
    /// Stress `(sxx, syy, txy)`, Pa, at height `z` (m) for a section strain `exx eyy gxy kx ky kxy ..`.
    pub fn stress(&self, strain: &[f64; 8], z: f64) -> [f64; 3] {
        self.q.map(|row| (0..3).map(|j| row[j] * (strain[j] + z * strain[j + 3])).sum())
    }
}

impl PlateLaminate {
    /// Stiffness of the section: rows and columns `exx eyy gxy kx ky kxy gxz gyz`.
    pub(crate) fn section_stiffness(&self) -> [[f64; 8]; 8] {
        let mut c = [[0.0; 8]; 8];
        for i in 0..3 {
            for j in 0..3 {
                c[i][j] = self.a[i][j];
                c[i][j + 3] = self.b[i][j];
                c[i + 3][j] = self.b[j][i];
                c[i + 3][j + 3] = self.d[i][j];
            }
        }
        c[6][6] = self.ks[0];
        c[7][7] = self.ks[1];
        c
    }

    /// Refuses a build-up that is not finite, or not stiff in every direction.
    pub(crate) fn check(&self) -> Result<(), PlateError> {
        for ks in self.ks {
            checked("transverse shear stiffness (N/m)", ks, "positive", |v| v > 0.0)?;
        }
        for i in 0..3 {
            checked("membrane stiffness on the diagonal (N/m)", self.a[i][i], "positive", |v| v > 0.0)?;
            checked("bending stiffness on the diagonal (N m)", self.d[i][i], "positive", |v| v > 0.0)?;
            for j in 0..3 {
                for value in [self.a[i][j], self.b[i][j], self.d[i][j]] {
                    checked("laminate stiffness", value, "finite", |_| true)?;
                }
            }
        }
        Ok(())
    }
}

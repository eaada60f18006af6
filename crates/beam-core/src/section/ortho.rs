//! The small matrices of an orthotropic plane-stress layer, grain along x or y.

/// A symmetric 3 x 3 with no coupling between stretch and in-plane shear: `[[xx, xy, 0], [xy, yy, 0], [0, 0, ss]]`.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Ortho {
    pub(crate) xx: f64,
    pub(crate) xy: f64,
    pub(crate) yy: f64,
    pub(crate) ss: f64,
}

impl Ortho {
    /// Plane-stress stiffness from moduli.
    pub(crate) fn plane_stress(e_x: f64, e_y: f64, nu_xy: f64, g_xy: f64) -> Self {
        let nu_yx = nu_xy * e_y / e_x;
        let hold = 1.0 - nu_xy * nu_yx;
        Self { xx: e_x / hold, xy: nu_xy * e_y / hold, yy: e_y / hold, ss: g_xy }
    }

    /// `self + other * factor`.
    pub(crate) fn plus(self, other: Self, factor: f64) -> Self {
        Self {
            xx: self.xx + other.xx * factor,
            xy: self.xy + other.xy * factor,
            yy: self.yy + other.yy * factor,
            ss: self.ss + other.ss * factor,
        }
    }

    /// Times a vector `[x, y, shear]`.
    pub(crate) fn times(self, v: [f64; 3]) -> [f64; 3] {
        [self.xx * v[0] + self.xy * v[1], self.xy * v[0] + self.yy * v[1], self.ss * v[2]]
    }

    /// The inverse times a vector.
    pub(crate) fn solve(self, v: [f64; 3]) -> [f64; 3] {
        let det = self.xx * self.yy - self.xy * self.xy;
        [(self.yy * v[0] - self.xy * v[1]) / det, (self.xx * v[1] - self.xy * v[0]) / det, v[2] / self.ss]
    }

    /// `d - b inv(a) b`: bending stiffness when nothing holds the plate in its plane.
    pub(crate) fn bending_free(a: Self, b: Self, d: Self) -> Self {
        let column = |v: [f64; 3]| b.times(a.solve(b.times(v)));
        let (x, y, s) = (column([1.0, 0.0, 0.0]), column([0.0, 1.0, 0.0]), column([0.0, 0.0, 1.0]));
        Self { xx: d.xx - x[0], xy: d.xy - x[1], yy: d.yy - y[1], ss: d.ss - s[2] }
    }

    /// All nine numbers.
    pub(crate) fn matrix(self) -> [[f64; 3]; 3] {
        [[self.xx, self.xy, 0.0], [self.xy, self.yy, 0.0], [0.0, 0.0, self.ss]]
    }
}

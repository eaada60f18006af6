//! The layer's stiffness looked up: a field asks for it ten thousand times.

use super::layer::{FarSide, Layer};

/// `K(xi)` by cubic interpolation up to twelve core depths of wave number, by its exact asymptote beyond.
pub(crate) struct BedTable {
    step: f64,
    slope: f64,
    values: Vec<f64>,
}

impl BedTable {
    const END: f64 = 12.0;
    const CELLS: usize = 240;

    pub(crate) fn new(foam: &Layer) -> Self {
        let step = Self::END / foam.depth / Self::CELLS as f64;
        let values = (0..Self::CELLS + 3).map(|i| foam.stiffness(i as f64 * step, FarSide::Rigid)).collect();
        Self { step, slope: foam.short_slope(), values }
    }

    pub(crate) fn at(&self, xi: f64) -> f64 {
        let s = xi / self.step;
        if s >= Self::CELLS as f64 {
            return self.slope * xi;
        }
        let i = (s as usize).max(1);
        let t = s - i as f64;
        let [a, b, c, d] = [self.values[i - 1], self.values[i], self.values[i + 1], self.values[i + 2]];
        // Lagrange through t = -1, 0, 1, 2.
        -t * (t - 1.0) * (t - 2.0) / 6.0 * a + (t + 1.0) * (t - 1.0) * (t - 2.0) / 2.0 * b
            - (t + 1.0) * t * (t - 2.0) / 2.0 * c
            + (t + 1.0) * t * (t - 1.0) / 6.0 * d
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn table_follows_the_layer() {
        for depth in [0.02, 0.09] {
            let foam = Layer { e: 5e6, nu: 0.1, depth };
            let table = BedTable::new(&foam);
            for i in 0..400 {
                let xi = (f64::from(i) + 0.37) * 0.05 / depth;
                assert_relative_eq!(table.at(xi), foam.stiffness(xi, FarSide::Rigid), max_relative = 2e-5);
            }
        }
    }
}

//! Transverse shear of a bonded stack by energy: stiffness and stress profile in one direction.

/// Abscissa and weight of the three-point Gauss rule on (-1, 1), exact for the quartic met here.
const GAUSS: [(f64, f64); 3] =
    [(-0.774_596_669_241_483_4, 5.0 / 9.0), (0.0, 8.0 / 9.0), (0.774_596_669_241_483_4, 5.0 / 9.0)];

/// One layer as the shear sees it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Slice {
    /// Bottom and top, m.
    pub(crate) z: [f64; 2],
    /// Stretching stiffness in the direction of the shear force, Pa; 0 where the layer's own is not counted.
    pub(crate) q: f64,
    /// Transverse shear modulus, Pa.
    pub(crate) g: f64,
}

/// Shear of a stack in one direction.
#[derive(Debug, Clone)]
pub(crate) struct ShearProfile {
    /// Shear stiffness per width, N/m.
    pub(crate) stiffness: f64,
    /// Largest shear stress in each slice per unit of shear force per width, 1/m.
    pub(crate) peak: Vec<f64>,
}

/// `tau(z)/V = (1/EI) integral from z to the top of q (s - zn) ds`, and `1/Ks = integral (tau/V)^2 / g dz`.
///
/// `None` where no slice carries direct stress.
pub(crate) fn shear_profile(slices: &[Slice]) -> Option<ShearProfile> {
    let stretch: f64 = slices.iter().map(|s| s.q * (s.z[1] - s.z[0])).sum();
    if !(stretch.is_finite() && stretch > 0.0) {
        return None;
    }
    let first: f64 = slices.iter().map(|s| s.q * (s.z[1] - s.z[0]) * (s.z[1] + s.z[0]) / 2.0).sum();
    let neutral = first / stretch;
    let bending: f64 =
        slices.iter().map(|s| s.q * ((s.z[1] - neutral).powi(3) - (s.z[0] - neutral).powi(3)) / 3.0).sum();
    let mut flexibility = 0.0;
    let mut peak = vec![0.0; slices.len()];
    let mut above = 0.0; // first moment of everything above the slice in hand
    for (slice, peak) in slices.iter().zip(&mut peak).rev() {
        let [bottom, top] = slice.z.map(|z| z - neutral);
        let flow = |s: f64| (above + slice.q * (top - s) * (top + s) / 2.0) / bending;
        let (middle, half) = ((top + bottom) / 2.0, (top - bottom) / 2.0);
        for (at, weight) in GAUSS {
            flexibility += weight * half * flow(middle + half * at).powi(2) / slice.g;
        }
        *peak = flow(bottom).abs().max(flow(top).abs());
        if bottom < 0.0 && top > 0.0 {
            *peak = peak.max(flow(0.0).abs());
        }
        above += slice.q * (top - bottom) * (top + bottom) / 2.0;
    }
    Some(ShearProfile { stiffness: 1.0 / flexibility, peak })
}

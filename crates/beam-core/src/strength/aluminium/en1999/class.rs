//! Classes and local buckling of flat parts, 6.1.4 and 6.1.5.

use super::{BucklingClass, EnMetal, EnTube};

/// How a flat part is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Edges {
    /// Along both edges: the walls of a tube.
    Both,
    /// Along one edge: the leg of an angle.
    One,
}

/// One flat part, classified.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// Slenderness `beta`, its effective value where stress varies over it.
    pub beta: f64,
    /// Limits of classes 1, 2 and 3 for `beta`.
    pub limits: [f64; 3],
    /// Class, 1 to 4.
    pub class: u8,
    /// Share `rho_c` of its thickness that counts; 1 up to class 3.
    pub rho: f64,
}

/// Classifies a flat part.
///
/// # References
/// EN 1999-1-1:2007, Tables 6.2 and 6.3. Class A, unwelded, internal: TALAT lecture 2301, examples 5.1 and 5.2; the
/// rest from memory. TALAT example 9.3 prints limits without the root in `epsilon`: an erratum.
pub fn part(metal: &EnMetal, edges: Edges, welded: bool, beta: f64) -> Part {
    use BucklingClass::{A, B};
    use Edges::{Both, One};
    let (limits, (c1, c2)) = match (edges, metal.strengths().class, welded) {
        (Both, A, false) => ([11.0, 16.0, 22.0], (32.0, 220.0)),
        (Both, A, true) => ([9.0, 13.0, 18.0], (29.0, 198.0)),
        (Both, B, false) => ([13.0, 16.5, 18.0], (29.0, 198.0)),
        (Both, B, true) => ([10.0, 13.5, 15.0], (25.0, 150.0)),
        (One, A, false) => ([3.0, 4.5, 6.0], (10.0, 24.0)),
        (One, A, true) => ([2.5, 4.0, 5.0], (9.0, 20.0)),
        (One, B, false) => ([3.5, 4.5, 5.0], (9.0, 20.0)),
        (One, B, true) => ([3.0, 3.5, 4.0], (8.0, 16.0)),
    };
    let epsilon = metal.epsilon();
    let x = beta / epsilon;
    let class = 1 + limits.iter().map(|limit| u8::from(x > *limit)).sum::<u8>();
    // Where the curve starts a little above one, the whole thickness counts.
    let rho = if class < 4 { 1.0 } else { (c1 / x - c2 / (x * x)).min(1.0) };
    Part { beta, limits: limits.map(|limit| limit * epsilon), class, rho }
}

impl EnTube {
    /// Flange, and web with this share of its slenderness: 1 in compression, 0.40 in pure bending.
    pub(crate) fn parts(&self, web_share: f64) -> [Part; 2] {
        let t = self.tube.wall;
        let of = |beta| part(&self.metal, Edges::Both, self.welded, beta);
        [of(self.tube.clear_width() / t), of(web_share * self.tube.clear_depth() / t)]
    }

    /// Class of the section in uniform compression, 1 to 4.
    pub fn class_in_compression(&self) -> u8 {
        worst(self.parts(1.0))
    }

    /// Class of the section in bending, 1 to 4.
    pub fn class_in_bending(&self) -> u8 {
        worst(self.parts(BENT_WEB))
    }
}

/// Effective slenderness of a web in pure bending, of its `b/t` (6.1.4.3).
pub(crate) const BENT_WEB: f64 = 0.40;

pub(crate) fn worst(parts: [Part; 2]) -> u8 {
    parts[0].class.max(parts[1].class)
}

#[cfg(test)]
mod tests {
    use super::super::samples::*;
    use super::*;
    use BucklingClass::{A, B};
    use approx::assert_relative_eq;

    /// TALAT lecture 2301, example 5.1, as printed: beta 34.8, limits 12.3, 17.9, 24.6, class 4, rho 0.80. Steel's
    /// `sqrt(235/fo)` would give 11.9.
    #[test]
    fn talat_example_5_1() {
        let [flange, _] = tube(70.0, 70.0, 1.9, 200.0, A).parts(1.0);
        assert_relative_eq!(flange.beta, 34.8, max_relative = 0.002);
        for (limit, printed) in flange.limits.into_iter().zip([12.3, 17.9, 24.6]) {
            assert_relative_eq!(limit, printed, max_relative = 0.002);
        }
        assert_eq!(flange.class, 4);
        assert_relative_eq!(flange.rho, 0.80, max_relative = 0.002);
    }

    /// TALAT lecture 2301, example 5.2: rho 0.854 and 0.770 at beta/epsilon 28.402 and 32.863.
    #[test]
    fn talat_example_5_2() {
        let m = metal(250.0, A);
        for (x, printed) in [(28.402, 0.854), (32.863, 0.770)] {
            assert_relative_eq!(part(&m, Edges::Both, false, x).rho, printed, max_relative = 0.001);
        }
    }

    /// TALAT lecture 2301, example 9.2, 180 x 120 x 6 mm, 140 MPa: web 28 is class 3 in compression, 11.2 class 1 in
    /// bending; flange 18 is class 2.
    #[test]
    fn talat_example_9_2() {
        let t = tube(120.0, 180.0, 6.0, 140.0, A);
        let ([flange, web], [_, bent]) = (t.parts(1.0), t.parts(BENT_WEB));
        assert_relative_eq!(web.beta, 28.0, max_relative = 1e-12);
        assert_relative_eq!(bent.beta, 11.2, max_relative = 1e-12);
        assert_eq!((web.class, bent.class, flange.class), (3, 1, 2));
        assert_eq!((t.class_in_compression(), t.class_in_bending()), (3, 2));
    }

    /// 6063-T5 is of class B: what class A leaves whole is thinned; so does welding.
    #[test]
    fn class_b_and_welds_never_help() {
        for beta in [5.0, 12.0, 20.0, 24.0, 40.0] {
            for edges in [Edges::Both, Edges::One] {
                let at = |class, welded| part(&metal(200.0, class), edges, welded, beta);
                assert!(at(B, false).rho <= at(A, false).rho + 0.02, "{beta} {edges:?}");
                assert!(at(A, true).rho <= at(A, false).rho, "{beta} {edges:?}");
                assert!(at(A, true).class >= at(A, false).class && at(B, true).class >= at(B, false).class);
            }
        }
    }
}

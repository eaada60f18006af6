//! The arc that comes nearest to a measured roof, and how far it gaps.

use super::arc::Arc;
use super::error::{FormingError, out_of_range};
use crate::quantity::{Length, positive, si};

/// A gap from here on is filled with a shim: glue does not bridge it.
pub const SHIM_FROM: f64 = 0.003;
/// Fewer points do not tell an arc from a bump.
const FEWEST: usize = 5;
const MOST: usize = 200;
/// Largest gap over the rise with which a roof is still called an arc.
const MOST_GAP: f64 = 1.0 / 3.0;
/// Heights beyond this share of the span are a slip of the tape.
const TALLEST: f64 = 0.5;

/// Heights of a roof above a string across it, evenly spaced from one end to the other, both ends included.
#[derive(Debug, Clone, PartialEq)]
pub struct Ordinates {
    span: f64,
    heights: Vec<f64>,
}

/// An arc laid against measured heights so that it touches them from below.
#[derive(Debug, Clone, PartialEq)]
pub struct ArcFit {
    arc: Arc,
    gaps: Vec<f64>,
}

impl Ordinates {
    /// Heights over a chord.
    ///
    /// # Errors
    /// [`FormingError::FewOrdinates`] unless there are 5 to 200; [`FormingError::OutOfRange`] for a span that is not
    /// above zero and a height of more than half the span up or down.
    pub fn new(span: Length, heights: &[Length]) -> Result<Self, FormingError> {
        let span = positive("span", span.value, "m", "measure from end to end of the brace")?;
        if !(FEWEST..=MOST).contains(&heights.len()) {
            return Err(FormingError::FewOrdinates { count: heights.len() });
        }
        let heights: Vec<f64> = heights.iter().map(|height| height.value).collect();
        if let Some(&wild) = heights.iter().find(|y| !(y.is_finite() && y.abs() <= TALLEST * span)) {
            let allowed = format!("up to half the span, {:.6} m, up or down", TALLEST * span);
            return Err(out_of_range(
                "an ordinate",
                wild,
                "m",
                allowed,
                "measure it again, and check its unit",
            ));
        }
        Ok(Self { span, heights })
    }

    /// The arc nearest to the heights by least squares; the string's ends need not be level with the arc's.
    ///
    /// # Errors
    /// [`FormingError::NoCrown`] and [`FormingError::NoArc`].
    ///
    /// # Examples
    /// ```
    /// use beam_core::forming::Ordinates;
    /// use beam_core::quantity::{si, INCH};
    ///
    /// // Span 96, radius 290, measured to the sixteenth of an inch.
    /// let read = [0.0, 1.75, 3.0, 3.75, 4.0, 3.75, 3.0, 1.75, 0.0].map(|y| si(y * INCH));
    /// let fit = Ordinates::new(si(96.0 * INCH), &read)?.nearest_arc()?;
    /// assert!((fit.arc().radius().value / INCH - 290.0).abs() < 3.0);
    /// assert!(fit.worst().1.value < 0.003);
    /// # Ok::<(), beam_core::forming::FormingError>(())
    /// ```
    pub fn nearest_arc(&self) -> Result<ArcFit, FormingError> {
        let half = self.span / 2.0;
        // Beyond this the arc is a half circle, and its slope at the ends has no number.
        let tightest = 0.999 / half;
        let mut k = 0.0_f64;
        // Gauss-Newton in the curvature alone: level and tilt are taken out of the residual and of its derivative.
        for _ in 0..100 {
            let rest = self.rest(|x| self.offset(k, x).0);
            let slope = levelled(&self.places().map(|x| self.offset(k, x).1).collect::<Vec<_>>());
            let step = dot(&slope, &rest) / dot(&slope, &slope);
            let next = (k + step).clamp(-tightest, tightest);
            let moved = (next - k).abs();
            k = next;
            if moved <= 1e-14 * tightest {
                break;
            }
        }
        let middle = self.offset(k, half).0;
        if middle <= self.span * 1e-6 {
            return Err(FormingError::NoCrown { middle });
        }
        self.against(Arc::new(si(self.span), si(middle))?)
    }

    /// A given arc laid against the heights.
    ///
    /// # Errors
    /// [`FormingError::OutOfRange`] if the arc has another span, and [`FormingError::NoArc`] if the heights are far
    /// from it.
    pub fn against(&self, arc: Arc) -> Result<ArcFit, FormingError> {
        let span = arc.span().value;
        if (span - self.span).abs() > 1e-9 * self.span {
            let allowed = format!("the span of the ordinates, {:.6} m", self.span);
            return Err(out_of_range(
                "span of the arc",
                span,
                "m",
                allowed,
                "measure both over the same chord",
            ));
        }
        let rest = self.rest(|x| arc.offset_si(x));
        let touching = rest.iter().copied().fold(f64::INFINITY, f64::min);
        let gaps: Vec<f64> = rest.iter().map(|r| r - touching).collect();
        let gap = gaps.iter().copied().fold(0.0, f64::max);
        let rise = arc.rise().value;
        if gap > MOST_GAP * rise {
            return Err(FormingError::NoArc { gap, rise });
        }
        Ok(ArcFit { arc, gaps })
    }

    fn places(&self) -> impl Iterator<Item = f64> {
        places(self.span, self.heights.len())
    }

    /// Heights less a curve, level and tilt taken out.
    fn rest(&self, curve: impl Fn(f64) -> f64) -> Vec<f64> {
        levelled(&self.places().zip(&self.heights).map(|(x, y)| y - curve(x)).collect::<Vec<_>>())
    }

    /// Height above the chord of an arc of curvature `k`, and its derivative by `k`.
    fn offset(&self, k: f64, x: f64) -> (f64, f64) {
        let half = self.span / 2.0;
        let [s2, q2] = [(x - half).powi(2), half * half];
        let [a, b] = [(1.0 - k * k * s2).max(0.0).sqrt(), (1.0 - k * k * q2).sqrt()];
        let (product, sum) = (x * (self.span - x), a + b);
        let tilt = if a > 0.0 { s2 / a } else { 0.0 } + q2 / b;
        (product * k / sum, product * (1.0 / sum + k * k * tilt / (sum * sum)))
    }
}

impl ArcFit {
    /// The arc.
    pub fn arc(&self) -> Arc {
        self.arc
    }

    /// Gap between arc and roof at each ordinate, with its place along the chord.
    pub fn gaps(&self) -> impl Iterator<Item = (Length, Length)> {
        places(self.arc.span().value, self.gaps.len()).zip(&self.gaps).map(|(x, gap)| (si(x), si(*gap)))
    }

    /// Place and size of the largest gap.
    pub fn worst(&self) -> (Length, Length) {
        let zero = (si(0.0), si(0.0));
        self.gaps().fold(zero, |worst: (Length, Length), gap| if gap.1 > worst.1 { gap } else { worst })
    }

    /// Where a shim is needed, and how thick.
    pub fn shims(&self) -> impl Iterator<Item = (Length, Length)> {
        self.gaps().filter(|(_, gap)| gap.value > SHIM_FROM)
    }
}

fn places(span: f64, count: usize) -> impl Iterator<Item = f64> {
    let steps = (count - 1) as f64;
    (0..count).map(move |i| span * i as f64 / steps)
}

/// Evenly spaced values less the straight line nearest to them.
fn levelled(values: &[f64]) -> Vec<f64> {
    let count = values.len() as f64;
    let middle = (count - 1.0) / 2.0;
    let mean = values.iter().sum::<f64>() / count;
    let arms = || (0..values.len()).map(|i| i as f64 - middle);
    let tilt =
        arms().zip(values).map(|(arm, y)| arm * y).sum::<f64>() / arms().map(|arm| arm * arm).sum::<f64>();
    arms().zip(values).map(|(arm, y)| y - mean - tilt * arm).collect()
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::{assert_abs_diff_eq, assert_relative_eq};
    use proptest::prelude::*;

    fn ordinates(span: f64, heights: &[f64]) -> Result<Ordinates, FormingError> {
        Ordinates::new(si(span), &heights.iter().map(|y| si(*y)).collect::<Vec<_>>())
    }

    proptest! {
        /// An exact circle is found again, whatever the level and tilt of the string, and gaps nowhere.
        #[test]
        fn a_circle_is_found_again(
            share in 0.002..0.4_f64, count in 5..40_usize, level in -0.02..0.02_f64, tilt in -0.02..0.02_f64,
        ) {
            let arc = Arc::new(si(2.3), si(share * 2.3)).unwrap();
            let heights: Vec<f64> =
                places(2.3, count).map(|x| arc.offset_si(x) + level + tilt * x).collect();
            let fit = ordinates(2.3, &heights).unwrap().nearest_arc().unwrap();
            prop_assert!((fit.arc().radius().value / arc.radius().value - 1.0).abs() < 1e-7);
            prop_assert!(fit.worst().1.value < 1e-7);
        }
    }

    /// One low place in a good arc: its depth is the gap of everything else, less what the fit gives way.
    #[test]
    fn a_dent_asks_for_shims_beside_it() {
        let arc = Arc::new(si(2.4), si(0.06)).unwrap();
        let mut heights: Vec<f64> = places(2.4, 9).map(|x| arc.offset_si(x)).collect();
        heights[3] -= 0.006;
        let fit = ordinates(2.4, &heights).unwrap().against(arc).unwrap();
        assert_abs_diff_eq!(fit.worst().1.value, 0.006, epsilon = 0.001);
        assert!(fit.shims().all(|(x, _)| (x.value - 0.9).abs() > 0.1) && fit.shims().count() >= 5);
        assert!(fit.gaps().any(|(x, gap)| (x.value - 0.9).abs() < 1e-9 && gap.value == 0.0));
    }

    /// The straight line nearest to evenly spaced values, worked by hand: 0, 0, 3 has the line -0.5 + 1.5 i.
    #[test]
    fn level_and_tilt_are_taken_out() {
        let rest = levelled(&[0.0, 0.0, 3.0]);
        for (found, expected) in rest.iter().zip([0.5, -1.0, 0.5]) {
            assert_relative_eq!(*found, expected, max_relative = 1e-14);
        }
    }

    #[test]
    fn what_is_no_arch_is_told_with_the_way_out() {
        let told = |heights: &[f64]| ordinates(2.0, heights).and_then(|o| o.nearest_arc()).unwrap_err();
        assert!(matches!(told(&[0.0, 0.03, 0.04, 0.0]), FormingError::FewOrdinates { count: 4 }));
        assert!(matches!(told(&[0.0; 7]), FormingError::NoCrown { .. }));
        assert!(matches!(told(&[0.0, -0.02, -0.03, -0.02, 0.0]), FormingError::NoCrown { .. }));
        assert!(matches!(told(&[0.0, 0.01, 0.02, 0.03, 0.04]), FormingError::NoCrown { .. }));
        assert!(matches!(told(&[0.0, 0.04, 0.0, 0.04, 0.0]), FormingError::NoArc { .. }));
        assert!(matches!(told(&[0.0, f64::NAN, 0.0, 0.04, 0.0]), FormingError::OutOfRange { .. }));
        assert!(told(&[0.0, 40.0, 50.0, 40.0, 0.0]).to_string().contains("check its unit"));
        assert!(told(&[0.0, 0.04, 0.0, 0.04, 0.0]).to_string().contains("template"));
    }
}

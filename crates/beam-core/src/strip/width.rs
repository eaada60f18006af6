//! How wide a strip goes along with a load: what makes a strip stand for a plate on two walls.
//!
//! **A concentrated load** on a strip of span `L`, `x` from the nearer wall. BS 8110-1:1997, 3.5.2.2 (from
//! memory), takes the load's width and `1.2 x (1 - x/L)` on each side of it, cut off at a free edge. That is
//! made for slabs that yield before they break. Held against the elastic plate (Levy's series: simply
//! supported on two edges, free on the others, square loads of 0.01 to 0.15 L anywhere, Poisson's ratio 0
//! and 0.3) it is too wide: by 19 percent for a 0.02 L load at mid-span of a long roof, by 30 to 60 where free
//! edges are near, because there the load's own peak of moment stays while the width around it goes. Here
//! each side takes
//!
//! ```text
//!     side = (s^-3/2 + e^-3/2)^-2/3        s = 0.75 x (1 - x/L) k,   e = distance to the free edge
//! ```
//!
//! `k` being 1 for equal stiffness in both directions. Over 726 such plates the moment by the strip was never
//! below the plate's, and at most about twice it (loads near a wall).
//!
//! **A spread load** needs no such rule, but a brace under one draws from the roof on both sides: the strip
//! must run half way to the next brace, or to the end of the roof. Cut narrower it flatters the brace: for a
//! stiff one (E I of 1 m of roof, span 2.3 m) a 0.6 m strip gives 0.84 of the moment of a 3 m plate held on
//! four sides, the whole 3 m gives 1.8 times.
//!
//! **Shear of the core beside a load** does not spread first: it leaves over the load's own outline. The
//! strip says nothing about it; [`shear_beside_load`] does.
//!
//! What a strip cannot give is the moment along the vehicle: under a square load on a roof of equal stiffness
//! both ways it is about the plate's moment across, so below the strip's.

use super::error::StripError;
use crate::quantity::{Force, ForcePerLength, Length, Moment, Ratio, positive, si};

/// Spread to each side per `x (1 - x/L)`; BS 8110 has 1.2 (see the module's own words).
const SPREAD: f64 = 0.75;

/// Least width of a load against the span that the rule was held against.
const NARROWEST: f64 = 0.01;

/// How far a plate spreads a load along the vehicle against one of equal stiffness both ways:
/// `(Dy/Dx)^1/4 ((1 + H/sqrt(Dx Dy))/2)^1/2`, `H = Dxy + 2 Ds`.
///
/// `across`, `along` are the bending stiffnesses, `coupled` the off-diagonal one, `twist` the twisting one
/// ([`crate::section::Laminate::bending_free`] at `[0][0]`, `[1][1]`, `[0][1]`, `[2][2]`).
///
/// # Errors
/// A stiffness not above 0, or a coupled one that is not finite or makes H negative.
///
/// # References
/// Orthotropic plate strip under a line of sine load, Timoshenko and Woinowsky-Krieger (1959), art. 86, from
/// memory; above 1 it is not used, so that a stiffness along never widens the strip.
pub fn spread_factor(
    across: Moment,
    along: Moment,
    coupled: Moment,
    twist: Moment,
) -> Result<Ratio, StripError> {
    Ok(si(spread_factor_si(across.value, along.value, coupled.value, twist.value)?))
}

pub(crate) fn spread_factor_si(across: f64, along: f64, coupled: f64, twist: f64) -> Result<f64, StripError> {
    for (what, value) in [("across", across), ("along", along), ("in twist", twist)] {
        positive(format!("bending stiffness {what}"), value, "N m", "take it from the laminate")?;
    }
    let h = coupled + 2.0 * twist;
    positive("plate stiffness H", h, "N m", "take it from the laminate")?;
    Ok(((along / across).powf(0.25) * ((1.0 + h / (across * along).sqrt()) / 2.0).sqrt()).min(1.0))
}

/// Width of strip that goes along with a load of width `load` along the vehicle, `x` from the nearer wall.
///
/// `to_edges` are the distances from the load's sides to the ends of the roof, or to other free edges;
/// `spread` is [`spread_factor`]. The strip is not always centred on the load; see [`effective_sides`] for
/// each side by itself. Where an opening lies in the strip, its width is taken out of the lanes afterwards.
///
/// # Valid for
/// Loads about as wide as they are long, not narrower than 0.01 of the span.
///
/// # Errors
/// A span not above 0; `x` not between 0 and half the span; a load too narrow; a distance below 0; a factor outside 0 to 1.
pub fn effective_width(
    load: Length,
    x: Length,
    span: Length,
    to_edges: [Length; 2],
    spread: Ratio,
) -> Result<Length, StripError> {
    effective_width_si(load.value, x.value, span.value, to_edges.map(|e| e.value), spread.value).map(si)
}

pub(crate) fn effective_width_si(
    load: f64,
    x: f64,
    span: f64,
    to_edges: [f64; 2],
    spread: f64,
) -> Result<f64, StripError> {
    let sides = effective_sides_si(x, span, to_edges, spread)?;
    if !(load.is_finite() && load >= NARROWEST * span) {
        return Err(StripError::out_of_range(
            "width of a load",
            load,
            "m",
            format!("{:.4} m or more, a hundredth of the span", NARROWEST * span),
            "measure its contact; a sharper load is a matter of the skin alone",
        ));
    }
    Ok(load + sides[0] + sides[1])
}

/// What [`effective_width`] adds on each side of the load.
///
/// # Errors
/// As there.
pub fn effective_sides(
    x: Length,
    span: Length,
    to_edges: [Length; 2],
    spread: Ratio,
) -> Result<[Length; 2], StripError> {
    Ok(effective_sides_si(x.value, span.value, to_edges.map(|e| e.value), spread.value)?.map(si))
}

pub(crate) fn effective_sides_si(
    x: f64,
    span: f64,
    to_edges: [f64; 2],
    spread: f64,
) -> Result<[f64; 2], StripError> {
    positive("span", span, "m", "measure from wall to wall")?;
    if !(0.0..=span / 2.0 * (1.0 + 1e-9)).contains(&x) {
        return Err(StripError::out_of_range(
            "distance from the nearer wall",
            x,
            "m",
            format!("0 to half the span, {:.4} m", span / 2.0),
            "count from the nearer wall",
        ));
    }
    if !(spread > 0.0 && spread <= 1.0) {
        return Err(StripError::out_of_range(
            "spread factor",
            spread,
            "",
            "above 0, up to 1",
            "take it from the laminate",
        ));
    }
    let free = SPREAD * x * (1.0 - x / span) * spread;
    let mut sides = [0.0; 2];
    for (side, edge) in sides.iter_mut().zip(to_edges) {
        if edge.is_nan() || edge < 0.0 {
            return Err(StripError::out_of_range(
                "distance to a free edge",
                edge,
                "m",
                "0 or above",
                "count from the side of the load; infinity where there is none",
            ));
        }
        if edge > 0.0 && free > 0.0 {
            *side = (free.powf(-1.5) + edge.powf(-1.5)).powf(-2.0 / 3.0);
        }
    }
    Ok(sides)
}

/// Width of roof that a brace draws a spread load from: half way to its neighbours, or to the end of the roof.
///
/// `braces` are the places along the vehicle, in any order; `which` indexes it.
///
/// # Errors
/// A length not above 0; a brace off the roof or not there.
pub fn tributary_width(braces: &[Length], which: usize, length: Length) -> Result<Length, StripError> {
    let length = positive("roof length", length.value, "m", "measure it")?;
    for brace in braces {
        if !(0.0..=length).contains(&brace.value) {
            return Err(StripError::out_of_range(
                "place of a brace along the vehicle",
                brace.value,
                "m",
                format!("0 to {length:.4} m"),
                "count from the front mark",
            ));
        }
    }
    let Some(at) = braces.get(which).map(|b| b.value) else {
        return Err(StripError::out_of_range(
            "brace",
            which as f64,
            "",
            format!("below {}", braces.len()),
            "count the braces from 0",
        ));
    };
    let places = || braces.iter().map(|b| b.value);
    let before = places().filter(|b| *b < at).fold(f64::NEG_INFINITY, f64::max);
    let behind = places().filter(|b| *b > at).fold(f64::INFINITY, f64::min);
    let front = if before.is_finite() { (at + before) / 2.0 } else { 0.0 };
    let rear = if behind.is_finite() { (at + behind) / 2.0 } else { length };
    Ok(si(rear - front))
}

/// Greatest shear force per width in the panel right beside a load of size `across` x `along`.
///
/// The shear of a simply supported plate of equal stiffness both ways spreads as a potential does; at the
/// middle of the load's sides (the worse pair counts) it is that of an even sheet on a wide plane, a tenth
/// above the load over the outline for a square. Add the strip's own shear force per width near a wall.
///
/// # Errors
/// A side not above 0; a load that is not finite.
///
/// # References
/// Field of an evenly charged rectangle (two-dimensional potential), closed form.
pub fn shear_beside_load(load: Force, across: Length, along: Length) -> Result<ForcePerLength, StripError> {
    shear_beside_load_si(load.value, across.value, along.value).map(si)
}

pub(crate) fn shear_beside_load_si(load: f64, across: f64, along: f64) -> Result<f64, StripError> {
    positive("size of the load across", across, "m", "measure its contact")?;
    positive("size of the load along", along, "m", "measure its contact")?;
    if !load.is_finite() {
        return Err(StripError::out_of_range("load", load, "N", "a finite number", "give it"));
    }
    let field = |deep: f64, side: f64| {
        let half = side / 2.0;
        half * ((deep * deep + half * half) / (half * half)).ln() + 2.0 * deep * (half / deep).atan()
    };
    let most = field(across, along).max(field(along, across));
    Ok(load.abs() / (across * along) * most / (2.0 * std::f64::consts::PI))
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::section::Laminate;
    use crate::section::laminate::LayerSi;
    use crate::strip::solver::{ELEMENTS, Lane, Load, Response, StripBrace, StripModel, Zone};
    use approx::assert_relative_eq;

    const SPAN: f64 = 2.3;

    /// Faces 3 mm, 7000 MPa, Poisson's ratio 0.25; core without direct stress, tuned to the row's G d2/c.
    fn panel(core: f64, g: f64) -> Arc<Laminate> {
        let layer = |z_bottom: f64, z_top: f64, e: f64, nu: f64, g: f64, direct: bool| LayerSi {
            z_bottom,
            z_top,
            e_x: e,
            e_y: e,
            nu_xy: nu,
            g_xy: e / 2.0 / (1.0 + nu),
            g_xz: g,
            g_yz: g,
            flexural: None,
            direct,
            bonded_below: true,
        };
        let half = core / 2.0;
        let layers = vec![
            layer(-half - 0.003, -half, 7.0e9, 0.25, 2.8e9, true),
            layer(-half, half, 5.0e6, 0.0, g, false),
            layer(half, half + 0.003, 7.0e9, 0.25, 2.8e9, true),
        ];
        Arc::new(Laminate::from_si(layers).unwrap())
    }

    fn zone(from: f64, to: f64, laminate: &Arc<Laminate>, width: f64) -> Zone {
        Zone { from, to, lanes: vec![Lane { laminate: laminate.clone(), width }] }
    }

    fn solve(span: f64, zones: Vec<Zone>, braces: Vec<StripBrace>, load: Load) -> Response {
        let model =
            StripModel { span, zones, braces, rise: 0.0, thrust: None, breaks: vec![], elements: ELEMENTS };
        model.factor().unwrap().solve(&[load]).unwrap()
    }

    fn greatest_moment(response: &Response) -> f64 {
        response.stations.iter().map(|s| s.moment).fold(0.0, f64::max)
    }

    /// Moment and (with stiffness 1) sag under a square load on a strip of endless width on two walls, by
    /// Levy's series.
    fn endless(size: f64, x: f64, nu: f64) -> [f64; 2] {
        let mut sums = [0.0; 2];
        for m in 1..=2000 {
            let a = f64::from(m) * std::f64::consts::PI / SPAN;
            let (s, h) = ((a * x).sin(), size / 2.0);
            let q = 4.0 / (f64::from(m) * std::f64::consts::PI * size * size) * s * (a * h).sin();
            let k = q / (2.0 * a.powi(3));
            let w = k * (2.0 - (2.0 + a * h) * (-a * h).exp()) / a;
            let bent = -k * a * a * h * (-a * h).exp();
            sums[0] += (a * a * w - nu * bent) * s;
            sums[1] += w * s;
        }
        sums
    }

    /// The series meets Timoshenko's 0.016961 P b2/D for a point on an endless strip.
    #[test]
    fn series_meets_the_handbook() {
        assert_relative_eq!(endless(0.001, SPAN / 2.0, 0.3)[1] / SPAN.powi(2), 0.016961, max_relative = 1e-4);
    }

    /// Long roofs on two walls: strip moment at or above the plate's, wherever the load, whatever its size.
    #[test]
    fn long_roof_on_two_walls() {
        for nu in [0.0, 0.25, 0.3] {
            for size in [0.023, 0.046, 0.1, 0.18, 0.356] {
                for x in [0.18, 0.3, 0.575, 0.8, 1.15] {
                    let width = effective_width_si(size, x, SPAN, [f64::INFINITY; 2], 1.0).unwrap();
                    let strip = (x * (SPAN - x) / SPAN - size / 8.0) / width;
                    let plate = endless(size, x, nu)[0];
                    assert!(strip >= plate, "size {size} x {x} nu {nu}: {strip} {plate}");
                    assert!(strip < 2.2 * plate);
                }
            }
        }
    }

    /// Free edges near the load: width that the plate asks for, mm, by Levy's series with four edge terms
    /// (worked apart from this library; Poisson's ratio 0.25): size, place, distance to either edge, width.
    #[test]
    fn free_edges() {
        let far = f64::INFINITY;
        for (size, x, edges, asked) in [
            (50.0, 1150.0, [435.0, 435.0], 706.0),
            (50.0, 1150.0, [665.0, 665.0], 892.0),
            (50.0, 1150.0, [1.0, far], 579.0),
            (100.0, 1150.0, [410.0, 410.0], 764.0),
            (180.0, 1150.0, [1.0, far], 822.0),
            (600.0, 1150.0, [160.0, 160.0], 909.0),
            (50.0, 575.0, [435.0, 435.0], 654.0),
            (356.0, 575.0, [282.0, 282.0], 856.0),
            (50.0, 300.0, [1.0, far], 337.0),
            (180.0, 300.0, [370.0, 370.0], 701.0),
        ] {
            let width = effective_width_si(size, x, 2300.0, edges, 1.0).unwrap();
            assert!(width <= asked, "{size} at {x}: {width} against {asked}");
            assert!(width > 0.5 * asked);
        }
    }

    /// Plates held on four sides under 1000 N on 100 x 100 mm in the middle (PLA to PLG): sag (mm) and moment
    /// across (N mm/mm) by the strip at or above Navier's.
    #[test]
    fn patch_in_the_middle_of_a_plate() {
        for (a, b, core, g, sag, moment) in [
            (2300.0, 1200.0, 40.0, 2.5, 5.375806, 280.5355),
            (2300.0, 2300.0, 40.0, 2.5, 7.874295, 356.038),
            (2300.0, 3000.0, 40.0, 2.5, 8.70323, 380.1341),
            (2300.0, 1200.0, 25.0, 1.9, 10.89275, 280.5355),
            (2300.0, 2300.0, 90.0, 4.0, 2.112303, 356.038),
            (1200.0, 600.0, 25.0, 2.5, 5.511119, 211.2928),
        ] {
            let (span, edge) = (a * 1e-3, (b - 100.0) / 2.0 * 1e-3);
            let width = effective_width_si(0.1, span / 2.0, span, [edge; 2], 1.0).unwrap();
            let zones = vec![zone(0.0, span, &panel(core * 1e-3, g * 1e6), width)];
            let load = Load::patch(1000.0, span / 2.0 - 0.05, span / 2.0 + 0.05);
            let response = solve(span, zones, vec![], load);
            assert!(response.greatest_sag()[1] * 1e3 > sag);
            assert!(greatest_moment(&response) / width > moment);
        }
    }

    /// A 356 mm opening, unframed, in 2300 x 2400: 1 kPa all over sags 24.86 mm at its edge on two walls (9.918
    /// on four), 450 N on a 25 mm ring round it 4.43 mm (2.822): own finite element runs on three meshes.
    #[test]
    fn opening() {
        let (hole, ring) = (0.356, 0.025);
        let load = hole + 2.0 * ring;
        let edge = (2.4 - load) / 2.0;
        let width = effective_width_si(load, SPAN / 2.0, SPAN, [edge; 2], 1.0).unwrap();
        let laminate = panel(0.040, 2.5e6);
        let [left, right] = [(SPAN - hole) / 2.0, (SPAN + hole) / 2.0];
        let zones = || {
            vec![
                zone(0.0, left, &laminate, width),
                zone(left, right, &laminate, width - hole),
                zone(right, SPAN, &laminate, width),
            ]
        };
        // The load on the strip as if there were no hole: what the missing piece would weigh is small.
        let even = Load::Uniform { per_length: 1000.0 * width, from: 0.0, to: SPAN };
        let sag = solve(SPAN, zones(), vec![], even).greatest_sag()[1] * 1e3;
        assert!(sag > 24.86 && sag < 1.5 * 24.86, "{sag}");
        let unit = Load::patch(450.0, left - ring, right + ring);
        let sag = solve(SPAN, zones(), vec![], unit).greatest_sag()[1] * 1e3;
        assert!(sag > 4.43 && sag < 2.0 * 4.43, "{sag}");
    }

    /// One loose brace across the middle of 2300 x 3000 under 1 kPa (ST rows): sag and brace moment by the
    /// strip that reaches both ends at or above the plate's; a narrow strip is not.
    #[test]
    fn braced_plate() {
        let brace = |bending: f64| StripBrace {
            from: 0.0,
            to: SPAN,
            axial: 2e7,
            bending,
            shear: 1e8,
            z_axis: 0.0,
            z_glue: 0.0,
            bond: 0.0,
            seat_hold: 0.0,
        };
        let laminate = panel(0.040, 2.5e6);
        let run = |bending: f64, width: f64| {
            let even = Load::Uniform { per_length: 1000.0 * width, from: 0.0, to: SPAN };
            let response = solve(SPAN, vec![zone(0.0, SPAN, &laminate, width)], vec![brace(bending)], even);
            let moment = response.braces[0].stations.iter().map(|s| s.moment).fold(0.0, f64::max);
            (response.greatest_sag()[1] * 1e3, moment)
        };
        let width = tributary_width(&[si(1.5)], 0, si(3.0)).unwrap().value;
        assert_relative_eq!(width, 3.0);
        for (bending, sag, moment) in [(1.66e3, 12.4586, 34.92389), (2.0e4, 8.793603, 318.5186)] {
            let strip = run(bending, width);
            assert!(strip.0 > sag && strip.1 > moment);
        }
        assert!(run(2.0e4, 0.6).1 < 318.5186);
    }

    /// Wood that is stiffer across than along, and weak in twist, spreads less; never more than an even plate.
    #[test]
    fn spread_of_uneven_plates() {
        let (d, nu) = (20.0e3, 0.25);
        let even = spread_factor_si(d, d, nu * d, (1.0 - nu) / 2.0 * d).unwrap();
        assert_relative_eq!(even, 1.0, max_relative = 1e-12);
        let uneven = spread_factor_si(d, d / 2.0, 0.05 * d, 0.08 * d).unwrap();
        assert!(uneven < 0.75 && uneven > 0.5, "{uneven}");
        assert_relative_eq!(spread_factor_si(d, 4.0 * d, nu * d, d).unwrap(), 1.0);
        assert!(spread_factor_si(d, 0.0, 0.0, d).is_err());
    }

    #[test]
    fn braces_share_the_roof() {
        let places = [si(0.8), si(2.0), si(1.4)];
        for (which, width) in [(0, 1.1), (1, 1.3), (2, 0.6)] {
            assert_relative_eq!(
                tributary_width(&places, which, si(3.0)).unwrap().value,
                width,
                epsilon = 1e-12
            );
        }
        assert!(tributary_width(&places, 3, si(3.0)).is_err());
        assert!(tributary_width(&places, 0, si(1.0)).is_err());
    }

    /// A square load: 0.2757 P/u at the middle of a side (by hand); a long one more than evenly over its outline.
    #[test]
    fn shear_beside_a_load() {
        let square = shear_beside_load_si(1000.0, 0.1, 0.1).unwrap();
        let by_hand =
            (0.5 * 1.25_f64.ln() - 1.0 + 2.0 * 0.5_f64.atan() + 1.0 + 2.0_f64.ln()) / std::f64::consts::TAU;
        assert_relative_eq!(square, 1000.0 / 0.1 * by_hand, max_relative = 1e-9);
        let [long, turned] =
            [(0.05, 0.2), (0.2, 0.05)].map(|(u, v)| shear_beside_load_si(1000.0, u, v).unwrap());
        assert_relative_eq!(long, turned, max_relative = 1e-12);
        assert!(long > 1000.0 / 0.5);
        assert!(shear_beside_load_si(1000.0, 0.0, 1.0).is_err());
    }

    #[test]
    fn what_is_no_place_is_named() {
        let far = [f64::INFINITY; 2];
        assert!(effective_width_si(0.1, 1.2, SPAN, far, 1.0).is_err());
        assert!(effective_width_si(0.1, 1.0, SPAN, [-0.1, 1.0], 1.0).is_err());
        assert!(effective_width_si(f64::NAN, 1.0, SPAN, far, 1.0).is_err());
        assert!(effective_width_si(0.02, 1.0, SPAN, far, 1.0).is_err());
        assert!(effective_width_si(0.1, 1.0, SPAN, far, 1.2).is_err());
        assert_relative_eq!(effective_width_si(0.1, 0.0, SPAN, far, 1.0).unwrap(), 0.1);
    }
}

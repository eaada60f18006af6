use super::*;
use crate::section::laminate::LayerSi;
use crate::strip::StripError;
use approx::assert_relative_eq;

const STIFF: f64 = 1e10; // N: shear stiffness that leaves bending alone

fn layer(z_bottom: f64, z_top: f64, e: f64, g: f64) -> LayerSi {
    LayerSi {
        z_bottom,
        z_top,
        e_x: e,
        e_y: e,
        nu_xy: 0.0,
        g_xy: e,
        g_xz: g,
        g_yz: g,
        flexural: None,
        direct: true,
        bonded_below: true,
    }
}

fn lane(layers: Vec<LayerSi>, width: f64) -> Lane {
    Lane { laminate: Arc::new(Laminate::from_si(layers).unwrap()), width }
}

/// 3 mm faces on 40 mm foam; z = 0 at the inner face, so that coupling is at work everywhere.
fn sandwich(width: f64) -> Lane {
    lane(
        vec![
            layer(0.0, 0.003, 7.0e9, 2.5e9),
            layer(0.003, 0.043, 5.0e6, 2.5e6),
            layer(0.043, 0.046, 7.0e9, 2.5e9),
        ],
        width,
    )
}

/// A lane of bending stiffness `bending` (N m2) about z = 0 that hardly shears.
fn beam(bending: f64) -> Lane {
    let thick: f64 = 0.02;
    let e = bending * 12.0 / thick.powi(3);
    lane(vec![layer(-thick / 2.0, thick / 2.0, e, STIFF * 1.2 / thick)], 1.0)
}

fn strip(span: f64, lanes: Vec<Lane>) -> StripModel {
    StripModel {
        span,
        zones: vec![Zone { from: 0.0, to: span, lanes }],
        braces: vec![],
        rise: 0.0,
        thrust: None,
        breaks: vec![],
        elements: ELEMENTS,
    }
}

/// 25.4 x 3.175 mm aluminium tube: E A and E I of the partial-bond rows (E 70000 MPa).
fn tube(bond: f64, z: f64, z_glue: f64) -> StripBrace {
    StripBrace {
        from: 0.0,
        to: 2.3,
        axial: 70.0e9 * 282.2575e-6,
        bending: 70.0e9 * 23711.10e-12,
        shear: STIFF,
        z_axis: z,
        z_glue,
        bond,
        seat_hold: 0.0,
    }
}

fn uniform(per_length: f64, span: f64) -> Load {
    Load::Uniform { per_length, from: 0.0, to: span }
}

fn solve(model: &StripModel, loads: &[Load]) -> Response {
    let response = model.factor().unwrap().solve(loads).unwrap();
    // Members made rigid in shear, to meet the closed forms of bending, cost four digits of balance.
    let rigid = model.braces.iter().any(|b| b.shear == STIFF)
        || model.zones.iter().flat_map(|z| &z.lanes).any(|l| l.laminate.shear_si()[0] > 0.1 * STIFF);
    let bar = if rigid { 1e-5 } else { 1e-9 };
    assert!(response.residual < bar, "residual {}", response.residual);
    assert_relative_eq!(
        response.reaction[0] + response.reaction[1],
        response.load,
        max_relative = bar,
        epsilon = 1e-6
    );
    response
}

/// Uniform, central and off-centre loads against `5qL4/384D + qL2/8S`, `PL3/48D + PL/4S` and
/// `P a2 b2/3DL + P a b/SL` (Timoshenko beam; Allen 1969, from memory), with stress and reactions.
#[test]
fn sandwich_strip_against_closed_forms() {
    let (span, width) = (2.3, 0.1);
    let mut model = strip(span, vec![sandwich(width)]);
    let d = model.zones[0].lanes[0].laminate.bending_free_si().xx * width;
    let s = model.zones[0].lanes[0].laminate.shear_si()[0] * width;
    let q = 100.0;
    let all = solve(&model, &[uniform(q, span)]);
    let expected = 5.0 * q * span.powi(4) / (384.0 * d) + q * span * span / (8.0 * s);
    assert_relative_eq!(all.sag_at(span / 2.0).unwrap(), expected, max_relative = 1e-6);
    assert_relative_eq!(all.greatest_sag()[1], expected, max_relative = 1e-6);
    let centre = all.stations.iter().map(|s| s.moment).fold(0.0, f64::max);
    // A parabola read as straight lines: over by q h2/12 at most, h the element.
    assert_relative_eq!(centre, q * span * span / 8.0, max_relative = 1.1e-4);
    assert_relative_eq!(all.stations[0].shear, q * span / 2.0, max_relative = 1e-6);
    assert!(all.stations.iter().all(|s| s.force.abs() < 1e-6 * centre));

    let p = 200.0;
    let point = solve(&model, &[Load::Point { force: p, x: span / 2.0 }]);
    let expected = p * span.powi(3) / (48.0 * d) + p * span / (4.0 * s);
    assert_relative_eq!(point.sag_at(span / 2.0).unwrap(), expected, max_relative = 1e-6);

    let a: f64 = 0.7;
    let b = span - a;
    model.breaks = vec![a];
    let off = solve(&model, &[Load::Point { force: p, x: a }]);
    let expected = p * a * a * b * b / (3.0 * d * span) + p * a * b / (s * span);
    assert_relative_eq!(off.sag_at(a).unwrap(), expected, max_relative = 1e-6);
    assert_relative_eq!(off.reaction[0], p * b / span, max_relative = 1e-9);
    let moment = off.stations.iter().map(|s| s.moment).fold(0.0, f64::max);
    assert_relative_eq!(moment, p * a * b / span, max_relative = 1e-6);
}

/// Face stress by the exact share `M (z - zn) E / EI`, core shear by the energy profile.
#[test]
fn stresses_in_the_layers() {
    let (span, width, p) = (2.3, 0.1, 200.0);
    let model = strip(span, vec![sandwich(width)]);
    let response = solve(&model, &[Load::Point { force: p, x: span / 2.0 }]);
    let station = response.stations.iter().max_by(|a, b| a.moment.total_cmp(&b.moment)).unwrap();
    let layers = model.zones[0].layers(0, station).unwrap();
    let d = model.zones[0].lanes[0].laminate.bending_free_si().xx * width;
    assert_relative_eq!(layers[0].across[0], p * span / 4.0 * 0.023 * 7.0e9 / d, max_relative = 1e-6);
    assert_relative_eq!(layers[2].across[2], -layers[0].across[0], max_relative = 1e-6);
    let shear = model.zones[0].lane_shear(0, station).unwrap().abs();
    assert_relative_eq!(shear, p / 2.0, max_relative = 1e-6);
    // V/(b d), d between face centroids, to what the foam's own bending adds.
    assert_relative_eq!(layers[1].shear.abs(), p / 2.0 / width / 0.043, max_relative = 2e-3);
    assert!(model.zones[0].layers(1, station).is_none());
}

/// Middle half twice as stiff, central load: `3 P L3 / 256 E I` by moment-area.
#[test]
fn stepped_section() {
    let span = 2.0;
    let mut model = strip(span, vec![]);
    model.zones = vec![
        Zone { from: 0.0, to: 0.5, lanes: vec![beam(1000.0)] },
        Zone { from: 0.5, to: 1.5, lanes: vec![beam(1000.0), beam(1000.0)] },
        Zone { from: 1.5, to: 2.0, lanes: vec![beam(1000.0)] },
    ];
    let sag = solve(&model, &[Load::Point { force: 500.0, x: 1.0 }]).sag_at(1.0).unwrap();
    assert_relative_eq!(sag, 3.0 * 500.0 * 8.0 / (256.0 * 1000.0), max_relative = 1e-6);
}

/// Loose brace and strip share by E I where neither shears.
#[test]
fn loose_brace_takes_its_share() {
    let bending = 70.0e9 * 23711.10e-12;
    let mut model = strip(2.3, vec![beam(3.0 * bending)]);
    model.braces = vec![tube(0.0, 0.02, 0.0)];
    let response = solve(&model, &[Load::patch(400.0, 0.9, 1.3)]);
    let moment = |x: f64| {
        let panel = response.stations.iter().find(|s| (s.x - x).abs() < 1e-9).unwrap().moment;
        let brace = response.braces[0].stations.iter().find(|s| (s.x - x).abs() < 1e-9).unwrap().moment;
        (panel, brace)
    };
    let (panel, brace) = moment(1.15);
    assert_relative_eq!(panel, 3.0 * brace, max_relative = 5e-6);
    assert_relative_eq!(response.braces[0].end_force[0], response.reaction[0] / 4.0, max_relative = 1e-6);
    assert!(response.braces[0].stations.iter().all(|s| s.force.abs() < 1e-6));
}

/// Skin 200 x 3 mm (7000 MPa) on the tube, axes 14.2 mm apart.
fn skin_on_tube(bond: f64) -> StripModel {
    let skin = lane(vec![layer(-0.0015, 0.0015, 7.0e9, STIFF * 1.2 / 0.003)], 0.2);
    let mut model = strip(2.3, vec![skin]);
    model.braces = vec![tube(bond, -0.0142, -0.0015)];
    model
}

/// Newmark's exact partial bond (NM rows): mid-span sag in mm at K/s 2.54, 25.4, 254 N/mm2.
#[test]
fn partial_bond() {
    let q = uniform(500.0, 2.3);
    let p = Load::Point { force: 1000.0, x: 1.15 };
    for (bond, load, expected) in
        [(2.54e6, q, 97.91411), (2.54e6, p, 136.4798), (25.4e6, p, 114.523), (254.0e6, q, 77.71077)]
    {
        let sag = solve(&skin_on_tube(bond), &[load]).sag_at(1.15).unwrap();
        assert_relative_eq!(sag * 1e3, expected, max_relative = 1e-6);
    }
}

/// No bond and full bond: E I 1.662927e9 and 2.36135e9 N mm2 (NM_lim rows); the brace's share of a full bond
/// is the transformed section's, and its axial force changes along it by the glue's force.
#[test]
fn bond_limits() {
    let q = 500.0;
    let by = |ei: f64| 5.0 * q * 2.3_f64.powi(4) / (384.0 * ei);
    let loose = solve(&skin_on_tube(0.0), &[uniform(q, 2.3)]).sag_at(1.15).unwrap();
    assert_relative_eq!(loose, by(1662.927), max_relative = 2e-6);
    let full = solve(&skin_on_tube(1e12), &[uniform(q, 2.3)]);
    assert_relative_eq!(full.sag_at(1.15).unwrap(), by(2361.35), max_relative = 1e-5);
    let stations = &full.braces[0].stations;
    let middle = stations.iter().find(|s| (s.x - 1.15).abs() < 1e-9).unwrap();
    let (ea_skin, ea_tube) = (7.0e9 * 600e-6, 70.0e9 * 282.2575e-6);
    let lever = 0.0142 * ea_skin / (ea_skin + ea_tube);
    let moment = q * 2.3_f64.powi(2) / 8.0;
    assert_relative_eq!(middle.force, moment * lever * ea_tube / 2361.35, max_relative = 1.1e-4);
    // N = integral of the flow from the free end.
    let mut flow = 0.0;
    for three in stations.chunks_exact(3).take_while(|s| s[2].x < 1.1501) {
        flow += three[1].slip_flow * (three[2].x - three[0].x);
    }
    assert_relative_eq!(flow.abs(), middle.force, max_relative = 1e-3);
}

/// A brace that stops short rests on the panel: forces on it are in balance, its moment ends at zero.
#[test]
fn brace_that_stops_short() {
    let mut model = strip(2.3, vec![sandwich(0.4)]);
    model.braces = vec![StripBrace { from: 0.4, to: 1.7, ..tube(0.0, 0.02, 0.0) }];
    let response = solve(&model, &[uniform(400.0, 2.3)]);
    let brace = &response.braces[0];
    assert!(brace.end_force[0] > 0.0 && brace.end_force[1] > 0.0);
    let most = brace.stations.iter().map(|s| s.moment).fold(0.0, f64::max);
    assert!(most > 0.0);
    assert!(brace.stations[0].moment.abs() < 0.02 * most);
    let bare = strip(2.3, vec![sandwich(0.4)]);
    assert!(response.greatest_sag()[1] < solve(&bare, &[uniform(400.0, 2.3)]).greatest_sag()[1]);
}

/// Arches of 1.5 x .125 and 2 x .125 in tube (E 10100, G 3800 ksi), brace alone, seats held sideways.
fn arch(side: f64, span: f64, rise: f64, hold: f64) -> (StripModel, [f64; 2]) {
    let (inch, kip) = (0.0254, 4448.2216152605);
    let ksi = kip / (inch * inch);
    let hole = side - 0.25;
    let area = (side * side - hole * hole) * inch * inch;
    let second = (side.powi(4) - hole.powi(4)) / 12.0 * inch.powi(4);
    let mut model = strip(span * inch, vec![]);
    model.rise = rise * inch;
    model.braces = vec![StripBrace {
        from: 0.0,
        to: span * inch,
        axial: 10100.0 * ksi * area,
        bending: 10100.0 * ksi * second,
        shear: 3800.0 * ksi * 2.0 * side * 0.125 * inch * inch,
        z_axis: 0.0,
        z_glue: 0.0,
        bond: 0.0,
        seat_hold: hold * kip / inch,
    }];
    (model, [inch, kip])
}

/// Thrust, crown moment and crown sag of shallow pinned arches (ARCH rows: force method, many digits), within
/// what shallow theory gives away: about (2 rise/span)^2.
#[test]
fn crown_and_held_seats_make_an_arch() {
    let rigid = 1e7; // kip/in
    for (side, span, rise, hold, quarter, thrust, moment, sag) in [
        (1.5, 84.0, 3.0, rigid, false, 1.537128827, 1.68861352, 0.1435448279),
        (1.5, 84.0, 3.0, 1.0, false, 0.1370373956, 5.888887813, 1.547839035),
        (1.5, 84.0, 6.0, rigid, false, 0.8034321898, 1.479406861, 0.06989938817),
        (2.0, 96.0, 4.0, 5.0, false, 0.3721928394, 5.711228643, 0.7396765072),
        (1.0, 84.0, 2.0, 5.0, false, 1.049909077, 4.200181846, 3.76160087),
        (1.5, 84.0, 3.0, rigid, true, 1.095844257, 2.256213479, f64::NAN),
    ] {
        let (model, [inch, kip]) = arch(side, span, rise, hold);
        let x = if quarter { span / 4.0 } else { span / 2.0 } * inch;
        let response = model.factor().unwrap().solve(&[Load::Point { force: 0.3 * kip, x }]).unwrap();
        let give = 1.5 * (2.0 * rise / span).powi(2);
        let brace = &response.braces[0];
        assert_relative_eq!(brace.seat_thrust[0] / kip, thrust, max_relative = give);
        assert_relative_eq!(brace.seat_thrust[1], brace.seat_thrust[0], max_relative = 1e-6);
        let most = brace.stations.iter().map(|s| s.moment).fold(0.0, f64::max);
        // The moment is a small difference P L/4 - H h: its error is that of either part.
        let part = 0.3 * x / inch * (span - x / inch) / span;
        assert_relative_eq!(most / (kip * inch), moment, epsilon = give * part);
        if !quarter {
            assert_relative_eq!(response.sag_at(x).unwrap() / inch, sag, max_relative = 5.0 * give);
        }
    }
}

/// A crowned panel between walls that give is the circular arch of the force method, within shallow theory.
#[test]
fn crowned_panel_pushes_like_an_arch() {
    use crate::quantity::si;
    use crate::strip::{Arch, ArchEnds, ArchLoad};
    let (span, rise, stiffness) = (2.3, 0.06, 4000.0);
    let mut model = strip(span, vec![beam(stiffness)]);
    model.rise = rise;
    for hold in [2e4, 5e5, 1e9] {
        model.thrust = Some(Thrust { left: hold, right: hold, z: 0.0 });
        let arch = Arch {
            span: si(span),
            rise: si(rise),
            axial: si(12.0 * stiffness / 0.02_f64.powi(2)),
            bending: si(stiffness),
            shear: si(STIFF),
            ends: ArchEnds::Pinned,
            hold: Some(si(hold)),
        };
        for (load, on_arch) in [
            (uniform(400.0, span), ArchLoad::Uniform(si(400.0))),
            (Load::Point { force: 500.0, x: 0.8 }, ArchLoad::Point { force: si(500.0), x: si(0.8) }),
        ] {
            let response = model.factor().unwrap().solve(&[load]).unwrap();
            let state = arch.solve(on_arch).unwrap();
            assert_relative_eq!(response.thrust[0], state.thrust().value, max_relative = 0.005);
            assert_relative_eq!(response.thrust[1], response.thrust[0], max_relative = 1e-4);
            let sag = response.sag_at(span / 2.0).unwrap();
            assert_relative_eq!(sag, state.crown_sag().value, max_relative = 0.02);
        }
    }
}

/// Uniform warming of an arch between firm seats (ARCH T row: 60 F, 13e-6: 0.334704225 kip).
#[test]
fn warm_arch_pushes() {
    let (model, [_, kip]) = arch(1.5, 84.0, 3.0, 1e7);
    let warm = Load::Free { brace: 0, strain: 13e-6 * 60.0, curvature: 0.0 };
    let response = model.factor().unwrap().solve(&[warm]).unwrap();
    assert_relative_eq!(response.braces[0].seat_thrust[0] / kip, 0.334704225, max_relative = 0.01);
}

/// Walls that spread make the crown worth nothing; a panel held at the walls pushes like an arch.
#[test]
fn crown_without_thrust_changes_almost_nothing() {
    let flat = strip(2.3, vec![sandwich(0.4)]);
    let crowned = StripModel { rise: 0.045, ..flat.clone() };
    let held = StripModel { thrust: Some(Thrust { left: 1e7, right: 1e7, z: 0.0 }), ..crowned.clone() };
    let sag = |model: &StripModel| {
        let response = solve(model, &[uniform(400.0, 2.3)]);
        (response.greatest_sag()[1], response.thrust)
    };
    let (bare, _) = sag(&flat);
    let (crown, none) = sag(&crowned);
    let (arch, thrust) = sag(&held);
    assert_relative_eq!(crown, bare, max_relative = 1e-3);
    assert_eq!(none, [0.0; 2]);
    assert!(arch < 0.7 * bare);
    assert!(thrust[0] > 0.0);
    assert_relative_eq!(thrust[0], thrust[1], max_relative = 1e-6);
}

/// A straight tube sprung into a crown is in tension on top and pulls the roof flat.
#[test]
fn sprung_tube_pulls_the_crown_flat() {
    let mut model = strip(2.3, vec![sandwich(0.4)]);
    model.braces = vec![StripBrace { shear: 4.0e6, ..tube(0.0, 0.02, 0.0) }];
    let response = solve(&model, &[Load::Free { brace: 0, strain: 0.0, curvature: 1.0 / 26.4625 }]);
    assert!(response.greatest_sag()[1] > 0.0);
    let middle = response.braces[0].stations[120];
    assert!(middle.moment < 0.0);
    let panel = response.stations.iter().find(|s| (s.x - middle.x).abs() < 1e-9).unwrap();
    assert_relative_eq!(panel.moment, -middle.moment, max_relative = 1e-6);
}

/// A roof with an opening, a damaged stretch, two braces and a crown: laws that hold whatever the numbers.
fn mixed() -> StripModel {
    let worn = lane(vec![layer(0.003, 0.043, 2.0e6, 1.0e6), layer(0.043, 0.046, 7.0e9, 2.5e9)], 0.3);
    let mut model = strip(2.35, vec![]);
    model.zones = vec![
        Zone { from: 0.0, to: 0.6, lanes: vec![sandwich(0.9)] },
        Zone { from: 0.6, to: 1.0, lanes: vec![sandwich(0.6), worn] },
        Zone { from: 1.0, to: 1.36, lanes: vec![sandwich(0.54)] },
        Zone { from: 1.36, to: 2.35, lanes: vec![sandwich(0.9)] },
    ];
    model.braces = vec![
        StripBrace { to: 2.35, shear: 4.0e6, ..tube(50.0e6, 0.03, 0.043) },
        StripBrace { from: 0.2, to: 2.1, shear: 4.0e6, ..tube(0.0, 0.02, 0.003) },
    ];
    model.rise = 0.04;
    model
}

#[test]
fn superposition_reciprocity_and_work() {
    let model = mixed();
    let factored = model.factor().unwrap();
    let one = Load::patch(450.0, 0.95, 1.4);
    let two = Load::Point { force: 900.0, x: 0.437 };
    let [a, b, both] = [vec![one], vec![two], vec![one, two]].map(|loads| factored.solve(&loads).unwrap());
    for response in [&a, &b, &both] {
        assert!(response.residual < 1e-9);
        assert_relative_eq!(response.reaction[0] + response.reaction[1], response.load, max_relative = 1e-9);
    }
    for (i, sag) in both.sag.iter().enumerate() {
        assert_relative_eq!(sag[1], a.sag[i][1] + b.sag[i][1], max_relative = 1e-9, epsilon = 1e-12);
    }
    let at = [0.5, 1.7];
    let [left, right] = at.map(|x| factored.solve(&[Load::Point { force: 1.0, x }]).unwrap());
    assert_relative_eq!(left.sag_at(at[1]).unwrap(), right.sag_at(at[0]).unwrap(), max_relative = 1e-8);

    // Moments about the left wall: the right reaction follows from the loads alone.
    let expected = (450.0 * 1.175 + 900.0 * 0.437) / 2.35;
    assert_relative_eq!(both.reaction[1], expected, max_relative = 1e-8);

    // Stiffer brace, firmer bond, wider panel: the load sinks less.
    let base = both.sag_at(0.437).unwrap();
    let mut stiffer = model.clone();
    stiffer.braces[1].bending *= 2.0;
    let mut firmer = model.clone();
    firmer.braces[0].bond *= 3.0;
    let mut wider = model.clone();
    wider.zones[2].lanes[0].width += 0.1;
    for better in [stiffer, firmer, wider] {
        let sag = better.factor().unwrap().solve(&[two]).unwrap().sag_at(0.437).unwrap();
        assert!(sag < b.sag_at(0.437).unwrap());
    }
    assert!(base > 0.0);
}

/// A strip seen from the other side gives the same roof.
#[test]
fn mirrored_strip() {
    let model = mixed();
    let mut other = model.clone();
    other.zones = model
        .zones
        .iter()
        .rev()
        .map(|z| Zone { from: 2.35 - z.to, to: 2.35 - z.from, lanes: z.lanes.clone() })
        .collect();
    for (brace, mirrored) in model.braces.iter().zip(&mut other.braces) {
        (mirrored.from, mirrored.to) = (2.35 - brace.to, 2.35 - brace.from);
    }
    let a = solve(&model, &[Load::patch(300.0, 0.3, 0.5)]);
    let b = solve(&other, &[Load::patch(300.0, 1.85, 2.05)]);
    assert_relative_eq!(a.greatest_sag()[1], b.greatest_sag()[1], max_relative = 1e-7);
    assert_relative_eq!(a.reaction[0], b.reaction[1], max_relative = 1e-9);
    assert_relative_eq!(a.braces[1].end_force[0], b.braces[1].end_force[1], max_relative = 1e-5);
}

/// Free body of each beam at a cut: panel and braces together carry what statics asks.
#[test]
fn statics_at_a_cut() {
    let mut model = mixed();
    model.rise = 0.0;
    let response = solve(&model, &[Load::Point { force: 900.0, x: 1.7 }]);
    let x = 0.8;
    let factored = model.factor().unwrap();
    let x = factored.mesh.nodes.iter().copied().find(|n| *n >= x).unwrap();
    let panel = response.stations.iter().find(|s| (s.x - x).abs() < 1e-9).unwrap();
    let braces: Vec<_> = response
        .braces
        .iter()
        .map(|b| *b.stations.iter().find(|s| (s.x - x).abs() < 1e-9).unwrap())
        .collect();
    let shear = panel.shear + braces.iter().map(|b| b.shear).sum::<f64>();
    assert_relative_eq!(shear, response.reaction[0], max_relative = 1e-4);
    let axial = panel.force + braces.iter().map(|b| b.force).sum::<f64>();
    assert!(axial.abs() < 1e-3 * panel.force.abs());
    let moment = panel.moment
        + braces.iter().zip(&model.braces).map(|(s, b)| s.moment - s.force * b.z_axis).sum::<f64>();
    assert_relative_eq!(moment, response.reaction[0] * x, max_relative = 1e-4);
}

#[test]
fn what_is_no_strip_is_named() {
    let good = mixed();
    let mut bad = vec![
        StripModel { span: f64::NAN, ..good.clone() },
        StripModel { rise: 0.3, ..good.clone() },
        StripModel { zones: vec![], ..good.clone() },
        StripModel { elements: 0, ..good.clone() },
        StripModel { breaks: vec![f64::NAN], ..good.clone() },
    ];
    let mut gap = good.clone();
    gap.zones.remove(1);
    bad.push(gap);
    let mut narrow = good.clone();
    narrow.zones[0].lanes[0].width = 0.0;
    bad.push(narrow);
    let mut long = good.clone();
    long.braces[0].to = 3.0;
    bad.push(long);
    for model in bad {
        assert!(matches!(model.factor(), Err(StripError::OutOfRange { .. })));
    }
    let factored = good.factor().unwrap();
    for load in [
        Load::Point { force: 1.0, x: 3.0 },
        Load::Point { force: f64::NAN, x: 1.0 },
        Load::Uniform { per_length: 1.0, from: 1.0, to: 0.5 },
        Load::Free { brace: 2, strain: 0.0, curvature: 0.0 },
    ] {
        assert!(factored.solve(&[load]).is_err());
    }
    // An opening right across with no brace over it carries nothing.
    let mut cut = strip(2.3, vec![]);
    cut.zones = vec![
        Zone { from: 0.0, to: 1.0, lanes: vec![sandwich(0.4)] },
        Zone { from: 1.0, to: 1.3, lanes: vec![] },
        Zone { from: 1.3, to: 2.3, lanes: vec![sandwich(0.4)] },
    ];
    let error = cut.factor().unwrap_err();
    assert!(matches!(error, StripError::Mechanism { .. }), "{error}");
    assert!(error.to_string().contains("mechanism"));
    // A brace that bridges it does.
    cut.braces = vec![tube(0.0, 0.02, 0.0)];
    assert!(cut.factor().unwrap().solve(&[uniform(10.0, 2.3)]).unwrap().greatest_sag()[1] > 0.0);
}

use super::*;
use approx::assert_relative_eq;

const MM: f64 = 1e-3;
const MPA: f64 = 1e6;

/// Isotropic in stiffness, Poisson's ratio 0: the one-dimensional rows.
fn bar(z_bottom: f64, z_top: f64, e: f64, g: f64) -> LayerSi {
    let (e, g) = (e * MPA, g * MPA);
    LayerSi {
        z_bottom: z_bottom * MM,
        z_top: z_top * MM,
        e_x: e,
        e_y: e,
        nu_xy: 0.0,
        g_xy: g,
        g_xz: g,
        g_yz: g,
        flexural: None,
        direct: true,
        bonded_below: true,
    }
}

/// Ply 2.7 / foam 40 / ply 3 / laminate 1.5 mm, the inner ply in place or gone; z = 0 at its upper face.
fn roof(inner: bool) -> Laminate {
    let mut layers =
        vec![bar(0.0, 40.0, 5.0, 2.5), bar(40.0, 43.0, 6400.0, 120.0), bar(43.0, 44.5, 8000.0, 3000.0)];
    if inner {
        layers.insert(0, bar(-2.7, 0.0, 6400.0, 120.0));
    }
    Laminate::from_si(layers).unwrap()
}

/// LAM06, LAM08: bending and shear stiffness with the inner skin gone, wherever z = 0 lies.
#[test]
fn inner_skin_gone() {
    let damaged = roof(false);
    assert_relative_eq!(damaged.bending_free_si().xx / (MPA * MM.powi(3)), 180106.2, max_relative = 1e-6);
    assert_relative_eq!(damaged.shear_si()[0] / (MPA * MM), 192.586, max_relative = 1e-5);
}

/// LAM07: what is left of the bending stiffness; LAM04: shear of the intact roof by energy, 5 digits.
#[test]
fn inner_skin_gone_leaves_little() {
    let ratio = roof(false).bending_free_si().xx / roof(true).bending_free_si().xx;
    assert_relative_eq!(ratio, 0.008434864, max_relative = 1e-5);
    assert_relative_eq!(roof(true).shear_si()[0] / (MPA * MM), 119.98, max_relative = 1e-4);
}

/// LAM09: the outer skin by itself.
#[test]
fn outer_skin_alone() {
    let skin =
        Laminate::from_si(vec![bar(43.0, 46.0, 6400.0, 120.0), bar(46.0, 47.5, 8000.0, 3000.0)]).unwrap();
    assert_relative_eq!(skin.bending_free_si().xx / (MPA * MM.powi(3)), 54034.62, max_relative = 1e-6);
}

/// Two layers of different modulus, A, B, D about their joint by hand: (E1+E2)h, (E2-E1)h2/2, (E1+E2)h3/3.
#[test]
fn two_layers_by_hand() {
    let pair = Laminate::from_si(vec![bar(-2.0, 0.0, 3000.0, 100.0), bar(0.0, 2.0, 7000.0, 100.0)]).unwrap();
    let [a, b, d] = pair.abd_si();
    assert_relative_eq!(a.xx, 1.0e10 * 2.0 * MM, max_relative = 1e-12);
    assert_relative_eq!(b.xx, 4.0e9 * 2.0 * MM.powi(2), max_relative = 1e-12);
    assert_relative_eq!(d.xx, 1.0e10 * 8.0 / 3.0 * MM.powi(3), max_relative = 1e-12);
}

/// A homogeneous plate: D = E h3/12(1-nu2), Ks = 5/6 G h (Reissner), peak shear 1.5 V/h.
#[test]
fn homogeneous_plate() {
    let mut layer = bar(-3.0, 3.0, 7000.0, 2800.0);
    layer.nu_xy = 0.25;
    let plate = Laminate::from_si(vec![layer]).unwrap();
    let d = plate.bending_free_si();
    assert_relative_eq!(
        d.xx,
        7000.0 * MPA * (6.0 * MM).powi(3) / 12.0 / (1.0 - 0.0625),
        max_relative = 1e-12
    );
    assert_relative_eq!(d.xy, 0.25 * d.xx, max_relative = 1e-12);
    assert_relative_eq!(plate.shear_si()[0], 5.0 / 6.0 * 2800.0 * MPA * 6.0 * MM, max_relative = 1e-12);
    assert_relative_eq!(plate.shear_factors()[0][0], 1.5 / (6.0 * MM), max_relative = 1e-12);
}

/// Thin skins on foam: Allen's G d2/c and V/d, to what the skins' own shear adds.
#[test]
fn thin_skins_on_foam() {
    let mut core = bar(-20.0, 20.0, 5.0, 2.5);
    core.direct = false;
    let panel =
        Laminate::from_si(vec![bar(-21.0, -20.0, 70000.0, 26000.0), core, bar(20.0, 21.0, 70000.0, 26000.0)])
            .unwrap();
    assert_relative_eq!(
        panel.shear_si()[0],
        2.5 * MPA * (41.0 * MM).powi(2) / (40.0 * MM),
        max_relative = 1e-3
    );
    assert_relative_eq!(panel.shear_factors()[1][0], 1.0 / (41.0 * MM), max_relative = 1e-3);
}

/// Layer forces and moments add up to A, B, D times strain and curvature, also with bending moduli of
/// their own and with a loose skin.
#[test]
fn stresses_add_up_to_the_plate() {
    let mut skin = bar(0.0, 3.0, 4068.0, 500.0);
    skin.e_y = 5822.0 * MPA;
    skin.nu_xy = 0.05;
    skin.flexural = Some([7435.68 * MPA, 2454.32 * MPA]);
    for bonded_below in [true, false] {
        let top = LayerSi { z_bottom: 0.043, z_top: 0.046, bonded_below, ..skin };
        let plate = Laminate::from_si(vec![skin, bar(3.0, 43.0, 5.0, 2.5), top]).unwrap();
        let (strain, curvature) = ([2e-4, -1e-4, 3e-5], [-0.01, 0.004, 0.002]);
        let (mut force, mut moment) = ([0.0; 3], [0.0; 3]);
        for (index, [z0, z1]) in plate.heights().into_iter().map(|z| z.map(|z| z.value)).enumerate() {
            let [bottom, middle, upper] = plate.layer_stress_si(index, strain, curvature).unwrap();
            let (t, zm) = (z1 - z0, (z1 + z0) / 2.0);
            for i in 0..3 {
                force[i] += middle[i] * t;
                moment[i] += middle[i] * t * zm + (upper[i] - bottom[i]) * t * t / 12.0;
            }
        }
        let [a, b, d] = plate.abd_si();
        for i in 0..3 {
            let n = a.times(strain)[i] + b.times(curvature)[i];
            let m = b.times(strain)[i] + d.times(curvature)[i];
            assert_relative_eq!(force[i], n, max_relative = 1e-9, epsilon = 1e-9 * a.xx * 1e-4);
            assert_relative_eq!(moment[i], m, max_relative = 1e-9, epsilon = 1e-9);
        }
    }
}

/// A loose outer skin: what is left bends as inner skin and foam, plus the skin by itself; shear as without it.
#[test]
fn loose_skin() {
    let (inner, foam, outer) =
        (bar(0.0, 3.0, 6400.0, 120.0), bar(3.0, 43.0, 5.0, 2.5), bar(43.0, 46.0, 6400.0, 120.0));
    let rest = Laminate::from_si(vec![inner, foam]).unwrap();
    let loose = Laminate::from_si(vec![inner, foam, LayerSi { bonded_below: false, ..outer }]).unwrap();
    let alone = 6400.0 * MPA * (3.0 * MM).powi(3) / 12.0;
    assert_relative_eq!(loose.bending_free_si().xx, rest.bending_free_si().xx + alone, max_relative = 1e-12);
    assert_relative_eq!(loose.shear_si()[0], rest.shear_si()[0], max_relative = 1e-12);
    let sound = Laminate::from_si(vec![inner, foam, outer]).unwrap();
    assert!(sound.bending_free_si().xx > 20.0 * loose.bending_free_si().xx);
    // The loose skin bends about its own middle: equal and opposite at its faces.
    let [bottom, middle, top] = loose.layer_stress_si(2, [1e-3; 3], [-0.1, 0.0, 0.0]).unwrap();
    assert_relative_eq!(middle[0], 0.0, epsilon = 1e-3);
    assert_relative_eq!(bottom[0], -top[0], max_relative = 1e-9);
    assert_relative_eq!(bottom[0], 6400.0 * MPA * 0.1 * 1.5 * MM, max_relative = 1e-9);
}

/// CH rows: 3 mm skins (7000 MPa) on either side of a void: shear stiffness; moments in the skins Q w/4.
#[test]
fn void_across_the_span() {
    for (wide, expected) in [(30.0, 420.0), (100.0, 37.8)] {
        let skins = vec![bar(0.0, 3.0, 7000.0, 120.0), bar(43.0, 46.0, 7000.0, 120.0)];
        let plate = Laminate::over_void_si(skins.clone(), [wide * MM, 3.0]).unwrap();
        assert_relative_eq!(plate.shear_si()[0] / (MPA * MM), expected, max_relative = 1e-6);
        let moments = plate.void_moments_si([1000.0, 0.0]);
        assert_eq!(moments.len(), 2);
        assert_relative_eq!(moments[0][0], 1000.0 * wide * MM / 4.0, max_relative = 1e-12);
        // Stretch and bending go on as if the void were not there: E t d2/2 and the skins' own.
        let d = 7000.0 * MPA * (3.0 * 43.0 * 43.0 / 2.0 + 27.0 / 6.0) * MM.powi(3);
        assert_relative_eq!(plate.bending_free_si().xx, d, max_relative = 1e-12);
        let loose = Laminate::from_si(skins).unwrap();
        assert!(loose.void_moments_si([1000.0, 0.0]).is_empty());
        assert!(loose.bending_free_si().xx < 0.01 * d);
    }
    let sound = vec![bar(0.0, 3.0, 7000.0, 120.0), bar(3.0, 43.0, 5.0, 2.5)];
    assert!(Laminate::over_void_si(sound, [0.03, 3.0]).is_err());
}

/// A foam whose own stiffness is dropped still carries shear, and no direct stress.
#[test]
fn foam_without_its_own_stiffness() {
    let mut foam = bar(3.0, 43.0, 5.0, 2.5);
    foam.direct = false;
    let plate =
        Laminate::from_si(vec![bar(0.0, 3.0, 6400.0, 120.0), foam, bar(43.0, 46.0, 6400.0, 120.0)]).unwrap();
    assert_eq!(plate.layer_stress_si(1, [1e-3; 3], [0.1; 3]).unwrap(), [[0.0; 3]; 3]);
    assert_relative_eq!(plate.shear_factors()[1][0], 1.0 / (43.0 * MM), max_relative = 2e-3);
    assert!(plate.layer_stress_si(3, [0.0; 3], [0.0; 3]).is_none());
    assert_eq!(Laminate::from_si(vec![foam]).unwrap_err(), SectionError::NothingCarries { layers: 1 });
}

#[test]
fn what_is_no_laminate_is_named() {
    let ply = bar(0.0, 3.0, 6400.0, 120.0);
    let refused = [
        vec![],
        vec![LayerSi { z_top: 0.0, ..ply }],
        vec![LayerSi { e_x: 0.0, ..ply }],
        vec![LayerSi { g_xz: f64::NAN, ..ply }],
        vec![LayerSi { nu_xy: 1.0, ..ply }],
        vec![ply, ply],
    ];
    for layers in refused {
        assert!(Laminate::from_si(layers).is_err());
    }
}

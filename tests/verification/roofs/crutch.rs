//! One thin tube by itself is no roof (common practice, no source).

use beam_core::quantity::{INCH, KSI, POUND_FORCE, si};
use beam_core::section::Hollow;
use beam_core::strip::{Arch, ArchEnds, ArchLoad};

/// A single 1 in square, 1/8 in wall tube of 6061-T6 over 90 in, one 250 lb person in the middle: it sags far beyond
/// span/60. Straight but for a crown that its sliding end makes useless.
#[test]
fn one_thin_tube_alone_sags_far_too_much() {
    let (side, wall, span) = (INCH, INCH / 8.0, 90.0 * INCH);
    let tube = Hollow::new(si(side), si(side), si(wall), si(0.0)).expect("a tube").properties();
    let arch = Arch {
        span: si(span),
        rise: si(INCH),
        axial: si(10_100.0 * KSI * tube.area.value),
        bending: si(10_100.0 * KSI * tube.second_moment.value),
        shear: si(3_800.0 * KSI * tube.shear_area.value),
        ends: ArchEnds::Roller,
        hold: None,
    };
    let person = ArchLoad::Point { force: si(250.0 * POUND_FORCE), x: si(span / 2.0) };
    let sag = arch.solve(person).expect("an arch").crown_sag().value;
    assert!(sag > 3.0 * span / 60.0, "{sag} m over {span} m");
    // By hand, straight and without shear: P L3/48 E I = 6.60 in.
    assert!((sag / INCH - 6.60).abs() < 0.05, "{} in", sag / INCH);
}

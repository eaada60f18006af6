//! Units that rows are written in, by their size in SI. Defined here anew, apart from the library's own factors.

const INCH: f64 = 0.0254;
const POUND: f64 = 0.453_592_37;
const POUND_FORCE: f64 = POUND * 9.806_65;
const KIP: f64 = 1000.0 * POUND_FORCE;
const KSI: f64 = KIP / (INCH * INCH);

/// Size of a unit in SI; `None` for a word that is no unit.
pub(crate) fn size(unit: &str) -> Option<f64> {
    Some(match unit {
        "-" | "rad" | "percent" | "N" | "N mm/mm" | "Hz" | "K" | "1/K" => 1.0,
        "in" => INCH,
        "in2" => INCH * INCH,
        "in3" => INCH * INCH * INCH,
        "in4" => INCH * INCH * INCH * INCH,
        "ksi" => KSI,
        "kip" | "ksi in2" => KIP,
        "kip in" => KIP * INCH,
        "kip/in" => KIP / INCH,
        "lb/ft" => POUND / 0.3048,
        "lb/in3" => POUND / (INCH * INCH * INCH),
        "mm" => 1e-3,
        "mm2" => 1e-6,
        "mm3" => 1e-9,
        "mm4" => 1e-12,
        "MPa" | "N/mm2" => 1e6,
        "kN" | "kPa" => 1e3,
        "N/mm" => 1e3,
        "N/mm3" => 1e9,
        "N mm" => 1e-3,
        "N mm2" => 1e-6,
        "N mm2/mm" => 1e-3,
        "kg/m3" => 1.0,
        _ => return None,
    })
}

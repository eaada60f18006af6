//! Texts as people type them, with what they mean worked out by hand from the exact factors.

use super::super::Measure::{
    Density, Duration, Force, Length, LinePressure, LineStiffness, MassPerArea, Pressure, Ratio, Temperature,
    Torque, Weight,
};
use super::super::{Family, Headers, Measure, read};

const NONE: Headers = Headers { lengths: None, weights: None };
const INCH: Headers = Headers { lengths: Some(Family::Inch), weights: Some(Family::Inch) };
const METRIC: Headers = Headers { lengths: Some(Family::Metric), weights: Some(Family::Metric) };

/// Inches in metres and pounds in kilograms, written out: 92.5 x 0.0254 = 2.3495 and the like.
const READ: &[(&str, Measure, Headers, f64)] = &[
    ("92 1/2 in", Length, NONE, 2.3495),
    ("92-1/2\"", Length, NONE, 2.3495),
    ("92½″", Length, NONE, 2.3495),
    ("92 ½ in", Length, NONE, 2.3495),
    ("92-½\"", Length, NONE, 2.3495),
    ("92.5in", Length, NONE, 2.3495),
    ("92.5 in.", Length, NONE, 2.3495),
    ("92 1\u{2044}2 inches", Length, NONE, 2.3495),
    ("  92\u{a0}1/2\u{a0}in ", Length, NONE, 2.3495),
    ("92 1/2 ''", Length, NONE, 2.3495),
    ("92 1/2′′", Length, NONE, 2.3495),
    ("92 1/2”", Length, NONE, 2.3495),
    ("7 ft 8 1/2 in", Length, NONE, 2.3495),
    ("7 ft. 8 1/2 in.", Length, NONE, 2.3495),
    ("7ft8½in", Length, NONE, 2.3495),
    ("7' 8-1/2\"", Length, NONE, 2.3495),
    ("7'-8 1/2\"", Length, NONE, 2.3495),
    ("7' - 8 1/2\"", Length, NONE, 2.3495),
    ("7′ 8½″", Length, NONE, 2.3495),
    ("7’ 8 1/2”", Length, NONE, 2.3495),
    ("7' 8 1/2''", Length, NONE, 2.3495),
    ("7' 8-1/2", Length, NONE, 2.3495),
    ("7' 8.5", Length, METRIC, 2.3495),
    ("7'8\"", Length, NONE, 2.3368),
    ("7 ft 8", Length, NONE, 2.3368),
    ("7 feet", Length, NONE, 2.1336),
    ("7'.5\"", Length, NONE, 2.1463),
    ("7.5'", Length, NONE, 2.286),
    ("7 1/2 ft", Length, NONE, 2.286),
    ("8-1/2 in", Length, NONE, 0.2159),
    ("5/8", Length, INCH, 0.015875),
    ("5/8 in", Length, NONE, 0.015875),
    ("9/8 in", Length, NONE, 0.028575),
    ("⅔ in", Length, NONE, 0.0508 / 3.0),
    (".5 in", Length, NONE, 0.0127),
    ("1-1/4 in", Length, NONE, 0.03175),
    ("92 1/2", Length, INCH, 2.3495),
    ("920.12", Length, INCH, 23.371048),
    ("2350", Length, METRIC, 2.35),
    ("2.30 m", Length, NONE, 2.3),
    ("25.4mm", Length, NONE, 0.0254),
    ("25.4 mm", Length, INCH, 0.0254),
    ("1e-3 m", Length, NONE, 0.001),
    ("1E3 mm", Length, NONE, 1.0),
    ("230 cm", Length, NONE, 2.3),
    ("0", Length, INCH, 0.0),
    ("-0 in", Length, NONE, 0.0),
    ("-7' 8-1/2\"", Length, NONE, -2.3495),
    ("−5 mm", Length, NONE, -0.005),
    ("100 lb", Weight, NONE, 45.359237),
    ("100", Weight, INCH, 45.359237),
    ("45", Weight, METRIC, 45.0),
    ("45kg", Weight, INCH, 45.0),
    ("2 1/2 lbs", Weight, NONE, 1.133980925),
    ("8 oz", Weight, NONE, 0.226796185),
    ("500 g", Weight, NONE, 0.5),
    ("9.80665 N", Weight, NONE, 1.0),
    ("0.980665 kN", Weight, NONE, 100.0),
    ("100 lbf", Weight, NONE, 45.359237),
    ("0.9 kN", Force, NONE, 900.0),
    ("100 lbf", Force, NONE, 444.82216152605),
    ("1 kip", Force, NONE, 4448.2216152605),
    ("6.0 GPa", Pressure, NONE, 6.0e9),
    ("90 kPa", Pressure, NONE, 9.0e4),
    ("16 N/mm²", Pressure, NONE, 1.6e7),
    ("2 kN / m2", Pressure, NONE, 2000.0),
    ("2 kN/m^2", Pressure, NONE, 2000.0),
    ("144 psf", Pressure, NONE, 6894.757293168362),
    ("1 psi", Pressure, NONE, 6894.757293168362),
    ("1 ksi", Pressure, NONE, 6894757.293168362),
    ("70 C", Temperature, NONE, 70.0),
    ("-20 °C", Temperature, NONE, -20.0),
    ("32 F", Temperature, NONE, 0.0),
    ("-40°F", Temperature, NONE, -40.0),
    ("20 kg/m3", Density, NONE, 20.0),
    ("20 kg/m³", Density, NONE, 20.0),
    ("5 kg/m2", MassPerArea, NONE, 5.0),
    ("2 kN/m", LinePressure, NONE, 2000.0),
    ("50 kN/m2", LineStiffness, NONE, 50_000.0),
    ("5 N m", Torque, NONE, 5.0),
    ("5 N·m", Torque, NONE, 5.0),
    ("5 Nm", Torque, NONE, 5.0),
    ("45 in-lb", Torque, NONE, 5.084317306242752),
    ("24 h", Duration, NONE, 24.0),
    ("2 days", Duration, NONE, 48.0),
    ("0.3", Ratio, NONE, 0.3),
    ("70 %", Ratio, NONE, 0.7),
    ("1/4", Ratio, NONE, 0.25),
];

#[test]
fn texts_that_are_read() {
    assert!(READ.len() > 80);
    for &(text, measure, headers, expected) in READ {
        let value = read(text, measure, headers).unwrap_or_else(|error| panic!("{text:?}: {error}"));
        assert!(
            (value - expected).abs() <= 2.0 * f64::EPSILON * expected.abs(),
            "{text:?}: {value} is not {expected}"
        );
    }
}

/// One length typed in any way is one number to the last bit.
#[test]
fn one_length_however_typed() {
    let inches = READ.iter().filter(|row| row.3 == 2.3495);
    for (text, measure, headers, expected) in inches {
        assert_eq!(read(text, *measure, *headers).as_ref(), Ok(expected), "{text:?}");
    }
    assert_eq!(read("2349.5 mm", Length, NONE), Ok(2.3495));
    assert_eq!(read("920.12 in", Length, NONE), Ok(23.371048));
}

/// Text, measure, headers; then the code, what is found at the fault, and what to write instead.
type Refusal = (&'static str, Measure, Headers, &'static str, &'static str, Option<&'static str>);

const REFUSED: &[Refusal] = &[
    ("", Length, INCH, "empty-quantity", "", None),
    (" \u{a0}", Length, INCH, "empty-quantity", " \u{a0}", None),
    ("92", Length, NONE, "missing-unit", "92", Some("92 in or 92 mm")),
    ("92 1/2", Length, NONE, "missing-unit", "92 1/2", Some("92 1/2 in")),
    ("92 1/2", Length, METRIC, "missing-unit", "92 1/2", Some("92 1/2 in")),
    ("100", Weight, NONE, "missing-unit", "100", Some("100 lb or 100 kg")),
    ("100", Force, INCH, "missing-unit", "100", Some("100 N or 100 lbf")),
    ("20", Pressure, INCH, "missing-unit", "20", None),
    ("70", Temperature, METRIC, "missing-unit", "70", Some("70 C or 70 F")),
    ("24", Duration, METRIC, "missing-unit", "24", Some("24 h")),
    ("2,5 m", Length, NONE, "decimal-comma", "2,5", Some("2.5 m")),
    ("0,250 m", Length, NONE, "decimal-comma", "0,250", Some("0.250 m")),
    ("-2,5", Length, METRIC, "decimal-comma", "2,5", Some("-2.5")),
    ("1.234,5 mm", Length, NONE, "decimal-comma", "1.234,5", Some("1234.5 mm")),
    ("1,234 mm", Length, NONE, "thousands-separator", "1,234", Some("1234 mm or 1.234 mm")),
    ("1,234.5 mm", Length, NONE, "thousands-separator", "1,234.5", Some("1234.5 mm")),
    ("1 234 mm", Length, NONE, "thousands-separator", "1 234", Some("1234 mm")),
    ("1 234 567 mm", Length, NONE, "thousands-separator", "1 234 567", Some("1234567 mm")),
    ("1_000 mm", Length, NONE, "thousands-separator", "1_000", Some("1000 mm")),
    ("1'234", Length, METRIC, "inches-over-twelve", "234", Some("246 in")),
    ("7 ft 14 in", Length, NONE, "inches-over-twelve", "14", Some("98 in")),
    ("2 m 30 cm", Length, NONE, "mixed-units", "m 30 cm", Some("2.3 m")),
    ("2 m 30", Length, NONE, "two-numbers", "m 30", None),
    ("8 in 7 ft", Length, NONE, "mixed-units", "in 7 ft", Some("92 in")),
    ("-2 lb 4 oz", Weight, NONE, "mixed-units", "lb 4 oz", Some("-2.25 lb")),
    ("1/2/3 in", Length, NONE, "fraction", "1/2/3", None),
    ("1//2 in", Length, NONE, "fraction", "1/", None),
    ("1 / 2 in", Length, NONE, "fraction", "1 / 2", None),
    ("1/2.5 in", Length, NONE, "fraction", "1/2.", None),
    ("1.5/2 in", Length, NONE, "fraction", "1.5/2", None),
    ("/2 in", Length, NONE, "not-a-number", "/2", None),
    ("1/0 in", Length, NONE, "zero-denominator", "1/0", None),
    ("92 1/0 in", Length, NONE, "zero-denominator", "1/0", None),
    ("1 1 in", Length, NONE, "two-numbers", "1 1", None),
    ("92-93 in", Length, NONE, "two-numbers", "92-93", None),
    ("1/2 1/4 in", Length, NONE, "two-numbers", "1/2 1/4", None),
    ("92 4/4 in", Length, NONE, "improper-fraction", "4/4", None),
    ("92 5/4 in", Length, NONE, "improper-fraction", "5/4", None),
    ("1.5 1/2 in", Length, NONE, "fraction-after-decimal", "1.5 1/2", None),
    ("1.5½ in", Length, NONE, "fraction-after-decimal", "1.5½", None),
    ("7.5' 3\"", Length, NONE, "feet-not-whole", "7.5' 3", None),
    ("7 1/2 ft 3 in", Length, NONE, "feet-not-whole", "7 1/2 ft 3", None),
    ("7 ft.8 in", Length, NONE, "decimal-point", "ft.8", Some("7 ft 8 in or 7 ft 0.8 in")),
    ("5. in", Length, NONE, "decimal-point", "5.", None),
    ("1.2.3 in", Length, NONE, "decimal-point", "1.2.", None),
    ("NaN", Length, INCH, "not-a-number", "NaN", None),
    ("inf mm", Length, NONE, "not-a-number", "inf", None),
    ("about 92 in", Length, NONE, "not-a-number", "about", None),
    ("-", Length, INCH, "not-a-number", "", None),
    ("+5 mm", Length, NONE, "sign", "+", Some("5 mm")),
    ("--5 mm", Length, NONE, "sign", "--", None),
    ("5- mm", Length, NONE, "sign", "- mm", None),
    ("92 - 1/2 in", Length, NONE, "sign", "- 1/2 in", None),
    ("92 1/2 inhces", Length, NONE, "unknown-unit", "inhces", Some("92 1/2 inches")),
    ("5 MM", Length, NONE, "unknown-unit", "MM", Some("5 mm")),
    ("5 mPa", Pressure, NONE, "unknown-unit", "mPa", Some("5 MPa")),
    ("5 furlongs", Length, NONE, "unknown-unit", "furlongs", None),
    ("2 t", Weight, NONE, "unknown-unit", "t", None),
    ("5 kg", Length, NONE, "wrong-measure", "kg", None),
    ("7 ft2", Length, NONE, "wrong-measure", "ft2", None),
    ("7 ft²", Length, NONE, "wrong-measure", "ft²", None),
    ("7 ft lb", Length, NONE, "wrong-measure", "ft lb", None),
    ("100 lb", Force, NONE, "wrong-measure", "lb", Some("100 lbf")),
    ("100 kg", Force, NONE, "wrong-measure", "kg", None),
    ("5 in", Ratio, NONE, "wrong-measure", "in", None),
    ("8\"\"", Length, NONE, "doubled-unit", "\"\"", Some("8\"")),
    ("8 in\"", Length, NONE, "doubled-unit", "in\"", Some("8 in")),
    ("7' 8'", Length, NONE, "doubled-unit", "' 8'", None),
    ("1e400 m", Length, NONE, "out-of-range", "1e400", None),
    ("1e-400 m", Length, NONE, "out-of-range", "1e-400", None),
    ("1e31 m", Length, NONE, "out-of-range", "1e31 m", None),
    ("1e-31 m", Length, NONE, "out-of-range", "1e-31 m", None),
];

#[test]
fn texts_that_are_refused() {
    for &(text, measure, headers, code, found, instead) in REFUSED {
        let error = match read(text, measure, headers) {
            Ok(value) => panic!("{text:?} was read as {value}"),
            Err(error) => error,
        };
        assert_eq!(error.code(), code, "{text:?}: {error}");
        assert_eq!(error.found(), found, "{text:?}: {error}");
        assert_eq!(&text[error.at()], found, "{text:?}");
        assert_eq!(error.write_instead().as_deref(), instead, "{text:?}: {error}");
    }
}

#[test]
fn messages_name_the_fault_and_the_remedy() {
    let message = |text, measure| read(text, measure, NONE).unwrap_err().to_string();
    assert_eq!(
        message("5 kg", Length),
        "`kg`: this is a weight, and a length is wanted; allowed is a length in in, ft, mm, cm or m, such as \
         `92 1/2 in`"
    );
    assert_eq!(
        message("92", Length),
        "`92`: the unit is missing; write `92 in` or `92 mm`, whichever is meant"
    );
    assert_eq!(
        message("2,5 m", Length),
        "`2,5`: decimals are marked by a point, not by a comma; write `2.5 m`"
    );
    assert_eq!(
        message("x", Ratio),
        "`x`: a quantity starts with a number in digits; allowed is a ratio in plain numbers or %, such as `0.7`"
    );
}

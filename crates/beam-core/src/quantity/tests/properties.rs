//! Laws of reading and writing, on texts and values nobody thought of.

use proptest::prelude::*;

use super::super::{
    Family, Headers, INCH, LengthStyle, Measure, WeightStyle, read, tape, write_length, write_weight,
};

/// A snap to the 64th and two roundings on the way out, one or two on the way back.
fn same(a: f64, b: f64) -> bool {
    (a - b).abs() <= 4.0 * f64::EPSILON * a.abs()
}

fn headers() -> impl Strategy<Value = Headers> {
    let family = || prop_oneof![Just(None), Just(Some(Family::Inch)), Just(Some(Family::Metric))];
    (family(), family()).prop_map(|(lengths, weights)| Headers { lengths, weights })
}

fn measure() -> impl Strategy<Value = Measure> {
    prop::sample::select(Measure::ALL.to_vec())
}

/// Texts that look like quantities often enough to get past the first character.
fn almost_a_quantity() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(vec![
        "0", "1", "2", "8", "12", "92", "400", ".", ",", "/", "-", "+", "_", " ", "\u{a0}", "e", "E-3", "½",
        "⅝", "\u{2044}", "−", "'", "\"", "''", "′", "″", "’", "”", "in", "in.", "ft", "ft.", "mm", "cm", "m",
        "m2", "kg", "lb", "lbf", "N", "kN", "N/m", "MPa", "psi", "C", "°F", "%", "h", "days", "x", "nan",
        "inf", "é",
    ]);
    prop::collection::vec(piece, 0..9).prop_map(|pieces| pieces.concat())
}

fn proper_fraction() -> impl Strategy<Value = (u32, u32)> {
    (2..65u32).prop_flat_map(|bottom| (1..bottom, Just(bottom)))
}

fn holds_for(text: &str, measure: Measure, headers: Headers) -> Result<(), TestCaseError> {
    match read(text, measure, headers) {
        Ok(value) => {
            prop_assert!(value.is_finite());
            if measure == Measure::Length {
                for style in LengthStyle::ALL {
                    let again = write_length(value, style);
                    let back = read(&again, Measure::Length, Headers::default());
                    prop_assert!(back.as_ref().is_ok_and(|&back| same(value, back)), "{again:?}: {back:?}");
                }
            }
        }
        Err(error) => {
            prop_assert_eq!(text.get(error.at()), Some(error.found()));
            prop_assert!(!error.to_string().is_empty());
            for offer in error.write_instead().iter().flat_map(|offers| offers.split(" or ")) {
                prop_assert!(read(offer, measure, headers).is_ok(), "{text:?} is offered {offer:?}");
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    #[test]
    fn any_text_is_read_or_refused(text in "\\PC*", measure in measure(), headers in headers()) {
        holds_for(&text, measure, headers)?;
    }

    #[test]
    fn any_near_quantity_is_read_or_refused(
        text in almost_a_quantity(), measure in measure(), headers in headers()
    ) {
        holds_for(&text, measure, headers)?;
    }

    #[test]
    fn any_near_length_prints_to_itself(text in almost_a_quantity(), headers in headers()) {
        holds_for(&text, Measure::Length, headers)?;
    }

    #[test]
    fn lengths_survive_every_style(metres in -50.0..50.0f64, power in -9..9i32) {
        let metres = metres * 10f64.powi(power);
        for style in LengthStyle::ALL {
            let text = write_length(metres, style);
            let back = read(&text, Measure::Length, Headers::default());
            prop_assert!(back.as_ref().is_ok_and(|&back| same(metres, back)), "{text:?}: {back:?}");
        }
    }

    /// On a tape all lengths are whole 64ths, and then every style gives the same number to the last bit.
    #[test]
    fn sixty_fourths_survive_every_inch_style(count in 0..20_000u32) {
        let metres = f64::from(count) * 254.0 / 640_000.0;
        for style in LengthStyle::ALL.into_iter().take(8) {
            let text = write_length(metres, style);
            prop_assert_eq!(read(&text, Measure::Length, Headers::default()), Ok(metres), "{}", text);
        }
    }

    #[test]
    fn weights_survive_every_style(kilograms in -500.0..500.0f64, power in -6..6i32) {
        let kilograms = kilograms * 10f64.powi(power);
        for style in WeightStyle::ALL {
            let text = write_weight(kilograms, style);
            let back = read(&text, Measure::Weight, Headers::default());
            prop_assert!(back.as_ref().is_ok_and(|&back| same(kilograms, back)), "{text:?}: {back:?}");
        }
    }

    /// Feet, inches and a fraction put together here, without the writers.
    #[test]
    fn feet_inches_and_fractions(
        feet in 0..20u32, whole in 0..12u32, (top, bottom) in proper_fraction(), form in 0..5usize
    ) {
        let text = match form {
            0 => format!("{feet} ft {whole} {top}/{bottom} in"),
            1 => format!("{feet}' {whole}-{top}/{bottom}\""),
            2 => format!("{feet}'-{whole} {top}/{bottom}”"),
            3 => format!("{feet}′{whole}-{top}\u{2044}{bottom}"),
            _ => format!("{}-{top}/{bottom} in", 12 * feet + whole),
        };
        let inches = f64::from(12 * feet + whole) + f64::from(top) / f64::from(bottom);
        let value = read(&text, Measure::Length, Headers::default());
        prop_assert!(value.as_ref().is_ok_and(|&v| same(inches * INCH, v)), "{text:?}: {value:?}");
    }

    /// What a tape shows is within half a sixteenth, or half a millimetre, of what is there.
    #[test]
    fn a_tape_is_off_by_half_a_mark(metres in 0.01..20.0f64) {
        for (family, half) in [(Family::Inch, INCH / 32.0), (Family::Metric, 0.0005)] {
            let shown = read(&tape(metres, family), Measure::Length, Headers::default());
            prop_assert!(shown.as_ref().is_ok_and(|shown| (shown - metres).abs() <= half * 1.000001));
        }
    }
}

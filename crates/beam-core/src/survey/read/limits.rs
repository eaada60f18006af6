//! `[limits]`.

use crate::quantity::{Headers, Measure, read as read_quantity, si};
use crate::survey::take::{Bound, Context, Number, Table, Take, Words};
use crate::survey::tree::{Node, Value};
use crate::survey::{AluminiumRules, Limits, SagLimit};

const SAG: Bound = Bound::above_zero(Measure::Length).plausible(
    0.5e-3..0.2,
    "0.5 mm to 200 mm (1/64 in to 7 7/8 in)",
    "less sag than can be measured on a roof",
    "more sag than any limit allows",
);
/// Divisors of the span: 10 is a hammock, 2000 a machine bed.
const DIVISOR: std::ops::RangeInclusive<f64> = 10.0..=2000.0;
const RULES: Words<AluminiumRules> = Words(&[
    ("ADM 2020 ASD", AluminiumRules::Adm2020Asd),
    ("ADM 2020 LRFD", AluminiumRules::Adm2020Lrfd),
    ("EN 1999-1-1", AluminiumRules::En1999),
]);
const MODEL_FACTOR: Number = Number::between(1.0, 3.0);
const PARTIAL_FACTOR: Number = Number::between(1.0, 2.0);

pub(super) fn read(cx: &mut Context<'_>, root: &mut Table<'_>) -> Option<Limits> {
    let mut table = root.section(cx, "limits")?;
    let words = "no limit on sag is given: span/180 for short standing loads";
    let short = table.or(cx, "sag", &sag, (SagLimit::SpanOver(180.0), "default-sag", words));
    let words = "no limit on lasting sag is given: span/100 with creep";
    let lasting =
        table.or(cx, "sag_lasting", &sag, (SagLimit::SpanOver(100.0), "default-sag-lasting", words));
    let words = "no rule book for aluminium is named: ADM 2020, allowable strength design";
    let rules = (AluminiumRules::Adm2020Asd, "default-rules", words);
    let aluminium = table.or(cx, "aluminium", &RULES, rules);
    let words = "no factor on the two-way model is given: 1.05";
    let model_factor =
        table.or_si(cx, "model_factor", &MODEL_FACTOR, (1.05, "", "default-model-factor", words));
    let partial_factors = partial_factors(cx, &mut table, aluminium);
    table.close(cx);
    Some(Limits {
        sag: short?,
        sag_lasting: lasting?,
        aluminium: aluminium?,
        partial_factors: partial_factors?,
        model_factor: model_factor?,
    })
}

/// `gamma_m1` and `gamma_m2`, which only EN 1999-1-1 knows.
fn partial_factors(
    cx: &mut Context<'_>,
    table: &mut Table<'_>,
    rules: Option<AluminiumRules>,
) -> Option<[Option<f64>; 2]> {
    let mut out = [None; 2];
    for (key, factor) in ["gamma_m1", "gamma_m2"].into_iter().zip(&mut out) {
        if let (Some(node), Some(AluminiumRules::Adm2020Asd | AluminiumRules::Adm2020Lrfd)) =
            (table.node(key), rules)
        {
            cx.fault(
                "partial-factor",
                node.span.clone(),
                format!("`limits.{key}` is a factor of EN 1999-1-1, and another rule book is chosen"),
                "nothing here",
                "aluminium = \"EN 1999-1-1\"",
            );
            return None;
        }
        *factor = table.optional(cx, key, &PARTIAL_FACTOR)?;
    }
    Some(out)
}

/// `span/180`, or a length.
fn sag(cx: &mut Context<'_>, path: &str, node: &Node) -> Option<SagLimit> {
    let ratio = match &node.value {
        Value::Text(text) => text.trim().strip_prefix("span").map(|rest| (text, rest.trim())),
        _ => None,
    };
    let Some((text, rest)) = ratio else {
        return SAG.take(cx, path, node).map(|limit| SagLimit::Length(si(limit)));
    };
    let divisor = rest.strip_prefix('/').map(|over| read_quantity(over, Measure::Ratio, Headers::default()));
    match divisor {
        Some(Ok(divisor)) if DIVISOR.contains(&divisor) => {
            let limit = cx.span.as_ref().map(|span| (span.si / divisor, "m"));
            cx.given(path, node, text.trim(), limit);
            Some(SagLimit::SpanOver(divisor))
        }
        _ => {
            let allowed = format!("span/{} to span/{}, or a length", DIVISOR.start(), DIVISOR.end());
            cx.fault(
                "sag-limit",
                node.span.clone(),
                format!("`{path}` is no limit on sag"),
                allowed,
                "\"span/180\"",
            );
            None
        }
    }
}

//! `[roof]`.

use crate::quantity::{Measure, si};
use crate::survey::take::{Bound, Context, Extent, Table, Words};
use crate::survey::tree::Node;
use crate::survey::{End, Roof, RoofKind};

const KIND: Words<RoofKind> = Words(&[
    ("laminated", RoofKind::Laminated),
    ("laminated with framing", RoofKind::LaminatedWithFraming),
    ("rafters and deck", RoofKind::RaftersAndDeck),
    ("riveted shell", RoofKind::RivetedShell),
    ("moulded shell", RoofKind::MouldedShell),
    ("not known", RoofKind::NotKnown),
]);
const END: Words<End> = Words(&[("runs on", End::RunsOn), ("cross wall", End::CrossWall)]);

const SPAN: Bound = Bound::above_zero(Measure::Length).plausible(
    1.2..3.5,
    "1.2 m to 3.5 m (48 in to 137 in)",
    "narrower than any vehicle",
    "wider than any vehicle",
);
const LENGTH: Bound = Bound::above_zero(Measure::Length).plausible(
    0.3..20.0,
    "0.3 m to 20 m (12 in to 787 in)",
    "shorter than any piece of roof worth a look",
    "longer than any vehicle",
);
const RISE: Bound = Bound::zero_or_more(Measure::Length).plausible(
    0.0..0.5,
    "0 to 500 mm (0 to 19 5/8 in)",
    "no crown",
    "more crown than any vehicle roof has",
);

/// The roof, and the value of its key `like`.
pub(super) fn read<'n>(cx: &mut Context<'_>, root: &mut Table<'n>) -> (Option<Roof>, Option<&'n Node>) {
    let Some(node) = root.node("roof") else {
        root.missing(cx, "roof", "{ kind, span, rise, length }, or a [roof] line with these keys below it");
        return (None, None);
    };
    let Some(mut table) = Table::open(cx, "roof", node) else {
        return (None, None);
    };
    let kind = table.required(cx, "kind", &KIND, "\"laminated\", or \"not known\"");
    let span = table.required(cx, "span", &SPAN, "\"92 1/2 in\"");
    let rise = table.required(cx, "rise", &RISE, "\"1 3/4 in\", or \"0 in\" if it is flat");
    let length = table.required(cx, "length", &LENGTH, "\"120 in\"");
    let runs_on = "it is not said how the roof ends here: it is taken to run on, with no support counted";
    let front = table.or(cx, "front", &END, (End::RunsOn, "default-end", runs_on));
    let rear = table.or(cx, "rear", &END, (End::RunsOn, "default-end", runs_on));
    let like = table.node("like");

    let extent = |key, path: &'static str, value: Option<f64>| {
        value.map(|si| Extent {
            key: path,
            si,
            typed: cx.typed(&table.span_of(key)).trim_matches('"').to_string(),
        })
    };
    let (span_extent, length_extent) =
        (extent("span", "roof.span", span), extent("length", "roof.length", length));
    (cx.span, cx.length) = (span_extent, length_extent);
    if let (Some(span), Some(rise)) = (span, rise)
        && rise > span / 2.0
    {
        let at = table.span_of("rise");
        cx.fault(
            "rise-too-large",
            at,
            "`roof.rise` is larger than half the span",
            "the height of the crown over the walls, at most half the span",
            "how far the middle stands above a straight line from wall to wall",
        );
    }
    table.close(cx);
    let roof = (|| {
        Some(Roof {
            kind: kind?,
            span: si(span?),
            rise: si(rise?),
            length: si(length?),
            front: front?,
            rear: rear?,
        })
    })();
    (roof, like)
}

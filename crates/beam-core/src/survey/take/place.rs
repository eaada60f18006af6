//! Places on the roof: a patch by its edges or by centre and size, a point.

use super::{Bound, Context, Extent, Pair, Table, Take};
use crate::quantity::{Measure, si};
use crate::survey::problem::Problem;
use crate::survey::tree::{Node, Value};
use crate::survey::{Interval, Patch};

/// A place; whether it lies on the roof is asked of the roof.
const PLACE: Bound = Bound::any(Measure::Length);
const SIZE: Bound = Bound::above_zero(Measure::Length);

/// Takes `across`, `along` and, where one of them is a centre, `size`.
pub(in crate::survey) fn patch(cx: &mut Context<'_>, table: &mut Table<'_>) -> Option<Patch> {
    let size = table.optional(cx, "size", &Pair(SIZE));
    let across = side(cx, table, "across", size.map(|size| size.map(|size| size[0])), cx.span.clone());
    let along = side(cx, table, "along", size.map(|size| size.map(|size| size[1])), cx.length.clone());
    if let (Some(Some(_)), true) = (size, by_edges(table, "across") && by_edges(table, "along")) {
        let span = table.span_of("size");
        cx.fault(
            "either-or",
            span,
            format!("`{}` is not needed beside edges", table.path_of("size")),
            "edges, or a centre with a size",
            "across = [from, to] without size, or across = centre with size",
        );
        return None;
    }
    Some(Patch { across: across?, along: along? })
}

fn by_edges(table: &mut Table<'_>, key: &'static str) -> bool {
    table.node(key).is_some_and(|node| matches!(node.value, Value::Array(_)))
}

/// One side of a patch. `size`: outer `None` had a problem, inner `None` is absent.
fn side(
    cx: &mut Context<'_>,
    table: &mut Table<'_>,
    key: &'static str,
    size: Option<Option<f64>>,
    extent: Option<Extent>,
) -> Option<Interval> {
    let take = |cx: &mut Context<'_>, path: &str, node: &Node| match (&node.value, size) {
        (Value::Array(_), _) => interval(cx, path, node, extent.as_ref()),
        (_, Some(Some(size))) => centre_and_size(cx, path, node, size, extent.as_ref()),
        (_, None) => PLACE.take(cx, path, node).and(None),
        (_, Some(None)) => {
            PLACE.take(cx, path, node)?;
            cx.fault(
                "place-incomplete",
                node.span.clone(),
                format!("`{path}` is a centre without a size"),
                "edges, or a centre with a size",
                format!("{key} = [from, to], or size = [across, along] beside it"),
            );
            None
        }
    };
    table.required(cx, key, &take, "[from, to]")
}

/// A side by its edges.
pub(in crate::survey) fn interval(
    cx: &mut Context<'_>,
    path: &str,
    node: &Node,
    extent: Option<&Extent>,
) -> Option<Interval> {
    let [from, to] = cx.quantities::<2>(path, node, &PLACE)?;
    if from >= to {
        cx.fault(
            "place-reversed",
            node.span.clone(),
            format!("`{path}` does not run from a smaller to a larger measure"),
            "[from, to], from less than to",
            "the smaller measure first",
        );
        return None;
    }
    on_roof(cx, path, node, from, to, extent)?;
    Some(Interval { from: si(from), to: si(to) })
}

/// A side by its middle and size.
fn centre_and_size(
    cx: &mut Context<'_>,
    path: &str,
    node: &Node,
    size: f64,
    extent: Option<&Extent>,
) -> Option<Interval> {
    let centre = PLACE.take(cx, path, node)?;
    let (from, to) = (centre - size / 2.0, centre + size / 2.0);
    on_roof(cx, path, node, from, to, extent)?;
    Some(Interval { from: si(from), to: si(to) })
}

/// A point in one direction.
pub(in crate::survey) fn point(
    cx: &mut Context<'_>,
    table: &mut Table<'_>,
    key: &'static str,
    extent: Option<Extent>,
) -> Option<f64> {
    let take = |cx: &mut Context<'_>, path: &str, node: &Node| {
        let at = PLACE.take(cx, path, node)?;
        on_roof(cx, path, node, at, at, extent.as_ref())?;
        Some(at)
    };
    table.required(cx, key, &take, "\"46 in\"")
}

/// Records a place that reaches past the roof; a roof that could not be read has no far edge.
pub(in crate::survey) fn on_roof(
    cx: &mut Context<'_>,
    path: &str,
    node: &Node,
    from: f64,
    to: f64,
    extent: Option<&Extent>,
) -> Option<()> {
    // A thousandth of a millimetre: rounding, not measuring.
    const SLACK: f64 = 1e-6;
    let far = extent.map_or(f64::INFINITY, |extent| extent.si);
    if from >= -SLACK && to <= far + SLACK {
        return Some(());
    }
    let value = cx.typed(&node.span);
    let allowed = match extent {
        Some(Extent { key, typed, .. }) => format!("0 to {typed}, the `{key}`"),
        None => "0 or more".to_string(),
    };
    cx.problem(
        Problem::new(
            "off-the-roof",
            node.span.clone(),
            format!("`{path}` reaches past the edge of the roof"),
        )
        .value(value)
        .allowed(allowed)
        .write("the part that lies on the roof, measured from the left wall and the front mark"),
    );
    None
}

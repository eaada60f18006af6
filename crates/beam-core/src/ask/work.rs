//! What the workshop is told: how to glue, and what the roof asks of its side walls.

use super::document::Study;
use crate::check::{Bond, Bracing, Finite, GlueWork, NotFinite, Run, SeatForces, WallWork};
use crate::loads::Factors;
use crate::model::is_foam;
use crate::survey::{LayerMaterial, Survey};
use section_tables::Property;

/// How each glued brace is glued.
///
/// # Errors
/// A number that is not finite.
pub(super) fn glue_work(survey: &Survey, factors: &Factors) -> Result<Vec<GlueWork>, NotFinite> {
    let n = |value: f64, what: &str| Finite::new(value, what);
    let clamp_at_most = crush(survey)
        .map(|kept| n(kept * factors.long_term_core_crush / factors.gamma_core_crush, "clamp pressure"))
        .transpose()?;
    let glued = survey.braces.iter().filter(|b| !b.existing && !b.glued.is_empty());
    glued
        .filter_map(|b| b.glue.as_ref().map(|glue| (b, glue)))
        .map(|(b, glue)| {
            let length = b.across.to.value - b.across.from.value;
            let faces = b.glued.len() as f64;
            Ok(GlueWork {
                brace: b.name.clone(),
                product: glue.product.id.clone(),
                to: b.glued.iter().map(|&l| survey.layers[l].name.clone()).collect(),
                area: n(glue.width.value * length * glue.coverage * faces, "glued area")?,
                bed: n(glue.bed.value, "glue bed")?,
                clamp_at_most,
                cure_hours: n(glue.product.cure_hours, "hours of cure")?,
                cure_at: n(glue.product.cure_at_c, "temperature of cure")?,
                heat_limit: n(glue.product.heat_limit_c, "heat limit of glue")?,
                note: glue.product.heat_note.clone(),
            })
        })
        .collect()
}

/// Least crush strength of the foams, Pa; `None` where one is not known.
fn crush(survey: &Survey) -> Option<f64> {
    let foams = survey.layers.iter().filter(|l| is_foam(&l.material));
    let all: Option<Vec<f64>> = foams
        .map(|l| match &l.material {
            LayerMaterial::Table(m) => m.get(Property::Crush).map(|v| v.low * 1e6),
            LayerMaterial::Own(m) => m.crush.map(|c| c.value),
        })
        .collect();
    all?.into_iter().reduce(f64::min)
}

/// What the roof as surveyed asks of its side walls; `None` where nothing was solved.
///
/// # Errors
/// A number that is not finite.
pub(super) fn wall_work(
    survey: &Survey,
    study: &Study,
    surveyed: Bracing,
    glue_holds: bool,
) -> Result<Option<WallWork>, NotFinite> {
    let bond = if surveyed == Bracing::With && glue_holds { Bond::Full } else { Bond::None };
    let counted = study.studied.iter().filter(|s| s.variant.bracing == surveyed && s.variant.bond == bond);
    // Test weights are differences, and stand on nothing by themselves.
    let runs: Vec<&Run> = counted.flat_map(|s| &s.runs).filter(|r| r.load != "test weight").collect();
    let Some(first) = runs.first() else { return Ok(None) };
    let most = |of: &dyn Fn(&Run) -> f64| runs.iter().map(|r| of(r).max(0.0)).fold(0.0, f64::max);
    let length = survey.roof.length.value;
    let both = |of: &dyn Fn(&Run) -> [f64; 2], what: &str| -> Result<[Finite; 2], NotFinite> {
        Ok([Finite::new(most(&|r| of(r)[0]), what)?, Finite::new(most(&|r| of(r)[1]), what)?])
    };
    let per_metre = |r: &Run| [r.walls.left.get() / length, r.walls.right.get() / length];
    let thrust = |r: &Run| [r.walls.left_thrust.get() / length, r.walls.right_thrust.get() / length];
    let seats = (0..first.braces.len())
        .map(|i| {
            let ends = |r: &Run| r.braces[i].end_reactions.map(Finite::get);
            let heaviest =
                runs.iter().max_by(|a, b| ends(a).iter().sum::<f64>().total_cmp(&ends(b).iter().sum()));
            Ok(SeatForces {
                brace: first.braces[i].name.clone(),
                down: both(&ends, "push on a seat")?,
                up: both(&|r| ends(r).map(|e| -e), "pull on a seat")?,
                load: heaviest.map_or_else(String::new, |r| r.load.clone()),
            })
        })
        .collect::<Result<_, NotFinite>>()?;
    Ok(Some(WallWork {
        bond,
        down: both(&per_metre, "push on a wall")?,
        up: both(&|r| per_metre(r).map(|w| -w), "pull on a wall")?,
        thrust: both(&thrust, "thrust on a wall")?,
        seats,
    }))
}

//! What to cut, bend, let in and glue.

use serde::Serialize;

use super::pattern::mark;
use super::search::{Candidate, Field};
use super::trimmers::TrimmerPlaces;
use crate::ask::bend::{BendOptions, Station, bend};
use crate::ask::typed::TypedTube;
use crate::check::{Finite, NotFinite};
use crate::forming::Arc;
use crate::quantity::Family;

/// One brace or trimmer to make, SI.
#[derive(Debug, Clone, Serialize)]
pub struct CutRow {
    /// Mark: braces from the front, then trimmers from the left.
    pub mark: String,
    /// Tube of the tables.
    pub tube: String,
    /// Alloy and temper.
    pub alloy: String,
    /// Centre line from the front mark; of a trimmer, its front end.
    pub along: Finite,
    /// Centre line of a trimmer from the left wall; `null` for a brace.
    pub across: Option<Finite>,
    /// Marks of the braces that a trimmer runs between; empty for a brace.
    pub between: Vec<String>,
    /// Length to cut before bending: along the curve, and a trim at each end where it is bent.
    pub cut_length: Finite,
    /// Length along the curve from inside wall to inside wall: what is left when the trims are off. Of a trimmer, from face
    /// to face of its braces.
    pub finished_length: Finite,
    /// Trim at each end.
    pub trim: Finite,
    /// Angle of each end cut against square, rad, so that the ends stand upright.
    pub end_angle: Finite,
    /// Screw holes at each end; 0 where the seat names none, and in a trimmer, whose joints are not described.
    pub holes_each_end: u32,
    /// Diameter of the screws; `null` where the seat names none.
    pub hole: Option<Finite>,
    /// Distance of the holes from the end; `null` where the seat names none.
    pub hole_from_end: Option<Finite>,
    /// Mass of the finished piece, kg.
    pub mass: Finite,
    /// Heights above the chord, for marks on the tube and the template.
    pub stations: Vec<Station>,
    /// Depth of the channel in the foam; `null` where the brace lies under the ceiling.
    pub channel_depth: Option<Finite>,
    /// Width of the channel.
    pub channel_width: Option<Finite>,
    /// Foam left beside the channel's bottom.
    pub foam_left: Option<Finite>,
    /// Area of the glue bed, m2; 0 without glue.
    pub glue_area: Finite,
    /// Glue in the bed, m3, without what is squeezed out.
    pub glue_volume: Finite,
}

/// The braces of a candidate, from the front, then its trimmers.
///
/// # Errors
/// A number that is none.
pub(super) fn cut_list(
    field: &Field<'_>,
    core: Option<f64>,
    candidate: &Candidate<'_>,
) -> Result<Vec<CutRow>, NotFinite> {
    let (survey, pattern, stock) = (field.survey, field.pattern, &candidate.stock);
    let [width, depth, ..] = stock.size;
    let span = survey.roof.span.value;
    let bent = Arc::new(survey.roof.span, survey.roof.rise).ok().and_then(|_| {
        let options = BendOptions {
            span: match survey.family {
                Family::Inch => format!("{} in", span / crate::quantity::INCH),
                Family::Metric => format!("{span} m"),
            },
            rise: Some(format!("{} m", survey.roof.rise.value)),
            ordinates: None,
            tube: TypedTube::Row(stock.tube.id.clone()),
            alloy: stock.alloy.id.clone(),
            station: None,
        };
        bend(&options, field.tables).ok()
    });
    let arc = bent.as_ref().map_or(span, |b| b.arc_length.get());
    let n = |value: f64| Finite::new(value, "cut list");
    let bed = pattern.bed_width(width);
    let faces = pattern.faces() as f64;
    let thickness = pattern.glue().map_or(0.0, |g| g.bed.value);
    let seat = pattern.seat();
    let holes = seat.and_then(|s| s.screws).unwrap_or(0);
    let lies_in_foam = core.is_some();
    let brace = |(i, y): (usize, &f64)| {
        Ok(CutRow {
            mark: mark(i),
            tube: stock.tube.id.clone(),
            alloy: stock.alloy.id.clone(),
            along: n(*y)?,
            across: None,
            between: Vec::new(),
            cut_length: n(bent.as_ref().map_or(span, |b| b.cut_length.get()))?,
            finished_length: n(arc)?,
            trim: n(bent.as_ref().map_or(0.0, |b| b.trim.get()))?,
            end_angle: n(bent.as_ref().map_or(0.0, |b| b.end_angle.get()))?,
            holes_each_end: holes,
            hole: seat.and_then(|s| s.screw).map(|d| n(d.value)).transpose()?,
            hole_from_end: seat.and_then(|s| s.edge).map(|d| n(d.value)).transpose()?,
            mass: n(stock.mass * arc)?,
            stations: bent.as_ref().map_or_else(Vec::new, |b| b.stations.clone()),
            channel_depth: lies_in_foam.then(|| n(depth + thickness)).transpose()?,
            channel_width: lies_in_foam.then(|| n(width)).transpose()?,
            foam_left: core.map(|c| n((c - depth - thickness).max(0.0))).transpose()?,
            glue_area: n(bed * arc * faces)?,
            glue_volume: n(bed * arc * faces * thickness)?,
        })
    };
    let mut out = candidate.along.iter().enumerate().map(brace).collect::<Result<Vec<_>, _>>()?;
    if let (Some(places), Some(brace)) = (&candidate.trimmers, out.first().cloned()) {
        let trimmers = trimmers(places, &brace, stock.mass)?;
        out.extend(trimmers);
    }
    Ok(out)
}

/// Trimmers lie in a channel as deep as that of their braces, straight, cut square, loose.
fn trimmers(places: &TrimmerPlaces, brace: &CutRow, mass: f64) -> Result<Vec<CutRow>, NotFinite> {
    let n = |value: f64| Finite::new(value, "cut list");
    let length = n(places.length())?;
    let one = |(i, x): (usize, &f64)| {
        Ok(CutRow {
            mark: format!("T{}", i + 1),
            along: n(places.ends[0])?,
            across: Some(n(*x)?),
            between: places.between.map(mark).to_vec(),
            cut_length: length,
            finished_length: length,
            trim: n(0.0)?,
            end_angle: n(0.0)?,
            holes_each_end: 0,
            hole: None,
            hole_from_end: None,
            mass: n(mass * places.length())?,
            stations: Vec::new(),
            glue_area: n(0.0)?,
            glue_volume: n(0.0)?,
            ..brace.clone()
        })
    };
    places.across.iter().enumerate().map(one).collect()
}

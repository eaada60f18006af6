//! Tubes and alloys that are tried, and which of them fit.

use super::SizeError;
use super::SizeOptions;
use crate::quantity::{Family, INCH, POUND, si};
use crate::section::Hollow;
use crate::survey::{MemberSection, Survey};
use section_tables::{Alloy, Tables, Tube, TubeSystem};

/// Alloys tried where none is named: what is stocked as tube and bends without cracking (common practice, no source).
const USUAL_ALLOYS: [&str; 2] = ["6061-T6", "6063-T52"];
/// Names for a whole system of tubes.
const SYSTEMS: [(&str, Option<TubeSystem>); 3] =
    [("in", Some(TubeSystem::Inch)), ("mm", Some(TubeSystem::Metric)), ("all", None)];

/// One tube in one alloy.
#[derive(Debug, Clone)]
pub(super) struct Stock<'a> {
    pub tube: &'a Tube,
    pub alloy: &'a Alloy,
    /// Width, depth, wall, outside corner radius, m.
    pub size: [f64; 4],
    /// Mass per length, kg/m.
    pub mass: f64,
}

impl<'a> Stock<'a> {
    /// A tube of the tables in an alloy.
    ///
    /// # Errors
    /// In words: measures that make no tube.
    pub(super) fn new(tube: &'a Tube, alloy: &'a Alloy) -> Result<Stock<'a>, String> {
        let metre = match tube.system {
            TubeSystem::Inch => INCH,
            TubeSystem::Metric => 1e-3,
        };
        let size = [tube.width, tube.depth, tube.wall, tube.corner].map(|s| s * metre);
        let [width, depth, wall, corner] = size;
        let hollow = Hollow::tube_si(width, depth, wall, corner).map_err(|e| e.to_string())?;
        let density = alloy.density_lb_in3 * POUND / INCH.powi(3);
        Ok(Stock { tube, alloy, size, mass: density * hollow.properties_si().area })
    }

    pub(super) fn section(&self) -> MemberSection {
        let [width, depth, wall, corner] = self.size.map(si);
        MemberSection::Tube { id: Some(self.tube.id.clone()), width, depth, wall, corner }
    }
}

/// The alloys asked for.
///
/// # Errors
/// A name that is not in the tables.
pub(super) fn alloys<'a>(options: &SizeOptions, tables: &'a Tables) -> Result<Vec<&'a Alloy>, SizeError> {
    let mut out: Vec<&Alloy> = Vec::new();
    let usual = USUAL_ALLOYS.map(str::to_owned);
    let names = if options.alloys.is_empty() { &usual[..] } else { &options.alloys };
    for name in names {
        let alloy = tables.alloy(name)?;
        if !out.iter().any(|a| a.id == alloy.id) {
            out.push(alloy);
        }
    }
    Ok(out)
}

/// The tubes asked for: by name, a whole system, or those of the survey's.
///
/// # Errors
/// A name that is not in the tables.
pub(super) fn tubes<'a>(
    options: &SizeOptions,
    family: Family,
    tables: &'a Tables,
) -> Result<Vec<&'a Tube>, SizeError> {
    let own = match family {
        Family::Inch => "in",
        Family::Metric => "mm",
    };
    let own = [own.to_owned()];
    let names = if options.tubes.is_empty() { &own[..] } else { &options.tubes };
    let mut out: Vec<&Tube> = Vec::new();
    for name in names {
        let found: Vec<&Tube> = match SYSTEMS.iter().find(|(n, _)| n == name) {
            Some((_, system)) => {
                tables.tubes.iter().filter(|t| system.is_none_or(|s| s == t.system)).collect()
            }
            None => vec![tables.tube(name)?],
        };
        for tube in found {
            if !out.iter().any(|t| t.id == tube.id) {
                out.push(tube);
            }
        }
    }
    Ok(out)
}

/// Thinnest place of the core that braces are let into, m; `None` without a core.
pub(super) fn core_depth(survey: &Survey) -> Option<f64> {
    let core = survey.layers.iter().rev().find(|l| crate::model::is_foam(&l.material))?;
    Some(core.thickness.wall.value.min(core.thickness.crown.value))
}

/// Whether an alloy's strengths hold for a wall.
pub(super) fn wall_is_listed(alloy: &Alloy, wall: f64) -> bool {
    let inches = wall / INCH;
    alloy.wall_min_in - 1e-9 <= inches && inches <= alloy.wall_max_in + 1e-9
}

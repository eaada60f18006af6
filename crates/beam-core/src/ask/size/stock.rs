//! Tubes and alloys that are tried, and which of them fit.

use super::{FirstBy, SizeError, SizeOptions};
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
    /// Mass per length, kg/m: as the shop weighed it, else by the tables.
    pub mass: f64,
    /// What the shop pays per metre.
    pub price: Option<f64>,
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
        Ok(Stock { tube, alloy, size, mass: density * hollow.properties_si().area, price: None })
    }

    pub(super) fn section(&self) -> MemberSection {
        let [width, depth, wall, corner] = self.size.map(si);
        MemberSection::Tube { id: Some(self.tube.id.clone()), width, depth, wall, corner }
    }
}

/// What is tried: what the shop has on its rack, else all stock asked for.
///
/// # Errors
/// A name that is not in the tables; by price, a tube without one.
pub(super) fn on_hand<'a>(
    options: &SizeOptions,
    family: Family,
    tables: &'a Tables,
) -> Result<Vec<Stock<'a>>, SizeError> {
    let mut out = Vec::new();
    if tables.rack.is_empty() {
        let alloys = alloys(options, tables)?;
        for tube in tubes(options, family, tables)? {
            out.extend(alloys.iter().filter_map(|alloy| Stock::new(tube, alloy).ok()));
        }
    } else {
        // What is not named is not left out: all of the rack is to hand.
        let alloys = if options.alloys.is_empty() { None } else { Some(alloys(options, tables)?) };
        let tubes = if options.tubes.is_empty() { None } else { Some(tubes(options, family, tables)?) };
        for row in &tables.rack {
            let (tube, alloy) = (tables.tube(&row.tube)?, tables.alloy(&row.alloy)?);
            let asked_for = alloys.as_ref().is_none_or(|all| all.iter().any(|a| a.id == alloy.id))
                && tubes.as_ref().is_none_or(|all| all.iter().any(|t| t.id == tube.id));
            if let (true, Ok(stock)) = (asked_for, Stock::new(tube, alloy)) {
                let mass = row.kg_per_m.unwrap_or(stock.mass);
                out.push(Stock { mass, price: row.price_per_m, ..stock });
            }
        }
    }
    let without = out.iter().find(|stock| stock.price.is_none());
    match (options.first_by, without) {
        (FirstBy::Price, Some(stock)) => Err(SizeError::Option {
            what: "order by price",
            value: format!("no price of {}, {}", stock.tube.id, stock.alloy.id),
            allowed: "a price for every tube that is tried".to_owned(),
            remedy: "write price_per_m into rack.csv of the folder named with --tables, or order by weight",
        }),
        _ => Ok(out),
    }
}

/// The alloys asked for.
///
/// # Errors
/// A name that is not in the tables.
fn alloys<'a>(options: &SizeOptions, tables: &'a Tables) -> Result<Vec<&'a Alloy>, SizeError> {
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
fn tubes<'a>(options: &SizeOptions, family: Family, tables: &'a Tables) -> Result<Vec<&'a Tube>, SizeError> {
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

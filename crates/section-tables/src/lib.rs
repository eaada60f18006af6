//! What the trade's materials are worth, each number with its source.
//!
//! Data only: nothing here computes, converts or interpolates. The tables stand in `data/`, one file a
//! subject, the unit in each column's name; [`Tables`] reads them strictly and finds rows by name.
//!
//! ```
//! use section_tables::{Property, Tables};
//!
//! let tables = Tables::shipped();
//!
//! // Aluminum Design Manual 2020, Part VI, table 2-21: 6063-T6 extrusion yields at 25 ksi.
//! assert_eq!(tables.alloy("6063-t6")?.f_ty_ksi, 25.0);
//!
//! // The same tube by two names; a wall of 3.2 mm is another tube.
//! assert_eq!(tables.tube("1x1x.125")?.id, "1 x 1 x 1/8");
//! assert_eq!(tables.tube("25.4 x 25.4 x 3.2")?.wall, 3.2);
//!
//! // A foam's shear modulus as a band, in the property's unit, with its source.
//! let foam = tables.material("EPS type I")?;
//! let g = foam.get(Property::GCore).expect("known for every foam");
//! assert!(g.low < g.default && g.default < g.high);
//! assert_eq!(Property::GCore.unit(), "MPa");
//! assert!(tables.source(g.source_keys().next().unwrap_or_default()).is_ok());
//!
//! // A name that is only similar is never taken.
//! let error = tables.tube("1 x 1 x 1/9").unwrap_err();
//! assert!(error.near.contains(&"1 x 1 x 1/8".to_owned()));
//! # Ok::<(), section_tables::NotFound>(())
//! ```

mod adhesive;
mod alloy;
mod build_up;
mod damage;
mod die;
mod en_alloy;
mod factor;
mod fault;
mod load;
mod lookup;
mod material;
mod own_files;
mod own_rows;
mod property;
mod rack_tube;
mod read;
mod shipped;
mod source;
mod tables;
mod tube;
mod value;
mod walk_board;
mod yield_met;

pub use adhesive::Adhesive;
pub use alloy::Alloy;
pub use build_up::{BuildUp, BuildUpLayer, ThicknessUnit};
pub use damage::{DamageEffect, DamageState, DamagedLayer};
pub use die::Die;
pub use en_alloy::{BucklingClass, EnAlloy, EnStrength};
pub use factor::Factor;
pub use fault::{Fault, LoadError};
pub use lookup::NotFound;
pub use material::{Material, MaterialFamily, StrengthIs};
pub use own_rows::OwnRows;
pub use property::{Property, PropertyGroup};
pub use rack_tube::RackTube;
pub use source::{Source, SourceKind};
pub use tables::Tables;
pub use tube::{Tube, TubeSystem};
pub use value::Value;
pub use walk_board::WalkBoard;
pub use yield_met::YieldMet;

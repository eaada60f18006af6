//! What the ledger bears across its grain.

use super::Materials;
use super::context::Bearing;
use crate::loads::Factors;
use crate::strength::Basis;
use crate::survey::{Condition, LayerMaterial, Survey};
use section_tables::Property;

/// Bearing strength of a sound ledger; `None` where its material is not known, or it is not known to be sound.
pub(crate) fn bearing(survey: &Survey, factors: &Factors, materials: Materials) -> Option<Bearing> {
    if survey.wall.condition != Condition::Sound {
        return None;
    }
    let LayerMaterial::Table(row) = survey.wall.material.as_ref()? else { return None };
    let value = row.get(Property::CompressionPerpendicular)?;
    let strength = 1e6 * if materials == Materials::Default { value.default } else { value.low };
    let safe = factors.panel * factors.gamma_timber;
    let source = format!(
        "{}; k_mod, gamma_M 1.3 of EN 1995-1-1 and 1.5, from memory; no spreading along the ledger counted",
        value.source
    );
    Some(Bearing {
        short: strength * factors.k_mod_short / safe,
        lasting: strength * factors.k_mod_permanent / safe,
        basis: Basis::memory(source),
    })
}

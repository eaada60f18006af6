//! How far the sun bows the roof: told beside the sags, for a string line reads it too.

use crate::check::Words;
use crate::model::is_foam;
use crate::quantity::{sag, si};
use crate::strength::thermal_bow::rise;
use crate::survey::{LayerMaterial, Survey};
use section_tables::Property;

/// The roof's rise under a hot sun with the lower skin as warm as it was glued; none without two skins whose expansion is
/// known.
pub(crate) fn hot_bow(survey: &Survey, glued_at: f64) -> Option<Words> {
    let core = survey.layers.iter().position(|l| is_foam(&l.material))?;
    let (above, below) = (survey.layers[..core].last()?, survey.layers[core + 1..].first()?);
    let expansion = |material: &LayerMaterial| match material {
        LayerMaterial::Table(m) => m.get(Property::ThermalExpansion).map(|v| v.default),
        LayerMaterial::Own(_) => None,
    };
    let (upper, lower) = (expansion(&above.material)?, expansion(&below.material)?);
    let glued_at = survey.conditions.glued_at.unwrap_or(glued_at);
    let half = |l: &crate::survey::Layer| l.thickness.crown.value / 2.0;
    let between = survey.layers[core].thickness.crown.value + half(above) + half(below);
    let hot = survey.conditions.roof_hot;
    let up = rise((upper, hot - glued_at), (lower, 0.0), si(between), survey.roof.span).ok()?.value;
    Some(Words {
        code: "hot-bow".to_owned(),
        words: format!(
            "At {hot:.0} C outside and {glued_at:.0} C inside the sun bows the middle {} by about {}: it is in no sag told here and strains nothing where the walls let the roof bow. Read string lines in the cool.",
            if up < 0.0 { "down" } else { "up" },
            sag(up.abs(), survey.family)
        ),
    })
}

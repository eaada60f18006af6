//! A trimmer as the solvers see it: a short member along, jointed to two braces.

use super::member::{Body, IdealBrace, MemberKind, body};
use crate::check::Materials;
use crate::quantity::{Family, tape};
use crate::survey::{Sides, Sits, Survey, Trimmer};

/// A member along the vehicle at one distance across, from the centre line of one brace to that of another. It lies
/// loose against the panel; its end joints carry shear alone.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct IdealTrimmer {
    pub name: String,
    pub x: f64,
    pub y0: f64,
    pub y1: f64,
    pub width: f64,
    pub depth: f64,
    pub ea: f64,
    pub ei: f64,
    pub gas: f64,
    /// Height of its axis, and of the face it lies against: those of the brace at its front end.
    pub z_axis: f64,
    pub z_face: f64,
    /// Weight, N/m.
    pub weight: f64,
    pub kind: MemberKind,
    /// Whether the foam beside it is cut away, as it is beside its braces.
    pub slotted: bool,
}

/// What a trimmer is called.
fn name(trimmer: &Trimmer, survey: &Survey, family: Family) -> String {
    let [one, other] = trimmer.between.map(|b| survey.braces[b].name.as_str());
    format!("trimmer at {} between {one} and {other}", tape(trimmer.across.value, family))
}

/// The trimmers whose two braces are among `braces`: indices into the survey's braces, with each as idealised.
///
/// # Errors
/// Name and words of what is not known.
pub(crate) fn ideal_trimmers(
    survey: &Survey,
    braces: &[(usize, IdealBrace)],
    materials: Materials,
) -> Result<Vec<IdealTrimmer>, (String, String)> {
    let mut out = Vec::new();
    for trimmer in &survey.trimmers {
        let mut ends: Vec<(usize, &IdealBrace)> =
            braces.iter().filter(|(i, _)| trimmer.between.contains(i)).map(|(i, b)| (*i, b)).collect();
        ends.sort_by(|a, b| a.1.y.total_cmp(&b.1.y));
        let [(first, front), (second, rear)] = ends[..] else { continue };
        let name = name(trimmer, survey, survey.family);
        let Body { ea, ei, gas, weight, kind, .. } =
            body(&trimmer.section, &trimmer.material, materials).map_err(|why| (name.clone(), why))?;
        let let_in = [first, second].iter().any(|b| survey.braces[*b].sits != Sits::UnderTheCeiling);
        let open = [first, second].iter().any(|b| survey.braces[*b].sides == Sides::SlotLeftOpen);
        out.push(IdealTrimmer {
            name,
            x: trimmer.across.value,
            y0: front.y,
            y1: rear.y,
            width: trimmer.section.width().value,
            depth: trimmer.section.depth().value,
            ea,
            ei,
            gas,
            z_axis: front.z_axis,
            z_face: front.z_glue,
            weight,
            kind,
            slotted: let_in && open,
        });
    }
    Ok(out)
}

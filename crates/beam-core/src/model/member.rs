//! A brace as the solvers see it.

use super::panel::Role;
use crate::check::Materials;
use crate::section::Hollow;
use crate::survey::{Brace, Formed, ListedAlloy, MemberMaterial, MemberSection, Sits};

/// What the strength of a member is judged by.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum MemberKind {
    /// Rectangular aluminium tube with this wall.
    AluminiumTube { alloy: Box<ListedAlloy>, wall: f64, corner: f64 },
    /// Anything else: response only.
    ResponseOnly { why: String },
}

/// A member across the roof at one distance along.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct IdealBrace {
    pub name: String,
    pub y: f64,
    pub x0: f64,
    pub x1: f64,
    pub width: f64,
    pub depth: f64,
    pub area: f64,
    /// Elastic modulus of the section, m3.
    pub elastic: f64,
    pub ea: f64,
    pub ei: f64,
    pub gas: f64,
    pub gj: f64,
    /// Height of its axis, and of the face it is glued at.
    pub z_axis: f64,
    pub z_glue: f64,
    /// Slip stiffness of the glue bed per length, N/m2; 0: it lies loose.
    pub slip: f64,
    /// Whether it is glued at all in this configuration.
    pub bonded: bool,
    /// Weight, N/m.
    pub weight: f64,
    pub kind: MemberKind,
    /// Glue area per length, m: width of the bed times coverage; 0 without glue.
    pub glue_width: f64,
    /// Design shear of the glue, short and lasting, Pa, with its source.
    pub glue: Option<GlueLimit>,
    pub seat: Option<crate::survey::Seat>,
    /// Curvature it would have if it were let go, against the roof's line, 1/m: sagging positive, so that a straight
    /// tube sprung into a crown of radius R has 1/R. 0: bent to the crown.
    pub sprung: f64,
    /// Places of welds across it, m.
    pub welds: Vec<f64>,
}

/// Design shear strengths of a glue, Pa.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct GlueLimit {
    pub short: f64,
    pub lasting: f64,
    pub source: String,
    pub kind: crate::strength::BasisKind,
    pub heat_limit_c: f64,
}

/// Heights of the panel's faces where a brace lies, and how they are curved.
pub(crate) struct Faces {
    /// Underside of the outer skin (top of the core).
    pub core_top: f64,
    /// Top of the inner skin (underside of the core).
    pub core_bottom: f64,
    /// Underside of the ceiling.
    pub ceiling: f64,
    /// Curvature of the crown, 1/m.
    pub crown: f64,
}

/// The section, and of a tube its wall and outside corner radius.
fn hollow(section: &MemberSection) -> Result<(Hollow, Option<[f64; 2]>), String> {
    match section {
        MemberSection::Tube { width, depth, wall, corner, .. } => {
            Hollow::tube_si(width.value, depth.value, wall.value, corner.value)
                .map(|h| (h, Some([wall.value, corner.value])))
        }
        MemberSection::Solid { width, depth } => {
            Hollow::solid_si(width.value, depth.value).map(|h| (h, None))
        }
    }
    .map_err(|e| e.to_string())
}

/// A member by itself: its section in its material.
pub(super) struct Body {
    pub area: f64,
    /// Elastic modulus of the section, m3.
    pub elastic: f64,
    pub ea: f64,
    pub ei: f64,
    pub gas: f64,
    pub gj: f64,
    /// Weight, N/m.
    pub weight: f64,
    pub kind: MemberKind,
}

/// Stiffness and weight of a member.
///
/// # Errors
/// The words for what is not known.
pub(super) fn body(
    section: &MemberSection,
    material: &MemberMaterial,
    materials: Materials,
) -> Result<Body, String> {
    let (section, tube) = hollow(section)?;
    let p = section.properties_si();
    let (e, g, density, kind) = match (material, tube) {
        (MemberMaterial::Alloy(alloy), Some([wall, corner])) => (
            alloy.e.value,
            alloy.g.value,
            alloy.density.value,
            MemberKind::AluminiumTube { alloy: alloy.clone(), wall, corner },
        ),
        (MemberMaterial::Alloy(alloy), None) => (
            alloy.e.value,
            alloy.g.value,
            alloy.density.value,
            MemberKind::ResponseOnly { why: "strength of a solid aluminium bar is not checked yet".into() },
        ),
        (MemberMaterial::Other(material), _) => {
            let m = super::material::moduli(material, true, materials, super::Time::Fresh, 0.0)?;
            let density = super::material::density(material)
                .ok_or_else(|| format!("no density is known for {}", material.id()))?;
            let why = format!("strength of a member of {} is not checked yet", material.id());
            (m.e_x, m.g_xz, density, MemberKind::ResponseOnly { why })
        }
    };
    Ok(Body {
        area: p.area,
        elastic: p.elastic,
        ea: e * p.area,
        ei: e * p.second_moment,
        gas: g * p.shear_area,
        gj: g * p.torsion,
        weight: density * p.area * crate::quantity::STANDARD_GRAVITY,
        kind,
    })
}

/// The brace in a configuration: `bond` says whether its glue counts.
///
/// # Errors
/// The words for what is not known.
pub(crate) fn ideal_brace(
    brace: &Brace,
    roles: &[Role],
    faces: &Faces,
    bond: bool,
    materials: Materials,
) -> Result<IdealBrace, String> {
    let Body { area, elastic, ea, ei, gas, gj, weight, kind } =
        body(&brace.section, &brace.material, materials)?;
    let depth = brace.section.depth().value;
    let to_outer = brace.glued.iter().any(|&l| roles[l] == Role::Outer);
    let to_inner = brace.glued.iter().any(|&l| roles[l] == Role::Inner);
    let (z_axis, z_face) = match brace.sits {
        Sits::InTheFoam => (
            faces.core_top - depth / 2.0,
            if to_inner && !to_outer { faces.core_bottom } else { faces.core_top },
        ),
        Sits::OnTheInnerSkin => (
            faces.core_bottom + depth / 2.0,
            if to_outer && !to_inner { faces.core_top } else { faces.core_bottom },
        ),
        Sits::UnderTheCeiling => (faces.ceiling - depth / 2.0, faces.ceiling),
    };
    // Glued at both faces it turns with the panel: then its axis is the glue plane.
    let z_glue = if to_outer && to_inner { z_axis } else { z_face };
    let glue = brace.glue.as_ref().filter(|_| !brace.glued.is_empty());
    let pick = |v: &section_tables::Value| match materials {
        Materials::Default => v.default,
        Materials::Low | Materials::High => v.low,
    };
    let faces_glued = f64::from(u8::from(to_outer) + u8::from(to_inner)).max(1.0);
    let (slip, glue_width, limit) = match glue {
        Some(g) => {
            let width = g.width.value * g.coverage;
            let stiffness = match materials {
                Materials::Low => g.product.shear_modulus_mpa.low,
                Materials::Default => g.product.shear_modulus_mpa.default,
                Materials::High => g.product.shear_modulus_mpa.high,
            } * 1e6;
            let limit = GlueLimit {
                short: pick(&g.product.shear_short_mpa) * 1e6,
                lasting: pick(&g.product.shear_permanent_mpa) * 1e6,
                source: g.product.source.clone(),
                kind: g.product.kind.into(),
                heat_limit_c: g.product.heat_limit_c,
            };
            (stiffness * width * faces_glued / g.bed.value, width * faces_glued, Some(limit))
        }
        None => (0.0, 0.0, None),
    };
    let bonded = bond && limit.is_some();
    Ok(IdealBrace {
        name: brace.name.clone(),
        y: brace.along.value,
        x0: brace.across.from.value,
        x1: brace.across.to.value,
        width: brace.section.width().value,
        depth,
        area,
        elastic,
        ea,
        ei,
        gas,
        gj,
        z_axis,
        z_glue,
        slip: if bonded { slip } else { 0.0 },
        bonded,
        weight,
        kind,
        glue_width,
        glue: limit,
        seat: brace.seat.clone(),
        sprung: match brace.formed {
            Formed::Bent => 0.0,
            Formed::Sprung => faces.crown,
        },
        welds: brace.welds.iter().map(|w| w.value).collect(),
    })
}

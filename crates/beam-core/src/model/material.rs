//! Moduli and strengths of one layer in roof axes, for a material bracket, an age and a temperature.

use crate::check::Materials;
use crate::survey::{LayerMaterial, OwnStrength};
use section_tables::{Property, SourceKind, StrengthIs, Value};

/// Share of an own single value that the low bracket takes.
const OWN_LOW: f64 = 0.8;
/// Multiple of an own single value that the high bracket takes.
const OWN_HIGH: f64 = 1.25;
/// A 5-percent value from a mean, where only the mean is known.
const FROM_MEAN: f64 = 0.65;
/// An own material softer than this is taken for foam: no skin is, no foam is stiffer.
const OWN_FOAM_BELOW: f64 = 200.0e6;
/// Creep of an own foam in shear, after 100 000 h and after 2 000 h: rigid foams, EN 14509, from memory.
pub(crate) const OWN_FOAM_CREEP: [f64; 2] = [7.0, 2.4];
/// Creep of an own board: plywood indoors, EN 1995-1-1 Table 3.2, from memory.
pub(crate) const OWN_BOARD_CREEP: f64 = 0.8;
/// Share of stiffness and strength an own foam keeps in a hot roof: that of bead foam in the tables.
pub(crate) const OWN_FOAM_HEAT: f64 = 0.6;
const MPA: f64 = 1.0e6;

/// When and how warm: which moduli apply.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(crate) enum Time {
    /// First day, short loads.
    Fresh,
    /// After years under load: foam crept, its direct stiffness not counted; wood crept.
    Aged,
    /// Short loads on a roof hot from the sun.
    Hot,
}

/// Moduli of a layer in roof axes, Pa.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Moduli {
    pub e_x: f64,
    pub e_y: f64,
    pub nu_xy: f64,
    pub g_xy: f64,
    pub g_xz: f64,
    pub g_yz: f64,
    pub e_x_flexural: f64,
    pub e_y_flexural: f64,
}

/// A value with where it comes from.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Known {
    pub value: f64,
    pub source: String,
    pub kind: SourceKind,
}

/// Characteristic strengths of a layer in roof axes, Pa; `None`: not known.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Strengths {
    pub tension: [Option<Known>; 2],
    pub compression: [Option<Known>; 2],
    pub bending: [Option<Known>; 2],
    pub shear_panel: Option<Known>,
    /// Rolling shear of plywood: sliding between its plies as it bends.
    pub shear_planar: Option<Known>,
    pub shear_core: Option<Known>,
    pub crush: Option<Known>,
}

/// One of the three numbers of a table value. Strength is low in both outer brackets: a stiff roof need not be a
/// strong one.
fn pick(value: &Value, materials: Materials, is_strength: bool) -> f64 {
    match (materials, is_strength) {
        (Materials::Low, _) | (Materials::High, true) => value.low,
        (Materials::Default, _) => value.default,
        (Materials::High, false) => value.high,
    }
}

fn own(value: f64, materials: Materials, is_strength: bool) -> f64 {
    match (materials, is_strength) {
        (Materials::Low, _) | (Materials::High, true) => value * OWN_LOW,
        (Materials::Default, _) => value,
        (Materials::High, false) => value * OWN_HIGH,
    }
}

/// The words for what a material lacks.
fn lacks(material: &LayerMaterial, property: Property) -> String {
    format!("the tables hold no {} for {}", property.key(), material.id())
}

/// A ratio of the tables (creep, heat), `default` where the material has no row for it.
fn ratio(material: &LayerMaterial, property: Property, default: f64) -> f64 {
    match material {
        LayerMaterial::Table(m) => m.get(property).map_or(default, |v| v.default),
        LayerMaterial::Own(_) => default,
    }
}

/// Whether a layer is foam, and with that part of the core.
pub(crate) fn is_foam(material: &LayerMaterial) -> bool {
    match material {
        LayerMaterial::Table(m) => m.family == section_tables::MaterialFamily::Foam,
        LayerMaterial::Own(m) => m.e1.value < OWN_FOAM_BELOW,
    }
}

/// Moduli in roof axes.
///
/// `grain_across`: the face grain lies across the vehicle. `creep_hours` chooses the foam's creep factor.
///
/// # Errors
/// The words for the property that is not known.
pub(crate) fn moduli(
    material: &LayerMaterial,
    grain_across: bool,
    materials: Materials,
    time: Time,
    creep_hours: f64,
) -> Result<Moduli, String> {
    let mut m = match material {
        LayerMaterial::Table(row) => {
            let get = |p: Property| -> Result<f64, String> {
                row.get(p).map(|v| pick(v, materials, false) * MPA).ok_or_else(|| lacks(material, p))
            };
            let nu = |p: Property| row.get(p).map_or(0.0, |v| v.default);
            if is_foam(material) {
                let (e, g) = (get(Property::ECore)?, get(Property::GCore)?);
                Moduli {
                    e_x: e,
                    e_y: e,
                    nu_xy: nu(Property::NuCore),
                    g_xy: g,
                    g_xz: g,
                    g_yz: g,
                    e_x_flexural: e,
                    e_y_flexural: e,
                }
            } else {
                let e1 = get(Property::E1Membrane)?;
                let e2 = row.get(Property::E2Membrane).map_or(e1, |v| pick(v, materials, false) * MPA);
                let g12 = get(Property::G12)?;
                let or = |p: Property, otherwise: f64| {
                    row.get(p).map_or(otherwise, |v| pick(v, materials, false) * MPA)
                };
                turn(
                    [e1, e2, or(Property::E1Flexural, e1), or(Property::E2Flexural, e2)],
                    nu(Property::Nu12),
                    [g12, or(Property::G13, g12), or(Property::G23, g12)],
                    grain_across,
                )
            }
        }
        LayerMaterial::Own(own_material) => {
            let o = |p: crate::quantity::Pressure| own(p.value, materials, false);
            let (e1, e2) = (o(own_material.e1), o(own_material.e2));
            let g12 = own_material.g12.map_or(e1 / (2.0 * (1.0 + own_material.nu12)), o);
            turn(
                [e1, e2, own_material.e1_flexural.map_or(e1, o), own_material.e2_flexural.map_or(e2, o)],
                own_material.nu12,
                [g12, own_material.g13.map_or(g12, o), own_material.g23.map_or(g12, o)],
                grain_across,
            )
        }
    };
    match time {
        Time::Fresh => {}
        Time::Hot if is_foam(material) => {
            m = scaled(m, ratio(material, Property::HeatModulus, OWN_FOAM_HEAT))
        }
        Time::Hot => {}
        Time::Aged if is_foam(material) => {
            let creep =
                if creep_hours > 2000.0 { Property::CreepShear100000h } else { Property::CreepShear2000h };
            let phi = match material {
                LayerMaterial::Table(row) => {
                    row.get(creep).map(|v| v.default).ok_or_else(|| lacks(material, creep))?
                }
                LayerMaterial::Own(_) => OWN_FOAM_CREEP[usize::from(creep_hours <= 2000.0)],
            };
            m = scaled(m, 1.0 / (1.0 + phi));
        }
        Time::Aged => m = scaled(m, 1.0 / (1.0 + ratio(material, Property::KDef, OWN_BOARD_CREEP))),
    }
    Ok(m)
}

/// Grain axes to roof axes: a quarter turn, so moduli swap and nu_21 = nu_12 E2/E1.
fn turn(e: [f64; 4], nu12: f64, g: [f64; 3], grain_across: bool) -> Moduli {
    let [e1, e2, e1f, e2f] = e;
    let [g12, g13, g23] = g;
    if grain_across {
        Moduli {
            e_x: e1,
            e_y: e2,
            nu_xy: nu12,
            g_xy: g12,
            g_xz: g13,
            g_yz: g23,
            e_x_flexural: e1f,
            e_y_flexural: e2f,
        }
    } else {
        Moduli {
            e_x: e2,
            e_y: e1,
            nu_xy: nu12 * e2 / e1,
            g_xy: g12,
            g_xz: g23,
            g_yz: g13,
            e_x_flexural: e2f,
            e_y_flexural: e1f,
        }
    }
}

fn scaled(m: Moduli, by: f64) -> Moduli {
    Moduli {
        e_x: m.e_x * by,
        e_y: m.e_y * by,
        nu_xy: m.nu_xy,
        g_xy: m.g_xy * by,
        g_xz: m.g_xz * by,
        g_yz: m.g_yz * by,
        e_x_flexural: m.e_x_flexural * by,
        e_y_flexural: m.e_y_flexural * by,
    }
}

/// Characteristic (5-percent) strengths in roof axes.
pub(crate) fn strengths(material: &LayerMaterial, grain_across: bool, materials: Materials) -> Strengths {
    let turned = |along: Option<Known>, across: Option<Known>| {
        if grain_across { [along, across] } else { [across, along] }
    };
    match material {
        LayerMaterial::Table(row) => {
            let get = |p: Property| -> Option<Known> {
                let value = row.get(p)?;
                let factor = if row.strength_is(p) == Some(StrengthIs::Mean) { FROM_MEAN } else { 1.0 };
                Some(Known {
                    value: pick(value, materials, true) * MPA * factor,
                    source: value.source.clone(),
                    kind: value.kind,
                })
            };
            let pair = |p1: Property, p2: Property| {
                let first = get(p1);
                let second = get(p2).or_else(|| first.clone());
                turned(first, second)
            };
            Strengths {
                tension: pair(Property::Tension1, Property::Tension2),
                compression: pair(Property::Compression1, Property::Compression2),
                bending: pair(Property::Bending1, Property::Bending2),
                shear_panel: get(Property::ShearPanel),
                shear_planar: get(Property::ShearPlanar),
                shear_core: get(Property::ShearCore),
                crush: get(Property::Crush),
            }
        }
        LayerMaterial::Own(m) => {
            let factor = if m.strength_is == OwnStrength::Mean { FROM_MEAN } else { 1.0 };
            let get = |p: Option<crate::quantity::Pressure>| {
                p.map(|p| Known {
                    value: own(p.value, materials, true) * factor,
                    source: format!("the survey's own material {}", m.id),
                    kind: SourceKind::Practice,
                })
            };
            let both = |p| turned(get(p), get(p));
            Strengths {
                tension: both(m.tension),
                compression: both(m.compression),
                bending: both(m.bending.or(m.tension)),
                shear_panel: get(m.shear),
                // An own board is taken to be of one stuff: plies that roll are for the tables.
                shear_planar: get(m.shear),
                shear_core: get(m.shear),
                crush: get(m.crush),
            }
        }
    }
}

/// Density, kg/m3; `None`: not known.
pub(crate) fn density(material: &LayerMaterial) -> Option<f64> {
    match material {
        LayerMaterial::Table(m) => m.get(Property::Density).map(|v| v.default),
        LayerMaterial::Own(m) => m.density.map(|d| d.value),
    }
}

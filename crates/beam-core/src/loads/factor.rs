//! Factors and standing numbers of the checks, out of the tables, so that each keeps its source.

use crate::survey::{AluminiumRules, Road, Snow, SnowKind, Survey};
use section_tables::{EnAlloy, NotFound, Tables};

/// The factors a check uses.
#[derive(Debug, Clone)]
pub(crate) struct Factors {
    pub road: f64,
    pub walking: f64,
    pub stumble: f64,
    /// N on a square heel of this side, m.
    pub heel_force: f64,
    pub heel_side: f64,
    /// Shoe sole, across and along either way round, m.
    pub sole: [f64; 2],
    pub snow_density: f64,
    pub panel: f64,
    pub gamma_plywood: f64,
    pub gamma_core_shear: f64,
    pub gamma_core_crush: f64,
    pub gamma_wrinkling: f64,
    pub gamma_metal_face: f64,
    pub gamma_glass_fibre: f64,
    pub gamma_timber: f64,
    pub long_term_core_shear: f64,
    pub long_term_core_crush: f64,
    /// Share of the crushing stress under a load that comes and goes for years, its own safety on it.
    pub cyclic_core_crush: f64,
    /// Share of plywood's strength under the road's many small swings.
    pub fatigue_plywood: f64,
    pub braking: f64,
    pub sideways: f64,
    /// Net upward share of the weight when the body drops away.
    pub rebound: f64,
    /// Height of a unit's mass where it is not given, m.
    pub unit_height: f64,
    pub k_mod_permanent: f64,
    pub k_mod_medium: f64,
    pub k_mod_short: f64,
    pub k_mod_instantaneous: f64,
    pub wall_tolerance: f64,
    pub people_apart: f64,
    pub corner_exponent: f64,
    /// m.
    pub corner_reference: f64,
    /// Heat above which foam has no listed strength, C.
    pub foam_service_limit: f64,
    /// Strain per kelvin of aluminium.
    pub expansion_aluminium: f64,
    /// Temperature at gluing where none is surveyed, C.
    pub glued_at: f64,
    /// Fastest that a body bounces on its springs, Hz.
    pub body_bounce: f64,
    pub aluminium: Aluminium,
    /// Full swings from rebound to shaken, a year on the road.
    pub road_swings: f64,
}

/// The rule book of aluminium, and what it multiplies loads with.
#[derive(Debug, Clone)]
pub(crate) struct Aluminium {
    pub rules: AluminiumRules,
    /// On what stays, where it adds and where it relieves.
    pub permanent: f64,
    pub relieving: f64,
    /// On what comes and goes.
    pub variable: f64,
    /// `gamma_M1` and `gamma_M2` of EN 1999-1-1, recommended or national.
    pub gamma_m: [f64; 2],
    /// Alloys of EN 1999-1-1.
    pub en_alloys: Vec<EnAlloy>,
}

/// `gamma_M1` and `gamma_M2` of EN 1999-1-1: national where given, else the recommended ones.
///
/// # Errors
/// A key that the tables do not hold.
pub(crate) fn partial_factors([m1, m2]: [Option<f64>; 2], tables: &Tables) -> Result<[f64; 2], NotFound> {
    let or = |given: Option<f64>, key: &str| given.map_or_else(|| tables.factor(key).map(|f| f.value), Ok);
    Ok([or(m1, "en_gamma_m1")?, or(m2, "en_gamma_m2")?])
}

impl Aluminium {
    /// Allowable strength design, whose shares of a strength are nearly all sums that add.
    pub(crate) fn allowable(self) -> Aluminium {
        Aluminium { rules: AluminiumRules::Adm2020Asd, permanent: 1.0, relieving: 1.0, variable: 1.0, ..self }
    }

    /// The rules with their factors; `gamma_M1` and `gamma_M2` where they are national.
    ///
    /// # Errors
    /// A key that the tables do not hold.
    pub(crate) fn of(
        rules: AluminiumRules,
        national: [Option<f64>; 2],
        tables: &Tables,
    ) -> Result<Aluminium, NotFound> {
        let get = |key: &str| tables.factor(key).map(|f| f.value);
        let (permanent, relieving, variable) = match rules {
            AluminiumRules::Adm2020Asd => (1.0, 1.0, 1.0),
            AluminiumRules::Adm2020Lrfd => {
                (get("asce_dead")?, get("asce_dead_relieving")?, get("asce_live")?)
            }
            AluminiumRules::En1999 => {
                (get("en_permanent")?, get("en_permanent_relieving")?, get("en_variable")?)
            }
        };
        let gamma_m = partial_factors(national, tables)?;
        Ok(Aluminium { rules, permanent, relieving, variable, gamma_m, en_alloys: tables.en_alloys.clone() })
    }
}

impl Factors {
    /// Reads the factors for a survey.
    ///
    /// # Errors
    /// A key that the tables do not hold.
    pub(crate) fn of(survey: &Survey, tables: &Tables) -> Result<Factors, NotFound> {
        let get = |key: &str| tables.factor(key).map(|f| f.value);
        let mm = |key: &str| get(key).map(|v| v / 1000.0);
        Ok(Factors {
            road: match survey.conditions.road {
                Road::Smooth => get("road_smooth")?,
                Road::Mixed => get("road_mixed")?,
                Road::Rough => get("road_rough")?,
                Road::Factor(f) => f,
            },
            walking: get("walking")?,
            stumble: get("stumble")?,
            heel_force: get("heel_force")?,
            heel_side: mm("heel_side")?,
            sole: [mm("sole_width")?, mm("sole_length")?],
            snow_density: match survey.conditions.snow {
                Snow::Depth { kind: SnowKind::Fluffy, .. } => get("snow_fluffy")?,
                Snow::Depth { kind: SnowKind::Average, .. } => get("snow_average")?,
                Snow::Depth { kind: SnowKind::Wet, .. } => get("snow_wet")?,
                Snow::None | Snow::Pressure(_) => 0.0,
            },
            panel: get("panel_factor")?,
            gamma_plywood: get("gamma_m_plywood")?,
            gamma_core_shear: get("gamma_m_core_shear")?,
            gamma_core_crush: get("gamma_m_core_crush")?,
            gamma_wrinkling: get("gamma_m_wrinkling")?,
            gamma_metal_face: get("gamma_m_metal_face")?,
            gamma_glass_fibre: get("gamma_m_glass_fibre")?,
            gamma_timber: get("gamma_m_timber")?,
            long_term_core_shear: get("long_term_core_shear")?,
            long_term_core_crush: get("long_term_core_crush")?,
            cyclic_core_crush: get("cyclic_core_crush")? / get("gamma_m_cyclic_crush")?,
            fatigue_plywood: get("fatigue_plywood")?,
            braking: get("road_braking")?,
            sideways: get("road_sideways")?,
            rebound: get("road_rebound")?,
            unit_height: mm("unit_mass_height")?,
            k_mod_permanent: get("k_mod_permanent")?,
            k_mod_medium: get("k_mod_medium")?,
            k_mod_short: get("k_mod_short")?,
            k_mod_instantaneous: get("k_mod_instantaneous")?,
            wall_tolerance: get("wall_thickness_tolerance")?,
            people_apart: mm("person_spacing")?,
            corner_exponent: get("corner_exponent")?,
            corner_reference: mm("corner_reference")?,
            foam_service_limit: get("eps_service_limit")?,
            expansion_aluminium: get("expansion_aluminium")?,
            glued_at: get("glued_at")?,
            body_bounce: get("body_bounce")?,
            aluminium: Aluminium::of(survey.limits.aluminium, survey.limits.partial_factors, tables)?,
            road_swings: get("road_swings_per_year")?,
        })
    }

    /// Snow pressure, Pa; 0 where none is surveyed.
    pub(crate) fn snow(&self, survey: &Survey) -> f64 {
        match survey.conditions.snow {
            Snow::None => 0.0,
            Snow::Pressure(p) => p.value,
            Snow::Depth { depth, .. } => depth.value * self.snow_density * crate::quantity::STANDARD_GRAVITY,
        }
    }
}

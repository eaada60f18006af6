//! Solid wood members, such as rafters that are there: bending with axial force, shear, and bearing on their seats.
//!
//! In the panel's format: loads unfactored, strengths over gamma_M and 1.5. Shares of what stays and of what comes on
//! top are added whatever their signs.

use super::Materials;
use super::context::{CaseState, Context};
use super::finding::{Check, Numbers};
use crate::loads::{Factors, Lasting};
use crate::model::IdealBrace;
use crate::quantity::si;
use crate::response::BraceForces;
use crate::strength::wood_member::{Hold, WoodMember};
use crate::strength::{Basis, OutOfRange};
use crate::survey::{Brace, LayerMaterial, MemberMaterial, MemberSection};
use section_tables::Property;

/// What a member of wood may carry for one duration.
#[derive(Debug, Clone, Copy)]
struct Carries {
    bending: f64,
    shear: f64,
    tension: f64,
    compression: f64,
    /// A reaction across the grain of its end; none without a seat.
    bearing: Option<f64>,
}

/// What a member of wood may carry: for years, for weeks, for a moment.
#[derive(Debug, Clone)]
pub(crate) struct Rafter {
    years: Carries,
    medium: Carries,
    short: Carries,
    basis: Basis,
}

/// Strength of a brace that is a solid rectangle of a timber of the tables; `None` for any other.
pub(super) fn rafter(
    brace: &Brace,
    ideal: &IdealBrace,
    factors: &Factors,
    materials: Materials,
) -> Option<Rafter> {
    let (MemberMaterial::Other(LayerMaterial::Table(wood)), MemberSection::Solid { width, depth }) =
        (&brace.material, &brace.section)
    else {
        return None;
    };
    let strength =
        |p| wood.get(p).map(|v| 1e6 * if materials == Materials::Default { v.default } else { v.low });
    let (bending, shear, across) = (
        strength(Property::Bending1)?,
        strength(Property::Shear)?,
        strength(Property::CompressionPerpendicular)?,
    );
    let (tension, compression) = (strength(Property::Tension1)?, strength(Property::Compression1)?);
    let modulus = 1e6 * wood.get(Property::E1Membrane)?.low;
    let hold = if ideal.bonded {
        Hold::AllAlong
    } else {
        Hold::Every { length: si(ideal.x1 - ideal.x0), modulus: si(modulus) }
    };
    let carries = |k_mod: f64| -> Result<Carries, OutOfRange> {
        let member = WoodMember {
            width: *width,
            depth: *depth,
            bending: si(bending),
            shear: si(shear),
            across_grain: si(across),
            k_mod,
            gamma_m: factors.gamma_timber,
            size_effect: false,
            hold,
        };
        let along = k_mod * ideal.area / (factors.gamma_timber * factors.panel);
        Ok(Carries {
            bending: member.moment()?.value.value / factors.panel,
            shear: member.shear_force()?.value.value / factors.panel,
            tension: along * tension,
            compression: along * compression,
            // The end is flush with the wall: nothing beside the seat helps.
            bearing: match &ideal.seat {
                None => None,
                Some(seat) => {
                    let r = member.bearing(seat.bearing_length, [si(0.0), si(0.0)], 1.0)?;
                    Some(r.value.value / factors.panel)
                }
            },
        })
    };
    let all = || -> Result<Rafter, OutOfRange> {
        Ok(Rafter {
            years: carries(factors.k_mod_permanent)?,
            medium: carries(factors.k_mod_medium)?,
            short: carries(factors.k_mod_short)?,
            basis: Basis::memory("EN 1995-1-1, 6.1.5, 6.1.6, 6.1.7, 6.2.3, and 1.5 on loads unfactored"),
        })
    };
    all().ok()
}

impl Carries {
    /// Shares used in bending with axial force, and in shear.
    fn used(&self, f: &BraceForces) -> [f64; 2] {
        let along = if f.axial < 0.0 { self.compression } else { self.tension };
        [f.axial.abs() / along + f.moment.abs() / self.bending, f.shear.abs() / self.shear]
    }
}

impl Rafter {
    /// Reactions that it bears across its grain at an end, for years and for this case, and what that rests on; `None`
    /// without a seat.
    pub(super) fn seat(&self, lasting: Lasting) -> Option<([f64; 2], &Basis)> {
        let brief = if lasting == Lasting::Medium { &self.medium } else { &self.short };
        Some(([self.years.bearing?, brief.bearing?], &self.basis))
    }

    /// What its limits rest on.
    pub(super) fn basis(&self) -> &Basis {
        &self.basis
    }

    /// What is used at one place in one case.
    pub(super) fn used(
        &self,
        context: &Context<'_>,
        case: &CaseState<'_>,
        [years, top]: [&BraceForces; 2],
    ) -> [(Check, Numbers); 2] {
        let brief = if case.lasting == Lasting::Medium { &self.medium } else { &self.short };
        let (lasting, passing) = (self.years.used(years), brief.used(top));
        let limits = [brief.bending, brief.shear];
        [(0, Check::Brace, "N m"), (1, Check::BraceShear, "N")].map(|(i, check, si)| {
            let used = lasting[i] + case.dynamic * passing[i];
            // One number beside another: what alone would use as much for a moment.
            let (demand, limit) = (used * limits[i], limits[i]);
            (check, Numbers { demand, limit, si, ratio: used * context.model_factor })
        })
    }
}

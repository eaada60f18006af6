//! A tube by the Aluminum Design Manual 2020.

use super::found::{Bend, Found, Of};
use super::words::read_alloy;
use super::{Case, TubeError, TubeQuestion};
use crate::quantity::si;
use crate::strength::aluminium::adm::{
    AdmAlloy, Flexure, Format, LocalMethod, Weld, compression, shear, tension, torsion,
};
use crate::strength::{BasisKind, OutOfRange};
use section_tables::Tables;

pub(super) fn judge(
    case: &Case,
    question: &TubeQuestion,
    tables: &Tables,
    factored: bool,
) -> Result<Found, TubeError> {
    let format = if factored { Format::Lrfd } else { Format::Asd };
    let alloy = match read_alloy(&question.alloy, tables)? {
        Ok(alloy) => alloy,
        Err(why) => return Ok(Found::nothing(format.name(), &question.alloy, None, why)),
    };
    let density = Some(alloy.density.value);
    let row = match alloy.by_adm() {
        Ok(row) => row,
        Err(why) => return Ok(Found::nothing(format.name(), &alloy.id, density, why)),
    };
    let mut found = Found::new(format.name(), &row.id, density, row.kind.into());
    if let Err(why) = checks(&mut found, case, &AdmAlloy::from_table(row)?, format) {
        found.out_of_range("strength", &why);
    }
    Ok(found)
}

fn checks(found: &mut Found, case: &Case, alloy: &AdmAlloy, format: Format) -> Result<(), OutOfRange> {
    use BasisKind::Published;
    let tube = &case.tube;
    let weld = match case.weld_at {
        None => Weld::None,
        Some(x) => Weld::at(si(x.value.min(case.length.value - x.value)), case.length)?,
    };
    let t = tension(tube, alloy, tube.area(), weld, format)?;
    let flexure = Flexure {
        tube: *tube,
        alloy: *alloy,
        unbraced: case.held,
        cb: 1.0,
        weld,
        local: LocalMethod::Weighted,
    }
    .strength(format)?;
    let v = shear(tube, alloy, weld, format)?;
    let twist = torsion(tube, alloy, weld, format)?;
    let c = compression(tube, alloy, si(equivalent_length(case)), weld, format)?;

    found.made(Of::Tension, "yielding", t.yield_.value, "D.2", Published);
    found.made(Of::Tension, "rupture", t.rupture.value, "D.2", Published);
    found.made(Of::Compression, "buckling of the member", c.member.value, "E.2", Published);
    found.made(Of::Compression, "local buckling", c.local.value, "E.3.1", Published);
    if let Some(both) = c.interaction {
        found.made(Of::Compression, "buckling of member and walls together", both.value, "E.4", Published);
    }
    let mut bending =
        |bend, check, value, clause| found.made(Of::Bending(bend), check, value, clause, Published);
    bending(Bend::Yield, "yielding", flexure.yield_.value, "F.2");
    bending(Bend::Rupture, "rupture", flexure.rupture.value, "F.2");
    bending(Bend::Local, "local buckling", flexure.local.value, "F.3.1");
    bending(Bend::LateralTorsional, "lateral-torsional buckling", flexure.lateral_torsional.value, "F.4.2.3");
    found.made(Of::Shear, "yielding or buckling of the webs", v.buckling.value, "G.2", Published);
    found.made(Of::Shear, "rupture", v.rupture.value, "G.1", Published);
    found.made(Of::Torsion, "shear of the walls", twist.value.value, "H.2.2", Published);
    Ok(())
}

/// The length over which the weak axis would be as slender as the slenderer of: upright over the whole length,
/// sideways over the held one.
fn equivalent_length(case: &Case) -> f64 {
    let tube = &case.tube;
    let radius = |i: f64| (i / tube.a()).sqrt();
    let upright = case.length.value / radius(tube.i_x());
    let sideways = case.held.value / radius(tube.i_y());
    upright.max(sideways) * tube.r_min()
}

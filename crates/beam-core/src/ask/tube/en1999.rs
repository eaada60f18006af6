//! A tube by EN 1999-1-1:2007.

use super::found::{Bend, Found, Of};
use super::words::read_alloy;
use super::{Case, TubeError, TubeQuestion};
use crate::loads::partial_factors;
use crate::quantity::si;
use crate::strength::aluminium::en1999::{EnMetal, EnTube, PartialFactors};
use section_tables::Tables;

const BOOK: &str = "EN 1999-1-1:2007";

pub(super) fn judge(case: &Case, question: &TubeQuestion, tables: &Tables) -> Result<Found, TubeError> {
    let listed = match read_alloy(&question.alloy, tables)? {
        Ok(alloy) => alloy,
        Err(why) => return Ok(Found::nothing(BOOK, &question.alloy, None, why)),
    };
    let (alloy, row) = match listed.by_en(si(case.tube.wall), &tables.en_alloys) {
        Ok(found) => found,
        Err(why) => return Ok(Found::nothing(BOOK, &listed.id, Some(listed.density.value), why)),
    };
    let [m1, m2] = partial_factors(question.partial_factors, tables)?;
    let member = EnTube {
        tube: case.tube,
        metal: EnMetal::from_table(row)?,
        factors: PartialFactors::new(m1, m2)?,
        welded: case.weld_at.is_some(),
    };
    let mut found = Found::new(BOOK, &alloy.id, Some(row.density_kg_m3), row.kind.into());
    found.class = Some(member.class_in_bending());
    found.class_in_compression = Some(member.class_in_compression());
    tension(&mut found, &member);
    compression(&mut found, &member, case);
    bending(&mut found, &member, case);
    match member.shear() {
        Ok(v) => {
            let (check, clause) = if member.slender_webs() {
                ("buckling of the webs", "6.5.5")
            } else {
                ("yielding of the webs", "6.2.6")
            };
            found.made(Of::Shear, check, v.value.value, clause, v.basis.kind);
        }
        Err(why) => found.out_of_range("shear", &why),
    }
    let twist = member.torsion();
    found.made(Of::Torsion, "shear of the walls", twist.value.value, "6.2.7", twist.basis.kind);
    Ok(found)
}

fn tension(found: &mut Found, member: &EnTube) {
    match member.tension(member.tube.area()) {
        Ok(t) => {
            found.made(Of::Tension, "yielding", t.yield_.value, "6.2.3", t.basis.kind);
            if let Some(rupture) = t.rupture {
                found.made(Of::Tension, "rupture beside the weld", rupture.value, "6.2.3", t.basis.kind);
            }
        }
        Err(why) => found.out_of_range("tension", &why),
    }
}

fn compression(found: &mut Found, member: &EnTube, case: &Case) {
    match member.compression(case.length, case.held, case.weld_at) {
        Ok(c) => {
            let kind = c.basis.kind;
            found.made(Of::Compression, "buckling of the member", c.member.value, "6.3.1", kind);
            found.made(Of::Compression, "section", c.section.value, "6.2.4", kind);
        }
        Err(why) => found.out_of_range("compression", &why),
    }
}

fn bending(found: &mut Found, member: &EnTube, case: &Case) {
    match member.bending(case.held) {
        Ok(m) => {
            let kind = m.basis.kind;
            let mut made =
                |bend, check, value, clause| found.made(Of::Bending(bend), check, value, clause, kind);
            made(Bend::Local, "section by its class", m.local.value, "6.2.5.1, Table 6.4");
            made(Bend::Yield, "section yielded whole", m.yield_.value, "6.2.5.1");
            if let Some(rupture) = m.rupture {
                made(Bend::Rupture, "rupture beside the weld", rupture.value, "6.2.5.1");
            }
            if let Some(sideways) = m.lateral_torsional {
                made(Bend::LateralTorsional, "lateral-torsional buckling", sideways.value, "6.3.2");
            }
        }
        Err(why) => found.out_of_range("bending", &why),
    }
}

//! An alloy and temper as the rule books list it, or do not.

use crate::quantity::{Density, INCH, KSI, Length, POUND, Pressure, si};
use section_tables::{Alloy, EnAlloy, NotFound, Tables};

/// The stand-in for metal whose mark nobody has found: its weight and stiffness are those of any alloy, its strength is
/// nobody's.
const NOT_KNOWN: &str = "alloy not known";
const ADM: &str = "ADM 2020 A.3, part VI";
const EN: &str = "EN 1999-1-1:2007 3.2.2, Table 3.2";

/// An alloy and temper that at least one rule book lists.
#[derive(Debug, Clone, PartialEq)]
pub struct ListedAlloy {
    /// Alloy and temper.
    pub id: String,
    /// Other names.
    pub names: Vec<String>,
    /// Modulus of elasticity.
    pub e: Pressure,
    /// Shear modulus.
    pub g: Pressure,
    /// Density.
    pub density: Density,
    adm: Result<Box<Alloy>, String>,
}

impl From<Alloy> for ListedAlloy {
    fn from(row: Alloy) -> Self {
        Self {
            id: row.id.clone(),
            names: row.names.clone(),
            e: si(row.e_ksi * KSI),
            g: si(row.g_ksi * KSI),
            density: si(row.density_lb_in3 * POUND / INCH.powi(3)),
            adm: if row.id == NOT_KNOWN { Err(not_known(ADM)) } else { Ok(Box::new(row)) },
        }
    }
}

impl ListedAlloy {
    /// The alloy of a name. Stiffness and weight are the manual's where it lists the alloy, else those of EN 1999-1-1.
    ///
    /// # Errors
    /// [`NotFound`] where no book lists it.
    pub fn find(name: &str, tables: &Tables) -> Result<Self, NotFound> {
        let mut missing = match tables.alloy(name) {
            Ok(row) => return Ok(row.clone().into()),
            Err(missing) => missing,
        };
        match tables.en_alloy(name) {
            Ok(alloy) => Self::of_en(alloy, tables).ok_or(missing),
            Err(other) => {
                for (all, more) in [(&mut missing.near, other.near), (&mut missing.known, other.known)] {
                    let new: Vec<String> = more.into_iter().filter(|id| !all.contains(id)).collect();
                    all.extend(new);
                }
                Err(missing)
            }
        }
    }

    fn of_en(alloy: &EnAlloy, tables: &Tables) -> Option<Self> {
        let row = alloy.ranges.first()?;
        let near = nearest(&alloy.id, row.f_o_mpa * 1e6, adm_rows(tables));
        Some(Self {
            id: alloy.id.clone(),
            names: alloy.names.clone(),
            e: si(row.e_mpa * 1e6),
            g: si(row.g_mpa * 1e6),
            density: si(row.density_kg_m3),
            adm: Err(not_listed(ADM, &alloy.id, near, Some("EN 1999-1-1"))),
        })
    }

    /// Its minimum strengths by the Aluminum Design Manual.
    ///
    /// # Errors
    /// In words, with the clause, where the manual does not list it; the nearest that it lists is named, never taken.
    pub fn by_adm(&self) -> Result<&Alloy, String> {
        self.adm.as_deref().map_err(Clone::clone)
    }

    /// Its characteristic strengths by EN 1999-1-1 for a wall, among the rows of that book.
    ///
    /// # Errors
    /// As [`ListedAlloy::by_adm`], also for a wall that its table does not reach.
    pub fn by_en<'a>(
        &self,
        wall: Length,
        rows: &'a [EnAlloy],
    ) -> Result<(&'a EnAlloy, &'a section_tables::EnStrength), String> {
        if self.id == NOT_KNOWN {
            return Err(not_known(EN));
        }
        // A wall of 3 mm in metres is not exactly 3 mm again.
        let wall_mm = (wall.value * 1e12).round() / 1e9;
        let named =
            |name: &str| rows.iter().find(|row| row.id == name || row.names.iter().any(|n| n == name));
        let found = named(&self.id).or_else(|| self.names.iter().find_map(|name| named(name)));
        let Some(alloy) = found else {
            let strength = self.adm.as_ref().map_or(0.0, |row| row.f_ty_ksi * KSI);
            let near = nearest(&self.id, strength, en_rows(rows));
            return Err(not_listed(EN, &self.id, near, self.adm.is_ok().then_some("the ADM 2020")));
        };
        let row = alloy.for_wall_mm(wall_mm).ok_or_else(|| {
            let ranges: Vec<String> = alloy
                .ranges
                .iter()
                .map(|r| format!("over {} to {} mm", r.wall_over_mm, r.wall_to_mm))
                .collect();
            format!("{EN}: {} has values for walls {}, none for {wall_mm} mm", alloy.id, ranges.join(", "))
        })?;
        Ok((alloy, row))
    }

    /// Why there is no number for a name that gives an alloy without a temper that is held; `None` where the name is
    /// none of an alloy.
    pub fn no_temper(name: &str, tables: &Tables) -> Option<String> {
        let mut held: Vec<&str> = Vec::new();
        let all = tables.alloys.iter().map(|a| &a.id).chain(tables.en_alloys.iter().map(|a| &a.id));
        for id in all.filter(|id| digits(id).is_some() && digits(id) == digits(name)) {
            if !held.contains(&id.as_str()) {
                held.push(id);
            }
        }
        if held.is_empty() {
            return None;
        }
        Some(format!(
            "{ADM}; {EN}: strengths are listed by alloy and temper, and \"{name}\" names no temper that is held; held: \
             {}. Find the temper: another one can be worth a fraction",
            held.join(", ")
        ))
    }
}

fn adm_rows(tables: &Tables) -> impl Iterator<Item = (&str, f64)> + Clone {
    tables.alloys.iter().map(|row| (row.id.as_str(), row.f_ty_ksi * KSI))
}

fn en_rows(rows: &[EnAlloy]) -> impl Iterator<Item = (&str, f64)> + Clone {
    rows.iter().flat_map(|row| row.ranges.first().map(|range| (row.id.as_str(), range.f_o_mpa * 1e6)))
}

/// The listed alloy most like one: of the same number the one nearest in strength, else of its series (its first digit)
/// the strongest that is no stronger.
fn nearest<'a>(
    id: &str,
    strength: f64,
    listed: impl Iterator<Item = (&'a str, f64)> + Clone,
) -> Option<&'a str> {
    let off = |(_, of): &(&str, f64)| (of - strength).abs();
    let same = |of: usize| {
        let number = digits(id).map(|number| &number[..of]);
        listed.clone().filter(move |(other, _)| number.is_some() && digits(other).map(|d| &d[..of]) == number)
    };
    let weaker = || same(1).filter(|(_, of)| *of <= strength).min_by(|a, b| off(a).total_cmp(&off(b)));
    same(4).min_by(|a, b| off(a).total_cmp(&off(b))).or_else(weaker).map(|(other, _)| other)
}

/// The four digits of an alloy.
fn digits(name: &str) -> Option<&str> {
    let four = |at: usize| name.get(at..at + 4).filter(|part| part.bytes().all(|b| b.is_ascii_digit()));
    (0..name.len()).find_map(four)
}

fn not_listed(clause: &str, id: &str, near: Option<&str>, other_book: Option<&str>) -> String {
    let near = near.map_or_else(String::new, |near| {
        format!("; the nearest that is listed is {near}, which is other metal and no stand-in")
    });
    let book = other_book.map_or_else(String::new, |book| format!("; {book} lists it"));
    format!("{clause}: no value is held for {id}{near}{book}")
}

fn not_known(clause: &str) -> String {
    format!(
        "{clause}: strengths are listed by alloy and temper, and neither is known. Find its mark or its papers; 6063-T5 \
         is the weakest that is listed, but tube that is not structural can be weaker still"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn find(name: &str) -> ListedAlloy {
        ListedAlloy::find(name, Tables::shipped()).unwrap()
    }

    /// Alloys of one book only: no number by the other, its clause, the nearest temper listed and the book that has it.
    #[test]
    fn what_a_book_does_not_list_is_said_with_its_nearest() {
        for (name, near) in [
            ("6063-T66", "6063-T6,"),
            ("6060-T6", "6063-T5,"),
            ("6060-T66", "6063-T5,"),
            ("6005A-T6", "6005A-T61,"),
        ] {
            let why = find(name).by_adm().unwrap_err();
            assert!(why.starts_with("ADM 2020 A.3") && why.contains(near), "{name}: {why}");
            assert!(why.ends_with("EN 1999-1-1 lists it"), "{why}");
        }
        let rows = &Tables::shipped().en_alloys;
        for (name, near) in [("6063-T52", "6063-T5,"), ("6005A-T61", "6005A-T6,")] {
            let why = find(name).by_en(si(3e-3), rows).unwrap_err();
            assert!(
                why.contains("Table 3.2") && why.contains(near) && why.contains("ADM 2020 lists it"),
                "{why}"
            );
        }
    }

    /// Of metal that nobody knows the weight is known, and no strength.
    #[test]
    fn metal_that_is_not_known_has_no_strength() {
        let metal = find("alloy not known");
        assert!(metal.by_adm().unwrap_err().contains("neither is known"));
        assert!(
            metal.by_en(si(2e-3), &Tables::shipped().en_alloys).unwrap_err().contains("neither is known")
        );
        assert!(metal.density.value > 2600.0 && metal.e.value > 69e9);
    }

    /// A bare number could be soft metal; a name that is none of an alloy is a mistake.
    #[test]
    fn a_number_without_a_temper_is_no_alloy() {
        let tables = Tables::shipped();
        for name in ["6061", "6063", "6061-T4", "AA 6082"] {
            assert!(ListedAlloy::find(name, tables).is_err(), "{name}");
            let why = ListedAlloy::no_temper(name, tables).unwrap();
            assert!(why.contains("no temper") && why.contains(digits(name).unwrap()), "{why}");
        }
        assert_eq!(ListedAlloy::no_temper("titanium", tables), None);
        let missing = ListedAlloy::find("6063-T65", tables).unwrap_err();
        assert!(missing.near.contains(&"6063-T66".to_owned()), "{missing}");
    }

    /// Where both list it, each answers for its own; a wall that the European table does not reach has none.
    #[test]
    fn both_books() {
        let rows = &Tables::shipped().en_alloys;
        let metal = find("6061-T6");
        assert!((metal.by_adm().unwrap().f_ty_ksi - 35.0).abs() < 1e-12);
        assert!((metal.by_en(si(3e-3), rows).unwrap().1.f_o_mpa - 240.0).abs() < 1e-12);
        assert!(metal.by_en(si(21e-3), rows).unwrap_err().contains("none for 21 mm"));
    }
}

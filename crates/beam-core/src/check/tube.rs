//! What a tube may carry by the rule book chosen, and how much of it forces use up.
//!
//! Axial force is there only in a tube that is glued, and what it pulls the skins push back within the same depth:
//! panel and tube together carry no thrust, so it does not add to moments as a column's does (walls that give thrust
//! are told as a gap). The glued face holds the tube all along.

use crate::loads::{Aluminium, CaseKind, Factors};
use crate::model::{IdealBrace, IdealRoof, MemberKind};
use crate::quantity::{Force, si};
use crate::response::BraceForces;
use crate::strength::aluminium::RectangularTube;
use crate::strength::aluminium::adm::{
    AdmAlloy, DetailCategory, Flexure, Format, LocalMethod, Weld, axial_and_bending, compression,
    end_crippling, flat_element, shear, tension, torsion,
};
use crate::strength::aluminium::en1999::{
    EnMetal, EnStrengths, EnTube, PartialFactors, member_used, section_used,
};
use crate::strength::{Basis, BasisKind, Limit, OutOfRange};
use crate::survey::{AluminiumRules, ListedAlloy};

/// Held length of a tube whose whole length is glued to a skin, m: the rule wants a length above zero.
const HELD: f64 = 0.01;
/// A place belongs to a weld or a screw hole within this of it, m: the inch that welding softens on either side, and
/// as far as the model's places may lie apart.
pub(super) const REACH: f64 = 0.1;
/// Hours of a year.
const YEAR: f64 = 8766.0;

/// Resistances of one section of a tube, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Resistance {
    pub bending: f64,
    pub shear: f64,
    pub torsion: f64,
    pub tension: f64,
    pub compression: f64,
}

/// Stress ranges that a tube's years on the road allow, Pa, and what they act on.
#[derive(Debug, Clone)]
pub(crate) struct FatigueLimits {
    /// Plain metal, and metal at holes or welds.
    pub plain: f64,
    pub notched: f64,
    pub basis: [Basis; 2],
    /// Area and section modulus, whole and less the holes of one screw through both walls.
    pub whole: [f64; 2],
    pub net: [f64; 2],
}

/// What one tube may carry.
#[derive(Debug, Clone)]
pub(crate) struct TubeStrength {
    rules: AluminiumRules,
    /// Away from welds near the ends.
    pub sound: Resistance,
    /// Beside welds near the ends.
    pub welded: Resistance,
    /// Places of welds, m.
    pub welds: Vec<f64>,
    /// Both webs over an end's bearing; `None` without a seat.
    pub crippling: Option<Limit<Force>>,
    pub fatigue: FatigueLimits,
    /// Of bending with axial force, and of shear with torsion.
    pub basis: Basis,
    pub shear_basis: Basis,
}

/// Clauses that resistances rest on, and how well the strengths of the metal are founded.
#[derive(Debug, Clone)]
pub(crate) struct Clauses {
    pub bending: String,
    pub shear: String,
    pub metal: BasisKind,
}

impl Clauses {
    /// The bases of bending with axial force and of shear with torsion, for a nominal wall. What the first adds up by is
    /// from memory in either book.
    fn bases(&self, rules: AluminiumRules) -> [Basis; 2] {
        let of = |clause: &str, kind: BasisKind| Basis {
            source: format!("{clause}, wall less 10 % (practice)").into(),
            kind: kind.max(self.metal),
        };
        [of(&self.bending, BasisKind::Memory), of(&self.shear, kind_of(rules))]
    }
}

/// Shares used at a place: by axial force with bending, and by shear with what comes with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Used {
    pub bending: f64,
    pub shear: f64,
}

/// Strength of every brace, in the roof's order; in words, why none can be given.
pub(crate) fn tube_strengths(roof: &IdealRoof, factors: &Factors) -> Vec<Result<TubeStrength, String>> {
    let years = roof.creep_hours / YEAR;
    roof.braces
        .iter()
        .map(|brace| match &brace.kind {
            MemberKind::AluminiumTube { alloy, wall, corner } => {
                strength(brace, alloy, [*wall, *corner], factors, years)
            }
            MemberKind::ResponseOnly { why } => Err(why.clone()),
        })
        .collect()
}

/// Its nominal wall is taken less the tolerance; glued to a skin it is held all along.
fn strength(
    brace: &IdealBrace,
    alloy: &ListedAlloy,
    [wall, corner]: [f64; 2],
    factors: &Factors,
    years: f64,
) -> Result<TubeStrength, String> {
    let words = |e: OutOfRange| e.to_string();
    let tube = RectangularTube::new(si(brace.width), si(brace.depth), si(wall * factors.wall_tolerance))
        .and_then(|t| t.with_corner(si(corner)))
        .map_err(words)?;
    let length = brace.x1 - brace.x0;
    let mut places = Vec::new();
    for x in &brace.welds {
        let from_end = (x - brace.x0).min(brace.x1 - x);
        places.push((Weld::at(si(from_end), si(length)).map_err(words)?, from_end));
    }
    // A weld within softens the whole member; one near an end only what lies beside it.
    let within = places.iter().find(|(w, _)| *w == Weld::Within).copied();
    let near = places.first().copied();
    let rules = factors.aluminium.rules;
    let held = if brace.bonded { HELD } else { length };
    let of = |weld: Option<(Weld, f64)>| match rules {
        AluminiumRules::En1999 => {
            by_en(&tube, alloy, [wall, held, length], weld.map(|w| w.1), brace.bonded, &factors.aluminium)
        }
        AluminiumRules::Adm2020Asd => by_adm(&tube, alloy, held, weld.map(|w| w.0), Format::Asd),
        AluminiumRules::Adm2020Lrfd => by_adm(&tube, alloy, held, weld.map(|w| w.0), Format::Lrfd),
    };
    let (sound, clauses) = of(within)?;
    let (welded, _) = of(within.or(near))?;
    let crippling = || -> Result<Option<Limit<Force>>, String> {
        let Some(seat) = &brace.seat else { return Ok(None) };
        let limit = if rules == AluminiumRules::En1999 {
            en_tube(&tube, alloy, wall, !places.is_empty(), &factors.aluminium)?
                .0
                .end_crippling(seat.bearing_length)
        } else {
            let weld = if places.is_empty() { Weld::None } else { Weld::NearEnds };
            let metal = AdmAlloy::from_table(alloy.by_adm()?).map_err(words)?;
            end_crippling(&tube, &metal, seat.bearing_length, weld, format_of(rules))
        };
        limit.map(|limit| Some(graded(limit, clauses.metal))).map_err(words)
    };
    let [basis, shear_basis] = clauses.bases(rules);
    Ok(TubeStrength {
        rules,
        sound,
        welded,
        welds: brace.welds.clone(),
        crippling: crippling()?,
        fatigue: fatigue_limits(brace, &tube, factors.road_swings * years).map_err(words)?,
        basis,
        shear_basis,
    })
}

/// A limit no better founded than the metal's strengths.
fn graded(mut limit: Limit<Force>, metal: BasisKind) -> Limit<Force> {
    limit.basis.kind = limit.basis.kind.max(metal);
    limit
}

/// The format of the manual that a rule book stands for.
fn format_of(rules: AluminiumRules) -> Format {
    if rules == AluminiumRules::Adm2020Lrfd { Format::Lrfd } else { Format::Asd }
}

fn kind_of(rules: AluminiumRules) -> BasisKind {
    if rules == AluminiumRules::En1999 { BasisKind::Memory } else { BasisKind::Published }
}

/// What a straight member of a kind and of a width and depth may carry, held every so far.
///
/// # Errors
/// In words, why no number can be given.
pub(super) fn section_strength(
    kind: &MemberKind,
    [width, depth]: [f64; 2],
    held: f64,
    factors: &Factors,
) -> Result<(Resistance, [Basis; 2]), String> {
    let (alloy, wall, corner) = match kind {
        MemberKind::AluminiumTube { alloy, wall, corner } => (alloy, *wall, *corner),
        MemberKind::ResponseOnly { why } => return Err(why.clone()),
    };
    let words = |e: OutOfRange| e.to_string();
    let tube = RectangularTube::new(si(width), si(depth), si(wall * factors.wall_tolerance))
        .and_then(|t| t.with_corner(si(corner)))
        .map_err(words)?;
    let (resistance, clauses) = resistance(&tube, alloy, [wall, held], &factors.aluminium)?;
    Ok((resistance, clauses.bases(factors.aluminium.rules)))
}

/// What a tube without welds may carry, held every so far in both directions, and by which clauses; `wall` is the
/// nominal one, which picks the row of its strengths.
///
/// # Errors
/// In words, why no number can be given.
pub(crate) fn resistance(
    tube: &RectangularTube,
    alloy: &ListedAlloy,
    [wall, held]: [f64; 2],
    aluminium: &Aluminium,
) -> Result<(Resistance, Clauses), String> {
    match aluminium.rules {
        AluminiumRules::En1999 => by_en(tube, alloy, [wall, held, held], None, false, aluminium),
        AluminiumRules::Adm2020Asd | AluminiumRules::Adm2020Lrfd => {
            by_adm(tube, alloy, held, None, format_of(aluminium.rules))
        }
    }
}

fn by_adm(
    tube: &RectangularTube,
    alloy: &ListedAlloy,
    held: f64,
    weld: Option<Weld>,
    format: Format,
) -> Result<(Resistance, Clauses), String> {
    let row = alloy.by_adm()?;
    adm_resistance(tube, row, held, weld.unwrap_or(Weld::None), format).map_err(|e| e.to_string())
}

fn adm_resistance(
    tube: &RectangularTube,
    row: &section_tables::Alloy,
    held: f64,
    weld: Weld,
    format: Format,
) -> Result<(Resistance, Clauses), OutOfRange> {
    let metal = AdmAlloy::from_table(row)?;
    let flexure = Flexure {
        tube: *tube,
        alloy: metal,
        unbraced: si(held),
        cb: 1.0,
        weld,
        local: LocalMethod::Weighted,
    }
    .strength(format)?;
    let resistance = Resistance {
        bending: flexure.least.value,
        shear: shear(tube, &metal, weld, format)?.least.value,
        torsion: torsion(tube, &metal, weld, format)?.value.value,
        tension: tension(tube, &metal, tube.area(), weld, format)?.least.value,
        compression: compression(tube, &metal, si(held), weld, format)?.least.value,
    };
    let book = format.name();
    let clauses = Clauses {
        bending: format!("{book}, F ({}) and H.1 (from memory)", flexure.governing.name()),
        shear: format!("{book}, G and H.2.2"),
        metal: row.kind.into(),
    };
    Ok((resistance, clauses))
}

/// The tube as EN 1999-1-1 sees it, and how well its strengths are founded; `wall` is the nominal one.
fn en_tube(
    tube: &RectangularTube,
    alloy: &ListedAlloy,
    wall: f64,
    welded: bool,
    aluminium: &Aluminium,
) -> Result<(EnTube, BasisKind), String> {
    let (_, row) = alloy.by_en(si(wall), &aluminium.en_alloys)?;
    let [m1, m2] = aluminium.gamma_m;
    let made = || -> Result<EnTube, OutOfRange> {
        let listed = EnMetal::from_table(row)?;
        // The row of the nominal wall holds for the same tube at its thinnest.
        let metal = EnMetal::new(EnStrengths { wall_over: si(0.0), ..*listed.strengths() })?;
        Ok(EnTube { tube: *tube, metal, factors: PartialFactors::new(m1, m2)?, welded })
    };
    Ok((made().map_err(|e| e.to_string())?, row.kind.into()))
}

fn by_en(
    tube: &RectangularTube,
    alloy: &ListedAlloy,
    [wall, held, length]: [f64; 3],
    weld: Option<f64>,
    bonded: bool,
    aluminium: &Aluminium,
) -> Result<(Resistance, Clauses), String> {
    let (member, metal) = en_tube(tube, alloy, wall, weld.is_some(), aluminium)?;
    let all = || -> Result<Resistance, OutOfRange> {
        let buckling = if bonded { held } else { length };
        Ok(Resistance {
            bending: member.bending(si(held))?.least.value,
            shear: member.shear()?.value.value,
            torsion: member.torsion().value.value,
            tension: member.tension(tube.area())?.least.value,
            compression: {
                let c = member.compression(si(buckling), si(held), weld.map(|x| si(x.min(buckling))))?;
                c.member.value.min(c.section.value)
            },
        })
    };
    let clauses = Clauses {
        bending: "EN 1999-1-1:2007, 6.2.5, 6.2.8, 6.2.9, 6.3.3 (from memory)".to_owned(),
        shear: "EN 1999-1-1:2007, 6.2.6, 6.2.7, 6.5.5 (from memory)".to_owned(),
        metal,
    };
    Ok((all().map_err(|e| e.to_string())?, clauses))
}

fn fatigue_limits(
    brace: &IdealBrace,
    tube: &RectangularTube,
    swings: f64,
) -> Result<FatigueLimits, OutOfRange> {
    let (plain, notched) =
        (DetailCategory::A.allowed_range(swings)?, DetailCategory::E.allowed_range(swings)?);
    let (area, second) = (tube.area().value, tube.second_moment().value);
    let half = tube.depth / 2.0;
    let screwed = brace.seat.as_ref().filter(|s| s.screws.is_some_and(|n| n > 0));
    let hole = screwed.and_then(|s| s.screw).map_or(0.0, |d| d.value) * tube.wall;
    let arm = half - tube.wall / 2.0;
    let net = [area - 2.0 * hole, (second - 2.0 * hole * arm * arm) / half];
    let told = |basis: Basis, what: &str| {
        Basis::practice(format!("{}, {what}; {swings:.0} swings (practice)", basis.source))
    };
    Ok(FatigueLimits {
        plain: plain.value.value,
        notched: notched.value.value,
        basis: [
            told(plain.basis, "category A, plain tube"),
            told(notched.basis, "category E, screw holes and welds whose kind is not known"),
        ],
        whole: [area, second / half],
        net: net.map(|v| v.max(f64::MIN_POSITIVE)),
    })
}

impl TubeStrength {
    /// Whether a place lies beside a weld.
    pub(super) fn at_weld(&self, x: f64) -> bool {
        self.welds.iter().any(|w| (w - x).abs() <= REACH)
    }

    /// What holds at a place.
    pub(super) fn at(&self, x: f64) -> &Resistance {
        if self.at_weld(x) { &self.welded } else { &self.sound }
    }

    /// Shares that forces use at a place.
    ///
    /// # Errors
    /// A force that is no number.
    pub(super) fn used(&self, f: &BraceForces, x: f64) -> Result<Used, OutOfRange> {
        self.at(x).used(self.rules, f)
    }
}

impl Resistance {
    /// Shares that forces use: H.1 and H.3.1 of the ADM; 6.2.8, 6.2.9.2 and 6.3.3.1 of EN 1999-1-1.
    ///
    /// # Errors
    /// A force that is no number.
    pub(crate) fn used(&self, rules: AluminiumRules, f: &BraceForces) -> Result<Used, OutOfRange> {
        let r = self;
        let along = if f.axial < 0.0 { r.compression } else { r.tension };
        let axial = (si(f.axial), si(along));
        let none = (si(0.0), si(1.0));
        let shear = f.shear.abs() / r.shear + f.torsion.abs() / r.torsion;
        match rules {
            AluminiumRules::Adm2020Asd | AluminiumRules::Adm2020Lrfd => {
                let linear = axial_and_bending(axial, (si(f.moment), si(r.bending)), none)?.value.value;
                let pressed = if f.axial < 0.0 { -f.axial / r.compression } else { 0.0 };
                Ok(Used { bending: linear.max(wall_used(pressed, f.moment / r.bending, shear)?), shear })
            }
            AluminiumRules::En1999 => {
                // 6.2.8: beyond half its resistance shear takes proof strength away from bending.
                let left = if shear > 0.5 { 1.0 - (2.0 * shear.min(1.0) - 1.0).powi(2) } else { 1.0 };
                let bent = (si(f.moment), si(r.bending * left.max(1e-6)));
                let section = section_used(axial, bent, none, si(1.0))?.value.value;
                let member =
                    if f.axial < 0.0 { member_used(axial, bent, none, si(1.0))?.value.value } else { 0.0 };
                Ok(Used { bending: section.max(member), shear })
            }
        }
    }
}

/// H.3.1 for a wall in compression, bending and shear, shares of forces standing for those of stresses. Its squares do
/// not grow as the load does: told is the share of the load at which the rule reaches one.
fn wall_used(pressed: f64, bent: f64, sheared: f64) -> Result<f64, OutOfRange> {
    let one = |share: f64| (si(share), si(1.0));
    let squares = flat_element(one(0.0), one(bent), one(sheared))?.value.value;
    Ok((pressed + (pressed * pressed + 4.0 * squares).sqrt()) / 2.0)
}

/// Forces with the factors of the rule book: what stays adding, and what stays relieving.
pub(super) fn factored(
    aluminium: &Aluminium,
    kind: CaseKind,
    years: &BraceForces,
    top: &BraceForces,
    dynamic: f64,
) -> [BraceForces; 2] {
    factors(aluminium, kind, dynamic).map(|[lasting, passing]| BraceForces {
        axial: lasting * years.axial + passing * top.axial,
        moment: lasting * years.moment + passing * top.moment,
        shear: lasting * years.shear + passing * top.shear,
        flow: lasting * years.flow + passing * top.flow,
        torsion: lasting * years.torsion + passing * top.torsion,
    })
}

/// Factors on what stays and on what comes on top, both ways. On the first day what stays is what is on top.
pub(super) fn factors(aluminium: &Aluminium, kind: CaseKind, dynamic: f64) -> [[f64; 2]; 2] {
    let top = if kind == CaseKind::FirstDay { aluminium.permanent } else { aluminium.variable };
    [[aluminium.permanent, top * dynamic], [aluminium.relieving, top * dynamic]]
}

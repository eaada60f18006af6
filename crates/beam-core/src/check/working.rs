//! A check worked through as by hand: what acts, each step with its formula and the numbers put in, and the ratio.
//!
//! The steps are a second way to the ratio of the table: from characteristic strengths and factors, not from the limits
//! that the checks keep. Where the two do not agree to [`AGREE`] nothing is worked through.

mod heel;

use serde::Serialize;

use super::context::{CaseState, Context};
use super::{At, Bracing, Check, Finding, Finite, Materials, NotFinite, TubeStrength};
use crate::model::{LayerState, Time};
use crate::quantity::{si, significant};
use crate::response::{BraceForces, SkinStress};
use crate::strength::wrinkling::hoff_mautner;
use section_tables::Property;

/// How near the steps come to the ratio of the table, as a share.
pub(crate) const AGREE: f64 = 1e-7;

/// One cause of a demand.
#[derive(Debug, Clone, Serialize)]
pub struct Cause {
    /// What presses: "own weight", "unit", "person", "road on the unit".
    pub what: String,
    /// "for years" or "on top".
    pub acts: String,
    /// Its part of the demand, along it: the parts of one kind add up to that kind's demand.
    pub part: Finite,
    /// SI symbol.
    pub si: String,
}

/// One step.
#[derive(Debug, Clone, Serialize)]
pub struct Step {
    /// Sign it goes by in the formulas.
    pub sign: String,
    /// What it is.
    pub what: String,
    /// Its formula; empty where it comes out of the solved roof.
    pub formula: String,
    /// The same with its numbers put in, SI.
    pub numbers: String,
    /// What comes out.
    pub value: Finite,
    /// SI symbol; "-" for a bare number.
    pub si: String,
    /// Where the formula or number comes from.
    pub source: String,
}

/// A check worked through.
#[derive(Debug, Clone, Serialize)]
pub struct Working {
    /// Check.
    pub check: String,
    /// Part.
    pub part: String,
    /// Load.
    pub load: String,
    /// With or without the new braces.
    pub bracing: Bracing,
    /// Material bracket.
    pub materials: Materials,
    /// Place.
    pub at: At,
    /// What the demand is made of; empty where one load alone acts.
    pub causes: Vec<Cause>,
    /// Steps; the last is the ratio of the table.
    pub steps: Vec<Step>,
}

/// What one cause does at a place.
pub(crate) struct Share<T> {
    pub what: String,
    /// For years, or on top.
    pub years: bool,
    pub value: T,
}

/// Steps so far, and the ratio that they come to without model factor and grid.
pub(crate) struct Worked {
    pub causes: Vec<Cause>,
    pub steps: Vec<Step>,
    pub ratio: f64,
}

/// A number in a formula.
pub(crate) fn n(value: f64) -> String {
    significant(value, 4)
}

/// A stress in a formula, kPa or MPa.
fn pa(value: f64) -> String {
    if value.abs() < 1e6 { format!("{} kPa", n(value / 1e3)) } else { format!("{} MPa", n(value / 1e6)) }
}

pub(crate) fn step(
    (sign, what): (&str, &str),
    formula: &str,
    numbers: String,
    (value, si): (f64, &str),
    source: &str,
) -> Result<Step, NotFinite> {
    Ok(Step {
        sign: sign.to_owned(),
        what: what.to_owned(),
        formula: formula.to_owned(),
        numbers,
        value: Finite::new(value, what)?,
        si: si.to_owned(),
        source: source.to_owned(),
    })
}

pub(crate) fn cause<T>(share: &Share<T>, part: f64, si: &str) -> Result<Cause, NotFinite> {
    Ok(Cause {
        what: share.what.clone(),
        acts: if share.years { "for years" } else { "on top" }.to_owned(),
        part: Finite::new(part, &share.what)?,
        si: si.to_owned(),
    })
}

const SOLVED: &str = "the two-way roof, solved";
const FORMAT: &str = "1.5 with loads unfactored; gamma_M EN 14509 or EN 1995-1-1, from memory";

/// Core shear at one place.
pub(crate) fn core_shear(
    context: &Context<'_>,
    layer: usize,
    state: &LayerState,
    case: &CaseState<'_>,
    shares: &[Share<[f64; 2]>],
) -> Result<Option<Worked>, NotFinite> {
    let Some(known) = &context.strengths[layer].shear_core else { return Ok(None) };
    let total = |years: bool| {
        let of = shares.iter().filter(|s| s.years == years);
        of.fold([0.0, 0.0], |t, s| [t[0] + s.value[0], t[1] + s.value[1]])
    };
    let size = |t: [f64; 2]| t[0].hypot(t[1]);
    let (years, top) = (total(true), total(false));
    let mut causes = Vec::new();
    for s in shares {
        let t = if s.years { years } else { top };
        let along = if size(t) > 0.0 { (s.value[0] * t[0] + s.value[1] * t[1]) / size(t) } else { 0.0 };
        causes.push(cause(s, if s.years { along } else { case.dynamic * along }, "Pa")?);
    }
    let factors = context.factors;
    let heat = context.heat_strength(layer, case.hot);
    let f = known.value * state.strength * heat / (factors.panel * factors.gamma_core_shear);
    let k = context.ratio(layer, Property::LongTermShear, factors.long_term_core_shear);
    let (t_years, t_top) = (size(years), case.dynamic * size(top));
    let ratio = t_years / (k * f) + t_top / f;
    let two = |t: [f64; 2]| format!("sqrt({}^2 + {}^2)", pa(t[0].abs()), pa(t[1].abs()));
    let steps = vec![
        step(("t_years", "shear that lasts"), "sqrt(t_xz^2 + t_yz^2)", two(years), (t_years, "Pa"), SOLVED)?,
        step(
            ("t_top", "shear that comes on top"),
            "walking factor x sqrt(t_xz^2 + t_yz^2)",
            format!("{} x {}", n(case.dynamic), two(top)),
            (t_top, "Pa"),
            SOLVED,
        )?,
        step(
            ("f", "limit under a passing load"),
            "f_vk x left x heat/(1.5 x gamma_M)",
            format!(
                "{} x {} x {}/({} x {})",
                pa(known.value),
                n(state.strength),
                n(heat),
                n(factors.panel),
                n(factors.gamma_core_shear)
            ),
            (f, "Pa"),
            &format!("{}; {FORMAT}", known.source),
        )?,
        step(
            ("f_years", "limit under a lasting load"),
            "k x f",
            format!("{} x {}", n(k), pa(f)),
            (k * f, "Pa"),
            "lasting share, EN 14509, from memory",
        )?,
        step(
            ("u", "share of the limits used"),
            "t_years/f_years + t_top/f",
            format!("{}/{} + {}/{}", pa(t_years), pa(k * f), pa(t_top), pa(f)),
            (ratio, "-"),
            "",
        )?,
    ];
    Ok(Some(Worked { causes, steps, ratio }))
}

/// A lasting and a passing stress against their limits, as the checks share them.
fn used(years: f64, top: f64, f: [f64; 2]) -> f64 {
    if years * top < 0.0 { (years + top).abs() / f[1] } else { years.abs() / f[0] + top.abs() / f[1] }
}

/// A skin at one place, in the direction that uses more.
pub(crate) fn skin(
    context: &Context<'_>,
    layer: usize,
    state: &LayerState,
    case: &CaseState<'_>,
    shares: &[Share<SkinStress>],
) -> Result<Option<Worked>, NotFinite> {
    let strengths = &context.strengths[layer];
    let duration = context.skin_duration(layer, case.lasting, case.hot);
    let (gamma, gamma_source) = context.gamma_skin(layer);
    let panel = context.factors.panel;
    let total = |years: bool| {
        let mut t = SkinStress::default();
        let k = if years { 1.0 } else { case.dynamic };
        for s in shares.iter().filter(|s| s.years == years) {
            t.add(&s.value, k);
        }
        t
    };
    let (years, top) = (total(true), total(false));
    let limit = |known: f64| {
        let r = known * state.strength / (panel * gamma);
        [r * duration.years, r * duration.top]
    };
    let Some(in_plane) = &strengths.shear_panel else { return Ok(None) };
    let f_v = limit(in_plane.value);
    let shear = used(years.middle[2], top.middle[2], f_v);
    let mut best: Option<Worked> = None;
    for (d, way) in ["across", "along"].into_iter().enumerate() {
        let pulled = years.middle[d] + top.middle[d] > 0.0;
        let direct = if pulled { &strengths.tension[d] } else { &strengths.compression[d] };
        let (Some(direct), Some(bent)) = (direct, &strengths.bending[d]) else { return Ok(None) };
        let (f, f_m) = (limit(direct.value), limit(bent.value));
        let (as_a_whole, by_itself) =
            (used(years.middle[d], top.middle[d], f), used(years.own(d), top.own(d), f_m));
        let ratio = (as_a_whole + by_itself).hypot(shear);
        if best.as_ref().is_some_and(|b| b.ratio > ratio) {
            continue;
        }
        let mut causes = Vec::new();
        for s in shares {
            let t = if s.years { &years } else { &top };
            let k = if s.years { 1.0 } else { case.dynamic };
            let part = k * (s.value.middle[d] * t.middle[d].signum() + s.value.own(d) * t.own(d).signum());
            causes.push(cause(s, part, "Pa")?);
        }
        let what = if pulled { "tension" } else { "compression" };
        let put = |y: f64, t: f64, f: [f64; 2]| {
            if y * t < 0.0 {
                format!("|{} + {}|/{}", pa(y), pa(t), pa(f[1]))
            } else {
                format!("{}/{} + {}/{}", pa(y.abs()), pa(f[0]), pa(t.abs()), pa(f[1]))
            }
        };
        let strength = |known: f64, k: f64| {
            format!("{} x {} x {}/({} x {})", n(k), pa(known), n(state.strength), n(panel), n(gamma))
        };
        let steps = vec![
            step(
                ("f", &format!("limit in {what}, {way}, under a passing load")),
                "k_mod x f_k x left/(1.5 x gamma_M)",
                strength(direct.value, duration.top),
                (f[1], "Pa"),
                &format!("{}; {gamma_source}", direct.source),
            )?,
            step(
                ("f_years", "the same under a lasting load"),
                "k_mod,permanent x f_k x left/(1.5 x gamma_M)",
                strength(direct.value, duration.years),
                (f[0], "Pa"),
                "k_mod EN 1995-1-1, from memory",
            )?,
            step(
                ("f_m", "limit in bending of the skin by itself"),
                "k_mod x f_mk x left/(1.5 x gamma_M)",
                strength(bent.value, duration.top),
                (f_m[1], "Pa"),
                &bent.source,
            )?,
            step(
                ("u_s", &format!("used in {what} of the skin as a whole")),
                "s_years/f_years + s_top/f",
                put(years.middle[d], top.middle[d], f),
                (as_a_whole, "-"),
                SOLVED,
            )?,
            step(
                ("u_b", "used in bending of the skin by itself"),
                "s_b,years/f_m,years + s_b,top/f_m",
                put(years.own(d), top.own(d), f_m),
                (by_itself, "-"),
                SOLVED,
            )?,
            step(
                ("u_v", "used in shear in its plane"),
                "t_years/f_v,years + t_top/f_v",
                put(years.middle[2], top.middle[2], f_v),
                (shear, "-"),
                &in_plane.source,
            )?,
            step(
                ("u", "share of the limits used"),
                "sqrt((u_s + u_b)^2 + u_v^2)",
                format!("sqrt(({} + {})^2 + {}^2)", n(as_a_whole), n(by_itself), n(shear)),
                (ratio, "-"),
                "",
            )?,
        ];
        best = Some(Worked { causes, steps, ratio });
    }
    Ok(best)
}

/// Wrinkling of a skin at one place.
pub(crate) fn wrinkling(
    context: &Context<'_>,
    layer: usize,
    states: &[LayerState],
    case: &CaseState<'_>,
    shares: &[Share<SkinStress>],
) -> Result<Option<Worked>, NotFinite> {
    let Some(core) = context.core_beside(layer) else { return Ok(None) };
    let time = if case.hot { Time::Hot } else { Time::Fresh };
    let (f, c) = (context.moduli(layer, time), context.moduli(core, time));
    let (skin, foam) = (&states[layer], &states[core]);
    let stress = |d: usize| -> f64 {
        shares.iter().map(|s| if s.years { 1.0 } else { case.dynamic } * s.value.middle[d]).sum()
    };
    let over = context.factors.panel * context.factors.gamma_wrinkling;
    let mut found = Vec::new();
    for (d, e) in [f.e_x_flexural, f.e_y_flexural].into_iter().enumerate() {
        let (e, ec, gc) = (e * skin.stiffness, c.e_x * foam.stiffness, c.g_xz * foam.stiffness);
        let Ok(limit) = hoff_mautner(si(e), si(ec), si(gc)) else { return Ok(None) };
        let pressed = (-stress(d)).max(0.0);
        found.push((pressed * over / limit.value.value, pressed, limit.value.value, [e, ec, gc], d));
    }
    found.sort_by(|a, b| b.0.total_cmp(&a.0));
    let (more, pressed, limit, [e, ec, gc], d) = found[0];
    let less = found[1].0.min(1.0);
    let ratio = more + less.powi(3);
    let mut causes = Vec::new();
    for s in shares {
        let k = if s.years { 1.0 } else { case.dynamic };
        causes.push(cause(s, -k * s.value.middle[d], "Pa")?);
    }
    let way = if d == 0 { "across" } else { "along" };
    let steps = vec![
        step(
            ("s_w", &format!("wrinkling stress {way}")),
            "0.5 (Ef Ec Gc)^(1/3)",
            format!("0.5 ({} x {} x {})^(1/3)", pa(e), pa(ec), pa(gc)),
            (limit, "Pa"),
            "Hoff and Mautner 1945",
        )?,
        step(
            ("r_max", "used in the direction that is pressed more"),
            "s x 1.5 x gamma_M/s_w",
            format!("{} x {}/{}", pa(pressed), n(over), pa(limit)),
            (more, "-"),
            "gamma_M 1.25, EN 14509, from memory",
        )?,
        step(("r_min", "used in the other"), "likewise, no more than 1", n(less), (less, "-"), "")?,
        step(
            ("u", "share of the limits used"),
            "r_max + r_min^3",
            format!("{} + {}^3", n(more), n(less)),
            (ratio, "-"),
            "EN 14509 in form, from memory",
        )?,
    ];
    Ok(Some(Worked { causes, steps, ratio }))
}

/// Sag at one place.
pub(crate) fn sag(
    limit: f64,
    lasting: bool,
    shares: &[Share<f64>],
    source: &str,
) -> Result<Worked, NotFinite> {
    let counted = || shares.iter().filter(|s| s.years == lasting);
    let w: f64 = counted().map(|s| s.value).sum();
    let causes = counted().map(|s| cause(s, s.value, "m")).collect::<Result<Vec<_>, _>>()?;
    let parts: Vec<String> = counted().map(|s| format!("{} mm", n(s.value * 1e3))).collect();
    let ratio = w / limit;
    let steps = vec![
        step(("w", "sag"), "sum of its causes", parts.join(" + "), (w, "m"), SOLVED)?,
        step(("w_lim", "limit"), "", String::new(), (limit, "m"), source)?,
        step(
            ("u", "share of the limit used"),
            "w/w_lim",
            format!("{} mm/{} mm", n(w * 1e3), n(limit * 1e3)),
            (ratio, "-"),
            "",
        )?,
    ];
    Ok(Worked { causes, steps, ratio })
}

/// Heat as one more cause: its force as it is, its moment the way that the loads bend, neither shaken.
pub(crate) fn heat(loads: &[Share<BraceForces>], heat: &BraceForces, dynamic: f64) -> Share<BraceForces> {
    let moment: f64 = loads.iter().map(|s| if s.years { 1.0 } else { dynamic } * s.value.moment).sum();
    let value = BraceForces {
        axial: heat.axial / dynamic,
        moment: heat.moment.copysign(moment) / dynamic,
        ..BraceForces::default()
    };
    Share { what: "heat".to_owned(), years: false, value }
}

/// Bending and axial force of a brace at one place.
pub(crate) fn brace(
    strength: &TubeStrength,
    x: f64,
    dynamic: f64,
    shares: &[Share<BraceForces>],
) -> Result<Worked, NotFinite> {
    let total = |of: fn(&BraceForces) -> f64| -> f64 {
        shares.iter().map(|s| if s.years { 1.0 } else { dynamic } * of(&s.value)).sum()
    };
    let (axial, moment) = (total(|f| f.axial), total(|f| f.moment));
    let r = strength.at(x);
    let along = if axial < 0.0 { r.compression } else { r.tension };
    let ratio = axial.abs() / along + moment.abs() / r.bending;
    let mut causes = Vec::new();
    for s in shares {
        let k = if s.years { 1.0 } else { dynamic };
        // One number: the moment that alone would use as much.
        let part =
            k * (s.value.moment * moment.signum() + s.value.axial * axial.signum() * r.bending / along);
        causes.push(cause(s, part, "N m")?);
    }
    let which = if axial < 0.0 { "compression" } else { "tension" };
    let source = strength.basis.source.as_ref();
    let steps = vec![
        step(("N", "axial force"), "", String::new(), (axial, "N"), SOLVED)?,
        step(("M", "moment"), "", String::new(), (moment, "N m"), SOLVED)?,
        step(("N_c", &format!("allowable {which}")), "", String::new(), (along, "N"), source)?,
        step(("M_c", "allowable moment"), "", String::new(), (r.bending, "N m"), source)?,
        step(
            ("u", "share of the limits used"),
            "|N|/N_c + |M|/M_c",
            format!("{}/{} + {}/{}", n(axial.abs()), n(along), n(moment.abs()), n(r.bending)),
            (ratio, "-"),
            "ADM 2020 H.1, from memory",
        )?,
    ];
    Ok(Worked { causes, steps, ratio })
}

/// Dent or heel: a demand out of the solved foot, a limit by its factors.
pub(crate) fn foot(context: &Context<'_>, finding: &Finding, mass: f64) -> Result<Option<Worked>, NotFinite> {
    let roof = context.roof;
    let Some(layer) = roof.layers.iter().position(|l| l.name == finding.part) else { return Ok(None) };
    let state = roof.state_at(finding.x, finding.y)[layer];
    let factors = context.factors;
    let weight = mass * crate::quantity::STANDARD_GRAVITY;
    let mut steps = Vec::new();
    let limit = match finding.check {
        Check::Dent => {
            let Some(known) = &context.strengths[layer].crush else { return Ok(None) };
            let heat = context.heat_strength(layer, true);
            let limit = known.value * state.crush * heat / factors.gamma_core_crush;
            let [a, b] = factors.sole;
            steps.push(step(
                ("F", "load on one foot"),
                "walking factor x m g",
                format!("{} x {} kg x 9.80665 m/s2", n(factors.walking), n(mass)),
                (weight * factors.walking, "N"),
                "walking factor: common practice, no source",
            )?);
            steps.push(step(
                ("s", "stress in the foam under the sole"),
                "skin (and board) as plates on the elastic foam",
                format!("sole {} x {} mm", n(a * 1e3), n(b * 1e3)),
                (finding.demand, "Pa"),
                "plate on an elastic layer, solved",
            )?);
            steps.push(step(
                ("f", "limit"),
                "f_c10 x left x heat/gamma_M",
                format!(
                    "{} x {} x {}/{}",
                    pa(known.value),
                    n(state.crush),
                    n(heat),
                    n(factors.gamma_core_crush)
                ),
                (limit, "Pa"),
                &format!("{}; gamma_M 1.4, EN 14509, from memory", known.source),
            )?);
            limit
        }
        Check::Heel => {
            let Some((worked, limit)) = heel::steps(context, finding, layer, weight)? else {
                return Ok(None);
            };
            steps = worked;
            limit
        }
        _ => return Ok(None),
    };
    let ratio = finding.demand / limit;
    steps.push(step(
        ("u", "share of the limit used"),
        "s/f",
        format!("{}/{}", pa(finding.demand), pa(limit)),
        (ratio, "-"),
        "",
    )?);
    Ok(Some(Worked { causes: Vec::new(), steps, ratio }))
}

/// Any other check: its demand over its limit, as the table has them.
pub(crate) fn plain(finding: &Finding, model_factor: f64) -> Result<Worked, NotFinite> {
    let ratio = finding.ratio / model_factor;
    let steps = vec![
        step(
            ("E", "demand"),
            "",
            String::new(),
            (finding.demand, finding.si),
            "as checked; not worked through step by step",
        )?,
        step(("R", "limit"), "", String::new(), (finding.limit, finding.si), finding.basis.source.as_ref())?,
        step(("u", "share of the limit used"), "as the check has it", String::new(), (ratio, "-"), "")?,
    ];
    Ok(Worked { causes: Vec::new(), steps, ratio })
}

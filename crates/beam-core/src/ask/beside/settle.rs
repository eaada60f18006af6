//! What would settle a "cannot say": the deciding check made again with one band at a time closed onto its default, as if
//! that had been measured. Where the three brackets then agree, that measurement settles it.
//!
//! It says what is worth measuring, not what will be found: a measurement may still turn the answer either way.

use super::{Around, again::told, variant_of};
use crate::ask::document::Study;
use crate::ask::study::{Job, Variant};
use crate::check::{Bond, Check, Cure, Finding, Key, Ledger, Materials, ratios};
use crate::loads::Footing;
use crate::model::{Hold, is_foam, mended};
use crate::plate::GridSize;
use crate::survey::{Bonded, DamageState, Grain, LayerMaterial, Survey};
use section_tables::{Material, Property, PropertyGroup};

/// Something that can be measured in a shop.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Measurement {
    /// What is left of a damaged patch, by index.
    Damage(usize),
    /// Whether layers hold together that nobody tapped.
    Bond,
    /// Which way an unknown face grain lies.
    Grain,
    /// What a material is: its id, and the layer it is first met in.
    Material(String, usize),
    /// What the glue of the braces is.
    Glue,
    /// How stiff the whole roof is.
    TestWeight,
}

/// What would settle the deciding check.
#[derive(Debug)]
pub(crate) struct Settles {
    pub check: Check,
    pub part: String,
    /// One or two.
    pub by: Vec<Measurement>,
    /// Whether the three brackets agree once it is known; else these are merely what weighs most.
    pub enough: bool,
}

/// Finds it; nothing where the brackets disagree for another reason than what can be measured.
pub(super) fn settles(around: &Around<'_>, study: &Study, ledger: &Ledger, key: &Key) -> Option<Settles> {
    let (_, found) = ledger.iter().find(|(k, _)| *k == key)?;
    let [Some(low), Some(default), Some(high)] = ratios(found) else { return None };
    if key.check.cure() == Cure::NotSure {
        return None;
    }
    let fails = default > 1.0;
    let off: Vec<(Materials, f64)> = [(Materials::Low, low), (Materials::High, high)]
        .into_iter()
        .filter(|(_, r)| (*r > 1.0) != fails)
        .collect();
    let answer =
        |by: Vec<Measurement>, enough| Some(Settles { check: key.check, part: key.part.clone(), by, enough });
    if off.is_empty() {
        return None;
    }
    if around.grains.len() > 1 && grain_settles(around, study, key) {
        return answer(vec![Measurement::Grain], true);
    }
    let like = found[Materials::Default as usize].as_ref()?;
    let bases: Vec<(Variant, f64, f64)> = off
        .iter()
        .filter_map(|(m, ratio)| {
            let variant = variant_of(around, study, key, *m);
            Some((variant, *ratio, read(around, around.survey, variant, like)?))
        })
        .collect();
    if bases.len() < off.len() {
        return None;
    }
    // Largest and smallest ratio left in the brackets that were off.
    let left = |by: &[Measurement]| -> Option<Vec<f64>> {
        let mut survey = around.survey.clone();
        by.iter().for_each(|m| known(&mut survey, m));
        bases
            .iter()
            .map(|(variant, ratio, base)| Some(ratio * read(around, &survey, *variant, like)? / base))
            .collect()
    };
    let agree = |left: &[f64]| left.iter().all(|r| (*r > 1.0) == fails);
    let mut weighed: Vec<(f64, Measurement)> = Vec::new();
    for measurement in candidates(around, key.check) {
        let Some(left) = left(std::slice::from_ref(&measurement)) else { continue };
        if agree(&left) {
            return answer(vec![measurement], true);
        }
        let effect: f64 = left.iter().zip(&bases).map(|(l, (_, ratio, _))| (l - ratio).abs()).sum();
        weighed.push((effect, measurement));
    }
    weighed.sort_by(|a, b| b.0.total_cmp(&a.0));
    let two: Vec<Measurement> =
        weighed.into_iter().filter(|(effect, _)| *effect > 0.0).take(2).map(|(_, m)| m).collect();
    if two.is_empty() {
        return None;
    }
    let enough = two.len() > 1 && left(&two).is_some_and(|left| agree(&left));
    answer(two, enough)
}

/// What can be measured here, the easiest for the check first.
fn candidates(around: &Around<'_>, check: Check) -> Vec<Measurement> {
    let survey = around.survey;
    let mut out = Vec::new();
    let sag = matches!(check, Check::Sag | Check::SagLasting);
    if sag {
        out.push(Measurement::TestWeight);
    }
    out.extend(
        survey
            .damages
            .iter()
            .enumerate()
            .filter(|(_, d)| {
                matches!(d.state, DamageState::Table(_)) && !mended(d, survey, around.first.stage)
            })
            .map(|(i, _)| Measurement::Damage(i)),
    );
    if survey.layers.iter().any(|l| l.bonded == Bonded::NotKnown) {
        out.push(Measurement::Bond);
    }
    let mut seen: Vec<&str> = Vec::new();
    // Foam first: it is what is weighed in a minute.
    for foam in [true, false] {
        for (i, layer) in survey.layers.iter().enumerate().filter(|(_, l)| is_foam(&l.material) == foam) {
            if let LayerMaterial::Table(m) = &layer.material
                && !seen.contains(&m.id.as_str())
            {
                seen.push(&m.id);
                out.push(Measurement::Material(m.id.clone(), i));
            }
        }
    }
    if survey.braces.iter().any(|b| b.glue.is_some()) {
        out.push(Measurement::Glue);
    }
    if !sag {
        out.push(Measurement::TestWeight);
    }
    out
}

/// The survey as it would be if that had been measured and found to be the default.
fn known(survey: &mut Survey, measurement: &Measurement) {
    let layers = |survey: &mut Survey, close: &dyn Fn(&Material) -> Option<Material>| {
        for layer in &mut survey.layers {
            if let LayerMaterial::Table(m) = &layer.material
                && let Some(closed) = close(m)
            {
                layer.material = LayerMaterial::Table(Box::new(closed));
            }
        }
    };
    match measurement {
        Measurement::Damage(i) => {
            if let DamageState::Table(row) = &mut survey.damages[*i].state {
                for effect in &mut row.effects {
                    effect.stiffness = effect.stiffness.at_default();
                    effect.strength = effect.strength.at_default();
                    effect.crush = effect.crush.at_default();
                }
            }
        }
        Measurement::Bond => {
            let untapped = survey.layers.iter_mut().filter(|l| l.bonded == Bonded::NotKnown);
            untapped.for_each(|l| l.bonded = Bonded::Yes);
        }
        Measurement::Grain => {
            let unseen = survey.layers.iter_mut().filter(|l| l.grain.is_none());
            unseen.for_each(|l| l.grain = Some(Grain::Across));
        }
        Measurement::Material(id, _) => layers(survey, &|m| (m.id == *id).then(|| m.at_default(|_| true))),
        Measurement::Glue => {
            for glue in survey.braces.iter_mut().filter_map(|b| b.glue.as_mut()) {
                let p = &mut glue.product;
                p.shear_modulus_mpa = p.shear_modulus_mpa.at_default();
                p.shear_short_mpa = p.shear_short_mpa.at_default();
                p.shear_permanent_mpa = p.shear_permanent_mpa.at_default();
            }
        }
        Measurement::TestWeight => {
            let stiffness = |p: Property| p.group() == PropertyGroup::Stiffness;
            layers(survey, &|m| Some(m.at_default(stiffness)));
            for glue in survey.braces.iter_mut().filter_map(|b| b.glue.as_mut()) {
                glue.product.shear_modulus_mpa = glue.product.shear_modulus_mpa.at_default();
            }
        }
    }
}

/// Whether the brackets agree in each direction of the grain by itself.
fn grain_settles(around: &Around<'_>, study: &Study, key: &Key) -> bool {
    around.grains.iter().all(|&grain_across| {
        let over = Materials::ALL.map(|m| {
            let counts = |hold: &Hold| {
                let variant = Variant { materials: m, grain_across, hold: *hold, ..around.first };
                let bonded = study.braced && super::bonded_counts(&study.studied, variant);
                Variant { bond: if bonded { Bond::Full } else { Bond::None }, ..variant }
            };
            let counted: Vec<Variant> = around.holds.iter().map(counts).collect();
            let runs = study.studied.iter().filter(|s| counted.contains(&s.variant));
            let ratios = runs.flat_map(|s| &s.found.findings).filter(|f| is_of(f, key)).map(|f| f.ratio);
            ratios.reduce(f64::max).map(|r| r > 1.0)
        });
        over[0].is_some() && over.iter().all(|o| *o == over[0])
    })
}

fn is_of(finding: &Finding, key: &Key) -> bool {
    finding.check == key.check
        && finding.part == key.part
        && finding.load == key.load
        && finding.footing == key.footing
}

/// Ratio of a check in a changed roof: read at its own place where the two-way model gives it, else found again.
fn read(around: &Around<'_>, survey: &Survey, variant: Variant, like: &Finding) -> Option<f64> {
    let job = Job::new(survey, around.factors, around.stage_name.to_owned(), around.people.to_vec());
    let local = matches!(like.check, Check::Dent | Check::Heel | Check::FootShear | Check::FallThrough);
    let found = if local && like.footing != Footing::NotAFoot {
        job.feet(variant, 0.0).map_err(told).ok()?.0
    } else if crate::ask::check::on_the_grid(like) {
        return job.read_again(variant, GridSize::DEFAULT, like).ok()?.filter(|r| *r > 0.0 && r.is_finite());
    } else {
        job.study(variant).map_err(told).ok()?.found.findings
    };
    let same = found.iter().filter(|f| {
        f.check == like.check && f.part == like.part && f.load == like.load && f.footing == like.footing
    });
    same.map(|f| f.ratio).reduce(f64::max).filter(|r| *r > 0.0 && r.is_finite())
}

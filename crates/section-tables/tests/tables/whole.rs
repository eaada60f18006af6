//! What holds for every row.

use std::collections::BTreeSet;

use section_tables::{
    DamagedLayer, Material, MaterialFamily, Property, Property::*, PropertyGroup, SourceKind, Tables,
    TubeSystem, Value,
};

const SKIN: &[Property] = &[
    E1Membrane,
    E2Membrane,
    E1Flexural,
    E2Flexural,
    G12,
    G13,
    G23,
    Tension1,
    Tension2,
    Compression1,
    Compression2,
    Bending1,
    Bending2,
    ShearPanel,
    ShearPlanar,
    Density,
    Nu12,
    KDef,
    HeatModulus,
    HeatStrength,
    ThermalExpansion,
];
const FOAM: &[Property] = &[
    ECore,
    GCore,
    Crush,
    ShearCore,
    TensionCore,
    Density,
    NuCore,
    CreepShear2000h,
    CreepShear100000h,
    HeatModulus,
    HeatStrength,
    LongTermShear,
    LongTermCrush,
    ThermalExpansion,
];
const TIMBER: &[Property] = &[
    E1Membrane,
    E2Membrane,
    G12,
    Bending1,
    Tension1,
    Compression1,
    CompressionPerpendicular,
    Shear,
    Density,
    KDef,
    HeatModulus,
    HeatStrength,
    ThermalExpansion,
];

/// Every source cell of the tables with the grade beside it.
fn cited() -> Vec<(String, SourceKind)> {
    let tables = Tables::shipped();
    let mut cited: Vec<(String, SourceKind)> = Vec::new();
    let mut cite = |source: &str, kind| cited.push((source.to_owned(), kind));
    tables.alloys.iter().for_each(|row| cite(&row.source, row.kind));
    tables.en_alloys.iter().flat_map(|row| &row.ranges).for_each(|row| cite(&row.source, row.kind));
    tables.yields_met.iter().for_each(|row| cite(&row.source, row.kind));
    tables.tubes.iter().for_each(|row| cite(&row.source, row.kind));
    tables.materials.iter().flat_map(Material::iter).for_each(|(_, value)| cite(&value.source, value.kind));
    tables.buildups.iter().for_each(|row| cite(&row.source, row.kind));
    let effects = tables.damage.iter().flat_map(|row| &row.effects);
    effects.for_each(|effect| cite(&effect.stiffness.source, effect.stiffness.kind));
    tables.adhesives.iter().for_each(|row| cite(&row.source, row.kind));
    tables.factors.iter().for_each(|row| cite(&row.source, row.kind));
    tables.walk_boards.iter().for_each(|row| cite(&row.source, row.kind));
    cited
}

#[test]
fn every_number_has_a_listed_source_and_no_better_grade_than_it() {
    let mut used = BTreeSet::new();
    for (cell, kind) in cited() {
        assert!(!cell.is_empty());
        for key in cell.split(';').map(str::trim) {
            let source = Tables::shipped().source(key).unwrap_or_else(|error| panic!("{error}"));
            assert!(kind >= source.kind, "{key} is {} and cannot make a number {kind}", source.kind);
            used.insert(source.key.clone());
        }
    }
    let listed: BTreeSet<_> = Tables::shipped().sources.iter().map(|source| source.key.clone()).collect();
    assert_eq!(listed, used, "a source that nothing cites is no source");
}

#[test]
fn every_strength_says_what_it_is_and_nothing_else_does() {
    for material in &Tables::shipped().materials {
        for (property, value) in material.iter() {
            let strength = property.group() == PropertyGroup::Strength;
            assert_eq!(material.strength_is(property).is_some(), strength, "{} {property}", material.id);
            assert!(value.low <= value.default && value.default <= value.high, "{} {property}", material.id);
        }
    }
}

#[test]
fn every_material_has_what_its_checks_need() {
    for material in &Tables::shipped().materials {
        let needed = match material.family {
            MaterialFamily::Foam => FOAM,
            MaterialFamily::Timber => TIMBER,
            _ => SKIN,
        };
        for property in needed {
            assert!(material.get(*property).is_some(), "{} has no {property}", material.id);
        }
    }
}

#[test]
fn what_is_not_known_is_never_better_than_what_is() {
    let tables = Tables::shipped();
    let not_known = tables.alloy("alloy not known").expect("shipped");
    for alloy in &tables.alloys {
        assert!(not_known.f_ty_ksi <= alloy.f_ty_ksi && not_known.f_tu_ksi <= alloy.f_tu_ksi, "{}", alloy.id);
        assert!(
            not_known.f_tyw_ksi <= alloy.f_tyw_ksi && not_known.f_tuw_ksi <= alloy.f_tuw_ksi,
            "{}",
            alloy.id
        );
        assert!(not_known.wall_max_in <= alloy.wall_max_in, "{}", alloy.id);
    }
    for alloy in &tables.en_alloys {
        let least = &tables.en_alloy("alloy not known").expect("shipped").ranges[0];
        for range in &alloy.ranges {
            assert!(least.f_o_mpa <= range.f_o_mpa && least.f_u_mpa <= range.f_u_mpa, "{}", alloy.id);
            assert!(
                least.f_o_haz_mpa <= range.f_o_haz_mpa && least.f_u_haz_mpa <= range.f_u_haz_mpa,
                "{}",
                alloy.id
            );
        }
    }
    let not_known = tables.adhesive("glue not known").expect("shipped");
    let below = |a: &Value, b: &Value| a.low <= b.low && a.default <= b.default && a.high <= b.high;
    for adhesive in &tables.adhesives {
        assert!(below(&not_known.shear_short_mpa, &adhesive.shear_short_mpa), "{}", adhesive.id);
        assert!(below(&not_known.shear_permanent_mpa, &adhesive.shear_permanent_mpa), "{}", adhesive.id);
        assert!(not_known.heat_limit_c <= adhesive.heat_limit_c, "{}", adhesive.id);
        assert!(not_known.cure_hours >= adhesive.cure_hours, "{}", adhesive.id);
    }
    let not_known = tables.material("white bead foam, grade not known").expect("shipped");
    for foam in ["EPS 15", "EPS 20", "EPS 25", "EPS 30"] {
        let foam = tables.material(foam).expect("shipped");
        for property in [ECore, GCore, Crush, Crush1Percent, ShearCore, TensionCore, Density] {
            let (a, b) = (not_known.get(property).expect("foam"), foam.get(property).expect("foam"));
            assert!(a.low <= b.low && a.default <= b.default, "{} {property}", foam.id);
        }
    }
    let soft = tables.damage_state("soft, cause not known").expect("shipped");
    for (state, layer) in [
        ("rotten", DamagedLayer::Skin),
        ("wet", DamagedLayer::Skin),
        ("loose", DamagedLayer::Skin),
        ("crushed", DamagedLayer::Core),
        ("wet", DamagedLayer::Core),
        ("loose", DamagedLayer::Core),
    ] {
        let (a, b) = (soft.effect_on(layer), tables.damage_state(state).expect("shipped").effect_on(layer));
        let (a, b) = (a.expect("shipped"), b.expect("shipped"));
        assert!(below(&a.stiffness, &b.stiffness) && below(&a.strength, &b.strength), "{state} {layer}");
        assert!(below(&a.crush, &b.crush) && !a.bond, "{state} {layer}");
        assert!(a.added_water_kg_m3.default >= b.added_water_kg_m3.default, "{state} {layer}");
    }
}

#[test]
fn every_layer_of_a_build_up_is_a_material_from_the_weather_side_down() {
    for buildup in &Tables::shipped().buildups {
        assert!(buildup.layers.len() >= 3, "{}", buildup.id);
        for (layer, position) in buildup.layers.iter().zip(1..) {
            assert_eq!(layer.position, position, "{}", buildup.id);
            assert_eq!(
                Tables::shipped().material(&layer.material).map(|found| &found.id),
                Ok(&layer.material)
            );
        }
        assert_eq!(buildup.layers[0].name, "outer skin", "{}", buildup.id);
    }
}

#[test]
fn the_shelf_holds_enough_to_choose_from() {
    let tables = Tables::shipped();
    let count = |system| tables.tubes.iter().filter(|tube| tube.system == system).count();
    assert!(count(TubeSystem::Inch) >= 40 && count(TubeSystem::Metric) >= 40);
    assert!(tables.tubes.iter().all(|tube| tube.width <= tube.depth), "rectangular tube stands upright");
    assert!(tables.tubes.iter().any(|tube| tube.width < tube.depth));
    assert_eq!(tables.walk_boards[0].id, "24 x 48 x 1/2");
}

#[test]
fn keys_and_units_of_properties_are_told_apart() {
    let keys: BTreeSet<_> = Property::ALL.iter().map(|property| property.key()).collect();
    assert_eq!(keys.len(), Property::ALL.len());
    assert_eq!(
        [E1Membrane, Crush, Density, Nu12, ThermalExpansion].map(Property::unit),
        ["MPa", "MPa", "kg/m3", "-", "1/K"]
    );
}

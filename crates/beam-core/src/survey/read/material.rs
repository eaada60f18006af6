//! `[material.ID]`, and finding a material by name.

use crate::quantity::{Measure, Pressure, si};
use crate::survey::problem::Problem;
use crate::survey::take::{Bound, Context, Number, Table, Take, Text, Words, near, one_line};
use crate::survey::tree::Node;
use crate::survey::{LayerMaterial, OwnMaterial, OwnStrength};

const MODULUS: Bound = Bound::above_zero(Measure::Pressure).plausible(
    1e5..2.5e11,
    "0.1 MPa to 250 GPa",
    "softer than any foam",
    "stiffer than steel",
);
const STRENGTH: Bound = Bound::above_zero(Measure::Pressure).plausible(
    1e3..3e9,
    "1 kPa to 3 GPa",
    "weaker than any material of a roof",
    "stronger than any material of a roof",
);
const DENSITY: Bound = Bound::above_zero(Measure::Density).plausible(
    5.0..12000.0,
    "5 to 12 000 kg/m3",
    "lighter than any foam",
    "heavier than lead",
);
const POISSON: Number = Number::between(0.0, 0.499);
const STRENGTH_IS: Words<OwnStrength> =
    Words(&[("5 percent", OwnStrength::FivePercent), ("mean", OwnStrength::Mean)]);

/// Reads the survey's own materials into the context.
pub(super) fn read(cx: &mut Context<'_>, root: &mut Table<'_>) {
    let Some(node) = root.node("material") else {
        return;
    };
    let Some(table) = Table::open(cx, "material", node) else {
        return;
    };
    for entry in table.entries() {
        one_line(cx, "material", &entry.key_span, &entry.key);
        let material = own(cx, &format!("material.{}", entry.key), &entry.key, &entry.node);
        cx.own_materials.push((entry.key.clone(), material));
    }
}

/// Finds a material: the survey's own first, then the tables.
pub(super) fn find(cx: &mut Context<'_>, path: &str, node: &Node) -> Option<LayerMaterial> {
    let name = Text.take(cx, path, node)?;
    if let Some((_, own)) = cx.own_materials.iter().find(|(id, _)| *id == name) {
        return own.clone().map(|own| LayerMaterial::Own(Box::new(own)));
    }
    match cx.tables.material(&name) {
        Ok(material) => Some(LayerMaterial::Table(Box::new(material.clone()))),
        Err(error) => {
            let own = near(&name, cx.own_materials.iter().map(|(id, _)| id.as_str()));
            let near = own.into_iter().chain(error.near.iter().cloned()).collect();
            cx.row_unknown(path, node, &name, "material", near, &error.known);
            None
        }
    }
}

impl Context<'_> {
    /// Records that the tables have no such row.
    pub(super) fn row_unknown(
        &mut self,
        path: &str,
        node: &Node,
        name: &str,
        what: &str,
        near: Vec<String>,
        known: &[String],
    ) {
        let message = match near.first() {
            Some(guess) => format!("`{path}`: no {what} is called \"{name}\"; did you mean \"{guess}\"?"),
            None => format!("`{path}`: no {what} is called \"{name}\""),
        };
        let quoted =
            |names: &[String]| names.iter().map(|n| format!("\"{n}\"")).collect::<Vec<_>>().join(", ");
        let offered = if near.is_empty() { quoted(known) } else { quoted(&near) };
        self.problem(
            Problem::new("row-unknown", node.span.clone(), message)
                .value(name)
                .allowed(format!("a row of the tables: {offered}"))
                .write(
                    near.first().map_or("one of the names above".to_string(), |guess| format!("\"{guess}\"")),
                ),
        );
    }
}

fn own(cx: &mut Context<'_>, path: &str, id: &str, node: &Node) -> Option<OwnMaterial> {
    let mut table = Table::open(cx, path, node)?;
    let stiffness = stiffness(cx, &mut table);
    let g13 = modulus(cx, &mut table, "G13");
    let g23 = modulus(cx, &mut table, "G23");
    let g12 = modulus(cx, &mut table, "G12");
    let e1_flexural = modulus(cx, &mut table, "E1f");
    let e2_flexural = modulus(cx, &mut table, "E2f");
    let strengths = strengths(cx, &mut table);
    let strength_is = if strengths.as_ref().is_some_and(|all| all.iter().any(Option::is_some)) {
        let words = "it is not said what the strengths are: they are taken as means, and cut to 0.65";
        table.or(cx, "strength_is", &STRENGTH_IS, (OwnStrength::Mean, "default-strength-is", words))
    } else {
        table.optional(cx, "strength_is", &STRENGTH_IS).map(|given| given.unwrap_or(OwnStrength::Mean))
    };
    let density = table.optional(cx, "density", &DENSITY);
    if density == Some(None) {
        let words = format!("the density of {id} is not given: its weight is left out");
        cx.default(&table.path_of("density"), Some((0.0, "kg/m3")), "default-density", words);
    }
    if let Some(Stiffness { g: None, .. }) = stiffness {
        let keys = [("G12", &g12), ("G13", &g13), ("G23", &g23)];
        let absent: Vec<&str> =
            keys.iter().filter(|(_, modulus)| **modulus == Some(None)).map(|(key, _)| *key).collect();
        if !absent.is_empty() {
            let words = format!("{} of {id} not given: E/2(1+nu) is taken", absent.join(", "));
            cx.default(&table.path_of("G"), None, "default-shear-modulus", words);
        }
    }
    table.close(cx);
    let Stiffness { e1, e2, nu12, g } = stiffness?;
    let [tension, compression, bending, shear, crush] = strengths?;
    Some(OwnMaterial {
        id: id.to_string(),
        e1: si(e1),
        e2: si(e2),
        e1_flexural: e1_flexural?,
        e2_flexural: e2_flexural?,
        nu12,
        g12: g12?.or(g),
        g13: g13?.or(g),
        g23: g23?.or(g),
        tension,
        compression,
        bending,
        shear,
        crush,
        strength_is: strength_is?,
        density: density?.map(si),
    })
}

struct Stiffness {
    e1: f64,
    e2: f64,
    nu12: f64,
    /// One shear modulus for all three, if given.
    g: Option<Pressure>,
}

/// `E`, `nu`, `G` of an isotropic material, or `E1`, `E2`, `nu12`.
fn stiffness(cx: &mut Context<'_>, table: &mut Table<'_>) -> Option<Stiffness> {
    table.not_both(cx, "E", "E1");
    let g = modulus(cx, table, "G");
    if table.has("E1") || table.has("E2") {
        let e1 = table.required(cx, "E1", &MODULUS, "\"5.5 GPa\"");
        let e2 = table.required(cx, "E2", &MODULUS, "\"0.7 GPa\"");
        let nu12 = table.required(cx, "nu12", &POISSON, "0.05");
        let (e1, e2, nu12) = (e1?, e2?, nu12?);
        if nu12 * nu12 * e2 >= e1 {
            let span = table.span_of("nu12");
            cx.fault(
                "material-impossible",
                span,
                "no material has these moduli and this Poisson's ratio",
                "nu12 squared less than E1/E2 (1 is along the grain)",
                "the ratio that belongs to pulling along the grain",
            );
            return None;
        }
        return Some(Stiffness { e1, e2, nu12, g: g? });
    }
    let e = table.required(cx, "E", &MODULUS, "\"6.0 GPa\"");
    let words = "Poisson's ratio is not given: 0.30 is taken";
    let nu = table.or_si(cx, "nu", &POISSON, (0.30, "", "default-poisson", words));
    Some(Stiffness { e1: e?, e2: e?, nu12: nu?, g: g? })
}

fn modulus(cx: &mut Context<'_>, table: &mut Table<'_>, key: &'static str) -> Option<Option<Pressure>> {
    table.optional(cx, key, &MODULUS).map(|modulus| modulus.map(si))
}

fn strengths(cx: &mut Context<'_>, table: &mut Table<'_>) -> Option<[Option<Pressure>; 5]> {
    let mut table = table.section(cx, "strength")?;
    let read = ["tension", "compression", "bending", "shear", "crush"]
        .map(|key| table.optional(cx, key, &STRENGTH).map(|strength| strength.map(si)));
    table.close(cx);
    let [tension, compression, bending, shear, crush] = read;
    Some([tension?, compression?, bending?, shear?, crush?])
}

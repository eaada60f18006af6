//! Survey to idealised roof.

use super::hold::Hold;
use super::joint::{IdealJoint, ideal_joint, parts};
use super::member::{Faces, IdealBrace, ideal_brace};
use super::panel::{IdealLayer, LayerState, Rect, Role, Zone};
use super::trimmer::{IdealTrimmer, ideal_trimmers};
use crate::check::Materials;
use crate::survey::{
    Bonded, Cure, Damage, DamageState, End, Grain, RoofKind, Sides, SlotFrom, Survey, Thrust,
};
use section_tables::DamagedLayer;

/// Which roof: the stage of the work and what counts in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Configuration {
    pub stage: StageChoice,
    /// Whether new braces are in.
    pub with_new: bool,
    /// Whether the glue of braces counts.
    pub bond: bool,
    /// What else counts.
    pub hold: Hold,
}

/// A stage of the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum StageChoice {
    /// All damage there, no new brace.
    AsFound,
    /// Index into the survey's stages.
    Named(usize),
    /// Mended, new braces in.
    Finished,
}

/// Why a roof cannot be modelled.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Missing {
    pub part: String,
    pub why: String,
}

/// The idealised roof, SI.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct IdealRoof {
    pub span: f64,
    pub length: f64,
    pub rise: f64,
    pub front_held: bool,
    pub rear_held: bool,
    /// From the weather side down.
    pub layers: Vec<IdealLayer>,
    pub zones: Vec<Zone>,
    pub openings: Vec<Rect>,
    pub braces: Vec<IdealBrace>,
    /// Joints that pass no force.
    pub joints: Vec<IdealJoint>,
    pub trimmers: Vec<IdealTrimmer>,
    /// Sideways stiffness of each wall per metre of wall, N/m2; `None`: held rigidly.
    pub thrust: Option<f64>,
    /// Whether the walls hold the roof down.
    pub hold_down: bool,
    pub creep_hours: f64,
}

impl IdealRoof {
    /// Share of the crown height reached at `x`: 0 at the walls, 1 at the crown (parabola).
    fn crown_share(&self, x: f64) -> f64 {
        let s = 2.0 * x / self.span - 1.0;
        1.0 - s * s
    }

    /// Heights of every layer at `x`: (bottom, top), from the weather side down. The ceiling side is the flat one.
    pub(crate) fn levels(&self, x: f64) -> Vec<(f64, f64)> {
        let at_crown: f64 = self.layers.iter().map(|l| l.thickness[1]).sum();
        let share = self.crown_share(x);
        let mut z = -at_crown / 2.0;
        let mut up: Vec<(f64, f64)> = self
            .layers
            .iter()
            .rev()
            .map(|l| {
                let t = l.thickness[0] + (l.thickness[1] - l.thickness[0]) * share;
                let bottom = z;
                z += t;
                (bottom, z)
            })
            .collect();
        up.reverse();
        up
    }

    pub(crate) fn is_tapered(&self) -> bool {
        self.layers.iter().any(|l| l.thickness[0] != l.thickness[1])
    }

    /// State of every layer at a place.
    pub(crate) fn state_at(&self, x: f64, y: f64) -> super::PanelState {
        super::panel::state_at(&self.zones, self.layers.len(), x, y)
    }

    pub(crate) fn is_open(&self, x: f64, y: f64) -> bool {
        self.openings.iter().any(|o| o.x0 < x && x < o.x1 && o.y0 < y && y < o.y1)
    }
}

/// Whether a kind of roof is modelled at all.
pub(crate) fn kind_is_modelled(kind: RoofKind) -> bool {
    kind == RoofKind::Laminated
}

/// Builds the idealised roof.
///
/// # Errors
/// Everything that keeps the roof from being modelled, not just the first.
pub(crate) fn idealise(
    survey: &Survey,
    configuration: Configuration,
    materials: Materials,
    grain_across: bool,
) -> Result<IdealRoof, Vec<Missing>> {
    let mut missing = Vec::new();
    let present = |layer: usize| match configuration.stage {
        StageChoice::Named(stage) => survey.stages[stage].layers.contains(&layer),
        StageChoice::AsFound | StageChoice::Finished => true,
    };
    let foam: Vec<bool> = survey.layers.iter().map(|l| super::material::is_foam(&l.material)).collect();
    let first_core = foam.iter().position(|f| *f);
    let last_core = foam.iter().rposition(|f| *f);
    let roles: Vec<Role> = (0..survey.layers.len())
        .map(|i| match (first_core, last_core) {
            (Some(first), _) if i < first => Role::Outer,
            (_, Some(last)) if i > last => Role::Inner,
            (None, _) => Role::Outer,
            _ => Role::Core,
        })
        .collect();
    let layers: Vec<IdealLayer> = survey
        .layers
        .iter()
        .zip(&roles)
        .map(|(layer, role)| IdealLayer {
            name: layer.name.clone(),
            role: *role,
            material: layer.material.clone(),
            thickness: [layer.thickness.wall.value, layer.thickness.crown.value],
            grain_across: layer.grain.map_or(grain_across, |g| g == Grain::Across),
            bonded_below: match layer.bonded {
                Bonded::Yes => true,
                Bonded::No => false,
                Bonded::NotKnown => materials != Materials::Low,
            },
        })
        .collect();

    let mut zones = Vec::new();
    let whole = Rect { x0: 0.0, x1: survey.roof.span.value, y0: 0.0, y1: survey.roof.length.value };
    for i in (0..survey.layers.len()).filter(|i| !present(*i)) {
        let gone = LayerState {
            stiffness: 0.0,
            strength: 0.0,
            crush: 0.0,
            bonded: false,
            slot: 1.0,
            slot_from_top: false,
            water: 0.0,
            cut: [false; 2],
        };
        zones.push(Zone { rect: whole, layer: i, state: carrying(gone, roles[i]) });
    }
    for damage in survey.damages.iter().filter(|d| !mended(d, survey, configuration.stage)) {
        let kind = if roles[damage.layer] == Role::Core { DamagedLayer::Core } else { DamagedLayer::Skin };
        match left_by(&damage.state, kind, materials) {
            Some(state) => zones.push(Zone {
                rect: Rect::of(&damage.patch),
                layer: damage.layer,
                state: carrying(state, roles[damage.layer]),
            }),
            None => missing.push(Missing {
                part: damage.name.clone(),
                why: format!(
                    "the state given means nothing for the layer {}",
                    survey.layers[damage.layer].name
                ),
            }),
        }
    }
    for slot in &survey.slots {
        let Some(core) = last_core else { continue };
        if slot.filled.is_some() {
            // Refilled foam: judged as sound, see the assumptions.
            continue;
        }
        let depth = survey.layers[core].thickness.crown.value;
        let share = slot.depth.map_or(1.0, |d| (d.value / depth).min(1.0));
        let from_top = slot.from == SlotFrom::Top;
        let state = LayerState { slot: share, slot_from_top: from_top, ..LayerState::SOUND };
        zones.push(Zone { rect: Rect::of(&slot.patch), layer: core, state });
    }

    let counted: Vec<usize> = (0..survey.braces.len())
        .filter(|&i| {
            let brace = &survey.braces[i];
            match configuration.stage {
                _ if brace.existing => true,
                StageChoice::AsFound => false,
                StageChoice::Finished => configuration.with_new,
                StageChoice::Named(stage) => {
                    configuration.with_new && survey.stages[stage].braces.contains(&i)
                }
            }
        })
        .collect();
    let mut roof = IdealRoof {
        span: survey.roof.span.value,
        length: survey.roof.length.value,
        rise: survey.roof.rise.value,
        front_held: survey.roof.front == End::CrossWall,
        rear_held: survey.roof.rear == End::CrossWall,
        layers,
        zones,
        openings: survey.openings.iter().map(|o| Rect::of(&o.patch)).collect(),
        braces: Vec::new(),
        joints: Vec::new(),
        trimmers: Vec::new(),
        thrust: match survey.wall.thrust {
            _ if !configuration.hold.walls => Some(0.0),
            Thrust::None => Some(0.0),
            Thrust::Spring(k) => Some(k.value),
            Thrust::Full => None,
        },
        hold_down: survey.wall.hold_down.is_some(),
        creep_hours: survey.conditions.years * 8766.0,
    };
    let open = survey.joints.iter().filter(|j| {
        !configuration.hold.joints && parts(j) && roles[j.layer] != Role::Core && present(j.layer)
    });
    for joint in open {
        match ideal_joint(joint, &roof, materials) {
            Ok(joint) => {
                roof.zones.push(joint.zone());
                roof.joints.push(joint);
            }
            Err(why) => missing.push(Missing { part: survey.layers[joint.layer].name.clone(), why }),
        }
    }
    let levels = roof.levels(roof.span / 2.0);
    let faces = Faces {
        core_top: last_core.and(first_core).map_or(levels[0].0, |c| levels[c].1),
        core_bottom: last_core.map_or(levels[0].0, |c| levels[c].0),
        ceiling: levels[levels.len() - 1].0,
        // One over the radius of the circle through both walls and the crown.
        crown: 8.0 * roof.rise / (roof.span * roof.span + 4.0 * roof.rise * roof.rise),
    };
    for &i in &counted {
        let brace = &survey.braces[i];
        let holds_glue = configuration.bond
            && match configuration.stage {
                StageChoice::Named(stage) => {
                    brace.existing
                        || (survey.stages[stage].cured == Cure::Full
                            && brace.glued.iter().all(|&l| present(l)))
                }
                StageChoice::AsFound | StageChoice::Finished => true,
            };
        match ideal_brace(brace, &roles, &faces, holds_glue, materials) {
            Ok(ideal) => {
                if brace.sides == Sides::SlotLeftOpen
                    && brace.sits != crate::survey::Sits::UnderTheCeiling
                    && let Some(core) = last_core
                {
                    let half = ideal.width / 2.0;
                    roof.zones.push(Zone {
                        rect: Rect { x0: ideal.x0, x1: ideal.x1, y0: ideal.y - half, y1: ideal.y + half },
                        layer: core,
                        state: LayerState { slot: 1.0, ..LayerState::SOUND },
                    });
                }
                roof.braces.push(ideal);
            }
            Err(why) => missing.push(Missing { part: format!("brace {}", brace.name), why }),
        }
    }
    if configuration.with_new && missing.is_empty() {
        let braces: Vec<_> = counted.into_iter().zip(roof.braces.iter().cloned()).collect();
        match ideal_trimmers(survey, &braces, materials) {
            Ok(trimmers) => roof.trimmers = trimmers,
            Err((part, why)) => missing.push(Missing { part, why }),
        }
        let slots = roof.trimmers.iter().filter(|t| t.slotted).zip(std::iter::repeat(last_core));
        roof.zones.extend(slots.filter_map(|(t, core)| {
            Some(Zone {
                rect: Rect { x0: t.x - t.width / 2.0, x1: t.x + t.width / 2.0, y0: t.y0, y1: t.y1 },
                layer: core?,
                state: LayerState { slot: 1.0, ..LayerState::SOUND },
            })
        }));
    }
    if missing.is_empty() { Ok(roof) } else { Err(missing) }
}

/// Whether a damage is mended in a stage.
pub(crate) fn mended(damage: &Damage, survey: &Survey, stage: StageChoice) -> bool {
    let Some(until) = &damage.until else { return false };
    match stage {
        StageChoice::AsFound => false,
        StageChoice::Finished => true,
        StageChoice::Named(now) => {
            survey.stages.iter().position(|s| s.name == *until).is_some_and(|from| from <= now)
        }
    }
}

/// What has no strength left carries nothing, and foam that carries nothing is a void that the skins bridge.
fn carrying(state: LayerState, role: Role) -> LayerState {
    let nothing = state.stiffness <= 0.0 || state.strength <= 0.0;
    match role {
        Role::Core if nothing => LayerState { stiffness: 1.0, slot: 1.0, ..state },
        Role::Outer | Role::Inner if nothing => LayerState { stiffness: 0.0, ..state },
        _ => state,
    }
}

/// What a state leaves of a layer, in one bracket; `None` where the state means nothing for it.
fn left_by(state: &DamageState, kind: DamagedLayer, materials: Materials) -> Option<LayerState> {
    match state {
        DamageState::Remaining { stiffness, strength } => Some(LayerState {
            stiffness: *stiffness,
            strength: *strength,
            crush: *strength,
            ..LayerState::SOUND
        }),
        DamageState::Table(row) => {
            let effect = row.effect_on(kind)?;
            let share = |v: &section_tables::Value, is_strength: bool| match (materials, is_strength) {
                (Materials::Low, _) | (Materials::High, true) => v.low,
                (Materials::Default, _) => v.default,
                (Materials::High, false) => v.high,
            };
            Some(LayerState {
                stiffness: share(&effect.stiffness, false),
                strength: share(&effect.strength, true),
                crush: share(&effect.crush, true),
                bonded: effect.bond,
                slot: 0.0,
                slot_from_top: false,
                water: effect.added_water_kg_m3.default,
                cut: [false; 2],
            })
        }
    }
}

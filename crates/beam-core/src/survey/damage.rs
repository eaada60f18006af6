//! Damage, slots and joints.

use super::{LayerMaterial, Patch};
use crate::quantity::Length;

/// What is left of a damaged layer.
#[derive(Debug, Clone)]
pub enum DamageState {
    /// A state of the tables.
    Table(Box<section_tables::DamageState>),
    /// Shares of stiffness and strength that remain, 0 to 1.
    Remaining {
        /// Share of stiffness.
        stiffness: f64,
        /// Share of strength.
        strength: f64,
    },
}

/// A damaged patch of one layer.
#[derive(Debug, Clone)]
pub struct Damage {
    /// Name.
    pub name: String,
    /// Index into the survey's layers.
    pub layer: usize,
    /// Where.
    pub patch: Patch,
    /// What is left.
    pub state: DamageState,
    /// Name of the stage from which it is mended; `None`: it stays.
    pub until: Option<String>,
}

/// From which face a slot is cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SlotFrom {
    /// From the weather side.
    Top,
    /// From the ceiling.
    Bottom,
}

/// A duct or wire way: core is missing.
#[derive(Debug, Clone)]
pub struct Slot {
    /// Where.
    pub patch: Patch,
    /// Depth; `None`: the full core.
    pub depth: Option<Length>,
    /// Face it is cut from (when not full).
    pub from: SlotFrom,
    /// What it is filled with again, if anything.
    pub filled: Option<LayerMaterial>,
}

/// Kind of a joint in a skin.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JointKind {
    /// No force crosses.
    Butt,
    /// A strip behind it.
    Backed,
    /// Scarfed: full strength.
    Scarfed,
}

/// Direction and place of a joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum JointLine {
    /// The joint lies at this distance along (it runs across).
    AtAlong(Length),
    /// The joint lies at this distance across (it runs along).
    AtAcross(Length),
}

/// A joint in a skin.
#[derive(Debug, Clone, PartialEq)]
pub struct Joint {
    /// Index into the survey's layers.
    pub layer: usize,
    /// Where.
    pub line: JointLine,
    /// Kind.
    pub kind: JointKind,
}

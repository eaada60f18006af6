//! What can be known about a panel material.

use std::fmt;

use serde::Deserialize;

/// Which file a property stands in, and with that its unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PropertyGroup {
    /// `stiffness.csv`, MPa.
    Stiffness,
    /// `strength.csv`, MPa.
    Strength,
    /// `density.csv`, kg/m3.
    Density,
    /// `ratios.csv`, no unit.
    Ratio,
    /// `thermal.csv`, 1/K.
    Thermal,
}

macro_rules! properties {
    ($($(#[$doc:meta])* $variant:ident, $key:literal, $group:ident;)*) => {
        /// One property of a panel material. `1` is along the grain of the face ply, `2` across it.
        ///
        /// Plywood has four moduli: the membrane ones belong to the layer pulled or pressed as a whole,
        /// the flexural ones to the layer bent by itself.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
        pub enum Property {
            $($(#[$doc])* #[serde(rename = $key)] $variant,)*
        }

        impl Property {
            /// Every property, in the order of the tables.
            pub const ALL: &[Self] = &[$(Self::$variant),*];

            /// The word used for it in the tables.
            pub fn key(self) -> &'static str {
                match self { $(Self::$variant => $key,)* }
            }

            /// The file it stands in.
            pub fn group(self) -> PropertyGroup {
                match self { $(Self::$variant => PropertyGroup::$group,)* }
            }
        }
    };
}

properties! {
    /// Modulus in the layer's plane, along the grain.
    E1Membrane, "e1_membrane", Stiffness;
    /// Modulus in the layer's plane, across the grain.
    E2Membrane, "e2_membrane", Stiffness;
    /// Modulus of the layer bent by itself, along the grain.
    E1Flexural, "e1_flexural", Stiffness;
    /// Modulus of the layer bent by itself, across the grain.
    E2Flexural, "e2_flexural", Stiffness;
    /// Shear modulus in the layer's plane.
    G12, "g12", Stiffness;
    /// Shear modulus through the thickness, along the grain.
    G13, "g13", Stiffness;
    /// Shear modulus through the thickness, across the grain (rolling).
    G23, "g23", Stiffness;
    /// Modulus of a foam through its thickness, initial tangent.
    ECore, "e_core", Stiffness;
    /// Shear modulus of a foam.
    GCore, "g_core", Stiffness;
    /// Tension strength along the grain.
    Tension1, "tension_1", Strength;
    /// Tension strength across the grain.
    Tension2, "tension_2", Strength;
    /// Compression strength along the grain.
    Compression1, "compression_1", Strength;
    /// Compression strength across the grain.
    Compression2, "compression_2", Strength;
    /// Bending strength of the layer by itself, along the grain.
    Bending1, "bending_1", Strength;
    /// Bending strength of the layer by itself, across the grain.
    Bending2, "bending_2", Strength;
    /// Shear strength in the layer's plane (shear through the thickness).
    ShearPanel, "shear_panel", Strength;
    /// Shear strength between the plies (rolling shear).
    ShearPlanar, "shear_planar", Strength;
    /// Stress of a foam at 10 percent compression, or at yield if that comes first.
    Crush, "crush", Strength;
    /// Stress of a foam at 1 percent compression: what leaves no lasting dent.
    Crush1Percent, "crush_1_percent", Strength;
    /// Shear strength of a foam.
    ShearCore, "shear_core", Strength;
    /// Tension strength of a foam, through its thickness.
    TensionCore, "tension_core", Strength;
    /// Compression strength of timber across the grain, under a seat.
    CompressionPerpendicular, "compression_perpendicular", Strength;
    /// Shear strength of timber along the grain.
    Shear, "shear", Strength;
    /// Density.
    Density, "density", Density;
    /// Major Poisson ratio in the layer's plane.
    Nu12, "nu12", Ratio;
    /// Poisson ratio of a foam.
    NuCore, "nu_core", Ratio;
    /// Creep of a foam in shear after 2000 h: lasting over first strain, less one.
    CreepShear2000h, "creep_shear_2000h", Ratio;
    /// Creep of a foam in shear after 100 000 h: lasting over first strain, less one.
    CreepShear100000h, "creep_shear_100000h", Ratio;
    /// Creep of a skin or of timber: lasting over first strain, less one.
    KDef, "k_def", Ratio;
    /// Share of the moduli left in a roof heated by the sun.
    HeatModulus, "heat_modulus", Ratio;
    /// Share of the strengths left in a roof heated by the sun.
    HeatStrength, "heat_strength", Ratio;
    /// Share of a foam's shear strength left under a lasting load.
    LongTermShear, "long_term_shear", Ratio;
    /// Share of a foam's crush strength that may be used by a lasting load.
    LongTermCrush, "long_term_crush", Ratio;
    /// Strain per kelvin.
    ThermalExpansion, "thermal_expansion", Thermal;
}

impl Property {
    /// The unit its numbers are held in; `-` for a bare ratio.
    pub fn unit(self) -> &'static str {
        match self.group() {
            PropertyGroup::Stiffness | PropertyGroup::Strength => "MPa",
            PropertyGroup::Density => "kg/m3",
            PropertyGroup::Ratio => "-",
            PropertyGroup::Thermal => "1/K",
        }
    }
}

impl fmt::Display for Property {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.key())
    }
}

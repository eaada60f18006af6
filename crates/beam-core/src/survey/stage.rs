//! Order of work.

use crate::quantity::{Celsius, Length};

/// A prop under the roof.
#[derive(Debug, Clone, PartialEq)]
pub struct Prop {
    /// Where across.
    pub across: Length,
    /// Where along.
    pub along: Length,
    /// Its pad, across and along.
    pub pad: Option<[Length; 2]>,
}

/// How far new bonds have cured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Cure {
    /// Fully.
    Full,
    /// Hours at a temperature.
    Time {
        /// Hours.
        hours: f64,
        /// Temperature.
        at: Celsius,
    },
    /// Share of strength.
    Share(f64),
}

/// One stage of the work.
#[derive(Debug, Clone, PartialEq)]
pub struct Stage {
    /// Unique name.
    pub name: String,
    /// Indices of the layers that are there.
    pub layers: Vec<usize>,
    /// Indices of the braces that are there.
    pub braces: Vec<usize>,
    /// Cure of what is new in this stage.
    pub cured: Cure,
    /// Lifted past the found shape by props.
    pub raise: Option<Length>,
    /// Props.
    pub props: Vec<Prop>,
    /// Names of the loads of this stage.
    pub loads: Vec<String>,
}

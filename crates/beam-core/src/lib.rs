//! Mechanics and verdict for laminated vehicle roofs with braces.
//!
//! The way of the data, one direction only:
//!
//! ```text
//! survey -> loads -> model -> strip | plate | local -> strength -> check -> verdict
//! ```

pub mod quantity;

pub mod survey;

mod loads;

pub mod section;

mod model;

mod response;

pub mod strip;

pub mod plate;

pub mod local;

pub mod forming;

pub mod strength;

pub mod check;

pub mod ask;

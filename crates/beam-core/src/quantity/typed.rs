//! [`read`] with a typed answer, for those who do not want to name the measure twice.

use super::alias::{Density, Force, ForcePerLength, Length, Mass, Moment, Pressure, si};
use super::error::QuantityError;
use super::grammar::{Headers, read};
use super::units::Measure;

/// Reads a length, as [`read`] does.
///
/// # Errors
/// As [`read`].
///
/// # Examples
/// ```
/// use beam_core::quantity::{read_length, Headers};
/// assert_eq!(read_length("46 1/8 in", Headers::default())?.value, 1.171575);
/// # Ok::<(), beam_core::quantity::QuantityError>(())
/// ```
pub fn read_length(text: &str, headers: Headers) -> Result<Length, QuantityError> {
    read(text, Measure::Length, headers).map(si)
}

/// Reads a weight to the mass that has it under standard gravity, as [`read`] does.
///
/// # Errors
/// As [`read`].
pub fn read_weight(text: &str, headers: Headers) -> Result<Mass, QuantityError> {
    read(text, Measure::Weight, headers).map(si)
}

/// Reads a force, as [`read`] does; it must carry its unit.
///
/// # Errors
/// As [`read`].
pub fn read_force(text: &str) -> Result<Force, QuantityError> {
    read(text, Measure::Force, Headers::default()).map(si)
}

/// Reads a stress, pressure or modulus, as [`read`] does; it must carry its unit.
///
/// # Errors
/// As [`read`].
pub fn read_pressure(text: &str) -> Result<Pressure, QuantityError> {
    read(text, Measure::Pressure, Headers::default()).map(si)
}

/// Reads a density, as [`read`] does; it must carry its unit.
///
/// # Errors
/// As [`read`].
pub fn read_density(text: &str) -> Result<Density, QuantityError> {
    read(text, Measure::Density, Headers::default()).map(si)
}

/// Reads a force per length, as [`read`] does; it must carry its unit.
///
/// # Errors
/// As [`read`].
pub fn read_force_per_length(text: &str) -> Result<ForcePerLength, QuantityError> {
    read(text, Measure::LinePressure, Headers::default()).map(si)
}

/// Reads a moment or torque, as [`read`] does; it must carry its unit.
///
/// # Errors
/// As [`read`].
pub fn read_moment(text: &str) -> Result<Moment, QuantityError> {
    read(text, Measure::Torque, Headers::default()).map(si)
}

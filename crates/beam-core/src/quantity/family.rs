//! The two families of quantities people use.

/// What a person measures in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Family {
    /// Inches and pounds.
    Inch,
    /// Millimetres and kilograms.
    Metric,
}

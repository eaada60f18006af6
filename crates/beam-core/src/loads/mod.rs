//! Cases and factors, each with its source.

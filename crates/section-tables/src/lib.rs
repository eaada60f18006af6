//! Data tables.

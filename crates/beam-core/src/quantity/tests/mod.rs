//! The reader held against a table written by hand, and against its own writers.

mod properties;
mod table;

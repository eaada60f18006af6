//! The two-way roof.

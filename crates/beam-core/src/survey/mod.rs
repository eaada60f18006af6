//! What was measured.

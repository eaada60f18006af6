//! verification

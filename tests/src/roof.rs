//! Whole roofs.

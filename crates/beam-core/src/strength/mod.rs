//! Limits, one failure mode a file.

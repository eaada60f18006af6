//! Shared helpers of the test folders.

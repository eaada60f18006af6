//! Under a foot: skin on foam.

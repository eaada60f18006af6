//! The pencil check: one strip across the roof, with its braces.

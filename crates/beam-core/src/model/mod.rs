//! From survey to idealised roof; every simplification is recorded.

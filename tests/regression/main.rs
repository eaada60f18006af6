//! regression

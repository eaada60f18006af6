//! Demand over limit.

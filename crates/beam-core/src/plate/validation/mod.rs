//! The two-way model against closed forms and published or independently computed values.

//! Tests of: fill.

//! Tests of: checks.

//! Tests of: plans.

//! Tests of: garden.

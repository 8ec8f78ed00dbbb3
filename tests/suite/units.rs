//! Tests of: units.

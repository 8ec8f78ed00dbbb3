//! Tests of: layers.

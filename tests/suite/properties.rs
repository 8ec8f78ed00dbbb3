//! Tests of: properties.

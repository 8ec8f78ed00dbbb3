//! Tests of: keys.

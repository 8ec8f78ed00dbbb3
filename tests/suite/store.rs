//! Tests of: store.

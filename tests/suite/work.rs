//! Tests of: work.

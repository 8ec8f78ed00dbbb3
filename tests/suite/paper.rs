//! Tests of: paper.

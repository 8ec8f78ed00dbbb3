//! Tests of: stories.

//! Tests of: growth.

//! Tests of: site.

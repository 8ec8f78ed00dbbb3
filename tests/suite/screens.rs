//! Tests of: screens.

//! Tests of: terminal.

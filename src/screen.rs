//! Room `screen`.

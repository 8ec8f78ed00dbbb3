//! Room `work`.

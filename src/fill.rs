//! Room `fill`.

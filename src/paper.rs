//! Room `paper`.

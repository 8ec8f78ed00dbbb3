//! Room `plan`.

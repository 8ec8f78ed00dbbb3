//! Room `calendar`.

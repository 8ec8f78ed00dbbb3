//! Room `store`.

//! Room `garden`.

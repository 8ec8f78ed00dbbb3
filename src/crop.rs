//! Room `crop`.

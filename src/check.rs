//! Room `check`.

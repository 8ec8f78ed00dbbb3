//! Room `app`.

//! Room `site`.

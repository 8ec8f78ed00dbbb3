//! Room `growth`.

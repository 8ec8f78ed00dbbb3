//! The one test binary: behaviour against the outside world first, then properties, then screens.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failing test says why by stopping"
)]

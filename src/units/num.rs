//! Conversions between number types, total and in one place, so that no other file needs `as`.

#![expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    reason = "each function here states and bounds what its cast may lose"
)]

/// A count as a real number (exact below 2^53).
pub const fn real(n: usize) -> f64 {
    n as f64
}
/// A signed whole number as a real number (exact below 2^53).
pub const fn real_i(n: i64) -> f64 {
    n as f64
}
/// The nearest whole number; saturates, NaN gives 0.
pub fn round_i(x: f64) -> i64 {
    x.round() as i64
}
/// The nearest whole number not below zero; saturates, NaN gives 0.
pub fn round_u(x: f64) -> usize {
    x.round() as usize
}
/// The whole part not below zero; saturates, NaN gives 0.
pub const fn floor_u(x: f64) -> usize {
    x as usize
}
/// A count as a signed number; saturates.
pub const fn signed(n: usize) -> i64 {
    if n > i64::MAX as usize { i64::MAX } else { n as i64 }
}
/// A signed number as a count; negative gives 0.
pub const fn count(n: i64) -> usize {
    if n < 0 { 0 } else { n as usize }
}
/// A count as 16 bits; saturates.
pub const fn small(n: usize) -> u16 {
    if n > u16::MAX as usize { u16::MAX } else { n as u16 }
}
/// A count as 8 bits; saturates.
pub const fn byte(n: usize) -> u8 {
    if n > u8::MAX as usize { u8::MAX } else { n as u8 }
}
/// A count as 32 bits; saturates.
pub const fn word(n: usize) -> u32 {
    if n > u32::MAX as usize { u32::MAX } else { n as u32 }
}
/// A 32-bit number as an index; exact.
pub const fn index(n: u32) -> usize {
    n as usize
}
/// A real number narrowed for drawing.
pub const fn narrow(x: f64) -> f32 {
    x as f32
}
/// `x mod n` in `0..n` for any whole `x`; `n` = 0 gives 0.
pub fn wrap(x: i64, n: usize) -> usize {
    if n == 0 { 0 } else { x.rem_euclid(n as i64) as usize }
}

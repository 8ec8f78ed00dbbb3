//! The one place where RON is read and written.

use ron::extensions::Extensions;
use serde::de::DeserializeOwned;

/// The options of every RON file: optional values are written without `Some`.
pub fn options() -> ron::Options {
    ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// Reads a value from RON text.
///
/// # Errors
/// Where the text is no such value: with line and column.
pub fn read<T: DeserializeOwned>(text: &str) -> Result<T, ron::error::SpannedError> {
    options().from_str(text)
}

//! The one place where RON is read and written.

use super::fault::{Fault, Source, explain};
use super::layout;
use super::tree::Step;
use ron::extensions::Extensions;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_path_to_error::Segment;

/// The options of every RON file: optional values are written without `Some`.
pub fn options() -> ron::Options {
    ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// Reads a value from the text of a file; `file` is its name as the grower knows it.
///
/// # Errors
/// Where the text is no such value: the place, what was expected and a hint.
pub fn read<T: DeserializeOwned>(file: &str, text: &str) -> Result<T, Box<Fault>> {
    read_part(&Source { file, text }, text, 0, &[])
}

/// Reads a value from a part of a file that begins at byte `start` and whose path is `path`; faults point into the
/// whole file.
pub(super) fn read_part<T: DeserializeOwned>(
    source: &Source<'_>,
    part: &str,
    start: usize,
    path: &[Step],
) -> Result<T, Box<Fault>> {
    // Blank lines and spaces before the part keep every position true without a second count.
    let padded;
    let text = if start == 0 {
        part
    } else {
        padded = blank(source.text.get(..start).unwrap_or_default()) + part;
        &padded
    };
    let fail = |error: &ron::error::SpannedError, inner: &[Step], surely: bool| {
        let whole: Vec<Step> = path.iter().chain(inner).cloned().collect();
        Box::new(explain(source, error, &whole, surely))
    };
    let mut reader = match ron::de::Deserializer::from_str_with_options(text, &options()) {
        Ok(reader) => reader,
        Err(error) => return Err(fail(&error, &[], false)),
    };
    let value = serde_path_to_error::deserialize(&mut reader).map_err(|error| {
        let (inner, surely) = steps(error.path());
        fail(&reader.span_error(error.into_inner()), &inner, surely)
    })?;
    match reader.end() {
        Ok(()) => Ok(value),
        Err(error) => Err(fail(&reader.span_error(error), &[], false)),
    }
}

/// The same text with every letter but the line ends made blank.
fn blank(text: &str) -> String {
    text.chars().map(|c| if c == '\n' { c } else { ' ' }).collect()
}

/// The path as far as it is known, and whether it is known to its end.
fn steps(path: &serde_path_to_error::Path) -> (Vec<Step>, bool) {
    let mut out = Vec::new();
    for segment in path {
        match segment {
            Segment::Seq { index } => out.push(Step::Item(*index)),
            Segment::Map { key } => out.push(Step::Key(key.clone())),
            Segment::Enum { .. } => {}
            Segment::Unknown => return (out, false),
        }
    }
    (out, true)
}

/// Writes a value on one line.
///
/// # Errors
/// Where a value has no form in RON, which no type of this program allows.
pub(super) fn line<T: Serialize>(value: &T) -> Result<String, ron::Error> {
    options().to_string(value)
}

/// Writes a value laid out for reading.
///
/// # Errors
/// As [`line`].
pub(super) fn pretty<T: Serialize>(value: &T) -> Result<String, ron::Error> {
    line(value).map(|compact| layout::lay_out(&compact))
}

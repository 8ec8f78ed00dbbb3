//! A mistake in a file: where, what, and how to mend it.

use super::near::nearest;
use super::tree::{Node, Step, Tree, Trouble, bare};
use crate::calendar::read_date;
use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};
use std::fmt;
use std::ops::Range;

/// How much a fault weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Weight {
    /// The file, or this part of it, cannot be used.
    Error,
    /// It is used, but the grower should know.
    Remark,
}

/// A mistake in a file. Its `Display` is the whole report with the line and a caret.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// How much it weighs.
    pub weight: Weight,
    /// The file.
    pub file: String,
    /// Line, from 1.
    pub line: usize,
    /// Letter in the line, from 1.
    pub column: usize,
    /// Field: `plantings[3].place`; empty for the file as a whole.
    pub path: String,
    /// What is wrong.
    pub words: String,
    /// How to mend it.
    pub help: Option<String>,
    report: String,
}

impl Fault {
    /// A fault at bytes of a source text.
    pub(super) fn at(weight: Weight, source: &Source<'_>, span: &Range<usize>, said: Said) -> Self {
        let (line, column) = place(source.text, span.start);
        let shown = shown(source.text, span);
        let level = match weight {
            Weight::Error => Level::ERROR,
            Weight::Remark => Level::NOTE,
        };
        let label = (!said.path.is_empty()).then(|| said.path.clone());
        let snippet = Snippet::source(source.text)
            .path(source.file)
            .annotation(AnnotationKind::Primary.span(shown).label(label));
        let mut group = level.primary_title(said.words.as_str()).element(snippet);
        if let Some(help) = &said.help {
            group = group.element(Level::HELP.message(help.as_str()));
        }
        let report = Renderer::plain().render(&[group]);
        Self {
            weight,
            file: source.file.to_owned(),
            line,
            column,
            path: said.path,
            words: said.words,
            help: said.help,
            report,
        }
    }

    /// A fault at the value of a path.
    pub(super) fn on(
        weight: Weight,
        source: &Source<'_>,
        tree: &Tree<'_>,
        path: &[Step],
        said: Said,
    ) -> Self {
        let span = tree.find(path).map_or(0..0, |node| node.span.clone());
        let said = if said.path.is_empty() { Said { path: path_text(path), ..said } } else { said };
        Self::at(weight, source, &span, said)
    }

    /// A fault of a file as a whole, without a place in it.
    pub(super) fn whole(weight: Weight, file: &str, words: &str, help: Option<String>) -> Self {
        let name = match weight {
            Weight::Error => "error",
            Weight::Remark => "note",
        };
        let report = help.as_ref().map_or_else(
            || format!("{name}: {file}: {words}"),
            |help| format!("{name}: {file}: {words}\n  = help: {help}"),
        );
        Self {
            weight,
            file: file.to_owned(),
            line: 1,
            column: 1,
            path: String::new(),
            words: words.to_owned(),
            help,
            report,
        }
    }

    /// It in one line: "garden.ron:3:7: unknown field 'dais'; did you mean 'days'?".
    pub fn line_text(&self) -> String {
        let help = self.help.as_ref().map(|h| format!("; {h}")).unwrap_or_default();
        format!("{}:{}:{}: {}{help}", self.file, self.line, self.column, self.words)
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.report)
    }
}

/// A file's name as the grower knows it, and its text.
#[derive(Debug, Clone, Copy)]
pub(super) struct Source<'t> {
    pub(super) file: &'t str,
    pub(super) text: &'t str,
}

/// The words of a fault.
#[derive(Debug, Clone, Default)]
pub(super) struct Said {
    pub(super) path: String,
    pub(super) words: String,
    pub(super) help: Option<String>,
}

impl Said {
    /// Only words.
    pub(super) fn new(words: impl Into<String>) -> Self {
        Self { words: words.into(), ..Self::default() }
    }
    /// With a way to mend it.
    pub(super) fn help(self, help: impl Into<String>) -> Self {
        Self { help: Some(help.into()), ..self }
    }
    /// With a way to mend it, where there is one.
    pub(super) fn maybe(self, help: Option<String>) -> Self {
        Self { help, ..self }
    }
}

/// "plantings[3].place".
pub(super) fn path_text(path: &[Step]) -> String {
    let mut out = String::new();
    for step in path {
        match step {
            Step::Key(name) => {
                if !out.is_empty() {
                    out.push('.');
                }
                out.push_str(name);
            }
            Step::Item(n) => {
                out.push('[');
                out.push_str(&n.to_string());
                out.push(']');
            }
        }
    }
    out
}

/// Line and letter of a byte, both from 1.
fn place(text: &str, byte: usize) -> (usize, usize) {
    let before = text.get(..byte.min(text.len())).unwrap_or(text);
    let line = before.matches('\n').count() + 1;
    let column = before.rsplit('\n').next().unwrap_or_default().chars().count() + 1;
    (line, column)
}

/// What the caret marks: not empty, within one line, on letter borders.
fn shown(text: &str, span: &Range<usize>) -> Range<usize> {
    let border = |mut at: usize| {
        at = at.min(text.len());
        while !text.is_char_boundary(at) {
            at += 1;
        }
        at
    };
    let mut start = border(span.start);
    if start == text.len() {
        // An end of file is shown at the last letter of the text.
        start = text.trim_end().char_indices().next_back().map_or(0, |(at, _)| at);
    }
    let line_end = text.get(start..).and_then(|rest| rest.find('\n')).map_or(text.len(), |n| start + n);
    let end = border(span.end).min(line_end);
    let end = if end > start { end } else { border((start + 1).min(text.len())) };
    start..end
}

/// Where a reader of RON stopped, in words a grower can use.
pub(super) fn explain(
    source: &Source<'_>,
    error: &ron::error::SpannedError,
    path: &[Step],
    surely: bool,
) -> Fault {
    let tree = Tree::of(source.text);
    if let Some(fault) = brackets(source, &tree) {
        return fault;
    }
    let span = byte(source.text, error.span.start)..byte(source.text, error.span.end);
    let node = if surely { tree.find(path) } else { None };
    let pinned = node.filter(|n| !n.is_group() || tree.root.as_ref() != Some(*n)).map(|n| n.span.clone());
    let (said, exact) = words(&error.code, &tree, node);
    let said = Said { path: path_text(path), ..said };
    let span = if exact { span } else { pinned.unwrap_or(span) };
    Fault::at(Weight::Error, source, &span, said)
}

/// Brackets that do not match explain every error that follows from them.
fn brackets(source: &Source<'_>, tree: &Tree<'_>) -> Option<Fault> {
    let sign = |at: usize| source.text.get(at..).and_then(|t| t.chars().next()).unwrap_or(' ');
    let (at, said) = match tree.trouble? {
        Trouble::Unclosed(open) => (
            open,
            Said::new(format!("this '{}' is never closed", sign(open)))
                .help(format!("add the missing '{}' where its content ends", closing(sign(open)))),
        ),
        Trouble::Crossed { open, close } => {
            let (line, column) = place(source.text, open);
            (
                close,
                Said::new(format!(
                    "'{}' cannot close the '{}' of line {line}, column {column}",
                    sign(close),
                    sign(open)
                ))
                .help(format!("a '{}' is missing somewhere between there and here", closing(sign(open)))),
            )
        }
        Trouble::Stray(close) => (
            close,
            Said::new(format!("this '{}' closes nothing", sign(close)))
                .help("take it away, or add the opening one before it"),
        ),
        Trouble::Endless(open) => (
            open,
            Said::new("a text or comment that begins on this line has no end")
                .help("look for a missing quote on this line, or a missing '*/' of a comment"),
        ),
    };
    Some(Fault::at(Weight::Error, source, &(at..at + 1), said))
}

const fn closing(open: char) -> char {
    match open {
        '[' => ']',
        '{' => '}',
        _ => ')',
    }
}

/// Bytes before a position that counts lines and letters from 1.
fn byte(text: &str, at: ron::error::Position) -> usize {
    let start: usize = text.split_inclusive('\n').take(at.line.saturating_sub(1)).map(str::len).sum();
    let rest = text.get(start..).unwrap_or_default();
    start + rest.char_indices().nth(at.col.saturating_sub(1)).map_or(rest.len(), |(i, _)| i)
}

fn names(expected: &[&str]) -> String {
    expected.join(", ")
}

fn unknown(found: &str, expected: &'static [&'static str], what: &str) -> Option<String> {
    nearest(found, expected.iter().copied())
        .map(|near| format!("did you mean '{near}'?"))
        .or_else(|| (!expected.is_empty()).then(|| format!("{what}: {}", names(expected))))
}

/// Words for an error, and whether its own place is exact.
#[expect(
    clippy::wildcard_enum_match_arm,
    reason = "the library may add kinds of error; its own words serve then"
)]
fn words(code: &ron::Error, tree: &Tree<'_>, node: Option<&Node>) -> (Said, bool) {
    use ron::Error as E;
    let found = node.filter(|n| !n.is_group()).map(|n| tree.slice(&n.span)).unwrap_or_default();
    let said = match code {
        E::NoSuchStructField { expected, found, .. } => {
            let help = unknown(found, expected, "fields here");
            return (Said::new(format!("unknown field '{found}'")).maybe(help), true);
        }
        E::NoSuchEnumVariant { expected, found, .. } => {
            let help = unknown(found, expected, "one of");
            return (Said::new(format!("unknown word '{found}'")).maybe(help), true);
        }
        E::MissingStructField { field, .. } => {
            let said = Said::new(format!("the field '{field}' is missing"))
                .help(format!("add '{field}: ...' to this record"));
            return (said, true);
        }
        E::DuplicateStructField { field, .. } => {
            let said =
                Said::new(format!("the field '{field}' stands here twice")).help("keep one of the two");
            return (said, true);
        }
        E::ExpectedComma => {
            return (Said::new("a comma is missing here").help("put ',' before it"), true);
        }
        E::ExpectedMapColon => {
            return (Said::new("a colon is missing here").help("write 'name: value'"), true);
        }
        E::TrailingCharacters => {
            let said = Said::new("the file should end here").help("take away what follows the last bracket");
            return (said, true);
        }
        E::IntegerOutOfBounds => Said::new("this number is too large or too small for this field"),
        E::ExpectedInteger => wanted("a whole number", found),
        E::InvalidIntegerDigit { digit, .. } => Said::new(format!("'{digit}' is no digit of a whole number")),
        E::ExpectedFloat => wanted("a number", found),
        E::ExpectedBoolean => wanted("'true' or 'false'", found),
        E::ExpectedString => wanted("a text in quotes", found),
        E::ExpectedArray => wanted("a list in square brackets", found),
        E::ExpectedMap => wanted("entries in curly brackets", found),
        E::ExpectedStructLike | E::ExpectedNamedStructLike(_) => wanted("a record in round brackets", found),
        E::ExpectedStructLikeEnd => {
            Said::new("a closing ')' is missing here, or there is one value too many")
        }
        E::ExpectedArrayEnd => Said::new("a closing ']' is missing here, or there is one value too many"),
        E::ExpectedIdentifier => wanted("a name", found),
        E::Eof => {
            Said::new("the file ends too early").help("is part of it lost? a backup may stand beside it")
        }
        E::ExpectedDifferentLength { expected, found } => {
            Said::new(format!("{expected} wanted, {found} given"))
        }
        E::InvalidValueForType { expected, found } => {
            Said::new(format!("{expected} is wanted here, not {found}"))
        }
        E::Message(text) => message(text, found),
        other => Said::new(other.to_string()),
    };
    (said, false)
}

/// "a number is wanted here, not "40"", with the likely slip.
fn wanted(what: &str, found: &str) -> Said {
    let inner = bare(found);
    if found.is_empty() {
        return Said::new(format!("{what} is wanted here"));
    }
    let said = Said::new(format!("{what} is wanted here, not {found}"));
    if inner != found && what.contains("number") && inner.trim().parse::<f64>().is_ok() {
        return said.help(format!("write it without quotes: {}", inner.trim()));
    }
    if inner == found && what.contains("quotes") {
        return said.help(if inner.parse::<f64>().is_ok() {
            format!("put it in quotes, with its unit where it has one: \"{found} cm\"")
        } else {
            format!("put it in quotes: \"{found}\"")
        });
    }
    said
}

/// What the date reader says when a text is no date.
const NO_DATE: [&str; 5] = [
    "input contains invalid characters",
    "input is out of range",
    "premature end of input",
    "trailing input",
    "no possible date and time matching input",
];

/// Messages of our own types are words already; those of the date reader are not.
fn message(text: &str, found: &str) -> Said {
    if NO_DATE.contains(&text)
        && let Err(error) = read_date(bare(found))
    {
        return Said::new(error.to_string());
    }
    if text.contains("weekday") {
        return Said::new(format!("{found} is not a day of the week: write \"Mon\", \"Tue\" ... \"Sun\""));
    }
    Said::new(text)
}

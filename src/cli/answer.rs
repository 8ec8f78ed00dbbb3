//! What a command hands back, and what it says when it cannot.

use crate::plan::EditError;
use crate::site::SiteError;
use crate::store::StoreError;
use std::io::Write;
use std::process::ExitCode;

/// Exit codes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Code {
    /// Done.
    Done = 0,
    /// The check found something that stops.
    Stops = 1,
    /// Wrong use, or a file whose content cannot be used.
    Wrong = 2,
    /// Reading or writing failed.
    Files = 3,
}

impl From<Code> for ExitCode {
    fn from(code: Code) -> Self {
        Self::from(match code {
            Code::Done => 0,
            Code::Stops => 1,
            Code::Wrong => 2,
            Code::Files => 3,
        })
    }
}

/// What a command hands back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Answer {
    /// For the standard output.
    pub(super) out: Vec<u8>,
    /// Remarks by the way, for the standard error.
    pub(super) said: Vec<String>,
    /// How it went.
    pub(super) code: Code,
}

impl Answer {
    /// A text.
    pub(super) fn text(text: impl Into<String>) -> Self {
        Self { out: text.into().into_bytes(), said: Vec::new(), code: Code::Done }
    }
    /// A text, or the same as JSON where that was asked for.
    pub(super) fn either(
        json: bool,
        text: impl FnOnce() -> String,
        value: impl FnOnce() -> serde_json::Value,
    ) -> Self {
        Self::text(if json { format!("{:#}\n", value()) } else { text() })
    }
    /// The same with remarks.
    pub(super) fn saying(mut self, said: impl IntoIterator<Item = String>) -> Self {
        self.said.extend(said);
        self
    }
    /// The same with another exit code.
    pub(super) const fn code(mut self, code: Code) -> Self {
        self.code = code;
        self
    }
    /// Prints it. A reader that closed its end early, such as `head`, is no error.
    pub(super) fn print(&self) -> ExitCode {
        for line in &self.said {
            note(line);
        }
        let mut out = anstream::stdout();
        match out.write_all(&self.out).and_then(|()| out.flush()) {
            Err(e) if e.kind() != std::io::ErrorKind::BrokenPipe => {
                error(&format!("cannot write to the standard output: {e}"));
                Code::Files.into()
            }
            _ => self.code.into(),
        }
    }
}

/// Why a command could not be done.
#[derive(Debug, thiserror::Error)]
pub(super) enum Trouble {
    /// Wrong use: what is wrong and how to mend it.
    #[error("{0}")]
    Wrong(String),
    /// A file.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// A site.
    #[error(transparent)]
    Site(#[from] SiteError),
    /// A change that does not fit the garden.
    #[error(transparent)]
    Edit(#[from] EditError),
    /// Reading or writing of something that is no plan file.
    #[error("{0}")]
    Io(String),
}

impl Trouble {
    /// Wrong use.
    pub(super) fn wrong(words: impl Into<String>) -> Self {
        Self::Wrong(words.into())
    }
    /// Its exit code.
    pub(super) const fn code(&self) -> Code {
        match self {
            Self::Wrong(_) | Self::Site(_) | Self::Edit(_) => Code::Wrong,
            Self::Store(error) if error.is_content() => Code::Wrong,
            Self::Store(_) | Self::Io(_) => Code::Files,
        }
    }
    /// Prints it.
    pub(super) fn print(&self) -> ExitCode {
        match self {
            // The reports of a file's content are whole already.
            Self::Store(StoreError::Content(_)) => say(&self.to_string()),
            Self::Wrong(_) | Self::Store(_) | Self::Site(_) | Self::Edit(_) | Self::Io(_) => {
                error(&self.to_string());
            }
        }
        self.code().into()
    }
}

fn error(words: &str) {
    let style = anstyle::AnsiColor::Red.on_default().bold();
    say(&format!("{style}error:{style:#} {words}"));
}

fn note(words: &str) {
    if words.starts_with("note:") || words.starts_with("error:") {
        say(words);
    } else {
        let style = anstyle::AnsiColor::Cyan.on_default().bold();
        say(&format!("{style}note:{style:#} {words}"));
    }
}

fn say(words: &str) {
    // Where even the standard error is closed, there is nobody to tell.
    drop(writeln!(anstream::stderr(), "{words}"));
}

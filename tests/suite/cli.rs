//! Commands: the binary in a temporary folder with a fixed day, and the JSON contract.

mod files;
mod fill;
mod grow;
mod looks;

use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// What a run left behind.
pub(crate) struct Ran {
    pub(crate) code: i32,
    pub(crate) out: String,
    pub(crate) said: String,
}

impl Ran {
    pub(crate) fn json(&self) -> Value {
        serde_json::from_str(&self.out).unwrap_or_else(|e| panic!("{e}: {}{}", self.out, self.said))
    }
    /// Its output, once it went well.
    pub(crate) fn done(self) -> String {
        assert_eq!(self.code, 0, "{}{}", self.out, self.said);
        self.out
    }
}

/// A folder of its own, with no settings and no terminal.
pub(crate) struct Home(tempfile::TempDir);

impl Home {
    pub(crate) fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }
    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }
    pub(crate) fn file(&self, name: &str, text: &str) -> String {
        std::fs::create_dir_all(self.path(name).parent().unwrap()).unwrap();
        std::fs::write(self.path(name), text).unwrap();
        name.to_owned()
    }
    pub(crate) fn run(&self, args: &[&str]) -> Ran {
        let run = Command::new(env!("CARGO_BIN_EXE_catchcrop"))
            .args(args)
            .current_dir(self.0.path())
            .env_clear()
            .env("HOME", self.0.path())
            .stdin(Stdio::null())
            .output()
            .unwrap();
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
        Ran { code: run.status.code().unwrap_or(-1), out: text(run.stdout), said: text(run.stderr) }
    }
}

/// The path of a file of `plans/`.
pub(crate) fn example(name: &str) -> String {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("plans").join(name).display().to_string()
}

//! Arguments, subcommands, words to the user and exit codes.
//!
//! What a command says is made by the pure functions of [`say`], as text or as JSON; the rest of this room reads
//! arguments, opens files, asks the clock and prints.

mod act;
mod answer;
mod args;
mod ask;
mod here;
mod measures;
pub mod say;
mod table;
mod whence;

use answer::Code;
use args::Cli;
use clap::Parser;
use std::process::ExitCode;

/// Runs the program with the arguments of the process.
pub fn main() -> ExitCode {
    let cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(error) => {
            // Help and version are no errors and go to the standard output.
            drop(error.print());
            return if error.use_stderr() { Code::Wrong.into() } else { Code::Done.into() };
        }
    };
    match act::run(cli, &here::Here::now()) {
        Ok(answer) => answer.print(),
        Err(trouble) => trouble.print(),
    }
}

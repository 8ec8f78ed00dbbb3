//! Arguments, subcommands, words to the user and exit codes.

/// Runs the program with the arguments of the process.
pub fn main() -> std::process::ExitCode {
    std::process::ExitCode::SUCCESS
}

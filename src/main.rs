//! Turns an outcome into an exit code; everything else is in the library.

fn main() -> std::process::ExitCode {
    catchcrop::cli::main()
}

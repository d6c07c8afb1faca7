//! The language server alone, on standard input and output.

use std::process::ExitCode;

fn main() -> std::io::Result<ExitCode> {
    finwright_server::run()
}

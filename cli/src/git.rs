//! Git, asked as a command, in the folder that this one was started in.

use crate::collect::STARTED_IN;
use std::io::{Error, ErrorKind};
use std::process::{Command, Stdio};

/// Why git gives no answer.
pub enum Failed {
    /// It isn't installed.
    NotInstalled(Error),
    /// It can't be started.
    NotStarted(Error),
    /// It ends with an error: the first line of what it says, which has the cause; empty where it says nothing.
    Says(String),
}

/// What git answers.
pub fn asked(arguments: &[&str]) -> Result<Vec<u8>, Failed> {
    let output = Command::new("git").args(arguments).current_dir(&*STARTED_IN).stdin(Stdio::null()).output();
    let output = output.map_err(|error| match error.kind() {
        ErrorKind::NotFound => Failed::NotInstalled(error),
        _ => Failed::NotStarted(error),
    })?;
    if output.status.success() {
        return Ok(output.stdout);
    }
    let said = String::from_utf8_lossy(&output.stderr);
    Err(Failed::Says(said.lines().next().unwrap_or("").trim_start_matches("fatal: ").to_string()))
}

/// The commit of a revision's name, which may not be taken for an option.
pub fn commit(revision: &str) -> Result<String, Failed> {
    let name = format!("{revision}^{{commit}}");
    asked(&["rev-parse", "--verify", "--quiet", "--end-of-options", &name]).map(|answer| line(&answer))
}

/// An answer of one line as text.
pub fn line(answer: &[u8]) -> String {
    String::from_utf8_lossy(answer).trim_end_matches(['\n', '\r']).to_string()
}

//! Writing, and giving up politely.

use crate::layout::{measure, paragraph};
use serde::Serialize;
use std::io::Write;
use std::process::ExitCode;

/// Exit status for input that can't be used.
pub const UNUSABLE: u8 = 2;

/// Write to standard output; a reader that has gone away (`| head`) isn't an error.
pub fn print(text: &str) {
    let mut out = std::io::stdout().lock();
    let _ = out.write_all(text.as_bytes()).and_then(|()| out.flush());
}

/// Write a value as JSON, or say why it can't be, with the status to end with.
pub fn print_json(value: &impl Serialize) -> Result<(), ExitCode> {
    let text = serde_json::to_string_pretty(value).map_err(|error| unusable(&error.to_string()))?;
    print(&(text + "\n"));
    Ok(())
}

/// Say on standard error why nothing could be done.
pub fn unusable(reason: &str) -> ExitCode {
    eprintln!("finwright: {reason}");
    ExitCode::from(UNUSABLE)
}

/// What every page of computed numbers ends with.
pub const CAUTION: &str = "Computed from the file, not measured. The range safety officer and the local code decide.";

/// A closing sentence as a paragraph of its own.
pub fn closing(sentence: &str) -> String {
    format!("\n{}\n", paragraph(sentence, "", measure()))
}

/// So many of a thing: "1 error", "2 errors".
pub fn plural(n: usize, word: &str) -> String {
    if n == 1 {
        format!("1 {word}")
    } else {
        format!("{n} {word}s")
    }
}

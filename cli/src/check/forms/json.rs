//! `--format json` and `--format jsonl`.

use crate::check::line::VERSION;
use crate::check::report::Report;
use crate::check::results::Results;
use crate::check::tally::Tally;
use serde::{Deserialize, Serialize};

/// The last line of `--format jsonl`.
#[derive(Serialize, Deserialize)]
pub struct Summary {
    summary: Tally,
    version: u32,
}

/// One object.
pub fn whole(results: &Results) -> Result<String, String> {
    let text = serde_json::to_string_pretty(&Report::of(results)).map_err(|error| error.to_string())?;
    Ok(text + "\n")
}

/// An object a file, in the order that `LC_ALL=C sort` gives, then the summary; a part of a whole has none, so that the
/// lines of all parts are the lines of the whole.
pub fn lines(results: &Results, is_part: bool) -> Result<String, String> {
    let line = |file| serde_json::to_string(file).map_err(|error| error.to_string());
    let mut lines = results.files.iter().map(line).collect::<Result<Vec<String>, String>>()?;
    lines.sort_unstable();
    let mut out = String::with_capacity(lines.iter().map(|line| line.len() + 1).sum());
    for line in lines {
        out += &line;
        out.push('\n');
    }
    if !is_part {
        let summary = Summary { summary: Tally::of(results), version: VERSION };
        out += &serde_json::to_string(&summary).map_err(|error| error.to_string())?;
        out.push('\n');
    }
    Ok(out)
}

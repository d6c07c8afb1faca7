//! The forms that results are written in: for a reader, and for the programs that show or keep them.

mod github;
mod gitlab;
mod json;
mod junit;
mod rdjson;
mod rows;
mod sarif;
mod told;
mod words;

use super::run::Run;
use crate::output::printable;
use crate::written::write;
use clap::ValueEnum;
use std::path::PathBuf;
use std::str::FromStr;

/// How results are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// With the lines they are about.
    Text,
    /// One line a finding.
    Line,
    /// One JSON object: the findings, and what couldn't be used.
    Json,
    /// A JSON object a file on a line each, then a summary; `--from` reads them.
    Jsonl,
    /// SARIF 2.1.0, which code hosts show beside the code.
    Sarif,
    /// JUnit's XML: a test case a file.
    Junit,
    /// Annotations of a GitHub workflow.
    Github,
    /// A code quality report for GitLab.
    Gitlab,
    /// Reviewdog's diagnostics as one JSON object.
    Rdjson,
}

impl Format {
    /// Whether it's for programs, which read SI whoever asks.
    pub fn is_for_programs(self) -> bool {
        !matches!(self, Format::Text | Format::Line)
    }

    /// Whether it has a place for the edits that would mend a finding.
    pub fn has_fixes(self) -> bool {
        matches!(self, Format::Json | Format::Jsonl | Format::Sarif | Format::Rdjson)
    }
}

/// A format, and the file that it's written to where that isn't standard output.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    pub format: Format,
    pub file: Option<PathBuf>,
}

impl FromStr for Asked {
    type Err = String;

    fn from_str(text: &str) -> Result<Asked, String> {
        let (name, file) = match text.split_once('=') {
            Some((_, "")) => return Err("name the file behind the =".to_string()),
            Some((name, file)) => (name, Some(PathBuf::from(file))),
            None => (text, None),
        };
        let known = || {
            let names: Vec<String> = Format::value_variants().iter().filter_map(name_of).collect();
            format!("the formats are {}; NAME=FILE writes to a file", names.join(", "))
        };
        let format = Format::from_str(name, false).map_err(|_| known())?;
        Ok(Asked { format, file })
    }
}

fn name_of(format: &Format) -> Option<String> {
    Some(format.to_possible_value()?.get_name().to_string())
}

/// How the words are told.
#[derive(Clone, Copy)]
pub struct Manner {
    /// Only what keeps files from passing.
    pub quiet: bool,
    /// Whether this is a part of a whole, which sums up nothing.
    pub is_part: bool,
}

/// Results in a format.
pub fn in_format(format: Format, run: &Run, manner: Manner) -> Result<String, String> {
    let results = &run.results;
    match format {
        Format::Text => Ok(words::text(run, manner)),
        Format::Line => Ok(words::lines(run, manner)),
        Format::Json => json::whole(results),
        Format::Jsonl => json::lines(results, manner.is_part),
        Format::Sarif => Ok(sarif::sarif(results)),
        Format::Junit => Ok(junit::junit(results)),
        Format::Github => Ok(github::github(results)),
        Format::Gitlab => Ok(gitlab::gitlab(results)),
        Format::Rdjson => Ok(rdjson::rdjson(results)),
    }
}

/// Write results in every format that is asked for; an error where one can't be written.
pub fn write_all(asked: &[Asked], run: &Run, manner: Manner) -> Result<(), String> {
    for one in asked {
        let text = in_format(one.format, run, manner)?;
        match &one.file {
            Some(file) => write(file, text.as_bytes()).map_err(|reason| printable(&reason))?,
            None => crate::output::print_as_it_is(&text),
        }
    }
    Ok(())
}

//! `--from`: results that earlier runs have written as `jsonl`, put together.

use super::line::{FileResult, VERSION};
use crate::collect::is_stdin;
use serde::de::IgnoredAny;
use serde::Deserialize;
use std::collections::BTreeMap;
use std::io::{BufRead, BufReader, Read};
use std::path::Path;

/// Either kind of line.
#[derive(Deserialize)]
#[serde(untagged)]
enum Line {
    Summary {
        #[allow(dead_code)] // Each part's own sum says nothing of the whole.
        summary: IgnoredAny,
    },
    File(Box<FileResult>),
}

/// The files of a list, each once and in alphabetical order, or what is wrong with it.
pub fn read(path: &Path) -> Result<Vec<FileResult>, String> {
    let shown = path.display();
    let input: Box<dyn Read> = match is_stdin(path) {
        true => Box::new(std::io::stdin().lock()),
        false => {
            let file = std::fs::File::open(path);
            Box::new(file.map_err(|error| format!("{shown}: {}", finwright_disk::plain_words(error)))?)
        }
    };
    let mut files: BTreeMap<String, FileResult> = BTreeMap::new();
    for (number, line) in BufReader::new(input).lines().enumerate() {
        let at = |why: String| format!("{shown}, line {}: {why}", number + 1);
        let line = line.map_err(|error| at(finwright_disk::plain_words(error)))?;
        if line.trim().is_empty() {
            continue;
        }
        match serde_json::from_str::<Line>(&line) {
            Ok(Line::Summary { .. }) => {}
            Ok(Line::File(file)) if file.version == VERSION => {
                files.insert(file.path().to_string(), *file);
            }
            Ok(Line::File(file)) => return Err(at(format!("it is of version {}", file.version))),
            Err(_) => return Err(at("it isn't a line of `check --format jsonl`, or not a whole one".to_string())),
        }
    }
    Ok(files.into_values().collect())
}

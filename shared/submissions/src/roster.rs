//! Who is in the class: a list with commas, semicolons or tabulators between its cells, as spreadsheets save it.

use crate::kind::kind;
use finwright_disk::{plain_words, text_of};
use std::io::Read;
use std::path::Path;

/// Somebody on the roster.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pupil {
    /// What the gradebook knows them by.
    pub id: String,
    /// What they are called; the id where the roster doesn't say.
    pub name: String,
    /// Where what they handed in lies, from the folder of submissions; the id's own file or folder where it doesn't
    /// say.
    pub place: Option<String>,
}

/// A roster larger than this isn't one.
const LARGEST: u64 = 8 << 20;

/// The pupils of a roster with the columns `id`, `name` and `where`, the last two of which may be left out; in words
/// why it can't be used.
pub fn roster(path: &Path) -> Result<Vec<Pupil>, String> {
    let mut bytes = Vec::new();
    let file = std::fs::File::open(path).map_err(plain_words)?;
    file.take(LARGEST + 1).read_to_end(&mut bytes).map_err(plain_words)?;
    if bytes.len() as u64 > LARGEST {
        return Err(format!("it is larger than {} MB, which no roster is", LARGEST >> 20));
    }
    if let Some(kind) = kind(&bytes) {
        return Err(kind.in_words());
    }
    pupils(&text(bytes)?)
}

/// Text of any size up to a roster's; a mark that spreadsheets put first is taken away.
fn text(bytes: Vec<u8>) -> Result<String, String> {
    let text = String::from_utf8(bytes).or_else(|error| {
        // Told as every other text is, where it's short enough; else in short.
        text_of(error.into_bytes()).map(|text| text.to_string()).map_err(|reason| match reason.contains("UTF-8") {
            true => reason,
            false => "it isn't text in UTF-8".to_string(),
        })
    })?;
    Ok(text.trim_start_matches('\u{feff}').to_string())
}

fn pupils(text: &str) -> Result<Vec<Pupil>, String> {
    let head = text.lines().next().unwrap_or("");
    let most =
        [b',', b';', b'\t'].into_iter().max_by_key(|mark| (head.bytes().filter(|b| b == mark).count(), *mark == b','));
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(most.unwrap_or(b','))
        .flexible(true)
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let heads = reader.headers().map_err(in_words)?.clone();
    let column = |name: &str| heads.iter().position(|head| head.eq_ignore_ascii_case(name));
    let Some(id) = column("id") else {
        return Err("its first line names no column `id`; write `id,name,where` there".to_string());
    };
    let (name, place) = (column("name"), column("where"));
    let mut found: Vec<Pupil> = Vec::new();
    let mut known = std::collections::HashMap::new();
    for record in reader.records() {
        let record = record.map_err(in_words)?;
        let line = record.position().map_or(0, csv::Position::line);
        let cell = |at: Option<usize>| at.and_then(|at| record.get(at)).filter(|cell| !cell.is_empty());
        let Some(id) = cell(Some(id)) else {
            if record.iter().all(str::is_empty) {
                continue;
            }
            return Err(format!("line {line} has no id"));
        };
        if let Some(before) = known.insert(id.to_string(), line) {
            return Err(format!("lines {before} and {line} have the same id, {id}"));
        }
        let (name, place) = (cell(name).unwrap_or(id), cell(place));
        found.push(Pupil { id: id.to_string(), name: name.to_string(), place: place.map(str::to_string) });
    }
    match found.is_empty() {
        true => Err("it has nobody on it".to_string()),
        false => Ok(found),
    }
}

fn in_words(error: csv::Error) -> String {
    let line = error.position().map_or(String::new(), |position| format!("line {}: ", position.line()));
    format!("{line}it can't be read as a table ({error})")
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn told(text: &str) -> Result<Vec<(String, String, Option<String>)>, String> {
        pupils(text).map(|all| all.into_iter().map(|pupil| (pupil.id, pupil.name, pupil.place)).collect())
    }

    #[test]
    fn a_roster_as_spreadsheets_save_it() {
        let one =
            |id: &str, name: &str, place: Option<&str>| (id.to_string(), name.to_string(), place.map(str::to_string));
        let wanted = vec![one("s1", "Ada, the first", Some("ada.zip")), one("s2", "s2", None)];
        assert_eq!(told("id,name,where\ns1,\"Ada, the first\",ada.zip\ns2,,\n\n").unwrap(), wanted);
        assert_eq!(told("ID;Name;Where\r\ns1;Ada, the first;ada.zip\r\ns2;;\r\n").unwrap(), wanted);
        assert_eq!(told("where\tid\tname\nada.zip\ts1\tAda, the first\n\ts2\t\n").unwrap(), wanted);
        assert_eq!(told("id\ns2\n").unwrap(), vec![one("s2", "s2", None)]);
    }

    #[test]
    fn what_is_no_roster_is_told() {
        assert_eq!(told("").unwrap_err(), "its first line names no column `id`; write `id,name,where` there");
        assert_eq!(told("id,name\n").unwrap_err(), "it has nobody on it");
        assert_eq!(told("id,name\ns1,a\n,b\n").unwrap_err(), "line 3 has no id");
        assert_eq!(told("id,name\ns1,a\ns1,b\n").unwrap_err(), "lines 2 and 3 have the same id, s1");
    }
}

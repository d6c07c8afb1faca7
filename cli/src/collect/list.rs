//! A list of paths in a file, or by the pipe.

use super::is_stdin;
use std::io::Read;
use std::path::{Path, PathBuf};

/// A longer list isn't read: that many designs are no club's.
const LONGEST: u64 = 256 * 1024 * 1024;

/// The paths of a list: a line each, or with zero bytes between them where there are any, as `git ls-files -z` and
/// `find -print0` write them, since a name may hold anything else.
pub fn read(path: &Path) -> Result<Vec<PathBuf>, String> {
    let mut bytes = Vec::new();
    let input: Box<dyn Read> = match is_stdin(path) {
        true => Box::new(std::io::stdin().lock()),
        false => Box::new(std::fs::File::open(path).map_err(|error| in_words(path, error))?),
    };
    input.take(LONGEST + 1).read_to_end(&mut bytes).map_err(|error| in_words(path, error))?;
    if bytes.len() as u64 > LONGEST {
        return Err(format!("{}: the list is longer than 256 MB", path.display()));
    }
    Ok(paths(&bytes))
}

fn in_words(path: &Path, error: std::io::Error) -> String {
    format!("{}: {}", path.display(), finwright_disk::plain_words(error))
}

fn paths(bytes: &[u8]) -> Vec<PathBuf> {
    let between = if bytes.contains(&0) { 0 } else { b'\n' };
    let trimmed = |line: &'_ [u8]| -> Vec<u8> {
        let line = if between == b'\n' { line.strip_suffix(b"\r").unwrap_or(line) } else { line };
        line.to_vec()
    };
    bytes.split(|byte| *byte == between).map(trimmed).filter(|line| !line.is_empty()).map(path_of).collect()
}

/// A path as the system gives it.
#[cfg(unix)]
pub fn path_of(bytes: Vec<u8>) -> PathBuf {
    use std::os::unix::ffi::OsStringExt;
    PathBuf::from(std::ffi::OsString::from_vec(bytes))
}

/// A path as the system gives it.
#[cfg(not(unix))]
pub fn path_of(bytes: Vec<u8>) -> PathBuf {
    PathBuf::from(String::from_utf8_lossy(&bytes).into_owned())
}

#[cfg(test)]
mod tests {
    use super::paths;
    use std::path::PathBuf;

    #[test]
    fn names_stand_on_lines_or_between_zero_bytes() {
        let told = |names: &[&str]| names.iter().map(PathBuf::from).collect::<Vec<_>>();
        assert_eq!(paths(b"a.finw\r\nb c.finw\n\nd.finw"), told(&["a.finw", "b c.finw", "d.finw"]));
        assert_eq!(paths(b"two\nlines.finw\0b.finw\0"), told(&["two\nlines.finw", "b.finw"]));
        assert_eq!(paths(b""), told(&[]));
    }
}

//! The texts of a zip: bounded in size, number, depth and in how much it grows; no path leaves it, nothing is written.

use super::{too_large, Contents};
use crate::name::{is_clutter, printable};
use crate::{MOST_DEPTH, MOST_FILES};
use finwright_disk::SIZE_LIMIT;
use std::fs::File;
use std::io::{Read, Seek, SeekFrom};
use std::path::Component;
use zip::ZipArchive;

/// A zip larger than this isn't opened.
const LARGEST: u64 = 20_000_000;
/// A file that grows more than so many times is no text that somebody wrote.
const MOST_GROWTH: u64 = 200;
/// Below this size it doesn't matter how much it grows.
const SMALL: u64 = 100_000;

/// What is in a zip, in the order of the names in it.
pub(crate) fn from_zip(found: &mut Contents, mut file: File, name: &str, bytes: u64) {
    if bytes > LARGEST {
        return found.refuse(name, too_large(bytes));
    }
    // The list of what is in it would be read whole, so its length is looked at first.
    match listed(&mut file, bytes) {
        Some(count) if count > MOST_FILES => {
            let more = format!("this zip holds {count} files: hand in the design and what it uses, no more");
            return found.refuse(name, more);
        }
        Some(_) => {}
        None => return found.refuse(name, BROKEN),
    }
    let Ok(mut archive) = file.rewind().map_err(drop).and_then(|()| ZipArchive::new(file).map_err(drop)) else {
        return found.refuse(name, BROKEN);
    };
    let mut order: Vec<(String, usize)> =
        (0..archive.len()).filter_map(|at| Some((archive.name_for_index(at)?.to_string(), at))).collect();
    order.sort();
    for (inner, at) in order {
        if found.is_full() {
            return;
        }
        entry(found, &mut archive, name, &inner, at);
    }
}

const BROKEN: &str = "this zip is broken or not whole: pack it again";

fn entry(found: &mut Contents, archive: &mut ZipArchive<File>, zip: &str, inner: &str, at: usize) {
    let shown = format!("{zip}/{}", printable(inner));
    let mut file = match archive.by_index(at) {
        Ok(file) => file,
        Err(zip::result::ZipError::UnsupportedArchive(why)) if why.contains("assword") => {
            return found.refuse(&shown, "it is behind a password: pack it without one")
        }
        Err(_) => return found.refuse(&shown, "it can't be unpacked: pack it again as a plain zip"),
    };
    if file.is_dir() {
        return;
    }
    let Some(path) = file.enclosed_name().filter(|_| !leads_out(inner)) else {
        return found.refuse(&shown, "its path leads out of the zip, and isn't followed");
    };
    let parts: Vec<String> = path
        .components()
        .filter_map(|part| match part {
            Component::Normal(name) => name.to_str().map(str::to_string),
            _ => None,
        })
        .collect();
    if parts.iter().any(|part| is_clutter(part)) {
        return;
    }
    found.count_one();
    if file.is_symlink() {
        return found.refuse(&shown, "it is a link: hand in the file itself");
    }
    if parts.len() > MOST_DEPTH {
        return found.refuse(&shown, format!("folders in folders, more than {MOST_DEPTH} deep, aren't looked into"));
    }
    let path = format!("{zip}/{}", parts.join("/"));
    let packed = file.compressed_size();
    let mut bytes = Vec::new();
    // What the zip says of a size may be a lie: what counts is what comes out.
    if file.by_ref().take(SIZE_LIMIT as u64 + 1).read_to_end(&mut bytes).is_err() {
        return found.refuse(&shown, "it can't be unpacked: pack it again");
    }
    if bytes.len() as u64 > SMALL && bytes.len() as u64 / packed.max(1) > MOST_GROWTH {
        return found.refuse(&shown, format!("it grows more than {MOST_GROWTH} times when unpacked, and isn't read"));
    }
    if bytes.len() > SIZE_LIMIT {
        return found.refuse(&shown, too_large(file.size().max(bytes.len() as u64)));
    }
    if bytes.starts_with(b"PK\x03\x04") && path.to_ascii_lowercase().ends_with(".zip") {
        return found.refuse(&shown, "a zip in a zip isn't opened");
    }
    found.take(&path, bytes);
}

/// Whether a name in a zip leads elsewhere than below the place where it's unpacked, on any system.
fn leads_out(name: &str) -> bool {
    let absolute = name.starts_with(['/', '\\']) || name.get(1..2) == Some(":");
    absolute || name.contains('\0') || name.split(['/', '\\']).any(|part| part == "..")
}

/// How many files a zip's list has by the record at its end (APPNOTE.TXT, 4.3.16); `None` where there is none. Zips of
/// more than 65,534 files say so elsewhere, and are counted as that many.
fn listed(file: &mut File, bytes: u64) -> Option<usize> {
    const RECORD: u64 = 22;
    let tail = bytes.min(RECORD + 65_535);
    file.seek(SeekFrom::Start(bytes - tail)).ok()?;
    let mut end = Vec::new();
    file.by_ref().take(tail).read_to_end(&mut end).ok()?;
    let at = end.windows(4).rposition(|mark| mark == b"PK\x05\x06")?;
    let count = end.get(at + 10..at + 12)?;
    Some(usize::from(u16::from_le_bytes([count[0], count[1]])))
}

//! A class made for a test: what is handed in, and what comes of it.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

pub const DESIGNS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../tests/designs");
pub const WREN: &str = include_str!("../../../tests/designs/good/pond_wren.finw");
pub const MOSS: &str = include_str!("../../../tests/designs/good/moss_carder.finw");

/// An empty folder of a test's own.
pub fn scratch(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("class-{name}"));
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    folder
}

pub fn command(home: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_finwright"));
    command.arg("class").args(arguments).current_dir(home).env("NO_COLOR", "1");
    command
}

pub fn finwright(home: &Path, arguments: &[&str]) -> (String, String, i32) {
    let output = command(home, arguments).output().unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    (text(output.stdout), text(output.stderr), output.status.code().unwrap())
}

/// Every file below a folder with its bytes.
pub fn pages(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut folders = vec![folder.to_path_buf()];
    while let Some(inner) = folders.pop() {
        for entry in fs::read_dir(inner).unwrap().map(|entry| entry.unwrap().path()) {
            match entry.is_dir() {
                true => folders.push(entry),
                false => {
                    let name = entry.strip_prefix(folder).unwrap().to_str().unwrap().to_string();
                    drop(found.insert(name, fs::read(&entry).unwrap()));
                }
            }
        }
    }
    found
}

/// A page's text.
pub fn class_of(page: &Path) -> String {
    fs::read_to_string(page).unwrap()
}

/// Ways to hand something in.
pub mod hand_in {
    use super::*;
    use std::io::{Cursor, Write};
    use zip::write::SimpleFileOptions;
    use zip::ZipWriter;

    /// How a document of a word processor begins.
    pub const DOCUMENT: &[u8] =
        b"PK\x03\x04\x14\0\x06\0\x08\0\0\0!\0\0\0\0\0\0\0\0\0\0\0\0\0\x13\0\0\0[Content_Types].xml";

    pub fn put(home: &Path, files: &[(&str, &[u8])]) {
        for (path, bytes) in files {
            let path = home.join(path);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, bytes).unwrap();
        }
    }

    pub fn zip(files: &[(&str, &[u8])]) -> Vec<u8> {
        let mut out = ZipWriter::new(Cursor::new(Vec::new()));
        for (name, bytes) in files {
            out.start_file(*name, SimpleFileOptions::default()).unwrap();
            out.write_all(bytes).unwrap();
        }
        out.finish().unwrap().into_inner()
    }
}

//! A file of tests that its crate's `all.rs` doesn't name would never be run.
#![allow(clippy::unwrap_used)]

use std::fs;
use std::path::Path;

#[test]
fn every_file_of_tests_is_named() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
    let shared = fs::read_dir(root.join("shared")).unwrap().map(|entry| entry.unwrap().path());
    let crates = ["grammar", "server", "cli"].map(|name| root.join(name)).into_iter().chain(shared);
    let mut named = 0;
    for tests in crates.map(|home| home.join("tests")) {
        // Where there is none, cargo finds each file by itself.
        let Ok(all) = fs::read_to_string(tests.join("all.rs")) else { continue };
        for file in fs::read_dir(&tests).unwrap().map(|entry| entry.unwrap().path()) {
            let name = file.file_stem().unwrap().to_string_lossy().into_owned();
            if file.extension().is_some_and(|ending| ending == "rs") && name != "all" {
                assert!(all.contains(&format!("\nmod {name};\n")), "{} names no {name}", tests.display());
                named += 1;
            }
        }
    }
    assert!(named > 80, "{named}");
}

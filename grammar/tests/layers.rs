//! No two modules side by side need each other, directly or around a corner: what one file says can be read without the
//! files that stand on it.
#![allow(clippy::unwrap_used)]

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// For every module at the top of the crate the others that its files name; its children count as itself.
fn needs() -> BTreeMap<String, BTreeSet<String>> {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    let mut folders = vec![root.clone()];
    while let Some(folder) = folders.pop() {
        for path in std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|e| e == "rs") && path != root.join("lib.rs") {
                let module = first_part(path.strip_prefix(&root).unwrap());
                let text = std::fs::read_to_string(&path).unwrap();
                // Pages link to each other as they like.
                let code = text.lines().filter(|line| !line.trim_start().starts_with("//"));
                let named = code.flat_map(|line| line.split("crate::").skip(1).map(word).collect::<Vec<_>>());
                let others = named.filter(|other| *other != module).collect::<BTreeSet<_>>();
                found.entry(module.clone()).or_default().extend(others);
            }
        }
    }
    found
}

fn first_part(path: &Path) -> String {
    path.components().next().unwrap().as_os_str().to_string_lossy().trim_end_matches(".rs").to_string()
}

fn word(text: &str) -> String {
    text.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect()
}

#[test]
fn no_module_needs_one_that_needs_it() {
    let mut left = needs();
    assert!(left.len() > 15 && left["parse"].contains("nest"), "{left:#?}");
    // What needs nothing that is left can go; a circle stays.
    loop {
        let names: BTreeSet<String> = left.keys().cloned().collect();
        let before = left.len();
        left.retain(|_, needs| !needs.is_disjoint(&names));
        if left.len() == before {
            break;
        }
    }
    assert!(left.is_empty(), "these need each other: {left:#?}");
}

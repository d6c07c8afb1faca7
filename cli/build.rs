//! Tells the program its version, with the commit that it is built from where that is known.
#![allow(clippy::print_stdout)] // This is how a build script answers.

use std::process::Command;

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    println!("cargo::rerun-if-env-changed=FINWRIGHT_COMMIT");
    // A new commit moves the branch that HEAD names, or HEAD itself.
    let watched = ["HEAD".to_string()].into_iter().chain(git(&["symbolic-ref", "-q", "HEAD"]));
    for file in watched.filter_map(|name| git(&["rev-parse", "--git-path", &name])) {
        if std::path::Path::new(&file).exists() {
            println!("cargo::rerun-if-changed={file}");
        }
    }
    let named = std::env::var("FINWRIGHT_COMMIT").ok().filter(|commit| !commit.is_empty());
    let commit = named.or_else(|| git(&["rev-parse", "--short=12", "HEAD"]));
    let version = env!("CARGO_PKG_VERSION");
    match commit {
        Some(commit) => println!("cargo::rustc-env=FINWRIGHT_VERSION={version} ({commit})"),
        None => println!("cargo::rustc-env=FINWRIGHT_VERSION={version}"),
    }
}

/// A line of git's; `None` where there is no git or no repository.
fn git(arguments: &[&str]) -> Option<String> {
    let output = Command::new("git").args(arguments).output().ok().filter(|output| output.status.success())?;
    let line = String::from_utf8(output.stdout).ok()?;
    Some(line.trim().to_string()).filter(|line| !line.is_empty())
}

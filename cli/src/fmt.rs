//! `finwright fmt`: designs in the one style, written back, listed, or shown as a difference.

use crate::collect::{find, is_stdin, read};
use crate::output::{print, printable, UNUSABLE};
use crate::replace::replace;
use finwright_grammar::format;
use rayon::prelude::*;
use similar::TextDiff;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What becomes of a design that isn't in the one style.
#[derive(Clone, Copy)]
pub struct Wish {
    /// List it, write nothing, and end with 1.
    pub check: bool,
    /// Show what would change, and write nothing.
    pub diff: bool,
}

pub fn fmt(paths: &[PathBuf], wish: Wish) -> ExitCode {
    let outcomes: Vec<Outcome> = find(paths)
        .par_iter()
        .map(|path| match path {
            Ok(path) => lay_out(path, wish),
            Err((path, reason)) => Outcome::Unusable(format!("{}: {reason}", path.display())),
        })
        .collect();
    let mut code = 0;
    for outcome in &outcomes {
        match outcome {
            Outcome::Settled(text) => print(text),
            Outcome::Unsettled(text) => {
                print(text);
                code = code.max(u8::from(wish.check));
            }
            Outcome::Unusable(reason) => {
                eprintln!("finwright: {reason}");
                code = UNUSABLE;
            }
        }
    }
    ExitCode::from(code)
}

/// What came of one path, with what is to be printed.
enum Outcome {
    /// It's in the one style, or is now.
    Settled(String),
    /// It isn't, and nothing was written.
    Unsettled(String),
    /// It can't be read or written.
    Unusable(String),
}

fn lay_out(path: &Path, wish: Wish) -> Outcome {
    if let Some(told) = link(path).filter(|_| !wish.check && !wish.diff) {
        return Outcome::Settled(told);
    }
    let input = read(path);
    let text = match input.snapshot {
        Ok(snapshot) => snapshot.text,
        Err(reason) => return Outcome::Unusable(format!("{}: {reason}", input.shown)),
    };
    let formatted = format(&text);
    if is_stdin(path) && !wish.check && !wish.diff {
        return Outcome::Settled(formatted);
    }
    if formatted == *text {
        return Outcome::Settled(String::new());
    }
    if wish.diff {
        return Outcome::Unsettled(difference(&input.shown, &text, &formatted));
    }
    if wish.check {
        return Outcome::Unsettled(format!("{}\n", input.shown));
    }
    match replace(path, &formatted) {
        Ok(()) => Outcome::Settled(format!("formatted {}\n", printable(&input.shown))),
        Err(reason) => Outcome::Unusable(format!("{}: {reason}", input.shown)),
    }
}

/// A link is told and left alone: what it leads to may lie in a folder that nobody meant to change, and a new file in
/// its place would part the two.
fn link(path: &Path) -> Option<String> {
    let target = std::fs::read_link(path).ok()?;
    let (shown, target) = (path.display().to_string(), target.display().to_string());
    Some(format!("{} is a link to {}: format that file\n", printable(&shown), printable(&target)))
}

/// A unified difference, as `patch` takes it.
fn difference(shown: &str, before: &str, after: &str) -> String {
    TextDiff::from_lines(before, after).unified_diff().context_radius(3).header(shown, shown).to_string()
}

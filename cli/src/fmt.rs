//! `finwright fmt`: designs in the one style, written back, listed, or shown as a difference.

use crate::collect::pick::Files;
use crate::collect::{is_stdin, read_as};
use crate::output::{print_as_it_is, printable, unusable, Manners, UNUSABLE};
use crate::replace::{difference, link, replace};
use clap::Args;
use finwright_grammar::format;
use rayon::prelude::*;
use std::path::Path;
use std::process::ExitCode;

/// The options of `fmt`.
#[derive(Args)]
pub struct Fmt {
    #[command(flatten)]
    files: Files,
    /// Write nothing; list the files that would change, and end with 1 if there are any.
    #[arg(long)]
    check: bool,
    /// Write nothing; show what would change.
    #[arg(long)]
    diff: bool,
}

pub fn fmt(wish: &Fmt, manners: Manners) -> ExitCode {
    let found = match wish.files.find() {
        Ok(found) => found,
        Err(reason) => return unusable(&printable(&reason)),
    };
    let outcomes: Vec<Outcome> = found
        .par_iter()
        .map(|path| match path {
            Ok(path) => lay_out(path, wish, manners),
            Err((path, reason)) => Outcome::Unusable(format!("{}: {reason}", path.display())),
        })
        .collect();
    let mut code = 0;
    for outcome in &outcomes {
        match outcome {
            Outcome::Settled(text) => print_as_it_is(text),
            Outcome::Unsettled(text) => {
                print_as_it_is(text);
                code = code.max(u8::from(wish.check));
            }
            Outcome::Unusable(reason) => {
                eprintln!("finwright: {}", printable(reason));
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

fn lay_out(path: &Path, wish: &Fmt, manners: Manners) -> Outcome {
    if let Some(told) = link(path).filter(|_| !wish.check && !wish.diff) {
        return Outcome::Settled(told + ": format that file\n");
    }
    let input = read_as(path, wish.files.stdin_filename.as_deref());
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
        return Outcome::Unsettled(format!("{}\n", printable(&input.shown)));
    }
    match replace(path, &formatted) {
        Ok(()) if manners.quiet => Outcome::Settled(String::new()),
        Ok(()) => Outcome::Settled(format!("formatted {}\n", printable(&input.shown))),
        Err(reason) => Outcome::Unusable(format!("{}: {reason}", input.shown)),
    }
}

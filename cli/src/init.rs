//! `finwright init`: what a club's repository needs so that every change is checked. It asks nothing, and leaves what
//! is there as it is.

use crate::new::{design, Guide};
use crate::output::{closing, print, printable, unusable, Manners};
use crate::written::write_new;
use std::path::Path;
use std::process::ExitCode;

/// The files, by their paths in the repository.
const FILES: [(&str, &str); 5] = [
    ("finwright.toml", include_str!("templates/repository/finwright.toml")),
    (".github/workflows/finwright.yml", include_str!("templates/repository/github.yml")),
    (".gitlab-ci.yml", include_str!("templates/repository/gitlab.yml")),
    (".pre-commit-config.yaml", include_str!("templates/repository/pre-commit-config.yaml")),
    (".pre-commit-hooks.yaml", include_str!("templates/repository/pre-commit-hooks.yaml")),
];

/// What to do then.
const NEXT: &str = "Nothing is published yet: set the variable FINWRIGHT_SOURCE where the workflows run to what `pip \
    install` takes for your copy of the program, such as the address of its wheel. Now try `finwright check .`";

/// Where the first design goes.
const FIRST: &str = "designs/first_rocket.finw";

pub fn init(folder: &Path, manners: Manners) -> ExitCode {
    let first = design(Guide::Rod, false, "First Rocket");
    let mut told = String::new();
    for (name, text) in FILES.into_iter().chain([(FIRST, first.as_str())]) {
        let path = folder.join(name);
        let made = path.parent().map_or(Ok(()), std::fs::create_dir_all);
        let made = made.map_err(|error| format!("{} can't be written ({error})", path.display()));
        match made.and_then(|()| write_new(&path, text.as_bytes())) {
            Ok(true) => told += &format!("{name}: written\n"),
            Ok(false) => told += &format!("{name}: there already, and left as it is\n"),
            Err(reason) => {
                print(&told);
                return unusable(&printable(&reason));
            }
        }
    }
    if !manners.quiet {
        print(&(told + &closing(NEXT)));
    }
    ExitCode::SUCCESS
}

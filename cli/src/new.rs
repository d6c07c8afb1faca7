//! `finwright new`: a small complete design that meets every check, to be changed.

use crate::output::{print, printable, quoted, unusable, Manners};
use crate::written::write_new;
use clap::{Args, ValueEnum};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// The options of `new`.
#[derive(Args)]
pub struct New {
    /// What the rocket is called: the file is NAME.finw. Folders may stand before it.
    name: PathBuf,
    /// What guides it.
    #[arg(long, value_enum, default_value_t = Guide::Rod)]
    guide: Guide,
    /// In inches, ounces, feet and miles an hour.
    #[arg(long)]
    inches: bool,
}

/// What guides the rocket.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Guide {
    /// A lug on a rod.
    Rod,
    /// Two buttons in a rail.
    Rail,
}

/// The design for a first rocket, by a title.
pub fn design(guide: Guide, inches: bool, title: &str) -> String {
    let text = match (guide, inches) {
        (Guide::Rod, false) => include_str!("templates/designs/rod.finw"),
        (Guide::Rod, true) => include_str!("templates/designs/rod_inches.finw"),
        (Guide::Rail, false) => include_str!("templates/designs/rail.finw"),
        (Guide::Rail, true) => include_str!("templates/designs/rail_inches.finw"),
    };
    text.replacen("NAME", title, 1)
}

pub fn new(options: &New, manners: Manners) -> ExitCode {
    match written(options) {
        Ok(path) => {
            let path = path.display().to_string();
            if !manners.quiet {
                print(&format!("{}: a rocket to change; try `finwright check {}`\n", printable(&path), quoted(&path)));
            }
            ExitCode::SUCCESS
        }
        Err(reason) => unusable(&printable(&reason)),
    }
}

fn written(options: &New) -> Result<PathBuf, String> {
    let path = match crate::collect::is_design(&options.name) {
        true => options.name.clone(),
        false => named(&options.name),
    };
    let title = title(&path)?;
    match write_new(&path, design(options.guide, options.inches, &title).as_bytes())? {
        true => Ok(path),
        false => Err(format!("{} is there already, and is left as it is", path.display())),
    }
}

/// The file for a name, which may have dots of its own.
fn named(name: &Path) -> PathBuf {
    let mut file = name.as_os_str().to_owned();
    file.push(".finw");
    PathBuf::from(file)
}

/// The rocket's name: the file's, as far as the language can say it.
fn title(path: &Path) -> Result<String, String> {
    let stem = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let title = stem.replace('_', " ").trim().to_string();
    if title.is_empty()
        || title.starts_with('.')
        || title.contains(['"', '\\', '\u{FFFD}'])
        || title.contains(char::is_control)
    {
        return Err(format!("{stem} is no name for a rocket: letters, digits, spaces, dots and dashes are"));
    }
    Ok(title)
}

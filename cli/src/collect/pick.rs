//! Which designs a command over many files is about.

use super::{find, git, is_stdin, list, real_of, Found};
use clap::Args;
use ignore::overrides::{Override, OverrideBuilder};
use std::path::{Path, PathBuf};
use std::str::FromStr;

/// The options that say which files.
#[derive(Args)]
pub struct Files {
    /// Files, folders (searched for *.finw), or - for standard input.
    pub paths: Vec<PathBuf>,
    /// Leave out what matches, such as 'drafts/**' or '*_old.finw'; may be given several times.
    #[arg(long, value_name = "GLOB")]
    pub exclude: Vec<String>,
    /// The paths too that stand in a file, a line each, or - for standard input; with zero bytes between them where
    /// there are any.
    #[arg(long, value_name = "FILE")]
    pub files_from: Option<PathBuf>,
    /// Only files that have changed since a revision of the git repository, and the designs that use one.
    #[arg(long, value_name = "REV")]
    pub since: Option<String>,
    /// What the file on standard input is called, for its settings and the files that it uses.
    #[arg(long, value_name = "FILE")]
    pub stdin_filename: Option<PathBuf>,
}

impl Files {
    /// The designs, and what can't be used, in alphabetical order; an error where it can't be told which.
    pub fn find(&self) -> Result<Vec<Found>, String> {
        let mut paths = self.paths.clone();
        if let Some(from) = &self.files_from {
            if is_stdin(from) && paths.iter().any(|path| is_stdin(path)) {
                return Err("standard input is either a design or a list of files".to_string());
            }
            paths.extend(list::read(from)?);
        } else if paths.is_empty() && self.since.is_some() {
            paths.push(PathBuf::from("."));
        } else if paths.is_empty() {
            return Err("which files? Name designs or folders, or . for this folder".to_string());
        }
        let left_out = left_out(&self.exclude)?;
        let mut found = find(&paths);
        found.retain(|found| match found {
            Ok(path) | Err((path, _)) => is_stdin(path) || !is_left_out(&left_out, path),
        });
        if let Some(revision) = &self.since {
            let changed = git::changed_since(revision)?;
            found.retain(|found| match found {
                Ok(path) => changed.touch(path),
                // What stands in a folder without a design hasn't changed; what can't be used may have.
                Err((path, _)) => !path.is_dir(),
            });
        }
        Ok(found)
    }
}

fn left_out(globs: &[String]) -> Result<Override, String> {
    let mut builder = OverrideBuilder::new(".");
    for glob in globs {
        let added = builder.add(&format!("!{glob}"));
        added.map_err(|error| format!("--exclude {glob}: {error}"))?;
    }
    builder.build().map_err(|error| error.to_string())
}

/// Whether a file or a folder that leads to it is left out.
fn is_left_out(left_out: &Override, path: &Path) -> bool {
    if left_out.is_empty() {
        return false;
    }
    let here = super::from_here(&real_of(path));
    [path, here.as_path()].iter().any(|path| {
        path.ancestors().enumerate().any(|(up, part)| {
            let is_folder = up > 0;
            !part.as_os_str().is_empty() && left_out.matched(part, is_folder).is_ignore()
        })
    })
}

/// One part of several, "2/5": so many machines look at a fifth of the files each.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shard {
    number: usize,
    of: usize,
}

impl Shard {
    /// The files of this part: those at every so-manieth place of the list.
    pub fn of<T>(self, all: Vec<T>) -> Vec<T> {
        all.into_iter().skip(self.number - 1).step_by(self.of).collect()
    }
}

impl FromStr for Shard {
    type Err = String;

    fn from_str(text: &str) -> Result<Shard, String> {
        let parts = text.split_once('/').and_then(|(number, of)| Some((number.parse().ok()?, of.parse().ok()?)));
        match parts {
            Some((number, of)) if (1..=of).contains(&number) => Ok(Shard { number, of }),
            _ => Err("write which part of how many, such as 2/5; the first is 1/5".to_string()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_parts_are_the_whole_and_share_nothing() {
        let all: Vec<usize> = (0..13).collect();
        let shards = ["1/5", "2/5", "3/5", "4/5", "5/5"].map(|text| text.parse::<Shard>());
        let mut parts: Vec<usize> = shards.into_iter().flatten().flat_map(|shard| shard.of(all.clone())).collect();
        parts.sort_unstable();
        assert_eq!(parts, all);
    }

    #[test]
    fn a_part_has_a_number_among_them() {
        for text in ["0/5", "6/5", "2", "2/", "/5", "1/0", "a/b", "-1/5", "2/5/7"] {
            assert!(text.parse::<Shard>().is_err(), "{text}");
        }
    }

    #[test]
    fn what_is_left_out_is_left_out_with_all_that_is_below_it() {
        let globs = ["drafts/".to_string(), "*_old.finw".to_string(), "class/**/kit.finw".to_string()];
        let Ok(globs) = left_out(&globs) else { unreachable!("they can be read") };
        let out = |path: &str| is_left_out(&globs, Path::new(path));
        assert!(out("drafts/a.finw") && out("x/drafts/y/a.finw") && out("swift_old.finw") && out("x/swift_old.finw"));
        assert!(out("class/a/kit.finw") && !out("other/kit.finw") && !out("old.finw") && !out("drafts.finw"));
    }
}

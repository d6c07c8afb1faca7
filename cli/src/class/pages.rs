//! Where the pages go: each is written beside its place and then takes its name, so that none is ever half there.

use super::feedback::feedback;
use super::grades::grades;
use super::looked::Looked;
use super::pupil::pupil;
use super::rubric::Rubric;
use super::teacher::teacher;
use super::{lies_in, Report};
use crate::written::write;
use finwright_checks::Analysis;
use finwright_submissions::file_name;
use std::collections::HashSet;
use std::path::{Path, PathBuf};

/// The folder of the pages.
pub struct Pages {
    out: PathBuf,
}

impl Pages {
    /// The folder with its own folders; it may not lie among the submissions, whose pages would be taken for some.
    pub fn new(out: &Path, submissions: &Path) -> Result<Pages, String> {
        if lies_in(out, submissions) {
            return Err(format!(
                "{}: the pages can't go into the folder of the submissions; name another",
                out.display()
            ));
        }
        for folder in ["pupils", "feedback"] {
            let path = out.join(folder);
            std::fs::create_dir_all(&path).map_err(|error| format!("{} can't be made ({error})", path.display()))?;
        }
        Ok(Pages { out: out.to_path_buf() })
    }

    /// A pupil's page and feedback; why one can't be written.
    pub fn of_pupil(&self, looked: &Looked, analyses: &[Analysis], rubric: &Rubric) -> Vec<String> {
        let name = file_name(&looked.id);
        let page = self.out.join("pupils").join(format!("{name}.html"));
        let short = self.out.join("feedback").join(format!("{name}.md"));
        let written = [
            write(&page, pupil(looked, analyses, rubric).as_bytes()),
            write(&short, feedback(looked, analyses).as_bytes()),
        ];
        written.into_iter().filter_map(Result::err).collect()
    }

    /// The teacher's page and the grades; why one can't be written.
    pub fn of_teacher(&self, report: &Report) -> Vec<String> {
        let page = write(&self.out.join("teacher.html"), teacher(report).as_bytes());
        let grades = grades(report).and_then(|grades| write(&self.out.join("grades.csv"), grades.as_bytes()));
        [page, grades].into_iter().filter_map(Result::err).collect()
    }

    /// What an earlier run left in these folders of somebody who isn't in this class, in order. It's told and not taken
    /// away: nobody asked for that.
    pub fn of_others(&self, looked: &[Looked]) -> Vec<PathBuf> {
        let own: HashSet<String> = looked.iter().map(|looked| file_name(&looked.id)).collect();
        let is_other = |path: &PathBuf, ending: &str| {
            let name = path.file_stem().map(|name| name.to_string_lossy().into_owned());
            path.extension().is_some_and(|end| end == ending) && name.is_some_and(|name| !own.contains(&name))
        };
        let folders = [("pupils", "html"), ("feedback", "md")].map(|(folder, ending)| {
            let there = std::fs::read_dir(self.out.join(folder)).into_iter().flatten().flatten();
            there.map(|entry| entry.path()).filter(|path| is_other(path, ending)).collect::<Vec<_>>()
        });
        let mut found = folders.concat();
        found.sort();
        found
    }
}

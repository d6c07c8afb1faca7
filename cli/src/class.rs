//! `finwright class`: what a class handed in, looked at: a page for the teacher, one for each pupil, and grades.

mod alike;
mod feedback;
mod good;
mod grade;
mod grades;
mod html;
mod looked;
mod mend;
mod pages;
mod pupil;
mod rubric;
mod summary;
mod tally;
mod teacher;
mod verdicts;
mod worked;

use crate::output::{print, printable, unusable, UNUSABLE};
use finwright_checks::settings::settings_for;
use finwright_checks::Settings;
use finwright_disk::{read_text, real_path};
use finwright_submissions::{gather, roster, Class};
use finwright_units::reader::with;
use finwright_units::Units;
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use looked::{look_at, Looked};
use pages::Pages;
use rayon::prelude::*;
use rubric::Rubric;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Arc;
use std::time::Duration;

/// What is wished for.
pub struct Wish<'a> {
    pub roster: Option<&'a Path>,
    pub rubric: Option<&'a Path>,
    pub shared: &'a [PathBuf],
    pub out: Option<&'a Path>,
    pub units: Option<Units>,
}

/// All that is known of a class.
pub struct Report {
    pub class: Class,
    /// A look at each submission, in the class' order.
    pub looked: Vec<Looked>,
    pub rubric: Rubric,
    pub settings: Arc<Settings>,
    /// Whether there is a roster to say who is missing.
    pub has_roster: bool,
}

/// Ends with 2 where the folder, the roster or the rubric can't be used, or a page can't be written; whatever was handed
/// in is told on the pages and never ends the run.
pub fn class(folder: &Path, wish: &Wish) -> ExitCode {
    let report = match report(folder, wish) {
        Ok(report) => report,
        Err(reason) => return unusable(&printable(&reason)),
    };
    with(report.0.settings.units, || print(&summary::summary(&report.0)));
    let failed = report.1;
    // A full disk fails every page alike: the first of them is told, and how many there are.
    for reason in failed.iter().take(5) {
        eprintln!("finwright: {}", printable(reason));
    }
    if failed.len() > 5 {
        eprintln!("finwright: {} more pages can't be written", failed.len() - 5);
    }
    ExitCode::from(if failed.is_empty() { 0 } else { UNUSABLE })
}

fn report(folder: &Path, wish: &Wish) -> Result<(Report, Vec<String>), String> {
    let at = |path: &Path, reason: String| format!("{}: {reason}", path.display());
    let pupils = wish.roster.map(|path| roster(path).map_err(|reason| at(path, reason))).transpose()?;
    let rubric = wish.rubric.map(|path| Rubric::read(path).map_err(|reason| at(path, reason))).transpose()?;
    let teachers: Vec<&Path> = [wish.roster, wish.rubric].into_iter().flatten().collect();
    let class = gather(folder, pupils.as_deref(), wish.shared, &teachers).map_err(|reason| at(folder, reason))?;
    let pages = wish.out.map(|out| Pages::new(out, &class.folder)).transpose()?;
    let look = |path: &Path| path.exists().then(|| read_text(path));
    let mut settings = settings_for(&class.folder.join("-"), look);
    settings.units = wish.units.unwrap_or(settings.units);
    let (settings, rubric) = (Arc::new(settings), rubric.unwrap_or_default());
    let bar = bar(class.submissions.len());
    let one = |submission| {
        let (looked, analyses) = look_at(submission, &class, &settings, &rubric);
        let written = pages.as_ref().map_or(Vec::new(), |pages| {
            with(settings.units, || pages.of_pupil(&looked, &analyses, &rubric))
        });
        bar.inc(1);
        (looked, written)
    };
    let done: Vec<(Looked, Vec<String>)> = class.submissions.par_iter().map(one).collect();
    bar.finish_and_clear();
    let (looked, failed): (Vec<Looked>, Vec<Vec<String>>) = done.into_iter().unzip();
    let mut failed = failed.concat();
    let report = Report { has_roster: pupils.is_some(), class, looked, rubric, settings };
    if let Some(pages) = &pages {
        failed.extend(with(report.settings.units, || pages.of_teacher(&report)));
    }
    Ok((report, failed))
}

/// How far it is, on a terminal, once it takes long enough to be asked.
fn bar(submissions: usize) -> ProgressBar {
    let bar = ProgressBar::with_draw_target(Some(submissions as u64), ProgressDrawTarget::stderr_with_hz(8));
    if let Ok(style) = ProgressStyle::with_template("{bar:30} {pos} of {len} submissions, {eta} left") {
        bar.set_style(style);
    }
    bar.enable_steady_tick(Duration::from_millis(500));
    bar
}

/// Whether a folder lies in another one, or is it.
fn lies_in(path: &Path, folder: &Path) -> bool {
    real_path(path).starts_with(folder)
}

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

use crate::output::{print, printable, unusable, Manners, UNUSABLE};
use crate::progress::Progress;
use crate::Reader;
use alike::Alike;
use clap::Args;
use finwright_checks::settings::settings_for;
use finwright_checks::Settings;
use finwright_disk::{read_text, real_path};
use finwright_submissions::{gather, roster};
use finwright_units::reader::with;
use looked::{look_at, Looked};
use pages::Pages;
use rayon::prelude::*;
use rubric::Rubric;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Arc;

/// What is asked.
#[derive(Args)]
pub struct Class {
    /// The folder of submissions: each a file, a folder or a zip.
    folder: PathBuf,
    /// Who is in the class: a table with the columns id, name and where. Without one, each submission is somebody's
    /// by its name.
    #[arg(long, value_name = "FILE")]
    roster: Option<PathBuf>,
    /// Where the pages go, into a folder of their own; without it, only what came of the class is printed.
    #[arg(long, value_name = "FOLDER")]
    out: Option<PathBuf>,
    /// How points come, in TOML.
    #[arg(long, value_name = "FILE")]
    rubric: Option<PathBuf>,
    /// A file that every design may use, such as a kit's parts; may be given several times.
    #[arg(long, value_name = "FILE")]
    shared: Vec<PathBuf>,
    #[command(flatten)]
    reader: Reader,
}

/// All that is known of a class.
pub struct Report {
    pub class: finwright_submissions::Class,
    /// A look at each submission, in the class' order.
    pub looked: Vec<Looked>,
    /// The pairs that are nearly the same.
    pub alike: Vec<Alike>,
    pub rubric: Rubric,
    pub settings: Arc<Settings>,
    /// Whether there is a roster to say who is missing.
    pub has_roster: bool,
}

/// Ends with 2 where the folder, the roster or the rubric can't be used, or a page can't be written; whatever was
/// handed in is told on the pages and never ends the run.
pub fn class(asked: &Class, manners: Manners) -> ExitCode {
    let report = match report(asked, manners) {
        Ok(report) => report,
        Err(reason) => return unusable(&printable(&reason)),
    };
    with(report.0.settings.units, || print(&summary::summary(&report.0)));
    let Written { failed, of_others } = report.1;
    if let Some(first) = of_others.first() {
        let files = if of_others.len() == 1 { "a file".to_string() } else { format!("{} files", of_others.len()) };
        eprintln!(
            "finwright: an earlier run left {files} of nobody in this class, the first is {}; delete what isn't needed",
            printable(&first.display().to_string())
        );
    }
    // A full disk fails every page alike: the first of them is told, and how many there are.
    for reason in failed.iter().take(5) {
        eprintln!("finwright: {}", printable(reason));
    }
    if failed.len() > 5 {
        eprintln!("finwright: {} more pages can't be written", failed.len() - 5);
    }
    ExitCode::from(if failed.is_empty() { 0 } else { UNUSABLE })
}

/// What came of writing the pages.
#[derive(Default)]
struct Written {
    /// Why some can't be written.
    failed: Vec<String>,
    /// Pages of an earlier run, of others.
    of_others: Vec<PathBuf>,
}

fn report(asked: &Class, manners: Manners) -> Result<(Report, Written), String> {
    let at = |path: &Path, reason: String| format!("{}: {reason}", path.display());
    let pupils = asked.roster.as_deref().map(|path| roster(path).map_err(|reason| at(path, reason))).transpose()?;
    let rubric =
        asked.rubric.as_deref().map(|path| Rubric::read(path).map_err(|reason| at(path, reason))).transpose()?;
    let teachers: Vec<&Path> = [&asked.roster, &asked.rubric].into_iter().flatten().map(PathBuf::as_path).collect();
    let class = gather(&asked.folder, pupils.as_deref(), &asked.shared, &teachers)
        .map_err(|reason| at(&asked.folder, reason))?;
    let pages = asked.out.as_deref().map(|out| Pages::new(out, &class.folder)).transpose()?;
    let look = |path: &Path| path.exists().then(|| read_text(path));
    let mut settings = settings_for(&class.folder.join("-"), look);
    settings.units = asked.reader.units(false).unwrap_or(settings.units);
    let (settings, rubric) = (Arc::new(settings), rubric.unwrap_or_default());
    let progress = Progress::of(class.submissions.len(), !manners.quiet);
    let one = |submission| {
        let (looked, analyses) = look_at(submission, &class, &settings, &rubric);
        let written = pages
            .as_ref()
            .map_or(Vec::new(), |pages| with(settings.units, || pages.of_pupil(&looked, &analyses, &rubric)));
        progress.one_more();
        (looked, written)
    };
    let done: Vec<(Looked, Vec<String>)> = class.submissions.par_iter().map(one).collect();
    drop(progress);
    let (looked, failed): (Vec<Looked>, Vec<Vec<String>>) = done.into_iter().unzip();
    let mut written = Written { failed: failed.concat(), ..Written::default() };
    let alike = alike::alike(&looked);
    let report = Report { has_roster: pupils.is_some(), class, looked, alike, rubric, settings };
    if let Some(pages) = &pages {
        written.failed.extend(with(report.settings.units, || pages.of_teacher(&report)));
        written.of_others = pages.of_others(&report.looked);
    }
    Ok((report, written))
}

/// Whether a folder lies in another one, or is it.
fn lies_in(path: &Path, folder: &Path) -> bool {
    real_path(path).starts_with(folder)
}

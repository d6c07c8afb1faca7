//! The thread that analyses. It always takes the newest state of a document, and skips what is overtaken.

use crate::built_in::is_built_in;
use crate::diagnostics::{diagnostics, troubles};
use crate::files::ProjectFiles;
use crate::terms::Terms;
use crate::view::View;
use finwright_checks::settings::{self, settings_for, FILE_NAME};
use finwright_checks::{Analysis, Analyze, Snapshot};
use finwright_disk::SIZE_LIMIT;
use lsp_types::Url;
use ropey::Rope;
use std::collections::VecDeque;
use std::panic::AssertUnwindSafe;
use std::path::PathBuf;
use std::sync::mpsc::{channel, Receiver, Sender};
use std::sync::Arc;

/// A state of a document to analyse.
pub struct Job {
    /// The document's name.
    pub uri: Url,
    /// The editor's version of it.
    pub version: i32,
    /// Which state this is.
    pub generation: u64,
    /// Its path.
    pub path: PathBuf,
    /// Its text.
    pub text: Arc<str>,
    /// The same text, for positions.
    pub rope: Rope,
    /// Where somebody is typing in it.
    pub typing: Option<usize>,
    /// What it may use.
    pub files: Arc<ProjectFiles>,
    /// What was agreed with the client.
    pub terms: Terms,
}

/// What came out.
pub struct Done {
    /// The view to answer requests from.
    pub view: Arc<View>,
    /// The files that the analysis asked for.
    pub uses: Vec<PathBuf>,
}

/// Start the thread. It ends when the sender of jobs is dropped.
pub fn start(analyze: Analyze, done: impl Fn(Done) + Send + 'static) -> Sender<Job> {
    let (sender, jobs) = channel();
    std::thread::spawn(move || work(analyze, jobs, done));
    sender
}

fn work(analyze: Analyze, jobs: Receiver<Job>, done: impl Fn(Done)) {
    finwright_grammar::remember_lines();
    finwright_assess::remember_flights();
    let mut waiting = VecDeque::new();
    let mut last = None;
    loop {
        if waiting.is_empty() {
            match jobs.recv() {
                Ok(job) => waiting.push_back(job),
                Err(_) => return,
            }
        }
        jobs.try_iter().for_each(|job| enqueue(&mut waiting, job));
        if let Some(job) = waiting.pop_front() {
            let files = job.files.clone();
            let result = run(analyze, job, last.as_ref());
            last = Some(Last { view: result.view.clone(), files });
            done(result);
        }
    }
}

/// The newer state takes the older one's place in the row, so that a document under constant edits gets its turn.
fn enqueue(waiting: &mut VecDeque<Job>, job: Job) {
    match waiting.iter_mut().find(|other| other.uri == job.uri) {
        Some(older) => *older = job,
        None => waiting.push_back(job),
    }
}

/// What was analysed last: most often the next text is that one with a letter more.
struct Last {
    view: Arc<View>,
    files: Arc<ProjectFiles>,
}

fn run(analyze: Analyze, job: Job, last: Option<&Last>) -> Done {
    if job.path.ends_with(FILE_NAME) {
        return settings_file(job);
    }
    let identity = (job.uri.clone(), job.version, job.generation);
    let built_in = is_built_in(&job.path, &job.text);
    let mut view = if job.text.len() > SIZE_LIMIT {
        let reason = "This file is larger than 1 MB, so it isn't read and nothing in it is checked.";
        View::without_analysis(identity, job.terms, job.rope, reason.into())
    } else {
        let settings = Arc::new(settings_for(&job.path, |path| job.files.settings(path)));
        let snapshot = Snapshot { path: job.path, text: job.text, files: job.files.clone(), settings };
        let work = || retold(&job.uri, &job.files, &snapshot, last).unwrap_or_else(|| analyze(&snapshot));
        match std::panic::catch_unwind(AssertUnwindSafe(work)) {
            Ok(analysis) => View::new(identity, job.terms, job.rope, (analyze, snapshot, analysis), &job.files),
            Err(_) => {
                let reason = "The analysis of this file failed inside finwright, which is a fault of ours. Nothing in \
                    the file is checked until its text changes.";
                View::without_analysis(identity, job.terms, job.rope, reason.into())
            }
        }
    };
    view.typing = job.typing;
    // The catalogue is there to be read.
    view.diagnostics = Arc::new(if built_in { Vec::new() } else { diagnostics(&view) });
    Done { uses: job.files.asked(), view: Arc::new(view) }
}

/// What is known already, where only the words of a comment are others than in the last analysis.
fn retold(uri: &Url, files: &ProjectFiles, snapshot: &Snapshot, last: Option<&Last>) -> Option<Analysis> {
    let last = last.filter(|last| last.view.uri == *uri)?;
    let analysis = last.view.analysis.as_ref().ok()?;
    let retold = analysis.retold(snapshot)?;
    files.are_as_in(&last.files).then_some(retold)
}

/// A `finwright.toml` in the editor is no design: what is told of it is what in it can't be understood.
fn settings_file(job: Job) -> Done {
    let settings = settings::read(FILE_NAME, &job.text);
    let reason = "These are settings, not a design.".to_string();
    let mut view = View::without_analysis((job.uri, job.version, job.generation), job.terms, job.rope, reason);
    view.diagnostics = Arc::new(troubles(&view, &job.text, &settings.problems));
    Done { uses: Vec::new(), view: Arc::new(view) }
}

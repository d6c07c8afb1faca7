//! A bar on a terminal while a run takes long.

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::io::IsTerminal;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::OnceLock;
use std::time::{Duration, Instant};

/// So long nothing is shown: most runs are over before anybody wonders.
const PATIENCE: Duration = Duration::from_millis(500);

/// How much of a run is done.
pub struct Progress {
    started: Instant,
    done: AtomicUsize,
    all: usize,
    bar: OnceLock<ProgressBar>,
    is_shown: bool,
}

impl Progress {
    /// Of so many files; shown on standard error where that is a terminal and anybody wants it.
    pub fn of(all: usize, wanted: bool) -> Progress {
        let is_shown = wanted && std::io::stderr().is_terminal();
        Progress { started: Instant::now(), done: AtomicUsize::new(0), all, bar: OnceLock::new(), is_shown }
    }

    /// One more file is done.
    pub fn one_more(&self) {
        let done = 1 + self.done.fetch_add(1, Ordering::Relaxed);
        if self.is_shown && self.started.elapsed() > PATIENCE {
            self.bar.get_or_init(|| bar(self.all)).set_position(done as u64);
        }
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if let Some(bar) = self.bar.get() {
            bar.finish_and_clear();
        }
    }
}

fn bar(all: usize) -> ProgressBar {
    let bar = ProgressBar::with_draw_target(Some(all as u64), ProgressDrawTarget::stderr());
    match ProgressStyle::with_template("{pos} of {len} files {bar:30} {eta} left") {
        Ok(style) => bar.with_style(style),
        Err(_) => bar,
    }
}

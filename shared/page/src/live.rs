//! What the page shows now, and who waits for the next.

use crate::content::Content;
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

/// Something to be shown, for the flight of a name.
pub trait Shown: Send + Sync {
    /// Its content.
    fn content(&self, flight: Option<&str>) -> Content;
}

/// Takes a reader from the page to a range of the text, by byte offsets.
pub type Going = dyn Fn(u32, u32) + Send + Sync;

/// What is shown, and what it waits for. Each of its counts rises by one at a time.
#[derive(Clone, Default)]
pub struct Now {
    /// How many states were shown.
    pub state: u64,
    /// The newest.
    pub shown: Option<Arc<dyn Shown>>,
    /// How many times the editor's cursor moved.
    pub moves: u64,
    /// Where it is, as a byte offset.
    pub cursor: Option<u32>,
    /// Whether the page is closed.
    pub over: bool,
}

/// What is shown now, for whoever changes it and whoever waits.
#[derive(Clone, Default)]
pub struct Live(Arc<(Mutex<Now>, Condvar)>);

impl Live {
    /// Show another state.
    pub fn show(&self, shown: Arc<dyn Shown>) {
        self.change(|now| {
            now.state += 1;
            now.shown = Some(shown);
        });
    }

    /// Mark what the editor's cursor is on.
    pub fn mark(&self, offset: u32) {
        self.change(|now| {
            now.moves += 1;
            now.cursor = Some(offset);
        });
    }

    /// Close the page: nobody waits any longer.
    pub fn close(&self) {
        self.change(|now| now.over = true);
    }

    /// What is shown now.
    pub fn now(&self) -> Now {
        self.lock().clone()
    }

    /// What is shown once that is something else than what somebody has seen, or when they have waited for so long.
    pub fn after(&self, seen: &Now, most: Duration) -> Now {
        let same = |now: &mut Now| now.state == seen.state && now.moves == seen.moves && !now.over;
        let waited = self.0 .1.wait_timeout_while(self.lock(), most, same);
        let (now, _) = waited.unwrap_or_else(PoisonError::into_inner);
        now.clone()
    }

    fn change(&self, change: impl FnOnce(&mut Now)) {
        change(&mut self.lock());
        self.0 .1.notify_all();
    }

    fn lock(&self) -> MutexGuard<'_, Now> {
        self.0 .0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

//! How far long work has come, told to clients that ask for it.

use crate::outbox::Outbox;
use lsp_types::notification::{Notification, Progress as Told};
use lsp_types::*;
use serde_json::json;
use std::sync::Mutex;
use std::time::{Duration, Instant};

/// It isn't told more often than this.
const PAUSE: Duration = Duration::from_millis(100);

/// One piece of long work.
pub struct Progress {
    to: Option<(Outbox, ProgressToken)>,
    last: Mutex<Option<Instant>>,
}

impl Progress {
    /// Begin, for a client that gave a token to tell it by.
    pub fn begin(outbox: &Outbox, token: Option<ProgressToken>, title: &str) -> Progress {
        let progress = Progress { to: token.map(|token| (outbox.clone(), token)), last: Mutex::new(None) };
        progress.tell(WorkDoneProgress::Begin(WorkDoneProgressBegin {
            title: title.into(),
            cancellable: Some(true),
            percentage: Some(0),
            ..WorkDoneProgressBegin::default()
        }));
        progress
    }

    /// So many are done of so many.
    pub fn report(&self, done: usize, all: usize) {
        let Ok(mut last) = self.last.lock() else { return };
        if last.is_some_and(|last| last.elapsed() < PAUSE) {
            return;
        }
        *last = Some(Instant::now());
        self.tell(WorkDoneProgress::Report(WorkDoneProgressReport {
            message: Some(format!("{done} of {all}")),
            percentage: Some((100 * done / all.max(1)) as u32),
            cancellable: Some(true),
        }));
    }

    fn tell(&self, value: WorkDoneProgress) {
        if let Some((outbox, token)) = &self.to {
            let params = ProgressParams { token: token.clone(), value: ProgressParamsValue::WorkDone(value) };
            outbox.send(&json!({"jsonrpc": "2.0", "method": Told::METHOD, "params": params}));
        }
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        self.tell(WorkDoneProgress::End(WorkDoneProgressEnd { message: None }));
    }
}

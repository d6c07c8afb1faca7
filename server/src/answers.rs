//! Answers that take long, on a thread of their own with its memory of flights: neither the reader of messages nor the
//! analysis of an edit ever waits for one. An answer about a text that has moved on meanwhile is dropped.

use crate::view::View;
use std::future::Future;
use std::panic::{catch_unwind, AssertUnwindSafe};
use std::sync::mpsc::{channel, Receiver, Sender};
use std::sync::Arc;
use tokio::sync::oneshot;
use tower_lsp::jsonrpc::{Error, Result};

/// Takes questions for the thread.
pub struct Answers(Sender<Question>);

type Question = Box<dyn FnOnce() + Send>;

/// Start the thread. It ends when its [`Answers`] are dropped.
pub fn start() -> Answers {
    let (sender, questions) = channel();
    std::thread::spawn(move || work(questions));
    Answers(sender)
}

fn work(questions: Receiver<Question>) {
    finwright_assess::remember_flights();
    while let Ok(question) = questions.recv() {
        question();
    }
}

impl Answers {
    /// What `answer` makes of a view, once the questions before it are answered.
    pub fn ask<T: Send + 'static>(
        &self,
        view: Arc<View>,
        answer: impl FnOnce(&View) -> T + Send + 'static,
    ) -> impl Future<Output = Result<T>> {
        let (reply, found) = oneshot::channel();
        let question = move || {
            // Whoever cancelled the request no longer listens.
            if reply.is_closed() {
                return;
            }
            let found = match view.wanted().still() {
                true => catch_unwind(AssertUnwindSafe(|| answer(&view))).map_err(|_| broken()),
                false => Err(Error::content_modified()),
            };
            let _ = reply.send(found.and_then(|found| match view.wanted().still() {
                true => Ok(found),
                false => Err(Error::content_modified()),
            }));
        };
        // Without the thread the process is ending.
        let _ = self.0.send(Box::new(question));
        async { found.await.unwrap_or_else(|_| Err(Error::content_modified())) }
    }
}

impl Answers {
    /// What `answer` makes of something that hangs on no single document. It's told whether anybody still waits.
    pub fn ask_freely<T: Send + 'static>(
        &self,
        answer: impl FnOnce(&(dyn Fn() -> bool + Sync)) -> T + Send + 'static,
    ) -> impl Future<Output = Result<T>> {
        let (reply, found) = oneshot::channel();
        let question = move || {
            let waited_for = || !reply.is_closed();
            if waited_for() {
                let found = catch_unwind(AssertUnwindSafe(|| answer(&waited_for))).map_err(|_| broken());
                let _ = reply.send(found);
            }
        };
        // Without the thread the process is ending.
        let _ = self.0.send(Box::new(question));
        async { found.await.unwrap_or_else(|_| Err(Error::request_cancelled())) }
    }
}

/// What is said of a request in which we failed.
pub fn broken() -> Error {
    Error {
        message: "this request failed inside finwright, which is a fault of ours; the next ones are not affected"
            .into(),
        ..Error::internal_error()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use super::*;
    use crate::terms::Terms;
    use lsp_types::{ClientCapabilities, Url};
    use tower_lsp::jsonrpc::ErrorCode;

    fn view() -> Arc<View> {
        let terms = Terms::agreed(&ClientCapabilities::default());
        let uri = Url::parse("file:///design.finw").unwrap();
        Arc::new(View::without_analysis((uri, 1, 1), terms, "".into(), "a test has none".to_string()))
    }

    #[tokio::test]
    async fn an_answer_about_a_text_that_moves_on_is_dropped() {
        let (answers, view) = (start(), view());
        let (begun, has_begun) = oneshot::channel();
        let endless = answers.ask(view.clone(), move |view| {
            let _ = begun.send(());
            while view.wanted().still() {
                std::thread::yield_now();
            }
            "too late"
        });
        has_begun.await.unwrap();
        let waiting = answers.ask(view.clone(), |_| "in the row");
        view.wanted().no_longer();
        assert_eq!(endless.await.unwrap_err().code, ErrorCode::ContentModified);
        assert_eq!(waiting.await.unwrap_err().code, ErrorCode::ContentModified);
    }

    #[tokio::test]
    async fn a_panic_costs_its_own_answer() {
        let answers = start();
        let broken = answers.ask(view(), |_| -> () { panic!("as the test asked for") }).await;
        assert_eq!(broken.unwrap_err().code, ErrorCode::InternalError);
        assert_eq!(answers.ask(view(), |view| view.version).await.unwrap(), 1);
    }
}

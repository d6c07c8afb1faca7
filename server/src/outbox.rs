//! What waits to be written to the client. Putting something in never waits; a document's newer diagnostics take the
//! place of older ones that still wait, and while too much waits nothing more is read from the client.

use lsp_types::notification::Notification;
use lsp_types::Url;
use serde::Serialize;
use std::collections::VecDeque;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use tokio::io::AsyncWrite;
use tokio::sync::Notify;

/// Takes messages for the client, from any thread.
pub struct Outbox(Arc<Shared>);

/// Where the messages come out, in the order in which they were put in.
pub struct Outgoing(Arc<Shared>);

/// With more bytes than this waiting, the client isn't listening to what it asks for.
const MOST_BYTES: usize = 16 << 20;

#[derive(Default)]
struct Shared {
    waiting: Mutex<Waiting>,
    /// Something was put in, or the last sender is gone.
    filled: Notify,
    /// Something was taken out, or nobody takes any more.
    emptied: Notify,
}

#[derive(Default)]
struct Waiting {
    messages: VecDeque<Message>,
    bytes: usize,
    senders: usize,
    is_closed: bool,
}

struct Message {
    body: Vec<u8>,
    /// The document whose newer message takes this one's place.
    about: Option<Url>,
}

/// A new outbox and its other end.
pub fn outbox() -> (Outbox, Outgoing) {
    let shared = Arc::new(Shared::default());
    shared.lock().senders = 1;
    (Outbox(shared.clone()), Outgoing(shared))
}

impl Outbox {
    /// Send a message that is whole already.
    pub fn send(&self, message: &impl Serialize) {
        self.put(message, None);
    }

    /// Send a notification about a document in place of one of them that still waits.
    pub fn notify<N: Notification>(&self, about: &Url, params: &N::Params) {
        self.put(&Note { jsonrpc: "2.0", method: N::METHOD, params }, Some(about.clone()));
    }

    /// Until little enough waits that more may be asked for.
    pub async fn room(&self) {
        loop {
            let emptied = self.0.emptied.notified();
            {
                let waiting = self.0.lock();
                if waiting.is_closed || waiting.bytes <= MOST_BYTES {
                    return;
                }
            }
            emptied.await;
        }
    }

    fn put(&self, message: &impl Serialize, about: Option<Url>) {
        let Ok(body) = serde_json::to_vec(message) else { return };
        let mut waiting = self.0.lock();
        // A closed outbox means that the client is gone, and with it whoever wanted to know.
        if waiting.is_closed {
            return;
        }
        waiting.bytes += body.len();
        let older =
            about.as_ref().and_then(|about| waiting.messages.iter().position(|m| m.about.as_ref() == Some(about)));
        if let Some(older) = older.and_then(|at| waiting.messages.remove(at)) {
            waiting.bytes -= older.body.len();
        }
        waiting.messages.push_back(Message { body, about });
        drop(waiting);
        self.0.filled.notify_one();
    }
}

impl Clone for Outbox {
    fn clone(&self) -> Outbox {
        self.0.lock().senders += 1;
        Outbox(self.0.clone())
    }
}

impl Drop for Outbox {
    fn drop(&mut self) {
        self.0.lock().senders -= 1;
        self.0.filled.notify_one();
    }
}

impl Outgoing {
    /// Write everything until the last sender is gone or the client hears no more.
    pub async fn write(self, mut output: impl AsyncWrite + Unpin) {
        while let Some(body) = self.next().await {
            if crate::frame::write_frame(&mut output, &body).await.is_err() {
                return;
            }
        }
    }

    async fn next(&self) -> Option<Vec<u8>> {
        loop {
            let filled = self.0.filled.notified();
            {
                let mut waiting = self.0.lock();
                if let Some(message) = waiting.messages.pop_front() {
                    waiting.bytes -= message.body.len();
                    self.0.emptied.notify_waiters();
                    return Some(message.body);
                }
                if waiting.senders == 0 {
                    return None;
                }
            }
            filled.await;
        }
    }
}

impl Drop for Outgoing {
    fn drop(&mut self) {
        let mut waiting = self.0.lock();
        *waiting = Waiting { is_closed: true, senders: waiting.senders, ..Waiting::default() };
        drop(waiting);
        self.0.emptied.notify_waiters();
    }
}

impl Shared {
    fn lock(&self) -> MutexGuard<'_, Waiting> {
        self.waiting.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[derive(Serialize)]
struct Note<'a, P> {
    jsonrpc: &'static str,
    method: &'static str,
    params: &'a P,
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use lsp_types::notification::PublishDiagnostics;
    use lsp_types::PublishDiagnosticsParams;

    fn tell(outbox: &Outbox, name: &str, version: i32) {
        let uri = Url::parse(&format!("file:///{name}")).unwrap();
        let params = PublishDiagnosticsParams::new(uri.clone(), Vec::new(), Some(version));
        outbox.notify::<PublishDiagnostics>(&uri, &params);
    }

    #[tokio::test]
    async fn newer_diagnostics_take_the_place_of_older_ones() {
        let (outbox, outgoing) = outbox();
        tell(&outbox, "one", 1);
        tell(&outbox, "two", 1);
        outbox.send(&"an answer");
        tell(&outbox, "one", 2);
        drop(outbox);
        let mut written = Vec::new();
        while let Some(body) = outgoing.next().await {
            written.push(String::from_utf8(body).unwrap());
        }
        assert_eq!(written.len(), 3);
        assert!(written[0].contains("two") && written[1].contains("an answer"), "{written:?}");
        assert!(written[2].contains("one") && written[2].contains("\"version\":2"), "{written:?}");
    }

    #[tokio::test]
    async fn there_is_room_again_once_the_client_reads() {
        let (outbox, outgoing) = outbox();
        outbox.room().await;
        outbox.send(&"x".repeat(MOST_BYTES + 1));
        let waits = tokio::time::timeout(std::time::Duration::from_millis(20), outbox.room()).await;
        assert!(waits.is_err());
        let reader = tokio::spawn(async move { outgoing.next().await.map(|body| body.len()) });
        outbox.room().await;
        assert_eq!(reader.await.unwrap(), Some(MOST_BYTES + 3));
        // Nobody reads any more: nothing waits for room.
        outbox.send(&"x".repeat(MOST_BYTES + 1));
        outbox.room().await;
    }
}

//! What waits to be written to the client. Putting something in never waits.

use lsp_types::notification::Notification;
use serde::Serialize;
use tokio::io::AsyncWrite;
use tokio::sync::mpsc::{unbounded_channel, UnboundedReceiver, UnboundedSender};

/// Takes messages for the client, from any thread.
#[derive(Clone)]
pub struct Outbox(UnboundedSender<Vec<u8>>);

/// Where the messages come out, in the order in which they were put in.
pub struct Outgoing(UnboundedReceiver<Vec<u8>>);

/// A new outbox and its other end.
pub fn outbox() -> (Outbox, Outgoing) {
    let (sender, receiver) = unbounded_channel();
    (Outbox(sender), Outgoing(receiver))
}

impl Outbox {
    /// Send a message that is whole already.
    pub fn send(&self, message: &impl Serialize) {
        if let Ok(body) = serde_json::to_vec(message) {
            // A closed outbox means that the client is gone, and with it whoever wanted to know.
            let _ = self.0.send(body);
        }
    }

    /// Send a notification.
    pub fn notify<N: Notification>(&self, params: &N::Params) {
        self.send(&Note { jsonrpc: "2.0", method: N::METHOD, params });
    }
}

impl Outgoing {
    /// Write everything until the last sender is gone or the client hears no more.
    pub async fn write(mut self, mut output: impl AsyncWrite + Unpin) {
        while let Some(body) = self.0.recv().await {
            if crate::frame::write_frame(&mut output, &body).await.is_err() {
                return;
            }
        }
    }
}

#[derive(Serialize)]
struct Note<'a, P> {
    jsonrpc: &'static str,
    method: &'static str,
    params: &'a P,
}

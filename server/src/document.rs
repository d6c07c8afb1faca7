//! An open document: its text, what it uses, and what is known about it.

use crate::position::{char_index, Encoding};
use crate::view::View;
use lsp_types::TextDocumentContentChangeEvent;
use ropey::Rope;
use std::path::PathBuf;
use std::sync::Arc;
use tokio::sync::oneshot;
use tower_lsp::jsonrpc::Error;

/// The answer to a question about a document; nothing when it isn't open.
pub type Answer = Result<Option<Arc<View>>, Error>;

/// An open document. Only the state thread has it.
pub struct Document {
    /// Its real path, or its name where it has none.
    pub path: PathBuf,
    /// The editor's count of its changes.
    pub version: i32,
    /// Its text, for edits and positions.
    pub rope: Rope,
    /// The same text, for everybody else.
    pub text: Arc<str>,
    /// Where somebody is typing, by byte: since the last save, and not where more than a letter came at once.
    pub typing: Option<usize>,
    /// Whether something else than its own text has made it stale.
    pub touched_from_outside: bool,
    /// Rises with every change of the text or of what it uses; never the same for two states of any document.
    pub generation: u64,
    /// How far everything had come when its last analysis was asked for.
    pub asked_at: u64,
    /// The files that its last analysis asked for.
    pub uses: Vec<PathBuf>,
    /// What the last analysis gave.
    pub view: Option<Arc<View>>,
    /// Requests that wait for the analysis of the newest text.
    pub waiting: Vec<oneshot::Sender<Answer>>,
}

impl Document {
    /// A document as the editor opened it.
    pub fn new(path: PathBuf, version: i32, text: String) -> Document {
        Document {
            path,
            version,
            rope: Rope::from_str(&text),
            text: text.into(),
            typing: None,
            touched_from_outside: false,
            generation: 0,
            asked_at: 0,
            uses: Vec::new(),
            view: None,
            waiting: Vec::new(),
        }
    }

    /// Take over the editor's changes, each of which stands on the one before.
    pub fn edit(&mut self, encoding: Encoding, version: i32, changes: Vec<TextDocumentContentChangeEvent>) {
        for change in changes {
            let typed = crate::typing::is_typed(&change);
            self.typing = None;
            let Some(range) = change.range else {
                self.rope = Rope::from_str(&change.text);
                continue;
            };
            let start = char_index(&self.rope, encoding, range.start);
            let end = char_index(&self.rope, encoding, range.end).max(start);
            self.rope.remove(start..end);
            self.rope.insert(start, &change.text);
            let end = self.rope.char_to_byte(start) + change.text.len();
            self.typing = typed.then_some(end);
        }
        self.version = version;
        self.text = self.rope.to_string().into();
        self.reply_waiting(|| Err(Error::content_modified()));
    }

    /// Answers from what was known are no longer wanted.
    pub fn no_longer_wanted(&self) {
        if let Some(view) = &self.view {
            view.wanted().no_longer();
        }
    }

    /// Answer everybody who waits.
    pub fn reply_waiting(&mut self, answer: impl Fn() -> Answer) {
        for waiting in self.waiting.drain(..) {
            // Whoever cancelled the request no longer listens.
            let _ = waiting.send(answer());
        }
    }

    /// What is known about the newest text, once it's known.
    pub fn current_view(&self) -> Option<&Arc<View>> {
        self.view.as_ref().filter(|view| view.generation == self.generation)
    }
}

//! The language server: what editors talk to.
//!
//! One state thread owns the open documents. Every handler's first statement is a plain send to it, so texts change in
//! the order in which the editor sent them. A worker thread analyses fixed snapshots and always takes the newest text.
//! Diagnostics are pushed, or pulled by clients that can be told to ask again: a design changes when a file that it
//! uses changes, and then the server knows before the editor could think of asking. Answers that take long, such as
//! pads compared or fixes tried, are worked out on a thread of their own and dropped when the text moves on; so are
//! those that read all designs of a workspace.
//!
//! To add a request, write a file beside `hover.rs` that takes a [`view::View`] and gives the answer, name it in
//! `backend.rs`, announce it in `offer.rs`, and write its row of `FEATURES.md`.

mod actions;
mod answers;
mod backend;
mod built_in;
mod commands;
mod completion;
mod definition;
mod diagnostics;
mod document;
mod edit;
mod files;
mod formatting;
mod frame;
mod hints;
mod hover;
#[cfg(feature = "pictures")]
mod hover_picture;
mod kept;
mod legend;
mod lens;
mod near;
mod offer;
mod options;
mod outbox;
mod outline;
mod pages;
mod parent;
mod position;
#[cfg(feature = "pictures")]
mod preview;
mod progress;
mod pull;
mod references;
mod refresh;
mod semantic;
mod serve;
mod settings_file;
mod signature;
mod state;
mod survey;
mod symbols;
mod terms;
mod typing;
mod unopened;
mod view;
mod watch;
mod words;
mod worker;

pub use finwright_checks::Analyze;
pub use serve::{run, serve, serve_with, Ending};

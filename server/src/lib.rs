//! The language server: what editors talk to.
//!
//! One state thread owns the open documents. Every handler's first statement is a plain send to it, so texts change in
//! the order in which the editor sent them. A worker thread analyses fixed snapshots and always takes the newest text.
//! Diagnostics are pushed, to every client, and never pulled: a design changes when a file that it uses changes, and
//! then the server knows before the editor could think of asking. Answers that take long, such as pads compared or
//! fixes tried, are worked out on a thread of their own and dropped when the text moves on.
//!
//! To add a request, write a file beside `hover.rs` that takes a [`view::View`] and gives the answer, name it in
//! `backend.rs`, and announce it in `terms.rs`.

mod actions;
mod answers;
mod backend;
mod completion;
mod definition;
mod diagnostics;
mod document;
mod files;
mod formatting;
mod frame;
mod hover;
#[cfg(feature = "pictures")]
mod hover_picture;
mod lens;
mod outbox;
mod position;
#[cfg(feature = "pictures")]
mod preview;
mod serve;
mod state;
mod symbols;
mod terms;
mod view;
mod watch;
mod worker;

pub use finwright_checks::Analyze;
pub use serve::{run, serve, serve_with, Ending};

//! The live page: a design's verdict, pictures, findings and numbers in one column, served on the loopback address
//! only.
//!
//! * [`content`](mod@content): what the page shows of an analysis, as HTML in which nothing from a design stands
//!   unescaped.
//! * [`shell`]: the document around it, its style and its script.
//! * [`live`]: what is shown now, and who waits for the next.
//! * [`serve`](mod@serve): the server. [`request`]: what it understands and what it turns away.

pub mod content;
mod found;
pub mod live;
mod numbers;
pub mod request;
pub mod serve;
pub mod shell;
mod words;

pub use content::content;
pub use live::{Going, Live, Shown};
pub use serve::{serve, Address};

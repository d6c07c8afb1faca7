//! Whether anybody still waits for what is being worked out.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::Arc;

/// A token that answers which take long look at between their steps. Once nobody waits any more they end early, and
/// what they give then means nothing.
#[derive(Clone, Debug, Default)]
pub struct Wanted(Arc<AtomicBool>);

impl Wanted {
    /// Whether the answer is still wanted.
    pub fn still(&self) -> bool {
        !self.0.load(Ordering::Relaxed)
    }

    /// From now on it isn't.
    pub fn no_longer(&self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

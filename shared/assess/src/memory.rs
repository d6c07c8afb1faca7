//! What was computed before: whoever asks again and again about a text that changes by a letter need not have the same
//! flights flown again.
//!
//! What is remembered is the answer to exactly the same numbers, so it changes no result.

use std::cell::{Cell, RefCell};
use std::thread::LocalKey;

/// From now on remember flights, and how likely they meet their floors, on this thread. It's worth its memory where the same
/// design is assessed again and again.
pub fn remember_flights() {
    REMEMBERS.set(true);
}

/// More answers of a kind than this aren't kept; then they are forgotten, all at once.
const MOST: usize = 256;

thread_local! {
    static REMEMBERS: Cell<bool> = const { Cell::new(false) };
}

/// Questions with their answers.
pub(crate) type Known<K, V> = RefCell<Vec<(K, V)>>;

/// The answer to a question that `is` known, or what `work` gives, which is kept under what was `asked`.
pub(crate) fn again<K, V: Clone>(
    known: &'static LocalKey<Known<K, V>>,
    is: impl Fn(&K) -> bool,
    asked: impl FnOnce() -> K,
    work: impl FnOnce() -> V,
) -> V {
    if !REMEMBERS.get() {
        return work();
    }
    let before = known.with_borrow(|known| known.iter().find(|(asked, _)| is(asked)).map(|(_, answer)| answer.clone()));
    if let Some(answer) = before {
        return answer;
    }
    let answer = work();
    known.with_borrow_mut(|known| {
        if known.len() >= MOST {
            known.clear();
        }
        known.push((asked(), answer.clone()));
    });
    answer
}

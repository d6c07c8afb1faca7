//! What was computed before: whoever asks again and again about a text that changes by a letter need not have the same
//! flights flown again.
//!
//! What is remembered is the answer to exactly the same numbers, so it changes no result.

use finwright_physics::motor::ThrustCurve;
use std::cell::{Cell, RefCell};
use std::thread::LocalKey;

/// From now on remember flights, and how likely they meet their floors, on this thread. It's worth its memory where the same
/// design is assessed again and again.
pub fn remember_flights() {
    REMEMBERS.set(true);
}

/// More answers of a kind than this aren't kept, nor more points of the curves that they were asked with; then they are
/// forgotten, all at once: a curve may have as many points as a file of a megabyte holds.
const MOST: usize = 256;
/// A megabyte of points.
const MOST_POINTS: usize = 1 << 16;

thread_local! {
    static REMEMBERS: Cell<bool> = const { Cell::new(false) };
}

/// Questions with their answers.
pub(crate) struct Known<K, V>(RefCell<Kept<K, V>>);

struct Kept<K, V> {
    answers: Vec<(K, V)>,
    points: usize,
}

impl<K, V> Known<K, V> {
    pub(crate) const fn new() -> Known<K, V> {
        Known(RefCell::new(Kept { answers: Vec::new(), points: 0 }))
    }
}

/// The answer to a question about a curve that `is` known, or what `work` gives, which is kept under what was `asked`.
pub(crate) fn again<K, V: Clone>(
    known: &'static LocalKey<Known<K, V>>,
    curve: &ThrustCurve,
    is: impl Fn(&K) -> bool,
    asked: impl FnOnce() -> K,
    work: impl FnOnce() -> V,
) -> V {
    if !REMEMBERS.get() {
        return work();
    }
    let before = known.with(|known| {
        let kept = known.0.borrow();
        kept.answers.iter().find(|(asked, _)| is(asked)).map(|(_, answer)| answer.clone())
    });
    if let Some(answer) = before {
        return answer;
    }
    let answer = work();
    known.with(|known| {
        let mut kept = known.0.borrow_mut();
        let points = curve.points().len();
        if kept.answers.len() >= MOST || kept.points + points > MOST_POINTS {
            *kept = Kept { answers: Vec::new(), points: 0 };
        }
        if points <= MOST_POINTS {
            kept.points += points;
            kept.answers.push((asked(), answer.clone()));
        }
    });
    answer
}

//! What was computed before: whoever asks again and again about a text that changes by a letter need not have the same
//! flights flown again.
//!
//! What is remembered is the answer to exactly the same numbers, so it changes no result.

use finwright_physics::motor::ThrustCurve;
use std::any::{Any, TypeId};
use std::cell::RefCell;
use std::collections::HashMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// From now on remember flights, and how likely they meet their floors, on this thread and those that help it. It's worth its
/// memory where the same design is assessed again and again.
pub fn remember_flights() {
    take_up(Some(Arc::default()));
}

/// More answers of a kind than this aren't kept, nor more points of the curves that they were asked with; then they are
/// forgotten, all at once: a curve may have as many points as a file of a megabyte holds.
const MOST: usize = 256;
/// A megabyte of points.
const MOST_POINTS: usize = 1 << 16;

/// What a thread remembers: for each kind of question those that were asked.
#[derive(Default)]
pub(crate) struct Memory(Mutex<HashMap<TypeId, Arc<dyn Any + Send + Sync>>>);

thread_local! {
    static MEMORY: RefCell<Option<Arc<Memory>>> = const { RefCell::new(None) };
}

/// What this thread remembers, where it does: for a thread that helps it.
pub(crate) fn memory() -> Option<Arc<Memory>> {
    MEMORY.with_borrow(Clone::clone)
}

/// Remember with another thread from now on.
pub(crate) fn take_up(memory: Option<Arc<Memory>>) {
    MEMORY.set(memory);
}

/// Questions with their answers.
struct Kept<K, V> {
    answers: Vec<(K, V)>,
    points: usize,
}

impl<K, V> Default for Kept<K, V> {
    fn default() -> Self {
        Kept { answers: Vec::new(), points: 0 }
    }
}

impl Memory {
    fn of<K: Send + 'static, V: Send + 'static>(&self) -> Arc<Mutex<Kept<K, V>>> {
        let kind = TypeId::of::<Kept<K, V>>();
        let kept = held(&self.0).entry(kind).or_insert_with(|| Arc::<Mutex<Kept<K, V>>>::default()).clone();
        kept.downcast().unwrap_or_default()
    }
}

fn held<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

/// The answer to a question about a curve that `is` known, or what `work` gives, which is kept under what was `asked`.
pub(crate) fn again<K: Send + 'static, V: Clone + Send + 'static>(
    curve: &ThrustCurve,
    is: impl Fn(&K) -> bool,
    asked: impl FnOnce() -> K,
    work: impl FnOnce() -> V,
) -> V {
    let Some(memory) = memory() else { return work() };
    let kept = memory.of::<K, V>();
    let before = held(&kept).answers.iter().find(|(asked, _)| is(asked)).map(|(_, answer)| answer.clone());
    if let Some(answer) = before {
        return answer;
    }
    let answer = work();
    let points = curve.points().len();
    let mut kept = held(&kept);
    if kept.answers.len() >= MOST || kept.points + points > MOST_POINTS {
        *kept = Kept::default();
    }
    if points <= MOST_POINTS {
        kept.points += points;
        kept.answers.push((asked(), answer.clone()));
    }
    answer
}

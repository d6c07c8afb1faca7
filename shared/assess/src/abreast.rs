//! Much about one design, such as its many flights, on several threads.

use crate::memory::{memory, take_up};
use rayon::{ThreadPool, ThreadPoolBuilder};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{LazyLock, Mutex, PoisonError};
use std::thread::available_parallelism;

/// The answers to a question about each of so many flights, in their order. On a thread that remembers, which is an
/// editor's and has a single design to look at, several threads work them out where there are many; where many designs are
/// looked at, each of them has a thread. Where `work` makes words it has to say whose units they are in, which is a setting
/// of the thread.
pub fn abreast<T: Send>(flights: usize, work: impl Fn(usize) -> T + Sync) -> Vec<T> {
    abreast_over(flights, flights, work)
}

/// The same to `count` questions, each of which is about all of a design's flights.
pub fn abreast_over<T: Send>(flights: usize, count: usize, work: impl Fn(usize) -> T + Sync) -> Vec<T> {
    let helpers = HELPERS.as_ref().filter(|_| flights >= MANY);
    let (Some(memory), Some(helpers)) = (memory(), helpers) else { return (0..count).map(work).collect() };
    let (next, work) = (&AtomicUsize::new(0), &work);
    // Some questions take longer than others, and some threads are kept from them: whoever is free takes the next.
    let share = move || {
        let taken = std::iter::repeat_with(move || next.fetch_add(1, Ordering::Relaxed));
        taken.take_while(|number| *number < count).map(|number| (number, work(number))).collect::<Vec<(usize, T)>>()
    };
    let of_others = Mutex::new(Vec::new());
    let mut answers = helpers.in_place_scope(|scope| {
        for _ in 0..helpers.current_num_threads() {
            let (memory, of_others) = (memory.clone(), &of_others);
            scope.spawn(move |_| {
                take_up(Some(memory));
                let answers = share();
                take_up(None);
                of_others.lock().unwrap_or_else(PoisonError::into_inner).extend(answers);
            });
        }
        share()
    });
    answers.extend(of_others.into_inner().unwrap_or_else(PoisonError::into_inner));
    answers.sort_by_key(|(number, _)| *number);
    answers.into_iter().map(|(_, answer)| answer).collect()
}

/// Threads that wait for questions, of nobody else: what looks through many files would keep them for long. To start
/// and to end some at every keystroke takes as long as a flight or two, and what they gave back is looked for anew.
static HELPERS: LazyLock<Option<ThreadPool>> = LazyLock::new(|| {
    let threads = available_parallelism().map_or(1, usize::from).min(MOST_THREADS);
    let pool = || ThreadPoolBuilder::new().num_threads(threads - 1).thread_name(|_| "abreast".to_string()).build().ok();
    (threads > 1).then(pool).flatten()
});

/// Fewer aren't worth another thread.
const MANY: usize = 8;
/// More of them wait for each other.
const MOST_THREADS: usize = 4;

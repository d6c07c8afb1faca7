//! Much about one design, such as its many flights, on several threads.

use crate::memory::{memory, take_up};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread::{available_parallelism, scope};

/// The answers to a question about each of so many flights, in their order. On a thread that remembers, which is an
/// editor's and has a single design to look at, several threads work them out where there are many; where many designs are
/// looked at, each of them has a thread. Where `work` makes words it has to say whose units they are in, which is a setting
/// of the thread.
pub fn abreast<T: Send>(flights: usize, work: impl Fn(usize) -> T + Sync) -> Vec<T> {
    abreast_over(flights, flights, work)
}

/// The same to `count` questions, each of which is about all of a design's flights.
pub fn abreast_over<T: Send>(flights: usize, count: usize, work: impl Fn(usize) -> T + Sync) -> Vec<T> {
    let Some(memory) = memory().filter(|_| flights >= MANY) else { return (0..count).map(work).collect() };
    let threads = available_parallelism().map_or(1, usize::from).min(MOST_THREADS);
    let (next, work) = (&AtomicUsize::new(0), &work);
    // Some questions take longer than others, and some threads are kept from them: whoever is free takes the next.
    let share = move || {
        let taken = std::iter::repeat_with(move || next.fetch_add(1, Ordering::Relaxed));
        taken.take_while(|number| *number < count).map(|number| (number, work(number))).collect::<Vec<(usize, T)>>()
    };
    let mut answers = scope(|scope| {
        let help = |_| {
            let memory = memory.clone();
            scope.spawn(move || {
                take_up(Some(memory));
                share()
            })
        };
        let others: Vec<_> = (1..threads).map(help).collect();
        let mut answers = share();
        for other in others {
            match other.join() {
                Ok(more) => answers.extend(more),
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        answers
    });
    answers.sort_by_key(|(number, _)| *number);
    answers.into_iter().map(|(_, answer)| answer).collect()
}

/// Fewer aren't worth another thread.
const MANY: usize = 8;
/// More of them wait for each other.
const MOST_THREADS: usize = 4;

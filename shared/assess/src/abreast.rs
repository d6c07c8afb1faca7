//! Much about one design, such as its many flights, on several threads.

use crate::memory::{memory, take_up};
use std::thread::{available_parallelism, scope};

/// The answers to so many questions, in their order. On a thread that remembers, which is an editor's and has a single
/// design to look at, several threads work them out where there are many; where many designs are looked at, each of them
/// has a thread. Where `work` makes words it has to say whose units they are in, which is a setting of the thread.
pub fn abreast<T: Send>(count: usize, work: impl Fn(usize) -> T + Sync) -> Vec<T> {
    let Some(memory) = memory().filter(|_| count >= MANY) else { return (0..count).map(work).collect() };
    let threads = available_parallelism().map_or(1, usize::from).min(MOST_THREADS);
    let share = count.div_ceil(threads);
    let work = &work;
    scope(|scope| {
        let others: Vec<_> = (share..count)
            .step_by(share)
            .map(|first| {
                let memory = memory.clone();
                scope.spawn(move || {
                    take_up(Some(memory));
                    (first..count.min(first + share)).map(work).collect::<Vec<T>>()
                })
            })
            .collect();
        let mut answers: Vec<T> = (0..share).map(work).collect();
        for other in others {
            match other.join() {
                Ok(more) => answers.extend(more),
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        answers
    })
}

/// Fewer aren't worth another thread.
const MANY: usize = 8;
/// More of them wait for each other.
const MOST_THREADS: usize = 4;

//! What came of a submission, in a word.

use finwright_checks::Verdict;

/// What came of a submission.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// There is nothing.
    Nothing,
    /// There is something, and no design that can be read.
    Unreadable,
    /// There is a design, and nothing in it that would fly.
    NoFlight,
    /// The worst verdict on a design.
    Judged(Verdict),
}

impl State {
    /// Every state, in the order in which a teacher would look at them.
    pub const ALL: [State; 7] = [
        State::Nothing,
        State::Unreadable,
        State::NoFlight,
        State::Judged(Verdict::NotAsItIs),
        State::Judged(Verdict::NotChecked),
        State::Judged(Verdict::LookAtIt),
        State::Judged(Verdict::MeetsTheChecks),
    ];

    /// The state in words.
    pub fn words(self) -> &'static str {
        match self {
            State::Nothing => "nothing handed in",
            State::Unreadable => "nothing that can be read",
            State::NoFlight => "a design without a flight",
            State::Judged(verdict) => verdict.words(),
        }
    }

    /// The same for a sentence that counts them: "3 meet the checks".
    pub fn counted(self, n: usize) -> String {
        let words = match (self, n) {
            (State::Judged(Verdict::MeetsTheChecks), 1) => "meets the checks",
            (State::Judged(Verdict::MeetsTheChecks), _) => "meet the checks",
            (State::Judged(Verdict::LookAtIt), _) => "to look at",
            (State::Judged(Verdict::NotAsItIs), _) => "not as it is",
            (State::Judged(Verdict::NotChecked), _) => "not checked",
            (State::Judged(Verdict::Library) | State::NoFlight, _) => "without a flight",
            (State::Nothing, _) => "with nothing handed in",
            (State::Unreadable, _) => "with nothing that can be read",
        };
        format!("{n} {words}")
    }
}

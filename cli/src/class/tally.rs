//! What a class has in common: how many came how far, and what is found most often.

use super::looked::Looked;
use super::verdicts::State;
use finwright_checks::lacking::joined;
use finwright_checks::Level;

/// How many came how far, in a sentence: "18 meet the checks, 4 to look at and 2 with nothing handed in".
pub fn counted(looked: &[Looked]) -> String {
    let count = |state: State| looked.iter().filter(|one| one.state == state).count();
    let states = State::ALL.into_iter().rev().map(|state| (state, count(state)));
    let said: Vec<String> = states.filter(|(_, n)| *n > 0).map(|(state, n)| state.counted(n)).collect();
    joined(&said, "and")
}

/// What a rule found in a class.
pub struct Common {
    pub rule: &'static str,
    pub level: Level,
    /// In how many submissions.
    pub count: usize,
    /// What it says in the first of them, and whose that is.
    pub example: (String, String),
}

/// What is found most often, each rule once a submission.
pub fn common(looked: &[Looked]) -> Vec<Common> {
    let mut found: Vec<Common> = Vec::new();
    for one in looked {
        let mut own: Vec<&'static str> = Vec::new();
        for (rule, level, message) in one.designs.iter().flat_map(|design| &design.found) {
            if own.contains(rule) {
                continue;
            }
            own.push(rule);
            match found.iter_mut().find(|known| known.rule == *rule) {
                Some(known) => {
                    known.count += 1;
                    known.level = known.level.min(*level);
                }
                None => {
                    let example = (message.clone(), one.name.clone());
                    found.push(Common { rule, level: *level, count: 1, example });
                }
            }
        }
    }
    found.sort_by(|one, other| other.count.cmp(&one.count).then(one.rule.cmp(other.rule)));
    found
}

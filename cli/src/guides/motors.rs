//! Which motors may fly, side by side: each from the best of its pads.

use finwright_advice::{Candidate, Comparison};
use finwright_checks::Level;
use finwright_units::show;

/// The heads of the table's columns.
pub const HEADS: [&str; 4] = ["motor", "from", "exit", "verdict"];

/// A motor's cells; of a fault of the rocket itself, whatever the pad, that comes first.
pub fn cells(comparison: &Comparison) -> [String; 4] {
    let best = comparison.candidates.first();
    let fault = comparison.of_the_rocket.iter().find(|fault| fault.level == Level::Error);
    let from = best.map_or("–".to_string(), |best| best.pad.clone());
    let exit = best.and_then(|best| best.exit_speed_m_s).map_or("–".to_string(), show::speed);
    let verdict = match (fault, best) {
        (Some(fault), _) => format!("not as it is: {}", fault.rule),
        (None, Some(best)) => verdict(best),
        (None, None) => "no pad to compare".to_string(),
    };
    [comparison.motor.clone(), from, exit, verdict]
}

fn verdict(best: &Candidate) -> String {
    let needs = if best.fits { "" } else { ", with other guides" };
    match best.reason_rule {
        Some(rule) => format!("{}{needs}: {rule}", best.verdict.words()),
        None => format!("{}{needs}", best.verdict.words()),
    }
}

/// Whether a motor may fly as it is from one of the pads, as far as the checks can tell.
pub fn may_fly(comparison: &Comparison) -> bool {
    let faulty = comparison.of_the_rocket.iter().any(|fault| fault.level == Level::Error);
    !faulty && comparison.candidates.iter().any(Candidate::may_pass)
}

/// The answer in a sentence.
pub fn answer(found: &[Comparison]) -> String {
    let named = |of: &dyn Fn(&&Comparison) -> bool| {
        let names: Vec<&str> = found.iter().filter(of).map(|comparison| comparison.motor.as_str()).collect();
        names.join(", ")
    };
    let clean = |c: &&Comparison| may_fly(c) && c.candidates.iter().any(Candidate::may_fly);
    let (fly, look) = (named(&clean), named(&|c| may_fly(c) && !clean(c)));
    match (fly.as_str(), look.as_str()) {
        ("", "") => "None of these motors may fly it as it is.".to_string(),
        ("", look) => format!("Worth a look before flying: {look}."),
        (fly, "") => format!("These may fly it: {fly}."),
        (fly, look) => format!("These may fly it: {fly}. Worth a look before flying: {look}."),
    }
}

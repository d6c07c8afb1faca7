//! `shape/balance-outside`: a part's own balance point outside of it.

use crate::common::misfit;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::Fault;
use finwright_units::show;

/// The rule.
pub static BALANCE_OUTSIDE: Rule = Rule {
    name: "shape/balance-outside",
    family: Family::Shape,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "a part's own balance point outside of the part",
    why: "A thing balances somewhere within itself, so this is a slip, and the rocket's balance point would be off \
        with it.",
    prose: include_str!("balance_outside.md"),
    thresholds: &[],
    example: Example::new(
        "base: caliber; material: basswood",
        "base: caliber; material: basswood; balance: 200 mm \
        from front",
    ),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    misfit::parts(cx, out, |part, misfit| {
        let Fault::BalanceOutside { at, room } = misfit.fault else { return None };
        let edge = if at < room.front {
            format!("{} ahead of where it begins", show::station(room.front - at))
        } else {
            format!("{} behind where it ends", show::station(at - room.back))
        };
        let message = format!("{} by itself can't balance {edge}", part.label());
        let (from, to) = (show::si::station(room.front.max(0.0)), show::si::station(room.back));
        let help = format!("measured from its own front, `balance` may be from {from} to {to}");
        Some(BALANCE_OUTSIDE.finding(misfit.place, message).help(help))
    });
}

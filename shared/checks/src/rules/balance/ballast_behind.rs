//! `balance/ballast-behind`: ballast behind the balance point.

use crate::common::named::motor_name;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_model::PartKind;
use finwright_units::show;

/// Ballast behind the balance point.
pub static BALLAST_BEHIND: Rule = Rule {
    name: "balance/ballast-behind",
    family: Family::Balance,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Warning,
    summary: "ballast behind the balance point",
    why: "Weight behind the balance point draws it towards the tail, which takes margin away: the opposite of what \
        ballast is for.",
    prose: include_str!("ballast_behind.md"),
    thresholds: &[],
    example: Example::new("ballast { mass: 1 g; at: 50 mm from front }", "ballast { mass: 1 g; at: 250 mm from tip }"),
    check: Some(ballast_behind),
};

fn ballast_behind(cx: &Context, out: &mut Vec<Finding>) {
    // The motor that draws the balance point furthest back judges mildest; ballast behind even that one only harms.
    let Some((flight, loaded)) = cx
        .flights()
        .filter_map(|(flight, numbers)| Some((flight, numbers.loaded()?)))
        .max_by(|a, b| a.1.x.total_cmp(&b.1.x))
    else {
        return;
    };
    for (id, part) in cx.design.parts.iter().enumerate() {
        let Some(place) = cx.parts().extent(id) else { continue };
        let Some(mass) = part.mass.as_ref().filter(|_| matches!(part.kind, PartKind::Ballast)) else { continue };
        let behind = place.middle() - loaded.x;
        if behind <= 0.0 {
            continue;
        }
        out.push(
            BALLAST_BEHIND
                .finding(
                    crate::common::named::value_place(part),
                    format!(
                        "{} of {} sits {} behind the balance point ({} from the tip with {} in)",
                        part.label(),
                        show::mass(mass.si),
                        show::station(behind),
                        show::station(loaded.x),
                        motor_name(cx, flight)
                    ),
                )
                .help("put it as near the tip as it fits, or leave it out"),
        );
    }
}

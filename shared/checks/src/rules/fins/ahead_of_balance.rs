//! `fins/ahead-of-balance`: fins that take margin away.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_model::{PartKind, Stage};
use finwright_physics::normal_force::{total, NormalForce};
use finwright_units::show;

/// The rule.
pub static AHEAD_OF_BALANCE: Rule = Rule {
    name: "fins/ahead-of-balance",
    family: Family::Fins,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Note,
    summary: "fins ahead of the balance point",
    why: "Fins ahead of the balance point turn the nose away from the oncoming air, so the fins at the tail have to \
        make up for them.",
    prose: include_str!("ahead_of_balance.md"),
    thresholds: &[],
    example: Example::new(
        "    mount engine {",
        "    fins canard { count: 3; root: 20 mm; tip: 12 mm; span: 12 mm; sweep: 8 mm; thickness: 1.6 mm; material: \
            balsa; at: 25 mm from front }\n    mount engine {",
    ),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    for (id, part) in cx.design.parts.iter().enumerate() {
        if !matches!(part.kind, PartKind::Fins(_) | PartKind::TubeFins { .. } | PartKind::RingFin { .. }) {
            continue;
        }
        // Of two stages the upper one's fins lie ahead of the whole's balance point by nature; what counts is that
        // stage.
        let own_stage = part.stage == Stage::Upper;
        let airflow = match &cx.assessment.airframe.upper_airflow {
            Some(upper) if own_stage => Some(upper),
            _ => cx.assessment.airframe.airflow.as_ref(),
        };
        let Some(airflow) = airflow else { continue };
        let of_part = |found: &&(usize, NormalForce)| found.0 == id;
        let Some(centre) = airflow.parts.iter().find(of_part).and_then(|(_, force)| force.x()) else { continue };
        // With another motor the rocket balances elsewhere: the flight where the fins are furthest ahead tells it.
        let furthest = cx
            .flights()
            .filter_map(|(flight, n)| {
                let loaded = n.upper().as_ref().filter(|_| own_stage).map(|upper| upper.loaded).or(n.loaded())?;
                Some((flight, loaded.x))
            })
            .filter(|(_, balance)| centre < *balance)
            .max_by(|a, b| a.1.total_cmp(&b.1));
        let (Some((flight, balance)), Some(calibre)) = (furthest, cx.assessment.airframe.calibre) else { continue };
        let margin = |force: NormalForce| force.x().map(|x| (x - balance) / calibre);
        let without = total(airflow.parts.iter().filter(|(other, _)| *other != id).map(|(_, force)| *force));
        let Some((with, without)) = margin(airflow.total).zip(margin(without)) else { continue };
        out.push(
            AHEAD_OF_BALANCE
                .finding(
                    part.header,
                    format!(
                        "the air pushes on {} {} ahead of the balance point",
                        part.label(),
                        show::station(balance - centre)
                    ),
                )
                .help(format!(
                    "with it {} has a margin of {} calibres, without it {}; further back it would help",
                    flight.name.value,
                    show::number(with),
                    show::number(without)
                ))
                .label(flight.name.place, format!("balances {} from the tip", show::station(balance))),
        );
    }
}

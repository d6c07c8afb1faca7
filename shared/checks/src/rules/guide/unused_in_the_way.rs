//! `guide/unused-in-the-way`: guides for another pad that the rod or rail in use doesn't clear.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::flight::clearance::BODY_CLEARANCE;
use finwright_grammar::Place;
use finwright_model::{Design, Flight};
use finwright_units::show;

/// Guides for another pad in the way of this one's rod or rail.
pub static UNUSED_IN_THE_WAY: Rule = Rule {
    name: "guide/unused-in-the-way",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Error,
    summary: "a guide for another pad in the way of the rod or rail in use",
    why: "What rubs along the rod or rail on its way pushes the rocket off its line, or stops it.",
    prose: include_str!("unused_in_the_way.md"),
    thresholds: &[],
    example: Example::new(
        "button peg { profile: 15 mm; at: 12 mm from back; clock: 180 deg }",
        "button peg { profile: 15 mm; at: 40 mm from back; clock: 70 deg }",
    ),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let mut told: Vec<(Place, Place)> = Vec::new();
    for (flight, numbers) in cx.flights() {
        let (Some(clearance), Some(pad)) = (&numbers.clearance, cx.design.pad_of(flight)) else { continue };
        for unused in &clearance.unused {
            let Some(part) = cx.design.parts.get(unused.part) else { continue };
            // Where another flight runs on it, what is wrong with it there is told of that.
            let runs = |flight: &&Flight| flight.guided_by.iter().any(|named| named.value == unused.part);
            let same = |flight: &&Flight| cx.design.pad_of(flight).is_some_and(|own| own.name.place == pad.name.place);
            let elsewhere = cx.design.flights.iter().filter(same).any(|flight| runs(&flight));
            let clears = unused.room.is_some_and(|room| room >= 0.0);
            let is_misread = unused.room.is_none() && is_misread(cx.design, part.block);
            if clears || elsewhere || is_misread || told.contains(&(part.header, pad.name.place)) {
                continue;
            }
            told.push((part.header, pad.name.place));
            let (label, rail) = (part.label(), format!("{}'s {}", pad.name.value, pad.rail_word()));
            let finding = match unused.room {
                Some(room) => UNUSED_IN_THE_WAY
                    .finding(
                        part.header,
                        format!("{label} isn't in use and is in the way of {rail}, {} too close", show::length(-room)),
                    )
                    .help(format!(
                        "put it on the other side of the body, {} clear of the {}",
                        show::length(BODY_CLEARANCE),
                        pad.rail_word()
                    ))
                    .beyond(1.0 - room / BODY_CLEARANCE),
                None => Finding {
                    level: Level::Note,
                    ..UNUSED_IN_THE_WAY
                        .finding(part.header, format!("whether {label}, which isn't in use, clears {rail} isn't known"))
                        .help("say where around the body the guides are: `clock: 60 deg`, `clock: 180 deg`".to_string())
                },
            };
            out.push(finding.label(flight.name.place, "in this flight").of_flight(numbers));
        }
    }
}

/// Whether something in a part's block can't be understood: that is told, and may be its angle.
fn is_misread(design: &Design, block: Place) -> bool {
    let inside = |place: Place| place.file == block.file && block.span.touches(place.span.start as usize);
    let tree = design.files.get(block.file.0 as usize).map(|file| &file.tree);
    let of_syntax = tree.into_iter().flat_map(|tree| &tree.problems).map(|problem| problem.span);
    design.problems.iter().any(|problem| inside(problem.place))
        || of_syntax.into_iter().any(|span| inside(Place { file: block.file, span }))
}

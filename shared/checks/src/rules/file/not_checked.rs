//! `file/not-checked`: what couldn't be computed, and what it needs.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Context, Rule};
use crate::rules::field::code::not_known;
use finwright_assess::{path, Unknown};
use finwright_grammar::{FileId, Place};

/// The rule.
pub static NOT_CHECKED: Rule = Rule {
    name: "file/not-checked",
    level: Level::Warning,
    summary: "something that couldn't be computed, with what it needs",
    why: "What isn't known isn't guessed: the checks that need it haven't been made.",
    prose: "A design may leave things open while it grows. Each check that needs what isn't said is left out, and this says so, so that silence always means checked.",
    thresholds: &[],
    example: Example::new("inner: 24 mm; material: kraft_paper", "inner: 24 mm"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    // What already has a finding of its own at the same part is explained by that one.
    let unread = cx.design.files.first().map(|file| file.tree.problems.as_slice()).unwrap_or_default();
    let unread: Vec<Place> = unread.iter().map(|p| Place { file: FileId(0), span: p.span }).collect();
    let problems = || cx.design.problems.iter().map(|p| p.place).chain(unread.iter().copied());
    let explained = |place: Place| problems().any(|problem| inside(cx, place, problem));
    let mut groups: Vec<(Place, Vec<&Unknown>)> = Vec::new();
    for unknown in cx.assessment.unknown.iter().chain(cx.assessment.flights.iter().flat_map(|f| &f.unknown)) {
        match groups.iter_mut().find(|(place, _)| *place == unknown.place) {
            Some((_, group)) => group.push(unknown),
            None => groups.push((unknown.place, vec![unknown])),
        }
    }
    for (place, group) in groups {
        if explained(place) {
            continue;
        }
        // Two flights of one motor lack the same thing.
        let mut what: Vec<&str> = group.iter().map(|u| u.what.as_str()).collect();
        what.dedup();
        let mut needs: Vec<&str> = group.iter().map(|u| u.needs.as_str()).collect();
        needs.dedup();
        out.push(
            NOT_CHECKED
                .finding(place, format!("not checked: {}", joined(&what)))
                .help(format!("it needs {}", needs.join("; "))),
        );
    }
    after_release(cx, out);
    not_known(cx, out);
    for id in &cx.assessment.unsettled {
        if let Some(part) = cx.design.parts.get(*id) {
            out.push(
                NOT_CHECKED
                    .finding(part.header, format!("not checked: the place of {}, which doesn't settle", part.label()))
                    .help("it moves the balance point as much as it is moved by it; place it from an edge instead"),
            );
        }
    }
    if let (Some(airframe), true) = (cx.design.airframe, cx.design.flights.is_empty()) {
        let mut finding = NOT_CHECKED
            .finding(airframe, "not checked: any flight, since the file has none")
            .help("add `flight my_day { motor: …; pad: …; guided_by: […] }`");
        // A file of parts for others to use needs none.
        finding.level = Level::Note;
        out.push(finding);
    }
}

/// A flight that leaves its guide and can't be followed to the ground. An unstable one is told of as that, and one without
/// a parachute too.
fn after_release(cx: &Context, out: &mut Vec<Finding>) {
    for (flight, numbers) in cx.flights() {
        let leaves = numbers.run.as_ref().is_some_and(|run| run.last().is_some());
        if !leaves || numbers.margin.is_none_or(|margin| margin <= 0.0) {
            continue;
        }
        let open: Vec<&Unknown> = match path(cx.design, cx.assessment, numbers) {
            Ok(flown) => flown.unknown.iter().filter(|u| u.needs.contains("delay")).collect(),
            Err(unknown) => vec![unknown],
        };
        for unknown in open {
            let mut finding = NOT_CHECKED
                .finding(flight.name.place, format!("not checked: {}", unknown.what))
                .help(format!("it needs {}", unknown.needs));
            finding.level = Level::Note;
            out.push(finding);
        }
    }
}

/// Whether a problem stands in the block whose header is at `header`.
fn inside(cx: &Context, header: Place, problem: Place) -> bool {
    if header.file != problem.file {
        return false;
    }
    let blocks = cx.design.files.get(header.file.0 as usize).map(|f| f.tree.blocks_at(header.span.start as usize));
    blocks.and_then(|b| b.last().map(|b| b.span.touches(problem.span.start as usize))).unwrap_or(false)
}

fn joined(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_string(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

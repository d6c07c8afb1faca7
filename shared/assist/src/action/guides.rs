//! Guides where they are advised to be, and a lone lug as two.

use super::{edit, indent, newline};
use finwright_advice::placement::Spot;
use finwright_advice::{place, Hardware, Placement};
use finwright_checks::{Analysis, Fix};
use finwright_grammar::{Block, FileId, Item, Place, Span, Tree};
use finwright_model::{Amount, Part, PartId, PartKind};
use finwright_units::show;

/// Half a degree around the body is nothing that anybody could glue on.
const SAME_ANGLE: f64 = 0.0087;

/// What may be done with the guide under the cursor.
pub(super) fn guides(analysis: &Analysis, tree: &Tree, offset: usize) -> Vec<Fix> {
    let Some(block) = tree.blocks_at(offset).last().copied() else { return Vec::new() };
    let design = &analysis.design;
    let here = |part: &Part| part.block == Place { file: FileId(0), span: block.span };
    let Some(id) = design.parts.iter().position(here).filter(|id| is_simple(design.parts.get(*id))) else {
        return Vec::new();
    };
    let Some((flight, guides)) = flight_with(analysis, id) else { return Vec::new() };
    let is_lug = matches!(design.parts.get(id).map(|part| &part.kind), Some(PartKind::Lug { .. }));
    let mut fixes = Vec::new();
    let placed = |hardware| {
        let pad = design.pad_of(design.flights.get(flight)?)?;
        place(design, &analysis.settings, flight, pad, hardware)
    };
    let hardware = match (guides.len(), is_lug) {
        (1, true) => Hardware::OneLug,
        (2, true) => Hardware::TwoLugs,
        (2, false) => Hardware::TwoButtons,
        _ => return Vec::new(),
    };
    if let Some(placement) = placed(hardware) {
        fixes.extend(moved(analysis, tree, &guides, &placement));
    }
    if guides.len() == 1 && is_lug {
        fixes.extend(placed(Hardware::TwoLugs).and_then(|placement| doubled(analysis, tree, block, id, &placement)));
    }
    fixes
}

/// A guide of its own, with a place of its own.
fn is_simple(part: Option<&Part>) -> bool {
    part.is_some_and(|part| part.copy.is_none() && part.at.is_some() && part.is_guide())
}

/// The first flight that a guide serves, with its guides, the frontmost first.
fn flight_with(analysis: &Analysis, id: PartId) -> Option<(usize, Vec<PartId>)> {
    let serves = |numbers: &&finwright_assess::FlightNumbers| numbers.guides().iter().any(|guide| guide.part == id);
    let numbers = analysis.assessment.flights.iter().find(serves)?;
    let mut guides: Vec<PartId> = numbers.guides().iter().map(|guide| guide.part).collect();
    let station = |id: &PartId| {
        analysis.assessment.airframe.extents.get(*id).copied().flatten().map_or(0.0, |extent| extent.middle())
    };
    guides.sort_by(|a, b| station(a).total_cmp(&station(b)));
    guides.iter().all(|id| is_simple(analysis.design.parts.get(*id))).then_some((numbers.flight, guides))
}

fn station(spot: &Spot) -> String {
    format!("{} from tip", show::si::station(spot.station))
}

/// Each guide at its advised place.
fn moved(analysis: &Analysis, tree: &Tree, guides: &[PartId], placement: &Placement) -> Option<Fix> {
    if guides.len() != placement.guides.len() {
        return None;
    }
    let mut edits = Vec::new();
    for (id, spot) in guides.iter().zip(&placement.guides) {
        let part = analysis.design.parts.get(*id)?;
        let at = part.at.as_ref().filter(|at| at.place.file == FileId(0))?;
        edits.push(edit(at.place.span, station(spot)));
        let clock = part.clock.as_ref().filter(|clock| clock.place.file == FileId(0));
        let other = |clock: &&Amount| placement.clock.is_some_and(|advised| (advised - clock.si).abs() > SAME_ANGLE);
        if let (Some(clock), Some(advised)) = (clock.filter(other), placement.clock) {
            edits.push(edit(clock.place.span, format!("{} deg", show::number(advised.to_degrees()))));
        }
    }
    edits.retain(|edit| tree.text(edit.place.span) != edit.text);
    let stations: Vec<String> = placement.guides.iter().map(station).collect();
    let title = format!("put the guides where they are advised to be: {}", stations.join(" and "));
    (!edits.is_empty()).then_some(Fix { title, edits })
}

/// The lug once more behind itself, both at their advised places, and both named by the flights.
fn doubled(analysis: &Analysis, tree: &Tree, block: &Block, id: PartId, placement: &Placement) -> Option<Fix> {
    let [front, rear] = placement.guides.as_slice() else { return None };
    let part = analysis.design.parts.get(id)?;
    let at = part.at.as_ref().filter(|at| at.place.file == FileId(0))?;
    let name = block.name.map_or("front", |name| tree.text(name));
    let second = format!("{name}_rear");
    let word = tree.text(block.word);
    let end = block.span.range().end;
    let copy = format!(
        "{}{}{word} {second} like {name} {{ at: {} }}",
        newline(tree),
        indent(tree, block.span.range().start),
        station(rear)
    );
    let mut edits = vec![edit(at.place.span, station(front)), edit(Span::new(end, end), copy)];
    if block.name.is_none() {
        let behind = block.word.range().end;
        edits.push(edit(Span::new(behind, behind), format!(" {name}")));
    }
    let known = block.name.map_or(word, |name| tree.text(name));
    for item in &tree.items {
        let Item::Block(flight) = item else { continue };
        for field in flight.fields().filter(|field| tree.text(field.name) == "guided_by") {
            let value = field.value.as_ref()?;
            if tree.text(value.span).trim_matches(['[', ']', ' ']) == known {
                edits.push(edit(value.span, format!("[{name}, {second}]")));
            }
        }
    }
    Some(Fix { title: format!("make two lugs of it, {} and {}", station(front), station(rear)), edits })
}

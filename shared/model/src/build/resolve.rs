//! References by name, followed: to materials, sections, motors, pads, sites, and to parts.

use super::raw::{Raw, RawFlight, RawMeasured};
use crate::design::*;
use crate::evaluate::Evaluator;
use crate::fit::only_set;
use crate::meant;
use crate::parts::{part_names, placement, RawPart};
use crate::problem::{Problem, REPEATED_NAME, UNKNOWN_NAME};
use crate::read::in_order;
use finwright_grammar::vocabulary::slips::is_name;
use finwright_grammar::vocabulary::{block, nearest, Kind};
use finwright_grammar::Place;
use std::collections::HashMap;
use std::sync::Arc;

/// Fill the design from what was read, with every reference followed.
pub(crate) fn resolve(ev: &mut Evaluator, raw: Raw, design: &mut Design) {
    let Design { materials, sections, motors, pads, sites, parts, flights, measured, flown, booster, .. } = design;
    materials.extend(raw.materials.into_iter().map(Arc::new));
    let materials = Names::new(ev, Kind::Material, materials.iter().map(|m| &m.name));
    for (mut section, material) in raw.sections {
        section.material = materials.find(ev, material);
        sections.push(Arc::new(section));
    }
    let sections = Names::new(ev, Kind::Section, sections.iter().map(|s| &s.name));
    let names = part_names(&raw.parts);
    repeated(ev, "a part", raw.parts.iter().filter(|raw| raw.copy == 0).filter_map(|raw| raw.part.name.as_ref()));
    let carried = carried(ev, &raw.parts, &names);
    parts.extend(raw.parts.into_iter().map(|raw| part(ev, raw, &materials, &names)));
    for (id, found) in carried {
        let Some(part) = parts.get_mut(id) else { continue };
        match (&mut part.kind, found) {
            (PartKind::Parachute { carries, .. } | PartKind::Streamer { carries, .. }, Some(found)) => *carries = found,
            _ => part.broken.push("carries"),
        }
    }
    *motors = raw.motors;
    let motors = Names::new(ev, Kind::Motor, motors.iter().map(|m| &m.name));
    for (mut pad, refers) in raw.pads {
        match &mut pad.rail {
            Some(Rail::Rod { material, .. }) => *material = materials.find(ev, refers),
            Some(Rail::Slotted { slot, .. }) => *slot = sections.find(ev, refers),
            Some(Rail::Tower { .. }) | None => {}
        }
        pads.push(Arc::new(pad));
    }
    let pads = Names::new(ev, Kind::Pad, pads.iter().map(|p| &p.name));
    *sites = raw.sites;
    let sites = Names::new(ev, Kind::Site, sites.iter().map(|s| &s.name));
    let known = Known { motors: &motors, pads: &pads, sites: &sites, parts, part_names: &names, booster: *booster };
    flights.extend(raw.flights.into_iter().map(|raw| flight(ev, raw, &known)));
    repeated(ev, "a flight", flights.iter().map(|f| &f.name).filter(|n| !n.value.is_empty()));
    for RawMeasured { measured: mut bench, with, balance } in raw.measured {
        bench.with = motors.find(ev, with);
        bench.balance = balance.and_then(|raw| placement(ev, raw, &names));
        measured.push(bench);
    }
    let by_name = Names::new(ev, Kind::Flight, flights.iter().map(|flight| &flight.name));
    for (mut one, flight) in raw.flown {
        let said = flight.is_some();
        one.flight = by_name.find(ev, flight);
        if said && one.flight.is_none() && !one.broken.contains(&"flight") {
            one.broken.push("flight");
        }
        flown.push(one);
    }
    for number in 0..design.flights.len() {
        take_guides(design, number);
    }
}

/// A flight that names no guides is held by those that run on its pad, where they are one set.
fn take_guides(design: &mut Design, number: usize) {
    let Some(flight) = design.flights.get(number) else { return };
    if !flight.guided_by.is_empty() || flight.broken.contains(&"guided_by") {
        return;
    }
    // A tower holds the rocket by its body.
    if design.pad_of(flight).is_some_and(Pad::has_tower) {
        return;
    }
    let set = flight.pad.as_ref().and_then(|pad| only_set(design, design.pads.get(pad.value)?));
    let Some(flight) = design.flights.get_mut(number) else { return };
    match set {
        Some(set) => {
            let place = flight.header;
            flight.guided_by = set.into_iter().map(|value| Named { value, place }).collect();
            flight.guides_taken = true;
        }
        None => flight.missing.push("guided_by"),
    }
    if let Some(word) = block("flight") {
        flight.missing = in_order(word, std::mem::take(&mut flight.missing));
    }
}

/// The body parts that parachutes and streamers name; `None` where one of a part's names is none.
type Carried = Vec<(PartId, Option<Vec<Named<PartId>>>)>;

fn carried(ev: &mut Evaluator, raw: &[RawPart], names: &[(String, PartId)]) -> Carried {
    let mut all = Vec::new();
    for (id, one) in raw.iter().enumerate() {
        let mut found = Vec::new();
        for name in &one.carries {
            let known = names.iter().find(|(known, _)| *known == name.value).map(|(_, part)| *part);
            match known.filter(|part| raw.get(*part).is_some_and(|raw| raw.part.is_body())) {
                Some(value) => found.push(Named { value, place: name.place }),
                None if ev.unread.contains(name.value.as_str()) => {}
                None => ev.report(no_body_part(raw, names, name)),
            }
        }
        if !one.carries.is_empty() {
            all.push((id, (found.len() == one.carries.len()).then_some(found)));
        }
    }
    all
}

fn no_body_part(raw: &[RawPart], names: &[(String, PartId)], name: &Named<String>) -> Problem {
    let is_body = |(_, id): &&(String, PartId)| raw.get(*id).is_some_and(|raw| raw.part.is_body());
    let list: Vec<&str> = names.iter().filter(is_body).map(|(name, _)| name.as_str()).collect();
    let help = if list.is_empty() {
        "name the tube in its header".to_string()
    } else {
        format!("there are {}", list.join(", "))
    };
    let message = format!("no {} is named `{}`", Kind::Piece.noun(), name.value);
    Problem::new(UNKNOWN_NAME, name.place, message, help).did_you_mean(nearest(&name.value, list))
}

fn part(ev: &mut Evaluator, raw: RawPart, materials: &Names, names: &[(String, PartId)]) -> Part {
    let RawPart { mut part, material, at, balance, .. } = raw;
    // A default must not stand in for what is said and can't be understood.
    let said = (material.is_some(), at.is_some());
    part.material = materials.find(ev, material);
    part.at = at.and_then(|at| placement(ev, at, names));
    if said.0 && part.material.is_none() {
        part.broken.push("material");
    }
    if said.1 && part.at.is_none() {
        part.broken.push("at");
    }
    if let Some(balance) = balance {
        part.balance = placement(ev, balance, names).filter(|b| own_balance(ev, b));
        if part.balance.is_none() {
            part.broken.push("balance");
        }
    }
    part
}

/// What a flight can name.
struct Known<'a> {
    motors: &'a Names<'a>,
    pads: &'a Names<'a>,
    sites: &'a Names<'a>,
    parts: &'a [Part],
    part_names: &'a [(String, PartId)],
    booster: Option<Place>,
}

fn flight(ev: &mut Evaluator, raw: RawFlight, known: &Known) -> Flight {
    let RawFlight { mut flight, motor, booster_motor, pad, guided_by, site } = raw;
    let said = [
        ("motor", motor.is_some()),
        ("booster_motor", booster_motor.is_some()),
        ("pad", pad.is_some()),
        ("guided_by", guided_by.is_some()),
        ("site", site.is_some()),
    ];
    if known.booster.is_some() && booster_motor.is_none() {
        flight.missing.push("booster_motor");
    }
    flight.motor = known.motors.find(ev, motor);
    flight.booster_motor = known.motors.find(ev, booster_motor);
    if let (Some(motor), None) = (&flight.booster_motor, known.booster) {
        ev.report(Problem::new(
            UNKNOWN_NAME,
            motor.place,
            "there is a motor for a booster, and no booster",
            "describe it: `booster { tube … }`, or take the motor out",
        ));
    }
    flight.pad = known.pads.find(ev, pad);
    flight.site = known.sites.find(ev, site);
    let named = guided_by.as_ref().map_or(0, Vec::len);
    let mut found = 0;
    for name in guided_by.unwrap_or_default() {
        let guides = guide(ev, known.parts, known.part_names, name);
        found += usize::from(!guides.is_empty());
        flight.guided_by.extend(guides);
    }
    let understood = [
        flight.motor.is_some(),
        flight.booster_motor.is_some(),
        flight.pad.is_some(),
        // With a guide left out it's held by others than the file says.
        named > 0 && found == named,
        flight.site.is_some(),
    ];
    for ((word, said), understood) in said.into_iter().zip(understood) {
        if said && !understood && !flight.broken.contains(&word) {
            flight.broken.push(word);
        }
    }
    if let Some(word) = block("flight") {
        flight.missing = in_order(word, std::mem::take(&mut flight.missing));
    }
    flight
}

/// Definitions of one kind by name: the file's own win over used files', those over the catalogue's.
struct Names<'n> {
    kind: Kind,
    by_name: HashMap<&'n str, (usize, Place)>,
}

impl<'n> Names<'n> {
    fn new(ev: &mut Evaluator, kind: Kind, names: impl Iterator<Item = &'n Named<String>>) -> Names<'n> {
        let mut by_name: HashMap<&str, (usize, Place)> = HashMap::with_capacity(names.size_hint().0);
        for (id, name) in names.enumerate() {
            if name.value.is_empty() {
                continue;
            }
            match by_name.get(name.value.as_str()) {
                Some((_, first)) if rank(*first) == rank(name.place) => ev.report(
                    Problem::new(
                        REPEATED_NAME,
                        name.place,
                        format!("{} named `{}` is there already", kind.phrase(), name.value),
                        "give one of them another name; the first one counts",
                    )
                    .label(*first, "the first one"),
                ),
                Some((_, first)) if rank(*first) < rank(name.place) => {}
                _ => {
                    by_name.insert(&name.value, (id, name.place));
                }
            }
        }
        Names { kind, by_name }
    }

    fn find(&self, ev: &mut Evaluator, name: Option<Named<String>>) -> Option<Named<usize>> {
        let name = name?;
        if let Some((id, _)) = self.by_name.get(name.value.as_str()) {
            return Some(Named { value: *id, place: name.place });
        }
        if ev.unread.contains(name.value.as_str()) {
            return None;
        }
        if let Some(problem) = meant::material(name.place, &name.value).filter(|_| self.kind == Kind::Material) {
            ev.report(problem);
            return None;
        }
        let mut known: Vec<&str> = self.by_name.keys().copied().filter(|name| is_name(name)).collect();
        known.sort_unstable();
        let near = nearest(&name.value, known.iter().copied());
        let help = match known.as_slice() {
            [] => format!("define it: `{} {} {{ … }}`", block_word(self.kind), name.value),
            _ if known.len() <= 12 => format!("there are {}", known.join(", ")),
            _ => format!("define it: `{} {} {{ … }}`", block_word(self.kind), name.value),
        };
        ev.report(
            Problem::new(UNKNOWN_NAME, name.place, format!("there is no {} `{}`", self.kind.noun(), name.value), help)
                .did_you_mean(near),
        );
        None
    }
}

fn block_word(kind: Kind) -> &'static str {
    match kind {
        Kind::Section => "section",
        Kind::Guide => "lug",
        Kind::Piece => "tube",
        other => other.noun(),
    }
}

/// Whether a part's own balance point is measured from its own edges.
fn own_balance(ev: &mut Evaluator, balance: &Placement) -> bool {
    let own = matches!(balance.anchor, Anchor::Front | Anchor::Back);
    if !own {
        ev.report(Problem::new(
            crate::problem::WRONG_FORM,
            balance.place,
            "a part's own balance point is measured from its own front or back",
            "for example `balance: 30 mm from front`",
        ));
    }
    own
}

/// The parts of a name that a flight is guided by: one, or every copy of one that stands at several places.
fn guide(ev: &mut Evaluator, parts: &[Part], names: &[(String, PartId)], name: Named<String>) -> Vec<Named<PartId>> {
    let found = names.iter().find(|(n, _)| *n == name.value).map(|(_, id)| *id);
    let guides = || names.iter().filter(|(_, id)| parts.get(*id).is_some_and(Part::is_guide)).map(|(n, _)| n.as_str());
    match found {
        Some(id) if parts.get(id).is_some_and(Part::is_guide) => names
            .iter()
            .filter(|(n, copy)| *n == name.value && parts.get(*copy).map(|p| p.block) == parts.get(id).map(|p| p.block))
            .map(|(_, copy)| Named { value: *copy, place: name.place })
            .collect(),
        Some(id) => {
            let label = parts.get(id).map_or(String::new(), |p| p.label());
            let message = format!("`{}` is a {label}, which guides nothing", name.value);
            ev.report(Problem::new(UNKNOWN_NAME, name.place, message, "name a lug, a button or a rail guide"));
            Vec::new()
        }
        None if ev.unread.contains(name.value.as_str()) => Vec::new(),
        None => {
            let list: Vec<&str> = guides().filter(|name| is_name(name)).collect();
            let help = if list.is_empty() {
                format!("put one on a tube: `lug {} {{ … }}`", name.value)
            } else {
                format!("there are {}", list.join(", "))
            };
            ev.report(
                Problem::new(
                    UNKNOWN_NAME,
                    name.place,
                    format!("no lug, button or rail guide is named `{}`", name.value),
                    help,
                )
                .did_you_mean(nearest(&name.value, list)),
            );
            Vec::new()
        }
    }
}

fn repeated<'n>(ev: &mut Evaluator, what: &str, names: impl Iterator<Item = &'n Named<String>>) {
    let mut first: HashMap<&str, Place> = HashMap::new();
    for name in names {
        if let Some(earlier) = first.get(name.value.as_str()) {
            ev.report(
                Problem::new(
                    REPEATED_NAME,
                    name.place,
                    format!("{what} named `{}` is there already", name.value),
                    "give one of them another name; the first one counts",
                )
                .label(*earlier, "the first one"),
            );
        } else {
            first.insert(&name.value, name.place);
        }
    }
}

//! The hover on a part: what it is and weighs, where it sits, and what it does in each flight.

use finwright_assess::{moved_with_balance, place::reference_motor};
use finwright_assess::{tolerances, FlightNumbers, Sinking};
use finwright_checks::lacking::{measure_in_words, needs_in_words};
use finwright_checks::Analysis;
use finwright_grammar::vocabulary;
use finwright_model::{Amount, Anchor, Design, Extent, Pad, Part, PartId, PartKind};
use finwright_units::reader::in_both;
use finwright_units::{show, Dimension};

pub(super) fn markdown(analysis: &Analysis, id: PartId) -> String {
    let (design, numbers) = (&analysis.design, &analysis.assessment);
    let Some(part) = design.parts.get(id) else { return String::new() };
    let mut lines = vec![headline(analysis, id, part)];
    if let Some(extent) = numbers.airframe.extents.get(id).copied().flatten() {
        lines.push(whereabouts(analysis, id, part, extent));
    }
    if let Some(share) = numbers.airframe.airflow.as_ref().and_then(|a| a.parts.iter().find(|(p, _)| *p == id)) {
        if let Some(x) = share.1.x() {
            lines.push(format!(
                "Normal force {} per rad at {} from the tip",
                show::number(share.1.cna),
                show::station(x)
            ));
        }
    }
    if let Some((_, lift)) = numbers.airframe.airflow.as_ref().and_then(|a| a.fins.iter().find(|(p, _)| *p == id)) {
        let many = if lift.count_factor == 1.0 {
            String::new()
        } else {
            format!(", {} for the number of fins (MIL-HDBK-762, from memory)", lift.count_factor)
        };
        lines.push(format!("Factor {} for the body between the fins{many}", show::number(lift.body_factor)));
    }
    if part.is_guide() {
        for flight in &numbers.flights {
            lines.extend(release(analysis, id, flight));
            lines.extend(load(part, id, flight));
        }
    }
    lines.extend(numbers.flights.iter().filter_map(|flight| sinks(analysis, id, flight)));
    for unknown in numbers.airframe.unknown.iter().filter(|u| u.place == part.header) {
        let (what, needs) = (measure_in_words(unknown.measure), needs_in_words(design, &unknown.needs));
        lines.push(format!("Not known: {what}; it needs {needs}"));
    }
    if let Some(word) = vocabulary::block(part.word) {
        lines.push(word.doc.to_string());
    }
    lines.join("\n\n")
}

fn headline(analysis: &Analysis, id: PartId, part: &Part) -> String {
    let mut words = vec![format!("**{}**", part.label())];
    words.extend(what(part));
    if let Some(weight) = analysis.assessment.airframe.weights.get(id).and_then(Option::as_ref) {
        let given = if weight.given { " (as given)" } else { "" };
        words.push(format!("{}{given}", show::mass(weight.own.mass)));
        let assumed = weight.assumed.and_then(|assumed| assumed.of_its_part(&analysis.design));
        words.extend(assumed.map(|assumed| format!("{assumed} (default)")));
    }
    words.join(" · ")
}

/// What the part is, by its measures.
fn what(part: &Part) -> Option<String> {
    let l = |a: &Option<Amount>| a.as_ref().map_or("?".to_string(), |a| show::length(a.si));
    Some(match &part.kind {
        PartKind::Nose { shape, length, base, wall } => {
            let shape = shape.as_ref().map_or("?", |s| s.word);
            let walled = wall.as_ref().map_or("solid".to_string(), |w| format!("wall {}", show::length(w.si)));
            format!("{shape}, {} long on {}, {walled}", l(length), l(base))
        }
        PartKind::Tube { length, outer, inner } | PartKind::Coupler { length, outer, inner } => {
            format!("{} long, {} outside, {} inside", l(length), l(outer), l(inner))
        }
        PartKind::Taper { length, front, back, .. } => format!("{} long, from {} to {}", l(length), l(front), l(back)),
        PartKind::Fins(f) => {
            let count = f.count.as_ref().map_or("?".to_string(), |c| show::number(c.si));
            format!("{count} fins, span {}", l(&f.span))
        }
        PartKind::Mount { bore, length, .. } => format!("for a motor of {}, {} long", l(bore), l(length)),
        PartKind::Lug { bore: Some(bore), .. } => {
            // The usual clearance is 0.3 to 0.5 mm (common practice, no source).
            format!("lug for a rod up to {}", show::length((bore.si - 0.4e-3).max(0.0)))
        }
        PartKind::Button { profile, .. } => format!("button for a rail of {}", l(profile)),
        PartKind::RailGuide { profile, .. } => format!("stick-on guide for a rail of {}", l(profile)),
        _ => return None,
    })
}

fn whereabouts(analysis: &Analysis, id: PartId, part: &Part, extent: Extent) -> String {
    let numbers = &analysis.assessment;
    let by_middle = part.placed_by_middle();
    let from_tail = |x: f64| {
        numbers.airframe.tail.map_or(String::new(), |tail| format!(" ({} from the aft end)", show::station(tail - x)))
    };
    let mut text = if by_middle || extent.length() == 0.0 {
        format!("{} from the tip{}", show::station(extent.middle()), from_tail(extent.middle()))
    } else {
        format!(
            "from {} to {} from the tip{}",
            show::station(extent.front),
            show::station(extent.back),
            from_tail(extent.back)
        )
    };
    if let Some(balance) = balance_words(analysis, id, part, extent) {
        text.push_str(&balance);
    }
    text
}

/// Where a guide stands to the balance point with its reference motor.
fn balance_words(analysis: &Analysis, id: PartId, part: &Part, extent: Extent) -> Option<String> {
    let floats = part.at.as_ref().is_some_and(|at| matches!(at.anchor, Anchor::AheadOfBalance | Anchor::BehindBalance));
    if !part.is_guide() && !floats {
        return None;
    }
    let motor = reference_motor(&analysis.design, id)?;
    let at = flight_with(&analysis.design, motor.name.value.as_str())?;
    let loaded = analysis.assessment.flights.get(at)?.loaded()?;
    let [give] = tolerances(&analysis.design, &analysis.assessment, |a| {
        [a.flights.get(at).and_then(|f| f.loaded()).map(|m| m.x)]
    });
    let balance = in_both(|| {
        let (one, unit, decimals) = show::ruler();
        let give = give.unwrap_or(0.0) / one;
        // A tolerance that a mark by hand doesn't show gets one decimal more.
        let closer = usize::from(give > 0.0 && give < 0.5 * 0.1f64.powi(decimals as i32));
        format!("{} {unit}", show::with_tolerance(loaded.x / one, give, decimals + closer))
    });
    let off = loaded.x - extent.middle();
    let side = if off.abs() < 5e-5 {
        "at the balance point".to_string()
    } else {
        format!("{} {} the balance point", show::station(off.abs()), if off > 0.0 { "ahead of" } else { "behind" })
    };
    let moved = moved_with_balance(&analysis.design, &analysis.assessment, id).filter(|moved| moved.abs() >= 5e-5);
    let moved = moved.map_or(String::new(), |moved| {
        let way = if moved > 0.0 { "back" } else { "forward" };
        format!("; the balance point as weighed has moved it {} {way}", show::station(moved.abs()))
    });
    Some(format!(", {side} ({balance}, {} in, unlit){moved}", motor.name.value))
}

fn flight_with(design: &Design, motor: &str) -> Option<usize> {
    let is_it = |m: usize| design.motors.get(m).is_some_and(|m| m.name.value == motor);
    design.flights.iter().position(|f| f.motor.as_ref().is_some_and(|m| is_it(m.value)))
}

/// When the guide lets go in a flight that uses it.
fn release(analysis: &Analysis, id: PartId, flight: &FlightNumbers) -> Option<String> {
    let guide = flight.guides().iter().find(|g| g.part == id)?;
    let said = analysis.design.flights.get(flight.flight)?;
    let name = &said.name.value;
    let run = flight.run.as_ref()?;
    let (front, last) = (run.front()?, run.last()?);
    let word = analysis.design.pad_of(said).map_or("rail", Pad::rail_word);
    let is_last = flight.guides().last().is_some_and(|g| g.part == id);
    Some(if flight.guides().len() == 1 {
        format!(
            "{name}: its front reaches the end of the {word} after {} at {}, its back {} later at {}",
            show::length(run.front_travel),
            show::speed(front.speed),
            show::length(run.travel - run.front_travel),
            show::speed(last.speed)
        )
    } else if is_last {
        format!(
            "{name}: leaves the {word} last, after {} at {}",
            show::length(guide.leaves_after),
            show::speed(last.speed)
        )
    } else if guide.leaves_after == run.front_travel {
        format!(
            "{name}: leaves the {word} after {} at {}; the last one {} later at {}",
            show::length(guide.leaves_after),
            show::speed(front.speed),
            show::length(run.travel - run.front_travel),
            show::speed(last.speed)
        )
    } else {
        format!("{name}: leaves the {word} after {}", show::length(guide.leaves_after))
    })
}

/// How fast what hangs under a parachute or streamer comes down in a flight.
fn sinks(analysis: &Analysis, id: PartId, flight: &FlightNumbers) -> Option<String> {
    let hangs = |sinking: &&Sinking| sinking.canopies.iter().any(|cloth| cloth.part == id);
    let sinking = flight.sinking.iter().chain(&flight.apart).find(hangs)?;
    let name = &analysis.design.flights.get(flight.flight)?.name.value;
    let bodies: Vec<String> =
        sinking.bodies.iter().filter_map(|body| Some(analysis.design.parts.get(*body)?.label())).collect();
    let piece = if bodies.is_empty() { String::new() } else { format!(" of {}", bodies.join(" and ")) };
    Some(format!(
        "{name}: {}{piece} down at {}, {}",
        show::mass(sinking.mass),
        show::descent(sinking.rate),
        show::quantity(sinking.energy, Dimension::ENERGY)
    ))
}

/// What a guide carries in a flight that uses it.
fn load(part: &Part, id: PartId, flight: &FlightNumbers) -> Option<String> {
    let loads = flight.loads.as_ref()?;
    let load = loads.guides.iter().find(|guide| guide.part == id)?;
    let gust = flight.air.filter(|air| air.gust > 0.0).map_or(String::new(), |air| {
        format!("{} sideways in a {} gust on the pad, ", show::force(load.pad_gust), show::speed(air.as_read(air.gust)))
    });
    let run = load.run_gust.map_or(String::new(), |run| format!("{} on the way, ", show::force(run)));
    let bears = load.capacity.map_or(String::new(), |c| match part.bears {
        Some(_) => format!("; bears {} (as given)", show::force(c)),
        None => format!("; bears about {} (default, conservative)", show::force(c)),
    });
    let slop = loads.slop.map_or(String::new(), |slop| format!("\n\nPlay on its guide: {}", show::angle(slop)));
    Some(format!("Load: {gust}{run}{} when lifted level{bears}{slop}", show::force(load.level)))
}

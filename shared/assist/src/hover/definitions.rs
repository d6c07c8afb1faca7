//! Hovers on things that are defined once and referred to: values, materials, motors, pads, sites, rail sections.

use super::field::with_tolerance;
use finwright_assess::tolerance::in_words;
use finwright_assess::Standing;
use finwright_checks::rules::flown::differs::{form, in_short, label};
use finwright_checks::Analysis;
use finwright_model::{Amount, Material, Pad, Rail, Section, Site, Taken};
use finwright_units::{show, Dimension};

/// A value that the file names.
pub(super) fn value(analysis: &Analysis, name: &str) -> Option<String> {
    let (_, quantity) = analysis.design.values.iter().find(|(n, _)| n.value == name)?;
    let shown = with_tolerance(quantity.value, quantity.spread.total(), quantity.dimension);
    Some(format!("**{name}** = {shown}\n\n{}", quantity.dimension.phrase()))
}

/// The definition in a block of this word and name.
pub(super) fn of_block(analysis: &Analysis, word: &str, name: &str) -> Option<String> {
    let design = &analysis.design;
    match word {
        "material" => design.material_named(name).and_then(|id| design.materials.get(id)).map(|of| material(of)),
        "section" => design.section_named(name).and_then(|id| design.sections.get(id)).map(|of| section(of)),
        "motor" => design.motors.iter().position(|m| m.name.value == name).and_then(|id| motor(analysis, id)),
        "pad" => design.pads.iter().find(|p| p.name.value == name).map(|p| pad(analysis, p)),
        "site" => design.sites.iter().find(|s| s.name.value == name).map(site),
        _ => None,
    }
}

fn of(amount: &Option<Amount>, words: fn(f64) -> String) -> String {
    amount.as_ref().map_or("?".to_string(), |a| words(a.si))
}

fn material(m: &Material) -> String {
    let stiffness =
        m.stiffness.as_ref().map_or(String::new(), |e| format!(", stiffness {} GPa", show::number(e.si / 1e9)));
    let built_in = if m.name.place.file == finwright_model::CATALOG {
        "\n\nBuilt in: a handbook value from memory. Your piece may differ by a tenth."
    } else {
        ""
    };
    let density = of(&m.density, |density| show::quantity(density, Dimension::DENSITY));
    format!("**material {}** · {density}{stiffness}{built_in}", m.name.value)
}

fn section(s: &Section) -> String {
    let built_in = if s.name.place.file == finwright_model::CATALOG {
        "\n\nBuilt in: approximate trade sizes. Measure your own rail."
    } else {
        ""
    };
    format!(
        "**section {}** · {} wide, slot mouth {}{built_in}",
        s.name.value,
        of(&s.width, show::length),
        of(&s.mouth, show::length)
    )
}

fn motor(analysis: &Analysis, id: usize) -> Option<String> {
    let m = analysis.design.motors.get(id)?;
    let mut lines = vec![format!(
        "**motor {}**{} · {} × {}, {} of which {} burn",
        m.name.value,
        m.code.as_ref().map_or(String::new(), |c| format!(" · {}", c.value)),
        of(&m.diameter, show::si::length),
        of(&m.length, show::si::length),
        of(&m.mass, show::mass),
        of(&m.propellant, show::mass),
    )];
    if let Some(n) = analysis.assessment.airframe.motors.get(id).and_then(Option::as_ref) {
        let class = n.class.map_or(String::new(), |c| {
            format!(", class {} ({} % of its range)", c.letter, show::significant(100.0 * c.share(n.impulse), 2, 0))
        });
        lines.push(format!(
            "{} N s in {}{class}; {} on average, {} at most after {}",
            show::number(n.impulse),
            show::time(n.burn_time),
            show::force(n.average),
            show::force(n.peak),
            show::time(n.peak_time),
        ));
        lines.extend(m.stand.map(|stand| {
            let drift = match stand.drift {
                Some(drift) => format!("moved by {} during the burn", show::force(drift)),
                None => "not seen again after it".to_string(),
            };
            format!(
                "From a stand's record of {} points: zero {}, {drift}; noise {}; lit at {} of its clock",
                stand.points,
                show::force(stand.zero),
                show::force(stand.noise),
                show::time(stand.start)
            )
        }));
        if let (Some(code), Some(false)) = (&n.code, n.average_agrees()) {
            lines.push(format!("Its code says {} on average, which is another", show::force(code.average)));
        }
    }
    Some(lines.join("\n\n"))
}

fn pad(analysis: &Analysis, p: &Pad) -> String {
    let design = &analysis.design;
    let what = match &p.rail {
        Some(Rail::Rod { diameter, material, .. }) => {
            let material = material
                .as_ref()
                .and_then(|m| design.materials.get(m.value))
                .map_or("steel (default)", |m| &m.name.value);
            format!("rod of {} {material}", of(diameter, show::length))
        }
        Some(Rail::Slotted { slot, .. }) => {
            let section = slot.as_ref().and_then(|s| design.sections.get(s.value));
            format!("rail, section {}", section.map_or("?", |s| &s.name.value))
        }
        Some(Rail::Tower { rails, bore, .. }) => {
            format!("tower of {} rails, {} free between them", of(rails, show::number), of(bore, show::length))
        }
        None => "nothing to guide the rocket yet".to_string(),
    };
    let length = p.rail_length().map_or("?".to_string(), |l| show::length(l.si));
    let by_default = |taken: Taken| if taken.is_default { " (default)" } else { "" };
    let (stop, tilt, friction) = (p.stop_or_foot(), p.tilt_or_upright(), p.friction_or_usual());
    let mut lines = vec![format!(
        "**pad {}** · {what}, {length} long\n\nstop {} above its foot{}, tilted {}{}, friction {}{}",
        p.name.value,
        show::length(stop.si),
        by_default(stop),
        show::angle(tilt.si),
        by_default(tilt),
        show::number(friction.si),
        by_default(friction),
    )];
    for n in &analysis.assessment.flights {
        let Some(flight) = design.flights.get(n.flight) else { continue };
        let is_here = design.pad_of(flight).is_some_and(|it| it.name == p.name);
        if !is_here {
            continue;
        }
        lines.extend(n.on_pad.as_ref().and_then(|on_pad| on_pad.in_tower).map(|tower| {
            let (play, held) = (show::length(tower.play), show::length(tower.leaves_after));
            format!("{}: {play} free beside the body, which leaves it after {held}", flight.name.value)
        }));
        let Some(bends) = &n.stiffness else { continue };
        let (rest, end) = (bends.at_rest.in_gust(), bends.at_end.in_gust());
        let rough = if bends.is_beyond_linear(&bends.at_rest) { " (rough: it bends far)" } else { "" };
        lines.extend(n.standing.map(|standing| stands(&flight.name.value, standing)));
        lines.push(format!(
            "{}: in a gust its tip leans {} at {}{rough} while the rocket rests, at most {}; it swings at {} Hz with \
                the rocket at the end, {} Hz bare",
            flight.name.value,
            show::length(rest.tip),
            show::angle(rest.slope),
            show::length(end.tip),
            show::number(bends.loaded_frequency),
            show::number(bends.bare_frequency),
        ));
        lines.extend(bends.whipped().map(|(slope, whip)| {
            let times = show::number(whip.amplification);
            format!(
                "{}: swinging in the worst gust its tip turns to {}, {times} times the steady bend",
                flight.name.value,
                show::angle(slope)
            )
        }));
    }
    lines.join("\n\n")
}

/// What holds a pad, in a flight's gust.
fn stands(flight: &str, standing: Standing) -> String {
    let tips = if standing.tips_at.is_finite() {
        format!("a gust of {} would tip it", show::speed(standing.tips_at))
    } else {
        "no gust tips it".to_string()
    };
    match standing.times() {
        times if times.is_finite() => {
            format!("{flight}: its feet hold {} times the site's gust; {tips}", show::number(times))
        }
        _ => format!("{flight}: {tips}"),
    }
}

/// What a flight did, beside what was expected.
pub(super) fn flown(analysis: &Analysis, number: usize) -> Option<String> {
    let design = &analysis.design;
    let block = design.flown.get(number)?;
    let all = analysis.assessment.flown(design);
    let found = all.flights.iter().find(|one| one.flown == number)?;
    let flight = design.flights.get(found.flight).map_or("?", |flight| flight.name.value.as_str());
    let name = block.name.as_ref().map_or(String::new(), |name| format!(" {}", name.value));
    let mut lines = vec![format!("**flown{name}** · {flight}")];
    lines.extend(found.compared.iter().map(|one| {
        let what = label(one.quantity);
        let of = |value: f64, sd: f64| in_words(value, 2.0 * sd, form(one.quantity));
        format!("{what} {}; {} expected", of(one.measured, one.sd), of(one.expected, one.expected_sd))
    }));
    if let Some(record) = found.record {
        let (height, time) = (show::length(record.height), show::time(record.time_to_top));
        lines.push(format!(
            "The log: lift-off at {} of its clock, the top {height} up and {time} later; noise {}",
            show::time(record.lift_off),
            show::length(record.noise)
        ));
    }
    let causes: Vec<String> = found.causes.iter().map(|cause| in_short(*cause)).collect();
    if !causes.is_empty() {
        lines.push(format!("By itself would explain it, the likeliest first: {}", causes.join("; ")));
    }
    Some(lines.join("\n\n"))
}

fn site(s: &Site) -> String {
    let mut words = Vec::new();
    if let Some(e) = &s.elevation {
        words.push(format!("{} above the sea", show::length(e.si)));
    }
    if let Some(t) = &s.temperature {
        words.push(show::quantity(t.si, Dimension::TEMPERATURE));
    }
    if let Some(w) = &s.wind {
        words.push(format!("wind {}", show::speed_for_reader(w.si)));
    }
    if let Some(g) = &s.gust {
        words.push(format!("gusts {}", show::speed(g.si)));
    }
    format!("**site {}** · {}", s.name.value, words.join(", "))
}

//! Hovers on things that are defined once and referred to: values, materials, motors, pads, sites, rail sections.

use finwright_assess::flight::{friction, rail_length};
use finwright_checks::Analysis;
use finwright_model::{Amount, Design, Material, Motor, Pad, Rail, Section, Site};
use finwright_physics::motor::{ImpulseClass, ThrustCurve};
use finwright_units::show;

/// A value that the file names.
pub(super) fn value(analysis: &Analysis, name: &str) -> Option<String> {
    let (_, quantity) = analysis.design.values.iter().find(|(n, _)| n.value == name)?;
    let give = quantity.spread.total();
    let give = if give > 0.0 { format!(" ± {}", show::quantity(give, quantity.dimension)) } else { String::new() };
    Some(format!(
        "**{name}** = {}{give}\n\n{}",
        show::quantity(quantity.value, quantity.dimension),
        quantity.dimension.phrase()
    ))
}

/// The definition in a block of this word and name.
pub(super) fn of_block(analysis: &Analysis, word: &str, name: &str) -> Option<String> {
    let design = &analysis.design;
    match word {
        "material" => design.materials.iter().rev().find(|m| m.name.value == name).map(material),
        "section" => design.sections.iter().rev().find(|s| s.name.value == name).map(section),
        "motor" => design.motors.iter().find(|m| m.name.value == name).map(motor),
        "pad" => design.pads.iter().find(|p| p.name.value == name).map(|p| pad(design, p)),
        "site" => design.sites.iter().find(|s| s.name.value == name).map(site),
        _ => None,
    }
}

/// Whatever is defined under a name.
pub(super) fn named(analysis: &Analysis, name: &str) -> Option<String> {
    ["motor", "pad", "site", "material", "section"].into_iter().find_map(|word| of_block(analysis, word, name))
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
    format!("**material {}** · {} kg/m3{stiffness}{built_in}", m.name.value, of(&m.density, show::number))
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

fn motor(m: &Motor) -> String {
    let mut lines = vec![format!(
        "**motor {}**{} · {} × {}, {} of which {} burn",
        m.name.value,
        m.code.as_ref().map_or(String::new(), |c| format!(" · {}", c.value)),
        of(&m.diameter, show::length),
        of(&m.length, show::length),
        of(&m.mass, show::mass),
        of(&m.propellant, show::mass),
    )];
    if let Some(curve) = m.curve.as_ref().and_then(|c| ThrustCurve::new(c.points.clone()).ok()) {
        let impulse = curve.total_impulse();
        let class = ImpulseClass::of(impulse).map_or(String::new(), |c| {
            format!(", class {} ({} % of its range)", c.letter, show::significant(100.0 * c.share(impulse), 2, 0))
        });
        let (at, peak) = curve.peak();
        lines.push(format!(
            "{} N s in {}{class}; {} on average, {} at most after {}",
            show::number(impulse),
            show::time(curve.burn_time()),
            show::force(curve.average_thrust()),
            show::force(peak),
            show::time(at),
        ));
    }
    lines.join("\n\n")
}

fn pad(design: &Design, p: &Pad) -> String {
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
        None => "nothing to guide the rocket yet".to_string(),
    };
    let length = rail_length(p).map_or("?".to_string(), |l| show::length(l.si));
    let friction_word = if p.friction.is_some() { "" } else { " (default)" };
    format!(
        "**pad {}** · {what}, {length} long\n\nstop {} above its foot, tilted {}, friction {}{friction_word}",
        p.name.value,
        p.stop.as_ref().map_or("0 mm".to_string(), |s| show::length(s.si)),
        p.tilt.as_ref().map_or("0°".to_string(), |t| show::angle(t.si)),
        show::number(friction(p)),
    )
}

fn site(s: &Site) -> String {
    let mut words = Vec::new();
    if let Some(e) = &s.elevation {
        words.push(format!("{} above the sea", show::length(e.si)));
    }
    if let Some(t) = &s.temperature {
        words.push(show::quantity(t.si, finwright_units::Dimension::TEMPERATURE));
    }
    if let Some(w) = &s.wind {
        words.push(format!("wind {}", show::speed_for_reader(w.si)));
    }
    if let Some(g) = &s.gust {
        words.push(format!("gusts {}", show::speed(g.si)));
    }
    format!("**site {}** · {}", s.name.value, words.join(", "))
}

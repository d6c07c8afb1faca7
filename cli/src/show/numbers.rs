//! The rows of a flight's table, in the order in which the flight comes to them: the numbers of the one table of
//! numbers that are shown there, each with a remark, and the guides and openings that each flight has its own of.

mod remark;

use crate::table::Table;
use finwright_assess::moved_with_balance;
use finwright_assess::report::{FlightReport, Number, Section, NUMBERS};
use finwright_assess::tolerance::in_words as give;
use finwright_assess::{FlightNumbers, Likelihood, Path as Flown};
use finwright_checks::rules::flown::differs::{form, in_short, label};
use finwright_checks::rules::recovery::mistimed::OPENING_OFF;
use finwright_checks::Analysis;
use finwright_units::{show as words, Dimension};
use remark::{instead, remark};

/// What the rows of a flight are made from.
pub struct Told<'a> {
    pub analysis: &'a Analysis,
    pub numbers: &'a FlightNumbers,
    pub report: &'a FlightReport,
    pub flown: Option<&'a Flown>,
    pub likely: Option<Likelihood>,
}

impl Told<'_> {
    /// A number by its name, with its tolerance.
    fn of(&self, name: &str, how: fn(f64) -> String) -> String {
        self.report.get(name).map_or("?".to_string(), |(value, tolerance)| give(value, tolerance, how))
    }
}

/// All rows, each section under its heading.
pub fn rows(table: &mut Table, told: &Told) {
    as_flown(table, told);
    let sections = [Section::OnThePad, Section::AlongTheGuide, Section::InTheAir, Section::ComingDown];
    for section in sections {
        table.heading(section.heading());
        if matches!(section, Section::InTheAir | Section::ComingDown) && told.flown.is_none() {
            continue;
        }
        for number in NUMBERS {
            if let Some(shown) = number.shown.filter(|shown| shown.section == section) {
                ahead_of(table, told, number.name);
                row(table, told, number, shown.label, shown.form);
            }
        }
    }
}

fn row(table: &mut Table, told: &Told, number: &Number, label: &str, form: fn(f64) -> String) {
    if let Some((value, why)) = instead(told, number.name) {
        table.row(label, value, why);
        return;
    }
    if !is_told(told, number.name) {
        return;
    }
    let Some((value, tolerance)) = told.report.get(number.name) else { return };
    // A spread too small for the usual decimal is still said: it's what the exit speed is judged by.
    let is_small = number.name == "exit_speed_m_s" && (0.005..0.05).contains(&tolerance);
    let form = if is_small { words::speed_to_hundredths } else { form };
    let remark = remark(told, number.name).unwrap_or_else(|| number.means.to_string());
    table.row(label, roughly(told, number, give(value, tolerance, form)), remark);
}

/// What was measured when it was flown, beside what was expected.
fn as_flown(table: &mut Table, told: &Told) {
    let design = &told.analysis.design;
    if design.flown.is_empty() {
        return;
    }
    let all = told.analysis.assessment.flown(design);
    let own = all.flights.iter().filter(|flown| flown.flight == told.numbers.flight);
    for flown in own {
        let name = design.flown.get(flown.flown).and_then(|block| block.name.as_ref());
        let called = name.map_or(String::new(), |name| format!(" in {}", name.value));
        table.heading(format!("as flown{called}"));
        for one in &flown.compared {
            let how = form(one.quantity);
            let expected = format!("{} expected", give(one.expected, 2.0 * one.expected_sd, how));
            let usual = if one.is_usual_sd { "; the measurement's is the usual one" } else { "" };
            table.row(label(one.quantity), give(one.measured, 2.0 * one.sd, how), format!("{expected}{usual}"));
        }
        for cause in &flown.causes {
            table.row("would explain it", in_short(*cause), "by itself; the likeliest first");
        }
    }
}

/// Pieces that come down by themselves.
fn pieces(table: &mut Table, told: &Told) {
    for piece in &told.report.pieces {
        let energy = piece.landing_energy_j.map(|energy| words::quantity(energy, Dimension::ENERGY));
        let drift = piece.drift_m.map(words::length);
        let rate =
            piece.rate_m_s.map_or("nothing slows it".to_string(), |rate| format!("down at {}", words::descent(rate)));
        let lands =
            energy.zip(drift).map_or(String::new(), |(energy, drift)| format!("; lands with {energy}, {drift} off"));
        table.row(&piece.bodies.join(", "), words::mass(piece.mass_kg), format!("{rate}{lands}"));
    }
}

/// A value as far as it can be told: with a motor known by its label, what hangs on its thrust is about right at best.
fn roughly(told: &Told, number: &Number, value: String) -> String {
    let hangs =
        number.shown.is_some_and(|shown| shown.section != Section::OnThePad) || number.name == "thrust_to_weight";
    match hangs && told.report.is_rough {
        true => format!("about {value}"),
        false => value,
    }
}

/// Whether a number says something about this flight.
fn is_told(told: &Told, name: &str) -> bool {
    match name {
        "margin_second_cal" => told.analysis.assessment.second(&told.analysis.design).is_some_and(|s| s.differs()),
        // What opens and comes down is told where something opens.
        "free_coast_s" | "descent_rate_m_s" => told.flown.is_some_and(|flown| flown.descent.is_some()),
        _ => true,
    }
}

/// What comes before a number's row and isn't one number of the flight.
fn ahead_of(table: &mut Table, told: &Told, name: &str) {
    match name {
        "guide_spacing_m" => loads(table, told),
        "descent_rate_m_s" => {
            opened(table, told);
            pieces(table, told);
        }
        _ => {}
    }
}

fn loads(table: &mut Table, told: &Told) {
    let Told { analysis, numbers, .. } = told;
    for guide in numbers.loads.iter().flat_map(|loads| &loads.guides) {
        let Some(part) = analysis.design.parts.get(guide.part) else { continue };
        let label = part.label();
        let bears = guide.capacity.map_or(String::new(), |c| match part.bears {
            Some(_) => format!("; bears {}", words::force(c)),
            None => format!("; bears about {} (default)", words::force(c)),
        });
        let moved = moved_with_balance(&analysis.design, &analysis.assessment, guide.part);
        if let Some(moved) = moved.filter(|moved| moved.abs() >= 5e-5) {
            let way = if moved > 0.0 { "back" } else { "forward" };
            let remark = format!("{way}, with the balance as weighed");
            table.row(&format!("{label} moved"), words::station(moved.abs()), remark);
        }
        let remark = format!("at most; {} lifted level{bears}", words::force(guide.level));
        table.row(&format!("load on {label}"), words::force(guide.most()), remark);
    }
}

fn opened(table: &mut Table, told: &Told) {
    let Some((flown, descent)) = told.flown.and_then(|flown| Some((flown, flown.descent.as_ref()?))) else { return };
    if descent.delay.is_some() && flown.free_coast >= 0.0 {
        let off = told.analysis.settings.limit(&OPENING_OFF);
        let whole = |s: f64| words::trimmed(s.max(0.0), 0);
        let (least, most) = ((flown.free_coast - off).ceil(), (flown.free_coast + off).floor());
        let range = format!("from {} s to {} s", whole(least), whole(most));
        table.row("delay to choose", format!("{} s", whole(flown.free_coast.round())), format!("{range} would do"));
    }
    for opening in &descent.openings {
        let parts = opening.parts.iter().filter_map(|part| told.analysis.design.parts.get(*part));
        let labels: Vec<String> = parts.map(|part| part.label()).collect();
        let remark = format!(
            "speed through the air, {} up and {} after ignition; then {} near the ground",
            words::length(opening.moment.height),
            words::time(opening.moment.time),
            words::descent(opening.rate)
        );
        table.row(&format!("{} opens", labels.join(" and ")), words::speed(opening.air_speed), remark);
    }
}

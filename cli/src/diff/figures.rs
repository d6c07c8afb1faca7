//! A flight's numbers before and now, in the digits that a reader is shown.

use super::change::NumberChange;
use finwright_advice::words::floor;
use finwright_advice::{ceiling, Ceiling};
use finwright_checks::Analysis;
use finwright_units::reader::alone;
use finwright_units::show;

/// What a change does to a flight by its numbers in the designs, in the order of a table. A flight that is on one side
/// only has no numbers on the other one.
pub fn numbers(old: Option<(&Analysis, usize)>, new: Option<(&Analysis, usize)>) -> Vec<NumberChange> {
    // A table has no room for two systems of units.
    alone(|| compared(&old.map_or(Figures::default(), figures), &new.map_or(Figures::default(), figures)))
}

fn compared(old: &Figures, new: &Figures) -> Vec<NumberChange> {
    let plain = |name, label, of: fn(&Figures) -> Option<f64>, form: fn(f64) -> String| {
        let words = |figures: &Figures| of(figures).map_or(NOT_KNOWN.to_string(), form);
        change(name, (of(old), of(new)), (None, None), (label, words(old), words(new)))
    };
    let mut found = vec![
        plain("mass_kg", "mass on the pad", |f| f.mass, show::mass),
        plain("balance_m", "balance, from the tip", |f| f.balance, show::station),
        plain("margin_cal", "static margin", |f| f.margin, calibres),
    ];
    let exit = ("exit speed", exit_in_words(old), exit_in_words(new));
    found.push(change("exit_speed_m_s", (old.exit, new.exit), (old.exit_sd, new.exit_sd), exit));
    let wind = |figures: &Figures| figures.ceiling.as_ref().filter(|c| c.in_still_air.is_empty()).map(|c| c.wind);
    let words = ("wind up to", ceiling_in_words(old), ceiling_in_words(new));
    found.push(change("wind_to_m_s", (wind(old), wind(new)), (None, None), words));
    found
}

/// What stands where a number isn't known.
pub const NOT_KNOWN: &str = "not known";

/// A flight's numbers.
#[derive(Default)]
struct Figures {
    mass: Option<f64>,
    balance: Option<f64>,
    margin: Option<f64>,
    exit: Option<f64>,
    exit_sd: Option<f64>,
    ceiling: Option<Ceiling>,
}

fn figures((analysis, flight): (&Analysis, usize)) -> Figures {
    let numbers = analysis.assessment.flights.get(flight);
    let loaded = numbers.and_then(|numbers| numbers.loaded());
    let likely = analysis.likely(flight);
    Figures {
        mass: loaded.map(|loaded| loaded.mass),
        balance: loaded.map(|loaded| loaded.x),
        margin: numbers.and_then(|numbers| numbers.margin()),
        exit: numbers.and_then(|numbers| Some(numbers.run.as_ref()?.last()?.speed)),
        exit_sd: likely.map(|likely| likely.exit_speed_sd),
        ceiling: ceiling(analysis, flight),
    }
}

type Both<T> = (T, T);

fn change(
    name: &'static str,
    (old, new): Both<Option<f64>>,
    (old_sd, new_sd): Both<Option<f64>>,
    shown: (&'static str, String, String),
) -> NumberChange {
    NumberChange { name, old, new, old_sd, new_sd, differs: shown.1 != shown.2, shown }
}

fn calibres(margin: f64) -> String {
    format!("{} cal", show::number(margin))
}

fn exit_in_words(figures: &Figures) -> String {
    let Some(speed) = figures.exit else { return NOT_KNOWN.to_string() };
    let Some(sd) = figures.exit_sd else { return show::speed(speed) };
    let scaled = |value: f64| value / show::speed_scale();
    format!("{} {}", show::with_tolerance(scaled(speed), scaled(sd), 1), show::speed_unit())
}

fn ceiling_in_words(figures: &Figures) -> String {
    let Some(ceiling) = &figures.ceiling else { return NOT_KNOWN.to_string() };
    if let Some(first) = ceiling.in_still_air.first() {
        return format!("none: {}", first.rule);
    }
    let wind = show::speed_at_most(floor(ceiling.wind));
    match &ceiling.limit {
        Some(limit) => format!("{wind}, then {}", limit.rule),
        None => format!("{wind} and more"),
    }
}

//! What stands on a card.

use crate::subject::{guide_words, Subject};
use finwright_advice::ceiling;
use finwright_advice::words::floor;
use finwright_assess::field_rules::{limits, Facts, Limit};
use finwright_assess::{defaults, path};
use finwright_checks::common::code::{in_words, limited_in_words, name_of};
use finwright_checks::common::limits::{EXIT_SPEED, MARGIN};
use finwright_checks::lacking::{joined, needed_in_words};
use finwright_checks::{rule, Level};
use finwright_units::reader::alone;
use finwright_units::show;

/// One number with its label and what stands beside it.
pub struct Row {
    pub label: &'static str,
    pub value: String,
    pub note: String,
    /// Whether it's to be looked at.
    pub looks: bool,
    /// Whether what stands beside may take two lines.
    pub is_long: bool,
}

/// A label with words.
pub struct Note {
    pub label: &'static str,
    pub words: String,
    pub looks: bool,
    /// The most lines that it may take.
    pub most: usize,
}

const NOT_KNOWN: &str = "not known";

/// The numbers of a flight. One that isn't known says so.
pub fn numbers(subject: Subject) -> Vec<Row> {
    alone(|| {
        let mut rows = vec![
            motor(subject),
            mass(subject),
            margin(subject),
            thrust(subject),
            pad(subject),
            exit(subject),
            wind(subject),
        ];
        rows.extend(flight(subject));
        rows
    })
}

fn row(label: &'static str, value: Option<String>, note: String) -> Row {
    let looks = value.is_none();
    Row { label, value: value.unwrap_or_else(|| NOT_KNOWN.to_string()), note, looks, is_long: false }
}

fn motor(subject: Subject) -> Row {
    let impulse = subject.numbers.and_then(|numbers| numbers.curve.as_ref()).map(|curve| curve.total_impulse());
    let class = subject.class().map_or(String::new(), |class| format!("class {class}, "));
    let note = impulse.map_or(String::new(), |impulse| format!("{class}{} N s", show::number(impulse)));
    row("motor", subject.motor_words(), note)
}

fn mass(subject: Subject) -> Row {
    let weighed = subject.numbers.and_then(|numbers| numbers.weighed);
    let note = weighed.map_or(String::new(), |weighed| match weighed.basis.mass {
        true => format!("weighed; file {}", show::mass(weighed.computed.mass)),
        false => "not weighed".to_string(),
    });
    let looks = weighed.is_some_and(|weighed| !weighed.basis.mass);
    Row { looks, ..row("mass ready to fly", weighed.map(|weighed| show::mass(weighed.loaded.mass)), note) }
}

fn margin(subject: Subject) -> Row {
    let margin = subject.numbers.and_then(|numbers| numbers.margin());
    let gust = subject.numbers.and_then(|numbers| numbers.release).and_then(|release| release.gust_margin);
    let note = gust.map_or(String::new(), |gust| format!("{} in a gust", show::number(gust)));
    let least = subject.analysis.settings.limit(&MARGIN);
    let value = margin.map(|margin| format!("{} cal", show::number(margin)));
    Row { looks: margin.is_none_or(|margin| margin < least), ..row("margin", value, note) }
}

fn thrust(subject: Subject) -> Row {
    let value =
        subject.numbers.and_then(|numbers| numbers.thrust_to_weight()).map(|ratio| show::significant(ratio, 2, 1));
    let push = subject.numbers.and_then(|numbers| numbers.run.as_ref()?.push);
    row(
        "thrust to weight",
        value,
        push.map_or(String::new(), |push| format!("{} along the guide", show::significant(push, 2, 1))),
    )
}

fn pad(subject: Subject) -> Row {
    let pad = subject.pad();
    let what = pad.and_then(|pad| guide_words(subject.design(), pad)).unwrap_or_default();
    let tilt = pad.map(|pad| pad.tilt_or_upright().si).filter(|tilt| *tilt > 0.0);
    let tilt = tilt.map_or(String::new(), |tilt| format!(", {}", show::angle(tilt)));
    row("pad", pad.map(|pad| pad.name.value.clone()), format!("{what}{tilt}"))
}

fn exit(subject: Subject) -> Row {
    let last = subject.numbers.and_then(|numbers| numbers.run.as_ref()?.last());
    let need = subject.analysis.settings.limit(&EXIT_SPEED);
    let spread = subject.analysis.likely(subject.number).map(|likely| likely.exit_speed_sd);
    let spread = spread.map_or(String::new(), |sd| format!("± {}, ", show::tolerance(sd)));
    let value = last.map(|last| show::speed(last.speed));
    let looks = last.is_none_or(|last| last.speed < need);
    Row { looks, ..row("exit speed", value, format!("{spread}needs {}", show::speed_number(need))) }
}

fn wind(subject: Subject) -> Row {
    let Some(ceiling) = ceiling(subject.analysis, subject.number) else {
        return row("wind up to", None, String::new());
    };
    let summary = |name: &str| rule(name).map_or(String::new(), |rule| rule.summary.to_string());
    let air = subject.numbers.and_then(|numbers| numbers.air).map_or(0.0, |air| air.as_read(air.wind));
    if let Some(first) = ceiling.in_still_air.first() {
        return Row { looks: true, is_long: true, ..row("wind up to", Some("none".to_string()), summary(first.rule)) };
    }
    let then =
        ceiling.limit.as_ref().map_or("nothing is found".to_string(), |limit| format!("then {}", summary(limit.rule)));
    let value = show::speed_at_most(floor(ceiling.wind));
    Row { looks: ceiling.wind < air, is_long: true, ..row("wind up to", Some(value), then) }
}

fn flight(subject: Subject) -> Vec<Row> {
    let airframe = &subject.analysis.assessment.airframe;
    let flown = subject.numbers.and_then(|numbers| path(subject.design(), airframe, numbers).ok());
    let top = flown.map(|flown| flown.moments.apogee);
    let descent = flown.and_then(|flown| flown.descent.as_ref());
    let delay = descent.and_then(|descent| descent.delay);
    let opens = descent.and_then(|descent| descent.opening_speed());
    let sinking = subject.numbers.and_then(|numbers| numbers.sinking.as_ref());
    let drift = flown.and_then(|flown| flown.drift());
    let delay_row = match (delay, descent) {
        (None, Some(_)) => row(
            "delay",
            Some("none".to_string()),
            opens.map_or(String::new(), |v| format!("opens at {}", show::speed(v))),
        ),
        _ => {
            row("delay", delay.map(show::time), opens.map_or(String::new(), |v| format!("opens at {}", show::speed(v))))
        }
    };
    vec![
        row(
            "height",
            top.map(|top| show::length(top.height)),
            top.map_or(String::new(), |top| format!("after {}", show::time(top.time))),
        ),
        delay_row,
        row(
            "descent",
            sinking.map(|sinking| show::descent(sinking.rate)),
            drift.map_or(String::new(), |drift| format!("lands {} off", show::length(drift.abs()))),
        ),
    ]
}

/// What else decides. Each is there, whether it has something to say or not.
pub fn notes(subject: Subject) -> Vec<Note> {
    let note = |label: &'static str, words: Vec<String>, most: usize| {
        let none = words.is_empty();
        Note { label, words: if none { "nothing".to_string() } else { words.join("; ") }, looks: false, most }
    };
    let matters = subject.findings().filter(|finding| finding.level <= Level::Warning);
    let mut matters: Vec<_> = matters.collect();
    matters.sort_by_key(|finding| finding.level);
    let cautions: Vec<String> =
        matters.iter().map(|finding| format!("{}.", finding.message.trim_end_matches('.'))).collect();
    let caution = Note { looks: !cautions.is_empty(), words: cautions.join(" "), ..note("caution", Vec::new(), 5) };
    let caution = if cautions.is_empty() { note("caution", Vec::new(), 5) } else { caution };
    let judgement = subject.judgement();
    let mut unchecked: Vec<String> = judgement
        .iter()
        .flat_map(|judged| &judged.unknown)
        .map(|needed| needed_in_words(*needed).to_string())
        .collect();
    unchecked.extend(judgement.iter().flat_map(|judged| judged.not_made.clone()));
    unchecked.push("how well the glue holds".to_string());
    let allowed: Vec<String> =
        judgement.iter().flat_map(|judged| &judged.allowed).map(|rule| (*rule).to_string()).collect();
    let airframe = &subject.analysis.assessment.airframe;
    let taken = subject.numbers.map_or(Vec::new(), |numbers| {
        let flown = path(subject.design(), airframe, numbers).ok();
        defaults::defaults(subject.design(), airframe, numbers, flown)
    });
    vec![
        caution,
        Note { words: distances(subject), ..note("distances", Vec::new(), 3) },
        note("allowed", allowed, 2),
        note("not checked", unchecked, 4),
        note("by default", taken, 4),
    ]
}

/// What the chosen code asks of people and field, in words.
fn distances(subject: Subject) -> String {
    let Some(code) = subject.analysis.settings.code else {
        return "no code is chosen: ask the range safety officer".to_string();
    };
    let Some(far) = far(subject) else { return NOT_KNOWN.to_string() };
    let said: Vec<String> =
        far.iter().map(|limit| format!("{} {}", limited_in_words(limit.what), in_words(limit, limit.asked))).collect();
    match said.is_empty() {
        true => format!("{} says none", name_of(code)),
        false => format!("{} at least ({})", joined(&said, "and"), name_of(code)),
    }
}

/// How far away people and the field's edge must be by the chosen code; `None` where no code is chosen or nothing is
/// known of the flight.
pub fn far(subject: Subject) -> Option<Vec<Limit>> {
    let (code, numbers) = (subject.analysis.settings.code?, subject.numbers?);
    let flown = path(subject.design(), &subject.analysis.assessment.airframe, numbers).ok();
    let limits = limits(code, &Facts::of(subject.design(), numbers, flown));
    let is_far = |limit: &Limit| !limit.is_most && limit.what.dimension() == finwright_units::Dimension::LENGTH;
    Some(limits.into_iter().filter(is_far).collect())
}

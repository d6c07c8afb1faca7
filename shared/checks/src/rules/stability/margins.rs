//! Margins beyond the one on the pad: `stability/low-margin-burnt`, `stability/low-margin-at-release`,
//! `stability/low-margin-for-length`, `stability/over-stable`, `stability/weak-damping`.

use super::low_margin::MARGIN;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Context, Rule};
use crate::threshold::Threshold;
use finwright_assess::FlightNumbers;
use finwright_model::Flight;
use finwright_units::{show, Dimension};

/// At burnout.
pub static LOW_MARGIN_BURNT: Rule = Rule {
    name: "stability/low-margin-burnt",
    level: Level::Warning,
    summary: "too little margin once the motor is spent",
    why: "The rocket is fastest at burnout; if its margin is gone by then, that is where it turns.",
    prose: "Where the propellant lies ahead of the balance point, or a booster's mass falls away, burning moves the balance point back and takes margin away. The margin is checked at both ends of the burn.",
    thresholds: &[&MARGIN],
    example: Example::new("propellant: 5.6 g", "propellant: 15 g")
        .after(&[("sticks_out: 5 mm;", "at: 0 mm from front;")])
        .settings("[thresholds]\nmargin = 5.3\nmost_margin = 9\n[levels]\n\"mount/recessed\" = \"off\"\n\"shape/overlap\" = \"off\""),
    check: Some(|cx, out| each_motor(cx, out, burnt)),
};

/// At the angle of attack of the release.
pub static LOW_MARGIN_AT_RELEASE: Rule = Rule {
    name: "stability/low-margin-at-release",
    level: Level::Warning,
    summary: "too little margin at the angle at which a gust meets the rocket",
    why: "The slower the rocket leaves, the more aslant the wind meets it, and the body's own lift then moves the centre of pressure towards the nose.",
    prose: "The centre of pressure is computed for a small angle. At a larger one the body itself lifts, at the middle of its side view, ahead of the fins (cross-flow, Allen & Perkins, NACA TR 1048; the constant from memory). A rocket that has its margin on paper may have little of it in the first metres of a windy day. A faster exit makes the angle smaller.",
    thresholds: &[&RELEASE_MARGIN],
    example: Example::new("gust: 3 m/s", "gust: 12 m/s").after(&[("span: 40 mm", "span: 23 mm")]),
    check: Some(at_release),
};

/// Of a long rocket.
pub static LOW_MARGIN_FOR_LENGTH: Rule = Rule {
    name: "stability/low-margin-for-length",
    level: Level::Warning,
    summary: "a long slender rocket with a margin small for its length",
    why: "A calibre is a small lever on a long thin body: its own bending and the body's lift use it up.",
    prose: "The margin of rockets longer than some eighteen diameters is better counted in parts of their length: 8 to 15 percent is usual (common practice, no source).",
    thresholds: &[&LONG_BODY, &LENGTH_MARGIN],
    example: Example::new("span: 40 mm", "span: 19.6 mm").settings("[thresholds]\nlong_body = 10\nlength_margin = 0.12\nmargin = 0.3\nrelease_margin = 0"),
    check: Some(|cx, out| each_motor(cx, out, for_length)),
};

/// Too much of it.
pub static OVER_STABLE: Rule = Rule {
    name: "stability/over-stable",
    level: Level::Warning,
    summary: "so much margin that the wind turns the rocket into it",
    why: "A rocket with much margin turns its nose into every wind as it leaves, flies upwind and comes down far from where it started.",
    prose: "Margin is a weathercock's lever. Up to about three calibres, or a fifth of the length of a long rocket, the turn is moderate (common practice, no source). In still air much margin does no harm; in wind smaller fins, or a faster exit, keep the course.",
    thresholds: &[&MOST_MARGIN, &MOST_LENGTH_MARGIN, &LONG_BODY, &WINDY],
    example: Example::new("span: 40 mm", "span: 75 mm").settings("[thresholds]\nwindy = \"1 m/s\"\nmost_margin = 2.5"),
    check: Some(|cx, out| each_motor(cx, out, over_stable)),
};

/// A swing that goes on.
pub static WEAK_DAMPING: Rule = Rule {
    name: "stability/weak-damping",
    level: Level::Note,
    summary: "a swing that dies away slowly",
    why: "A rocket that swings for long after a gust loses height, and a second gust in step makes it worse.",
    prose: "After a gust the nose swings about the path. The damping ratio says how fast that dies away: 0.05 to 0.30 is usual (Mandell, Caporaso & Bengen, from memory). Larger fins further back raise it; a heavier and longer rocket, and thin air, lower it.",
    thresholds: &[&DAMPING],
    example: Example::new("elevation: 20 m", "elevation: 3000 m").settings("[thresholds]\ndamping = 0.08"),
    check: Some(|cx, out| each_motor(cx, out, weak_damping)),
};

/// The least margin at the gust's angle of attack.
pub static RELEASE_MARGIN: Threshold = Threshold::new(
    "release_margin",
    Dimension::CALIBRES,
    0.25,
    "the least margin at release at a gust's angle of attack, body lift included",
);
/// From when on a rocket is long.
pub static LONG_BODY: Threshold =
    Threshold::new("long_body", Dimension::NUMBER, 18.0, "the length over the diameter from which a rocket is long");
/// The least margin of a long one.
pub static LENGTH_MARGIN: Threshold = Threshold::new(
    "length_margin",
    Dimension::NUMBER,
    0.08,
    "the least margin of a long rocket, as a share of its length",
);
/// The greatest margin.
pub static MOST_MARGIN: Threshold =
    Threshold::new("most_margin", Dimension::CALIBRES, 3.5, "the greatest margin of a rocket in wind");
/// The greatest margin of a long one.
pub static MOST_LENGTH_MARGIN: Threshold = Threshold::new(
    "most_length_margin",
    Dimension::NUMBER,
    0.22,
    "the greatest margin of a long rocket in wind, as a share of its length",
);
/// The wind from which much margin matters.
pub static WINDY: Threshold =
    Threshold::new("windy", Dimension::SPEED, 3.0, "the steady wind from which much margin matters");
/// The least damping.
pub static DAMPING: Threshold =
    Threshold::new("damping", Dimension::NUMBER, 0.05, "the least damping ratio of the swing after release");

fn each_motor(cx: &Context, out: &mut Vec<Finding>, check: fn(&Context, &Flight, &FlightNumbers) -> Option<Finding>) {
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let motor = flight.motor.as_ref().map(|m| m.value);
        if told.contains(&motor) {
            continue;
        }
        if let Some(finding) = check(cx, flight, numbers) {
            told.push(motor);
            out.push(finding);
        }
    }
}

fn burnt(cx: &Context, flight: &Flight, numbers: &FlightNumbers) -> Option<Finding> {
    let (loaded, burnt) = (numbers.margin?, numbers.burnt_margin?);
    let floor = cx.limit(&MARGIN);
    // A margin that is too small from the start is told of as that.
    if loaded < floor || burnt >= floor {
        return None;
    }
    Some(
        LOW_MARGIN_BURNT
            .finding(
                flight.motor.as_ref().map_or(flight.name.place, |m| m.place),
                format!(
                    "{}'s margin falls from {} to {} calibres while the motor burns",
                    flight.name.value,
                    show::number(loaded),
                    show::number(burnt)
                ),
            )
            .help(format!(
                "larger fins, or a motor further back: {} calibre should be left at burnout",
                show::number(floor)
            )),
    )
}

fn at_release(cx: &Context, out: &mut Vec<Finding>) {
    let floor = cx.limit(&RELEASE_MARGIN);
    for (flight, numbers) in cx.flights() {
        let (Some(release), Some(margin), Some(air)) = (numbers.release, numbers.margin, numbers.air) else { continue };
        let Some(gust) = release.gust_margin.filter(|gust| *gust < floor && margin >= cx.limit(&MARGIN)) else {
            continue;
        };
        let left = if gust > 0.0 {
            format!("only {} calibres are left", show::number(gust))
        } else {
            format!("the centre of pressure is {} calibres ahead of the balance point", show::number(-gust))
        };
        out.push(
            LOW_MARGIN_AT_RELEASE
                .finding(
                    flight.name.place,
                    format!(
                        "as {} leaves, a gust of {} meets it at {}, and of its margin of {} calibres {left}",
                        flight.name.value,
                        show::speed(air.gust),
                        show::angle(release.gust_angle),
                        show::number(margin)
                    ),
                )
                .help("wait for less wind, leave faster from a longer rod or rail, or use larger fins"),
        );
    }
}

/// How long the rocket is, in diameters, and its length in m.
fn fineness(cx: &Context) -> Option<(f64, f64)> {
    let (length, calibre) = (cx.assessment.tail?, cx.assessment.calibre?);
    Some((length / calibre, length))
}

fn for_length(cx: &Context, flight: &Flight, numbers: &FlightNumbers) -> Option<Finding> {
    let ((fineness, length), margin) = (fineness(cx)?, numbers.margin?);
    let share = margin * cx.assessment.calibre? / length;
    let floor = cx.limit(&LENGTH_MARGIN);
    if fineness < cx.limit(&LONG_BODY) || share >= floor || margin < cx.limit(&MARGIN) {
        return None;
    }
    Some(
        LOW_MARGIN_FOR_LENGTH
            .finding(
                flight.name.place,
                format!(
                    "{} is {} diameters long, and its margin of {} calibres is {} % of its length",
                    flight.name.value,
                    show::trimmed(fineness, 0),
                    show::number(margin),
                    show::trimmed(100.0 * share, 1)
                ),
            )
            .help(format!(
                "{} or more ({} %): larger fins, or ballast in the nose",
                show::station((floor * length * 1e3).ceil() / 1e3),
                show::trimmed(100.0 * floor, 1)
            )),
    )
}

fn over_stable(cx: &Context, flight: &Flight, numbers: &FlightNumbers) -> Option<Finding> {
    let ((fineness, length), margin, air) = (fineness(cx)?, numbers.margin?, numbers.air?);
    let calibre = cx.assessment.calibre?;
    let is_long = fineness >= cx.limit(&LONG_BODY);
    let most = if is_long { cx.limit(&MOST_LENGTH_MARGIN) * length / calibre } else { cx.limit(&MOST_MARGIN) };
    if margin <= most || air.wind < cx.limit(&WINDY) {
        return None;
    }
    Some(
        OVER_STABLE
            .finding(
                flight.name.place,
                format!(
                    "{} has a margin of {} calibres in a wind of {}; up to {} is usual",
                    flight.name.value,
                    show::number(margin),
                    show::speed(air.wind),
                    show::number(most)
                ),
            )
            .help("smaller fins, less ballast, or a day with less wind; a faster exit turns it less"),
    )
}

fn weak_damping(cx: &Context, flight: &Flight, numbers: &FlightNumbers) -> Option<Finding> {
    let swing = numbers.release.as_ref()?.swing?;
    let least = cx.limit(&DAMPING);
    if swing.damping_ratio >= least {
        return None;
    }
    let halves = 2f64.ln() / swing.decay;
    Some(
        WEAK_DAMPING
            .finding(
                flight.name.place,
                format!(
                    "{} swings with a damping ratio of {}: each swing takes {} to halve",
                    flight.name.value,
                    show::number(swing.damping_ratio),
                    show::time(halves)
                ),
            )
            .help(format!("{} or more is usual: larger fins, further back", show::number(least))),
    )
}

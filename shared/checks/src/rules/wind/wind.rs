//! The wind: `wind/too-strong`, `wind/steep-angle`, `wind/turns-far`.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Context, Rule};
use crate::threshold::Threshold;
use finwright_assess::flight::rail_length;
use finwright_assess::path;
use finwright_units::{show, Dimension};
use std::f64::consts::PI;

/// More wind than anyone launches in.
pub static TOO_STRONG: Rule = Rule {
    name: "wind/too-strong",
    level: Level::Error,
    summary: "more wind than one launches in",
    why: "In such a wind the rocket turns into it at once, and comes down far off among people who don't look for it.",
    prose: "Codes that we know end launches at 20 mph (8.9 m/s) of wind (19 CCR 1036, read; NFPA 1122 and 1127, from memory). A beginner's limit is lower: half of it, common practice, no source. What each flight bears may be lower still: `finwright guides` computes it.",
    thresholds: &[&WIND],
    example: Example::new("wind: 2 m/s; gust: 3 m/s", "wind: 9.5 m/s; gust: 12 m/s"),
    check: Some(too_strong),
};

/// The wind meets the rocket far from ahead.
pub static STEEP_ANGLE: Rule = Rule {
    name: "wind/steep-angle",
    level: Level::Warning,
    summary: "the wind meets the rocket too far from the side as it leaves",
    why: "At a steep angle the air breaks away from the fins, which then can't turn the rocket back.",
    prose: "As the rocket leaves, the air meets it from ahead with its own speed and from the side with the wind's: the angle of attack is the arc tangent of wind over speed. Wind of a quarter of the exit speed is 14 degrees, about where flat fins stall; keep it below (common practice, no source). In a gust the angle is larger for a moment.",
    thresholds: &[&RELEASE_ANGLE],
    example: Example::new("wind: 2 m/s; gust: 3 m/s", "wind: 5.5 m/s; gust: 6 m/s"),
    check: Some(steep_angle),
};

/// The flight turns far into the wind.
pub static TURNS_FAR: Rule = Rule {
    name: "wind/turns-far",
    level: Level::Warning,
    summary: "a flight that turns far into the wind",
    why: "A rocket that flies slanted has its speed along the ground: it goes less high, lands further off, and opens its parachute faster.",
    prose: "Between release and burnout wind and gravity turn the nose from where the rod or rail pointed. A slow exit, much margin and a long burn turn it more. Some tilt of the pad is turned by the wind's part of it.",
    thresholds: &[&TURN],
    example: Example::new("wind: 2 m/s; gust: 3 m/s", "wind: 6.5 m/s; gust: 7 m/s").settings("[thresholds]\nturn = \"14 deg\""),
    check: Some(turns_far),
};

/// The strongest wind.
pub static WIND: Threshold =
    Threshold::new("wind", Dimension::SPEED, 8.9408, "the strongest steady wind that one launches in")
        .beginners(4.4704);
/// The steepest angle of attack.
pub static RELEASE_ANGLE: Threshold = Threshold::new(
    "release_angle",
    Dimension::ANGLE,
    // The arc tangent of a quarter.
    0.244_978_663_126_864_14,
    "the greatest angle of attack at release in the steady wind",
);
/// The most that the flight turns.
pub static TURN: Threshold = Threshold::new(
    "turn",
    Dimension::ANGLE,
    20.0 * PI / 180.0,
    "how far the nose may turn into the wind between release and burnout",
);

fn too_strong(cx: &Context, out: &mut Vec<Finding>) {
    let most = cx.limit(&WIND);
    for (number, site) in cx.design.sites.iter().enumerate() {
        let used = cx.design.flights.iter().find(|f| f.site.as_ref().map(|s| s.value) == Some(number));
        let (Some(wind), Some(flight)) = (&site.wind, used) else { continue };
        if wind.si <= most + 1e-9 {
            continue;
        }
        out.push(
            TOO_STRONG
                .finding(wind.place, format!("at {} it blows {}", site.name.value, show::speed_for_reader(wind.si)))
                .help(format!("wait for {} or less; your code may ask for less", show::speed_for_reader(most)))
                .label(flight.name.place, "this flight starts there"),
        );
    }
}

fn steep_angle(cx: &Context, out: &mut Vec<Finding>) {
    let most = cx.limit(&RELEASE_ANGLE);
    for (flight, numbers) in cx.flights() {
        let (Some(release), Some(air), Some(run)) = (numbers.release, numbers.air, &numbers.run) else { continue };
        let Some(last) = run.last().filter(|_| release.angle > most) else { continue };
        // With less wind there is less friction on the guide, so this wind is on the passing side.
        let calm = (last.speed * most.tan() * 10.0).floor() / 10.0;
        let mut help = format!("wait for {} or less", show::speed(calm));
        let faster = air.wind / most.tan();
        let pad = cx.design.pad_of(flight);
        if let (Some(curve), Some(length), Some(pad)) = (&numbers.curve, pad.and_then(rail_length), pad) {
            let longer = run.inputs_on(curve).travel_for_speed(faster).map(|travel| length.si + travel - run.travel);
            if let Some(longer) = longer.filter(|l| *l <= crate::rules::guide::slow_exit::LONGEST_ADVICE) {
                let longer = (longer * 100.0).ceil() / 100.0;
                help += &format!("; a {} m {} would be fast enough", show::trimmed(longer, 2), pad.rail_word());
            }
        }
        let site = flight.site.as_ref().and_then(|s| cx.design.sites.get(s.value)).and_then(|s| s.wind.as_ref());
        let mut finding = STEEP_ANGLE
            .finding(
                flight.name.place,
                format!(
                    "as {} leaves at {}, a wind of {} meets it at {}; up to {} is usual",
                    flight.name.value,
                    show::speed(last.speed),
                    show::speed(air.wind),
                    show::angle(release.angle),
                    show::angle(most)
                ),
            )
            .help(help);
        if let Some(wind) = site {
            finding = finding.label(wind.place, "the wind");
        }
        out.push(finding);
    }
}

fn turns_far(cx: &Context, out: &mut Vec<Finding>) {
    let most = cx.limit(&TURN);
    for (flight, numbers) in cx.flights() {
        let Ok(flown) = path(cx.design, cx.assessment, numbers) else { continue };
        let (Some(turn), Some(air)) = (flown.weathercock, numbers.air) else { continue };
        // A slow flight without wind is turned by gravity alone, and told of by others.
        if turn <= most || air.wind <= 0.0 {
            continue;
        }
        out.push(
            TURNS_FAR
                .finding(
                    flight.name.place,
                    format!(
                        "a wind of {} turns {} by {} until burnout; up to {} is usual",
                        show::speed(air.wind),
                        flight.name.value,
                        show::angle(turn),
                        show::angle(most)
                    ),
                )
                .help("wait for less wind, or leave faster: a longer rod or rail, a motor with more push at the start"),
        );
    }
}

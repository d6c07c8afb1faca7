//! The rows of a flight's table, in the order in which the flight comes to them.

use crate::table::Table;
use finwright_assess::moved_with_balance;
use finwright_assess::report::FlightReport;
use finwright_assess::tolerance::in_words as give;
use finwright_assess::{FlightNumbers, Likelihood, Path as Flown};
use finwright_checks::rules::recovery::mistimed::OPENING_OFF;
use finwright_checks::Analysis;
use finwright_units::{show as words, Dimension};

pub fn on_the_pad(analysis: &Analysis, table: &mut Table, n: &FlightNumbers, report: &FlightReport) {
    let mut row = |label: &str, name: &str, how: fn(f64) -> String, remark: String| {
        if let Some((value, tolerance)) = report.get(name) {
            table.row(label, give(value, tolerance, how), remark);
        }
    };
    let of = |name: &str, how: fn(f64) -> String| report.get(name).map_or("?".to_string(), |(v, t)| give(v, t, how));
    let burnt = of("mass_burnt_kg", words::mass);
    let computed = |measured: bool, value: Option<String>| match value.filter(|_| measured) {
        Some(value) => format!("as weighed; {value} as computed"),
        None => "as computed".to_string(),
    };
    let mass = computed(n.basis().mass, n.computed().map(|computed| words::mass(computed.mass)));
    row("mass", "mass_kg", words::mass, format!("{mass}; {burnt} at burnout"));
    let burnt = of("balance_burnt_m", words::station);
    let balance = computed(n.basis().balance, n.computed().map(|computed| words::station(computed.x)));
    let alone = n.basis().mass && !n.basis().balance;
    let balance = if alone { balance + ", where what the scale says more is taken to sit" } else { balance };
    row("balance point", "balance_m", words::station, format!("from the tip, {balance}; {burnt} at burnout"));
    row("inertia, crosswise", "inertia_kg_m2", words::inertia, "about the balance point".to_string());
    let slope = format!("from the tip; normal force {} per rad", of("cna", words::number));
    row("centre of pressure", "pressure_centre_m", words::station, slope);
    let calibre = of("reference_diameter_m", words::length);
    let remark = format!("calibres of {calibre}; {} at burnout", of("margin_burnt_cal", words::number));
    row("static margin", "margin_cal", |m| format!("{} cal", words::number(m)), remark);
    if analysis.assessment.second(&analysis.design).is_some_and(|second| second.differs()) {
        let remark = "by a vortex lattice with the body; the smaller is judged".to_string();
        row("second margin", "margin_second_cal", |m| format!("{} cal", words::number(m)), remark);
    }
    if n.upper().is_some() {
        let remark = format!("when it lights; {} by itself", of("upper_mass_kg", words::mass));
        row("upper stage", "upper_margin_cal", |m| format!("{} cal", words::number(m)), remark);
    }
    if let Some(curve) = &n.curve {
        let push = report
            .get("guided_thrust_to_weight")
            .map_or(String::new(), |(p, _)| format!("; {} along the guide", words::number(p)));
        let (impulse, time) = (words::number(curve.total_impulse()), words::time(curve.burn_time()));
        let remark = format!("average of {impulse} N s in {time}{push}");
        row("thrust to weight", "thrust_to_weight", words::number, remark);
    }
}

pub fn along_the_guide(table: &mut Table, n: &FlightNumbers, report: &FlightReport, likely: Option<Likelihood>) {
    let Some(run) = &n.run else { return };
    let of = |name: &str, how: fn(f64) -> String| report.get(name).map(|(v, t)| give(v, t, how));
    if let Some(travel) = of("guided_travel_m", words::length) {
        let remark = format!("until the last guide leaves; {} for the front one", words::length(run.front_travel));
        table.row("guided travel", travel, remark);
    }
    let spread = report.get("exit_speed_m_s").map_or(0.0, |(_, spread)| spread);
    // A spread too small for the usual decimal is still said: it's what the exit speed is judged by.
    let how = if (0.005..0.05).contains(&spread) { words::speed_to_hundredths } else { words::speed };
    let released = (run.front(), run.last(), of("front_release_m_s", words::speed), of("exit_speed_m_s", how));
    let (Some(front), Some(last), Some(front_speed), Some(last_speed)) = released else {
        table.row("exit speed", "none", "it doesn't leave its guide");
        return;
    };
    table.row("front release", front_speed, format!("after {}", words::time(front.time)));
    let beside = words::speed_beside(last.speed);
    // Two standard deviations: nineteen of twenty flights lie within them.
    let usual = likely.map_or(String::new(), |likely| {
        format!("; in nineteen of twenty flights within {} of it", words::speed(2.0 * likely.exit_speed_sd))
    });
    table.row("exit speed", last_speed, format!("after {}{beside}{usual}", words::time(last.time)));
}

pub fn guide_and_hardware(table: &mut Table, analysis: &Analysis, n: &FlightNumbers, report: &FlightReport) {
    if let Some(stiffness) = &n.stiffness {
        for (label, lean, when) in [
            ("lean of its tip", &stiffness.at_rest, "the rocket at rest"),
            ("… at most", &stiffness.at_end, "the rocket held at the end"),
        ] {
            let (wind, gust) = (lean.in_wind(), lean.in_gust());
            let rough = if stiffness.is_beyond_linear(lean) { "; rough, it bends far" } else { "" };
            let steady = format!("{} and {} in the steady wind", words::length(wind.tip), words::angle(wind.slope));
            let remark = format!("{} in a gust, {when}; {steady}{rough}", words::angle(gust.slope));
            table.row(label, words::length(gust.tip), remark);
        }
        table.row(
            "first frequency",
            format!("{} Hz", words::number(stiffness.loaded_frequency)),
            format!("with the rocket at the end; {} Hz bare", words::number(stiffness.bare_frequency)),
        );
    }
    let Some(loads) = &n.loads else { return };
    for guide in &loads.guides {
        let Some(part) = analysis.design.parts.get(guide.part) else { continue };
        let label = part.label();
        let bears = guide.capacity.map_or(String::new(), |c| match part.bears {
            Some(_) => format!("; bears {}", words::force(c)),
            None => format!("; bears about {} (default)", words::force(c)),
        });
        let moved = moved_with_balance(&analysis.design, &analysis.assessment, guide.part);
        if let Some(moved) = moved.filter(|moved| moved.abs() >= 5e-5) {
            let way = if moved > 0.0 { "back" } else { "forward" };
            table.row(
                &format!("{label} moved"),
                words::station(moved.abs()),
                format!("{way}, with the balance as weighed"),
            );
        }
        table.row(
            &format!("load on {label}"),
            words::force(guide.most()),
            format!("at most; {} lifted level{bears}", words::force(guide.level)),
        );
    }
    table.row(
        "guides' spacing",
        words::length(loads.spacing),
        format!(
            "locks at {}, runs easily from {}",
            words::length(loads.locks_at),
            words::length(loads.runs_easily_from)
        ),
    );
    if let Some((slop, _)) = report.get("guide_slop_rad") {
        table.row("play in the guides", words::angle(slop), "how far the rocket can turn in them");
    }
}

pub fn in_the_air(table: &mut Table, n: &FlightNumbers, report: &FlightReport, flown: &Flown) {
    let of = |name: &str, how: fn(f64) -> String| report.get(name).map_or("?".to_string(), |(v, t)| give(v, t, how));
    if let Some(release) = n.release {
        let gust = words::angle(release.gust_angle);
        table.row(
            "angle of attack",
            words::angle(release.angle),
            format!("at release in the steady wind; {gust} in a gust"),
        );
        match release.swing {
            Some(swing) => table.row(
                "swing",
                swing.period().map_or("none".to_string(), |p| format!("{} Hz", words::number(1.0 / p))),
                format!("damping ratio {}", words::number(swing.damping_ratio)),
            ),
            None => table.row("swing", "none", "the rocket is unstable and turns over"),
        }
    }
    if let Some(turn) = flown.weathercock {
        let leans = match flown.leans() {
            tilt if tilt > 0.0 => format!("; the pad leans {} into it", words::angle(tilt)),
            _ => String::new(),
        };
        table.row("turn into the wind", words::angle(turn), format!("by burnout, gravity's share included{leans}"));
    }
    let moments = &flown.moments;
    let remark = format!("{} after ignition", words::time(moments.apogee.time));
    // What opens on the way up ends the climb; a delay is chosen by the climb that it doesn't end.
    let ended = flown.free_apogee.height - moments.apogee.height > 0.5;
    let free = format!(
        "; {} at {} had nothing opened before",
        words::length(flown.free_apogee.height),
        words::time(flown.free_apogee.time)
    );
    let remark = if ended { remark + &free } else { remark };
    table.row("highest point", of("apogee_m", words::length), remark);
    let remark = format!("Mach {}", words::significant(flown.top_mach, 2, 2));
    table.row("top speed", of("top_speed_m_s", words::speed), remark);
    let remark = format!("{} times gravity", words::significant(flown.times_gravity(), 3, 1));
    table.row("top acceleration", words::quantity(flown.top_acceleration, Dimension::ACCELERATION), remark);
}

pub fn coming_down(table: &mut Table, analysis: &Analysis, report: &FlightReport, flown: &Flown) {
    let Some(descent) = &flown.descent else { return };
    let of = |name: &str, how: fn(f64) -> String| report.get(name).map_or("?".to_string(), |(v, t)| give(v, t, how));
    let delay = match descent.delay {
        Some(delay) => format!("; the delay is {}", words::time(delay)),
        None => String::new(),
    };
    if flown.free_coast >= 0.0 {
        let remark = format!("from burnout to the highest point, by itself{delay}");
        table.row("coast", of("free_coast_s", words::time), remark);
    } else {
        let early = words::time(-flown.free_coast);
        table.row("coast", "none", format!("the highest point comes {early} before burnout{delay}"));
    }
    if descent.delay.is_some() && flown.free_coast >= 0.0 {
        let off = analysis.settings.limit(&OPENING_OFF);
        let whole = |s: f64| words::trimmed(s.max(0.0), 0);
        let (least, most) = ((flown.free_coast - off).ceil(), (flown.free_coast + off).floor());
        let range = format!("from {} s to {} s", whole(least), whole(most));
        table.row("delay to choose", format!("{} s", whole(flown.free_coast.round())), format!("{range} would do"));
    }
    for opening in &descent.openings {
        let labels: Vec<String> =
            opening.parts.iter().filter_map(|part| analysis.design.parts.get(*part)).map(|part| part.label()).collect();
        let remark = format!(
            "speed through the air, {} up and {} after ignition; then {} near the ground",
            words::length(opening.moment.height),
            words::time(opening.moment.time),
            words::descent(opening.rate)
        );
        table.row(&format!("{} opens", labels.join(" and ")), words::speed(opening.air_speed), remark);
    }
    match descent.openings.is_empty() {
        true => table.row("descent", "none", "the ground comes before anything opens"),
        false => table.row("descent", of("descent_rate_m_s", words::descent), "steady, near the ground"),
    }
    let landing = format!(
        "{}; {} after ignition",
        words::energy(descent.landing_energy),
        words::time(flown.moments.landing.time)
    );
    table.row("landing", of("landing_speed_m_s", words::descent), landing);
    table.row("drift", of("drift_m", words::length), "downwind of the pad");
}

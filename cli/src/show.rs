//! `finwright show`: a design's numbers, a table a flight.

use crate::collect::read;
use crate::output::{closing, plural, print, print_json, unusable, CAUTION};
use crate::table::Table;
use crate::ShowFormat;
use finwright_advice::ceiling;
use finwright_advice::words::ceiling_in_words;
use finwright_assess::field_rules::{self, Facts, Jurisdiction, CHECK_YOUR_CODE};
use finwright_assess::report::{self, FlightReport};
use finwright_assess::tolerance::in_words as give;
use finwright_assess::{path, FlightNumbers, Path as Flown};
use finwright_checks::rules::guide::slow_exit::EXIT_SPEED;
use finwright_checks::{analyze, Analysis, Level};
use finwright_units::show as words;
use std::path::Path;
use std::process::ExitCode;

pub fn show(path: &Path, format: ShowFormat, code: Option<&str>) -> ExitCode {
    let code = match code.map(|name| field_rules::named(name).ok_or(name)) {
        Some(Err(name)) => {
            let known: Vec<&str> = field_rules::JURISDICTIONS.iter().map(|(known, ..)| *known).collect();
            return unusable(&format!("no limits are known by the name {name}; known are {}", known.join(", ")));
        }
        Some(Ok(code)) => Some(code),
        None => None,
    };
    let input = read(path);
    let analysis = match input.snapshot {
        Ok(snapshot) => analyze(&snapshot),
        Err(reason) => return unusable(&format!("{}: {reason}", input.shown)),
    };
    let reports = report::flights(&analysis.design, &analysis.assessment, analysis.settings.limit(&EXIT_SPEED));
    match format {
        ShowFormat::Json => {
            if let Err(code) = print_json(&reports) {
                return code;
            }
        }
        ShowFormat::Text => print(&text(&input.shown, &analysis, &reports, code.or(analysis.settings.code))),
    }
    ExitCode::SUCCESS
}

fn text(shown: &str, analysis: &Analysis, reports: &[FlightReport], code: Option<Jurisdiction>) -> String {
    let design = &analysis.design;
    let title = design.title.as_ref().map_or(shown, |t| t.value.as_str());
    let mut out = format!("{title}\n");
    if design.flights.is_empty() {
        out.push_str(
            "\n  This file has no flight to show. Add `flight my_day { motor: …; pad: …; guided_by: […] }`.\n",
        );
    }
    for (numbers, report) in analysis.assessment.flights.iter().zip(reports) {
        out.push_str(&flight(analysis, numbers, report, code));
    }
    let (errors, warnings) = (analysis.count(Level::Error), analysis.count(Level::Warning));
    if errors + warnings > 0 {
        let said = format!("{} and {}", plural(errors, "error"), plural(warnings, "warning"));
        out.push_str(&format!("\n`finwright check {shown}` has {said} about this design.\n"));
    }
    out + &closing(CAUTION)
}

fn flight(analysis: &Analysis, n: &FlightNumbers, report: &FlightReport, code: Option<Jurisdiction>) -> String {
    let design = &analysis.design;
    let Some(flight) = design.flights.get(n.flight) else { return String::new() };
    let name_of = |named: &Option<finwright_model::Named<usize>>, list: &dyn Fn(usize) -> Option<String>| {
        named.as_ref().and_then(|m| list(m.value)).unwrap_or_else(|| "?".to_string())
    };
    let motor = name_of(&flight.motor, &|i| design.motors.get(i).map(|m| m.name.value.clone()));
    let pad = name_of(&flight.pad, &|i| design.pads.get(i).map(|p| p.name.value.clone()));
    let flown = path(design, &analysis.assessment, n);
    let mut table = Table::default();
    table.heading("on the pad");
    on_the_pad(&mut table, n, report);
    table.heading("along the guide");
    along_the_guide(&mut table, n, report);
    guide_and_hardware(&mut table, analysis, n, report);
    if let Ok(flown) = flown {
        table.heading("in the air");
        in_the_air(&mut table, n, report, flown);
        table.heading("coming down");
        coming_down(&mut table, analysis, report, flown);
    }
    if let Some(code) = code {
        against_the_code(&mut table, analysis, n, flown.ok(), code);
    }
    let booster = flight.booster_motor.as_ref().and_then(|m| design.motors.get(m.value));
    let first = booster.map_or(String::new(), |b| format!("{}, then ", b.name.value));
    let mut out = format!("\n{}: {first}{motor} from {pad}\n{}", flight.name.value, table.text());
    if let Some(ceiling) = ceiling(design, &analysis.settings, n.flight) {
        out.push_str(&format!("  {} {}\n", flight.name.value, ceiling_in_words(&ceiling)));
    }
    if !report.defaults.is_empty() {
        out.push_str(&format!("  by default: {}\n", report.defaults.join("; ")));
    }
    for unknown in &report.not_checked {
        out.push_str(&format!("  not checked: {}\n", unknown.replacen(": needs ", "; needs ", 1)));
    }
    out
}

fn on_the_pad(table: &mut Table, n: &FlightNumbers, report: &FlightReport) {
    let mut row = |label: &str, name: &str, how: fn(f64) -> String, remark: String| {
        if let Some((value, tolerance)) = report.get(name) {
            table.row(label, give(value, tolerance, how), remark);
        }
    };
    let of = |name: &str, how: fn(f64) -> String| report.get(name).map_or("?".to_string(), |(v, t)| give(v, t, how));
    row("mass", "mass_kg", words::mass, format!("{} at burnout", of("mass_burnt_kg", words::mass)));
    let burnt = of("balance_burnt_m", words::station);
    row("balance point", "balance_m", words::station, format!("from the tip; {burnt} at burnout"));
    let inertia = |i: f64| format!("{} kg.m2", words::significant(i, 4, 6));
    row("inertia, crosswise", "inertia_kg_m2", inertia, "about the balance point".to_string());
    let slope = format!("from the tip; normal force {} per rad", of("cna", words::number));
    row("centre of pressure", "pressure_centre_m", words::station, slope);
    let calibre = of("reference_diameter_m", words::length);
    let remark = format!("calibres of {calibre}; {} at burnout", of("margin_burnt_cal", words::number));
    row("static margin", "margin_cal", |m| format!("{} cal", words::number(m)), remark);
    if n.upper.is_some() {
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

fn along_the_guide(table: &mut Table, n: &FlightNumbers, report: &FlightReport) {
    let Some(run) = &n.run else { return };
    let of = |name: &str, how: fn(f64) -> String| report.get(name).map(|(v, t)| give(v, t, how));
    if let Some(travel) = of("guided_travel_m", words::length) {
        let remark = format!("until the last guide leaves; {} for the front one", words::length(run.front_travel));
        table.row("guided travel", travel, remark);
    }
    let released = (run.front(), run.last(), of("front_release_m_s", words::speed), of("exit_speed_m_s", words::speed));
    let (Some(front), Some(last), Some(front_speed), Some(last_speed)) = released else {
        table.row("exit speed", "none", "it doesn't leave its guide");
        return;
    };
    table.row("front release", front_speed, format!("after {}", words::time(front.time)));
    let readers = format!("{:.0} km/h, {:.0} mph", last.speed * 3.6, last.speed / 0.44704);
    table.row("exit speed", last_speed, format!("after {} ({readers})", words::time(last.time)));
}

fn guide_and_hardware(table: &mut Table, analysis: &Analysis, n: &FlightNumbers, report: &FlightReport) {
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

fn in_the_air(table: &mut Table, n: &FlightNumbers, report: &FlightReport, flown: &Flown) {
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
    table.row("highest point", of("apogee_m", words::length), remark);
    let remark = format!("Mach {}", words::significant(flown.top_mach, 2, 2));
    table.row("top speed", of("top_speed_m_s", words::speed), remark);
    let remark = format!("{} times gravity", words::significant(flown.times_gravity(), 3, 1));
    table.row("top acceleration", format!("{} m/s2", words::number(flown.top_acceleration)), remark);
}

fn coming_down(table: &mut Table, analysis: &Analysis, report: &FlightReport, flown: &Flown) {
    let Some(descent) = &flown.descent else { return };
    let of = |name: &str, how: fn(f64) -> String| report.get(name).map_or("?".to_string(), |(v, t)| give(v, t, how));
    let label = analysis.design.parts.get(descent.part).map_or(String::new(), |part| part.label());
    table.row(
        "coast",
        of("coast_s", words::time),
        format!("from burnout to the highest point; the delay is {}", words::time(descent.delay)),
    );
    match descent.opening_speed {
        Some(speed) => table.row(&format!("{label} opens"), words::speed(speed), "speed at that moment"),
        None => table.row(&format!("{label} opens"), "never", "the ground comes first"),
    }
    if descent.opening_speed.is_some() {
        table.row("descent", of("descent_rate_m_s", words::speed), "steady, near the ground");
    }
    let landing =
        format!("{}; {} after ignition", energy(descent.landing_energy), words::time(flown.moments.landing.time));
    table.row("landing", of("landing_speed_m_s", words::speed), landing);
    table.row("drift", of("drift_m", words::length), "downwind of the pad");
}

/// A chosen code's limits, each with what the flight has against it.
fn against_the_code(
    table: &mut Table,
    analysis: &Analysis,
    n: &FlightNumbers,
    flown: Option<&Flown>,
    code: Jurisdiction,
) {
    let title = field_rules::JURISDICTIONS.iter().find(|(_, known, _)| *known == code).map_or("", |(.., title)| title);
    table.heading(format!("against {title}: {CHECK_YOUR_CODE}"));
    let facts = Facts::of(&analysis.design, n, flown);
    for limit in field_rules::limits(code, &facts) {
        let side = if limit.is_most { "at most" } else { "at least" };
        let say = |value: f64| match limit.unit {
            "kg" => words::mass(value),
            "m" => words::length(value),
            "m/s" => words::speed(value),
            "rad" => words::angle(value),
            unit => format!("{} {unit}", words::number(value)).trim_end().to_string(),
        };
        let value = limit.value.map_or("not known".to_string(), say);
        let verdict = if limit.is_exceeded() { "exceeded: " } else { "" };
        table.row(limit.what, value, format!("{verdict}{side} {} ({})", say(limit.limit), limit.source));
    }
}

fn energy(joules: f64) -> String {
    format!("{} J", words::significant(joules, 2, 2))
}

//! What stands beside a number: what it counts from, what else belongs to it, and what is said where there is none.

use super::Told;
use finwright_units::show as words;

/// The remark beside a number, by its name; `None` where its meaning says enough.
pub fn remark(told: &Told, name: &str) -> Option<String> {
    on_the_pad(told, name).or_else(|| along_the_guide(told, name)).or_else(|| in_the_air(told, name))
}

/// What stands in a number's place where the flight has none, with the reason.
pub fn instead(told: &Told, name: &str) -> Option<(String, String)> {
    let none = |why: &str| Some(("none".to_string(), why.to_string()));
    match name {
        "front_release_m_s" => None,
        "exit_speed_m_s" if told.numbers.run.as_ref().is_some_and(|run| run.last().is_none()) => {
            none("it doesn't leave its guide")
        }
        "swing_hz" if told.numbers.release.is_some_and(|release| release.swing.is_none()) => {
            none("the rocket is unstable and turns over")
        }
        "swing_hz" => {
            let swing = told.numbers.release?.swing.filter(|swing| swing.period().is_none())?;
            Some(("none".to_string(), format!("damping ratio {}", words::number(swing.damping_ratio))))
        }
        "free_coast_s" => {
            let flown = told.flown.filter(|flown| flown.descent.is_some() && flown.free_coast < 0.0)?;
            let early = words::time(-flown.free_coast);
            none(&format!("the highest point comes {early} before burnout{}", delay(told)))
        }
        "descent_rate_m_s" if told.flown?.descent.as_ref()?.openings.is_empty() => {
            none("the ground comes before anything opens")
        }
        _ => None,
    }
}

/// The pad, where it says how it stands.
fn standing(told: &Told) -> Option<String> {
    let standing = told.numbers.standing?;
    Some(match standing.times() {
        times if times.is_finite() => format!("in a gust; it holds {} times the site's", words::number(times)),
        _ => "in a gust; the site has none".to_string(),
    })
}

fn on_the_pad(told: &Told, name: &str) -> Option<String> {
    let n = told.numbers;
    let computed = |measured: bool, value: Option<String>| match value.filter(|_| measured) {
        Some(value) => format!("as weighed; {value} as computed"),
        None => "as computed".to_string(),
    };
    Some(match name {
        "tips_at_m_s" => standing(told)?,
        "mass_kg" => {
            let mass = computed(n.basis().mass, n.computed().map(|computed| words::mass(computed.mass)));
            format!("{mass}; {} at burnout", told.of("mass_burnt_kg", words::mass))
        }
        "balance_m" => {
            let balance = computed(n.basis().balance, n.computed().map(|computed| words::station(computed.x)));
            let alone = n.basis().mass && !n.basis().balance;
            let taken = if alone { ", where what the scale says more is taken to sit" } else { "" };
            format!("from the tip, {balance}{taken}; {} at burnout", told.of("balance_burnt_m", words::station))
        }
        "inertia_kg_m2" => "about the balance point".to_string(),
        "pressure_centre_m" => format!("from the tip; normal force {} per rad", told.of("cna", words::number)),
        "margin_cal" => {
            let calibre = told.of("reference_diameter_m", words::length);
            format!("calibres of {calibre}; {} at burnout", told.of("margin_burnt_cal", words::number))
        }
        "margin_second_cal" => "by a vortex lattice with the body; the smaller is judged".to_string(),
        "upper_margin_cal" => format!("when it lights; {} by itself", told.of("upper_mass_kg", words::mass)),
        "thrust_to_weight" => {
            let curve = n.curve.as_ref()?;
            let push = told.report.get("guided_thrust_to_weight");
            let push = push.map_or(String::new(), |(push, _)| format!("; {} along the guide", words::number(push)));
            let (impulse, time) = (words::number(curve.total_impulse()), words::time(curve.burn_time()));
            format!("average of {impulse} N s in {time}{push}")
        }
        _ => return None,
    })
}

fn along_the_guide(told: &Told, name: &str) -> Option<String> {
    let n = told.numbers;
    let lean = |lean: &finwright_assess::Lean, when: &str| {
        let (wind, gust) = (lean.in_wind(), lean.in_gust());
        let far = n.stiffness.as_ref().is_some_and(|stiffness| stiffness.is_beyond_linear(lean));
        let rough = if far { "; rough, it bends far" } else { "" };
        let steady = format!("{} and {} in the steady wind", words::length(wind.tip), words::angle(wind.slope));
        format!("{} in a gust, {when}; {steady}{rough}", words::angle(gust.slope))
    };
    Some(match name {
        "guided_travel_m" => {
            let front = words::length(n.run.as_ref()?.front_travel);
            if n.on_pad.as_ref().is_some_and(|on_pad| on_pad.in_tower.is_some()) {
                return Some(format!("until the body has left the tower, which holds it for {front}"));
            }
            format!("until the last guide leaves; {front} for the front one")
        }
        "front_release_m_s" => format!("after {}", words::time(n.run.as_ref()?.front()?.time)),
        "exit_speed_m_s" => {
            let last = n.run.as_ref()?.last()?;
            // Two standard deviations: nineteen of twenty flights lie within them.
            let usual = told.likely.map_or(String::new(), |likely| {
                format!("; in nineteen of twenty flights within {} of it", words::speed(2.0 * likely.exit_speed_sd))
            });
            format!("after {}{}{usual}", words::time(last.time), words::speed_beside(last.speed))
        }
        "lean_rest_gust_m" => lean(&n.stiffness.as_ref()?.at_rest, "the rocket at rest"),
        "lean_gust_m" => lean(&n.stiffness.as_ref()?.at_end, "the rocket held at the end"),
        "frequency_loaded_hz" => {
            format!("with the rocket at the end; {} Hz bare", words::number(n.stiffness.as_ref()?.bare_frequency))
        }
        "guide_spacing_m" => {
            let loads = n.loads.as_ref()?;
            let (locks, easy) = (words::length(loads.locks_at), words::length(loads.runs_easily_from));
            format!("locks at {locks}, runs easily from {easy}")
        }
        "guide_slop_rad" => "how far the rocket can turn in them".to_string(),
        _ => return None,
    })
}

fn in_the_air(told: &Told, name: &str) -> Option<String> {
    let release = told.numbers.release;
    let flown = told.flown?;
    Some(match name {
        "angle_of_attack_rad" => {
            format!("at release in the steady wind; {} in a gust", words::angle(release?.gust_angle))
        }
        "swing_hz" => format!("damping ratio {}", words::number(release?.swing?.damping_ratio)),
        "weathercock_rad" => {
            let leans = match flown.leans() {
                tilt if tilt > 0.0 => format!("; the pad leans {} into it", words::angle(tilt)),
                _ => String::new(),
            };
            format!("by burnout, gravity's share included{leans}")
        }
        "apogee_m" => {
            let apogee = &flown.moments.apogee;
            // What opens on the way up ends the climb; a delay is chosen by the climb that it doesn't end.
            let ended = flown.free_apogee.height - apogee.height > 0.5;
            let (height, time) = (words::length(flown.free_apogee.height), words::time(flown.free_apogee.time));
            let free = format!("; {height} at {time} had nothing opened before");
            format!("{} after ignition{}", words::time(apogee.time), if ended { &free } else { "" })
        }
        "top_speed_m_s" => format!("Mach {}", words::significant(flown.top_mach, 2, 2)),
        "top_acceleration_m_s2" => format!("{} times gravity", words::significant(flown.times_gravity(), 3, 1)),
        "free_coast_s" => format!("from burnout to the highest point, by itself{}", delay(told)),
        "descent_rate_m_s" => "steady, near the ground".to_string(),
        "landing_speed_m_s" => {
            let energy = words::energy(flown.descent.as_ref()?.landing_energy);
            format!("{energy}; {} after ignition", words::time(flown.moments.landing.time))
        }
        "drift_m" => "downwind of the pad".to_string(),
        _ => return None,
    })
}

fn delay(told: &Told) -> String {
    let delay = told.flown.and_then(|flown| flown.descent.as_ref()?.delay);
    delay.map_or(String::new(), |delay| format!("; the delay is {}", words::time(delay)))
}

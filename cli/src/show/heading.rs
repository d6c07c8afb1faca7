//! What stands above a flight's table: the motors, the pad, the site.

use finwright_model::{Design, Flight, Motor};
use finwright_units::show as words;

/// `rod_day: d9 (D9-5) from club_rod`.
pub fn title(design: &Design, flight: &Flight) -> String {
    let motor = |at: usize| design.motors.get(at).map(motor);
    let booster = flight.booster_motor.as_ref().and_then(|named| motor(named.value));
    let main = flight.motor.as_ref().and_then(|named| motor(named.value));
    let motors = booster.map_or(String::new(), |first| first + ", then ") + &main.unwrap_or_else(unknown);
    let pad = design.pad_of(flight).map_or_else(unknown, |pad| pad.name.value.clone());
    format!("{}: {motors} from {pad}", flight.name.value)
}

/// `at fen: wind 4 m/s, gusts of 6 m/s; people 10 m away, the field 150 m across`, as far as it's said.
pub fn site(design: &Design, flight: &Flight) -> Option<String> {
    let site = design.sites.get(flight.site.as_ref()?.value)?;
    let said: Vec<String> = [
        site.wind.as_ref().map(|wind| format!("wind {}", words::speed(wind.si))),
        site.gust.as_ref().map(|gust| format!("gusts of {}", words::speed(gust.si))),
        site.people.as_ref().map(|people| format!("people {} from the pad", words::length(people.si))),
        site.across.as_ref().map(|across| format!("the field {} across", words::length(across.si))),
    ]
    .into_iter()
    .flatten()
    .collect();
    let name = &site.name.value;
    Some(if said.is_empty() { format!("at {name}") } else { format!("at {name}: {}", said.join(", ")) })
}

/// A motor's name, and its code where it has one.
fn motor(motor: &Motor) -> String {
    match &motor.code {
        Some(code) => format!("{} ({})", motor.name.value, code.value),
        None => motor.name.value.clone(),
    }
}

fn unknown() -> String {
    "?".to_string()
}

//! What the stand says in words.

use super::ladder::Ladder;
use crate::lacking::lacking;
use crate::subject::{sentence, Subject};
use finwright_checks::rules::guide::slow_exit::SLOW_EXIT;
use finwright_checks::rules::guide::slow_front::SLOW_FRONT;
use finwright_checks::rules::motor::too_weak::TOO_WEAK;
use finwright_checks::rules::pad::leans::LEANS;
use finwright_checks::rules::wind::steep_angle::STEEP_ANGLE;
use finwright_checks::rules::wind::too_strong::TOO_STRONG;
use finwright_units::show;

/// The answers to both questions, a sentence or two each.
pub fn answers(subject: Subject, ladder: &Ladder) -> Vec<String> {
    let mut said = Vec::new();
    match ladder.last {
        Some((_, speed)) if ladder.is_slow() => {
            said.push(format!(
                "No: it lets go at {}, and its fins need {}.",
                show::speed(speed),
                show::speed(ladder.floor)
            ));
            let help = subject.found(&[&SLOW_EXIT]).map(|finding| finding.help.as_str()).unwrap_or_default();
            said.extend(Some(sentence("To pass", help)).filter(|help| !help.is_empty()));
        }
        Some((_, speed)) => {
            let floor = show::speed(ladder.floor);
            said.push(format!("Yes: it lets go at {}; its fins need {floor}.", show::speed(speed)));
            said.extend(
                subject.found(&[&SLOW_FRONT]).map(|finding| sentence("Look at the front guide", &finding.message)),
            );
        }
        None => {
            let weak = subject.found(&[&TOO_WEAK]).map(|finding| sentence("No", &finding.message));
            said.push(
                weak.unwrap_or_else(|| "That isn't known: its speeds along the guide are missing here.".to_string()),
            );
            said.extend(lacking(subject).into_iter().take(2));
        }
    }
    let wind = subject.found(&[&LEANS, &TOO_STRONG, &STEEP_ANGLE]);
    let air = subject.numbers.and_then(|numbers| numbers.air);
    match wind {
        Some(finding) => said.push(format!("Look at the wind: {}.", finding.message.trim_end_matches('.'))),
        None if air.is_some_and(|air| air.gust <= 0.0) => {
            said.push("No wind is said, so it's drawn in still air.".to_string());
        }
        None => {}
    }
    said
}

/// The picture's title.
pub fn title(subject: Subject) -> String {
    format!("{} on its pad: fast enough when it lets go, and moved how far by the wind?", subject.title())
}

/// What the picture shows, told.
pub fn told(subject: Subject, ladder: &Ladder, scale: &str) -> String {
    let guide = subject.guide_words().unwrap_or_else(|| "guide".to_string());
    let mut said = format!("The rocket stands on its pad beside its {guide}, drawn {scale}, the wind from the left.");
    if let Some((travel, speed)) = ladder.last {
        said += " A ladder along the guide shows its speed where it passes: ";
        if let Some((travel, speed)) = ladder.front.filter(|front| front.0 < travel) {
            said += &format!("{} after {} as the front guide leaves, ", show::speed(speed), show::length(travel));
        }
        said += &format!("{} after {} as the last one leaves.", show::speed(speed), show::length(travel));
    }
    let need = show::speed(ladder.floor);
    match (ladder.missing(), ladder.floor_at, ladder.last) {
        (Some(missing), ..) => {
            said += &format!(" The {need} that it needs lie {} beyond the end.", show::length(missing))
        }
        (None, Some(at), Some(_)) if !ladder.is_slow() => {
            said += &format!(" The {need} that it needs are reached after {}.", show::length(at));
        }
        _ => said += &format!(" The {need} that it needs aren't reached, or aren't known to be."),
    }
    let stiffness = subject.numbers.and_then(|numbers| numbers.stiffness.as_ref());
    if let Some(stiffness) = stiffness.filter(|_| subject.numbers.is_some_and(|n| n.air.is_some_and(|a| a.gust > 0.0)))
    {
        let (steady, gust) = (stiffness.at_rest.in_wind(), stiffness.at_rest.in_gust());
        said += &format!(
            " The tip leans {} in the steady wind and {} in a gust.",
            show::length(steady.tip.abs()),
            show::length(gust.tip.abs())
        );
    }
    said
}

//! What slows the rocket, each with the flight that says most about it.

use super::flown::is_stable;
use super::rounded::{mm, up, CENTIMETRE};
use crate::finding::Finding;
use crate::rule::Context;
use finwright_assess::flight::sinking::CANOPY_CD;
use finwright_assess::{path, FlightNumbers, Path, Sinking};
use finwright_model::{Flight, Part, PartKind};
use finwright_units::show;
use std::f64::consts::PI;

/// A parachute or streamer with the flight that says most about it.
pub(crate) struct Opened<'a> {
    pub flight: &'a Flight,
    pub numbers: &'a FlightNumbers,
    pub part: &'a Part,
    pub sinking: &'a Sinking,
    /// Air density at the site, kg/m3.
    pub density: f64,
    /// The flight to the ground, where it's known.
    pub path: Option<&'a Path>,
}

/// Everything that opens, each once with the flight that `is_worse` than the others of those in which it's `told`: a
/// flight that's harmless for another reason hides none.
pub(crate) fn opened<'a>(
    cx: &Context<'a>,
    told: impl Fn(&Opened<'a>) -> bool,
    is_worse: fn(&Sinking, &Sinking) -> bool,
) -> Vec<Opened<'a>> {
    let mut found: Vec<(usize, Opened)> = Vec::new();
    for (flight, numbers) in cx.flights().filter(|(_, numbers)| is_stable(numbers)) {
        let Some(air) = numbers.air else { continue };
        // The path is that of the piece with the motor.
        let main = path(cx.design, &cx.assessment.airframe, numbers).ok();
        let pieces = numbers.sinking.iter().map(|sinking| (sinking, main));
        for (sinking, path) in pieces.chain(numbers.apart.iter().map(|sinking| (sinking, None))) {
            let Some(part) = cx.design.parts.get(sinking.part) else { continue };
            let this = Opened { flight, numbers, part, sinking, density: air.density, path };
            if !told(&this) {
                continue;
            }
            match found.iter_mut().find(|(id, _)| *id == sinking.part) {
                Some((_, worst)) if is_worse(sinking, worst.sinking) => *worst = this,
                Some(_) => {}
                None => found.push((sinking.part, this)),
            }
        }
    }
    found.into_iter().map(|(_, opened)| opened).collect()
}

/// Where a parachute or streamer is too small: its diameter or length.
pub(crate) fn cause(part: &Part) -> finwright_grammar::Place {
    match &part.kind {
        PartKind::Parachute { diameter: Some(size), .. } | PartKind::Streamer { length: Some(size), .. } => size.place,
        _ => part.header,
    }
}

/// With the size of parachute or streamer that gives a speed, by the formula of the prose.
pub(crate) fn with_larger(finding: Finding, part: &Part, sinking: &Sinking, density: f64, speed: f64) -> Finding {
    let area = sinking.area_for(density, speed);
    let round = |drag: f64| up((4.0 * area / (PI * drag)).sqrt(), CENTIMETRE);
    match &part.kind {
        PartKind::Parachute { diameter: Some(diameter), .. } => {
            let wanted = mm(round(sinking.drag));
            let finding = finding.help(format!(
                "a parachute of {} gives {} or less; weigh it again, it's larger",
                show::length_at_least(round(sinking.drag)),
                show::descent(speed)
            ));
            finding.fix(format!("make the parachute {wanted}"), diameter.place, wanted)
        }
        PartKind::Streamer { length: Some(length), width: Some(width), .. } => {
            let wanted = up(area / (sinking.drag * width.si), CENTIMETRE);
            if wanted > MOST_SLENDER * width.si {
                return finding.help(format!(
                    "that is much for a streamer: a parachute of {} gives {} or less",
                    show::length_at_least(round(CANOPY_CD)),
                    show::descent(speed)
                ));
            }
            let finding = finding.help(format!(
                "a streamer of {} of this width gives {} or less; so does a parachute of {}",
                show::length_at_least(wanted),
                show::descent(speed),
                show::length_at_least(round(CANOPY_CD))
            ));
            finding.fix(format!("make the streamer {} long", mm(wanted)), length.place, mm(wanted))
        }
        _ => finding,
    }
}

/// A streamer much longer than this many widths only flutters behind itself (common practice, no source: ten is usual).
pub(crate) const MOST_SLENDER: f64 = 20.0;

//! What a picture is of: a design and one of its flights.

use finwright_assess::shape::Parts;
use finwright_assess::FlightNumbers;
use finwright_checks::{Analysis, Finding, Judgement, Level, Rule};
use finwright_grammar::Place;
use finwright_model::{Design, Flight, Motor, Pad, Rail};
use finwright_physics::motor::ImpulseClass;
use finwright_units::show;

/// A design and one of its flights.
#[derive(Clone, Copy)]
pub struct Subject<'a> {
    /// Everything known about the design.
    pub analysis: &'a Analysis,
    /// The flight's number.
    pub number: usize,
    /// The flight; `None` in a design without one.
    pub flight: Option<&'a Flight>,
    /// Its numbers.
    pub numbers: Option<&'a FlightNumbers>,
}

impl<'a> Subject<'a> {
    /// A design and the flight of a number in it.
    pub fn new(analysis: &'a Analysis, number: usize) -> Subject<'a> {
        let flight = analysis.design.flights.get(number);
        Subject { analysis, number, flight, numbers: analysis.assessment.flights.get(number) }
    }

    /// The design.
    pub fn design(self) -> &'a Design {
        &self.analysis.design
    }

    /// Its parts in their places.
    pub fn parts(self) -> Parts<'a> {
        self.analysis.assessment.airframe.parts(&self.analysis.design)
    }

    /// The flight's pad.
    pub fn pad(self) -> Option<&'a Pad> {
        self.design().pad_of(self.flight?)
    }

    /// The flight's motor; of two stages the one that burns on the pad.
    pub fn motor(self) -> Option<&'a Motor> {
        let flight = self.flight?;
        let named = flight.first_motor()?;
        self.design().motors.get(named.value)
    }

    /// What the verdict on the flight is.
    pub fn judgement(self) -> Option<&'a Judgement> {
        self.analysis.flights.get(self.number)
    }

    /// What the rocket is called.
    pub fn title(self) -> String {
        let title = self.design().title.as_ref().map(|title| title.value.trim().to_string());
        let file = || self.analysis.sources.first().and_then(|s| Some(s.path.file_stem()?.to_str()?.to_string()));
        title.filter(|title| !title.is_empty()).or_else(file).unwrap_or_else(|| "a rocket".to_string())
    }

    /// The motor's code, else its name.
    pub fn motor_words(self) -> Option<String> {
        let motor = self.motor()?;
        Some(motor.code.as_ref().map_or_else(|| motor.name.value.clone(), |code| code.value.clone()))
    }

    /// The letter of the class that all its motors' impulse is in.
    pub fn class(self) -> Option<&'static str> {
        let impulse = self.numbers?.curve.as_ref()?.total_impulse();
        ImpulseClass::of(impulse).map(|class| class.letter)
    }

    /// Rocket, motor and pad in a line.
    pub fn line(self) -> String {
        let motor = self.motor_words().map_or(String::new(), |motor| format!(", {motor}"));
        let pad = self.pad().map_or(String::new(), |pad| format!(", from {}", pad.name.value));
        format!("{}{motor}{pad}", self.title())
    }

    /// Rocket and flight in a line.
    pub fn flight_line(self) -> String {
        let flight = self.flight.map_or(String::new(), |flight| format!(", {}", flight.name.value));
        format!("{}{flight}", self.title())
    }

    /// What stands on the pad: "4 mm rod, 1.2 m".
    pub fn guide_words(self) -> Option<String> {
        guide_words(self.design(), self.pad()?)
    }

    /// What the rules found about this flight, or about the rocket whatever flies it.
    pub fn findings(self) -> impl Iterator<Item = &'a Finding> {
        let number = self.number;
        self.analysis.findings.iter().filter(move |finding| finding.flight.is_none_or(|flight| flight == number))
    }

    /// What one of some rules found, the gravest first.
    pub fn found(self, rules: &[&Rule]) -> Option<&'a Finding> {
        self.findings().filter(|f| rules.iter().any(|rule| rule.name == f.rule)).min_by_key(|finding| finding.level)
    }

    /// Whether one of some rules found something that matters.
    pub fn level(self, rules: &[&Rule]) -> Option<Level> {
        self.found(rules).map(|finding| finding.level).filter(|level| *level <= Level::Warning)
    }

    /// Where a part stands in the text.
    pub fn place(self, part: usize) -> Option<Place> {
        self.design().parts.get(part).map(|part| part.block)
    }
}

/// What stands on a pad: "4 mm rod, 1.2 m".
pub fn guide_words(design: &Design, pad: &Pad) -> Option<String> {
    let length = pad.rail_length().map_or("length not said".to_string(), |length| show::length(length.si));
    Some(match pad.rail.as_ref()? {
        Rail::Rod { diameter, .. } => {
            let wide = diameter.as_ref().map_or(String::new(), |d| show::length(d.si) + " ");
            format!("{wide}rod, {length}")
        }
        Rail::Slotted { slot, .. } => {
            let section = slot.as_ref().and_then(|slot| design.sections.get(slot.value));
            let width = section.and_then(|section| section.width.as_ref());
            format!("{}rail, {length}", width.map_or(String::new(), |w| show::length(w.si) + " "))
        }
        Rail::Tower { rails, .. } => {
            let rails = rails.as_ref().map_or(String::new(), |rails| format!("of {} rails, ", show::number(rails.si)));
            format!("tower {rails}{length}")
        }
    })
}

/// How thick a rod, or how wide a rail is, m; a tower's rails stand around the body.
pub fn guide_width(design: &Design, pad: &Pad) -> Option<f64> {
    match pad.rail.as_ref()? {
        Rail::Rod { diameter, .. } => Some(diameter.as_ref()?.si),
        Rail::Slotted { slot, .. } => Some(design.sections.get(slot.as_ref()?.value)?.width.as_ref()?.si),
        Rail::Tower { .. } => None,
    }
}

/// Words after what they are about, with a full stop: "To pass: a longer rod." Their first letter stays small, since
/// they may begin with a name; nothing for none.
pub fn sentence(about: &str, words: &str) -> String {
    match words.trim().trim_end_matches('.') {
        "" => String::new(),
        words => format!("{about}: {words}."),
    }
}

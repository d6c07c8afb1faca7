//! What a rule is: its public page and its check, in one place.

use crate::common::lacks::Lacks;
use crate::example::Example;
use crate::finding::{Edit, Finding, Fix, Label, Level};
use crate::settings::Settings;
use crate::threshold::Threshold;
use finwright_assess::{Assessment, FlightNumbers, MotorNumbers, Parts};
use finwright_grammar::Place;
use finwright_model::{Amount, Design, Flight, Motor, Named, CATALOG};
use finwright_units::show;
use serde::Serialize;

/// A rule: everything that is said about it anywhere comes from here.
#[derive(Debug)]
pub struct Rule {
    /// `family/bad-state`.
    pub name: &'static str,
    /// The first word of its name.
    pub family: Family,
    /// What its findings are about.
    pub concerns: Concern,
    /// Which wind its findings hang on, if any.
    pub wind: Option<Wind>,
    /// How much its findings matter unless a configuration says otherwise.
    pub level: Level,
    /// What it finds, in a few words.
    pub summary: &'static str,
    /// Why it matters, in one plain sentence; every finding carries it.
    pub why: &'static str,
    /// What a student can learn from it.
    pub prose: &'static str,
    /// The numbers that it compares with.
    pub thresholds: &'static [&'static Threshold],
    /// How it's done, and how not.
    pub example: Example,
    /// The check, unless an earlier stage (grammar, model) finds it.
    pub check: Option<fn(&Context, &mut Vec<Finding>)>,
}

/// Rules of one family share the first word of their names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)] // The words say it.
pub enum Family {
    Syntax,
    Name,
    Unit,
    Value,
    File,
    Settings,
    Allow,
    Guide,
    Motor,
    Pad,
    Balance,
    Stability,
    Wind,
    Field,
    Mount,
    Shape,
    Fins,
    Recovery,
    Measured,
    Flown,
    Flight,
}

impl Family {
    /// The word before the slash.
    pub fn word(self) -> &'static str {
        match self {
            Family::Syntax => "syntax",
            Family::Name => "name",
            Family::Unit => "unit",
            Family::Value => "value",
            Family::File => "file",
            Family::Settings => "settings",
            Family::Allow => "allow",
            Family::Guide => "guide",
            Family::Motor => "motor",
            Family::Pad => "pad",
            Family::Balance => "balance",
            Family::Stability => "stability",
            Family::Wind => "wind",
            Family::Field => "field",
            Family::Mount => "mount",
            Family::Shape => "shape",
            Family::Fins => "fins",
            Family::Recovery => "recovery",
            Family::Measured => "measured",
            Family::Flown => "flown",
            Family::Flight => "flight",
        }
    }
}

/// What a rule's findings are about, from the words inwards.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Concern {
    /// Words and values that can't be read or can't be so.
    Words,
    /// The file and its settings as such.
    File,
    /// The rocket, whatever it flies with.
    Rocket,
    /// A flight, the same from every pad.
    Flight,
    /// A flight from its pad, in its wind.
    Pad,
}

/// The wind that a rule's findings hang on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Wind {
    /// The steady wind.
    Steady,
    /// A gust.
    Gust,
}

impl Wind {
    /// "the steady wind", "a gust".
    pub fn phrase(self) -> &'static str {
        match self {
            Wind::Steady => "the steady wind",
            Wind::Gust => "a gust",
        }
    }
}

/// What a check looks at.
pub struct Context<'a> {
    /// The design.
    pub design: &'a Design,
    /// Its numbers.
    pub assessment: &'a Assessment,
    /// Levels and thresholds.
    pub settings: &'a Settings,
    /// The only flight that is looked at, by its number; `None` for all of them together.
    pub only: Option<usize>,
    /// Whether what is about the rocket, whatever it flies with, is told already.
    pub rocket_told: bool,
    /// What several rules and flights ask for, worked out once.
    pub lacks: &'a Lacks,
}

impl<'a> Context<'a> {
    /// The parts with their shapes in their places.
    pub fn parts(&self) -> Parts<'a> {
        self.assessment.airframe.parts(self.design)
    }

    /// A threshold's value in SI.
    pub fn limit(&self, threshold: &Threshold) -> f64 {
        self.settings.limit(threshold)
    }

    /// A length in metres as it is sold, in the unit that the author wrote at a place: inches for inches and feet.
    pub fn as_sold(&self, place: Place, length: f64) -> String {
        let file = usize::try_from(place.file.0).ok().and_then(|number| self.design.files.get(number));
        let written = file.map_or("", |file| place.span.of(&file.tree.text));
        match written.rsplit(|c: char| !c.is_alphabetic()).next() {
            Some("in" | "ft") => show::sold_length_in_inches(length),
            _ => show::si::sold_length(length),
        }
    }

    /// The flights that are looked at, with their numbers.
    pub fn flights(&self) -> impl Iterator<Item = (&'a Flight, &'a FlightNumbers)> + 'a {
        // Every rule asks it of every flight, so a single one isn't looked for among all.
        let (design, all) = (self.design, self.assessment.flights.as_slice());
        let asked = match self.only {
            Some(only) => all.get(only..=only).unwrap_or_default(),
            None => all,
        };
        asked.iter().filter_map(move |numbers| Some((design.flights.get(numbers.flight)?, numbers)))
    }

    /// The first flight looked at that flies a motor, by the motor's number.
    pub fn flight_with(&self, motor: usize) -> Option<&'a FlightNumbers> {
        let flies = |named: &Option<Named<usize>>| named.as_ref().is_some_and(|named| named.value == motor);
        self.flights().find(|(flight, _)| flies(&flight.motor) || flies(&flight.booster_motor)).map(|(_, n)| n)
    }

    /// What a motor's curve comes to, by the motor's number in the design; `None` where it has no sound one.
    pub fn motor_numbers(&self, motor: usize) -> Option<&'a MotorNumbers> {
        self.assessment.airframe.motors.get(motor)?.as_ref()
    }

    /// The motors that are looked at, with their numbers in the design: all of them, or those of the only flight.
    pub fn motors(&self) -> impl Iterator<Item = (usize, &'a Motor)> + 'a {
        let design = self.design;
        let numbers: Vec<usize> = match self.only.map(|only| design.flights.get(only)) {
            Some(flight) => {
                let named = flight.into_iter().flat_map(|f| [&f.motor, &f.booster_motor]).flatten();
                let mut flown: Vec<usize> = named.map(|named| named.value).collect();
                flown.sort_unstable();
                flown.dedup();
                flown
            }
            None => (0..design.motors.len()).collect(),
        };
        numbers.into_iter().filter_map(move |number| Some((number, design.motors.get(number)?)))
    }
}

impl Rule {
    /// A finding of this rule, with nothing but its message yet.
    pub fn finding(&'static self, place: Place, message: impl Into<String>) -> Finding {
        Finding {
            rule: self.name,
            level: self.level,
            place,
            message: message.into(),
            why: self.why.to_string(),
            help: String::new(),
            labels: Vec::new(),
            fixes: Vec::new(),
            elsewhere: None,
            also: Vec::new(),
            flight: None,
            of_rocket: false,
            unfinished: false,
            beyond: 1.0,
        }
    }

    /// Whether a comment may allow it: what can't be read or isn't known isn't checked, so that can't be allowed; what
    /// only looks odd can.
    pub fn may_be_allowed(&self) -> bool {
        match self.family {
            Family::Syntax | Family::Settings => false,
            Family::File => self.concerns == Concern::File,
            _ => true,
        }
    }

    /// Whether a setting may change its level: what can't be read isn't checked, and no setting changes that.
    pub fn may_be_set(&self) -> bool {
        !matches!(self.family, Family::Syntax | Family::Settings)
    }
}

impl Finding {
    /// Of this flight, by its number in the design.
    pub fn of_flight(mut self, numbers: &FlightNumbers) -> Finding {
        self.flight = Some(numbers.flight);
        self
    }

    /// Of the first flight that flies a motor, by the motor's number.
    pub fn of_motor(mut self, cx: &Context, motor: usize) -> Finding {
        self.flight = cx.flight_with(motor).map(|numbers| numbers.flight);
        self
    }

    /// So many times beyond what the rule allows: of two findings of one level the one further beyond is the worse.
    pub fn beyond(mut self, times: f64) -> Finding {
        self.beyond = if times.is_finite() { times } else { f64::MAX };
        self
    }

    /// With what to do about it.
    pub fn help(mut self, help: impl Into<String>) -> Finding {
        self.help = help.into();
        self
    }

    /// With another place that takes part in it.
    pub fn label(mut self, place: Place, text: impl Into<String>) -> Finding {
        self.labels.push(Label { place, text: text.into() });
        self
    }

    /// With a quick fix that replaces one value, where that value stands in a file that its reader can change.
    pub fn fix(mut self, title: impl Into<String>, place: Place, text: impl Into<String>) -> Finding {
        if place.file != CATALOG {
            self.fixes.push(Fix { title: title.into(), edits: vec![Edit { place, text: text.into() }] });
        }
        self
    }

    /// With a quick fix of several edits, where all of them stand in files that their reader can change; two edits of
    /// one place are one.
    pub fn fix_all(mut self, title: impl Into<String>, edits: impl IntoIterator<Item = (Place, String)>) -> Finding {
        let mut edits: Vec<Edit> = edits.into_iter().map(|(place, text)| Edit { place, text }).collect();
        edits.sort_by_key(|edit| (edit.place.file, edit.place.span.start));
        edits.dedup_by_key(|edit| edit.place);
        if !edits.is_empty() && edits.iter().all(|edit| edit.place.file != CATALOG) {
            self.fixes.push(Fix { title: title.into(), edits });
        }
        self
    }

    /// [`Finding::fix`] for an amount that may not be there.
    pub fn fix_amount(self, title: impl Into<String>, amount: Option<&Amount>, text: impl Into<String>) -> Finding {
        match amount {
            Some(amount) => self.fix(title, amount.place, text),
            None => self,
        }
    }
}

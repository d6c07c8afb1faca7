//! A number's derivation with a design's own values, step by step, for a class to follow with a calculator.
//!
//! Each step's result is computed from the values as printed, and the rounded result is carried on, so that a
//! calculator gives the same digits; at the end the program's own number, without rounding on the way, stands beside
//! it.
//!
//! * [`Quantity`]: what can be worked.
//! * [`number`], [`term`]: a printed number; an expression that knows its formula and its values at once.
//! * [`page`]: what a working holds, as plain data.
//! * [`text`](mod@text), [`markdown`](mod@markdown): the page in words.
//!
//! A file for each quantity has its steps. Angles are in degrees, as on a calculator.

mod air;
mod angle_of_attack;
mod balance;
mod descent;
mod exit_speed;
mod lean;
mod loads;
mod margin;
pub mod markdown;
pub mod number;
pub mod page;
mod pressure_centre;
mod quantity;
mod sources;
mod standing;
pub mod term;
pub mod text;
mod thrust_to_weight;

pub use markdown::markdown;
pub use number::Number;
pub use page::{Block, Cell, Column, End, Known, Step, Table};
pub use quantity::Quantity;
pub use text::text;

use finwright_assess::{Assessment, FlightNumbers};
use finwright_checks::lacking::{causes, sentence};
use finwright_model::Design;
use page::Page;
use serde::Serialize;

/// A number's derivation.
#[derive(Clone, Debug, Serialize)]
pub struct Working {
    /// Which number.
    pub quantity: Quantity,
    /// What is worked, in words.
    pub title: String,
    /// The flight that it belongs to, where it differs from flight to flight.
    pub flight: Option<String>,
    /// The design's other flights, for which it may be worked as well.
    pub others: Vec<String>,
    /// The page, in order.
    pub blocks: Vec<Block>,
    /// The results beside the program's own numbers.
    pub ends: Vec<End>,
    /// What the hand's way leaves out, each in a sentence.
    pub neglects: Vec<String>,
}

/// Why a number can't be worked: what it needs, in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Lack(pub String);

/// The derivation of a quantity for a flight, by its number in the design.
pub fn working(design: &Design, assessment: &Assessment, number: usize, quantity: Quantity) -> Result<Working, Lack> {
    let numbers = assessment.flights.get(number);
    let mut page = Page::default();
    let of = Subject { design, assessment };
    let flown = || numbers.ok_or_else(|| Lack("a flight".to_string()));
    match quantity {
        Quantity::ExitSpeed => exit_speed::work(&mut page, &of, flown()?),
        Quantity::Balance => balance::work(&mut page, &of, flown()?),
        Quantity::PressureCentre => pressure_centre::work(&mut page, &of),
        Quantity::Margin => margin::work(&mut page, &of, flown()?),
        Quantity::Lean => lean::work(&mut page, &of, flown()?),
        Quantity::ThrustToWeight => thrust_to_weight::work(&mut page, &of, flown()?),
        Quantity::AngleOfAttack => angle_of_attack::work(&mut page, &of, flown()?),
        Quantity::Descent => descent::work(&mut page, &of, flown()?),
        Quantity::Loads => loads::work(&mut page, &of, flown()?),
        Quantity::Standing => standing::work(&mut page, &of, flown()?),
    }?;
    let named = |numbers: &FlightNumbers| numbers.name(design).to_string();
    let flight = numbers.filter(|_| quantity.needs_flight()).map(named);
    let rest = assessment.flights.iter().enumerate().filter(|(at, _)| flight.is_some() && *at != number);
    let others = rest.map(|(_, numbers)| named(numbers)).collect();
    let rocket = design.title.as_ref().map_or(String::new(), |title| format!("{}: ", title.value));
    let when = flight.as_ref().map_or(String::new(), |name| format!(", flight {name}"));
    let title = format!("{rocket}{}{when}", quantity.name().replace('-', " "));
    Ok(Working { quantity, title, flight, others, blocks: page.blocks, ends: page.ends, neglects: page.neglects })
}

/// A design with its numbers.
pub(crate) struct Subject<'a> {
    design: &'a Design,
    assessment: &'a Assessment,
}

impl Subject<'_> {
    /// What a part is called.
    fn label(&self, id: usize) -> String {
        self.design.parts.get(id).map_or("?".to_string(), |part| part.label())
    }

    /// The pad of a flight.
    fn pad(&self, numbers: &FlightNumbers) -> Result<&finwright_model::Pad, Lack> {
        let flight = self.design.flights.get(numbers.flight);
        flight.and_then(|f| self.design.pad_of(f)).ok_or_else(|| lacks(self, numbers, "a pad"))
    }
}

/// What a flight lacks: the first cause that the assessment knows, else in these words.
pub(crate) fn lacks(of: &Subject, numbers: &FlightNumbers, otherwise: &str) -> Lack {
    let causes = causes(of.assessment, Some(numbers.flight));
    Lack(causes.first().map_or(otherwise.to_string(), |group| sentence(of.design, group)))
}

/// Where a value comes from: the file, or a default.
pub(crate) fn said<T>(amount: &Option<T>) -> &'static str {
    if amount.is_some() {
        "in the file"
    } else {
        "a default"
    }
}

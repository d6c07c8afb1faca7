//! Numbers of a design whose text changed in a comment: the same ones, told of places that moved.

use crate::assessment::Assessment;
use crate::misfit::{FlightMisfit, Misfit};
use crate::unknown::Unknown;
use finwright_grammar::{Retold, Shift, Span};
use std::sync::Arc;

impl Assessment {
    /// The numbers of the same design, whose text was [`finwright_grammar::retold`].
    pub fn retold(&self, change: &Retold) -> Assessment {
        let to = |span: Span| change.place(span);
        let mut assessment = self.clone();
        if !(assessment.airframe.unknown.is_empty() && assessment.airframe.misfits.is_empty()) {
            let airframe = Arc::make_mut(&mut assessment.airframe);
            airframe.unknown.relocate(&to);
            airframe.misfits.relocate(&to);
        }
        for flight in &mut assessment.flights {
            flight.unknown.relocate(&to);
            flight.misfits.relocate(&to);
        }
        assessment.relocate_flown(&to);
        assessment
    }
}

impl Shift for Unknown {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        self.place.relocate(to);
    }
}

impl Shift for Misfit {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        self.place.relocate(to);
    }
}

impl Shift for FlightMisfit {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        match self {
            FlightMisfit::Motor { place, .. }
            | FlightMisfit::Guides { place, .. }
            | FlightMisfit::Pressure { place, .. } => place.relocate(to),
        }
    }
}

//! What the assessment found impossible, for the rules that tell it.

use crate::finding::Finding;
use crate::rule::Context;
use finwright_assess::{FlightMisfit, FlightNumbers, Misfit};
use finwright_grammar::Place;
use finwright_model::{Flight, Part};

/// The findings about parts that can't be so; copies of a part, which say it in one place, are told once.
pub(crate) fn parts(cx: &Context, out: &mut Vec<Finding>, told: impl Fn(&Part, &Misfit) -> Option<Finding>) {
    let mut places: Vec<Place> = Vec::new();
    for misfit in &cx.assessment.airframe.misfits {
        let found = cx.design.parts.get(misfit.part).and_then(|part| told(part, misfit));
        let Some(finding) = found.filter(|finding| !places.contains(&finding.place)) else { continue };
        places.push(finding.place);
        out.push(finding);
    }
}

/// The findings about flights that can't be so; what several flights share is told once.
pub(crate) fn flights(cx: &Context, out: &mut Vec<Finding>, told: impl Fn(&Flight, &FlightMisfit) -> Option<Finding>) {
    let mut places: Vec<Place> = Vec::new();
    for (flight, numbers) in cx.flights() {
        for misfit in &numbers.misfits {
            let found = told(flight, misfit).filter(|finding| !places.contains(&finding.place));
            let Some(finding) = found else { continue };
            places.push(finding.place);
            out.push(finding.of_flight(numbers));
        }
    }
}

/// Whether a motor has no room in a flight's rocket, which is told as that.
pub(crate) fn has_no_room(numbers: &FlightNumbers, number: usize) -> bool {
    numbers.misfits.iter().any(|m| matches!(m, FlightMisfit::Motor { motor, .. } if *motor == number))
}

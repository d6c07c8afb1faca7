//! Designs as they would be: one flight, with another pad, other guides, another wind.

use finwright_assess::place::{is_floating, reference_flight};
use finwright_assess::{assess, assess_flights, Assessment, FlightNumbers, Parts};
use finwright_grammar::Place;
use finwright_model::{Amount, Choice, Design, Named, Pad, Part, PartId, Placement, Rail, Site};
use finwright_units::Spread;
use std::sync::Arc;

/// A design of one flight with its numbers.
pub struct Supposed {
    /// The design; its only flight is the one that is asked about.
    pub design: Design,
    /// Its numbers.
    pub assessment: Assessment,
}

impl Supposed {
    /// Assess a design with a single flight.
    pub fn new(design: Design) -> Supposed {
        let assessment = assess(&design);
        Supposed { design, assessment }
    }

    /// Assess another such design, with the same parts, motors and measurements.
    pub fn again(&self, design: Design) -> Supposed {
        let assessment = assess_flights(&design, self.assessment.airframe.clone());
        Supposed { design, assessment }
    }

    /// The parts with their shapes in their places.
    pub fn parts(&self) -> Parts<'_> {
        self.assessment.airframe.parts(&self.design)
    }

    /// The flight's numbers.
    pub fn numbers(&self) -> Option<&FlightNumbers> {
        self.assessment.flights.first()
    }
}

/// The design with nothing but one of its flights. A lug is glued on once: what is placed from the balance point of
/// another flight stays there.
pub fn only(design: &Design, flight: usize) -> Option<Design> {
    let one = design.flights.get(flight)?.clone();
    let floating = design.parts.iter().enumerate().filter(|(_, part)| is_floating(part));
    let placed = floating.filter_map(|(id, _)| Some((id, reference_flight(design, id)?.clone())));
    Some(Design { flights: vec![one], placed_with: placed.collect(), ..design.clone() })
}

/// The only flight from another pad, held by other guides.
pub fn from_pad(mut design: Design, pad: Pad, guides: &[PartId]) -> Design {
    let number = design.pads.len();
    design.pads.push(Arc::new(pad));
    if let Some(flight) = design.flights.first_mut() {
        flight.pad = Some(Named { value: number, place: flight.header });
        flight.guided_by = guides.iter().map(|id| Named { value: *id, place: flight.header }).collect();
        flight.guides_taken = false;
        flight.missing.retain(|field| !matches!(*field, "pad" | "guided_by"));
        flight.broken.retain(|field| !matches!(*field, "pad" | "guided_by"));
    }
    design
}

/// The only flight with another motor.
pub fn with_motor(mut design: Design, motor: usize) -> Design {
    if let Some(flight) = design.flights.first_mut() {
        flight.motor = Some(Named { value: motor, place: flight.header });
        flight.missing.retain(|field| *field != "motor");
        flight.broken.retain(|field| *field != "motor");
    }
    design
}

/// The only flight at another site.
pub fn at_site(mut design: Design, site: usize) -> Design {
    if let Some(flight) = design.flights.first_mut() {
        flight.site = Some(Named { value: site, place: flight.header });
        flight.broken.retain(|field| *field != "site");
    }
    design
}

/// The only flight in a steady wind of so many m/s, with gusts in the site's own proportion to it; a site that gives no
/// gust has none.
pub fn in_wind(mut design: Design, wind: f64) -> Design {
    let number = design.flights.first().and_then(|flight| Some(flight.site.as_ref()?.value));
    let site = number.and_then(|number| design.sites.get(number));
    let place = site.map_or(Place::default(), |site| site.name.place);
    let ratio = site
        .and_then(|site| Some(site.gust.as_ref()?.si / site.wind.as_ref()?.si))
        .filter(|ratio| ratio.is_finite() && *ratio >= 1.0);
    let mut site = site.cloned().unwrap_or_else(|| calm_site(place));
    site.wind = Some(amount(wind, site.wind.as_ref().map_or(place, |w| w.place)));
    site.gust = ratio.map(|ratio| amount(wind * ratio, place));
    let number = design.sites.len();
    design.sites.push(site);
    if let Some(flight) = design.flights.first_mut() {
        flight.site = Some(Named { value: number, place });
    }
    design
}

/// Add a part; its number.
pub fn add_part(design: &mut Design, part: Part) -> PartId {
    design.parts.push(part);
    design.parts.len() - 1
}

/// A number that stands nowhere in the text.
pub fn amount(si: f64, place: Place) -> Amount {
    Amount { si, spread: Spread::default(), place }
}

/// A place for a part, measured as said.
pub fn placement(si: f64, anchor: finwright_model::Anchor, place: Place) -> Placement {
    Placement { distance: amount(si, place), anchor, place }
}

/// A pad with a rod or rail that stands nowhere in the text.
pub fn pad(name: String, rail: Rail, stop: f64, tilt: f64, place: Place) -> Pad {
    Pad {
        name: Named { value: name, place },
        header: place,
        rail: Some(rail),
        stop: Some(amount(stop, place)),
        tilt: Some(amount(tilt, place)),
        leans: None,
        friction: None,
        foot: None,
        mass: None,
        stance: None,
        staked: None,
        yields: None,
        // What is still to be got is taken as capped, as every rod should be.
        end: Some(Choice { word: "capped", number: None, place }),
        broken: Vec::new(),
    }
}

fn calm_site(place: Place) -> Site {
    Site {
        name: Named { value: "the field".to_string(), place },
        wind_height: None,
        elevation: None,
        temperature: None,
        pressure: None,
        wind: None,
        gust: None,
        across: None,
        people: None,
        broken: Vec::new(),
    }
}

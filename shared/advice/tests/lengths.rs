//! How long a rod must be and how heavy a rocket may become: what is advised is written into the text and checked as any
//! other design.
#![allow(clippy::unwrap_used)]

use crate::support;
use finwright_advice::{compare, Comparison, Wish};
use finwright_checks::example::BASE;
use finwright_checks::{Analysis, Level};
use support::analysis;

const PAD: &str = "rod { diameter: 3.2 mm; length: 1 m; material: steel }";

fn compared(text: &str, winds: &[f64]) -> Comparison {
    let wish = Wish { winds, weights: true, ..Wish::default() };
    compare(&analysis(text), &wish).into_iter().next().unwrap()
}

/// What is found of a flight at warning level and above.
fn found(analysis: &Analysis, flight: &str) -> Vec<&'static str> {
    let number = analysis.design.flights.iter().position(|known| known.name.value == flight);
    let of_it = analysis.findings.iter().filter(|f| f.flight == number && f.level <= Level::Warning);
    of_it.map(|f| f.rule).collect()
}

#[test]
fn the_shortest_rod_passes_and_a_shorter_one_fails_by_the_rule_that_is_told() {
    assert!(BASE.contains(PAD), "{BASE}");
    let own = analysis(BASE);
    let site = own.design.sites[0].clone();
    let (wind, gust) = (site.wind.unwrap().si, site.gust.unwrap().si);
    let winds = [2.0, 4.0];
    let lengths = compared(BASE, &winds).lengths.unwrap();
    let size = lengths.sizes.iter().find(|size| size.rail == "3.2 mm rod").unwrap();
    assert!(size.fits && size.least.len() == winds.len());
    let flight = own.design.flights.iter().find(|flight| own.design.pad_of(flight).unwrap().has_rod()).unwrap();
    for least in &size.least {
        let at = |length: f64| {
            let text = BASE.replace(PAD, &PAD.replace("length: 1 m", &format!("length: {length:.2} m")));
            let text = text.replace(&format!("wind: {wind} m/s"), &format!("wind: {} m/s", least.wind_m_s));
            text.replace(&format!("gust: {gust} m/s"), &format!("gust: {} m/s", least.wind_m_s * gust / wind))
        };
        let length = least.length_m.unwrap();
        assert!(found(&analysis(&at(length)), &flight.name.value).is_empty(), "{least:?}");
        let shorter = analysis(&at(length - 0.01));
        let rule = least.limit.as_ref().unwrap().rule;
        assert!(
            found(&shorter, &flight.name.value).contains(&rule),
            "{least:?}: {:?}",
            found(&shorter, &flight.name.value)
        );
    }
}

#[test]
fn a_stronger_wind_never_asks_for_less() {
    for (name, analysis) in support::corpus() {
        let winds = [0.0, 3.0, 6.0];
        for comparison in compare(&analysis, &Wish { winds: &winds, ..Wish::default() }) {
            for size in comparison.lengths.unwrap().sizes {
                let known: Vec<f64> = size.least.iter().filter_map(|least| least.length_m).collect();
                assert!(known.windows(2).all(|pair| pair[1] >= pair[0] - 0.011), "{name}: {size:?}");
                // What fails at any length fails with a reason.
                assert!(
                    size.least.iter().all(|least| least.length_m.is_some() || least.limit.is_some()),
                    "{name}: {size:?}"
                );
            }
        }
    }
}

#[test]
fn as_heavy_as_it_may_be_and_a_little_more() {
    let own = analysis(BASE);
    let comparison = compared(BASE, &[]);
    let candidate = comparison.candidates.iter().find(|candidate| candidate.heaviest.is_some()).unwrap();
    let heaviest = candidate.heaviest.as_ref().unwrap();
    let flight = own
        .design
        .flights
        .iter()
        .find(|flight| own.design.pad_of(flight).unwrap().name.value == candidate.pad && flight.motor.is_some());
    let flight = &flight.unwrap().name.value;
    let number = own.design.flights.iter().position(|known| known.name.value == *flight).unwrap();
    let loaded = own.assessment.flights[number].loaded().unwrap();
    assert!(heaviest.mass_kg > loaded.mass);
    let weighing = |mass: f64| {
        let measured =
            format!("\nmeasured {{ with: b8; mass: {} g; balance: {} mm from tip }}\n", mass * 1e3, loaded.x * 1e3);
        analysis(&(BASE.to_string() + &measured))
    };
    let rule = heaviest.limit.as_ref().unwrap().rule;
    let as_told = weighing(heaviest.mass_kg);
    assert!(!found(&as_told, flight).contains(&rule), "{heaviest:?}: {:?}", found(&as_told, flight));
    let heavier = weighing(heaviest.mass_kg * 1.02);
    assert!(found(&heavier, flight).contains(&rule), "{heaviest:?}: {:?}", found(&heavier, flight));
}

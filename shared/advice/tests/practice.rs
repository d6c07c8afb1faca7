//! Facts of the trade, seen on designs. Each is common practice, no source.
#![allow(clippy::unwrap_used)]

use crate::support::{analysis, corpus};
use finwright_advice::compare::{compare, Wish};
use finwright_advice::Candidate;
use finwright_checks::common::limits::EXIT_SPEED;
use finwright_checks::example::BASE;
use finwright_checks::{Profile, Settings, Verdict};

fn found(text: &str) -> Vec<(&'static str, String)> {
    analysis(text).findings.into_iter().map(|f| (f.rule, f.message)).collect()
}

fn has(text: &str, rule: &str) -> bool {
    found(text).iter().any(|(name, _)| *name == rule)
}

/// A rocket of a given diameter, all else in proportion, on a rod.
fn scaled(d: f64, rod: f64, length: f64, motor_mass: f64, thrust: f64) -> String {
    let k = d / 24.8;
    let mm = |x: f64| format!("{:.3} mm", x * k);
    format!(
        r#"finwright 1
airframe {{
  nose {{ shape: ogive; length: {}; base: {d} mm; wall: {}; material: polystyrene }}
  tube body {{
    length: {}; outer: {d} mm; inner: {}; material: kraft_paper
    fins main {{ count: 3; root: {}; tip: {}; span: {}; sweep: {}; thickness: {}; material: plywood; at: 0 mm from back }}
    mount engine {{ bore: {}; outer: {}; length: {}; material: kraft_paper }}
    parachute {{ diameter: {}; mass: {:.1} g; at: {} from front }}
    lug aft {{ bore: {:.2} mm; length: {}; wall: 0.5 mm; at: {} from back; clock: 60 deg }}
    lug fore {{ bore: {:.2} mm; length: {}; wall: 0.5 mm; at: {} ahead of balance; clock: 60 deg }}
  }}
}}
motor m {{ diameter: {}; length: {}; mass: {motor_mass} g; propellant: {} g; delay: 5 s
  curve: [0 s: 0 N, 0.05 s: {thrust} N, 1 s: {thrust} N, 1.05 s: 0 N] }}
pad stand {{ rod {{ diameter: {rod} mm; length: {length} m }}; stop: 60 mm; end: capped }}
site fair {{ wind: 2 m/s; gust: 3 m/s }}
flight one {{ motor: m; pad: stand; guided_by: [aft, fore]; site: fair }}
"#,
        mm(75.0),
        mm(1.2),
        mm(230.0),
        mm(24.8 - 0.9 * k.max(1.0) / k),
        mm(50.0),
        mm(30.0),
        mm(40.0),
        mm(25.0),
        mm(1.6),
        mm(18.0),
        mm(18.8),
        mm(70.0),
        mm(300.0),
        4.0 * k * k,
        mm(60.0),
        rod + 0.4,
        mm(25.0),
        mm(14.0),
        rod + 0.4,
        mm(25.0),
        mm(20.0),
        mm(18.0),
        mm(70.0),
        motor_mass * 0.3,
    )
}

#[test]
fn fins_take_over_at_about_thirty_miles_an_hour() {
    let floor = Settings::of(Profile::Club).limit(&EXIT_SPEED);
    assert!((floor / 0.44704 - 30.0).abs() < 0.1);
}

#[test]
fn an_eighth_of_an_inch_is_not_stiff_enough_past_about_56_mm() {
    let is_too_thin = |d: f64| has(&scaled(d, 3.175, 0.9, 60.0, 30.0), "guide/rod-too-thin");
    assert!(!is_too_thin(40.0) && !is_too_thin(55.0) && is_too_thin(58.0));
}

#[test]
fn a_wide_body_wants_a_rail_from_76_mm_unless_it_is_light_and_from_100_mm_always() {
    let wants = |d: f64, motor: f64| has(&scaled(d, 8.0, 1.2, motor, 60.0), "guide/wants-rail");
    assert!(!wants(70.0, 900.0) && wants(80.0, 900.0));
    let light = scaled(80.0, 8.0, 1.2, 30.0, 60.0).replace("plywood", "balsa").replace("polystyrene", "foam");
    assert!(!has(&light, "guide/wants-rail"), "a light one may fly from a rod");
    assert!(wants(100.0, 30.0), "from 100 mm always");
}

/// The same rod under bodies that grow: the wider ones catch more wind and lean further.
#[test]
fn big_diameters_catch_wind_and_push_the_rod_over() {
    let lean = |d: f64| {
        let analysis = analysis(&scaled(d, 4.8, 1.2, 60.0, 30.0));
        analysis.assessment.flights[0].stiffness.as_ref().unwrap().at_rest.in_gust().slope
    };
    let leans = [24.8, 40.0, 56.0, 70.0].map(lean);
    assert!(leans.windows(2).all(|pair| pair[1] > pair[0]), "{leans:?}");
}

/// A heavier rocket of the same push needs a longer rod for the same exit, and a stiffer one for the same lean.
#[test]
fn bigger_rockets_need_longer_and_stiffer_guides() {
    let just = |mass: f64| {
        let analysis = analysis(&scaled(40.0, 4.0, 1.2, mass, 30.0));
        let numbers = &analysis.assessment.flights[0];
        let length = finwright_assess::inverse::just_does(analysis.assessment.airframe.airflow.as_ref(), numbers, 13.4)
            .length
            .unwrap();
        (length, numbers.stiffness.as_ref().unwrap().loaded_frequency)
    };
    let (light, heavy) = (just(50.0), just(300.0));
    assert!(heavy.0 > light.0 && heavy.1 < light.1, "{light:?} {heavy:?}");
}

/// A button's screw through the wall bears more than a stick-on shoe of its own size.
#[test]
fn buttons_through_the_wall_are_stronger_than_stick_on_guides() {
    let capacity = |part: &str| {
        let text = BASE.replace(
            "button nut { profile: 15 mm; at: 15 mm ahead of balance",
            &format!("{part}; at: 25 mm ahead of balance"),
        );
        let analysis = analysis(&text);
        analysis.assessment.flights[2].loads.as_ref().unwrap().guides[0].capacity.unwrap()
    };
    let button = capacity("button nut { profile: 15 mm");
    let shoe = capacity("rail_guide nut { profile: 15 mm; length: 10 mm");
    assert!(button > shoe, "{button} against {shoe}");
}

#[test]
fn where_a_rail_is_at_hand_it_is_preferred() {
    for (name, analysis) in corpus() {
        for comparison in compare(&analysis, &Wish::default()) {
            let meets: Vec<&Candidate> = comparison.candidates.iter().filter(|c| c.may_fly()).collect();
            let first_rod = meets.iter().position(|c| !c.is_rail).unwrap_or(meets.len());
            assert!(meets.iter().skip(first_rod).all(|c| !c.is_rail), "{name}: a rail behind a rod");
        }
    }
    let analysis = analysis(BASE);
    let best = &compare(&analysis, &Wish::default())[0].candidates[0];
    assert!(best.is_rail && best.verdict == Verdict::MeetsTheChecks, "{best:?}");
}

#[test]
fn without_a_pad_the_usual_rods_and_rails_are_compared() {
    let without = BASE
        .lines()
        .filter(|line| {
            !line.starts_with("pad ") && !line.starts_with("flight slotted") && !line.starts_with("flight two")
        })
        .collect::<Vec<_>>()
        .join("\n")
        .replace("pad: stand; guided_by: [only]; ", "");
    let analysis = analysis(&without);
    let found = compare(&analysis, &Wish::default());
    assert!(found[0].from_ladder && found[0].candidates.len() == 11, "{found:#?}");
    assert!(found[0].candidates.iter().any(|c| c.fits) && found[0].candidates.iter().any(|c| !c.fits));
}

/// Whatever stands on the pad, nobody is told to fly a rocket that tumbles.
#[test]
fn an_unstable_rocket_is_flown_from_nothing() {
    let analysis = analysis(&BASE.replace("span: 40 mm", "span: 10 mm"));
    let found = &compare(&analysis, &Wish::default())[0];
    assert!(found.candidates.iter().all(|c| c.verdict == Verdict::NotAsItIs), "{found:#?}");
    let said = finwright_advice::words::answer(found);
    assert!(said.starts_with("Not as it is, from any pad: ") && said.contains("stability/unstable"), "{said}");
}

#[test]
fn a_warning_of_the_rocket_itself_is_told_beside_the_advice() {
    let analysis = analysis(&BASE.replace("span: 40 mm", "span: 20 mm"));
    let found = &compare(&analysis, &Wish::default())[0];
    let said = finwright_advice::words::answer(found);
    // It's about the rocket that flies, so nobody is told to fly it before that is looked at.
    assert!(said.starts_with("Look at it before you fly b8 from track") && said.contains("only "), "{said}");
    assert!(found.of_the_rocket.iter().any(|fault| fault.rule == "stability/low-margin"));
}

#[test]
fn where_no_pad_will_do_the_smallest_usual_ones_that_would_are_named() {
    let short = BASE
        .replace("length: 1 m; material: steel", "length: 0.4 m; material: steel")
        .replace("slot: slim; length: 1 m", "slot: slim; length: 0.4 m");
    let analysis = analysis(&short);
    let found = &compare(&analysis, &Wish::default())[0];
    assert!(found.candidates.iter().all(|c| !c.may_pass()), "{found:#?}");
    let kinds: Vec<bool> = found.of_the_usual.iter().map(|c| c.is_rail).collect();
    assert_eq!(kinds, [false, true]);
    // A tenth over the floor, and half of the lean at most.
    let enough =
        |c: &Candidate| c.exit_speed_m_s.unwrap() >= 1.1 * 13.4 && c.lean_wind_rad.unwrap() <= 0.5_f64.to_radians();
    assert!(found.of_the_usual.iter().all(|c| c.may_pass() && enough(c)), "{found:#?}");
    let said = finwright_advice::words::besides(found).join(" ");
    assert!(
        said.contains("Of what is sold, a 3.2 mm rod of 0.9 m with ") && said.contains("15 mm rail of 1 m"),
        "{said}"
    );
}

/// A heavy rocket's buttons are screwed into something: a rail can be advised.
#[test]
fn a_heavy_rocket_without_a_pad_is_advised_a_rail() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/designs/good");
    let text = std::fs::read_to_string(folder.join("grey_crane.finw")).unwrap();
    let without: String =
        text.lines().filter(|line| !line.starts_with("pad ")).map(|line| line.to_string() + "\n").collect();
    let without = without.replace("pad: wide_rail; ", "");
    let found = &compare(&analysis(&without), &Wish::default())[0];
    assert!(found.from_ladder, "{found:#?}");
    let best = &found.candidates[0];
    assert!(best.is_rail && best.may_pass(), "{best:#?}");
    let said = finwright_advice::words::answer(found);
    assert!(said.starts_with("The file has no pad. The smallest usual one with room to spare is a "), "{said}");
}

/// A light rocket needs no large hardware: the smallest that has room to spare is advised.
#[test]
fn a_light_rocket_without_a_pad_is_advised_a_thin_rod() {
    let without = BASE.replace("pad: stand; guided_by: [only]; ", "");
    let without: String = without
        .lines()
        .filter(|line| {
            !line.starts_with("pad ") && !line.starts_with("flight slotted") && !line.starts_with("flight two")
        })
        .map(|line| line.to_string() + "\n")
        .collect();
    let found = &compare(&analysis(&without), &Wish::default())[0];
    assert_eq!(found.candidates[0].rail, "3.2 mm rod of 0.9 m", "{:#?}", found.candidates[0]);
}

//! Towers, joints, feet, guides that fall away, pieces that come down apart, and flights that were flown.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support;
use finwright_assess::{in_gust, path, FlightNumbers};
use finwright_checks::example::BASE;
use finwright_checks::Analysis;
use support::{analysis, record};

fn changed(pairs: &[(&str, &str)]) -> Analysis {
    let text = pairs.iter().fold(BASE.to_string(), |text, (old, new)| {
        assert_eq!(text.matches(old).count(), 1, "{old}");
        text.replace(old, new)
    });
    analysis(&text)
}

fn flight<'a>(analysis: &'a Analysis, name: &str) -> &'a FlightNumbers {
    let number = analysis.design.flights.iter().position(|known| known.name.value == name).unwrap();
    &analysis.assessment.flights[number]
}

fn told<'a>(analysis: &'a Analysis, rule: &str) -> Vec<&'a str> {
    analysis.findings.iter().filter(|f| f.rule == rule).map(|f| f.message.as_str()).collect()
}

const ROD: &str = "rod { diameter: 3.2 mm; length: 1 m; material: steel }";

#[test]
fn a_tower_holds_the_body_and_needs_no_guides() {
    let tower = [
        ("rail { slot: slim; length: 1 m }", "tower { rails: 3; bore: 25.8 mm; length: 1 m }"),
        ("pad: track; guided_by: [peg, nut]", "pad: track"),
    ];
    let stands = changed(&tower);
    let held = flight(&stands, "slotted").on_pad.as_ref().unwrap().in_tower.unwrap();
    assert!((held.play - 1e-3).abs() < 1e-9, "{held:?}");
    // From its stop 50 mm up, its motor 5 mm out of the body's end.
    let run = flight(&stands, "slotted").run.as_ref().unwrap();
    assert!((run.travel - (1.0 - 0.05 - 0.005)).abs() < 1e-9, "{}", run.travel);
    assert!((run.travel - run.front_travel - 24.8e-3).abs() < 1e-9);
    assert!(stands.findings.is_empty(), "{:?}", stands.findings);
    // Taller it's faster.
    let taller = changed(&[(tower[0].0, "tower { rails: 3; bore: 25.8 mm; length: 2 m }"), tower[1]]);
    let exit = |analysis: &Analysis| flight(analysis, "slotted").run.as_ref().unwrap().last().unwrap().speed;
    assert!(exit(&taller) > exit(&stands) + 3.0);
}

#[test]
fn a_joint_leans_by_its_play_and_a_foot_by_its_yield() {
    let slope = |pairs: &[(&str, &str)]| {
        let found = changed(pairs);
        let stiffness = flight(&found, "one").stiffness.clone().unwrap();
        (stiffness.at_rest.in_wind().slope, stiffness.at_rest.in_wind().root_moment, stiffness.loaded_frequency)
    };
    let (whole, moment, frequency) = slope(&[]);
    let joint = "rod { diameter: 3.2 mm; length: 1 m; joint: 500 mm; joint_play: 0.5 deg; material: steel }";
    assert!((slope(&[(ROD, joint)]).0 - whole - 0.5_f64.to_radians()).abs() < 1e-12);
    let soft = "material: steel }; yields: 2 deg; stop: 50 mm; tilt: 2 deg; end: capped";
    let (yielding, _, slower) = slope(&[("material: steel }; stop: 50 mm; tilt: 2 deg; end: capped", soft)]);
    assert!((yielding - whole - 2.0_f64.to_radians() * moment).abs() < 1e-12);
    assert!(slower < frequency);
}

#[test]
fn what_says_half_of_how_a_pad_stands_is_told() {
    let stop = "material: steel }; stop: 50 mm";
    let half = changed(&[(stop, "material: steel }; stance: 200 mm; stop: 50 mm")]);
    assert_eq!(told(&half, "file/missing-field"), ["pad stand needs `mass`"]);
    assert!(flight(&half, "one").standing.is_none());
    let staked = |more: &str| {
        let found = changed(&[(stop, &format!("material: steel }}; mass: 1 kg; stance: 100 mm{more}; stop: 50 mm"))]);
        flight(&found, "one").standing.unwrap()
    };
    // Stakes of 10 N on the far side, 200 mm off.
    assert!((staked("; staked: 10 N").holds - staked("").holds - 2.0).abs() < 1e-9);
}

#[test]
fn guides_that_fall_away_weigh_on_the_pad_and_not_in_the_air() {
    let aft = "lug aft { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 12 mm from back; clock: 60 deg }";
    let with = |more: &str| {
        let lug = aft.replace(" }", &format!("; mass: 2 g{more} }}"));
        let found = changed(&[(aft, &lug)]);
        let numbers = flight(&found, "two");
        let (weighed, airframe) = (numbers.weighed.unwrap(), &found.assessment.airframe);
        let apogee = path(&found.design, airframe, numbers).unwrap().moments.apogee.height;
        (weighed.loaded.mass, weighed.burnt.mass, apogee)
    };
    let (stays, falls) = (with(""), with("; after_release: falls_away"));
    assert_eq!(stays.0, falls.0);
    assert!((stays.1 - falls.1 - 2e-3).abs() < 1e-9);
    assert!(falls.2 > stays.2 + 1.0, "{} and {}", falls.2, stays.2);
}

#[test]
fn pieces_weigh_together_what_the_whole_does() {
    let cord = "cord { length: 600 mm; mass: 1.5 g";
    let own =
        format!("parachute up {{ diameter: 200 mm; mass: 2 g; at: 40 mm from front; carries: [nose] }}\n    {cord}");
    let found = changed(&[(cord, &own)]);
    let numbers = flight(&found, "one");
    let main = numbers.sinking.as_ref().unwrap();
    let [nose] = numbers.apart.as_slice() else { panic!("{:?}", numbers.apart) };
    assert!((main.mass + nose.mass - numbers.burnt().unwrap().mass).abs() < 1e-12);
    assert!(nose.mass < 0.6 * main.mass && numbers.bare.is_none());
    let landed = path(&found.design, &found.assessment.airframe, numbers).unwrap().apart[0];
    assert!((landed.energy - 0.5 * nose.mass * landed.moment.speed.powi(2)).abs() < 1e-12);
    // A name that is no stretch of the body leaves what comes down unknown.
    let wrong = changed(&[(cord, &own.replace("[nose]", "[main]"))]);
    assert_eq!(told(&wrong, "name/unknown-name"), ["no nose, tube or taper is named `main`"]);
    assert!(flight(&wrong, "one").sinking.is_none());
}

#[test]
fn a_gust_turns_further_than_the_wind_and_none_where_there_is_none() {
    let gusty = changed(&[("wind: 2 m/s; gust: 3 m/s", "wind: 2 m/s; gust: 6 m/s")]);
    let numbers = flight(&gusty, "one");
    let steady = path(&gusty.design, &gusty.assessment.airframe, numbers).unwrap().weathercock.unwrap();
    let worst = in_gust(&gusty.design, &gusty.assessment.airframe, numbers).unwrap();
    assert!(worst.turn > steady && worst.angle >= numbers.release.unwrap().angle, "{worst:?}");
    let even = changed(&[("wind: 2 m/s; gust: 3 m/s", "wind: 2 m/s; gust: 2 m/s")]);
    assert!(in_gust(&even.design, &even.assessment.airframe, flight(&even, "one")).is_none());
}

#[test]
fn what_a_stand_recorded_is_the_curve_that_it_recorded() {
    let curve = "curve: [0 s: 0 N, 0.05 s: 9 N, 0.1 s: 14 N, 0.2 s: 13 N, 0.3 s: 6 N, 0.55 s: 5 N, 0.6 s: 0 N]";
    let text = BASE.replace(curve, "trace: file \"stand.csv\"");
    let found = support::analysis_with(&text, &[("stand.csv", &record(0.05, 0.2))]);
    let (own, base) = (found.assessment.airframe.motors[0].clone().unwrap(), analysis(BASE));
    let meant = base.assessment.airframe.motors[0].clone().unwrap();
    assert!((own.impulse / meant.impulse - 1.0).abs() < 0.01, "{} for {}", own.impulse, meant.impulse);
    assert!((own.burn_time / meant.burn_time - 1.0).abs() < 0.03);
    let stand = found.design.motors[0].stand.unwrap();
    assert!((stand.zero - 0.4).abs() < 0.02 && (stand.start - 0.2).abs() < 0.01 && stand.drift.is_some(), "{stand:?}");
    // Both a curve and a record: neither is believed over the other.
    let both = BASE.replace(curve, &format!("{curve}; trace: file \"stand.csv\""));
    let found = support::analysis_with(&both, &[("stand.csv", &record(0.05, 0.2))]);
    assert_eq!(told(&found, "file/broken-record"), ["there are a `curve` and a `trace`"]);
}

#[test]
fn with_every_flight_the_factors_are_known_better() {
    let sd = |flights: usize| {
        let block = "flown { flight: one; exit_speed: 17.5 m/s ± 0.5 m/s; height: 155 m ± 3 m }\n".repeat(flights);
        let found = analysis(&format!("{BASE}{block}"));
        let learned = found.assessment.flown(&found.design).learned.clone().unwrap();
        assert_eq!(learned.flights, flights);
        (learned.drag.sd, learned.thrust[0].1.sd)
    };
    let (one, three) = (sd(1), sd(3));
    assert!(one.0 < 0.1 && three.0 < one.0 && three.1 < one.1 && one.1 < 0.03, "{one:?} {three:?}");
}

#[test]
fn what_was_concluded_is_no_evidence() {
    let block = "flown { flight: one; height: 150 m ± 3 m }\n";
    let learned = |factor: &str| {
        let text = format!("{BASE}{block}").replace("airframe {", &format!("airframe {{\n{factor}"));
        let found = analysis(&text);
        found.assessment.flown(&found.design).learned.clone().unwrap()
    };
    let (none, some) = (learned(""), learned("drag_factor: 1.2 ± 0.05"));
    assert!((none.drag.value - some.drag.value).abs() < 1e-3, "{none:?} {some:?}");
}

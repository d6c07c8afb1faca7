//! The way down: sizes and delays that are advised are enough, no more, and told once.
#![allow(clippy::unwrap_used)]

use crate::support;
use finwright_checks::example::BASE;
use finwright_checks::{Analysis, Finding, Level};
use support::{analysis, base_with, fixed, of};

fn descent(found: &Analysis) -> finwright_assess::Sinking {
    let numbers = &found.assessment.flights[0];
    finwright_assess::path(&found.design, &found.assessment.airframe, numbers)
        .unwrap()
        .descent
        .as_ref()
        .unwrap()
        .sinking
        .clone()
}

/// The flight that comes down slowest may drift nowhere, and another one far.
#[test]
fn a_flight_in_still_air_hides_no_drift() {
    let text = base_with(&[("diameter: 300 mm", "diameter: 600 mm")])
        + "motor a6 {
  code: \"A6-4\"; diameter: 18 mm; length: 70 mm; mass: 14 g; propellant: 3 g; delay: 4 s
  curve: [0 s: 0 N, 0.05 s: 6 N, 0.1 s: 10 N, 0.2 s: 8 N, 0.3 s: 5 N, 0.35 s: 0 N]
}
site still { wind: 0 m/s }
site windy { wind: 7 m/s }
flight light { motor: a6; pad: stand; guided_by: [only]; site: still }
flight blown { motor: b8; pad: stand; guided_by: [only]; site: windy }
";
    let told = of(&analysis(&text), "recovery/slow-descent")[0].message.clone();
    assert!(told.starts_with("blown comes down at only 1.8 m/s and drifts "), "{told}");
}

#[test]
fn three_flights_of_one_parachute_tell_of_it_once() {
    for (diameter, rule) in [("110 mm", "recovery/fast-descent"), ("700 mm", "recovery/slow-descent")] {
        let found = analysis(&base_with(&[("diameter: 300 mm", &format!("diameter: {diameter}"))]));
        assert_eq!(of(&found, rule).len(), 1, "{rule}");
    }
    let found = analysis(&base_with(&[("code: \"B8-4\"", "code: \"B8-9\""), ("delay: 4 s", "delay: 9 s")]));
    assert_eq!(of(&found, "recovery/mistimed").len(), 1);
}

#[test]
fn the_parachute_that_is_advised_is_just_enough() {
    // D = √(8 m g/(π ρ Cd v²)) with what the assessment says: 6.1 m/s, rounded up to the centimetre.
    let text = base_with(&[("diameter: 300 mm", "diameter: 110 mm")]);
    let found = analysis(&text);
    let before = descent(&found);
    let air = found.assessment.flights[0].air.unwrap();
    let exact = (8.0 * before.mass * 9.80665 / (std::f64::consts::PI * air.density * 0.75 * 6.1 * 6.1)).sqrt();
    let wanted = (exact * 100.0).ceil() * 10.0;
    let finding = of(&found, "recovery/fast-descent")[0];
    assert_eq!(finding.fixes[0].edits[0].text, format!("{wanted} mm"));
    let after = descent(&analysis(&fixed(&text, finding)));
    assert!(after.rate <= 6.1 && after.rate > 6.1 * (1.0 - 10.0 / wanted), "{}", after.rate);
}

#[test]
fn a_longer_streamer_is_advised_for_a_streamer_unless_it_would_be_a_ribbon() {
    let with = |width: &str| {
        base_with(&[
            ("ballast { mass: 1 g", "ballast { mass: 4 g"),
            (
                "parachute { diameter: 300 mm; mass: 4 g; at: 60 mm from front; drag: 0.75 }",
                &format!("streamer {{ length: 300 mm; width: {width}; mass: 3 g; at: 60 mm from front }}"),
            ),
        ])
    };
    let text = with("80 mm");
    let found = analysis(&text);
    let finding = of(&found, "recovery/fast-descent")[0];
    assert!(finding.help.contains("a streamer of") && finding.help.contains("a parachute of"), "{}", finding.help);
    assert!(descent(&analysis(&fixed(&text, finding))).rate <= 6.1);
    // More than twenty widths long it would only flutter behind itself.
    let found = analysis(&with("40 mm"));
    let finding = of(&found, "recovery/fast-descent")[0];
    assert!(finding.fixes.is_empty() && finding.help.contains("a parachute of"), "{}", finding.help);
}

#[test]
fn a_light_rocket_under_a_streamer_may_come_down_faster() {
    let text = base_with(&[(
        "parachute { diameter: 300 mm; mass: 4 g; at: 60 mm from front; drag: 0.75 }",
        "streamer { length: 600 mm; width: 50 mm; mass: 3 g; at: 60 mm from front }",
    )]);
    let found = analysis(&text);
    let down = descent(&found);
    assert!(down.rate > 6.1 && down.energy < 1.5, "{down:?}");
    assert!(of(&found, "recovery/fast-descent").is_empty());
}

#[test]
fn a_delay_that_opens_on_the_way_up_is_judged_by_the_undisturbed_coast() {
    let text = base_with(&[("code: \"B8-4\"", "code: \"B8-1\""), ("delay: 4 s", "delay: 1 s")]);
    let found = analysis(&text);
    let path = finwright_assess::path(&found.design, &found.assessment.airframe, &found.assessment.flights[0]).unwrap();
    // The parachute ends the climb at once, so the coast as flown is about the delay; the free one isn't.
    assert!(path.coast < 2.0 && (path.free_coast - 4.5).abs() < 0.2, "{} {}", path.coast, path.free_coast);
    let finding = of(&found, "recovery/mistimed")[0];
    assert!(finding.message.contains("before the highest point"), "{}", finding.message);
    let mended = fixed(&text, finding);
    assert!(mended.contains("code: \"B8-4\"") && mended.contains("delay: 4 s"));
    assert!(analysis(&mended).findings.is_empty());
}

#[test]
fn the_ground_before_the_opening_is_an_error() {
    let found = analysis(&base_with(&[("code: \"B8-4\"", "code: \"B8-14\""), ("delay: 4 s", "delay: 14 s")]));
    let finding = of(&found, "recovery/mistimed")[0];
    assert_eq!(finding.level, Level::Error);
    assert!(finding.message.contains("on the ground before anything opens"), "{}", finding.message);
}

#[test]
fn a_motor_without_a_dash_in_its_code_keeps_its_code() {
    let text = base_with(&[("code: \"B8-4\"", "code: \"B8\""), ("delay: 4 s", "delay: 8 s")]);
    let found = analysis(&text);
    let finding = of(&found, "recovery/mistimed")[0];
    assert_eq!(finding.fixes[0].edits.len(), 1);
    assert!(analysis(&fixed(&text, finding)).findings.is_empty());
}

#[test]
fn hard_landings_and_fast_ones_arent_both_told() {
    let example = &finwright_checks::rule("recovery/hard-landing").unwrap().example;
    let text = example.bad_design();
    let analysis = |text: &str| support::analysis_set(text, example.settings);
    let found = analysis(&text);
    assert_eq!((of(&found, "recovery/hard-landing").len(), of(&found, "recovery/fast-descent").len()), (1, 0));
    let mended = analysis(&fixed(&text, of(&found, "recovery/hard-landing")[0]));
    assert!(mended.findings.is_empty(), "{:#?}", mended.findings);
}

#[test]
fn cords_are_counted_together() {
    let two = "cord { length: 200 mm; mass: 1 g; at: 80 mm from front }\n    cord { length: 150 mm; mass: 0.5 g; at: \
        90 mm from front }";
    let text = base_with(&[("cord { length: 600 mm; mass: 1.5 g; at: 90 mm from front }", two)]);
    assert!(of(&analysis(&text), "recovery/short-cord").is_empty(), "350 mm is more than the rocket's 300 mm");
    let found = analysis(&text.replace("length: 150 mm; mass: 0.5 g", "length: 50 mm; mass: 0.5 g"));
    let short = of(&found, "recovery/short-cord");
    assert!(short.len() == 1 && short[0].fixes.is_empty() && short[0].message.contains("250 mm"), "{short:?}");
    // A cord just as long as the rocket is long enough.
    let just = analysis(&base_with(&[("cord { length: 600 mm", "cord { length: 300 mm")]));
    assert!(of(&just, "recovery/short-cord").is_empty());
}

#[test]
fn the_room_for_packing_runs_from_shoulder_to_motor() {
    let found = analysis(&base_with(&[(
        "parachute { diameter: 300 mm; mass: 4 g",
        "parachute { diameter: 300 mm; mass: 14 g",
    )]));
    let finding = of(&found, "recovery/tight-packing")[0];
    // (14 + 1.5) g at 200 kg/m3 are 77.5 cm3; 24 mm across from 90 mm to 230 mm are π/4 · 2.4² · 14 = 63.3 cm3; the
    // 14.2 cm3 that are missing are 31.3 mm of tube.
    assert!(finding.message.contains("77.5 cm3") && finding.message.contains("63.3 cm3"), "{}", finding.message);
    assert!(finding.help.contains("32 mm longer"), "{}", finding.help);
    // Without a mount or motor behind it the room isn't known.
    let open = BASE.replace("mass: 4 g", "mass: 14 g");
    let open: String = open
        .lines()
        .filter(|l| !l.contains("mount engine") && !l.contains("rings {"))
        .map(|l| format!("{l}\n"))
        .collect();
    assert!(of(&analysis(&open), "recovery/tight-packing").is_empty());
}

#[test]
fn a_rocket_that_isnt_known_whole_may_get_its_parachute_yet() {
    let text = base_with(&[
        ("parachute { diameter: 300 mm; mass: 4 g; at: 60 mm from front; drag: 0.75 }", ""),
        ("inner: 24 mm; material: kraft_paper", "inner: 24 mm"),
    ]);
    assert!(of(&analysis(&text), "recovery/none").is_empty());
}

#[test]
fn an_unstable_rocket_is_told_that_and_nothing_of_its_way_down() {
    let found = analysis(&base_with(&[("span: 40 mm", "span: 10 mm"), ("diameter: 300 mm", "diameter: 110 mm")]));
    let rules: Vec<_> = found.findings.iter().map(|f| f.rule).collect();
    assert!(rules.contains(&"stability/unstable") && !rules.iter().any(|r| r.starts_with("recovery/")), "{rules:?}");
}

/// Each opens at its own moment, those that are open together add their areas, and no delay is asked for.
#[test]
fn two_canopies_open_at_their_own_moments() {
    let one = "parachute { diameter: 300 mm";
    let both = BASE.replace(one, "parachute small { opens: at top; diameter: 120 mm").replace(
        "    lug only",
        "    parachute large { diameter: 300 mm; mass: 4 g; at: 60 mm from front; opens: 30 m above ground }\n    lug \
            only",
    );
    let without_delay = both.replace("; delay: 4 s", "").replace("B8-4", "B8-P");
    assert_ne!(without_delay, both);
    let found = analysis(&without_delay);
    let numbers = &found.assessment.flights[0];
    let flown = finwright_assess::path(&found.design, &found.assessment.airframe, numbers).unwrap();
    let descent = flown.descent.as_ref().unwrap();
    let [first, second] = descent.openings.as_slice() else { unreachable!("{descent:?}") };
    assert!((first.moment.time - flown.moments.apogee.time).abs() < 1e-9 && (second.moment.height - 30.0).abs() < 1e-6);
    assert!(second.rate < first.rate && (second.drag_area - descent.sinking.drag_area).abs() < 1e-15);
    assert!(descent.delay.is_none() && (second.rate - descent.sinking.rate).abs() < 1e-12);
    // By the motor's charge it needs the motor's delay again.
    let waits = analysis(&without_delay.replace("; opens: 30 m above ground", ""));
    let rules: Vec<&str> = waits.findings.iter().map(|f| f.rule).collect();
    assert!(rules.contains(&"file/missing-field"), "{rules:?}");
}

/// What is said of a moment and can't be understood is told, and nothing opens by default instead.
#[test]
fn a_moment_that_is_none_is_told() {
    for slip in
        ["at burnout", "30 m above top", "30 s above ground", "2 m after top", "30 m", "delay", "top", "-3 s after top"]
    {
        let text =
            BASE.replace("parachute { diameter: 300 mm", &format!("parachute {{ opens: {slip}; diameter: 300 mm"));
        let found = analysis(&text);
        assert!(found.count(Level::Error) > 0, "{slip}");
        let numbers = &found.assessment.flights[0];
        assert!(numbers.sinking.is_none(), "{slip}: {:?}", numbers.sinking);
    }
}

/// A rocket that opens at two places comes apart at both.
#[test]
fn each_place_that_opens_needs_a_cord_of_its_own() {
    let second = |cord: &str| {
        base_with(&[(
            "  }\n}\nmotor b8 {",
            &format!(
                "  }}\n  tube tail {{ length: 90 mm; outer: caliber; inner: 24 mm; material: kraft_paper\n    \
                streamer {{ length: 300 mm; width: 30 mm; mass: 1 g; at: 20 mm from front }}\n{cord}  }}\n}}\nmotor \
                b8 {{"
            ),
        )])
    };
    let found = analysis(&second(""));
    let told = of(&found, "recovery/no-cord");
    assert!(told.len() == 1 && told[0].message == "no cord in tube tail, where streamer comes out", "{told:?}");
    let found = analysis(&second("    cord { length: 200 mm; mass: 1 g; at: 20 mm from front }\n"));
    assert!(of(&found, "recovery/no-cord").is_empty());
    let short = of(&found, "recovery/short-cord");
    assert!(short.len() == 1 && short[0].message.starts_with("the cord is 200 mm"), "{short:?}");
    let found = analysis(&second("    cord { length: 500 mm; mass: 1 g; at: 20 mm from front }\n"));
    assert!(of(&found, "recovery/no-cord").is_empty() && of(&found, "recovery/short-cord").is_empty());
    // A cord that is in the nose holds a rocket together that opens at one place.
    let in_the_nose = base_with(&[
        ("    cord { length: 600 mm; mass: 1.5 g; at: 90 mm from front }\n", ""),
        (
            "ballast { mass: 1 g; at: 50 mm from front }",
            "ballast { mass: 1 g; at: 50 mm from front }\n    cord { \
            length: 600 mm; mass: 1.5 g; at: 60 mm from front }",
        ),
    ]);
    assert!(of(&analysis(&in_the_nose), "recovery/no-cord").is_empty());
}

/// What a motor's code says behind its dash, and what it is told of the rest.
#[test]
fn a_motor_that_fires_nothing_is_told_under_what_waits_for_it() {
    let told = |code: &str, delay: &str| -> Vec<String> {
        let found = analysis(&base_with(&[("code: \"B8-4\"", &format!("code: \"{code}\"")), ("; delay: 4 s", delay)]));
        let of_opening = |f: &&Finding| f.rule == "motor/no-charge" || f.rule == "recovery/mistimed";
        found.findings.iter().filter(of_opening).map(|f| f.message.clone()).collect()
    };
    assert_eq!(told("B8-P", ""), ["b8 has no ejection charge (its code ends in P)"]);
    let booster = "b8 has no delay (its code ends in 0): it's a booster's motor";
    assert_eq!(told("B8-0", "; delay: 0 s"), [booster], "that it opens far too early is a consequence");
    // What an altimeter does is given as the delay, and is judged.
    assert_eq!(told("B8-P", "; delay: 8 s").len(), 2);
    assert!(told("B8-4", "; delay: 4 s").is_empty() && told("B8", "; delay: 4 s").is_empty());
    // Under nothing that opens there is nothing to push out.
    let bare = base_with(&[
        ("code: \"B8-4\"", "code: \"B8-P\""),
        (
            "parachute { diameter: 300 mm; mass: 4 g; at: 60 mm from front; drag: 0.75 }",
            "load { mass: 4 g; at: 60 mm from front }",
        ),
    ]);
    assert!(of(&analysis(&bare), "motor/no-charge").is_empty());
}

/// ½ ρ v² Cd A at the speed of the opening, in newtons and in weights; told beneath a delay that causes it.
#[test]
fn a_hard_opening_is_told_with_its_pull() {
    let example = &finwright_checks::rule("recovery/hard-opening").unwrap().example;
    let found = support::analysis_set(&example.bad_design(), example.settings);
    let numbers = &found.assessment.flights[0];
    let path = finwright_assess::path(&found.design, &found.assessment.airframe, numbers).unwrap();
    let descent = path.descent.as_ref().unwrap();
    let (speed, down) = (descent.opening_speed().unwrap(), &descent.sinking);
    let pull = 0.5 * numbers.air.unwrap().density * speed * speed * 0.75 * std::f64::consts::PI * 0.3 * 0.3 / 4.0;
    let told = of(&found, "recovery/hard-opening");
    assert_eq!(told.len(), 1, "three flights share the parachute");
    assert!(told[0].message.ends_with(&format!("pulls with {pull:.1} N")), "{} {pull}", told[0].message);
    assert!(
        told[0].help.contains(&format!("that is {:.0} times the weight", pull / (down.mass * 9.80665))),
        "{}",
        told[0].help
    );
    assert!(of(&found, "recovery/mistimed").is_empty(), "no other delay would help");
    let early = analysis(&base_with(&[("code: \"B8-4\"", "code: \"B8-1\""), ("delay: 4 s", "delay: 1 s")]));
    assert!(of(&early, "recovery/hard-opening").is_empty());
    let also: Vec<&str> = of(&early, "recovery/mistimed")[0].also.iter().map(|also| also.rule).collect();
    assert_eq!(also, ["recovery/hard-opening"]);
}

#[test]
fn a_streamer_is_between_five_and_twenty_times_as_long_as_wide() {
    let told = |size: &str| {
        let streamer = format!("streamer {{ {size}; mass: 3 g; at: 60 mm from front }}");
        let parachute = "parachute { diameter: 300 mm; mass: 4 g; at: 60 mm from front; drag: 0.75 }";
        of(&analysis(&base_with(&[(parachute, &streamer)])), "recovery/streamer-shape").len()
    };
    let sizes = [
        "length: 449 mm; width: 90 mm",
        "length: 450 mm; width: 90 mm",
        "length: 1.8 m; width: 90 mm",
        "length: 1.81 m; width: 90 mm",
    ];
    assert_eq!(sizes.map(told), [1, 0, 0, 1]);
}

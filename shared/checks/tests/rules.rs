//! Each rule of the flight on a design that breaks it, and its fix.
#![allow(clippy::unwrap_used)]

use crate::support;
use support::{analysis, expect, fixed, sound_but, sound_with, told, unmark};

/// The fix removes its finding and brings no other.
fn fix_mends(marked: &str, rule: &str) {
    let (text, _) = unmark(marked);
    let before = analysis(&text);
    let finding = before.findings.iter().find(|f| f.rule == rule).unwrap();
    let after = analysis(&fixed(&text, finding));
    let left: Vec<_> = after.findings.iter().map(|f| (f.rule, f.message.clone())).collect();
    assert!(left.is_empty(), "after the fix: {left:?}");
}

#[test]
fn a_sound_design_is_met_with_silence() {
    let found = analysis(support::SOUND);
    assert!(found.findings.is_empty(), "{:#?}", found.findings);
    assert_eq!(found.assessment.flights.len(), 2);
}

#[test]
fn a_short_rod_lets_go_too_early() {
    let text = sound_with(&[
        ("length: 1 m; material: steel", "length: 0.58 m; material: steel"),
        ("flight one", "flight «one»"),
        ("flight two", "flight «two»"),
    ]);
    let analysis = expect(
        &text,
        &[
            ("guide/slow-exit", "leaves the rod at 12.6 m/s (45 km/h, 28 mph); fins need about 13.4 m/s"),
            ("guide/slow-front", "two's front guide leaves at 12 m/s; fins need about 13.4 m/s"),
        ],
    );
    let help = &told(&analysis)[0].help;
    assert!(help.contains("m rod would do") && help.contains("g less mass, or the guides of two (14 m/s)"), "{help}");
    let labels: Vec<&str> = told(&analysis)[0].labels.iter().map(|l| l.text.as_str()).collect();
    assert!(labels[0].contains("of guided travel") && labels[1].contains("times the weight"), "{labels:?}");
}

#[test]
fn the_rod_that_is_advised_is_sold_and_what_is_needed_of_it_is_no_more_than_that() {
    let rod = "length: 0.45 m; material: steel";
    let text = sound_with(&[
        ("length: 1 m; material: steel", rod),
        ("flight two { motor: a5; pad: stand; guided_by: [aft, fore] }\n", ""),
    ]);
    fix_mends(&text, "guide/slow-exit");
    let found = analysis(&text);
    let help = &found.findings[0].help;
    let needed = help.strip_prefix("a 0.9 m rod would do, the next size sold above the ");
    let needed: f64 = needed.and_then(|rest| rest.split(" mm needed").next()?.parse().ok()).unwrap_or(f64::NAN);
    assert!(needed.is_finite(), "{help}");
    let with = |mm: f64| analysis(&text.replace(rod, &format!("length: {mm} mm; material: steel")));
    assert!(with(needed).findings.iter().all(|f| f.rule != "guide/slow-exit" && f.rule != "flight/near-its-floors"));
    assert_eq!(with(needed - 11.0).findings[0].rule, "flight/near-its-floors", "11 mm less isn't sure any more");
}

/// Who writes inches buys inches.
#[test]
fn a_rod_in_inches_is_advised_in_inches() {
    let text = sound_with(&[("length: 1 m; material: steel", "length: 18 in; material: steel")]);
    let found = analysis(&text);
    assert_eq!(found.findings[0].fixes[0].title, "lengthen the rod to 36 in");
    assert!(fixed(&text, &found.findings[0]).contains("length: 36 in; material: steel"));
}

#[test]
fn another_pad_that_is_fast_enough_is_named() {
    let text = sound_with(&[
        ("length: 1 m; material: steel", "length: 0.45 m; material: steel"),
        (
            "flight two { motor: a5; pad: stand; guided_by: [aft, fore] }",
            "pad long { rod { diameter: 3.2 mm; length: \
            1.2 m }; end: capped }\nflight two { motor: a5; pad: long; guided_by: [aft, fore] }",
        ),
    ]);
    let found = analysis(&text);
    assert!(found.findings[0].help.contains("the pad long ("), "{}", found.findings[0].help);
}

#[test]
fn a_weak_motor_never_lifts_off() {
    let text = sound_with(&[
        ("0.1 s: 8 N, 0.2 s: 10 N, 0.3 s: 4 N", "0.1 s: 0.2 N, 0.2 s: 0.25 N, 0.3 s: 0.1 N"),
        ("code: \"A5-3\"; ", ""),
        ("flight one { motor: a5", "flight one { motor: «a5»"),
        ("flight two { motor: a5", "flight two { motor: «a5»"),
    ]);
    let analysis = expect(
        &text,
        &[
            ("motor/too-weak", "one never lifts off: the motor's greatest thrust is 0.25 N"),
            ("motor/too-weak", "two never lifts off"),
        ],
    );
    assert!(told(&analysis)[0].help.contains("five times the weight"));
}

#[test]
fn a_spent_motor_falls_back_on_its_rod() {
    let text = sound_with(&[
        ("0.1 s: 8 N, 0.2 s: 10 N, 0.3 s: 4 N, 0.4 s: 0 N", "0.05 s: 2 N, 0.1 s: 0 N"),
        ("code: \"A5-3\"; ", ""),
        ("flight two { motor: a5; pad: stand; guided_by: [aft, fore] }\n", ""),
        ("flight one { motor: a5", "flight one { motor: «a5»"),
    ]);
    expect(&text, &[("motor/too-weak", "then falls back")]);
}

#[test]
fn a_lone_lug_belongs_at_the_balance_point() {
    let text = sound_but("at: balance;", "at: «40 mm from front»;");
    let analysis = expect(&text, &[("guide/lone-guide-off-balance", "ahead of the balance point")]);
    assert!(told(&analysis)[0].help.contains("put its middle 1"), "{}", told(&analysis)[0].help);
    fix_mends(&text, "guide/lone-guide-off-balance");
}

#[test]
fn half_a_calibre_off_is_still_at_the_balance_point() {
    expect(&sound_but("at: balance;", "at: 20 mm behind balance;"), &[]);
    expect(
        &sound_but("at: balance;", "at: «21 mm behind balance»;"),
        &[("guide/lone-guide-off-balance", "21 mm behind")],
    );
}

#[test]
fn two_lugs_straddle_the_balance_point() {
    let text = sound_but("at: 20 mm ahead of balance;", "at: «10 mm behind balance»;");
    expect(&text, &[("guide/not-straddling", "both sit behind the balance point")]);
    fix_mends(&text, "guide/not-straddling");
}

#[test]
fn two_lugs_ahead_of_the_balance_point_are_told_to_move_the_rear_one() {
    let text = sound_with(&[
        ("at: 20 mm ahead of balance;", "at: 60 mm ahead of balance;"),
        ("at: 12 mm from back; clock: 60 deg }\n    button", "at: «115 mm from front»; clock: 60 deg }\n    button"),
    ]);
    let (plain, marks) = unmark(&text);
    let found = analysis(&plain);
    let mine: Vec<_> = found.findings.iter().filter(|f| f.place.span.range() == marks[0]).map(|f| f.rule).collect();
    assert_eq!(mine, ["guide/not-straddling", "guide/rear-too-far-forward"]);
    fix_mends(&text, "guide/not-straddling");
}

#[test]
fn the_rear_lug_goes_near_the_aft_end() {
    let text = sound_but(
        "at: 12 mm from back; clock: 60 deg }\n    button",
        "at: «70 mm from back»; clock: 60 deg }\n    button",
    );
    expect(
        &text,
        &[("guide/rear-too-far-forward", "ends 60 mm ahead of the aft end; 49.6 mm is the most for a rear one")],
    );
    fix_mends(&text, "guide/rear-too-far-forward");
}

#[test]
fn a_guide_must_start_on_the_rod() {
    let text = sound_with(&[
        ("length: 1 m; material: steel", "length: 0.1 m; material: steel"),
        ("guided_by: [only] }", "guided_by: [«only»] }"),
        ("guided_by: [aft, fore] }", "guided_by: [aft, «fore»] }"),
        ("flight two", "flight «two»"),
    ]);
    let (plain, _) = unmark(&text);
    let rules: Vec<_> = told(&analysis(&plain)).iter().map(|f| f.rule).collect();
    assert!(rules.iter().filter(|r| **r == "guide/starts-above").count() == 2, "{rules:?}");
}

#[test]
fn small_fins_leave_little_margin() {
    let text = sound_with(&[("span: 40 mm", "span: 21 mm"), ("flight one", "flight «one»")]);
    let analysis = expect(&text, &[("stability/low-margin", "only 0.")]);
    assert!(told(&analysis)[0].help.contains("of ballast in the nose"), "{}", told(&analysis)[0].help);
}

#[test]
fn the_ballast_that_is_advised_is_enough() {
    let text = sound_with(&[
        ("span: 40 mm", "span: 21 mm"),
        (
            "base: caliber; material: basswood }",
            "base: caliber; material: basswood\n    ballast { mass: 1 g; at: 20 mm from back }\n  }",
        ),
    ]);
    fix_mends(&text, "stability/low-margin");
}

#[test]
fn tiny_fins_make_it_unstable() {
    let text = sound_with(&[("span: 40 mm", "span: 9 mm"), ("flight one", "flight «one»")]);
    expect(&text, &[("stability/unstable", "calibres ahead of balance")]);
}

#[test]
fn ballast_that_the_rocket_cannot_carry_is_no_remedy() {
    let text = sound_with(&[
        ("span: 40 mm", "span: 9 mm"),
        (
            "base: caliber; material: basswood }",
            "base: caliber; material: basswood\n    ballast { mass: 1 g; at: 20 mm from back }\n  }",
        ),
        ("flight one", "flight «one»"),
    ]);
    let analysis = expect(&text, &[("stability/unstable", "calibres ahead of balance")]);
    let finding = told(&analysis)[0];
    assert!(finding.help.contains("more than a quarter of the rocket"), "{}", finding.help);
    assert!(finding.fixes.is_empty(), "{:?}", finding.fixes);
}

#[test]
fn ballast_that_makes_a_flight_too_slow_is_no_remedy() {
    let text = sound_with(&[
        ("span: 40 mm", "span: 21 mm"),
        (
            "base: caliber; material: basswood }",
            "base: caliber; material: basswood\n    ballast { mass: 1 g; at: 20 mm from back }\n  }",
        ),
        ("rod { diameter: 3.2 mm; length: 1 m", "rod { diameter: 3.2 mm; length: 550 mm"),
    ]);
    let analysis = analysis(&text);
    let finding = told(&analysis).into_iter().find(|f| f.rule == "stability/low-margin").unwrap();
    assert!(finding.help.contains("and two would leave too slowly with it"), "{}", finding.help);
    assert!(finding.fixes.is_empty(), "{:?}", finding.fixes);
}

#[test]
fn a_motor_wider_than_its_mount() {
    let text = sound_with(&[
        ("diameter: 18 mm; length: 70 mm; mass", "diameter: 24 mm; length: 70 mm; mass"),
        ("flight one { motor: a5", "flight one { motor: «a5»"),
    ]);
    expect(&text, &[("mount/motor-too-wide", "a5 is 24 mm wide and mount engine's bore is 18 mm")]);
}

#[test]
fn a_motor_longer_than_its_mount() {
    let text = sound_with(&[
        ("length: 70 mm; sticks_out", "length: 50 mm; sticks_out"),
        ("flight one { motor: a5", "flight one { motor: «a5»"),
    ]);
    expect(&text, &[("mount/motor-too-long", "65 mm of it inside, and mount engine is 50 mm long")]);
    fix_mends(&text, "mount/motor-too-long");
}

#[test]
fn a_motor_loose_in_its_mount() {
    let text = sound_with(&[
        ("diameter: 18 mm; length: 70 mm; mass", "diameter: 13 mm; length: 70 mm; mass"),
        ("flight one { motor: a5", "flight one { motor: «a5»"),
    ]);
    expect(&text, &[("mount/motor-loose", "5 mm narrower")]);
}

#[test]
fn a_lug_on_a_rail_and_a_button_on_a_rod() {
    let text = sound_with(&[
        ("pad: stand; guided_by: [only]", "pad: track; guided_by: [«only»]"),
        ("guided_by: [aft, fore]", "guided_by: [«peg», fore]"),
    ]);
    expect(
        &text,
        &[
            ("guide/wrong-hardware", "lug only, a lug, and track is a rail"),
            ("guide/wrong-hardware", "button peg, a button, and stand is a rod"),
        ],
    );
}

#[test]
fn a_lug_too_tight_for_the_rod() {
    let text = sound_but("lug only { bore: 3.6 mm", "lug only { bore: «3.2 mm»");
    expect(&text, &[("guide/tight-fit", "lug only's bore is 3.2 mm and stand's rod 3.2 mm")]);
    fix_mends(&text, "guide/tight-fit");
}

#[test]
fn a_button_made_for_another_rail() {
    let text = sound_with(&[
        ("profile: 20 mm", "profile: «1 in»"),
        ("pad: stand; guided_by: [only]", "pad: track; guided_by: [peg]"),
    ]);
    let (plain, _) = unmark(&text);
    let found = analysis(&plain);
    let finding = found.findings.iter().find(|f| f.rule == "guide/tight-fit").unwrap();
    assert!(finding.message.contains("made for a 25.4 mm section and track's rail is 20 mm"), "{}", finding.message);
}

#[test]
fn a_code_that_its_curve_contradicts() {
    expect(
        &sound_but("\"A5-3\"", "«\"C5-3\"»"),
        &[("motor/code-mismatch", "a5 is called a C, and its curve holds 2.2 N s, which is an A")],
    );
    expect(
        &sound_but("\"A5-3\"", "«\"A8-3\"»"),
        &[("motor/code-mismatch", "a5's code says 8 N on average, and its curve gives 5.5 N")],
    );
    expect(
        &sound_but("delay: 3 s", "delay: «5 s»"),
        &[("motor/code-mismatch", "a5's delay is 5 s and its code says 3 s")],
    );
}

#[test]
fn a_curve_ends_at_zero() {
    expect(
        &sound_but("0.3 s: 4 N, 0.4 s: 0 N", "0.3 s: 4 N, «0.4 s: 1 N»"),
        &[("motor/open-curve", "a5's curve ends at 0.4 s with 1 N still pushing")],
    );
}

#[test]
fn measures_that_contradict_each_other() {
    expect(
        &sound_but("inner: 24 mm", "inner: «25 mm»"),
        &[("shape/no-wall", "tube body is 25 mm inside and 24.8 mm outside")],
    );
    expect(
        &sound_but("bore: 18 mm", "bore: «19 mm»"),
        &[("shape/no-wall", "mount engine is 19 mm inside and 18.8 mm outside")],
    );
    expect(
        &sound_but("length: 70 mm; base", "length: «12 mm»; base"),
        &[("shape/ogive-too-short", "an ogive of 12 mm on a base of 24.8 mm doesn't exist")],
    );
    expect(
        &sound_but("propellant: 3.3 g", "propellant: «16.5 g»"),
        &[("motor/propellant-exceeds-mass", "a5 weighs 16 g and its propellant 16.5 g")],
    );
}

#[test]
fn the_bench_and_the_design_disagree() {
    let text =
        format!("{}measured {{ with: a5; mass: «60 g ± 1 g»; balance: «230 mm ± 1 mm from tip» }}\n", support::SOUND);
    let found = analysis(&support::unmark(&text).0);
    let of = |rule: &str| found.findings.iter().find(|f| f.rule == rule).unwrap().message.clone();
    assert!(of("measured/mass-differs").contains("the scale says 60 g"));
    assert!(of("measured/balance-differs").contains("further back"));
    // The rocket on the scale is the one that flies.
    let margin = found.findings.iter().find(|f| f.rule == "stability/low-margin").unwrap();
    assert!(margin.labels[0].text.starts_with("balances 230 mm from the tip with a5 in"), "{margin:?}");
    let loaded = analysis(support::SOUND).assessment.flights[0].loaded().unwrap();
    let agreed = format!(
        "{}measured {{ with: a5; mass: {:.2} g; balance: {:.2} mm from tip }}\n",
        support::SOUND,
        loaded.mass * 1e3,
        loaded.x * 1e3
    );
    expect(&agreed, &[]);
}

#[test]
fn what_is_unknown_is_said_and_not_guessed() {
    let analysis = analysis(&sound_but("mass: 16 g; ", ""));
    assert!(analysis
        .assessment
        .flights
        .iter()
        .all(|f| f.loaded().is_none() && f.run.is_none() && f.margin().is_none()));
    let said: Vec<_> = analysis.findings.iter().map(|f| (f.rule, f.message.as_str(), f.help.as_str())).collect();
    let [cause, not_checked] = said.as_slice() else { unreachable!("{said:?}") };
    assert_eq!((cause.0, cause.1), ("file/missing-field", "motor a5 needs `mass`"));
    assert_eq!(not_checked.0, "file/not-checked");
    assert!(not_checked.1.starts_with("one and another aren't checked: their mass"), "{said:?}");
    assert!(not_checked.2.starts_with("mend this first: motor a5 needs `mass`"), "{said:?}");
}

#[test]
fn what_the_bench_has_more_is_told_with_its_place() {
    let with = |measured: &str| format!("{}measured {{ with: a5; {measured} }}\n", support::SOUND);
    let plain = analysis(support::SOUND);
    let loaded = plain.assessment.flights[0].loaded().unwrap();
    let bench = |more: f64, station: f64| {
        let mass = loaded.mass + more;
        let balance = (loaded.mass * loaded.x + more * station) / mass;
        with(&format!("mass: {:.4} g ± 0.2 g; balance: {:.4} mm ± 1 mm from tip", mass * 1e3, balance * 1e3))
    };
    let help = |text: &str, rule: &str| {
        let found = analysis(text);
        found.findings.iter().find(|f| f.rule == rule).unwrap_or_else(|| unreachable!("{rule}")).help.clone()
    };
    // 6 g at 35 mm are in the nose; at 270 mm they are among fins and mount.
    let nose = help(&bench(6e-3, 0.035), "measured/mass-differs");
    // The lugs at the balance point follow the one on the bench, and move the computed one a little.
    assert!(nose.starts_with("6 g more, about 36 ± ") && nose.contains("in nose"), "{nose}");
    let tail = help(&bench(6e-3, 0.270), "measured/mass-differs");
    assert!(tail.contains("in tube body, at fins main"), "{tail}");
    let also = help(&bench(6e-3, 0.270), "measured/balance-differs");
    assert!(also.starts_with("the 6 g more on the scale would explain this too"), "{also}");
    let outside = help(&bench(6e-3, 0.9), "measured/impossible");
    assert!(outside.contains("balance the rocket again"), "{outside}");
    // Where the scale agrees, or nobody weighed, the part that moves the balance point most is named.
    let balance = format!("balance: {:.2} mm ± 1 mm from tip", loaded.x * 1e3 - 10.0);
    for text in [with(&balance), with(&format!("mass: {:.3} g ± 0.5 g; {balance}", loaded.mass * 1e3))] {
        let help = help(&text, "measured/balance-differs");
        assert!(
            help.starts_with("weigh nose first, ") && help.contains("heavier it alone would explain this"),
            "{help}"
        );
    }
    let scale = with(&format!("mass: {:.3} g ± 0.5 g", loaded.mass * 1e3 + 6.0));
    assert!(help(&scale, "measured/mass-differs").contains("With the balance point measured too"));
}

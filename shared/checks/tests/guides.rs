//! Guides and pads: the boundaries of their rules, worked by hand, and causes that several flights share.
#![allow(clippy::unwrap_used)]

use crate::support::{analysis_by_default as analysis, analysis_set};
use finwright_checks::example::BASE;
use finwright_checks::{Finding, Level, Verdict};

fn changed(changes: &[(&str, &str)]) -> String {
    changes.iter().fold(BASE.to_string(), |text, (old, new)| {
        assert_eq!(text.matches(old).count(), 1, "`{old}`");
        text.replace(old, new)
    })
}

fn of(text: &str, rule: &str) -> Vec<Finding> {
    analysis(text).findings.into_iter().filter(|f| f.rule == rule).collect()
}

/// The drawer rule: off the axis by 12.4 + 1.8 + 0.3 = 14.5 mm with friction 0.3, guides lock at 8.7 mm and run easily
/// from 17.4.
#[test]
fn guides_lock_and_run_easily_where_the_drawer_rule_says() {
    let told = |length: &str| {
        let text = changed(&[(
            "lug only { bore: 3.6 mm; length: 40 mm",
            &format!("lug only {{ bore: 3.6 mm; length: {length}"),
        )]);
        [of(&text, "guide/binds").len(), of(&text, "guide/close-spacing").len()]
    };
    assert_eq!(["8.69 mm", "8.71 mm", "17.39 mm", "17.41 mm"].map(told), [[1, 0], [0, 1], [0, 1], [0, 0]]);
}

#[test]
fn guides_that_stand_off_differently_are_brought_into_one_line() {
    let text = changed(&[("at: 12 mm from back; clock: 60 deg", "at: 12 mm from back; standoff: 3 mm; clock: 60 deg")]);
    let found = of(&text, "guide/not-in-line");
    assert_eq!(found.len(), 1);
    assert!(found[0].help.contains("give lug fore a `standoff` of 3 mm"), "{}", found[0].help);
    // Half a millimetre is the play of a lug.
    assert!(of(&text.replace("standoff: 3 mm", "standoff: 0.4 mm"), "guide/not-in-line").is_empty());
}

#[test]
fn angles_a_full_turn_apart_are_in_one_line() {
    let text = changed(&[("at: 12 mm from back; clock: 60 deg", "at: 12 mm from back; clock: 420 deg")]);
    assert!(of(&text, "guide/not-in-line").is_empty());
}

#[test]
fn what_two_flights_share_is_told_once() {
    let text = format!("{BASE}flight again {{ motor: b8; pad: track; guided_by: [peg, nut]; site: meadow }}\n")
        .replace("clock: 180 deg", "clock: 125 deg");
    assert_eq!(of(&text, "guide/fin-in-the-way").len(), 1);
}

#[test]
fn a_guide_without_its_angle_isnt_checked_and_says_so() {
    let text = changed(&[("at: balance; clock: 60 deg", "at: balance")]);
    let cause = of(&text, "file/missing-field");
    assert_eq!(cause[0].message, "lug only needs `clock`");
    assert_eq!(cause[0].help, "say it there; without it whether a fin stands in the way isn't known");
    let found = of(&text, "file/not-checked");
    assert_eq!(found[0].message, "one isn't checked: its room beside the guide isn't known");
    assert_eq!(found[0].labels[0].place, cause[0].place, "it leads to its cause");
}

#[test]
fn beyond_what_it_bears_an_overload_is_an_error() {
    let with = |bears: &str| {
        let text = changed(&[("lug only { bore: 3.6 mm;", &format!("lug only {{ bore: 3.6 mm; bears: {bears};"))]);
        of(&text, "guide/overloaded").first().map(|f| f.level)
    };
    // It carries 0.63 N at most.
    assert_eq!([with("1.3 N"), with("1.2 N"), with("0.6 N")], [None, Some(Level::Warning), Some(Level::Error)]);
}

#[test]
fn a_rails_advantage_is_mentioned_only_where_nobody_uses_one() {
    assert!(of(BASE, "guide/rail-at-hand").is_empty());
    let without = changed(&[("flight slotted {", "# flight slotted {")]);
    assert_eq!(of(&without, "guide/rail-at-hand").len(), 1);
    let no_buttons = without.replace("button nut {", "# button nut {");
    assert!(of(&no_buttons, "guide/rail-at-hand").is_empty(), "one button alone holds nothing");
}

#[test]
fn ends_of_rods_are_looked_at_between_a_childs_eyes_and_a_tall_persons() {
    let told = |foot: &str| {
        of(&changed(&[("tilt: 2 deg; end: capped", &format!("tilt: 2 deg{foot}"))]), "pad/end-at-eye-level").len()
    };
    // A rod of 1 m at 2 degrees stands 0.9994 m high over its foot.
    assert_eq!(["; foot: 0 mm", "; foot: 890 mm", "; foot: 910 mm"].map(told), [1, 1, 0]);
    // Where nobody says how high the foot is, nobody can tell; a rod of 2 m is above all eyes from any foot.
    let found = of(&changed(&[("; end: capped", "")]), "pad/end-at-eye-level");
    assert!(found.len() == 1 && found[0].level == Level::Warning, "{found:?}");
    assert!(found[0].message.ends_with("may stand at eye level: its foot's height isn't said"), "{found:?}");
    let long = changed(&[("; end: capped", ""), ("length: 1 m; material: steel", "length: 2 m; material: steel")]);
    assert!(of(&long, "pad/end-at-eye-level").is_empty());
}

#[test]
fn the_angle_at_release_is_steep_from_a_quarter_of_the_exit_speed_on() {
    let text = |wind: f64| changed(&[("wind: 2 m/s; gust: 3 m/s", &format!("wind: {wind} m/s"))]);
    let steep = |wind: f64| of(&text(wind), "wind/steep-angle").iter().any(|f| f.message.contains("slotted"));
    let last = analysis(&text(6.1)).assessment.flights[2].run.as_ref().unwrap().last().unwrap();
    // At 2° into the wind: w cos θ = (v + w sin θ)/4, and the wind 2 m up that is w at the rail's end.
    let (sin, cos) = 2f64.to_radians().sin_cos();
    let quarter = last.speed / (4.0 * cos - sin) / (last.travel * cos / 2.0).powf(1.0 / 7.0);
    assert!(!steep(quarter - 0.02) && steep(quarter + 0.02), "{quarter}");
}

#[test]
fn the_wind_that_is_advised_is_calm_enough() {
    let text = changed(&[("wind: 2 m/s; gust: 3 m/s", "wind: 6.5 m/s; gust: 7 m/s")]);
    let found = of(&text, "wind/steep-angle");
    let help = &found.iter().find(|f| f.message.contains("slotted")).unwrap().help;
    let calm = help.strip_prefix("wait for ").unwrap().split(" m/s").next().unwrap();
    let calmer = text.replace("wind: 6.5 m/s", &format!("wind: {calm} m/s"));
    assert!(!of(&calmer, "wind/steep-angle").iter().any(|f| f.message.contains("slotted")), "{calm}");
}

/// What a chosen code limits: each limit at its own place, and what the site doesn't say is asked for.
#[test]
fn a_code_is_held_against_motor_pad_and_site() {
    let found = |text: &str, code: &str| -> Vec<(&'static str, String)> {
        let analysis = analysis_set(text, &format!("code = \"{code}\""));
        analysis.findings.into_iter().map(|f| (f.rule, f.place.span.of(text).to_string())).collect()
    };
    let asked = found(BASE, "us-model");
    assert_eq!(asked.iter().map(|f| f.0).collect::<Vec<_>>(), ["field/limit-not-checked"; 2]);
    let site = "site meadow { across: 300 m; people: 12 m; elevation: 20 m;";
    let said = changed(&[("site meadow { elevation: 20 m;", site)]);
    assert!(found(&said, "us-model").is_empty(), "{:?}", found(&said, "us-model"));
    let close = said.replace("people: 12 m", "people: 4 m");
    assert_eq!(found(&close, "us-model"), [("field/people-too-close", "4 m".to_string())]);
    let california = "california-experimental";
    let tilted = said.replace("tilt: 2 deg }\nsite", "tilt: 19 deg }\nsite");
    assert!(found(&tilted, california).is_empty());
    let tilted = said.replace("tilt: 2 deg }\nsite", "tilt: 21 deg }\nsite");
    let beyond = found(&tilted, california);
    assert!(beyond.contains(&("field/over-limit", "21 deg".to_string())), "{beyond:?}");
}

/// What a chosen code limits and nobody says isn't passed: the flight isn't checked.
#[test]
fn a_limit_that_nothing_is_known_of_is_not_passed() {
    let room = "site meadow { across: 300 m; people: 12 m; elevation: 20 m;";
    let said = changed(&[("site meadow { elevation: 20 m;", room)]);
    let verdict = |text: &str, code: &str| {
        let analysis = analysis_set(text, &format!("code = \"{code}\""));
        let rules: Vec<_> = analysis.findings.iter().map(|f| (f.rule, f.message.clone())).collect();
        (analysis.verdict, rules)
    };
    assert_eq!(verdict(&said, "us-model"), (Verdict::MeetsTheChecks, Vec::new()));
    for (known, unknown) in [
        ("people: 12 m; ", ""),
        ("across: 300 m; ", ""),
        ("wind: 2 m/s; gust: 3 m/s", "gust: 3 m/s"),
        ("thickness: 1.6 mm; material: balsa", "thickness: 1.6 mm; mass: 2.5 g"),
    ] {
        let (found, rules) = verdict(&said.replacen(known, unknown, 1), "us-model");
        assert_eq!(found, Verdict::NotChecked, "without `{known}`: {rules:?}");
        assert!(rules.iter().any(|(rule, _)| *rule == "field/limit-not-checked"), "{rules:?}");
    }
    // What the rocket itself lacks is told as that.
    let (found, rules) = verdict(&said.replace("propellant: 5.6 g; ", ""), "us-model");
    assert_eq!((found, rules.iter().filter(|(rule, _)| rule.starts_with("field/")).count()), (Verdict::NotChecked, 0));
}

/// Above 160 N s a motor is high power, and its distance that of high power; metal has no place in a model rocket.
#[test]
fn a_model_rocket_has_a_models_motor_and_no_metal() {
    let room = "site meadow { across: 300 m; people: 12 m; elevation: 20 m;";
    let said = changed(&[("site meadow { elevation: 20 m;", room)]);
    let errors = |text: &str, code: &str| -> Vec<String> {
        let found = analysis_set(text, &format!("code = \"{code}\"")).findings;
        found
            .into_iter()
            .filter(|f| f.rule.starts_with("field/") && f.level == Level::Error)
            .map(|f| f.message)
            .collect()
    };
    let curve = "0.05 s: 9 N, 0.1 s: 14 N, 0.2 s: 13 N, 0.3 s: 6 N, 0.55 s: 5 N, 0.6 s: 0 N";
    let strong = said.replace(curve, "0.05 s: 79 N, 2.7 s: 79 N, 2.8 s: 0 N");
    let found = errors(&strong, "us-model");
    assert!(
        found.iter().any(|m| m.starts_with("the total impulse of a motor is 215 N s, more than the 160 N s")),
        "{found:?}"
    );
    let far = "the distance of people is 12 m, less than the 30.5 m";
    assert!(found.iter().any(|m| m.starts_with(far)), "{found:?}");
    let nose = said.replace("base: caliber; material: basswood", "base: caliber; wall: 0.5 mm; material: aluminium");
    let metal = "nose is as dense as metal (2700 kg/m3)";
    for (code, tells) in [("us-model", true), ("us-class-1", true), ("california-experimental", false)] {
        let found = errors(&nose, code);
        assert_eq!(found.iter().any(|m| m.starts_with(metal)), tells, "{code}: {found:?}");
    }
}

/// The floor of the exit speed is a rule of thumb: nine tenths of it are worth a look, less is an error.
#[test]
fn a_slow_exit_is_an_error_below_nine_tenths_of_the_floor() {
    let at = |floor: f64| {
        let found = analysis_set(BASE, &format!("[thresholds]\nexit_speed = \"{floor} m/s\"\nlikelihood = 0")).findings;
        found.iter().find(|f| f.rule == "guide/slow-exit" && f.message.starts_with("one ")).map(|f| f.level)
    };
    let speed = analysis(BASE).assessment.flights[0].run.as_ref().unwrap().last().unwrap().speed;
    assert_eq!(at(speed - 0.1), None);
    assert_eq!(at(speed + 0.1), Some(Level::Warning));
    assert_eq!(at(speed / 0.9 - 0.1), Some(Level::Warning));
    assert_eq!(at(speed / 0.9 + 0.1), Some(Level::Error));
}

/// One lug may let the rocket lean by 2°, a pair by 1°.
#[test]
fn a_lone_lug_may_have_twice_the_play_of_a_pair() {
    let lone = |length: &str| {
        let text = changed(&[(
            "lug only { bore: 3.6 mm; length: 40 mm",
            &format!("lug only {{ bore: 4 mm; length: {length}"),
        )]);
        of(&text, "guide/much-play").len()
    };
    // 0.8 mm of play over 23 mm are 1.99°, over 22 mm 2.08°.
    assert_eq!(["23 mm", "22 mm"].map(lone), [0, 1]);
    let close = changed(&[("at: 20 mm ahead of balance; clock: 60 deg", "at: 45 mm from back; clock: 60 deg")]);
    let close = close.replace("bore: 3.6 mm; length: 20 mm", "bore: 4.1 mm; length: 20 mm");
    // 0.9 mm over 53 mm are 0.97°, over 51 mm 1.01°.
    assert!(of(&close, "guide/much-play").is_empty(), "{:?}", of(&close, "guide/much-play"));
    let closer = close.replace("at: 45 mm from back; clock: 60", "at: 43 mm from back; clock: 60");
    assert_eq!(of(&closer, "guide/much-play").len(), 1);
}

/// A number outweighs a rule of thumb, and what a rail's rule leaves to light rockets is looked at here.
#[test]
fn a_thin_rod_is_told_where_it_may_lean() {
    let thin = |wind: &str, mass: &str| {
        let settings = format!(
            "[thresholds]\nthin_rod_body = \"20 mm\"\nthick_rod = \"5 mm\"\nrail_body = \"24 mm\"\nlight_mass = \
                \"{mass}\""
        );
        let found = analysis_set(&changed(&[("wind: 2 m/s; gust: 3 m/s", wind)]), &settings).findings;
        let told = |rule: &str| found.iter().filter(|f| f.rule == rule).count();
        (told("guide/rod-too-thin"), told("guide/wants-rail"))
    };
    assert_eq!(thin("wind: 4 m/s; gust: 5 m/s", "500 g"), (1, 0));
    assert_eq!(thin("wind: 1 m/s; gust: 2 m/s", "500 g"), (0, 0), "it leans by less than half a degree");
    assert_eq!(thin("wind: 0 m/s", "500 g"), (1, 0), "in still air nothing is known of its lean");
    assert_eq!(thin("wind: 4 m/s; gust: 5 m/s", "40 g"), (0, 1), "a heavy one wants a rail");
}

/// A lug is glued on once, whatever motors are flown.
#[test]
fn a_lone_lug_off_the_balance_point_is_told_once() {
    let text = changed(&[
        ("at: balance", "at: 40 mm from front"),
        (
            "pad stand {",
            "motor b9 { code: \"B8-4\"; diameter: 18 mm; length: 70 mm; mass: 25 g; propellant: 5.6 g; \
            delay: 4 s\n  curve: [0 s: 0 N, 0.05 s: 9 N, 0.1 s: 14 N, 0.2 s: 13 N, 0.3 s: 6 N, 0.55 s: 5 N, 0.6 s: 0 \
            N]\n}\npad stand {",
        ),
        ("flight two", "flight three { motor: b9; pad: stand; guided_by: [only]; site: meadow }\nflight two"),
    ]);
    let found = of(&text, "guide/lone-guide-off-balance");
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].labels[0].text.ends_with("with b9 in"), "the heavier motor's balance point is further off");
}

/// Twenty miles an hour are a warning, and an error where the chosen code says so; it's told once.
#[test]
fn wind_is_an_error_where_a_code_forbids_it() {
    let room = "across: 300 m; people: 12 m; elevation: 20 m; wind: 9.5 m/s; gust: 12 m/s";
    let text = changed(&[("elevation: 20 m; wind: 2 m/s; gust: 3 m/s", room)]);
    let told = |settings: &str| -> Vec<(&str, Level)> {
        let found = analysis_set(&text, settings).findings;
        let of_wind = found.iter().filter(|f| f.place.span.of(&text) == "9.5 m/s");
        of_wind.map(|f| (f.rule, f.level)).collect()
    };
    assert_eq!(told(""), [("wind/too-strong", Level::Warning)]);
    assert_eq!(told("code = \"us-class-1\""), [("wind/too-strong", Level::Warning)]);
    assert_eq!(told("code = \"us-model\""), [("field/over-limit", Level::Error)]);
}

/// Older small motors are labelled above their average; one that pushes more than its label is copied wrong.
#[test]
fn a_motor_labelled_above_its_average_is_noted() {
    let level = |code: &str| {
        let text = changed(&[("code: \"B8-4\"", &format!("code: \"{code}\""))]);
        of(&text, "motor/code-mismatch").first().map(|f| f.level)
    };
    // 7.67 N on average.
    assert_eq!(["B8-4", "B14-4", "B4-4"].map(level), [None, Some(Level::Note), Some(Level::Warning)]);
}

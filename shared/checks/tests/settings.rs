//! `finwright.toml`: found, understood, and what it does to findings.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support;
use finwright_checks::common::limits::EXIT_SPEED;
use finwright_checks::rules::thresholds;
use finwright_checks::settings::{read, schema, settings_for, FILE_NAME};
use finwright_checks::{Analysis, Level, Profile, Settings, RULES};
use proptest::prelude::*;
use std::collections::HashMap;
use std::path::Path;
use std::sync::Arc;
use support::{analysis_under, sound_but};

/// What is told of a text: line and message.
fn troubles(text: &str) -> Vec<(usize, String)> {
    read(FILE_NAME, text).problems.into_iter().map(|t| (t.line, t.message)).collect()
}

fn told(analysis: &Analysis) -> Vec<(&'static str, Level)> {
    analysis.findings.iter().map(|f| (f.rule, f.level)).collect()
}

fn short_rod() -> String {
    sound_but("length: 1 m; material: steel", "length: 0.58 m; material: steel")
}

/// Each kind of trouble, with the line it is on and the help that goes with it.
#[test]
fn what_is_not_understood_is_told_with_its_line() {
    for (text, line, message, help) in [
        ("profile = \n", 1, "it isn't TOML", "until it is mended"),
        ("\nprofile = \"club\"\nprofile = \"club\"\n", 3, "it isn't TOML", "until it is mended"),
        ("[levels]\n\n[levels\n", 3, "it isn't TOML", "until it is mended"),
        ("# a remark\nprofle = \"club\"\n", 2, "there is no setting `profle`", "did you mean `profile`?"),
        ("profile = \"clubb\"\n", 1, "there is no profile `clubb`", "known are beginner, club, high-power"),
        ("profile = 3\n", 1, "`profile` takes a name in quotes", "write `profile = \"…\"`"),
        ("code = \"us-modle\"\n", 1, "there is no code `us-modle`", "known are us-class-1"),
        ("code = true\n", 1, "`code` takes a name in quotes", "write `code = \"…\"`"),
        ("units = \"uss\"\n", 1, "there are no units `uss`", "known are si, us"),
        ("units = 1\n", 1, "`units` takes a name in quotes", "write `units = \"…\"`"),
        ("levels = \"off\"\n", 1, "`levels` is a table", "write `[levels]` on a line of its own"),
        ("thresholds = 3\n", 1, "`thresholds` is a table", "write `[thresholds]`"),
        (
            "[levels]\n\"guide/slow-exti\" = \"off\"\n",
            2,
            "there is no rule `guide/slow-exti`",
            "did you mean `guide/slow-exit`?",
        ),
        (
            "[levels]\n\"guide/slow-exit\" = \"loud\"\n",
            2,
            "that isn't a level",
            "\"error\", \"warning\", \"note\" or \"off\"",
        ),
        ("[levels]\n\"guide/slow-exit\" = false\n", 2, "that isn't a level", "\"off\""),
        ("[levels]\n\"syntax/unreadable-line\" = \"off\"\n", 2, "can't be set", "no setting changes that"),
        ("[levels]\n\"settings/not-understood\" = \"off\"\n", 2, "can't be set", "no setting changes that"),
        (
            "[thresholds]\nexit_sped = \"12 m/s\"\n",
            2,
            "there is no threshold `exit_sped`",
            "did you mean `exit_speed`?",
        ),
        ("[thresholds]\nexit_speed = 12\n", 2, "it takes a speed in quotes", "usually 13.4 m/s"),
        ("[thresholds]\nexit_speed = \"12\"\n", 2, "has no unit", "usually 13.4 m/s"),
        ("[thresholds]\nexit_speed = \"12 kg\"\n", 2, "`12 kg` isn't a speed", "usually"),
        ("[thresholds]\nexit_speed = \"12 m/z\"\n", 2, "there is no unit `m/z`", "usually"),
        ("[thresholds]\nexit_speed = \"fast\"\n", 2, "doesn't start with a number", "usually"),
        ("[thresholds]\nexit_speed = \"-12 m/s\"\n", 2, "it must be zero or more", "usually"),
        ("[thresholds]\nexit_speed = [12]\n", 2, "it takes a speed in quotes", "usually"),
        ("[thresholds]\nmargin = -1\n", 2, "it must be zero or more", "usually 1 cal"),
        ("[thresholds]\nmargin = nan\n", 2, "it must be zero or more", "usually 1 cal"),
        ("[thresholds]\nmargin = \"1 m\"\n", 2, "isn't", "usually 1 cal"),
    ] {
        let settings = read(FILE_NAME, text);
        let [trouble] = settings.problems.as_slice() else { panic!("{text}: {:?}", settings.problems) };
        assert_eq!((trouble.line, trouble.file.as_str()), (line, FILE_NAME), "{text}: {trouble:?}");
        assert!(trouble.message.contains(message), "{text}: {trouble:?}");
        assert!(trouble.help.contains(help), "{text}: {trouble:?}");
    }
}

#[test]
fn the_rest_of_a_partly_broken_file_counts_and_troubles_go_down_the_page() {
    let text = "zeal = 1\nprofile = \"beginner\"\n\n[levels]\n\"x/y\" = \"off\"\n\"guide/slow-exit\" = \
        \"note\"\n\n[thresholds]\nmargin = \"wide\"\nexit_speed = \"15 mph\"\nabc = 1\n";
    let settings = read(FILE_NAME, text);
    assert_eq!(troubles(text).iter().map(|(line, _)| *line).collect::<Vec<_>>(), [1, 5, 9, 11]);
    assert_eq!((settings.profile, settings.level("guide/slow-exit")), (Profile::Beginner, Some(Some(Level::Note))));
    // A mile an hour is 0.44704 m/s exactly (NIST SP 811).
    assert!((settings.limit(&EXIT_SPEED) - 15.0 * 0.44704).abs() < 1e-12);
}

#[test]
fn numbers_and_units_are_understood_as_in_a_design() {
    for (value, si) in
        [("\"30 mph\"", 13.4112), ("\"12.5 m/s\"", 12.5), ("\" 45 km/h \"", 12.5), ("\"50 ft/s\"", 15.24)]
    {
        let settings = read(FILE_NAME, &format!("[thresholds]\nexit_speed = {value}\n"));
        assert!(settings.problems.is_empty(), "{:?}", settings.problems);
        assert!((settings.limit(&EXIT_SPEED) - si).abs() < 1e-9, "{value}");
    }
    let margin = thresholds().into_iter().find(|t| t.name == "margin").unwrap();
    for value in ["1.5", "\"1.5\"", "1_5e-1"] {
        let settings = read(FILE_NAME, &format!("thresholds.margin = {value}\n"));
        assert!((settings.limit(margin) - 1.5).abs() < 1e-12, "{value}: {:?}", settings.problems);
    }
}

/// Every kind of line end, a byte-order mark, and emoji before the slip: the line is still the right one.
#[test]
fn lines_are_counted_as_an_editor_counts_them() {
    assert_eq!(troubles("\u{feff}profile = \"club\"\n"), []);
    for ends in ["\n", "\r\n"] {
        let text = ["# 🚀", "# ü", "profile = \"clubb\"", ""].join(ends);
        assert_eq!(troubles(&text).iter().map(|(line, _)| *line).collect::<Vec<_>>(), [3], "{ends:?}");
    }
}

#[test]
fn the_nearest_file_counts_alone() {
    let shelf: HashMap<&str, &str> = HashMap::from([
        ("/club/finwright.toml", "profile = \"beginner\"\n[levels]\n\"guide/slow-exit\" = \"off\"\n"),
        ("/club/night/finwright.toml", "[thresholds]\nexit_speed = \"9 m/s\"\n"),
        ("/club/broken/finwright.toml", "profile = 1\n"),
    ]);
    let look = |path: &Path| shelf.get(path.to_str().unwrap()).map(|text| Ok(Arc::from(*text)));
    let of = |design: &str| settings_for(Path::new(design), look);
    let club = of("/club/day/deep/design.finw");
    assert_eq!((club.profile, club.is_off("guide/slow-exit")), (Profile::Beginner, true));
    let night = of("/club/night/design.finw");
    assert_eq!((night.profile, night.is_off("guide/slow-exit"), night.limit(&EXIT_SPEED)), (Profile::Club, false, 9.0));
    let elsewhere = of("/home/design.finw");
    assert!(elsewhere.problems.is_empty() && elsewhere.limit(&EXIT_SPEED) == EXIT_SPEED.value(Profile::Club));
    // A broken one doesn't let the one above through, and is told as it is seen from the design.
    let broken = of("/club/broken/deep/design.finw");
    assert_eq!((broken.profile, broken.problems[0].file.as_str()), (Profile::Club, "../finwright.toml"));
}

#[test]
fn a_file_that_cannot_be_read_is_told() {
    let look = |path: &Path| path.starts_with("/club").then(|| Err("it isn't text in UTF-8".to_string()));
    let settings = settings_for(Path::new("/club/design.finw"), look);
    let [trouble] = settings.problems.as_slice() else { panic!("{:?}", settings.problems) };
    assert!(trouble.message.contains("it isn't text in UTF-8") && trouble.line == 1, "{trouble:?}");
}

#[test]
fn levels_are_changed_and_rules_switched_off() {
    let text = short_rod();
    let with = |line: &str| told(&analysis_under(read(FILE_NAME, line), &text));
    let front = ("guide/slow-front", Level::Note);
    let slow = |level| vec![("guide/slow-exit", level), front];
    // A little below the floor it's worth a look.
    assert_eq!(told(&analysis_under(Settings::default(), &text)), slow(Level::Warning));
    assert_eq!(with("levels.\"guide/slow-exit\" = \"error\""), slow(Level::Error));
    assert_eq!(with("levels.\"guide/slow-exit\" = \"note\""), slow(Level::Note));
    assert_eq!(with("levels.\"guide/slow-exit\" = \"off\""), [front]);
}

#[test]
fn thresholds_and_profiles_change_what_is_found() {
    let sound = support::SOUND;
    let with = |text: &str, design: &str| told(&analysis_under(read(FILE_NAME, text), design));
    assert_eq!(with("thresholds.exit_speed = \"10 m/s\"", &short_rod()), []);
    assert!(with("thresholds.exit_speed = \"100 m/s\"", sound).iter().all(|(rule, _)| *rule == "guide/slow-exit"));
    for threshold in thresholds() {
        for (at, profile) in [Profile::Beginner, Profile::Club, Profile::HighPower].into_iter().enumerate() {
            assert_eq!(Settings::of(profile).limit(threshold), threshold.values[at], "{}", threshold.name);
        }
    }
    let name = |name: &str| read(FILE_NAME, &format!("profile = \"{name}\"")).limit(&EXIT_SPEED);
    assert_eq!((name("club"), name("high-power")), (EXIT_SPEED.values[1], EXIT_SPEED.values[2]));
    assert!(name("high-power") > name("club"));
    // What is set goes before the profile, in whichever order they stand.
    let settings = read(FILE_NAME, "profile = \"high-power\"\nthresholds.exit_speed = \"14 m/s\"\n");
    assert_eq!(settings.limit(&EXIT_SPEED), 14.0);
}

#[test]
fn an_allowance_of_a_rule_that_is_off_is_not_unused() {
    let text = sound_but("flight one", "# allow guide/slow-exit: indoors\nflight one");
    assert_eq!(told(&analysis_under(Settings::default(), &text)), [("allow/unused", Level::Warning)]);
    assert_eq!(told(&analysis_under(read(FILE_NAME, "levels.\"guide/slow-exit\" = \"off\""), &text)), []);
}

#[test]
fn settings_that_are_not_understood_are_found_in_the_design_with_their_line() {
    let settings = read(FILE_NAME, "\n\nprofle = \"club\"\n");
    let analysis = analysis_under(settings, support::SOUND);
    let [finding] = analysis.findings.as_slice() else { panic!("{:?}", analysis.findings) };
    assert_eq!((finding.rule, finding.level), ("settings/not-understood", Level::Error));
    assert_eq!(finding.message, "finwright.toml, line 3: there is no setting `profle`");
    assert_eq!(finding.help, "did you mean `profile`?");
    assert!(finding.place.span.len() <= 1 && finding.place.span.start == 0);
    // An empty design has no line to stand on, and is told all the same; and no comment can allow it.
    assert!(told(&analysis_under(read(FILE_NAME, "a = 1"), ""))
        .iter()
        .any(|(rule, _)| *rule == "settings/not-understood"));
    let allowed = sound_but("flight one", "# allow settings/not-understood in this file: quiet\nflight one");
    let rules: Vec<_> =
        told(&analysis_under(read(FILE_NAME, "a = 1"), &allowed)).into_iter().map(|(rule, _)| rule).collect();
    assert_eq!(rules, ["settings/not-understood", "allow/broken"]);
}

#[test]
fn the_schema_holds_every_rule_and_every_threshold() {
    let schema = schema::schema();
    let at = |path: &str| schema.pointer(path).unwrap_or_else(|| panic!("{path} in {schema:#}"));
    let levels = at("/$defs/Levels/properties").as_object().unwrap();
    for rule in RULES.iter() {
        assert_eq!(levels.contains_key(rule.name), rule.may_be_set(), "{}", rule.name);
    }
    let known = at("/$defs/Thresholds/properties").as_object().unwrap();
    assert_eq!(known.len(), thresholds().len());
    for threshold in thresholds() {
        assert!(known[threshold.name]["description"].as_str().unwrap().starts_with(threshold.means));
    }
}

/// What the schema offers is what is understood: each rule at each level, each threshold at its own usual value.
#[test]
fn whatever_the_schema_offers_is_understood() {
    for rule in RULES.iter().filter(|rule| rule.may_be_set()) {
        for level in ["error", "warning", "note", "off"] {
            assert_eq!(troubles(&format!("levels.\"{}\" = \"{level}\"", rule.name)), []);
        }
    }
    for threshold in thresholds() {
        for profile in [Profile::Beginner, Profile::Club, Profile::HighPower] {
            let words = threshold.in_words(threshold.value(profile));
            let words = words.strip_suffix(" cal").unwrap_or(&words);
            let text = format!("thresholds.{} = \"{}\"", threshold.name, words);
            assert_eq!(troubles(&text), [], "{text}");
        }
    }
}

proptest! {
    /// Whatever stands there, reading it comes to an end, and every trouble has a line of the text.
    #[test]
    fn nothing_that_stands_there_stops_the_reader(text in "([a-z_]{1,9}|\\[levels\\]|\\[thresholds\\]|profile|exit_speed|margin| = |\"|[0-9.e+-]{1,4}| m/s|🚀|\r?\n|\\[|\\]|\\{|\\}){0,24}") {
        let lines = text.lines().count().max(1) + 1;
        for (line, message) in troubles(&text) {
            prop_assert!((1..=lines).contains(&line) && !message.is_empty(), "{line} of {lines}: {message}");
        }
    }
}

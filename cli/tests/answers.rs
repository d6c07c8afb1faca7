//! The command's answers: tables, JSON under stable names, explanations, exit statuses.
#![allow(clippy::unwrap_used, clippy::panic)]

use serde_json::Value;
use std::path::Path;
use std::process::Command;

fn finwright(arguments: &[&str]) -> (String, i32) {
    let output = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .args(arguments)
        .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/designs"))
        .env("NO_COLOR", "1")
        .output()
        .unwrap();
    (String::from_utf8(output.stdout).unwrap(), output.status.code().unwrap())
}

#[test]
fn json_holds_the_stable_names_for_each_flight() {
    let (text, status) = finwright(&["show", "--format", "json", "good/reed_heron.finw"]);
    assert_eq!(status, 0);
    let flights: Value = serde_json::from_str(&text).unwrap();
    let flights = flights.as_array().unwrap();
    assert_eq!(flights.iter().map(|f| f["flight"].as_str().unwrap()).collect::<Vec<_>>(), ["rod_day", "rail_day"]);
    for flight in flights {
        for name in [
            "mass_kg",
            "mass_burnt_kg",
            "balance_m",
            "balance_burnt_m",
            "inertia_kg_m2",
            "pressure_centre_m",
            "cna",
            "margin_cal",
            "guided_travel_m",
            "front_release_m_s",
            "exit_speed_m_s",
            "exit_time_s",
            "thrust_to_weight",
        ] {
            assert!(flight[name].as_f64().is_some_and(|x| x > 0.0 && x.is_finite()), "{name}: {}", flight[name]);
        }
    }
    let of = |name: &str| flights[0][name].as_f64().unwrap();
    assert!((of("mass_kg") - of("mass_burnt_kg") - 0.021).abs() < 1e-12, "the propellant is what burns");
    assert!(of("front_release_m_s") < of("exit_speed_m_s"));
    // 1.2 m less the 60 mm stop and the 6 mm of motor below the tube; the rear lug ends flush with the tube.
    assert!((of("guided_travel_m") - 1.134).abs() < 1e-9, "{}", of("guided_travel_m"));
    let margin = (of("pressure_centre_m") - of("balance_m")) / 0.0416;
    assert!((of("margin_cal") - margin).abs() < 1e-9);
}

#[test]
fn a_part_placed_from_the_balance_point_settles_there() {
    let (text, _) = finwright(&["show", "--format", "json", "good/reed_heron.finw"]);
    let flights: Value = serde_json::from_str(&text).unwrap();
    let travel = flights[0]["guided_travel_m"].as_f64().unwrap() - flights[0]["front_travel_m"].as_f64().unwrap();
    let balance = flights[0]["balance_m"].as_f64().unwrap();
    // The front lug's middle lies 15 mm ahead of the balance point, the rear one's 15 mm ahead of the tube's end.
    let tube_end = 3.2 * 0.0416 + 0.43;
    assert!((travel - ((tube_end - 0.015) - (balance - 0.015))).abs() < 1e-9);
}

#[test]
fn unknown_numbers_are_null_and_said() {
    let (text, status) = finwright(&["show", "--format", "json", "bad/no_curve.finw"]);
    assert_eq!(status, 0);
    let flights: Value = serde_json::from_str(&text).unwrap();
    assert!(flights[0]["exit_speed_m_s"].is_null() && flights[0]["mass_kg"].is_number());
    assert_eq!(flights[0]["verdict"], "not-checked");
    assert!(flights[0]["not_checked"].as_array().unwrap().contains(&Value::from("exit speed")));
}

#[test]
fn findings_as_json_carry_place_help_and_fixes() {
    let (text, status) = finwright(&["check", "--format", "json", "bad/emoji_column.finw", "bad/slow_exit.finw"]);
    assert_eq!(status, 1);
    let report: Value = serde_json::from_str(&text).unwrap();
    let emoji = &report["findings"][0];
    // The rocket before it is one character of four bytes.
    assert_eq!((emoji["at"]["line"].as_u64(), emoji["at"]["column"].as_u64()), (Some(5), Some(26)));
    let slow = &report["findings"][1];
    assert_eq!(slow["rule"], "guide/slow-exit");
    assert!(slow["fixes"][0]["title"].as_str().unwrap().starts_with("lengthen the rod to "));
    assert!(slow["why"].as_str().unwrap().contains("gust"));
}

#[test]
fn one_line_a_finding() {
    let (text, status) = finwright(&["check", "--format", "line", "bad/unknown_name.finw"]);
    assert_eq!(status, 1);
    assert!(
        text.starts_with("bad/unknown_name.finw:24:12: error name/unknown-name: nothing here is named `calber`\n"),
        "{text}"
    );
}

#[test]
fn the_table_of_a_flight() {
    let (text, status) = finwright(&["show", "good/pond_wren.finw"]);
    assert_eq!(status, 0);
    for words in [
        "Pond Wren",
        "lesson: a5 (A5-3) from school_rod",
        "balance point",
        "static margin",
        "exit speed",
        "by default: ",
        "range safety officer",
    ] {
        assert!(text.contains(words), "{words} in {text}");
    }
}

#[test]
fn the_schema_fits_what_is_shown() {
    let (text, status) = finwright(&["schema"]);
    assert_eq!(status, 0);
    let schema: Value = serde_json::from_str(&text).unwrap();
    let properties = schema["items"]["properties"].as_object().unwrap();
    for design in ["good/reed_heron.finw", "good/two_stage.finw", "bad/no_curve.finw"] {
        let (text, _) = finwright(&["show", "--format", "json", design]);
        for flight in serde_json::from_str::<Value>(&text).unwrap().as_array().unwrap() {
            let flight = flight.as_object().unwrap();
            let names: Vec<&String> = flight.keys().collect();
            assert!(names.iter().all(|name| properties.contains_key(*name)), "{names:?}");
            assert!(properties.keys().all(|name| flight.contains_key(name)), "{names:?}");
            for (name, value) in flight {
                // What is one of several types, or defined once for all, is held against the schema by a validator.
                let Some(types) = properties[name].get("type").map(Value::to_string) else { continue };
                let kind = match value {
                    Value::Null => "null",
                    Value::Number(_) => "number",
                    Value::String(_) => "string",
                    Value::Bool(_) => "boolean",
                    Value::Array(_) => "array",
                    _ => "object",
                };
                assert!(types.contains(kind), "{name}: {value} isn't {types}");
            }
        }
    }
}

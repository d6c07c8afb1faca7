//! `finwright guides`: the pads compared, in every format.
#![allow(clippy::unwrap_used)]

use std::path::Path;
use std::process::Command;

fn finwright(arguments: &[&str]) -> (String, String, i32) {
    let output = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .args(arguments)
        .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().join("tests/designs/good"))
        .env("NO_COLOR", "1")
        .output()
        .unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    (text(output.stdout), text(output.stderr), output.status.code().unwrap())
}

#[test]
fn a_rod_and_a_rail() {
    insta::assert_snapshot!(finwright(&["guides", "reed_heron.finw"]).0);
}

#[test]
fn a_rocket_for_the_clubs_rail() {
    insta::assert_snapshot!(finwright(&["guides", "marsh_harrier.finw", "--wind", "12mph"]).0);
}

#[test]
fn all_the_usual_rods_and_rails_on_a_page() {
    insta::assert_snapshot!(finwright(&["guides", "pond_wren.finw", "--all", "--format", "markdown"]).0);
}

#[test]
fn the_same_numbers_in_every_format() {
    let (json, _, status) = finwright(&["guides", "reed_heron.finw", "--format", "json"]);
    assert_eq!(status, 0);
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    let (csv, _, _) = finwright(&["guides", "reed_heron.finw", "--format", "csv"]);
    let rows: Vec<Vec<&str>> = csv.lines().map(cells).collect();
    let column = |name: &str| rows[0].iter().position(|head| *head == name).unwrap();
    for (candidate, row) in json["comparisons"][0]["candidates"].as_array().unwrap().iter().zip(&rows[1..]) {
        for name in ["exit_speed_m_s", "front_release_m_s", "lean_gust_rad", "frequency_hz", "load_share"] {
            assert_eq!(row[column(name)].parse::<f64>().unwrap(), candidate[name].as_f64().unwrap(), "{name}");
        }
        assert_eq!(row[column("wind_to_m_s")].parse::<f64>().unwrap(), candidate["ceiling"]["wind"].as_f64().unwrap());
        assert_eq!(row[column("pad")], candidate["pad"]);
    }
    // `show` computes the same flights by the same road.
    let (show, _, _) = finwright(&["show", "reed_heron.finw", "--format", "json"]);
    let show: serde_json::Value = serde_json::from_str(&show).unwrap();
    let rail = show.as_array().unwrap().iter().find(|flight| flight["flight"] == "rail_day").unwrap();
    let best = &json["comparisons"][0]["candidates"][0];
    assert_eq!(
        (best["pad"].as_str(), best["exit_speed_m_s"].as_f64()),
        (Some("mini_rail"), rail["exit_speed_m_s"].as_f64())
    );
    assert_eq!(best["lean_gust_rad"].as_f64(), rail["slope_rest_gust_rad"].as_f64());
}

/// The cells of a row of RFC 4180, without line breaks or doubled quotes in them.
fn cells(line: &str) -> Vec<&str> {
    let (mut found, mut start, mut quoted) = (Vec::new(), 0, false);
    for (at, c) in line.char_indices() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => {
                found.push(line[start..at].trim_matches('"'));
                start = at + 1;
            }
            _ => {}
        }
    }
    found.push(line[start..].trim_matches('"'));
    found
}

#[test]
fn another_motor_and_another_wind() {
    let (text, _, status) = finwright(&["guides", "two_motors.finw", "--motor", "nothing"]);
    assert_eq!((text.as_str(), status), ("", 2));
    let (_, said, _) = finwright(&["guides", "two_motors.finw", "--motor", "nothing"]);
    assert!(said.contains("there is no motor nothing; known are "), "{said}");
    let (_, said, status) = finwright(&["guides", "reed_heron.finw", "--wind", "6 kg"]);
    assert!(status == 2 && said.contains("`6 kg` isn't a speed; write it as 6m/s or 12mph"), "{said}");
    let (text, _, _) = finwright(&["guides", "reed_heron.finw", "--wind", "8m/s"]);
    assert!(
        text.starts_with("Reed Heron\n\nLook at it before you fly d9 from mini_rail: ")
            && text.contains("d9 in 8 m/s of wind, gusts of 12 m/s"),
        "{text}"
    );
}

#[test]
fn a_design_that_isnt_known_whole_says_so() {
    let (text, _, status) = finwright(&["guides", "../bad/no_material.finw"]);
    assert_eq!(status, 1);
    assert!(text.starts_with("Pond Wren\n\nNot checked, so no pad is compared: file/not-checked: "), "{text}");
    let (text, _, status) = finwright(&["guides", "../bad/no_curve.finw"]);
    assert_eq!(status, 1);
    let answer = "Pond Wren\n\nNot checked from any pad: its exit speed isn't known (mend this first: motor a5";
    assert!(text.starts_with(answer), "{text}");
    let (_, _, status) = finwright(&["guides", "../projects/class/kit.finw"]);
    assert_eq!(status, 1);
}

#[test]
fn how_long_it_must_be_in_the_winds_that_are_asked_for() {
    let (text, _, _) = finwright(&["guides", "reed_heron.finw", "--wind", "0..15mph", "--units", "us"]);
    assert!(text.contains("how long it must be, by the steady wind, to meet everything:"), "{text}");
    let table = text.split("to meet everything:").nth(1).unwrap();
    let mut heads = table.lines().filter(|line| !line.trim().is_empty());
    // The strongest wind finds no room beside sizes in both units, and that is told.
    assert_eq!(heads.next().unwrap().split_whitespace().skip(3).collect::<Vec<_>>(), ["0", "3", "6", "9", "12"]);
    assert_eq!(heads.next().unwrap().matches("mph").count(), 5);
    assert!(text.contains("no room here for winds of 15 mph"), "{text}");
    let (json, _, _) = finwright(&["guides", "reed_heron.finw", "--wind", "0..10m/s", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    let lengths = &json["comparisons"][0]["lengths"];
    assert_eq!(lengths["winds_m_s"].as_array().unwrap().len(), 6);
    assert_eq!(lengths["sizes"][0]["rail"], "4 mm rod");
    // Other guides would go where the rocket's own aren't in the way.
    let sizes = lengths["sizes"].as_array().unwrap();
    let thick = sizes.iter().find(|size| size["rail"] == "8 mm rod").unwrap();
    assert!(thick["fits"] == false && thick["least"][0]["length_m"].as_f64().is_some(), "{thick}");
    assert!(lengths["sizes"][0]["least"][0]["length_m"].as_f64().unwrap() > 0.5);
    let (_, said, status) = finwright(&["guides", "reed_heron.finw", "--wind", "9..3mph"]);
    assert!(status == 2 && said.contains("as a range: 0..15mph"), "{said}");
    let (text, _, _) = finwright(&["guides", "reed_heron.finw", "--length", "0.5m"]);
    assert!(text.contains("usual 4 mm rod") && text.contains("guide/slow-exit"), "{text}");
}

#[test]
fn which_motors_may_fly() {
    let (text, _, status) = finwright(&["guides", "two_motors.finw", "--motor", "all"]);
    assert_eq!(status, 0);
    assert!(text.contains("These may fly it: d14, e23.") && text.contains("\n  d14 "), "{text}");
    // A design without a flight, motors from another file, a club's pads in today's wind.
    let kit = "../projects/class/kit.finw";
    let (text, said, _) = finwright(&["guides", kit, "--motors", "two_motors.finw"]);
    assert!(text.contains("d14") && text.contains("e23"), "{text}{said}");
    let pads = "../projects/club/shared/pads.finw";
    let (text, _, _) = finwright(&["guides", "pond_wren.finw", "--pads", pads, "--site", "meadow"]);
    assert!(text.contains("in 3 m/s of wind, gusts of 5 m/s"), "{text}");
    for pad in ["thin_rod", "thick_rod", "rail"] {
        assert!(text.contains(&format!("\n  {pad} ")), "{pad}: {text}");
    }
    assert!(!text.contains("whatever it flies from: flight"), "{text}");
    let (_, said, status) = finwright(&["guides", "pond_wren.finw", "--pads", pads, "--site", "nowhere"]);
    assert!(status == 2 && said.contains("there is no site nowhere; known are "), "{said}");
    let (_, said, status) = finwright(&["guides", "pond_wren.finw", "--pads", "none.finw"]);
    assert!(status == 2 && said.contains("none.finw: "), "{said}");
}

//! Whole pages as they are read, and what can't be worked.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::designs;
use finwright_checks::rule;
use finwright_working::{markdown, text, working, Lack, Quantity};

#[test]
fn pages() {
    for (design, quantity) in [
        ("reed_heron", Quantity::ExitSpeed),
        ("class_kit", Quantity::Balance),
        ("barn_owlet", Quantity::PressureCentre),
        ("hill_raven", Quantity::Lean),
    ] {
        let page = designs::of_good(design, 0, quantity);
        let text = text(&page, 100);
        assert!(text.lines().all(|line| line.chars().count() <= 110 && line == line.trim_end()), "{text}");
        insta::assert_snapshot!(format!("{design}_{}", quantity.name()), text);
    }
    let page = designs::of_good("pond_wren", 0, Quantity::ExitSpeed);
    insta::assert_snapshot!("pond_wren_exit-speed_markdown", markdown(&page));
}

#[test]
fn json_holds_numbers_as_they_are_printed() {
    let page = designs::of_good("class_kit", 0, Quantity::Margin);
    let json = serde_json::to_value(&page).unwrap();
    assert_eq!(json["quantity"], "margin");
    let step = json["blocks"].as_array().unwrap().iter().find_map(|block| block.get("step")).unwrap();
    let result = step["result"]["value"].as_f64().unwrap();
    assert!(step["values"].as_str().unwrap().contains(" mm") && result > 0.0);
    assert_eq!(json["ends"][0]["by_hand"]["value"].as_f64(), Some(result));
}

#[test]
fn what_is_not_known_is_said_and_not_worked() {
    let analysis = designs::analysis("finwright 1\n");
    for (quantity, name, _) in Quantity::ALL {
        let lack = working(&analysis.design, &analysis.assessment, 0, quantity).unwrap_err();
        assert_ne!(lack, Lack(String::new()), "{name}");
    }
}

#[test]
fn names_are_kebab_case_and_found_again() {
    for (quantity, name, line) in Quantity::ALL {
        assert_eq!((Quantity::named(name), quantity.name()), (Some(quantity), name));
        assert!(name.chars().all(|c| c.is_ascii_lowercase() || c == '-') && !line.ends_with('.'));
    }
    assert_eq!(Quantity::named("exit_speed"), None);
}

/// The table of rules beside the quantities names rules that there are.
#[test]
fn every_rule_with_a_working_is_a_rule() {
    for name in Quantity::rules() {
        assert!(rule(name).is_some() && Quantity::behind(name).is_some(), "{name}");
    }
}

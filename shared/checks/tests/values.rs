//! Values: arithmetic, stations, likeness, copies, tolerances.
#![allow(clippy::unwrap_used)]

use crate::support;
use finwright_checks::Analysis;
use support::{analysis, expect, sound_but, sound_with};

/// A `let` with this value on top of the sound design: its SI value, and the rules that speak.
fn value(expression: &str) -> (Option<f64>, Vec<&'static str>) {
    let text = sound_but("let caliber = 24.8 mm", &format!("let caliber = 24.8 mm\nlet probe = {expression}"));
    let found = analysis(&text);
    let value = found.design.values.iter().find(|(n, _)| n.value == "probe").map(|(_, q)| q.value);
    (value, found.findings.iter().map(|f| f.rule).collect())
}

fn near(expression: &str, wanted: f64) {
    let (value, rules) = value(expression);
    assert!(rules.is_empty(), "{expression}: {rules:?}");
    let value = value.unwrap();
    assert!((value - wanted).abs() <= 1e-12 * wanted.abs().max(1e-3), "{expression}: {value} and not {wanted}");
}

#[test]
fn arithmetic_with_its_usual_precedence() {
    near("1 + 2 * 3 - 4 / 2", 5.0);
    near("2 * (3 + 4)", 14.0);
    near("8 / 4 / 2", 1.0);
    near("10 - 3 - 2", 5.0);
    near("-2 * -3", 6.0);
    near("- (1 + 2)", -3.0);
    near("1 mm + 2 cm * 3", 0.061);
    near("1/8 in", 0.003175);
    near("1 1/2 in", 0.0381);
    near("6/body.length * 1 m", 6.0 / 0.23);
    near("12 mm/2", 0.006);
    near("50 %", 0.5);
    near("1e-3 m", 1e-3);
    near(".5 mm", 0.0005);
    near("−3 mm", -0.003);
}

/// A scale's zero is added once: to a temperature, and to no difference of temperatures.
#[test]
fn temperatures_below_zero_and_their_differences() {
    near("-3 °C", 270.15);
    near("- 3 °C", 270.15);
    near("−40 °F", 233.15);
    near("-40 °C", 233.15);
    near("15 °C + 3 °C", 291.15);
    near("15 °C - 20 °C", 268.15);
    near("50 °F + 9 °F", 288.15);
    near("288.15 K - 20 K", 268.15);
    near("15 °C - 5 K", 283.15);
    near("min(-3 °C, 2 °C)", 270.15);
    // A tenth of 15 °C would be another temperature on each scale.
    assert_eq!(value("15 °C ± 10 %").1, ["unit/wrong-dimension"]);
    let found = analysis(&sound_but("let caliber = 24.8 mm", "let caliber = 24.8 mm\nlet t = -3 °C ± 1.8 °F"));
    let (_, cold) = found.design.values.iter().find(|(n, _)| n.value == "t").unwrap();
    assert!((cold.value - 270.15).abs() < 1e-9 && (cold.spread.total() - 1.0).abs() < 1e-9, "{cold:?}");
}

#[test]
fn functions() {
    near("min(3 mm, 1/8 in)", 0.003);
    near("max(3 mm, 1/8 in, 1 mm)", 0.003175);
    near("sqrt(4 mm * 9 mm)", 0.006);
    near("sin(30 deg)", 0.5);
    near("cos(60 deg)", 0.5);
    near("tan(45 deg)", 1.0);
    near("abs(-3 g)", 0.003);
    near("round(2.6)", 3.0);
    for (wrong, rule) in [
        ("sqrt(2 mm)", "unit/wrong-dimension"),
        ("sin(3)", "unit/wrong-dimension"),
        ("min(3 mm)", "unit/wrong-dimension"),
        ("min(3 mm, 2 g)", "unit/wrong-dimension"),
        ("round(2.6 mm)", "unit/wrong-dimension"),
        ("hypot(1, 2)", "name/unknown-name"),
        ("sqrt", "name/unknown-name"),
        ("sqrt()", "unit/wrong-dimension"),
    ] {
        assert_eq!(value(wrong).1, [rule], "{wrong}");
    }
}

#[test]
fn other_parts_fields_and_stations() {
    near("body.length / 2", 0.115);
    near("main.root + main.tip", 0.08);
    near("body.begins", 0.07);
    near("body.ends", 0.3);
    near("tail", 0.3);
    near("main.begins", 0.25);
    near("main.middle", 0.275);
    near("engine.begins", 0.23);
    near("aft.middle", 0.288);
    near("nose.ends", 0.07);
    let (_, rules) = value("main.spann");
    assert_eq!(rules, ["name/unknown-name"]);
}

#[test]
fn the_balance_point_as_a_value_settles() {
    let by_words = analysis(&sound_but("at: 20 mm ahead of balance;", "at: 20 mm ahead of balance;"));
    let by_value = analysis(&sound_but("at: 20 mm ahead of balance;", "at: balance - 20 mm from tip;"));
    let middle = |a: &Analysis, name: &str| {
        let id = a.design.parts.iter().position(|p| p.name.as_ref().is_some_and(|n| n.value == name)).unwrap();
        a.assessment.airframe.extents[id].unwrap().middle()
    };
    // `from tip` places a guide by its middle as well.
    assert!((middle(&by_words, "fore") - middle(&by_value, "fore")).abs() < 1e-9);
    assert!(by_value.findings.is_empty(), "{:#?}", by_value.findings);
}

#[test]
fn stations_that_need_each_other_are_told_with_their_chain() {
    let text = sound_with(&[
        ("at: 40 mm from front }", "at: fore.begins from tip }"),
        ("at: 20 mm ahead of balance;", "at: aft.begins from tip;"),
        ("at: 12 mm from back; clock: 60 deg }\n    button", "at: fore.ends from tip; clock: 60 deg }\n    button"),
    ]);
    let found = analysis(&text);
    let circle = found.findings.iter().find(|f| f.rule == "name/circular-value").unwrap();
    assert!(
        circle.message.contains("fore → aft → fore") || circle.message.contains("aft → fore → aft"),
        "{}",
        circle.message
    );
}

#[test]
fn a_part_like_another() {
    let text = sound_but(
        "lug fore { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 20 mm ahead of balance; clock: 60 deg }",
        "lug fore like aft { at: 20 mm ahead of balance }",
    );
    let found = expect(&text, &[]);
    let whole = analysis(support::SOUND);
    assert_eq!(found.assessment.flights[1].loaded(), whole.assessment.flights[1].loaded());
    expect(
        &sound_but("lug fore {", "lug fore like «main» {"),
        &[("name/unknown-name", "`main` is a fins, and this is a lug")],
    );
    expect(&sound_but("lug fore {", "lug fore like «aff» {"), &[("name/unknown-name", "no part is named `aff`")]);
    expect(&sound_but("lug fore {", "lug fore like «fore» {"), &[("name/unknown-name", "no part is named `fore`")]);
}

#[test]
fn a_part_at_several_places() {
    let text = sound_with(&[
        ("    lug fore { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 20 mm ahead of balance; clock: 60 deg }\n", ""),
        (
            "lug aft { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 12 mm from back;",
            "lug pair { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: [12 mm from back, 20 mm ahead of balance];",
        ),
        ("[aft, fore]", "[pair]"),
    ]);
    let found = expect(&text, &[]);
    let whole = analysis(support::SOUND);
    let (ours, theirs) = (found.assessment.flights[1].loaded().unwrap(), whole.assessment.flights[1].loaded().unwrap());
    assert!((ours.mass - theirs.mass).abs() < 1e-12 && (ours.x - theirs.x).abs() < 1e-9);
    assert_eq!(found.assessment.flights[1].guides().len(), 2);
}

#[test]
fn a_density_in_place_of_a_material_and_a_measured_balance() {
    let named = analysis(support::SOUND).assessment.flights[0].loaded().unwrap();
    let given =
        analysis(&sound_but("material: basswood", "material: 420 kg/m3")).assessment.flights[0].loaded().unwrap();
    assert_eq!(named, given);
    expect(&sound_but("material: basswood", "material: «420 g»"), &[("unit/wrong-dimension", "a density is due")]);
    let moved = analysis(&sound_but("material: basswood", "material: basswood; balance: 60 mm from front"))
        .assessment
        .flights[0]
        .loaded()
        .unwrap();
    assert!(moved.x > named.x && moved.mass == named.mass);
    expect(
        &sound_but("material: basswood", "material: basswood; balance: «60 mm from tip»"),
        &[("value/wrong-form", "its own front or back")],
    );
}

#[test]
fn tolerances_go_through_arithmetic() {
    let spread = |expression: &str| {
        let text = sound_but(
            "let caliber = 24.8 mm",
            &format!("let caliber = 24.8 mm\nlet a = 10 mm ± 0.3 mm\nlet b = 20 mm +/- 2 %\nlet probe = {expression}"),
        );
        let found = analysis(&text);
        assert!(found.findings.is_empty(), "{expression}: {:#?}", found.findings);
        let (_, q) = found.design.values.iter().find(|(n, _)| n.value == "probe").cloned().unwrap();
        (q.value, q.spread.total())
    };
    // First order, independent; what is used twice stays itself (JCGM 100:2008, 5.1.2 and 5.2.2).
    for (expression, value, give) in [
        ("a + b", 0.030, 0.5e-3),
        ("a - a", 0.0, 0.0),
        ("a + a", 0.020, 0.6e-3),
        ("2 * a", 0.020, 0.6e-3),
        ("a / b * 1 m", 0.5, 0.5 * (0.03f64.powi(2) + 0.02f64.powi(2)).sqrt()),
        ("sqrt(a * b)", 0.0002f64.sqrt(), 0.0002f64.sqrt() * 0.5 * (0.03f64.powi(2) + 0.02f64.powi(2)).sqrt()),
        ("abs(-1 * a)", 0.010, 0.3e-3),
        ("max(a, b)", 0.020, 0.4e-3),
    ] {
        let (v, g) = spread(expression);
        assert!(
            (v - value).abs() < 1e-12 && (g - give).abs() < 1e-12,
            "{expression}: {v} ± {g}, wanted {value} ± {give}"
        );
    }
    let rules = value("16 °C ± 2 °C").1;
    assert!(rules.is_empty(), "{rules:?}");
    assert_eq!(value("12 mm ± 1 g").1, ["unit/wrong-dimension"]);
    assert_eq!(value("12 mm ± 100 %").1, ["value/out-of-range"]);
    assert_eq!(value("12 mm ± 99 %").1, [""; 0]);
}

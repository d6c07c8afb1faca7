//! Fins, mounts, shoulders and what lies inside: where the limits lie and what is left alone.
#![allow(clippy::unwrap_used)]

use crate::support;
use finwright_checks::example::BASE;
use finwright_checks::Level;
use support::{analysis, analysis_set, base_with, fixed, of};

fn silent(text: &str, rule: &str) {
    let found = analysis(text);
    assert!(of(&found, rule).is_empty(), "{:#?}", of(&found, rule));
}

#[test]
fn the_thickness_that_is_advised_is_just_enough() {
    let thin = base_with(&[("thickness: 1.6 mm", "thickness: 1.2 mm")]);
    let found = analysis(&thin);
    let told = of(&found, "fins/flutter");
    assert_eq!(told.len(), 1, "three flights share the fins");
    let mended = fixed(&thin, told[0]);
    silent(&mended, "fins/flutter");
    // Rounded up to the tenth, and thicker fins make the rocket a little slower: two tenths less are too thin.
    let wanted: f64 = told[0].fixes[0].edits[0].text.trim_end_matches(" mm").parse().unwrap();
    let thinner = base_with(&[("thickness: 1.6 mm", &format!("thickness: {:.1} mm", wanted - 0.2))]);
    assert_eq!(of(&analysis(&thinner), "fins/flutter").len(), 1);
}

/// 86 m/s on a B motor are only noted, unless that is more than twice the estimate; 160 on one of 16 N s are a warning,
/// and high power alone makes it an error.
#[test]
fn flutter_is_noted_warned_of_and_an_error_by_the_flights_speed_and_power() {
    let curve = "0.05 s: 9 N, 0.1 s: 14 N, 0.2 s: 13 N, 0.3 s: 6 N, 0.55 s: 5 N, 0.6 s: 0 N";
    let level = |thickness: &str, points: &str, settings: &str| {
        let text = base_with(&[("thickness: 1.6 mm", &format!("thickness: {thickness}")), (curve, points)]);
        let found = support::analysis_set(&text, settings);
        of(&found, "fins/flutter").first().map(|f| f.level)
    };
    let d = "0.05 s: 20 N, 0.8 s: 20 N, 0.85 s: 0 N";
    assert_eq!(level("1.6 mm", curve, ""), None);
    assert_eq!(level("1 mm", curve, ""), Some(Level::Note));
    assert_eq!(level("1 mm", curve, "[thresholds]\nflutter_note = \"50 m/s\""), Some(Level::Warning));
    // 1.8 times the estimate above, 2.1 times here.
    assert_eq!(level("0.9 mm", curve, ""), Some(Level::Warning));
    assert_eq!(level("0.9 mm", curve, "[thresholds]\nflutter_note_share = 3"), Some(Level::Note));
    assert_eq!(level("1 mm", d, ""), Some(Level::Warning));
    // A heavy rocket on 170 N s, so that the method still reaches it.
    let heavy = |thickness: &str| {
        let text = base_with(&[
            ("thickness: 1.6 mm", &format!("thickness: {thickness}")),
            (curve, "0.05 s: 60 N, 2.8 s: 60 N, 2.9 s: 0 N"),
            ("ballast { mass: 1 g", "ballast { mass: 700 g"),
        ]);
        let found = analysis(&text);
        of(&found, "fins/flutter").first().map(|f| f.level)
    };
    assert_eq!(heavy("2 mm"), Some(Level::Error));
    assert_eq!(heavy("4.5 mm"), None);
}

#[test]
fn flutter_is_unknown_without_a_shear_modulus() {
    silent(
        &base_with(&[("thickness: 1.6 mm; material: balsa", "thickness: 1 mm; material: cardboard")]),
        "fins/flutter",
    );
    let found = analysis(BASE);
    let flutter = found.assessment.flights[0].flutter[0];
    // A = 40²/1600 = 1, c/t = 50/1.6: 2.674 · p · 31.25³/3 · 0.8 against 0.17 GPa, at 20 m: 94.6 m/s.
    assert!((flutter.speed - 94.6).abs() < 0.1, "{}", flutter.speed);
}

#[test]
fn roots_may_run_on_over_a_joint_of_equal_tubes_and_overhang_by_less_than_a_tenth() {
    silent(&base_with(&[("at: 0 mm from back }\n    mount", "at: -0.05 mm from back }\n    mount")]), "fins/off-body");
    let more = "  }\n  tube tail { length: 40 mm; outer: caliber; inner: 24 mm; material: kraft_paper }\n}\nmotor b8 {";
    let joined = base_with(&[
        ("  }\n}\nmotor b8 {", more),
        ("at: 0 mm from back }\n    mount", "at: -15 mm from back }\n    mount"),
    ]);
    silent(&joined, "fins/off-body");
    let narrower = joined.replace(
        "tail { length: 40 mm; outer: caliber; inner: 24 mm",
        "tail { length: 40 mm; outer: 22 mm; inner: 21 mm",
    );
    assert_eq!(of(&analysis(&narrower), "fins/off-body").len(), 1);
}

#[test]
fn a_root_longer_than_its_tube_has_no_place_to_be_put() {
    let found = analysis(&base_with(&[("root: 50 mm; tip: 30 mm", "root: 240 mm; tip: 30 mm")]));
    let told = of(&found, "fins/off-body");
    assert!(told.len() == 1 && told[0].fixes.is_empty() && told[0].help.contains("230 mm or less"), "{told:?}");
    assert!(told[0].message.contains("reaches 10 mm ahead of tube body"), "{}", told[0].message);
}

#[test]
fn a_mount_as_wide_as_its_tube_goes_in() {
    silent(&base_with(&[("outer: 18.8 mm; length: 70 mm", "outer: 24 mm; length: 70 mm")]), "mount/too-wide-for-tube");
    let cluster =
        base_with(&[("outer: 18.8 mm; length: 70 mm", "outer: 18.8 mm; motors: 3; circle: 30 mm; length: 70 mm")]);
    let found = analysis(&cluster);
    let told = of(&found, "mount/too-wide-for-tube");
    // Three of 18.8 mm side by side need 18.8/sin 60° + 18.8 = 40.51 mm.
    assert!(told[0].message.contains("48.8 mm across") && told[0].help.contains("40.6 mm or more"), "{told:?}");
    let wide =
        cluster.replace("let caliber = 24.8 mm", "let caliber = 44.8 mm").replace("inner: 24 mm", "inner: 44 mm");
    let found = analysis(&wide);
    let told = of(&found, "mount/too-wide-for-tube");
    assert_eq!(told[0].fixes[0].edits[0].text, "25.2 mm");
    silent(&fixed(&wide, told[0]), "mount/too-wide-for-tube");
}

#[test]
fn a_motor_one_diameter_inside_is_still_told_nothing_of() {
    silent(&base_with(&[("sticks_out: 5 mm", "sticks_out: 5 mm; at: 29.7 mm from back")]), "mount/recessed");
    let found = analysis(&base_with(&[("sticks_out: 5 mm", "sticks_out: 5 mm; at: 30 mm from back")]));
    let told = of(&found, "mount/recessed");
    assert!(told.len() == 1 && told[0].message.contains("25 mm inside"), "{told:?}");
}

#[test]
fn steps_and_shoulders_at_their_limits() {
    silent(&base_with(&[("base: caliber;", "base: 24.3 mm;")]), "shape/step");
    assert_eq!(of(&analysis(&base_with(&[("base: caliber;", "base: 24.2 mm;")])), "shape/step").len(), 1);
    silent(&base_with(&[("outer: 23.9 mm", "outer: 24 mm")]), "shape/tight-shoulder");
    silent(&base_with(&[("outer: 23.9 mm", "outer: 23 mm")]), "shape/loose-shoulder");
    silent(&base_with(&[("shoulder { length: 20 mm", "shoulder { length: 12.4 mm")]), "shape/short-shoulder");
    assert_eq!(
        of(&analysis(&base_with(&[("shoulder { length: 20 mm", "shoulder { length: 12 mm")])), "shape/short-shoulder")
            .len(),
        1
    );
}

#[test]
fn a_step_is_mended_with_the_name_that_stands_there() {
    let text = base_with(&[("base: caliber;", "base: 22 mm;")]);
    let found = analysis(&text);
    assert_eq!(fixed(&text, of(&found, "shape/step")[0]), BASE);
}

#[test]
fn a_coupler_holds_what_lies_in_it_and_is_told_once() {
    let bay = "  }\n  tube tail { length: 60 mm; outer: caliber; inner: 24 mm; material: kraft_paper\n    coupler bay \
        { length: 50 mm; outer: 23.8 mm; inner: 23 mm; material: cardboard; at: -25 mm from front }\n    load logger \
        { mass: 1 g; length: 20 mm; at: 12 mm from bay.front }\n  }\n}\nmotor b8 {";
    let text = base_with(&[("  }\n}\nmotor b8 {", bay)]);
    silent(&text, "shape/outside-parent");
    silent(&text, "shape/tight-shoulder");
    let wide = text.replace("outer: 23.8 mm; inner: 23 mm", "outer: 24.2 mm; inner: 23 mm");
    assert_eq!(of(&analysis(&wide), "shape/tight-shoulder").len(), 1);
    let out = text.replace("at: 12 mm from bay.front", "at: 5 mm from bay.front");
    let found = analysis(&out);
    assert!(of(&found, "shape/outside-parent")[0].message.contains("reaches 5 mm ahead of tube tail"));
}

#[test]
fn loads_may_lie_around_a_mount_but_not_in_a_bulkhead() {
    let with = |more: &str| base_with(&[("    parachute {", &format!("    {more}\n    parachute {{"))]);
    silent(&with("load glue { mass: 1 g; length: 40 mm; at: 40 mm from back }"), "shape/overlap");
    let found = analysis(&with("bulkhead { outer: 23.9 mm; thickness: 4 mm; material: balsa; at: 30 mm from back }"));
    let told = of(&found, "shape/overlap");
    assert!(told.len() == 1 && told[0].message.contains("share 4 mm"), "{told:?}");
    silent(
        &with("bulkhead { outer: 23.9 mm; thickness: 4 mm; material: balsa; at: 70 mm from back }"),
        "shape/overlap",
    );
}

/// The tube is 24 mm inside, its mount 18.8 mm outside and 70 mm long from 5 mm behind the back.
#[test]
fn a_bulkhead_is_loose_from_two_millimetres_on_but_at_a_mount_or_in_a_coupler() {
    let with = |wide: &str, at: &str| {
        let disc = format!("    bulkhead {{ outer: {wide}; thickness: 2 mm; material: plywood; at: {at} }}\n");
        base_with(&[("    parachute {", &format!("{disc}    parachute {{"))])
    };
    silent(&with("22 mm", "90 mm from back"), "shape/loose-bulkhead");
    let loose = with("21.9 mm", "90 mm from back");
    let found = analysis(&loose);
    assert_eq!(of(&found, "shape/loose-bulkhead").len(), 1);
    silent(&fixed(&loose, of(&found, "shape/loose-bulkhead")[0]), "shape/loose-bulkhead");
    silent(&with("18.8 mm", "65 mm from back"), "shape/loose-bulkhead");
    let wider = analysis_set(&loose, "[thresholds]\nbulkhead_play = \"3 mm\"");
    assert!(of(&wider, "shape/loose-bulkhead").is_empty());
    let coupler =
        "coupler bay { length: 50 mm; outer: 23.8 mm; inner: 20 mm; material: cardboard; at: 90 mm from back }";
    let held =
        loose.replace("    parachute {", &format!("    {coupler}\n    parachute {{")).replace("21.9 mm", "19 mm");
    silent(&held, "shape/loose-bulkhead");
    // In the shoulder, which is 23.9 mm wide and reaches 20 mm into the tube.
    let shoulder = "shoulder { length: 20 mm; outer: 23.9 mm";
    let hollow = with("18 mm", "10 mm from front").replace(shoulder, &format!("{shoulder}; wall: 2.5 mm"));
    silent(&hollow, "shape/loose-bulkhead");
    assert_eq!(of(&analysis(&with("18 mm", "10 mm from front")), "shape/loose-bulkhead").len(), 1);
}

/// Mounts of 25.4 mm: two touch on a circle of 25.4, three on one of 25.4/sin 60° = 29.33, six around a seventh on one of
/// 50.8.
#[test]
fn a_clusters_mounts_may_touch_and_no_more() {
    let flame = include_str!("../../../tests/designs/good/twin_flame.finw");
    let with = |cluster: &str| {
        let text = flame.replace("motors: 2; circle: 28 mm", cluster);
        let found = analysis(&text);
        let told: Vec<_> = of(&found, "mount/circle-too-small").into_iter().cloned().collect();
        (text, told)
    };
    for fits in [
        "motors: 2; circle: 25.4 mm",
        "motors: 3; circle: 29.4 mm",
        "motors: 7; circle: 50.8 mm",
        "motors: 1; circle: 5 mm",
    ] {
        assert!(with(fits).1.is_empty(), "{fits}");
    }
    assert!(with("motors: 2; circle: 25 mm ± 1 mm").1.is_empty(), "it may be so within its tolerance");
    for (small, message, least) in [
        ("motors: 2; circle: 25.3 mm", "2 tubes go through each other on a circle of 25.3 mm", "25.4 mm"),
        ("motors: 3; circle: 28 mm", "3 tubes go through each other on a circle of 28 mm", "29.4 mm"),
        ("motors: 7; circle: 50 mm", "7 tubes go through each other on a circle of 50 mm", "50.8 mm"),
    ] {
        let (text, told) = with(small);
        assert!(told.len() == 1 && told[0].message.ends_with(message), "{told:#?}");
        assert!(told[0].help.contains(&format!("a circle of {least} or more")), "{told:#?}");
        silent(&fixed(&text, &told[0]), "mount/circle-too-small");
    }
}

#[test]
fn the_mass_that_passes_low_push_passes() {
    let weak = finwright_checks::rule("motor/low-push").unwrap().example.bad_design();
    // Where a slow exit matters, it tells of the low push too.
    let analysis = |text: &str| analysis_set(text, "[thresholds]\nexit_speed = \"1 m/s\"");
    let found = analysis(&weak);
    let told = of(&found, "motor/low-push");
    assert_eq!(told.len(), 1, "three flights share the motor");
    let less: f64 = told[0].help.split(", ").nth(1).unwrap().split(' ').next().unwrap().parse().unwrap();
    let lighter = weak.replace("mass: 19 g; propellant", &format!("mass: {} g; propellant", 19.0 - less - 0.05));
    assert!(of(&analysis(&lighter), "motor/low-push").is_empty());
    let heavier = weak.replace("mass: 19 g; propellant", &format!("mass: {} g; propellant", 19.0 - 0.4 * less));
    assert_eq!(of(&analysis(&heavier), "motor/low-push").len(), 1);
}

/// 4.6 N s of 5.6 g are 820 N s a kilogram; 1.53 g would have to give 3,000. A case of 18 mm by 70 mm has 17.8 cm³, room for
/// 35.6 g at most.
#[test]
fn propellant_can_give_so_much_and_a_case_hold_so_much() {
    let found = |changes: &[(&str, &str)]| -> Vec<String> {
        let found = analysis(&base_with(changes));
        of(&found, "motor/impossible-propellant").iter().map(|f| f.message.clone()).collect()
    };
    let propellant = "propellant: 5.6 g";
    assert!(found(&[(propellant, "propellant: 1.6 g")]).is_empty());
    assert_eq!(found(&[(propellant, "propellant: 1.5 g")]), ["b8 has 4.6 N s, more than 1.5 g of propellant can give"]);
    // Weighed to a tenth of a gram it may be enough.
    assert!(found(&[(propellant, "propellant: 1.5 g ± 0.1 g")]).is_empty());
    assert!(found(&[(propellant, "propellant: 15 g")]).is_empty());
    assert_eq!(
        found(&[(propellant, "propellant: 5.6 g"), ("length: 70 mm; mass", "length: 7 mm; mass")]),
        ["b8 is too small for 5.6 g of propellant"]
    );
}

/// Sizes that round to one number are shown in the digits that tell them apart; those within a micrometre are one.
#[test]
fn sizes_that_hardly_differ() {
    for (old, new, rule, said) in [
        (
            "motor b8 {\n  code: \"B8-4\"; diameter: 18 mm",
            "motor b8 {\n  code: \"B8-4\"; diameter: 18.02 mm",
            "mount/motor-too-wide",
            "b8 is 18.02 mm wide and mount engine's bore is 18 mm",
        ),
        (
            "bore: 18 mm; outer: 18.8 mm",
            "bore: 18 mm; outer: 24.03 mm",
            "mount/too-wide-for-tube",
            "mount engine is 24.03 mm across and tube body is 24 mm inside",
        ),
        (
            "rod { diameter: 3.2 mm",
            "rod { diameter: 3.598 mm",
            "guide/tight-fit",
            "3.6 mm and stand's rod 3.598 mm: it doesn't slide",
        ),
    ] {
        let found = analysis(&base_with(&[(old, new)]));
        let told = of(&found, rule);
        assert!(told.iter().any(|f| f.message.contains(said)), "{said}: {:?}", told);
    }
    // 18 mm written in inches to six digits are 18.0000005 mm.
    silent(&base_with(&[("\"B8-4\"; diameter: 18 mm", "\"B8-4\"; diameter: 0.70866143 in")]), "mount/motor-too-wide");
}

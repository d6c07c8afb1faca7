//! What can't be is an error at its place, and nothing is computed from it; what only just can be is met with silence.
#![allow(clippy::unwrap_used)]

use crate::support::analysis_by_default as analysis;
use finwright_assess::Needed;
use finwright_checks::example::BASE;
use finwright_checks::{Level, Verdict};

const FINS: &str = "fins main { count: 3; root: 50 mm; tip: 30 mm; span: 40 mm; sweep: 25 mm; thickness: 1.6 mm; \
    material: balsa; at: 0 mm from back }";
const TUBES: &str =
    "tube_fins { count: 6; length: 60 mm; outer: 24.8 mm; inner: 24 mm; material: kraft_paper; at: 0 mm from back }";
const BULKHEAD: &str = "bulkhead { outer: 24 mm; thickness: 3 mm; material: plywood; at: 20 mm from front }";

/// The base design with one thing changed, which is there at least once.
fn base_but(old: &str, new: &str) -> String {
    assert!(BASE.contains(old), "{old}");
    BASE.replacen(old, new, 1)
}

/// The base design with something more in its tube.
fn with(line: &str) -> String {
    base_but("    cord {", &format!("    {line}\n    cord {{"))
}

fn rules(text: &str) -> Vec<&'static str> {
    analysis(text).findings.iter().filter(|f| f.level == Level::Error).map(|f| f.rule).collect()
}

/// Each of these is one error, all of whose flights weigh nobody knows what.
#[test]
fn parts_that_cant_be_are_told_and_not_weighed() {
    let more = |line: &str| format!("{FINS}\n    {line}");
    for (text, rule) in [
        (base_but("base: caliber; material", "base: caliber; wall: 12.4 mm; material"), "shape/thick-wall"),
        (base_but("outer: 23.9 mm }", "outer: 23.9 mm; wall: 14 mm }"), "shape/thick-wall"),
        (base_but("ballast { mass: 1 g;", "ballast { mass: 1 g; off_axis: 5 m;"), "shape/off-axis"),
        (with("load { mass: 5 g; off_axis: 70 mm; at: 100 mm from front }"), "shape/off-axis"),
        (with(&BULKHEAD.replace("24 mm", "24.2 mm")), "shape/too-wide-inside"),
        (
            base_but("material: balsa; at", "tab_length: 60 mm; tab_depth: 2 mm; material: balsa; at"),
            "fins/tab-too-large",
        ),
        (
            base_but("material: balsa; at", "tab_length: 30 mm; tab_depth: 4 mm; material: balsa; at"),
            "fins/tab-too-large",
        ),
        (base_but("material: balsa; at", "fillet: 41 mm; material: balsa; at"), "fins/fillet-too-large"),
        (base_but("material: balsa; at", "fillet: 11 mm; material: balsa; at"), "fins/fillet-too-large"),
        (base_but(FINS, &more("fins twin like main { at: 40 mm from back }")), "fins/crossing"),
        (base_but(FINS, &more("fins twin like main { clock: 121 deg }")), "fins/crossing"),
        (base_but(FINS, &TUBES.replace("count: 6", "count: 7")), "fins/crowded"),
        (base_but("length: 20 mm; outer: 23.9 mm", "length: 70 mm; outer: 23.9 mm"), "shape/in-solid"),
        (base_but("at: 60 mm from front; drag", "at: 18 mm from front; drag"), "shape/in-solid"),
        (base_but("material: basswood\n", "material: basswood; balance: 95 mm from front\n"), "shape/balance-outside"),
        (base_but("material: balsa; at", "material: balsa; balance: 60 mm from back; at"), "shape/balance-outside"),
        (base_but("at: 12 mm from back; clock: 60", "at: -2 m from back; clock: 60"), "guide/off-rocket"),
        (base_but("at: 20 mm ahead of balance", "at: 600 mm ahead of balance"), "guide/off-rocket"),
        (
            base_but(
                "  tube body {",
                "  nose { shape: cone; length: 40 mm; base: caliber; material: balsa }\n  tube body {",
            ),
            "shape/nose-behind",
        ),
    ] {
        let found = analysis(&text);
        assert_eq!(rules(&text), [rule], "{text}");
        assert_eq!(found.verdict, Verdict::NotAsItIs);
        for flight in &found.assessment.flights {
            assert!(flight.loaded().is_none() && flight.run.is_none() && flight.margin().is_none(), "{rule}");
            // Nor is any place that hangs on the balance point.
            assert!(flight.guides().is_empty(), "{rule}");
        }
        let told = found.findings.iter().find(|f| f.rule == "file/not-checked").unwrap();
        assert!(told.help.contains("what can't be so"), "{}", told.help);
    }
}

#[test]
fn what_only_just_can_be_is_met_with_silence() {
    for text in [
        base_but("outer: 23.9 mm }", "outer: 23.9 mm; wall: 11.8 mm }"),
        base_but("ballast { mass: 1 g;", "ballast { mass: 1 g; off_axis: 11.3 mm;"),
        with("load { mass: 1 g; off_axis: 60 mm; at: 100 mm from front }"),
        with(BULKHEAD),
        with(&BULKHEAD.replace("24 mm", "24.1 mm ± 0.2 mm")),
        base_but("material: balsa; at", "tab_length: 50 mm; tab_depth: 3 mm; material: balsa; at"),
        base_but(FINS, TUBES),
        base_but("outer: 23.9 mm }", "outer: 23.9 mm; wall: 1 mm }")
            .replace("at: 60 mm from front; drag", "at: 15 mm from front; drag"),
        base_but("at: 60 mm from front; drag", "at: 20 mm from front; drag"),
        base_but("material: balsa; at", "material: balsa; balance: -5 mm from back; at"),
        base_but("at: 12 mm from back; clock: 60", "at: -9 mm from back; clock: 60"),
        base_but("elevation: 20 m;", "elevation: 20 m; pressure: 950 hPa;"),
        base_but("elevation: 20 m;", "pressure: 540 hPa;"),
    ] {
        assert_eq!(rules(&text), [""; 0], "{text}");
        let found = analysis(&text);
        assert!(
            found.assessment.airframe.misfits.is_empty() && found.assessment.flights.iter().all(|f| f.run.is_some())
        );
    }
}

#[test]
fn fins_between_fins_are_six() {
    let text = base_but(FINS, &format!("{FINS}\n    fins more like main {{ clock: 60 deg }}"));
    assert!(analysis(&text).assessment.airframe.misfits.is_empty());
}

/// Two guides of one flight; of two flights they may share a place, as in the base design.
#[test]
fn two_guides_in_one_place_leave_the_flight_unchecked_and_no_other() {
    let found = analysis(&base_but("at: 20 mm ahead of balance", "at: 25 mm from back"));
    let told: Vec<_> = found.findings.iter().map(|f| (f.rule, f.message.as_str())).collect();
    assert_eq!(
        told,
        [
            ("guide/one-place", "in two, lug aft and lug fore are in one place"),
            ("file/not-checked", "two isn't checked: its exit speed and 3 more aren't known"),
        ]
    );
    let verdicts: Vec<_> = found.flights.iter().map(|f| f.verdict).collect();
    assert_eq!(verdicts, [Verdict::MeetsTheChecks, Verdict::NotAsItIs, Verdict::MeetsTheChecks]);
}

#[test]
fn a_motor_that_doesnt_go_in_has_no_mass_in_the_rocket() {
    for (length, said) in [
        ("700 mm", "b8 is 700 mm long, and stands 395 mm out of the rocket's tip"),
        ("220 mm", "b8 is 220 mm long, and reaches 5 mm into shoulder"),
        ("260 mm", "b8 is 260 mm long, and reaches 45 mm into shoulder"),
    ] {
        let found =
            analysis(&base_but("diameter: 18 mm; length: 70 mm", &format!("diameter: 18 mm; length: {length}")));
        let told: Vec<_> =
            found.findings.iter().filter(|f| f.level == Level::Error).map(|f| f.message.as_str()).collect();
        assert_eq!(told, [said]);
        assert!(found.assessment.flights.iter().all(|flight| flight.loaded().is_none()));
    }
    // Hollow as far as the motor is wide.
    let hollow = base_but("base: caliber; material: basswood", "base: caliber; wall: 1 mm; material: basswood")
        .replace("outer: 23.9 mm }", "outer: 23.9 mm; wall: 1 mm }")
        .replace("    ballast { mass: 1 g; at: 50 mm from front }\n", "");
    let long = |length: &str| {
        analysis(&hollow.replace("diameter: 18 mm; length: 70 mm", &format!("diameter: 18 mm; length: {length}")))
    };
    assert!(long("255 mm").assessment.flights[0].misfits.is_empty());
    assert!(!long("290 mm").assessment.flights[0].misfits.is_empty());
}

#[test]
fn a_fields_pressure_is_the_fields_own() {
    for (site, said) in [
        ("elevation: 10 m; pressure: 540 hPa;", "540 hPa at 10 m of elevation: the air there has about 1012 hPa"),
        ("elevation: 1600 m; pressure: 1013 hPa;", "1013 hPa at 1600 m of elevation: the air there has about 835 hPa"),
    ] {
        let found = analysis(&base_but("elevation: 20 m;", site));
        let told: Vec<_> = found.findings.iter().filter(|f| f.rule == "field/odd-pressure").collect();
        assert_eq!(told.len(), 1);
        assert_eq!(told[0].message.replace("1.6 km", "1600 m"), said);
        let sea_level = told[0].help.contains("reduced to sea level");
        assert_eq!(sea_level, site.contains("1013"), "{}", told[0].help);
        assert!(
            found.flights[0].unknown.contains(&Needed::ExitSpeed) && !found.flights[0].unknown.contains(&Needed::Mass)
        );
    }
}

#[test]
fn values_that_cant_be_are_told_and_broken() {
    for (old, new, said) in [
        ("stop: 50 mm; tilt: 2 deg", "stop: 50 mm; tilt: 89.9 deg", "`tilt` must be from 0° to 60°, and is 89.9 deg"),
        ("mass: 19 g;", "mass: 19 g ± 200 %;", "a tolerance of 200 % leaves nothing of the value"),
        ("length: 230 mm;", "length: 230 mm ± 100 %;", "a tolerance of 100 % leaves nothing of the value"),
        ("length: 230 mm;", "length: 230 mm ± 300 mm;", "`length` could be zero within its tolerance: 230 mm ± 300 mm"),
        (
            "rod { diameter: 3.2 mm",
            "rod { diameter: 1 um",
            "a `diameter` of 0.001 mm in `rod` is below anything that flies (0.1 mm)",
        ),
    ] {
        let found = analysis(&base_but(old, new));
        let told: Vec<_> =
            found.findings.iter().filter(|f| f.level == Level::Error).map(|f| f.message.as_str()).collect();
        assert_eq!(told, [said]);
        assert!(found.assessment.flights[0].run.is_none());
    }
    // What may be zero may have any tolerance.
    assert_eq!(rules(&base_but("wind: 2 m/s", "wind: 2 m/s ± 2 m/s")), [""; 0]);
}

/// A value that is counted from a balance point that can't be known isn't counted from the tip instead.
#[test]
fn without_a_balance_point_its_values_arent_known() {
    let text = base_but("at: 20 mm ahead of balance", "at: balance - 20 mm from tip");
    let fore = |text: &str| {
        let found = analysis(text);
        let id = found.design.parts.iter().position(|part| part.label() == "lug fore").unwrap();
        found.assessment.airframe.extents[id].map(|extent| extent.middle())
    };
    assert!((fore(&text).unwrap() - fore(BASE).unwrap()).abs() < 1e-9);
    let unknown = text.replacen("; material: kraft_paper", "", 1);
    assert_eq!(fore(&unknown), None);
    assert_eq!(rules(&unknown), [""; 0]);
}

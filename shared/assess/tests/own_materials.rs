//! A file's own definition of a material counts wherever its name does, also where it's taken because nothing is said.
#![allow(clippy::unwrap_used)]

use crate::common::{assert_close, assessed, assessed_among, but, R1};
use finwright_assess::Needs;
use std::f64::consts::PI;

fn with(more: &str) -> String {
    but(R1, "airframe {", &format!("{more}\nairframe {{"))
}

fn mass_of(text: &str, word: &str) -> f64 {
    let (design, assessment) = assessed(text);
    let id = design.parts.iter().position(|part| part.word == word).unwrap();
    assessment.airframe.weights[id].as_ref().unwrap().own.mass
}

#[test]
fn a_lug_that_says_no_material_is_of_the_files_own_paper() {
    let lug = "mass: 0.000001 g; at: balance";
    let text = but(&with("material kraft_paper { density: 1000 kg/m3 }"), lug, "at: balance");
    // π/4 (4.2² − 3.6²) mm² of 30 mm.
    let volume = PI / 4.0 * (0.0042_f64.powi(2) - 0.0036_f64.powi(2)) * 0.03;
    assert_close(mass_of(&text, "lug"), 1000.0 * volume, 1e-9);
    assert_close(mass_of(&but(R1, lug, "at: balance"), "lug"), 680.0 * volume, 1e-9);
}

#[test]
fn fillets_are_of_the_files_own_epoxy() {
    let filleted = |text: &str| {
        but(text, "thickness: 1.6 mm; material: light", "thickness: 1.6 mm; fillet: 3 mm; material: light")
    };
    let own = mass_of(&filleted(&with("material epoxy { density: 2150 kg/m3 }")), "fins");
    // Six fillets of 50 mm, each 9 mm² less a quarter circle of that radius.
    let volume = 6.0 * 0.05 * 9e-6 * (1.0 - PI / 4.0);
    assert_close(own - mass_of(&filleted(R1), "fins"), 1000.0 * volume, 1e-6);
}

#[test]
fn fillets_of_an_epoxy_without_a_density_have_no_mass_that_is_known() {
    let text = with("material epoxy { stiffness: 3 GPa }");
    let text = but(&text, "thickness: 1.6 mm; material: light", "thickness: 1.6 mm; fillet: 3 mm; material: light");
    let (design, assessment) = assessed(&text);
    let causes = assessment.airframe.unknown.iter().filter(|unknown| unknown.is_cause());
    let needs = causes.map(|unknown| unknown.needs.clone()).collect::<Vec<_>>();
    assert_eq!(needs, [Needs::OfMaterial("density", design.material_named("epoxy").unwrap())]);
    assert_eq!(assessment.flights[0].loaded(), None);
}

#[test]
fn a_rod_that_says_no_material_is_of_the_files_own_steel() {
    let bare = |text: &str| but(text, "length: 0.9144 m; material: steel", "length: 0.9144 m");
    let soft = with("material steel { density: 7850 kg/m3; stiffness: 100 GPa }");
    let lean = |text: &str| assessed(text).1.flights[0].stiffness.as_ref().unwrap().beam.modulus;
    assert_close(lean(&bare(&soft)), 100e9, 1e-12);
    assert_close(lean(&bare(R1)), 200e9, 1e-12);
}

#[test]
fn a_shoulder_is_of_what_its_nose_is_of_also_where_that_is_a_density() {
    let nose = "nose { shape: ogive; length: 70 mm; base: 24.8 mm; material: light }";
    let text = but(R1, nose, &nose.replace("light }", "300 kg/m3; shoulder { length: 20 mm; outer: 23.9 mm } }"));
    assert_close(mass_of(&text, "shoulder"), 300.0 * PI / 4.0 * 0.0239_f64.powi(2) * 0.02, 1e-9);
}

#[test]
fn the_files_own_section_goes_before_one_of_the_same_width_in_a_used_file() {
    let button = "button peg { profile: 30 mm; at: 12 mm from back; clock: 180 deg }\n    lug only";
    let text = but(R1, "lug only", button).replace("finwright 1\n", "finwright 1\nuse \"club.finw\"\n");
    let own = "section ours { width: 30 mm; mouth: 8 mm; button_mass: 3 g }";
    let used = [("club.finw", "section theirs { width: 30 mm; mouth: 8 mm; button_mass: 9 g }\n")];
    let mass = |text: &str| {
        let (design, assessment) = assessed_among(text, &used);
        let id = design.parts.iter().position(|part| part.word == "button").unwrap();
        assessment.airframe.weights[id].as_ref().unwrap().own.mass
    };
    assert_close(mass(&but(&text, "airframe {", &format!("{own}\nairframe {{"))), 3e-3, 1e-9);
    assert_close(mass(&text), 9e-3, 1e-9);
}

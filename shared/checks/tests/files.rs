//! Names that nothing uses or that hide others, and sizes that are hardly meant.
#![allow(clippy::unwrap_used)]

use crate::support;
use finwright_checks::example::BASE;
use support::{analysis_by_default as analysis, fixed};

fn rules(text: &str) -> Vec<(&'static str, String)> {
    analysis(text).findings.iter().map(|f| (f.rule, f.message.clone())).collect()
}

fn and(more: &str) -> String {
    format!("{BASE}{more}\n")
}

#[test]
fn everything_that_nothing_uses_is_told_by_its_kind_and_taken_out() {
    for (more, said) in [
        ("let spare = 3 mm", "nothing uses the value `spare`"),
        ("site hall { elevation: 20 m }", "nothing uses site `hall`"),
        ("pad spare { rod { diameter: 3 mm; length: 1 m } }", "nothing uses pad `spare`"),
        ("material gum { density: 900 kg/m3 }", "nothing uses material `gum`"),
        ("section own { width: 30 mm }", "nothing uses section `own`"),
        (
            "motor c1 { diameter: 18 mm; length: 70 mm; mass: 20 g; propellant: 9 g\n  curve: [0 s: 6 N, 1 s: 0 N]\n}",
            "nothing uses motor `c1`",
        ),
    ] {
        let text = and(more);
        let found = analysis(&text);
        let told: Vec<_> = found.findings.iter().map(|f| (f.rule, f.message.as_str())).collect();
        assert_eq!(told, [("file/unused", said)], "{more}");
        assert_eq!(fixed(&text, &found.findings[0]), BASE, "{more}");
    }
}

#[test]
fn what_stands_with_others_on_its_line_is_taken_out_by_itself() {
    let text = BASE.replace("let caliber = 24.8 mm", "let caliber = 24.8 mm\nlet spare = 3 mm # kept");
    let found = analysis(&text);
    assert_eq!(fixed(&text, &found.findings[0]), text.replace("let spare = 3 mm # kept", " # kept"));
}

#[test]
fn a_use_anywhere_counts() {
    for (more, old, new) in [
        ("let spare = 3 mm", "at: 60 mm from front; drag", "at: 57 mm + spare from front; drag"),
        ("let spare = 3 mm", "curve: [0 s: 0 N, 0.05 s: 9 N", "curve: [0 s: 0 N, 0.05 s: 9 N * (spare / 3 mm)"),
        ("let spare = 0.1 g", "mass: 4 g;", "mass: 4 g ± spare;"),
        ("let spare = 3 mm\nlet half = spare / 2", "at: 60 mm from front; drag", "at: 58.5 mm + half from front; drag"),
        ("let spare = 3 mm", "at: 60 mm from front; drag", "at: max(spare, 60 mm) from front; drag"),
        ("section own { width: 15 mm; mouth: 3.3 mm; second_moment: 2200 mm4; button_mass: 0.6 g; material: aluminium \
            }", "slot: slim", "slot: own"),
        ("material iron { density: 7850 kg/m3; stiffness: 200 GPa }", "material: steel", "material: iron"),
    ] {
        let text = and(more).replace(old, new);
        assert_ne!(text, and(more), "{old}");
        assert_eq!(rules(&text), [], "{more}");
    }
}

#[test]
fn half_typed_files_and_files_of_parts_arent_told_of_what_they_dont_use() {
    let spare = "site hall { elevation: 20 m }";
    let broken = and(spare).replace("delay: 4 s\n", "delay:\n");
    assert!(!rules(&broken).iter().any(|(rule, _)| *rule == "file/unused"));
    let misspelt = and(spare).replace("site: meadow }\nflight two", "site: medow }\nflight two");
    assert!(!rules(&misspelt).iter().any(|(rule, _)| *rule == "file/unused"));
    let parts: String = and(spare).lines().filter(|l| !l.starts_with("flight")).map(|l| format!("{l}\n")).collect();
    assert!(!rules(&parts).iter().any(|(rule, _)| *rule == "file/unused"));
}

#[test]
fn a_stock_material_of_ones_own_hides_the_built_in_one_only_where_it_is_used() {
    assert_eq!(rules(&and("material pine { density: 480 kg/m3 }")), []);
    let told = rules(&and("material basswood { density: 400 kg/m3 }"));
    assert_eq!(
        told,
        [("file/shadows", "material `basswood` hides the built-in one: 400 kg/m3 here, 420 kg/m3 there".to_string())]
    );
    let allowed = and("# allow file/shadows: ours is lighter, weighed\nmaterial basswood { density: 400 kg/m3 }");
    assert_eq!(rules(&allowed), []);
    // What a rod or a lug is of where it doesn't say is in use too.
    let rod = BASE.replace("length: 1 m; material: steel", "length: 1 m");
    assert_eq!(
        rules(&format!("{rod}material steel {{ density: 7800 kg/m3; stiffness: 200 GPa }}\n")),
        [("file/shadows", "material `steel` hides the built-in one: 7800 kg/m3 here, 7850 kg/m3 there".to_string())]
    );
    let used = BASE.replace("let caliber", "use \"club.finw\"\nlet caliber");
    let found = support::analysis_with(&used, &[("club.finw", "site meadow { elevation: 5 m }\n")]);
    let told: Vec<_> = found.findings.iter().map(|f| f.message.as_str()).collect();
    assert_eq!(told, ["site `meadow` hides the one of club.finw"]);
}

#[test]
fn a_slip_of_the_unit_is_offered_the_unit_that_was_meant() {
    let (odd, never) = ("file/odd-size", "value/out-of-range");
    for (old, new, rule, meant) in [
        ("length: 70 mm; base", "length: 7 m; base", odd, Some("7 cm")),
        ("length: 70 mm; base", "length: 70 m; base", never, Some("70 mm")),
        ("thickness: 1.6 mm; material", "thickness: 1.6 um; material", never, Some("1.6 mm")),
        ("diameter: 3.2 mm; length: 1 m;", "diameter: 3.2 m; length: 1 m;", never, Some("3.2 mm")),
        ("mass: 19 g", "mass: 19 mg", odd, Some("19 g")),
        ("parachute { diameter: 300 mm", "parachute { diameter: 300 m", never, Some("300 mm")),
        ("wind: 2 m/s", "wind: 35 m/s", odd, Some("35 km/h")),
        // A slip of the decimal point isn't taken for one of the unit: 0.016 m would be a possible fin, and a strange
        // one.
        ("thickness: 1.6 mm; material", "thickness: 0.016 mm; material", never, None),
        ("thickness: 1.6 mm; material", "thickness: 0.09 mm; material", odd, None),
    ] {
        let text = BASE.replace(old, new);
        assert_ne!(text, BASE, "{old}");
        let found = analysis(&text);
        let sizes: Vec<_> = found.findings.iter().filter(|f| [odd, never].contains(&f.rule)).collect();
        assert!(sizes.len() == 1 && sizes[0].rule == rule, "{new}: {:?}", rules(&text));
        let offered = sizes[0].fixes.first().map(|fix| fix.edits[0].text.as_str());
        assert_eq!(offered, meant, "{new}");
    }
}

/// What is beyond anything that flies is told where it's said, once for all that use it, and nothing follows from it.
#[test]
fn an_impossible_value_behind_a_name_is_told_where_it_is_said() {
    let text = BASE.replace("let caliber = 24.8 mm", "let caliber = 24.8 m");
    let found = analysis(&text).findings;
    let told: Vec<_> = found.iter().filter(|f| f.rule != "file/not-checked").collect();
    assert!(told.len() == 1 && told[0].rule == "value/out-of-range", "{told:#?}");
    assert_eq!(told[0].place.span.of(&text), "24.8 m");
    assert_eq!(told[0].labels[0].place.span.of(&text), "caliber");
    assert_eq!(support::fixed(&text, told[0]), BASE);
}

#[test]
fn a_value_behind_a_name_is_told_where_it_is_used_and_not_rewritten() {
    let text = BASE.replace("let caliber = 24.8 mm", "let caliber = 2.48 m");
    let found = analysis(&text);
    let odd: Vec<_> = found.findings.iter().filter(|f| f.rule == "file/odd-size").collect();
    assert!(
        odd.len() == 2 && odd.iter().all(|f| f.fixes.is_empty() && f.place.span.of(&text) == "caliber"),
        "{odd:#?}"
    );
}

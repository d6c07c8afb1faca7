//! Each rule of the language on a line that breaks it. The rest of the design keeps its meaning.
#![allow(clippy::unwrap_used)]

use crate::support;
use support::{analysis, analysis_with, expect, fixed, sound_but, sound_with, unmark};

#[test]
fn near_misses_are_suggested_and_mended() {
    for (old, new, rule, said) in [
        ("outer: caliber; inner", "outer: «calber»; inner", "name/unknown-name", "nothing here is named `calber`"),
        ("fins main {", "«finns» main {", "name/unknown-block", "there is no block `finns`"),
        ("span: 40 mm", "«spann»: 40 mm", "name/unknown-field", "`fins` has no field `spann`"),
        ("thickness: 1.6 mm", "thickness: 1.6 «mmm»", "unit/unknown-unit", "`mmm` isn't a unit"),
        ("shape: ogive", "shape: «ogiv»", "name/unknown-name", "`shape` can't be `ogiv`"),
        (
            "guided_by: [only]",
            "guided_by: [«onlly»]",
            "name/unknown-name",
            "no lug, button or rail guide is named `onlly`",
        ),
        (
            "pad: stand; guided_by: [only]",
            "pad: «stnd»; guided_by: [only]",
            "name/unknown-name",
            "there is no pad `stnd`",
        ),
        ("material: steel", "material: «steeel»", "name/unknown-name", "there is no material `steeel`"),
        ("at: 40 mm from front", "at: 40 mm from «frnt»", "name/unknown-name", "there is no place `frnt`"),
        ("slot: mini", "slot: «mni»", "name/unknown-name", "there is no rail section `mni`"),
    ] {
        let marked = sound_but(old, new);
        let (text, _) = unmark(&marked);
        let found = expect(&marked, &[(rule, said)]);
        let finding = found.findings.iter().find(|f| f.rule == rule).unwrap();
        assert!(finding.help.starts_with("did you mean `"), "{}", finding.help);
        let mended = analysis(&fixed(&text, finding));
        assert!(mended.findings.is_empty(), "{new}: {:#?}", mended.findings);
    }
}

#[test]
fn a_bare_number_is_refused_with_the_units_that_fit() {
    let found = expect(
        &sound_but("sweep: 25 mm", "sweep: «25»"),
        &[("unit/missing-unit", "`25` has no unit; a length is due")],
    );
    assert!(found.findings[0].help.contains("mm, cm, m, in, ft"), "{}", found.findings[0].help);
}

#[test]
fn a_quantity_of_another_kind_is_refused() {
    expect(&sound_but("root: 50 mm", "root: «50 g»"), &[("unit/wrong-dimension", "`50 g` is a mass; a length is due")]);
    expect(
        &sound_but("root: 50 mm", "root: 40 mm + «10 g»"),
        &[("unit/wrong-dimension", "a mass can't be added to a length")],
    );
    expect(
        &sound_but("root: 50 mm", "root: «2 * 5 mm * 5 mm»"),
        &[("unit/wrong-dimension", "is an area; a length is due")],
    );
}

#[test]
fn units_with_two_readings_are_refused_with_both() {
    let found = expect(&sound_but("mass: 3 g", "mass: 3 «gr»"), &[("unit/unknown-unit", "`gr` isn't a unit")]);
    assert!(found.findings[0].help.contains("grams") && found.findings[0].help.contains("grains"));
    expect(&sound_but("mass: 3 g", "mass: 3 «lbs»"), &[("unit/unknown-unit", "`lbs`")]);
}

#[test]
fn a_decimal_comma_is_explained() {
    let found = expect(
        &sound_but("thickness: 1.6 mm", "thickness: 1«,6» mm"),
        &[("syntax/unreadable-line", "`1,6` has a comma in the number")],
    );
    assert!(found.findings.iter().any(|f| f.help == "decimals take a point: `1.6`"));
}

#[test]
fn half_typed_lines_cost_only_themselves() {
    for (old, new, rule) in [
        ("span: 40 mm;", "«span:»;", "syntax/missing-value"),
        ("span: 40 mm;", "«span»;", "syntax/unreadable-line"),
        ("span: 40 mm;", "span: 40 mm +«;»", "syntax/unreadable-line"),
        ("span: 40 mm;", "span: (40 mm«;»", "syntax/unreadable-line"),
    ] {
        let (text, _) = unmark(&sound_but(old, new));
        let found = analysis(&text);
        let syntax: Vec<_> = found.findings.iter().filter(|f| f.rule.starts_with("syntax/")).collect();
        assert_eq!(syntax.len(), 1, "{new}: {:#?}", found.findings);
        assert_eq!(syntax[0].rule, rule);
        let line = text.lines().position(|l| l.contains("fins main")).unwrap();
        let at = text[..syntax[0].place.span.start as usize].matches('\n').count();
        assert_eq!(at, line, "{new}");
        // What doesn't hang on the fins is still known.
        assert!(found.assessment.airframe.weights.iter().filter(|w| w.is_some()).count() >= 8);
    }
}

#[test]
fn values_that_need_each_other_are_told_with_their_chain() {
    let text =
        sound_but("let caliber = 24.8 mm", "let caliber = wide - 1 mm\nlet wide = thick * 2\nlet thick = caliber / 2");
    let found = analysis(&text);
    let finding = found.findings.iter().find(|f| f.rule == "name/circular-value").unwrap();
    assert!(finding.message.contains("caliber → wide → thick → caliber"), "{}", finding.message);
}

#[test]
fn a_block_called_like() {
    let text = sound_but("pad track {", "«pad like» {");
    let found = expect(&text, &[("syntax/unreadable-line", "can't read `pad like` as a block's first line")]);
    assert!(found.findings[0].help.ends_with("it's no name itself"), "{}", found.findings[0].help);
}

#[test]
fn one_name_for_two_things() {
    let found = expect(
        &sound_but("let caliber = 24.8 mm", "let caliber = 24.8 mm\nlet «caliber» = 30 mm"),
        &[("name/repeated-name", "`caliber` is named twice")],
    );
    assert_eq!(found.findings[0].labels.len(), 1);
    expect(&sound_but("pad track", "pad «stand»"), &[("name/repeated-name", "a pad named `stand` is there already")]);
    expect(
        &sound_but("lug fore {", "lug «only» {").replace("[aft, fore]", "[only]"),
        &[("name/repeated-name", "a part named `only` is there already")],
    );
    expect(
        &sound_but("tip: 30 mm;", "tip: 30 mm; «tip»: 20 mm;"),
        &[("name/repeated-field", "`tip` is said twice in this fins")],
    );
}

#[test]
fn numbers_that_cannot_be() {
    for (old, new, said) in [
        ("length: 230 mm", "length: «0 mm»", "must be more than zero"),
        ("length: 230 mm", "length: «-230 mm»", "must be more than zero"),
        (
            "length: 230 mm",
            "length: «1e300 m»",
            "a `length` of 1.000e300 m in `tube` is beyond anything that flies (30 m)",
        ),
        ("sweep: 25 mm", "sweep: «1e300 m»", "more than 100000 m"),
        ("length: 230 mm", "length: «1e999 m»", "isn't a number that can be used"),
        ("length: 230 mm", "length: «230 mm / 0»", "isn't a number that can be used"),
        ("count: 3", "count: «3.5»", "isn't a whole number"),
        ("count: 3", "count: «40»", "must be from 1 to 12"),
        ("tilt: 2 deg", "tilt: «120 deg»", "must be from 0° to 60"),
    ] {
        expect(&sound_but(old, new), &[("value/out-of-range", said)]);
    }
    for word in ["nan", "inf", "infinity"] {
        expect(&sound_but("length: 230 mm", &format!("length: «{word}»")), &[("name/unknown-name", word)]);
    }
}

#[test]
fn values_of_another_form() {
    expect(&sound_but("root: 50 mm", "root: «\"50 mm\"»"), &[("value/wrong-form", "`root` takes a length")]);
    expect(&sound_but("code: \"A5-3\"", "code: «A8»"), &[("value/wrong-form", "`code` takes a text in quotes")]);
    expect(
        &sound_but("at: 40 mm from front", "at: «40 mm»"),
        &[("value/wrong-form", "`40 mm` doesn't say from where")],
    );
    expect(&sound_but("mass: 3 g", "mass: 3 g «from front»"), &[("value/wrong-form", "not a place")]);
    expect(
        &sound_but("shape: ogive", "shape: power «3»"),
        &[("value/out-of-range", "`power` takes a number from 0.05 to 1")],
    );
    expect(&sound_but("shape: ogive", "shape: ogive «3»"), &[("value/wrong-form", "`ogive` takes no number")]);
}

#[test]
fn broken_curves_are_told_at_their_point() {
    let curve = "[0 s: 0 N, 0.1 s: 8 N, 0.2 s: 10 N, 0.3 s: 4 N, 0.4 s: 0 N]";
    for (new, said) in [
        ("[0 s: 0 N, 0.1 s: 8 N, «0.1 s: 10 N», 0.3 s: 4 N, 0.4 s: 0 N]", "the curve has the time 0.1 s twice"),
        ("[0 s: 0 N, 0.1 s: 8 N, «0.05 s: 10 N», 0.3 s: 4 N, 0.4 s: 0 N]", "time goes back, from 0.1 s to 0.05 s"),
        ("[«-1 s: 0 N», 0.1 s: 8 N]", "before ignition"),
        ("[0 s: 0 N, «0.1 s: -8 N»]", "the thrust is negative"),
        ("«[0 s: 0 N]»", "has 1 point; two are the least"),
        ("«[]»", "has 0 points"),
        ("«[0 s: 0 N, 1 s: 0 N]»", "zero throughout"),
    ] {
        expect(&sound_but(curve, new), &[("motor/broken-curve", said)]);
    }
    expect(
        &sound_but(curve, "[0 s: 0 N, «0.1 N»: 8 N]"),
        &[("unit/wrong-dimension", "`0.1 N` is a force; a time is due")],
    );
    expect(&sound_but(curve, "[0 s: 0 N, «8 N»]"), &[("value/wrong-form", "a point of the curve has two values")]);
}

#[test]
fn used_files_give_their_definitions() {
    let parts = "material steel { density: 7900 kg/m3; stiffness: 200 GPa }\npad stand { rod { diameter: 3.2 mm; \
        length: 1 m }; stop: 50 mm; tilt: 2 deg; end: capped }\nlet caliber = 24.8 mm\n";
    let text = sound_with(&[
        ("let caliber = 24.8 mm", "use \"parts.finw\""),
        ("pad stand { rod { diameter: 3.2 mm; length: 1 m; material: steel }; stop: 50 mm; tilt: 2 deg; end: capped \
            }\n", ""),
    ]);
    let found = analysis_with(&text, &[("parts.finw", parts)]);
    assert!(found.findings.is_empty(), "{:#?}", found.findings);
    assert_eq!(found.sources[2].path.to_str(), Some("parts.finw"));
}

#[test]
fn used_files_that_cannot_be_had() {
    expect(
        &format!("use «\"nowhere.finw\"»\n{}", support::SOUND),
        &[("file/unreadable-file", "`nowhere.finw` can't be used: there is no such file")],
    );
    let text = format!("use \"a.finw\"\n{}", support::SOUND);
    let found = analysis_with(&text, &[("a.finw", "use \"b.finw\""), ("b.finw", "use \"a.finw\"")]);
    // The circle lies in the other files; it's told where this one leads there, and the design still stands.
    let told: Vec<_> = found.findings.iter().map(|f| (f.rule, f.place.span.of(&text))).collect();
    assert_eq!(told, [("file/circular-use", "\"a.finw\"")]);
    assert!(found.assessment.flights.iter().all(|f| f.run.is_some()));
    let found = analysis_with(&format!("use \"a.finw\"\n{}", support::SOUND), &[("a.finw", "use \"design.finw\"")]);
    assert!(found
        .design
        .problems
        .iter()
        .any(|p| p.rule == "file/circular-use" && p.message.contains("design.finw → a.finw → design.finw")));
}

#[test]
fn a_curve_from_a_file() {
    let with = |csv: &str| {
        let text = sound_but("[0 s: 0 N, 0.1 s: 8 N, 0.2 s: 10 N, 0.3 s: 4 N, 0.4 s: 0 N]", "file \"a5.csv\"");
        let found = analysis_with(&text, &[("a5.csv", csv)]);
        let points = found.design.motors[0].curve.as_ref().map(|c| c.points.clone());
        (
            points,
            found
                .findings
                .iter()
                .filter(|f| f.rule != "file/not-checked")
                .map(|f| format!("{}: {} {}", f.rule, f.message, f.help))
                .collect::<Vec<_>>(),
        )
    };
    let points = vec![(0.0, 0.0), (0.1, 8.0), (0.2, 10.0), (0.3, 4.0), (0.4, 0.0)];
    for csv in [
        "time,thrust\n0,0\n0.1,8\n0.2,10\n0.3,4\n0.4,0\n",
        "# bench\n0;0\r\n0.1;8\r\n\r\n0.2;10 # peak\r\n0.3;4\r\n0.4;0",
        "\u{FEFF}t (s)\tF (N)\n0\t0\n0.1\t8\n0.2\t10\n0.3\t4\n0.4\t0",
        "0 0\n0.1 8\n0.2 10\n0.3 4\n0.4 0",
    ] {
        assert_eq!(with(csv), (Some(points.clone()), vec![]), "{csv}");
    }
    let (none, told) = with("0;0\n0,1;8,5\n0,2;0");
    assert!(none.is_none() && told[0].contains("line 2 of `a5.csv`: `0,1;8,5` has a decimal comma"), "{told:?}");
    let (_, told) = with("0,0\n0,1,8,5");
    assert!(told[0].contains("decimal comma"), "{told:?}");
    let (_, told) = with("0;0\n0.1;fast");
    assert!(told[0].contains("line 2") && told[0].contains("isn't two numbers"), "{told:?}");
}

#[test]
fn misplaced_blocks_are_told_where_they_belong() {
    let text = format!("{}«lug» stray {{ bore: 4 mm }}\n", support::SOUND);
    let found = expect(&text, &[("name/unknown-block", "`lug` can't stand in a file")]);
    assert!(found.findings[0].help.contains("`tube` or `taper`"));
    expect(&format!("{}«length»: 3 mm\n", support::SOUND), &[("name/unknown-field", "stands outside of any block")]);
    expect(&format!("{}«airframe» {{ }}\n", support::SOUND), &[("name/repeated-name", "a file has one airframe")]);
}

#[test]
fn files_that_say_nothing_or_too_new_things() {
    for text in ["", "\n\n", "# only a comment\n"] {
        let rules: Vec<_> = analysis(text).findings.iter().map(|f| f.rule).collect();
        assert_eq!(rules, ["file/empty-file"], "{text:?}");
    }
    expect(&support::SOUND.replace("finwright 1", "finwright «2»"), &[("file/unknown-version", "version 2")]);
}

#[test]
fn a_byte_order_mark_and_every_newline_are_understood() {
    let text = format!("{}{}", char::from_u32(0xFEFF).unwrap(), support::SOUND);
    for text in [text.clone(), text.replace('\n', "\r\n"), text.replace('\n', "\r")] {
        assert!(analysis(&text).findings.is_empty());
    }
}

//! Slips that people make: each is told once, where it is, by its true cause, and a fix mends it where it's sure what
//! was meant. Each stands in the small sound design as the one thing that's changed; the snapshot reads like a page.
#![allow(clippy::unwrap_used)]

use crate::support::{analysis, fixed, told, unmark, SOUND};
use finwright_checks::rule::Concern;
use finwright_checks::{rule, Analysis, Finding, Level};

/// What the sound design says, and what a slip makes of it, with the place of the finding marked.
type Change = (&'static str, &'static str);

const NUMBERS: &[Change] = &[
    ("count: 3", "count: «three»"),
    ("length: 230 mm", "length: 230«,5» mm"),
    ("length: 230 mm", "length: 1«,230» mm"),
    ("length: 1 m; material", "length: 1«,000».0 mm; material"),
    ("length: 1 m; material", "length: «1 000» mm; material"),
    ("length: 230 mm", "length: «9-1/2 in»"),
    ("length: 230 mm", "length: 9«½» in"),
    ("length: 230 mm", "length: «~»230 mm"),
    ("length: 230 mm", "length: «about» 230 mm"),
    ("length: 230 mm", "length: «220-240 mm»"),
    ("length: 230 mm", "length: «230 mm +- 1 mm»"),
    ("length: 230 mm", "length: 2 «×» 115 mm"),
    ("length: 230 mm", "length: 240 mm «–» 10 mm"),
    ("length: 230 mm", "length: «= »2 * 115 mm"),
    ("0.1 s: 8 N,", "«0,1 s»: 8 N,"),
];

const UNITS: &[Change] = &[
    ("length: 230 mm", "length: «230»"),
    ("sweep: 25 mm", "sweep: «25»"),
    ("at: 0 mm from back", "at: «0» from back"),
    ("length: 230 mm", "length: 9«\"»"),
    ("length: 230 mm", "length: 9 «\"»"),
    ("length: 230 mm", "length: 1«'»"),
    ("length: 230 mm", "length: 0«'» 9\""),
    ("length: 230 mm", "length: 8-1/2«\"»"),
    ("length: 230 mm", "length: «1 ft 3 in»"),
    ("length: 230 mm", "length: 9 «inches»"),
    ("length: 230 mm", "length: 9 in«.»"),
    ("length: 230 mm", "length: 230 «millimeters»"),
    ("length: 230 mm", "length: «mm 230»"),
    ("mass: 3 g", "mass: 3 «grams»"),
    ("mass: 3 g", "mass: 0.01 «lbs»"),
    ("length: 1 m; material", "length: 1 «mtr»; material"),
    ("clock: 180 deg", "clock: 180 «degrees»"),
    ("clock: 180 deg", "clock: 180«º»"),
    (
        "curve: [0 s: 0 N, 0.1 s: 8 N, 0.2 s: 10 N, 0.3 s: 4 N, 0.4 s: 0 N]",
        "curve: [«0: 0», 0.1: 8, 0.2: 10, 0.3: 4, 0.4: 0]",
    ),
    ("nose { shape: ogive; length: 70 mm", "nose { shape: ogive; length: «70 m»"),
    ("let caliber = 24.8 mm", "let caliber = «24.8 m»"),
    ("thickness: 1.6 mm", "thickness: «1.6 m»"),
];

const PLACES: &[Change] = &[
    ("at: 0 mm from back", "at: «bottom»"),
    ("at: 0 mm from back", "at: «tail»"),
    ("at: 12 mm from back; clock: 60 deg", "at: «rear»; clock: 60 deg"),
    ("at: 12 mm from back; clock: 60 deg", "at: «engine»; clock: 60 deg"),
    ("at: 40 mm from front", "at: «top»"),
    ("at: 40 mm from front", "at: «middle»"),
    ("at: balance", "at: «cg»"),
    ("at: balance", "at: «balance point»"),
    ("at: balance", "at: «the center of gravity»"),
    ("at: 0 mm from back", "at: 0 mm from «bottom»"),
    ("at: 40 mm from front", "at: 40 mm from «top»"),
    ("at: 0 mm from back", "at: 0 mm from «end»"),
    ("at: 0 mm from back", "at: 0 mm «from the back end»"),
    ("at: 40 mm from front", "at: 40 mm «from front of body»"),
    ("at: 40 mm from front", "at: 40 mm «from tail fin»"),
    ("at: 40 mm from front", "at: 40 mm from «nose»"),
    ("at: 40 mm from front", "at: 40 mm from «middle»"),
    ("at: 40 mm from front", "at: 40 mm from «cg»"),
    ("at: 20 mm ahead of balance", "at: 20 mm ahead of «cg»"),
    ("at: 20 mm ahead of balance", "at: 20 mm «above the balance point»"),
    ("at: 20 mm ahead of balance", "at: 20 mm «in front of cg»"),
    ("at: 20 mm ahead of balance", "at: «20 mm»"),
];

const HEADERS: &[Change] = &[
    (
        "pad stand {",
        "motor «C7-5» { diameter: 18 mm; length: 70 mm; mass: 20 g; propellant: 6 g; curve: [0 s: 7 N, 1 \
        s: 0 N] }\npad stand {",
    ),
    ("pad track {", "pad «20mm» {"),
    ("tube body {", "tube «main body» {"),
    ("let caliber = 24.8 mm", "«design \"X\"»\nlet caliber = 24.8 mm"),
    ("let caliber = 24.8 mm", "design «Egret» { }\nlet caliber = 24.8 mm"),
    ("tube body {", "tube «\"body\"» {"),
    ("motor a5 {", "motor «\"a5\"» {"),
    ("airframe {", "airframe «\"Egret\"» {"),
    ("tube body {", "tube body« =» {"),
    ("airframe {", "«airframe:»"),
    ("airframe {", "«airframe»"),
    ("tube body {", "tube body\n  «{»"),
    ("lug aft { bore", "lug aft «extends» fore { bore"),
    ("tube body {", "«body» {"),
    ("tube body {", "«body tube» {"),
    ("nose {", "«cone» {"),
    ("nose {", "«noseCone» {"),
    ("fins main {", "«fin» main {"),
    ("fins main {", "«fin set» main {"),
    ("lug only {", "«launch_lug» only {"),
    ("lug only {", "«launch lug» only {"),
    ("button peg {", "«rail_button» peg {"),
    ("button peg {", "«rail-button» peg {"),
    ("mount engine {", "«motor mount» {"),
    ("mount engine {", "«motor» engine {"),
    ("streamer { length: 500 mm; width: 50 mm;", "«chute» { diameter: 300 mm;"),
    ("streamer { length: 500 mm; width: 50 mm;", "«shock cord» { length: 900 mm;"),
    ("streamer { length: 500 mm; width: 50 mm;", "«payload» { length: 50 mm;"),
    ("motor a5 {", "«engine» a5 {"),
    ("pad stand {", "«launchpad» stand {"),
    ("flight one {", "«launch» one {"),
    ("airframe {", "«rocket» {"),
    ("  nose { shape", "  «fins» { count: 3; thickness: 2 mm }\n  nose { shape"),
    ("  nose { shape", "  «launch_lug» { bore: 4 mm }\n  nose { shape"),
];

const FIELDS: &[Change] = &[
    (
        "outer: caliber; inner: 24 mm; material: kraft_paper\n",
        "«diameter»: caliber; inner: 24 mm; material: kraft_paper\n",
    ),
    (
        "outer: caliber; inner: 24 mm; material: kraft_paper\n",
        "outer: caliber; «wall»: 0.4 mm; material: kraft_paper\n",
    ),
    ("outer: caliber; inner: 24 mm; material: kraft_paper\n", "outer: caliber; «ID»: 24 mm; material: kraft_paper\n"),
    ("bore: 18 mm; outer: 18.8 mm;", "bore: 18 mm; «wall»: 0.4 mm;"),
    ("bore: 18 mm; outer: 18.8 mm;", "«diameter»: 18 mm; outer: 18.8 mm;"),
    ("base: caliber", "«diameter»: caliber"),
    ("shape: ogive", "«type»: ogive"),
    ("span: 40 mm", "«height»: 40 mm"),
    ("root: 50 mm", "«root chord»: 50 mm"),
    ("thickness: 1.6 mm", "«thick»: 1.6 mm"),
    ("span: 40 mm", "«width»: 40 mm"),
    ("count: 3", "«number»: 3"),
    ("at: 0 mm from back", "«position»: 0 mm from back"),
    ("at: 40 mm from front", "«location»: 40 mm from front"),
    ("mass: 3 g", "«weight»: 3 g"),
    ("mass: 3 g", "mass: 3 g; «weight»: 3 g"),
    ("sticks_out: 5 mm", "«sticks-out»: 5 mm"),
    ("sticks_out: 5 mm", "«sticks out»: 5 mm"),
    ("sticks_out: 5 mm", "«sticksOut»: 5 mm"),
    ("guided_by: [only]", "«guidedBy»: [only]"),
    ("guided_by: [only]", "«lugs»: [only]"),
    ("profile: 20 mm", "«rail»: 20 mm"),
    ("propellant: 3.3 g", "«fuel»: 3.3 g"),
    ("rod { diameter: 3.2 mm; length: 1 m; material: steel }", "«rod»: 1/8 in"),
    ("rail { slot: mini; length: 1 m }", "«rail»: 20 mm"),
    ("let caliber = 24.8 mm", "«name»: \"Egret\"\nlet caliber = 24.8 mm"),
    ("let caliber = 24.8 mm", "«caliber»: 24.8 mm"),
];

const MARKS: &[Change] = &[
    ("length: 230 mm", "length «=» 230 mm"),
    ("length: 230 mm", "«length 230 mm»"),
    ("material: basswood", "«material basswood»"),
    ("outer: caliber; inner", "outer: caliber«,» inner"),
    ("outer: caliber; inner", "outer: caliber «inner»"),
    (
        "    length: 230 mm; outer: caliber; inner: 24 mm; material: kraft_paper\n",
        "    length: 230 mm«,»\n    outer: caliber; inner: 24 mm; material: kraft_paper\n",
    ),
    ("code: \"A5-3\"", "code: «“A5-3”»"),
    ("code: \"A5-3\"", "code: «'A5-3'»"),
    ("code: \"A5-3\"", "code: «A5-3»"),
    ("length: 230 mm", "length: «\"230 mm\"»"),
    ("length: 230 mm", "«\"length\"»: 230 mm"),
    ("material: basswood", "material: «\"basswood\"»"),
    ("let caliber = 24.8 mm", "«// the tube»\nlet caliber = 24.8 mm"),
    ("let caliber = 24.8 mm", "let caliber = 24.8 mm «// the { tube»"),
    ("let caliber = 24.8 mm", "«/* the tube */»\nlet caliber = 24.8 mm"),
    ("let caliber = 24.8 mm", "«/* the tube\n * { of paper\n */»\nlet caliber = 24.8 mm"),
    ("let caliber = 24.8 mm", "«-- the tube»\nlet caliber = 24.8 mm"),
    ("let caliber = 24.8 mm", "let caliber = 24.8 mm «--»paper"),
    ("length: 230 mm;", "length: 230 mm «long»;"),
    ("finwright 1", "«finwright 1.0»"),
    ("finwright 1", "  «finwright 1.0»"),
    ("finwright 1", "\u{FEFF}«finwright 1.0»"),
    ("finwright 1", "«finwright: 1»"),
    ("let caliber = 24.8 mm", "«let caliber: 24.8 mm»"),
    ("let caliber = 24.8 mm", "«caliber» = 24.8 mm"),
    ("let caliber = 24.8 mm", "«const» caliber = 24.8 mm"),
    ("let caliber = 24.8 mm", "let caliber = 24.8 mm\nlet note = 1«,5» mm"),
    ("    length: 230 mm;", "    «-» length: 230 mm;"),
    ("at: 0 mm from back }", "at: 0 mm from back }«,»"),
];

const NAMES_AND_WORDS: &[Change] = &[
    ("guided_by: [aft, fore]", "guided_by: «aft, fore»"),
    ("guided_by: [aft, fore]", "guided_by: «aft and fore»"),
    ("guided_by: [aft, fore]", "guided_by: «aft + fore»"),
    ("guided_by: [aft, fore]", "guided_by: «aft fore»"),
    ("motor: a5; pad: stand; guided_by: [only]", "motor: «A5-3»; pad: stand; guided_by: [only]"),
    ("material: basswood", "material: «plastic»"),
    ("material: basswood", "material: «wood»"),
    ("material: steel", "material: «metal»"),
    ("material: basswood", "material: «paper»"),
    ("inner: 24 mm; material: kraft_paper", "inner: 24 mm; material: «cardboard tube»"),
    ("material: balsa", "material: «balsa wood»"),
    ("material: balsa", "material: «fibreglass»"),
    ("shape: ogive", "shape: «conical»"),
    ("shape: ogive", "shape: «tangent ogive»"),
    ("shape: ogive", "shape: «\"ogive\"»"),
    ("thickness: 1.6 mm", "plan: «delta»; thickness: 1.6 mm"),
    ("thickness: 1.6 mm", "leading: «round»; thickness: 1.6 mm"),
    ("end: capped", "end: «yes»"),
    ("count: 3", "count: «true»"),
    ("mass: 3 g", "mass: «?»"),
    ("mass: 3 g", "mass: «tbd»"),
    (
        "curve: [0 s: 0 N, 0.1 s: 8 N, 0.2 s: 10 N, 0.3 s: 4 N, 0.4 s: 0 N]",
        "curve: [«0 s, 0 N», 0.1 s, 8 N, 0.2 s, 10 N, 0.3 s, 4 N, 0.4 s, 0 N]",
    ),
    (
        "curve: [0 s: 0 N, 0.1 s: 8 N, 0.2 s: 10 N, 0.3 s: 4 N, 0.4 s: 0 N]",
        "curve: «[(0 s, 0 N), (0.1 s, 8 N), (0.2 s, 10 N), (0.3 s, 4 N), (0.4 s, 0 N)]»",
    ),
];

#[test]
fn each_slip_is_told_once_by_its_cause_and_mended_by_its_fix() {
    let (mut page, mut faults) = (String::new(), Vec::new());
    for (title, changes) in [
        ("Numbers", NUMBERS),
        ("Units and sizes", UNITS),
        ("Places", PLACES),
        ("A block's first line", HEADERS),
        ("A field's name", FIELDS),
        ("Marks", MARKS),
        ("Names and words", NAMES_AND_WORDS),
    ] {
        page += &format!("# {title}\n\n");
        for (old, new) in changes {
            page += &entry(old, new, &mut faults);
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
    insta::assert_snapshot!(page);
}

/// A slip as the page shows it: what was written, what is said, and the text after the fix.
fn entry(old: &str, new: &str, faults: &mut Vec<String>) -> String {
    assert!(SOUND.contains(old), "`{old}` stands in the sound design");
    let (text, marks) = unmark(&SOUND.replacen(old, new, 1));
    let found = analysis(&text);
    let [finding] = told(&found)[..] else {
        let said = told(&found);
        let said: Vec<_> =
            said.iter().map(|f| format!("{} at {:?}: {}", f.rule, f.place.span.of(&text), f.message)).collect();
        faults.push(format!("`{new}` is told {} times: {said:#?}", said.len()));
        return String::new();
    };
    if finding.place.span.range() != marks[0] {
        faults.push(format!("`{new}` is told at {:?}", finding.place.span.of(&text)));
    }
    if finding.message.chars().count() > 80 || finding.help.is_empty() {
        faults.push(format!("`{new}` is told at length, or without help: {} | {}", finding.message, finding.help));
    }
    let mut entry = format!("{}\n", new.trim_end().lines().map(str::trim).collect::<Vec<_>>().join("\n"));
    entry += &format!("  {} {}: {}\n  help: {}\n", finding.level.word(), finding.rule, finding.message, finding.help);
    let labels = finding.labels.iter().map(|label| (label.place.span.of(&text), &label.text));
    labels.for_each(|(at, said)| entry += &format!("  there: {at:?}: {said}\n"));
    entry + &mended(&text, finding, &found, faults) + "\n"
}

/// How many errors are about words; what rules find once they are understood was there before.
fn of_words(analysis: &Analysis) -> usize {
    let is_of_words = |f: &&Finding| rule(f.rule).is_some_and(|rule| rule.concerns == Concern::Words);
    analysis.findings.iter().filter(|f| f.level == Level::Error).filter(is_of_words).count()
}

/// The lines that the fix changes, as they are after it: its finding is gone, and fewer words are wrong.
fn mended(text: &str, finding: &Finding, before: &Analysis, faults: &mut Vec<String>) -> String {
    let Some(fix) = finding.fixes.first() else { return String::new() };
    let mended = fixed(text, finding);
    let after = analysis(&mended);
    let left: Vec<_> = told(&after).iter().map(|f| format!("{}: {}", f.rule, f.message)).collect();
    let is_gone = !after.findings.iter().any(|f| f.rule == finding.rule && f.message == finding.message);
    if !is_gone || of_words(&after) >= of_words(before) {
        faults.push(format!("`{}` leaves {left:#?}", fix.title));
    }
    let (old, new): (Vec<&str>, Vec<&str>) = (text.lines().collect(), mended.lines().collect());
    let same = old.iter().zip(&new).take_while(|(a, b)| a == b).count();
    let tail = old.iter().rev().zip(new.iter().rev()).take_while(|(a, b)| a == b).count();
    let changed = &new[same..new.len() - tail.min(new.len() - same)];
    let mut shown = format!("  fix: {}\n", fix.title);
    changed.iter().for_each(|line| shown += &format!("  > {}\n", line.trim()));
    left.iter().for_each(|left| shown += &format!("  then: {left}\n"));
    shown
}

#[test]
fn what_only_looks_like_a_slip_is_met_with_silence() {
    for (old, new) in [
        ("nose {", "nose cone {"),
        ("length: 230 mm;", "length: 230 mm;;"),
        ("clock: 180 deg", "clock: 180°"),
        ("length: 230 mm", "length: 230mm"),
        ("code: \"A5-3\"", "code: \"A5-3 // 1,5 mm /* “x” */\""),
        ("length: 230 mm", "length: 115 mm - -115 mm"),
        ("let caliber = 24.8 mm", "let caliber = 24.8 mm # // -- /* {"),
        ("guided_by: [only]", "guided_by: only"),
    ] {
        assert!(SOUND.contains(old), "{old}");
        let found = analysis(&SOUND.replacen(old, new, 1));
        let said: Vec<_> = found.findings.iter().map(|f| format!("{}: {}", f.rule, f.message)).collect();
        assert!(said.is_empty(), "{new}: {said:#?}");
    }
}

/// Words of other languages are told, and stay words of no meaning: what is said with them isn't known.
#[test]
fn nothing_is_computed_from_a_slip() {
    for (old, new) in [
        ("count: 3", "count: three"),
        ("mass: 3 g", "weight: 3 g"),
        ("lug only {", "launch_lug only {"),
        ("motor a5 {", "engine a5 {"),
        ("length: 230 mm", "length: 230,0 mm"),
        ("nose { shape: ogive; length: 70 mm", "nose { shape: ogive; length: 70 m"),
        ("sticks_out: 5 mm", "sticks-out: 5 mm"),
        ("at: 0 mm from back", "at: bottom"),
    ] {
        let found = analysis(&SOUND.replacen(old, new, 1));
        let flights = &found.assessment.flights;
        assert!(flights.iter().all(|flight| flight.margin().is_none() || flight.run.is_none()), "{new}");
    }
}

/// A flight names each field that it lacks once, in the order of the reference.
#[test]
fn what_a_flight_lacks_is_listed_once_in_order() {
    for (flight, missing, broken) in [
        ("flight one { motor: a5; pad:; guided_by: [only] }", [].as_slice(), ["pad"].as_slice()),
        ("flight one { guided_by: [only]; pad: }", &["motor"], &["pad"]),
        ("flight one { site:; guided_by: [only] }", &["motor", "pad"], &["site"]),
        ("flight one { }", &["motor", "pad", "guided_by"], &[]),
    ] {
        let found = analysis(&SOUND.replace("flight one { motor: a5; pad: stand; guided_by: [only] }", flight));
        let read = &found.design.flights[0];
        assert_eq!((read.missing.as_slice(), read.broken.as_slice()), (missing, broken), "{flight}");
    }
}

/// A lug by the size of its rod: the advice says that lugs are sold by that.
#[test]
fn a_lug_of_the_rods_own_size_may_be_one_that_is_sold_for_it() {
    for (bore, expected) in [("1/8 in", true), ("3.2 mm", true), ("3.29 mm", false)] {
        let text = SOUND.replace("lug only { bore: 3.6 mm", &format!("lug only {{ bore: {bore}"));
        let found = analysis(&text);
        let tight = found.findings.iter().find(|f| f.rule == "guide/tight-fit").unwrap();
        assert!(tight.help.starts_with("a bore of 3.6 mm slides well"), "{}", tight.help);
        let says = tight.help.contains("a 1/8 in lug has a bore of some 3.6 to 4 mm, so measure it");
        assert_eq!(says, expected, "{bore}: {}", tight.help);
    }
}

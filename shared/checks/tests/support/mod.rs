//! Designs as test fixtures: text in, findings out, with the expected places marked in the text by `«` and `»`.
#![allow(clippy::unwrap_used, clippy::panic)]

use finwright_checks::example::BASE;
use finwright_checks::settings::{read, Settings};
use finwright_checks::{analyze, Analysis, Files, Finding, Snapshot};
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A small design that meets every check.
pub const SOUND: &str = r#"finwright 1
let caliber = 24.8 mm
airframe {
  nose { shape: ogive; length: 70 mm; base: caliber; material: basswood }
  tube body {
    length: 230 mm; outer: caliber; inner: 24 mm; material: kraft_paper
    fins main { count: 3; root: 50 mm; tip: 30 mm; span: 40 mm; sweep: 25 mm; thickness: 1.6 mm; material: balsa; at: 0 mm from back }
    mount engine { bore: 18 mm; outer: 18.8 mm; length: 70 mm; sticks_out: 5 mm; material: kraft_paper }
    streamer { length: 500 mm; width: 50 mm; mass: 3 g; at: 40 mm from front }
    cord { length: 600 mm; mass: 0.1 g; at: 60 mm from front }
    lug only { bore: 3.6 mm; length: 40 mm; wall: 0.3 mm; at: balance; clock: 60 deg }
    lug fore { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 20 mm ahead of balance; clock: 60 deg }
    lug aft { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 12 mm from back; clock: 60 deg }
    button peg { profile: 20 mm; at: 12 mm from back; clock: 180 deg }
  }
}
motor a5 {
  code: "A5-3"; diameter: 18 mm; length: 70 mm; mass: 16 g; propellant: 3.3 g; delay: 3 s
  curve: [0 s: 0 N, 0.1 s: 8 N, 0.2 s: 10 N, 0.3 s: 4 N, 0.4 s: 0 N]
}
pad stand { rod { diameter: 3.2 mm; length: 1 m; material: steel }; stop: 50 mm; tilt: 2 deg; end: capped }
pad track { rail { slot: mini; length: 1 m }; stop: 50 mm }
flight one { motor: a5; pad: stand; guided_by: [only] }
flight two { motor: a5; pad: stand; guided_by: [aft, fore] }
"#;

/// The sound design with one thing changed. What is replaced must be there exactly once.
pub fn sound_but(old: &str, new: &str) -> String {
    assert_eq!(SOUND.matches(old).count(), 1, "`{old}` must stand once in the sound design");
    SOUND.replace(old, new)
}

/// Several changes, one after the other.
pub fn sound_with(changes: &[(&str, &str)]) -> String {
    changes.iter().fold(SOUND.to_string(), |text, (old, new)| {
        assert_eq!(text.matches(old).count(), 1, "`{old}` must stand once");
        text.replace(old, new)
    })
}

/// The designs of a folder of tests/designs, by name.
pub fn designs(folder: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/designs").join(folder);
    let files = std::fs::read_dir(folder).unwrap().map(|file| file.unwrap().path());
    let mut found: Vec<PathBuf> = files.filter(|path| path.extension().is_some_and(|e| e == "finw")).collect();
    found.sort();
    found
}

/// Every design of the tests, good and bad.
pub fn every_design() -> Vec<PathBuf> {
    ["good", "bad"].into_iter().flat_map(designs).collect()
}

/// The analysis of a text by itself.
pub fn analysis(text: &str) -> Analysis {
    analysis_with(text, &[])
}

/// The analysis of a text by itself, checked with a `finwright.toml`.
pub fn analysis_set(text: &str, settings: &str) -> Analysis {
    analyze(&snapshot_set(text, settings))
}

/// What such an analysis is made from.
pub fn snapshot_set(text: &str, settings: &str) -> Snapshot {
    let settings = finwright_checks::settings::read("finwright.toml", settings);
    assert!(settings.problems.is_empty(), "{:?}", settings.problems);
    let files = [("quiet.csv", 0.05, 0.2), ("noisy.csv", 0.8, 0.2), ("begins_late.csv", 0.05, -0.02)];
    let record = |(name, noise, before): (&str, f64, f64)| (PathBuf::from(name), Arc::from(record(noise, before)));
    let files = Arc::new(Shelf(files.into_iter().map(record).collect()));
    Snapshot { path: "design.finw".into(), text: text.into(), files, settings: Arc::new(settings) }
}

/// What a stand wrote of the base's motor, every 2 ms from so many s before ignition on, with a zero of 0.4 N and noise.
pub fn record(noise: f64, before: f64) -> String {
    const CURVE: [(f64, f64); 7] =
        [(0.0, 0.0), (0.05, 9.0), (0.1, 14.0), (0.2, 13.0), (0.3, 6.0), (0.55, 5.0), (0.6, 0.0)];
    let thrust = |t: f64| {
        let pair = CURVE.windows(2).find(|pair| (pair[0].0..=pair[1].0).contains(&t));
        pair.map_or(0.0, |pair| pair[0].1 + (pair[1].1 - pair[0].1) * (t - pair[0].0) / (pair[1].0 - pair[0].0))
    };
    let rows = (0..500).map(|i| {
        let t = 0.002 * f64::from(i);
        // Spread evenly, by the golden ratio.
        let scatter = (f64::from(i) * 0.618_033_988_75).fract() - 0.5;
        format!("{t:.3},{:.3}\n", thrust(t - before) + 0.4 + noise * 3.46 * scatter)
    });
    format!("t [s], F [N]\n{}", rows.collect::<String>())
}

/// The analysis of a text by itself, with every rule as it is for anyone.
pub fn analysis_by_default(text: &str) -> Analysis {
    analysis_among(text, &[], Settings::default())
}

/// The analysis of a text beside other files. The sound design has a pad and a button that only some tests use, and
/// tests name values only to look at them, so that what nothing uses isn't told here.
pub fn analysis_with(text: &str, files: &[(&str, &str)]) -> Analysis {
    let settings = read("finwright.toml", "[levels]\n\"file/unused\" = \"off\"");
    assert!(settings.problems.is_empty(), "{:?}", settings.problems);
    analysis_among(text, files, settings)
}

fn analysis_among(text: &str, files: &[(&str, &str)], settings: Settings) -> Analysis {
    let files = files.iter().map(|(name, text)| (PathBuf::from(name), Arc::from(*text))).collect();
    analyze(&Snapshot {
        path: PathBuf::from("design.finw"),
        text: Arc::from(text),
        files: Arc::new(Shelf(files)),
        settings: Arc::new(settings),
    })
}

/// The analysis of a text by itself under settings.
pub fn analysis_under(settings: Settings, text: &str) -> Analysis {
    let files = Arc::new(Shelf(HashMap::new()));
    let path = PathBuf::from("design.finw");
    let mut analysis = analyze(&Snapshot { path, text: text.into(), files, settings: Arc::new(settings) });
    // The sound design has things that only some tests use.
    analysis.findings.retain(|finding| finding.rule != "file/unused");
    analysis
}

/// Checks that the findings are exactly these, in the order of the marks: each a rule and a part of its message.
pub fn expect(marked: &str, expected: &[(&str, &str)]) -> Analysis {
    let (text, marks) = unmark(marked);
    assert_eq!(marks.len(), expected.len(), "as many marks as findings");
    let analysis = analysis(&text);
    let found = told(&analysis);
    let shown: String = found
        .iter()
        .map(|f| format!("  {} at `{}`: {} | {}\n", f.rule, f.place.span.of(&text), f.message, f.help))
        .collect();
    assert_eq!(found.len(), expected.len(), "findings:\n{shown}");
    for ((finding, mark), (rule, part)) in found.iter().zip(&marks).zip(expected) {
        assert_eq!((finding.rule, finding.place.span.range()), (*rule, mark.clone()), "findings:\n{shown}");
        assert!(finding.message.contains(part), "`{}` should say `{part}`", finding.message);
        assert!(!finding.why.is_empty() && !finding.help.is_empty(), "why and help of {}", finding.rule);
    }
    analysis
}

/// The findings but for those that say what another one keeps from being checked.
pub fn told(analysis: &Analysis) -> Vec<&Finding> {
    analysis.findings.iter().filter(|f| f.rule != "file/not-checked").collect()
}

/// A text without its marks, and where they were.
pub fn unmark(marked: &str) -> (String, Vec<std::ops::Range<usize>>) {
    let (mut text, mut marks, mut open) = (String::new(), Vec::new(), None);
    for c in marked.chars() {
        match c {
            '«' => open = Some(text.len()),
            '»' => marks.push(open.take().unwrap()..text.len()),
            c => text.push(c),
        }
    }
    assert!(open.is_none(), "a mark isn't closed");
    (text, marks)
}

/// The text after a finding's first quick fix.
pub fn fixed(text: &str, finding: &Finding) -> String {
    let fix = finding.fixes.first().unwrap_or_else(|| panic!("{} has no fix", finding.rule));
    let mut edits = fix.edits.clone();
    edits.sort_by_key(|e| std::cmp::Reverse(e.place.span.start));
    edits.into_iter().fold(text.to_string(), |mut text, edit| {
        text.replace_range(edit.place.span.range(), &edit.text);
        text
    })
}

struct Shelf(HashMap<PathBuf, Arc<str>>);

impl Files for Shelf {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        self.0.get(path).cloned().ok_or_else(|| "there is no such file".to_string())
    }
}

/// The base of the rules' examples with some of its words replaced.
pub fn base_with(changes: &[(&str, &str)]) -> String {
    changes.iter().fold(BASE.to_string(), |text, (old, new)| {
        assert_eq!(text.matches(old).count(), 1, "`{old}` must stand once");
        text.replace(old, new)
    })
}

/// A rule's findings.
pub fn of<'a>(found: &'a Analysis, rule: &str) -> Vec<&'a Finding> {
    found.findings.iter().filter(|f| f.rule == rule).collect()
}

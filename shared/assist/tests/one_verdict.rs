//! One verdict: what compares pads, hovers and stands above a flight never advises what the check has an error for.
//!
//! The designs are the corpus, the corpus with lines missing or cut short, and the corpus with numbers made absurd:
//! text that nobody wrote.
#![allow(clippy::unwrap_used)]

use finwright_advice::compare::{compare, Wish};
use finwright_advice::words::answer;
use finwright_advice::Candidate;
use finwright_assist::{hover, lens_title};
use finwright_checks::{analyze, Analysis, Files, Level, Snapshot, Verdict};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::Arc;

struct Folder(PathBuf);

impl Files for Folder {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        std::fs::read_to_string(self.0.join(path)).map(Arc::from).map_err(|e| e.to_string())
    }
}

fn analysis(folder: &Path, text: &str) -> Analysis {
    analyze(&Snapshot {
        path: PathBuf::from("design.finw"),
        text: Arc::from(text),
        files: Arc::new(Folder(folder.to_path_buf())),
        settings: Arc::default(),
    })
}

/// The corpus, good and bad, with each text's folder.
fn corpus() -> Vec<(PathBuf, String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/designs");
    let folders = ["good", "bad", "projects/club", "projects/class", "projects/school/first_term"];
    let mut found = Vec::new();
    for folder in folders.map(|name| root.join(name)) {
        let mut files: Vec<PathBuf> = std::fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path()).collect();
        files.retain(|path| path.extension().is_some_and(|e| e == "finw"));
        files.sort();
        for path in files {
            // One that isn't text has nothing to judge.
            if let Ok(text) = std::fs::read_to_string(&path) {
                found.push((folder.clone(), path.file_name().unwrap().to_string_lossy().into_owned(), text));
            }
        }
    }
    assert!(found.len() > 100);
    found
}

#[test]
fn the_corpus_is_judged_alike_everywhere() {
    let mut advised = 0;
    for (folder, name, text) in corpus() {
        advised += judged_alike(&folder, &name, &text);
    }
    assert!(advised > 20, "{advised}");
}

/// Lines missing or cut in half.
#[test]
fn damaged_designs_are_judged_alike_everywhere() {
    let corpus = corpus();
    let places = corpus.iter().flat_map(|design| (0..design.2.lines().count()).map(move |at| (design, at)));
    let kind = |(design, at): &(&(PathBuf, String, String), usize)| first_word(design.2.lines().nth(*at).unwrap());
    for ((folder, name, text), at) in spread(places, kind, 41) {
        let lines: Vec<&str> = text.lines().collect();
        let without = [&lines[..at], &lines[at + 1..]].concat();
        judged_alike(folder, &format!("{name} without line {}", at + 1), &without.join("\n"));
        let mut cut = lines;
        let half = cut[at].char_indices().nth(cut[at].chars().count() / 2).map_or(0, |(i, _)| i);
        cut[at] = &cut[at][..half];
        judged_alike(folder, &format!("{name} with line {} cut", at + 1), &cut.join("\n"));
    }
}

/// Numbers three times as large, a third, and a hundredfold: slips of units and decimal points.
#[test]
fn designs_with_other_numbers_are_judged_alike_everywhere() {
    let corpus = corpus();
    let places = corpus.iter().flat_map(|design| numbers(&design.2).into_iter().map(move |range| (design, range)));
    let kind = |(design, range): &(&(PathBuf, String, String), std::ops::Range<usize>)| {
        first_word(&design.2[design.2[..range.start].rfind('\n').map_or(0, |end| end + 1)..])
    };
    for (turn, ((folder, name, text), range)) in spread(places, kind, 43).into_iter().enumerate() {
        let value: f64 = text[range.clone()].parse().unwrap();
        let factor = [3.0, 1.0 / 3.0, 100.0][turn % 3];
        let changed = format!("{}{}{}", &text[..range.start], value * factor, &text[range.end..]);
        judged_alike(folder, &format!("{name} with {value} times {factor}"), &changed);
    }
}

/// What is tried of all that might be: the first of each kind, and of the rest every so many, so that it is spread over
/// all designs however many there are.
fn spread<T>(all: impl Iterator<Item = T>, kind: impl Fn(&T) -> String, each: usize) -> Vec<T> {
    let mut met = BTreeSet::new();
    let tried: Vec<T> = all
        .enumerate()
        .filter(|(number, one)| met.insert(kind(one)) || number % each == 0)
        .map(|(_, one)| one)
        .collect();
    assert!(met.len() > 50 && tried.len() > 3 * met.len(), "{} of {} kinds", tried.len(), met.len());
    tried
}

/// The field or block that a line is about.
fn first_word(line: &str) -> String {
    line.trim_start().chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect()
}

/// Where numbers stand in a text.
fn numbers(text: &str) -> Vec<std::ops::Range<usize>> {
    let mut found = Vec::new();
    let mut start = None;
    let before =
        |at: usize| text[..at].chars().next_back().is_none_or(|c| !(c.is_alphanumeric() || c == '_' || c == '.'));
    for (at, c) in text.char_indices().chain([(text.len(), ' ')]) {
        let digit = c.is_ascii_digit() || (c == '.' && start.is_some());
        match (start, digit) {
            (None, true) if before(at) => start = Some(at),
            (Some(from), false) => {
                let word = &text[from..at];
                if word.parse::<f64>().is_ok() {
                    found.push(from..at);
                }
                start = None;
            }
            _ => {}
        }
    }
    found
}

/// Checks one text, and says how many pads were advised.
fn judged_alike(folder: &Path, name: &str, text: &str) -> usize {
    let analysis = analysis(folder, text);
    of_the_file(name, &analysis);
    for (number, judgement) in analysis.flights.iter().enumerate() {
        let meets = judgement.verdict == Verdict::MeetsTheChecks;
        let lens = lens_title(&analysis, number).unwrap();
        assert!(lens.starts_with(judgement.verdict.words()), "{name}: {lens}");
        let at = analysis.design.flights[number].name.place;
        if at.file.0 == 0 && !at.span.is_empty() {
            if let Some(hover) = hover(&analysis, at.span.start as usize) {
                let first = hover.markdown.lines().find(|line| line.starts_with("**flight"));
                let told = |line: &str| line.contains(&format!("ed: {}", judgement.verdict.words()));
                assert!(first.is_none_or(told), "{name}: {}", hover.markdown);
                assert!(meets || !hover.markdown.contains("It passes every check"), "{name}: {}", hover.markdown);
            }
        }
    }
    let mut advised = 0;
    for comparison in compare(&analysis, &Wish::default()) {
        let said = answer(&comparison);
        for candidate in comparison.candidates.iter().filter(|c| c.may_fly()) {
            as_if_written(folder, name, text, &analysis, &comparison.flight, candidate);
            advised += 1;
        }
        let best = comparison.candidates.first();
        if said.starts_with("Fly ") {
            assert!(best.is_some_and(Candidate::may_fly), "{name}: {said}");
        }
    }
    advised
}

/// The file's verdict follows from its findings and its flights.
fn of_the_file(name: &str, analysis: &Analysis) {
    let errors = analysis.count(Level::Error) > 0;
    assert_eq!(errors, analysis.verdict == Verdict::NotAsItIs, "{name}: {:?}", analysis.reason);
    let worst = analysis.flights.iter().map(|judgement| judgement.verdict).min();
    assert!(worst.is_none_or(|worst| analysis.verdict <= worst), "{name}");
    let passes = matches!(analysis.verdict, Verdict::MeetsTheChecks);
    assert!(!passes || analysis.count(Level::Warning) == 0, "{name}");
    assert!(
        analysis.verdict == Verdict::MeetsTheChecks
            || analysis.verdict == Verdict::Library
            || analysis.reason.is_some(),
        "{name}"
    );
    for (flight, judgement) in analysis.design.flights.iter().zip(&analysis.flights) {
        // Every flight that isn't checked says so in a finding, and says why.
        let unknown = !judgement.unknown.is_empty();
        let told = analysis.findings.iter().any(|f| f.rule == "file/not-checked");
        assert!(!unknown || told, "{name}: {} {:?}", flight.name.value, judgement.unknown);
    }
}

/// The pad that is advised, written into the file as a flight of its own, meets the checks there too, and no error of
/// the file touches it.
fn as_if_written(folder: &Path, name: &str, text: &str, before: &Analysis, like: &str, candidate: &Candidate) {
    let flight = before.design.flights.iter().find(|flight| flight.name.value == like).unwrap();
    let name_of = |named: &Option<finwright_model::Named<usize>>, of: &dyn Fn(usize) -> String| {
        named.as_ref().map(|named| of(named.value))
    };
    let design = &before.design;
    let motor = name_of(&flight.motor, &|i| design.motors[i].name.value.clone()).unwrap();
    let booster = name_of(&flight.booster_motor, &|i| design.motors[i].name.value.clone());
    let site = name_of(&flight.site, &|i| design.sites[i].name.value.clone());
    let mut guides: Vec<&str> =
        candidate.guides.iter().map(|label| label.split(" (").next().unwrap().rsplit(' ').next().unwrap()).collect();
    guides.dedup();
    // A tower needs none.
    let guided = if guides.is_empty() { String::new() } else { format!("; guided_by: [{}]", guides.join(", ")) };
    let line = format!(
        "\nflight as_it_is_advised {{ motor: {motor}{}; pad: {}{guided}{} }}\n",
        booster.map_or(String::new(), |b| format!("; booster_motor: {b}")),
        candidate.pad,
        site.map_or(String::new(), |s| format!("; site: {s}")),
    );
    let after = analysis(folder, &format!("{text}{line}"));
    let Some(number) = after.design.flights.iter().position(|f| f.name.value == "as_it_is_advised") else {
        // A list or block that isn't closed takes the line in, and such a file advises nothing.
        unreachable!("{name}: {line}");
    };
    let judgement = &after.flights[number];
    assert_eq!(judgement.verdict, Verdict::MeetsTheChecks, "{name}: {line}{:?}", judgement.reason);
}

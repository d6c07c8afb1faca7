//! Sheets that can be handed out: no words meet, nothing leaves the paper, whatever the design.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::{analysis, faultless_corpus, made, trainer};
use finwright_checks::Analysis;
use finwright_draw::paper::Paper;
use finwright_draw::pdf::pdf;
use finwright_draw::sheet::{card, html, list, marking, working, List, Row};
use finwright_draw::Scene;
use finwright_working::Quantity;

fn sheets(analysis: &Analysis, paper: Paper) -> Vec<Scene> {
    let mut scenes = Vec::new();
    for flight in 0..analysis.design.flights.len().min(3) {
        scenes.extend(card(analysis, flight, paper));
        for (quantity, ..) in Quantity::ALL {
            let page = finwright_working::working(&analysis.design, &analysis.assessment, flight, quantity);
            scenes.extend(page.iter().flat_map(|page| working(page, &["It meets the checks.".to_string()], paper)));
        }
    }
    scenes.extend(marking(analysis, 0, paper).into_iter().flatten());
    scenes
}

fn faults(name: &str, analysis: &Analysis, out: &mut Vec<String>) -> usize {
    let mut drawn = 0;
    for paper in [Paper::A4, Paper::Letter] {
        let scenes = sheets(analysis, paper);
        drawn += scenes.len();
        out.extend(scenes.iter().flat_map(Scene::faults).map(|fault| format!("{name} {paper:?} {fault}")));
    }
    drawn
}

#[test]
fn no_words_meet_on_any_sheet_of_the_corpus() {
    let drawn = faultless_corpus(faults);
    assert!(drawn > 1000, "{drawn}");
}

#[test]
fn no_words_meet_on_sheets_of_made_designs() {
    let mut out = Vec::new();
    let drawn: usize = (0..60).map(|seed| faults(&format!("made {seed}"), &analysis(&made(seed)), &mut out)).sum();
    assert!(out.is_empty(), "{} of {drawn}:\n{}", out.len(), out.join("\n"));
    assert!(drawn > 200, "{drawn}");
}

#[test]
fn a_card_says_what_is_not_known_instead_of_leaving_it_out() {
    let analysis = trainer(&[
        ("  code: \"D9-5\"\n", ""),
        ("curve: [0 s: 0 N, 0.05 s: 14 N, 0.2 s: 22 N, 0.35 s: 12 N, 0.6 s: 9 N, 1.7 s: 8.5 N, 1.9 s: 0 N]", ""),
    ]);
    let scene = card(&analysis, 0, Paper::A4).unwrap();
    let words: Vec<&str> = scene.texts().map(|text| text.words.as_str()).collect();
    assert!(words.iter().filter(|words| **words == "not known").count() >= 3, "{words:?}");
    assert!(words.iter().any(|words| words.contains("range safety officer decides")));
}

#[test]
fn a_design_without_tubes_has_nothing_to_mark_and_says_so() {
    let refusal = marking(&analysis("finwright 1\n"), 0, Paper::A4).unwrap_err();
    assert!(refusal.0.contains("no tube with fins or guides"), "{}", refusal.0);
}

#[test]
fn a_large_strip_is_cut_into_pages_that_together_are_the_whole() {
    let long = trainer(&[("length: 430 mm", "length: 900 mm"), ("at: 15 mm ahead of balance", "at: 700 mm from back")]);
    let pages = marking(&long, 0, Paper::A4).unwrap();
    assert!(pages.len() >= 3, "{}", pages.len());
    let has = |page: &Scene, said: &str| page.texts().any(|text| text.words.contains(said));
    assert!(has(&pages[0], "join A, page above") && has(&pages[1], "join A, page below"));
}

#[test]
fn the_same_design_gives_the_same_bytes() {
    let analysis = trainer(&[]);
    let scenes = sheets(&analysis, Paper::A4);
    let made = || pdf(&html::alone(&scenes), "A sheet", &[]);
    assert_eq!(made(), made());
    let page = html::html(&html::alone(&scenes), "<A sheet>");
    assert!(page.contains("<title>&lt;A sheet&gt;</title>") && !page.contains("http:") && !page.contains("https:"));
}

/// Names, numbers and sentences of every length, more of them than a page has room for.
#[test]
fn no_words_meet_on_a_list_over_several_pages() {
    let long = "not as it is: the rocket leaves the rod at 11.8 m/s (42 km/h, 26 mph); fins need about 13.4 m/s";
    let row = |number: usize| Row {
        cells: vec![
            ["Wren", "Longest-named of all the Wrens", "Donaudampfschifffahrtsgesellschaft"][number % 3].to_string(),
            format!("{}.{number} g", number * 7),
            long.chars().take(number * 13 % long.len()).collect(),
            if number == 17 { long.repeat(30) } else { long.to_string() },
        ],
        fails: number % 4 == 0,
    };
    let listed = List {
        title: "Flying day".to_string(),
        said: vec![long.repeat(3), String::new()],
        heads: ["rocket", "mass", "what is open", "verdict"].map(str::to_string).to_vec(),
        rows: (0..90).map(row).collect(),
        foot: vec![long.to_string()],
    };
    for paper in [Paper::A4, Paper::Letter] {
        let pages = list(&listed, paper);
        assert!(pages.len() > 5, "{}", pages.len());
        let faults: Vec<String> = pages.iter().flat_map(Scene::faults).collect();
        assert!(faults.is_empty(), "{faults:?}");
        // Every row is on a page.
        let words = |words: &str| pages.iter().flat_map(|page| page.texts()).filter(|text| text.words == words).count();
        assert_eq!(words("Wren"), 30);
    }
    let none =
        List { title: "Nothing".to_string(), said: Vec::new(), heads: Vec::new(), rows: Vec::new(), foot: Vec::new() };
    assert_eq!(list(&none, Paper::A4).len(), 1);
}

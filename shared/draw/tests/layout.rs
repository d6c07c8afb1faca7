//! Every picture of every design is one that can be handed out: its words never meet, nothing leaves the paper, and
//! it is sound SVG that says what it shows.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::{analysis, analysis_of, corpus, faultless_corpus, made};
use finwright_checks::Analysis;
use finwright_draw::{picture, svg, Picture, Size};

/// The faults of all pictures of a design, and how many were drawn.
fn faults(name: &str, analysis: &Analysis, out: &mut Vec<String>) -> usize {
    let mut drawn = 0;
    for flight in 0..analysis.design.flights.len().clamp(1, 6) {
        for (kind, ..) in Picture::ALL {
            for size in [Size::Full, Size::Small] {
                match picture(analysis, kind, flight, size) {
                    Ok(scene) => {
                        drawn += 1;
                        out.extend(scene.faults().into_iter().map(|fault| format!("{name} {flight} {size:?} {fault}")));
                        let text = svg(&scene);
                        if let Err(error) = roxmltree::Document::parse(&text) {
                            out.push(format!("{name}: {error}"));
                        }
                        assert!(!scene.title.is_empty() && !scene.desc.is_empty());
                    }
                    Err(refusal) => assert!(refusal.0.len() > 20, "{name}: {}", refusal.0),
                }
            }
        }
    }
    drawn
}

#[test]
fn no_words_meet_in_any_picture_of_the_corpus() {
    let drawn = faultless_corpus(faults);
    assert!(drawn > 1000, "{drawn}");
}

#[test]
fn every_sound_design_has_every_picture() {
    for path in corpus().iter().filter(|path| path.parent().is_some_and(|folder| folder.ends_with("good"))) {
        let analysis = analysis_of(path).unwrap();
        for flight in 0..analysis.design.flights.len() {
            for (kind, name, _) in Picture::ALL {
                let drawn = picture(&analysis, kind, flight, Size::Full);
                assert!(drawn.is_ok(), "{} {name}: {:?}", path.display(), drawn.err());
            }
        }
    }
}

#[test]
fn no_words_meet_in_pictures_of_five_hundred_made_designs() {
    let mut out = Vec::new();
    let mut drawn = 0;
    for seed in 0..500 {
        drawn += faults(&format!("made {seed}"), &analysis(&made(seed)), &mut out);
    }
    assert!(out.is_empty(), "{} of {drawn}:\n{}", out.len(), out.join("\n"));
    assert!(drawn > 3000, "{drawn}");
}

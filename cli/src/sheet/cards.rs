//! A card for every flight of one design or of many.

use super::{put, Form, Wish};
use crate::chosen::chosen;
use crate::collect::{find, read};
use crate::output::plural;
use finwright_checks::{analyze, Verdict};
use finwright_draw::paper::Paper;
use finwright_draw::pdf::Page;
use finwright_draw::sheet::{card, cards_on};
use finwright_draw::Scene;
use rayon::prelude::*;
use std::io::IsTerminal;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::atomic::{AtomicUsize, Ordering};

/// From this many designs on it's told how far it is.
const MANY: usize = 20;

pub fn cards(paths: &[PathBuf], wish: &Wish, form: Form) -> Result<ExitCode, String> {
    let found = find(paths);
    let (done, all) = (AtomicUsize::new(0), found.len());
    let tells = all >= MANY && std::io::stderr().is_terminal();
    let drawn: Vec<Result<Vec<Scene>, String>> = found
        .into_par_iter()
        .map(|path| {
            let cards =
                path.map_err(|(path, reason)| format!("{}: {reason}", path.display())).and_then(|path| of(&path, wish));
            let done = done.fetch_add(1, Ordering::Relaxed) + 1;
            if tells && (done % MANY == 0 || done == all) {
                eprint!("\rcards of {done} of {all} designs");
            }
            cards
        })
        .collect();
    if tells {
        eprintln!();
    }
    let mut scenes = Vec::new();
    let mut refused = 0;
    for one in drawn {
        match one {
            Ok(cards) => scenes.extend(cards),
            Err(reason) if all == 1 => return Err(reason),
            Err(reason) => {
                refused += 1;
                eprintln!("finwright: {reason}");
            }
        }
    }
    if scenes.is_empty() {
        return Err("there is no flight to make a card of".to_string());
    }
    let paper: Paper = wish.paper.into();
    let ((width, height), places) = cards_on(paper, wish.each);
    let pages: Vec<Page> = scenes
        .chunks(places.len())
        .map(|cards| Page { width, height, scenes: places.iter().copied().zip(cards).collect() })
        .collect();
    let title =
        scenes.first().filter(|_| scenes.len() == 1).map_or("Flight cards".to_string(), |one| one.title.clone());
    put(wish.output, form, &pages, &title)?;
    if refused > 0 {
        return Err(format!(
            "{} without a card; the others are in {}",
            plural(refused, "design"),
            wish.output.display()
        ));
    }
    Ok(ExitCode::SUCCESS)
}

/// The cards of a design: of all its flights, or of the one that is named.
fn of(path: &Path, wish: &Wish) -> Result<Vec<Scene>, String> {
    let input = read(path).in_units(wish.units);
    let shown = input.shown;
    let analysis = analyze(&input.snapshot.map_err(|reason| format!("{shown}: {reason}"))?);
    // Definitions that others use have nothing of their own that would fly.
    if analysis.verdict == Verdict::Library && wish.flight.is_none() {
        return Ok(Vec::new());
    }
    let flights = match wish.flight {
        Some(_) => vec![chosen(&analysis.design, wish.flight)?],
        None => (0..analysis.design.flights.len().max(1)).collect(),
    };
    let card = |flight| card(&analysis, flight, wish.paper.into()).map_err(|refusal| format!("{shown}: {}", refusal.0));
    flights.into_iter().map(card).collect()
}

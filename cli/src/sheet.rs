//! `finwright sheet`: what is marked out, flight cards, and workings, as PDF or one HTML file.

mod cards;

use crate::chosen::chosen;
use crate::collect::read;
use crate::letters::fonts_for;
use crate::output::{unusable, CAUTION};
use crate::written::write;
use crate::{PaperSize, SheetOf};
use finwright_checks::{analyze, flight_in_words, Analysis};
use finwright_draw::paper::Paper;
use finwright_draw::pdf::{pdf, Page};
use finwright_draw::sheet::{html, marking, working};
use finwright_draw::Scene;
use finwright_units::Units;
use finwright_working::Quantity;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What is wished for.
pub struct Wish<'a> {
    pub what: SheetOf,
    pub flight: Option<&'a str>,
    pub quantity: Option<&'a str>,
    /// How many cards a page.
    pub each: usize,
    pub output: &'a Path,
    pub paper: PaperSize,
    pub units: Option<Units>,
}

pub fn sheet(paths: &[PathBuf], wish: &Wish) -> ExitCode {
    let form = match Form::of(wish.output) {
        Ok(form) => form,
        Err(reason) => return unusable(&reason),
    };
    let done = match (wish.what, paths) {
        (SheetOf::Card, paths) => cards::cards(paths, wish, form),
        (_, [path]) => one(path, wish, form).map(|()| ExitCode::SUCCESS),
        _ => Err("only cards are made of several designs at once".to_string()),
    };
    done.unwrap_or_else(|reason| unusable(&reason))
}

/// How the sheet is written, by its file's name.
#[derive(Clone, Copy)]
pub enum Form {
    Pdf,
    Html,
}

impl Form {
    pub fn of(output: &Path) -> Result<Form, String> {
        let ending = output.extension().map(|ending| ending.to_string_lossy().to_lowercase());
        match ending.as_deref() {
            Some("pdf") => Ok(Form::Pdf),
            Some("html" | "htm") => Ok(Form::Html),
            _ => Err(format!("{}: a sheet is written as .pdf or .html", output.display())),
        }
    }
}

fn one(path: &Path, wish: &Wish, form: Form) -> Result<(), String> {
    let input = read(path).in_units(wish.units);
    let shown = input.shown;
    let analysis = analyze(&input.snapshot.map_err(|reason| format!("{shown}: {reason}"))?);
    let number = chosen(&analysis.design, wish.flight)?;
    let paper: Paper = wish.paper.into();
    let scenes = match wish.what {
        SheetOf::Working => worked(&shown, &analysis, number, wish.quantity, paper)?,
        _ => marking(&analysis, number, paper).map_err(|refusal| format!("{shown}: {}", refusal.0))?,
    };
    let title = scenes.first().map_or(String::new(), |scene| scene.title.clone());
    put(wish.output, form, &html::alone(&scenes), &title)
}

fn worked(
    shown: &str,
    analysis: &Analysis,
    number: usize,
    quantity: Option<&str>,
    paper: Paper,
) -> Result<Vec<Scene>, String> {
    let name = quantity.unwrap_or("exit-speed");
    let names = || Quantity::ALL.iter().map(|(_, name, _)| *name).collect::<Vec<_>>().join(", ");
    let quantity = Quantity::named(name)
        .ok_or_else(|| format!("no working is known by the name {name}; known are {}", names()))?;
    let page = finwright_working::working(&analysis.design, &analysis.assessment, number, quantity);
    let page = page.map_err(|lack| format!("{shown}: {name} can't be worked: it needs {}", lack.0))?;
    let judged = page.flight.as_deref().map(|name| flight_in_words(analysis, number, name));
    let mut closing: Vec<String> = judged.into_iter().collect();
    closing.push(CAUTION.to_string());
    Ok(working(&page, &closing, paper))
}

/// Write pages in the form that is asked for.
pub fn put(output: &Path, form: Form, pages: &[Page], title: &str) -> Result<(), String> {
    let bytes = match form {
        Form::Html => html::html(pages, title).into_bytes(),
        Form::Pdf => {
            let scenes = pages.iter().flat_map(|page| &page.scenes).flat_map(|(_, scene)| scene.texts());
            pdf(pages, title, &fonts_for(scenes.map(|text| text.words.as_str())))
        }
    };
    write(output, &bytes)
}

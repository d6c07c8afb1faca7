//! `finwright draw`: a picture of a design, as SVG or PDF.

use crate::chosen::chosen;
use crate::collect::read;
use crate::output::{print, unusable};
use crate::written::write;
use crate::PaperSize;
use finwright_checks::{analyze, Analysis};
use finwright_draw::paper::{page_of, Paper};
use finwright_draw::pdf::pdf;
use finwright_draw::{picture, svg, Picture, Scene, Size};
use finwright_grammar::vocabulary::nearest;
use finwright_units::Units;
use std::path::Path;
use std::process::ExitCode;

/// What is wished for.
pub struct Wish<'a> {
    pub what: Option<&'a str>,
    pub flight: Option<&'a str>,
    pub output: Option<&'a Path>,
    pub paper: PaperSize,
    pub units: Option<Units>,
}

pub fn draw(path: &Path, wish: &Wish) -> ExitCode {
    let Some(name) = wish.what else {
        print(&list());
        return ExitCode::SUCCESS;
    };
    match drawn(path, name, wish) {
        Ok(()) => ExitCode::SUCCESS,
        Err(reason) => unusable(&reason),
    }
}

fn drawn(path: &Path, name: &str, wish: &Wish) -> Result<(), String> {
    let kind = Picture::named(name).ok_or_else(|| unknown(name))?;
    let input = read(path).in_units(wish.units);
    let shown = input.shown;
    let analysis = analyze(&input.snapshot.map_err(|reason| format!("{shown}: {reason}"))?);
    let number = chosen(&analysis.design, wish.flight)?;
    let scene = picture(&analysis, kind, number, Size::Full).map_err(|refusal| format!("{shown}: {}", refusal.0))?;
    match wish.output {
        None => print(&svg(&scene)),
        Some(output) => write(output, &bytes(&analysis, &scene, output, wish.paper.into())?)?,
    }
    Ok(())
}

/// The picture in the format that a file's name asks for.
fn bytes(analysis: &Analysis, scene: &Scene, output: &Path, paper: Paper) -> Result<Vec<u8>, String> {
    let ending = output.extension().map(|ending| ending.to_string_lossy().to_lowercase());
    match ending.as_deref() {
        Some("svg") => Ok(svg(scene).into_bytes()),
        Some("pdf") => {
            let texts = scene.texts().map(|text| text.words.as_str());
            let _ = analysis;
            Ok(pdf(&[page_of(scene, paper)], &scene.title, &crate::letters::fonts_for(texts)))
        }
        _ => Err(format!("{}: a picture is written as .svg or .pdf", output.display())),
    }
}

fn unknown(name: &str) -> String {
    let names = Picture::ALL.iter().map(|(_, name, _)| *name);
    let known = || format!("there are {}", names.clone().collect::<Vec<_>>().join(", "));
    let hint = nearest(name, names.clone()).map_or_else(known, |near| format!("did you mean {near}?"));
    format!("there is no picture {name}; {hint}")
}

fn list() -> String {
    let width = Picture::ALL.iter().map(|(_, name, _)| name.len()).max().unwrap_or(0);
    let lines: String = Picture::ALL.iter().map(|(_, name, asks)| format!("  {name:width$}  {asks}\n")).collect();
    format!("Pictures, as in `finwright draw reed_heron.finw --what stand -o stand.svg`:\n\n{lines}")
}

//! A pupil's page: their drawing, what is good, what to mend, a number of theirs worked by hand. Nothing on it is of
//! anybody else.

use super::good::good;
use super::html::{list, page, sentence, with_code};
use super::looked::Looked;
use super::mend::mend;
use super::rubric::Rubric;
use super::verdicts::State;
use super::worked::{html as worked_html, worked};
use finwright_checks::{flight_in_words, Analysis};
use finwright_draw::svg::{escaped, inline_svg};
use finwright_draw::{picture, Picture, Size};

/// The page of what somebody handed in.
pub fn pupil(looked: &Looked, analyses: &[Analysis], rubric: &Rubric) -> String {
    let title = format!("Your rocket, {}", looked.name);
    let mut body =
        format!("<p class=\"where\">For {}</p>\n<h1>{}</h1>\n", escaped(&looked.name), escaped(&headline(looked)));
    body += &format!("<p>{}.</p>\n", escaped(&looked.grade.in_words()));
    if !looked.faults.is_empty() {
        let faults: Vec<String> = looked.faults.iter().map(|fault| sentence(fault)).collect();
        body += &format!("<h2>What can't be read</h2>\n{}", list(&faults));
    }
    let several = analyses.len() > 1;
    for (number, (analysis, design)) in analyses.iter().zip(&looked.designs).enumerate() {
        if several {
            body += &format!("<h2>{}</h2>\n", escaped(&design.path));
        }
        of_design(&mut body, analysis, number);
    }
    body += "<h2>How the points come</h2>\n";
    let lines: Vec<String> = looked.grade.lines.iter().map(|line| with_code(line)).collect();
    body += &list(&lines);
    body += &list(&rubric.in_words().iter().map(|words| escaped(words)).collect::<Vec<_>>());
    page(&title, &body)
}

fn headline(looked: &Looked) -> String {
    match looked.state {
        State::Nothing => "Nothing was handed in.".to_string(),
        State::Unreadable => "What was handed in can't be read.".to_string(),
        State::NoFlight => "A design, and no flight in it yet.".to_string(),
        State::Judged(verdict) => format!("Your design: {}.", verdict.words()),
    }
}

fn of_design(body: &mut String, analysis: &Analysis, number: usize) {
    let title = analysis.design.title.as_ref().map_or("", |title| title.value.as_str());
    if !title.is_empty() {
        *body += &format!("<p class=\"where\">{}</p>\n", escaped(title));
    }
    *body += "<figure tabindex=\"0\"><figcaption>Where it balances, and where the guides go</figcaption>\n";
    match picture(analysis, Picture::Bench, 0, Size::Small) {
        Ok(scene) => *body += &inline_svg(&scene, &format!("bench-{number}")),
        Err(refusal) => *body += &format!("<p class=\"gap\">{}</p>\n", sentence(&refusal.0)),
    }
    *body += "</figure>\n";
    let flights = analysis.design.flights.iter().enumerate();
    let judged: Vec<String> =
        flights.map(|(number, flight)| sentence(&flight_in_words(analysis, number, &flight.name.value))).collect();
    *body += &list(&judged);
    if judged.is_empty() {
        *body += "<p>Add <code>flight my_day { motor: …; pad: …; guided_by: […] }</code>, and it can be judged.</p>\n";
    }
    let praise: Vec<String> = good(analysis, 0).iter().map(|line| escaped(line)).collect();
    if !praise.is_empty() {
        *body += &format!("<h2>What is good</h2>\n{}", list(&praise));
    }
    *body += &format!("<h2>What to mend</h2>\n{}", mend(analysis));
    if let Some(working) = worked(analysis, 0) {
        let name = working.quantity.name().replace('-', " ");
        *body += &format!("<h2>A number of yours, by hand: {}</h2>\n{}", escaped(&name), worked_html(&working));
    }
}

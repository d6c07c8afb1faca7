//! What the page shows of an analysis.

use crate::found::findings;
use crate::numbers::table;
use crate::words::{capital, line_of};
use finwright_assess::{defaults, path};
use finwright_checks::lacking::needed_in_words;
use finwright_checks::rule::Concern;
use finwright_checks::{rule, Analysis, Finding, Level, Verdict};
use finwright_draw::font::tied;
use finwright_draw::svg::{escaped, inline_svg};
use finwright_draw::{picture, Picture, Size};
use finwright_units::reader::with;
use serde::Serialize;

/// What the page shows.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Content {
    /// The page's title.
    pub title: String,
    /// What stands in its column.
    pub html: String,
    /// Where the text can't be read, in words: then pictures of an older text are kept, greyed, with this beside them.
    pub unreadable: Option<String>,
}

/// The page of an analysis for the flight of a name, the first one where none is of that name; `file` is what the
/// design's file is called.
pub fn content(analysis: &Analysis, flight: Option<&str>, file: &str) -> Content {
    with(analysis.settings.units, || {
        let flights = &analysis.design.flights;
        let number = flights.iter().position(|known| Some(known.name.value.as_str()) == flight).unwrap_or(0);
        let title = analysis.design.title.as_ref().map_or(file, |title| title.value.as_str());
        let said = headline(analysis, number);
        let mut html = String::new();
        head(&mut html, analysis, number, (title, &said));
        pair(&mut html, analysis, number, "two", [(Picture::Stand, "Is it fast enough?"), (Picture::Bench, BENCH)]);
        findings(&mut html, analysis, number, file);
        html += "<section aria-labelledby=\"speeds\"><h2 id=\"speeds\">How fast, and up to what wind</h2>\n";
        let speeds = [(Picture::Run, "How does the speed grow?"), (Picture::Window, "Up to what wind?")];
        pair(&mut html, analysis, number, "three", speeds);
        html += "</section>\n<div class=\"last\">\n";
        table(&mut html, analysis, number);
        html += "<div class=\"foot\">\n";
        notes(&mut html, analysis, number);
        html += "</div>\n</div>\n";
        Content { title: format!("{title}: {said}"), html: tied_html(&html), unreadable: unreadable(analysis, file) }
    })
}

const BENCH: &str = "Where does it balance, and where do the guides go?";

/// A number and its unit stay on one line; what stands in a tag is left alone.
fn tied_html(html: &str) -> String {
    let mut out = String::with_capacity(html.len() + 64);
    for (i, piece) in html.split('<').enumerate() {
        let (tag, words) = piece.split_once('>').unwrap_or(("", piece));
        if i > 0 {
            out.push('<');
            out += tag;
            if piece.contains('>') {
                out.push('>');
            }
        }
        out += &tied(words);
    }
    out
}

/// The verdict on a flight, in a sentence that says what to change first.
fn headline(analysis: &Analysis, number: usize) -> String {
    let name = analysis.design.flights.get(number).map(|flight| flight.name.value.as_str());
    let Some((judged, name)) = analysis.flights.get(number).zip(name) else {
        return match analysis.verdict {
            Verdict::Library => "A file of definitions for others".to_string(),
            _ => "There is no flight to judge yet".to_string(),
        };
    };
    match (judged.verdict, &judged.reason) {
        (Verdict::MeetsTheChecks, _) => format!("{name} meets the checks"),
        (verdict, Some(reason)) => format!("{name}, {}: {}", verdict.words(), reason.message),
        (verdict, None) => format!("{name}: {}", verdict.words()),
    }
}

fn head(html: &mut String, analysis: &Analysis, number: usize, (title, said): (&str, &str)) {
    let numbers = analysis.assessment.flights.get(number);
    let air = numbers.and_then(|numbers| numbers.air).filter(|air| air.gust > 0.0);
    let wind = air.map_or(String::new(), |air| {
        let speed = finwright_units::show::speed;
        format!(", wind {}, gusts {}", speed(air.as_read(air.wind)), speed(air.as_read(air.gust)))
    });
    *html += &format!("<header>\n<p class=\"where\">{}{}</p>\n", escaped(title), escaped(&wind));
    *html += &format!("<h1>{}.</h1>\n", escaped(said.trim_end_matches('.')));
    let help =
        analysis.flights.get(number).and_then(|judged| judged.reason.as_ref()).map(|reason| reason.help.as_str());
    if let Some(help) = help.filter(|help| !help.is_empty()) {
        *html += &format!("<p class=\"lead\">To pass: {}.</p>\n", escaped(help.trim_end_matches('.')));
    }
    let flights = &analysis.design.flights;
    if flights.len() > 1 {
        *html += "<nav aria-label=\"flights\"><ul class=\"flights\">\n";
        for (at, flight) in flights.iter().enumerate() {
            let name = &flight.name.value;
            let here = if at == number { " aria-current=\"page\"" } else { "" };
            *html += &format!("<li><a href=\"?flight={}\"{here}>{}</a></li>\n", in_address(name), escaped(name));
        }
        *html += "</ul></nav>\n";
    }
    *html += "</header>\n";
}

fn pair(html: &mut String, analysis: &Analysis, number: usize, class: &str, pictures: [(Picture, &str); 2]) {
    *html += &format!("<div class=\"pair {class}\">\n");
    for (kind, asks) in pictures {
        *html += &format!("<figure><figcaption>{asks}</figcaption>\n");
        match picture(analysis, kind, number, Size::Small) {
            Ok(scene) => *html += &inline_svg(&scene, kind.name()),
            Err(refusal) => *html += &format!("<p class=\"gap\">{}.</p>\n", escaped(&capital(&refusal.0))),
        }
        *html += "</figure>\n";
    }
    *html += "</div>\n";
}

fn notes(html: &mut String, analysis: &Analysis, number: usize) {
    let Some(numbers) = analysis.assessment.flights.get(number) else { return };
    let airframe = &analysis.assessment.airframe;
    let flown = path(&analysis.design, airframe, numbers).ok();
    let taken = defaults::defaults(&analysis.design, airframe, numbers, flown);
    let said = if taken.is_empty() { "Nothing.".to_string() } else { format!("{}.", capital(&taken.join("; "))) };
    *html += &format!(
        "<section aria-labelledby=\"default\"><h2 id=\"default\">By default, because the file doesn't say</h2>\n\
         <p>{}</p></section>\n",
        escaped(&said)
    );
    let judged = analysis.flights.get(number);
    let mut open: Vec<String> =
        judged.iter().flat_map(|j| &j.unknown).map(|n| needed_in_words(*n).to_string()).collect();
    open.extend(judged.iter().flat_map(|judged| judged.not_made.clone()));
    open.extend(["how well the glue holds".to_string(), "how the rod whips as the rocket climbs it".to_string()]);
    *html += &format!(
        "<section aria-labelledby=\"unchecked\"><h2 id=\"unchecked\">Not checked</h2>\n<p>{}.</p></section>\n",
        escaped(&capital(&open.join("; ")))
    );
}

/// Whether a finding is about words that can't be read.
fn is_unreadable(finding: &Finding) -> bool {
    finding.level == Level::Error && rule(finding.rule).is_none_or(|rule| rule.concerns == Concern::Words)
}

fn unreadable(analysis: &Analysis, file: &str) -> Option<String> {
    let finding = analysis.findings.iter().find(|finding| is_unreadable(finding))?;
    let line = line_of(analysis, finding.place);
    Some(format!("{file}, line {line}: {}", finding.message))
}

/// A name as it stands in an address: RFC 3986, every byte but the unreserved ones with a percent sign.
fn in_address(name: &str) -> String {
    let one = |byte: u8| match byte {
        b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'_' | b'.' => char::from(byte).to_string(),
        other => format!("%{other:02X}"),
    };
    name.bytes().map(one).collect()
}

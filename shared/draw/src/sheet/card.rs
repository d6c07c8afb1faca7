//! The flight card: what to weigh and check by hand, what was computed, what wasn't checked, and room to sign.

mod rows;

use crate::draft::{Draft, Head};
use crate::font::{cut, width, wrapped};
use crate::paper::Paper;
use crate::picture::Refusal;
use crate::rocket::{rocket, Spot};
use crate::scene::{Pen, Point, Role, Scene, Style};
use crate::side::{draw, Detail};
use crate::subject::Subject;
use finwright_checks::Analysis;
use finwright_units::reader::with;
use finwright_units::show;
pub use rows::far;
use rows::{notes, numbers};

const EDGE: f64 = 7.0;

/// The size of a card of which four go on a page, lying, mm.
pub fn card_size(paper: Paper) -> (f64, f64) {
    let (width, height) = paper.size();
    (height / 2.0, width / 2.0)
}

/// Where cards go on a page, with the page's width and height: one in the middle, or four.
pub fn cards_on(paper: Paper, each: usize) -> ((f64, f64), Vec<Point>) {
    let (width, height) = paper.size();
    let (w, h) = card_size(paper);
    match each {
        1 => ((width, height), vec![((width - w) / 2.0, (height - h) / 3.0)]),
        _ => ((height, width), vec![(0.0, 0.0), (w, 0.0), (0.0, h), (w, h)]),
    }
}

/// The card of a flight; the error says why there is none.
pub fn card(analysis: &Analysis, flight: usize, paper: Paper) -> Result<Scene, Refusal> {
    with(analysis.settings.units, || {
        let subject = Subject::new(analysis, flight);
        if subject.flight.is_none() {
            let add = "the file has no flight; add `flight my_day { motor: …; pad: …; guided_by: […] }`";
            return Err(Refusal(format!("there is no card to draw: {add}")));
        }
        Ok(drawn(subject, card_size(paper)))
    })
}

fn drawn(subject: Subject, (width, height): (f64, f64)) -> Scene {
    let mut draft = Draft::new("card", width, height);
    let right = width - EDGE;
    heading(&mut draft, subject, right);
    let half = EDGE + (width - 2.0 * EDGE) * 0.6;
    finger(&mut draft, subject, half, right);
    table(&mut draft, subject, half - 2.0);
    aside(&mut draft, subject, (half + 2.5, right), height);
    signatures(&mut draft, (EDGE, right), height);
    let name = subject.flight.map_or(String::new(), |flight| flight.name.value.clone());
    let told: Vec<String> =
        numbers(subject).iter().map(|row| format!("{}: {} ({})", row.label, row.value, row.note)).collect();
    draft.done(format!("Flight card: {}, {name}", subject.title()), format!("{}.", told.join("; ")))
}

fn heading(draft: &mut Draft, subject: Subject, right: f64) {
    let title = Style::SAY.bold();
    let corner = "flight card";
    let corner_wide = width(corner, Style::NOTE);
    let name = cut(&subject.title(), title, (right - EDGE) * 0.42);
    let wide = width(&name, title);
    draft.text((EDGE, 10.0), name, title);
    let flight = subject.flight.map_or(String::new(), |flight| flight.name.value.clone());
    let air = subject.numbers.and_then(|numbers| numbers.air).filter(|air| air.gust > 0.0);
    let wind = air.map_or(", no wind said".to_string(), |air| {
        format!(", wind {}, gusts {}", show::speed(air.as_read(air.wind)), show::speed(air.as_read(air.gust)))
    });
    let room = right - corner_wide - 4.0 - EDGE - wide - 3.0;
    draft.text((EDGE + wide + 3.0, 10.0), cut(&format!("{flight}{wind}"), Style::NOTE, room), Style::NOTE);
    draft.text((right, 10.0), corner, Style::NOTE.end());
    draft.line(&[(EDGE, 12.4), (right, 12.4)], Pen::LINE);
}

/// The finger test, drawn as one does it.
fn finger(draft: &mut Draft, subject: Subject, half: f64, right: f64) {
    let style = Style::NOTE.role(Role::Ink);
    let x = half + 2.5;
    let loaded = subject.numbers.and_then(|numbers| numbers.loaded());
    let Some(rocket) = rocket(subject.parts(), 0.0) else { return };
    let behind = subject.numbers.and_then(|n| n.lowest()).map_or(0.0, |lowest| (lowest - rocket.tail).max(0.0));
    let (up, down) = rocket.reach;
    let scale = ((half - EDGE - 4.0) / (rocket.ahead() + behind)).min(8.5 / (up + down));
    let axis = 20.2 + up.min(rocket.radius * 3.0) * scale * 0.5;
    let axis = axis.max(18.6 + rocket.radius * scale + 3.0).min(26.0);
    let at = |(station, above): Spot| (EDGE + 1.0 + (behind + rocket.tail - station) * scale, axis - above * scale);
    draw(draft, subject, &rocket, &|spot: &Spot| at(*spot), Detail::Tiny);
    let Some(loaded) = loaded else {
        draft.paragraph(
            (x, 18.0),
            "Its balance point isn't known: weigh it and find it before you fly.",
            style.role(Role::Looks),
            right - x,
        );
        return;
    };
    let (b, nose) = (at((loaded.x, 0.0)).0, at((0.0, 0.0)).0);
    let under = axis + rocket.radius * scale;
    draft.area(&[(b, under), (b - 1.3, under + 3.2), (b + 1.3, under + 3.2)], Role::Ink);
    let level = 16.9;
    draft.line(&[(b, axis - rocket.radius * scale - 0.4), (b, level - 1.0)], Pen::HAIR.role(Role::Ink));
    draft.line(&[(nose, axis - 0.6), (nose, level - 1.0)], Pen::HAIR.role(Role::Ink));
    let station = show::station(loaded.x);
    let bold = Style::NOTE.role(Role::Ink).bold();
    if nose - b > width(&station, bold) + 10.0 {
        let gap = width(&station, bold) / 2.0 + 1.2;
        let middle = (b + nose) / 2.0;
        draft.arrow((middle - gap, level), (b, level), Pen::HAIR.role(Role::Ink), Head(1.1, 0.3));
        draft.arrow((middle + gap, level), (nose, level), Pen::HAIR.role(Role::Ink), Head(1.1, 0.3));
        draft.text((middle, level + 1.0), station.as_str(), bold.middle());
    }
    let said = format!("A finger under the edge, motor in: it should lie level, {station} from the tip.");
    let y = draft.paragraph((x, 17.4), &said, style, right - x);
    let basis = subject.numbers.map(|numbers| numbers.basis()).unwrap_or_default();
    let words = if basis.balance { "That is where the bench found it." } else { "It hasn't been measured yet." };
    draft.text((x, y), words, if basis.balance { style } else { style.role(Role::Looks).bold() });
}

const TOP: f64 = 33.0;
const STEP: f64 = 4.3;

fn table(draft: &mut Draft, subject: Subject, right: f64) {
    draft.line(&[(EDGE, TOP - 1.4), (right, TOP - 1.4)], Pen::HAIR);
    let rows = numbers(subject);
    let bold = Style::NOTE.role(Role::Ink).bold();
    let labels = rows.iter().map(|row| width(row.label, Style::NOTE)).fold(0.0, f64::max) + 2.0;
    let values = rows.iter().map(|row| width(&row.value, bold)).fold(0.0, f64::max);
    let values = values.min((right - EDGE - labels) * 0.4) + 2.0;
    let mut y = TOP + 3.2;
    for row in rows {
        let role = if row.looks { Role::Looks } else { Role::Ink };
        draft.text((EDGE, y), row.label, Style::NOTE);
        draft.text((EDGE + labels, y), cut(&row.value, bold, values - 1.5), bold.role(role));
        let from = EDGE + labels + values;
        let style = Style::NOTE.role(Role::Ink);
        for line in shortened(&row.note, style, right - from, (if row.is_long { 2 } else { 1 }, "")) {
            draft.text((from, y), line, style);
            y += STEP;
        }
    }
}

/// Words in at most so many lines, with an ellipsis where something is left out, and behind it where all of it is told.
fn shortened(words: &str, style: Style, most: f64, (lines, told): (usize, &str)) -> Vec<String> {
    let mut broken = wrapped(words, style, most);
    if broken.len() > lines {
        let rest = broken.split_off(lines.saturating_sub(1)).join(" ");
        broken.push(cut(&rest, style, most - width(told, style)) + told);
    }
    broken
}

/// Whoever signs a card must know that it doesn't tell everything.
const TOLD: &str = " all: finwright show";

/// What else decides: cautions, distances, what wasn't checked and what is by default.
fn aside(draft: &mut Draft, subject: Subject, (x, right): (f64, f64), height: f64) {
    draft.line(&[(x, TOP - 1.4), (right, TOP - 1.4)], Pen::HAIR);
    let bottom = height - 18.0;
    let mut y = TOP + 3.2;
    let notes = notes(subject);
    for (i, note) in notes.iter().enumerate() {
        let role = if note.looks { Role::Looks } else { Role::Ink };
        let style = if note.looks { Style::NOTE.role(role).bold() } else { Style::NOTE.role(role) };
        // Every note behind this one keeps a line.
        let left = ((bottom - y) / 4.0).floor() as usize;
        let most = left.saturating_sub(notes.len() - 1 - i).max(1).min(note.most);
        // The label runs into the words: its place is kept free on the first line.
        let label = width(note.label, Style::NOTE) + 2.0;
        let indent = " ".repeat((label / width(" ", style)).ceil() as usize).replace(' ', "\u{a0}");
        draft.text((x, y), note.label, Style::NOTE);
        for (line, words) in
            shortened(&format!("{indent}{}", note.words), style, right - x, (most, TOLD)).into_iter().enumerate()
        {
            let words = words.trim_start_matches('\u{a0}').to_string();
            draft.text((if line == 0 { x + label } else { x }, y), words, style);
            y += 4.0;
        }
        y += 0.5;
    }
}

fn signatures(draft: &mut Draft, (left, right): (f64, f64), height: f64) {
    let y = height - 12.6;
    let wide = right - left;
    let marks = [
        (0.0, 0.2, "weighed, g"),
        (0.225, 0.43, "balance, mm"),
        (0.455, 0.7, "flyer"),
        (0.725, 1.0, "range safety officer"),
    ];
    for (from, to, words) in marks {
        let (a, b) = (left + wide * from, left + wide * to);
        draft.line(&[(a, y), (b, y)], Pen::HAIR.role(Role::Ink));
        draft.text((a, y + 3.6), cut(words, Style::NOTE, b - a), Style::NOTE);
    }
    let words = "Not a clearance to fly: the range safety officer decides.";
    draft.text((left, height - 4.4), words, Style::NOTE.role(Role::Ink).bold());
}

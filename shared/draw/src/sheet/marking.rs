//! The marking-out sheet: a strip at true size to wrap around a tube, with the lines and places of what goes on it.

mod strip;

use super::clip;
use crate::draft::Draft;
use crate::font::cut;
use crate::paper::Paper;
use crate::picture::Refusal;
use crate::scene::{Dash, Pen, Point, Role, Scene, Style};
use crate::subject::Subject;
use finwright_checks::Analysis;
use finwright_units::reader::with;
use finwright_units::show;
use strip::{strips, Strip, LAP};

/// Free paper at its edges, and what stands beside the strip, mm.
const EDGE: f64 = 10.0;
const BESIDE: f64 = 46.0;
const TOP: f64 = 6.0;
/// What stands under it: the bar across.
const UNDER: f64 = 18.0;

/// The sheets of a design, a page each, at true size; the error says why there are none.
pub fn marking(analysis: &Analysis, flight: usize, paper: Paper) -> Result<Vec<Scene>, Refusal> {
    with(analysis.settings.units, || {
        let subject = Subject::new(analysis, flight);
        let strips = strips(subject);
        if strips.is_empty() {
            let why = "no tube with fins or guides on it has a length, a width and a place yet";
            return Err(Refusal(format!("there is nothing to mark out: {why}")));
        }
        Ok(strips.iter().flat_map(|strip| pages(subject, strip, paper)).collect())
    })
}

fn pages(subject: Subject, strip: &Strip, paper: Paper) -> Vec<Scene> {
    let (width, height) = paper.size();
    let (wide, high) = (width - 2.0 * EDGE - BESIDE, height - TOP - UNDER);
    let drawn = strip.scene(subject);
    let (across, up) = (strip.around + LAP, strip.top);
    // Tiles overlap by nothing: they are cut at the join and butted.
    let columns = (across / wide).ceil().max(1.0) as usize;
    let rows = (up / high).ceil().max(1.0) as usize;
    let (tile_wide, tile_high) = (across / columns as f64, up / rows as f64);
    let mut pages = Vec::new();
    for row in 0..rows {
        for column in 0..columns {
            let number = pages.len() + 1;
            let mut draft = Draft::new("marking", width, height);
            // The strip's lower edge is its row 0, and the picture counts down from its top.
            let bottom = drawn.height - strip::MARGIN - tile_high * row as f64;
            let left = strip::MARGIN + tile_wide * column as f64;
            let window = (left, bottom - tile_high, left + tile_wide, bottom);
            let to = (EDGE, height - UNDER - tile_high);
            clip::into(
                &mut draft,
                &drawn,
                grown(window, row, column, (rows, columns)),
                shifted(to, row, column, (rows, columns)),
            );
            let tile = Tile { row, column, rows, columns, at: to, size: (tile_wide, tile_high) };
            joins(&mut draft, &tile);
            if row == 0 {
                let style = Style::NOTE.role(Role::Ink).bold();
                draft.text((EDGE, height - UNDER + 4.0), "this edge: the tube's aft end", style);
            }
            beside(&mut draft, subject, strip, (width - EDGE - BESIDE + 5.0, &tile, number));
            bars(&mut draft, (width, height));
            let of = rows * columns;
            let title = format!("{}: marking-out strip, true size, page {number} of {of}", subject.title());
            pages.push(draft.done(title, strip.told(subject)));
        }
    }
    pages
}

struct Tile {
    row: usize,
    column: usize,
    rows: usize,
    columns: usize,
    at: Point,
    size: (f64, f64),
}

/// The outer edges of the strip are drawn whole, with half of their line beyond.
fn grown(
    window: (f64, f64, f64, f64),
    row: usize,
    column: usize,
    (rows, columns): (usize, usize),
) -> (f64, f64, f64, f64) {
    let out = |is: bool| if is { 1.0 } else { 0.0 };
    (
        window.0 - out(column == 0),
        window.1 - out(row + 1 == rows),
        window.2 + out(column + 1 == columns),
        window.3 + out(row == 0),
    )
}

fn shifted((x, y): Point, row: usize, column: usize, (rows, _): (usize, usize)) -> Point {
    (x - if column == 0 { 1.0 } else { 0.0 }, y - if row + 1 == rows { 1.0 } else { 0.0 })
}

/// Where the next page joins: cut there, and butt the pages so that equal letters meet.
fn joins(draft: &mut Draft, tile: &Tile) {
    let (x, y) = tile.at;
    let (w, h) = tile.size;
    let pen = Pen::HAIR.role(Role::Ink).dash(Dash::Fine);
    let mut join = |a: Point, b: Point, name: String, at: Point, style: Style| {
        draft.line(&[a, b], pen);
        draft.text_if_free(at, name, style);
    };
    let style = Style::NOTE.role(Role::Ink).bold();
    if tile.column + 1 < tile.columns {
        let name = format!("join {}.{}", tile.row + 1, tile.column + 1);
        join((x + w, y), (x + w, y + h), format!("{name} >"), (x + w + 4.0, y + h / 2.0), style.middle().upwards());
    }
    if tile.column > 0 {
        let name = format!("< join {}.{}", tile.row + 1, tile.column);
        join((x, y), (x, y + h), name, (x - 2.0, y + h / 2.0), style.middle().upwards());
    }
    if tile.row + 1 < tile.rows {
        let name = format!("join {}, page above", letter(tile.row, tile.column, tile.columns));
        join((x, y), (x + w, y), name, (x + w / 2.0, y - 1.6), style.middle());
    }
    if tile.row > 0 {
        let name = format!("join {}, page below", letter(tile.row - 1, tile.column, tile.columns));
        join((x, y + h), (x + w, y + h), name, (x + w / 2.0, y + h + 3.8), style.middle());
    }
}

fn letter(row: usize, column: usize, columns: usize) -> String {
    let number = row * columns + column;
    char::from_u32('A' as u32 + (number % 26) as u32).map_or_else(|| number.to_string(), String::from)
}

fn beside(draft: &mut Draft, subject: Subject, strip: &Strip, (x, tile, number): (f64, &Tile, usize)) {
    let most = BESIDE - 5.0;
    let mid = Style::LABEL.role(Role::Mid);
    let mut y =
        draft.paragraph((x, 14.0), &cut(&subject.title(), Style::TITLE, 2.0 * most), Style::LABEL.bold(), most) + 1.0;
    let about = format!(
        "Marking-out strip at true size for {}, {} across, which is {} around.",
        strip.name,
        show::length(strip.diameter),
        show::length(strip.around / 1e3)
    );
    y = draft.paragraph((x, y), &about, mid, most) + 1.5;
    let of = tile.rows * tile.columns;
    if of > 1 {
        y = draft.paragraph(
            (x, y),
            &format!("Page {number} of {of}: cut at the joins and butt them."),
            Style::LABEL.bold(),
            most,
        ) + 1.5;
    }
    for (i, step) in STEPS.iter().enumerate() {
        draft.text((x, y), format!("{}", i + 1), Style::LABEL.bold());
        y = draft.paragraph((x + 5.0, y), step, Style::LABEL, most - 5.0) + 1.0;
    }
    y += 2.0;
    let (_, unit, _) = show::ruler();
    draft.text((x, y), format!("{unit} from the lower edge:"), Style::NOTE);
    y += 4.4;
    // Down to where the bar begins.
    for (name, what) in &strip.list {
        if y > 150.0 {
            draft.text((x, y), "…", Style::NOTE);
            break;
        }
        draft.text((x, y), cut(name, Style::NOTE.role(Role::Ink).bold(), most), Style::NOTE.role(Role::Ink).bold());
        y = draft.paragraph((x, y + 3.9), what, Style::NOTE, most) + 0.8;
    }
}

const STEPS: [&str; 3] = [
    "Measure both bars before you cut.",
    "Wrap the strip round the tube, its lower edge at the tube's aft end.",
    "Prick through holes and the ends of lines.",
];

/// Two bars, one each way: a printer may stretch only one of them.
fn bars(draft: &mut Draft, (width, height): (f64, f64)) {
    let x = width - EDGE - BESIDE + 8.0;
    let (low, inch) = (height - UNDER, 25.4);
    draft.line(&[(x, low - 4.0 * inch), (x, low)], Pen::LINE);
    for i in 0..=8 {
        let half = if i % 2 == 0 { 1.9 } else { 1.2 };
        let y = low - inch / 2.0 * f64::from(i);
        draft.line(&[(x - half, y), (x + half, y)], if i % 8 == 0 { Pen::LINE } else { Pen::THIN });
    }
    draft.text((x + 5.0, low - 2.0 * inch), "4 in", Style::LABEL.bold());
    draft.text((x + 5.0, low - 2.0 * inch + 4.4), "101.6 mm", Style::LABEL.role(Role::Mid));
    let y = height - 9.0;
    draft.line(&[(EDGE, y), (EDGE + 100.0, y)], Pen::LINE);
    for i in 0..=10 {
        let half = if i % 5 == 0 { 1.6 } else { 1.0 };
        let x = EDGE + 10.0 * f64::from(i);
        draft.line(&[(x, y - half), (x, y + half)], if i % 10 == 0 { Pen::LINE } else { Pen::THIN });
    }
    draft.text((EDGE + 104.0, y + 1.1), "100 mm", Style::LABEL.bold());
    draft.text((width - EDGE, y + 1.1), "print at 100 %, not fitted", Style::NOTE.end());
}

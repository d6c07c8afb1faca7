//! A page's strokes and words.

use super::typeface::Typefaces;
use super::{points, Page};
use crate::colour::LIGHT;
use crate::font::width;
use crate::scene::{Anchor, Point, Ring, Role, Shape, Style, Text, What};
use pdf_writer::types::{LineCapStyle, LineJoinStyle};
use pdf_writer::{Content, Name, Str};
use std::borrow::Cow;
use unicode_bidi::BidiInfo;

/// The page's content, uncompressed.
pub fn content(page: &Page, note: Option<&Text>, faces: &mut Typefaces) -> Vec<u8> {
    let mut out = Content::new();
    out.set_line_cap(LineCapStyle::RoundCap).set_line_join(LineJoinStyle::RoundJoin);
    for (origin, scene) in &page.scenes {
        let to = |(x, y): Point| (points(origin.0 + x), points(page.height - origin.1 - y));
        for item in &scene.items {
            match &item.what {
                What::Shape(drawn) => shape(&mut out, drawn, &to),
                What::Text(text) => words(&mut out, text, &to, faces),
            }
        }
    }
    if let Some(text) = note {
        words(&mut out, text, &|(x, y)| (points(x), points(page.height - y)), faces);
    }
    out.finish().to_vec()
}

fn rgb(role: Role) -> [f32; 3] {
    LIGHT.rgb(role).map(|part| f32::from(part) / 255.0)
}

fn shape(out: &mut Content, shape: &Shape, to: &dyn Fn(Point) -> (f32, f32)) {
    if let Some(fill) = shape.fill {
        let [r, g, b] = rgb(fill);
        out.set_fill_rgb(r, g, b);
    }
    if let Some(pen) = shape.pen {
        let [r, g, b] = rgb(pen.role);
        out.set_stroke_rgb(r, g, b).set_line_width(points(pen.weight));
        out.set_dash_pattern(pen.dash.lengths().iter().map(|length| points(*length)), 0.0);
    }
    shape.rings.iter().for_each(|ring| outline(out, ring, to));
    match (shape.fill, shape.pen) {
        (Some(_), Some(_)) => out.fill_even_odd_and_stroke(),
        (Some(_), None) => out.fill_even_odd(),
        (None, Some(_)) => out.stroke(),
        (None, None) => out.end_path(),
    };
}

/// How far a quarter circle's controls lie along its tangents, as a share of its radius.
const ROUND: f64 = 0.552_284_75;

fn outline(out: &mut Content, ring: &Ring, to: &dyn Fn(Point) -> (f32, f32)) {
    match ring {
        Ring::Open(line) | Ring::Closed(line) => {
            for (i, point) in line.iter().enumerate() {
                let (x, y) = to(*point);
                match i {
                    0 => out.move_to(x, y),
                    _ => out.line_to(x, y),
                };
            }
            if matches!(ring, Ring::Closed(_)) {
                out.close_path();
            }
        }
        Ring::Circle((x, y), r) => {
            let at = |dx: f64, dy: f64| to((x + dx * r, y + dy * r));
            let (from_x, from_y) = at(1.0, 0.0);
            out.move_to(from_x, from_y);
            for (a, b) in [
                ((1.0, 0.0), (0.0, 1.0)),
                ((0.0, 1.0), (-1.0, 0.0)),
                ((-1.0, 0.0), (0.0, -1.0)),
                ((0.0, -1.0), (1.0, 0.0)),
            ] {
                let (x1, y1) = at(a.0 + ROUND * b.0, a.1 + ROUND * b.1);
                let (x2, y2) = at(b.0 + ROUND * a.0, b.1 + ROUND * a.1);
                let (x3, y3) = at(b.0, b.1);
                out.cubic_to(x1, y1, x2, y2, x3, y3);
            }
            out.close_path();
        }
    }
}

fn words(out: &mut Content, text: &Text, to: &dyn Fn(Point) -> (f32, f32), faces: &mut Typefaces) {
    let Style { size, bold, upwards, .. } = text.style;
    let wide = width(&text.words, text.style);
    let back = match text.style.anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => wide / 2.0,
        Anchor::End => wide,
    };
    let [r, g, b] = rgb(text.style.role);
    out.set_fill_rgb(r, g, b).begin_text();
    let mut along = -back;
    // A run for each face in turn: nearly always one.
    let seen = as_seen(&text.words);
    let letters: Vec<(usize, u16, f64)> = seen.chars().map(|letter| faces.glyph(letter, bold)).collect();
    for run in letters.chunk_by(|one, other| one.0 == other.0) {
        let face = run.first().map_or(0, |letter| letter.0);
        let (x, y) = match upwards {
            true => to((text.at.0, text.at.1 - along)),
            false => to((text.at.0 + along, text.at.1)),
        };
        let turned = if upwards { [0.0, 1.0, -1.0, 0.0, x, y] } else { [1.0, 0.0, 0.0, 1.0, x, y] };
        let bytes: Vec<u8> = run.iter().flat_map(|(_, glyph, _)| glyph.to_be_bytes()).collect();
        out.set_font(Name(format!("F{face}").as_bytes()), points(size)).set_text_matrix(turned).show(Str(&bytes));
        along += run.iter().map(|letter| letter.2).sum::<f64>() * size;
    }
    out.end_text();
}

/// Words in the order in which they are seen: where some read from the right, the Unicode Bidirectional Algorithm's.
fn as_seen(words: &str) -> Cow<'_, str> {
    if words.is_ascii() {
        return Cow::Borrowed(words);
    }
    let order = BidiInfo::new(words, None);
    match order.paragraphs.first().filter(|_| order.has_rtl()) {
        Some(line) => Cow::Owned(order.reorder_line(line, line.range.clone()).into_owned()),
        None => Cow::Borrowed(words),
    }
}

#[cfg(test)]
mod tests {
    use super::as_seen;

    #[test]
    fn what_reads_from_the_right_is_set_in_the_order_in_which_it_is_seen() {
        assert_eq!(as_seen("abc \u{5d0}\u{5d1}\u{5d2}"), "abc \u{5d2}\u{5d1}\u{5d0}");
        assert_eq!(as_seen("Жар-птица"), "Жар-птица");
    }
}

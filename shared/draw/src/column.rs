//! A column of labels beside a drawing, each with a leader to what it names.

use crate::draft::Draft;
use crate::font::{wrapped, LEAD};
use crate::scene::{Anchor, Pen, Point, Role, Style};
use crate::spread::spread;
use finwright_grammar::Place;

/// A column of labels.
pub struct Column {
    /// Where the words begin, or end in a column left of the drawing.
    pub x: f64,
    /// Whether it stands right of the drawing.
    pub right: bool,
    /// How wide its words may be, mm.
    pub width: f64,
    labels: Vec<Label>,
}

struct Label {
    to: Point,
    lines: Vec<String>,
    role: Role,
    ends_open: bool,
    source: Option<Place>,
}

const GAP: f64 = 2.2;
const STYLE: Style = Style::LABEL;

impl Column {
    /// An empty column.
    pub fn new(x: f64, right: bool, width: f64) -> Column {
        Column { x, right, width, labels: Vec::new() }
    }

    /// A label for a point, its leader ending on it: the value or name, then what it means.
    pub fn name(&mut self, to: Point, head: &str, meaning: &str, role: Role, source: Option<Place>) {
        self.add(to, head, meaning, role, false, source);
    }

    /// A label for a level, its leader ending beside it.
    pub fn level(&mut self, to: Point, head: &str, meaning: &str, role: Role) {
        self.add(to, head, meaning, role, true, None);
    }

    fn add(&mut self, to: Point, head: &str, meaning: &str, role: Role, ends_open: bool, source: Option<Place>) {
        let mut lines = wrapped(head, STYLE.bold(), self.width);
        lines.truncate(2);
        if !meaning.is_empty() {
            lines.extend(wrapped(meaning, STYLE, self.width));
        }
        self.labels.push(Label { to, lines, role, ends_open, source });
    }

    /// The height that the labels need, mm.
    pub fn height(&self) -> f64 {
        self.labels.iter().map(|label| label.height() + GAP).sum()
    }

    /// Draw the labels between two heights, with their leaders.
    pub fn draw(mut self, draft: &mut Draft, (top, bottom): (f64, f64)) {
        self.labels.sort_by(|one, other| one.to.1.total_cmp(&other.to.1));
        let first = STYLE.size * 0.76;
        let wanted: Vec<f64> = self.labels.iter().map(|label| label.to.1 + 1.1 - first).collect();
        let heights: Vec<f64> = self.labels.iter().map(Label::height).collect();
        let tops = spread(&wanted, &heights, GAP, (top, bottom));
        let jogs = self.jogs(&wanted, &tops);
        let side = if self.right { 1.0 } else { -1.0 };
        for ((label, top), jog) in self.labels.iter().zip(tops).zip(jogs) {
            let y = top + first;
            let from = (self.x - 2.0 * side, y - 1.1);
            let turn = self.x - (4.0 + 1.6 * jog) * side;
            let path = match (y - 1.1 - label.to.1).abs() < 0.25 {
                true => vec![(from.0, label.to.1), label.to],
                false => vec![from, (turn, from.1), (turn, label.to.1), label.to],
            };
            draft.stands_for(label.source);
            let quiet = if label.role == Role::Ink { Role::Mid } else { label.role };
            match label.ends_open {
                true => draft.line(&path, Pen::HAIR.role(quiet)),
                false => draft.leader(&path, quiet),
            }
            let anchor = if self.right { Anchor::Start } else { Anchor::End };
            draft.say((self.x, y), &label.lines, STYLE.role(label.role).anchor(anchor));
        }
        draft.stands_for(None);
    }

    /// How many places from the column each leader turns, so that none crosses another: of neighbours pushed down the
    /// later ones turn nearer to the drawing, of those pushed up the earlier ones.
    fn jogs(&self, wanted: &[f64], tops: &[f64]) -> Vec<f64> {
        let way: Vec<i32> = wanted.iter().zip(tops).map(|(w, t)| ((t - w) * 2.0) as i32).map(i32::signum).collect();
        let mut jogs = vec![0.0; way.len()];
        for i in 1..way.len() {
            if way[i] == 1 && way[i - 1] == 1 {
                jogs[i] = jogs[i - 1] + 1.0;
            }
        }
        for i in (1..way.len()).rev() {
            if way[i] == -1 && way[i - 1] == -1 {
                jogs[i - 1] = jogs[i] + 1.0;
            }
        }
        jogs
    }
}

impl Label {
    fn height(&self) -> f64 {
        STYLE.size * (LEAD * (self.lines.len() as f64 - 1.0) + 0.98)
    }
}

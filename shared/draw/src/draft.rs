//! The drawing kit: a picture being drawn.

use crate::font::{bounds, cut, width, wrapped, LEAD};
use crate::hatch::hatch;
use crate::room::{meet, passes, strokes};
use crate::scene::{Item, Pen, Point, Rect, Ring, Role, Scene, Shape, Style, Text, What};
use finwright_grammar::Place;

/// A picture being drawn.
pub struct Draft {
    scene: Scene,
    source: Option<Place>,
    /// Lines that words that look for room keep off.
    guards: Vec<[Point; 2]>,
    /// Where words that look for room don't look.
    closed: Option<Rect>,
}

/// A slim arrowhead: its length, and half its width as a share of that.
#[derive(Clone, Copy)]
pub struct Head(pub f64, pub f64);

impl Head {
    /// A dimension's.
    pub const SLIM: Head = Head(2.3, 0.2);
    /// A small one.
    pub const SMALL: Head = Head(1.6, 0.3);
    /// The wind's.
    pub const WIND: Head = Head(4.0, 0.3);
}

impl Draft {
    /// An empty paper.
    pub fn new(name: &'static str, width: f64, height: f64) -> Draft {
        let (title, desc) = (String::new(), String::new());
        Draft {
            scene: Scene { name, width, height, title, desc, items: Vec::new() },
            source: None,
            guards: Vec::new(),
            closed: None,
        }
    }

    /// The picture, with what it shows in words.
    pub fn done(mut self, title: String, desc: String) -> Scene {
        (self.scene.title, self.scene.desc) = (title, desc);
        self.scene
    }

    /// The paper's width, mm.
    pub fn width(&self) -> f64 {
        self.scene.width
    }

    /// Make the paper as high as it needs to be.
    pub fn set_height(&mut self, height: f64) {
        self.scene.height = height;
    }

    /// What is drawn from now on stands for this place of the text.
    pub fn stands_for(&mut self, source: Option<Place>) {
        self.source = source;
    }

    /// A stroke through points.
    pub fn line(&mut self, points: &[Point], pen: Pen) {
        self.shape(vec![Ring::Open(points.to_vec())], None, Some(pen));
    }

    /// Several strokes of one pen.
    pub fn lines(&mut self, strokes: impl IntoIterator<Item = [Point; 2]>, pen: Pen) {
        let rings: Vec<Ring> = strokes.into_iter().map(|[a, b]| Ring::Open(vec![a, b])).collect();
        if !rings.is_empty() {
            self.shape(rings, None, Some(pen));
        }
    }

    /// An area with its outline; paper inside, so that it hides what is behind.
    pub fn solid(&mut self, points: &[Point], pen: Pen) {
        self.shape(vec![Ring::Closed(points.to_vec())], Some(Role::Paper), Some(pen));
    }

    /// An outline alone.
    pub fn outline(&mut self, points: &[Point], pen: Pen) {
        self.shape(vec![Ring::Closed(points.to_vec())], None, Some(pen));
    }

    /// An area alone.
    pub fn area(&mut self, points: &[Point], fill: Role) {
        self.shape(vec![Ring::Closed(points.to_vec())], Some(fill), None);
    }

    /// A circle.
    pub fn circle(&mut self, middle: Point, radius: f64, fill: Option<Role>, pen: Option<Pen>) {
        self.shape(vec![Ring::Circle(middle, radius)], fill, pen);
    }

    /// Any shape.
    pub fn shape(&mut self, rings: Vec<Ring>, fill: Option<Role>, pen: Option<Pen>) {
        self.push(What::Shape(Shape { rings, fill, pen }));
    }

    /// A hatch inside of rings.
    pub fn hatch(&mut self, rings: &[Vec<Point>], gap: f64, angle: f64, pen: Pen) {
        self.lines(hatch(rings, gap, angle), pen);
    }

    /// An arrowhead with its point at `tip`, pointing away from `from`.
    pub fn head(&mut self, from: Point, tip: Point, role: Role, Head(size, slim): Head) {
        let (dx, dy) = (tip.0 - from.0, tip.1 - from.1);
        let length = dx.hypot(dy);
        if length <= 0.0 {
            return;
        }
        let (dx, dy) = (dx / length * size, dy / length * size);
        let (x, y) = (tip.0 - dx, tip.1 - dy);
        self.area(&[tip, (x - dy * slim, y + dx * slim), (x + dy * slim, y - dx * slim)], role);
    }

    /// An arrow.
    pub fn arrow(&mut self, from: Point, to: Point, pen: Pen, head: Head) {
        let length = (to.0 - from.0).hypot(to.1 - from.1);
        let share = if length > 0.0 { ((length - 0.8 * head.0) / length).max(0.0) } else { 0.0 };
        self.line(&[from, (from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1))], pen);
        self.head(from, to, pen.role, head);
    }

    /// A dimension between two points, its arrows inside; from outside where they have no room.
    pub fn dimension(&mut self, a: Point, b: Point, role: Role) {
        let head = Head::SLIM;
        let length = (b.0 - a.0).hypot(b.1 - a.1);
        if length > 2.4 * head.0 {
            self.line(&[a, b], Pen::THIN.role(role));
            self.head(b, a, role, head);
            self.head(a, b, role, head);
        } else if length > 0.0 {
            let (ux, uy) = ((b.0 - a.0) / length * 5.0, (b.1 - a.1) / length * 5.0);
            self.arrow((a.0 - ux, a.1 - uy), a, Pen::THIN.role(role), head);
            self.arrow((b.0 + ux, b.1 + uy), b, Pen::THIN.role(role), head);
        }
    }

    /// A limit: a line with short strokes on the side where one shouldn't be, which is to the left of its direction
    /// where `side` is 1, else to the right.
    pub fn limit(&mut self, a: Point, b: Point, side: f64, pen: Pen) {
        let length = (b.0 - a.0).hypot(b.1 - a.1);
        self.line(&[a, b], pen);
        if length <= 0.0 {
            return;
        }
        let (ux, uy) = ((b.0 - a.0) / length, (b.1 - a.1) / length);
        let (nx, ny) = (-uy * side, ux * side);
        let (step, reach) = (1.5, 1.25);
        let count = ((length - 0.6 * step) / step).ceil().max(0.0) as usize;
        let strokes = (0..count).map(|i| {
            let along = step * (0.6 + i as f64);
            let (x, y) = (a.0 + ux * along, a.1 + uy * along);
            [(x, y), (x + (nx - 0.8 * ux) * reach, y + (ny - 0.8 * uy) * reach)]
        });
        self.lines(strokes.collect::<Vec<_>>(), pen.weight(0.2));
    }

    /// A line of words. Nothing is drawn for none.
    pub fn text(&mut self, at: Point, words: impl Into<String>, style: Style) {
        let text = Text { at, words: words.into(), style };
        if text.words.is_empty() {
            return;
        }
        if style.knock {
            let (left, top, right, bottom) = bounds(&text);
            let (left, top, right, bottom) = (left - 0.6, top - 0.2, right + 0.6, bottom + 0.4);
            self.area(&[(left, top), (right, top), (right, bottom), (left, bottom)], Role::Paper);
        }
        self.push(What::Text(text));
    }

    /// The same where it meets no other words and stays on the paper; whether it did.
    pub fn text_if_free(&mut self, at: Point, words: impl Into<String>, style: Style) -> bool {
        let text = Text { at, words: words.into(), style };
        let free = self.is_free(bounds(&text));
        if free {
            self.text(at, text.words, style);
        }
        free
    }

    /// Whether a rectangle meets no words and lies on the paper.
    pub fn is_free(&self, own: Rect) -> bool {
        let on_paper = own.0 >= 4.0 && own.1 >= 3.0 && own.2 <= self.scene.width - 4.0;
        let clear = |[a, b]: &[Point; 2]| !passes(*a, *b, (own.0 - 0.4, own.1 - 0.3, own.2 + 0.4, own.3 + 0.4));
        let open = self.closed.is_none_or(|closed| !meet(own, closed));
        on_paper && open && self.scene.texts().all(|other| !meet(own, bounds(other))) && self.guards.iter().all(clear)
    }

    /// Whether a rectangle meets no words.
    pub fn is_clear_of_words(&self, own: Rect) -> bool {
        self.scene.texts().all(|other| !meet(own, bounds(other)))
    }

    /// Words that look for room don't look here; nothing opens all paper again.
    pub fn close(&mut self, area: Option<Rect>) {
        self.closed = area;
    }

    /// Words that look for room keep off this line, too.
    pub fn guard(&mut self, a: Point, b: Point) {
        self.guards.push([a, b]);
    }

    /// Whether a stroke passes through no words.
    pub fn passes_words(&self, a: Point, b: Point) -> bool {
        self.scene.texts().any(|text| passes(a, b, bounds(text)))
    }

    /// A label: its first line bold, what it means below in grey. Gives the height that it takes.
    pub fn say(&mut self, (x, y): Point, lines: &[String], style: Style) -> f64 {
        let lead = style.size * LEAD;
        for (i, line) in lines.iter().enumerate() {
            let mid = if style.role == Role::Ink { Role::Mid } else { style.role };
            let style = if i == 0 { style.bold() } else { style.role(mid) };
            self.text((x, y + lead * i as f64), line.as_str(), style);
        }
        lead * lines.len() as f64
    }

    /// Words broken to a width. Gives the baseline of the line that would come next.
    pub fn paragraph(&mut self, (x, y): Point, words: &str, style: Style, most: f64) -> f64 {
        let lead = style.size * LEAD;
        let lines = wrapped(words, style, most);
        for (i, line) in lines.iter().enumerate() {
            self.text((x, y + lead * i as f64), line.as_str(), style);
        }
        y + lead * lines.len() as f64
    }

    /// What stands over a picture: whose and what, the question, the answers. Gives the y below.
    pub fn heading(&mut self, over: &str, question: &str, answers: &[String]) -> f64 {
        let (x, most) = (12.0, self.scene.width - 24.0);
        let over = cut(over, Style::LABEL, most);
        self.text((x, 12.0), over, Style::LABEL.role(Role::Mid));
        let mut y = self.paragraph((x, 18.6), question, Style::TITLE, most) + 0.6;
        for answer in answers {
            y = self.paragraph((x, y), answer, Style::SAY, most) + 0.2;
        }
        y
    }

    /// What stands under a picture.
    pub fn foot(&mut self, y: f64) {
        let most = self.scene.width - 24.0;
        self.paragraph((12.0, y), CAUTION, Style::NOTE, most);
    }

    /// A leader from a label to what it names: it runs level, with one jog at most, and ends in a small square.
    pub fn leader(&mut self, points: &[Point], role: Role) {
        self.line(points, Pen::HAIR.role(role));
        if let Some((x, y)) = points.last().copied() {
            self.area(&[(x - 0.4, y - 0.4), (x + 0.4, y - 0.4), (x + 0.4, y + 0.4), (x - 0.4, y + 0.4)], role);
        }
    }

    fn push(&mut self, what: What) {
        if let What::Shape(Shape { rings, pen: Some(pen), .. }) = &what {
            if pen.weight >= Pen::THIN.weight && rings.len() == 1 {
                self.guards.extend(rings.iter().flat_map(strokes));
            }
        }
        self.scene.items.push(Item { what, source: self.source });
    }
}

/// What every picture says.
pub const CAUTION: &str =
    "Computed from the file, not a clearance to fly: the range safety officer and the local code decide.";

/// The width of the widest of some lines, mm.
pub fn widest(lines: &[String], style: Style) -> f64 {
    lines.iter().map(|line| width(line, style.bold())).fold(0.0, f64::max)
}

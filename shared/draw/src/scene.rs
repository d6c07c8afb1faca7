//! What a picture is made of: plain data in millimetres of paper, x to the right and y down from its upper left corner.

use finwright_grammar::Place;

/// A point on the paper, mm.
pub type Point = (f64, f64);

/// A picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// A short name, for files and ids.
    pub name: &'static str,
    /// Width of the paper, mm.
    pub width: f64,
    /// Height of the paper, mm.
    pub height: f64,
    /// What it shows, in a line.
    pub title: String,
    /// The same told, for whoever doesn't see it.
    pub desc: String,
    /// What is drawn, the first below the later ones.
    pub items: Vec<Item>,
}

/// One thing that is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What.
    pub what: What,
    /// The part or value of the text that it stands for.
    pub source: Option<Place>,
}

/// Strokes and areas, or words.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// A stroke, an area, or both.
    Shape(Shape),
    /// Words.
    Text(Text),
}

/// Lines and areas; where rings lie in one another, the inner one is a hole.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Its outlines.
    pub rings: Vec<Ring>,
    /// What fills it.
    pub fill: Option<Role>,
    /// What draws its outlines.
    pub pen: Option<Pen>,
}

/// An outline.
#[derive(Clone, Debug, PartialEq)]
pub enum Ring {
    /// Points joined by lines.
    Open(Vec<Point>),
    /// The same, and back to the first.
    Closed(Vec<Point>),
    /// A circle about a middle, with its radius.
    Circle(Point, f64),
}

/// What something is drawn for; each writer has its colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Role {
    /// The paper itself, which hides what lies below.
    Paper,
    /// What is there.
    Ink,
    /// What explains it.
    Mid,
    /// Construction; never words.
    Faint,
    /// Bands behind curves.
    Pale,
    /// What doesn't pass.
    Fails,
    /// What to look at, and the air.
    Looks,
}

/// How a stroke is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pen {
    /// Its colour.
    pub role: Role,
    /// Its weight, mm.
    pub weight: f64,
    /// Its dashes.
    pub dash: Dash,
}

/// How a stroke is interrupted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Dash {
    /// Not at all.
    Solid,
    /// Behind something, or not there.
    Hidden,
    /// As it would be.
    Ghost,
    /// A middle line.
    Axis,
    /// Hidden, on something small.
    Fine,
}

impl Dash {
    /// Lengths of strokes and gaps in turn, mm.
    pub fn lengths(self) -> &'static [f64] {
        match self {
            Dash::Solid => &[],
            Dash::Hidden => &[2.0, 1.2],
            Dash::Ghost => &[3.0, 1.6],
            Dash::Axis => &[7.0, 1.2, 1.0, 1.2],
            Dash::Fine => &[0.8, 0.7],
        }
    }
}

/// A line of words.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// Where its baseline begins, ends or has its middle.
    pub at: Point,
    /// The words.
    pub words: String,
    /// How they are set.
    pub style: Style,
}

/// How words are set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Style {
    /// Type size, mm.
    pub size: f64,
    /// Colour.
    pub role: Role,
    /// Whether it's bold.
    pub bold: bool,
    /// Which of its points is given.
    pub anchor: Anchor,
    /// Whether it reads upwards.
    pub upwards: bool,
    /// Whether paper lies behind it, so that it may interrupt a construction line.
    pub knock: bool,
}

/// Which point of a line of words is given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Its beginning.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// A rectangle on the paper: left, top, right, bottom.
pub type Rect = (f64, f64, f64, f64);

/// Millimetres in a point.
pub const PT: f64 = 25.4 / 72.0;

impl Style {
    /// The question at a picture's head, 13 pt.
    pub const TITLE: Style = Style::of(13.0, Role::Ink).bold();
    /// Its answer, 10 pt.
    pub const SAY: Style = Style::of(10.0, Role::Ink);
    /// A label, 9 pt.
    pub const LABEL: Style = Style::of(9.0, Role::Ink);
    /// What stands beside, 8.2 pt: nothing is smaller.
    pub const NOTE: Style = Style::of(8.2, Role::Mid);

    const fn of(points: f64, role: Role) -> Style {
        let (bold, upwards, knock) = (false, false, false);
        Style { size: points * PT, role, bold, anchor: Anchor::Start, upwards, knock }
    }

    /// The same in bold.
    pub const fn bold(self) -> Style {
        Style { bold: true, ..self }
    }

    /// The same in another colour.
    pub const fn role(self, role: Role) -> Style {
        Style { role, ..self }
    }

    /// The same, given by another of its points.
    pub const fn anchor(self, anchor: Anchor) -> Style {
        Style { anchor, ..self }
    }

    /// The same about its middle.
    pub const fn middle(self) -> Style {
        self.anchor(Anchor::Middle)
    }

    /// The same up to its end.
    pub const fn end(self) -> Style {
        self.anchor(Anchor::End)
    }

    /// The same, reading upwards.
    pub const fn upwards(self) -> Style {
        Style { upwards: true, ..self }
    }

    /// The same with paper behind it.
    pub const fn knock(self) -> Style {
        Style { knock: true, ..self }
    }
}

impl Pen {
    /// Ground and events.
    pub const BOLD: Pen = Pen::ink(0.7);
    /// Outlines.
    pub const LINE: Pen = Pen::ink(0.45);
    /// Small parts.
    pub const SMALL: Pen = Pen::ink(0.3);
    /// Dimensions.
    pub const THIN: Pen = Pen::ink(0.25);
    /// Construction, leaders, hatches.
    pub const HAIR: Pen = Pen { role: Role::Mid, weight: 0.2, dash: Dash::Solid };

    const fn ink(weight: f64) -> Pen {
        Pen { role: Role::Ink, weight, dash: Dash::Solid }
    }

    /// The same in another colour.
    pub const fn role(self, role: Role) -> Pen {
        Pen { role, ..self }
    }

    /// The same, dashed.
    pub const fn dash(self, dash: Dash) -> Pen {
        Pen { dash, ..self }
    }

    /// The same in another weight.
    pub const fn weight(self, weight: f64) -> Pen {
        Pen { weight, ..self }
    }
}

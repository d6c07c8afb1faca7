//! What a working holds, as plain data: known values, steps, tables, notes; and how a page of them is filled.

use crate::number::Number;
use crate::term::Term;
use serde::Serialize;

/// Part of a working, in the order of the page.
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Block {
    /// Values to start from.
    Known(Vec<Known>),
    /// One step.
    Step(Step),
    /// A table, each of whose lines is worked the same way.
    Table(Table),
    /// Something to know.
    Note(String),
}

/// A value to start from.
#[derive(Clone, Debug, Serialize)]
pub struct Known {
    /// Its symbol in the formulas.
    pub symbol: String,
    /// What it is.
    pub means: String,
    /// The value.
    pub number: Number,
    /// Where it comes from: the file, a default, another working, the program.
    pub from: String,
}

/// One step: what we want, the formula with its source, the values put in, the result.
#[derive(Clone, Debug, Serialize)]
pub struct Step {
    /// What we want.
    pub want: String,
    /// The symbol of the result.
    pub symbol: String,
    /// The formula, right of the equals sign.
    pub formula: String,
    /// Who published it, or what it rests on.
    pub source: String,
    /// The formula with the values put in.
    pub values: String,
    /// What it comes to, rounded; later steps use this.
    pub result: Number,
}

/// A table whose lines are worked alike.
#[derive(Clone, Debug, Serialize)]
pub struct Table {
    /// What it shows.
    pub title: String,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its lines, a cell for each column.
    pub rows: Vec<Vec<Cell>>,
}

/// A column of a table.
#[derive(Clone, Debug, Serialize)]
pub struct Column {
    /// Its name.
    pub heading: String,
    /// Its symbol in formulas; one with a stroke behind it, as in v', is the value in the line above.
    pub symbol: String,
    /// How its cells come about; empty where they are given.
    pub formula: String,
}

/// A cell of a table.
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Cell {
    /// Words.
    Words(String),
    /// A number that is given.
    Given(Number),
    /// A number worked by the column's formula.
    Worked(Number),
    /// The sum of the column's numbers above it.
    Sum(Number),
}

/// A result beside the program's own number.
#[derive(Clone, Debug, Serialize)]
pub struct End {
    /// What it is.
    pub what: String,
    /// By hand, as the steps give it.
    pub by_hand: Number,
    /// The program's, without rounding on the way, in the same unit.
    pub program: f64,
    /// The program's with the same left out as by hand, where that is something it can leave out.
    pub alike: Option<f64>,
}

impl Cell {
    /// The number in it, where there is one.
    pub fn number(&self) -> Option<&Number> {
        match self {
            Cell::Words(_) => None,
            Cell::Given(number) | Cell::Worked(number) | Cell::Sum(number) => Some(number),
        }
    }

    /// What stands in it; the unit stands in the column's heading.
    pub fn text(&self) -> &str {
        match self {
            Cell::Words(words) => words,
            Cell::Given(number) | Cell::Worked(number) | Cell::Sum(number) => number.digits(),
        }
    }
}

impl End {
    /// How far the hand's result lies from the program's, as a share of it.
    pub fn off(&self) -> f64 {
        if self.program == 0.0 {
            self.by_hand.value()
        } else {
            (self.by_hand.value() - self.program) / self.program.abs()
        }
    }

    /// The comparison in words.
    pub fn in_words(&self) -> String {
        let percent = 100.0 * self.off().abs();
        let side = if self.by_hand.value() > self.program { "more" } else { "less" };
        let off = match percent {
            p if p < 0.005 => "the same within 0.01 %".to_string(),
            p if p < 0.1 => format!("by hand {p:.2} % {side}"),
            p => format!("by hand {p:.1} % {side}"),
        };
        let program = Number::result(self.program, self.by_hand.unit());
        let alike = self.alike.map(|alike| Number::result(alike, self.by_hand.unit()));
        let alike = alike.map_or(String::new(), |alike| format!("; {alike} where it leaves out the same as by hand"));
        format!("{}: {} by hand; the program, without rounding: {program}; {off}{alike}", self.what, self.by_hand)
    }
}

/// A page being filled.
#[derive(Default)]
pub(crate) struct Page {
    pub blocks: Vec<Block>,
    pub ends: Vec<End>,
    pub neglects: Vec<String>,
}

impl Page {
    /// A value to start from.
    pub fn know(&mut self, symbol: &str, means: impl Into<String>, number: Number, from: impl Into<String>) -> Term {
        let term = Term::known(symbol, &number);
        let known = Known { symbol: symbol.to_string(), means: means.into(), number, from: from.into() };
        match self.blocks.last_mut() {
            Some(Block::Known(list)) => list.push(known),
            _ => self.blocks.push(Block::Known(vec![known])),
        }
        term
    }

    /// A step; its rounded result, under its symbol.
    pub fn step(&mut self, want: impl Into<String>, symbol: &str, of: &Term, source: &str, unit: &'static str) -> Term {
        let result = Number::result(of.value(), unit);
        let term = Term::known(symbol, &result);
        self.blocks.push(Block::Step(Step {
            want: want.into(),
            symbol: symbol.to_string(),
            formula: of.formula().to_string(),
            source: source.to_string(),
            values: of.values().to_string(),
            result,
        }));
        term
    }

    /// Something to know.
    pub fn note(&mut self, text: impl Into<String>) {
        self.blocks.push(Block::Note(text.into()));
    }

    /// A table.
    pub fn table(&mut self, table: Table) {
        self.blocks.push(Block::Table(table));
    }

    /// A result to compare with the program's, which is in the same unit.
    pub fn end(&mut self, what: impl Into<String>, by_hand: &Term, program: f64) {
        self.end_beside(what, by_hand, program, None);
    }

    /// The same, where the program can leave out what is left out by hand.
    pub fn end_beside(&mut self, what: impl Into<String>, by_hand: &Term, program: f64, alike: Option<f64>) {
        if let Some(number) = by_hand.number() {
            self.ends.push(End { what: what.into(), by_hand: number.clone(), program, alike });
        }
    }

    /// What the hand's way leaves out.
    pub fn neglect(&mut self, what: impl Into<String>) {
        self.neglects.push(what.into());
    }
}

impl Table {
    /// A table of (heading, symbol) columns.
    pub(crate) fn new(title: impl Into<String>, columns: &[(&str, &str)]) -> Table {
        let column = |(heading, symbol): &(&str, &str)| Column {
            heading: heading.to_string(),
            symbol: symbol.to_string(),
            formula: String::new(),
        };
        Table { title: title.into(), columns: columns.iter().map(column).collect(), rows: Vec::new() }
    }

    /// A worked cell of a column, whose formula is the term's; what it comes to, rounded.
    pub(crate) fn work(&mut self, symbol: &str, of: &Term, unit: &'static str) -> Number {
        if let Some(column) = self.columns.iter_mut().find(|c| c.symbol == symbol) {
            column.formula = of.formula().to_string();
        }
        Number::result(of.value(), unit)
    }

    /// The sum of a column so far.
    pub(crate) fn sum(&self, symbol: &str) -> Number {
        let at = self.columns.iter().position(|c| c.symbol == symbol);
        let numbers = self.rows.iter().filter_map(|row| row.get(at?)?.number());
        let unit = numbers.clone().next().map_or("", Number::unit);
        Number::result(numbers.map(Number::value).sum(), unit)
    }
}

//! Expressions to quantities. Dimensions are checked at every step; tolerances go along.

mod expressed;
pub mod functions;
mod names;

use crate::design::Design;
use crate::files::{Files, SourceFile};
use crate::meant;
use crate::problem::{Problem, CIRCULAR, MISSING_UNIT, OUT_OF_RANGE, UNKNOWN_NAME, UNKNOWN_UNIT, WRONG_DIMENSION};
use crate::sought::{Sought, STATIONS};
use crate::station::Seat;
use finwright_grammar::vocabulary::slips::is_name;
use finwright_grammar::vocabulary::{nearest, Kind};
use finwright_grammar::{Block, Expr, ExprKind, Field, FileId, Let, Measure, Place, Span, Value, ValueKind};
use finwright_units::{find_unit, readings, Dimension, Quantity, UnitError};
use fnv::FnvHashMap;
use functions::{call, FUNCTIONS};
use names::Names;
use std::collections::HashSet;

/// A part that is like a part that is like a part … ends somewhere.
pub(crate) const LONGEST_LIKENESS: usize = 8;

/// Computes values over a design's files, each named one once.
pub(crate) struct Evaluator<'f> {
    pub files: &'f [SourceFile],
    /// Reads the files of numbers that the design uses.
    pub provider: &'f dyn Files,
    pub problems: Vec<Problem>,
    names: Names<'f>,
    known: FnvHashMap<(FileId, u32), State>,
    seats: FnvHashMap<(FileId, u32), Seat<Quantity>>,
    chain: Vec<(FileId, Span)>,
    /// Where the rocket was found to balance last time, m from the tip; `None` where that can't be known.
    guess: Option<f64>,
    /// Whether a value hangs on the balance point, so that it has to be found again until it settles.
    pub uses_balance: bool,
    /// What the field that is being read measures, where that is known.
    pub wanted: Option<Dimension>,
    /// Names of blocks that can't be understood, which has been told; what refers to them isn't told again.
    pub unread: HashSet<&'f str>,
    /// What is built in: materials and rail sections.
    pub built_in: Option<&'static Design>,
}

#[derive(Clone)]
enum State {
    Busy,
    Done(Option<Quantity>),
}

impl<'f> Evaluator<'f> {
    pub fn new(files: &'f [SourceFile], provider: &'f dyn Files, guess: Option<f64>) -> Evaluator<'f> {
        let (names, problems) = Names::of(files);
        Evaluator {
            files,
            provider,
            problems,
            names,
            known: FnvHashMap::default(),
            seats: FnvHashMap::default(),
            chain: Vec::new(),
            guess,
            uses_balance: false,
            wanted: None,
            unread: HashSet::new(),
            built_in: None,
        }
    }

    /// Whether a name stands for something in a file.
    pub fn defines(&self, file: FileId, name: &str) -> bool {
        self.value_named(file, name).is_some() || self.block(file, name, Sought::Block).is_some()
    }

    /// Whether a name stands for a value where one of a kind could be meant too, which would go before.
    pub fn is_value_and_no(&self, kind: Kind, file: FileId, name: &str) -> bool {
        let is_built_in = |built_in: &Design| match kind {
            Kind::Material => built_in.material_named(name).is_some(),
            Kind::Section => built_in.section_named(name).is_some(),
            _ => false,
        };
        self.value_named(file, name).is_some()
            && self.block(file, name, Sought::Kind(kind)).is_none()
            && !self.built_in.is_some_and(is_built_in)
    }

    /// The value that a name stands for in a file, if it's written there.
    pub fn binding(&self, file: FileId, name: &str) -> Option<&'f Measure> {
        self.value_named(file, name).filter(|(at, _)| *at == file).map(|(_, binding)| &binding.value)
    }

    /// An amount with its tolerance, of any dimension. `None` where it can't be computed, which has been reported.
    pub fn measure(&mut self, file: FileId, measure: &'f Measure) -> Option<Quantity> {
        let amount = self.value(file, &measure.amount)?;
        let Some(tolerance) = &measure.tolerance else { return Some(amount) };
        // A temperature's tolerance is a difference: `20 °C ± 2 °C` must not add the scale's zero.
        let give = self.difference(file, tolerance)?;
        let source = (file.0, tolerance.span.start);
        if give.dimension == amount.dimension && !self.is_percent(file, tolerance) {
            return Some(amount.give_or_take(source, give.value.abs()));
        }
        let is_share = give.dimension == Dimension::NUMBER && self.is_percent(file, tolerance);
        if is_share && amount.dimension == Dimension::TEMPERATURE {
            self.report(Problem::new(
                WRONG_DIMENSION,
                Place { file, span: tolerance.span },
                "a share of a temperature depends on where its scale begins",
                "give its tolerance in °C, °F or K: `15 °C ± 2 °C`",
            ));
            return None;
        }
        if is_share && give.value.abs() >= 1.0 {
            let shown = self.text(file, tolerance.span).to_string();
            self.report(Problem::new(
                OUT_OF_RANGE,
                Place { file, span: tolerance.span },
                format!("a tolerance of {shown} leaves nothing of the value"),
                "give less than 100 %, or a tolerance with the value's own unit",
            ));
            return None;
        }
        if is_share {
            let size = (amount.value * give.value).abs();
            return Some(amount.give_or_take(source, size));
        }
        self.report(Problem::new(
            WRONG_DIMENSION,
            Place { file, span: tolerance.span },
            format!("the tolerance is {}, the value {}", give.dimension.phrase(), amount.dimension.phrase()),
            format!("give it in {} or in percent", amount.dimension.fitting_units()),
        ));
        Some(amount)
    }

    /// A named value, computed even if nothing uses it.
    pub fn named(&mut self, file: FileId, binding: &'f finwright_grammar::Let) -> Option<Quantity> {
        self.once(file, binding.name, |ev| ev.measure(file, &binding.value))
    }

    /// The block that a block stands in.
    pub fn parent(&self, block: &Block) -> Option<&'f Block> {
        self.names.parent(block)
    }

    /// The balance point as a value, as found last time; what keeps it from being known is told elsewhere.
    pub fn balance(&mut self) -> Option<Quantity> {
        self.uses_balance = true;
        Some(Quantity::new(self.guess?, Dimension::LENGTH))
    }

    /// An expression's value.
    pub fn value(&mut self, file: FileId, expr: &'f Expr) -> Option<Quantity> {
        let value = self.compute(file, expr)?;
        if !value.value.is_finite() {
            let shown = self.text(file, expr.span).to_string();
            self.report(Problem::new(
                OUT_OF_RANGE,
                Place { file, span: expr.span },
                format!("`{shown}` isn't a number that can be used"),
                "it divides by zero or is too large; check the numbers",
            ));
            return None;
        }
        Some(value)
    }

    pub fn report(&mut self, problem: Problem) {
        self.problems.push(problem);
    }

    pub fn text(&self, file: FileId, span: Span) -> &'f str {
        self.files.get(file.0 as usize).map_or("", |f| f.tree.text(span))
    }

    fn is_percent(&self, file: FileId, expr: &Expr) -> bool {
        matches!(expr.kind, ExprKind::Quantity { unit: Some(unit), .. } if self.text(file, unit) == "%")
    }

    fn compute(&mut self, file: FileId, expr: &'f Expr) -> Option<Quantity> {
        match &expr.kind {
            ExprKind::Quantity { number, unit } => self.literal(file, *number, *unit),
            ExprKind::Path(path) => self.path(file, expr.span, path),
            ExprKind::Negative(inner) => match inner.kind {
                // The sign belongs to the number before its scale's zero is added: -3 °C is three degrees below it.
                ExprKind::Quantity { number, unit } => self.literal(file, -number, unit),
                _ => self.value(file, inner).map(|q| q.map(-q.value, -1.0, q.dimension)),
            },
            ExprKind::Product(factors) => {
                let mut product: Option<Quantity> = None;
                for (divides, factor) in factors {
                    let next = self.value(file, factor)?;
                    product = Some(match product {
                        None => next,
                        Some(so_far) if *divides => so_far.over(&next),
                        Some(so_far) => so_far.times(&next),
                    });
                }
                product
            }
            ExprKind::Sum(terms) => {
                if let Some(problem) = meant::sum(self, file, expr.span, terms) {
                    self.report(problem);
                    return None;
                }
                let mut sum: Option<Quantity> = None;
                for (subtracts, term) in terms {
                    let next = match sum {
                        None => self.value(file, term)?,
                        Some(_) => self.difference(file, term)?,
                    };
                    let sign = if *subtracts { -1.0 } else { 1.0 };
                    sum = Some(match sum {
                        None => next,
                        Some(so_far) => match so_far.plus(sign, &next) {
                            Ok(total) => total,
                            Err(mismatch) => {
                                let verb = if *subtracts { "subtracted from" } else { "added to" };
                                self.report(Problem::new(
                                    WRONG_DIMENSION,
                                    Place { file, span: term.span },
                                    format!("{} can't be {verb} {}", mismatch.right.phrase(), mismatch.left.phrase()),
                                    due(mismatch.left),
                                ));
                                return None;
                            }
                        },
                    });
                }
                sum
            }
            ExprKind::Call { name, arguments } => call(self, file, expr.span, *name, arguments),
        }
    }

    /// What is added to a value or taken from it: of a temperature that is written out, degrees without the scale's
    /// zero.
    fn difference(&mut self, file: FileId, expr: &'f Expr) -> Option<Quantity> {
        let mut value = self.value(file, expr)?;
        if let ExprKind::Quantity { unit: Some(unit), .. } = &expr.kind {
            value.value -= find_unit(self.text(file, *unit)).map_or(0.0, |u| u.offset);
        }
        Some(value)
    }

    fn literal(&mut self, file: FileId, number: f64, unit: Option<Span>) -> Option<Quantity> {
        let Some(span) = unit else { return Some(Quantity::number(number)) };
        let spelling = self.text(file, span);
        match find_unit(spelling) {
            Ok(unit) => Some(Quantity::new(number * unit.factor + unit.offset, unit.dimension)),
            Err(error) => {
                let place = Place { file, span };
                let problem = Problem::new(UNKNOWN_UNIT, place, format!("`{spelling}` isn't a unit"), "");
                let due = |reading: &&&str| find_unit(reading).is_ok_and(|u| Some(u.dimension) == self.wanted);
                let problem = match error {
                    UnitError::Refused(reason) => match readings(spelling).iter().find(due) {
                        Some(reading) => problem.did_you_mean(Some(reading)),
                        None => Problem { help: reason.to_string(), ..problem },
                    },
                    UnitError::Unknown(Some(near)) => problem.did_you_mean(Some(near)),
                    UnitError::Unknown(None) if !self.names.values(spelling).is_empty() => Problem {
                        help: format!("to multiply by the value named `{spelling}`, write `* {spelling}`"),
                        ..problem
                    },
                    UnitError::Unknown(None) => Problem {
                        help: "units are written like mm, in, g, oz, N, m/s, kg/m3, deg".to_string(),
                        ..problem
                    },
                };
                self.report(problem);
                None
            }
        }
    }

    fn path(&mut self, file: FileId, span: Span, path: &'f [Span]) -> Option<Quantity> {
        let [first, rest @ ..] = path else { return None };
        let name = self.text(file, *first);
        let place = Place { file, span: *first };
        if let [field, ..] = rest {
            return self.dotted(file, span, (name, place), *field);
        }
        match name {
            "balance" => return self.balance(),
            "tail" => return expressed::tail(self, file),
            _ => {}
        }
        if let Some((at, binding)) = self.value_named(file, name) {
            return self.once(at, binding.name, |ev| ev.measure(at, &binding.value));
        }
        if self.block(file, name, Sought::Block).is_some() {
            self.report(Problem::new(
                UNKNOWN_NAME,
                place,
                format!("`{name}` is a block, not a value"),
                format!("name one of its fields: `{name}.length`"),
            ));
        } else {
            self.undefined(place, name);
        }
        None
    }

    /// What a block says, or where a part is: `body.length`, `body.ends`.
    fn dotted(&mut self, file: FileId, span: Span, (name, place): (&'f str, Place), field: Span) -> Option<Quantity> {
        let word = self.text(file, field);
        let sought = Sought::Saying(word);
        if let Some(found) = self.block_or_other(file, name, sought) {
            if let Some(other) = self.other_kind(found, name, sought) {
                let one = kind(self.text(found.0, found.1.word));
                self.report(Problem::new(
                    UNKNOWN_NAME,
                    place,
                    format!("`{name}` is a {one} and a {other} here, and `{word}` could be either's"),
                    "give one of them another name",
                ));
                return None;
            }
            return self.of_block((file, span), found, name, field);
        }
        if self.value_named(file, name).is_some() {
            self.report(Problem::new(
                UNKNOWN_NAME,
                Place { file, span: field },
                format!("`{name}` is a value and has no fields"),
                format!("write just `{name}`"),
            ));
        } else {
            self.undefined(place, name);
        }
        None
    }

    /// Another kind of thing that has a block's name in its file and is sought too.
    fn other_kind(&self, (at, block): (FileId, &Block), name: &str, sought: Sought) -> Option<&'f str> {
        let own = kind(self.text(at, block.word));
        let others = self.names.blocks(name).iter().filter(|(home, _)| *home == at);
        let words = others.map(|(home, other)| self.text(*home, other.word));
        words.filter(|word| sought.holds(word)).map(kind).find(|kind| *kind != own)
    }

    /// Tells of a name that stands for nothing.
    fn undefined(&mut self, place: Place, name: &'f str) {
        if FUNCTIONS.contains(&name) {
            self.report(Problem::new(
                UNKNOWN_NAME,
                place,
                format!("`{name}` is a function"),
                format!("give it values: `{name}(…)`"),
            ));
        } else if self.names.is_of_several(name) {
            self.report(Problem::new(
                UNKNOWN_NAME,
                place,
                format!("there is more than one `{name}` here, and none has a name"),
                format!("name the one that is meant: `{name} main {{`, and write `main`"),
            ));
        } else if !self.unread.contains(name) {
            // What is called so and couldn't be read is told there.
            let problem = meant::unknown_value(self, place, name);
            self.report(problem);
        }
    }

    /// A field of a block, or one of its stations, by the word behind its name.
    fn of_block(
        &mut self,
        (file, span): (FileId, Span),
        (at, block): (FileId, &'f Block),
        name: &str,
        word_span: Span,
    ) -> Option<Quantity> {
        let word = self.text(file, word_span);
        if let Some((_, point)) = STATIONS.iter().find(|(station, _)| *station == word) {
            let before = self.problems.len();
            let station = expressed::station(self, at, block, *point);
            if station.is_none() && self.problems.len() == before {
                self.report(Problem::new(
                    UNKNOWN_NAME,
                    Place { file, span },
                    format!("where `{name}` {word} isn't known"),
                    "it needs a length and an `at` of its own, and so do the parts that it's placed from",
                ));
            }
            return station;
        }
        let found = self.field(at, block, word).map(|(home, field)| (home, field, field.value.as_ref()));
        if let Some((home, field, Some(Value { kind: ValueKind::Measure(measure), .. }))) = found {
            return self.once(home, field.name, |ev| ev.measure(home, measure));
        }
        let fields: Vec<&str> = block.fields().map(|f| self.text(at, f.name)).collect();
        let problem = Problem::new(
            UNKNOWN_NAME,
            Place { file, span: word_span },
            format!("`{name}` says no `{word}` that could be used here"),
            format!("it says {}", fields.join(", ")),
        );
        self.report(problem.did_you_mean(nearest(word, fields)));
        None
    }

    /// A named value, computed once; a value that needs itself is reported with the chain that closes.
    pub fn once(
        &mut self,
        file: FileId,
        name: Span,
        compute: impl FnOnce(&mut Self) -> Option<Quantity>,
    ) -> Option<Quantity> {
        let key = (file, name.start);
        match self.known.get(&key) {
            Some(State::Done(value)) => return value.clone(),
            Some(State::Busy) => {
                let from = self.chain.iter().position(|c| *c == (file, name)).unwrap_or(0);
                let mut names: Vec<&str> = self.chain[from..].iter().map(|(f, s)| self.text(*f, *s)).collect();
                names.push(self.text(file, name));
                self.report(Problem::new(
                    CIRCULAR,
                    Place { file, span: name },
                    format!("this value needs itself: {}", names.join(" → ")),
                    "give one of them a number of its own",
                ));
                return None;
            }
            None => {}
        }
        if self.chain.len() >= 64 {
            self.report(Problem::new(
                CIRCULAR,
                Place { file, span: name },
                "values build on values more than 64 deep",
                "use fewer steps",
            ));
            return None;
        }
        self.known.insert(key, State::Busy);
        self.chain.push((file, name));
        let value = compute(self);
        self.chain.pop();
        self.known.insert(key, State::Done(value.clone()));
        value
    }

    /// Where a part sits, worked out [`once`](Evaluator::once).
    pub fn seat_once(
        &mut self,
        file: FileId,
        name: Span,
        compute: impl FnOnce(&mut Self) -> Option<Seat<Quantity>>,
    ) -> Option<Seat<Quantity>> {
        let key = (file, name.start);
        if let Some(seat) = self.seats.get(&key) {
            return Some(seat.clone());
        }
        let mut found = None;
        self.once(file, name, |ev| {
            found = compute(ev);
            found.as_ref()?.point(0.0)
        });
        if let Some(seat) = &found {
            self.seats.insert(key, seat.clone());
        }
        found
    }

    /// A block's field of this name, its own or that of the part that it's like, with the file that it stands in.
    pub fn field(&self, file: FileId, block: &'f Block, name: &str) -> Option<(FileId, &'f Field)> {
        let (mut at, mut here) = (file, block);
        for _ in 0..=LONGEST_LIKENESS {
            if let Some(field) = here.fields().find(|field| self.text(at, field.name) == name) {
                return Some((at, field));
            }
            let same = Sought::Word(self.text(file, block.word));
            (at, here) = self.block(at, self.text(at, here.like?), same)?;
        }
        None
    }

    /// The block of a name among those that are sought, as seen from a file: its own before a used file's, and of two in
    /// one file the first.
    pub fn block(&self, file: FileId, name: &str, sought: Sought) -> Option<(FileId, &'f Block)> {
        let is_sought = |(at, block): &&(FileId, &Block)| sought.holds(self.text(*at, block.word));
        home_first(file, self.names.blocks(name).iter().filter(is_sought))
    }

    /// The same, and where there is none what the name is taken for.
    pub fn block_or_other(&self, file: FileId, name: &str, sought: Sought) -> Option<(FileId, &'f Block)> {
        self.block(file, name, sought).or_else(|| self.block(file, name, sought.failing()?))
    }

    fn value_named(&self, file: FileId, name: &str) -> Option<(FileId, &'f Let)> {
        home_first(file, self.names.values(name).iter())
    }

    /// Every name that a value or a block has.
    pub fn value_names(&self) -> Vec<&'f str> {
        self.names.all().filter(|name| is_name(name)).collect()
    }

    /// Every name that a block has.
    pub fn block_names(&self) -> Vec<&'f str> {
        let mut names: Vec<&str> =
            self.names.all().filter(|name| is_name(name) && !self.names.blocks(name).is_empty()).collect();
        names.sort_unstable();
        names
    }
}

/// What a block's word makes of it where kinds are told apart.
fn kind(word: &str) -> &str {
    if Sought::Part.holds(word) {
        "part"
    } else {
        word
    }
}

/// The first of this file, else of those that it uses.
fn home_first<'a, T: Copy + 'a>(file: FileId, found: impl Iterator<Item = &'a (FileId, T)>) -> Option<(FileId, T)> {
    found.min_by_key(|(at, _)| *at != file).copied()
}

/// What to write for a dimension, in words.
pub(crate) fn due(dimension: Dimension) -> String {
    if dimension == Dimension::NUMBER {
        "a plain number without a unit is due".to_string()
    } else {
        format!("{} is due: {}", dimension.phrase(), dimension.fitting_units())
    }
}

/// Check a value against the dimension that is due; report what it is instead.
pub(crate) fn of_dimension(
    ev: &mut Evaluator,
    place: Place,
    quantity: Quantity,
    wanted: Dimension,
) -> Option<Quantity> {
    if quantity.dimension == wanted {
        return Some(quantity);
    }
    let shown = ev.text(place.file, place.span).trim().to_string();
    ev.report(if quantity.dimension == Dimension::NUMBER {
        let first = wanted.fitting_units().split(", ").next().unwrap_or("");
        Problem::new(
            MISSING_UNIT,
            place,
            format!("`{shown}` has no unit; {} is due", wanted.phrase()),
            format!("units that fit: {}. For example `{shown} {first}`", wanted.fitting_units()),
        )
    } else {
        Problem::new(
            WRONG_DIMENSION,
            place,
            format!("`{shown}` is {}; {} is due", quantity.dimension.phrase(), wanted.phrase()),
            if wanted == Dimension::NUMBER {
                "leave the unit out".to_string()
            } else {
                format!("units that fit: {}", wanted.fitting_units())
            },
        )
    });
    None
}

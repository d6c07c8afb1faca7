//! What may be written at the cursor.

use finwright_checks::Analysis;
use finwright_grammar::vocabulary::{self, FieldKind, FieldWord, Kind, Naming};
use finwright_grammar::{Block, Span, Tree};
use finwright_units::reader::with;
use finwright_units::Dimension;

/// One thing that may be written.
#[derive(Clone, Debug, PartialEq)]
pub struct Completion {
    /// What is shown and typed against.
    pub label: String,
    /// What is written, in place of `replace`.
    pub text: String,
    /// The word that is being typed.
    pub replace: Span,
    /// A few words beside the label.
    pub detail: String,
    /// What it means.
    pub doc: String,
    /// What kind of thing it is.
    pub kind: CompletionKind,
}

/// Kinds of things that may be written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CompletionKind {
    /// A block's word.
    Block,
    /// A field's word.
    Field,
    /// A word of a choice, or of the grammar.
    Word,
    /// A name that is defined somewhere.
    Name,
    /// A unit.
    Unit,
    /// A function.
    Function,
}

/// Everything that may be written at a byte offset, the likeliest first.
pub fn completion(analysis: &Analysis, offset: usize) -> Vec<Completion> {
    with(analysis.settings.units, || at(analysis, offset))
}

fn at(analysis: &Analysis, offset: usize) -> Vec<Completion> {
    let Some(tree) = analysis.tree() else { return Vec::new() };
    let Some(before) = tree.text.get(..offset) else { return Vec::new() };
    let line_start = before.rfind(['\n', '\r']).map_or(0, |i| i + 1);
    let line = &before[line_start..];
    // Nothing is completed inside of comments and texts.
    if in_comment_or_text(line) {
        return Vec::new();
    }
    let statement_start = line.rfind(['{', '}', ';']).map_or(0, |i| i + 1);
    let statement = &line[statement_start..];
    let word_start = statement.rfind(|c: char| !is_word(c)).map_or(0, |i| i + char_len(statement, i));
    // In `12m` the word being typed is the unit.
    let digits =
        statement[word_start..].len() - statement[word_start..].trim_start_matches(|c: char| c.is_ascii_digit()).len();
    let word_start = word_start + digits;
    let replace = Span::new(line_start + statement_start + word_start, offset);
    let block = tree.blocks_at(offset).into_iter().rfind(|block| inside(tree, block, offset)).cloned();
    let offers = match statement.split_once(':') {
        Some((field, value)) => {
            let typed = &value[..value.len().saturating_sub(statement.len() - word_start)];
            in_value(analysis, block_word(tree, block.as_ref()), field.trim(), typed.trim_end())
        }
        None if statement.trim_start().starts_with("let ") => {
            after_equals(analysis, statement[..word_start].trim_end())
        }
        None if statement[..word_start].trim().is_empty() => statements(tree, block.as_ref()),
        None => Vec::new(),
    };
    offers.into_iter().map(|offer| Completion { replace, ..offer }).collect()
}

fn is_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

fn char_len(text: &str, at: usize) -> usize {
    text[at..].chars().next().map_or(1, char::len_utf8)
}

fn in_comment_or_text(line: &str) -> bool {
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            '#' if !quoted => return true,
            _ => {}
        }
    }
    quoted
}

/// Whether an offset lies between a block's braces.
fn inside(tree: &Tree, block: &Block, offset: usize) -> bool {
    let open =
        tree.text.get(block.header.range().end..).and_then(|t| t.find('{')).map(|i| block.header.range().end + i + 1);
    let closed = block.close.is_some_and(|close| close.range().end <= offset);
    open.is_some_and(|open| open <= offset) && !closed
}

fn block_word<'t>(tree: &'t Tree, block: Option<&Block>) -> &'t str {
    block.map_or("", |b| tree.text(b.word))
}

/// Fields and blocks that may begin here.
fn statements(tree: &Tree, block: Option<&Block>) -> Vec<Completion> {
    let word = block_word(tree, block);
    let mut offers = Vec::new();
    if let (Some(known), Some(block)) = (vocabulary::block(word), block) {
        let said: Vec<&str> = block.fields().filter(|f| f.value.is_some()).map(|f| tree.text(f.name)).collect();
        let missing = known.fields.iter().filter(|f| !said.contains(&f.word));
        // What nothing can be computed without comes first.
        let (needed, others): (Vec<&FieldWord>, Vec<&FieldWord>) = missing.partition(|f| f.needed);
        offers.extend(needed.into_iter().chain(others).map(|f| {
            let detail = if f.needed { format!("{} · needed", short(f.kind)) } else { short(f.kind) };
            offer(f.word, format!("{}: ", f.word), detail, f.doc, CompletionKind::Field)
        }));
    }
    offers.extend(vocabulary::blocks_inside(word).map(|b| {
        let name = match b.naming {
            Naming::Required => " my_".to_string() + b.word,
            Naming::Title => " \"…\"".to_string(),
            _ => String::new(),
        };
        offer(b.word, format!("{}{name} {{ ", b.word), "block".to_string(), b.doc, CompletionKind::Block)
    }));
    if block.is_none() {
        for (word, text, doc) in [
            ("let", "let ", "Names a value: `let caliber = 24.8 mm`."),
            ("use", "use \"", "Brings in another file's definitions: `use \"pads.finw\"`."),
            ("finwright", "finwright 1", "The language's version."),
        ] {
            offers.push(offer(word, text.to_string(), String::new(), doc, CompletionKind::Word));
        }
    }
    offers
}

fn in_value(analysis: &Analysis, block: &str, field: &str, typed: &str) -> Vec<Completion> {
    let Some(known) = vocabulary::block(block).and_then(|b| b.field(field)) else { return Vec::new() };
    let after_number = typed.ends_with(|c: char| c.is_ascii_digit() || c == '.');
    match known.kind {
        FieldKind::Quantity(dimension) | FieldKind::AtHeight(dimension) if after_number => units(dimension),
        FieldKind::Quantity(_) | FieldKind::AtHeight(_) => values(analysis),
        FieldKind::Opening => moments(after_number),
        FieldKind::Choice(words) => words.iter().map(|w| choice(w.word, w.doc)).collect(),
        FieldKind::ChoiceOr(words, _) if !after_number => {
            words.iter().map(|w| choice(w.word, w.doc)).chain(values(analysis)).collect()
        }
        FieldKind::ChoiceOr(_, dimension) => units(dimension),
        FieldKind::Reference(kind) | FieldKind::References(kind) => names(analysis, kind),
        FieldKind::ReferenceOr(_, dimension) if after_number => units(dimension),
        FieldKind::ReferenceOr(kind, _) => names(analysis, kind),
        FieldKind::Place | FieldKind::Places => places(analysis, typed, after_number),
        FieldKind::Count | FieldKind::Text | FieldKind::Curve(..) => Vec::new(),
    }
}

fn places(analysis: &Analysis, typed: &str, after_number: bool) -> Vec<Completion> {
    if after_number {
        return units(Dimension::LENGTH);
    }
    if typed.ends_with("from") {
        let edges = ["front", "back", "tip", "tail"].into_iter().map(|w| choice(w, "measured from this edge"));
        let parts = analysis.design.parts.iter().filter_map(|p| p.name.as_ref()).flat_map(|n| {
            ["front", "back"].map(|edge| {
                let label = format!("{}.{edge}", n.value);
                offer(&label.clone(), label, "a part's edge".to_string(), "", CompletionKind::Name)
            })
        });
        return edges.chain(parts).collect();
    }
    if typed.ends_with("of") || typed.ends_with("ahead") || typed.ends_with("behind") {
        return vec![choice("balance", "the balance point, motor in and unlit")];
    }
    if typed.is_empty() || typed.ends_with(['[', ',']) {
        let mut offers = vec![choice("balance", "its middle at the balance point, motor in and unlit")];
        offers.extend(values(analysis));
        return offers;
    }
    vec![
        choice("from", "`from front`, `from back`, `from tip`, `from tail`, or another part's edge"),
        choice("ahead of balance", "towards the tip from the balance point"),
        choice("behind balance", "towards the tail from the balance point"),
    ]
}

fn after_equals(analysis: &Analysis, statement: &str) -> Vec<Completion> {
    let Some((_, typed)) = statement.split_once('=') else { return Vec::new() };
    if typed.ends_with(|c: char| c.is_ascii_digit() || c == '.') {
        return finwright_units::unit::spellings().map(|(name, unit)| unit_offer(name, unit.dimension)).collect();
    }
    values(analysis)
}

/// Named values, parts with their fields, and functions.
fn values(analysis: &Analysis) -> Vec<Completion> {
    let design = &analysis.design;
    let named = design.values.iter().map(|(name, quantity)| {
        let shown = finwright_units::show::quantity(quantity.value, quantity.dimension);
        offer(&name.value, name.value.clone(), shown, "a value named with `let`", CompletionKind::Name)
    });
    let functions = finwright_model::functions::FUNCTIONS
        .iter()
        .map(|f| offer(f, format!("{f}("), "function".to_string(), "", CompletionKind::Function));
    named.chain(functions).collect()
}

fn names(analysis: &Analysis, kind: Kind) -> Vec<Completion> {
    let design = &analysis.design;
    let all: Vec<&str> = match kind {
        Kind::Material => design.materials.iter().rev().map(|m| m.name.value.as_str()).collect(),
        Kind::Motor => design.motors.iter().map(|m| m.name.value.as_str()).collect(),
        Kind::Pad => design.pads.iter().map(|p| p.name.value.as_str()).collect(),
        Kind::Section => design.sections.iter().rev().map(|s| s.name.value.as_str()).collect(),
        Kind::Site => design.sites.iter().map(|s| s.name.value.as_str()).collect(),
        Kind::Guide => design
            .parts
            .iter()
            .filter(|p| p.is_guide())
            .filter_map(|p| p.name.as_ref())
            .map(|n| n.value.as_str())
            .collect(),
    };
    let mut offers: Vec<Completion> = Vec::new();
    for name in all.into_iter().filter(|n| !n.is_empty()) {
        // A file's own definition hides the catalogue's of the same name, and copies share one.
        if offers.iter().all(|o| o.label != name) {
            offers.push(offer(name, name.to_string(), kind.phrase().to_string(), "", CompletionKind::Name));
        }
    }
    offers
}

fn units(dimension: Dimension) -> Vec<Completion> {
    let listed = dimension.fitting_units().split(", ").filter(|u| !u.is_empty()).map(|u| unit_offer(u, dimension));
    let others = finwright_units::unit::spellings()
        .filter(|(name, unit)| {
            unit.dimension == dimension && !dimension.fitting_units().split(", ").any(|u| u == *name)
        })
        .map(|(name, _)| unit_offer(name, dimension));
    listed.chain(others).collect()
}

fn unit_offer(name: &str, dimension: Dimension) -> Completion {
    offer(name, name.to_string(), dimension.phrase(), "", CompletionKind::Unit)
}

/// When something may open.
fn moments(after_number: bool) -> Vec<Completion> {
    let all: &[(&str, &str)] = match after_number {
        true => {
            &[("s after top", "so long after the highest point"), ("m above ground", "on the way down, at this height")]
        }
        false => &[("at delay", "by the motor's charge, its delay after burnout"), ("at top", "at the highest point")],
    };
    all.iter().map(|(words, doc)| choice(words, doc)).collect()
}

fn choice(word: &str, doc: &str) -> Completion {
    offer(word, word.to_string(), String::new(), doc, CompletionKind::Word)
}

fn offer(label: &str, text: String, detail: String, doc: &str, kind: CompletionKind) -> Completion {
    Completion { label: label.to_string(), text, replace: Span::default(), detail, doc: doc.to_string(), kind }
}

/// What a field takes, in a word or two.
fn short(kind: FieldKind) -> String {
    match kind {
        FieldKind::Quantity(dimension) => dimension.phrase(),
        FieldKind::Choice(_) | FieldKind::ChoiceOr(..) => "a word".to_string(),
        FieldKind::Count => "a whole number".to_string(),
        FieldKind::Text => "a text".to_string(),
        FieldKind::Reference(kind) | FieldKind::References(kind) | FieldKind::ReferenceOr(kind, _) => {
            kind.phrase().to_string()
        }
        FieldKind::Place | FieldKind::Places => "a place".to_string(),
        FieldKind::Curve(..) => "points".to_string(),
        FieldKind::AtHeight(dimension) => dimension.phrase(),
        FieldKind::Opening => "a moment".to_string(),
    }
}

//! Where a file mentions names, and what each of them means. A name means what its place asks for: a motor, a pad and a
//! site may share one.

use finwright_grammar::vocabulary::{self, FieldKind, Kind};
use finwright_grammar::{Block, Expr, ExprKind, Field, FileId, Item, Measure, Place, Span, Tree, ValueKind};
use finwright_model::{Sought, SourceFile, CATALOG};

/// A name in a file's text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mention {
    /// Where it stands.
    pub span: Span,
    /// What it can mean there.
    pub meant: Meant,
}

/// What a name can mean in its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Meant {
    /// It is given here, by a `let` or in a block's header.
    Itself,
    /// A value.
    Value,
    /// A block that can say the field, or a part that has the station, of this word.
    Saying(Span),
    /// A part of the rocket.
    Part,
    /// Another part of this word's kind.
    Like(Span),
    /// Something of a kind.
    Kind(Kind),
}

/// What a name stands for.
#[derive(Clone, Debug, PartialEq)]
pub struct Definition {
    /// Where the name is given; for a part without a name its word.
    pub place: Place,
    /// The word of its block, or `let`.
    pub word: String,
    /// Whether it has a name that could be another one.
    pub is_named: bool,
}

/// All names in a file, in order.
pub fn mentions(tree: &Tree) -> Vec<Mention> {
    let mut found = Vec::new();
    in_items(tree, &tree.items, "", &mut found);
    found.sort_by_key(|mention| mention.span);
    found
}

/// The name at an offset.
pub fn mention_at(tree: &Tree, offset: usize) -> Option<Mention> {
    mentions(tree).into_iter().find(|mention| mention.span.touches(offset))
}

/// What a mention stands for. A file's own definition wins over a used file's, and that over the catalogue's; of two
/// in one file the first counts.
pub fn meaning(files: &[SourceFile], file: FileId, mention: &Mention) -> Option<Definition> {
    let tree = &files.get(file.0 as usize)?.tree;
    let name = tree.text(mention.span);
    let Some(sought) = mention.sought(tree) else {
        return defined(files, file, name, |at, _, span| at == file && span == mention.span);
    };
    let among = |sought: Sought| {
        // Only what the catalogue lists is looked up there.
        let is_listed = matches!(sought, Sought::Kind(_));
        defined(files, file, name, |at, word, _| sought.holds(word) && (at != CATALOG || is_listed))
    };
    among(sought).or_else(|| among(sought.failing()?))
}

/// The nearest definition of a name that is meant, by its file, its word and its place.
fn defined(
    files: &[SourceFile],
    file: FileId,
    name: &str,
    is_meant: impl Fn(FileId, &str, Span) -> bool,
) -> Option<Definition> {
    let others = (0..files.len() as u32).map(FileId).filter(|other| *other != file && *other != CATALOG);
    let mut homes = std::iter::once(file).chain(others).chain(std::iter::once(CATALOG));
    homes.find_map(|at| {
        let given = given(&files.get(at.0 as usize)?.tree, name);
        let (word, span, is_named) = given.into_iter().find(|(word, span, _)| is_meant(at, word, *span))?;
        Some(Definition { place: Place { file: at, span }, word: word.to_string(), is_named })
    })
}

impl Mention {
    /// Among what the name is looked up; `None` where it's given.
    fn sought<'t>(&self, tree: &'t Tree) -> Option<Sought<'t>> {
        Some(match self.meant {
            Meant::Itself => return None,
            Meant::Value => Sought::Value,
            Meant::Saying(field) => Sought::Saying(tree.text(field)),
            Meant::Part => Sought::Part,
            Meant::Like(word) => Sought::Word(tree.text(word)),
            Meant::Kind(kind) => Sought::Kind(kind),
        })
    }
}

/// What a file gives a name to: the word of the block, the name's place, and whether it's more than the block's word.
fn given<'t>(tree: &'t Tree, name: &str) -> Vec<(&'t str, Span, bool)> {
    let mut found = Vec::new();
    let mut waiting: Vec<&Item> = tree.items.iter().rev().collect();
    while let Some(item) = waiting.pop() {
        match item {
            Item::Let(binding) if tree.text(binding.name) == name => found.push(("let", binding.name, true)),
            Item::Block(block) => {
                let span = block.name.unwrap_or(block.word);
                if tree.text(span) == name {
                    found.push((tree.text(block.word), span, block.name.is_some()));
                }
                waiting.extend(block.items.iter().rev());
            }
            _ => {}
        }
    }
    found
}

fn in_items(tree: &Tree, items: &[Item], block: &str, found: &mut Vec<Mention>) {
    for item in items {
        match item {
            Item::Let(binding) => {
                found.push(Mention { span: binding.name, meant: Meant::Itself });
                in_measure(tree, &binding.value, found);
            }
            Item::Block(inner) => in_block(tree, inner, found),
            Item::Field(field) => in_field(tree, block, field, found),
            Item::Version { .. } | Item::Use { .. } => {}
        }
    }
}

fn in_block(tree: &Tree, block: &Block, found: &mut Vec<Mention>) {
    found.extend(block.name.map(|span| Mention { span, meant: Meant::Itself }));
    found.extend(block.like.map(|span| Mention { span, meant: Meant::Like(block.word) }));
    in_items(tree, &block.items, tree.text(block.word), found);
}

fn in_field(tree: &Tree, block: &str, field: &Field, found: &mut Vec<Mention>) {
    let Some(value) = &field.value else { return };
    let kind = vocabulary::block(block).and_then(|known| known.field(tree.text(field.name))).map(|known| known.kind);
    let referred = match kind {
        Some(FieldKind::Reference(kind) | FieldKind::References(kind) | FieldKind::ReferenceOr(kind, _)) => Some(kind),
        _ => None,
    };
    let name = |expression: &Expr, found: &mut Vec<Mention>| match (referred, expression.as_name()) {
        (Some(kind), Some(span)) => found.push(Mention { span, meant: Meant::Kind(kind) }),
        _ => in_expression(expression, found),
    };
    match (&value.kind, kind) {
        (ValueKind::Measure(measure), Some(FieldKind::Choice(choices) | FieldKind::ChoiceOr(choices, _))) => {
            let word = measure.amount.as_name().map(|span| tree.text(span));
            if !choices.iter().any(|choice| Some(choice.word) == word) {
                in_measure(tree, measure, found);
            }
        }
        (ValueKind::Measure(measure), _) => {
            name(&measure.amount, found);
            in_rest(tree, measure, found);
        }
        (ValueKind::List(elements), _) => {
            for element in elements {
                match &element.place {
                    Some(place) => in_measure(tree, place, found),
                    None => {
                        name(&element.first, found);
                        element.second.iter().for_each(|second| in_expression(second, found));
                    }
                }
            }
        }
        _ => {}
    }
}

fn in_measure(tree: &Tree, measure: &Measure, found: &mut Vec<Mention>) {
    in_expression(&measure.amount, found);
    in_rest(tree, measure, found);
}

fn in_rest(tree: &Tree, measure: &Measure, found: &mut Vec<Mention>) {
    [&measure.tolerance, &measure.height].into_iter().flatten().for_each(|amount| in_expression(amount, found));
    // An edge of the part's own, or of the rocket, is no name; neither is the balance point.
    if let Some(relation) = measure.relation.as_ref().filter(|relation| relation.edge.is_some()) {
        if !tree.text(relation.anchor).is_empty() {
            found.push(Mention { span: relation.anchor, meant: Meant::Part });
        }
    }
}

fn in_expression(expression: &Expr, found: &mut Vec<Mention>) {
    match &expression.kind {
        ExprKind::Quantity { .. } => {}
        ExprKind::Path(path) => {
            let meant = path.get(1).map_or(Meant::Value, |field| Meant::Saying(*field));
            found.extend(path.first().map(|span| Mention { span: *span, meant }));
        }
        ExprKind::Call { arguments, .. } => arguments.iter().for_each(|argument| in_expression(argument, found)),
        ExprKind::Sum(terms) | ExprKind::Product(terms) => {
            terms.iter().for_each(|(_, term)| in_expression(term, found));
        }
        ExprKind::Negative(inner) => in_expression(inner, found),
    }
}

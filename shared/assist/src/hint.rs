//! Numbers between the words of a text: where a part sits, what it weighs, what an expression comes to.

use finwright_checks::Analysis;
use finwright_grammar::{ExprKind, FileId, Item, Measure, Place, ValueKind};
use finwright_units::reader::with;
use finwright_units::show;

/// A number beside a word.
#[derive(Clone, Debug, PartialEq)]
pub struct Hint {
    /// The byte offset that it stands at.
    pub offset: usize,
    /// What it says.
    pub text: String,
    /// What it's about.
    pub kind: HintKind,
}

/// What a hint is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HintKind {
    /// The station from the tip.
    Station,
    /// The mass of a part.
    Mass,
    /// The value of an expression.
    Value,
}

/// The hints of a file, in order.
pub fn hints(analysis: &Analysis) -> Vec<Hint> {
    with(analysis.settings.units, || {
        let mut found = of_parts(analysis);
        found.extend(of_values(analysis));
        found.sort_by_key(|hint| hint.offset);
        found
    })
}

fn of_parts(analysis: &Analysis) -> Vec<Hint> {
    let airframe = &analysis.assessment.airframe;
    let mut found = Vec::new();
    for (id, part) in analysis.design.parts.iter().enumerate() {
        // Copies share their header; the first one speaks for them.
        if part.header.file != FileId(0) || part.copy.is_some_and(|(number, _)| number > 0) {
            continue;
        }
        let end = part.header.span.range().end;
        if let Some(weight) = airframe.weights.get(id).and_then(Option::as_ref).filter(|weight| !weight.given) {
            found.push(Hint { offset: end, text: show::mass(weight.own.mass), kind: HintKind::Mass });
        }
        let Some(extent) = airframe.extents.get(id).copied().flatten() else { continue };
        let (offset, text) = match &part.at {
            Some(at) if at.place.file == FileId(0) && part.copy.is_none() => {
                let middle = part.placed_by_middle();
                let station = if middle { extent.middle() } else { extent.front };
                (at.place.span.range().end, format!("{} from the tip", show::station(station)))
            }
            Some(_) => continue,
            None => (end, stretch(extent.front, extent.back)),
        };
        found.push(Hint { offset, text, kind: HintKind::Station });
    }
    found
}

/// From one station to another, with the unit once.
fn stretch(front: f64, back: f64) -> String {
    let (front, back) = (show::station(front), show::station(back));
    match (front.split_once(' '), back.split_once(' ')) {
        (Some((number, one)), Some((_, other))) if one == other => format!("{number} to {back}"),
        _ => format!("{front} to {back}"),
    }
}

/// What expressions come to, where that isn't what is written.
fn of_values(analysis: &Analysis) -> Vec<Hint> {
    let Some(tree) = analysis.tree() else { return Vec::new() };
    let mut found = Vec::new();
    let mut waiting: Vec<&Item> = tree.items.iter().collect();
    while let Some(item) = waiting.pop() {
        match item {
            Item::Block(block) => waiting.extend(&block.items),
            Item::Field(field) => {
                let Some(value) = &field.value else { continue };
                let ValueKind::Measure(measure) = &value.kind else { continue };
                let place = Place { file: FileId(0), span: value.span };
                let known =
                    analysis.design.amount_at(place).filter(|_| is_worked_out(measure) && measure.relation.is_none());
                let Some(amount) = known else { continue };
                let words = finwright_grammar::vocabulary::block(block_word(tree, value.span.range().start));
                let dimension =
                    words.and_then(|block| block.field(tree.text(field.name))).and_then(|field| dimension(field.kind));
                let Some(dimension) = dimension else { continue };
                let text = format!("= {}", show::quantity(amount.si, dimension));
                found.push(Hint { offset: value.span.range().end, text, kind: HintKind::Value });
            }
            Item::Let(binding) if is_worked_out(&binding.value) => {
                let value = analysis
                    .design
                    .values
                    .iter()
                    .find(|(name, _)| name.place == Place { file: FileId(0), span: binding.name });
                let Some((_, value)) = value else { continue };
                let text = format!("= {}", show::quantity(value.value, value.dimension));
                found.push(Hint { offset: binding.span.range().end, text, kind: HintKind::Value });
            }
            _ => {}
        }
    }
    found
}

fn block_word(tree: &finwright_grammar::Tree, offset: usize) -> &str {
    tree.blocks_at(offset).last().map_or("", |block| tree.text(block.word))
}

fn dimension(kind: finwright_grammar::vocabulary::FieldKind) -> Option<finwright_units::Dimension> {
    use finwright_grammar::vocabulary::FieldKind;
    match kind {
        FieldKind::Quantity(dimension) | FieldKind::AtHeight(dimension) | FieldKind::ChoiceOr(_, dimension) => {
            Some(dimension)
        }
        _ => None,
    }
}

fn is_worked_out(measure: &Measure) -> bool {
    let literal = match &measure.amount.kind {
        ExprKind::Quantity { .. } => true,
        ExprKind::Negative(inner) => matches!(inner.kind, ExprKind::Quantity { .. }),
        _ => false,
    };
    !literal
}

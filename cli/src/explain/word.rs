//! A block's page and a field's, from the vocabulary.

use super::{family, names};
use crate::layout::table::{Column, Table};
use crate::layout::{hanging, measure, paragraph};
use finwright_checks::RULES;
use finwright_grammar::vocabulary::{
    block, blocks_inside, nearest, takes, BlockWord, ChoiceWord, FieldKind, FieldWord, Limit, Naming, BLOCKS,
};
use finwright_units::{show, Dimension};

/// The page of `tube`, of `tube.outer`, or of `sticks_out` where one block alone has such a field; `None` where the
/// language has no such word. A field that several blocks have isn't explained without its block, and neither is one
/// that isn't there.
pub fn page(name: &str) -> Result<Option<String>, String> {
    if let Some(block) = block(name) {
        return Ok(Some(of_block(block)));
    }
    if let Some((word, field)) = name.split_once('.') {
        let Some(block) = block(word) else { return Ok(None) };
        let known: Vec<&str> = block.fields.iter().map(|field| field.word).collect();
        let missing = || match (nearest(field, known.iter().copied()), known.as_slice()) {
            (_, []) => format!("`{word}` has no fields"),
            (Some(near), _) => format!("`{word}` has no field `{field}`; did you mean {word}.{near}?"),
            (None, known) => format!("`{word}` has no field `{field}`; it has {}", known.join(", ")),
        };
        return block.field(field).map(|field| Some(of_field(block, field))).ok_or_else(missing);
    }
    let with: Vec<(&BlockWord, &FieldWord)> = BLOCKS.iter().filter_map(|b| Some((b, b.field(name)?))).collect();
    match with.as_slice() {
        [] => Ok(None),
        [(block, field)] => Ok(Some(of_field(block, field))),
        several => {
            let each: Vec<String> = several.iter().map(|(block, _)| format!("{}.{name}", block.word)).collect();
            Err(format!("several blocks have a field `{name}`: {}", each.join(", ")))
        }
    }
}

fn of_block(block: &BlockWord) -> String {
    let prose = |text: &str| paragraph(text, "", measure()) + "\n";
    let mut page = format!("{} (block)\n{}\n{}", block.word, prose(block.doc), prose(&placed(block)));
    if !block.fields.is_empty() {
        let mut table = Table::new([Column::words(""), Column::prose("", 24)]);
        for field in block.fields {
            table.row([field.word.to_string(), format!("{} {}", field.doc, left_out(field)).trim_end().to_string()]);
        }
        page += &format!("\nFields\n{}", table.text(measure()).text);
    }
    let inside: Vec<&str> = blocks_inside(block.word).map(|inner| inner.word).collect();
    if !inside.is_empty() {
        page += &format!("\n{}", prose(&format!("In it may stand: {}.", inside.join(", "))));
    }
    page += &format!("\nFor example:\n{}", indented(block.example));
    let rules: Vec<_> = RULES.iter().copied().filter(|rule| family(rule) == block.word).collect();
    if !rules.is_empty() {
        page += &format!("\n{}", prose(&format!("Rules about it: {}.", names(&rules))));
    }
    page
}

fn of_field(block: &BlockWord, field: &FieldWord) -> String {
    let prose = |text: &str| paragraph(text, "", measure()) + "\n";
    let mut page = format!("{}.{} (field)\n{}\n", block.word, field.word, prose(field.doc));
    page += &prose(&format!("Takes {}{}. {}", takes(field.kind), within(field), left_out(field)));
    for choice in choices(field.kind) {
        page += &(hanging(&format!("{}: {}", choice.word, choice.doc), "  * ", "    ", measure()) + "\n");
    }
    page += &format!("\nFor example:\n{}", indented(&format!("{}: {}", field.word, field.example)));
    page + &format!("\nThe whole block: finwright explain {}\n", block.word)
}

/// Where a block stands and what its header takes.
fn placed(block: &BlockWord) -> String {
    let place = match block.inside {
        [""] => "It stands in the file itself".to_string(),
        parents => format!("It stands in: {}", parents.join(", ")),
    };
    let name = match block.naming {
        Naming::Optional => "; a name is needed only where something refers to it",
        Naming::Required => "; it needs a name",
        Naming::Title => "; behind it comes a title in quotes",
        Naming::Nothing => "",
    };
    format!("{place}{name}.")
}

/// What comes of leaving a field out.
fn left_out(field: &FieldWord) -> String {
    match (field.needed, field.default) {
        (true, _) => "Needed.".to_string(),
        (false, "") => String::new(),
        (false, default) => format!("Unless said: {default}."),
    }
}

fn within(field: &FieldWord) -> String {
    let dimension = match field.kind {
        FieldKind::Quantity(dimension) | FieldKind::ChoiceOr(_, dimension) => dimension,
        _ => Dimension::NUMBER,
    };
    match field.limit {
        Limit::Any => String::new(),
        Limit::Positive => ", above zero".to_string(),
        Limit::NotNegative => ", zero or more".to_string(),
        Limit::Between(low, high) => {
            format!(", from {} to {}", show::quantity(low, dimension), show::quantity(high, dimension))
        }
    }
}

fn choices(kind: FieldKind) -> &'static [ChoiceWord] {
    match kind {
        FieldKind::Choice(choices) | FieldKind::ChoiceOr(choices, _) => choices,
        _ => &[],
    }
}

fn indented(lines: &str) -> String {
    lines.lines().map(|line| format!("  {line}\n")).collect()
}

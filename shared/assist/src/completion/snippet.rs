//! A whole block to fill in: the vocabulary's own example with stops for the cursor in place of its values.

use finwright_grammar::vocabulary::{BlockWord, Naming};
use finwright_grammar::{parse, Block, Item, Tree, ValueKind};

/// More fields than this stand on lines of their own.
const IN_A_LINE: usize = 3;

/// The block with stops, and the last stop behind it.
pub(super) fn snippet(block: &BlockWord) -> String {
    let tree = parse(block.example);
    let mut stops = Stops(0);
    let mut text = String::new();
    if let Some(Item::Block(example)) = tree.items.first() {
        write_block(&tree, example, block.naming, 0, &mut stops, &mut text);
    }
    text + "$0"
}

/// The same block for an editor without stops: closed, and empty.
pub(super) fn plain(block: &BlockWord) -> String {
    match block.naming {
        Naming::Required => format!("{0} my_{0} {{ }}", block.word),
        Naming::Title => format!("{} \"\" {{ }}", block.word),
        Naming::Optional | Naming::Nothing => format!("{} {{ }}", block.word),
    }
}

struct Stops(usize);

impl Stops {
    fn next(&mut self) -> usize {
        self.0 += 1;
        self.0
    }
}

fn write_block(tree: &Tree, block: &Block, naming: Naming, depth: usize, stops: &mut Stops, text: &mut String) {
    text.push_str(tree.text(block.word));
    match (naming, block.name) {
        (Naming::Title, _) => *text += &format!(" \"${}\"", stops.next()),
        (Naming::Required, _) => *text += &format!(" ${{{}:name}}", stops.next()),
        (_, Some(name)) => *text += &format!(" ${{{}:{}}}", stops.next(), tree.text(name)),
        _ => {}
    }
    let in_a_line = block.items.len() <= IN_A_LINE && block.blocks().next().is_none();
    let (open, between, close) = match in_a_line {
        true => (" { ".to_string(), "; ".to_string(), " }".to_string()),
        false => {
            let inner = format!("\n{}", "  ".repeat(depth + 1));
            (format!(" {{{inner}"), inner, format!("\n{}}}", "  ".repeat(depth)))
        }
    };
    *text += &open;
    for (number, item) in block.items.iter().enumerate() {
        if number > 0 {
            *text += &between;
        }
        match item {
            Item::Field(field) => {
                let stop = stops.next();
                let value = match field.value.as_ref().map(|value| &value.kind) {
                    Some(ValueKind::Text(_)) => format!("\"${stop}\""),
                    Some(ValueKind::List(_)) => format!("[${stop}]"),
                    _ => format!("${stop}"),
                };
                *text += &format!("{}: {value}", tree.text(field.name));
            }
            Item::Block(inner) => write_block(tree, inner, Naming::Optional, depth + 1, stops, text),
            _ => {}
        }
    }
    *text += &close;
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use finwright_grammar::vocabulary;

    #[test]
    fn of_a_part_and_of_blocks_in_one_another() {
        let of = |word| snippet(vocabulary::block(word).unwrap());
        assert_eq!(of("rod"), "rod { diameter: $1; length: $2; material: $3 }$0");
        assert_eq!(of("lug"), "lug {\n  bore: $1\n  length: $2\n  wall: $3\n  at: $4\n  clock: $5\n}$0");
        assert_eq!(
            of("pad"),
            "pad ${1:name} {\n  rod { diameter: $2; length: $3; material: $4 }\n  stop: $5\n  tilt: $6\n}$0"
        );
    }

    #[test]
    fn every_block_is_closed_and_says_what_it_needs() {
        for block in vocabulary::BLOCKS {
            let text = snippet(block);
            assert_eq!(text.matches("{").count(), text.matches('}').count(), "{text}");
            for field in block.fields.iter().filter(|field| field.needed) {
                assert!(text.contains(&format!("{}: ", field.word)), "{} in {text}", field.word);
            }
            assert!(parse(&plain(block)).problems.is_empty(), "{}", plain(block));
        }
    }
}

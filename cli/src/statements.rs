//! What a file says, statement by statement: its blocks with their fields, without layout, comments and order.

use finwright_grammar::{Block, Item, Span, Tree};

/// A block, or what stands in the file itself, with its own fields.
#[derive(Clone, Debug, PartialEq)]
pub struct Statement {
    /// The blocks that lead to it, the outermost first, itself last; each by word and name, or by word and number.
    pub path: Vec<String>,
    /// The same by words alone.
    pub words: Vec<String>,
    /// Whether it has a name.
    pub is_named: bool,
    /// Its fields with their values, in the order of the page.
    pub fields: Vec<(String, String)>,
}

/// Blocks that it goes without saying that something is in.
const STAGES: [&str; 2] = ["airframe", "booster"];

impl Statement {
    /// How a reader calls it: "tube body", "shoulder in nose".
    pub fn label(&self) -> String {
        match self.path.as_slice() {
            [] => "the file".to_string(),
            [.., around, own] if !self.is_named && !STAGES.contains(&around.as_str()) => format!("{own} in {around}"),
            [.., own] => own.clone(),
        }
    }
}

/// Everything that a tree says, in the order of the page.
pub fn statements(tree: &Tree) -> Vec<Statement> {
    let mut found = Vec::new();
    let top = Statement { path: Vec::new(), words: Vec::new(), is_named: false, fields: fields(tree, &tree.items) };
    found.push(top);
    inside(tree, &tree.items, &[], &[], &mut found);
    found
}

fn inside(tree: &Tree, items: &[Item], path: &[String], words: &[String], found: &mut Vec<Statement>) {
    let mut nameless: Vec<&str> = Vec::new();
    for item in items {
        let Item::Block(block) = item else { continue };
        let word = tree.text(block.word);
        let name = block.name.map(|name| tree.text(name).to_string());
        let own = match &name {
            Some(name) => format!("{word} {name}"),
            None => {
                nameless.push(word);
                match nameless.iter().filter(|known| **known == word).count() {
                    1 => word.to_string(),
                    count => format!("{word} {count}"),
                }
            }
        };
        let statement = Statement {
            path: [path, &[own]].concat(),
            words: [words, &[word.to_string()]].concat(),
            is_named: name.is_some(),
            fields: [header(tree, block), fields(tree, &block.items)].concat(),
        };
        let (path, words) = (statement.path.clone(), statement.words.clone());
        found.push(statement);
        inside(tree, &block.items, &path, &words, found);
    }
}

/// What stands in a block's header besides its word and name.
fn header(tree: &Tree, block: &Block) -> Vec<(String, String)> {
    let title = block.title.map(|title| ("title".to_string(), plain(tree, title)));
    let like = block.like.map(|like| ("like".to_string(), plain(tree, like)));
    title.into_iter().chain(like).collect()
}

fn fields(tree: &Tree, items: &[Item]) -> Vec<(String, String)> {
    let of = |item: &Item| match item {
        Item::Field(field) => {
            let value = field.value.as_ref().map_or(String::new(), |value| plain(tree, value.span));
            Some((tree.text(field.name).to_string(), value))
        }
        Item::Let(named) => {
            let value = Span::new(named.name.end as usize, named.span.end as usize);
            let value = plain(tree, value).trim_start_matches('=').trim().to_string();
            Some((format!("let {}", tree.text(named.name)), value))
        }
        Item::Use { path, .. } => Some(("use".to_string(), plain(tree, *path))),
        Item::Version { number, .. } => Some(("finwright".to_string(), plain(tree, *number))),
        Item::Block(_) => None,
    };
    items.iter().filter_map(of).collect()
}

/// A value on one line, without the comments in it.
fn plain(tree: &Tree, span: Span) -> String {
    words(tree, span).collect::<Vec<_>>().join(" ")
}

/// The words of a stretch of text, without the comments in it.
pub fn words(tree: &Tree, span: Span) -> impl Iterator<Item = &str> {
    let first = tree.comments.partition_point(|comment| comment.start < span.start);
    let inside = tree.comments.iter().skip(first).take_while(move |comment| comment.end <= span.end);
    // From the end of one comment to the beginning of the next.
    let ends = std::iter::once(span.start).chain(inside.clone().map(|comment| comment.end));
    let begins = inside.map(|comment| comment.start).chain(std::iter::once(span.end));
    let pieces = ends.zip(begins).map(|(from, to)| Span::new(from as usize, to as usize));
    pieces.flat_map(|piece| tree.text(piece).split_whitespace())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(text: &str) -> Vec<(String, Vec<(String, String)>)> {
        let found = statements(&finwright_grammar::parse(text));
        found.into_iter().map(|statement| (statement.label(), statement.fields)).collect()
    }

    #[test]
    fn layout_and_comments_are_nothing_that_is_said() {
        let one = "let d = 24.8 mm # wide\nairframe { tube body { length:  230 mm; lug { bore: 4 mm } } }\n";
        let other = "let d = 24.8 mm\n\nairframe {\n  tube body {\n    length: 230 mm  # of tube\n    lug { bore: 4 mm }\n  }\n}\n";
        assert_eq!(said(one), said(other));
        let labels: Vec<String> = said(one).into_iter().map(|(label, _)| label).collect();
        assert_eq!(labels, ["the file", "airframe", "tube body", "lug in tube body"]);
        assert_eq!(said(one)[0].1, [("let d".to_string(), "24.8 mm".to_string())]);
    }

    #[test]
    fn a_list_over_several_lines_is_one_value() {
        let found = said("motor a {\n  curve: [0 s: 0 N, # begins\n    1 s: 5 N]\n}\n");
        assert_eq!(found[1].1, [("curve".to_string(), "[0 s: 0 N, 1 s: 5 N]".to_string())]);
    }

    #[test]
    fn blocks_without_names_are_counted() {
        let found = said("airframe { cord { length: 1 m }; cord { length: 2 m } }\n");
        let labels: Vec<&str> = found.iter().map(|(label, _)| label.as_str()).collect();
        assert_eq!(labels, ["the file", "airframe", "cord", "cord 2"]);
    }
}

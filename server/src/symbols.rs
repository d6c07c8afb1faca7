//! `textDocument/documentSymbol`, the blocks of the document as an outline, and `workspace/symbol`.

use crate::survey::Workspace;
use crate::view::View;
use finwright_grammar::parse_shared;
use finwright_grammar::{Block, Item, Tree};
use lsp_types::{DocumentSymbol, DocumentSymbolResponse, SymbolInformation, SymbolKind};

/// More than so many help nobody to find one.
const MOST: usize = 500;

/// Everything in the workspace whose name has the letters that are asked for in it, in their order.
pub fn in_workspace(workspace: &Workspace, asked: &str, wanted: &(impl Fn() -> bool + Sync)) -> Vec<SymbolInformation> {
    let letters: Vec<char> = asked.to_lowercase().chars().filter(|c| !c.is_whitespace()).collect();
    let fits = |name: &str| {
        let name = name.to_lowercase();
        let mut rest = name.chars();
        letters.iter().all(|letter| rest.any(|other| other == *letter))
    };
    let mut found = workspace.search("", wanted, |design| {
        let tree = parse_shared(design.text.clone());
        let mut symbols = Vec::new();
        let mut waiting: Vec<(&Item, Option<String>)> = tree.items.iter().map(|item| (item, None)).collect();
        while let Some((item, container)) = waiting.pop() {
            let (span, title, kind) = match item {
                Item::Let(binding) => (binding.name, None, SymbolKind::CONSTANT),
                Item::Block(block) => {
                    let own = tree.text(block.header).to_string();
                    waiting.extend(block.items.iter().map(|item| (item, Some(own.clone()))));
                    let Some(name) = block.name.or(block.title) else { continue };
                    (name, Some(block.word), kind_of(tree.text(block.word)))
                }
                _ => continue,
            };
            let name = tree.text(span).trim_matches('"');
            if !fits(name) {
                continue;
            }
            let name = title.map_or(name.to_string(), |word| format!("{} {name}", tree.text(word)));
            symbols
                .extend(workspace.location(design, span).map(|location| information(name, kind, location, container)));
        }
        symbols.reverse();
        symbols
    });
    found.truncate(MOST);
    found
}

#[allow(deprecated)] // The structure has a field that must be filled and no constructor.
fn information(
    name: String,
    kind: SymbolKind,
    location: lsp_types::Location,
    container: Option<String>,
) -> SymbolInformation {
    SymbolInformation { name, kind, tags: None, deprecated: None, location, container_name: container }
}

fn kind_of(word: &str) -> SymbolKind {
    match word {
        "flight" => SymbolKind::EVENT,
        "airframe" | "design" => SymbolKind::NAMESPACE,
        "material" | "section" | "motor" | "pad" | "site" => SymbolKind::STRUCT,
        _ => SymbolKind::OBJECT,
    }
}

/// The outline.
pub fn answer(view: &View) -> Option<DocumentSymbolResponse> {
    let tree = view.analysis.as_ref().ok()?.tree()?;
    Some(DocumentSymbolResponse::Nested(symbols(view, tree, &tree.items)))
}

fn symbols(view: &View, tree: &Tree, items: &[Item]) -> Vec<DocumentSymbol> {
    items
        .iter()
        .filter_map(|item| match item {
            Item::Block(block) if !block.word.is_empty() => Some(symbol(view, tree, block)),
            Item::Let(binding) => {
                Some(plain(view, tree.text(binding.name), SymbolKind::CONSTANT, binding.span, binding.name))
            }
            _ => None,
        })
        .collect()
}

fn symbol(view: &View, tree: &Tree, block: &Block) -> DocumentSymbol {
    let kind = kind_of(tree.text(block.word));
    let mut found = plain(view, tree.text(block.header), kind, block.span, block.header);
    found.children = Some(symbols(view, tree, &block.items)).filter(|children| !children.is_empty());
    found
}

#[allow(deprecated)] // The structure has a field that must be filled and no constructor.
fn plain(
    view: &View,
    name: &str,
    kind: SymbolKind,
    range: finwright_grammar::Span,
    chosen: finwright_grammar::Span,
) -> DocumentSymbol {
    DocumentSymbol {
        name: name.to_string(),
        detail: None,
        kind,
        tags: None,
        deprecated: None,
        range: view.range(range),
        selection_range: view.range(chosen),
        children: None,
    }
}

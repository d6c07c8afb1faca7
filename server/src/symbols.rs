//! `textDocument/documentSymbol`: the blocks of the document, as an outline.

use crate::view::View;
use finwright_grammar::{Block, Item, Tree};
use lsp_types::{DocumentSymbol, DocumentSymbolResponse, SymbolKind};

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
    let word = tree.text(block.word);
    let kind = match word {
        "flight" => SymbolKind::EVENT,
        "airframe" | "design" => SymbolKind::NAMESPACE,
        "material" | "section" | "motor" | "pad" | "site" => SymbolKind::STRUCT,
        _ => SymbolKind::OBJECT,
    };
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

//! What several tests need: the examples, any text at all, and what a tree says without saying where.
#![allow(clippy::unwrap_used)]

use finwright_grammar::vocabulary::BLOCKS;
use finwright_grammar::{Element, Expr, ExprKind, Item, Measure, Span, Tree, ValueKind};
use proptest::prelude::*;
use std::path::PathBuf;

/// The good designs: file name and text.
pub fn examples() -> Vec<(String, String)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../tests/designs/good");
    let mut found: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|e| e == "finw"))
        .map(|path| (path.file_name().unwrap().to_string_lossy().into_owned(), std::fs::read_to_string(path).unwrap()))
        .collect();
    found.sort();
    assert!(found.len() >= 4);
    found
}

/// Every design that there is, good and bad, and the catalogue: path and text.
pub fn designs() -> Vec<(String, String)> {
    let home = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    let mut folders = vec![home.join("../tests/designs"), home.join("tests/layout"), home.join("../shared/model")];
    let mut found = Vec::new();
    while let Some(folder) = folders.pop() {
        for path in std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|e| e == "finw") {
                // One of the bad ones isn't text.
                found.extend(std::fs::read_to_string(&path).ok().map(|text| (path.display().to_string(), text)));
            }
        }
    }
    found.sort();
    assert!(found.len() >= 100);
    found
}

/// Text from pieces that make up designs, and some that don't.
pub fn soup() -> impl Strategy<Value = String> {
    let words: Vec<&str> =
        BLOCKS.iter().map(|b| b.word).chain(BLOCKS.iter().flat_map(|b| b.fields.iter().map(|f| f.word))).collect();
    let sound = vec![
        "tube body {",
        "}",
        "}\n",
        " { ",
        "length: 3 mm",
        "a:1;",
        "; ",
        ";",
        "\n",
        "\n",
        "\n\n",
        "\n  ",
        "\r\n",
        "\r",
        "curve: [",
        "0 s: 1 N, ",
        "2 s :3 N,\n",
        "]",
        "]\n",
        "  # remark\n",
        "#x\n",
        "   # x\n",
        "              # x\n",
        "at: 3mm  from  back ",
        "p : power 0.5",
        "let x = 2*(a.b - 1/8in)\n",
        "use \"a\"",
        "finwright 1\n",
        "lug a { bore: 4 mm;  wall: 1 mm }\n",
        "lug bb {wall:1 mm}\n",
        "tube b { rod  { a: 1 };  stop: 2 mm } # r\n",
        "tube body\n",
        "lug a  like b {",
        "lug like{",
        "at: 1 mm ahead of",
        "at: [1 mm±1 mm from  back,2 mm ahead of",
        " balance",
        "nose\n",
        "lug a  like b {",
        "lug like{",
        "at: 1 mm ahead of",
        "at: [1 mm±1 mm from  back,2 mm ahead of",
        " balance",
    ];
    let signs = vec![
        "{", "}", "[", "]", "(", ")", ":", ";", ",", "\n", "\r\n", "\r", " ", "\t", "\u{A0}", "#", "\"", "+", "-", "*",
        "/", "±", "+/-", "=", ".", "1", "2.5", "1/8", "1  1/2", "mm", "kg/m3", "°C", "%", "from", "ahead of",
        "balance", "min(", "é", "🚀", "\u{FEFF}", "\u{2028}", "\u{B}", "\0",
    ];
    let piece = prop_oneof![
        4 => proptest::sample::select(sound).prop_map(str::to_string),
        1 => proptest::sample::select(words).prop_map(str::to_string),
        2 => proptest::sample::select(signs).prop_map(str::to_string),
        1 => any::<String>().prop_map(|text| text.chars().take(6).collect::<String>()),
    ];
    proptest::collection::vec(piece, 0..60).prop_map(|pieces| pieces.concat())
}

/// The comments, in order.
pub fn comments(tree: &Tree) -> Vec<String> {
    tree.comments.iter().map(|span| tree.text(*span).trim_end().to_string()).collect()
}

/// What a tree says, a line each statement and block.
pub fn facts(tree: &Tree) -> Vec<String> {
    let mut out = Vec::new();
    walk(tree, &tree.items, 0, &mut out);
    out
}

fn walk(tree: &Tree, items: &[Item], depth: usize, out: &mut Vec<String>) {
    let of = |span: Span| tree.text(span);
    for item in items {
        let fact = match item {
            Item::Version { number, .. } => format!("version {}", of(*number)),
            Item::Use { path, .. } => format!("use {}", of(*path)),
            Item::Let(binding) => format!("let {} {}", of(binding.name), measure(tree, &binding.value)),
            Item::Field(field) => {
                let value = field.value.as_ref().map(|value| match &value.kind {
                    ValueKind::Event(name) => format!("event {}", of(*name)),
                    ValueKind::Measure(amount) => measure(tree, amount),
                    ValueKind::Choice { word, number } => format!("choice {} {}", of(*word), number.0),
                    ValueKind::Text(text) => format!("text {}", of(*text)),
                    ValueKind::File(path) => format!("file {}", of(*path)),
                    ValueKind::List(elements) => {
                        elements.iter().map(|e| element(tree, e)).collect::<Vec<_>>().join(", ")
                    }
                });
                format!("field {} {value:?}", of(field.name))
            }
            Item::Block(block) => {
                let header = [Some(block.word), block.name, block.like, block.title];
                format!("block {:?} closed {}", header.map(|span| span.map(of)), block.close.is_some())
            }
        };
        out.push(format!("{depth} {fact}"));
        if let Item::Block(block) = item {
            walk(tree, &block.items, depth + 1, out);
        }
    }
}

fn measure(tree: &Tree, measure: &Measure) -> String {
    let tolerance = measure.tolerance.as_ref().map(|tolerance| expression(tree, tolerance));
    let relation =
        measure.relation.as_ref().map(|r| (r.toward, tree.text(r.anchor), r.edge.map(|edge| tree.text(edge))));
    let height = measure.height.as_ref().map(|height| expression(tree, height));
    format!("{} {tolerance:?} {relation:?} {height:?}", expression(tree, &measure.amount))
}

fn element(tree: &Tree, element: &Element) -> String {
    let second = element.second.as_ref().map(|second| expression(tree, second));
    let place = element.place.as_ref().map(|place| measure(tree, place));
    format!("{} {second:?} {place:?}", expression(tree, &element.first))
}

fn expression(tree: &Tree, expr: &Expr) -> String {
    let row = |row: &[(bool, Expr)]| {
        row.iter().map(|(flag, e)| format!("{flag} {}", expression(tree, e))).collect::<Vec<_>>()
    };
    match &expr.kind {
        ExprKind::Quantity { number, unit } => format!("{number:?} {:?}", unit.map(|unit| tree.text(unit))),
        ExprKind::Path(path) => format!("path {:?}", path.iter().map(|name| tree.text(*name)).collect::<Vec<_>>()),
        ExprKind::Call { name, arguments } => {
            format!("{}{:?}", tree.text(*name), arguments.iter().map(|a| expression(tree, a)).collect::<Vec<_>>())
        }
        ExprKind::Sum(terms) => format!("sum {:?}", row(terms)),
        ExprKind::Product(factors) => format!("product {:?}", row(factors)),
        ExprKind::Negative(inner) => format!("minus {}", expression(tree, inner)),
    }
}

//! The text of LANGUAGE.md.
#![allow(clippy::unwrap_used)]

use finwright_grammar::vocabulary::{takes, BlockWord, ChoiceWord, FieldKind, FieldWord, Limit, Naming, BLOCKS};
use finwright_grammar::{parse, Item, Tree};
use finwright_units::unit::{find_unit, spellings};
use finwright_units::Dimension;
use std::fmt::Write;

/// The whole page.
pub fn write() -> String {
    let mut page = OPENING.to_string();
    write_functions(&mut page);
    write_units(&mut page);
    page.push_str(BLOCKS_OPENING);
    write_contents(&mut page, "", 0);
    for block in BLOCKS {
        write_block(&mut page, block);
    }
    write_catalogue(&mut page);
    page
}

const OPENING: &str = r#"# The language

<!-- Written by the test `language` from the code's own tables; change those, then FINWRIGHT_UPDATE=1 writes this. -->

A design file, `*.finw`, says what a rocket is made of, what drives it, what guides it and where it flies.

```finw
finwright 1                    # the version of the language

design "Little Egret" { builder: "Fen Edge Flyers" }

let caliber = 25 mm            # a name for a value

airframe {                     # from tip to tail, in the order of the page
  nose { shape: ogive; length: 3.2 * caliber; base: caliber; material: balsa }
  tube body {
    length: 250 mm
    outer: caliber; inner: 24 mm
    material: kraft_paper
    lug { bore: 4.6 mm; length: 30 mm; wall: 0.4 mm; at: 15 mm from back }
  }
}
```

## Lines

A line holds a block's first line, a field, a closing brace, or several of them. `;` parts two fields on one line. `#` starts
a comment, which goes to the end of the line. A file is UTF-8; lines end with LF, CR LF or CR.

| what | looks like |
|---|---|
| the version, first in the file | `finwright 1` |
| another file's materials, motors, pads, sites and named parts | `use "parts.finw"` |
| a named value | `let caliber = 41.6 mm` |
| a block | `tube body {` … `}` |
| a block that is like another but for the fields it gives itself | `lug front like rear { at: 15 mm ahead of balance }` |
| a field | `length: 430 mm` |

A block's brace stands on the line of its word. A name begins with a letter or `_` and goes on with letters, digits and `_`.
A line that can't be read costs that line alone; the rest of the file is checked all the same.

`# allow RULE: reason` on a line of its own allows a rule on the line or in the block that follows; behind something,
`# allow RULE here: reason` does so for its own line; `# allow RULE in this file: reason` does so for the file.

## Values

```finw
let length = 430 mm                     # a quantity: a number and its unit
let bore = 1/8 in                       # a fraction
let outer = 1 1/2 in                    # a mixed fraction
let small = 2.5e-3 m                    # a power of ten
let mass = 42 g ± 2 g                   # give or take; `+/-` is the same
let rod = 1.2 m +/- 1 %                 # a part of the value
let half = body.length / 2              # a field of a named part
let room = (outer - 2 * bore) / 2       # + - * / and brackets
let wider = max(outer, 30 mm)           # a function
```

A bare number where a quantity is due is an error that names the units that fit. Arithmetic is checked by kind: a length and
a mass can't be added.

| besides quantities | looks like |
|---|---|
| a word, perhaps with its number | `ogive`, `power 0.5` |
| a text | `"Fen Edge Flyers"` |
| a name | `kraft_paper` |
| a list of names | `[rear, front]` |
| a list of points, on one line or several | `[0 s: 0 N, 0.1 s: 14 N, 1.8 s: 0 N]` |
| points from a file with two columns | `file "d9.csv"` |

### Files of numbers

`curve: file "d9.csv"` and `outline: file "fin.csv"` read two columns from a file beside the design. A header ahead of the
numbers says their units, in brackets or behind the names:

```csv
# measured on the stand
t [ms], F [lbf]
0, 0
120, 3.2
```

A thrust curve without a header is in s and N; an outline without units is an error. A comma, a semicolon, a tab or spaces part
the columns, and decimals take a point. Lines that begin with `#`, `;` or `//` are comments; a comment that is a header with
units in brackets for both columns counts as one. A header that can't be understood is an error, as is a line that isn't two
numbers: nothing in a file is passed over.

## Places

Stations run from the tip, 0, to the tail.

```finw
tube body {
  length: 430 mm
  fins { at: 3 mm from back }                    # in the part around it
  cord { at: 90 mm from body.front }             # from another part's edge
  load { at: 300 mm ± 2 mm from tip }            # on the whole rocket; also `from tail`
  lug front { at: 15 mm ahead of balance }       # from the balance point, motor in; also `behind`
  lug aft { at: [20 mm from back, 90 mm from back] }
}
```

`from front` and `from tip` place a part's front edge, `from back` and `from tail` its back edge. Guides (`lug`, `button`,
`rail_guide`) and what is packed or added (`parachute`, `streamer`, `cord`, `load`, `ballast`) are placed by their middle, with every
relation. Of fins the root counts, the edge on the body: `from back` is from the back end of the part around them to the back
end of the root, however far the tips are swept behind it. A part with several places is there as many times.

In values, `main.begins`, `main.middle` and `main.ends` are a part's stations from the tip, and `tail` is the aft end:
`let gap = main.begins - engine.ends`. Of a part at several places the first counts there, and behind `from` as well. A part
without a name goes by its word, where it's the only such one.

`balance` is the balance point with a motor in, unlit: the motor of the first flight that the part guides, else of the file's
first flight. There the part stays, whatever else is flown. Where the rocket was weighed (`measured`), it's the balance point as
weighed.

## Names

A name is looked up among its own kind: a motor, a pad, a part, a material and a named value may have one name between them, and
never meet. Of two of one kind in a file the first counts, and the second is an error; what a file says itself goes before what
it uses, and that before what is built in. With a field behind it, `engine.length`, a name is a block's that has such a field; one
that a part and a motor have both, where it could be either's, is an error. `balance` and `tail` mean what they mean: no value may be
named so.
"#;

const FUNCTIONS: &[(&str, &str, &str)] = &[
    ("min", "the smallest of two values or more of one kind", "min(a.length, 30 mm)"),
    ("max", "the greatest of two values or more of one kind", "max(a.length, 30 mm)"),
    ("sqrt", "the square root of a plain number, an area, or what else has one", "sqrt(4 cm2)"),
    ("sin", "the sine of an angle", "sin(30 deg)"),
    ("cos", "the cosine of an angle", "cos(30 deg)"),
    ("tan", "the tangent of an angle", "tan(30 deg)"),
    ("abs", "the value without its sign", "abs(-3 mm)"),
    ("round", "the nearest whole number to a plain number", "round(2.6)"),
];

fn write_functions(page: &mut String) {
    let known: Vec<&str> = FUNCTIONS.iter().map(|(name, ..)| *name).collect();
    assert_eq!(known, finwright_model::functions::FUNCTIONS, "the page has to tell of every function, in that order");
    page.push_str("\n## Functions\n\n| function | gives | example |\n|---|---|---|\n");
    for (name, gives, example) in FUNCTIONS {
        let _ = writeln!(page, "| `{name}` | {gives} | `x: {example}` |");
    }
}

/// Every kind of quantity that a field takes or a unit measures, with the units that fit it.
fn write_units(page: &mut String) {
    page.push_str(
        "\n## Units\n\nUnits are joined with `/`, and with `.`, `·` or `*`; an exponent follows its unit: `kg/m3`, `N.s`, `cm^2`, `m²`.\n\
         The factor takes a number to the SI unit.\n\n| kind | unit | also written | factor |\n|---|---|---|---|\n",
    );
    let all: Vec<_> = spellings().collect();
    let mut told = Vec::new();
    for (spelling, unit) in &all {
        if told.contains(spelling) {
            continue;
        }
        let same: Vec<&str> = all.iter().filter(|(_, other)| other == unit).map(|(other, _)| *other).collect();
        let others: Vec<String> = same.iter().skip(1).map(|other| format!("`{other}`")).collect();
        told.extend(&same);
        let zero = if unit.offset == 0.0 { String::new() } else { format!(", from {}", short(unit.offset)) };
        let kind = without_article(&unit.dimension.phrase());
        let _ = writeln!(page, "| {kind} | `{spelling}` | {} | {}{zero} |", others.join(", "), short(unit.factor));
    }
    page.push_str("\nKinds that fields take, and the units that are usual for them:\n\n| kind | units |\n|---|---|\n");
    let mut kinds: Vec<Dimension> = Vec::new();
    for field in BLOCKS.iter().flat_map(|block| block.fields) {
        for kind in dimensions(field.kind) {
            if !kinds.contains(&kind) && !kind.fitting_units().is_empty() {
                kinds.push(kind);
            }
        }
    }
    for kind in kinds {
        let units: Vec<String> = kind.fitting_units().split(", ").map(|unit| format!("`{unit}`")).collect();
        let _ = writeln!(page, "| {} | {} |", without_article(&kind.phrase()), units.join(", "));
    }
}

fn dimensions(kind: FieldKind) -> Vec<Dimension> {
    match kind {
        FieldKind::Quantity(dimension) | FieldKind::ChoiceOr(_, dimension) | FieldKind::ReferenceOr(_, dimension) => {
            vec![dimension]
        }
        FieldKind::AtHeight(dimension) => vec![dimension, Dimension::LENGTH],
        FieldKind::Opening => vec![Dimension::TIME, Dimension::LENGTH],
        FieldKind::Place | FieldKind::Places => vec![Dimension::LENGTH],
        FieldKind::Curve(x, y) | FieldKind::Recording(x, y) => vec![x, y],
        FieldKind::Count
        | FieldKind::Choice(_)
        | FieldKind::Text
        | FieldKind::Reference(_)
        | FieldKind::References(_) => Vec::new(),
    }
}

const BLOCKS_OPENING: &str = "
## Blocks

A field marked *needed* is one without which nothing can be computed. What else is left out and has no default is either
not there (a part without `wall` is solid) or makes a check say that it needs it.

";

/// The blocks under the first block that they may stand in.
fn write_contents(page: &mut String, parent: &str, depth: usize) {
    for block in BLOCKS.iter().filter(|block| block.inside.first() == Some(&parent)) {
        let sentence = first_sentence(block.doc);
        let _ = writeln!(page, "{}- [`{}`](#{}): {sentence}", "  ".repeat(depth), block.word, block.word);
        write_contents(page, block.word, depth + 1);
    }
}

fn write_block(page: &mut String, block: &BlockWord) {
    let _ = writeln!(page, "\n### {}\n\n{}\n\nStands {}. {}", block.word, block.doc, whereabouts(block), naming(block));
    let _ = writeln!(page, "\n```finw\n{}\n```", block.example);
    if block.fields.is_empty() {
        return;
    }
    page.push_str("\n| field | takes | left out | example |\n|---|---|---|---|\n");
    for field in block.fields {
        let takes = [takes(field.kind), limit(field)].concat();
        let left_out = match (field.needed, field.default) {
            (true, _) => "*needed*",
            (false, default) => default,
        };
        let example = format!("{}: {}", field.word, field.example);
        let _ = writeln!(
            page,
            "| `{}` | {} {}. | {} | `{example}` |",
            field.word,
            one_line(field.doc),
            capital(&takes),
            one_line(left_out)
        );
    }
    for field in block.fields {
        let (FieldKind::Choice(words) | FieldKind::ChoiceOr(words, _)) = field.kind else { continue };
        let _ = writeln!(page, "\nWords for `{}`:\n", field.word);
        for word in words {
            let _ = writeln!(page, "- `{}`: {}{}", word.word, word.doc, number(word));
        }
    }
}

fn number(word: &ChoiceWord) -> String {
    word.number.map_or_else(String::new, |(low, high, usual)| {
        format!(" (a number from {} to {} may follow; {} where none does)", short(low), short(high), short(usual))
    })
}

fn limit(field: &FieldWord) -> String {
    match field.limit {
        Limit::Any => String::new(),
        Limit::Positive => ", above zero".to_string(),
        Limit::NotNegative => ", zero or above".to_string(),
        Limit::Between(low, high) => {
            let (low, high, unit) = in_examples_unit(field, low, high);
            format!(", from {low} to {high}{unit}")
        }
    }
}

/// Two limits in the unit that people write, which is the example's.
fn in_examples_unit(field: &FieldWord, low: f64, high: f64) -> (String, String, String) {
    let FieldKind::Quantity(dimension) = field.kind else { return (short(low), short(high), String::new()) };
    if dimension == Dimension::NUMBER {
        return (short(low), short(high), String::new());
    }
    let spelling = field.example.trim_start_matches(|c: char| c.is_ascii_digit() || "+-. ".contains(c));
    let unit = find_unit(spelling).unwrap();
    let written = |si: f64| short(((si - unit.offset) / unit.factor * 100.0).round() / 100.0);
    (written(low), written(high), format!(" {spelling}"))
}

fn whereabouts(block: &BlockWord) -> String {
    let places: Vec<String> = block
        .inside
        .iter()
        .map(|parent| {
            if parent.is_empty() {
                "at the top of the file".to_string()
            } else {
                format!("in [`{parent}`](#{parent})")
            }
        })
        .collect();
    places.join(", ")
}

fn naming(block: &BlockWord) -> &'static str {
    match block.naming {
        Naming::Optional => "Takes a name, needed only where something refers to it.",
        Naming::Required => "Takes a name, always.",
        Naming::Title => "Takes a title in quotes.",
        Naming::Nothing => "Takes no name.",
    }
}

/// What the catalogue brings, read from the catalogue.
fn write_catalogue(page: &mut String) {
    let tree = parse(finwright_model::catalog::TEXT);
    page.push_str(
        "\n## Built-in materials and sections\n\nA file may define its own beside them, or one of the same \
        name instead.\n",
    );
    for word in ["material", "section"] {
        let blocks: Vec<_> = tree
            .items
            .iter()
            .filter_map(|item| match item {
                Item::Block(block) if tree.text(block.word) == word => Some(block),
                _ => None,
            })
            .collect();
        let fields = BLOCKS.iter().find(|block| block.word == word).map_or(&[][..], |block| block.fields);
        let used: Vec<&str> = fields
            .iter()
            .map(|field| field.word)
            .filter(|word| blocks.iter().any(|block| block.fields().any(|field| tree.text(field.name) == *word)))
            .collect();
        let _ = writeln!(page, "\n| {word} | {} |\n|---|{}", used.join(" | "), "---|".repeat(used.len()));
        for block in blocks {
            let name = block.name.map_or("", |name| tree.text(name));
            let values: Vec<String> = used.iter().map(|field| value(&tree, block, field)).collect();
            let _ = writeln!(page, "| `{name}` | {} |", values.join(" | "));
        }
    }
}

fn value(tree: &Tree, block: &finwright_grammar::Block, word: &str) -> String {
    let field = block.fields().find(|field| tree.text(field.name) == word);
    field.and_then(|field| field.value.as_ref()).map_or("", |value| tree.text(value.span)).to_string()
}

fn first_sentence(doc: &str) -> &str {
    doc.find(". ").map_or(doc, |end| &doc[..=end])
}

fn without_article(phrase: &str) -> String {
    phrase.strip_prefix("a ").or(phrase.strip_prefix("an ")).unwrap_or(phrase).to_string()
}

fn one_line(text: &str) -> String {
    text.replace('\n', " ").replace('|', "\\|")
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().collect::<String>() + letters.as_str())
}

/// A number with six digits at most.
fn short(number: f64) -> String {
    if number == 0.0 || (1e-4..1e12).contains(&number.abs()) {
        let digits = (5 - number.abs().max(1e-9).log10().floor() as i32).clamp(0, 12) as usize;
        let text = format!("{number:.digits$}");
        return if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_string() } else { text };
    }
    let text = format!("{number:.5e}");
    let (digits, power) = text.split_once('e').unwrap_or((&text, "0"));
    format!("{}e{power}", digits.trim_end_matches('0').trim_end_matches('.'))
}

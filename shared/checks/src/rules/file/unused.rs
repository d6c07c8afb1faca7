//! `file/unused`: something named that nothing refers to.

use crate::example::Example;
use crate::finding::{Edit, Finding, Fix, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::defaults::usual_materials;
use finwright_grammar::{Expr, ExprKind, FileId, Item, Measure, Place, Span, Tree, ValueKind};
use finwright_model::{Named, PartKind, Rail, CATALOG};
use std::collections::HashSet;

/// The rule.
pub static UNUSED: Rule = Rule {
    name: "file/unused",
    family: Family::File,
    concerns: Concern::File,
    wind: None,
    level: Level::Note,
    summary: "a motor, pad, site, material, rail section or value that nothing refers to",
    why: "What nothing refers to isn't checked, and a reader looks in vain for what it does.",
    prose: include_str!("unused.md"),
    thresholds: &[],
    example: Example::new(
        "site meadow { elevation: 20 m; wind: 2 m/s; gust: 3 m/s }",
        "site meadow { elevation: 20 m; wind: 2 m/s; gust: 3 m/s }\nsite hall { elevation: 20 m }",
    ),
    check: Some(check),
};

const OWN: FileId = FileId(0);

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let Some(tree) = cx.design.files.first().map(|file| file.tree.as_ref()) else { return };
    let is_understood = tree.problems.is_empty() && cx.design.problems.is_empty() && cx.design.lost.is_empty();
    if cx.design.airframe.is_none() || cx.design.flights.is_empty() || !is_understood {
        return;
    }
    for (word, name) in unused(cx) {
        let what = if word == "let" { "the value" } else { word };
        let finding = UNUSED.finding(name.place, format!("nothing uses {what} `{}`", name.value)).help(match word {
            "let" => "use it in a value, or take it out".to_string(),
            "material" => "give it to a part, `material: …`, or take it out".to_string(),
            "section" => "give it to a rail, `slot: …`, or take it out".to_string(),
            _ => format!("fly with it, `flight … {{ {word}: {} … }}`, or take it out", name.value),
        });
        out.push(match definition(tree, name.place.span) {
            Some(span) => Finding {
                fixes: vec![Fix {
                    title: format!("take `{}` out", name.value),
                    edits: vec![Edit { place: Place { file: OWN, span }, text: String::new() }],
                }],
                ..finding
            },
            None => finding,
        });
    }
}

/// Everything of this file that nothing refers to, with its word.
fn unused<'a>(cx: &Context<'a>) -> Vec<(&'static str, &'a Named<String>)> {
    let d = cx.design;
    let flown = |of: fn(&finwright_model::Flight) -> [Option<usize>; 2]| -> HashSet<usize> {
        d.flights.iter().flat_map(of).flatten().collect()
    };
    let id = |named: &Option<Named<usize>>| named.as_ref().map(|n| n.value);
    let mut motors = flown(|f| [f.motor.as_ref().map(|m| m.value), f.booster_motor.as_ref().map(|m| m.value)]);
    motors.extend(d.measured.iter().filter_map(|m| id(&m.with)));
    let pads = flown(|f| [f.pad.as_ref().map(|p| p.value), None]);
    let sites = flown(|f| [f.site.as_ref().map(|s| s.value), None]);
    let mut materials: HashSet<usize> = d.parts.iter().filter_map(|p| id(&p.material)).collect();
    materials.extend(d.sections.iter().filter_map(|s| id(&s.material)));
    materials.extend(usual_materials(d));
    let mut sections = HashSet::new();
    for pad in &d.pads {
        match &pad.rail {
            Some(Rail::Rod { material, .. }) => materials.extend(id(material)),
            Some(Rail::Slotted { slot, .. }) => sections.extend(id(slot)),
            Some(Rail::Tower { .. }) | None => {}
        }
    }
    // Buttons and rail guides find their section by its width.
    for part in &d.parts {
        if let PartKind::Button { profile, .. } | PartKind::RailGuide { profile, .. } = &part.kind {
            let found = finwright_assess::hardware::section_of_width(d, profile);
            sections.extend(found.map(|(number, _)| number));
        }
    }
    let mut found: Vec<(&'static str, &'a Named<String>)> = Vec::new();
    let mut tell = |word, names: Vec<&'a Named<String>>, used: &HashSet<usize>| {
        let own = names.into_iter().enumerate().filter(|(id, name)| name.place.file == OWN && !used.contains(id));
        found.extend(own.map(|(_, name)| (word, name)).filter(|(_, name)| !name.value.is_empty()));
    };
    tell("motor", d.motors.iter().map(|m| &m.name).collect(), &motors);
    tell("pad", d.pads.iter().map(|p| &p.name).collect(), &pads);
    tell("site", d.sites.iter().map(|s| &s.name).collect(), &sites);
    tell("material", d.materials.iter().map(|m| &m.name).collect(), &materials);
    tell("section", d.sections.iter().map(|s| &s.name).collect(), &sections);
    let is_stuff = |word: &str| matches!(word, "material" | "section");
    if found.iter().any(|(word, _)| is_stuff(word)) {
        // What has the name of something in stock, or of a file that is used, stands in its place.
        let names = d.materials.iter().map(|m| &m.name).chain(d.sections.iter().map(|s| &s.name));
        let stock: HashSet<&str> = names.filter(|n| n.place.file != OWN).map(|n| n.value.as_str()).collect();
        found.retain(|(word, name)| !is_stuff(word) || !stock.contains(name.value.as_str()));
    }
    if !d.values.is_empty() {
        // The catalogue refers to nobody's values.
        let files = d.files.iter().enumerate().filter(|(number, _)| *number != CATALOG.0 as usize);
        let words: HashSet<&str> = files.flat_map(|(_, file)| words(&file.tree)).collect();
        found.extend(d.values.iter().map(|(n, _)| ("let", n)).filter(|(_, n)| !words.contains(n.value.as_str())));
    }
    found
}

/// Every name that stands in a value of a file: of a `let`, a part or a reference.
fn words(tree: &Tree) -> Vec<&str> {
    fn expression<'t>(tree: &'t Tree, expr: &Expr, found: &mut Vec<&'t str>) {
        match &expr.kind {
            ExprKind::Quantity { .. } => {}
            // `body.length` is a block's.
            ExprKind::Path(path) => found.extend(path.first().filter(|_| path.len() == 1).map(|span| tree.text(*span))),
            ExprKind::Call { arguments, .. } => arguments.iter().for_each(|a| expression(tree, a, found)),
            ExprKind::Sum(row) | ExprKind::Product(row) => row.iter().for_each(|(_, e)| expression(tree, e, found)),
            ExprKind::Negative(inner) => expression(tree, inner, found),
        }
    }
    fn measure<'t>(tree: &'t Tree, measure: &Measure, found: &mut Vec<&'t str>) {
        expression(tree, &measure.amount, found);
        measure.tolerance.iter().for_each(|t| expression(tree, t, found));
    }
    fn items<'t>(tree: &'t Tree, all: &[Item], found: &mut Vec<&'t str>) {
        for item in all {
            match item {
                Item::Let(binding) => measure(tree, &binding.value, found),
                Item::Block(block) => items(tree, &block.items, found),
                Item::Field(field) => match field.value.as_ref().map(|value| &value.kind) {
                    Some(ValueKind::Measure(m)) => measure(tree, m, found),
                    Some(ValueKind::List(elements)) => elements.iter().for_each(|element| {
                        expression(tree, &element.first, found);
                        element.second.iter().for_each(|e| expression(tree, e, found));
                        element.place.iter().for_each(|m| measure(tree, m, found));
                    }),
                    _ => {}
                },
                Item::Version { .. } | Item::Use { .. } => {}
            }
        }
    }
    let mut found = Vec::new();
    items(tree, &tree.items, &mut found);
    found
}

/// The whole statement that defines a name, with its line where it stands alone on it.
fn definition(tree: &Tree, name: Span) -> Option<Span> {
    let item = tree.items.iter().map(Item::span).find(|span| span.touches(name.start as usize))?;
    let text: &str = &tree.text;
    let (before, after) = (text.get(..item.start as usize)?, text.get(item.end as usize..)?);
    let indent = before.len() - before.trim_end_matches([' ', '\t']).len();
    let rest = after.len() - after.trim_start_matches([' ', '\t']).len();
    let starts_a_line =
        before[..before.len() - indent].is_empty() || before[..before.len() - indent].ends_with(['\n', '\r']);
    let newline = ["\r\n", "\n", "\r"].iter().find(|n| after[rest..].starts_with(**n)).map_or(0, |n| n.len());
    if starts_a_line && newline > 0 {
        return Some(Span::new(before.len() - indent, item.end as usize + rest + newline));
    }
    Some(item)
}

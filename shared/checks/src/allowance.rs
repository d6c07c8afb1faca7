//! Comments that allow a rule where it would speak, with a reason.
//!
//! `# allow guide/slow-exit: indoor demonstration, no wind` on a line of its own allows the rule on the next line, and in
//! the whole block where that line opens one. `# allow RULE here: reason` behind something does so for its own line, and
//! `# allow RULE in this file: reason` for the file. What can't be read can't be allowed.

use crate::finding::{Finding, Fix};
use crate::rule::Rule;
use crate::rules::{allowances, rule, RULES};
use crate::settings::Settings;
use finwright_grammar::vocabulary::nearest;
use finwright_grammar::{FileId, Item, Place, Span, Tree};

/// Take out the findings that a comment allows, and tell of comments that allow nothing.
pub(crate) fn apply(tree: &Tree, settings: &Settings, findings: &mut Vec<Finding>) {
    let mut told = Vec::new();
    for comment in &tree.comments {
        let Some(allowance) = read(tree, *comment, &mut told) else { continue };
        let before = findings.len();
        findings.retain(|f| f.rule != allowance.rule.name || !allowance.range.touches(f.place.span.start as usize));
        // A rule that is switched off has nothing to say anywhere.
        if findings.len() == before && !settings.is_off(allowance.rule.name) {
            let line = tree.lines.span(tree.lines.line_of(comment.start as usize));
            let mut finding = allowances::UNUSED
                .finding(
                    place(*comment),
                    format!("{} has nothing to say {}", allowance.rule.name, allowance.where_it_is),
                )
                .help("take the comment out");
            let alone = tree.text(line).trim_start().starts_with('#');
            finding.fixes.push(Fix {
                title: "take the comment out".to_string(),
                edits: vec![crate::finding::Edit {
                    place: place(if alone { line } else { *comment }),
                    text: String::new(),
                }],
            });
            told.push(finding);
        }
    }
    findings.extend(told);
}

struct Allowance {
    rule: &'static Rule,
    range: Span,
    where_it_is: &'static str,
}

fn read(tree: &Tree, comment: Span, told: &mut Vec<Finding>) -> Option<Allowance> {
    let text = tree.text(comment).trim_start_matches('#').trim();
    let rest = text.strip_prefix("allow ")?.trim_start();
    // An ordinary sentence may begin with the word; a rule's name has a family.
    let name = rest.split([' ', ':']).next().filter(|name| name.contains('/'))?;
    let (scope, reason) = rest[name.len()..].split_once(':').unwrap_or((&rest[name.len()..], ""));
    let mut broken = |message: String, help: String| {
        told.push(allowances::BROKEN.finding(place(comment), message).help(help));
    };
    let Some(rule) = rule(name) else {
        let near = nearest(name, RULES.iter().map(|r| r.name));
        let help = near.map_or("`finwright explain` lists the rules".to_string(), |n| format!("did you mean `{n}`?"));
        broken(format!("there is no rule `{name}`"), help);
        return None;
    };
    if !may_be_allowed(name) {
        broken(
            format!("`{name}` can't be allowed"),
            "mend the line instead: what can't be read isn't checked".to_string(),
        );
        return None;
    }
    if reason.trim().is_empty() {
        broken(format!("this allows `{name}` without a reason"), format!("say why: `# allow {name}{scope}: …`"));
        return None;
    }
    let line = tree.lines.line_of(comment.start as usize);
    let own = tree.lines.span(line);
    let (range, where_it_is) = match scope.trim() {
        "in this file" => (Span::new(0, tree.text.len()), "in this file"),
        "here" => (own, "on this line"),
        "" if tree.text(own).trim_start().starts_with('#') => {
            let next = next_line(tree, line);
            (block_on(tree, next).unwrap_or(tree.lines.span(next)), "on the next line or in the block that it opens")
        }
        "" => (own, "on this line"),
        other => {
            broken(
                format!("`{other}` isn't a place to allow a rule in"),
                format!("write `# allow {name}: …` above a line or block, or `# allow {name} in this file: …`"),
            );
            return None;
        }
    };
    Some(Allowance { rule, range, where_it_is })
}

/// What can't be read isn't checked, so that can't be allowed; what is read and only looks odd can.
fn may_be_allowed(rule: &str) -> bool {
    let looks_odd = ["file/unused", "file/shadows", "file/odd-size"];
    looks_odd.contains(&rule) || !["syntax/", "file/", "settings/"].iter().any(|family| rule.starts_with(family))
}

/// The next line that holds more than space and comments.
fn next_line(tree: &Tree, line: usize) -> usize {
    let says = |n: &usize| {
        let text = tree.text(tree.lines.span(*n)).trim();
        !text.is_empty() && !text.starts_with('#')
    };
    (line + 1..tree.lines.count()).find(says).unwrap_or(line)
}

/// The block whose first line this is.
fn block_on(tree: &Tree, line: usize) -> Option<Span> {
    let span = tree.lines.span(line);
    let start = span.start as usize + tree.text(span).len() - tree.text(span).trim_start().len();
    let mut items = &tree.items;
    loop {
        let item = items.iter().find(|item| item.span().touches(start) && item.span().end as usize > start)?;
        match item {
            Item::Block(block) if block.span.start as usize == start => return Some(block.span),
            Item::Block(block) => items = &block.items,
            _ => return None,
        }
    }
}

fn place(span: Span) -> Place {
    Place { file: FileId(0), span }
}

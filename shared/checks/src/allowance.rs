//! Comments that allow a rule where it would speak, with a reason.
//!
//! `# allow guide/slow-exit: indoor demonstration, no wind` on a line of its own allows the rule on the next line, and
//! in the whole block where that line opens one. `# allow RULE here: reason` behind something does so for its own line,
//! and `# allow RULE in this file: reason` for the file. What can't be read can't be allowed, and `finwright.toml` may
//! say that errors, or anything, can't be.

use crate::finding::{Edit, Elsewhere, Finding, Fix, Level};
use crate::rule::Rule;
use crate::rules::{allowances, rule, RULES};
use crate::settings::{Allowing, Settings};
use finwright_grammar::vocabulary::nearest;
use finwright_grammar::{FileId, Item, Place, Shift, Span, Tree};
use finwright_model::{Design, CATALOG};

/// A finding that its author allows.
#[derive(Clone, Debug, PartialEq)]
pub struct Allowed {
    /// The finding.
    pub finding: Finding,
    /// The author's reason.
    pub reason: String,
    /// The comment that allows it.
    pub comment: Place,
}

/// The comments of a design's files that allow something.
#[derive(Clone, Debug, Default)]
pub(crate) struct Allowances {
    all: Vec<Allowance>,
    /// Which levels may be allowed at all.
    least: Option<Level>,
    /// What is wrong with the comments of the file itself.
    told: Vec<Finding>,
}

impl Allowances {
    /// Read the comments of all files that take part; what is wrong with a used file's is told there.
    pub fn of(design: &Design, settings: &Settings) -> Allowances {
        let mut found = Allowances { least: settings.allowing.least_level(), ..Allowances::default() };
        for (number, file) in design.files.iter().enumerate() {
            let id = FileId(number as u32);
            if id == CATALOG {
                continue;
            }
            let mut told = Vec::new();
            for comment in &file.tree.comments {
                found.all.extend(read(&file.tree, id, *comment, settings.allowing, &mut told));
            }
            if id == FileId(0) {
                found.told = told;
            }
        }
        found
    }

    /// The findings that nothing allows, and those that a comment does.
    pub fn split(&self, findings: Vec<Finding>) -> (Vec<Finding>, Vec<Allowed>) {
        let (mut kept, mut allowed) = (Vec::with_capacity(findings.len()), Vec::new());
        for finding in findings {
            match self.all.iter().find(|allowance| self.covers(allowance, &finding)) {
                Some(by) => allowed.push(Allowed { reason: by.reason.clone(), comment: by.comment, finding }),
                None => kept.push(finding),
            }
        }
        (kept, allowed)
    }

    fn covers(&self, allowance: &Allowance, finding: &Finding) -> bool {
        let stands =
            |place: Place| place.file == allowance.comment.file && allowance.range.touches(place.span.start as usize);
        let there = match finding.elsewhere {
            Some(Elsewhere::UsedFile(place)) => Some(place),
            _ => None,
        };
        let may = self.least.is_some_and(|least| finding.level >= least);
        may && finding.rule == allowance.rule.name && (stands(finding.place) || there.is_some_and(stands))
    }

    /// What is wrong with the comments of the file itself: those that can't be understood, and those that allow
    /// nothing.
    pub fn faults(&self, tree: &Tree, settings: &Settings, allowed: &[Allowed]) -> Vec<Finding> {
        let own = self.all.iter().filter(|allowance| allowance.comment.file == FileId(0));
        // A rule that is switched off has nothing to say anywhere.
        let idle = own.filter(|allowance| {
            let used = allowed.iter().any(|a| a.comment == allowance.comment && a.finding.rule == allowance.rule.name);
            !used && !settings.is_off(allowance.rule.name)
        });
        self.told.iter().cloned().chain(idle.map(|allowance| unused(tree, allowance))).collect()
    }
}

#[derive(Clone)]
struct Allowance {
    rule: &'static Rule,
    comment: Place,
    range: Span,
    where_it_is: &'static str,
    reason: String,
}

impl std::fmt::Debug for Allowance {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.rule.name)
    }
}

impl Shift for Allowances {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        self.told.relocate(to);
        for allowance in &mut self.all {
            if allowance.comment.file == FileId(0) {
                allowance.range.relocate(to);
            }
            allowance.comment.relocate(to);
        }
    }
}

/// Whether a comment may allow something, or is about to.
pub(crate) fn mentions(comment: &str) -> bool {
    comment.contains(ALLOW.trim_end())
}

/// With what such a comment begins.
const ALLOW: &str = "allow ";

fn unused(tree: &Tree, allowance: &Allowance) -> Finding {
    let comment = allowance.comment.span;
    let line = tree.lines.span(tree.lines.line_of(comment.start as usize));
    let alone = tree.text(line).trim_start().starts_with('#');
    let cut = Place { file: FileId(0), span: if alone { line } else { comment } };
    let message = format!("{} finds nothing {}", allowance.rule.name, allowance.where_it_is);
    let mut finding = allowances::UNUSED.finding(allowance.comment, message).help("take the comment out");
    finding
        .fixes
        .push(Fix { title: "take the comment out".to_string(), edits: vec![Edit { place: cut, text: String::new() }] });
    finding
}

fn read(tree: &Tree, file: FileId, comment: Span, allowing: Allowing, told: &mut Vec<Finding>) -> Option<Allowance> {
    let text = tree.text(comment).trim_start_matches('#').trim();
    let rest = text.strip_prefix(ALLOW)?.trim_start();
    // An ordinary sentence may begin with the word; a rule's name has a family.
    let name = rest.split([' ', ':']).next().filter(|name| name.contains('/'))?;
    let (scope, reason) = rest[name.len()..].split_once(':').unwrap_or((&rest[name.len()..], ""));
    let at = Place { file, span: comment };
    let mut broken = |message: String, help: String| told.push(allowances::BROKEN.finding(at, message).help(help));
    let Some(rule) = rule(name) else {
        let near = nearest(name, RULES.iter().map(|r| r.name));
        let help = near.map_or("`finwright explain` lists the rules".to_string(), |n| format!("did you mean `{n}`?"));
        broken(format!("there is no rule `{name}`"), help);
        return None;
    };
    if !rule.may_be_allowed() {
        broken(
            format!("`{name}` can't be allowed"),
            "mend the line instead: what can't be read or isn't known isn't checked".to_string(),
        );
        return None;
    }
    if allowing == Allowing::None {
        broken(
            format!("`{name}` isn't allowed by this: finwright.toml lets nothing be allowed"),
            "mend what it finds, or ask whoever keeps finwright.toml".to_string(),
        );
        return None;
    }
    if allowing == Allowing::Warnings && rule.level == Level::Error {
        broken(
            format!("`{name}` isn't allowed by this: finwright.toml lets warnings be allowed only"),
            "mend what it finds, or ask whoever keeps finwright.toml".to_string(),
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
    Some(Allowance { rule, comment: at, range, where_it_is, reason: reason.trim().to_string() })
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

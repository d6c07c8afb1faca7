//! `finwright explain`: a rule's page, a block's or a field's, a topic's; or the list of all there are.

mod rule;
mod topic;
mod word;

use crate::collect::own_settings;
use crate::layout::table::{Column, Table};
use crate::layout::{measure, paragraph};
use crate::output::{print, unusable};
use finwright_checks::{Rule, RULES};
use finwright_grammar::vocabulary::{nearest, BLOCKS};
use finwright_units::reader::with;
use finwright_units::Units;
use std::process::ExitCode;
use topic::TOPICS;

pub fn explain(name: Option<&str>, units: Option<Units>) -> ExitCode {
    let units = units.unwrap_or_else(|| own_settings().units);
    let page = with(units, || match name {
        Some(name) => found(name),
        None => Ok(list()),
    });
    match page {
        Ok(page) => {
            print(&page);
            ExitCode::SUCCESS
        }
        Err(reason) => unusable(&reason),
    }
}

/// The page of what goes by a name, or why there isn't one. A rule's family may be left out, a field's block too.
fn found(name: &str) -> Result<String, String> {
    if let Some(topic) = TOPICS.iter().find(|topic| topic.name == name) {
        return Ok(topic.page(measure()));
    }
    if let Some(rule) = finwright_checks::rule(name) {
        return Ok(rule::page(rule));
    }
    if let Some(page) = word::page(name)? {
        return Ok(page);
    }
    let by_last: Vec<&Rule> = RULES.iter().copied().filter(|rule| short(rule) == name).collect();
    match by_last.as_slice() {
        [rule] => return Ok(rule::page(rule)),
        [] => {}
        several => return Err(format!("several rules are called {name}: {}", names(several))),
    }
    let family: Vec<&Rule> = RULES.iter().copied().filter(|rule| family(rule) == name).collect();
    if !family.is_empty() {
        return Ok(rules(&family));
    }
    let known = TOPICS.iter().map(|topic| topic.name).chain(BLOCKS.iter().map(|block| block.word));
    let known = known.chain(RULES.iter().flat_map(|rule| [rule.name, short(rule)]));
    let near = nearest(name, known.collect::<Vec<_>>());
    let hint = near.map_or("`finwright explain` lists what there is".to_string(), |n| format!("did you mean {n}?"));
    Err(format!("nothing here is called {name}; {hint}"))
}

/// A rule's name without its family.
fn short(rule: &Rule) -> &'static str {
    rule.name.split_once('/').map_or(rule.name, |(_, short)| short)
}

fn family(rule: &Rule) -> &'static str {
    rule.name.split_once('/').map_or("", |(family, _)| family)
}

fn names(rules: &[&Rule]) -> String {
    rules.iter().map(|rule| rule.name).collect::<Vec<_>>().join(", ")
}

/// Everything that can be explained: topics, rules, and the language's blocks.
fn list() -> String {
    let mut topics = Table::new([Column::words(""), Column::prose("", 24)]);
    TOPICS.iter().for_each(|topic| topics.row([topic.name.to_string(), topic.title().to_string()]));
    let words: Vec<&str> = BLOCKS.iter().map(|block| block.word).collect();
    let blocks = paragraph(&words.join(", "), "  ", measure());
    let fields = paragraph("Blocks of the language; their fields as in `finwright explain tube.outer`", "", measure());
    format!("Topics\n{}\nRules\n{}\n{fields}\n{blocks}\n", topics.text(measure()).text, rules(&RULES))
}

/// Rules with their levels, a row each.
fn rules(rules: &[&Rule]) -> String {
    let mut table = Table::new([Column::words(""), Column::words(""), Column::prose("", 24)]);
    rules.iter().for_each(|rule| table.row([rule.name, rule.level.word(), rule.summary].map(String::from)));
    table.text(measure()).text
}

//! The grammar itself: one line of text to pest's pairs, and how a line is guarded before it gets there.

use pest::iterators::Pair;
use pest::Parser;

/// The parser that pest derives from `finwright.pest`; its `Rule` names the grammar's rules.
#[derive(pest_derive::Parser)]
#[grammar = "finwright.pest"]
pub(crate) struct Grammar;

/// Brackets nested deeper than this in one line are refused before parsing, since pest recurses on them.
pub const DEEPEST_BRACKETS: usize = 24;

/// The pieces of one line, without its newline. `None` where the line can't be handed to the grammar.
pub(crate) fn pieces(line: &str) -> Option<impl Iterator<Item = Pair<'_, Rule>>> {
    if bracket_depth(line) > DEEPEST_BRACKETS {
        return None;
    }
    let mut pairs = Grammar::parse(Rule::line, line).ok()?;
    Some(pairs.next()?.into_inner().filter(|p| p.as_rule() != Rule::EOI))
}

/// How far a rule gets on a text before it fails, and what it hoped for there.
pub(crate) fn furthest_failure(rule: Rule, text: &str) -> Option<(usize, Vec<Rule>)> {
    let error = Grammar::parse(rule, text).err()?;
    let at = match error.location {
        pest::error::InputLocation::Pos(at) | pest::error::InputLocation::Span((at, _)) => at,
    };
    let hoped = match error.variant {
        pest::error::ErrorVariant::ParsingError { positives, .. } => positives,
        pest::error::ErrorVariant::CustomError { .. } => Vec::new(),
    };
    Some((at, hoped))
}

fn bracket_depth(line: &str) -> usize {
    let (mut depth, mut deepest) = (0usize, 0usize);
    for byte in line.bytes() {
        match byte {
            b'(' | b'[' => {
                depth += 1;
                deepest = deepest.max(depth);
            }
            b')' | b']' => depth = depth.saturating_sub(1),
            _ => {}
        }
    }
    deepest
}

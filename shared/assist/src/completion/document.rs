//! A closer look at what may be written, made when somebody looks.

use crate::hover;
use finwright_checks::{rule, Analysis};
use finwright_grammar::vocabulary::{self, takes};
use finwright_units::reader::with;
use serde::{Deserialize, Serialize};

/// What an offer is about.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum About {
    /// Nothing more than its label says.
    Nothing,
    /// Just these words.
    Words(String),
    /// A block of the language.
    Block(String),
    /// A field of a block.
    Field(String, String),
    /// Whatever is named so in a block of this word.
    Named(String, String),
    /// A rule.
    Rule(String),
}

/// What there is to say of it, in Markdown. Without an analysis nothing is known of a design's own names.
pub fn documentation(analysis: Option<&Analysis>, about: &About) -> Option<String> {
    match about {
        About::Nothing => None,
        About::Words(words) => Some(words.clone()).filter(|words| !words.is_empty()),
        About::Block(word) => {
            let block = vocabulary::block(word)?;
            Some(format!("{}\n\n```finwright\n{}\n```", block.doc, block.example))
        }
        About::Field(block, field) => {
            let known = vocabulary::block(block)?.field(field)?;
            let default =
                if known.default.is_empty() { String::new() } else { format!(" Left out: {}.", known.default) };
            let takes = takes(known.kind);
            let example = format!("```finwright\n{}: {}\n```", known.word, known.example);
            Some(format!("{}\n\nTakes {takes}.{default}\n\n{example}", known.doc))
        }
        About::Named(word, name) => {
            let analysis = analysis?;
            with(analysis.settings.units, || hover::of_named(analysis, word, name))
        }
        About::Rule(name) => {
            let rule = rule(name)?;
            Some(format!("{}\n\n{}", rule.summary, rule.why))
        }
    }
}

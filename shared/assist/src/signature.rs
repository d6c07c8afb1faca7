//! What a function takes, while its brackets are being filled.

use crate::cursor::{cursor, Surrounding};
use crate::tokens::{tokens, Token};
use finwright_checks::Analysis;
use finwright_model::functions::FUNCTIONS;

/// A function with the argument that is being written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Signature {
    /// `min(a, b, …)`.
    pub label: String,
    /// The arguments as they stand in the label.
    pub arguments: Vec<&'static str>,
    /// What it gives.
    pub doc: &'static str,
    /// Which argument the cursor is in.
    pub active: usize,
}

/// The function whose brackets the cursor is in.
pub fn signature(analysis: &Analysis, offset: usize) -> Option<Signature> {
    let cursor = cursor(&analysis.tree()?.text, offset)?;
    if cursor.surrounding != Surrounding::Words {
        return None;
    }
    let tokens = tokens(cursor.text.get(cursor.statement..offset)?);
    let (mut depth, mut commas) = (0, 0);
    for (at, token) in tokens.iter().enumerate().rev() {
        match token {
            Token::Mark(')') => depth += 1,
            Token::Mark('(') if depth > 0 => depth -= 1,
            Token::Mark('(') => {
                let Some(Token::Word(name)) = at.checked_sub(1).and_then(|before| tokens.get(before)) else {
                    commas = 0;
                    continue;
                };
                return about(name, commas);
            }
            Token::Mark(',') if depth == 0 => commas += 1,
            _ => {}
        }
    }
    None
}

fn about(name: &str, commas: usize) -> Option<Signature> {
    let known = FUNCTIONS.iter().find(|function| **function == name)?;
    let (arguments, doc): (&[&'static str], _) = match *known {
        "min" => (&["a", "b", "…"], "The smallest of two values or more, which must be of one kind."),
        "max" => (&["a", "b", "…"], "The largest of two values or more, which must be of one kind."),
        "sqrt" => (&["x"], "The square root of an area, which is a length, or of a plain number."),
        "sin" => (&["angle"], "The sine of an angle."),
        "cos" => (&["angle"], "The cosine of an angle."),
        "tan" => (&["angle"], "The tangent of an angle."),
        "abs" => (&["x"], "The value without its sign."),
        "round" => (&["x"], "The nearest whole number."),
        _ => (&["x"], ""),
    };
    let label = format!("{name}({})", arguments.join(", "));
    Some(Signature { label, arguments: arguments.to_vec(), doc, active: commas.min(arguments.len() - 1) })
}

/// What a function is, in Markdown.
pub(crate) fn documentation(name: &str) -> Option<String> {
    let found = about(name, 0)?;
    Some(format!("**{}**\n\n{}", found.label, found.doc))
}

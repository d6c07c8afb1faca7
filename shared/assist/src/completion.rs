//! What may be written at the cursor.

mod document;
mod names;
mod offer;
mod remark;
mod snippet;
mod statement;
mod value;

pub use document::{documentation, About};
pub use offer::{Completion, CompletionKind};

use crate::cursor::{cursor, Cursor, Surrounding};
use crate::tokens::{tokens, Token};
use finwright_checks::Analysis;
use finwright_units::reader::with;
use offer::Offer;

/// What may be written at a place.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Completions {
    /// The offers, the likeliest first.
    pub offers: Vec<Completion>,
    /// Whether the text can't go on without one of them. Where it can, a list that opens by itself is in the way: what
    /// is there may be all that somebody wants to say, and Enter means a new line.
    pub due: bool,
}

/// Gives the paths of files that end in `.` and this, as they are written from the design's folder.
pub type FilesNear<'a> = &'a dyn Fn(&str) -> Vec<String>;

/// Everything that may be written at a byte offset.
pub fn completion(analysis: &Analysis, offset: usize, files: FilesNear) -> Completions {
    with(analysis.settings.units, || at(analysis, offset, files)).unwrap_or_default()
}

fn at(analysis: &Analysis, offset: usize, files: FilesNear) -> Option<Completions> {
    let tree = analysis.tree()?;
    let cursor = cursor(&tree.text, offset)?;
    let found = match cursor.surrounding {
        Surrounding::Remark(start) => remark::offers(analysis, &cursor, start),
        Surrounding::Quoted(start) => paths(&cursor, start, files),
        Surrounding::Words => words(analysis, &cursor, files),
    };
    Some(Completions { offers: offer::fitting(&cursor, found.offers, found.from), due: found.due })
}

/// What may be written, and from where on it replaces what is there: from the word's beginning where nothing is said.
#[derive(Default)]
struct Found {
    offers: Vec<Offer>,
    due: bool,
    from: Option<usize>,
}

impl Found {
    fn due(offers: Vec<Offer>) -> Found {
        Found { offers, due: true, from: None }
    }

    fn possible(offers: Vec<Offer>) -> Found {
        Found { offers, due: false, from: None }
    }
}

fn words(analysis: &Analysis, cursor: &Cursor, files: FilesNear) -> Found {
    let typed = cursor.text.get(cursor.statement..cursor.word().range().start).unwrap_or_default();
    let tokens = tokens(typed);
    match tokens.as_slice() {
        [] => Found::possible(statement::offers(cursor)),
        [Token::Word("use")] => Found::due(quoted(files("finw"))),
        [Token::Word("finwright")] => Found::due(vec![Offer::word("1", "the language's version")]),
        [Token::Word("let"), Token::Word(_), Token::Mark('='), value @ ..] => value::of_let(analysis, cursor, value),
        [Token::Word(field), Token::Mark(':'), value @ ..] => value::of_field(analysis, cursor, field, value, files),
        [Token::Word(word), header @ ..] => statement::in_header(analysis, cursor, word, header),
        _ => Found::default(),
    }
}

/// Paths in quotes.
fn quoted(paths: Vec<String>) -> Vec<Offer> {
    paths.into_iter().map(|path| Offer::path(&path, format!("\"{path}\""))).collect()
}

/// Inside quotes: the path of a file, where one is meant.
fn paths(cursor: &Cursor, start: usize, files: FilesNear) -> Found {
    let before = tokens(cursor.text.get(cursor.statement..start - 1).unwrap_or_default());
    let ending = match before.as_slice() {
        [Token::Word("use")] => "finw",
        [.., Token::Word("file")] => "csv",
        _ => return Found::default(),
    };
    let closed = cursor.text.get(cursor.offset..).unwrap_or_default().split(['\n', '\r']).next().unwrap_or_default();
    let end = if closed.contains('"') { "" } else { "\"" };
    let offers = files(ending).into_iter().map(|path| Offer::path(&path, format!("{path}{end}"))).collect();
    Found { offers, due: true, from: Some(start) }
}

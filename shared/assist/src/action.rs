//! What may be done to a text where the cursor stands, besides mending what is found: as edits with a title.

mod allow;
mod extract;
mod guides;
mod inline;
mod material;
mod needed;
mod unit;

pub use allow::allow;

use finwright_checks::{Analysis, Edit, Fix};
use finwright_grammar::{FileId, Place, Span, Tree};
use finwright_units::reader::with;

/// Something that may be done.
#[derive(Clone, Debug, PartialEq)]
pub struct Action {
    /// Its title and edits.
    pub fix: Fix,
    /// What kind of thing it is.
    pub kind: ActionKind,
    /// Whether it's to be offered only where nothing more is found afterwards.
    pub is_tried: bool,
}

/// Kinds of things that may be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ActionKind {
    /// Something new is written.
    Insert,
    /// A value gets a name.
    Extract,
    /// A name gives way to its value.
    Inline,
    /// The same is said otherwise, or otherwise placed.
    Rewrite,
}

/// Everything that may be done at a byte offset of the analysed file.
pub fn actions(analysis: &Analysis, offset: usize) -> Vec<Action> {
    with(analysis.settings.units, || {
        let Some(tree) = analysis.tree() else { return Vec::new() };
        let of = |kind, fixes: Vec<Fix>| fixes.into_iter().map(move |fix| Action { fix, kind, is_tried: false });
        let mut found: Vec<Action> = of(ActionKind::Insert, needed::needed(tree, offset)).collect();
        found.extend(of(ActionKind::Insert, material::materials(analysis, tree, offset)));
        found.extend(of(ActionKind::Rewrite, unit::conversions(tree, offset)));
        found.extend(of(ActionKind::Extract, extract::extract(analysis, tree, offset).into_iter().collect()));
        found.extend(of(ActionKind::Inline, inline::inline(analysis, tree, offset).into_iter().collect()));
        let guides = of(ActionKind::Rewrite, guides::guides(analysis, tree, offset));
        found.extend(guides.map(|action| Action { is_tried: true, ..action }));
        found
    })
}

/// An edit of the file itself.
fn edit(span: Span, text: impl Into<String>) -> Edit {
    Edit { place: Place { file: FileId(0), span }, text: text.into() }
}

/// The white space that a place's line begins with.
fn indent(tree: &Tree, offset: usize) -> &str {
    let line = tree.text(tree.lines.span(tree.lines.line_of(offset)));
    line.get(..line.len() - line.trim_start_matches([' ', '\t']).len()).unwrap_or_default()
}

/// The line end that a text uses.
fn newline(tree: &Tree) -> &'static str {
    if tree.text.contains("\r\n") {
        "\r\n"
    } else {
        "\n"
    }
}

//! Everywhere that a name is meant, in one file at a time; and another name in all those places.

use crate::mention::{meaning, mention_at, mentions, Definition, Meant};
use finwright_checks::Analysis;
use finwright_grammar::vocabulary::OWN_NAMES;
use finwright_grammar::{FileId, Place, Span};
use finwright_model::{functions, SourceFile};
use std::path::{Path, PathBuf};

/// What a name under the cursor stands for, whichever file gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct Target {
    /// The name under the cursor.
    pub span: Span,
    /// The name.
    pub name: String,
    /// The file that gives it.
    pub path: PathBuf,
    /// Where in that file.
    pub given: Span,
    /// The word of its block, or `let`.
    pub word: String,
    /// Whether it's the user's own, by a name of its own, and so could have another.
    pub may_be_renamed: bool,
}

/// What the name at a byte offset of the analysed file stands for.
pub fn target(analysis: &Analysis, offset: usize) -> Option<Target> {
    let tree = analysis.tree()?;
    let files = &analysis.design.files;
    let (span, found) = match mention_at(tree, offset) {
        Some(mention) => (mention.span, meaning(files, FileId(0), &mention)?),
        // A part without a name goes by its word.
        None => {
            let block =
                tree.blocks_at(offset).into_iter().rfind(|block| block.word.touches(offset) && block.name.is_none())?;
            let place = Place { file: FileId(0), span: block.word };
            (block.word, Definition { place, word: tree.text(block.word).to_string(), is_named: false })
        }
    };
    let source = files.get(found.place.file.0 as usize)?;
    Some(Target {
        span,
        name: tree.text(span).to_string(),
        path: source.path.clone(),
        given: found.place.span,
        may_be_renamed: found.is_named && !crate::definition::is_built_in(found.place),
        word: found.word,
    })
}

/// A place where a name is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reference {
    /// The name.
    pub span: Span,
    /// Whether it's given here.
    pub is_given: bool,
}

/// Where the first of these files means a target; the others are those that it uses.
pub fn references(files: &[SourceFile], target: &Target) -> Vec<Reference> {
    let Some(own) = files.first() else { return Vec::new() };
    let mut found = Vec::new();
    if own.path == target.path
        && !target.may_be_renamed
        && !crate::mention::mentions(&own.tree).iter().any(|m| m.span == target.given)
    {
        found.push(Reference { span: target.given, is_given: true });
    }
    for mention in mentions(&own.tree) {
        if own.tree.text(mention.span) != target.name {
            continue;
        }
        let means = meaning(files, FileId(0), &mention).is_some_and(|meant| {
            let path = files.get(meant.place.file.0 as usize).map(|file| file.path.as_path());
            meant.place.span == target.given && path == Some(target.path.as_path())
        });
        if means {
            found.push(Reference { span: mention.span, is_given: mention.meant == Meant::Itself });
        }
    }
    found.sort_by_key(|reference| reference.span);
    found
}

/// Why something can't be called so; `None` where it can.
pub fn not_a_name(name: &str) -> Option<String> {
    let is_plain =
        name.starts_with(|c: char| c.is_alphabetic()) && name.chars().all(|c| c.is_alphanumeric() || c == '_');
    if !is_plain {
        return Some("a name begins with a letter and has letters, digits and `_` in it".to_string());
    }
    let words = ["let", "use", "finwright", "like", "file", "from", "ahead", "behind", "of", "at"];
    let is_own = OWN_NAMES.iter().any(|(own, _)| *own == name);
    let taken = is_own || words.contains(&name) || functions::FUNCTIONS.contains(&name);
    taken.then(|| format!("`{name}` is a word of the language"))
}

/// Whether a file that means the target, or gives it, already gives the new name to something that it would be taken
/// for; the place of it.
pub fn clash(files: &[SourceFile], target: &Target, new: &str) -> Option<(PathBuf, Span)> {
    let own = files.first()?;
    let all = mentions(&own.tree);
    let given = all.iter().find(|mention| mention.meant == Meant::Itself && own.tree.text(mention.span) == new)?;
    (given.span != target.given).then(|| (own.path.clone(), given.span))
}

/// How a path to `moved` that is written in the file at `from` reads once it's at `to`.
pub fn moved_path(from: &Path, to: &Path) -> Option<String> {
    let folder = from.parent()?;
    for (up, base) in folder.ancestors().enumerate() {
        if let Ok(rest) = to.strip_prefix(base) {
            let names: Option<Vec<&str>> = rest.iter().map(|name| name.to_str()).collect();
            return Some("../".repeat(up) + &names?.join("/"));
        }
    }
    None
}

//! A block's fields against the vocabulary: each field's value in the form that its word calls for.

use crate::design::{Amount, Choice, Curve, Named, Opening};
use crate::evaluate::{Evaluator, LONGEST_LIKENESS};
use crate::meant::{self, misnamed};
use crate::problem::{Problem, REPEATED_FIELD, UNKNOWN_NAME};
use crate::sought::Sought;
use crate::typed::Placed;
use crate::typed::{typed, Typed};
use finwright_grammar::vocabulary::slips::is_name;
use finwright_grammar::vocabulary::{nearest, BlockWord, FieldWord};
use finwright_grammar::{Block, FileId, Place, Span};

/// A block's fields, typed.
#[derive(Default)]
pub(crate) struct Fields {
    values: Vec<(&'static str, Typed)>,
    /// Needed fields that the block doesn't say.
    pub missing: Vec<&'static str>,
    /// Fields that it has and that can't be understood, but for those that hardly matter.
    pub broken: Vec<&'static str>,
}

impl Fields {
    pub fn amount(&mut self, word: &str) -> Option<Amount> {
        self.take(word, |t| if let Typed::Amount(a) = t { Ok(a) } else { Err(t) })
    }
    pub fn choice(&mut self, word: &str) -> Option<Choice> {
        self.take(word, |t| if let Typed::Choice(c) = t { Ok(c) } else { Err(t) })
    }
    pub fn text(&mut self, word: &str) -> Option<Named<String>> {
        self.take(word, |t| if let Typed::Text(n) = t { Ok(n) } else { Err(t) })
    }
    pub fn name(&mut self, word: &str) -> Option<Named<String>> {
        self.names(word).and_then(|names| names.into_iter().next())
    }
    pub fn names(&mut self, word: &str) -> Option<Vec<Named<String>>> {
        self.take(word, |t| if let Typed::Names(n) = t { Ok(n) } else { Err(t) })
    }
    pub fn curve(&mut self, word: &str) -> Option<Curve> {
        self.take(word, |t| if let Typed::Curve(c) = t { Ok(c) } else { Err(t) })
    }
    pub fn at_height(&mut self, word: &str) -> (Option<Amount>, Option<Amount>) {
        let pick = |t| if let Typed::AtHeight(amount, height) = t { Ok((amount, height)) } else { Err(t) };
        self.take(word, pick).map_or((None, None), |(amount, height)| (Some(amount), height))
    }
    pub fn opening(&mut self, word: &str) -> Option<Opening> {
        self.take(word, |t| if let Typed::Opening(o) = t { Ok(o) } else { Err(t) })
    }
    pub fn placed(&mut self, word: &str) -> Option<Placed> {
        self.places(word).into_iter().next()
    }
    pub fn places(&mut self, word: &str) -> Vec<Placed> {
        self.take(word, |t| if let Typed::Placed(places) = t { Ok(places) } else { Err(t) }).unwrap_or_default()
    }

    /// Forget every value, so that nothing is computed from them.
    pub fn forget(&mut self) {
        self.values.clear();
    }

    fn keep(&mut self, known: &'static FieldWord, typed: Option<Typed>) {
        match typed {
            Some(typed) => self.values.push((known.word, typed)),
            None if known.hardly_matters => {}
            None => self.broken.push(known.word),
        }
    }

    fn take<T>(&mut self, word: &str, pick: impl FnOnce(Typed) -> Result<T, Typed>) -> Option<T> {
        let at = self.values.iter().position(|(w, _)| *w == word)?;
        let (name, typed) = self.values.swap_remove(at);
        match pick(typed) {
            Ok(value) => Some(value),
            Err(other) => {
                self.values.push((name, other));
                None
            }
        }
    }
}

/// Read all fields of a block whose word is known.
pub(crate) fn fields<'f>(ev: &mut Evaluator<'f>, file: FileId, block: &'f Block, word: &'static BlockWord) -> Fields {
    let most = block.items.len();
    let mut read = Fields { values: Vec::with_capacity(most), ..Fields::default() };
    let mut seen: Vec<(&'static str, Span)> = Vec::with_capacity(most);
    for field in block.fields() {
        let name = ev.text(file, field.name);
        let place = Place { file, span: field.name };
        let Some(known) = word.field(name) else {
            let (problem, meant) = meant::unknown_field(ev, file, block, word, field);
            // A name with a sign that no name has was told where it was read.
            if is_name(name) {
                ev.report(problem);
            }
            // No default may stand in for what is said in other words.
            let hardly_matters = |meant: &&str| word.field(meant).is_some_and(|field| field.hardly_matters);
            read.broken.extend(meant.filter(|meant| !hardly_matters(meant)));
            seen.extend(meant.map(|meant| (meant, field.name)));
            continue;
        };
        if let Some((_, first)) = seen.iter().find(|(w, _)| *w == known.word) {
            ev.report(
                Problem::new(
                    REPEATED_FIELD,
                    place,
                    format!("`{name}` is said twice in this {}", word.word),
                    "keep one of them; the first one counts",
                )
                .label(Place { file, span: *first }, "the first one"),
            );
            continue;
        }
        seen.push((known.word, field.name));
        read.keep(known, typed(ev, file, (block, word), known, field));
    }
    inherit(ev, (file, block), word, &mut read, &mut seen);
    if misnamed(ev, file, block, word) {
        read.broken.push(word.word);
    }
    let said = |word: &str| read.values.iter().any(|(w, _)| *w == word) || read.broken.contains(&word);
    read.missing = word.fields.iter().filter(|f| f.needed && !said(f.word)).map(|f| f.word).collect();
    read
}

/// Fields once each, in the vocabulary's order; what isn't one of the block's fields comes last.
pub(crate) fn in_order(word: &BlockWord, mut fields: Vec<&'static str>) -> Vec<&'static str> {
    let order = |field: &&str| word.fields.iter().position(|f| f.word == *field).unwrap_or(usize::MAX);
    fields.sort_by_key(order);
    fields.dedup();
    fields
}

/// Take the fields that a part doesn't say itself from the part that it is like.
fn inherit<'f>(
    ev: &mut Evaluator<'f>,
    (mut file, mut block): (FileId, &'f Block),
    word: &'static BlockWord,
    read: &mut Fields,
    seen: &mut Vec<(&'static str, Span)>,
) {
    for _ in 0..LONGEST_LIKENESS {
        let Some(like) = block.like else { return };
        let name = ev.text(file, like);
        let place = Place { file, span: like };
        let found = ev.block_or_other(file, name, Sought::Word(word.word));
        let Some((base_file, base)) = found.filter(|(_, base)| !std::ptr::eq(*base, block)) else {
            let near = nearest(name, ev.block_names());
            ev.report(
                Problem::new(
                    UNKNOWN_NAME,
                    place,
                    format!("no part is named `{name}`"),
                    "name the part that this one is like",
                )
                .did_you_mean(near),
            );
            read.broken.push("like");
            return;
        };
        let base_word = ev.text(base_file, base.word);
        if base_word != word.word {
            ev.report(Problem::new(
                UNKNOWN_NAME,
                place,
                format!("`{name}` is a {base_word}, and this is a {}", word.word),
                format!("a {} can be like another {}", word.word, word.word),
            ));
            read.broken.push("like");
            return;
        }
        for field in base.fields() {
            let Some(known) = word.field(ev.text(base_file, field.name)) else { continue };
            if seen.iter().any(|(w, _)| *w == known.word) {
                continue;
            }
            seen.push((known.word, field.name));
            read.keep(known, typed(ev, base_file, (base, word), known, field));
        }
        (file, block) = (base_file, base);
    }
}

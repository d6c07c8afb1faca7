//! What already has a finding of its own explains what is unknown at the same place.

use crate::rule::Context;
use finwright_grammar::Place;

/// The place of a problem of words in the block whose header is at `header`, in none of the blocks inside it.
pub(crate) fn explained(cx: &Context, header: Place) -> Option<Place> {
    let file = cx.design.files.get(header.file.0 as usize)?;
    let block = file.tree.blocks_at(header.span.start as usize).last()?.span;
    let innermost =
        |at: usize| block.touches(at) && file.tree.blocks_at(at).last().is_none_or(|inner| inner.span == block);
    let of_words = cx.design.problems.iter().chain(&cx.design.problems_elsewhere).map(|problem| problem.place);
    let of_words = of_words.filter(|place| place.file == header.file);
    let of_syntax = file.tree.problems.iter().map(|problem| Place { file: header.file, span: problem.span });
    of_words.chain(of_syntax).find(|place| innermost(place.span.start as usize))
}

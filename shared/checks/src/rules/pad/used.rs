//! The pads that flights use.

use crate::rule::Context;
use finwright_model::Pad;

/// The pads that flights use, each once.
pub(crate) fn used<'a>(cx: &Context<'a>) -> impl Iterator<Item = &'a Pad> {
    let mut numbers: Vec<usize> = cx.design.flights.iter().filter_map(|f| Some(f.pad.as_ref()?.value)).collect();
    numbers.sort_unstable();
    numbers.dedup();
    let design = cx.design;
    numbers.into_iter().filter_map(move |number| design.pads.get(number))
}

//! Stations as values: `main.begins`, `body.ends`, `pair.middle`, `tail`, `balance` in expressions.
//!
//! They are worked out from the text while expressions are evaluated, before there are any parts, so that a length may
//! hang on a station and a station on a length; what needs itself is told with the chain that closes. Where a part sits
//! is decided in [`crate::station`], as for the parts themselves.

use super::Evaluator;
use crate::curve;
use crate::design::Anchor;
use crate::part_word::is_body;
use crate::sought::Sought;
use crate::station::{seat, tail as tail_of, Along, Layout, Said, Seat};
use finwright_grammar::{Block, FileId, Measure, Place, ValueKind};
use finwright_units::{Dimension, Quantity};

/// A part's point as a station from the tip; of a part at several places the first one's.
pub(crate) fn station<'f>(ev: &mut Evaluator<'f>, file: FileId, block: &'f Block, point: f64) -> Option<Quantity> {
    ev.seat(OnPage { file, block })?.point(point)
}

/// The aft end of a file's airframe.
pub(crate) fn tail(ev: &mut Evaluator, file: FileId) -> Option<Quantity> {
    let (file, block) = ev.block(file, "airframe", Sought::Word("airframe"))?;
    tail_of(ev, OnPage { file, block })
}

/// A part that is still a block of a file.
#[derive(Clone, Copy)]
pub(crate) struct OnPage<'f> {
    file: FileId,
    block: &'f Block,
}

impl PartialEq for OnPage<'_> {
    fn eq(&self, other: &Self) -> bool {
        std::ptr::eq(self.block, other.block)
    }
}

impl Along for Quantity {
    fn zero() -> Quantity {
        Quantity::new(0.0, Dimension::LENGTH)
    }
    fn plus(&self, times: f64, other: &Quantity) -> Option<Quantity> {
        Quantity::plus(self, times, other).ok()
    }
}

impl<'f> Layout for Evaluator<'f> {
    type Part = OnPage<'f>;
    type Length = Quantity;

    fn word(&self, part: OnPage<'f>) -> &str {
        self.text(part.file, part.block.word)
    }

    fn parent(&self, part: OnPage<'f>) -> Option<OnPage<'f>> {
        Some(OnPage { file: part.file, block: Evaluator::parent(self, part.block)? })
    }

    fn bodies(&self, part: OnPage<'f>) -> Vec<OnPage<'f>> {
        // The booster stands behind the airframe.
        let of = |stage| self.block(part.file, stage, Sought::Word(stage));
        let stages = ["airframe", "booster"].into_iter().filter_map(of);
        let blocks = stages.flat_map(|(file, stage)| stage.blocks().map(move |block| OnPage { file, block }));
        blocks.filter(|part| is_body(self.text(part.file, part.block.word))).collect()
    }

    fn said_length(&mut self, part: OnPage<'f>) -> Said<Quantity> {
        let word = match self.text(part.file, part.block.word) {
            "fins" => "root",
            "bulkhead" => "thickness",
            _ => "length",
        };
        match self.field(part.file, part.block, word).map(|(file, field)| (file, field.value.as_ref())) {
            Some((file, Some(value))) => match &value.kind {
                ValueKind::Measure(measure) => length_of(self.value(file, &measure.amount)),
                _ => Said::Unclear,
            },
            Some(_) => Said::Unclear,
            None if word == "root" => outlined(self, part),
            None => Said::Nothing,
        }
    }

    fn said_place(&mut self, part: OnPage<'f>) -> Said<(Anchor<OnPage<'f>>, Quantity)> {
        let Some((file, field)) = self.field(part.file, part.block, "at") else { return Said::Nothing };
        let measure = match field.value.as_ref().map(|value| &value.kind) {
            Some(ValueKind::Measure(measure)) => Some(measure),
            Some(ValueKind::List(elements)) => elements.first().and_then(|first| first.place.as_deref()),
            _ => None,
        };
        match measure.and_then(|measure| placed(self, file, measure)) {
            Some(place) => Said::This(place),
            None => Said::Unclear,
        }
    }

    fn balance(&mut self, _: OnPage<'f>) -> Option<Quantity> {
        Evaluator::balance(self)
    }

    fn seat(&mut self, part: OnPage<'f>) -> Option<Seat<Quantity>> {
        let name = part.block.name.unwrap_or(part.block.word);
        self.seat_once(part.file, name, |ev| seat(ev, part))
    }
}

/// The root of fins that say an outline: how far back its last corner lies from its first.
fn outlined<'f>(ev: &mut Evaluator<'f>, part: OnPage<'f>) -> Said<Quantity> {
    let Some((file, field)) = ev.field(part.file, part.block, "outline") else { return Said::Nothing };
    let Some(value) = &field.value else { return Said::Unclear };
    let place = Place { file, span: value.span };
    let outline = match &value.kind {
        ValueKind::List(corners) => curve::from_list(ev, file, corners, Dimension::LENGTH, Dimension::LENGTH, place),
        ValueKind::File(path) => curve::from_file(ev, file, *path, Dimension::LENGTH, place),
        _ => None,
    };
    length_of(outline.as_ref().and_then(curve::root_of).map(|root| Quantity::new(root, Dimension::LENGTH)))
}

fn length_of(value: Option<Quantity>) -> Said<Quantity> {
    value.filter(|value| value.dimension == Dimension::LENGTH).map_or(Said::Unclear, Said::This)
}

/// A placement's anchor and distance.
fn placed<'f>(ev: &mut Evaluator<'f>, file: FileId, measure: &'f Measure) -> Option<(Anchor<OnPage<'f>>, Quantity)> {
    let Some(relation) = &measure.relation else {
        // `at: balance` alone is zero from the balance point.
        let name = ev.text(file, measure.amount.as_name()?);
        return (name == "balance").then(|| (Anchor::AheadOfBalance, Quantity::zero()));
    };
    let distance = ev.value(file, &measure.amount)?;
    let edge = relation.edge.map(|edge| ev.text(file, edge));
    let said = Anchor::of_words(relation.toward, ev.text(file, relation.anchor), edge)?;
    let anchor = said.found(|name| ev.block(file, name, Sought::Part).map(|(file, block)| OnPage { file, block }))?;
    Some((anchor, distance))
}

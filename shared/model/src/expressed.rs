//! Stations as values: `main.begins`, `body.ends`, `pair.middle`, `tail`, `balance` in expressions.
//!
//! They are worked out from the text while expressions are evaluated, before there are any parts, so that a length may
//! hang on a station and a station on a length; what needs itself is told with the chain that closes.

use crate::evaluate::Evaluator;
use finwright_grammar::{Block, FileId, Measure, Toward, ValueKind};
use finwright_units::{Dimension, Quantity};

/// Which point of a part.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Point {
    Begins,
    Ends,
    Middle,
}

/// The point that a word behind a part's name asks for.
pub(crate) fn point(word: &str) -> Option<Point> {
    match word {
        "begins" => Some(Point::Begins),
        "ends" => Some(Point::Ends),
        "middle" => Some(Point::Middle),
        _ => None,
    }
}

/// A part's point as a station from the tip.
pub(crate) fn station<'f>(ev: &mut Evaluator<'f>, file: FileId, block: &'f Block, point: Point) -> Option<Quantity> {
    let front = ev.once(file, block.name.unwrap_or(block.word), |ev| front(ev, file, block))?;
    let length = own_length(ev, file, block)?;
    let share = match point {
        Point::Begins => 0.0,
        Point::Middle => 0.5,
        Point::Ends => 1.0,
    };
    front.plus(share, &length).ok()
}

/// The airframe's aft end.
pub(crate) fn tail<'f>(ev: &mut Evaluator<'f>, file: FileId) -> Option<Quantity> {
    let mut sum = Quantity::new(0.0, Dimension::LENGTH);
    for stage in ["airframe", "booster"] {
        let Some((at, stage)) = ev.block(file, stage) else { continue };
        for block in stage.blocks() {
            if is_body(ev.text(at, block.word)) {
                sum = sum.plus(1.0, &own_length(ev, at, block)?).ok()?;
            }
        }
    }
    Some(sum)
}

fn front<'f>(ev: &mut Evaluator<'f>, file: FileId, block: &'f Block) -> Option<Quantity> {
    let word = ev.text(file, block.word);
    let parent = ev.parent(block);
    if is_body(word) {
        let mut sum = Quantity::new(0.0, Dimension::LENGTH);
        if ev.text(file, parent?.word) == "booster" {
            // The booster stands behind the airframe.
            let (at, airframe) = ev.block(file, "airframe")?;
            for block in airframe.blocks() {
                if is_body(ev.text(at, block.word)) {
                    sum = sum.plus(1.0, &own_length(ev, at, block)?).ok()?;
                }
            }
        }
        for earlier in parent?.blocks().take_while(|b| !std::ptr::eq(*b, block)) {
            if is_body(ev.text(file, earlier.word)) {
                sum = sum.plus(1.0, &own_length(ev, file, earlier)?).ok()?;
            }
        }
        return Some(sum);
    }
    let length = own_length(ev, file, block)?;
    let Some(at) = measure(ev, file, block, "at") else {
        return match word {
            "shoulder" => station(ev, file, parent?, Point::Ends),
            "mount" | "hook" => station(ev, file, parent?, Point::Ends)?.plus(-1.0, &length).ok(),
            "rings" | "thrust_ring" => station(ev, file, parent?, Point::Begins),
            _ => None,
        };
    };
    let distance = ev.value(file, &at.amount)?;
    let relation = at.relation.as_ref()?;
    let anchor = ev.text(file, relation.anchor);
    let edge = relation.edge.map(|edge| ev.text(file, edge));
    let (from, sign) = match (relation.toward, anchor, edge) {
        (Toward::From, "front", None) => (station(ev, file, parent?, Point::Begins)?, 1.0),
        (Toward::From, "back", None) => (station(ev, file, parent?, Point::Ends)?, -1.0),
        (Toward::From, "tip", None) => (Quantity::new(0.0, Dimension::LENGTH), 1.0),
        (Toward::From, "tail", None) => (tail(ev, file)?, -1.0),
        (Toward::From, name, Some(edge)) => {
            let (at, other) = ev.block(file, name)?;
            let (point, sign) = if edge == "front" { (Point::Begins, 1.0) } else { (Point::Ends, -1.0) };
            (station(ev, at, other, point)?, sign)
        }
        (Toward::Ahead, "balance", None) => (ev.balance(), -1.0),
        (Toward::Behind, "balance", None) => (ev.balance(), 1.0),
        _ => return None,
    };
    let placed = from.plus(sign, &distance).ok()?;
    let by_middle =
        matches!(word, "lug" | "button" | "rail_guide" | "ballast" | "load" | "parachute" | "streamer" | "cord");
    let share = if by_middle {
        -0.5
    } else if sign < 0.0 {
        -1.0
    } else {
        0.0
    };
    placed.plus(share, &length).ok()
}

fn own_length<'f>(ev: &mut Evaluator<'f>, file: FileId, block: &'f Block) -> Option<Quantity> {
    let field = match ev.text(file, block.word) {
        "fins" => "root",
        "bulkhead" => "thickness",
        "ballast" | "parachute" | "streamer" | "cord" | "button" | "rings" => {
            return Some(Quantity::new(0.0, Dimension::LENGTH))
        }
        _ => "length",
    };
    let Some(measure) = measure(ev, file, block, field) else {
        return (field == "length")
            .then(|| Quantity::new(0.0, Dimension::LENGTH))
            .filter(|_| ev.text(file, block.word) == "load");
    };
    ev.value(file, &measure.amount).filter(|q| q.dimension == Dimension::LENGTH)
}

fn measure<'f>(ev: &Evaluator<'f>, file: FileId, block: &'f Block, word: &str) -> Option<&'f Measure> {
    let field = block.fields().find(|f| ev.text(file, f.name) == word)?;
    match field.value.as_ref().map(|v| &v.kind) {
        Some(ValueKind::Measure(measure)) => Some(measure),
        _ => None,
    }
}

fn is_body(word: &str) -> bool {
    matches!(word, "nose" | "tube" | "taper")
}

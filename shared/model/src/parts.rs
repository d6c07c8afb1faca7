//! Blocks of the airframe to parts.

use crate::curve;
use crate::design::{Amount, Anchor, Curve, Fins, Named, Part, PartId, PartKind, Placement, Stage, Surface};
use crate::evaluate::Evaluator;
use crate::meant::{self, known_block};
use crate::problem::{Problem, UNKNOWN_NAME, WRONG_FORM};
use crate::read::{fields, in_order, Fields};
use crate::typed::Placed;
use finwright_grammar::vocabulary::slips::is_name;
use finwright_grammar::vocabulary::{self, nearest, BlockWord};
use finwright_grammar::{Block, FileId, Place, Toward};

/// A part as read, whose references to other parts and materials still are names.
#[derive(Clone)]
pub(crate) struct RawPart {
    pub part: Part,
    pub material: Option<Named<String>>,
    pub at: Option<Placed>,
    pub balance: Option<Placed>,
    /// The body parts that it carries by themselves.
    pub carries: Vec<Named<String>>,
    /// Which copy it is of a part that stands at several places.
    pub copy: usize,
}

/// Read the blocks of an airframe, and those inside them, in the order of the page.
pub(crate) fn read_parts<'f>(
    ev: &mut Evaluator<'f>,
    file: FileId,
    block: &'f Block,
    within: (&'static str, Option<PartId>),
    parts: &mut Vec<RawPart>,
    lost: &mut Vec<Place>,
) {
    let stage = match within {
        (_, Some(parent)) => parts.get(parent).map_or(Stage::Upper, |p| p.part.stage),
        ("booster", None) => Stage::Booster,
        _ => Stage::Upper,
    };
    for inner in block.blocks() {
        let Some(word) = known_block(ev, file, inner, within.0) else {
            lost.push(Place { file, span: inner.header });
            continue;
        };
        let mut read = fields(ev, file, inner, word);
        let places = read.places("at");
        let Some(part) = raw_part(ev, file, inner, word, within.1, &mut read) else {
            lost.push(Place { file, span: inner.header });
            continue;
        };
        // A part at several places is as many parts of one name, each with what is in it.
        for copy in 0..places.len().max(1) {
            let id = parts.len();
            let mut one = RawPart { at: places.get(copy).cloned(), copy, ..part.clone() };
            one.part.stage = stage;
            one.part.copy = (places.len() > 1).then_some((copy + 1, places.len()));
            parts.push(one);
            read_parts(ev, file, inner, (word.word, Some(id)), parts, lost);
        }
    }
}

fn raw_part(
    ev: &Evaluator,
    file: FileId,
    block: &Block,
    word: &'static BlockWord,
    parent: Option<PartId>,
    f: &mut Fields,
) -> Option<RawPart> {
    let name = meant::own_name(ev, file, block, word)
        .map(|span| Named { value: ev.text(file, span).to_string(), place: Place { file, span } });
    let kind = kind(word.word, f)?;
    if let PartKind::Fins(fins) = &kind {
        missing_of_fins(fins, &mut f.missing, &f.broken);
        f.missing = in_order(word, std::mem::take(&mut f.missing));
    }
    let surface = match f.choice("surface") {
        Some(choice) => Some(Surface::Finish(choice)),
        None => f.amount("surface").map(Surface::Roughness),
    };
    let mut part = Part::new(word.word, kind, Place { file, span: block.header });
    part.name = name;
    part.block = Place { file, span: block.span };
    part.parent = parent;
    part.clock = f.amount("clock");
    part.surface = surface;
    part.density = f.amount("material");
    part.mass = f.amount("mass");
    part.off_axis = f.amount("off_axis");
    part.bears = f.amount("bears");
    part.after_release = f.choice("after_release");
    part.missing = f.missing.clone();
    part.broken = f.broken.clone();
    let (material, balance) = (f.name("material"), f.placed("balance"));
    let carries = f.names("carries").unwrap_or_default();
    Some(RawPart { material, at: None, balance, carries, copy: 0, part })
}

/// What a part is by its word; `None` for a word that is no part's.
fn kind(word: &str, f: &mut Fields) -> Option<PartKind> {
    let mut a = |word: &str| f.amount(word);
    Some(match word {
        "nose" => {
            let (length, base, wall) = (a("length"), a("base"), a("wall"));
            PartKind::Nose { shape: f.choice("shape"), length, base, wall }
        }
        "shoulder" => PartKind::Shoulder { length: a("length"), outer: a("outer"), wall: a("wall") },
        "tube" => PartKind::Tube { length: a("length"), outer: a("outer"), inner: a("inner") },
        "taper" => {
            let (length, front, back, wall) = (a("length"), a("front"), a("back"), a("wall"));
            PartKind::Taper { shape: f.choice("shape"), length, front, back, wall }
        }
        "fins" => {
            let (count, root, tip, span) = (a("count"), a("root"), a("tip"), a("span"));
            let (sweep, thickness, fillet) = (a("sweep"), a("thickness"), a("fillet"));
            let (tab_length, tab_depth) = (a("tab_length"), a("tab_depth"));
            let (plan, outline) = (f.choice("plan"), f.curve("outline"));
            let (leading, trailing) = (f.choice("leading"), f.choice("trailing"));
            // An outline's root runs from its first corner to its last.
            let root = root.or_else(|| outline.as_ref().and_then(root_of));
            PartKind::Fins(Box::new(Fins {
                count,
                plan,
                outline,
                fillet,
                tab_length,
                tab_depth,
                root,
                tip,
                span,
                sweep,
                thickness,
                leading,
                trailing,
            }))
        }
        "mount" => PartKind::Mount {
            length: a("length"),
            bore: a("bore"),
            outer: a("outer"),
            sticks_out: a("sticks_out"),
            motors: a("motors"),
            circle: a("circle"),
        },
        "tube_fins" => {
            PartKind::TubeFins { count: a("count"), length: a("length"), outer: a("outer"), inner: a("inner") }
        }
        "ring_fin" => PartKind::RingFin { length: a("length"), outer: a("outer"), inner: a("inner") },
        "thrust_ring" => PartKind::ThrustRing { length: a("length"), inner: a("inner") },
        "hook" => PartKind::Hook { length: a("length") },
        "rings" => PartKind::Rings { count: a("count"), thickness: a("thickness") },
        "coupler" => PartKind::Coupler { length: a("length"), outer: a("outer"), inner: a("inner") },
        "bulkhead" => PartKind::Bulkhead { outer: a("outer"), thickness: a("thickness") },
        "load" => PartKind::Load { length: a("length") },
        "parachute" => {
            let (diameter, drag) = (a("diameter"), a("drag"));
            PartKind::Parachute { diameter, drag, opens: f.opening("opens"), carries: Vec::new() }
        }
        "streamer" => {
            let (length, width, drag) = (a("length"), a("width"), a("drag"));
            PartKind::Streamer { length, width, drag, opens: f.opening("opens"), carries: Vec::new() }
        }
        "cord" => PartKind::Cord { length: a("length") },
        "lug" => PartKind::Lug { bore: a("bore"), length: a("length"), wall: a("wall"), standoff: a("standoff") },
        "button" => PartKind::Button { profile: a("profile"), standoff: a("standoff"), screw: a("screw") },
        "rail_guide" => PartKind::RailGuide { profile: a("profile"), length: a("length"), standoff: a("standoff") },
        "ballast" => PartKind::Ballast,
        _ => return None,
    })
}

/// What a set of fins needs hangs on its plan.
fn missing_of_fins(fins: &Fins, missing: &mut Vec<&'static str>, broken: &[&'static str]) {
    if fins.outline.is_some() || broken.contains(&"outline") {
        return;
    }
    let mut needed = vec![("root", fins.root.is_none()), ("span", fins.span.is_none())];
    if fins.plan.as_ref().is_none_or(|p| p.word == "trapezoid") {
        needed.extend([("tip", fins.tip.is_none()), ("sweep", fins.sweep.is_none())]);
    }
    let unsaid = |(word, is_missing): &(&'static str, bool)| *is_missing && !broken.contains(word);
    missing.extend(needed.into_iter().filter(unsaid).map(|(word, _)| word));
}

/// The root of an outline: how far back its last corner lies from its first.
fn root_of(outline: &Curve) -> Option<Amount> {
    Some(Amount { si: curve::root_of(outline)?, spread: Default::default(), place: outline.place })
}

/// What a placement refers to, now that all parts are known.
pub(crate) fn placement(ev: &mut Evaluator, raw: Placed, parts: &[(String, PartId)]) -> Option<Placement> {
    let (distance, relation, place) = raw;
    // What a part takes over from one that it's like may stand in another file.
    let file = place.file;
    let Some(relation) = relation else {
        let shown = ev.text(file, place.span).trim().to_string();
        ev.report(Problem::new(
            WRONG_FORM,
            place,
            format!("`{shown}` doesn't say from where"),
            format!(
                "for example `{shown} from front`, `{shown} from back`, `{shown} from tip`, or `{shown} ahead of \
                balance`"
            ),
        ));
        return None;
    };
    let word = ev.text(file, relation.anchor);
    let edge = relation.edge.map(|edge| ev.text(file, edge));
    let id_of = |name: &str| parts.iter().find(|(known, _)| known == name).map(|(_, id)| *id);
    let said = Anchor::of_words(relation.toward, word, edge);
    if let Some(anchor) = said.and_then(|anchor| anchor.found(id_of)) {
        return Some(Placement { distance, anchor, place });
    }
    let at = Place { file, span: relation.anchor };
    let is_part = id_of(word).is_some();
    match (relation.toward, relation.edge.zip(edge)) {
        (Toward::From, Some((span, edge))) if is_part => {
            let message = format!("a part has a front and a back, no `{edge}`");
            let help = format!("write `{word}.front` or `{word}.back`");
            ev.report(Problem::new(UNKNOWN_NAME, Place { file, span }, message, help));
        }
        (Toward::From, Some(_)) if ev.unread.contains(word) => {}
        (Toward::From, Some(_)) => {
            let names = parts.iter().map(|(n, _)| n.as_str()).filter(|name| is_name(name));
            let (message, help) = (format!("no part is named `{word}`"), "name the part in its header: `tube body {`");
            ev.report(Problem::new(UNKNOWN_NAME, at, message, help).did_you_mean(nearest(word, names)));
        }
        (Toward::From, None) if is_part => ev.report(meant::which_edge(at, word)),
        (Toward::From, None) => ev.report(meant::no_such_place(at, word)),
        (toward, _) => ev.report(meant::no_such_direction(at, word, toward)),
    }
    None
}

/// Names that parts can be referred to by: their own, or their word where it's the only one of its kind.
pub(crate) fn part_names(parts: &[RawPart]) -> Vec<(String, PartId)> {
    let mut names: Vec<(String, PartId)> = parts
        .iter()
        .enumerate()
        .filter_map(|(id, raw)| raw.part.name.as_ref().map(|n| (n.value.clone(), id)))
        .collect();
    for block in vocabulary::BLOCKS.iter() {
        let mut of_word =
            parts.iter().enumerate().filter(|(_, raw)| raw.part.word == block.word && raw.part.name.is_none());
        if let (Some((id, _)), None) = (of_word.next(), of_word.next()) {
            names.push((block.word.to_string(), id));
        }
    }
    names
}

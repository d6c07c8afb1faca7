//! A pad with its rod, rail or tower.

use crate::design::{Joint, Named, Pad, Rail};
use crate::evaluate::Evaluator;
use crate::meant::known_block;
use crate::problem::{Problem, OUT_OF_RANGE, REPEATED_NAME};
use crate::read::{fields, Fields};
use finwright_grammar::vocabulary::BlockWord;
use finwright_grammar::{Block, FileId, Place};

/// Reads a pad, with the material or section that its rod or rail names.
pub(super) fn pad<'f>(
    ev: &mut Evaluator<'f>,
    file: FileId,
    block: &'f Block,
    (name, header): (Named<String>, Place),
    mut f: Fields,
) -> (Pad, Option<Named<String>>) {
    let mut first = None;
    for inner in block.blocks() {
        let Some(word) = known_block(ev, file, inner, "pad") else { continue };
        let g = fields(ev, file, inner, word);
        if first.is_some() {
            ev.report(Problem::new(
                REPEATED_NAME,
                Place { file, span: inner.header },
                "a pad has one rod, rail or tower",
                "make a second pad for the other; the first one counts",
            ));
            continue;
        }
        f.broken.extend(&g.broken);
        first = Some(rail(ev, Place { file, span: inner.span }, word, g, &mut f.broken));
    }
    let (rail, refers) = first.map_or((None, None), |(rail, refers)| (Some(rail), refers));
    let pad = Pad {
        name,
        header,
        rail,
        stop: f.amount("stop"),
        tilt: f.amount("tilt"),
        leans: f.choice("leans"),
        friction: f.amount("friction"),
        foot: f.amount("foot"),
        mass: f.amount("mass"),
        stance: f.amount("stance"),
        staked: f.amount("staked"),
        yields: f.amount("yields"),
        end: f.choice("end"),
        broken: f.broken,
    };
    (pad, refers)
}

/// A rod, rail or tower, with the name of its material or section; what is wrong in it is added to `broken`.
fn rail(
    ev: &mut Evaluator,
    header: Place,
    word: &BlockWord,
    mut f: Fields,
    broken: &mut Vec<&'static str>,
) -> (Rail, Option<Named<String>>) {
    let length = f.amount("length");
    match word.word {
        "rod" => {
            let material = f.name("material");
            let (height, play, step) = (f.amount("joint"), f.amount("joint_play"), f.amount("joint_step"));
            if let Some((joint, _)) = height.as_ref().zip(length.as_ref()).filter(|(joint, rod)| joint.si >= rod.si) {
                ev.report(Problem::new(
                    OUT_OF_RANGE,
                    joint.place,
                    "the joint lies at or above the rod's end",
                    "count it from the foot: the lower piece's length",
                ));
                broken.push("joint");
            }
            let is_there = height.is_some() || play.is_some() || step.is_some();
            let joint = is_there.then_some(Joint { height, play, step });
            (Rail::Rod { diameter: f.amount("diameter"), length, material: None, joint, header }, material)
        }
        "tower" => {
            let (rails, bore, thickness) = (f.amount("rails"), f.amount("bore"), f.amount("thickness"));
            (Rail::Tower { rails, bore, thickness, length, header }, None)
        }
        _ => (Rail::Slotted { slot: None, length, header }, f.name("slot")),
    }
}

//! What the vocabulary says is taken by default is what is taken.
#![allow(clippy::unwrap_used, clippy::panic)]

use finwright_assess::flight::sinking::{CANOPY_CD, STREAMER_CD};
use finwright_grammar::vocabulary::block;
use finwright_model::{RAIL_FRICTION, ROD_FRICTION};

use crate::common;

fn said(word: &str, field: &str) -> &'static str {
    block(word).unwrap().field(field).unwrap().default
}

#[test]
fn the_vocabulary_words_the_defaults_that_are_taken() {
    let friction = format!("{ROD_FRICTION} on a rod, {RAIL_FRICTION} in a rail");
    assert!(said("pad", "friction").starts_with(&friction), "{}", said("pad", "friction"));
    assert_eq!(said("parachute", "drag"), CANOPY_CD.to_string());
    assert_eq!(said("streamer", "drag"), STREAMER_CD.to_string());
    let (design, _) = common::assessed("finwright 1\npad bare { rod { diameter: 3 mm; length: 1 m } }\n");
    let pad = &design.pads[0];
    assert!(pad.stop_or_foot().is_default && pad.tilt_or_upright().is_default && pad.friction_or_usual().is_default);
    assert_eq!((said("pad", "stop"), pad.stop_or_foot().si), ("0 mm", 0.0));
    assert_eq!((said("pad", "tilt"), pad.tilt_or_upright().si), ("0 deg", 0.0));
    assert_eq!(pad.friction_or_usual().si, ROD_FRICTION);
}

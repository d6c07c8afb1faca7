//! Words for blocks.

use super::fields::field_spelled;
use super::squeezed;
use crate::vocabulary::{block, BlockWord, BLOCKS};

/// What a block's word probably means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BlockMeant {
    /// The language's word.
    pub word: &'static str,
    /// Whether nothing else can be meant.
    pub sure: bool,
}

/// The block that a word, or a word and the name behind it, probably mean inside of a block; the empty word is the file
/// itself, and `None` asks for any place.
pub fn block_meant(written: &str, inside: Option<&str>) -> Option<BlockMeant> {
    let wanted = squeezed(written);
    let fits = |word: &str| inside.is_none_or(|parent| block(word).is_some_and(|b| b.inside.contains(&parent)));
    let own = BLOCKS.iter().filter(|b| fits(b.word) && squeezed(b.word) == wanted);
    let own = own.map(|b| BlockMeant { word: b.word, sure: true });
    let foreign = |rows: &'static [Row], sure: bool| {
        let rows = rows.iter().filter(|(word, _)| fits(word));
        rows.filter(|(_, words)| words.contains(&wanted.as_str()))
            .map(|(word, _)| *word)
            .next()
            .map(|word| BlockMeant { word, sure })
    };
    own.into_iter().next().or_else(|| foreign(SURE, true)).or_else(|| foreign(MAYBE, false))
}

/// The language's word, and the words that people use for it.
type Row = (&'static str, &'static [&'static str]);

/// Words that mean one thing where they stand.
#[rustfmt::skip] // A word a row.
static SURE: &[Row] = &[
    ("design",      &["project", "info", "about", "header", "title", "meta", "metadata"]),
    ("airframe",    &["rocket", "vehicle", "body", "fuselage", "sustainer", "upperstage", "structure"]),
    ("booster",     &["lowerstage", "firststage", "stage1", "boosterstage"]),
    ("nose",        &["nosecone", "nosepiece", "ogive"]),
    ("shoulder",    &["noseshoulder", "spigot", "tenon", "plug", "insert", "collar", "shank"]),
    ("tube",        &["body", "bodytube", "bodysection", "fuselage", "hull", "cylinder", "pipe", "mainbody", "maintube", "airframetube", "section"]),
    ("taper",       &["transition", "reducer", "adapter", "adaptor", "boattail", "tailcone", "flare", "conicalsection", "shroud"]),
    ("fins",        &["fin", "finset", "fincan", "tailfins", "tailfin", "wings", "wing", "finunit", "stabilizers", "stabilisers"]),
    ("tube_fins",   &["tubefin", "tubularfins"]),
    ("ring_fin",    &["ringtail", "ringwing", "annularfin", "ringfins"]),
    ("mount",       &["motormount", "enginemount", "motortube", "enginetube", "motorholder", "engineholder", "enginebay", "motorbay", "innertube"]),
    ("rings",       &["ring", "centeringring", "centeringrings", "centringring", "centringrings"]),
    ("thrust_ring", &["engineblock", "motorblock", "thrustblock"]),
    ("hook",        &["enginehook", "motorhook", "motorclip", "engineclip", "clip"]),
    ("coupler",     &["tubecoupler", "couplertube", "joiner", "connector", "sleeve"]),
    ("bulkhead",    &["bulkplate", "disc", "disk", "endplate"]),
    ("ballast",     &["weight", "noseweight", "trimweight", "counterweight", "clay"]),
    ("load",        &["payload", "mass", "electronics", "camera", "altimeter", "battery", "avionics", "wadding", "padding", "egg", "cargo"]),
    ("parachute",   &["chute", "parachutes", "canopy", "drogue", "mainchute", "mainparachute"]),
    ("streamer",    &["ribbon", "banner", "streamers"]),
    ("cord",        &["shockcord", "rope", "elastic", "tether", "leash", "recoverycord", "string"]),
    ("lug",         &["launchlug", "lugs", "rodlug", "launchtube"]),
    ("button",      &["railbutton", "railbuttons", "launchbutton", "buttons"]),
    ("rail_guide",  &["railshoe", "launchshoe", "slider", "shoe", "railguides"]),
    ("motor",       &["engine", "rocketmotor", "rocketengine", "thruster", "motors"]),
    ("pad",         &["launchpad", "launcher", "launchstand", "stand"]),
    ("rod",         &["launchrod", "pole", "stick", "wire"]),
    ("rail",        &["launchrail", "guiderail", "track", "rails"]),
    ("site",        &["field", "launchsite", "launchfield", "location", "weather", "conditions", "environment", "place"]),
    ("flight",      &["launch", "mission", "simulation", "fly", "flights"]),
    ("measured",    &["measurement", "measurements", "bench", "weighed", "actual"]),
    ("flown",       &["flew", "outcome", "results", "flightlog", "actualflight", "flightresult"]),
    ("tower",       &["launchtower", "guidetower"]),
    ("material",    &["substance", "stuff", "materials"]),
    ("section",     &["profile", "railprofile", "railsection", "extrusion"]),
];

/// Words that mean one thing most of the time.
static MAYBE: &[Row] = &[
    ("mount", &["motor", "engine", "retainer"]),
    ("nose", &["cone", "tip"]),
    ("airframe", &["stage", "model"]),
    ("lug", &["guide", "guides"]),
    ("cord", &["line", "strap"]),
    ("bulkhead", &["plate", "cap"]),
    ("load", &["component", "object"]),
    ("fins", &["tail"]),
    ("parachute", &["recovery"]),
];

/// The block whose word a text is with a colon behind it, where no field is called so: `tube:`.
pub fn block_with_a_colon(text: &str) -> Option<&'static BlockWord> {
    let word = text.trim_end().strip_suffix(':')?.trim_end();
    block(word).filter(|_| field_spelled(word).is_none())
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::panic)]
mod tests {
    use super::*;

    #[test]
    fn every_row_names_a_block_and_no_word_of_the_language_is_foreign_where_it_may_stand() {
        for (word, words) in SURE.iter().chain(MAYBE) {
            let own = block(word).unwrap_or_else(|| panic!("`{word}` is a block"));
            for foreign in *words {
                assert_eq!(*foreign, squeezed(foreign), "rows are squeezed");
                let homes = block(foreign).map(|b| b.inside).unwrap_or_default();
                let clash = homes.iter().find(|home| own.inside.contains(home));
                assert_eq!(clash, None, "`{foreign}` is a word of its own where `{word}` may stand");
            }
        }
    }

    #[test]
    fn a_word_means_one_thing_in_one_place() {
        for parent in BLOCKS.iter().map(|b| b.word).chain([""]) {
            let here = |word: &str| block(word).is_some_and(|b| b.inside.contains(&parent));
            let mut seen: Vec<&str> = Vec::new();
            for (_, words) in SURE.iter().filter(|(word, _)| here(word)) {
                for foreign in *words {
                    assert!(!seen.contains(foreign), "`{foreign}` is there twice inside `{parent}`");
                    seen.push(foreign);
                }
            }
        }
    }

    #[test]
    fn the_place_decides() {
        let word = |written, inside| block_meant(written, inside).map(|meant| meant.word);
        assert_eq!(word("body", Some("airframe")), Some("tube"));
        assert_eq!(word("body", Some("")), Some("airframe"));
        assert_eq!(word("engine", Some("")), Some("motor"));
        assert_eq!(word("engine", Some("tube")), Some("mount"));
        assert_eq!(word("rail button", Some("tube")), Some("button"));
        assert_eq!(word("tubeFins", Some("tube")), Some("tube_fins"));
        assert_eq!(word("launch lug", None), Some("lug"));
        assert_eq!(word("xyz", None), None);
    }
}

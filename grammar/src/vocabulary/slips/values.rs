//! Words for values: numbers, places, materials, words of a list.

use super::{is_squeezed_one, squeezed};

/// The number that a word spells, up to twelve.
pub fn number_word(word: &str) -> Option<usize> {
    const WORDS: [&str; 13] =
        ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    let word = squeezed(word);
    WORDS.iter().position(|number| *number == word)
}

/// Whether a word says that something is so or isn't.
pub fn is_yes_or_no(word: &str) -> bool {
    is_squeezed_one(word, &["yes", "no", "true", "false", "on", "off"])
}

/// Whether a value says that it isn't known yet.
pub fn says_unknown(value: &str) -> bool {
    is_squeezed_one(value, UNKNOWN)
        || !value.is_empty() && value.chars().all(|c| matches!(c, '?' | '-' | '…' | '.' | '_'))
}

const UNKNOWN: &[&str] = &["unknown", "tbd", "tba", "na", "none", "null", "nil", "todo", "later", "x", "xx"];

/// What a word for a place probably means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PlaceMeant {
    /// The enclosing part's front edge.
    Front,
    /// The enclosing part's back edge.
    Back,
    /// The rocket's tip.
    Tip,
    /// The balance point.
    Balance,
    /// The middle, which no word of the language names.
    Middle,
}

impl PlaceMeant {
    /// The language's word, where it has one.
    pub fn word(self) -> Option<&'static str> {
        match self {
            PlaceMeant::Front => Some("front"),
            PlaceMeant::Back => Some("back"),
            PlaceMeant::Tip => Some("tip"),
            PlaceMeant::Balance => Some("balance"),
            PlaceMeant::Middle => None,
        }
    }
}

/// The place that a word or a few words probably mean, articles left out.
pub fn place_meant(words: &str) -> Option<PlaceMeant> {
    let kept: Vec<&str> = words.split_whitespace().filter(|word| !matches!(*word, "the" | "its" | "very")).collect();
    let word = squeezed(&kept.concat());
    let rows: [(PlaceMeant, &[&str]); 5] = [
        (
            PlaceMeant::Front,
            &[
                "front",
                "top",
                "fore",
                "forward",
                "head",
                "start",
                "frontend",
                "frontedge",
                "topend",
                "foreend",
                "upperend",
            ],
        ),
        (
            PlaceMeant::Back,
            &[
                "back",
                "bottom",
                "aft",
                "rear",
                "end",
                "base",
                "tailend",
                "backend",
                "backedge",
                "rearend",
                "aftend",
                "bottomend",
                "lowerend",
                "rearedge",
            ],
        ),
        (PlaceMeant::Tip, &["nosetip", "tipofnose", "nosepoint", "point"]),
        (
            PlaceMeant::Balance,
            &[
                "balance",
                "cg",
                "cog",
                "com",
                "balancepoint",
                "balancingpoint",
                "centerofgravity",
                "centreofgravity",
                "centerofmass",
                "centreofmass",
                "gravitycenter",
                "gravitycentre",
                "pointofbalance",
            ],
        ),
        (PlaceMeant::Middle, &["center", "centre", "middle", "mid", "halfway", "midpoint", "centered", "centred"]),
    ];
    rows.into_iter().find(|(_, words)| words.contains(&word.as_str())).map(|(meant, _)| meant)
}

/// The catalogue's materials that a word may mean: one where it's sure.
pub fn material_meant(words: &str) -> Option<&'static [&'static str]> {
    const ROWS: &[(&[&str], &[&str])] = &[
        (
            &["plastic", "plastics", "polymer", "printed", "3dprinted", "3dprint", "resin"],
            &["polystyrene", "abs", "pla", "petg", "nylon", "polycarbonate", "acrylic"],
        ),
        (&["wood", "wooden", "timber", "lightwood"], &["balsa", "basswood", "pine", "birch", "plywood"]),
        (&["metal", "metallic"], &["aluminium", "steel", "stainless", "brass", "lead"]),
        (&["paper", "card", "cardstock", "papertube"], &["kraft_paper", "cardboard", "phenolic_paper"]),
        (&["cardboardtube", "tube", "bodytube", "tubing"], &["kraft_paper", "cardboard", "phenolic_paper"]),
        (&["composite", "fibre", "fiber"], &["glass_epoxy", "carbon_epoxy"]),
        (
            &["glass", "fiberglass", "fibreglass", "glassfibre", "glassfiber", "gfrp", "g10"],
            &["glass_epoxy", "glass_rod"],
        ),
        (&["carbon", "carbonfibre", "carbonfiber", "cfrp"], &["carbon_epoxy"]),
        (&["balsawood"], &["balsa"]),
        (&["basswoodsheet", "limewood", "linden"], &["basswood"]),
        (&["pinewood"], &["pine"]),
        (&["birchwood"], &["birch"]),
        (&["ply", "birchply", "birchplywood", "aircraftplywood", "lightply"], &["plywood"]),
        (&["kraft", "kraftboard"], &["kraft_paper"]),
        (&["alu", "aluminum", "alloy"], &["aluminium"]),
        (&["stainlesssteel", "inox"], &["stainless"]),
        (&["mildsteel", "springsteel", "pianowire", "musicwire", "iron"], &["steel"]),
        (&["modellingclay", "modelingclay"], &["clay"]),
        (&["phenolic"], &["phenolic_paper"]),
        (&["styrene"], &["polystyrene"]),
        (&["foamboard", "polyfoam"], &["foam"]),
    ];
    let word = squeezed(words);
    ROWS.iter().find(|(foreign, _)| foreign.contains(&word.as_str())).map(|(_, meant)| *meant)
}

/// The word of a field's list that another word means.
pub fn choice_meant(field: &str, words: &str) -> Option<&'static str> {
    const ROWS: &[(&str, &[&str], &str)] = &[
        ("shape", &["conical", "pointed", "straightcone"], "cone"),
        ("shape", &["tangentogive", "secantogive", "bullet", "ogival"], "ogive"),
        (
            "shape",
            &["elliptical", "ellipse", "round", "rounded", "hemisphere", "hemispherical", "sphere", "dome", "elliptic"],
            "ellipsoid",
        ),
        ("shape", &["parabolic", "paraboloid"], "parabola"),
        ("shape", &["powerseries"], "power"),
        ("shape", &["vonkarman", "karman", "ldhaack", "haackseries", "lvhaack"], "haack"),
        ("plan", &["elliptical", "elliptic", "oval", "round"], "ellipse"),
        (
            "plan",
            &[
                "trapezoidal",
                "trapezium",
                "delta",
                "clippeddelta",
                "triangle",
                "triangular",
                "rectangle",
                "rectangular",
                "square",
            ],
            "trapezoid",
        ),
        ("leading", &["round"], "rounded"),
        ("leading", &["square", "flat", "unsanded"], "blunt"),
        ("leading", &["knife", "tapered", "wedge"], "sharp"),
        ("trailing", &["round"], "rounded"),
        ("trailing", &["square", "flat", "unsanded"], "blunt"),
        ("trailing", &["knife", "tapered", "wedge"], "sharp"),
        ("surface", &["unpainted", "raw", "unfinished", "rough", "paper", "wood"], "bare"),
        ("surface", &["paint", "normal", "regular"], "painted"),
        ("surface", &["smooth", "glossy", "gloss", "shiny", "mirror"], "polished"),
        ("end", &["closed", "covered", "cap"], "capped"),
        ("end", &["bare", "uncapped", "free"], "open"),
    ];
    let word = squeezed(words);
    ROWS.iter().find(|(of, foreign, _)| *of == field && foreign.contains(&word.as_str())).map(|(_, _, meant)| *meant)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::vocabulary::{FieldKind, BLOCKS};

    #[test]
    fn places_are_told_with_and_without_their_article() {
        assert_eq!(place_meant("the back end"), Some(PlaceMeant::Back));
        assert_eq!(place_meant("center of gravity"), Some(PlaceMeant::Balance));
        assert_eq!(place_meant("Centre"), Some(PlaceMeant::Middle));
        assert_eq!(place_meant("sideways"), None);
    }

    #[test]
    fn a_choice_is_a_word_of_its_field() {
        for (field, foreign) in
            [("shape", "conical"), ("plan", "delta"), ("leading", "round"), ("surface", "raw"), ("end", "closed")]
        {
            let meant = choice_meant(field, foreign);
            let known = BLOCKS.iter().flat_map(|b| b.fields).filter(|f| f.word == field).any(|f| match f.kind {
                FieldKind::Choice(words) | FieldKind::ChoiceOr(words, _) => words.iter().any(|w| Some(w.word) == meant),
                _ => false,
            });
            assert!(known, "{field}: {foreign}");
        }
    }

    #[test]
    fn numbers_in_words() {
        assert_eq!((number_word("Three"), number_word("thirteen")), (Some(3), None));
    }
}

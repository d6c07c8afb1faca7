//! What is usual: which materials a part is mostly made of, which blocks and fields are seldom said. It decides what an
//! editor offers first and nothing else. Common practice, no source.

use super::{BlockWord, FieldWord};

/// The materials that a block's part is mostly made of, the most usual first.
pub fn usual_materials(block: &str) -> &'static [&'static str] {
    MATERIALS.iter().find(|(blocks, _)| blocks.contains(&block)).map_or(&[][..], |(_, materials)| *materials)
}

static MATERIALS: &[(&[&str], &[&str])] = &[
    (&["nose", "taper"], &["balsa", "polystyrene", "pla", "polypropylene", "basswood", "glass_epoxy", "abs", "foam"]),
    (&["tube", "coupler", "mount", "lug"], &["kraft_paper", "cardboard", "phenolic_paper", "glass_epoxy"]),
    (&["tube_fins", "ring_fin"], &["kraft_paper", "cardboard", "phenolic_paper", "glass_epoxy"]),
    (&["fins"], &["balsa", "basswood", "plywood", "polystyrene", "glass_epoxy", "carbon_epoxy", "cardboard"]),
    (&["rings", "bulkhead", "thrust_ring"], &["cardboard", "plywood", "balsa", "kraft_paper", "basswood"]),
    (&["rod"], &["steel", "stainless", "aluminium", "carbon_epoxy", "glass_rod", "brass"]),
    (&["rail", "section"], &["aluminium", "steel"]),
];

impl BlockWord {
    /// Whether a rocket has often several of it, side by side or one behind the other.
    pub fn comes_often(&self) -> bool {
        matches!(
            self.word,
            "tube" | "lug" | "button" | "rail_guide" | "motor" | "pad" | "flight" | "material" | "bulkhead"
        )
    }

    /// Whether most designs have none.
    pub fn is_rare(&self) -> bool {
        matches!(
            self.word,
            "booster"
                | "tube_fins"
                | "ring_fin"
                | "thrust_ring"
                | "hook"
                | "load"
                | "streamer"
                | "section"
                | "bulkhead"
        )
    }
}

impl FieldWord {
    /// Whether most parts say nothing of it.
    pub fn is_rare(&self) -> bool {
        matches!(
            self.word,
            "outline"
                | "tab_length"
                | "tab_depth"
                | "off_axis"
                | "circle"
                | "motors"
                | "second_moment"
                | "bears"
                | "screw"
                | "balance"
                | "plan"
                | "foot"
                | "leans"
                | "button_mass"
                | "guide_mass"
        )
    }
}

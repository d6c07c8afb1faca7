//! What a part's word says about where it goes.

/// Whether it's a stretch of the airframe itself.
pub(crate) fn is_body(word: &str) -> bool {
    matches!(word, "nose" | "tube" | "taper")
}

/// Whether its middle, not an edge, is what a placement puts in place.
pub(crate) fn is_placed_by_middle(word: &str) -> bool {
    matches!(word, "lug" | "button" | "rail_guide" | "ballast" | "load" | "parachute" | "streamer" | "cord")
}

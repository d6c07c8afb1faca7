//! The way down.

pub mod bare_piece;
pub mod carries_nothing;
pub mod descent_rate;
pub mod hard_landing;
pub mod hard_opening;
pub mod mistimed;
pub mod no_cord;
pub mod no_recovery;
pub mod short_cord;
pub mod streamer_shape;
pub mod tight_packing;
pub mod two_steps;
pub mod weak_cord;

use crate::rule::Rule;

/// Every rule of the family.
pub static RULES: &[&Rule] = &[
    &no_recovery::NONE,
    &bare_piece::BARE_PIECE,
    &carries_nothing::CARRIES_NOTHING,
    &descent_rate::FAST_DESCENT,
    &descent_rate::SLOW_DESCENT,
    &mistimed::MISTIMED,
    &hard_opening::HARD_OPENING,
    &two_steps::FAST_DROGUE,
    &two_steps::SLOW_DROGUE,
    &two_steps::LOW_MAIN,
    &weak_cord::WEAK_CORD,
    &hard_landing::HARD_LANDING,
    &no_cord::NO_CORD,
    &short_cord::SHORT_CORD,
    &streamer_shape::STREAMER_SHAPE,
    &tight_packing::TIGHT_PACKING,
];

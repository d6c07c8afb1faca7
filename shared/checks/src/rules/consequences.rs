//! What follows from what: a flight that breaks one rule breaks others for the same reason, and is told of once.

use super::{guide, motor, recovery, stability, wind};
use crate::rule::Rule;

/// Each cause with the rules whose findings about the same flight follow from it.
pub(crate) static CONSEQUENCES: &[(&Rule, &[&Rule])] = &[
    (
        &guide::slow_exit::SLOW_EXIT,
        &[
            &motor::low_push::LOW_PUSH,
            &guide::tip_off::TIP_OFF,
            &stability::low_margin_at_release::LOW_MARGIN_AT_RELEASE,
            &wind::steep_angle::STEEP_ANGLE,
            &wind::turns_far::TURNS_FAR,
            &wind::gust_turns_far::GUST_TURNS_FAR,
        ],
    ),
    (&stability::low_margin::UNSTABLE, &[&stability::methods_differ::METHODS_DIFFER]),
    (&recovery::mistimed::MISTIMED, &[&recovery::hard_opening::HARD_OPENING]),
    (&wind::steep_angle::STEEP_ANGLE, &[&stability::low_margin_at_release::LOW_MARGIN_AT_RELEASE]),
];

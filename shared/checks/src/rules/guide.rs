//! Lugs, buttons and rail guides: which, where, how they hold.

pub mod across_joint;
pub mod body_in_the_way;
pub mod close_spacing;
pub mod fin_in_the_way;
pub mod heavy_for_its_rail;
pub mod lone_guide_off_balance;
pub mod much_play;
pub mod no_backing;
pub mod not_in_line;
pub mod not_straddling;
pub mod off_rocket;
pub mod on_taper;
pub mod one_place;
pub mod overloaded;
pub mod rail_at_hand;
pub mod rear_too_far_forward;
pub mod rod_too_thin;
pub mod screw_too_long;
pub mod slow_exit;
pub mod slow_front;
pub mod starts_above;
pub mod stick_on_heavy;
pub mod tip_off;
pub mod unused_in_the_way;
pub mod wants_rail;
pub mod wrong_hardware;

use crate::rule::Rule;

/// Every rule of the family.
pub static RULES: &[&Rule] = &[
    &slow_exit::SLOW_EXIT,
    &slow_front::SLOW_FRONT,
    &starts_above::STARTS_ABOVE,
    &off_rocket::OFF_ROCKET,
    &one_place::ONE_PLACE,
    &wrong_hardware::WRONG_HARDWARE,
    &wrong_hardware::TIGHT_FIT,
    &wrong_hardware::LOOSE_FIT,
    &much_play::MUCH_PLAY,
    &close_spacing::BINDS,
    &close_spacing::CLOSE_SPACING,
    &not_in_line::NOT_IN_LINE,
    &fin_in_the_way::FIN_IN_THE_WAY,
    &body_in_the_way::BODY_IN_THE_WAY,
    &unused_in_the_way::UNUSED_IN_THE_WAY,
    &on_taper::ON_TAPER,
    &across_joint::ACROSS_JOINT,
    &no_backing::NO_BACKING,
    &screw_too_long::SCREW_TOO_LONG,
    &stick_on_heavy::STICK_ON_HEAVY,
    &overloaded::OVERLOADED,
    &heavy_for_its_rail::HEAVY_FOR_ITS_RAIL,
    &rod_too_thin::ROD_TOO_THIN,
    &wants_rail::WANTS_RAIL,
    &rail_at_hand::RAIL_AT_HAND,
    &tip_off::TIP_OFF,
    &lone_guide_off_balance::LONE_GUIDE_OFF_BALANCE,
    &not_straddling::NOT_STRADDLING,
    &rear_too_far_forward::REAR_TOO_FAR_FORWARD,
];

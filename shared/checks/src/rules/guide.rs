//! Lugs, buttons and rail guides: which, where, how they hold.

pub mod across_joint;
pub mod body_in_the_way;
pub mod close_spacing;
pub(crate) mod elsewhere;
pub mod fin_in_the_way;
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
pub(crate) mod seated;
pub mod slow_exit;
pub mod slow_front;
pub mod starts_above;
pub mod stick_on_heavy;
pub mod tip_off;
pub mod wants_rail;
pub mod wrong_hardware;

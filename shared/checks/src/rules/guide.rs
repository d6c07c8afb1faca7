//! Lugs, buttons and rail guides: which, where, how they hold.

pub mod close_spacing;
pub(crate) mod elsewhere;
pub mod in_the_way;
pub mod lone_guide_off_balance;
pub mod much_play;
pub mod not_in_line;
pub mod not_straddling;
pub mod overloaded;
pub mod rear_too_far_forward;
pub mod rod_for_body;
pub mod seat;
pub mod slow_exit;
pub mod starts_above;
pub mod tip_off;
pub mod wrong_hardware;

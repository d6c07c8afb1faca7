//! Fins.

pub mod ahead_of_balance;
pub mod crossing;
pub mod crowded;
pub mod fillet_too_large;
pub mod flutter;
pub mod flutter_not_checked;
pub mod off_body;
pub mod tab_too_large;
pub mod too_few_fins;

use crate::rule::Rule;

/// Every rule of the family.
pub static RULES: &[&Rule] = &[
    &too_few_fins::TOO_FEW,
    &crossing::CROSSING,
    &crowded::CROWDED,
    &tab_too_large::TAB_TOO_LARGE,
    &fillet_too_large::FILLET_TOO_LARGE,
    &flutter::FLUTTER,
    &flutter_not_checked::FLUTTER_NOT_CHECKED,
    &off_body::OFF_BODY,
    &ahead_of_balance::AHEAD_OF_BALANCE,
];

//! The file and what is kept beside it.

pub mod missing_field;
pub mod not_checked;
pub mod not_made;
pub mod odd_size;
pub mod settings_broken;
pub mod shadows;
pub mod unused;

use crate::rule::Rule;

/// Every rule of the family.
pub static RULES: &[&Rule] = &[
    &settings_broken::NOT_UNDERSTOOD,
    &missing_field::MISSING_FIELD,
    &not_checked::NOT_CHECKED,
    &not_made::NOT_MADE,
    &unused::UNUSED,
    &shadows::SHADOWS,
    &odd_size::ODD_SIZE,
];

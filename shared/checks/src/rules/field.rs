//! The field and its code.

pub mod drifts_out;
pub mod gust_below_wind;
pub mod limit_not_checked;
pub mod odd_pressure;
pub mod over_limit;
pub mod people_too_close;
pub mod too_small;

use crate::rule::Rule;

/// Every rule of the family.
pub static RULES: &[&Rule] = &[
    &over_limit::OVER_LIMIT,
    &odd_pressure::ODD_PRESSURE,
    &gust_below_wind::GUST_BELOW_WIND,
    &too_small::TOO_SMALL,
    &people_too_close::PEOPLE_TOO_CLOSE,
    &limit_not_checked::LIMIT_NOT_CHECKED,
    &drifts_out::DRIFTS_OUT,
];

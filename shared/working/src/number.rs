//! A number as it stands on the page: what is carried on is what is printed, so that a calculator gives the same
//! digits.

use serde::{Serialize, Serializer};
use std::fmt;

/// A rounded number with its unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Number {
    text: String,
    value: f64,
    unit: &'static str,
}

/// Digits of a result.
const DIGITS: i32 = 5;
/// Digits of a value that the file says: as many as anyone writes.
const GIVEN_DIGITS: i32 = 6;

impl Number {
    /// A result, rounded to five significant digits.
    pub fn result(value: f64, unit: &'static str) -> Number {
        Number::rounded(value, DIGITS, unit)
    }

    /// A value that is given, to six significant digits.
    pub fn given(value: f64, unit: &'static str) -> Number {
        Number::rounded(value, GIVEN_DIGITS, unit)
    }

    /// The value as printed.
    pub fn value(&self) -> f64 {
        self.value
    }

    /// The unit; empty for a plain number.
    pub fn unit(&self) -> &'static str {
        self.unit
    }

    /// The digits without the unit.
    pub fn digits(&self) -> &str {
        &self.text
    }

    /// The same digits with the point moved: 39.957 g is 0.039957 kg.
    pub fn moved(&self, places: i32, unit: &'static str) -> Number {
        // Twelve digits are more than any number here has, and drop what binary fractions add.
        Number::rounded(self.value * 10_f64.powi(places), 12, unit)
    }

    fn rounded(value: f64, digits: i32, unit: &'static str) -> Number {
        let magnitude = if value == 0.0 { 0 } else { value.abs().log10().floor() as i32 };
        let decimals = (digits - 1 - magnitude).clamp(0, 15) as usize;
        let mut text = format!("{value:.decimals$}");
        if text.contains('.') {
            text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
        }
        if text == "-0" {
            text = "0".to_string();
        }
        let value = text.parse().unwrap_or(value);
        Number { text, value, unit }
    }
}

impl fmt::Display for Number {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.unit {
            "" => write!(f, "{}", self.text),
            "°" => write!(f, "{}°", self.text),
            unit => write!(f, "{} {unit}", self.text),
        }
    }
}

impl Serialize for Number {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        #[derive(Serialize)]
        struct Parts<'a> {
            value: f64,
            unit: &'a str,
        }
        Parts { value: self.value, unit: self.unit }.serialize(serializer)
    }
}

//! A single quantity outside of a design: in settings, or on the command line.

use crate::dimension::Dimension;
use crate::unit::{find_unit, UnitError};

/// The SI value of a quantity such as `14 m/s` or `12mph`; a plain number or calibres need no unit. What is wrong with
/// it is told in a few words.
pub fn parse(text: &str, dimension: Dimension) -> Result<f64, String> {
    let text = text.trim();
    let end = text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '-' | '+'))).unwrap_or(text.len());
    let (number, spelling) = (&text[..end], text[end..].trim());
    let number: f64 = number.parse().map_err(|_| format!("`{text}` doesn't start with a number"))?;
    if spelling.is_empty() && matches!(dimension, Dimension::NUMBER | Dimension::CALIBRES) {
        return Ok(number);
    }
    if spelling.is_empty() {
        return Err(format!("`{text}` has no unit; {} fit", dimension.fitting_units()));
    }
    let unit = find_unit(spelling).map_err(|error| match error {
        UnitError::Unknown(Some(near)) => format!("there is no unit `{spelling}`; did you mean `{near}`?"),
        UnitError::Unknown(None) => format!("there is no unit `{spelling}`"),
        UnitError::Refused(reason) => reason.to_string(),
    })?;
    if unit.dimension != dimension {
        return Err(format!("`{text}` isn't {}", dimension.phrase()));
    }
    Ok(number * unit.factor + unit.offset)
}

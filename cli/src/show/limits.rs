//! A chosen code's limits, each with what a flight has against it.

use crate::table::Table;
use finwright_assess::field_rules::{self, Facts, Jurisdiction, Limited, CHECK_YOUR_CODE};
use finwright_assess::{FlightNumbers, Path as Flown};
use finwright_checks::rules::field::code::{in_words, limited_in_words, name_of, needed};
use finwright_model::Design;
use finwright_units::show as words;

/// The limits as a table of their own: their names are longer than those of the numbers.
pub fn against(design: &Design, n: &FlightNumbers, flown: Option<&Flown>, code: Jurisdiction) -> String {
    let mut table = Table::default();
    table.heading(format!("against {}: {CHECK_YOUR_CODE}", name_of(code)));
    for limit in field_rules::limits(code, &Facts::of(design, n, flown)) {
        let side = if limit.is_most { "at most" } else { "at least" };
        let asked = format!("{side} {} ({})", in_words(&limit, limit.limit), limit.source);
        let remark = match (limit.value, needed(&limit)) {
            (None, Some(field)) => format!("{asked}; it needs {field}"),
            _ if limit.is_exceeded() => format!("exceeded: {asked}"),
            _ => asked,
        };
        let value = limit.value.map_or("not known".to_string(), |value| match limit.what {
            // The limit beside it is told in the reader's units too; once is enough.
            Limited::Wind => words::speed(value),
            _ => in_words(&limit, value),
        });
        table.row(limited_in_words(limit.what), value, remark);
    }
    table.text()
}

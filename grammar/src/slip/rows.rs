//! What looks like rows of a list, where no list is open.

use super::remark::dashes;
use super::{Broken, Slip};
use crate::vocabulary::slips::{as_name, field_anywhere};

/// A field's name with a hyphen: `sticks-out: 5 mm`.
pub(super) fn hyphen_in_name(text: &str) -> Option<Slip> {
    let name = text.split(':').next().filter(|name| name.len() < text.len())?.trim_end();
    let is_plain = name.chars().all(|c| c.is_alphanumeric() || matches!(c, '-' | '_'));
    if !is_plain || !name.contains('-') || name.starts_with('-') {
        return None;
    }
    let meant = field_anywhere(name).map_or_else(|| as_name("x", name), str::to_string);
    Some(
        Slip::told(
            0..name.len(),
            format!("a name has no dash in it, and `{name}` has one"),
            format!("write `{meant}`"),
        )
        .mended_by(format!("write `{meant}`"), vec![(0..name.len(), meant)]),
    )
}

/// A dash before a field, as in a list: `- length: 12 mm`.
pub(super) fn bullet(text: &str) -> Option<Slip> {
    super::field::bullet(&Broken { text, is_field: false, opens: false, inside: true, last: true })
}

/// A remark behind two dashes.
pub(super) fn remark(text: &str) -> Option<Slip> {
    dashes(text)
}

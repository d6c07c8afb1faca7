//! The built-in materials and rail sections, written in the language itself.

/// The catalogue's text.
pub const TEXT: &str = include_str!("../catalog.finw");

/// What the catalogue is called where a path is shown.
pub const NAME: &str = "built-in catalogue";

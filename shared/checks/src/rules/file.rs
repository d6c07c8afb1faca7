//! The file and what is kept beside it.

pub(crate) mod explained;
pub mod missing_field;
pub mod not_checked;
pub mod not_made;
pub mod odd_size;
pub mod settings_broken;
pub mod shadows;
pub mod unused;

//! The file and what is kept beside it.

pub mod not_checked;
pub mod odd_size;
pub mod settings_broken;
pub mod shadows;
pub mod unused;

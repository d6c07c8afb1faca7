//! The built-in catalogue as a file that editors can open: read it, and copy from it what a design should say itself.

use crate::kept::kept;
use finwright_model::catalog::TEXT;
use lsp_types::Url;
use std::path::Path;
use std::sync::OnceLock;

const FILE_NAME: &str = "built-in catalogue.finw";

/// Its name for the editor; `None` where no file can be written.
pub fn built_in() -> Option<Url> {
    static FILE: OnceLock<Option<Url>> = OnceLock::new();
    FILE.get_or_init(|| kept(FILE_NAME, TEXT)).clone()
}

/// Whether a document is the catalogue, which is in order and needs no findings.
pub fn is_built_in(path: &Path, text: &str) -> bool {
    path.ends_with(FILE_NAME) && text == TEXT
}

//! Texts of ours as files that an editor can open and nobody can change by accident, in the user's folder for what can
//! be made anew.

use lsp_types::Url;
use std::path::PathBuf;

/// The file of this name with this text, written where it isn't there as it should be; `None` where none can be.
pub fn kept(name: &str, text: &str) -> Option<Url> {
    let path = folder().join(name);
    if !std::fs::read_to_string(&path).is_ok_and(|there| there == text) {
        write(&path, text)?;
    }
    Url::from_file_path(path).ok()
}

fn folder() -> PathBuf {
    let home = |name: &str, below: &str| std::env::var_os(name).map(|home| PathBuf::from(home).join(below));
    let cache = home("XDG_CACHE_HOME", "").or_else(|| home("LOCALAPPDATA", "")).or_else(|| home("HOME", ".cache"));
    let cache = cache.filter(|cache| cache.is_absolute()).unwrap_or_else(std::env::temp_dir);
    cache.join("finwright").join(env!("CARGO_PKG_VERSION"))
}

/// Another server may write the same file at the same time, so it's put in its place whole.
fn write(path: &PathBuf, text: &str) -> Option<()> {
    std::fs::create_dir_all(path.parent()?).ok()?;
    let fresh = path.with_extension(format!("{}.new", std::process::id()));
    std::fs::write(&fresh, text).ok()?;
    let mut rights = std::fs::metadata(&fresh).ok()?.permissions();
    rights.set_readonly(true);
    std::fs::set_permissions(&fresh, rights).ok()?;
    std::fs::rename(&fresh, path).ok()
}

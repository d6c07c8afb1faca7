//! Fonts for letters that the embedded one lacks: the system's, where it has them.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use ttf_parser::Face;

/// Where systems keep their fonts.
const FOLDERS: [&str; 6] = [
    "/usr/share/fonts",
    "/usr/local/share/fonts",
    "/System/Library/Fonts",
    "/Library/Fonts",
    "C:\\Windows\\Fonts",
    "/opt/homebrew/share/fonts",
];
/// More files than these aren't looked into, nor larger ones.
const MOST_FILES: usize = 3000;
const LARGEST: u64 = 40 << 20;

/// Fonts that between them have the letters of some texts, as far as the system has any. None is read where the
/// embedded font has them all.
pub fn fonts_for<'t>(texts: impl Iterator<Item = &'t str>) -> Vec<Arc<[u8]>> {
    let mut wanted: Vec<char> = texts.flat_map(str::chars).filter(|c| !finwright_draw::font::has(*c)).collect();
    wanted.sort_unstable();
    wanted.dedup();
    wanted.retain(|c| !c.is_control());
    let mut fonts = Vec::new();
    if wanted.is_empty() {
        return fonts;
    }
    for path in files() {
        let Some(bytes) =
            std::fs::metadata(&path).ok().filter(|m| m.len() <= LARGEST).and_then(|_| std::fs::read(&path).ok())
        else {
            continue;
        };
        let Ok(face) = Face::parse(&bytes, 0) else { continue };
        // Outlines of the other kind can't be cut to what is used.
        let drawn = |c: &char| face.tables().glyf.is_some() && face.glyph_index(*c).is_some();
        let before = wanted.len();
        wanted.retain(|c| !drawn(c));
        if wanted.len() < before {
            fonts.push(Arc::from(bytes.as_slice()));
        }
        if wanted.is_empty() {
            break;
        }
    }
    fonts
}

/// Font files, the plain upright ones first, which are the shortest names.
fn files() -> Vec<PathBuf> {
    let mut folders: Vec<PathBuf> = FOLDERS.iter().map(PathBuf::from).collect();
    folders.extend(std::env::var_os("HOME").map(|home| Path::new(&home).join(".local/share/fonts")));
    let mut found = Vec::new();
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
            let path = entry.path();
            let is_font = path.extension().is_some_and(|e| e.eq_ignore_ascii_case("ttf"));
            match entry.file_type() {
                Ok(kind) if kind.is_dir() => folders.push(path),
                Ok(_) if is_font && found.len() < MOST_FILES => found.push(path),
                _ => {}
            }
        }
    }
    found.sort_by_key(|path| (path.as_os_str().len(), path.clone()));
    found
}

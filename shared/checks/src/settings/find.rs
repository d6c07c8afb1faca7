//! The nearest `finwright.toml`.

use super::{read, Settings, Trouble};
use std::path::Path;
use std::sync::Arc;

/// The name of the file.
pub const FILE_NAME: &str = "finwright.toml";

/// The settings for a design: those of the nearest `finwright.toml` in its folder or above, else the usual ones.
///
/// `design` is the design's path from the root; `look` gives a file's text, `None` where there is no such file.
pub fn settings_for(design: &Path, look: impl Fn(&Path) -> Option<Result<Arc<str>, String>>) -> Settings {
    for (up, folder) in design.ancestors().skip(1).enumerate() {
        let shown = format!("{}{FILE_NAME}", "../".repeat(up));
        match look(&folder.join(FILE_NAME)) {
            Some(Ok(text)) => return read(&shown, &text),
            Some(Err(reason)) => {
                let message = format!("it can't be used: {reason}");
                let help = "the usual levels and thresholds are used until it can".to_string();
                let problems = vec![Trouble { file: shown, line: 1, message, help }];
                return Settings { problems, ..Settings::default() };
            }
            None => {}
        }
    }
    Settings::default()
}

//! Being told when a file changes that no editor buffer holds.

use lsp_types::notification::{DidChangeConfiguration, DidChangeWatchedFiles, Notification};
use lsp_types::*;
use std::time::Duration;
use tower_lsp::Client;

/// Ask the client to watch what designs can use. Nobody waits for its answer: a client may take its time, or never
/// give one, and then files on disk are read again at the next edit.
pub fn register(client: Client) {
    let watchers = ["**/*.finw", "**/*.csv", "**/finwright.toml"]
        .map(|pattern| FileSystemWatcher { glob_pattern: GlobPattern::String(pattern.into()), kind: None });
    let options = DidChangeWatchedFilesRegistrationOptions { watchers: watchers.into() };
    spawn(
        client,
        Registration {
            id: "files".into(),
            method: DidChangeWatchedFiles::METHOD.into(),
            register_options: serde_json::to_value(options).ok(),
        },
    );
}

/// Ask the client to tell when its user's settings change.
pub fn register_settings(client: Client) {
    spawn(
        client,
        Registration {
            id: "settings".into(),
            method: DidChangeConfiguration::METHOD.into(),
            register_options: Some(serde_json::json!({"section": "finwright"})),
        },
    );
}

fn spawn(client: Client, registration: Registration) {
    tokio::spawn(async move {
        let request = client.register_capability(vec![registration]);
        let _ = tokio::time::timeout(Duration::from_secs(10), request).await;
    });
}

//! `workspace/executeCommand`.

use crate::survey::Workspace;
use finwright_checks::settings::settings_for;
use finwright_checks::{analyze, rule, Level, Snapshot};
use lsp_types::Url;
use serde_json::{json, Value};
use std::sync::Arc;
use tower_lsp::jsonrpc::{Error, Result};

/// A rule's page.
pub fn explain(arguments: &[Value]) -> Result<Value> {
    let name = arguments.first().and_then(Value::as_str).ok_or_else(|| refused("say which rule"))?;
    let rule = rule(name).ok_or_else(|| refused(&format!("there is no rule `{name}`")))?;
    Ok(json!(crate::pages::text(rule)))
}

/// All designs, one after the other; `tell` hears how far it has come, and may end it.
pub fn check_workspace(workspace: &Workspace, tell: impl Fn(usize, usize) -> bool) -> Result<Value> {
    let paths = workspace.paths();
    let mut rows = Vec::new();
    for (number, path) in paths.iter().enumerate() {
        if !tell(number, paths.len()) {
            return Err(Error::request_cancelled());
        }
        let files = Arc::new(workspace.files(path));
        let Ok(text) = finwright_checks::Files::read(files.as_ref(), path) else { continue };
        let settings = Arc::new(settings_for(path, |path| files.settings(path)));
        let analysis = analyze(&Snapshot { path: path.clone(), text, files, settings });
        rows.push(json!({
            "uri": Url::from_file_path(path).ok(),
            "verdict": analysis.verdict.words(),
            "errors": analysis.count(Level::Error),
            "warnings": analysis.count(Level::Warning),
            "notes": analysis.count(Level::Note),
        }));
    }
    Ok(json!(rows))
}

fn refused(message: &str) -> Error {
    Error { message: message.to_string().into(), ..Error::invalid_params("") }
}

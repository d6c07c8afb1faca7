//! `finwright.toml` beside open designs: read again whenever it changes, on disk or in the editor.

#![allow(clippy::unwrap_used)]

use crate::support::{Client, Folder};
use finwright_checks::example::BASE;
use serde_json::{json, Value};

const OFF: &str = "[levels]\n\"guide/slow-exit\" = \"off\"\n";
const WARNING: &str = "[levels]\n\"guide/slow-exit\" = \"warning\"\n";
const LOW: &str = "[thresholds]\nexit_speed = \"1 m/s\"\n";

/// A sound design but for its rod, from which every flight leaves too slowly.
fn design() -> String {
    BASE.replace("length: 1 m; material: steel", "length: 0.4 m; material: steel")
}

/// The severities of the slow exits, and everything else's rule.
fn told(published: &Value) -> (Vec<i64>, Vec<String>) {
    let all = published["diagnostics"].as_array().unwrap();
    let slow = |one: &&Value| one["code"] == "guide/slow-exit";
    let severities = all.iter().filter(slow).map(|one| one["severity"].as_i64().unwrap()).collect();
    let others = all.iter().filter(|one| !slow(one)).map(|one| one["code"].as_str().unwrap().to_string()).collect();
    (severities, others)
}

async fn on_disk(client: &mut Client, uri: &str, kind: u8) {
    let changes = json!([{"uri": uri, "type": kind}]);
    client.notify("workspace/didChangeWatchedFiles", json!({"changes": changes})).await;
}

#[tokio::test]
async fn created_changed_and_deleted_on_disk() {
    let folder = Folder::new("disk");
    let (uri, toml) = (folder.uri("design.finw"), folder.uri("finwright.toml"));
    let mut client = Client::whole(folder.params()).await;
    client.open(&uri, &design()).await;
    assert_eq!(told(&client.diagnostics(&uri).await), (vec![1, 1], vec![]));
    for (text, kind, severities) in
        [(WARNING, 1, vec![2, 2]), (OFF, 2, vec![]), (LOW, 2, vec![]), (WARNING, 2, vec![2, 2])]
    {
        folder.write("finwright.toml", text);
        on_disk(&mut client, &toml, kind).await;
        let published = client.diagnostics(&uri).await;
        assert_eq!((told(&published), &published["version"]), ((severities, vec![]), &json!(1)), "{text}");
    }
    std::fs::remove_file(folder.0.join("finwright.toml")).unwrap();
    on_disk(&mut client, &toml, 3).await;
    assert_eq!(told(&client.diagnostics(&uri).await).0, [1, 1]);
}

#[tokio::test]
async fn a_buffer_goes_before_the_disk_until_it_is_closed() {
    let folder = Folder::new("buffer");
    folder.write("finwright.toml", WARNING);
    let (uri, toml) = (folder.uri("design.finw"), folder.uri("finwright.toml"));
    let mut client = Client::whole(folder.params()).await;
    client.open(&uri, &design()).await;
    assert_eq!(told(&client.diagnostics(&uri).await).0, [2, 2]);
    client.open(&toml, OFF).await;
    assert_eq!(told(&client.diagnostics(&uri).await).0, [0; 0]);
    // One key stroke too many: the settings can't be read, and the usual ones are used.
    client.change(&toml, 2, [0, 7, 0, 8], "").await;
    let (severities, others) = told(&client.diagnostics(&uri).await);
    assert_eq!((severities, others), (vec![1, 1], vec!["settings/not-understood".to_string()]));
    client.change(&toml, 3, [0, 7, 0, 7], "]").await;
    assert_eq!(told(&client.diagnostics(&uri).await), (vec![], vec![]));
    client.notify("textDocument/didClose", json!({"textDocument": {"uri": toml}})).await;
    assert_eq!(told(&client.diagnostics(&uri).await).0, [2, 2]);
}

#[tokio::test]
async fn settings_in_the_editor_are_told_what_is_wrong_with_them_and_nothing_else() {
    let folder = Folder::new("itself");
    let toml = folder.uri("finwright.toml");
    let mut client = Client::whole(folder.params()).await;
    client.open(&toml, OFF).await;
    assert_eq!(client.diagnostics(&toml).await["diagnostics"], json!([]));
    client.change(&toml, 2, [0, 0, 0, 0], "profile = \"clubb\"\n").await;
    let published = client.diagnostics(&toml).await;
    let found = &published["diagnostics"][0];
    assert_eq!(published["diagnostics"].as_array().unwrap().len(), 1);
    assert_eq!((&found["code"], &found["severity"]), (&json!("settings/not-understood"), &json!(1)));
    assert!(found["message"].as_str().unwrap().starts_with("there is no profile `clubb`"), "{found}");
    assert_eq!(found["range"]["start"], json!({"line": 0, "character": 0}));
    assert_eq!(found["range"]["end"], json!({"line": 0, "character": 17}));
    let place = json!({"textDocument": {"uri": toml}, "position": {"line": 0, "character": 3}});
    let hover = client.request("textDocument/hover", place).await;
    assert!(hover["result"]["contents"]["value"].as_str().unwrap().starts_with("profile"), "{hover}");
    // What is for designs has nothing to say there.
    let whole = json!({"textDocument": {"uri": toml}, "options": {"tabSize": 2, "insertSpaces": true}});
    assert_eq!(client.request("textDocument/formatting", whole).await["result"], Value::Null);
}

#[tokio::test]
async fn a_nearer_file_takes_over_alone_and_one_above_the_workspace_counts() {
    let folder = Folder::new("nearer");
    folder.write("finwright.toml", OFF);
    folder.write("class/designs/.keep", "");
    let uri = folder.uri("class/designs/design.finw");
    let mut params = folder.params();
    params["workspaceFolders"] = json!([{"uri": folder.uri("class"), "name": "class"}]);
    let mut client = Client::whole(params).await;
    client.open(&uri, &design()).await;
    assert_eq!(told(&client.diagnostics(&uri).await).0, [0; 0]);
    // The nearer one says nothing of that rule, so it is an error again.
    folder.write("class/finwright.toml", "profile = \"club\"\n");
    on_disk(&mut client, &folder.uri("class/finwright.toml"), 1).await;
    assert_eq!(told(&client.diagnostics(&uri).await).0, [1, 1]);
    folder.write("class/designs/finwright.toml", WARNING);
    on_disk(&mut client, &folder.uri("class/designs/finwright.toml"), 1).await;
    assert_eq!(told(&client.diagnostics(&uri).await).0, [2, 2]);
}

#[tokio::test]
async fn what_changes_while_a_design_is_looked_at_is_not_missed() {
    let folder = Folder::new("meanwhile");
    let (uri, toml) = (folder.uri("design.finw"), folder.uri("finwright.toml"));
    let mut client = Client::whole(folder.params()).await;
    // The settings are opened before the first analysis has told what the design uses.
    client.open(&uri, &design()).await;
    client.open(&toml, OFF).await;
    loop {
        if told(&client.diagnostics(&uri).await).0.is_empty() {
            break;
        }
    }
}

#[cfg(unix)]
#[tokio::test]
async fn a_link_to_shared_settings_is_followed() {
    let folder = Folder::new("link");
    folder.write("shared/club.toml", WARNING);
    folder.write("designs/.keep", "");
    std::os::unix::fs::symlink("../shared/club.toml", folder.0.join("designs/finwright.toml")).unwrap();
    let uri = folder.uri("designs/design.finw");
    let mut client = Client::whole(folder.params()).await;
    client.open(&uri, &design()).await;
    assert_eq!(told(&client.diagnostics(&uri).await).0, [2, 2]);
    folder.write("shared/club.toml", OFF);
    on_disk(&mut client, &folder.uri("shared/club.toml"), 2).await;
    assert_eq!(told(&client.diagnostics(&uri).await).0, [0; 0]);
}

//! Designs that use other files, in editor buffers and on disk.

#![allow(clippy::unwrap_used)]

use crate::support::{Client, Folder, Held};
use serde_json::{json, Value};

#[tokio::test]
async fn a_buffer_goes_before_the_disk_and_its_changes_reach_the_user() {
    let folder = Folder::new("buffers");
    folder.write("parts.finw", "bad");
    let (design, parts) = (folder.uri("design.finw"), folder.uri("parts.finw"));
    let mut client = Client::start(folder.params()).await;
    client.open(&design, "use parts.finw").await;
    assert_eq!(count(&client.diagnostics(&design).await), 1);
    client.open(&parts, "bad bad").await;
    assert_eq!(count(&client.diagnostics(&design).await), 2);
    client.change(&parts, 2, [0, 0, 0, 0], "bad ").await;
    assert_eq!(count(&client.diagnostics(&design).await), 3);
    client.notify("textDocument/didClose", json!({"textDocument": {"uri": parts}})).await;
    let published = client.diagnostics(&design).await;
    assert_eq!((count(&published), &published["version"]), (1, &json!(1)));
}

#[tokio::test]
async fn a_finding_in_a_used_file_is_shown_where_it_is_used() {
    let folder = Folder::new("shown");
    folder.write("parts.finw", "😀\nso bad");
    let design = folder.uri("design.finw");
    let mut client = Client::start(folder.params()).await;
    client.open(&design, "\nuse parts.finw").await;
    let published = client.diagnostics(&design).await;
    let diagnostic = &published["diagnostics"][0];
    assert_eq!(diagnostic["range"]["start"], json!({"line": 1, "character": 4}));
    let related = &diagnostic["relatedInformation"][0];
    assert_eq!(related["location"]["uri"], folder.uri("parts.finw"));
    assert_eq!(related["location"]["range"]["start"], json!({"line": 1, "character": 3}));

    let params = json!({
        "textDocument": {"uri": design},
        "range": diagnostic["range"],
        "context": {"diagnostics": []},
    });
    let answer = client.request("textDocument/codeAction", params).await;
    let edit = &answer["result"][0]["edit"]["documentChanges"][0];
    let closed = json!({"uri": folder.uri("parts.finw"), "version": null});
    assert_eq!(edit["textDocument"], closed);
}

#[tokio::test]
async fn a_file_that_changes_or_appears_on_disk_is_read_again() {
    let folder = Folder::new("disk");
    let design = folder.uri("design.finw");
    let mut client = Client::silent();
    client.request("initialize", folder.params()).await;
    client.notify("initialized", json!({})).await;
    let registration = client.until(|message| message["method"] == "client/registerCapability").await;
    let watched = &registration["params"]["registrations"][0];
    assert_eq!(watched["method"], "workspace/didChangeWatchedFiles");
    client.send(json!({"jsonrpc": "2.0", "id": registration["id"], "result": null})).await;

    client.open(&design, "use parts.finw").await;
    let published = client.diagnostics(&design).await;
    assert!(text(&published).starts_with("there is no such file"), "{published}");
    for (content, bad) in [("bad bad", 2), ("fine", 0)] {
        folder.write("parts.finw", content);
        let changes = json!([{"uri": folder.uri("parts.finw"), "type": 2}]);
        client.notify("workspace/didChangeWatchedFiles", json!({"changes": changes})).await;
        let published = client.diagnostics(&design).await;
        assert_eq!(count(&published), bad);
    }
}

#[tokio::test]
async fn what_changes_while_its_user_is_looked_at_is_not_missed() {
    let folder = Folder::new("meanwhile");
    folder.write("parts.finw", "bad");
    let (design, parts) = (folder.uri("meanwhile.finw"), folder.uri("parts.finw"));
    let mut client = Client::start(folder.params()).await;
    let mut look = Held::new(&design);
    client.open(&design, "hold\nuse parts.finw").await;
    // The first look at the design has begun with the file on disk, and nobody knows yet that it uses it.
    look.begun().await;
    client.open(&parts, "bad bad").await;
    client.taken_in().await;
    look.release();
    while count(&client.diagnostics(&design).await) != 2 {}
}

#[cfg(unix)]
#[tokio::test]
async fn nothing_outside_the_workspace_is_read() {
    let folder = Folder::new("outside");
    folder.write("secret.finw", "bad");
    folder.write("inside/own.finw", "bad");
    std::os::unix::fs::symlink("../secret.finw", folder.0.join("inside/link.finw")).unwrap();
    let root = folder.uri("inside");
    let design = folder.uri("inside/design.finw");
    let mut params = folder.params();
    params["workspaceFolders"] = json!([{"uri": root, "name": "inside"}]);
    let mut client = Client::start(params).await;
    client.open(&design, "").await;
    client.diagnostics(&design).await;
    for (version, name) in [(2, "../secret.finw"), (3, "link.finw"), (4, "/etc/hostname")] {
        client.change(&design, version, [0, 0, 9, 0], &format!("use {name}")).await;
        let published = client.diagnostics(&design).await;
        assert!(text(&published).contains("outside the workspace"), "{name}: {published}");
    }
    client.change(&design, 5, [0, 0, 9, 0], "use ../inside/own.finw").await;
    assert_eq!(text(&client.diagnostics(&design).await), "This word is bad.");
    // The folder above joins the workspace.
    let event = json!({"added": [{"uri": folder.uri(""), "name": "all"}], "removed": []});
    client.notify("workspace/didChangeWorkspaceFolders", json!({"event": event})).await;
    client.diagnostics(&design).await;
    client.change(&design, 6, [0, 0, 9, 0], "use link.finw").await;
    assert_eq!(text(&client.diagnostics(&design).await), "This word is bad.");
}

#[tokio::test]
async fn what_cannot_be_read_is_said_in_plain_words() {
    let folder = Folder::new("words");
    folder.write("big.finw", &" ".repeat(1_000_001));
    std::fs::write(folder.0.join("latin.finw"), b"\xe9").unwrap();
    folder.write("sub/x.finw", "");
    let design = folder.uri("design.finw");
    let mut client = Client::start(folder.params()).await;
    client.open(&design, "").await;
    client.diagnostics(&design).await;
    let cases = [
        ("big.finw", "larger than 1 MB"),
        ("latin.finw", "UTF-8"),
        ("sub", "isn't a file"),
        ("none.finw", "no such file"),
    ];
    for (number, (name, words)) in cases.into_iter().enumerate() {
        client.change(&design, number as i32 + 2, [0, 0, 9, 0], &format!("use {name}")).await;
        let published = client.diagnostics(&design).await;
        assert!(text(&published).contains(words), "{name}: {published}");
    }
}

fn count(published: &Value) -> usize {
    published["diagnostics"].as_array().unwrap().len()
}

/// The first line of the first diagnostic.
fn text(published: &Value) -> &str {
    published["diagnostics"][0]["message"].as_str().unwrap().lines().next().unwrap()
}

//! Every feature that the server offers, over the wire: the cursor is marked `$0` in a text. `FEATURES.md` is written
//! from what is offered, and every row names its test here.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support::{Client, Folder};
use serde_json::{json, Value};

const KIT: &str = "\
let width = 24.8 mm
motor a5 { diameter: 18 mm; length: 70 mm; mass: 16 g; propellant: 3 g; curve: [0 s: 0 N, 0.1 s: 8 N, 0.6 s: 0 N] }
pad stand { rod { diameter: 3 mm; length: 1 m } }
site field { wind: 2 m/s }
";

const DESIGN: &str = "\
# A first remark,
# and a second one.
use \"kit.finw\"

airframe {
  nose { shape: ogive; length: 80 mm; base: width; material: balsa }
  tube body {
    length: 250 mm
    outer: width; inner: 24 mm
    material: kraft_paper
    fins main { count: 3; root: 50 mm; tip: 25 mm; span: 40 mm; sweep: 20 mm; thickness: 1.6 mm
      material: balsa; at: 0 mm from back }
    mount engine { bore: 18 mm; outer: 19 mm; length: 70 mm; material: kraft_paper }
    parachute { diameter: 300 mm; mass: 5 g; at: 60 mm from front }
    lug guide { bore: 3.4 mm; length: 40 mm; wall: 0.3 mm; at: balance }
  }
}

flight first { motor: a5; pad: stand; guided_by: [guide]; site: field }
";

/// A client in a folder with the kit and a design that uses it, both on disk and the design open.
async fn opened(name: &str, text: &str) -> (Client, Folder, String) {
    let folder = Folder::new(name);
    folder.write("kit.finw", KIT);
    folder.write("design.finw", text);
    let mut client = Client::whole(able(&folder)).await;
    let uri = folder.uri("design.finw");
    client.open(&uri, text).await;
    (client, folder, uri)
}

/// A client that can do everything, and pushes.
fn able(folder: &Folder) -> Value {
    let mut params = folder.params();
    let item = json!({
        "snippetSupport": true, "insertReplaceSupport": true, "labelDetailsSupport": true,
        "documentationFormat": ["markdown"], "insertTextModeSupport": {"valueSet": [1, 2]},
    });
    params["capabilities"]["textDocument"]["completion"] = json!({"completionItem": item});
    params["capabilities"]["textDocument"]["hover"] = json!({"contentFormat": ["markdown"]});
    params["capabilities"]["textDocument"]["publishDiagnostics"] = json!({
        "relatedInformation": true, "codeDescriptionSupport": true, "tagSupport": {"valueSet": [1, 2]},
    });
    params
}

/// The position of the `$0` in the marked piece, which stands once in the text.
fn position(text: &str, piece: &str) -> Value {
    let plain = piece.replacen("$0", "", 1);
    assert_eq!(text.matches(&plain).count(), 1, "`{plain}` stands once");
    let at = text.find(&plain).unwrap() + piece.find("$0").unwrap();
    let line = text[..at].matches('\n').count();
    let start = text[..at].rfind('\n').map_or(0, |at| at + 1);
    json!({"line": line, "character": text[start..at].encode_utf16().count()})
}

fn at(uri: &str, text: &str, piece: &str) -> Value {
    json!({"textDocument": {"uri": uri}, "position": position(text, piece)})
}

fn slice<'t>(text: &'t str, range: &Value) -> &'t str {
    let offset = |position: &Value| {
        let line = position["line"].as_u64().unwrap() as usize;
        let start: usize = text.split_inclusive('\n').take(line).map(str::len).sum();
        start + position["character"].as_u64().unwrap() as usize
    };
    &text[offset(&range["start"])..offset(&range["end"])]
}

/// The text with the edits of one document.
fn edited(text: &str, edits: &Value) -> String {
    let mut edits: Vec<&Value> = edits.as_array().unwrap().iter().collect();
    edits.sort_by_key(|edit| {
        let start = &edit["range"]["start"];
        std::cmp::Reverse((start["line"].as_u64().unwrap(), start["character"].as_u64().unwrap()))
    });
    let mut text = text.to_string();
    for edit in edits {
        let old = slice(&text, &edit["range"]);
        let start = old.as_ptr() as usize - text.as_ptr() as usize;
        text.replace_range(start..start + old.len(), edit["newText"].as_str().unwrap());
    }
    text
}

fn labels(answer: &Value) -> Vec<String> {
    let items = answer["result"].as_array().unwrap();
    items.iter().map(|item| item["label"].as_str().unwrap().to_string()).collect()
}

#[tokio::test]
async fn completion_with_braces_open_and_a_closer_look() {
    let text = DESIGN.replace("    mount engine", "    mo$0\n    mount engine").replace("mo$0\n", "mo\n");
    let (mut client, _folder, uri) = opened("completion", &text).await;
    let answer = client.request("textDocument/completion", at(&uri, &text, "    mo$0\n")).await;
    let first = answer["result"][0].clone();
    assert_eq!(first["label"], "mount");
    assert_eq!((&first["insertTextFormat"], &first["insertTextMode"]), (&json!(2), &json!(2)));
    let edit = &first["textEdit"];
    assert!(edit["newText"].as_str().unwrap().starts_with("mount ${1:engine} {\n  bore: $2\n"), "{edit}");
    assert_eq!((slice(&text, &edit["insert"]), slice(&text, &edit["replace"])), ("mo", "mo"));
    assert!(first.get("documentation").is_none());
    let resolved = client.request("completionItem/resolve", first).await;
    let documentation = resolved["result"]["documentation"]["value"].as_str().unwrap();
    assert!(documentation.contains("holds the motor") && documentation.contains("```finwright"), "{documentation}");
}

#[tokio::test]
async fn completion_behind_a_space_stays_closed_where_nothing_is_due() {
    let text = DESIGN.replace("material: balsa }\n  tube", "material: balsa  }\n  tube");
    let (mut client, _folder, uri) = opened("space", &text).await;
    let mut asked = at(&uri, &text, "material: balsa $0 }\n  tube");
    asked["context"] = json!({"triggerKind": 2, "triggerCharacter": " "});
    assert_eq!(client.request("textDocument/completion", asked).await["result"], Value::Null);
    let mut asked = at(&uri, &text, "{ motor: $0a5");
    asked["context"] = json!({"triggerKind": 2, "triggerCharacter": " "});
    let answer = client.request("textDocument/completion", asked).await;
    assert_eq!(labels(&answer), ["a5"]);
    assert_eq!(answer["result"][0]["labelDetails"]["description"], "2.4 N s, 18 mm · kit.finw");
}

#[tokio::test]
async fn completion_of_paths_and_in_the_settings() {
    let text = DESIGN.replace("use \"kit.finw\"", "use \"k\"");
    let (mut client, folder, uri) = opened("paths", &text).await;
    let answer = client.request("textDocument/completion", at(&uri, &text, "use \"k$0\"")).await;
    assert_eq!(labels(&answer), ["kit.finw"]);
    let (settings, toml) = (folder.uri("finwright.toml"), "profile = \n[levels]\n\"guide/slow-exit\" = \"note\"\n");
    client.open(&settings, toml).await;
    let found = client.diagnostics(&settings).await;
    assert!(!found["diagnostics"].as_array().unwrap().is_empty());
    let profiles = client.request("textDocument/completion", at(&settings, toml, "profile = $0")).await;
    assert!(profiles["result"].as_array().unwrap().len() == 3, "{profiles}");
    let hover = client.request("textDocument/hover", at(&settings, toml, "\"guide/sl$0ow-exit")).await;
    assert!(hover["result"]["contents"]["value"].as_str().unwrap().starts_with("**guide/slow-exit**"), "{hover}");
}

#[tokio::test]
async fn hover_says_what_a_number_is_and_where_it_comes_from() {
    let (mut client, _folder, uri) = opened("hover", DESIGN).await;
    for (piece, said) in [
        ("length: 250 m$0m", "9.8425 in"),
        ("outer: wid$0th;", "24.8 mm"),
        ("a$0t: 0 mm from back", "from the tip"),
        ("pad: sta$0nd", "rod of 3 mm"),
        ("\"kit.fi$0nw\"", "brings in"),
        ("flight fir$0st", "| pad |"),
    ] {
        let answer = client.request("textDocument/hover", at(&uri, DESIGN, piece)).await;
        let value = answer["result"]["contents"]["value"].as_str().unwrap_or_else(|| panic!("{piece}: {answer}"));
        let first = said == "| pad |" || value.contains(said);
        assert!(first, "{piece}: {value}");
    }
}

#[tokio::test]
async fn hover_in_plain_words_for_a_client_without_markdown() {
    let folder = Folder::new("plain");
    let mut client = Client::whole(folder.params()).await;
    client.open("untitled:a.finw", "let x = 3 mm\n").await;
    let answer = client.request("textDocument/hover", at("untitled:a.finw", "let x = 3 mm\n", "let $0x")).await;
    assert_eq!(answer["result"]["contents"], json!({"kind": "plaintext", "value": "x = 3 mm\n\na length"}));
}

#[tokio::test]
async fn signature_help_while_brackets_are_open() {
    let text = format!("{DESIGN}let half = max(width, \n");
    let (mut client, _folder, uri) = opened("signature", &text).await;
    let answer = client.request("textDocument/signatureHelp", at(&uri, &text, "max(width, $0")).await;
    let found = &answer["result"];
    assert_eq!((&found["signatures"][0]["label"], &found["activeParameter"]), (&json!("max(a, b, …)"), &json!(1)));
}

#[tokio::test]
async fn definition_by_kind_in_other_files_and_in_the_catalogue() {
    let (mut client, folder, uri) = opened("definition", DESIGN).await;
    for (piece, file, word) in [
        ("pad: sta$0nd", "kit.finw", "stand"),
        ("base: wid$0th", "kit.finw", "width"),
        ("guided_by: [gui$0de]", "design.finw", "guide"),
        ("\"kit.fi$0nw\"", "kit.finw", ""),
    ] {
        let answer = client.request("textDocument/definition", at(&uri, DESIGN, piece)).await;
        assert_eq!(answer["result"]["uri"], folder.uri(file), "{piece}");
        let text = if file == "kit.finw" { KIT } else { DESIGN };
        assert_eq!(slice(text, &answer["result"]["range"]), word);
    }
    let answer = client.request("textDocument/definition", at(&uri, DESIGN, "material: kraft_pa$0per\n    fins")).await;
    let catalogue = lsp_types::Url::parse(answer["result"]["uri"].as_str().unwrap()).unwrap().to_file_path().unwrap();
    let text = std::fs::read_to_string(&catalogue).unwrap();
    assert_eq!(slice(&text, &answer["result"]["range"]), "kraft_paper");
    assert!(std::fs::metadata(&catalogue).unwrap().permissions().readonly());
    let nothing = client.request("textDocument/definition", at(&uri, DESIGN, "60 mm from fr$0ont")).await;
    assert_eq!(nothing["result"], Value::Null);
}

#[tokio::test]
async fn references_and_highlights_across_files() {
    let (mut client, folder, uri) = opened("references", DESIGN).await;
    folder.write("other/pupil.finw", "use \"../kit.finw\"\nlet twice = 2 * width\nlet height = width\n");
    folder.write("other/stranger.finw", "let width = 1 m\nlet twice = 2 * width\n");
    let mut asked = at(&uri, DESIGN, "base: wid$0th");
    asked["context"] = json!({"includeDeclaration": true});
    let answer = client.request("textDocument/references", asked.clone()).await;
    let mut files: Vec<String> = answer["result"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| one["uri"].as_str().unwrap().rsplit('/').next().unwrap().to_string())
        .collect();
    files.sort();
    assert_eq!(files, ["design.finw", "design.finw", "kit.finw", "pupil.finw", "pupil.finw"]);
    asked["context"] = json!({"includeDeclaration": false});
    let answer = client.request("textDocument/references", asked).await;
    assert_eq!(answer["result"].as_array().unwrap().len(), 4);
    let answer = client.request("textDocument/documentHighlight", at(&uri, DESIGN, "lug gui$0de")).await;
    let kinds: Vec<&Value> = answer["result"].as_array().unwrap().iter().map(|one| &one["kind"]).collect();
    assert_eq!(kinds, [&json!(3), &json!(2)]);
}

#[tokio::test]
async fn rename_prepares_refuses_and_reaches_unopened_files() {
    let (mut client, folder, uri) = opened("rename", DESIGN).await;
    folder.write("pupil.finw", "use \"kit.finw\"\nflight f { pad: stand }\n");
    let place = at(&uri, DESIGN, "pad: sta$0nd");
    let prepared = client.request("textDocument/prepareRename", place.clone()).await;
    assert_eq!(prepared["result"]["placeholder"], "stand");
    for (new, refused) in [("3d", "can't be a name"), ("field", ""), ("let", "a word of the language")] {
        let mut asked = place.clone();
        asked["newName"] = json!(new);
        let answer = client.request("textDocument/rename", asked).await;
        let message = answer["error"]["message"].as_str().unwrap_or("");
        assert!(message.contains(refused), "{new}: {answer}");
    }
    let mut asked = place;
    asked["newName"] = json!("club_pad");
    let answer = client.request("textDocument/rename", asked).await;
    let documents = answer["result"]["documentChanges"].as_array().unwrap();
    let versions: Vec<(String, &Value)> = documents
        .iter()
        .map(|one| {
            (
                one["textDocument"]["uri"].as_str().unwrap().rsplit('/').next().unwrap().to_string(),
                &one["textDocument"]["version"],
            )
        })
        .collect();
    assert_eq!(
        versions,
        [
            ("design.finw".to_string(), &json!(1)),
            ("kit.finw".to_string(), &Value::Null),
            ("pupil.finw".to_string(), &Value::Null),
        ]
    );
    assert!(edited(KIT, &documents[1]["edits"]).contains("pad club_pad {"));
    let built_in =
        client.request("textDocument/prepareRename", at(&uri, DESIGN, "material: kraft_pa$0per\n    fins")).await;
    assert!(built_in["error"]["message"].as_str().unwrap().contains("built in"), "{built_in}");
}

#[tokio::test]
async fn moving_a_file_or_a_folder_keeps_the_paths_right() {
    let (mut client, folder, _uri) = opened("moving", DESIGN).await;
    folder.write("terms/one/pupil.finw", "use \"../../kit.finw\"\n");
    let moves = json!({"files": [{"oldUri": folder.uri("kit.finw"), "newUri": folder.uri("shared/kit.finw")}]});
    let answer = client.request("workspace/willRenameFiles", moves).await;
    let documents = answer["result"]["documentChanges"].as_array().unwrap();
    assert_eq!(documents.len(), 2, "{answer}");
    assert!(edited(DESIGN, &documents[0]["edits"]).contains("use \"shared/kit.finw\""));
    let moves = json!({"files": [{"oldUri": folder.uri("terms"), "newUri": folder.uri("archive/2026/terms")}]});
    let answer = client.request("workspace/willRenameFiles", moves).await;
    let documents = answer["result"]["documentChanges"].as_array().unwrap();
    assert_eq!(documents[0]["edits"][0]["newText"], "../../../../kit.finw", "{answer}");
}

#[tokio::test]
async fn a_folder_that_goes_takes_its_files_along() {
    let text = DESIGN.replace("\"kit.finw\"", "\"shared/kit.finw\"");
    let folder = Folder::new("gone");
    folder.write("shared/kit.finw", KIT);
    let mut client = Client::whole(able(&folder)).await;
    let uri = folder.uri("design.finw");
    client.open(&uri, &text).await;
    let is_whole = |found: &Value| !found["diagnostics"].to_string().contains("can't be used");
    assert!(is_whole(&client.diagnostics(&uri).await));
    std::fs::remove_dir_all(folder.0.join("shared")).unwrap();
    client.notify("workspace/didDeleteFiles", json!({"files": [{"uri": folder.uri("shared")}]})).await;
    assert!(!is_whole(&client.diagnostics(&uri).await));
}

#[tokio::test]
async fn symbols_of_a_document_and_of_the_workspace() {
    let (mut client, _folder, uri) = opened("symbols", DESIGN).await;
    let outline = client.request("textDocument/documentSymbol", json!({"textDocument": {"uri": uri}})).await;
    assert_eq!(outline["result"][0]["children"][1]["name"], "tube body");
    let found = client.request("workspace/symbol", json!({"query": "stnd"})).await;
    assert_eq!(found["result"][0]["name"], "pad stand");
    assert!(found["result"][0]["location"]["uri"].as_str().unwrap().ends_with("kit.finw"));
}

#[tokio::test]
async fn code_actions_mend_add_convert_name_and_allow() {
    let text = DESIGN.replace("outer: width;", "outer: widht;").replace("shape: ogive; ", "");
    let (mut client, _folder, uri) = opened("actions", &text).await;
    let mut titles = Vec::new();
    for piece in ["outer: wid$0ht;", "  no$0se { length", "length: 250 m$0m", "flight fi$0rst", "lug gui$0de {"] {
        let place = position(&text, piece);
        let asked = json!({
            "textDocument": {"uri": uri}, "range": {"start": place, "end": place}, "context": {"diagnostics": []},
        });
        let answer = client.request("textDocument/codeAction", asked).await;
        for action in answer["result"].as_array().unwrap() {
            titles.push(format!("{}: {}", action["kind"].as_str().unwrap(), action["title"].as_str().unwrap()));
            let after = edited(&text, &action["edit"]["documentChanges"][0]["edits"]);
            assert_ne!(after, text, "{action}");
        }
    }
    for wanted in [
        "quickfix: change to `width`",
        "refactor: add what this nose needs: `shape`",
        "refactor.rewrite: write it as 25 cm",
        "refactor.extract: name this value `body_length`",
        "refactor: write down what the bench says with a5 in",
    ] {
        assert!(titles.iter().any(|title| title.starts_with(wanted)), "{wanted} in {titles:#?}");
    }
}

#[tokio::test]
async fn a_rod_in_a_shared_file_is_mended_there_for_the_version_that_is_open() {
    let folder = Folder::new("shared-rod");
    let kit = KIT.replace("length: 1 m", "length: 0.3 m");
    folder.write("kit.finw", &kit);
    let mut client = Client::whole(able(&folder)).await;
    let (uri, shared) = (folder.uri("design.finw"), folder.uri("kit.finw"));
    client.open(&shared, &kit).await;
    client.change(&shared, 2, [0, 0, 0, 0], "# The club's own.\n").await;
    client.open(&uri, DESIGN).await;
    let place = position(DESIGN, "flight fir$0st");
    let asked = json!({
        "textDocument": {"uri": uri}, "range": {"start": place, "end": place},
        "context": {"diagnostics": [], "only": ["quickfix"]},
    });
    let answer = client.request("textDocument/codeAction", asked).await;
    let all = answer["result"].as_array().unwrap();
    let longer = all.iter().find(|one| one["title"].as_str().unwrap().starts_with("lengthen the rod")).unwrap();
    assert!(longer["title"].as_str().unwrap().ends_with(", in kit.finw"), "{longer}");
    let change = &longer["edit"]["documentChanges"][0];
    assert_eq!((&change["textDocument"]["uri"], &change["textDocument"]["version"]), (&json!(shared), &json!(2)));
    let kit = format!("# The club's own.\n{kit}");
    assert!(edited(&kit, &change["edits"]).contains("diameter: 3 mm; length: "), "{change}");
    assert_ne!(edited(&kit, &change["edits"]), kit);
}

#[tokio::test]
async fn code_actions_mend_all_slips_at_once() {
    let text = DESIGN.replace("outer: width;", "outer: widht;").replace("pad: stand", "pad: stnad");
    let (mut client, _folder, uri) = opened("all", &text).await;
    let asked = json!({
        "textDocument": {"uri": uri},
        "range": {"start": {"line": 0, "character": 0}, "end": {"line": 0, "character": 0}},
        "context": {"diagnostics": [], "only": ["source.fixAll"]},
    });
    let answer = client.request("textDocument/codeAction", asked).await;
    assert_eq!(edited(&text, &answer["result"][0]["edit"]["documentChanges"][0]["edits"]), DESIGN, "{answer}");
}

#[tokio::test]
async fn a_value_gets_a_name_and_gives_it_back() {
    let (mut client, _folder, uri) = opened("extract", DESIGN).await;
    let place = position(DESIGN, "length: 250$0 mm");
    let asked = json!({
        "textDocument": {"uri": uri}, "range": {"start": place, "end": place},
        "context": {"diagnostics": [], "only": ["refactor.extract"]},
    });
    let answer = client.request("textDocument/codeAction", asked).await;
    let named = edited(DESIGN, &answer["result"][0]["edit"]["documentChanges"][0]["edits"]);
    assert!(
        named.contains("use \"kit.finw\"\nlet body_length = 250 mm\n") && named.contains("length: body_length\n"),
        "{named}"
    );
    let change = json!([{"text": named}]);
    client
        .notify("textDocument/didChange", json!({"textDocument": {"uri": uri, "version": 2}, "contentChanges": change}))
        .await;
    let place = position(&named, "let body_len$0gth");
    let asked = json!({
        "textDocument": {"uri": uri}, "range": {"start": place, "end": place},
        "context": {"diagnostics": [], "only": ["refactor.inline"]},
    });
    let answer = client.request("textDocument/codeAction", asked).await;
    assert_eq!(edited(&named, &answer["result"][0]["edit"]["documentChanges"][0]["edits"]), DESIGN, "{answer}");
}

#[tokio::test]
async fn a_finding_is_allowed_with_a_reason() {
    let text = DESIGN.to_string();
    let (mut client, _folder, uri) = opened("allow", &text).await;
    let found = client.diagnostics(&uri).await;
    let warning =
        found["diagnostics"].as_array().unwrap().iter().find(|one| one["code"] == "recovery/no-cord").unwrap().clone();
    let asked = json!({
        "textDocument": {"uri": uri}, "range": warning["range"],
        "context": {"diagnostics": [warning], "only": ["refactor"]},
    });
    let answer = client.request("textDocument/codeAction", asked).await;
    let title = format!("allow {} here; you give the reason", warning["code"].as_str().unwrap());
    let allow = answer["result"].as_array().unwrap().iter().find(|action| action["title"] == title).unwrap();
    let after = edited(&text, &allow["edit"]["documentChanges"][0]["edits"]);
    assert!(after.contains(&format!("# allow {}: \n", warning["code"].as_str().unwrap())), "{after}");
}

#[tokio::test]
async fn lenses_say_how_flights_do() {
    let (mut client, _folder, uri) = opened("lens", DESIGN).await;
    let lenses = client.request("textDocument/codeLens", json!({"textDocument": {"uri": uri}})).await;
    let resolved = client.request("codeLens/resolve", lenses["result"][0].clone()).await;
    assert!(resolved["result"]["command"]["title"].as_str().unwrap().contains("leaves at"), "{resolved}");
}

#[tokio::test]
async fn lenses_are_asked_for_again_when_a_shared_file_changes() {
    let folder = Folder::new("refresh");
    folder.write("kit.finw", KIT);
    let mut params = able(&folder);
    params["capabilities"]["workspace"]["codeLens"] = json!({"refreshSupport": true});
    params["capabilities"]["workspace"]["inlayHint"] = json!({"refreshSupport": true});
    let mut client = Client::whole(params).await;
    let (uri, kit) = (folder.uri("design.finw"), folder.uri("kit.finw"));
    client.open(&uri, DESIGN).await;
    client.diagnostics(&uri).await;
    client.open(&kit, KIT).await;
    client.change(&kit, 2, [0, 12, 0, 14], "26").await;
    client.until(|message| message["method"] == "workspace/codeLens/refresh").await;
    client.change(&kit, 3, [0, 12, 0, 14], "24").await;
    client.until(|message| message["method"] == "workspace/inlayHint/refresh").await;
}

#[tokio::test]
async fn hints_stand_beside_parts_and_each_kind_can_be_switched_off() {
    let (mut client, _folder, uri) = opened("hints", DESIGN).await;
    let whole = json!({"start": {"line": 0, "character": 0}, "end": {"line": 99, "character": 0}});
    let asked = json!({"textDocument": {"uri": uri}, "range": whole});
    let hints = |answer: &Value| -> Vec<String> {
        answer["result"].as_array().unwrap().iter().map(|hint| hint["label"].as_str().unwrap().to_string()).collect()
    };
    let all = hints(&client.request("textDocument/inlayHint", asked.clone()).await);
    for wanted in ["g · 0 to 80 mm", "280 mm from the tip", "= 24.8 mm"] {
        assert!(all.iter().any(|hint| hint.ends_with(wanted)), "{wanted} in {all:?}");
    }
    let settings = json!({"finwright": {"hints": {"stations": false, "values": false}}});
    client.notify("workspace/didChangeConfiguration", json!({"settings": settings})).await;
    let some = hints(&client.request("textDocument/inlayHint", asked).await);
    assert!(!some.is_empty() && some.iter().all(|hint| hint.ends_with(" g")), "{some:?}");
}

#[tokio::test]
async fn semantic_tokens_of_all_and_of_a_stretch() {
    let (mut client, _folder, uri) = opened("tokens", DESIGN).await;
    let all = client.request("textDocument/semanticTokens/full", json!({"textDocument": {"uri": uri}})).await;
    let data: Vec<u64> = all["result"]["data"].as_array().unwrap().iter().map(|n| n.as_u64().unwrap()).collect();
    let (mut line, mut column, mut words) = (0, 0, Vec::new());
    for token in data.chunks(5) {
        column = if token[0] == 0 { column + token[1] } else { token[1] };
        line += token[0];
        let text = DESIGN.lines().nth(line as usize).unwrap();
        words.push((&text[column as usize..(column + token[2]) as usize], token[3], token[4]));
    }
    for wanted in [
        ("# A first remark,", 0, 0),
        ("use", 1, 0),
        ("nose", 2, 0),
        ("shape", 3, 0),
        ("ogive", 4, 0),
        ("body", 5, 1),
        ("250 ", 7, 0),
        ("mm", 8, 0),
        ("\"kit.finw\"", 9, 0),
    ] {
        assert!(words.contains(&wanted), "{wanted:?} in {words:?}");
    }
    let stretch = json!({"start": {"line": 5, "character": 0}, "end": {"line": 5, "character": 9}});
    let some = client
        .request("textDocument/semanticTokens/range", json!({"textDocument": {"uri": uri}, "range": stretch}))
        .await;
    let some = some["result"]["data"].as_array().unwrap();
    assert_eq!((some[0].as_u64(), some.len() % 5), (Some(5), 0));
    assert!(some.len() < data.len());
}

#[tokio::test]
async fn folding_selections_and_links() {
    let (mut client, folder, uri) = opened("outline", DESIGN).await;
    let document = json!({"textDocument": {"uri": uri}});
    let folds = client.request("textDocument/foldingRange", document.clone()).await;
    let found: Vec<(u64, u64)> = folds["result"]
        .as_array()
        .unwrap()
        .iter()
        .map(|fold| (fold["startLine"].as_u64().unwrap(), fold["endLine"].as_u64().unwrap()))
        .collect();
    assert_eq!(found, [(0, 1), (4, 15), (6, 14)]);
    let asked = json!({"textDocument": {"uri": uri}, "positions": [position(DESIGN, "length: 25$00 mm")]});
    let grown = client.request("textDocument/selectionRange", asked).await;
    let (mut selection, mut texts) = (&grown["result"][0], Vec::new());
    while selection.is_object() {
        texts.push(slice(DESIGN, &selection["range"]).to_string());
        selection = &selection["parent"];
    }
    assert_eq!(texts[..3], ["250", "250 mm", "length: 250 mm"]);
    assert!(texts.last().unwrap() == DESIGN && texts.len() >= 6, "{texts:?}");
    let links = client.request("textDocument/documentLink", document).await;
    assert_eq!(links["result"][0]["target"], folder.uri("kit.finw"));
    assert_eq!(slice(DESIGN, &links["result"][0]["range"]), "kit.finw");
}

#[tokio::test]
async fn formatting_changes_no_more_than_it_must() {
    let text = DESIGN.replace("  tube body {", "  tube   body {").replace("site: field", "site:field");
    let (mut client, _folder, uri) = opened("format", &text).await;
    let options = json!({"tabSize": 2, "insertSpaces": true});
    let answer =
        client.request("textDocument/formatting", json!({"textDocument": {"uri": uri}, "options": options})).await;
    let edits = &answer["result"];
    assert!(edits.as_array().unwrap().iter().all(|edit| slice(&text, &edit["range"]).len() < 12), "{edits}");
    let formatted = edited(&text, edits);
    assert!(formatted.contains("\n  tube body {") && formatted.contains("site: field"), "{formatted}");
    let line = |n| json!({"start": {"line": n, "character": 0}, "end": {"line": n, "character": 5}});
    let asked = json!({"textDocument": {"uri": uri}, "range": line(6), "options": options});
    let answer = client.request("textDocument/rangeFormatting", asked).await;
    let some = edited(&text, &answer["result"]);
    assert!(some.contains("\n  tube body {") && some.contains("site:field"), "{some}");
    let asked = json!({
        "textDocument": {"uri": uri}, "position": {"line": 7, "character": 0}, "ch": "\n", "options": options,
    });
    let answer = client.request("textDocument/onTypeFormatting", asked).await;
    assert!(edited(&text, &answer["result"]).contains("\n  tube body {"), "{answer}");
}

#[tokio::test]
async fn commands_explain_and_check_with_progress() {
    let (mut client, _folder, _uri) = opened("commands", DESIGN).await;
    let asked = json!({"command": "finwright.explain", "arguments": ["guide/slow-exit"]});
    let page = client.request("workspace/executeCommand", asked).await;
    assert!(page["result"].as_str().unwrap().starts_with("# guide/slow-exit\n"));
    let asked = json!({"command": "finwright.checkWorkspace", "arguments": [], "workDoneToken": "check"});
    let id = client.ask("workspace/executeCommand", asked).await;
    let begun = client.until(|message| message["method"] == "$/progress").await;
    assert_eq!((&begun["params"]["token"], &begun["params"]["value"]["kind"]), (&json!("check"), &json!("begin")));
    let rows = client.answer(id).await;
    assert_eq!(rows["result"].as_array().unwrap().len(), 2, "{rows}");
}

#[tokio::test]
async fn diagnostics_are_pushed_with_their_page_their_places_and_their_tags() {
    let text = format!("{DESIGN}let spare = 3 mm\n");
    let (mut client, _folder, uri) = opened("pushed", &text).await;
    let found = client.diagnostics(&uri).await;
    let all = found["diagnostics"].as_array().unwrap();
    let cord = all.iter().find(|one| one["code"] == "recovery/no-cord").unwrap();
    let page = lsp_types::Url::parse(cord["codeDescription"]["href"].as_str().unwrap()).unwrap();
    assert!(std::fs::read_to_string(page.to_file_path().unwrap()).unwrap().starts_with("# recovery/no-cord"));
    let unused = all.iter().find(|one| one["code"] == "file/unused").unwrap();
    assert_eq!(unused["tags"], json!([1]));
}

#[tokio::test]
async fn diagnostics_are_pulled_by_those_who_can_be_told_to_ask_again() {
    let folder = Folder::new("pulled");
    folder.write("kit.finw", KIT);
    let mut params = able(&folder);
    params["capabilities"]["textDocument"]["diagnostic"] = json!({});
    params["capabilities"]["workspace"]["diagnostics"] = json!({"refreshSupport": true});
    let mut client = Client::whole(params).await;
    let (uri, kit) = (folder.uri("design.finw"), folder.uri("kit.finw"));
    client.open(&uri, DESIGN).await;
    let asked = json!({"textDocument": {"uri": uri}});
    let first = client.request("textDocument/diagnostic", asked.clone()).await;
    assert_eq!(first["result"]["kind"], "full");
    let mut again = asked.clone();
    again["previousResultId"] = first["result"]["resultId"].clone();
    assert_eq!(client.request("textDocument/diagnostic", again.clone()).await["result"]["kind"], "unchanged");
    client.open(&kit, &KIT.replace("pad stand", "pad other")).await;
    client.until(|message| message["method"] == "workspace/diagnostic/refresh").await;
    let after = client.request("textDocument/diagnostic", again).await;
    assert!(after["result"]["items"].to_string().contains("no pad `stand`"), "{after}");
    let all = client.request("workspace/diagnostic", json!({"previousResultIds": []})).await;
    assert_eq!(all["result"]["items"].as_array().unwrap().len(), 2);
}

#[tokio::test]
async fn diagnostics_of_the_whole_workspace_follow_a_part_that_is_renamed_in_the_kit() {
    let folder = Folder::new("workspace");
    folder.write("kit.finw", KIT);
    folder.write("one/pupil.finw", &DESIGN.replace("kit.finw", "../kit.finw"));
    folder.write("two/pupil.finw", &DESIGN.replace("kit.finw", "../kit.finw"));
    let mut params = able(&folder);
    params["initializationOptions"] = json!({"diagnostics": "workspace"});
    let mut client = Client::whole(params).await;
    let kit = folder.uri("kit.finw");
    client.open(&kit, KIT).await;
    let (one, two) = (folder.uri("one/pupil.finw"), folder.uri("two/pupil.finw"));
    let broken = |message: &Value, uri: &str| {
        message["params"]["uri"] == uri && message["params"]["diagnostics"].to_string().contains("no pad `stand`")
    };
    client.change(&kit, 2, [2, 4, 2, 9], "renamed_pad").await;
    client.until(|message| broken(message, &one)).await;
    client.until(|message| broken(message, &two)).await;
    let settings = json!({"finwright": {"diagnostics": "off"}});
    client.notify("workspace/didChangeConfiguration", json!({"settings": settings})).await;
    client.until(|message| message["params"]["uri"] == one && message["params"]["diagnostics"] == json!([])).await;
}

#[tokio::test]
async fn typing_is_calm_until_it_is_saved() {
    let (mut client, _folder, uri) = opened("calm", DESIGN).await;
    client.diagnostics(&uri).await;
    let severities = |found: &Value| -> Vec<(String, u64)> {
        let all = found["diagnostics"].as_array().unwrap().iter();
        all.map(|one| (one["code"].as_str().unwrap().to_string(), one["severity"].as_u64().unwrap())).collect()
    };
    let line = DESIGN.lines().count() as u32;
    let mut version = 1;
    for (column, letter) in "pad p { stop: 3".chars().enumerate() {
        version += 1;
        let column = column as u32;
        client.change(&uri, version, [line, column, line, column], &letter.to_string()).await;
        let found = severities(&client.diagnostics(&uri).await);
        assert!(found.iter().all(|(_, severity)| *severity != 1), "{letter}: {found:?}");
    }
    client.notify("textDocument/didSave", json!({"textDocument": {"uri": uri}})).await;
    let saved = severities(&client.diagnostics(&uri).await);
    assert!(saved.contains(&("syntax/unclosed-block".to_string(), 1)), "{saved:?}");
}

#[tokio::test]
async fn positions_in_each_encoding() {
    for (encoding, column) in [("utf-8", 20), ("utf-16", 18), ("utf-32", 17)] {
        let general = json!({"positionEncodings": [encoding]});
        let mut client = Client::silent();
        let greeted = client.request("initialize", json!({"capabilities": {"general": general}})).await;
        assert_eq!(greeted["result"]["capabilities"]["positionEncoding"], encoding);
        client.open("untitled:a.finw", "note: \"😀\" 12345 bad").await;
        let found = client.diagnostics("untitled:a.finw").await;
        assert_eq!(found["diagnostics"][0]["range"]["start"]["character"], column - 1, "{encoding}");
    }
}

#[tokio::test]
async fn unsaved_files_use_one_another() {
    let folder = Folder::new("unsaved");
    let mut client = Client::whole(able(&folder)).await;
    client.open(&folder.uri("kit.finw"), KIT).await;
    let uri = folder.uri("design.finw");
    client.open(&uri, DESIGN).await;
    let found = client.diagnostics(&uri).await;
    assert!(!found["diagnostics"].to_string().contains("unknown-name"), "{found}");
    let answer = client.request("textDocument/definition", at(&uri, DESIGN, "\"kit.fi$0nw\"")).await;
    assert_eq!(answer["result"]["uri"], folder.uri("kit.finw"));
}

#[tokio::test]
async fn diagnostics_of_the_whole_workspace_are_pulled_once_each() {
    let folder = Folder::new("pulled-workspace");
    folder.write("kit.finw", KIT);
    folder.write("pupil.finw", &DESIGN.replace("pad: stand", "pad: stnad"));
    let mut params = able(&folder);
    params["capabilities"]["textDocument"]["diagnostic"] = json!({});
    params["capabilities"]["workspace"]["diagnostics"] = json!({"refreshSupport": true});
    params["initializationOptions"] = json!({"diagnostics": "workspace"});
    let mut client = Client::whole(params).await;
    let pupil = folder.uri("pupil.finw");
    // They are looked at in the background, and known when they are.
    let of_pupil = loop {
        let all = client.request("workspace/diagnostic", json!({"previousResultIds": []})).await;
        let items = all["result"]["items"].as_array().unwrap().clone();
        if let Some(found) = items.into_iter().find(|item| item["uri"] == pupil) {
            break found;
        }
    };
    assert_eq!((&of_pupil["kind"], &of_pupil["version"]), (&json!("full"), &Value::Null));
    assert!(of_pupil["items"].to_string().contains("no pad `stnad`"), "{of_pupil}");
    let had = json!({"previousResultIds": [{"uri": pupil, "value": of_pupil["resultId"]}]});
    let again = client.request("workspace/diagnostic", had).await;
    let items = again["result"]["items"].as_array().unwrap();
    assert_eq!(items.iter().find(|item| item["uri"] == pupil).unwrap()["kind"], "unchanged");
}

#[tokio::test]
async fn a_question_of_the_protocols_own_that_is_not_known_gets_an_answer() {
    let mut client = Client::start(json!({"capabilities": {}})).await;
    let answer = client.request("$/somethingNew", json!({})).await;
    assert_eq!(answer["error"]["code"], -32601);
}

/// What each capability is, and the tests above that show it.
const ROWS: &[(&str, &str, &[&str])] = &[
    ("positionEncoding", "utf-8 where the client knows it, else utf-16 or utf-32", &["positions_in_each_encoding"]),
    (
        "textDocumentSync",
        "incremental; unsaved files use one another; what is being typed is told quietly until it's \
            saved",
        &["unsaved_files_use_one_another", "typing_is_calm_until_it_is_saved"],
    ),
    (
        "hoverProvider",
        "values, converted units, stations, flights with their pads compared, what a file brings in; \
            plain text for clients without Markdown",
        &["hover_says_what_a_number_is_and_where_it_comes_from", "hover_in_plain_words_for_a_client_without_markdown"],
    ),
    (
        "completionProvider",
        "in blocks that are open or closed; whole parts with stops; names by nearness; paths; rules to \
            allow; settings",
        &[
            "completion_with_braces_open_and_a_closer_look",
            "completion_behind_a_space_stays_closed_where_nothing_is_due",
            "completion_of_paths_and_in_the_settings",
        ],
    ),
    ("signatureHelpProvider", "what a function takes", &["signature_help_while_brackets_are_open"]),
    (
        "definitionProvider",
        "names by kind, fields of parts, paths, the catalogue as a file to read",
        &["definition_by_kind_in_other_files_and_in_the_catalogue"],
    ),
    ("referencesProvider", "in all designs of the workspace", &["references_and_highlights_across_files"]),
    ("documentHighlightProvider", "in the document", &["references_and_highlights_across_files"]),
    (
        "renameProvider",
        "in all designs of the workspace, with a check beforehand",
        &["rename_prepares_refuses_and_reaches_unopened_files"],
    ),
    ("documentSymbolProvider", "the blocks as an outline", &["symbols_of_a_document_and_of_the_workspace"]),
    ("workspaceSymbolProvider", "everything that has a name", &["symbols_of_a_document_and_of_the_workspace"]),
    (
        "codeActionProvider",
        "fixes, all slips at once, allowing with a reason, what a block needs, materials, units, naming \
            values, guides to their advised places, what the bench says",
        &[
            "code_actions_mend_add_convert_name_and_allow",
            "code_actions_mend_all_slips_at_once",
            "a_rod_in_a_shared_file_is_mended_there_for_the_version_that_is_open",
            "a_value_gets_a_name_and_gives_it_back",
            "a_finding_is_allowed_with_a_reason",
        ],
    ),
    (
        "codeLensProvider",
        "a line above each flight, kept fresh",
        &["lenses_say_how_flights_do", "lenses_are_asked_for_again_when_a_shared_file_changes"],
    ),
    ("documentLinkProvider", "paths lead to their files", &["folding_selections_and_links"]),
    (
        "documentFormattingProvider",
        "the one style, by the smallest edits",
        &["formatting_changes_no_more_than_it_must"],
    ),
    ("documentRangeFormattingProvider", "the same for some lines", &["formatting_changes_no_more_than_it_must"]),
    ("documentOnTypeFormattingProvider", "the line that is finished", &["formatting_changes_no_more_than_it_must"]),
    ("foldingRangeProvider", "blocks, lists, remarks, files that are used", &["folding_selections_and_links"]),
    ("selectionRangeProvider", "word, value, statement, block", &["folding_selections_and_links"]),
    (
        "semanticTokensProvider",
        "what each word is, of all or of a stretch",
        &["semantic_tokens_of_all_and_of_a_stretch"],
    ),
    (
        "inlayHintProvider",
        "stations, masses, values; each can be switched off",
        &["hints_stand_beside_parts_and_each_kind_can_be_switched_off"],
    ),
    (
        "executeCommandProvider",
        "a rule's page; all designs checked, with progress",
        &["commands_explain_and_check_with_progress"],
    ),
    (
        "diagnosticProvider",
        "pulled by clients that can be told to ask again, pushed to others; off, open files or the whole \
            workspace",
        &[
            "diagnostics_are_pulled_by_those_who_can_be_told_to_ask_again",
            "diagnostics_are_pushed_with_their_page_their_places_and_their_tags",
            "diagnostics_of_the_whole_workspace_follow_a_part_that_is_renamed_in_the_kit",
            "diagnostics_of_the_whole_workspace_are_pulled_once_each",
        ],
    ),
    (
        "workspace",
        "several folders; moved and deleted files and folders",
        &["moving_a_file_or_a_folder_keeps_the_paths_right", "a_folder_that_goes_takes_its_files_along"],
    ),
];

#[tokio::test]
async fn the_list_of_features_is_what_is_offered() {
    let mut client = Client::silent();
    let capabilities = json!({
        "textDocument": {"diagnostic": {}}, "workspace": {"diagnostics": {"refreshSupport": true}},
    });
    let greeted = client.request("initialize", json!({"capabilities": capabilities})).await;
    let offered = greeted["result"]["capabilities"].as_object().unwrap().clone();
    let own = include_str!("features.rs");
    let mut page = String::from(
        "# What the server offers\n\nWritten from what it announces to a client that can do everything; each row names the \
         tests in `tests/features.rs`\nthat show it over the wire.\n\n| announced | what it is | tests |\n|---|---|---|\n",
    );
    let mut names: Vec<&String> = offered.keys().collect();
    names.sort_by_key(|name| ROWS.iter().position(|row| row.0 == name.as_str()));
    for name in names {
        let (_, what, tests) = ROWS.iter().find(|row| row.0 == name).unwrap_or_else(|| panic!("{name} has no row"));
        for test in *tests {
            assert!(own.contains(&format!("async fn {test}()")), "{test}");
        }
        let shown = match &offered[name] {
            Value::Bool(_) | Value::String(_) => String::new(),
            details => {
                let mut words = Vec::new();
                for key in ["triggerCharacters", "codeActionKinds", "commands"] {
                    if let Some(list) = details.get(key) {
                        words.extend(
                            list.as_array().unwrap().iter().map(|word| format!("`{}`", word.as_str().unwrap())),
                        );
                    }
                }
                if words.is_empty() {
                    String::new()
                } else {
                    format!(" ({})", words.join(" "))
                }
            }
        };
        let tests: Vec<String> = tests.iter().map(|test| format!("`{test}`")).collect();
        page += &format!("| `{name}`{shown} | {what} | {} |\n", tests.join(", "));
    }
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("FEATURES.md");
    if std::env::var_os("FINWRIGHT_UPDATE").is_some() {
        std::fs::write(&path, &page).unwrap();
    }
    assert_eq!(std::fs::read_to_string(&path).unwrap_or_default(), page, "FINWRIGHT_UPDATE=1 writes it anew");
    for (name, ..) in ROWS {
        assert!(offered.contains_key(*name), "{name} isn't offered");
    }
}

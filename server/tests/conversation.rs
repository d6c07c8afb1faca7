//! Whole conversations over streams: order, versions, requests, and every way to end.

#![allow(clippy::unwrap_used)]

use crate::support::{Client, Held};
use finwright_server::Ending;
use serde_json::{json, Value};

const URI: &str = "untitled:one.finw";

fn full() -> Value {
    json!({"capabilities": {
        "general": {"positionEncodings": ["utf-16", "utf-8"]},
        "textDocument": {
            "publishDiagnostics": {"relatedInformation": true},
            "codeAction": {"codeActionLiteralSupport": {"codeActionKind": {"valueSet": ["quickfix"]}}},
        },
        "workspace": {"workspaceEdit": {"documentChanges": true}},
    }})
}

fn range(l0: u32, c0: u32, l1: u32, c1: u32) -> Value {
    json!({"start": {"line": l0, "character": c0}, "end": {"line": l1, "character": c1}})
}

#[tokio::test]
async fn a_finding_becomes_a_diagnostic() {
    let mut client = Client::start(full()).await;
    client.open(URI, "ok\nso 😀 bad").await;
    let published = client.diagnostics(URI).await;
    assert_eq!(published["version"], 1);
    let expected = json!([{
        "range": range(1, 8, 1, 11),
        "severity": 2,
        "code": "test/bad-word",
        "source": "finwright",
        "message": "This word is bad.\nwhy: It was said to be.\nhelp: another word",
    }]);
    assert_eq!(published["diagnostics"], expected);
}

#[tokio::test]
async fn columns_are_utf16_where_bytes_are_not_offered() {
    let mut client = Client::silent();
    let answer = client.request("initialize", json!({"capabilities": {}})).await;
    assert_eq!(answer["result"]["capabilities"]["positionEncoding"], "utf-16");
    client.notify("initialized", json!({})).await;
    client.open(URI, "😀 bad").await;
    let published = client.diagnostics(URI).await;
    assert_eq!(published["diagnostics"][0]["range"], range(0, 3, 0, 6));
}

#[tokio::test]
async fn every_change_is_answered_with_its_version() {
    let mut client = Client::start(full()).await;
    client.open(URI, "").await;
    assert_eq!(client.diagnostics(URI).await["diagnostics"], json!([]));
    client.change(URI, 2, [0, 0, 0, 0], "bad\r\nbad").await;
    let two = client.diagnostics(URI).await;
    assert_eq!((&two["version"], two["diagnostics"].as_array().unwrap().len()), (&json!(2), 2));
    client.change(URI, 3, [0, 0, 1, 0], "").await;
    let three = client.diagnostics(URI).await;
    assert_eq!(three["version"], 3);
    assert_eq!(three["diagnostics"][0]["range"], range(0, 0, 0, 3));
    assert_eq!(three["diagnostics"].as_array().unwrap().len(), 1);
}

#[tokio::test]
async fn a_burst_ends_with_the_newest_text_and_never_goes_back() {
    const URI: &str = "untitled:burst.finw";
    let mut client = Client::start(full()).await;
    let mut first = Held::new(URI);
    client.open(URI, "hold ").await;
    first.begun().await;
    for version in 2..=40 {
        client.change(URI, version, [0, 5, 0, 5], "bad ").await;
    }
    client.taken_in().await;
    first.release();
    // What was overtaken while the first analysis ran is neither analysed nor told.
    let published = client.published_before_another().await;
    let told: Vec<(i64, usize)> = published
        .iter()
        .map(|one| (one["version"].as_i64().unwrap(), one["diagnostics"].as_array().unwrap().len()))
        .collect();
    assert_eq!(told, [(40, 39)]);
}

#[tokio::test]
async fn closing_empties_the_list_and_late_results_are_dropped() {
    const URI: &str = "untitled:closing.finw";
    let mut client = Client::start(full()).await;
    let mut late = Held::new(URI);
    client.open(URI, "hold bad").await;
    late.begun().await;
    client.notify("textDocument/didClose", json!({"textDocument": {"uri": URI}})).await;
    let published = client.diagnostics(URI).await;
    assert_eq!(published["diagnostics"], json!([]));
    late.release();
    assert_eq!(client.published_before_another().await, Vec::<Value>::new());
}

#[tokio::test]
async fn at_most_128_are_shown_and_the_rest_is_counted() {
    let mut client = Client::start(full()).await;
    client.open(URI, &"bad ".repeat(128)).await;
    assert_eq!(client.diagnostics(URI).await["diagnostics"].as_array().unwrap().len(), 128);
    client.change(URI, 2, [0, 0, 0, 0], "bad bad ").await;
    let published = client.diagnostics(URI).await;
    let shown = published["diagnostics"].as_array().unwrap();
    assert_eq!(shown.len(), 129);
    assert_eq!(shown[128]["message"], "and 2 more");
}

#[tokio::test]
async fn a_fix_is_offered_for_the_version_that_it_was_made_for() {
    let mut client = Client::start(full()).await;
    client.open(URI, "a bad word\na bad end").await;
    client.diagnostics(URI).await;
    let params = json!({
        "textDocument": {"uri": URI}, "range": range(1, 3, 1, 3), "context": {"diagnostics": [], "only": ["quickfix"]},
    });
    let answer = client.request("textDocument/codeAction", params).await;
    let actions = answer["result"].as_array().unwrap();
    assert_eq!(actions.len(), 1);
    assert_eq!(actions[0]["title"], "say fine");
    assert_eq!(actions[0]["kind"], "quickfix");
    assert_eq!(actions[0]["isPreferred"], true);
    assert_eq!(actions[0]["diagnostics"][0]["code"], "test/bad-word");
    let expected = json!({"documentChanges": [{
        "textDocument": {"uri": URI, "version": 1},
        "edits": [{"range": range(1, 2, 1, 5), "newText": "fine"}],
    }]});
    assert_eq!(actions[0]["edit"], expected);
}

#[tokio::test]
async fn fixes_are_quiet_when_something_else_is_asked_for() {
    let mut client = Client::start(full()).await;
    client.open(URI, "bad").await;
    for (only, count) in [("source", 1), ("quickfix", 1), ("", 1)] {
        let context = json!({"diagnostics": [], "only": [only]});
        let params = json!({"textDocument": {"uri": URI}, "range": range(0, 0, 0, 0), "context": context});
        let answer = client.request("textDocument/codeAction", params).await;
        assert_eq!(answer["result"].as_array().unwrap().len(), count, "{only:?}");
    }
}

#[tokio::test]
async fn a_question_waits_for_the_newest_text() {
    const URI: &str = "untitled:question.finw";
    let mut client = Client::start(full()).await;
    let mut analysis = Held::new(URI);
    client.open(URI, "hold").await;
    analysis.begun().await;
    client.change(URI, 2, [0, 0, 0, 0], "bad ").await;
    let params = json!({
        "textDocument": {"uri": URI}, "range": range(0, 0, 0, 0), "context": {"diagnostics": []},
    });
    let question = client.ask("textDocument/codeAction", params).await;
    client.taken_in().await;
    analysis.release();
    let answer = client.answer(question).await;
    assert_eq!(answer["result"][0]["edit"]["documentChanges"][0]["textDocument"]["version"], 2);
}

#[tokio::test]
async fn a_question_about_a_text_that_moved_on_is_turned_down() {
    const URI: &str = "untitled:moved.finw";
    let mut client = Client::start(full()).await;
    let mut analysis = Held::new(URI);
    client.open(URI, "hold").await;
    analysis.begun().await;
    let position = json!({"line": 0, "character": 0});
    let hover = json!({"textDocument": {"uri": URI}, "position": position});
    let id = client.ask("textDocument/hover", hover.clone()).await;
    client.change(URI, 2, [0, 0, 0, 0], "x").await;
    assert_eq!(client.answer(id).await["error"]["code"], -32801);
    let id = client.ask("textDocument/hover", hover).await;
    client.notify("textDocument/didClose", json!({"textDocument": {"uri": URI}})).await;
    assert_eq!(client.answer(id).await["result"], Value::Null);
}

#[tokio::test]
async fn a_cancelled_question_is_answered_as_such() {
    const URI: &str = "untitled:cancelled.finw";
    let mut client = Client::start(full()).await;
    let mut analysis = Held::new(URI);
    client.open(URI, "hold").await;
    analysis.begun().await;
    let hover = json!({"textDocument": {"uri": URI}, "position": {"line": 0, "character": 0}});
    let id = client.ask("textDocument/hover", hover).await;
    client.notify("$/cancelRequest", json!({"id": id})).await;
    assert_eq!(client.answer(id).await["error"]["code"], -32800);
}

#[tokio::test]
async fn many_waiting_questions_do_not_stop_the_edits() {
    const URI: &str = "untitled:many.finw";
    let mut client = Client::start(full()).await;
    let mut analysis = Held::new(URI);
    client.open(URI, "hold").await;
    analysis.begun().await;
    let hover = json!({"textDocument": {"uri": URI}, "position": {"line": 0, "character": 0}});
    for _ in 0..20 {
        client.ask("textDocument/hover", hover.clone()).await;
    }
    client.change(URI, 2, [0, 0, 0, 4], "bad").await;
    client.taken_in().await;
    analysis.release();
    assert_eq!(client.diagnostics(URI).await["version"], 2);
}

#[tokio::test]
async fn a_crash_costs_one_result() {
    let mut client = Client::start(full()).await;
    client.open(URI, "crash").await;
    let published = client.diagnostics(URI).await;
    let message = published["diagnostics"][0]["message"].as_str().unwrap();
    assert!(message.starts_with("The analysis of this file failed"), "{message}");
    client.change(URI, 2, [0, 0, 0, 5], "bad").await;
    let published = client.diagnostics(URI).await;
    assert_eq!(published["diagnostics"][0]["code"], "test/bad-word");
}

#[tokio::test]
async fn a_huge_file_is_not_read_and_says_so() {
    let mut client = Client::start(full()).await;
    client.open(URI, &"bad\n".repeat(250_001)).await;
    let published = client.diagnostics(URI).await;
    assert_eq!(published["diagnostics"].as_array().unwrap().len(), 1);
    let message = published["diagnostics"][0]["message"].as_str().unwrap();
    assert!(message.contains("larger than 1 MB"), "{message}");
}

#[tokio::test]
async fn positions_that_do_not_exist_are_moved_to_the_nearest_that_do() {
    let mut client = Client::start(json!({"capabilities": {}})).await;
    client.open(URI, "😀\r\nbad").await;
    // Inside the surrogate pair; far right of the line; far below the text; backwards.
    let ranges = [[0, 1, 0, 1], [0, 99, 0, u32::MAX], [u32::MAX, 7, u32::MAX, 9], [1, 3, 0, 0]];
    for (number, range) in ranges.into_iter().enumerate() {
        client.change(URI, number as i32 + 2, range, "-").await;
    }
    let mut published = client.diagnostics(URI).await;
    while published["version"] != 5 {
        published = client.diagnostics(URI).await;
    }
    // "-😀-" and "bad--": the first edit goes before the pair, the last one to the start of its backward range.
    assert_eq!(published["diagnostics"][0]["range"], range(1, 0, 1, 3));
    let hover = json!({"textDocument": {"uri": URI}, "position": {"line": 77, "character": 4_000_000}});
    assert_eq!(client.request("textDocument/hover", hover).await["result"], Value::Null);
}

#[tokio::test]
async fn what_is_not_a_message_costs_an_error_and_nothing_else() {
    let mut client = Client::start(full()).await;
    let cases: [(&[u8], i32); 6] = [
        (b"Content-Length: 7\r\n\r\n{\"a\": ]", -32700),
        (b"Content-Length: 4\r\n\r\n\"\xff\xff\"", -32700),
        (b"Content-Length: 8\r\n\r\n{\"a\": 1}", -32600),
        (b"Content-Length: 2\r\n\r\n[]", -32600),
        (b"Content-Length: none\r\n\r\n", -32700),
        (b"Content-Length: 24\r\n\r\n{\"id\":1.5,\"method\":\"xy\"}", -32600),
    ];
    for (bytes, code) in cases {
        client.raw(bytes).await;
        let answer = client.until(|message| message.get("error").is_some()).await;
        assert_eq!((&answer["error"]["code"], &answer["id"]), (&json!(code), &Value::Null));
    }
    client.open(URI, "bad").await;
    assert_eq!(client.diagnostics(URI).await["diagnostics"].as_array().unwrap().len(), 1);
}

#[tokio::test]
async fn a_message_beyond_all_measure_is_skipped() {
    let mut client = Client::start(full()).await;
    let length = (256 << 20) + 1;
    client.raw(format!("Content-Length: {length}\r\n\r\n").as_bytes()).await;
    let piece = vec![b' '; 1 << 20];
    for _ in 0..256 {
        client.raw(&piece).await;
    }
    client.raw(b" ").await;
    let answer = client.until(|message| message.get("error").is_some()).await;
    assert!(answer["error"]["message"].as_str().unwrap().contains("256 MB"));
    client.open(URI, "bad").await;
    assert_eq!(client.diagnostics(URI).await["diagnostics"].as_array().unwrap().len(), 1);
}

#[tokio::test]
async fn shutdown_then_exit_is_proper_with_the_streams_open() {
    let mut client = Client::start(full()).await;
    let answer = client.request("shutdown", Value::Null).await;
    assert_eq!(answer["result"], Value::Null);
    assert!(answer.get("error").is_none());
    client.notify("exit", Value::Null).await;
    assert_eq!(client.ending().await, Ending::Proper);
}

#[tokio::test]
async fn exit_alone_is_abrupt_with_the_streams_open() {
    let mut client = Client::start(full()).await;
    client.notify("exit", Value::Null).await;
    assert_eq!(client.ending().await, Ending::Abrupt);
    // A shutdown before the greeting is refused, so it doesn't count.
    let mut client = Client::silent();
    client.request("shutdown", Value::Null).await;
    client.notify("exit", Value::Null).await;
    assert_eq!(client.ending().await, Ending::Abrupt);
}

#[tokio::test]
async fn the_end_of_the_stream_ends_the_server() {
    assert_eq!(Client::start(full()).await.hang_up().await, Ending::Abrupt);
    let mut client = Client::start(full()).await;
    client.request("shutdown", Value::Null).await;
    assert_eq!(client.hang_up().await, Ending::Proper);
}

#[tokio::test]
async fn an_edit_during_a_code_action_is_not_held_up_by_it() {
    const URI: &str = "untitled:meanwhile.finw";
    let mut client = Client::start(full()).await;
    client.open(URI, "bad").await;
    client.diagnostics(URI).await;
    // The gate stands in the way of the fix that is tried, which says `hold` when it's applied.
    client.change(URI, 2, [0, 0, 0, 0], "hold ").await;
    client.diagnostics(URI).await;
    let mut trial = Held::new(URI);
    let params = json!({"textDocument": {"uri": URI}, "range": range(0, 5, 0, 5), "context": {"diagnostics": []}});
    let asked = client.ask("textDocument/codeAction", params).await;
    trial.begun().await;
    client.change(URI, 3, [0, 0, 0, 5], "").await;
    assert_eq!(client.diagnostics(URI).await["version"], 3);
    trial.release();
    assert_eq!(client.answer(asked).await["error"]["code"], -32801);
}

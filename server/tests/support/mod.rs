//! A client for tests, and an analysis that is simple enough to know the answers beforehand.

#![allow(clippy::unwrap_used, clippy::panic)]

use finwright_checks::{Analysis, Edit, Finding, Fix, Label, Level, Snapshot, Source};
use finwright_grammar::{FileId, Place, Span};
use finwright_server::{serve_with, Analyze, Ending};
use serde_json::{json, Value};
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{LazyLock, Mutex};
use std::time::Duration;
use tokio::io::{AsyncBufReadExt, AsyncReadExt, AsyncWriteExt, BufReader, DuplexStream, ReadHalf, WriteHalf};
use tokio::task::JoinHandle;

/// How long anything may take.
const PATIENCE: Duration = Duration::from_secs(10);

/// An analysis that a test holds up: it begins, and goes on when it's let go, by falling out of scope at the latest.
pub struct Held {
    begun: tokio::sync::mpsc::UnboundedReceiver<()>,
    go: Option<std::sync::mpsc::Sender<()>>,
}

impl Held {
    /// Hold up the first analysis of this document; its text has to say `hold`.
    pub fn new(uri: &str) -> Held {
        let (beginning, begun) = tokio::sync::mpsc::unbounded_channel();
        let (go, gone) = std::sync::mpsc::channel();
        GATES.lock().unwrap().insert(uri.rsplit('/').next().unwrap().to_string(), (beginning, gone));
        Held { begun, go: Some(go) }
    }

    /// Wait until the analysis has begun.
    pub async fn begun(&mut self) {
        tokio::time::timeout(PATIENCE, self.begun.recv()).await.unwrap().unwrap();
    }

    /// Let it go on.
    pub fn release(&mut self) {
        self.go.take();
    }
}

/// Where an analysis tells that it has begun, and waits until the other end is gone.
type Gate = (tokio::sync::mpsc::UnboundedSender<()>, std::sync::mpsc::Receiver<()>);

/// The gates by the last part of the documents' names: the server calls a plain function, which knows nothing else.
static GATES: LazyLock<Mutex<HashMap<String, Gate>>> = LazyLock::new(Mutex::default);

fn hold_up(path: &Path) {
    let name = path.file_name().unwrap().to_str().unwrap();
    let gate = GATES.lock().unwrap().remove(name);
    if let Some((beginning, gone)) = gate {
        beginning.send(()).unwrap();
        // It ends when the test drops its end.
        let _ = gone.recv();
    }
}

/// An editor at the other end of the streams.
pub struct Client {
    input: BufReader<ReadHalf<DuplexStream>>,
    output: WriteHalf<DuplexStream>,
    server: JoinHandle<Ending>,
    last_id: i64,
}

impl Client {
    /// Start a server and greet it.
    pub async fn start(params: Value) -> Client {
        let mut client = Client::silent();
        client.request("initialize", params).await;
        client.notify("initialized", json!({})).await;
        client
    }

    /// Start a server and say nothing yet.
    pub fn silent() -> Client {
        Client::silent_with(analyze)
    }

    /// Start a server with the whole of finwright behind it, and greet it.
    pub async fn whole(params: Value) -> Client {
        let mut client = Client::silent_with(finwright_checks::analyze);
        client.request("initialize", params).await;
        client.notify("initialized", json!({})).await;
        client
    }

    fn silent_with(analyze: Analyze) -> Client {
        let (ours, theirs) = tokio::io::duplex(1 << 20);
        let (input, output) = tokio::io::split(theirs);
        let server = tokio::spawn(serve_with(analyze, input, output));
        let (input, output) = tokio::io::split(ours);
        Client { input: BufReader::new(input), output, server, last_id: 0 }
    }

    pub async fn raw(&mut self, bytes: &[u8]) {
        self.output.write_all(bytes).await.unwrap();
    }

    pub async fn send(&mut self, message: Value) {
        let body = message.to_string();
        let frame = format!("Content-Length: {}\r\n\r\n{body}", body.len());
        self.raw(frame.as_bytes()).await;
    }

    pub async fn notify(&mut self, method: &str, params: Value) {
        self.send(json!({"jsonrpc": "2.0", "method": method, "params": params})).await;
    }

    /// Send a request without waiting for its answer.
    pub async fn ask(&mut self, method: &str, params: Value) -> i64 {
        self.last_id += 1;
        let id = self.last_id;
        self.send(json!({"jsonrpc": "2.0", "id": id, "method": method, "params": params})).await;
        id
    }

    /// The whole answer to a request.
    pub async fn request(&mut self, method: &str, params: Value) -> Value {
        let id = self.ask(method, params).await;
        self.answer(id).await
    }

    /// The answer to the request with this number; everything before it is dropped.
    pub async fn answer(&mut self, id: i64) -> Value {
        self.until(|message| message["id"] == id && message.get("method").is_none()).await
    }

    pub async fn until(&mut self, wanted: impl Fn(&Value) -> bool) -> Value {
        loop {
            let message = self.receive().await;
            if wanted(&message) {
                return message;
            }
        }
    }

    /// The next message. A test that waits for one that never comes has failed.
    pub async fn receive(&mut self) -> Value {
        let message = tokio::time::timeout(PATIENCE, async {
            let mut header = String::new();
            self.input.read_line(&mut header).await.unwrap();
            let length = header.trim().rsplit(' ').next().unwrap().parse().unwrap();
            self.input.read_line(&mut String::new()).await.unwrap();
            let mut body = vec![0; length];
            self.input.read_exact(&mut body).await.unwrap();
            serde_json::from_slice(&body).unwrap()
        });
        message.await.unwrap()
    }

    /// Wait until everything sent so far has been taken in: a question about a document that isn't open is answered at
    /// once, in its turn.
    pub async fn taken_in(&mut self) {
        let nowhere =
            json!({"textDocument": {"uri": "untitled:nowhere.finw"}, "position": {"line": 0, "character": 0}});
        self.request("textDocument/hover", nowhere).await;
    }

    /// Everything that is published until another document, opened now, has its turn: results come in the order of
    /// their analyses, so nothing about what was before can come later.
    pub async fn published_before_another(&mut self) -> Vec<Value> {
        const OTHER: &str = "untitled:another.finw";
        self.open(OTHER, "").await;
        let mut published = Vec::new();
        loop {
            let message = self.until(|message| message["method"] == "textDocument/publishDiagnostics").await;
            if message["params"]["uri"] == OTHER {
                return published;
            }
            published.push(message["params"].clone());
        }
    }

    pub async fn open(&mut self, uri: &str, text: &str) {
        let document = json!({"uri": uri, "languageId": "finwright", "version": 1, "text": text});
        self.notify("textDocument/didOpen", json!({"textDocument": document})).await;
    }

    /// Replace a range `[line, character, line, character]`.
    pub async fn change(&mut self, uri: &str, version: i32, range: [u32; 4], text: &str) {
        let change = json!({
            "range": {
                "start": {"line": range[0], "character": range[1]},
                "end": {"line": range[2], "character": range[3]},
            },
            "text": text,
        });
        let document = json!({"uri": uri, "version": version});
        self.notify("textDocument/didChange", json!({"textDocument": document, "contentChanges": [change]})).await;
    }

    /// The next diagnostics of the document.
    pub async fn diagnostics(&mut self, uri: &str) -> Value {
        let message = self
            .until(|message| message["method"] == "textDocument/publishDiagnostics" && message["params"]["uri"] == uri)
            .await;
        message["params"].clone()
    }

    /// Close this end of the streams without a word.
    pub async fn hang_up(mut self) -> Ending {
        self.output.shutdown().await.unwrap();
        drop(self.input);
        drop(self.output);
        self.server.await.unwrap()
    }

    /// Wait for the end of the server, with the streams left open.
    pub async fn ending(self) -> Ending {
        tokio::time::timeout(PATIENCE, self.server).await.unwrap().unwrap()
    }
}

/// A folder for one test.
pub struct Folder(pub PathBuf);

impl Folder {
    /// Its name is also the caller's file's: tests of two files run at the same time.
    #[track_caller]
    pub fn new(name: &str) -> Folder {
        let file = Path::new(std::panic::Location::caller().file()).file_stem().unwrap();
        let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{}-{name}", file.to_string_lossy()));
        let _ = std::fs::remove_dir_all(&path);
        std::fs::create_dir_all(&path).unwrap();
        Folder(path.canonicalize().unwrap())
    }

    pub fn write(&self, name: &str, text: &str) {
        let path = self.0.join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, text).unwrap();
    }

    pub fn uri(&self, name: &str) -> String {
        lsp_types::Url::from_file_path(self.0.join(name)).unwrap().into()
    }

    pub fn params(&self) -> Value {
        json!({
            "workspaceFolders": [{"uri": self.uri(""), "name": "test"}],
            "capabilities": {
                "textDocument": {
                    "publishDiagnostics": {"relatedInformation": true},
                    "codeAction": {"codeActionLiteralSupport": {"codeActionKind": {"valueSet": []}}},
                },
                "workspace": {
                    "workspaceEdit": {"documentChanges": true},
                    "didChangeWatchedFiles": {"dynamicRegistration": true},
                },
            },
        })
    }
}

/// Every word `bad` is a warning that can be mended to `fine`, `use NAME` reads a file and finds what is bad in it too,
/// `hold` waits for the test ([`Held`]), and `crash` panics.
pub fn analyze(snapshot: &Snapshot) -> Analysis {
    let mut analysis = finwright_checks::analyze(&Snapshot { text: "".into(), ..snapshot.clone() });
    analysis.sources = vec![Source { path: snapshot.path.clone(), text: snapshot.text.clone() }];
    analysis.findings = bad_words(0, &snapshot.text);
    if snapshot.text.contains("hold") {
        hold_up(&snapshot.path);
    }
    if snapshot.text.contains("crash") {
        panic!("as the text asked for");
    }
    for line in snapshot.text.lines() {
        let Some(name) = line.strip_prefix("use ") else {
            continue;
        };
        let start = name.as_ptr() as usize - snapshot.text.as_ptr() as usize;
        let here = place(0, start, start + name.len());
        let path = snapshot.path.parent().unwrap().join(name);
        match snapshot.files.read(&path) {
            Ok(text) => {
                let file = analysis.sources.len();
                for mut finding in bad_words(file as u32, &text) {
                    finding.labels = vec![Label { place: here, text: "used here".into() }];
                    analysis.findings.push(finding);
                }
                analysis.sources.push(Source { path, text });
            }
            Err(reason) => {
                let mut finding = finding(here);
                finding.message = reason;
                analysis.findings.push(finding);
            }
        }
    }
    analysis
}

fn bad_words(file: u32, text: &str) -> Vec<Finding> {
    text.match_indices("bad").map(|(start, word)| finding(place(file, start, start + word.len()))).collect()
}

fn finding(place: Place) -> Finding {
    Finding {
        rule: "test/bad-word",
        level: Level::Warning,
        place,
        message: "This word is bad.".into(),
        why: "It was said to be.".into(),
        help: "another word".into(),
        labels: Vec::new(),
        fixes: vec![Fix { title: "say fine".into(), edits: vec![Edit { place, text: "fine".into() }] }],
        elsewhere: None,
        also: Vec::new(),
        flight: None,
        of_rocket: false,
        unfinished: false,
        beyond: 1.0,
    }
}

fn place(file: u32, start: usize, end: usize) -> Place {
    Place { file: FileId(file), span: Span::new(start, end) }
}

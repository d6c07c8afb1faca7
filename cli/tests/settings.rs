//! `finwright.toml` on the command line, and the same in an editor.
#![allow(clippy::unwrap_used, clippy::panic)]

use serde_json::{json, Value};
use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

#[test]
fn a_broken_file_ends_with_1_and_its_line() {
    let folder = Folder::new("broken");
    folder.write("finwright.toml", "profile = \"club\"\n[levels]\n\"guide/slow-exit\" = \"loud\"\n");
    folder.design("designs/design.finw", "1 m");
    let (said, status) = folder.run(&["check", "--format", "line", "designs"], None);
    assert_eq!(status, 1);
    let line = "finwright.toml:3:1: error settings/not-understood: that isn't a level for `guide/slow-exit`; it \
        touches 1 design: designs/design.finw\n";
    assert!(said.contains(line), "{said}");
    assert!(said.starts_with("designs/design.finw: not as it is: settings/not-understood\n"), "{said}");
    folder.write("finwright.toml", "profile = \n");
    let (said, status) = folder.run(&["check", "--format", "line", "designs"], None);
    assert!(status == 1 && said.contains("finwright.toml:1:1: error settings/not-understood: it isn't TOML"), "{said}");
    std::fs::write(folder.0.join("finwright.toml"), b"profile = \"\xe9\"\n").unwrap();
    let (said, status) = folder.run(&["check", "--format", "line", "designs"], None);
    assert!(
        status == 1 && said.contains(":1:1: error settings/not-understood: it can't be used: it isn't text in UTF-8"),
        "{said}"
    );
}

#[test]
fn levels_decide_the_exit_status() {
    let folder = Folder::new("levels");
    folder.design("design.finw", "0.4 m");
    let status = |level: Option<&str>| {
        let text = level.map_or(String::new(), |level| format!("levels.\"guide/slow-exit\" = \"{level}\"\n"));
        folder.write("finwright.toml", &text);
        folder.run(&["check", "design.finw"], None)
    };
    assert_eq!(status(None).1, 1);
    let (said, code) = status(Some("warning"));
    assert!(code == 0 && said.starts_with("warning guide/slow-exit"), "{said}");
    let (said, code) = status(Some("off"));
    assert!(code == 0 && said.starts_with("design.finw: meets the checks\n"), "{said}");
    assert!(said.contains("  finwright.toml makes light of guide/slow-exit (off)\n"), "{said}");
}

#[test]
fn standard_input_takes_the_settings_of_the_working_folder() {
    let folder = Folder::new("stdin");
    let design = design("0.4 m");
    assert_eq!(folder.run(&["check", "-"], Some(&design)).1, 1);
    folder.write("finwright.toml", "levels.\"guide/slow-exit\" = \"off\"\n");
    assert_eq!(folder.run(&["check", "-"], Some(&design)).1, 0);
}

#[test]
fn each_folder_of_a_batch_has_its_own() {
    let folder = Folder::new("batch");
    folder.write("lax/finwright.toml", "thresholds.exit_speed = \"2 m/s\"\n");
    folder.write("finwright.toml", "levels.\"guide/slow-exit\" = \"warning\"\n");
    for name in ["lax/a.finw", "lax/deep/b.finw", "strict/c.finw", "d.finw"] {
        folder.design(name, "0.4 m");
    }
    let (said, status) = folder.run(&["check", "--format", "line", "."], None);
    assert_eq!(status, 0, "{said}");
    let verdicts: Vec<&str> = said.lines().filter(|line| !line.contains(" warning ")).collect();
    let wanted = [
        "d.finw: look at it: guide/slow-exit",
        "lax/a.finw: meets the checks",
        "lax/deep/b.finw: meets the checks",
        "strict/c.finw: look at it: guide/slow-exit",
    ];
    assert_eq!(verdicts, wanted, "{said}");
}

#[test]
fn the_code_that_a_field_follows_is_shown() {
    let folder = Folder::new("code");
    folder.design("design.finw", "1 m");
    assert!(!folder.run(&["show", "design.finw"], None).0.contains("14 CFR 101"));
    folder.write("finwright.toml", "code = \"us-class-1\"\n");
    assert!(folder.run(&["show", "design.finw"], None).0.contains("against 14 CFR 101 subpart C, class 1"));
    // What is asked for goes before what is set.
    let (said, _) = folder.run(&["show", "--limits", "us-model", "design.finw"], None);
    assert!(said.contains("against NFPA 1122") && !said.contains("against 14 CFR"), "{said}");
}

/// The editor's diagnostics are the command line's findings, whatever the settings say.
#[test]
fn editor_and_command_line_say_the_same() {
    let folder = Folder::new("same");
    folder.design("designs/design.finw", "0.4 m");
    for settings in [
        "",
        "levels.\"guide/slow-exit\" = \"warning\"\n",
        "levels.\"guide/slow-exit\" = \"note\"\nprofile = \"high-power\"\n",
        "levels.\"guide/slow-exit\" = \"off\"\n",
        "thresholds.exit_speed = \"9 m/s\"\nthresholds.margin = 4\n",
        "profile = 3\n",
    ] {
        folder.write("finwright.toml", settings);
        let (said, _) = folder.run(&["check", "--format", "json", "designs/design.finw"], None);
        let report: Value = serde_json::from_str(&said).unwrap();
        let told = |key: &str| -> Vec<[String; 3]> {
            let all = report[key].as_array().unwrap().iter();
            all.map(|f| ["rule", "level", "message"].map(|key| f[key].as_str().unwrap().to_string())).collect()
        };
        // What stands in finwright.toml is told there, with its line; an editor tells it at the design's top, with the
        // way there from the design.
        let shared = told("shared").into_iter().map(|[rule, level, message]| {
            let line = &report["shared"][0]["line"];
            [rule, level, format!("../{}, line {line}: {message}", report["shared"][0]["file"].as_str().unwrap())]
        });
        let on_the_line: Vec<[String; 3]> = shared.chain(told("findings")).collect();
        assert_eq!(in_an_editor(&folder, "designs/design.finw"), on_the_line, "{settings}");
    }
}

/// In the reader's units too, which for a program that asks for JSON are SI.
#[test]
fn editor_and_command_line_use_the_same_units() {
    let folder = Folder::new("same-units");
    folder.design("designs/design.finw", "0.4 m");
    folder.write("finwright.toml", "units = \"us\"\n");
    let (said, _) = folder.run(&["check", "--format", "line", "designs/design.finw"], None);
    let shown: Vec<String> = in_an_editor(&folder, "designs/design.finw")
        .into_iter()
        .map(|[rule, level, message]| format!("{level} {rule}: {message}"))
        .collect();
    let on_the_line: Vec<&str> = said.lines().filter_map(|line| line.splitn(4, ':').nth(3)).map(str::trim).collect();
    assert!(said.contains(" mph (") && shown == on_the_line, "{said}\n{shown:?}");
}

/// Rule, level and message of each diagnostic that the server gives for a design.
fn in_an_editor(folder: &Folder, name: &str) -> Vec<[String; 3]> {
    let mut server = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .arg("lsp")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut input = server.stdin.take().unwrap();
    let mut send = |message: Value| {
        let body = message.to_string();
        write!(input, "Content-Length: {}\r\n\r\n{body}", body.len()).unwrap();
    };
    let path = folder.0.join(name);
    let uri = format!("file://{}", path.display());
    let text = std::fs::read_to_string(path).unwrap();
    let root = json!([{"uri": format!("file://{}", folder.0.display()), "name": "all"}]);
    let greeting = json!({"capabilities": {}, "workspaceFolders": root});
    send(json!({"jsonrpc": "2.0", "id": 1, "method": "initialize", "params": greeting}));
    send(json!({"jsonrpc": "2.0", "method": "initialized", "params": {}}));
    let document = json!({"uri": uri, "languageId": "finwright", "version": 1, "text": text});
    send(json!({"jsonrpc": "2.0", "method": "textDocument/didOpen", "params": {"textDocument": document}}));
    let mut output = BufReader::new(server.stdout.take().unwrap());
    let published = loop {
        let message = received(&mut output);
        if message["method"] == "textDocument/publishDiagnostics" {
            break message["params"]["diagnostics"].clone();
        }
    };
    send(json!({"jsonrpc": "2.0", "id": 2, "method": "shutdown"}));
    send(json!({"jsonrpc": "2.0", "method": "exit"}));
    server.wait().unwrap();
    let one = |d: &Value| {
        let level = ["", "error", "warning", "note"][d["severity"].as_u64().unwrap() as usize];
        let message = d["message"].as_str().unwrap().lines().next().unwrap();
        [d["code"].as_str().unwrap(), level, message].map(String::from)
    };
    published.as_array().unwrap().iter().map(one).collect()
}

fn received(output: &mut impl BufRead) -> Value {
    let mut length = 0;
    loop {
        let mut header = String::new();
        assert!(output.read_line(&mut header).unwrap() > 0, "the server is gone");
        match header.trim().strip_prefix("Content-Length: ") {
            Some(number) => length = number.parse().unwrap(),
            None if header.trim().is_empty() => break,
            None => {}
        }
    }
    let mut body = vec![0; length];
    output.read_exact(&mut body).unwrap();
    serde_json::from_slice(&body).unwrap()
}

/// A sound design but for the length of its rod.
fn design(rod: &str) -> String {
    finwright_checks::example::BASE.replace("length: 1 m; material: steel", &format!("length: {rod}; material: steel"))
}

/// A folder for one test.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Folder {
        let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("settings-{name}"));
        let _ = std::fs::remove_dir_all(&path);
        std::fs::create_dir_all(&path).unwrap();
        Folder(path.canonicalize().unwrap())
    }

    fn write(&self, name: &str, text: &str) {
        let path = self.0.join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, text).unwrap();
    }

    fn design(&self, name: &str, rod: &str) {
        self.write(name, &design(rod));
    }

    /// What the command says from this folder, with its exit status.
    fn run(&self, arguments: &[&str], input: Option<&str>) -> (String, i32) {
        let mut child = Command::new(env!("CARGO_BIN_EXE_finwright"))
            .args(arguments)
            .current_dir(&self.0)
            .env("NO_COLOR", "1")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut stdin = child.stdin.take().unwrap();
        stdin.write_all(input.unwrap_or("").as_bytes()).unwrap();
        drop(stdin);
        let output = child.wait_with_output().unwrap();
        (String::from_utf8(output.stdout).unwrap(), output.status.code().unwrap())
    }
}

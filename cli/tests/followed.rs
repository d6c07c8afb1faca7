//! The guides are followed step by step, as a reader would: each file is written as they say, each change made, each
//! command run, and what it says compared with what the guide says. A line with nothing but … stands for any lines.
#![cfg(feature = "pictures")]
#![allow(clippy::unwrap_used, clippy::panic)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// A guide's text, and how many commands it has to run.
const GUIDES: [(&str, &str, usize); 2] = [
    ("beginning", include_str!("../src/topics/beginning.md"), 12),
    ("teaching", include_str!("../src/topics/teaching.md"), 2),
];

#[test]
fn every_step_of_a_guide_does_what_it_says() {
    for (name, text, commands) in GUIDES {
        let home = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("guide-{name}"));
        let _ = fs::remove_dir_all(&home);
        fs::create_dir_all(&home).unwrap();
        let run: usize = steps(text).iter().map(|(head, lines)| step(&home, head, lines)).sum();
        assert_eq!(run, commands, "{name}");
        for command in text.split('`').filter(|words| words.starts_with("finwright explain ")) {
            self::commands(&home, &[format!("$ {command}"), "…".to_string()]);
        }
    }
    let teacher = Path::new(env!("CARGO_TARGET_TMPDIR")).join("guide-teaching/pages");
    for page in ["teacher.html", "grades.csv", "pupils/s01.html", "feedback/s03.md"] {
        assert!(teacher.join(page).is_file(), "{page}");
    }
}

/// The fences of a page: what stands behind the three marks, and the lines.
fn steps(text: &str) -> Vec<(String, Vec<String>)> {
    let mut found = Vec::new();
    let mut lines = text.lines();
    while let Some(line) = lines.next() {
        if let Some(head) = line.strip_prefix("```") {
            found.push((
                head.to_string(),
                lines.by_ref().take_while(|line| *line != "```").map(str::to_string).collect(),
            ));
        }
    }
    found
}

/// Do one step; how many commands were run.
fn step(home: &Path, head: &str, lines: &[String]) -> usize {
    let words: Vec<&str> = head.split(' ').collect();
    let whole = || lines.join("\n") + "\n";
    let read = |path: &PathBuf| fs::read_to_string(path).unwrap();
    match words.as_slice() {
        ["finw" | "csv" | "toml", name] => {
            let path = home.join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, whole()).unwrap();
        }
        ["more", name] => {
            let path = home.join(name);
            fs::write(&path, format!("{}\n{}", read(&path), whole())).unwrap();
        }
        ["change", name] => fs::write(home.join(name), changed(&read(&home.join(name)), lines)).unwrap(),
        ["copy", from, to] => fs::write(home.join(to), changed(&read(&home.join(from)), lines)).unwrap(),
        ["sh"] => return commands(home, lines),
        other => panic!("nobody knows what to do with {other:?}"),
    }
    0
}

/// A text with a line's words, behind `- `, replaced by those behind `+ `.
fn changed(text: &str, lines: &[String]) -> String {
    let of = |mark: &str| lines.iter().find_map(|line| line.strip_prefix(mark)).unwrap().to_string();
    let (old, new) = (of("- "), of("+ "));
    assert_eq!(text.matches(&old).count(), 1, "{old}");
    text.replace(&old, &new)
}

fn commands(home: &Path, lines: &[String]) -> usize {
    let mut run = 0;
    let mut rest = lines;
    while let Some((command, more)) = rest.split_first() {
        let end = more.iter().position(|line| line.starts_with("$ ")).unwrap_or(more.len());
        let arguments = shlex::split(command.strip_prefix("$ finwright ").unwrap()).unwrap();
        let output = Command::new(env!("CARGO_BIN_EXE_finwright"))
            .args(arguments)
            .current_dir(home)
            .env("NO_COLOR", "1")
            .output()
            .unwrap();
        assert!(output.stderr.is_empty(), "{command}: {}", String::from_utf8_lossy(&output.stderr));
        let said = String::from_utf8(output.stdout).unwrap();
        compare(command, &more[..end], &said);
        (rest, run) = (&more[end..], run + 1);
    }
    run
}

/// What a command says against what the guide says, line by line.
fn compare(command: &str, told: &[String], said: &str) {
    let mut said: Vec<&str> = said.trim_end().lines().collect();
    for (number, piece) in told.split(|line| line == "…").enumerate() {
        let at = match (piece.is_empty(), number) {
            (true, _) => 0,
            (_, 0) => 0,
            _ => {
                let starts = |at: &usize| {
                    said[*at..].iter().zip(piece).filter(|(one, other)| **one == **other).count() == piece.len()
                };
                (0..said.len())
                    .find(starts)
                    .unwrap_or_else(|| panic!("{command} doesn't say {piece:?}\n{}", said.join("\n")))
            }
        };
        let found: Vec<&str> = said.iter().skip(at).take(piece.len()).copied().collect();
        assert_eq!(found, piece, "{command}");
        said.drain(..at + piece.len());
    }
    let open = told.iter().any(|line| line == "…");
    assert!(open || said.is_empty(), "{command} says more: {said:?}");
}

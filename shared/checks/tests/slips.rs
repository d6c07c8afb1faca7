//! probe
#![allow(clippy::unwrap_used)]
mod support;
use support::{analysis, SOUND};

#[test]
fn probe() {
    let text = std::fs::read_to_string("/tmp/slips/list").unwrap();
    for line in text.lines().filter(|l| l.contains(" => ")) {
        let (old, new) = line.split_once(" => ").unwrap();
        let (old, new) = (old.replace("\\n", "\n"), new.replace("\\n", "\n"));
        assert_eq!(SOUND.matches(&old).count(), 1, "{old}");
        let text = SOUND.replace(&old, &new);
        let found = analysis(&text);
        println!("\n=== {new}");
        for f in &found.findings {
            println!(
                "  {} at `{}`: {}\n      help {}",
                f.rule,
                f.place.span.of(&text).chars().take(60).collect::<String>(),
                f.message,
                f.help
            );
            for l in &f.labels {
                println!("      there `{}` {}", l.place.span.of(&text).chars().take(40).collect::<String>(), l.text);
            }
            for x in &f.fixes {
                println!("      fix {} -> {:?}", x.title, x.edits.iter().map(|e| e.text.clone()).collect::<Vec<_>>());
            }
        }
    }
}

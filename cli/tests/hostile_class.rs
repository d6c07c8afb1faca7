//! What a class may hand in that isn't meant well, or went wrong on its way: it costs only itself, and is told in a
//! line.
#![cfg(all(feature = "pictures", unix))]
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::handed::{finwright, hand_in, pages, scratch, WREN};
use std::fs;
use std::io::{Cursor, Write};
use std::os::unix::ffi::OsStrExt;
use std::path::Path;
use zip::write::SimpleFileOptions;
use zip::ZipWriter;

/// What is said of the only thing that somebody hands in beside a good design of another pupil's, which must stay good.
fn told(name: &str, put: impl Fn(&Path)) -> String {
    let home = scratch(name);
    hand_in::put(&home, &[("in/good.finw", WREN.as_bytes())]);
    put(&home.join("in"));
    let (text, errors, status) = finwright(&home, &["in", "--out", "pages"]);
    assert_eq!((errors.as_str(), status), ("", 0), "{text}");
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("good good 10 meets the checks"), "{text}");
    assert!(!text.contains(char::is_control), "{text:?}");
    assert!(
        !pages(&home.join("pages")).keys().any(|path| path.contains(".finwright-")),
        "nothing half-written is left"
    );
    text
}

fn zipped(name: &str, bytes: Vec<u8>) -> String {
    told(name, |folder| fs::write(folder.join("x.zip"), &bytes).unwrap())
}

#[test]
fn zips_that_grow() {
    let zeros = vec![b' '; 5_000_000];
    let text = zipped("zip-grows", hand_in::zip(&[("a.finw", &zeros)]));
    assert!(text.contains("x.zip/a.finw: it grows more than 200 times when unpacked, and isn't read"), "{text}");
    // Words that don't repeat, so that they grow little.
    let mut seed = 7_u64;
    let mut words = || {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        format!("{:x}", seed >> 32)
    };
    let long: String = (0..200_000).map(|_| words()).collect();
    let text = zipped("zip-large", hand_in::zip(&[("a.finw", long.as_bytes())]));
    assert!(text.contains("x.zip/a.finw: 1.6 MB: no design is that large"), "{text}");
    let short = &long.as_bytes()[..90_000];
    let names: Vec<String> = (0..150).map(|number| format!("{number}.finw")).collect();
    let many: Vec<(&str, &[u8])> = names.iter().map(|name| (name.as_str(), short)).collect();
    let text = zipped("zip-whole", hand_in::zip(&many));
    assert!(text.contains("it holds more than 8 MB of text: hand in the design alone"), "{text}");
}

#[test]
fn zips_of_many_files_and_deep_folders() {
    let names: Vec<String> = (0..5000).map(|number| format!("{number}.finw")).collect();
    let many: Vec<(&str, &[u8])> = names.iter().map(|name| (name.as_str(), WREN.as_bytes())).collect();
    let text = zipped("zip-many", hand_in::zip(&many));
    assert!(text.contains("x.zip: this zip holds 5000 files: hand in the design and what it uses, no more"), "{text}");
    let deep = format!("{}a.finw", "deeper/".repeat(60));
    let text = zipped("zip-deep", hand_in::zip(&[(deep.as_str(), WREN.as_bytes())]));
    assert!(text.contains("folders in folders, more than 8 deep, aren't looked into"), "{text}");
    let inner = hand_in::zip(&[("a.finw", WREN.as_bytes())]);
    let text = zipped("zip-in-zip", hand_in::zip(&[("inner.zip", &inner)]));
    assert!(text.contains("x.zip/inner.zip: a zip in a zip isn't opened"), "{text}");
}

#[test]
fn zips_whose_paths_lead_out() {
    for (number, path) in
        ["../../out.finw", "/etc/out.finw", "a/../../out.finw", "C:\\out.finw", "..\\..\\out.finw"].iter().enumerate()
    {
        let text = zipped(&format!("zip-out-{number}"), hand_in::zip(&[(path, WREN.as_bytes())]));
        assert!(text.contains("its path leads out of the zip, and isn't followed"), "{path}: {text}");
        assert!(text.contains("x x 0 nothing that can be read"), "{path}: {text}");
    }
}

#[test]
fn zips_with_links_lies_and_passwords() {
    let mut out = ZipWriter::new(Cursor::new(Vec::new()));
    out.add_symlink("link.finw", "../good.finw", SimpleFileOptions::default()).unwrap();
    let text = zipped("zip-link", out.finish().unwrap().into_inner());
    assert!(text.contains("x.zip/link.finw: it is a link: hand in the file itself"), "{text}");
    // The list says that the file has ten bytes.
    let mut lies = hand_in::zip(&[("a.finw", WREN.as_bytes())]);
    let list = lies.windows(4).rposition(|mark| mark == b"PK\x01\x02").unwrap();
    lies[list + 24..list + 28].copy_from_slice(&10_u32.to_le_bytes());
    let text = zipped("zip-lies", lies);
    assert!(text.contains("x x "), "{text}");
    // A flag says that it's behind a password.
    let mut locked = hand_in::zip(&[("a.finw", WREN.as_bytes())]);
    let list = locked.windows(4).rposition(|mark| mark == b"PK\x01\x02").unwrap();
    locked[list + 8] |= 1;
    locked[6] |= 1;
    let text = zipped("zip-locked", locked);
    assert!(text.contains("x.zip/a.finw: it is behind a password: pack it without one"), "{text}");
    // Cut off, and changed at every hundredth byte.
    let whole = hand_in::zip(&[("a.finw", WREN.as_bytes())]);
    let text = zipped("zip-cut", whole[..whole.len() / 2].to_vec());
    assert!(text.contains("x.zip: this zip is broken or not whole: pack it again"), "{text}");
    for at in (4..whole.len()).step_by(100) {
        let mut broken = whole.clone();
        broken[at] ^= 0xff;
        zipped("zip-broken", broken);
    }
}

#[test]
fn links_and_what_is_no_file() {
    let link = |target: &'static str| {
        told("link", move |folder| std::os::unix::fs::symlink(target, folder.join("x.finw")).unwrap())
    };
    for target in ["/etc/passwd", "good.finw", "nowhere.finw", "x.finw"] {
        assert!(link(target).contains("x.finw: it is a link: hand in the file itself"), "{target}");
    }
    let text = told("link-within", |folder| {
        fs::create_dir(folder.join("x")).unwrap();
        std::os::unix::fs::symlink("../good.finw", folder.join("x/mine.finw")).unwrap();
        std::os::unix::fs::symlink("..", folder.join("x/up")).unwrap();
    });
    assert!(text.contains("x/mine.finw: it is a link"), "{text}");
    let text = told("pipe", |folder| {
        let made = std::process::Command::new("mkfifo").arg(folder.join("x.finw")).status().unwrap();
        assert!(made.success());
    });
    assert!(text.contains("x.finw: it isn't a file"), "{text}");
}

#[test]
fn sizes_and_numbers() {
    let text = told("huge", |folder| fs::File::create(folder.join("x.finw")).unwrap().set_len(200_000_000).unwrap());
    assert!(text.contains("x.finw: 200 MB: no design is that large"), "{text}");
    let text = told("huge-zip", |folder| {
        let mut file = fs::File::create(folder.join("x.zip")).unwrap();
        file.write_all(b"PK\x03\x04").unwrap();
        file.set_len(200_000_000).unwrap();
    });
    assert!(text.contains("x.zip: 200 MB: "), "{text}");
    let text = told("crowd", |folder| {
        fs::create_dir(folder.join("x")).unwrap();
        (0..3000).for_each(|number| fs::write(folder.join(format!("x/{number}.finw")), "finwright 1\n").unwrap());
    });
    assert!(text.contains("it holds more than 200 files: hand in the design and what it uses, no more"), "{text}");
    let text = told("deep", |folder| {
        let deep = folder.join("x").join("deeper/".repeat(40));
        fs::create_dir_all(&deep).unwrap();
        fs::write(deep.join("a.finw"), WREN).unwrap();
    });
    assert!(text.contains("more than 8 deep, aren't looked into"), "{text}");
}

#[test]
fn names_that_move_cursors_or_are_none() {
    let text = told("names", |folder| {
        fs::write(folder.join("x\u{1b}[2J\n=y.finw"), WREN).unwrap();
        let odd = folder.join("x\u{7}");
        fs::create_dir(&odd).unwrap();
        fs::write(odd.join(std::ffi::OsStr::from_bytes(b"\xff\xfe.finw")), WREN).unwrap();
    });
    assert!(text.contains("x\u{FFFD}[2J\u{FFFD}=y"), "{text}");
    assert!(text.contains("a file in it has a name that can't be read: give it another"), "{text}");
}

#[test]
fn pages_that_cannot_be_written() {
    let home = scratch("unwritable");
    hand_in::put(&home, &[("in/a.finw", WREN.as_bytes()), ("in/b.finw", WREN.as_bytes())]);
    // A folder stands where a page should go.
    fs::create_dir_all(home.join("pages/pupils/a.html/full")).unwrap();
    let (text, errors, status) = finwright(&home, &["in", "--out", "pages"]);
    assert_eq!(status, 2);
    assert!(errors.starts_with("finwright: pages/pupils/a.html can't be written ("), "{errors}");
    assert!(text.contains("2 meet the checks"), "{text}");
    let found = pages(&home.join("pages"));
    assert!(
        found.contains_key("pupils/b.html") && found.contains_key("grades.csv") && found.contains_key("feedback/a.md")
    );
    assert!(!found.keys().any(|path| path.contains(".finwright-")), "{:?}", found.keys());
    let (_, errors, status) = finwright(&home, &["in", "--out", "in/pages"]);
    assert_eq!(
        (errors.as_str(), status),
        ("finwright: in/pages: the pages can't go into the folder of the submissions; name another\n", 2)
    );
    fs::write(home.join("file"), "").unwrap();
    let (_, errors, status) = finwright(&home, &["in", "--out", "file"]);
    assert!(status == 2 && errors.starts_with("finwright: file/pupils can't be made ("), "{errors}");
    let (_, errors, status) = finwright(&home, &["nowhere"]);
    assert_eq!((errors.as_str(), status), ("finwright: nowhere: there is no such file\n", 2));
}

/// A page is there whole or not at all, also where the disk is full: the space of a small file system of its own.
#[test]
fn a_full_disk_leaves_nothing_half_written() {
    let home = scratch("full-disk");
    let files: Vec<String> = (0..30).map(|number| format!("in/p{number:02}.finw")).collect();
    hand_in::put(&home, &files.iter().map(|path| (path.as_str(), WREN.as_bytes())).collect::<Vec<_>>());
    fs::create_dir(home.join("small")).unwrap();
    let script = format!(
        "mount -t tmpfs -o size=300k none small || exit 77; '{}' class in --out small; status=$?; cp -r small seen; exit $status",
        env!("CARGO_BIN_EXE_finwright")
    );
    let output = std::process::Command::new("unshare").args(["-rm", "sh", "-c", &script]).current_dir(&home).output();
    // Where nobody may mount anything there is no small disk to try it on.
    let Some(output) = output.ok().filter(|output| !matches!(output.status.code(), Some(77) | Some(1))) else { return };
    let errors = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(2), "{errors}");
    assert!(errors.contains("can't be written (") && errors.lines().count() <= 6, "{errors}");
    let seen = pages(&home.join("seen"));
    assert!(seen.keys().any(|path| path.ends_with(".html")), "what had room is there");
    for (path, bytes) in seen {
        assert!(!path.contains(".finwright-"), "{path}");
        if path.ends_with(".html") {
            assert!(bytes.ends_with(b"</html>\n"), "{path} is half there");
        }
    }
}

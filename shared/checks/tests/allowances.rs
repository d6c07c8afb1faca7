//! Comments that allow a rule where it would speak.
#![allow(clippy::unwrap_used)]

use crate::support;
use support::{analysis, expect, fixed, sound_but, sound_with};

const SHORT: (&str, &str) = ("length: 1 m; material: steel", "length: 0.58 m; material: steel");

#[test]
fn a_rule_is_allowed_on_the_next_line_with_a_reason() {
    // What isn't allowed speaks on.
    let two = ("flight two", "flight «two»");
    let spoken = [("guide/slow-front", "two's front guide leaves at 12 m/s; fins need about 13.4 m/s")];
    let text = sound_with(&[SHORT, two, ("flight one", "# allow guide/slow-exit: indoors, no wind\nflight one")]);
    expect(&text, &spoken);
    let text = sound_with(&[
        SHORT,
        two,
        ("flight one", "# allow guide/slow-exit: indoors, no wind\n\n# another remark\nflight one"),
    ]);
    expect(&text, &spoken);
}

#[test]
fn in_a_block_on_a_line_and_in_a_file() {
    let lug = ("at: balance;", "at: 40 mm from front;");
    for text in [
        sound_with(&[
            lug,
            ("  tube body {", "  # allow guide/lone-guide-off-balance: it flies from a tower\n  tube body {"),
        ]),
        sound_with(&[(
            "at: balance; clock: 60 deg }",
            "at: 40 mm from front; clock: 60 deg } # allow guide/lone-guide-off-balance: a tower",
        )]),
        sound_with(&[
            lug,
            ("finwright 1", "finwright 1\n# allow guide/lone-guide-off-balance in this file: it flies from a tower"),
        ]),
    ] {
        expect(&text, &[]);
    }
}

#[test]
fn elsewhere_the_rule_still_speaks() {
    let text = sound_with(&[
        SHORT,
        ("flight one", "flight «one»"),
        ("pad track", "# allow guide/slow-exit: indoors\npad track"),
    ]);
    let (plain, _) = support::unmark(&text);
    let rules: Vec<_> = analysis(&plain).findings.iter().map(|f| f.rule).collect();
    assert_eq!(rules, ["allow/unused", "guide/slow-exit", "guide/slow-front"]);
}

#[test]
fn an_unused_allowance_is_told_and_taken_out() {
    let text = sound_but("flight one", "«# allow guide/slow-exit: indoors»\nflight one");
    let found = expect(&text, &[("allow/unused", "guide/slow-exit finds nothing")]);
    let (plain, _) = support::unmark(&text);
    assert_eq!(fixed(&plain, &found.findings[0]), support::SOUND);
}

#[test]
fn a_broken_allowance_is_told() {
    for (comment, said) in [
        ("# allow guide/slow-exti: why", "there is no rule `guide/slow-exti`"),
        ("# allow guide/slow-exit", "without a reason"),
        ("# allow guide/slow-exit:  ", "without a reason"),
        ("# allow guide/slow-exit everywhere: why", "`everywhere` isn't a place"),
        ("# allow syntax/unreadable-line: why", "can't be allowed"),
        ("# allow file/not-checked: why", "can't be allowed"),
    ] {
        let text = sound_but("flight one", &format!("«{}»\nflight one", comment));
        expect(&text, &[("allow/broken", said)]);
    }
    expect(&sound_but("flight one", "# allow some time for the glue to dry\nflight one"), &[]);
}

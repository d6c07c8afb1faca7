//! Writing, and giving up politely.

use crate::layout::{measure, paragraph};
use clap::{Args, ValueEnum};
use serde::Serialize;
use std::borrow::Cow;
use std::ffi::OsString;
use std::io::{ErrorKind, IsTerminal, Write};
use std::process::ExitCode;
use std::sync::OnceLock;

/// Exit status for input that can't be used.
pub const UNUSABLE: u8 = 2;

/// How much is said, and in which colours.
#[derive(Clone, Copy, Args)]
pub struct Manners {
    /// Say only what is wrong.
    #[arg(short, long, global = true)]
    pub quiet: bool,
    /// Whether colours are used; without it, on a terminal that knows them.
    #[arg(long, value_enum, global = true, value_name = "WHEN", default_value_t = Colour::Auto)]
    pub color: Colour,
}

/// When colours are used.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Colour {
    /// On a terminal that knows them, unless its user wants none (NO_COLOR).
    Auto,
    /// Everywhere.
    Always,
    /// Nowhere.
    Never,
}

static COLOUR: OnceLock<Colour> = OnceLock::new();

/// Say once what was asked for.
pub fn colour(asked: Colour) {
    let _ = COLOUR.set(asked);
}

/// Whether what goes to standard output is coloured.
pub fn is_coloured() -> bool {
    match COLOUR.get().copied().unwrap_or(Colour::Auto) {
        Colour::Always => true,
        Colour::Never => false,
        Colour::Auto => colours(std::io::stdout().is_terminal(), |name| std::env::var_os(name)),
    }
}

/// Whether colours are welcome: on a terminal that knows them, unless its user wants none (no-color.org).
fn colours(is_terminal: bool, variable: impl Fn(&str) -> Option<OsString>) -> bool {
    let unwanted = variable("NO_COLOR").is_some_and(|value| !value.is_empty());
    let unknown = variable("TERM").is_some_and(|value| value == "dumb");
    is_terminal && !unwanted && !unknown
}

static LOST: OnceLock<String> = OnceLock::new();

/// Write words to standard output. What would move the cursor or name the window, which a design's text may hold, is
/// shown as `�`; colours are the drawing's own, which has cleaned what it draws.
pub fn print(text: &str) {
    match is_coloured() {
        true => print_as_it_is(text),
        false => print_as_it_is(&harmless(text)),
    }
}

/// Write to standard output what somebody reads back byte for byte. A reader that has gone away (`| head`) isn't an
/// error, and what can't be written for any other reason is told at the end.
pub fn print_as_it_is(text: &str) {
    let mut out = std::io::stdout().lock();
    if let Err(error) = out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        if error.kind() != ErrorKind::BrokenPipe {
            let _ = LOST.set(error.to_string());
        }
    }
}

/// The status to end with: where something couldn't be written that is the worst that could be said.
pub fn ended(code: ExitCode) -> ExitCode {
    match LOST.get() {
        Some(why) => unusable(&format!("standard output can't be written ({why})")),
        None => code,
    }
}

/// Write a value as JSON, or say why it can't be, with the status to end with.
pub fn print_json(value: &impl Serialize) -> Result<(), ExitCode> {
    let text = serde_json::to_string_pretty(value).map_err(|error| unusable(&error.to_string()))?;
    print(&(text + "\n"));
    Ok(())
}

/// Say on standard error why nothing could be done.
pub fn unusable(reason: &str) -> ExitCode {
    eprintln!("finwright: {reason}");
    ExitCode::from(UNUSABLE)
}

/// How far the numbers of a flight can be trusted: the head of tests/reference/REPORT.md in a line.
pub const TRUST: &str = "How far to trust these numbers: mass and balance as far as the file is right, a margin to \
    about 0.4 calibres with ordinary fins, a height to about 10 %.";

/// What every page of computed numbers ends with.
pub const CAUTION: &str = "Computed from the file, not measured. The range safety officer and the local code decide.";

/// What a page about pads ends with besides: what no number can say.
pub const AT_THE_PAD: &str = "At the pad: keep the key in your pocket while anyone is there, and never lean over the rod. \
If the motor doesn't light, take the key out and wait 60 seconds. Stand to the side when you pull on a guide to test it. \
A design that hasn't flown: warn everyone and stand further back.";

/// A closing sentence as a paragraph of its own.
pub fn closing(sentence: &str) -> String {
    format!("\n{}\n", paragraph(sentence, "", measure()))
}

/// A path or a name as an argument in a POSIX shell, where pasting it does nothing but name it. What can't be typed is
/// shown as `�` already.
pub fn quoted(argument: &str) -> String {
    let argument = printable(argument);
    // A leading dash would be taken for an option, even in quotes.
    let argument = if argument.starts_with('-') { format!("./{argument}") } else { argument };
    // Only a zero byte can't be quoted, and it isn't printable.
    shlex::try_quote(&argument).map_or_else(|_| String::new(), |quoted| quoted.into_owned())
}

/// A name with `�` for what would move the cursor or colour the page.
pub fn printable(name: &str) -> String {
    name.replace(char::is_control, "\u{FFFD}")
}

/// Text for a terminal: lines and tabs stay, and any other control character is shown as `�`.
pub fn harmless(text: &str) -> Cow<'_, str> {
    let harms = |c: char| c.is_control() && c != '\n' && c != '\t';
    if text.contains(harms) {
        Cow::Owned(text.replace(harms, "\u{FFFD}"))
    } else {
        Cow::Borrowed(text)
    }
}

/// So many of a thing: "1 error", "2 errors".
pub fn plural(n: usize, word: &str) -> String {
    if n == 1 {
        format!("1 {word}")
    } else {
        format!("{n} {word}s")
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn colours_only_where_they_are_known_and_wanted() {
        let told = |variables: &'static [(&str, &str)]| {
            colours(true, |name| variables.iter().find(|(known, _)| *known == name).map(|(_, value)| value.into()))
        };
        assert!(told(&[]) && told(&[("TERM", "xterm-256color"), ("NO_COLOR", "")]));
        assert!(!told(&[("NO_COLOR", "1")]) && !told(&[("NO_COLOR", "0"), ("TERM", "xterm")]));
        assert!(!told(&[("TERM", "dumb")]));
        assert!(!colours(false, |_| None), "a pipe isn't a terminal");
    }

    #[test]
    fn a_plain_path_stays_as_it_is() {
        assert_eq!(quoted("designs/first_term/swift-2.finw"), "designs/first_term/swift-2.finw");
        assert_eq!(quoted("my design.finw"), "'my design.finw'");
    }

    /// A shell that is given the quoted name passes it on as it was, and runs nothing in it.
    #[cfg(unix)]
    #[test]
    fn whatever_a_file_is_called_a_shell_takes_it_as_one_name() {
        for name in [
            "my design.finw",
            "$(echo run).finw",
            "`echo run`.finw",
            "it's.finw",
            "\"two\" 'three'.finw",
            "a;b&c|d>e<f.finw",
            "*?[a]{b,c}~.finw",
            "!history #comment.finw",
            "back\\slash.finw",
            "$HOME.finw",
            "été\u{FFFD}.finw",
            "",
        ] {
            let command = format!("printf '[%s]' {}", quoted(name));
            let done = std::process::Command::new("sh").args(["-c", &command]).output().unwrap();
            assert_eq!(String::from_utf8(done.stdout).unwrap(), format!("[{name}]"), "{command}");
        }
    }

    #[test]
    fn a_leading_dash_is_no_option() {
        assert_eq!(quoted("-rf.finw"), "./-rf.finw");
        assert_eq!(quoted("--flight"), "./--flight");
    }

    #[test]
    fn what_cannot_be_typed_is_shown_and_does_nothing() {
        assert_eq!(quoted("two\nlines"), "'two\u{FFFD}lines'");
        assert_eq!(quoted("\u{1b}[2Jclear\0"), "'\u{FFFD}[2Jclear\u{FFFD}'");
    }
}

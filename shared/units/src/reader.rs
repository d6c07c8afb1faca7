//! Whose units the words of [`crate::show`] are in: SI, or the reader's own first with SI in brackets.
//!
//! It's a setting of the thread for as long as a closure runs, and not an argument, since words are made in some five
//! hundred places that have nothing else to do with it. That is no hidden state: the setting is entered from the
//! settings that came in with a snapshot, by whoever makes words from that snapshot; nothing else sets it; what it was
//! before is restored when the closure ends, by returning or by a panic; and a thread that nobody has set speaks SI. So
//! what is said depends on the snapshot alone. Numbers, edits, JSON and CSV never look at it: see [`crate::show::si`].

use std::cell::Cell;

/// Whose units come first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Units {
    /// SI alone: `1 m`, `13.4 m/s`.
    #[default]
    Si,
    /// Those that people in the United States read, with SI behind: `39.4 in (1 m)`, `30 mph (13.4 m/s)`.
    Us,
}

/// The units by the name that settings and the command line give them, with what they are.
pub const UNITS: [(&str, Units, &str); 2] =
    [("si", Units::Si, "SI alone"), ("us", Units::Us, "inches, ounces and miles an hour first, SI in brackets")];

impl Units {
    /// The units of a name.
    pub fn named(name: &str) -> Option<Units> {
        UNITS.iter().find(|(known, ..)| *known == name).map(|(_, units, _)| *units)
    }
}

/// Make words for a reader of these units.
pub fn with<T>(units: Units, make: impl FnOnce() -> T) -> T {
    speaking(
        match units {
            Units::Si => Voice::Si,
            Units::Us => Voice::Both,
        },
        make,
    )
}

/// One phrase in the reader's units with the same in SI behind, for numbers that belong together: `45 mph to 47 mph
/// (20.1 m/s to 21 m/s)`, and not each with its own brackets.
pub fn in_both(phrase: impl Fn() -> String) -> String {
    match VOICE.get() {
        Voice::Si | Voice::Theirs | Voice::Behind => phrase(),
        Voice::Both => {
            let (theirs, si) = (speaking(Voice::Theirs, &phrase), speaking(Voice::Behind, &phrase));
            if theirs == si {
                si
            } else {
                format!("{theirs} ({si})")
            }
        }
    }
}

/// The reader's units without SI behind, for a table whose columns have no room for both.
pub fn alone<T>(make: impl FnOnce() -> T) -> T {
    match VOICE.get() {
        Voice::Both => speaking(Voice::Theirs, make),
        _ => make(),
    }
}

/// Whether words are in the units of the United States; in the brackets behind them they aren't.
pub(crate) fn is_us() -> bool {
    matches!(VOICE.get(), Voice::Both | Voice::Theirs)
}

/// Whether SI is all that the reader gets.
pub(crate) fn is_si_alone() -> bool {
    VOICE.get() == Voice::Si
}

#[derive(Clone, Copy, PartialEq)]
enum Voice {
    Si,
    Both,
    /// The reader's units alone, within [`in_both`].
    Theirs,
    /// SI in the brackets behind them.
    Behind,
}

thread_local! {
    static VOICE: Cell<Voice> = const { Cell::new(Voice::Si) };
}

fn speaking<T>(voice: Voice, make: impl FnOnce() -> T) -> T {
    /// Restores the voice that was before, by panic too.
    struct Before(Voice);
    impl Drop for Before {
        fn drop(&mut self) {
            VOICE.set(self.0);
        }
    }
    let _before = Before(VOICE.replace(voice));
    make()
}

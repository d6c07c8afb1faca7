//! Rules about the words themselves. The grammar and the model find these; here is what is said about them.

use crate::example::{Example, BASE};
use crate::finding::Level;
use crate::rule::{Concern, Family, Rule};

/// Every rule of the family.
pub static RULES: &[&Rule] = &[
    &UNREADABLE_LINE,
    &MISSING_VALUE,
    &UNCLOSED_BLOCK,
    &STRAY_BRACE,
    &UNCLOSED_LIST,
    &TOO_DEEP,
    &UNKNOWN_BLOCK,
    &UNKNOWN_FIELD,
    &UNKNOWN_NAME,
    &REPEATED_NAME,
    &REPEATED_FIELD,
    &CIRCULAR_VALUE,
    &UNKNOWN_UNIT,
    &MISSING_UNIT,
    &WRONG_DIMENSION,
    &WRONG_FORM,
    &OUT_OF_RANGE,
    &UNREADABLE_FILE,
    &CIRCULAR_USE,
    &EMPTY_FILE,
    &UNKNOWN_VERSION,
    &BROKEN_CURVE,
    &BROKEN_OUTLINE,
    &BROKEN_RECORD,
];

const fn words(
    family: Family,
    name: &'static str,
    summary: &'static str,
    why: &'static str,
    prose: &'static str,
    example: Example,
) -> Rule {
    Rule {
        name,
        family,
        concerns: Concern::Words,
        wind: None,
        level: Level::Error,
        summary,
        why,
        prose,
        thresholds: &[],
        example,
        check: None,
    }
}

/// `syntax/unreadable-line`.
pub static UNREADABLE_LINE: Rule = words(
    Family::Syntax,
    "syntax/unreadable-line",
    "a line that can't be read",
    "What can't be read isn't part of the rocket, and isn't checked.",
    include_str!("words/unreadable_line.md"),
    Example::new("let caliber = 24.8 mm", "let caliber = = 24.8 mm"),
);
/// `syntax/missing-value`.
pub static MISSING_VALUE: Rule = words(
    Family::Syntax,
    "syntax/missing-value",
    "a field without a value",
    "A field without a value says nothing, so what needs it isn't checked.",
    "Write the value behind the colon. Take the line out if you don't know it: unknown is allowed.",
    Example::new("delay: 4 s", "delay:"),
);
/// `syntax/unclosed-block`.
pub static UNCLOSED_BLOCK: Rule = words(
    Family::Syntax,
    "syntax/unclosed-block",
    "a block without its closing brace",
    "Without the brace it can only be guessed from the indentation where the block ends.",
    include_str!("words/unclosed_block.md"),
    Example::new("  }\n}\nmotor b8 {", "  }\n\nmotor b8 {"),
);
/// `syntax/stray-brace`.
pub static STRAY_BRACE: Rule = words(
    Family::Syntax,
    "syntax/stray-brace",
    "a brace without its partner",
    "A brace too many usually means that a block's first line is lost, and the block's parts with it.",
    include_str!("words/stray_brace.md"),
    Example::new("motor b8 {", "}\nmotor b8 {"),
);
/// `syntax/unclosed-list`.
pub static UNCLOSED_LIST: Rule = words(
    Family::Syntax,
    "syntax/unclosed-list",
    "a list without its closing bracket",
    "Without the bracket it can only be guessed where the list ends.",
    "A list stands in `[` and `]`, on one line or on several; its rows are separated by commas.",
    Example::new("0.6 s: 0 N]", "0.6 s: 0 N"),
);
/// `syntax/too-deep`.
pub static TOO_DEEP: Rule = words(
    Family::Syntax,
    "syntax/too-deep",
    "blocks or brackets nested beyond reason",
    "Nothing in a rocket is nested this deep; a brace or bracket is missing further up.",
    "A design nests four blocks deep at most: airframe, tube, mount, rings.",
    Example::new(
        "let caliber = 24.8 mm",
        "let caliber = \
        ((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((24.8 \
        mm))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))",
    ),
);
/// `name/unknown-block`.
pub static UNKNOWN_BLOCK: Rule = words(
    Family::Name,
    "name/unknown-block",
    "a block that the language doesn't have, or not in this place",
    "A block that isn't understood isn't part of the rocket, and isn't checked.",
    "The blocks that may stand in each place are listed in the language's reference.",
    Example::new("cord { length: 600 mm", "rope { length: 600 mm"),
);
/// `name/unknown-field`.
pub static UNKNOWN_FIELD: Rule = words(
    Family::Name,
    "name/unknown-field",
    "a field that its block doesn't have",
    "A field that isn't understood changes nothing, which is rarely what its author meant.",
    "Each block has its own fields. Hover over the block's word to see them.",
    Example::new("sticks_out: 5 mm", "overhang: 5 mm"),
);
/// `name/unknown-name`.
pub static UNKNOWN_NAME: Rule = words(
    Family::Name,
    "name/unknown-name",
    "a name that nothing defines",
    "What refers to nothing can't be computed.",
    include_str!("words/unknown_name.md"),
    Example::new("flight one { motor: b8", "flight one { motor: b6"),
);
/// `name/repeated-name`.
pub static REPEATED_NAME: Rule = words(
    Family::Name,
    "name/repeated-name",
    "one name for two things",
    "With two things of one name, a reader can't tell which one is meant.",
    include_str!("words/repeated_name.md"),
    Example::new("pad track {", "pad stand {"),
);
/// `name/repeated-field`.
pub static REPEATED_FIELD: Rule = words(
    Family::Name,
    "name/repeated-field",
    "a field said twice",
    "With two values for one thing, a reader can't tell which one is built.",
    "The first one counts; take the other one out.",
    Example::new("mass: 19 g;", "mass: 19 g; mass: 20 g;"),
);
/// `name/circular-value`.
pub static CIRCULAR_VALUE: Rule = words(
    Family::Name,
    "name/circular-value",
    "values that need each other",
    "A value that needs itself can't be computed.",
    "Follow the chain in the message and give one of its values a number of its own.",
    Example::new("let caliber = 24.8 mm", "let caliber = bore + 0.8 mm\nlet bore = caliber - 0.8 mm"),
);
/// `unit/unknown-unit`.
pub static UNKNOWN_UNIT: Rule = words(
    Family::Unit,
    "unit/unknown-unit",
    "a unit that doesn't exist here",
    "A number in an unknown unit could be anything.",
    "`oz` and `lb` are masses, `ozf` and `lbf` forces. Units join with `.` and `/`: `N.s`, `kg/m3`.",
    Example::new("mass: 19 g", "mass: 19 gramm"),
);
/// `unit/missing-unit`.
pub static MISSING_UNIT: Rule = words(
    Family::Unit,
    "unit/missing-unit",
    "a bare number where a quantity is due",
    "A bare 12 may be millimetres to one reader and inches to the next.",
    "Every quantity carries its unit, so that nobody has to know which one was meant.",
    Example::new("delay: 4 s", "delay: 4"),
);
/// `unit/wrong-dimension`.
pub static WRONG_DIMENSION: Rule = words(
    Family::Unit,
    "unit/wrong-dimension",
    "a quantity of another kind than is due",
    "A mass can't stand for a length, whatever its unit: one of the two is a slip.",
    "Arithmetic is checked too: a length plus a length is a length, a length times a length is an area.",
    Example::new("mass: 4 g", "mass: 4 mm"),
);
/// `value/wrong-form`.
pub static WRONG_FORM: Rule = words(
    Family::Value,
    "value/wrong-form",
    "a value of another form than is due",
    "A value of the wrong form says nothing, so what needs it isn't checked.",
    include_str!("words/wrong_form.md"),
    Example::new("shape: ogive", "shape: 3 mm"),
);
/// `value/out-of-range`.
pub static OUT_OF_RANGE: Rule = words(
    Family::Value,
    "value/out-of-range",
    "a number that can't be right",
    "A part of zero length or a nose of 48 m can't be built, so nothing that needs it is computed.",
    include_str!("words/out_of_range.md"),
    Example::new("thickness: 1.6 mm", "thickness: -1.6 mm"),
);
/// `file/unreadable-file`.
pub static UNREADABLE_FILE: Rule = words(
    Family::File,
    "file/unreadable-file",
    "a file that `use` names and that can't be read",
    "What stands in that file isn't known, so what needs it isn't checked.",
    "Paths are taken from the folder of the file that uses them and stay inside the workspace.",
    Example::new("let caliber = 24.8 mm", "use \"lost.finw\"\nlet caliber = 24.8 mm"),
);
/// `file/circular-use`.
pub static CIRCULAR_USE: Rule = words(
    Family::File,
    "file/circular-use",
    "files that use each other",
    "Files that use each other have no first one to start from.",
    "Move what both need to a third file and let both use that.",
    Example::new("let caliber = 24.8 mm", "use \"design.finw\"\nlet caliber = 24.8 mm"),
);
/// `file/empty-file`.
pub static EMPTY_FILE: Rule = words(
    Family::File,
    "file/empty-file",
    "a file with nothing in it",
    "An empty file has passed no check.",
    "A design starts with `finwright 1` and an `airframe`.",
    Example::new(BASE, ""),
);
/// `file/unknown-version`.
pub static UNKNOWN_VERSION: Rule = words(
    Family::File,
    "file/unknown-version",
    "a version of the language that this program doesn't know",
    "A newer version may mean something else by the same words.",
    "A design's first line names the version of the language that it's written in. This program knows version 1.",
    Example::new("finwright 1", "finwright 2"),
);
/// `motor/broken-curve`.
pub static BROKEN_CURVE: Rule = words(
    Family::Motor,
    "motor/broken-curve",
    "a thrust curve that can't be right",
    "Without a thrust curve nothing about the flight can be computed.",
    "A curve is a list of points, time and thrust each, in order of time, starting at ignition and ending at zero.",
    Example::new("0.05 s: 9 N, 0.1 s: 14 N", "0.1 s: 14 N, 0.05 s: 9 N"),
);
/// `file/broken-record`.
pub static BROKEN_RECORD: Rule = words(
    Family::File,
    "file/broken-record",
    "an instrument's record that nothing can be taken from",
    "What the record should say isn't known, and nothing is guessed in its place.",
    "A record is what an altimeter or a test stand wrote: lines of columns, with a header that names the units, in order \
        of time. It begins while all is quiet, since the zero is taken from there, and holds one flight or one burn.",
    Example::new("trace: file \"quiet.csv\"", "trace: file \"begins_late.csv\"").after(&[(
        "curve: [0 s: 0 N, 0.05 s: 9 N, 0.1 s: 14 N, 0.2 s: 13 N, 0.3 s: 6 N, 0.55 s: 5 N, 0.6 s: 0 N]",
        "trace: file \"quiet.csv\"",
    )]),
);
/// `fins/broken-outline`.
pub static BROKEN_OUTLINE: Rule = words(
    Family::Fins,
    "fins/broken-outline",
    "a fin's outline that can't be right",
    "Without its outline nothing about the fin can be computed.",
    include_str!("words/broken_outline.md"),
    Example::new(
        "outline: [0 mm: 0 mm, 25 mm: 40 mm, 55 mm: 40 mm, 50 mm: 0 mm]",
        "outline: [0 mm: 0 mm, 25 mm: 40 mm]",
    )
    .after(&[(
        "root: 50 mm; tip: 30 mm; span: 40 mm; sweep: 25 mm",
        "outline: [0 mm: 0 mm, 25 mm: 40 mm, 55 mm: 40 mm, 50 mm: 0 mm]",
    )]),
);

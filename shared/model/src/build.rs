//! From trees to the typed design.

mod block;
mod pad;
mod raw;
mod resolve;

use crate::design::{Design, Named};
use crate::evaluate::Evaluator;
use crate::files::{faults_of_used, load, Files, SourceFile, CATALOG};
use crate::meant::outside_of_blocks;
use crate::problem::{Problem, EMPTY_FILE, UNKNOWN_VERSION};
use block::top_block;
use finwright_grammar::{Block, FileId, Item, Place};
use raw::Raw;
use resolve::resolve;
use std::path::Path;
use std::sync::{Arc, LazyLock};

/// Build the design of a file. What can't be understood is in its problems; the rest is there.
pub fn build(path: &Path, text: Arc<str>, files: &dyn Files) -> Design {
    let mut problems = Vec::new();
    let loaded = load(path, text, files, &mut problems);
    read_files(loaded, files, FileId(0), problems, Some(0.0))
}

/// Build it again, now that it's known where the rocket balances, m from the tip: for a design with
/// [`Design::uses_balance`], whose values hang on that and move it a little in turn. Where it can't be known, neither
/// are they.
pub fn rebuild(design: Design, files: &dyn Files, balance: Option<f64>) -> Design {
    // What is wrong with the files themselves was found while they were loaded.
    let of_files = |p: &Problem| {
        (p.rule == crate::problem::UNREADABLE_FILE && p.elsewhere.is_none()) || p.rule == crate::problem::CIRCULAR_USE
    };
    let problems = design.problems.into_iter().filter(of_files).collect();
    read_files(design.files, files, FileId(0), problems, balance)
}

/// The catalogue's materials and sections, read once.
static CATALOG_DESIGN: LazyLock<Design> = LazyLock::new(|| {
    struct NoFiles;
    impl Files for NoFiles {
        fn read(&self, _: &Path) -> Result<Arc<str>, String> {
            Err("the catalogue uses no files".to_string())
        }
    }
    let loaded = load(Path::new(""), Arc::from(""), &NoFiles, &mut Vec::new());
    read_files(loaded, &NoFiles, CATALOG, Vec::new(), Some(0.0))
});

/// What is wrong with the built-in catalogue, which should be nothing.
pub fn catalog_problems() -> &'static [Problem] {
    &CATALOG_DESIGN.problems
}

fn read_files(
    loaded: Vec<SourceFile>,
    provider: &dyn Files,
    own: FileId,
    problems: Vec<Problem>,
    guess: Option<f64>,
) -> Design {
    let mut design = read_all(&loaded, provider, own, problems, guess);
    design.files = loaded;
    design
}

fn read_all(
    loaded: &[SourceFile],
    provider: &dyn Files,
    own: FileId,
    problems: Vec<Problem>,
    guess: Option<f64>,
) -> Design {
    let mut design = Design { problems, ..Design::default() };
    let mut ev = Evaluator::new(loaded, provider, guess);
    let mut raw = Raw::default();
    if own != CATALOG {
        design.materials = CATALOG_DESIGN.materials.clone();
        design.sections = CATALOG_DESIGN.sections.clone();
        ev.built_in = Some(&CATALOG_DESIGN);
    }
    for (number, file) in loaded.iter().enumerate() {
        let id = FileId(number as u32);
        let used = id != own;
        if used && id == CATALOG {
            continue;
        }
        if !used {
            check_top(&mut ev, id, file);
        }
        // A used file gives its definitions; its own airframe and flights are its own affair, and so are its problems.
        let before = ev.problems.len();
        let blocks = file.tree.items.iter().filter_map(|item| match item {
            Item::Block(block) => Some(block),
            _ => None,
        });
        // The booster stands behind the airframe, wherever on the page it's written.
        let (boosters, others): (Vec<&Block>, Vec<&Block>) = blocks.partition(|b| file.tree.text(b.word) == "booster");
        for block in others.into_iter().chain(boosters) {
            top_block(&mut ev, id, block, used, &mut raw, &mut design);
        }
        if used {
            design.problems_elsewhere.extend(ev.problems.drain(before..));
        }
    }
    resolve(&mut ev, raw, &mut design);
    // A value that nothing uses is still computed, so that its mistakes show while it's being written.
    for item in loaded.get(own.0 as usize).map(|f| f.tree.items.as_slice()).unwrap_or_default() {
        if let Item::Let(binding) = item {
            if let Some(value) = ev.named(own, binding) {
                let name = ev.text(own, binding.name).to_string();
                design.values.push((Named { value: name, place: Place { file: own, span: binding.name } }, value));
            }
        }
    }
    design.uses_balance = ev.uses_balance;
    // References inside of used files are followed last; what is wrong with them is told there too.
    let (own_problems, elsewhere): (Vec<Problem>, Vec<Problem>) =
        ev.problems.into_iter().partition(|problem| problem.place.file == own);
    design.problems.extend(own_problems);
    design.problems_elsewhere.extend(elsewhere);
    design.problems.extend(faults_of_used(loaded, &design.problems_elsewhere));
    // The same expression can be met on several ways; one report is enough.
    design.problems.sort_by(|a, b| a.place.cmp(&b.place).then(a.rule.cmp(b.rule)));
    design.problems.dedup_by(|a, b| a.place == b.place && a.rule == b.rule);
    design
}

fn is_other_version(number: &str) -> bool {
    number != "1" && number.chars().all(|c| c.is_ascii_digit())
}

fn check_top<'f>(ev: &mut Evaluator<'f>, id: FileId, file: &'f SourceFile) {
    let tree = &file.tree;
    if tree.items.is_empty() && tree.problems.is_empty() {
        let place = Place {
            file: id,
            span: finwright_grammar::Span::new(0, tree.text.chars().next().map_or(0, char::len_utf8)),
        };
        ev.report(Problem::new(
            EMPTY_FILE,
            place,
            "there is nothing in this file",
            "start with `finwright 1` and an `airframe { … }`",
        ));
    }
    for item in &tree.items {
        match item {
            // A version with another sign in it was told where it was read.
            Item::Version { number, .. } if is_other_version(tree.text(*number)) => {
                let place = Place { file: id, span: *number };
                ev.report(Problem::new(
                    UNKNOWN_VERSION,
                    place,
                    format!(
                        "this file is written in version {} of the language; this program knows version 1",
                        tree.text(*number)
                    ),
                    "get a newer program, or write `finwright 1`",
                ));
            }
            Item::Field(field) => {
                let problem = outside_of_blocks(ev, id, field);
                ev.report(problem);
                // It may be a named value; what uses it isn't wrong.
                ev.unread.insert(tree.text(field.name));
            }
            _ => {}
        }
    }
}

//! What the names of a design's files stand for.

use crate::files::{SourceFile, CATALOG};
use crate::problem::{Problem, REPEATED_NAME};
use finwright_grammar::vocabulary::OWN_NAMES;
use finwright_grammar::{Block, FileId, Item, Let, Place};
use fnv::FnvHashMap;
use std::collections::{HashMap, HashSet};

/// Names with what each stands for, in the order of files and lines.
pub(super) struct Names<'f> {
    named: HashMap<&'f str, Named<'f>>,
    /// Words that several blocks without a name have, so that they name none of them.
    several: HashSet<&'f str>,
    /// Each block's enclosing block.
    parents: FnvHashMap<*const Block, &'f Block>,
}

#[derive(Default)]
struct Named<'f> {
    values: Vec<(FileId, &'f Let)>,
    blocks: Vec<(FileId, &'f Block)>,
}

impl<'f> Names<'f> {
    /// The names in files, and what is wrong with those of values.
    pub fn of(files: &'f [SourceFile]) -> (Self, Vec<Problem>) {
        let mut names = Names { named: HashMap::new(), several: HashSet::new(), parents: FnvHashMap::default() };
        let mut problems = Vec::new();
        for (number, file) in files.iter().enumerate() {
            let id = FileId(number as u32);
            if id == CATALOG {
                continue;
            }
            for item in &file.tree.items {
                match item {
                    Item::Let(binding) => problems.extend(names.take_value(file, id, binding)),
                    Item::Block(block) => names.take_block(file, id, block),
                    _ => {}
                }
            }
        }
        names.take_several_out();
        (names, problems)
    }

    /// Every name that something has.
    pub fn all(&self) -> impl Iterator<Item = &'f str> + use<'_, 'f> {
        self.named.keys().copied()
    }

    /// The values of a name.
    pub fn values(&self, name: &str) -> &[(FileId, &'f Let)] {
        self.named.get(name).map(|named| named.values.as_slice()).unwrap_or_default()
    }

    /// The blocks of a name; one without a name goes by its word.
    pub fn blocks(&self, name: &str) -> &[(FileId, &'f Block)] {
        self.named.get(name).map(|named| named.blocks.as_slice()).unwrap_or_default()
    }

    /// Whether several blocks without a name go by this word.
    pub fn is_of_several(&self, word: &str) -> bool {
        self.several.contains(word)
    }

    /// The block around a block.
    pub fn parent(&self, block: &Block) -> Option<&'f Block> {
        self.parents.get(&std::ptr::from_ref(block)).copied()
    }

    fn take_value(&mut self, file: &'f SourceFile, id: FileId, binding: &'f Let) -> Option<Problem> {
        let name = file.tree.text(binding.name);
        let values = &mut self.named.entry(name).or_default().values;
        let first = values.iter().find(|(at, _)| *at == id).map(|(_, first)| first.name);
        values.push((id, binding));
        let place = Place { file: id, span: binding.name };
        if let Some((_, meant)) = OWN_NAMES.iter().find(|(own, _)| *own == name) {
            let message = format!("`{name}` is {meant} already, wherever it stands");
            return Some(Problem::new(REPEATED_NAME, place, message, "give this value another name"));
        }
        let help = "give one of them another name; the first one counts";
        let first = Place { file: id, span: first? };
        Some(Problem::new(REPEATED_NAME, place, format!("`{name}` is named twice"), help).label(first, "the first one"))
    }

    fn take_block(&mut self, file: &'f SourceFile, id: FileId, block: &'f Block) {
        let name = file.tree.text(block.name.unwrap_or(block.word));
        if !name.is_empty() {
            self.named.entry(name).or_default().blocks.push((id, block));
        }
        for inner in block.blocks() {
            self.parents.insert(std::ptr::from_ref(inner), block);
            self.take_block(file, id, inner);
        }
    }

    /// Takes blocks out that have no name and whose word another such block of their file has too: the word names
    /// neither.
    fn take_several_out(&mut self) {
        for (name, Named { blocks, .. }) in &mut self.named {
            let homes: Vec<FileId> =
                blocks.iter().filter(|(_, block)| block.name.is_none()).map(|(at, _)| *at).collect();
            let is_one_of_several = |at: FileId| homes.iter().filter(|other| **other == at).count() > 1;
            let before = blocks.len();
            blocks.retain(|(at, block)| block.name.is_some() || !is_one_of_several(*at));
            if blocks.len() < before {
                self.several.insert(*name);
            }
        }
        self.named.retain(|_, named| !named.values.is_empty() || !named.blocks.is_empty());
    }
}

//! The house stands: inside every crate the modules import one another in one direction only. A module and its own
//! children may name each other; no other modules go round in a ring, whether they name a thing by its own path or by a
//! re-export.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use syn::visit::{self, Visit};

/// A module's path below its crate's root.
type Module = Vec<String>;

#[test]
fn no_modules_import_one_another_in_a_ring() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
    let crates = ["grammar", "server", "cli"].map(|name| root.join(name));
    let shared = fs::read_dir(root.join("shared")).unwrap().map(|entry| entry.unwrap().path());
    let mut rings = Vec::new();
    for home in crates.into_iter().chain(shared).filter(|home| home.join("src").is_dir()) {
        let files = modules(&home.join("src"));
        assert!(!files.is_empty(), "{}", home.display());
        let name = home.file_name().unwrap().to_string_lossy().into_owned();
        rings.extend(ring(&imports(&files)).map(|ring| format!("{name}: {}", ring.join(" -> "))));
    }
    assert!(rings.is_empty(), "rings of imports:\n{}", rings.join("\n"));
}

/// Rules borrow nothing from one another: what several share stands in `common`.
#[test]
fn rules_borrow_nothing_from_one_another() {
    let files = modules(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../shared/checks/src"));
    let is_rule = |module: &Module| module.len() == 3 && module[0] == "rules";
    let imports = imports(&files);
    assert!(imports.keys().filter(|module| is_rule(module)).count() > 50);
    for (rule, named) in imports.iter().filter(|(module, _)| is_rule(module)) {
        let borrowed = named.iter().filter(|module| module[0] == "rules").map(|module| module.join("::"));
        let borrowed = borrowed.collect::<Vec<_>>();
        assert!(borrowed.is_empty(), "{} borrows from {}", rule.join("::"), borrowed.join(", "));
    }
}

/// A rule that isn't in its family's list would never be run.
#[test]
fn every_rule_is_listed() {
    let files = modules(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../shared/checks/src"));
    let is_rule = |item: &&syn::ItemStatic| matches!(&*item.ty, syn::Type::Path(path) if path.path.is_ident("Rule"));
    let statics = files.values().flat_map(|file| &file.items).filter_map(|item| match item {
        syn::Item::Static(item) => Some(item),
        _ => None,
    });
    let written = statics.filter(is_rule).count();
    let mut listed: Vec<&str> = finwright_checks::RULES.iter().map(|rule| rule.name).collect();
    listed.sort_unstable();
    let count = listed.len();
    listed.dedup();
    assert_eq!((written, count), (listed.len(), listed.len()), "statics, rules in the lists, names");
}

/// The check itself: it sees through re-exports, and lets a parent and its child be.
#[test]
fn a_ring_is_found_and_a_family_is_not_one() {
    let house = |files: &[(&str, &str)]| {
        let parsed = files.iter().map(|(path, text)| {
            let module: Module = path.split("::").filter(|name| !name.is_empty()).map(str::to_string).collect();
            (module, syn::parse_file(text).unwrap())
        });
        ring(&imports(&parsed.collect()))
    };
    let root = ("", "mod one; mod two; pub use one::One;");
    let ring = house(&[root, ("one", "pub struct One(crate::two::Two);"), ("two", "use crate::One; pub struct Two;")]);
    assert_eq!(ring.unwrap(), ["one", "two", "one"]);
    let family = [("", "mod one;"), ("one", "mod two; use two::Two;"), ("one::two", "use super::One; struct Two;")];
    assert_eq!(house(&family), None);
}

/// Every file of a crate by its module's path.
fn modules(src: &Path) -> BTreeMap<Module, syn::File> {
    let mut found = BTreeMap::new();
    let mut folders = vec![(src.to_path_buf(), Module::new())];
    while let Some((folder, inside)) = folders.pop() {
        for entry in fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path()) {
            let stem = entry.file_stem().unwrap().to_string_lossy().into_owned();
            let mut module = inside.clone();
            if entry.is_dir() {
                module.push(stem);
                folders.push((entry, module));
            } else if entry.extension().is_some_and(|ending| ending == "rs") {
                if !matches!(stem.as_str(), "lib" | "main") {
                    module.push(stem);
                }
                let text = fs::read_to_string(&entry).unwrap();
                found.insert(module, syn::parse_file(&text).unwrap_or_else(|e| panic!("{}: {e}", entry.display())));
            }
        }
    }
    found
}

/// Which modules each module names, its own ancestors and descendants left out.
fn imports(files: &BTreeMap<Module, syn::File>) -> BTreeMap<Module, BTreeSet<Module>> {
    let names: BTreeMap<&Module, Names> = files.iter().map(|(module, file)| (module, Names::of(file))).collect();
    let mut found = BTreeMap::new();
    for (module, file) in files {
        let mut paths = Paths::default();
        paths.visit_file(file);
        let named = paths.0.iter().filter_map(|path| home(&names, module, path, 0));
        let apart = |other: &Module| !other.starts_with(module) && !module.starts_with(other);
        found.insert(module.clone(), named.filter(apart).collect());
    }
    found
}

/// What a module brings in under a name of its own, and what it brings in wholesale.
#[derive(Default)]
struct Names {
    brought: BTreeMap<String, Module>,
    globs: Vec<Module>,
    own: BTreeSet<String>,
}

impl Names {
    fn of(file: &syn::File) -> Names {
        let mut names = Names::default();
        for item in &file.items {
            match item {
                syn::Item::Use(item) => leaves(&item.tree, &[], &mut |path, name| match name {
                    Some(name) => drop(names.brought.insert(name, path)),
                    None => names.globs.push(path),
                }),
                syn::Item::Struct(item) => drop(names.own.insert(item.ident.to_string())),
                syn::Item::Enum(item) => drop(names.own.insert(item.ident.to_string())),
                syn::Item::Fn(item) => drop(names.own.insert(item.sig.ident.to_string())),
                syn::Item::Const(item) => drop(names.own.insert(item.ident.to_string())),
                syn::Item::Static(item) => drop(names.own.insert(item.ident.to_string())),
                syn::Item::Type(item) => drop(names.own.insert(item.ident.to_string())),
                syn::Item::Trait(item) => drop(names.own.insert(item.ident.to_string())),
                _ => {}
            }
        }
        names
    }
}

/// The module where a path ends that `at` names; `None` for another crate's.
fn home(names: &BTreeMap<&Module, Names>, at: &Module, path: &[String], depth: usize) -> Option<Module> {
    let mut rest = path;
    let mut place = at.clone();
    match rest.first()?.as_str() {
        "crate" => place.clear(),
        "self" => {}
        "super" => drop(place.pop()?),
        first => {
            place.push(first.to_string());
            if !names.contains_key(&place) {
                return None;
            }
        }
    }
    rest = &rest[1..];
    while let Some(name) = rest.first() {
        let mut inner = place.clone();
        if name == "super" {
            inner.pop()?;
        } else {
            inner.push(name.clone());
        }
        if !names.contains_key(&inner) {
            break;
        }
        (place, rest) = (inner, &rest[1..]);
    }
    let (Some(name), true) = (rest.first(), depth < 8) else { return Some(place) };
    let here = names.get(&place)?;
    if here.own.contains(name) {
        return Some(place);
    }
    if let Some(brought) = here.brought.get(name) {
        return home(names, &place, brought, depth + 1);
    }
    let mut wholesale = here.globs.iter().filter_map(|glob| home(names, &place, glob, depth + 1));
    wholesale.rfind(|module| names[module].own.contains(name)).or(Some(place))
}

/// Every path that a file names, those of its tests left out.
#[derive(Default)]
struct Paths(Vec<Vec<String>>);

impl<'ast> Visit<'ast> for Paths {
    fn visit_item_mod(&mut self, item: &'ast syn::ItemMod) {
        if !item.attrs.iter().any(|attribute| attribute.path().is_ident("cfg")) {
            visit::visit_item_mod(self, item);
        }
    }

    fn visit_item_use(&mut self, item: &'ast syn::ItemUse) {
        leaves(&item.tree, &[], &mut |path, _| self.0.push(path));
    }

    fn visit_path(&mut self, path: &'ast syn::Path) {
        if path.segments.len() > 1 {
            self.0.push(path.segments.iter().map(|segment| segment.ident.to_string()).collect());
        }
        visit::visit_path(self, path);
    }
}

/// Each leaf of a `use` with the name that it has here; none for a `*`.
fn leaves(tree: &syn::UseTree, ahead: &[String], leaf: &mut impl FnMut(Vec<String>, Option<String>)) {
    let with = |name: &syn::Ident| [ahead, &[name.to_string()]].concat();
    match tree {
        syn::UseTree::Path(path) => leaves(&path.tree, &with(&path.ident), leaf),
        syn::UseTree::Name(name) if name.ident == "self" => leaf(ahead.to_vec(), ahead.last().cloned()),
        syn::UseTree::Name(name) => leaf(with(&name.ident), Some(name.ident.to_string())),
        syn::UseTree::Rename(name) => leaf(with(&name.ident), Some(name.rename.to_string())),
        syn::UseTree::Glob(_) => leaf(ahead.to_vec(), None),
        syn::UseTree::Group(group) => group.items.iter().for_each(|tree| leaves(tree, ahead, leaf)),
    }
}

/// The first ring of modules, with the module that it begins and ends with.
fn ring(imports: &BTreeMap<Module, BTreeSet<Module>>) -> Option<Vec<String>> {
    let mut done = BTreeSet::new();
    let found = imports.keys().find_map(|start| walk(imports, start, &mut Vec::new(), &mut done));
    found.map(|ring| ring.iter().map(|module| module.join("::")).collect())
}

fn walk(
    imports: &BTreeMap<Module, BTreeSet<Module>>,
    at: &Module,
    way: &mut Vec<Module>,
    done: &mut BTreeSet<Module>,
) -> Option<Vec<Module>> {
    if let Some(begin) = way.iter().position(|module| module == at) {
        return Some(way[begin..].iter().chain([at]).cloned().collect());
    }
    if done.contains(at) {
        return None;
    }
    way.push(at.clone());
    let found = imports.get(at).into_iter().flatten().find_map(|next| walk(imports, next, way, done));
    way.pop();
    done.insert(at.clone());
    found
}

//! From trees to the typed design.

use crate::design::*;
use crate::evaluate::Evaluator;
use crate::files::{load, Files, SourceFile, CATALOG};
use crate::parts::{part_names, placement, read_parts, RawPart};
use crate::problem::{Problem, EMPTY_FILE, REPEATED_NAME, UNKNOWN_NAME, UNKNOWN_VERSION};
use crate::read::{fields, known_block, Context, Fields};
use finwright_grammar::vocabulary::{nearest, Kind, Naming};
use finwright_grammar::{Block, FileId, Item, Place};
use std::collections::HashMap;
use std::path::Path;
use std::sync::{Arc, LazyLock};

/// Build the design of a file. What can't be understood is in its problems; the rest is there.
pub fn build(path: &Path, text: Arc<str>, files: &dyn Files) -> Design {
    let mut problems = Vec::new();
    let loaded = load(path, text, files, &mut problems);
    read_files(loaded, files, FileId(0), problems, 0.0)
}

/// Build it again, now that it's known where the rocket balances, m from the tip: for a design with
/// [`Design::uses_balance`], whose values hang on that and move it a little in turn.
pub fn rebuild(design: Design, files: &dyn Files, balance: f64) -> Design {
    // What is wrong with the files themselves was found while they were loaded.
    let of_files = |p: &Problem| p.rule == crate::problem::UNREADABLE_FILE || p.rule == crate::problem::CIRCULAR_USE;
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
    read_files(loaded, &NoFiles, CATALOG, Vec::new(), 0.0)
});

/// What is wrong with the built-in catalogue, which should be nothing.
pub fn catalog_problems() -> &'static [Problem] {
    &CATALOG_DESIGN.problems
}

/// Definitions whose references still are names.
#[derive(Default)]
struct Raw {
    parts: Vec<RawPart>,
    materials: Vec<Material>,
    sections: Vec<(Section, Option<Named<String>>)>,
    motors: Vec<Motor>,
    pads: Vec<(Pad, Option<Named<String>>)>,
    sites: Vec<Site>,
    flights: Vec<RawFlight>,
    measured: Vec<RawMeasured>,
}

struct RawFlight {
    flight: Flight,
    motor: Option<Named<String>>,
    booster_motor: Option<Named<String>>,
    pad: Option<Named<String>>,
    guided_by: Option<Vec<Named<String>>>,
    site: Option<Named<String>>,
}

struct RawMeasured {
    measured: Measured,
    with: Option<Named<String>>,
    balance: Option<(Amount, Option<finwright_grammar::Relation>, Place)>,
}

fn read_files(
    loaded: Vec<SourceFile>,
    provider: &dyn Files,
    own: FileId,
    problems: Vec<Problem>,
    guess: f64,
) -> Design {
    let mut design = read_all(&loaded, provider, own, problems, guess);
    design.files = loaded;
    design
}

fn read_all(loaded: &[SourceFile], provider: &dyn Files, own: FileId, problems: Vec<Problem>, guess: f64) -> Design {
    let cx = Context { files: provider };
    let mut design = Design { problems, ..Design::default() };
    let mut ev = Evaluator::new(loaded, guess);
    let mut raw = Raw::default();
    if own != CATALOG {
        design.materials = CATALOG_DESIGN.materials.clone();
        design.sections = CATALOG_DESIGN.sections.clone();
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
            top_block(&cx, &mut ev, id, block, used, &mut raw, &mut design);
        }
        if used {
            ev.problems.truncate(before);
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
    design.problems.extend(ev.problems);
    // The same expression can be met on several ways; one report is enough.
    design.problems.sort_by(|a, b| a.place.cmp(&b.place).then(a.rule.cmp(b.rule)));
    design.problems.dedup_by(|a, b| a.place == b.place && a.rule == b.rule);
    design
}

fn check_top(ev: &mut Evaluator, id: FileId, file: &SourceFile) {
    let tree = &file.tree;
    if tree.items.is_empty() && tree.problems.is_empty() {
        let place = Place { file: id, span: finwright_grammar::Span::new(0, tree.text.len().min(1)) };
        ev.report(Problem::new(
            EMPTY_FILE,
            place,
            "there is nothing in this file",
            "start with `finwright 1` and an `airframe { … }`",
        ));
    }
    for item in &tree.items {
        match item {
            Item::Version { number, .. } if tree.text(*number) != "1" => {
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
                let name = tree.text(field.name);
                let place = Place { file: id, span: field.name };
                ev.report(Problem::new(
                    crate::problem::UNKNOWN_FIELD,
                    place,
                    format!("the field `{name}` stands outside of any block"),
                    format!("put it in the block that it belongs to, or name a value: `let {name} = …`"),
                ));
            }
            _ => {}
        }
    }
}

fn top_block<'f>(
    cx: &Context,
    ev: &mut Evaluator<'f>,
    file: FileId,
    block: &'f Block,
    used: bool,
    raw: &mut Raw,
    design: &mut Design,
) {
    let Some(word) = known_block(ev, file, block, "") else { return };
    if used && matches!(word.word, "design" | "airframe" | "booster" | "flight" | "measured") {
        return;
    }
    let header = Place { file, span: block.header };
    let name = match block.name {
        Some(span) => Named { value: ev.text(file, span).to_string(), place: Place { file, span } },
        None => {
            if word.naming == Naming::Required {
                ev.report(Problem::new(
                    UNKNOWN_NAME,
                    header,
                    format!("this {} has no name, so nothing can refer to it", word.word),
                    format!("name it: `{} my_{} {{`", word.word, word.word),
                ));
            }
            Named { value: String::new(), place: header }
        }
    };
    let mut f = fields(cx, ev, file, block, word);
    match word.word {
        "design" => {
            let title = block.title.map(|span| Named {
                value: ev.text(file, span).trim_matches('"').to_string(),
                place: Place { file, span },
            });
            design.title = design.title.take().or(title);
        }
        "airframe" | "booster" => match if word.word == "airframe" { design.airframe } else { design.booster } {
            Some(first) => ev.report(
                Problem::new(
                    REPEATED_NAME,
                    header,
                    format!("a file has one {}", word.word),
                    "put both rockets in files of their own; the first one counts",
                )
                .label(first, "the first one"),
            ),
            None => {
                if word.word == "airframe" {
                    design.airframe = Some(header);
                } else {
                    design.booster = Some(header);
                }
                read_parts(cx, ev, file, block, (word.word, None), &mut raw.parts, &mut design.lost);
                let lost = ev.files.get(file.0 as usize).map(|f| f.tree.lost.as_slice()).unwrap_or_default();
                let inside = lost.iter().filter(|span| block.span.touches(span.start as usize));
                design.lost.extend(inside.map(|span| Place { file, span: *span }));
            }
        },
        "material" => {
            raw.materials.push(Material { name, density: f.amount("density"), stiffness: f.amount("stiffness") })
        }
        "section" => {
            let section = Section {
                name,
                width: f.amount("width"),
                mouth: f.amount("mouth"),
                second_moment: f.amount("second_moment"),
                button_mass: f.amount("button_mass"),
                guide_mass: f.amount("guide_mass"),
                material: None,
            };
            raw.sections.push((section, f.name("material")));
        }
        "motor" => raw.motors.push(Motor {
            name,
            header,
            code: f.text("code"),
            diameter: f.amount("diameter"),
            length: f.amount("length"),
            mass: f.amount("mass"),
            propellant: f.amount("propellant"),
            delay: f.amount("delay"),
            curve: f.curve("curve"),
            missing: f.missing,
        }),
        "pad" => pad(cx, ev, file, block, name, header, f, raw),
        "site" => raw.sites.push(Site {
            name,
            elevation: f.amount("elevation"),
            temperature: f.amount("temperature"),
            pressure: f.amount("pressure"),
            wind: f.amount("wind"),
            gust: f.amount("gust"),
            broken: f.broken,
        }),
        "flight" => {
            let flight = Flight {
                name,
                header,
                motor: None,
                booster_motor: None,
                pad: None,
                guided_by: Vec::new(),
                site: None,
                missing: [f.missing.clone(), f.broken.clone()].concat(),
            };
            let (motor, pad, guided_by, site) = (f.name("motor"), f.name("pad"), f.names("guided_by"), f.name("site"));
            let booster_motor = f.name("booster_motor");
            raw.flights.push(RawFlight { flight, motor, booster_motor, pad, guided_by, site });
        }
        "measured" => {
            let measured = Measured { header, with: None, mass: f.amount("mass"), balance: None };
            raw.measured.push(RawMeasured { measured, with: f.name("with"), balance: f.placed("balance") });
        }
        _ => {}
    }
    // Blocks inside blocks that hold none are reported where they stand.
    if !matches!(word.word, "airframe" | "booster" | "pad") {
        for inner in block.blocks() {
            known_block(ev, file, inner, word.word);
        }
    }
}

#[allow(clippy::too_many_arguments)] // All of it is the context of one block.
fn pad<'f>(
    cx: &Context,
    ev: &mut Evaluator<'f>,
    file: FileId,
    block: &'f Block,
    name: Named<String>,
    header: Place,
    mut f: Fields,
    raw: &mut Raw,
) {
    let mut rail = None;
    let mut refers = None;
    for inner in block.blocks() {
        let Some(word) = known_block(ev, file, inner, "pad") else { continue };
        let mut g = fields(cx, ev, file, inner, word);
        let header = Place { file, span: inner.span };
        if rail.is_some() {
            ev.report(Problem::new(
                REPEATED_NAME,
                Place { file, span: inner.header },
                "a pad has one rod or rail",
                "make a second pad for the other; the first one counts",
            ));
            continue;
        }
        let length = g.amount("length");
        f.broken.extend(&g.broken);
        rail = Some(if word.word == "rod" {
            refers = g.name("material");
            Rail::Rod { diameter: g.amount("diameter"), length, material: None, header }
        } else {
            refers = g.name("slot");
            Rail::Slotted { slot: None, length, header }
        });
    }
    let pad = Pad {
        name,
        header,
        rail,
        stop: f.amount("stop"),
        tilt: f.amount("tilt"),
        friction: f.amount("friction"),
        broken: f.broken,
    };
    raw.pads.push((pad, refers));
}

/// Definitions of one kind by name: the file's own win over used files', those over the catalogue's.
struct Names<'n> {
    kind: Kind,
    by_name: HashMap<&'n str, usize>,
}

impl<'n> Names<'n> {
    fn new(ev: &mut Evaluator, kind: Kind, names: impl Iterator<Item = &'n Named<String>>) -> Names<'n> {
        let mut by_name: HashMap<&str, (usize, Place)> = HashMap::new();
        let rank = |place: Place| if place.file == CATALOG { u32::MAX } else { place.file.0 };
        for (id, name) in names.enumerate() {
            if name.value.is_empty() {
                continue;
            }
            match by_name.get(name.value.as_str()) {
                Some((_, first)) if rank(*first) == rank(name.place) => ev.report(
                    Problem::new(
                        REPEATED_NAME,
                        name.place,
                        format!("{} named `{}` is there already", kind.phrase(), name.value),
                        "give one of them another name; the first one counts",
                    )
                    .label(*first, "the first one"),
                ),
                Some((_, first)) if rank(*first) < rank(name.place) => {}
                _ => {
                    by_name.insert(&name.value, (id, name.place));
                }
            }
        }
        Names { kind, by_name: by_name.into_iter().map(|(n, (id, _))| (n, id)).collect() }
    }

    fn find(&self, ev: &mut Evaluator, name: Option<Named<String>>) -> Option<Named<usize>> {
        let name = name?;
        if let Some(id) = self.by_name.get(name.value.as_str()) {
            return Some(Named { value: *id, place: name.place });
        }
        let mut known: Vec<&str> = self.by_name.keys().copied().collect();
        known.sort_unstable();
        let near = nearest(&name.value, known.iter().copied());
        let help = match known.as_slice() {
            [] => format!("define it: `{} {} {{ … }}`", block_word(self.kind), name.value),
            _ if known.len() <= 12 => format!("there are {}", known.join(", ")),
            _ => format!("define it: `{} {} {{ … }}`", block_word(self.kind), name.value),
        };
        ev.report(
            Problem::new(UNKNOWN_NAME, name.place, format!("there is no {} `{}`", plain(self.kind), name.value), help)
                .did_you_mean(near),
        );
        None
    }
}

fn plain(kind: Kind) -> &'static str {
    kind.phrase().trim_start_matches("a ")
}

fn block_word(kind: Kind) -> &'static str {
    match kind {
        Kind::Section => "section",
        Kind::Guide => "lug",
        other => plain(other),
    }
}

fn resolve(ev: &mut Evaluator, raw: Raw, design: &mut Design) {
    design.materials.extend(raw.materials);
    let materials = design.materials.clone();
    let materials = Names::new(ev, Kind::Material, materials.iter().map(|m| &m.name));

    for (mut section, material) in raw.sections {
        section.material = materials.find(ev, material);
        design.sections.push(section);
    }
    let sections = Names::new(ev, Kind::Section, design.sections.iter().map(|s| &s.name));

    let names = part_names(&raw.parts);
    repeated(ev, "a part", raw.parts.iter().filter(|raw| raw.copy == 0).filter_map(|raw| raw.part.name.as_ref()));
    for RawPart { mut part, material, at, balance, .. } in raw.parts {
        // A default must not stand in for what is said and can't be understood.
        let said = (material.is_some(), at.is_some());
        part.material = materials.find(ev, material);
        part.at = at.and_then(|at| placement(ev, at, &names));
        if said.0 && part.material.is_none() {
            part.broken.push("material");
        }
        if said.1 && part.at.is_none() {
            part.broken.push("at");
        }
        if let Some(balance) = balance {
            part.balance = placement(ev, balance, &names).filter(|b| own_balance(ev, b));
            if part.balance.is_none() {
                part.broken.push("balance");
            }
        }
        design.parts.push(part);
    }

    design.motors = raw.motors;
    let motors = Names::new(ev, Kind::Motor, design.motors.iter().map(|m| &m.name));
    for (mut pad, refers) in raw.pads {
        match &mut pad.rail {
            Some(Rail::Rod { material, .. }) => *material = materials.find(ev, refers),
            Some(Rail::Slotted { slot, .. }) => *slot = sections.find(ev, refers),
            None => {}
        }
        design.pads.push(pad);
    }
    let pads = Names::new(ev, Kind::Pad, design.pads.iter().map(|p| &p.name));
    design.sites = raw.sites;
    let sites = Names::new(ev, Kind::Site, design.sites.iter().map(|s| &s.name));

    for RawFlight { mut flight, motor, booster_motor, pad, guided_by, site } in raw.flights {
        flight.motor = motors.find(ev, motor);
        let said_booster = booster_motor.is_some();
        flight.booster_motor = motors.find(ev, booster_motor);
        if (said_booster || design.booster.is_some()) && flight.booster_motor.is_none() {
            flight.missing.push("booster_motor");
        }
        if let (Some(motor), None) = (&flight.booster_motor, design.booster) {
            ev.report(Problem::new(
                UNKNOWN_NAME,
                motor.place,
                "there is a motor for a booster, and no booster",
                "describe it: `booster { tube … }`, or take the motor out",
            ));
        }
        flight.pad = pads.find(ev, pad);
        let said_site = site.is_some();
        flight.site = sites.find(ev, site);
        if said_site && flight.site.is_none() {
            flight.missing.push("site");
        }
        for name in guided_by.unwrap_or_default() {
            flight.guided_by.extend(guide(ev, &design.parts, &names, name));
        }
        for (word, found) in [
            ("motor", flight.motor.is_some()),
            ("pad", flight.pad.is_some()),
            ("guided_by", !flight.guided_by.is_empty()),
        ] {
            if !found && !flight.missing.contains(&word) {
                flight.missing.push(word);
            }
        }
        design.flights.push(flight);
    }
    repeated(ev, "a flight", design.flights.iter().map(|f| &f.name).filter(|n| !n.value.is_empty()));
    for RawMeasured { mut measured, with, balance } in raw.measured {
        measured.with = motors.find(ev, with);
        measured.balance = balance.and_then(|raw| placement(ev, raw, &names));
        design.measured.push(measured);
    }
}

/// Whether a part's own balance point is measured from its own edges.
fn own_balance(ev: &mut Evaluator, balance: &Placement) -> bool {
    let own = matches!(balance.anchor, Anchor::Front | Anchor::Back);
    if !own {
        ev.report(Problem::new(
            crate::problem::WRONG_FORM,
            balance.place,
            "a part's own balance point is measured from its own front or back",
            "for example `balance: 30 mm from front`",
        ));
    }
    own
}

/// The parts of a name that a flight is guided by: one, or every copy of one that stands at several places.
fn guide(ev: &mut Evaluator, parts: &[Part], names: &[(String, PartId)], name: Named<String>) -> Vec<Named<PartId>> {
    let found = names.iter().find(|(n, _)| *n == name.value).map(|(_, id)| *id);
    let guides = || names.iter().filter(|(_, id)| parts.get(*id).is_some_and(Part::is_guide)).map(|(n, _)| n.as_str());
    match found {
        Some(id) if parts.get(id).is_some_and(Part::is_guide) => names
            .iter()
            .filter(|(n, copy)| *n == name.value && parts.get(*copy).map(|p| p.block) == parts.get(id).map(|p| p.block))
            .map(|(_, copy)| Named { value: *copy, place: name.place })
            .collect(),
        Some(id) => {
            let label = parts.get(id).map_or(String::new(), |p| p.label());
            let message = format!("`{}` is a {label}, which guides nothing", name.value);
            ev.report(Problem::new(UNKNOWN_NAME, name.place, message, "name a lug, a button or a rail guide"));
            Vec::new()
        }
        None => {
            let list: Vec<&str> = guides().collect();
            let help = if list.is_empty() {
                format!("put one on a tube: `lug {} {{ … }}`", name.value)
            } else {
                format!("there are {}", list.join(", "))
            };
            ev.report(
                Problem::new(
                    UNKNOWN_NAME,
                    name.place,
                    format!("no lug, button or rail guide is named `{}`", name.value),
                    help,
                )
                .did_you_mean(nearest(&name.value, list)),
            );
            Vec::new()
        }
    }
}

fn repeated<'n>(ev: &mut Evaluator, what: &str, names: impl Iterator<Item = &'n Named<String>>) {
    let mut first: HashMap<&str, Place> = HashMap::new();
    for name in names {
        if let Some(earlier) = first.get(name.value.as_str()) {
            ev.report(
                Problem::new(
                    REPEATED_NAME,
                    name.place,
                    format!("{what} named `{}` is there already", name.value),
                    "give one of them another name; the first one counts",
                )
                .label(*earlier, "the first one"),
            );
        } else {
            first.insert(&name.value, name.place);
        }
    }
}

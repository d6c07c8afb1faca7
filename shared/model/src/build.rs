//! From trees to the typed design.

mod resolve;

use crate::curve::curve_of_trace;
use crate::design::*;
use crate::evaluate::Evaluator;
use crate::files::{faults_of_used, load, Files, SourceFile, CATALOG};
use crate::meant::{known_block, misnamed, outside_of_blocks, own_name};
use crate::motor_code::{read_code, Code};
use crate::parts::{read_parts, RawPart};
use crate::problem::{Problem, EMPTY_FILE, REPEATED_NAME, UNKNOWN_NAME, UNKNOWN_VERSION};
use crate::read::{fields, in_order, Fields};
use finwright_grammar::vocabulary::{BlockWord, Naming};
use finwright_grammar::{Block, FileId, Item, Place};
use finwright_units::Spread;
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

/// Definitions whose references still are names.
#[derive(Default)]
pub(crate) struct Raw {
    pub parts: Vec<RawPart>,
    pub materials: Vec<Material>,
    pub sections: Vec<(Section, Option<Named<String>>)>,
    pub motors: Vec<Motor>,
    pub pads: Vec<(Pad, Option<Named<String>>)>,
    pub sites: Vec<Site>,
    pub flights: Vec<RawFlight>,
    pub measured: Vec<RawMeasured>,
    pub flown: Vec<(Flown, Option<Named<String>>)>,
}

pub(crate) struct RawFlight {
    pub flight: Flight,
    pub motor: Option<Named<String>>,
    pub booster_motor: Option<Named<String>>,
    pub pad: Option<Named<String>>,
    pub guided_by: Option<Vec<Named<String>>>,
    pub site: Option<Named<String>>,
}

pub(crate) struct RawMeasured {
    pub measured: Measured,
    pub with: Option<Named<String>>,
    pub balance: Option<(Amount, Option<finwright_grammar::Relation>, Place)>,
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
        ev.built_in_sections = &CATALOG_DESIGN.sections;
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

fn top_block<'f>(
    ev: &mut Evaluator<'f>,
    file: FileId,
    block: &'f Block,
    used: bool,
    raw: &mut Raw,
    design: &mut Design,
) {
    let Some(word) = known_block(ev, file, block, "") else { return };
    if used && matches!(word.word, "design" | "airframe" | "booster" | "flight" | "measured" | "flown") {
        return;
    }
    let header = Place { file, span: block.header };
    let name = match own_name(ev, file, block, word) {
        Some(span) => Named { value: ev.text(file, span).to_string(), place: Place { file, span } },
        None => {
            // A title in its place has been told.
            if word.naming == Naming::Required && block.title.is_none() && block.name.is_none() {
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
    let mut f = fields(ev, file, block, word);
    if misnamed(ev, file, block, word) {
        f.forget();
    }
    match word.word {
        "design" => {
            let title = block.title.map(|span| Named {
                value: finwright_grammar::unquoted(ev.text(file, span)).to_string(),
                place: Place { file, span },
            });
            design.title = design.title.take().or(title);
        }
        "airframe" | "booster" => {
            design.drag_factor = design.drag_factor.take().or(f.amount("drag_factor"));
            stage(ev, file, block, word, header, (raw, design));
        }
        "material" => raw.materials.push(Material {
            name,
            density: f.amount("density"),
            stiffness: f.amount("stiffness"),
            shear: f.amount("shear"),
        }),
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
        "motor" => {
            let motor = motor(ev, name, header, word, f);
            raw.motors.push(motor);
        }
        "pad" => pad(ev, file, block, name, header, f, raw),
        "site" => raw.sites.push(site(name, f)),
        "flight" => raw.flights.push(flight(name, header, word, f)),
        "measured" => {
            let measured = Measured { header, with: None, mass: f.amount("mass"), balance: None };
            raw.measured.push(RawMeasured { measured, with: f.name("with"), balance: f.placed("balance") });
        }
        "flown" => {
            let flight = f.name("flight");
            raw.flown.push((flown(name, header, word, f), flight));
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

/// The airframe or the booster, of which a file has one.
fn stage<'f>(
    ev: &mut Evaluator<'f>,
    file: FileId,
    block: &'f Block,
    word: &'static BlockWord,
    header: Place,
    (raw, design): (&mut Raw, &mut Design),
) {
    let known = if word.word == "airframe" { &mut design.airframe } else { &mut design.booster };
    if let Some(first) = *known {
        let both = "put both rockets in files of their own; the first one counts";
        let problem = Problem::new(REPEATED_NAME, header, format!("a file has one {}", word.word), both);
        ev.report(problem.label(first, "the first one"));
        return;
    }
    *known = Some(header);
    if misnamed(ev, file, block, word) {
        design.lost.push(header);
    }
    read_parts(ev, file, block, (word.word, None), &mut raw.parts, &mut design.lost);
    let lost = ev.files.get(file.0 as usize).map(|f| f.tree.lost.as_slice()).unwrap_or_default();
    let inside = lost.iter().filter(|span| block.span.touches(span.start as usize));
    design.lost.extend(inside.map(|span| Place { file, span: *span }));
}

fn flown(name: Named<String>, header: Place, word: &BlockWord, mut f: Fields) -> Flown {
    Flown {
        name: Some(name).filter(|name| !name.value.is_empty()),
        header,
        flight: None,
        exit_speed: f.amount("exit_speed"),
        height: f.amount("height"),
        time_to_top: f.amount("time_to_top"),
        log: f.curve("log"),
        mass: f.amount("mass"),
        wind: f.amount("wind"),
        missing: in_order(word, f.missing),
        broken: in_order(word, f.broken),
    }
}

fn motor(ev: &mut Evaluator, name: Named<String>, header: Place, word: &BlockWord, mut f: Fields) -> Motor {
    let (code, trace) = (f.text("code"), f.curve("trace"));
    let (mut curve, mut stand) = (f.curve("curve"), None);
    if let Some(trace) = trace {
        match curve_of_trace(ev, curve.as_ref(), &trace) {
            Some((taken, recorded)) => (curve, stand) = (Some(taken), Some(recorded)),
            None => f.broken.push("trace"),
        }
    }
    if stand.is_some() || f.broken.contains(&"trace") {
        f.missing.retain(|field| *field != "curve");
    }
    // A curve that can't be understood isn't replaced by less.
    let is_unsaid = f.missing.contains(&"curve") && !f.broken.contains(&"code");
    let by_label =
        code.as_ref().filter(|_| is_unsaid).and_then(|code| read_code(&code.value)).filter(Code::gives_thrust);
    // What else the label says counts too.
    let coded =
        by_label.as_ref().and_then(|label| label.delay).zip(code.as_ref()).filter(|_| !f.broken.contains(&"delay"));
    let delay = coded.map(|(si, code)| Amount { si, spread: Spread::default(), place: code.place });
    if by_label.is_some() {
        f.missing.retain(|field| *field != "curve");
    }
    Motor {
        name,
        header,
        code,
        diameter: f.amount("diameter"),
        length: f.amount("length"),
        mass: f.amount("mass"),
        propellant: f.amount("propellant"),
        delay: f.amount("delay").or(delay),
        curve,
        thrust_factor: f.amount("thrust_factor"),
        stand,
        by_label,
        missing: in_order(word, f.missing),
        broken: in_order(word, f.broken),
    }
}

fn site(name: Named<String>, mut f: Fields) -> Site {
    let (wind, wind_height) = f.at_height("wind");
    Site {
        name,
        elevation: f.amount("elevation"),
        temperature: f.amount("temperature"),
        pressure: f.amount("pressure"),
        wind,
        wind_height,
        gust: f.amount("gust"),
        across: f.amount("across"),
        people: f.amount("people"),
        broken: f.broken,
    }
}

fn flight(name: Named<String>, header: Place, word: &BlockWord, mut f: Fields) -> RawFlight {
    let (motor, pad, guided_by, site) = (f.name("motor"), f.name("pad"), f.names("guided_by"), f.name("site"));
    let booster_motor = f.name("booster_motor");
    let flight = Flight {
        name,
        header,
        motor: None,
        booster_motor: None,
        pad: None,
        guided_by: Vec::new(),
        guides_taken: false,
        site: None,
        missing: in_order(word, f.missing),
        broken: in_order(word, f.broken),
    };
    RawFlight { flight, motor, booster_motor, pad, guided_by, site }
}

#[allow(clippy::too_many_arguments)] // All of it is the context of one block.
fn pad<'f>(
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
        let mut g = fields(ev, file, inner, word);
        let header = Place { file, span: inner.span };
        if rail.is_some() {
            ev.report(Problem::new(
                REPEATED_NAME,
                Place { file, span: inner.header },
                "a pad has one rod, rail or tower",
                "make a second pad for the other; the first one counts",
            ));
            continue;
        }
        let length = g.amount("length");
        f.broken.extend(&g.broken);
        rail = Some(match word.word {
            "rod" => {
                refers = g.name("material");
                let (height, play, step) = (g.amount("joint"), g.amount("joint_play"), g.amount("joint_step"));
                let is_there = height.is_some() || play.is_some() || step.is_some();
                let joint = is_there.then_some(Joint { height, play, step });
                Rail::Rod { diameter: g.amount("diameter"), length, material: None, joint, header }
            }
            "tower" => {
                let (rails, bore, thickness) = (g.amount("rails"), g.amount("bore"), g.amount("thickness"));
                Rail::Tower { rails, bore, thickness, length, header }
            }
            _ => {
                refers = g.name("slot");
                Rail::Slotted { slot: None, length, header }
            }
        });
    }
    let pad = Pad {
        name,
        header,
        rail,
        stop: f.amount("stop"),
        tilt: f.amount("tilt"),
        leans: f.choice("leans"),
        friction: f.amount("friction"),
        foot: f.amount("foot"),
        mass: f.amount("mass"),
        stance: f.amount("stance"),
        staked: f.amount("staked"),
        yields: f.amount("yields"),
        end: f.choice("end"),
        broken: f.broken,
    };
    raw.pads.push((pad, refers));
}

//! The blocks that stand in no other one.

use super::pad::pad;
use super::raw::{Raw, RawFlight, RawMeasured};
use crate::curve::curve_of_trace;
use crate::design::{Amount, Design, Flight, Flown, Material, Measured, Motor, Named, Section, Site};
use crate::evaluate::Evaluator;
use crate::meant::{known_block, misnamed, own_name};
use crate::motor_code::{read_code, Code};
use crate::parts::read_parts;
use crate::problem::{Problem, REPEATED_NAME, UNKNOWN_NAME};
use crate::read::{fields, in_order, Fields};
use finwright_grammar::vocabulary::{BlockWord, Naming};
use finwright_grammar::{Block, FileId, Place};
use finwright_units::Spread;

/// Reads a block that stands in no other one, for what it holds, into `raw` and `design`.
pub(super) fn top_block<'f>(
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
        "pad" => raw.pads.push(pad(ev, file, block, (name, header), f)),
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

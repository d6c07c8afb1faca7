//! `file/shadows`: a definition that hides another of its name.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::defaults::usual_materials;
use finwright_grammar::FileId;
use finwright_model::{Amount, Named, Rail, CATALOG};
use finwright_units::{show, Dimension};

/// The rule.
pub static SHADOWS: Rule = Rule {
    name: "file/shadows",
    family: Family::File,
    concerns: Concern::File,
    wind: None,
    level: Level::Note,
    summary: "a definition that hides one of the same name, of the catalogue or of a used file",
    why: "Whoever knows the other one by that name reads this file wrongly.",
    prose: include_str!("shadows.md"),
    thresholds: &[],
    example: Example::new(
        "let caliber = 24.8 mm",
        "let caliber = 24.8 mm\nmaterial balsa { density: 120 kg/m3; shear: 0.17 GPa }",
    ),
    check: Some(check),
};

const OWN: FileId = FileId(0);

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let d = cx.design;
    let id = |named: &Option<Named<usize>>| named.as_ref().map(|n| n.value);
    let (mut of_rods, mut slots) = (Vec::new(), Vec::new());
    for pad in &d.pads {
        match &pad.rail {
            Some(Rail::Rod { material, .. }) => of_rods.extend(id(material)),
            Some(Rail::Slotted { slot, .. }) => slots.extend(id(slot)),
            Some(Rail::Tower { .. }) | None => {}
        }
    }
    let density = |si: f64| show::quantity(si, Dimension::DENSITY);
    let materials: Vec<Defined> =
        d.materials.iter().map(|m| Defined { name: &m.name, value: m.density.as_ref() }).collect();
    let used = d.parts.iter().filter_map(|p| id(&p.material)).chain(d.sections.iter().filter_map(|s| id(&s.material)));
    let used = used.chain(of_rods).chain(usual_materials(d));
    tell(cx, ("material", density), &materials, used.collect(), out);
    let width = |si: f64| format!("{} wide", show::length(si));
    let sections: Vec<Defined> =
        d.sections.iter().map(|s| Defined { name: &s.name, value: s.width.as_ref() }).collect();
    tell(cx, ("section", width), &sections, slots, out);
    let bare = |_: f64| String::new();
    let plain = |name| Defined { name, value: None };
    let motors: Vec<Defined> = d.motors.iter().map(|m| plain(&m.name)).collect();
    let flown = d.flights.iter().flat_map(|f| [id(&f.motor), id(&f.booster_motor)]).flatten();
    tell(cx, ("motor", bare), &motors, flown.collect(), out);
    let pads: Vec<Defined> = d.pads.iter().map(|p| plain(&p.name)).collect();
    tell(cx, ("pad", bare), &pads, d.flights.iter().filter_map(|f| id(&f.pad)).collect(), out);
    let sites: Vec<Defined> = d.sites.iter().map(|s| plain(&s.name)).collect();
    tell(cx, ("site", bare), &sites, d.flights.iter().filter_map(|f| id(&f.site)).collect(), out);
}

/// Something that has a name, and the value that tells it from another of that name.
struct Defined<'a> {
    name: &'a Named<String>,
    value: Option<&'a Amount>,
}

/// The word of what is defined, and its value in words.
type Said = (&'static str, fn(f64) -> String);

fn tell(cx: &Context, (word, in_words): Said, all: &[Defined], used: Vec<usize>, out: &mut Vec<Finding>) {
    for (id, own) in all.iter().enumerate() {
        if own.name.place.file != OWN || own.name.value.is_empty() || !used.contains(&id) {
            continue;
        }
        let hides = |other: &&Defined| other.name.place.file != OWN && other.name.value == own.name.value;
        let Some(hidden) = all.iter().find(hides) else { continue };
        let file = cx.design.files.get(hidden.name.place.file.0 as usize);
        let home = match file.and_then(|file| file.path.file_name()) {
            Some(name) if hidden.name.place.file != CATALOG => format!("the one of {}", name.to_string_lossy()),
            _ => "the built-in one".to_string(),
        };
        let values = match (&own.value, &hidden.value) {
            (Some(own), Some(hidden)) => format!(": {} here, {} there", in_words(own.si), in_words(hidden.si)),
            _ => String::new(),
        };
        out.push(
            SHADOWS
                .finding(own.name.place, format!("{word} `{}` hides {home}{values}", own.name.value))
                .help(format!("give it another name, or say why: `# allow {}: …` on the line above", SHADOWS.name)),
        );
    }
}

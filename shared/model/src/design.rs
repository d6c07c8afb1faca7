//! The typed design. What the file doesn't say is `None`; nothing is filled in here.

use crate::files::{SourceFile, CATALOG};
use crate::motor_code::Code;
use crate::part_word;
use crate::problem::Problem;
use crate::stand::Stand;
use finwright_grammar::{Place, Toward};
use finwright_units::{Quantity, Spread};
use std::sync::Arc;

/// A design file with everything it refers to.
#[derive(Clone, Debug, Default)]
pub struct Design {
    /// The files: the one asked about, the catalogue, then those that are used.
    pub files: Vec<SourceFile>,
    /// What the design is called.
    pub title: Option<Named<String>>,
    /// The airframe's header, if there is an airframe.
    pub airframe: Option<Place>,
    /// Places in the airframe where there is something that can't be understood, so that the rocket isn't known whole.
    pub lost: Vec<Place>,
    /// The booster's header, if there is one.
    pub booster: Option<Place>,
    /// The parts, in the order of the page: a part comes before those inside it.
    pub parts: Vec<Part>,
    /// Materials, the built-in ones first; which one a name means: [`Design::material_named`].
    pub materials: Vec<Arc<Material>>,
    /// Rail sections, the built-in ones first; which one a name means: [`Design::section_named`].
    pub sections: Vec<Arc<Section>>,
    /// Motors.
    pub motors: Vec<Motor>,
    /// Pads.
    pub pads: Vec<Arc<Pad>>,
    /// Sites.
    pub sites: Vec<Site>,
    /// The flights to check.
    pub flights: Vec<Flight>,
    /// Parts placed from the balance point with the motors of a flight that isn't among those to check: what asks about
    /// one flight of a file leaves every part where the file puts it.
    pub placed_with: Vec<(PartId, Flight)>,
    /// What the bench says.
    pub measured: Vec<Measured>,
    /// What flights did.
    pub flown: Vec<Flown>,
    /// What the drag is multiplied by, where the file says it.
    pub drag_factor: Option<Amount>,
    /// The values that the file names, each with its name's place, as far as they can be computed.
    pub values: Vec<(Named<String>, Quantity)>,
    /// Whether a value hangs on the balance point beyond the placements that do.
    pub uses_balance: bool,
    /// What is wrong with the words and values.
    pub problems: Vec<Problem>,
    /// What is wrong with those of the used files, where it's told.
    pub problems_elsewhere: Vec<Problem>,
}

/// A number in SI as the author gave it.
#[derive(Clone, Debug, PartialEq)]
pub struct Amount {
    /// The value in SI units.
    pub si: f64,
    /// Its tolerance, by source.
    pub spread: Spread,
    /// The value's place in the text.
    pub place: Place,
}

/// A value with its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Named<T> {
    /// The value.
    pub value: T,
    /// Its place in the text.
    pub place: Place,
}

/// A word of a list, with its number where it takes one.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// The word, as the vocabulary spells it.
    pub word: &'static str,
    /// The number behind it, or the one meant where none stands.
    pub number: Option<f64>,
    /// Its place in the text.
    pub place: Place,
}

/// A part's number in [`Design::parts`].
pub type PartId = usize;

/// Anything that the rocket is made of or carries.
#[derive(Clone, Debug)]
pub struct Part {
    /// What it is, with its own dimensions.
    pub kind: PartKind,
    /// Its word in the language.
    pub word: &'static str,
    /// Its name, where it has one.
    pub name: Option<Named<String>>,
    /// Which copy it is, of how many, for a part that stands at several places.
    pub copy: Option<(usize, usize)>,
    /// Its header in the text.
    pub header: Place,
    /// The whole block.
    pub block: Place,
    /// The part it sits in or on.
    pub parent: Option<PartId>,
    /// The stage that it belongs to.
    pub stage: Stage,
    /// Where it's put.
    pub at: Option<Placement>,
    /// Angle around the body, rad.
    pub clock: Option<Amount>,
    /// What it's made of, by number in [`Design::materials`].
    pub material: Option<Named<usize>>,
    /// How smooth it is.
    pub surface: Option<Surface>,
    /// Its density, where that is given instead of a material, kg/m3.
    pub density: Option<Amount>,
    /// The mass given for it, kg.
    pub mass: Option<Amount>,
    /// How far its middle lies from the rocket's axis, m.
    pub off_axis: Option<Amount>,
    /// The force that a guide's bond or screw bears, N.
    pub bears: Option<Amount>,
    /// Where it balances by itself, as measured: from its own front or back.
    pub balance: Option<Placement>,
    /// What becomes of a guide when the rocket has left its rod or rail.
    pub after_release: Option<Choice>,
    /// Fields that its numbers need and that it doesn't say.
    pub missing: Vec<&'static str>,
    /// Fields that it says in a way that can't be understood; what the part is isn't known then.
    pub broken: Vec<&'static str>,
}

/// One of two stages; a rocket of one stage is all upper stage.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// The airframe.
    Upper,
    /// What burns first and falls away.
    Booster,
}

/// When a parachute or streamer opens, as the file says it.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// The moment.
    pub when: Opens,
    /// Where it's said.
    pub place: Place,
}

/// The moments at which something may open.
#[derive(Clone, Debug, PartialEq)]
pub enum Opens {
    /// By the motor's charge, its delay after burnout.
    AtDelay,
    /// At the highest point.
    AtTop,
    /// This many seconds after it.
    AfterTop(Amount),
    /// On the way down, this many metres above the ground.
    AboveGround(Amount),
}

/// What a part is. Lengths in m.
#[derive(Clone, Debug)]
#[allow(missing_docs)] // The fields are the vocabulary's, whose docs say what they mean.
pub enum PartKind {
    Nose {
        shape: Option<Choice>,
        length: Option<Amount>,
        base: Option<Amount>,
        wall: Option<Amount>,
    },
    Shoulder {
        length: Option<Amount>,
        outer: Option<Amount>,
        wall: Option<Amount>,
    },
    Tube {
        length: Option<Amount>,
        outer: Option<Amount>,
        inner: Option<Amount>,
    },
    Taper {
        shape: Option<Choice>,
        length: Option<Amount>,
        front: Option<Amount>,
        back: Option<Amount>,
        wall: Option<Amount>,
    },
    Fins(Box<Fins>),
    TubeFins {
        count: Option<Amount>,
        length: Option<Amount>,
        outer: Option<Amount>,
        inner: Option<Amount>,
    },
    RingFin {
        length: Option<Amount>,
        outer: Option<Amount>,
        inner: Option<Amount>,
    },
    ThrustRing {
        length: Option<Amount>,
        inner: Option<Amount>,
    },
    Hook {
        length: Option<Amount>,
    },
    Mount {
        length: Option<Amount>,
        bore: Option<Amount>,
        outer: Option<Amount>,
        sticks_out: Option<Amount>,
        motors: Option<Amount>,
        circle: Option<Amount>,
    },
    Rings {
        count: Option<Amount>,
        thickness: Option<Amount>,
    },
    Coupler {
        length: Option<Amount>,
        outer: Option<Amount>,
        inner: Option<Amount>,
    },
    Bulkhead {
        outer: Option<Amount>,
        thickness: Option<Amount>,
    },
    Ballast,
    Load {
        length: Option<Amount>,
    },
    Parachute {
        diameter: Option<Amount>,
        drag: Option<Amount>,
        opens: Option<Opening>,
        carries: Vec<Named<PartId>>,
    },
    Streamer {
        length: Option<Amount>,
        width: Option<Amount>,
        drag: Option<Amount>,
        opens: Option<Opening>,
        carries: Vec<Named<PartId>>,
    },
    Cord {
        length: Option<Amount>,
    },
    Lug {
        bore: Option<Amount>,
        length: Option<Amount>,
        wall: Option<Amount>,
        standoff: Option<Amount>,
    },
    Button {
        profile: Option<Amount>,
        standoff: Option<Amount>,
        screw: Option<Amount>,
    },
    RailGuide {
        profile: Option<Amount>,
        length: Option<Amount>,
        standoff: Option<Amount>,
    },
}

/// A set of fins.
#[derive(Clone, Debug)]
#[allow(missing_docs)] // The fields are the vocabulary's, whose docs say what they mean.
pub struct Fins {
    pub count: Option<Amount>,
    pub plan: Option<Choice>,
    pub outline: Option<Curve>,
    pub fillet: Option<Amount>,
    pub tab_length: Option<Amount>,
    pub tab_depth: Option<Amount>,
    pub root: Option<Amount>,
    pub tip: Option<Amount>,
    pub span: Option<Amount>,
    pub sweep: Option<Amount>,
    pub thickness: Option<Amount>,
    pub leading: Option<Choice>,
    pub trailing: Option<Choice>,
}

/// How smooth a surface is.
#[derive(Clone, Debug, PartialEq)]
pub enum Surface {
    /// One of the words.
    Finish(Choice),
    /// A roughness height, m.
    Roughness(Amount),
}

/// Where a part is put.
#[derive(Clone, Debug, PartialEq)]
pub struct Placement {
    /// How far, m.
    pub distance: Amount,
    /// From what.
    pub anchor: Anchor,
    /// The whole value in the text.
    pub place: Place,
}

/// What a placement is measured from.
#[derive(Clone, Debug, PartialEq)]
pub enum Anchor<P = PartId> {
    /// The enclosing part's front edge, towards the tail.
    Front,
    /// The enclosing part's back edge, towards the tip.
    Back,
    /// The rocket's tip, towards the tail.
    Tip,
    /// The airframe's aft end, towards the tip.
    Tail,
    /// Another part's front edge, towards the tail.
    PartFront(P),
    /// Another part's back edge, towards the tip.
    PartBack(P),
    /// The balance point, towards the tip.
    AheadOfBalance,
    /// The balance point, towards the tail.
    BehindBalance,
}

impl<'w> Anchor<&'w str> {
    /// The anchor that words mean, parts still by their names; `None` where they mean none.
    pub(crate) fn of_words(toward: Toward, word: &'w str, edge: Option<&str>) -> Option<Anchor<&'w str>> {
        Some(match (toward, word, edge) {
            (Toward::From, "front", None) => Anchor::Front,
            (Toward::From, "back", None) => Anchor::Back,
            (Toward::From, "tip", None) => Anchor::Tip,
            (Toward::From, "tail", None) => Anchor::Tail,
            (Toward::Ahead, "balance", None) => Anchor::AheadOfBalance,
            (Toward::Behind, "balance", None) => Anchor::BehindBalance,
            (Toward::From, name, Some("front")) => Anchor::PartFront(name),
            (Toward::From, name, Some("back")) => Anchor::PartBack(name),
            _ => return None,
        })
    }
}

impl<P> Anchor<P> {
    /// The same with a part found by another way of naming it; `None` where there is none.
    pub(crate) fn found<Q>(self, find: impl FnOnce(P) -> Option<Q>) -> Option<Anchor<Q>> {
        Some(match self {
            Anchor::Front => Anchor::Front,
            Anchor::Back => Anchor::Back,
            Anchor::Tip => Anchor::Tip,
            Anchor::Tail => Anchor::Tail,
            Anchor::PartFront(part) => Anchor::PartFront(find(part)?),
            Anchor::PartBack(part) => Anchor::PartBack(find(part)?),
            Anchor::AheadOfBalance => Anchor::AheadOfBalance,
            Anchor::BehindBalance => Anchor::BehindBalance,
        })
    }

    /// Which way it counts: 1 towards the tail, -1 towards the tip.
    pub fn sign(&self) -> f64 {
        match self {
            Anchor::Front | Anchor::Tip | Anchor::PartFront(_) | Anchor::BehindBalance => 1.0,
            Anchor::Back | Anchor::Tail | Anchor::PartBack(_) | Anchor::AheadOfBalance => -1.0,
        }
    }
}

/// A material.
#[derive(Clone, Debug)]
pub struct Material {
    /// Its name.
    pub name: Named<String>,
    /// Density, kg/m3.
    pub density: Option<Amount>,
    /// Young's modulus, Pa.
    pub stiffness: Option<Amount>,
    /// Shear modulus, Pa.
    pub shear: Option<Amount>,
}

/// A rail section. SI units.
#[derive(Clone, Debug)]
#[allow(missing_docs)] // The fields are the vocabulary's, whose docs say what they mean.
pub struct Section {
    pub name: Named<String>,
    pub width: Option<Amount>,
    pub mouth: Option<Amount>,
    pub second_moment: Option<Amount>,
    pub button_mass: Option<Amount>,
    pub guide_mass: Option<Amount>,
    pub material: Option<Named<usize>>,
}

/// A motor. SI units.
#[derive(Clone, Debug)]
#[allow(missing_docs)] // The fields are the vocabulary's, whose docs say what they mean.
pub struct Motor {
    pub name: Named<String>,
    pub header: Place,
    pub code: Option<Named<String>>,
    pub diameter: Option<Amount>,
    pub length: Option<Amount>,
    pub mass: Option<Amount>,
    pub propellant: Option<Amount>,
    pub delay: Option<Amount>,
    pub curve: Option<Curve>,
    pub thrust_factor: Option<Amount>,
    /// What a test stand recorded, where the curve is taken from that.
    pub stand: Option<Stand>,
    /// Its code, where no curve is given and the code is all that is known of its thrust.
    pub by_label: Option<Code>,
    /// Fields that its numbers need and that it doesn't say.
    pub missing: Vec<&'static str>,
    /// Fields that it says in a way that can't be understood.
    pub broken: Vec<&'static str>,
}

/// Points with two values each: a thrust curve's time in s and thrust in N, or a fin outline's corners in m.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// The points.
    pub points: Vec<(f64, f64)>,
    /// Each point's place, or the file's name for points from a file.
    pub places: Vec<Place>,
    /// The whole value.
    pub place: Place,
}

/// A pad with its rod or rail. SI units.
#[derive(Clone, Debug)]
#[allow(missing_docs)] // The fields are the vocabulary's, whose docs say what they mean.
pub struct Pad {
    pub name: Named<String>,
    pub header: Place,
    pub rail: Option<Rail>,
    pub stop: Option<Amount>,
    pub tilt: Option<Amount>,
    pub leans: Option<Choice>,
    pub friction: Option<Amount>,
    pub foot: Option<Amount>,
    pub mass: Option<Amount>,
    pub stance: Option<Amount>,
    pub staked: Option<Amount>,
    pub yields: Option<Amount>,
    pub end: Option<Choice>,
    /// Fields that it says in a way that can't be understood.
    pub broken: Vec<&'static str>,
}

/// What stands on a pad and guides the rocket.
#[derive(Clone, Debug)]
#[allow(missing_docs)] // The fields are the vocabulary's, whose docs say what they mean.
pub enum Rail {
    Rod {
        diameter: Option<Amount>,
        length: Option<Amount>,
        material: Option<Named<usize>>,
        joint: Option<Joint>,
        header: Place,
    },
    Slotted {
        slot: Option<Named<usize>>,
        length: Option<Amount>,
        header: Place,
    },
    Tower {
        rails: Option<Amount>,
        bore: Option<Amount>,
        thickness: Option<Amount>,
        length: Option<Amount>,
        header: Place,
    },
}

/// Where a rod of two pieces is put together. SI units.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    /// How high above the rod's foot.
    pub height: Option<Amount>,
    /// How far the upper piece can lean in it.
    pub play: Option<Amount>,
    /// How much wider than the rod it is.
    pub step: Option<Amount>,
}

/// A flying field with its weather. SI units.
#[derive(Clone, Debug)]
#[allow(missing_docs)] // The fields are the vocabulary's, whose docs say what they mean.
pub struct Site {
    pub name: Named<String>,
    pub elevation: Option<Amount>,
    pub temperature: Option<Amount>,
    pub pressure: Option<Amount>,
    pub wind: Option<Amount>,
    pub wind_height: Option<Amount>,
    pub gust: Option<Amount>,
    pub across: Option<Amount>,
    pub people: Option<Amount>,
    /// Fields that it says in a way that can't be understood.
    pub broken: Vec<&'static str>,
}

/// A flight to check. References are numbers in the design's lists.
#[derive(Clone, Debug)]
#[allow(missing_docs)] // The fields are the vocabulary's, whose docs say what they mean.
pub struct Flight {
    pub name: Named<String>,
    pub header: Place,
    pub motor: Option<Named<usize>>,
    pub booster_motor: Option<Named<usize>>,
    pub pad: Option<Named<usize>>,
    pub guided_by: Vec<Named<PartId>>,
    /// Whether they are taken because the file names none and one set runs on the pad: see [`crate::fit::only_set`].
    pub guides_taken: bool,
    pub site: Option<Named<usize>>,
    /// Fields that its numbers need and that it doesn't say.
    pub missing: Vec<&'static str>,
    /// Fields that it says in a way that can't be understood, or that name nothing.
    pub broken: Vec<&'static str>,
}

/// What the bench says.
#[derive(Clone, Debug)]
#[allow(missing_docs)] // The fields are the vocabulary's, whose docs say what they mean.
pub struct Measured {
    pub header: Place,
    pub with: Option<Named<usize>>,
    pub mass: Option<Amount>,
    pub balance: Option<Placement>,
}

/// What a flight did, as measured. SI units.
#[derive(Clone, Debug)]
#[allow(missing_docs)] // The fields are the vocabulary's, whose docs say what they mean.
pub struct Flown {
    pub name: Option<Named<String>>,
    pub header: Place,
    pub flight: Option<Named<usize>>,
    pub exit_speed: Option<Amount>,
    pub height: Option<Amount>,
    pub time_to_top: Option<Amount>,
    pub log: Option<Curve>,
    pub mass: Option<Amount>,
    pub wind: Option<Amount>,
    /// Fields that its numbers need and that it doesn't say.
    pub missing: Vec<&'static str>,
    /// Fields that it says in a way that can't be understood.
    pub broken: Vec<&'static str>,
}

impl Part {
    /// A part of a kind that says nothing else of itself.
    pub fn new(word: &'static str, kind: PartKind, header: Place) -> Part {
        Part {
            kind,
            word,
            name: None,
            copy: None,
            header,
            block: header,
            parent: None,
            stage: Stage::Upper,
            at: None,
            clock: None,
            material: None,
            surface: None,
            density: None,
            mass: None,
            off_axis: None,
            bears: None,
            balance: None,
            after_release: None,
            missing: Vec::new(),
            broken: Vec::new(),
        }
    }

    /// What a reader calls it: `lug front`, `nose`.
    pub fn label(&self) -> String {
        let mut label = self.word.to_string();
        if let Some(name) = &self.name {
            label = format!("{label} {}", name.value);
        }
        match self.copy {
            Some((number, of)) => format!("{label} ({number} of {of})"),
            None => label,
        }
    }

    /// Its length along the rocket, where it has one of its own, m.
    pub fn length(&self) -> Option<&Amount> {
        match &self.kind {
            PartKind::Nose { length, .. }
            | PartKind::Shoulder { length, .. }
            | PartKind::Tube { length, .. }
            | PartKind::Taper { length, .. }
            | PartKind::Mount { length, .. }
            | PartKind::Coupler { length, .. }
            | PartKind::Load { length }
            | PartKind::Lug { length, .. }
            | PartKind::TubeFins { length, .. }
            | PartKind::RingFin { length, .. }
            | PartKind::ThrustRing { length, .. }
            | PartKind::Hook { length }
            | PartKind::RailGuide { length, .. } => length.as_ref(),
            PartKind::Fins(fins) => fins.root.as_ref(),
            PartKind::Bulkhead { thickness, .. } => thickness.as_ref(),
            _ => None,
        }
    }

    /// How far a guide is held off the body, where the file says it, m.
    pub fn standoff(&self) -> Option<&Amount> {
        match &self.kind {
            PartKind::Lug { standoff, .. }
            | PartKind::Button { standoff, .. }
            | PartKind::RailGuide { standoff, .. } => standoff.as_ref(),
            _ => None,
        }
    }

    /// Whether it guides the rocket on a rod or rail.
    pub fn is_guide(&self) -> bool {
        matches!(self.kind, PartKind::Lug { .. } | PartKind::Button { .. } | PartKind::RailGuide { .. })
    }

    /// Whether it's a guide that drops off when the rocket has left its rod or rail.
    pub fn falls_away(&self) -> bool {
        self.after_release.as_ref().is_some_and(|choice| choice.word == "falls_away")
    }

    /// The body parts that come down under it by themselves; none where it carries whatever nothing else does.
    pub fn carries(&self) -> &[Named<PartId>] {
        match &self.kind {
            PartKind::Parachute { carries, .. } | PartKind::Streamer { carries, .. } => carries,
            _ => &[],
        }
    }

    /// Whether it's a stretch of the airframe itself: nose, tube or taper.
    pub fn is_body(&self) -> bool {
        part_word::is_body(self.word)
    }

    /// Whether its middle, not an edge, is what a placement puts in place.
    pub fn placed_by_middle(&self) -> bool {
        part_word::is_placed_by_middle(self.word)
    }
}

impl Flight {
    /// The motor that burns on the pad: the booster's, where there is one.
    pub fn first_motor(&self) -> Option<&Named<usize>> {
        self.booster_motor.as_ref().or(self.motor.as_ref())
    }
}

impl Design {
    /// The text at a place.
    pub fn text(&self, place: Place) -> &str {
        crate::files::text_at(&self.files, place.file, place.span)
    }

    /// The material that a name means, by number in [`Design::materials`]: the file's own before those of used files,
    /// and those before the built-in ones.
    pub fn material_named(&self, name: &str) -> Option<usize> {
        named(self.materials.iter().map(|material| &material.name), name)
    }

    /// The rail section that a name means, by number in [`Design::sections`], looked up as materials are.
    pub fn section_named(&self, name: &str) -> Option<usize> {
        named(self.sections.iter().map(|section| &section.name), name)
    }

    /// The pad of a flight, where the flight names one that there is.
    pub fn pad_of(&self, flight: &Flight) -> Option<&Pad> {
        self.pads.get(flight.pad.as_ref()?.value).map(Arc::as_ref)
    }

    /// The greatest outer diameter of the airframe, m: the calibre.
    pub fn calibre(&self) -> Option<f64> {
        let widest = self.parts.iter().filter_map(|part| match &part.kind {
            PartKind::Nose { base, .. } => base.as_ref().map(|a| a.si),
            PartKind::Tube { outer, .. } => outer.as_ref().map(|a| a.si),
            PartKind::Taper { front, back, .. } => match (front, back) {
                (Some(f), Some(b)) => Some(f.si.max(b.si)),
                _ => None,
            },
            _ => None,
        });
        widest.fold(None, |most, d| Some(most.map_or(d, |m: f64| m.max(d))))
    }
}

/// How soon a definition counts among others of its name: the file's own first, those of used files in the order of
/// their use, the built-in ones last.
pub fn rank(place: Place) -> u32 {
    if place.file == CATALOG {
        u32::MAX
    } else {
        place.file.0
    }
}

/// The number of the definition that a name means; of two in one file the first.
fn named<'n>(names: impl Iterator<Item = &'n Named<String>>, name: &str) -> Option<usize> {
    let found = names.enumerate().filter(|(_, known)| known.value == name);
    found.min_by_key(|(_, known)| rank(known.place)).map(|(number, _)| number)
}

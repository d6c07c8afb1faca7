//! Where each part sits along the rocket, from the tip (0) to the tail.
//!
//! It's decided once, for the parts of a design and for stations in expressions, which are asked for while the parts
//! are still words on the page: both are a [`Layout`].

use crate::design::{Anchor, Design, Part, PartId};
use crate::part_word::{is_body, is_placed_by_middle};

/// A part's stretch along the rocket, m from the tip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// Its front edge.
    pub front: f64,
    /// Its back edge.
    pub back: f64,
}

impl Extent {
    /// Its middle.
    pub fn middle(self) -> f64 {
        0.5 * (self.front + self.back)
    }
    /// Its length.
    pub fn length(self) -> f64 {
        self.back - self.front
    }
    /// How long both reach over the same stretch, m; below 0 what lies between them.
    pub fn overlap(self, other: Extent) -> f64 {
        self.back.min(other.back) - self.front.max(other.front)
    }
}

/// Place every part whose place is known; `balance` gives the balance point that a part is placed from, where one is
/// known already. What is left without a place lacks a length or an `at`, or its placement goes in a circle.
pub fn place_parts(design: &Design, balance: impl Fn(PartId) -> Option<f64>) -> Vec<Option<Extent>> {
    let bodies = (0..design.parts.len()).filter(|id| design.parts.get(*id).is_some_and(Part::is_body)).collect();
    let mut parts = Parts { design, balance: &balance, bodies, seats: vec![Slot::Open; design.parts.len()], depth: 0 };
    let extent = |seat: Seat<f64>| Some(Extent { front: seat.point(0.0)?, back: seat.point(1.0)? });
    (0..design.parts.len()).map(|id| parts.seat(id).and_then(extent)).collect()
}

/// The station of a placement's distance from its anchor, without regard to the part's own length.
pub fn station_of(
    anchor: &Anchor,
    distance: f64,
    parent: Option<Extent>,
    placed: &[Option<Extent>],
    tail: Option<f64>,
    balance: Option<f64>,
) -> Option<f64> {
    let of = |id: &PartId| placed.get(*id).copied().flatten();
    let from = match anchor {
        Anchor::Front => parent?.front,
        Anchor::Back => parent?.back,
        Anchor::Tip => 0.0,
        Anchor::Tail => tail?,
        Anchor::PartFront(id) => of(id)?.front,
        Anchor::PartBack(id) => of(id)?.back,
        Anchor::AheadOfBalance | Anchor::BehindBalance => balance?,
    };
    Some(from + anchor.sign() * distance)
}

/// What placing asks of the parts of a rocket, read or still on the page.
pub(crate) trait Layout {
    /// A part.
    type Part: Copy + PartialEq;
    /// A length or station.
    type Length: Along;
    /// Its word in the language.
    fn word(&self, part: Self::Part) -> &str;
    /// The part that it sits in or on.
    fn parent(&self, part: Self::Part) -> Option<Self::Part>;
    /// The stretches of the airframe that a part is on, from the tip to the tail.
    fn bodies(&self, part: Self::Part) -> Vec<Self::Part>;
    /// The length that it says.
    fn said_length(&mut self, part: Self::Part) -> Said<Self::Length>;
    /// Where it says that it sits; of several places the first.
    fn said_place(&mut self, part: Self::Part) -> Said<(Anchor<Self::Part>, Self::Length)>;
    /// The balance point that it's placed from.
    fn balance(&mut self, part: Self::Part) -> Option<Self::Length>;
    /// A part's [`seat`], worked out once; `None` also where it needs itself.
    fn seat(&mut self, part: Self::Part) -> Option<Seat<Self::Length>>;
}

/// What a part says of something.
pub(crate) enum Said<T> {
    /// Nothing.
    Nothing,
    /// This.
    This(T),
    /// Something that can't be understood.
    Unclear,
}

/// A length that can be added to another.
pub(crate) trait Along: Clone {
    fn zero() -> Self;
    /// With so many times another; `None` where that can't be.
    fn plus(&self, times: f64, other: &Self) -> Option<Self>;
}

impl Along for f64 {
    fn zero() -> f64 {
        0.0
    }
    fn plus(&self, times: f64, other: &f64) -> Option<f64> {
        Some(self + times * other)
    }
}

/// A part's place: a station, how many of its lengths its front edge lies behind that, and its length.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Seat<L> {
    station: L,
    share: f64,
    length: L,
}

impl<L: Along> Seat<L> {
    /// The station of a point of the part: 0 its front edge, 1 its back edge.
    pub fn point(&self, share: f64) -> Option<L> {
        self.station.plus(self.share + share, &self.length)
    }
}

/// Where a part sits; to be asked through [`Layout::seat`].
pub(crate) fn seat<L: Layout>(layout: &mut L, part: L::Part) -> Option<Seat<L::Length>> {
    if is_body(layout.word(part)) {
        let ahead: Vec<L::Part> = layout.bodies(part).into_iter().take_while(|body| *body != part).collect();
        let station = lengths(layout, &ahead)?;
        return Some(Seat { station, share: 0.0, length: length(layout, part)? });
    }
    let length = length(layout, part)?;
    let (station, share) = match layout.said_place(part) {
        Said::This((anchor, distance)) => {
            let from = origin(layout, part, &anchor)?;
            (from.plus(anchor.sign(), &distance)?, share(layout.word(part), &anchor))
        }
        Said::Nothing => unsaid_place(layout, part)?,
        Said::Unclear => return None,
    };
    Some(Seat { station, share, length })
}

/// The aft end of the airframe that a part is on.
pub(crate) fn tail<L: Layout>(layout: &mut L, part: L::Part) -> Option<L::Length> {
    let bodies = layout.bodies(part);
    lengths(layout, &bodies)
}

/// How many of its lengths a part's front edge lies behind the station that it's placed at.
fn share<P>(word: &str, anchor: &Anchor<P>) -> f64 {
    match anchor {
        _ if is_placed_by_middle(word) => -0.5,
        Anchor::Back | Anchor::Tail | Anchor::PartBack(_) => -1.0,
        _ => 0.0,
    }
}

/// Where a part goes that doesn't say: a shoulder behind its part, a mount and a hook flush with the back, rings along
/// their mount, a thrust ring at its front. Anything else has no place until it says one.
fn unsaid_place<L: Layout>(layout: &mut L, part: L::Part) -> Option<(L::Length, f64)> {
    let (edge, share) = match layout.word(part) {
        "shoulder" => (1.0, 0.0),
        "mount" | "hook" => (1.0, -1.0),
        "rings" | "thrust_ring" => (0.0, 0.0),
        _ => return None,
    };
    let parent = layout.parent(part)?;
    Some((layout.seat(parent)?.point(edge)?, share))
}

/// The station that a placement is measured from.
fn origin<L: Layout>(layout: &mut L, part: L::Part, anchor: &Anchor<L::Part>) -> Option<L::Length> {
    let (of, edge) = match anchor {
        Anchor::Tip => return Some(L::Length::zero()),
        Anchor::Tail => return tail(layout, part),
        Anchor::AheadOfBalance | Anchor::BehindBalance => return layout.balance(part),
        Anchor::Front => (layout.parent(part)?, 0.0),
        Anchor::Back => (layout.parent(part)?, 1.0),
        Anchor::PartFront(other) => (*other, 0.0),
        Anchor::PartBack(other) => (*other, 1.0),
    };
    layout.seat(of)?.point(edge)
}

/// A part's length along the rocket. What is packed or added is a point, and so is a button; rings reach along their
/// mount.
fn length<L: Layout>(layout: &mut L, part: L::Part) -> Option<L::Length> {
    match layout.word(part) {
        "ballast" | "parachute" | "streamer" | "cord" | "button" => return Some(L::Length::zero()),
        "rings" => {
            let mount = layout.parent(part)?;
            return length(layout, mount);
        }
        _ => {}
    }
    match layout.said_length(part) {
        Said::This(length) => Some(length),
        Said::Nothing => (layout.word(part) == "load").then(L::Length::zero),
        Said::Unclear => None,
    }
}

fn lengths<L: Layout>(layout: &mut L, parts: &[L::Part]) -> Option<L::Length> {
    parts.iter().try_fold(L::Length::zero(), |sum, part| sum.plus(1.0, &length(layout, *part)?))
}

/// The parts of a design.
struct Parts<'d, B> {
    design: &'d Design,
    balance: &'d B,
    bodies: Vec<PartId>,
    seats: Vec<Slot>,
    depth: usize,
}

#[derive(Clone)]
enum Slot {
    Open,
    /// Being worked out.
    Busy,
    Known(Option<Seat<f64>>),
}

/// Parts placed from parts placed from parts … deeper than this have no place.
const DEEPEST: usize = 200;

impl<B: Fn(PartId) -> Option<f64>> Layout for Parts<'_, B> {
    type Part = PartId;
    type Length = f64;

    fn word(&self, part: PartId) -> &str {
        self.design.parts.get(part).map_or("", |part| part.word)
    }

    fn parent(&self, part: PartId) -> Option<PartId> {
        self.design.parts.get(part)?.parent
    }

    fn bodies(&self, _: PartId) -> Vec<PartId> {
        self.bodies.clone()
    }

    fn said_length(&mut self, part: PartId) -> Said<f64> {
        let Some(part) = self.design.parts.get(part) else { return Said::Nothing };
        match part.length() {
            Some(length) => Said::This(length.si),
            None if part.broken.contains(&"length") => Said::Unclear,
            None => Said::Nothing,
        }
    }

    fn said_place(&mut self, part: PartId) -> Said<(Anchor, f64)> {
        let Some(part) = self.design.parts.get(part) else { return Said::Nothing };
        match &part.at {
            _ if part.broken.contains(&"at") => Said::Unclear,
            Some(at) => Said::This((at.anchor.clone(), at.distance.si)),
            None => Said::Nothing,
        }
    }

    fn balance(&mut self, part: PartId) -> Option<f64> {
        (self.balance)(part)
    }

    fn seat(&mut self, part: PartId) -> Option<Seat<f64>> {
        match self.seats.get(part)? {
            Slot::Known(seat) => return seat.clone(),
            Slot::Busy => return None,
            Slot::Open if self.depth >= DEEPEST => return None,
            Slot::Open => {}
        }
        self.keep(part, Slot::Busy);
        self.depth += 1;
        let found = seat(self, part);
        self.depth -= 1;
        self.keep(part, Slot::Known(found.clone()));
        found
    }
}

impl<B> Parts<'_, B> {
    fn keep(&mut self, part: PartId, slot: Slot) {
        if let Some(kept) = self.seats.get_mut(part) {
            *kept = slot;
        }
    }
}

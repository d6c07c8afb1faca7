//! The strip itself, unrolled: the angle around the tube goes to the right, the height from its aft end up.

use crate::draft::{Draft, Head};
use crate::font::bounds;
use crate::scene::{Dash, Pen, Point, Role, Scene, Style, Text};
use crate::subject::Subject;
use finwright_assess::flight::seat::seat;
use finwright_grammar::Place;
use finwright_model::{Extent, Part, PartId, PartKind};
use finwright_units::show;
use std::f64::consts::PI;

/// What goes underneath where the strip closes, mm.
pub const LAP: f64 = 8.0;
/// Free paper around the strip's own drawing, mm.
pub const MARGIN: f64 = 4.0;

/// A strip for one tube. Lengths in mm unless said.
pub struct Strip {
    /// The tube, by name.
    pub name: String,
    /// Its diameter, m.
    pub diameter: f64,
    /// Its circumference.
    pub around: f64,
    /// How high the strip is.
    pub top: f64,
    /// What is marked, in words.
    pub list: Vec<(String, String)>,
    marks: Vec<Mark>,
    /// The angle at which it begins, rad.
    seam: f64,
    /// Where the rocket balances with its motor in.
    balance: Option<f64>,
}

/// Something on the tube. Heights from its aft end, mm.
struct Mark {
    clock: f64,
    low: f64,
    high: f64,
    wide: f64,
    kind: Kind,
    name: String,
    source: Place,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Fin,
    Lug,
    Shoe,
    /// A button, and whether there is something solid behind its wall.
    Screw(bool),
}

/// A strip for every tube that something is fixed on.
pub fn strips(subject: Subject) -> Vec<Strip> {
    let parts = subject.parts();
    let tubes = parts.placed().filter_map(|(id, part, extent)| match &part.kind {
        PartKind::Tube { outer: Some(outer), .. } => Some((id, part, extent, outer.si)),
        _ => None,
    });
    tubes.filter_map(|(id, part, extent, wide)| strip(subject, (id, part, extent), wide)).collect()
}

fn strip(subject: Subject, (id, tube, extent): (PartId, &Part, Extent), diameter: f64) -> Option<Strip> {
    let around = PI * diameter * 1e3;
    let parts = subject.parts();
    let on_it = parts.placed().filter(|(_, part, _)| part.parent == Some(id));
    let marks: Vec<Mark> = on_it.flat_map(|(id, part, at)| marks(subject, (id, part, at), extent)).collect();
    if marks.is_empty() || !around.is_finite() {
        return None;
    }
    let length = extent.length() * 1e3;
    let balance = subject.numbers.and_then(|numbers| numbers.loaded()).map(|loaded| (extent.back - loaded.x) * 1e3);
    let balance = balance.filter(|at| (0.0..=length).contains(at));
    let highest = marks.iter().map(|mark| mark.high).chain(balance).fold(0.0, f64::max);
    let top = (highest + 10.0).min(length.max(20.0)).max(20.0);
    let seam = seam(&marks);
    let list = list(&marks, balance);
    Some(Strip { name: tube.label(), diameter, around, top, list, marks, seam, balance })
}

fn marks(subject: Subject, (id, part, at): (PartId, &Part, Extent), tube: Extent) -> Vec<Mark> {
    let low = (tube.back - at.back) * 1e3;
    let high = (tube.back - at.front) * 1e3;
    let mark = |clock: f64, wide: f64, kind: Kind| Mark {
        clock: clock.rem_euclid(2.0 * PI),
        low,
        high,
        wide: wide * 1e3,
        kind,
        name: part.label(),
        source: part.block,
    };
    let clock = part.clock.as_ref().map(|clock| clock.si);
    match &part.kind {
        PartKind::Fins(fins) => {
            let Some(count) = fins.count.as_ref().map(|count| count.si as u32) else { return Vec::new() };
            let thick = fins.thickness.as_ref().map_or(1e-3, |thick| thick.si);
            let one =
                |n: u32| mark(clock.unwrap_or(0.0) + 2.0 * PI * f64::from(n) / f64::from(count), thick, Kind::Fin);
            (0..count.min(24)).map(one).collect()
        }
        PartKind::Lug { bore, wall, .. } => {
            let wide = bore.as_ref().map_or(3e-3, |bore| bore.si) + 2.0 * wall.as_ref().map_or(0.0, |wall| wall.si);
            clock.map(|clock| mark(clock, wide, Kind::Lug)).into_iter().collect()
        }
        PartKind::RailGuide { .. } => clock.map(|clock| mark(clock, 6e-3, Kind::Shoe)).into_iter().collect(),
        PartKind::Button { .. } => {
            let backed = seat(subject.parts(), id, at).is_some_and(|seat| seat.backing.is_some());
            clock.map(|clock| mark(clock, 3e-3, Kind::Screw(backed))).into_iter().collect()
        }
        _ => Vec::new(),
    }
}

/// The middle of the widest free gap, where the strip may close.
fn seam(marks: &[Mark]) -> f64 {
    let mut clocks: Vec<f64> = marks.iter().map(|mark| mark.clock).collect();
    clocks.sort_by(f64::total_cmp);
    let next = clocks.iter().skip(1).copied().chain(clocks.first().map(|first| first + 2.0 * PI));
    let gaps = clocks.iter().zip(next).map(|(from, to)| (to - from, (from + to) / 2.0));
    gaps.max_by(|one, other| one.0.total_cmp(&other.0)).map_or(0.0, |(_, middle)| middle)
}

fn said(mm: f64) -> String {
    let (per, _, decimals) = show::ruler();
    show::trimmed(mm * 1e-3 / per, decimals)
}

fn degrees(clock: f64) -> String {
    let degrees = clock.to_degrees();
    format!("{}°", show::trimmed(if degrees > 359.95 { 0.0 } else { degrees }, 1))
}

fn list(marks: &[Mark], balance: Option<f64>) -> Vec<(String, String)> {
    let mut list: Vec<(String, String)> = Vec::new();
    for alike in marks.chunk_by(|one, other| one.source == other.source && one.low == other.low) {
        let Some(mark) = alike.first() else { continue };
        let angles: Vec<String> = alike.iter().map(|mark| degrees(mark.clock)).collect();
        let at = match mark.kind {
            Kind::Screw(true) => format!("hole at {}, something solid behind", said((mark.low + mark.high) / 2.0)),
            Kind::Screw(false) => format!("hole at {}, nothing solid behind", said((mark.low + mark.high) / 2.0)),
            _ => format!("{} to {}", said(mark.low), said(mark.high)),
        };
        list.push((mark.name.clone(), format!("{}: {at}", angles.join(", "))));
    }
    list.extend(balance.map(|at| ("balance, motor in".to_string(), format!("{}: check it with a finger", said(at)))));
    list
}

impl Strip {
    /// Where an angle and a height are on the strip's own drawing.
    fn at(&self, clock: f64, up: f64) -> Point {
        let turn = (clock - self.seam).rem_euclid(2.0 * PI) / (2.0 * PI);
        (MARGIN + turn * self.around, MARGIN + self.top - up)
    }

    /// The strip whole, with free paper around.
    pub fn scene(&self, subject: Subject) -> Scene {
        let (width, height) = (self.around + LAP + 2.0 * MARGIN, self.top + 2.0 * MARGIN);
        let mut draft = Draft::new("strip", width, height);
        let (left, right, end) = (MARGIN, MARGIN + self.around, MARGIN + self.around + LAP);
        let (top, bottom) = (MARGIN, MARGIN + self.top);
        draft.hatch(
            &[vec![(right, top), (end, top), (end, bottom), (right, bottom)]],
            2.4,
            45.0,
            Pen::HAIR.role(Role::Faint),
        );
        draft.outline(&[(left, top), (end, top), (end, bottom), (left, bottom)], Pen::LINE);
        draft.line(&[(right, top), (right, bottom)], Pen::THIN.dash(Dash::Hidden));
        let words = "goes underneath; the other edge comes to the dashed line";
        let words = if crate::font::width(words, Style::NOTE) < self.top - 6.0 { words } else { "goes underneath" };
        draft.text((right + 5.2, (top + bottom) / 2.0), words, Style::NOTE.middle().upwards().knock());
        self.heights(&mut draft);
        if let Some(balance) = self.balance {
            let y = bottom - balance;
            draft.line(&[(left, y), (right, y)], Pen::LINE.role(Role::Looks).dash(Dash::Ghost));
        }
        for mark in &self.marks {
            let dash = if mark.kind == Kind::Fin { Dash::Axis } else { Dash::Solid };
            let (x, _) = self.at(mark.clock, 0.0);
            draft.line(&[(x, top), (x, bottom)], Pen::THIN.dash(dash));
        }
        for mark in &self.marks {
            draft.stands_for(Some(mark.source));
            self.mark(&mut draft, mark);
        }
        draft.stands_for(None);
        for mark in &self.marks {
            self.name(&mut draft, mark);
        }
        self.words(&mut draft);
        draft.done(String::new(), self.told(subject))
    }

    /// A mark every 10 mm on both edges, so that heights can be read across.
    fn heights(&self, draft: &mut Draft) {
        let (left, right, bottom) = (MARGIN, MARGIN + self.around, MARGIN + self.top);
        for i in 1..=(self.top / 10.0) as i32 {
            let up = f64::from(i) * 10.0;
            if up > self.top - 0.5 {
                break;
            }
            let (long, y) = (if i % 5 == 0 { 4.0 } else { 1.8 }, bottom - up);
            let pen = if i % 5 == 0 { Pen::THIN } else { Pen::HAIR.role(Role::Ink) };
            draft.line(&[(left, y), (left + long, y)], pen);
            draft.line(&[(right - long, y), (right, y)], pen);
            if i % 5 == 0 && self.around > 30.0 {
                draft.text_if_free((left + 5.0, y + 1.0), format!("{up}"), Style::NOTE);
                draft.text_if_free((right - 5.0, y + 1.0), format!("{up}"), Style::NOTE.end());
            }
        }
    }

    fn mark(&self, draft: &mut Draft, mark: &Mark) {
        let (x, _) = self.at(mark.clock, 0.0);
        let bottom = MARGIN + self.top;
        let half = mark.wide / 2.0;
        let (low, high) = (bottom - mark.low, bottom - mark.high);
        let block = vec![(x - half, low), (x + half, low), (x + half, high), (x - half, high)];
        match mark.kind {
            Kind::Screw(backed) => {
                let y = (low + high) / 2.0;
                if backed {
                    let block = [(x - 8.0, y - 5.0), (x + 8.0, y - 5.0), (x + 8.0, y + 5.0), (x - 8.0, y + 5.0)];
                    draft.outline(&block, Pen::THIN.role(Role::Mid).dash(Dash::Hidden));
                }
                draft.circle((x, y), 1.5, Some(Role::Paper), Some(Pen::LINE));
                draft.lines([[(x - 0.8, y), (x + 0.8, y)], [(x, y - 0.8), (x, y + 0.8)]], Pen::HAIR.role(Role::Ink));
                draft.lines([[(x - 6.0, y), (x - 2.6, y)], [(x + 2.6, y), (x + 6.0, y)]], Pen::THIN);
            }
            Kind::Fin => {
                draft.solid(&block, Pen::LINE);
                draft.hatch(&[block], 1.2, 45.0, Pen::HAIR);
            }
            Kind::Lug | Kind::Shoe => {
                draft.solid(&block, Pen::LINE);
                draft.hatch(&[block], 1.2, -45.0, Pen::HAIR);
            }
        }
    }

    /// The name along its line, where nothing else stands; the list beside the strip has it too.
    fn name(&self, draft: &mut Draft, mark: &Mark) {
        let (x, _) = self.at(mark.clock, 0.0);
        let bottom = MARGIN + self.top;
        let words = match mark.kind {
            Kind::Fin => format!("fin {}, {} to {}", degrees(mark.clock), said(mark.low), said(mark.high)),
            Kind::Screw(_) => format!("{}, hole at {}", mark.name, said((mark.low + mark.high) / 2.0)),
            _ => format!("{}, {} to {}", mark.name, said(mark.low), said(mark.high)),
        };
        let middle = bottom - (mark.low + mark.high) / 2.0;
        let style = Style::NOTE.role(Role::Ink).bold().middle().upwards();
        let half = crate::font::width(&words, style) / 2.0;
        let keep = |y: f64| y.clamp(MARGIN + half + 1.0, (bottom - half - 1.0).max(MARGIN + half + 1.0));
        let off = mark.wide / 2.0 + if matches!(mark.kind, Kind::Screw(_)) { 7.6 } else { 1.4 };
        let beside = [-off, off + 3.0];
        let heights = [0.0, half + 8.0, -half - 8.0, 2.0 * half + 12.0];
        for y in heights.map(|dy| keep(middle - dy)) {
            if beside.iter().any(|dx| draft.text_if_free((x + dx, y), words.as_str(), style)) {
                return;
            }
        }
    }

    fn words(&self, draft: &mut Draft) {
        let bottom = MARGIN + self.top;
        let (x, _) = self.at(self.seam + 2.0 * PI * 0.06, 0.0);
        if self.top > 60.0 && self.around > 60.0 {
            draft.arrow(
                (x + 6.0, bottom - self.top * 0.62),
                (x + 6.0, bottom - self.top * 0.62 - 26.0),
                Pen::THIN,
                Head(2.6, 0.2),
            );
            draft.text_if_free(
                (x + 4.4, bottom - self.top * 0.62 - 13.0),
                "to the nose",
                Style::NOTE.middle().upwards(),
            );
        }
        if let Some(balance) = self.balance {
            let style = Style::NOTE.role(Role::Looks).bold().knock();
            let words = format!("balance, motor in: {}", said(balance));
            let xs = (1..12).map(|i| MARGIN + self.around * f64::from(i) / 12.0);
            // Lines may run behind it, since paper lies between; other words may not.
            let at = |x: f64| Text { at: (x, bottom - balance - 1.6), words: words.clone(), style };
            let fits = |x: &f64| {
                let own = bounds(&at(*x));
                own.2 < MARGIN + self.around - 8.0 && draft.is_clear_of_words(own)
            };
            if let Some(x) = xs.into_iter().find(fits) {
                draft.text((x, bottom - balance - 1.6), words.as_str(), style);
            }
        }
    }

    /// What is on the strip, told.
    pub fn told(&self, subject: Subject) -> String {
        let list: Vec<String> = self.list.iter().map(|(name, words)| format!("{name} {words}")).collect();
        format!(
            "A strip to cut out and wrap around {} of {}, {} around with {} of overlap, its lower edge at the tube's \
             aft end. {}. A bar of 100 mm and one of 4 inches check the printer.",
            self.name,
            subject.title(),
            show::length(self.around * 1e-3),
            show::length(LAP * 1e-3),
            list.join("; ")
        )
    }
}

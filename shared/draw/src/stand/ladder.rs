//! The ladder along the rod or rail: a rung for each step of speed, at the height where the rocket passes it.

use super::LADDER;
use crate::column::Column;
use crate::draft::Draft;
use crate::pose::{Paper, Pose};
use crate::scene::{Dash, Pen, Point, Role};
use crate::subject::Subject;
use finwright_assess::traced::{speeds, travel_at};
use finwright_checks::common::limits::EXIT_SPEED;
use finwright_model::Pad;
use finwright_units::show;

/// Speeds along the guide. Travels in m from rest, speeds in m/s.
pub struct Ladder {
    /// Where the rear guide's lower end is at rest, m along the rod or rail; `None` where no guide is known.
    pub start: Option<f64>,
    /// The rungs, each with its travel.
    pub rungs: Vec<(f64, f64)>,
    /// One step of speed, m/s.
    pub step: f64,
    /// The travel and the speed at the front guide's release.
    pub front: Option<(f64, f64)>,
    /// The same at the last one's.
    pub last: Option<(f64, f64)>,
    /// The least speed.
    pub floor: f64,
    /// The travel at which it's reached, on an endless guide.
    pub floor_at: Option<f64>,
    /// What lets it go.
    pub held_by: HeldBy,
    /// How far from the middle of the rod or rail to its side, and how far fins reach beyond it, m.
    beside: f64,
}

/// What holds the rocket until it's free.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeldBy {
    /// A lone guide.
    OneGuide,
    /// A front and a rear guide.
    Guides,
    /// A tower, by its body.
    Tower,
}

/// Steps of speed between rungs, in the reader's unit.
const STEPS: [f64; 7] = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0];
/// A missing piece longer than this share of the guide isn't drawn whole.
const MOST_MISSING: f64 = 0.6;

impl Ladder {
    /// The ladder of a flight.
    pub fn of(subject: Subject, pose: &Pose) -> Ladder {
        let floor = subject.analysis.settings.limit(&EXIT_SPEED);
        let beside = pose.sides().1;
        let numbers = subject.numbers;
        let run = numbers.and_then(|numbers| numbers.run.as_ref());
        let start = run.map(|run| pose.length - run.travel);
        let last = run.and_then(|run| run.last()).map(|last| (last.travel, last.speed));
        let front = run.and_then(|run| run.front()).map(|front| (front.travel, front.speed));
        let unit = show::speed_scale();
        let most = last.map_or(0.0, |last| last.1) / unit;
        let step = STEPS.into_iter().find(|step| most / step <= 24.0).unwrap_or(200.0);
        let wanted = (1..=(most / step) as usize).map(|i| i as f64 * step * unit);
        let rungs = numbers.map_or(Vec::new(), |numbers| speeds(numbers, wanted.clone()));
        let is_rung = |(_, speed): &(f64, f64)| wanted.clone().any(|known| (known - speed).abs() < 1e-9);
        let rungs = rungs.into_iter().filter(is_rung).collect();
        let floor_at = numbers.and_then(|numbers| travel_at(numbers, floor));
        let held_by = match numbers.map_or(0, |numbers| numbers.guides().len()) {
            _ if subject.pad().is_some_and(Pad::has_tower) => HeldBy::Tower,
            1 => HeldBy::OneGuide,
            _ => HeldBy::Guides,
        };
        Ladder { start, rungs, step: step * unit, front, last, floor, floor_at, held_by, beside }
    }

    /// Whether it lets go below the floor.
    pub fn is_slow(&self) -> bool {
        self.last.is_some_and(|last| last.1 < self.floor)
    }

    /// How much guide is missing, m.
    pub fn missing(&self) -> Option<f64> {
        let (travel, _) = self.last.filter(|_| self.is_slow())?;
        Some(self.floor_at? - travel)
    }

    /// How high the guide reaches with the piece of it that is missing, m.
    pub fn reach(&self, pose: &Pose) -> f64 {
        pose.length + self.missing().unwrap_or(0.0).min(MOST_MISSING * pose.length)
    }

    fn missing_drawn(&self, length: f64) -> Option<(f64, bool)> {
        let missing = self.missing()?;
        let most = MOST_MISSING * length;
        Some((missing.min(most), missing <= most))
    }

    /// Draw it to the left of the rod or rail.
    pub fn draw(&self, draft: &mut Draft, paper: &Paper) {
        let (Some(start), Some((travel, _))) = (self.start, self.last) else { return };
        let inner = -(self.beside * paper.scale + LADDER.0);
        let outer = inner - LADDER.1;
        let at = |travel: f64, mm: f64| paper.beside(start + travel, mm);
        let across = |travel: f64, a: f64, b: f64| [at(travel, a), at(travel, b)];
        let length = start + travel;
        let (from, to, role) = match self.missing_drawn(length) {
            Some((missing, _)) => (travel, travel + missing, Role::Fails),
            None if self.is_slow() => (travel, travel, Role::Fails),
            None => (self.floor_at.unwrap_or(travel).min(travel), travel, Role::Mid),
        };
        let piece = vec![at(from, inner), at(to, inner), at(to, outer), at(from, outer)];
        let pen = Pen::HAIR.role(role);
        match role {
            Role::Fails => draft.hatch(&[piece], 1.2, -45.0, pen.weight(0.35)),
            _ => draft.hatch(&[piece], 1.2, 45.0, pen),
        }
        for stile in [inner, outer] {
            draft.line(&[at(0.0, stile), at(travel, stile)], Pen::THIN);
            if role == Role::Fails && to > travel {
                draft.line(&[at(travel, stile), at(to, stile)], Pen::LINE.role(Role::Fails).dash(Dash::Hidden));
            }
        }
        if role == Role::Fails && to > travel {
            // The piece of rod or rail that isn't there.
            let half = (0.4_f64).max(0.5);
            let piece = [at(travel, -half), at(to, -half), at(to, half), at(travel, half)];
            draft.outline(&piece, Pen::SMALL.role(Role::Fails).dash(Dash::Hidden));
        }
        draft.lines(self.rungs.iter().map(|(travel, _)| across(*travel, inner, outer)), Pen::THIN);
        draft.line(&across(0.0, inner, outer), Pen::LINE);
        for (travel, _) in [self.front, self.last].into_iter().flatten() {
            draft.line(&across(travel, inner, outer), Pen::BOLD);
            draft.line(&across(travel, -1.2, inner + 0.8), Pen::HAIR);
        }
        if let Some(floor) = self.floor_drawn(length) {
            let role = if self.is_slow() { Role::Fails } else { Role::Ink };
            draft.line(&across(floor, inner + 1.5, outer - 1.5), Pen::BOLD.weight(1.1).role(role));
            draft.line(&across(floor, -1.2, inner + 2.3), Pen::HAIR);
        }
    }

    /// Where the floor's rung is drawn.
    fn floor_drawn(&self, length: f64) -> Option<f64> {
        let at = self.floor_at?;
        match self.missing_drawn(length) {
            Some((missing, whole)) => whole.then_some(self.last?.0 + missing),
            None => Some(at).filter(|at| self.last.is_some_and(|last| *at <= last.0)),
        }
    }

    /// What it says, into the column to its left.
    pub fn label(&self, paper: &Paper, column: &mut Column) {
        let (Some(start), Some(last)) = (self.start, self.last) else { return };
        let outer = -(self.beside * paper.scale + LADDER.0 + LADDER.1);
        let at = |travel: f64| -> Point { paper.beside(start + travel, outer - 2.4) };
        let up = |travel: f64| format!("{} up", show::length(travel));
        let length = start + last.0;
        if self.is_slow() {
            let words = match self.missing() {
                Some(missing) => format!("not reached: {} of guide is missing", show::length_at_least(missing)),
                None => "not reached, however long the guide".to_string(),
            };
            let drawn = self.missing_drawn(length).map_or(last.0, |(missing, _)| last.0 + missing);
            column.level(at(drawn), &format!("{}, the least", show::speed(self.floor)), &words, Role::Fails);
        } else if let Some(floor) = self.floor_drawn(length) {
            let words =
                format!("reached {}, {} before the end; hatched: fast enough", up(floor), show::length(last.0 - floor));
            column.level(at(floor), &format!("{}, the least", show::speed(self.floor)), &words, Role::Ink);
        }
        let (held_until, free) = match self.held_by {
            HeldBy::OneGuide => ("its guide's front edge leaves", "its guide leaves: it's free"),
            HeldBy::Guides => ("the front guide leaves", "the rear guide leaves: it's free"),
            HeldBy::Tower => ("less of it is held than it is wide", "the body has left: it's free"),
        };
        column.level(at(last.0), &show::speed(last.1), &format!("{free}, {}", up(last.0)), Role::Ink);
        if let Some((travel, speed)) = self.front.filter(|front| front.0 > 0.0 && front.0 < last.0 - 1e-6) {
            column.level(at(travel), &show::speed(speed), &format!("{held_until}, {}", up(travel)), Role::Ink);
        }
        // A few rungs between, where there is room for them.
        let taken = |travel: f64| {
            let others = [Some(last.0), self.front.map(|front| front.0), self.floor_at, Some(0.0)];
            others.into_iter().flatten().any(|other| (other - travel).abs() * paper.scale < 16.0)
        };
        let mut told: Option<f64> = None;
        let is_round =
            |speed: f64| (speed / self.step / 5.0).fract().min(1.0 - (speed / self.step / 5.0).fract()) < 1e-6;
        for (travel, speed) in self.rungs.iter().rev().filter(|(travel, v)| is_round(*v) && !taken(*travel)) {
            if told.is_none_or(|told| (told - travel) * paper.scale > 30.0) {
                column.level(at(*travel), &show::speed(*speed), &up(*travel), Role::Ink);
                told = Some(*travel);
            }
        }
        column.level(at(0.0), "it stands here", &format!("each rung is {} more", show::speed(self.step)), Role::Ink);
    }
}

//! The rails of a tower around the body, turned to the fins as well as can be.

use super::Behind;
use crate::draft::Draft;
use crate::scene::{Pen, Point};
use crate::subject::Subject;
use finwright_assess::flight::pad::half_gap;
use finwright_assess::traced::at as across;
use finwright_model::{PartKind, Rail, TOWER_RAIL};
use finwright_units::show;
use std::f64::consts::PI;

/// A tower with its rails' angles around the body, rad. Lengths in m.
pub(super) struct Tower {
    clocks: Vec<f64>,
    inner: f64,
    thickness: f64,
}

/// How deep a rail is drawn: the language doesn't say.
const DEEP: f64 = 2.0;

/// The tower of a flight; `None` where it flies from something else.
pub(super) fn of(subject: Subject) -> Option<Tower> {
    let Some(Rail::Tower { rails: Some(rails), bore: Some(bore), thickness, .. }) = &subject.pad()?.rail else {
        return None;
    };
    let fins = subject.design().parts.iter().find_map(|part| match &part.kind {
        PartKind::Fins(fins) => Some((part.clock.as_ref().map_or(0.0, |clock| clock.si), fins.count.as_ref()?.si)),
        _ => None,
    });
    // Half of the gap that fins and rails leave each other wherever they stand.
    let (first, count) = fins.unwrap_or((0.0, rails.si));
    let from = first + half_gap(rails.si, count);
    let clocks = (0..rails.si as u32).map(|i| from + 2.0 * PI * f64::from(i) / rails.si).collect();
    Some(Tower { clocks, inner: bore.si / 2.0, thickness: thickness.as_ref().map_or(TOWER_RAIL, |wide| wide.si) })
}

impl Tower {
    /// How far out it's drawn, m.
    pub fn reach(&self) -> f64 {
        self.inner + DEEP * self.thickness
    }

    pub fn draw(&self, draft: &mut Draft, behind: &Behind) {
        let half = self.thickness / 2.0;
        for clock in &self.clocks {
            let corner = |out: f64, beside: f64| behind.at(across(self.inner + out, *clock, beside));
            let deep = DEEP * self.thickness;
            let rail: [Point; 4] = [corner(0.0, -half), corner(deep, -half), corner(deep, half), corner(0.0, half)];
            draft.solid(&rail, Pen::LINE);
            draft.hatch(&[rail.to_vec()], 1.0, 45.0, Pen::HAIR);
        }
    }

    /// That it goes between the fins, in words.
    pub fn told(&self) -> String {
        format!("Yes: its fins go between the tower's {} rails.", show::number(self.clocks.len() as f64))
    }
}

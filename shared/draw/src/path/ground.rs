//! The ground under a flight: the field, its edge, the people, and the distances between.

use super::{lands_out, Field};
use crate::draft::{Draft, Head};
use crate::scene::{Pen, Role, Style};
use crate::subject::Subject;
use finwright_assess::Path;
use finwright_checks::rules::field::drifts_out::DRIFTS_OUT;
use finwright_units::show;

/// What of the ground is known, m from the pad; the pad stands in the middle of the field.
pub struct Land {
    /// From there to the field's edge.
    pub edge: Option<f64>,
    /// To the people.
    pub people: Option<f64>,
    /// Where it lands, downwind of the pad.
    pub landing: Option<f64>,
    /// Whether that is out of the field.
    pub out: bool,
}

impl Land {
    /// The ground of a flight.
    pub fn of(subject: Subject, known: &Path) -> Land {
        let site = subject.flight.and_then(|flight| subject.design().sites.get(flight.site.as_ref()?.value));
        let edge = site.and_then(|site| site.across.as_ref()).map(|across| across.si / 2.0);
        let people = site.and_then(|site| site.people.as_ref()).map(|people| people.si);
        let landing = known.drift();
        let out = landing.zip(edge).is_some_and(|(landing, edge)| landing.abs() > edge);
        Land { edge, people, landing, out }
    }

    /// What the picture must have room for.
    pub fn marks(&self) -> impl Iterator<Item = f64> + '_ {
        // A field that is far larger than the flight isn't shown whole.
        let far = self.landing.map_or(0.0, f64::abs).max(20.0) * 2.5;
        let edge = self.edge.filter(|edge| *edge <= far);
        edge.into_iter().chain(self.people.filter(|people| *people <= far).map(|people| -people)).chain(self.landing)
    }

    /// What the picture answers, and what more there is to say.
    pub fn headline(&self, subject: Subject, known: &Path) -> (String, Vec<String>) {
        let wind = subject.numbers.and_then(|numbers| numbers.air).filter(|air| air.wind > 0.0);
        let wind = wind.map(|air| show::speed(air.as_read(air.wind)));
        let when = wind.map_or("In still air".to_string(), |wind| format!("In {wind} of wind"));
        let top = show::length(known.moments.apogee.height);
        let Some(landing) = self.landing else {
            return (format!("{when} it climbs to {top}; how it comes down isn't known."), Vec::new());
        };
        let far = show::length(landing.abs());
        let said = match self.edge {
            Some(edge) if self.out => {
                format!("{when} it lands {} beyond the field's edge.", show::length(landing.abs() - edge))
            }
            Some(_) => format!("{when} it climbs to {top} and lands {far} away, on the field."),
            None => format!("{when} it climbs to {top} and lands {far} from the pad."),
        };
        let help = subject.found(&[&DRIFTS_OUT]).map(|finding| crate::subject::sentence("To pass", &finding.help));
        (said, help.into_iter().filter(|_| self.out && lands_out(subject)).collect())
    }

    /// The ground itself, and the field's edge.
    pub fn draw(&self, draft: &mut Draft, field: &Field, width: f64) {
        let y = field.pad.1;
        let (left, right) = (8.0, width - 6.0);
        let edge = self.edge.map(|edge| field.at(edge * self.side(), 0.0).0).filter(|x| (left..=right).contains(x));
        match edge {
            Some(x) if self.out => {
                let (near, far) = if self.side() > 0.0 { ((left, x), (x, right)) } else { ((x, right), (left, x)) };
                draft.limit((near.0, y), (near.1, y), 1.0, Pen::LINE.role(Role::Mid));
                let block = vec![(far.0, y), (far.1, y), (far.1, y + 3.0), (far.0, y + 3.0)];
                draft.hatch(&[block], 1.2, -45.0, Pen::SMALL.role(Role::Fails));
                draft.line(&[(far.0, y), (far.1, y)], Pen::LINE.role(Role::Fails));
            }
            _ => draft.limit((left, y), (right, y), 1.0, Pen::LINE.role(Role::Mid)),
        }
        if let Some(x) = edge {
            let role = if self.out { Role::Fails } else { Role::Ink };
            let side = self.side();
            match side > 0.0 {
                true => draft.limit((x, y), (x, y - 14.0), 1.0, Pen::SMALL.role(role)),
                false => draft.limit((x, y - 14.0), (x, y), 1.0, Pen::SMALL.role(role)),
            }
        }
        if let Some(landing) = self.landing {
            let (x, y) = field.at(landing, 0.0);
            let pen = Pen::BOLD.role(if self.out { Role::Fails } else { Role::Ink });
            match self.out {
                true => draft
                    .lines([[(x - 1.2, y - 1.2), (x + 1.2, y + 1.2)], [(x + 1.2, y - 1.2), (x - 1.2, y + 1.2)]], pen),
                false => draft.circle((x, y), 1.0, Some(Role::Ink), None),
            }
        }
    }

    /// The edge's name, where the flight leaves room for it.
    pub fn name_edge(&self, draft: &mut Draft, field: &Field) {
        let Some(metres) = self.edge else { return };
        let (x, y) = field.at(metres * self.side(), 0.0);
        if !(8.0..=draft.width() - 6.0).contains(&x) {
            return;
        }
        let words = format!("field's edge, {}", show::length(metres));
        let style = Style::NOTE.role(if self.out { Role::Fails } else { Role::Ink });
        let beside = [(-2.0, style.end()), (2.5, style)];
        let places =
            [-12.0, -8.0, -4.0, -16.0, -20.0].into_iter().flat_map(|dy| beside.map(|(dx, style)| (dx, dy, style)));
        for (dx, dy, style) in places {
            if draft.text_if_free((x + dx, y + dy), words.as_str(), style) {
                return;
            }
        }
    }

    /// Which side it lands on: 1 downwind of the pad.
    fn side(&self) -> f64 {
        if self.landing.is_some_and(|landing| landing < 0.0) {
            -1.0
        } else {
            1.0
        }
    }

    /// The distances as a chain under the ground. Gives the y below.
    pub fn distances(&self, draft: &mut Draft, field: &Field, known: &Path) -> f64 {
        let y = field.pad.1;
        let level = y + 12.0;
        draft.line(&[(field.pad.0, y), (field.pad.0, level + 1.4)], Pen::HAIR.role(Role::Ink));
        let note = Style::NOTE.role(Role::Ink);
        draft.text((field.pad.0, level + 5.4), "pad", note.middle());
        if let Some(people) = self.people {
            let x = field.at(-people * self.side(), 0.0).0;
            if (10.0..=draft.width() - 10.0).contains(&x) {
                draft.line(&[(x, y - 1.2), (x, y + 4.4)], Pen::HAIR.role(Role::Ink));
                let words = format!("people, {}", show::length(people));
                let style = if self.side() > 0.0 { note.end() } else { note };
                let _ = draft.text_if_free((x, y + 7.6), words.as_str(), style)
                    || draft.text_if_free((x.max(12.0), y + 7.6), words.as_str(), note)
                    || draft.text_if_free((12.0, level + 10.0), words, note);
            }
        }
        let Some(landing) = self.landing else { return level + 8.0 };
        let to = field.at(landing, 0.0).0;
        draft.line(&[(to, y + 3.4), (to, level + 1.4)], Pen::HAIR.role(Role::Ink));
        match self.edge.filter(|_| self.out) {
            Some(edge) => {
                let x = field.at(edge * self.side(), 0.0).0;
                draft.line(&[(x, y + 3.6), (x, level + 1.4)], Pen::HAIR.role(Role::Ink));
                draft.dimension((field.pad.0, level), (x, level), Role::Ink);
                draft.text_if_free(
                    ((field.pad.0 + x) / 2.0, level - 1.5),
                    format!("{} of field", show::length(edge)),
                    note.middle(),
                );
                let head = Head(1.3, 0.25);
                draft.arrow((x + 5.0 * self.side().min(1.0), level), (x, level), Pen::HAIR.role(Role::Fails), head);
                draft.arrow((x, level), (to, level), Pen::HAIR.role(Role::Fails), head);
                let beyond = show::length(landing.abs() - edge);
                draft.text_if_free(((x + to) / 2.0, level - 1.5), beyond, note.role(Role::Fails).bold().middle());
            }
            None => {
                draft.dimension((field.pad.0, level), (to, level), Role::Ink);
            }
        }
        let role = if self.out { Role::Fails } else { Role::Ink };
        let words = format!(
            "lands {} from the pad, {} after ignition",
            show::length(landing.abs()),
            show::time(known.moments.landing.time)
        );
        let style = note.role(role).bold();
        let _ = draft.text_if_free((to + 2.0, level + 5.4), words.as_str(), style.end())
            || draft.text_if_free((to - 2.0, level + 5.4), words.as_str(), style)
            || draft.text_if_free((draft.width() - 12.0, level + 9.6), words, style.end());
        level + 11.0
    }
}

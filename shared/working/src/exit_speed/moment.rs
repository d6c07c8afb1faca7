//! A moment of the run, as a line of the table.

use crate::term::Term;

/// A moment of the run.
#[derive(Clone)]
pub(super) struct Moment {
    pub time: Term,
    pub thrust: Term,
    pub impulse: Term,
    pub mass: Term,
    pub acceleration: Term,
    pub speed: Term,
    pub travel: Term,
}

impl Moment {
    /// The same numbers as those of the line above.
    pub fn above(&self) -> Moment {
        let stroke = |term: &Term| match term.number() {
            Some(number) => Term::known(&format!("{}'", term.formula()), number),
            None => term.clone(),
        };
        Moment {
            time: stroke(&self.time),
            thrust: stroke(&self.thrust),
            impulse: stroke(&self.impulse),
            mass: stroke(&self.mass),
            acceleration: stroke(&self.acceleration),
            speed: stroke(&self.speed),
            travel: stroke(&self.travel),
        }
    }
}

/// The first moment under the table's own symbols.
pub(super) fn renamed(moment: &Moment) -> Moment {
    let as_ = |symbol: &str, term: &Term| term.number().map_or(term.clone(), |n| Term::known(symbol, n));
    Moment {
        time: as_("t", &moment.time),
        thrust: as_("F", &moment.thrust),
        impulse: as_("I", &moment.impulse),
        mass: as_("m", &moment.mass),
        acceleration: as_("a", &moment.acceleration),
        speed: as_("v", &moment.speed),
        travel: as_("s", &moment.travel),
    }
}

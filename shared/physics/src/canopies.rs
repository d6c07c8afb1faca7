//! What opens on the way, and when. Canopies that are open together add their drag areas.

/// A parachute or streamer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Canopy {
    /// Drag area Cd·S in m², positive.
    pub drag_area: f64,
    /// When it opens; opening itself takes no time.
    pub opens: Opens,
}

/// When a canopy opens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Opens {
    /// This many seconds after the motor's burn ends.
    AfterBurnout(f64),
    /// This many seconds after the highest point.
    AfterApogee(f64),
    /// On the way down, at this height in m above the resting place; at the highest point where that is lower.
    Below(f64),
}

/// The canopies of a flight, of which some are open and some are packed yet.
pub(crate) struct Canopies<'a> {
    all: &'a [Canopy],
    open: Vec<bool>,
    /// When the burn ends, or the flight begins if that is later.
    burn_end: f64,
    begins: f64,
    /// When the highest point is passed.
    top: Option<f64>,
}

/// An opening no later than that, in s, after the highest point is about it.
pub(crate) const ABOUT_TOP: f64 = 1.5;
/// Times and heights as near as this count as reached.
const CLOSE: f64 = 1e-9;

impl<'a> Canopies<'a> {
    pub fn packed(all: &'a [Canopy], burn_end: f64, begins: f64) -> Self {
        Self { all, open: vec![false; all.len()], burn_end, begins, top: None }
    }

    /// The highest point is passed at time `t`.
    pub fn pass_top(&mut self, t: f64) {
        self.top.get_or_insert(t);
    }

    /// When the next one opens by the clock; infinite where none does, as far as is known yet.
    pub fn next_time(&self) -> f64 {
        self.waiting().filter_map(|canopy| self.time_of(canopy)).fold(f64::INFINITY, f64::min)
    }

    /// When the first one that is packed opens at the latest, as far as a climb shows: at once where it's about the
    /// highest point, and never where it's on the way down.
    pub fn opens_by(&self) -> f64 {
        let latest = |canopy: &Canopy| match canopy.opens {
            Opens::AfterBurnout(_) => self.time_of(canopy).unwrap_or(f64::INFINITY),
            Opens::AfterApogee(delay) if delay <= ABOUT_TOP => f64::NEG_INFINITY,
            Opens::AfterApogee(_) | Opens::Below(_) => f64::INFINITY,
        };
        self.waiting().map(latest).fold(f64::INFINITY, f64::min)
    }

    /// At which height the next one opens on the way down.
    pub fn next_height(&self) -> Option<f64> {
        self.top?;
        let heights = self.waiting().filter_map(|canopy| match canopy.opens {
            Opens::Below(height) => Some(height),
            _ => None,
        });
        heights.reduce(f64::max)
    }

    /// Opens what is due at a time and height; whether anything was.
    pub fn open_due(&mut self, time: f64, height: f64) -> bool {
        let mut any = false;
        for number in 0..self.all.len() {
            let canopy = &self.all[number];
            let due = match canopy.opens {
                Opens::Below(at) => {
                    self.top.is_some_and(|top| time >= top - CLOSE) && height <= at * (1.0 + CLOSE) + CLOSE
                }
                _ => self.time_of(canopy).is_some_and(|at| time >= at - CLOSE),
            };
            if due && !self.open[number] {
                self.open[number] = true;
                any = true;
            }
        }
        any
    }

    /// Which are open.
    pub fn open(&self) -> &[bool] {
        &self.open
    }

    /// The drag area of those that are open, m².
    pub fn drag_area(&self) -> f64 {
        self.all.iter().zip(&self.open).filter(|(_, open)| **open).map(|(canopy, _)| canopy.drag_area).sum()
    }

    fn waiting(&self) -> impl Iterator<Item = &'a Canopy> + '_ {
        self.all.iter().zip(&self.open).filter(|(_, open)| !**open).map(|(canopy, _)| canopy)
    }

    fn time_of(&self, canopy: &Canopy) -> Option<f64> {
        match canopy.opens {
            Opens::AfterBurnout(delay) => Some((self.burn_end + delay).max(self.begins)),
            Opens::AfterApogee(delay) => self.top.map(|top| top + delay),
            Opens::Below(_) => None,
        }
    }
}

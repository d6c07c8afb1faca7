//! What a rule is: its public page and its check, in one place.

use crate::example::Example;
use crate::finding::{Edit, Finding, Fix, Label, Level};
use crate::settings::Settings;
use crate::threshold::Threshold;
use finwright_assess::{Assessment, FlightNumbers};
use finwright_grammar::{FileId, Place};
use finwright_model::{Amount, Design, Flight};

/// A rule: everything that is said about it anywhere comes from here.
#[derive(Debug)]
pub struct Rule {
    /// `family/bad-state`.
    pub name: &'static str,
    /// How much its findings matter unless a configuration says otherwise.
    pub level: Level,
    /// What it finds, in a few words.
    pub summary: &'static str,
    /// Why it matters, in one plain sentence; every finding carries it.
    pub why: &'static str,
    /// What a student can learn from it.
    pub prose: &'static str,
    /// The numbers that it compares with.
    pub thresholds: &'static [&'static Threshold],
    /// How it's done, and how not.
    pub example: Example,
    /// The check, unless an earlier stage (grammar, model) finds it.
    pub check: Option<fn(&Context, &mut Vec<Finding>)>,
}

/// What a check looks at.
pub struct Context<'a> {
    /// The design.
    pub design: &'a Design,
    /// Its numbers.
    pub assessment: &'a Assessment,
    /// Levels and thresholds.
    pub settings: &'a Settings,
}

impl<'a> Context<'a> {
    /// A threshold's value in SI.
    pub fn limit(&self, threshold: &Threshold) -> f64 {
        self.settings.limit(threshold)
    }

    /// The flights with their numbers.
    pub fn flights(&self) -> impl Iterator<Item = (&'a Flight, &'a FlightNumbers)> + 'a {
        let design = self.design;
        self.assessment.flights.iter().filter_map(move |numbers| Some((design.flights.get(numbers.flight)?, numbers)))
    }
}

impl Rule {
    /// A finding of this rule, with nothing but its message yet.
    pub fn finding(&self, place: Place, message: impl Into<String>) -> Finding {
        Finding {
            rule: self.name,
            level: self.level,
            place,
            message: message.into(),
            why: self.why.to_string(),
            help: String::new(),
            labels: Vec::new(),
            fixes: Vec::new(),
        }
    }
}

impl Finding {
    /// With what to do about it.
    pub fn help(mut self, help: impl Into<String>) -> Finding {
        self.help = help.into();
        self
    }

    /// With another place that takes part in it.
    pub fn label(mut self, place: Place, text: impl Into<String>) -> Finding {
        self.labels.push(Label { place, text: text.into() });
        self
    }

    /// With a quick fix that replaces one value, where that value stands in the file that is being looked at.
    pub fn fix(mut self, title: impl Into<String>, place: Place, text: impl Into<String>) -> Finding {
        if place.file == FileId(0) {
            self.fixes.push(Fix { title: title.into(), edits: vec![Edit { place, text: text.into() }] });
        }
        self
    }

    /// With a quick fix of several edits, where all of them stand in the file that is being looked at; two edits of one
    /// place are one.
    pub fn fix_all(mut self, title: impl Into<String>, edits: impl IntoIterator<Item = (Place, String)>) -> Finding {
        let mut edits: Vec<Edit> = edits.into_iter().map(|(place, text)| Edit { place, text }).collect();
        edits.sort_by_key(|edit| (edit.place.file, edit.place.span.start));
        edits.dedup_by_key(|edit| edit.place);
        if !edits.is_empty() && edits.iter().all(|edit| edit.place.file == FileId(0)) {
            self.fixes.push(Fix { title: title.into(), edits });
        }
        self
    }

    /// [`Finding::fix`] for an amount that may not be there.
    pub fn fix_amount(self, title: impl Into<String>, amount: Option<&Amount>, text: impl Into<String>) -> Finding {
        match amount {
            Some(amount) => self.fix(title, amount.place, text),
            None => self,
        }
    }
}

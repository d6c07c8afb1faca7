//! What is known of a design whose text changed in a comment: the same as before, told of places that moved. Whoever
//! writes a remark doesn't wait for flights.

use crate::allowance::{mentions, Allowed};
use crate::analysis::{Analysis, Snapshot, Source};
use crate::finding::{Edit, Elsewhere, Finding, Fix, Label};
use crate::wanted::Wanted;
use finwright_grammar::{retold, Shift, Span};

impl Analysis {
    /// What [`crate::analyze`] gives for a text that differs from this analysis's in the words of one comment which
    /// allows nothing, before or now; `None` where it differs otherwise, or something is wrong with the design's words.
    /// All files that are used have to be the same as before.
    pub fn retold(&self, snapshot: &Snapshot) -> Option<Analysis> {
        let tree = self.tree()?;
        let change = retold(tree, &snapshot.text)?;
        if *self.settings != *snapshot.settings || self.sources.first()?.path != snapshot.path {
            return None;
        }
        if mentions(change.before.of(&tree.text)) || mentions(change.now.of(&snapshot.text)) {
            return None;
        }
        let design = finwright_model::retold(&self.design, &change, snapshot.text.clone())?;
        let to = |span| change.place(span);
        let mut analysis = Analysis {
            sources: self.sources.clone(),
            design,
            assessment: self.assessment.retold(&change),
            settings: self.settings.clone(),
            findings: self.findings.clone(),
            allowed: self.allowed.clone(),
            flights: self.flights.clone(),
            verdict: self.verdict,
            reason: self.reason.clone(),
            wanted: Wanted::default(),
            allowances: self.allowances.clone(),
        };
        if let Some(Source { text, .. }) = analysis.sources.first_mut() {
            *text = snapshot.text.clone();
        }
        analysis.findings.relocate(&to);
        analysis.allowed.relocate(&to);
        analysis.allowances.relocate(&to);
        Some(analysis)
    }
}

impl Shift for Finding {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        self.place.relocate(to);
        self.labels.relocate(to);
        self.fixes.relocate(to);
        if let Some(Elsewhere::UsedFile(place)) = &mut self.elsewhere {
            place.relocate(to);
        }
    }
}

impl Shift for Label {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        self.place.relocate(to);
    }
}

impl Shift for Fix {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        self.edits.relocate(to);
    }
}

impl Shift for Edit {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        self.place.relocate(to);
    }
}

impl Shift for Allowed {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        self.finding.relocate(to);
        self.comment.relocate(to);
    }
}

//! What the state has to do with documents that nobody is typing in: the client is told that they changed, and those
//! that nobody has open are looked at.

use super::State;
use crate::options::Scope;
use crate::pull::Known;
use crate::survey::Workspace;
use crate::unopened::{Seen, Told};
use std::path::Path;
use std::sync::Arc;

impl State {
    /// Once everything that changed from outside is known again, the client is told, once.
    pub(super) fn refresh_if_settled(&mut self) {
        let settled = self.documents.values().all(|document| document.current_view().is_some());
        if settled && self.documents.values().any(|document| document.touched_from_outside) {
            self.documents.values_mut().for_each(|document| document.touched_from_outside = false);
            self.refresh.send(self.terms.refreshes);
        }
    }

    pub(super) fn workspace(&self) -> Workspace {
        Workspace { folders: self.folders.clone(), buffers: Arc::new(self.buffers()), terms: self.terms }
    }

    /// Everything that is known to be wrong, in open documents and in others.
    pub(super) fn all_known(&self) -> Vec<Known> {
        let open = self.documents.iter().filter_map(|(uri, document)| {
            let view = document.view.as_ref()?;
            let (result_id, items) = (view.generation.to_string(), view.diagnostics.clone());
            Some(Known { uri: uri.clone(), version: Some(view.version), result_id, items })
        });
        let unopened = self.known.iter().filter(|(path, _)| !self.is_open(path)).map(|(_, known)| known.clone());
        let mut all: Vec<Known> = match self.terms.options.diagnostics {
            Scope::Off => Vec::new(),
            Scope::Open => open.collect(),
            Scope::Workspace => open.chain(unopened).collect(),
        };
        all.sort_by(|a, b| a.uri.cmp(&b.uri));
        all
    }

    fn is_open(&self, path: &Path) -> bool {
        self.documents.values().any(|document| document.path == path)
    }

    /// Look at the designs that nobody has open, or take back what was told of them.
    pub(super) fn look_at_all(&mut self) {
        let wanted = self.terms.options.diagnostics == Scope::Workspace;
        if !wanted {
            let told: Vec<Known> = self.known.drain().map(|(_, known)| known).collect();
            told.into_iter().for_each(|known| self.publish(known.uri, &[], None));
        }
        let _ = self.unopened.send(Told::All(wanted.then(|| self.workspace())));
    }

    pub(super) fn see(&mut self, Seen { known, path, is_gone }: Seen) {
        if self.is_open(&path) || self.terms.options.diagnostics != Scope::Workspace {
            return;
        }
        self.publish(known.uri.clone(), &known.items, None);
        match is_gone {
            true => drop(self.known.remove(&path)),
            false => drop(self.known.insert(path, known)),
        }
    }

    pub(super) fn send_news(&mut self) {
        if self.news.is_empty() {
            return;
        }
        let news = std::mem::take(&mut self.news);
        if self.terms.options.diagnostics == Scope::Workspace {
            let _ = self.unopened.send(Told::Touched(news, self.workspace()));
        }
    }
}

//! The one thread that owns the open documents. It does nothing that takes long, and it never waits for the client.

mod background;

use crate::document::{Answer, Document};
use crate::files::{Buffer, Buffers, ProjectFiles};
use crate::options::Scope;
use crate::outbox::Outbox;
use crate::pull::Known;
use crate::refresh::Refresh;
use crate::survey::Workspace;
use crate::terms::Terms;
use crate::unopened::{self, Seen, Told};
use crate::worker::{self, Done, Job};
use finwright_checks::Analyze;
use finwright_disk::real_path;
use lsp_types::notification::PublishDiagnostics;
use lsp_types::*;
use std::collections::{BTreeSet, HashMap};
use std::path::PathBuf;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{channel, Receiver, Sender};
use std::sync::Arc;
use std::time::Duration;
use tokio::sync::oneshot;

/// What can happen to the state.
pub enum Event {
    /// Client and server have agreed.
    Start(Terms, Vec<Url>),
    /// Folders joined or left the workspace.
    Folders(WorkspaceFoldersChangeEvent),
    /// A document was opened.
    Open(TextDocumentItem),
    /// A document was edited.
    Change(DidChangeTextDocumentParams),
    /// A document was closed.
    Close(Url),
    /// A document was saved.
    Saved(Url),
    /// Files or folders changed on disk.
    Disk(Vec<Url>),
    /// The user has chosen otherwise.
    Options(serde_json::Value),
    /// A design that nobody has open was looked at.
    Seen(Seen),
    /// A request wants to know about the whole workspace.
    AskWorkspace(oneshot::Sender<Workspace>),
    /// A request wants to know all diagnostics.
    AskDiagnostics(oneshot::Sender<Vec<Known>>),
    /// A request wants to know what is known about the newest text of a document.
    Ask(Url, oneshot::Sender<Answer>),
    /// An analysis is finished.
    Done(Done),
    /// A document's live page is asked for: its address, or why there is none.
    #[cfg(feature = "pictures")]
    Preview(Arc<crate::view::View>, oneshot::Sender<Result<String, String>>),
    /// The editor's cursor moved.
    #[cfg(feature = "pictures")]
    Cursor(crate::preview::Cursor),
    /// The conversation is over.
    Stop,
}

/// Start the thread. It ends with [`Event::Stop`].
///
/// While `more` messages have arrived that aren't read yet it waits for them, for a moment, before it asks for an
/// analysis.
pub fn start(
    outbox: Outbox,
    more: Arc<AtomicBool>,
    refresh: Refresh,
    analyze: Analyze,
    #[cfg(feature = "pictures")] previews: crate::preview::Previews,
) -> Sender<Event> {
    let (sender, events) = channel();
    let results = sender.clone();
    let results_of_unopened = sender.clone();
    std::thread::spawn(move || {
        let jobs = worker::start(analyze, move |done| {
            // No state thread means that the conversation is over.
            let _ = results.send(Event::Done(done));
        });
        let seen = results_of_unopened;
        let unopened = unopened::start(analyze, move |looked| {
            let _ = seen.send(Event::Seen(looked));
        });
        let state = State {
            outbox,
            more,
            refresh,
            jobs,
            unopened,
            known: HashMap::new(),
            news: Vec::new(),
            terms: Terms::agreed(&ClientCapabilities::default()),
            folders: Vec::new(),
            documents: HashMap::new(),
            generation: 0,
            dirty: BTreeSet::new(),
            touched: HashMap::new(),
            #[cfg(feature = "pictures")]
            previews,
        };
        state.run(events);
    });
    sender
}

/// Long for reading a message, short for whoever types.
const MOMENT: Duration = Duration::from_millis(1);

struct State {
    outbox: Outbox,
    more: Arc<AtomicBool>,
    refresh: Refresh,
    jobs: Sender<Job>,
    unopened: Sender<Told>,
    /// What is known of designs that nobody has open.
    known: HashMap<PathBuf, Known>,
    /// Files that have changed since the designs that nobody has open were told.
    news: Vec<PathBuf>,
    terms: Terms,
    folders: Vec<PathBuf>,
    documents: HashMap<Url, Document>,
    generation: u64,
    dirty: BTreeSet<Url>,
    /// When each file last became another one. Which files a document uses is known only when its analysis is finished,
    /// and one of them may have changed meanwhile.
    touched: HashMap<PathBuf, u64>,
    #[cfg(feature = "pictures")]
    previews: crate::preview::Previews,
}

impl State {
    fn run(mut self, events: Receiver<Event>) {
        while let Ok(event) = events.recv() {
            // Everything that has arrived is taken in before an analysis is asked for: a burst of edits costs one.
            for event in std::iter::once(event).chain(events.try_iter()) {
                match event {
                    Event::Stop => return,
                    other => self.take(other),
                }
            }
            while self.more.load(Ordering::Acquire) {
                match events.recv_timeout(MOMENT) {
                    Ok(Event::Stop) => return,
                    Ok(event) => self.take(event),
                    // What has arrived concerns nobody here.
                    Err(_) => break,
                }
            }
            self.send_jobs();
            self.send_news();
        }
    }

    fn take(&mut self, event: Event) {
        match event {
            Event::Start(terms, folders) => {
                self.terms = terms;
                self.folders = folders.iter().filter_map(folder_path).collect();
                self.look_at_all();
            }
            Event::Folders(change) => self.change_folders(change),
            Event::Open(item) => self.open(item),
            Event::Change(params) => self.change(params),
            Event::Close(uri) => self.close(uri),
            Event::Disk(uris) => {
                let paths = uris.iter().filter_map(|uri| uri.to_file_path().ok());
                paths.for_each(|path| self.touch(&real_path(&path)));
            }
            Event::Saved(uri) => self.saved(&uri),
            Event::Options(sent) => self.choose(&sent),
            Event::Seen(seen) => self.see(seen),
            Event::AskWorkspace(reply) => {
                let _ = reply.send(self.workspace());
            }
            Event::AskDiagnostics(reply) => {
                let _ = reply.send(self.all_known());
            }
            Event::Ask(uri, reply) => self.ask(uri, reply),
            Event::Done(done) => self.finish(done),
            #[cfg(feature = "pictures")]
            Event::Preview(view, reply) => {
                let newest = self.documents.get(&view.uri).and_then(|document| document.view.clone());
                let _ = reply.send(self.previews.open(&newest.unwrap_or(view)));
            }
            #[cfg(feature = "pictures")]
            Event::Cursor(cursor) => self.previews.mark(&cursor),
            Event::Stop => {}
        }
    }

    fn open(&mut self, item: TextDocumentItem) {
        let path = path_of(&item.uri);
        let document = Document::new(path.clone(), item.version, item.text);
        if let Some(mut older) = self.documents.insert(item.uri.clone(), document) {
            older.reply_waiting(|| Err(tower_lsp::jsonrpc::Error::content_modified()));
        }
        self.stale(&item.uri);
        self.touch(&path);
    }

    fn change(&mut self, params: DidChangeTextDocumentParams) {
        let VersionedTextDocumentIdentifier { uri, version } = params.text_document;
        let Some(document) = self.documents.get_mut(&uri) else {
            return;
        };
        document.edit(self.terms.encoding, version, params.content_changes);
        let path = document.path.clone();
        self.stale(&uri);
        self.touch(&path);
    }

    fn close(&mut self, uri: Url) {
        let Some(mut document) = self.documents.remove(&uri) else {
            return;
        };
        document.reply_waiting(|| Ok(None));
        document.no_longer_wanted();
        self.dirty.remove(&uri);
        #[cfg(feature = "pictures")]
        self.previews.close(&uri);
        self.publish(uri, &[], None);
        self.touch(&document.path);
    }

    fn ask(&mut self, uri: Url, reply: oneshot::Sender<Answer>) {
        let Some(document) = self.documents.get_mut(&uri) else {
            let _ = reply.send(Ok(None));
            return;
        };
        match document.current_view().cloned() {
            Some(view) => {
                let _ = reply.send(Ok(Some(view)));
            }
            None => document.waiting.push(reply),
        }
    }

    /// Take in a result, unless the text has moved on; then a newer result is on its way.
    fn finish(&mut self, done: Done) {
        let uri = done.view.uri.clone();
        let Some(document) = self.documents.get_mut(&uri) else {
            return;
        };
        if document.generation != done.view.generation {
            return;
        }
        document.uses = done.uses;
        let asked_at = document.asked_at;
        if document.uses.iter().any(|path| self.touched.get(path).is_some_and(|at| *at > asked_at)) {
            return self.stale(&uri);
        }
        // To free the older view of a large file takes a while, and the client needn't wait for that.
        let older = document.view.replace(done.view.clone());
        document.reply_waiting(|| Ok(Some(done.view.clone())));
        #[cfg(feature = "pictures")]
        self.previews.show(&done.view);
        self.publish(uri, &done.view.diagnostics, Some(done.view.version));
        self.refresh_if_settled();
        drop(older);
    }

    /// What was being typed is what is meant.
    fn saved(&mut self, uri: &Url) {
        let Some(document) = self.documents.get_mut(uri) else { return };
        if document.typing.take().is_some() {
            self.stale_from_outside(uri);
        }
    }

    fn choose(&mut self, sent: &serde_json::Value) {
        let options = self.terms.options.with(sent);
        if options == self.terms.options {
            return;
        }
        self.terms.options = options;
        let all: Vec<_> = self.documents.keys().cloned().collect();
        all.iter().for_each(|uri| self.stale_from_outside(uri));
        self.look_at_all();
    }

    fn stale_from_outside(&mut self, uri: &Url) {
        if let Some(document) = self.documents.get_mut(uri) {
            document.touched_from_outside = true;
        }
        self.stale(uri);
    }

    fn change_folders(&mut self, change: WorkspaceFoldersChangeEvent) {
        let gone: Vec<_> = change.removed.iter().filter_map(|folder| folder_path(&folder.uri)).collect();
        self.folders.retain(|folder| !gone.contains(folder));
        self.folders.extend(change.added.iter().filter_map(|folder| folder_path(&folder.uri)));
        let all: Vec<_> = self.documents.keys().cloned().collect();
        all.iter().for_each(|uri| self.stale_from_outside(uri));
        self.look_at_all();
    }

    /// The file or folder at this path is another one now, so the documents that use it have to be looked at again.
    fn touch(&mut self, path: &PathBuf) {
        self.generation += 1;
        self.touched.insert(path.clone(), self.generation);
        let users: Vec<_> = self
            .documents
            .iter()
            .filter(|(_, document)| document.uses.iter().any(|used| used.starts_with(path)))
            .map(|(uri, _)| uri.clone())
            .collect();
        users.iter().for_each(|uri| self.stale_from_outside(uri));
        self.news.push(path.clone());
    }

    fn stale(&mut self, uri: &Url) {
        if let Some(document) = self.documents.get_mut(uri) {
            self.generation += 1;
            document.generation = self.generation;
            document.no_longer_wanted();
            self.dirty.insert(uri.clone());
        }
    }

    fn send_jobs(&mut self) {
        if self.dirty.is_empty() {
            return;
        }
        let buffers = Arc::new(self.buffers());
        for uri in &self.dirty {
            if let Some(document) = self.documents.get_mut(uri) {
                document.asked_at = self.generation;
            }
        }
        // In the order in which they went stale: a document comes before those that use it, since its reader waits.
        let mut stale: Vec<_> = std::mem::take(&mut self.dirty)
            .into_iter()
            .filter_map(|uri| Some((self.documents.get(&uri)?, uri)))
            .collect();
        stale.sort_by_key(|(document, _)| document.generation);
        for (document, uri) in stale {
            let files = ProjectFiles::new(buffers.clone(), self.folders_for(&uri, document));
            let job = Job {
                uri,
                version: document.version,
                generation: document.generation,
                path: document.path.clone(),
                text: document.text.clone(),
                rope: document.rope.clone(),
                typing: document.typing,
                files: Arc::new(files),
                terms: self.terms,
            };
            let _ = self.jobs.send(job);
        }
    }

    fn buffers(&self) -> Buffers {
        let buffer = |(uri, document): (&Url, &Document)| {
            let buffer = Buffer { uri: uri.clone(), version: document.version, text: document.text.clone() };
            (document.path.clone(), buffer)
        };
        self.documents.iter().map(buffer).collect()
    }

    /// Where a document may read: in the workspace, or in its own folder when it lies outside of it.
    fn folders_for(&self, uri: &Url, document: &Document) -> Vec<PathBuf> {
        if self.folders.iter().any(|folder| document.path.starts_with(folder)) {
            return self.folders.clone();
        }
        match uri.to_file_path() {
            Ok(_) => document.path.parent().map(PathBuf::from).into_iter().collect(),
            Err(()) => Vec::new(),
        }
    }

    /// Tell a document's diagnostics, unless the client asks for them itself.
    fn publish(&self, uri: Url, diagnostics: &[Diagnostic], version: Option<i32>) {
        if self.terms.pulls {
            return;
        }
        let shown = if self.terms.options.diagnostics == Scope::Off { &[] } else { diagnostics };
        let params = PublishDiagnosticsParams::new(uri.clone(), shown.to_vec(), version);
        self.outbox.notify::<PublishDiagnostics>(&uri, &params);
    }
}

fn folder_path(uri: &Url) -> Option<PathBuf> {
    uri.to_file_path().ok().map(|path| real_path(&path))
}

fn path_of(uri: &Url) -> PathBuf {
    folder_path(uri).unwrap_or_else(|| PathBuf::from(uri.as_str()))
}

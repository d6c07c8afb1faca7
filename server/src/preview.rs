//! The live page of a document: it follows every analysis, and the editor's cursor; a click on it leads back to the
//! text.

use crate::view::View;
use finwright_grammar::{FileId, Place, Span};
use finwright_page::content::Content;
use finwright_page::{content, serve, Live, Shown};
use lsp_types::{Position, ShowDocumentParams, TextDocumentIdentifier, Url};
use serde::Deserialize;
use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError};
use tokio::runtime::Handle;
use tower_lsp::Client;

/// Where the editor's cursor is: the notification `finwright/cursor`, for clients that send it.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "camelCase")]
pub struct Cursor {
    /// The document.
    pub text_document: TextDocumentIdentifier,
    /// Where in it.
    pub position: Position,
}

/// The pages that are open. The state thread shows them what is analysed.
pub struct Previews {
    client: Client,
    runtime: Option<Handle>,
    open: HashMap<Url, Page>,
}

/// One document's page.
struct Page {
    live: Live,
    url: String,
    newest: Arc<Mutex<Option<Arc<View>>>>,
}

impl Previews {
    /// None open yet. To be made where the runtime is, since clicks come from other threads.
    pub fn new(client: Client) -> Previews {
        Previews { client, runtime: Handle::try_current().ok(), open: HashMap::new() }
    }

    /// Open the page of an analysed document, or find it open; its address, or in plain words why there is none.
    pub fn open(&mut self, view: &Arc<View>) -> Result<String, String> {
        if let Some(page) = self.open.get(&view.uri) {
            return Ok(page.url.clone());
        }
        let (live, newest) = (Live::default(), Arc::new(Mutex::new(None)));
        let address = serve(live.clone(), self.going(newest.clone())).map_err(|error| error.to_string())?;
        let page = Page { live, url: address.url.clone(), newest };
        page.show(view);
        self.open.insert(view.uri.clone(), page);
        Ok(address.url)
    }

    /// Show a new analysis on the document's page, where it's open.
    pub fn show(&self, view: &Arc<View>) {
        if let Some(page) = self.open.get(&view.uri) {
            page.show(view);
        }
    }

    /// Mark what the cursor is on.
    pub fn mark(&self, cursor: &Cursor) {
        let Some(page) = self.open.get(&cursor.text_document.uri) else { return };
        let newest = page.newest.lock().unwrap_or_else(PoisonError::into_inner).clone();
        if let Some(view) = newest {
            page.live.mark(view.offset(cursor.position) as u32);
        }
    }

    /// The document is closed, and so is its page.
    pub fn close(&mut self, uri: &Url) {
        if let Some(page) = self.open.remove(uri) {
            page.live.close();
        }
    }

    /// Takes the editor to a range of the newest text that was analysed.
    fn going(&self, newest: Arc<Mutex<Option<Arc<View>>>>) -> Arc<finwright_page::Going> {
        let (client, runtime) = (self.client.clone(), self.runtime.clone());
        Arc::new(move |from, to| {
            let Some(view) = newest.lock().unwrap_or_else(PoisonError::into_inner).clone() else { return };
            let place = Place { file: FileId(0), span: Span::new(from as usize, to as usize) };
            let selection = view.location(place).map(|location| location.range);
            let shown = ShowDocumentParams {
                uri: view.uri.clone(),
                external: None,
                take_focus: Some(true),
                selection: selection.map(|range| lsp_types::Range::new(range.start, range.start)),
            };
            let client = client.clone();
            if let Some(runtime) = &runtime {
                // A client that doesn't answer keeps nobody waiting.
                runtime.spawn(async move {
                    let _ = client.show_document(shown).await;
                });
            }
        })
    }
}

impl Drop for Previews {
    fn drop(&mut self) {
        self.open.values().for_each(|page| page.live.close());
    }
}

impl Page {
    fn show(&self, view: &Arc<View>) {
        *self.newest.lock().unwrap_or_else(PoisonError::into_inner) = Some(view.clone());
        self.live.show(view.clone());
    }
}

impl Shown for View {
    fn content(&self, flight: Option<&str>) -> Content {
        let file = self.uri.path_segments().and_then(|mut segments| segments.next_back()).unwrap_or("design");
        match &self.analysis {
            Ok(analysis) => content(analysis, flight, file),
            Err(reason) => Content { title: file.to_string(), html: String::new(), unreadable: Some(reason.clone()) },
        }
    }
}

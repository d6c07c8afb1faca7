//! The protocol's requests, each given to the file that answers it.

use crate::answers::{self, Answers};
use crate::document::Answer;
use crate::outbox::Outbox;
use crate::state::{self, Event};
use crate::terms::{folders, Terms};
use crate::{actions, completion, definition, formatting, hover, lens, symbols, watch};
use finwright_checks::Analyze;
use lsp_types::*;
use std::future::Future;
use std::sync::mpsc::Sender;
use std::sync::OnceLock;
use tokio::sync::oneshot;
use tower_lsp::jsonrpc::Result;
use tower_lsp::{async_trait, Client, LanguageServer};

/// One client's server.
pub struct Backend {
    client: Client,
    events: Sender<Event>,
    answers: Answers,
    terms: OnceLock<Terms>,
}

impl Backend {
    /// A server with a state thread of its own.
    pub fn start(client: Client, outbox: Outbox, analyze: Analyze) -> Backend {
        #[cfg(feature = "pictures")]
        let events = state::start(outbox, analyze, crate::preview::Previews::new(client.clone()));
        #[cfg(not(feature = "pictures"))]
        let events = state::start(outbox, analyze);
        Backend { client, events, answers: answers::start(), terms: OnceLock::new() }
    }

    fn send(&self, event: Event) {
        // Without a state thread the process is ending.
        let _ = self.events.send(event);
    }

    /// Ask for what is known about the newest text. The question is sent at once, the answer may be waited for.
    fn view(&self, uri: Url) -> impl Future<Output = Answer> {
        let (reply, answer) = oneshot::channel();
        self.send(Event::Ask(uri, reply));
        async { answer.await.unwrap_or(Ok(None)) }
    }
}

#[cfg(feature = "pictures")]
impl Backend {
    /// The notification `finwright/cursor`.
    pub async fn cursor(&self, cursor: crate::preview::Cursor) {
        self.send(Event::Cursor(cursor));
    }

    /// The address of a document's live page.
    async fn preview(&self, arguments: Vec<serde_json::Value>) -> Result<Option<serde_json::Value>> {
        let uri = arguments.into_iter().next().and_then(|uri| serde_json::from_value::<Url>(uri).ok());
        let uri = uri.ok_or_else(|| tower_lsp::jsonrpc::Error::invalid_params("the document's address is missing"))?;
        let Some(view) = self.view(uri).await? else { return Ok(None) };
        let (reply, answer) = oneshot::channel();
        self.send(Event::Preview(view, reply));
        match answer.await {
            Ok(Ok(url)) => Ok(Some(url.into())),
            Ok(Err(_)) | Err(_) => Err(tower_lsp::jsonrpc::Error::internal_error()),
        }
    }
}

impl Drop for Backend {
    fn drop(&mut self) {
        self.send(Event::Stop);
    }
}

#[async_trait]
impl LanguageServer for Backend {
    async fn initialize(&self, params: InitializeParams) -> Result<InitializeResult> {
        let terms = Terms::agreed(&params.capabilities).with_options(params.initialization_options.as_ref());
        self.send(Event::Start(terms, folders(&params)));
        let terms = self.terms.get_or_init(|| terms);
        Ok(InitializeResult {
            capabilities: terms.capabilities(),
            server_info: Some(ServerInfo { name: "finwright".into(), version: Some(env!("CARGO_PKG_VERSION").into()) }),
        })
    }

    async fn initialized(&self, _: InitializedParams) {
        if self.terms.get().is_some_and(|terms| terms.watches) {
            watch::register(self.client.clone());
        }
    }

    async fn shutdown(&self) -> Result<()> {
        Ok(())
    }

    async fn did_open(&self, params: DidOpenTextDocumentParams) {
        self.send(Event::Open(params.text_document));
    }

    async fn did_change(&self, params: DidChangeTextDocumentParams) {
        self.send(Event::Change(params));
    }

    async fn did_close(&self, params: DidCloseTextDocumentParams) {
        self.send(Event::Close(params.text_document.uri));
    }

    async fn did_change_watched_files(&self, params: DidChangeWatchedFilesParams) {
        let uris = params.changes.into_iter().map(|change| change.uri);
        self.send(Event::Disk(uris.collect()));
    }

    async fn did_change_workspace_folders(&self, params: DidChangeWorkspaceFoldersParams) {
        self.send(Event::Folders(params.event));
    }

    async fn hover(&self, params: HoverParams) -> Result<Option<Hover>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
        let view = self.view(text_document.uri).await?;
        let Some(view) = view else { return Ok(None) };
        self.answers.ask(view, move |view| hover::answer(view, position)).await
    }

    async fn completion(&self, params: CompletionParams) -> Result<Option<CompletionResponse>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position;
        let view = self.view(text_document.uri).await?;
        Ok(view.and_then(|view| completion::answer(&view, position)))
    }

    async fn goto_definition(&self, params: GotoDefinitionParams) -> Result<Option<GotoDefinitionResponse>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
        let view = self.view(text_document.uri).await?;
        Ok(view.and_then(|view| definition::answer(&view, position)))
    }

    async fn code_lens(&self, params: CodeLensParams) -> Result<Option<Vec<CodeLens>>> {
        let view = self.view(params.text_document.uri).await?;
        Ok(view.and_then(|view| lens::answer(&view)))
    }

    async fn code_lens_resolve(&self, lens: CodeLens) -> Result<CodeLens> {
        let Some(uri) = lens::document(&lens) else { return Ok(lens) };
        let Some(view) = self.view(uri).await? else { return Ok(lens::resolve(None, lens)) };
        self.answers.ask(view, move |view| lens::resolve(Some(view), lens)).await
    }

    async fn formatting(&self, params: DocumentFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        let view = self.view(params.text_document.uri).await?;
        Ok(view.and_then(|view| formatting::answer(&view)))
    }

    async fn document_symbol(&self, params: DocumentSymbolParams) -> Result<Option<DocumentSymbolResponse>> {
        let view = self.view(params.text_document.uri).await?;
        Ok(view.and_then(|view| symbols::answer(&view)))
    }

    #[cfg(feature = "pictures")]
    async fn execute_command(&self, params: ExecuteCommandParams) -> Result<Option<serde_json::Value>> {
        match params.command.as_str() {
            crate::preview::COMMAND => self.preview(params.arguments).await,
            _ => Err(tower_lsp::jsonrpc::Error::invalid_params("there is no such command")),
        }
    }

    async fn code_action(&self, params: CodeActionParams) -> Result<Option<CodeActionResponse>> {
        let view = self.view(params.text_document.uri).await?;
        let Some(view) = view else { return Ok(None) };
        self.answers.ask(view, move |view| Some(actions::answer(view, params.range, &params.context))).await
    }
}

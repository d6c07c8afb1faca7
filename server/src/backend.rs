//! The protocol's requests, each given to the file that answers it.

use crate::answers::{self, Answers};
use crate::document::Answer;
use crate::offer::{CHECK_WORKSPACE, EXPLAIN};
use crate::options::Scope;
use crate::outbox::Outbox;
use crate::progress::Progress;
use crate::refresh::Refresh;
use crate::state::{self, Event};
use crate::survey::Workspace;
use crate::terms::{folders, Terms};
use crate::view::View;
use crate::{
    actions, commands, completion, definition, formatting, hints, hover, lens, outline, pull, references, semantic,
};
use crate::{settings_file, signature, symbols, watch};
use finwright_checks::Analyze;
use lsp_types::*;
use serde_json::Value;
use std::future::Future;
use std::path::PathBuf;
use std::sync::atomic::AtomicBool;
use std::sync::mpsc::Sender;
use std::sync::{Arc, OnceLock};
use tokio::sync::oneshot;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::{async_trait, Client, LanguageServer};

/// One client's server.
pub struct Backend {
    client: Client,
    outbox: Outbox,
    events: Sender<Event>,
    /// What takes a while, of one document and of the whole workspace.
    answers: Answers,
    surveys: Answers,
    terms: OnceLock<Terms>,
}

impl Backend {
    /// A server with a state thread of its own. `more` says whether messages have arrived that aren't read yet.
    pub fn start(client: Client, outbox: Outbox, more: Arc<AtomicBool>, analyze: Analyze) -> Backend {
        let refresh = Refresh::of(client.clone());
        #[cfg(feature = "pictures")]
        let previews = crate::preview::Previews::new(client.clone());
        let events = state::start(
            outbox.clone(),
            more,
            refresh,
            analyze,
            #[cfg(feature = "pictures")]
            previews,
        );
        let (answers, surveys) = (answers::start(), answers::start());
        Backend { client, outbox, events, answers, surveys, terms: OnceLock::new() }
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

    fn workspace(&self) -> impl Future<Output = Result<Workspace>> {
        let (reply, answer) = oneshot::channel();
        self.send(Event::AskWorkspace(reply));
        async { answer.await.map_err(|_| Error::request_cancelled()) }
    }

    /// An answer that takes no time.
    async fn at_once<T>(&self, uri: Url, answer: impl FnOnce(&View) -> Option<T>) -> Result<Option<T>> {
        let view = self.view(uri).await?;
        Ok(view.and_then(|view| answer(&view)))
    }

    /// An answer that takes a while.
    async fn in_time<T: Send + 'static>(
        &self,
        uri: Url,
        answer: impl FnOnce(&View) -> Option<T> + Send + 'static,
    ) -> Result<Option<T>> {
        let Some(view) = self.view(uri).await? else { return Ok(None) };
        self.answers.ask(view, answer).await
    }

    fn files_changed(&self, uris: impl IntoIterator<Item = Url>) {
        self.send(Event::Disk(uris.into_iter().collect()));
    }

    /// Ask the client for its user's settings, which may take its time.
    fn ask_settings(&self) {
        let (client, events) = (self.client.clone(), self.events.clone());
        tokio::spawn(async move {
            let item = ConfigurationItem { scope_uri: None, section: Some("finwright".into()) };
            if let Ok(settings) = client.configuration(vec![item]).await {
                settings.into_iter().filter(Value::is_object).for_each(|sent| drop(events.send(Event::Options(sent))));
            }
        });
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

fn renamed(uri: &str) -> Option<PathBuf> {
    Url::parse(uri).ok()?.to_file_path().ok()
}

#[async_trait]
impl LanguageServer for Backend {
    async fn initialize(&self, params: InitializeParams) -> Result<InitializeResult> {
        let terms = Terms::agreed(&params.capabilities).with(&params);
        self.send(Event::Start(terms, folders(&params)));
        let terms = self.terms.get_or_init(|| terms);
        Ok(InitializeResult {
            capabilities: terms.capabilities(),
            server_info: Some(ServerInfo { name: "finwright".into(), version: Some(env!("CARGO_PKG_VERSION").into()) }),
        })
    }

    async fn initialized(&self, _: InitializedParams) {
        let Some(terms) = self.terms.get() else { return };
        if terms.watches {
            watch::register(self.client.clone());
        }
        if terms.configures {
            watch::register_settings(self.client.clone());
            self.ask_settings();
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

    async fn did_save(&self, params: DidSaveTextDocumentParams) {
        self.send(Event::Saved(params.text_document.uri));
    }

    async fn did_close(&self, params: DidCloseTextDocumentParams) {
        self.send(Event::Close(params.text_document.uri));
    }

    async fn did_change_configuration(&self, params: DidChangeConfigurationParams) {
        match self.terms.get() {
            Some(terms) if terms.configures => self.ask_settings(),
            _ => self.send(Event::Options(params.settings)),
        }
    }

    async fn did_change_watched_files(&self, params: DidChangeWatchedFilesParams) {
        self.files_changed(params.changes.into_iter().map(|change| change.uri));
    }

    async fn did_create_files(&self, params: CreateFilesParams) {
        self.files_changed(params.files.iter().filter_map(|file| Url::parse(&file.uri).ok()));
    }

    async fn did_rename_files(&self, params: RenameFilesParams) {
        let both = params.files.iter().flat_map(|file| [&file.old_uri, &file.new_uri]);
        self.files_changed(both.filter_map(|uri| Url::parse(uri).ok()));
    }

    async fn did_delete_files(&self, params: DeleteFilesParams) {
        self.files_changed(params.files.iter().filter_map(|file| Url::parse(&file.uri).ok()));
    }

    async fn did_change_workspace_folders(&self, params: DidChangeWorkspaceFoldersParams) {
        self.send(Event::Folders(params.event));
    }

    async fn diagnostic(&self, params: DocumentDiagnosticParams) -> Result<DocumentDiagnosticReportResult> {
        let view = self.view(params.text_document.uri).await?;
        Ok(match view.filter(|view| view.options().diagnostics != Scope::Off) {
            Some(view) => pull::document(view.generation, params.previous_result_id.as_deref(), &view.diagnostics),
            None => pull::document(0, None, &[]),
        })
    }

    async fn workspace_diagnostic(&self, params: WorkspaceDiagnosticParams) -> Result<WorkspaceDiagnosticReportResult> {
        let (reply, answer) = oneshot::channel();
        self.send(Event::AskDiagnostics(reply));
        let known = answer.await.map_err(|_| Error::request_cancelled())?;
        Ok(pull::workspace(known, &params.previous_result_ids))
    }

    async fn hover(&self, params: HoverParams) -> Result<Option<Hover>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
        self.in_time(text_document.uri, move |view| match view.is_settings() {
            true => settings_file::hover(view, &view.text(), position),
            false => hover::answer(view, position),
        })
        .await
    }

    async fn completion(&self, params: CompletionParams) -> Result<Option<CompletionResponse>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position;
        let context = params.context;
        self.at_once(text_document.uri, |view| match view.is_settings() {
            true => settings_file::completion(view, &view.text(), position),
            false => completion::answer(view, position, context.as_ref()),
        })
        .await
    }

    async fn completion_resolve(&self, item: CompletionItem) -> Result<CompletionItem> {
        let Some(uri) = completion::document(&item) else { return Ok(item) };
        let markdown = self.terms.get().is_some_and(|terms| terms.markdown_offers);
        match self.view(uri).await? {
            Some(view) => self.answers.ask(view, move |view| completion::resolve(Some(view), markdown, item)).await,
            None => Ok(completion::resolve(None, markdown, item)),
        }
    }

    async fn signature_help(&self, params: SignatureHelpParams) -> Result<Option<SignatureHelp>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
        self.at_once(text_document.uri, |view| signature::answer(view, position)).await
    }

    async fn goto_definition(&self, params: GotoDefinitionParams) -> Result<Option<GotoDefinitionResponse>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
        self.at_once(text_document.uri, |view| definition::answer(view, position)).await
    }

    async fn references(&self, params: ReferenceParams) -> Result<Option<Vec<Location>>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position;
        let (view, workspace) = (self.view(text_document.uri), self.workspace());
        let target = view.await?.and_then(|view| references::target_at(&view, position));
        let (Some(target), workspace) = (target, workspace.await?) else { return Ok(None) };
        let with_definition = params.context.include_declaration;
        let progress =
            Progress::begin(&self.outbox, params.work_done_progress_params.work_done_token, "looking for a name");
        let find = move |wanted: &(dyn Fn() -> bool + Sync)| {
            let found = references::answer(&workspace, &target, with_definition, &|| wanted());
            drop(progress);
            Some(found)
        };
        self.surveys.ask_freely(find).await
    }

    async fn document_highlight(&self, params: DocumentHighlightParams) -> Result<Option<Vec<DocumentHighlight>>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
        self.at_once(text_document.uri, |view| definition::highlights(view, position)).await
    }

    async fn prepare_rename(&self, params: TextDocumentPositionParams) -> Result<Option<PrepareRenameResponse>> {
        match self.view(params.text_document.uri).await? {
            Some(view) => references::prepare(&view, params.position),
            None => Ok(None),
        }
    }

    async fn rename(&self, params: RenameParams) -> Result<Option<WorkspaceEdit>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position;
        let (view, workspace) = (self.view(text_document.uri), self.workspace());
        let target = view.await?.and_then(|view| references::target_at(&view, position));
        let (Some(target), workspace) = (target, workspace.await?) else { return Ok(None) };
        let find = move |wanted: &(dyn Fn() -> bool + Sync)| {
            references::rename(&workspace, &target, params.new_name.trim(), &|| wanted()).map(Some)
        };
        self.surveys.ask_freely(find).await?
    }

    async fn will_rename_files(&self, params: RenameFilesParams) -> Result<Option<WorkspaceEdit>> {
        let moves: Vec<(PathBuf, PathBuf)> =
            params.files.iter().filter_map(|file| Some((renamed(&file.old_uri)?, renamed(&file.new_uri)?))).collect();
        let workspace = self.workspace().await?;
        self.surveys.ask_freely(move |_| references::move_files(&workspace, &moves)).await
    }

    async fn code_lens(&self, params: CodeLensParams) -> Result<Option<Vec<CodeLens>>> {
        self.at_once(params.text_document.uri, lens::answer).await
    }

    async fn code_lens_resolve(&self, lens: CodeLens) -> Result<CodeLens> {
        let Some(uri) = lens::document(&lens) else { return Ok(lens) };
        let Some(view) = self.view(uri).await? else { return Ok(lens::resolve(None, lens)) };
        self.answers.ask(view, move |view| lens::resolve(Some(view), lens)).await
    }

    async fn inlay_hint(&self, params: InlayHintParams) -> Result<Option<Vec<InlayHint>>> {
        self.at_once(params.text_document.uri, |view| hints::answer(view, params.range)).await
    }

    async fn semantic_tokens_full(&self, params: SemanticTokensParams) -> Result<Option<SemanticTokensResult>> {
        self.at_once(params.text_document.uri, |view| semantic::answer(view, None).map(SemanticTokensResult::Tokens))
            .await
    }

    async fn semantic_tokens_range(
        &self,
        params: SemanticTokensRangeParams,
    ) -> Result<Option<SemanticTokensRangeResult>> {
        let answer = |view: &View| semantic::answer(view, Some(params.range)).map(SemanticTokensRangeResult::Tokens);
        self.at_once(params.text_document.uri, answer).await
    }

    async fn folding_range(&self, params: FoldingRangeParams) -> Result<Option<Vec<FoldingRange>>> {
        self.at_once(params.text_document.uri, outline::folding).await
    }

    async fn selection_range(&self, params: SelectionRangeParams) -> Result<Option<Vec<SelectionRange>>> {
        self.at_once(params.text_document.uri, |view| outline::selection(view, &params.positions)).await
    }

    async fn document_link(&self, params: DocumentLinkParams) -> Result<Option<Vec<DocumentLink>>> {
        self.at_once(params.text_document.uri, outline::document_links).await
    }

    async fn formatting(&self, params: DocumentFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        self.at_once(params.text_document.uri, formatting::answer).await
    }

    async fn range_formatting(&self, params: DocumentRangeFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        self.at_once(params.text_document.uri, |view| formatting::in_range(view, params.range)).await
    }

    async fn on_type_formatting(&self, params: DocumentOnTypeFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position;
        self.at_once(text_document.uri, |view| formatting::on_type(view, position, &params.ch)).await
    }

    async fn document_symbol(&self, params: DocumentSymbolParams) -> Result<Option<DocumentSymbolResponse>> {
        self.at_once(params.text_document.uri, symbols::answer).await
    }

    async fn symbol(&self, params: WorkspaceSymbolParams) -> Result<Option<Vec<SymbolInformation>>> {
        let workspace = self.workspace().await?;
        let find = move |wanted: &(dyn Fn() -> bool + Sync)| {
            Some(symbols::in_workspace(&workspace, &params.query, &|| wanted()))
        };
        self.surveys.ask_freely(find).await
    }

    async fn code_action(&self, params: CodeActionParams) -> Result<Option<CodeActionResponse>> {
        let find = move |view: &View| Some(actions::answer(view, params.range, &params.context));
        self.in_time(params.text_document.uri, find).await
    }

    async fn execute_command(&self, params: ExecuteCommandParams) -> Result<Option<Value>> {
        match params.command.as_str() {
            EXPLAIN => commands::explain(&params.arguments).map(Some),
            CHECK_WORKSPACE => {
                let workspace = self.workspace().await?;
                let token = params.work_done_progress_params.work_done_token;
                let progress = Progress::begin(&self.outbox, token, "checking the workspace");
                let check = move |wanted: &(dyn Fn() -> bool + Sync)| {
                    commands::check_workspace(&workspace, |done, all| {
                        progress.report(done, all);
                        wanted()
                    })
                };
                self.surveys.ask_freely(check).await?.map(Some)
            }
            #[cfg(feature = "pictures")]
            crate::offer::PREVIEW => self.preview(params.arguments).await,
            other => {
                Err(Error { message: format!("there is no command `{other}`").into(), ..Error::invalid_params("") })
            }
        }
    }
}

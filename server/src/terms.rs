//! What client and server agree on at the start.

use crate::position::Encoding;
use lsp_types::*;

/// What the client can do, as far as answers depend on it.
#[derive(Clone, Copy, Debug)]
pub struct Terms {
    /// What a column counts.
    pub encoding: Encoding,
    /// Diagnostics may carry related places.
    pub related: bool,
    /// Diagnostics may be greyed, as what isn't needed.
    pub greyed: bool,
    /// Code actions may be given whole, not only as commands.
    pub actions: bool,
    /// Edits may name the version of the document that they were made for.
    pub versioned_edits: bool,
    /// Hovers may be in Markdown.
    pub markdown: bool,
    /// The client watches files when asked to.
    pub watches: bool,
    /// Hovers may hold pictures: asked for by the initialization option `pictures`.
    pub pictures: bool,
}

/// The kinds of action that there are.
pub const ACTIONS: [CodeActionKind; 2] = [CodeActionKind::QUICKFIX, CodeActionKind::REFACTOR];

impl Terms {
    /// What a client with these capabilities gets.
    pub fn agreed(client: &ClientCapabilities) -> Terms {
        let document = client.text_document.as_ref();
        let workspace = client.workspace.as_ref();
        Terms {
            encoding: Encoding::agreed(client),
            related: document
                .and_then(|document| document.publish_diagnostics.as_ref()?.related_information)
                .unwrap_or(false),
            greyed: document
                .and_then(|document| document.publish_diagnostics.as_ref()?.tag_support.as_ref())
                .is_some_and(|tags| tags.value_set.contains(&DiagnosticTag::UNNECESSARY)),
            actions: document
                .and_then(|document| document.code_action.as_ref()?.code_action_literal_support.as_ref())
                .is_some(),
            versioned_edits: workspace
                .and_then(|workspace| workspace.workspace_edit.as_ref()?.document_changes)
                .unwrap_or(false),
            markdown: document
                .and_then(|document| document.hover.as_ref()?.content_format.as_ref())
                .is_some_and(|formats| formats.contains(&MarkupKind::Markdown)),
            watches: workspace
                .and_then(|workspace| workspace.did_change_watched_files?.dynamic_registration)
                .unwrap_or(false),
            pictures: false,
        }
    }

    /// The same with what the client's initialization options ask for besides.
    pub fn with_options(self, options: Option<&serde_json::Value>) -> Terms {
        let pictures = options.and_then(|options| options.get("pictures")?.as_bool()).unwrap_or(false);
        Terms { pictures, ..self }
    }

    /// What the server offers on these terms.
    pub fn capabilities(&self) -> ServerCapabilities {
        ServerCapabilities {
            position_encoding: Some(self.encoding.kind()),
            text_document_sync: Some(TextDocumentSyncCapability::Options(TextDocumentSyncOptions {
                open_close: Some(true),
                change: Some(TextDocumentSyncKind::INCREMENTAL),
                ..TextDocumentSyncOptions::default()
            })),
            hover_provider: Some(HoverProviderCapability::Simple(true)),
            completion_provider: Some(CompletionOptions {
                trigger_characters: Some(vec![":".to_string(), " ".to_string()]),
                ..CompletionOptions::default()
            }),
            definition_provider: Some(OneOf::Left(true)),
            document_formatting_provider: Some(OneOf::Left(true)),
            document_symbol_provider: Some(OneOf::Left(true)),
            code_action_provider: Some(CodeActionProviderCapability::Options(CodeActionOptions {
                code_action_kinds: Some(ACTIONS.to_vec()),
                ..CodeActionOptions::default()
            })),
            code_lens_provider: Some(CodeLensOptions { resolve_provider: Some(true) }),
            #[cfg(feature = "pictures")]
            execute_command_provider: Some(ExecuteCommandOptions {
                commands: vec![crate::preview::COMMAND.to_string()],
                ..ExecuteCommandOptions::default()
            }),
            workspace: Some(WorkspaceServerCapabilities {
                workspace_folders: Some(WorkspaceFoldersServerCapabilities {
                    supported: Some(true),
                    change_notifications: Some(OneOf::Left(true)),
                }),
                file_operations: None,
            }),
            ..ServerCapabilities::default()
        }
    }
}

/// The folders that a client works in, from whichever of the three fields it fills in.
#[allow(deprecated)]
pub fn folders(params: &InitializeParams) -> Vec<Url> {
    match (&params.workspace_folders, &params.root_uri, &params.root_path) {
        (Some(folders), _, _) if !folders.is_empty() => folders.iter().map(|folder| folder.uri.clone()).collect(),
        (_, Some(uri), _) => vec![uri.clone()],
        (_, _, Some(path)) => Url::from_directory_path(path).into_iter().collect(),
        _ => Vec::new(),
    }
}

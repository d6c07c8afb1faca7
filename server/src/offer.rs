//! What the server offers to a client.

use crate::legend;
use crate::position::Encoding;
use lsp_types::*;

/// What may be run.
#[cfg(feature = "pictures")]
pub const COMMANDS: [&str; 3] = [EXPLAIN, CHECK_WORKSPACE, PREVIEW];
/// What may be run.
#[cfg(not(feature = "pictures"))]
pub const COMMANDS: [&str; 2] = [EXPLAIN, CHECK_WORKSPACE];

/// `finwright.preview ADDRESS`: opens a document's live page; its answer is the page's address.
#[cfg(feature = "pictures")]
pub const PREVIEW: &str = "finwright.preview";

/// `finwright.explain RULE`: the rule's page, in Markdown.
pub const EXPLAIN: &str = "finwright.explain";

/// `finwright.checkWorkspace`: every design of the workspace, with its verdict and how much was found.
pub const CHECK_WORKSPACE: &str = "finwright.checkWorkspace";

/// The kinds of action that there are.
pub fn action_kinds() -> Vec<CodeActionKind> {
    vec![
        CodeActionKind::QUICKFIX,
        CodeActionKind::REFACTOR,
        CodeActionKind::REFACTOR_EXTRACT,
        CodeActionKind::REFACTOR_INLINE,
        CodeActionKind::REFACTOR_REWRITE,
        CodeActionKind::SOURCE_FIX_ALL,
    ]
}

/// Everything that is offered; see `FEATURES.md` for what each is.
pub fn capabilities(encoding: Encoding, pulls: bool) -> ServerCapabilities {
    ServerCapabilities {
        position_encoding: Some(encoding.kind()),
        text_document_sync: Some(TextDocumentSyncCapability::Options(TextDocumentSyncOptions {
            open_close: Some(true),
            change: Some(TextDocumentSyncKind::INCREMENTAL),
            save: Some(TextDocumentSyncSaveOptions::SaveOptions(SaveOptions { include_text: Some(false) })),
            ..TextDocumentSyncOptions::default()
        })),
        hover_provider: Some(HoverProviderCapability::Simple(true)),
        completion_provider: Some(CompletionOptions {
            trigger_characters: Some([":", " ", ".", "\"", "/", "[", "("].map(String::from).into()),
            resolve_provider: Some(true),
            completion_item: Some(CompletionOptionsCompletionItem { label_details_support: Some(true) }),
            ..CompletionOptions::default()
        }),
        signature_help_provider: Some(SignatureHelpOptions {
            trigger_characters: Some(vec!["(".into(), ",".into()]),
            ..SignatureHelpOptions::default()
        }),
        definition_provider: Some(OneOf::Left(true)),
        references_provider: Some(OneOf::Left(true)),
        document_highlight_provider: Some(OneOf::Left(true)),
        rename_provider: Some(OneOf::Right(RenameOptions {
            prepare_provider: Some(true),
            work_done_progress_options: WorkDoneProgressOptions::default(),
        })),
        document_symbol_provider: Some(OneOf::Left(true)),
        workspace_symbol_provider: Some(OneOf::Left(true)),
        code_action_provider: Some(CodeActionProviderCapability::Options(CodeActionOptions {
            code_action_kinds: Some(action_kinds()),
            ..CodeActionOptions::default()
        })),
        code_lens_provider: Some(CodeLensOptions { resolve_provider: Some(true) }),
        document_link_provider: Some(DocumentLinkOptions {
            resolve_provider: Some(false),
            work_done_progress_options: WorkDoneProgressOptions::default(),
        }),
        document_formatting_provider: Some(OneOf::Left(true)),
        document_range_formatting_provider: Some(OneOf::Left(true)),
        document_on_type_formatting_provider: Some(DocumentOnTypeFormattingOptions {
            first_trigger_character: "}".into(),
            more_trigger_character: Some(vec!["\n".into()]),
        }),
        folding_range_provider: Some(FoldingRangeProviderCapability::Simple(true)),
        selection_range_provider: Some(SelectionRangeProviderCapability::Simple(true)),
        semantic_tokens_provider: Some(legend::offered().into()),
        inlay_hint_provider: Some(OneOf::Left(true)),
        execute_command_provider: Some(ExecuteCommandOptions {
            commands: COMMANDS.map(String::from).into(),
            work_done_progress_options: WorkDoneProgressOptions { work_done_progress: Some(true) },
        }),
        diagnostic_provider: pulls.then(|| {
            DiagnosticServerCapabilities::Options(DiagnosticOptions {
                identifier: Some("finwright".into()),
                inter_file_dependencies: true,
                workspace_diagnostics: true,
                work_done_progress_options: WorkDoneProgressOptions::default(),
            })
        }),
        workspace: Some(of_workspace()),
        ..ServerCapabilities::default()
    }
}

fn of_workspace() -> WorkspaceServerCapabilities {
    let of = |glob: &str, kind| FileOperationFilter {
        scheme: Some("file".into()),
        pattern: FileOperationPattern { glob: glob.into(), matches: Some(kind), options: None },
    };
    let filters = vec![
        of("**/*.{finw,csv}", FileOperationPatternKind::File),
        of("**/finwright.toml", FileOperationPatternKind::File),
        of("**", FileOperationPatternKind::Folder),
    ];
    let all = Some(FileOperationRegistrationOptions { filters });
    WorkspaceServerCapabilities {
        workspace_folders: Some(WorkspaceFoldersServerCapabilities {
            supported: Some(true),
            change_notifications: Some(OneOf::Left(true)),
        }),
        file_operations: Some(WorkspaceFileOperationsServerCapabilities {
            did_create: all.clone(),
            will_rename: all.clone(),
            did_rename: all.clone(),
            did_delete: all,
            ..WorkspaceFileOperationsServerCapabilities::default()
        }),
    }
}

//! What client and server agree on at the start.

use crate::offer::capabilities;
use crate::options::Options;
use crate::position::Encoding;
use lsp_types::*;

/// What the client can do, as far as answers depend on it, and what its user has chosen.
#[derive(Clone, Copy, Debug)]
pub struct Terms {
    /// What a column counts.
    pub encoding: Encoding,
    /// Diagnostics may carry related places.
    pub related: bool,
    /// Diagnostics may be greyed, as what isn't needed.
    pub greyed: bool,
    /// Diagnostics may lead to a page about their rule.
    pub explained: bool,
    /// The client asks for diagnostics and is told when to ask again; otherwise they are sent to it.
    pub pulls: bool,
    /// Code actions may be given whole, not only as commands.
    pub actions: bool,
    /// Edits may name the version of the document that they were made for.
    pub versioned_edits: bool,
    /// Hovers may be in Markdown.
    pub markdown: bool,
    /// What is said beside an offer may be in Markdown.
    pub markdown_offers: bool,
    /// Offers may have stops for the cursor.
    pub snippets: bool,
    /// Offers of several lines are indented by the client.
    pub adjusts_indentation: bool,
    /// Offers may overwrite the word behind the cursor or not, as the user likes.
    pub insert_or_replace: bool,
    /// Offers may have details beside their label.
    pub label_details: bool,
    /// The client has a command of its own that opens the list of offers.
    pub suggests_again: bool,
    /// The client watches files when asked to.
    pub watches: bool,
    /// Hovers may hold pictures: asked for by the initialization option `pictures`.
    pub pictures: bool,
    /// The client gives its user's settings when asked.
    pub configures: bool,
    /// What is asked for anew when something else than its text changes it.
    pub refreshes: Refreshes,
    /// What the user has chosen.
    pub options: Options,
}

/// What the client asks for anew when told to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Refreshes {
    /// Diagnostics.
    pub diagnostics: bool,
    /// Lines above flights.
    pub lenses: bool,
    /// Numbers between words.
    pub hints: bool,
}

impl Terms {
    /// What a client with these capabilities gets.
    pub fn agreed(client: &ClientCapabilities) -> Terms {
        let document = client.text_document.as_ref();
        let workspace = client.workspace.as_ref();
        let published = document.and_then(|document| document.publish_diagnostics.as_ref());
        let refreshes = Refreshes {
            diagnostics: workspace.and_then(|w| w.diagnostic.as_ref()?.refresh_support).unwrap_or(false),
            lenses: workspace.and_then(|w| w.code_lens.as_ref()?.refresh_support).unwrap_or(false),
            hints: workspace.and_then(|w| w.inlay_hint.as_ref()?.refresh_support).unwrap_or(false),
        };
        let terms = Terms {
            encoding: Encoding::agreed(client),
            related: published.and_then(|published| published.related_information).unwrap_or(false),
            greyed: published
                .and_then(|published| published.tag_support.as_ref())
                .is_some_and(|tags| tags.value_set.contains(&DiagnosticTag::UNNECESSARY)),
            explained: published.and_then(|published| published.code_description_support).unwrap_or(false),
            // Whoever can't be told to ask again would keep what was true of a shared file before.
            pulls: refreshes.diagnostics && document.is_some_and(|document| document.diagnostic.is_some()),
            actions: document
                .and_then(|document| document.code_action.as_ref()?.code_action_literal_support.as_ref())
                .is_some(),
            versioned_edits: workspace
                .and_then(|workspace| workspace.workspace_edit.as_ref()?.document_changes)
                .unwrap_or(false),
            markdown: document
                .and_then(|document| document.hover.as_ref()?.content_format.as_ref())
                .is_some_and(|formats| formats.contains(&MarkupKind::Markdown)),
            markdown_offers: false,
            snippets: false,
            adjusts_indentation: false,
            insert_or_replace: false,
            label_details: false,
            suggests_again: false,
            watches: workspace
                .and_then(|workspace| workspace.did_change_watched_files?.dynamic_registration)
                .unwrap_or(false),
            configures: workspace.and_then(|workspace| workspace.configuration).unwrap_or(false),
            refreshes,
            options: Options::default(),
            pictures: false,
        };
        match document.and_then(|document| document.completion.as_ref()?.completion_item.as_ref()) {
            Some(offers) => terms.with_offers(offers),
            None => terms,
        }
    }

    fn with_offers(self, offers: &CompletionItemCapability) -> Terms {
        let is = |can: Option<bool>| can.unwrap_or(false);
        let formats = offers.documentation_format.as_ref();
        let modes = offers.insert_text_mode_support.as_ref();
        Terms {
            markdown_offers: formats.is_some_and(|formats| formats.contains(&MarkupKind::Markdown)),
            snippets: is(offers.snippet_support),
            adjusts_indentation: modes
                .is_some_and(|modes| modes.value_set.contains(&InsertTextMode::ADJUST_INDENTATION)),
            insert_or_replace: is(offers.insert_replace_support),
            label_details: is(offers.label_details_support),
            ..self
        }
    }

    /// The same for a client that says who it is and what its user has chosen.
    pub fn with(self, params: &InitializeParams) -> Terms {
        let options = params.initialization_options.as_ref();
        let suggests_again = options
            .and_then(|options| options.get("suggestCommand"))
            .is_some_and(|command| command == "editor.action.triggerSuggest");
        let pictures = options.and_then(|options| options.get("pictures")?.as_bool()).unwrap_or(false);
        let chosen = options.map_or(self.options, |options| self.options.with(options));
        Terms { suggests_again, pictures, options: chosen, ..self }
    }

    /// What the server offers on these terms.
    pub fn capabilities(&self) -> ServerCapabilities {
        capabilities(self.encoding, self.pulls)
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

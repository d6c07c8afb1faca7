//! `textDocument/diagnostic` and `workspace/diagnostic`, for clients that ask for diagnostics.

use lsp_types::*;

/// The diagnostics of one document at one state.
pub fn document(generation: u64, previous: Option<&str>, items: &[Diagnostic]) -> DocumentDiagnosticReportResult {
    let result_id = generation.to_string();
    DocumentDiagnosticReportResult::Report(match previous == Some(&result_id) {
        true => DocumentDiagnosticReport::Unchanged(RelatedUnchangedDocumentDiagnosticReport {
            related_documents: None,
            unchanged_document_diagnostic_report: UnchangedDocumentDiagnosticReport { result_id },
        }),
        false => DocumentDiagnosticReport::Full(RelatedFullDocumentDiagnosticReport {
            related_documents: None,
            full_document_diagnostic_report: FullDocumentDiagnosticReport {
                result_id: Some(result_id),
                items: items.to_vec(),
            },
        }),
    })
}

/// What is known about one document of the workspace.
#[derive(Clone, Debug)]
pub struct Known {
    /// Its name.
    pub uri: Url,
    /// Its version, where it's open.
    pub version: Option<i32>,
    /// Which state of it this is.
    pub result_id: String,
    /// Its diagnostics.
    pub items: std::sync::Arc<Vec<Diagnostic>>,
}

/// The diagnostics of all documents; those that the client has already are only named.
pub fn workspace(known: Vec<Known>, previous: &[PreviousResultId]) -> WorkspaceDiagnosticReportResult {
    let had = |uri: &Url| previous.iter().find(|one| one.uri == *uri).map(|one| one.value.as_str());
    let mut items: Vec<WorkspaceDocumentDiagnosticReport> = Vec::new();
    for one in &known {
        let version = one.version.map(i64::from);
        items.push(match had(&one.uri) == Some(&one.result_id) {
            true => WorkspaceDocumentDiagnosticReport::Unchanged(WorkspaceUnchangedDocumentDiagnosticReport {
                uri: one.uri.clone(),
                version,
                unchanged_document_diagnostic_report: UnchangedDocumentDiagnosticReport {
                    result_id: one.result_id.clone(),
                },
            }),
            false => full(one.uri.clone(), version, Some(one.result_id.clone()), one.items.to_vec()),
        });
    }
    // What the client knows of and isn't there any more has nothing wrong with it.
    let gone = previous.iter().filter(|one| known.iter().all(|known| known.uri != one.uri));
    items.extend(gone.map(|one| full(one.uri.clone(), None, None, Vec::new())));
    WorkspaceDiagnosticReportResult::Report(WorkspaceDiagnosticReport { items })
}

fn full(
    uri: Url,
    version: Option<i64>,
    result_id: Option<String>,
    items: Vec<Diagnostic>,
) -> WorkspaceDocumentDiagnosticReport {
    WorkspaceDocumentDiagnosticReport::Full(WorkspaceFullDocumentDiagnosticReport {
        uri,
        version,
        full_document_diagnostic_report: FullDocumentDiagnosticReport { result_id, items },
    })
}

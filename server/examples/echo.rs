//! A server on tower-lsp that does nothing but answer every change with an empty list: what the protocol alone costs.
//! Latencies of the real server are given as multiples of this one's, measured in the same run.

use lsp_types::*;
use tower_lsp::jsonrpc::Result;
use tower_lsp::{async_trait, Client, LanguageServer, LspService, Server};

#[tokio::main(flavor = "current_thread")]
async fn main() {
    let (service, socket) = LspService::new(|client| Echo { client });
    Server::new(tokio::io::stdin(), tokio::io::stdout(), socket).serve(service).await;
}

struct Echo {
    client: Client,
}

#[async_trait]
impl LanguageServer for Echo {
    async fn initialize(&self, _: InitializeParams) -> Result<InitializeResult> {
        Ok(InitializeResult {
            capabilities: ServerCapabilities {
                text_document_sync: Some(TextDocumentSyncCapability::Kind(TextDocumentSyncKind::INCREMENTAL)),
                hover_provider: Some(HoverProviderCapability::Simple(true)),
                ..ServerCapabilities::default()
            },
            ..InitializeResult::default()
        })
    }

    async fn shutdown(&self) -> Result<()> {
        Ok(())
    }

    async fn did_open(&self, params: DidOpenTextDocumentParams) {
        let document = params.text_document;
        self.client.publish_diagnostics(document.uri, Vec::new(), Some(document.version)).await;
    }

    async fn did_change(&self, params: DidChangeTextDocumentParams) {
        let document = params.text_document;
        self.client.publish_diagnostics(document.uri, Vec::new(), Some(document.version)).await;
    }

    async fn hover(&self, _: HoverParams) -> Result<Option<Hover>> {
        Ok(None)
    }
}

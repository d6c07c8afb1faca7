//! Telling the client that what it shows may have changed without its text: a file that a design uses did.

use crate::terms::Refreshes;
use std::future::Future;
use std::time::Duration;
use tokio::runtime::Handle;
use tower_lsp::jsonrpc::Result;
use tower_lsp::Client;

/// How long an answer is waited for; nothing hangs on it.
const PATIENCE: Duration = Duration::from_secs(10);

/// Tells one client, from any thread.
pub struct Refresh {
    client: Client,
    runtime: Handle,
}

impl Refresh {
    /// For this client. It has to be called on the runtime.
    pub fn of(client: Client) -> Refresh {
        Refresh { client, runtime: Handle::current() }
    }

    /// Ask the client to ask again.
    pub fn send(&self, what: Refreshes) {
        let (one, two, three) = (self.client.clone(), self.client.clone(), self.client.clone());
        if what.diagnostics {
            self.spawn(async move { one.workspace_diagnostic_refresh().await });
        }
        if what.lenses {
            self.spawn(async move { two.code_lens_refresh().await });
        }
        if what.hints {
            self.spawn(async move { three.inlay_hint_refresh().await });
        }
    }

    fn spawn(&self, request: impl Future<Output = Result<()>> + Send + 'static) {
        self.runtime.spawn(async move {
            let _ = tokio::time::timeout(PATIENCE, request).await;
        });
    }
}

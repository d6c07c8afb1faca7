//! The server on a pair of streams: messages in, messages out, and how it ends.

use crate::answers::broken;
use crate::backend::Backend;
use crate::frame::{read_frame, Frame, Message};
use crate::outbox::{outbox, Outbox};
use crate::parent;
use finwright_checks::Analyze;
use futures_util::{FutureExt, SinkExt, StreamExt};
use std::future::poll_fn;
use std::panic::AssertUnwindSafe;
use std::process::ExitCode;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::Arc;
use std::time::Duration;
use tokio::io::{AsyncRead, AsyncWrite, BufReader};
use tower::Service;
use tower_lsp::jsonrpc::{Error, Request, Response};
use tower_lsp::LspService;

/// A burst of some hundred edits is seen as one.
const READ_AHEAD: usize = 64 << 10;

/// How a conversation came to its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ending {
    /// The client asked for it in due form, with `shutdown`.
    Proper,
    /// The client left without a word.
    Abrupt,
}

impl From<Ending> for ExitCode {
    fn from(ending: Ending) -> ExitCode {
        match ending {
            Ending::Proper => ExitCode::SUCCESS,
            Ending::Abrupt => ExitCode::FAILURE,
        }
    }
}

/// Serve one client on standard input and output until it says `exit` or closes its end.
pub fn run() -> std::io::Result<ExitCode> {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_time().build()?;
    let ending = runtime.block_on(serve(tokio::io::stdin(), tokio::io::stdout()));
    // The thread that reads standard input may wait for ever: a client may keep its end open after `exit`.
    runtime.shutdown_background();
    Ok(ending.into())
}

/// Serve one client on the given streams until it says `exit` or closes its end.
pub async fn serve<I, O>(input: I, output: O) -> Ending
where
    I: AsyncRead + Unpin,
    O: AsyncWrite + Unpin + Send + 'static,
{
    serve_with(finwright_checks::analyze, input, output).await
}

/// As [`serve`], with another analysis.
pub async fn serve_with<I, O>(analyze: Analyze, input: I, output: O) -> Ending
where
    I: AsyncRead + Unpin,
    O: AsyncWrite + Unpin + Send + 'static,
{
    let (outbox, outgoing) = outbox();
    let mut writer = tokio::spawn(outgoing.write(output));
    let more = Arc::new(AtomicBool::new(false));
    let built = LspService::build(|client| Backend::start(client, outbox.clone(), more.clone(), analyze));
    #[cfg(feature = "pictures")]
    let built = built.custom_method("finwright/cursor", Backend::cursor);
    let (mut service, socket) = built.finish();
    let (mut to_client, mut from_client) = socket.split();
    let forward = tokio::spawn({
        let outbox = outbox.clone();
        async move {
            while let Some(request) = to_client.next().await {
                outbox.send(&request);
            }
        }
    });

    let proper = Arc::new(AtomicBool::new(false));
    let mut input = BufReader::with_capacity(READ_AHEAD, input);
    let mut parent = None;
    loop {
        let frame = tokio::select! {
            frame = read_frame(&mut input) => frame,
            () = parent::gone(parent) => None,
            // Nobody hears an answer any more.
            _ = &mut writer => None,
        };
        let Some(frame) = frame else { break };
        outbox.room().await;
        // A burst of edits is one: what has arrived is read before anything is analysed.
        more.store(!input.buffer().is_empty(), Ordering::Release);
        match frame.and_then(Frame::parse) {
            Ok(Message::Request(request)) if request.method() == "exit" => break,
            Ok(Message::Request(request)) if is_unknown(&request) => {
                if let Some(id) = request.id().cloned() {
                    outbox.send(&Response::from_error(id, Error::method_not_found()));
                }
            }
            Ok(Message::Request(request)) => {
                let request = mended(request);
                parent = parent.or_else(|| parent_of(&request));
                if poll_fn(|context| service.poll_ready(context)).await.is_err() {
                    break;
                }
                answer(&outbox, &proper, &mut service, request);
            }
            Ok(Message::Response(response)) => {
                if from_client.send(response).await.is_err() {
                    break;
                }
            }
            Err((id, error)) => outbox.send(&Response::from_error(id, error)),
        }
    }

    // What was answered is still written, but nothing that hangs may keep the process alive.
    forward.abort();
    drop((outbox, service));
    if !writer.is_finished() {
        let _ = tokio::time::timeout(Duration::from_secs(1), writer).await;
    }
    match proper.load(Ordering::Acquire) {
        true => Ending::Proper,
        false => Ending::Abrupt,
    }
}

/// Whether a message is one of the protocol's own that we don't know. What asks for an answer must get one, and what
/// doesn't may be left alone.
fn is_unknown(request: &Request) -> bool {
    request.method().starts_with("$/") && request.method() != "$/cancelRequest"
}

/// The greeting with a word in the spelling that our types know: the protocol has `diagnostics` there.
fn mended(request: Request) -> Request {
    if request.method() != "initialize" {
        return request;
    }
    let (method, id, params) = request.into_parts();
    let mut request = Request::build(method);
    if let Some(mut params) = params {
        let spelt = params.pointer("/capabilities/workspace/diagnostics").cloned();
        if let (Some(spelt), Some(workspace)) = (spelt, params.pointer_mut("/capabilities/workspace")) {
            workspace["diagnostic"] = spelt;
        }
        request = request.params(params);
    }
    match id {
        Some(id) => request.id(id).finish(),
        None => request.finish(),
    }
}

/// The process that the greeting names as the one that started us.
fn parent_of(request: &Request) -> Option<u32> {
    let params = request.params().filter(|_| request.method() == "initialize")?;
    u32::try_from(params.get("processId")?.as_u64()?).ok()
}

/// Start a handler and take it as far as it goes without waiting, so that what it sends to the state thread keeps the
/// order of arrival; the rest of it runs beside the others.
fn answer<S>(outbox: &Outbox, proper: &Arc<AtomicBool>, service: &mut S, request: Request)
where
    S: Service<Request, Response = Option<Response>>,
    S::Future: Send + 'static,
    S::Error: Send,
{
    let (outbox, proper) = (outbox.clone(), proper.clone());
    let shutdown = request.method() == "shutdown";
    let id = request.id().cloned();
    let handler = AssertUnwindSafe(service.call(request)).catch_unwind();
    let mut whole = Box::pin(async move {
        let response = match handler.await {
            Ok(response) => response.ok().flatten(),
            Err(_) => id.map(|id| Response::from_error(id, broken())),
        };
        if let Some(response) = response {
            if shutdown && response.is_ok() {
                proper.store(true, Ordering::Release);
            }
            outbox.send(&response);
        }
    });
    if whole.as_mut().now_or_never().is_none() {
        tokio::spawn(whole);
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use super::*;
    use std::future::Future;
    use std::pin::Pin;
    use std::task::{Context, Poll};
    use tokio::io::AsyncReadExt;

    /// Fails at once or after a pause, as the request's method says.
    struct Fragile;

    impl Service<Request> for Fragile {
        type Response = Option<Response>;
        type Error = ();
        type Future = Pin<Box<dyn Future<Output = Result<Option<Response>, ()>> + Send>>;

        fn poll_ready(&mut self, _: &mut Context) -> Poll<Result<(), ()>> {
            Poll::Ready(Ok(()))
        }

        fn call(&mut self, request: Request) -> Self::Future {
            Box::pin(async move {
                if request.method() == "later" {
                    tokio::task::yield_now().await;
                }
                panic!("as the test asked for")
            })
        }
    }

    #[tokio::test]
    async fn a_panic_costs_its_own_request() {
        let (sender, outgoing) = outbox();
        let proper = Arc::default();
        for (method, id) in [("now", Some(1)), ("later", Some(2)), ("now", None)] {
            let mut request = Request::build(method);
            if let Some(id) = id {
                request = request.id(id);
            }
            answer(&sender, &proper, &mut Fragile, request.finish());
        }
        drop(sender);
        let (mut ours, theirs) = tokio::io::duplex(1 << 16);
        outgoing.write(theirs).await;
        let mut written = String::new();
        ours.read_to_string(&mut written).await.unwrap();
        let messages: Vec<_> = written.split("Content-Length").skip(1).collect();
        assert_eq!(messages.len(), 2, "{written}");
        for (message, id) in messages.iter().zip([1, 2]) {
            assert!(message.contains("-32603") && message.contains(&format!("\"id\":{id}")), "{message}");
        }
    }
}

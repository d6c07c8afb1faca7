//! Messages on the wire: a header with a length, then that many bytes of JSON.
//!
//! The framing that comes with tower-lsp ends the conversation at the first message that isn't well formed. Here a bad
//! message costs that message: the client gets an error and the next one is read.

use serde::Deserialize;
use serde_json::Value;
use tokio::io::{AsyncBufRead, AsyncBufReadExt, AsyncReadExt, AsyncWrite, AsyncWriteExt};
use tower_lsp::jsonrpc::{Error, Id, Request, Response};

/// The body of a message, not yet looked into.
pub struct Frame(Vec<u8>);

/// A message from the client.
pub enum Message {
    /// A request or a notification.
    Request(Request),
    /// The answer to a request of ours.
    Response(Response),
}

/// Why a message can't be used, and which request to say so to.
pub type Refusal = (Id, Error);

/// The next message; nothing at the end of the stream.
pub async fn read_frame(input: &mut (impl AsyncBufRead + Unpin)) -> Option<Result<Frame, Refusal>> {
    let Some(length) = read_header(input).await? else {
        return Some(Err((Id::Null, Error::parse_error())));
    };
    if length > BODY_LIMIT {
        let mut body = input.take(length);
        tokio::io::copy(&mut body, &mut tokio::io::sink()).await.ok()?;
        return Some(Err((Id::Null, too_long())));
    }
    let mut body = Vec::new();
    let read = input.take(length).read_to_end(&mut body).await.ok()?;
    (read as u64 == length).then_some(Ok(Frame(body)))
}

/// Write one message and see that it leaves.
pub async fn write_frame(output: &mut (impl AsyncWrite + Unpin), body: &[u8]) -> std::io::Result<()> {
    let mut bytes = format!("Content-Length: {}\r\n\r\n", body.len()).into_bytes();
    bytes.extend_from_slice(body);
    output.write_all(&bytes).await?;
    output.flush().await
}

impl Frame {
    /// What the message says.
    pub fn parse(self) -> Result<Message, Refusal> {
        let raw: Raw = serde_json::from_slice(&self.0).map_err(|error| {
            let kind = match error.is_data() {
                true => Error::invalid_request(),
                false => Error::parse_error(),
            };
            (Id::Null, kind)
        })?;
        match (raw.method, raw.id) {
            (Some(method), id) => {
                let mut request = Request::build(method);
                // A parameter list of `null` means none, as some editors send it for `shutdown`.
                if let Some(params) = raw.params.filter(|params| !params.is_null()) {
                    request = request.params(params);
                }
                if let Some(id) = id {
                    request = request.id(id);
                }
                Ok(Message::Request(request.finish()))
            }
            (None, Some(id)) => {
                let body = match raw.error {
                    Some(error) => Err(serde_json::from_value(error).unwrap_or_else(|_| Error::internal_error())),
                    None => Ok(raw.result),
                };
                Ok(Message::Response(Response::from_parts(id, body)))
            }
            (None, None) => Err((Id::Null, Error::invalid_request())),
        }
    }
}

/// Far above any design, far below what would fill the memory of the machine.
const BODY_LIMIT: u64 = 256 * 1024 * 1024;
const HEADER_LIMIT: u64 = 64 * 1024;

#[derive(Deserialize)]
struct Raw {
    id: Option<Id>,
    method: Option<String>,
    params: Option<Value>,
    #[serde(default)]
    result: Value,
    error: Option<Value>,
}

fn too_long() -> Error {
    Error { message: "this message is longer than 256 MB and was not read".into(), ..Error::invalid_request() }
}

/// The length that the header gives: `None` at the end of the stream, `Some(None)` where it gives none.
async fn read_header(input: &mut (impl AsyncBufRead + Unpin)) -> Option<Option<u64>> {
    let mut length = None;
    loop {
        let mut line = Vec::new();
        let read = input.take(HEADER_LIMIT).read_until(b'\n', &mut line).await.ok()?;
        if read == 0 {
            return None;
        }
        let line = String::from_utf8_lossy(&line).to_ascii_lowercase();
        if line.trim().is_empty() {
            return Some(length);
        }
        // After a header without a length its body stands on the same line as the next header, hence the search.
        if let Some((_, value)) = line.rsplit_once("content-length:") {
            length = value.trim().parse().ok();
        }
    }
}

//! The server: on the loopback address alone, at a free port, behind a random token.

use crate::live::{Going, Live, Now};
use crate::request::{read, Refused, Wanted};
use crate::shell::shell;
use finwright_draw::font::{BOLD, PLAIN};
use serde_json::{json, Value};
use std::io::{Error, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::Arc;
use std::time::Duration;

/// Where the page is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Address {
    /// Its address for a browser: with the token, so that nobody else finds it.
    pub url: String,
}

/// More readers at once than any person has.
const MOST_READERS: usize = 32;
/// How long a request may take to arrive.
const PATIENCE: Duration = Duration::from_secs(5);
/// How often a silent stream says that it's still there, so that a reader who has gone is noticed.
const BREATH: Duration = Duration::from_secs(15);

/// Serve what is live until it's closed; `go` takes a reader from the page to the text.
pub fn serve(live: Live, go: Arc<Going>) -> Result<Address, Error> {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?;
    let port = listener.local_addr()?.port();
    let token = random()?;
    let url = format!("http://127.0.0.1:{port}/{token}/");
    std::thread::Builder::new().name("page".to_string()).spawn(move || {
        let readers = Arc::new(AtomicUsize::new(0));
        for stream in listener.incoming() {
            if live.now().over {
                return;
            }
            let Ok(stream) = stream else { continue };
            let (live, go, token, readers) = (live.clone(), go.clone(), token.clone(), readers.clone());
            if readers.fetch_add(1, Ordering::AcqRel) >= MOST_READERS {
                readers.fetch_sub(1, Ordering::AcqRel);
                continue;
            }
            let counted = readers.clone();
            let answered = std::thread::Builder::new().name("reader".to_string()).spawn(move || {
                // A reader who goes away in the middle is no fault.
                let _ = answer(stream, (port, &token), &live, go.as_ref());
                counted.fetch_sub(1, Ordering::AcqRel);
            });
            if answered.is_err() {
                readers.fetch_sub(1, Ordering::AcqRel);
            }
        }
    })?;
    Ok(Address { url })
}

/// Thirty-two hexadecimal digits that nobody can guess.
fn random() -> Result<String, Error> {
    let mut bytes = [0; 16];
    getrandom::fill(&mut bytes).map_err(|error| Error::other(error.to_string()))?;
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}

fn answer(mut stream: TcpStream, (port, token): (u16, &str), live: &Live, go: &Going) -> Result<(), Error> {
    stream.set_read_timeout(Some(PATIENCE))?;
    stream.set_write_timeout(Some(PATIENCE))?;
    stream.set_nodelay(true)?;
    match read(&mut stream, port, token)? {
        Ok(Wanted::Page) => {
            let nonce = random()?;
            let policy = format!(
                "default-src 'none'; connect-src 'self'; font-src 'self'; script-src 'nonce-{nonce}'; \
                 style-src 'nonce-{nonce}'; base-uri 'none'; form-action 'none'; frame-ancestors vscode-webview:"
            );
            let page = shell(&nonce);
            respond(&mut stream, "200 OK", "text/html; charset=utf-8", &policy, page.as_bytes())
        }
        Ok(Wanted::Font(bold)) => {
            respond(&mut stream, "200 OK", "font/ttf", "default-src 'none'", if bold { BOLD } else { PLAIN })
        }
        Ok(Wanted::Events(flight)) => events(stream, live, flight.as_deref()),
        Ok(Wanted::Go(from, to)) => {
            go(from, to);
            respond(&mut stream, "204 No Content", "text/plain", "default-src 'none'", b"")
        }
        Err(refused) => {
            let status = match refused {
                Refused::Bad => "400 Bad Request",
                Refused::Elsewhere => "403 Forbidden",
                Refused::NotFound => "404 Not Found",
            };
            respond(&mut stream, status, "text/plain", "default-src 'none'", b"")
        }
    }
}

fn respond(stream: &mut TcpStream, status: &str, kind: &str, policy: &str, body: &[u8]) -> Result<(), Error> {
    let mut answer = head(status, kind, policy);
    answer += &format!("Content-Length: {}\r\n\r\n", body.len());
    stream.write_all(answer.as_bytes())?;
    stream.write_all(body)
}

fn head(status: &str, kind: &str, policy: &str) -> String {
    format!(
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Security-Policy: {policy}\r\n\
         X-Content-Type-Options: nosniff\r\nReferrer-Policy: no-referrer\r\n\
         Cross-Origin-Resource-Policy: same-origin\r\nCache-Control: no-store\r\nConnection: close\r\n"
    )
}

/// Events as they happen, until the reader leaves: the HTML standard's server-sent events.
fn events(mut stream: TcpStream, live: &Live, flight: Option<&str>) -> Result<(), Error> {
    let begin = head("200 OK", "text/event-stream", "default-src 'none'") + "\r\n";
    stream.write_all(begin.as_bytes())?;
    let mut seen = Now::default();
    let mut told = Told::default();
    loop {
        let now = live.after(&seen, BREATH);
        if now.over {
            return stream.write_all(event("over", &Value::Null).as_bytes());
        }
        let mut out = String::new();
        if now.state != seen.state {
            if let Some(shown) = &now.shown {
                out += &told.state(shown.content(flight));
            }
        }
        if let Some(cursor) = now.cursor.filter(|_| now.moves != seen.moves || now.state != seen.state) {
            out += &event("mark", &json!(cursor));
        }
        if out.is_empty() {
            out += ": still here\n\n";
        }
        stream.write_all(out.as_bytes())?;
        seen = now;
    }
}

/// What a reader has been told.
#[derive(Default)]
struct Told {
    something: bool,
}

impl Told {
    /// What to tell of a state: where it can't be read and the reader has an older one, only that.
    fn state(&mut self, content: crate::content::Content) -> String {
        match content.unreadable {
            Some(why) if self.something => event("unreadable", &json!(why)),
            why => {
                self.something = true;
                let page = event("page", &json!({ "title": content.title, "html": content.html }));
                page + &why.map_or(String::new(), |why| event("unreadable", &json!(why)))
            }
        }
    }
}

/// JSON has no line breaks outside of its strings, and in them they are escaped.
fn event(name: &str, data: &Value) -> String {
    format!("event: {name}\ndata: {data}\n\n")
}

//! What the server understands, and what it turns away: another host's name, another origin's page, a wrong token.

use std::io::{Error, ErrorKind, Read};

/// A request that may be answered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// The page.
    Page,
    /// A face of its font: whether the bold one.
    Font(bool),
    /// What happens to it from now on, for the flight of a name.
    Events(Option<String>),
    /// To go to a range of the text, by byte offsets.
    Go(u32, u32),
}

/// Why a request isn't answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refused {
    /// It can't be understood.
    Bad,
    /// It came to another name than the loopback address, or from another origin's page.
    Elsewhere,
    /// There is nothing of that name; so is everything whose token is wrong.
    NotFound,
}

/// Longer heads and bodies aren't read.
const MOST_HEAD: usize = 16 << 10;
const MOST_BODY: usize = 1 << 10;

/// Read a request for a server at `port` whose paths begin with `token`.
pub fn read(stream: &mut impl Read, port: u16, token: &str) -> Result<Result<Wanted, Refused>, Error> {
    let mut bytes = Vec::new();
    let mut chunk = [0; 2048];
    loop {
        let mut headers = [httparse::EMPTY_HEADER; 64];
        let mut head = httparse::Request::new(&mut headers);
        match head.parse(&bytes) {
            Err(_) => return Ok(Err(Refused::Bad)),
            Ok(httparse::Status::Complete(length)) => {
                let body = length;
                let wanted = understood(&head, port, token);
                let size = header(&head, "content-length").and_then(|said| said.parse::<usize>().ok()).unwrap_or(0);
                if size > MOST_BODY {
                    return Ok(Err(Refused::Bad));
                }
                let Ok(None) = wanted else { return Ok(wanted.map(|wanted| wanted.unwrap_or(Wanted::Page))) };
                while bytes.len() < body + size {
                    let read = stream.read(&mut chunk)?;
                    if read == 0 {
                        return Err(ErrorKind::UnexpectedEof.into());
                    }
                    bytes.extend_from_slice(&chunk[..read]);
                }
                return Ok(going(bytes.get(body..body + size).unwrap_or_default()));
            }
            Ok(httparse::Status::Partial) if bytes.len() > MOST_HEAD => return Ok(Err(Refused::Bad)),
            Ok(httparse::Status::Partial) => {}
        }
        let read = stream.read(&mut chunk)?;
        if read == 0 {
            return Err(ErrorKind::UnexpectedEof.into());
        }
        bytes.extend_from_slice(&chunk[..read]);
    }
}

/// What the head asks for; nothing where its body says so.
fn understood(head: &httparse::Request, port: u16, token: &str) -> Result<Option<Wanted>, Refused> {
    let own = [format!("127.0.0.1:{port}"), format!("localhost:{port}")];
    let host = header(head, "host").ok_or(Refused::Elsewhere)?;
    if !own.iter().any(|own| host.eq_ignore_ascii_case(own)) {
        return Err(Refused::Elsewhere);
    }
    // A page of another origin says its own; a browser's address line says none.
    if let Some(origin) = header(head, "origin") {
        if !own.iter().any(|own| origin == format!("http://{own}")) {
            return Err(Refused::Elsewhere);
        }
    }
    let (method, path) = (head.method.unwrap_or_default(), head.path.unwrap_or_default());
    let (path, query) = path.split_once('?').unwrap_or((path, ""));
    let mut segments = path.trim_start_matches('/').splitn(2, '/');
    let known = segments.next().is_some_and(|given| same(given.as_bytes(), token.as_bytes()));
    if !known {
        return Err(Refused::NotFound);
    }
    let is_own_page = header(head, "sec-fetch-site").is_none_or(|site| matches!(site, "same-origin" | "none"));
    match (method, segments.next()) {
        // The page may be opened from anywhere that knows its address, such as an editor's view.
        ("GET", Some("")) => Ok(Some(Wanted::Page)),
        _ if !is_own_page => Err(Refused::Elsewhere),
        ("GET", Some("plain.ttf")) => Ok(Some(Wanted::Font(false))),
        ("GET", Some("bold.ttf")) => Ok(Some(Wanted::Font(true))),
        ("GET", Some("events")) => Ok(Some(Wanted::Events(flight(query)))),
        ("POST", Some("go")) if header(head, "content-type") == Some("application/json") => Ok(None),
        _ => Err(Refused::NotFound),
    }
}

/// Whether two secrets are the same, in a time that doesn't tell where they differ.
fn same(one: &[u8], other: &[u8]) -> bool {
    one.len() == other.len() && one.iter().zip(other).fold(0, |differ, (a, b)| differ | (a ^ b)) == 0
}

fn header<'h>(head: &'h httparse::Request, name: &str) -> Option<&'h str> {
    let mut of = head.headers.iter().filter(|header| header.name.eq_ignore_ascii_case(name));
    let found = of.next()?;
    // Two of a kind are a trick.
    of.next().is_none().then(|| std::str::from_utf8(found.value).ok()).flatten()
}

#[derive(serde::Deserialize)]
struct Range {
    from: u32,
    to: u32,
}

fn going(body: &[u8]) -> Result<Wanted, Refused> {
    let range: Range = serde_json::from_slice(body).map_err(|_| Refused::Bad)?;
    Ok(Wanted::Go(range.from.min(range.to), range.to.max(range.from)))
}

fn flight(query: &str) -> Option<String> {
    let name = query.split('&').find_map(|pair| pair.strip_prefix("flight="))?;
    let mut bytes = Vec::new();
    let mut rest = name.bytes();
    while let Some(byte) = rest.next() {
        bytes.push(match byte {
            b'%' => {
                let digits = [rest.next()?, rest.next()?];
                u8::from_str_radix(std::str::from_utf8(&digits).ok()?, 16).ok()?
            }
            b'+' => b' ',
            other => other,
        });
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asked(head: &str) -> Result<Wanted, Refused> {
        let text = head.replace('\n', "\r\n");
        read(&mut text.as_bytes(), 4321, "secret").unwrap_or(Err(Refused::Bad))
    }

    #[test]
    fn the_page_is_given_to_who_knows_its_address() {
        assert_eq!(asked("GET /secret/ HTTP/1.1\nHost: 127.0.0.1:4321\n\n"), Ok(Wanted::Page));
        assert_eq!(asked("GET /secret/ HTTP/1.1\nHost: localhost:4321\n\n"), Ok(Wanted::Page));
        let events = "GET /secret/events?flight=rod%20day HTTP/1.1\nHost: 127.0.0.1:4321\n\n";
        assert_eq!(asked(events), Ok(Wanted::Events(Some("rod day".to_string()))));
    }

    #[test]
    fn another_host_origin_or_token_gets_nothing() {
        for (head, refused) in [
            ("GET /secret/ HTTP/1.1\nHost: evil.example:4321\n\n", Refused::Elsewhere),
            ("GET /secret/ HTTP/1.1\n\n", Refused::Elsewhere),
            ("GET /secret/ HTTP/1.1\nHost: 127.0.0.1:4321\nHost: evil.example\n\n", Refused::Elsewhere),
            ("GET /secret/events HTTP/1.1\nHost: 127.0.0.1:4321\nOrigin: http://evil.example\n\n", Refused::Elsewhere),
            ("GET /secret/events HTTP/1.1\nHost: 127.0.0.1:4321\nSec-Fetch-Site: cross-site\n\n", Refused::Elsewhere),
            ("GET /secreu/ HTTP/1.1\nHost: 127.0.0.1:4321\n\n", Refused::NotFound),
            ("GET / HTTP/1.1\nHost: 127.0.0.1:4321\n\n", Refused::NotFound),
            ("GET /secret/../x HTTP/1.1\nHost: 127.0.0.1:4321\n\n", Refused::NotFound),
            ("POST /secret/go HTTP/1.1\nHost: 127.0.0.1:4321\nContent-Type: text/plain\n\n", Refused::NotFound),
            ("nonsense\n\n", Refused::Bad),
        ] {
            assert_eq!(asked(head), Err(refused), "{head}");
        }
    }

    #[test]
    fn a_click_says_where_it_wants_to_go() {
        let body = "{\"from\":12,\"to\":34}";
        let head = "POST /secret/go HTTP/1.1\nHost: 127.0.0.1:4321\nContent-Type: application/json\nContent-Length: ";
        assert_eq!(asked(&format!("{head}{}\n\n{body}", body.len())), Ok(Wanted::Go(12, 34)));
        assert_eq!(asked(&format!("{head}999999\n\n")), Err(Refused::Bad));
    }
}

//! What a file is that is no design, by its first bytes, in words that a teacher can pass on.

/// What a file is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A zip, which can be opened.
    Zip,
    /// A document of a word processor, a spreadsheet or the like.
    Document,
    /// Text with two bytes a letter.
    Utf16,
    /// Something else, in words.
    Other(&'static str),
}

impl Kind {
    /// What it is and what to hand in instead, without its full stop.
    pub fn in_words(self) -> String {
        match self {
            Kind::Zip => "this is a zip".to_string(),
            Kind::Document => {
                "this is a word-processor document: save the text alone, as a file that ends in .finw".to_string()
            }
            Kind::Utf16 => "this is UTF-16 text: save it as UTF-8".to_string(),
            Kind::Other(what) => format!("this is {what}: hand in the text of the design, a file that ends in .finw"),
        }
    }
}

/// First bytes by which files are known (from memory; each is in its format's own specification).
const MARKS: [(&[u8], Kind); 16] = [
    (b"\xFF\xFE", Kind::Utf16),
    (b"\xFE\xFF", Kind::Utf16),
    (b"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1", Kind::Document),
    (b"{\\rtf", Kind::Document),
    (b"%PDF", Kind::Other("a PDF")),
    (b"\x89PNG", Kind::Other("a picture")),
    (b"\xFF\xD8\xFF", Kind::Other("a picture")),
    (b"GIF8", Kind::Other("a picture")),
    (b"\x1F\x8B", Kind::Other("a packed file that is no zip")),
    (b"BZh", Kind::Other("a packed file that is no zip")),
    (b"7z\xBC\xAF\x27\x1C", Kind::Other("a packed file that is no zip")),
    (b"Rar!\x1A\x07", Kind::Other("a packed file that is no zip")),
    (b"\xFD7zXZ", Kind::Other("a packed file that is no zip")),
    (b"MZ", Kind::Other("a program")),
    (b"\x7FELF", Kind::Other("a program")),
    (b"bplist", Kind::Other("a link that a browser saved")),
];

/// What some bytes, the first of a file or all of it, are; `None` for what may be a text.
pub fn kind(bytes: &[u8]) -> Option<Kind> {
    if bytes.starts_with(b"PK\x03\x04") || bytes.starts_with(b"PK\x05\x06") {
        return Some(if is_document(bytes) { Kind::Document } else { Kind::Zip });
    }
    if let Some((_, kind)) = MARKS.iter().find(|(mark, _)| bytes.starts_with(mark)) {
        return Some(*kind);
    }
    if bytes.get(257..262) == Some(b"ustar") {
        return Some(Kind::Other("a packed file that is no zip"));
    }
    let begins = |word: &[u8]| bytes.trim_ascii_start().get(..word.len()).is_some_and(|b| b.eq_ignore_ascii_case(word));
    if begins(b"<!doctype html") || begins(b"<html") {
        return Some(Kind::Other("a web page"));
    }
    is_utf16(bytes).then_some(Kind::Utf16)
}

/// A zip whose first file is one that documents begin with: ECMA-376 part 2 and OASIS OpenDocument 1.2 part 3.
fn is_document(bytes: &[u8]) -> bool {
    let Some(name) = bytes.get(30..) else { return false };
    let first = [
        &b"[Content_Types].xml"[..],
        b"mimetypeapplication/vnd.oasis",
        b"_rels/.rels",
        b"docProps/",
        b"word/",
        b"Index/",
    ];
    first.iter().any(|mark| name.starts_with(mark))
}

/// Text with two bytes a letter and no mark before it: every other byte of its beginning is zero.
fn is_utf16(bytes: &[u8]) -> bool {
    let head = bytes.get(..bytes.len().min(200)).unwrap_or_default();
    let zeros = |odd: usize| head.iter().skip(odd).step_by(2).filter(|byte| **byte == 0).count();
    let half = head.len() / 2;
    head.len() >= 8 && (zeros(0) * 10 >= half * 8 || zeros(1) * 10 >= half * 8) && !head.iter().all(|byte| *byte == 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_pupils_hand_in_is_known_by_its_first_bytes() {
        assert_eq!(kind(b"finwright 1\n"), None);
        assert_eq!(kind(b""), None);
        assert_eq!(kind(b"\xEF\xBB\xBFfinwright 1\n"), None);
        assert_eq!(kind(b"PK\x03\x04\x14\0\0\0"), Some(Kind::Zip));
        let mut document = b"PK\x03\x04".to_vec();
        document.resize(30, 0);
        document.extend(b"[Content_Types].xml");
        assert_eq!(kind(&document), Some(Kind::Document));
        let utf16: Vec<u8> = "finwright 1\n".encode_utf16().flat_map(u16::to_le_bytes).collect();
        assert_eq!(kind(&utf16), Some(Kind::Utf16));
        assert_eq!(kind(&[b"\xFF\xFE", utf16.as_slice()].concat()), Some(Kind::Utf16));
        assert_eq!(kind(b"%PDF-1.7"), Some(Kind::Other("a PDF")));
        assert_eq!(kind(b"\n <!DOCTYPE HTML><p>"), Some(Kind::Other("a web page")));
        assert_eq!(kind(&[0; 64]), None, "nothing but zeros is told as no text");
    }
}

//! Names of files: an id as one, those that nobody gave, and what is shown of any.

/// Longer names are cut: file systems take 255 bytes, endings included.
const LONGEST: usize = 120;

/// A file's name, without its ending, for an id: letters, digits, `-`, `_` and inner dots stay, every other byte is
/// `%` and two digits, so that two ids never share a name, none leads out of a folder and none means a device.
pub fn file_name(id: &str) -> String {
    let mut name = String::new();
    for (at, byte) in id.bytes().enumerate() {
        let plain = byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_') || (byte == b'.' && at > 0);
        match plain {
            true => name.push(char::from(byte)),
            false => name += &format!("%{byte:02X}"),
        }
    }
    if is_device(&name) || name.is_empty() {
        name.insert(0, '%');
    }
    if name.len() > LONGEST {
        // The rest of a long id is told apart by a sum over it: FNV-1a, 64 bits.
        let sum = id
            .bytes()
            .fold(0xcbf2_9ce4_8422_2325_u64, |sum, byte| (sum ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3));
        name.truncate(LONGEST);
        name += &format!("%{sum:016x}");
    }
    name
}

/// What systems and programs leave in folders by themselves.
pub(crate) fn is_clutter(name: &str) -> bool {
    name.starts_with('.') || ["__MACOSX", "Thumbs.db", "desktop.ini"].contains(&name) || name.starts_with("~$")
}

/// A name with `�` for what would move a cursor or colour a page.
pub(crate) fn printable(name: &str) -> String {
    name.replace(char::is_control, "\u{FFFD}")
}

/// Names that some systems keep for devices, whatever stands behind a dot (documentation of Windows' file names, from
/// memory).
fn is_device(name: &str) -> bool {
    let stem = name.split('.').next().unwrap_or("").to_ascii_lowercase();
    let numbered = |word: &str| {
        stem.strip_prefix(word).is_some_and(|rest| rest.len() == 1 && rest != "0" && rest.parse::<u8>().is_ok())
    };
    matches!(stem.as_str(), "con" | "prn" | "aux" | "nul") || numbered("com") || numbered("lpt")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_id_leads_out_of_a_folder_or_shares_a_name() {
        assert_eq!(file_name("s-17_b.2"), "s-17_b.2");
        assert_eq!(file_name("../../etc/passwd"), "%2E.%2F..%2Fetc%2Fpasswd");
        assert_eq!(file_name(".."), "%2E.");
        assert_eq!(file_name("a b"), "a%20b");
        assert_eq!(file_name("a%20b"), "a%2520b");
        assert_eq!(file_name("nul.x"), "%nul.x");
        assert_eq!(file_name("com1"), "%com1");
        assert_eq!(file_name(""), "%");
        assert_eq!(file_name("\u{1b}[2J"), "%1B%5B2J");
        let long = |end: &str| file_name(&("x".repeat(500) + end));
        assert!(long("a").len() < 200 && long("a") != long("b"));
    }
}

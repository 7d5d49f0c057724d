//! Bytes to text: byte-order marks, UTF-16 without one, UTF-8, and Windows-1252 for the rest.

/// How the bytes were read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Encoding {
    /// UTF-8, with or without a byte-order mark.
    Utf8,
    /// UTF-16, little end first.
    Utf16Le,
    /// UTF-16, big end first.
    Utf16Be,
    /// Windows-1252, which holds Latin-1.
    Windows1252,
}

impl Encoding {
    /// Name in plain words.
    pub fn word(self) -> &'static str {
        match self {
            Encoding::Utf8 => "UTF-8",
            Encoding::Utf16Le => "UTF-16 (little-endian)",
            Encoding::Utf16Be => "UTF-16 (big-endian)",
            Encoding::Windows1252 => "Windows-1252 (Latin-1)",
        }
    }
}

/// What a file is when it is not text, by its first bytes.
pub fn not_text(bytes: &[u8]) -> Option<&'static str> {
    const KNOWN: &[(&[u8], &str)] = &[
        (b"PK\x03\x04", "a zipped workbook or archive"),
        (b"\xD0\xCF\x11\xE0", "a binary workbook"),
        (b"%PDF", "a PDF document"),
        (b"\x1F\x8B", "a gzip archive"),
        (b"\xFD7zXZ", "an xz archive"),
        (b"\x89PNG", "a picture"),
        (b"\xFF\xD8\xFF", "a picture"),
    ];
    KNOWN.iter().find(|(start, _)| bytes.starts_with(start)).map(|(_, what)| *what)
}

/// Whether text is a web page: markup that begins with the tags of one.
pub(crate) fn is_web_page(text: &str) -> bool {
    let start = text.trim_start_matches(|c: char| c.is_whitespace() || c == '\u{feff}');
    let head: String = start.chars().take(1000).collect::<String>().to_lowercase();
    let tags = ["<!doctype html", "<html", "<head", "<body", "<title"];
    head.starts_with('<') && tags.iter().any(|tag| head.contains(tag))
}

/// The text of `bytes` and how it was read. Never fails: a byte that has no meaning in the
/// encoding becomes U+FFFD.
pub fn decode(bytes: &[u8]) -> (String, Encoding) {
    let (encoding, start) = sniff(bytes);
    let body = bytes.get(start..).unwrap_or_default();
    let codec = match encoding {
        Encoding::Utf8 => encoding_rs::UTF_8,
        Encoding::Utf16Le => encoding_rs::UTF_16LE,
        Encoding::Utf16Be => encoding_rs::UTF_16BE,
        Encoding::Windows1252 => encoding_rs::WINDOWS_1252,
    };
    let (text, _) = codec.decode_without_bom_handling(body);
    (text.into_owned(), encoding)
}

fn sniff(bytes: &[u8]) -> (Encoding, usize) {
    match encoding_rs::Encoding::for_bom(bytes) {
        Some((e, n)) if e == encoding_rs::UTF_16LE => return (Encoding::Utf16Le, n),
        Some((e, n)) if e == encoding_rs::UTF_16BE => return (Encoding::Utf16Be, n),
        Some((_, n)) => return (Encoding::Utf8, n),
        None => {}
    }
    let head = bytes.get(..2000).unwrap_or(bytes);
    let zeros = |first: usize| head.iter().skip(first).step_by(2).filter(|b| **b == 0).count();
    let (even, odd, half) = (zeros(0), zeros(1), head.len() / 2);
    if half >= 2 && odd * 5 > half * 2 && even * 10 < half {
        (Encoding::Utf16Le, 0)
    } else if half >= 2 && even * 5 > half * 2 && odd * 10 < half {
        (Encoding::Utf16Be, 0)
    } else if std::str::from_utf8(bytes).is_ok() {
        (Encoding::Utf8, 0)
    } else {
        (Encoding::Windows1252, 0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_the_common_encodings() {
        let text = "Länge (m)\n12,5\n";
        assert_eq!(decode(text.as_bytes()), (text.to_string(), Encoding::Utf8));
        let marked: Vec<u8> = [b"\xEF\xBB\xBF", text.as_bytes()].concat();
        assert_eq!(decode(&marked), (text.to_string(), Encoding::Utf8));
        let wide: Vec<u8> = text.encode_utf16().flat_map(u16::to_le_bytes).collect();
        assert_eq!(decode(&wide), (text.to_string(), Encoding::Utf16Le));
        let wide: Vec<u8> = text.encode_utf16().flat_map(u16::to_be_bytes).collect();
        assert_eq!(decode(&wide), (text.to_string(), Encoding::Utf16Be));
        let latin: Vec<u8> = text.chars().map(|c| c as u8).collect();
        assert_eq!(decode(&latin), (text.to_string(), Encoding::Windows1252));
    }

    #[test]
    fn tells_a_workbook_from_text() {
        assert_eq!(not_text(b"PK\x03\x04rest"), Some("a zipped workbook or archive"));
        assert_eq!(not_text(b"md,inc,azi"), None);
    }
}

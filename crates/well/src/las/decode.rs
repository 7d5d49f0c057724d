//! From bytes to text: what is no log at all is refused by name, and the coding of the
//! characters is found.

use crate::las::check;
use crate::las::limit;
use crate::las::model::Encoding;
use crate::las::notes::{Notes, Refusal};
use crate::table::decode::is_web_page;
use encoding_rs::{UTF_16BE, UTF_16LE, WINDOWS_1252};
use std::borrow::Cow;

/// The text of a file and how it was coded.
pub(super) struct Decoded<'a> {
    pub(super) text: Cow<'a, str>,
    pub(super) encoding: Encoding,
}

/// The text, or why there is none.
pub(super) fn decode<'a>(bytes: &'a [u8], notes: &mut Notes) -> Result<Decoded<'a>, Refusal> {
    if bytes.len() > limit::FILE_BYTES {
        let message = format!("the file has {} bytes; at most {} are read", bytes.len(), limit::FILE_BYTES);
        return Err(notes.refuse(&check::LIMIT, message));
    }
    refuse_by_signature(bytes, notes)?;
    let (text, encoding) = characters(bytes, notes)?;
    let text = match text {
        Cow::Borrowed(t) => Cow::Borrowed(t.trim_end_matches(PADDING)),
        Cow::Owned(t) => Cow::Owned(t.trim_end_matches(PADDING).to_string()),
    };
    if text.trim().is_empty() {
        return Err(notes.refuse(&check::EMPTY, "the file is empty"));
    }
    refuse_markup(&text, notes)?;
    refuse_binary(&text, notes)?;
    refuse_long_lines(&text, notes)?;
    Ok(Decoded { text, encoding })
}

/// What old systems fill the last block of a file with.
const PADDING: [char; 2] = ['\0', '\u{1a}'];

fn refuse_by_signature(bytes: &[u8], notes: &Notes) -> Result<(), Refusal> {
    let packed: [&[u8]; 6] =
        [b"PK\x03\x04", b"\x1f\x8b", b"\xfd7zXZ", b"7z\xbc\xaf\x27\x1c", b"Rar!", b"BZh"];
    if bytes.starts_with(b"%PDF") {
        return Err(notes.refuse(&check::PDF, "the file is a PDF document"));
    }
    if packed.iter().any(|signature| bytes.starts_with(signature)) {
        return Err(notes.refuse(&check::ARCHIVE, "the file is packed (zip, gz, xz, 7z, rar or bz2)"));
    }
    Ok(())
}

fn characters<'a>(bytes: &'a [u8], notes: &mut Notes) -> Result<(Cow<'a, str>, Encoding), Refusal> {
    if let Some(rest) = bytes.strip_prefix(b"\xef\xbb\xbf")
        && let Ok(text) = std::str::from_utf8(rest)
    {
        return Ok((Cow::Borrowed(text), Encoding::Utf8));
    }
    let wide = match bytes {
        [0xff, 0xfe, ..] => Some((UTF_16LE, Encoding::Utf16Le)),
        [0xfe, 0xff, ..] => Some((UTF_16BE, Encoding::Utf16Be)),
        _ => wide_without_mark(bytes),
    };
    if let Some((coding, encoding)) = wide {
        notes.file(&check::ENCODING, format!("the file is coded in {}, not ASCII", coding.name()));
        return Ok((coding.decode_with_bom_removal(bytes).0, encoding));
    }
    if let Ok(text) = std::str::from_utf8(bytes) {
        return Ok((Cow::Borrowed(text), Encoding::Utf8));
    }
    let zeros = bytes.iter().filter(|b| **b == 0).count();
    if zeros > bytes.len() / 100 {
        return Err(notes.refuse(&check::BINARY, "the file is binary data, not text"));
    }
    notes.file(&check::ENCODING, "characters outside ASCII are read as Windows-1252");
    Ok((WINDOWS_1252.decode_without_bom_handling(bytes).0, Encoding::Windows1252))
}

/// UTF-16 without a mark shows as text with a zero in every second byte.
fn wide_without_mark(bytes: &[u8]) -> Option<(&'static encoding_rs::Encoding, Encoding)> {
    let (pairs, _) = bytes.get(..bytes.len().min(1024))?.as_chunks::<2>();
    let zeros = |at: usize| pairs.iter().filter(|p| p.get(at) == Some(&0)).count();
    let (first, second) = (zeros(0), zeros(1));
    let many = pairs.len().div_ceil(2).max(4);
    if second >= many && first * 10 < second {
        return Some((UTF_16LE, Encoding::Utf16Le));
    }
    (first >= many && second * 10 < first).then_some((UTF_16BE, Encoding::Utf16Be))
}

fn refuse_markup(text: &str, notes: &Notes) -> Result<(), Refusal> {
    let start = text.trim_start_matches(|c: char| c.is_whitespace() || c == '\u{feff}');
    if !start.starts_with('<') {
        return Ok(());
    }
    let what = if is_web_page(start) { "a web page" } else { "markup (XML or HTML)" };
    Err(notes.refuse(&check::HTML, format!("the file is {what}, not a log")))
}

fn refuse_binary(text: &str, notes: &Notes) -> Result<(), Refusal> {
    let odd = text.bytes().filter(|b| *b < 32 && !matches!(b, b'\t' | b'\r' | b'\n' | 0x0c | 0x1a)).count();
    if odd > 8 && odd > text.len() / 100 {
        return Err(notes.refuse(&check::BINARY, "the file is binary data, not text"));
    }
    Ok(())
}

fn refuse_long_lines(text: &str, notes: &Notes) -> Result<(), Refusal> {
    let long =
        text.as_bytes().split(|b| matches!(b, b'\n' | b'\r')).position(|l| l.len() > limit::LINE_BYTES);
    match long {
        None => Ok(()),
        Some(_) => {
            let message = format!("a line has more than {} characters", limit::LINE_BYTES);
            Err(notes.refuse(&check::LIMIT, message))
        }
    }
}

//! One value of the data section: where it ends, and what number it is.

/// What parts the values of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Delimiter {
    /// Blanks and tabs, any number of them.
    Blank,
    /// One comma.
    Comma,
    /// One tab.
    Tab,
}

/// What one value is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Cell {
    /// A number.
    Number(f64),
    /// A number written with a decimal comma.
    CommaNumber(f64),
    /// A mark for "no value": `****`, `(null)`, `-1.#IND`, `--`.
    Blank,
    /// A word.
    Word,
}

impl Delimiter {
    /// By the word of a DLM line, in capitals.
    pub(super) fn named(word: &str) -> Option<Self> {
        match word.split_whitespace().next()? {
            "SPACE" => Some(Delimiter::Blank),
            "COMMA" | "," => Some(Delimiter::Comma),
            "TAB" => Some(Delimiter::Tab),
            _ => None,
        }
    }

    /// Plain word.
    pub(super) fn word(self) -> &'static str {
        match self {
            Delimiter::Blank => "blanks",
            Delimiter::Comma => "commas",
            Delimiter::Tab => "tabs",
        }
    }

    /// Parts a line into values, into `out`.
    pub(super) fn part<'a>(self, line: &'a str, out: &mut Vec<&'a str>) {
        out.clear();
        match self {
            Delimiter::Blank => part_blanks(line, out),
            Delimiter::Comma => out.extend(line.trim().split(',').map(bare)),
            Delimiter::Tab => out.extend(line.trim_end().split('\t').map(bare)),
        }
    }
}

/// Parts at blanks; a word in quotation marks may hold blanks.
fn part_blanks<'a>(line: &'a str, out: &mut Vec<&'a str>) {
    let mut rest = line.trim();
    while let Some(first) = rest.chars().next() {
        let quoted = if matches!(first, '"' | '\'') { closing_quote(rest, first) } else { None };
        let (value, after) = match quoted {
            Some(pair) => pair,
            None => rest.split_at(first_blank(rest)),
        };
        out.push(value);
        rest = after.trim_start();
    }
}

/// Where the first blank stands, or the end. Bytes are looked at as long as they are ASCII.
fn first_blank(text: &str) -> usize {
    let stop = |b: &u8| !b.is_ascii_graphic();
    let at = text.as_bytes().iter().position(stop).unwrap_or(text.len());
    match text.get(at..) {
        Some(rest) if !rest.is_empty() => at + rest.find(char::is_whitespace).unwrap_or(rest.len()),
        _ => text.len(),
    }
}

/// The word in quotation marks that `rest` begins with, if it is closed before a blank or the
/// end, and what follows.
fn closing_quote(rest: &str, mark: char) -> Option<(&str, &str)> {
    let (word, after) = rest.get(1..)?.split_once(mark)?;
    (after.is_empty() || after.starts_with(char::is_whitespace)).then_some((word, after))
}

/// Without blanks and quotation marks around.
fn bare(value: &str) -> &str {
    let value = value.trim();
    let inner = |mark| value.strip_prefix(mark).and_then(|v| v.strip_suffix(mark));
    inner('"').or_else(|| inner('\'')).unwrap_or(value)
}

/// What a value is.
pub(super) fn cell(text: &str) -> Cell {
    if let Some(number) = number(text) {
        return Cell::Number(number);
    }
    if is_blank(text) {
        return Cell::Blank;
    }
    match comma_number(text) {
        Some(number) => Cell::CommaNumber(number),
        None => Cell::Word,
    }
}

/// A finite number; exponents may be written with D.
pub(super) fn number(text: &str) -> Option<f64> {
    if !text.bytes().any(|b| b.is_ascii_digit()) {
        return None;
    }
    let parsed = text.parse::<f64>().ok().or_else(|| {
        let d = text.contains(['D', 'd']) && text.len() < 64;
        if d { text.replace(['D', 'd'], "E").parse().ok() } else { None }
    });
    parsed.filter(|v| v.is_finite())
}

/// A number with one decimal comma and no point.
fn comma_number(text: &str) -> Option<f64> {
    let (whole, decimals) = text.split_once(',')?;
    let unsigned = whole.strip_prefix(['-', '+']).unwrap_or(whole);
    let digits = |t: &str| !t.is_empty() && t.bytes().all(|b| b.is_ascii_digit());
    (text.len() < 64 && digits(unsigned) && digits(decimals)).then(|| number(&text.replace(',', ".")))?
}

/// A mark for "no value".
fn is_blank(text: &str) -> bool {
    if text.chars().all(|c| matches!(c, '*' | '-' | '.' | '?' | '#')) {
        return true;
    }
    let unsigned = text.trim_start_matches(['-', '+']);
    if unsigned.starts_with("1.#") {
        return true;
    }
    let marks = [
        "nan", "null", "(null)", "n/a", "na", "#n/a", "none", "err", "error", "inf", "infinity", "void",
        "nil", "absent",
    ];
    // A number too large to hold is no value either.
    marks.iter().any(|mark| unsigned.eq_ignore_ascii_case(mark))
        || unsigned.parse::<f64>().is_ok_and(|v| !v.is_finite())
}

/// Parts a value in which numbers of fixed decimals ran together. `123.4-999.25` gives two
/// numbers; two points without a minus between (`7.020101130.188`) give as many lost values
/// (`None`). Every part must have a point, so that dates are left alone.
pub(super) fn part_run_on(text: &str, out: &mut Vec<Option<f64>>) -> bool {
    let before = out.len();
    let bytes = text.as_bytes();
    let mut start = 0;
    for at in 1..=bytes.len() {
        let minus = bytes.get(at) == Some(&b'-')
            && bytes.get(at - 1).is_some_and(|b| b.is_ascii_digit() || *b == b'.');
        if at < bytes.len() && !minus {
            continue;
        }
        let piece = text.get(start..at).unwrap_or("");
        let points = piece.bytes().filter(|b| *b == b'.').count();
        let plain = piece.bytes().all(|b| b.is_ascii_digit() || matches!(b, b'.' | b'-' | b'+'));
        if points == 0 || !plain {
            out.truncate(before);
            return false;
        }
        match number(piece) {
            Some(value) => out.push(Some(value)),
            None => out.extend(std::iter::repeat_n(None, points)),
        }
        start = at;
    }
    let parted = out.len() > before + 1;
    if !parted {
        out.truncate(before);
    }
    parted
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parts(delimiter: Delimiter, line: &str) -> Vec<&str> {
        let mut out = Vec::new();
        delimiter.part(line, &mut out);
        out
    }

    #[test]
    fn lines_are_parted() {
        assert_eq!(parts(Delimiter::Blank, " 1  2\t3 "), ["1", "2", "3"]);
        assert_eq!(parts(Delimiter::Blank, "1 \"pick gamma\" 'b c' d'e"), ["1", "pick gamma", "b c", "d'e"]);
        assert_eq!(parts(Delimiter::Blank, "1 \"open"), ["1", "\"open"]);
        assert_eq!(parts(Delimiter::Comma, "1, 2,,\"a b\""), ["1", "2", "", "a b"]);
        assert_eq!(parts(Delimiter::Tab, "1\t\t3"), ["1", "", "3"]);
        assert_eq!(parts(Delimiter::Blank, ""), Vec::<&str>::new());
    }

    #[test]
    fn values_are_told_apart() {
        assert_eq!(cell("1.5E+03"), Cell::Number(1500.0));
        assert_eq!(cell("1.5D+03"), Cell::Number(1500.0));
        assert_eq!(cell("123,420"), Cell::CommaNumber(123.42));
        for blank in ["", "****", "-", "--", "(null)", "ERR", "-1.#IND0000", "NaN", "inf", "1e999"] {
            assert_eq!(cell(blank), Cell::Blank, "{blank}");
        }
        for word in ["00:00:01", "2020-01-01", "pick", "1,2,3", "12/05"] {
            assert_eq!(cell(word), Cell::Word, "{word}");
        }
    }

    #[test]
    fn run_on_numbers_are_parted_at_a_minus() {
        let read = |text| {
            let mut out = Vec::new();
            part_run_on(text, &mut out).then_some(out)
        };
        assert_eq!(read("123.4-999.25"), Some(vec![Some(123.4), Some(-999.25)]));
        assert_eq!(read("-1.5-2.5-3.5"), Some(vec![Some(-1.5), Some(-2.5), Some(-3.5)]));
        assert_eq!(read("7.020101130.188"), Some(vec![None, None]));
        assert_eq!(read("1.5"), None);
        assert_eq!(read("2020-01-01"), None);
        assert_eq!(read("1.0E-05"), None);
    }
}

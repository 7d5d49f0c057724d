//! Paths of fields, as findings name them: `packer.rating[3].hole`, list items from 1.

use super::EditError;

/// Longest path that is taken, steps.
const LONGEST: usize = 12;

/// One step of a path.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Step {
    /// Into a field.
    Key(String),
    /// Into an item of a list, from 0.
    Item(usize),
}

/// The steps of a path.
pub(super) fn steps(path: &str) -> Result<Vec<Step>, EditError> {
    let wrong = || EditError::Path { path: path.chars().take(80).collect() };
    let mut out = Vec::new();
    for part in path.split('.') {
        let (key, items) = part.split_once('[').map_or((part, None), |(k, rest)| (k, Some(rest)));
        let plain = |c: char| c.is_ascii_alphanumeric() || c == '_' || c == '-';
        if key.is_empty() || !key.chars().all(plain) {
            return Err(wrong());
        }
        out.push(Step::Key(key.to_string()));
        if let Some(items) = items {
            let number = items.strip_suffix(']').ok_or_else(wrong)?;
            let number: usize = number.parse().map_err(|_| wrong())?;
            out.push(Step::Item(number.checked_sub(1).ok_or_else(wrong)?));
        }
    }
    (out.len() <= LONGEST).then_some(out).ok_or_else(wrong)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests")]
mod tests {
    use super::*;

    #[test]
    fn a_path_is_taken_apart() {
        let key = |k: &str| Step::Key(k.into());
        assert_eq!(
            steps("packer.rating[3].hole").unwrap(),
            [key("packer"), key("rating"), Step::Item(2), key("hole")]
        );
    }

    #[test]
    fn what_is_no_path_is_refused() {
        for bad in ["", ".", "a..b", "a[0]", "a[x]", "a[1", "a b", "a.[1]", &"a.".repeat(20)] {
            assert!(steps(bad).is_err(), "{bad}");
        }
    }
}

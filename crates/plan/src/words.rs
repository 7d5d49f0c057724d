//! Small forms of text that several phases use in their findings.

/// Stage numbers in rising order as text, runs as "3 to 7".
pub fn stages(numbers: impl Iterator<Item = usize>) -> String {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for n in numbers {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == n => *last = n,
            _ => runs.push((n, n)),
        }
    }
    let run = |(a, b): &(usize, usize)| match b - a {
        0 => format!("{a}"),
        1 => format!("{a}, {b}"),
        _ => format!("{a} to {b}"),
    };
    runs.iter().map(run).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::stages;

    #[test]
    fn runs_of_stages_are_joined() {
        assert_eq!(stages([1, 2, 3, 5, 7, 8].into_iter()), "1 to 3, 5, 7, 8");
        assert_eq!(stages(std::iter::empty()), "");
    }
}

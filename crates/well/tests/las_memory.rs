//! The most memory a reading takes is bounded by the size of the file. One test in a file of
//! its own, as the peak is that of the process.

use well::las::read_las;

/// The peak memory of this process so far, in bytes; `None` where the system does not tell.
fn peak() -> Option<usize> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|l| l.starts_with("VmHWM:"))?;
    line.split_whitespace().nth(1)?.parse::<usize>().ok().map(|kb| kb * 1024)
}

#[test]
fn memory_is_bounded_by_the_file() {
    let Some(_) = peak() else {
        eprintln!("not run: this system does not tell the peak memory of a process");
        return;
    };
    let head = "~V\n VERS. 2.0 :\n WRAP. NO :\n~W\n NULL. -999.25 :\n~C\n DEPT.M :\n";
    let curves: String = (0..5_000).map(|i| format!(" C{i}. :\n")).collect();
    let bodies = [
        // Every value takes two bytes of text and eight of memory.
        format!("{head} X. :\n~A\n{}", "1 2\n".repeat(1 << 17)),
        // Declared curves without values.
        format!("{head}{curves}~A\n{}", "1 2\n".repeat(1 << 17)),
        // Short words.
        format!("{head} X. :\n~A\n{}", "1 a\n".repeat(1 << 17)),
        // Decimal commas and null marks.
        format!("{head} X. :\n~A\n{}", "1 1,1\n2 -\n".repeat(1 << 17)),
    ];
    for text in &bodies {
        let before = peak().unwrap_or(0);
        let read = read_las(text.as_bytes(), "big.las");
        let grown = peak().unwrap_or(0).saturating_sub(before);
        eprintln!("{} bytes of text, {grown} bytes more at the peak, {}", text.len(), read.value.is_some());
        assert!(grown < 20 * text.len() + (8 << 20), "{grown} bytes for a file of {}", text.len());
    }
}

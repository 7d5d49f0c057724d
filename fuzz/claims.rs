//! What every reader promises of every input, held here in one place for all targets.

use well::trajectory::{Survey, SurveyTable};
use well::{Finding, Read, Severity};

/// A reader that gives no value says why, with a finding that stops the job; and no finding
/// names a line that the input does not have.
pub fn said<T>(read: &Read<T>, input: &[u8]) {
    if read.value.is_none() {
        assert!(read.findings.iter().any(|f| f.severity == Severity::Stop), "refused without a word");
    }
    lines(&read.findings, input);
}

/// Lines of the findings against those of the input; any of CR LF, LF and CR ends a line, and
/// in UTF-16 each is two bytes long.
pub fn lines(findings: &[Finding], input: &[u8]) {
    let ends = input.iter().filter(|b| matches!(b, b'\n' | b'\r')).count();
    for finding in findings {
        assert!(!finding.message.is_empty() && !finding.next.is_empty(), "{} says nothing", finding.id);
        if let Some(line) = finding.place.line {
            assert!(line >= 1 && line <= ends + 1, "{} names line {line}", finding.id);
        }
    }
}

/// Every number of a survey is finite, its path included, and its depths rise.
pub fn survey(table: SurveyTable, input: &[u8]) {
    let judged = table.survey();
    said(&judged, input);
    if let Some(survey) = judged.value {
        path(&survey);
    }
}

fn path(survey: &Survey) {
    let path = &survey.trajectory;
    assert!(path.stations().is_sorted_by(|a, b| a.md < b.md), "depths do not rise");
    for station in path.stations() {
        let p = path.position_at(station.md);
        let all = [p.north.in_m(), p.east.in_m(), p.tvd.in_m(), p.inclination.in_deg(), p.azimuth.in_deg()];
        assert!(all.iter().all(|v| v.is_finite()), "{p:?}");
    }
    assert!(path.courses().all(|c| c.arc.severity().in_deg_per_100ft().is_finite()), "a bend is not finite");
}

//! What every reader promises of every input, held here in one place: the fuzz targets call these, and
//! so does a plain test that replays the corpus (`crates/well/tests/fuzz_corpus.rs`).

use std::collections::BTreeMap;
use std::sync::LazyLock;

use quantity::{Diameter, Length, MeasuredDepth, Quantity as _};
use well::form::{Edit, edit, form};
use well::hole::{Hole, Section, SectionKind};
use well::host::Memory;
use well::job::{JOB_FILE, JobFile, judge, read_job_file};
use well::las::{caliper_curve, read_las};
use well::tally::read_tally_csv;
use well::trajectory::{
    DepthUnit, Survey, SurveyOptions, SurveyTable, read_survey_csv, read_witsml_trajectory,
};
use well::{Finding, Read, Severity, read_job};

/// Data files a job of the corpus names, cut short.
static BESIDE: LazyLock<Memory> = LazyLock::new(|| {
    let files: [(&str, &[u8]); 4] = [
        ("survey.csv", include_bytes!("beside/survey.csv")),
        ("joints.csv", include_bytes!("beside/joints.csv")),
        ("caliper.las", include_bytes!("beside/caliper.las")),
        ("rock.las", include_bytes!("beside/rock.las")),
    ];
    Memory(
        files.into_iter().map(|(name, bytes)| (name.to_string(), bytes.to_vec())).collect::<BTreeMap<_, _>>(),
    )
});

/// The job file, and the job made from it with small data files beside it.
pub fn job_file(bytes: &[u8]) {
    if let Ok(text) = std::str::from_utf8(bytes) {
        let (read, document) = read_job_file(text);
        said(&read, bytes);
        if let Some(file) = &read.value {
            let judged = judge(file).into_iter().map(|f| document.locate(f)).collect::<Vec<_>>();
            lines(&judged, bytes);
        }
        job_form(text);
    }
    let mut host = BESIDE.clone();
    host.0.insert(JOB_FILE.to_string(), bytes.to_vec());
    let job = read_job(&host);
    let own = |f: &Finding| f.place.file.as_deref() == Some(JOB_FILE);
    lines(&job.findings.iter().filter(|f| own(f)).cloned().collect::<Vec<_>>(), bytes);
    refused_with_reason(&job);
}

/// The form of any text, and edits of it: what was TOML still is, and what was written stands there.
fn job_form(text: &str) {
    let root = JobFile::table();
    let whole = form(&root, text).is_ok();
    let change = |path: &str, value: Option<&str>| {
        let one = Edit { path: path.into(), value: value.map(String::from) };
        let done = edit(&root, text, &[one]).ok()?;
        let back = form(&root, &done);
        assert!(whole && back.is_ok(), "an edit of {path} broke the file: {:?}", back.err());
        back.ok()
    };
    for (path, value) in [
        ("job.name", "another \"name\"\\"),
        ("limits.trip", "8800 psi"),
        ("pin[1].stage", "3"),
        ("packer.rating[1].hole", "6 in"),
        ("hole.caliper.sigma", "0.05 in"),
    ] {
        let Some(tables) = change(path, Some(value)) else { continue };
        let (table, key) = path.rsplit_once('.').unwrap_or(("", path));
        let found =
            tables.iter().find(|t| t.path == table).and_then(|t| t.fields.iter().find(|f| f.key == key));
        assert_eq!(found.and_then(|f| f.value.as_deref()), Some(value), "{path}");
    }
    for path in ["job", "pin[1]", "string[2]", "packer.rating", "hole.caliper.sigma"] {
        change(path, None);
    }
}

/// A survey as a text table, with and without a stated unit.
pub fn survey_csv(bytes: &[u8]) {
    let plain = SurveyOptions::for_file("survey.csv");
    for options in [plain.clone().depth_unit(DepthUnit::Foot), plain] {
        let read = read_survey_csv(bytes, &options);
        said(&read, bytes);
        if let Some(table) = read.value {
            survey(table, bytes);
        }
    }
}

/// A survey as a WITSML trajectory.
pub fn witsml(bytes: &[u8]) {
    let read = read_witsml_trajectory(bytes, &SurveyOptions::for_file("survey.xml"));
    said(&read, bytes);
    if let Some(table) = read.value {
        survey(table, bytes);
    }
}

/// A tally of measured joints.
pub fn tally_csv(bytes: &[u8]) {
    let read = read_tally_csv(bytes, "joints.csv");
    said(&read, bytes);
    for joint in read.value.iter().flatten() {
        assert!(joint.length.in_m() > 0.0 && joint.length.in_m().is_finite(), "{joint:?}");
    }
}

/// A log, and the hole with the caliper taken from it.
pub fn las(bytes: &[u8]) {
    let read = read_las(bytes, "caliper.las");
    said(&read, bytes);
    let Some(las) = read.value else { return };
    let rows = las.curves.first().map_or(0, |c| c.len());
    assert!(las.curves.iter().all(|c| c.len() == rows), "columns of unlike length");
    let Some(caliper) = caliper_curve(&las, None).value else { return };
    assert!(caliper.depth().is_sorted_by(|a, b| a < b), "depths do not rise");
    assert!(caliper.diameter().iter().all(|d| d.is_finite() && d.in_m() > 0.0), "a diameter is none");
    let kind = SectionKind::Open { bit: Diameter::inch(6.0) };
    let section = Section::new("open hole", MeasuredDepth::ZERO, MeasuredDepth::ft(20_000.0), kind);
    let Some(hole) = Hole::new(vec![section], Some(caliper), Length::ZERO).value else { return };
    let volume = hole.volume(hole.top(), hole.bottom());
    assert!(volume.is_ok_and(|v| v.in_m3() > 0.0 && v.is_finite()), "no volume");
}

/// A reader that gives no value says why, with a finding that stops the job; and no finding
/// names a line that the input does not have.
fn said<T>(read: &Read<T>, input: &[u8]) {
    refused_with_reason(read);
    lines(&read.findings, input);
}

fn refused_with_reason<T>(read: &Read<T>) {
    if read.value.is_none() {
        assert!(read.findings.iter().any(|f| f.severity == Severity::Stop), "refused without a word");
    }
}

/// Lines of the findings against those of the input; any of CR LF, LF and CR ends a line, and
/// in UTF-16 each is two bytes long.
fn lines(findings: &[Finding], input: &[u8]) {
    let ends = input.iter().filter(|b| matches!(b, b'\n' | b'\r')).count();
    for finding in findings {
        assert!(!finding.message.is_empty() && !finding.next.is_empty(), "{} says nothing", finding.id);
        if let Some(line) = finding.place.line {
            assert!(line >= 1 && line <= ends + 1, "{} names line {line}", finding.id);
        }
    }
}

/// Every number of a survey is finite, its path included, and its depths rise.
fn survey(table: SurveyTable, input: &[u8]) {
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

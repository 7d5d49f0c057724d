//! Stations held against their neighbours, and stations that lack neighbours.

use super::angle::INCLINED;
use super::{at, counted};
use crate::table::Notes;
use crate::trajectory::check;
use crate::trajectory::path::Trajectory;
use crate::trajectory::station::Station;
use crate::trajectory::survey::Survey;
use physics::geometry::{Arc, HoleDirection};
use quantity::{Angle, Length, Quantity, Text, said};

/// Error of a station that is never pointed out.
const LEAST: Angle = Angle::deg(1.5);
/// How many times the usual error is too much.
const TIMES: f64 = 6.0;
/// Share of the deviations of three stations that one bad station must explain.
const EXPLAINED: f64 = 0.8;
/// How many stations on each side say what is usual.
const AROUND: usize = 10;
/// Longest course that is not pointed out in inclined hole.
const LONG: Length = Length::m(60.0);

type Vector = [f64; 3];

/// The error of one station as it shows in its own deviation and in those of its neighbours.
#[derive(Debug, Clone, Copy, Default)]
struct Suspect {
    error: f64,
    explained: f64,
}

fn dot(a: Vector, b: Vector) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

/// The unit vector along the hole.
fn along(direction: HoleDirection) -> Vector {
    let (sin_i, cos_i) = direction.inclination.si().sin_cos();
    let (sin_a, cos_a) = direction.azimuth.si().sin_cos();
    [sin_i * cos_a, sin_i * sin_a, cos_i]
}

/// How far each station is off the arc between its two neighbours; nothing at the ends.
fn deviations(path: &Trajectory) -> Vec<Vector> {
    let inner = path.stations().windows(3).map(|w| match w {
        [a, b, c] => deviation(a, b, c),
        _ => [0.0; 3],
    });
    std::iter::once([0.0; 3]).chain(inner).chain(std::iter::once([0.0; 3])).collect()
}

fn deviation(a: &Station, b: &Station, c: &Station) -> Vector {
    let Ok(arc) = Arc::between(c.md - a.md, a.direction(), c.direction()) else { return [0.0; 3] };
    let (own, expected) = (along(b.direction()), along(arc.direction_at(b.md - a.md)));
    [own[0] - expected[0], own[1] - expected[1], own[2] - expected[2]]
}

/// Share with which the second of three depths enters the arc's direction at the third's side.
fn share(far: &Station, near: &Station, bad: &Station) -> f64 {
    (near.md - far.md) / (bad.md - far.md)
}

/// An error `e` of one station deviates by `e` there and by `-a e` and `-b e` at its
/// neighbours; the best `e` of the three, and how much of them it explains. A bend that starts
/// at a station deviates there alone, of which one error explains two thirds.
fn suspect(stations: &[Station], off: &[Vector], index: usize) -> Suspect {
    let station = |i: Option<usize>| i.and_then(|i| stations.get(i));
    let deviation = |i: Option<usize>| i.and_then(|i| off.get(i)).copied().unwrap_or_default();
    let (above, below) = (index.checked_sub(1), Some(index + 1));
    let side =
        |far: Option<usize>, near: Option<usize>| match (station(far), station(near), stations.get(index)) {
            (Some(f), Some(n), Some(s)) => (share(f, n, s), deviation(near)),
            _ => (0.0, [0.0; 3]),
        };
    let (a, up) = side(index.checked_sub(2), above);
    let (b, down) = side(Some(index + 2), below);
    let own = deviation(Some(index));
    // e = (r - a r_up - b r_down) / (1 + a^2 + b^2)
    let weight = 1.0 + a * a + b * b;
    let e = [0, 1, 2].map(|k: usize| (own[k] - a * up[k] - b * down[k]) / weight);
    let all = dot(own, own) + dot(up, up) + dot(down, down);
    let explained = if all > 0.0 { dot(e, e) * weight / all } else { 0.0 };
    Suspect { error: dot(e, e).sqrt(), explained }
}

/// What is usual among the stations around one, leaving out those an error of it reaches.
fn usual(suspects: &[Suspect], index: usize) -> f64 {
    // The ends have no deviation of their own.
    let (first, last) = (1, suspects.len().saturating_sub(1));
    let window = index.saturating_sub(AROUND).max(first)..(index + AROUND + 1).min(last);
    let near = window.filter(|j| j.abs_diff(index) > 2).filter_map(|j| suspects.get(j));
    let mut near: Vec<f64> = near.map(|s| s.error).collect();
    near.sort_by(f64::total_cmp);
    near.get(near.len() / 2).copied().unwrap_or(0.0)
}

/// Stations off the line of their neighbours.
pub(super) fn off_trend(survey: &Survey, notes: &mut Notes) {
    let stations = survey.trajectory.stations();
    let off = deviations(&survey.trajectory);
    let inner = 1..stations.len().saturating_sub(1);
    let judged = |i: usize| if inner.contains(&i) { suspect(stations, &off, i) } else { Suspect::default() };
    let suspects: Vec<Suspect> = (0..stations.len()).map(judged).collect();
    for (index, row) in survey.rows().enumerate() {
        let error = |i: Option<usize>| i.and_then(|i| suspects.get(i)).map_or(0.0, |s| s.error);
        let own = suspects.get(index).copied().unwrap_or_default();
        let beside = error(index.checked_sub(1)).max(error(Some(index + 1)));
        if own.error <= LEAST.si() || own.error < beside || own.explained < EXPLAINED {
            continue;
        }
        let usual = usual(&suspects, index);
        let limit = Angle::rad((TIMES * usual).max(LEAST.si()));
        if own.error > limit.si() {
            let (by, usual) = (Angle::rad(own.error), Angle::rad(usual));
            let moved = moved_below(&survey.trajectory, index)
                .map_or(Text::default(), |m| said!("; it moves the hole below by {m}"));
            let message =
                said!("the station is {by} off the line of its neighbours, where {usual} is usual{moved}");
            notes.add(at(&check::OFF_TREND, row, message, notes).value(by).limit(limit));
        }
    }
}

/// How far the hole below a station would move if the station were left out.
fn moved_below(path: &Trajectory, index: usize) -> Option<Length> {
    let stations = path.stations();
    let (above, below) = (stations.get(index.checked_sub(1)?)?, stations.get(index + 1)?);
    let (from, to) = (path.position_at(above.md), path.position_at(below.md));
    let without =
        Arc::between(below.md - above.md, above.direction(), below.direction()).ok()?.displacement();
    let north = (to.north - from.north - without.north).si();
    let east = (to.east - from.east - without.east).si();
    let down = (to.tvd - from.tvd - without.down).si();
    Some(Length::m((north * north + east * east + down * down).sqrt()))
}

/// Long courses in inclined hole: the longest, and how many there are.
pub(super) fn long_courses(survey: &Survey, notes: &mut Notes) {
    let steep = |i: Angle| i.si().sin() >= INCLINED.si().sin();
    let courses = survey.trajectory.courses().zip(survey.rows().skip(1));
    let long: Vec<_> = courses
        .filter(|(c, _)| c.arc.length().si() > LONG.si())
        .filter(|(c, _)| steep(c.upper.inclination) || steep(c.lower.inclination))
        .collect();
    let longest = long.iter().max_by(|(a, _), (b, _)| a.arc.length().total_cmp(&b.arc.length()));
    if let Some((course, row)) = longest {
        let message = said!(
            "in inclined hole {} longer than {LONG}; the longest ends here and bends by {}",
            counted(long.len(), "course is", "courses are"),
            course.arc.dogleg()
        );
        notes.add(at(&check::COURSE_LENGTH, row, message, notes).value(course.arc.length()).limit(LONG));
    }
}

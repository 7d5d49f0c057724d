//! Balls and sleeves of a simulated job: a row whenever one of them changes, and at every sample
//! while a ball moves. Between two rows nothing changes.

use pump::flight::Whereabouts;
use pump::sleeve::SleeveState;
use pump::{BallTrace, Run, SleeveTrace};
use quantity::{MeasuredDepth, System, Time, number};

use super::{Head, Sheet, cell, of, seconds};

/// Names of the columns live as long as the table: there are as many as stages.
struct Names(Vec<String>);

/// The states as a table: time, depth of every ball (empty while it is at the surface), state of
/// every sleeve.
pub fn states_csv(run: &Run, system: System) -> String {
    let depth = of::<MeasuredDepth>("depth", system).unit;
    let names = names(run);
    let mut heads = vec![seconds("time")];
    for (i, name) in names.0.iter().enumerate() {
        heads.push(Head { name, unit: if i < run.balls.len() { depth } else { "" } });
    }
    let title = "Balls and sleeves of the simulated job: a row at every change, and at every sample while a ball moves";
    let mut sheet = Sheet::new(title, &run.header, &heads);
    let mut last: Option<Vec<String>> = None;
    for sample in &run.samples {
        let now = sample.time;
        let mut row: Vec<String> = Vec::with_capacity(names.0.len());
        for ball in &run.balls {
            let moving = sample.ball == ball.stage;
            row.push(depth_of(ball, now, moving.then_some(sample.ball_depth), system));
        }
        row.extend(run.sleeves.iter().map(|s| state_of(s, now).to_string()));
        if last.as_ref() != Some(&row) {
            sheet.row(std::iter::once(number(now.in_seconds(), 2)).chain(row.iter().cloned()));
            last = Some(row);
        }
    }
    sheet.finish()
}

fn names(run: &Run) -> Names {
    let balls = run.balls.iter().map(|b| format!("ball_{}_depth", b.stage));
    let sleeves = run.sleeves.iter().map(|s| match s.stage {
        0 => "toe_path".to_string(),
        stage => format!("sleeve_{stage}"),
    });
    Names(balls.chain(sleeves).collect())
}

fn depth_of(ball: &BallTrace, now: Time, moving: Option<MeasuredDepth>, system: System) -> String {
    let place = ball.places.iter().rev().find(|p| p.0 <= now);
    match place {
        None | Some((_, Whereabouts::InLauncher | Whereabouts::SurfaceLines, _)) => String::new(),
        Some((_, Whereabouts::Broken, _)) => "broken".into(),
        Some((_, Whereabouts::Travelling, at)) => cell(moving.unwrap_or(*at), system),
        Some((_, _, at)) => cell(*at, system),
    }
}

fn state_of(sleeve: &SleeveTrace, now: Time) -> &'static str {
    match sleeve.states.iter().rev().find(|s| s.0 <= now).map(|s| s.1) {
        Some(SleeveState::Open) => "open",
        Some(SleeveState::Isolated) => "isolated",
        _ => "closed",
    }
}

//! Measured and modelled side by side: one stage's landing, one well's ring.

use super::model::{Casing, PUMPED, Rock, each_second, land, ring};
use super::records::Stage;
use super::ring::{Heard, likenesses, period};

/// How long a landing is followed after its onset, s.
pub const FOLLOWED: f64 = 15.0;
/// Within this share of the highest pressure the top is reached.
const NEAR_TOP: f64 = 0.02;
/// The rock breaks in the end: the top is looked for within so many seconds.
const TOP_WITHIN: f64 = 10.0;
/// Time between the samples of a modelled ring, s.
const FINE: f64 = 0.05;

/// What a record of a landing shows, measured or modelled; psi, s, psi/s.
#[derive(Debug, Clone, Copy)]
pub struct Shape {
    /// Mean of the first and second second after the onset: no wave has come back yet.
    pub first: f64,
    /// What is added a second after the wave is due back.
    pub second: f64,
    /// Highest rise.
    pub top: f64,
    /// Time from the arrival to the top.
    pub to_top: f64,
}

impl Shape {
    /// Of a record of one a second, with the round trip of the wave (s). The wave came up half a
    /// second before the onset, give or take that half.
    pub fn of(record: &[(f64, f64)], round_trip: f64) -> Self {
        let at = |t: f64| record.iter().find(|(time, _)| *time == t).map(|(_, p)| *p).unwrap();
        let first = 0.5 * (at(1.0) + at(2.0));
        let back = (round_trip - 0.5).ceil() + 1.0;
        let early = || record.iter().filter(|(t, _)| (0.0..=TOP_WITHIN).contains(t));
        let top = early().map(|(_, p)| *p).fold(f64::MIN, f64::max);
        let reached = early().find(|(_, p)| *p >= top * (1.0 - NEAR_TOP)).map(|(t, _)| *t).unwrap();
        Self { first, second: at(back) - first, top, to_top: reached + 0.5 }
    }

    /// Mean slope from the arrival to the top.
    pub fn slope(&self) -> f64 {
        self.top / self.to_top
    }
}

/// One landing, measured and modelled.
pub struct Landed<'s> {
    pub stage: &'s Stage,
    pub casing: Casing,
    pub rate: f64,
    /// Rises once a second, and of the model at every step.
    pub measured: Vec<(f64, f64)>,
    pub modelled: Vec<(f64, f64)>,
    pub seen: Shape,
    pub model: Shape,
    /// The same with friction reduced by seven tenths, with rock that holds up to the breakdown
    /// and then takes all, and with rock that takes nothing.
    pub reduced: Shape,
    pub threshold: Shape,
    pub tight: Shape,
}

impl<'s> Landed<'s> {
    pub fn new(stage: &'s Stage) -> Self {
        let casing = Casing::to_plug(stage, 0.0);
        let slick = Casing::to_plug(stage, 0.7);
        let trip = 2.0 * casing.transit();
        let run = |casing: &Casing, rock: Rock| land(stage, casing, rock, FOLLOWED);
        let shape = |fine: &[(f64, f64)]| Shape::of(&each_second(fine), trip);
        let measured = stage.rises(5.0, FOLLOWED);
        let modelled = run(&casing, Rock::Perforations(stage.rise));
        Self {
            stage,
            casing,
            rate: stage.before().1,
            seen: Shape::of(&measured, trip),
            model: shape(&modelled),
            reduced: shape(&run(&slick, Rock::Perforations(stage.rise))),
            threshold: shape(&run(&casing, Rock::Threshold(stage.rise))),
            tight: shape(&run(&casing, Rock::Tight)),
            measured,
            modelled,
        }
    }
}

/// A ring with the model's: periods in s, lengths in ft.
pub struct Rung {
    /// Length to the middle of the stage before, which takes the fluid while no ball is on the
    /// plug.
    pub length: f64,
    pub measured: f64,
    pub modelled: f64,
    /// The modelled one read from one sample a second, as the recorder would.
    pub recorded: f64,
    /// 4L/a.
    pub exact: f64,
    /// The modelled period where the string ends at the plug.
    pub to_plug: f64,
    /// Likeness over the lag.
    pub likeness: Vec<f64>,
    pub model_likeness: Vec<f64>,
}

impl Rung {
    pub fn new(stage: &Stage, heard: &Heard) -> Self {
        let count = heard.samples.len() as f64;
        let casing = |depth: f64| Casing::new(stage, depth, heard.mean, PUMPED, 0.0);
        let samples = |depth: f64, step: f64| ring(&casing(depth), heard.mean, step, count);
        let length = stage.depth + 0.5 * stage.spacing;
        let coarse = samples(length, 1.0);
        Self {
            length,
            measured: heard.period,
            modelled: period(&samples(length, FINE), FINE).0,
            recorded: period(&coarse, 1.0).0,
            exact: 4.0 * casing(length).transit(),
            to_plug: period(&samples(stage.depth, FINE), FINE).0,
            likeness: likenesses(&heard.samples),
            model_likeness: likenesses(&coarse),
        }
    }

    /// Likeness half a period later.
    pub fn half_way(&self) -> f64 {
        self.likeness[(0.5 * self.measured).round() as usize]
    }

    /// Measured 4L/T less the modelled, as a share: the length falls out.
    pub fn difference(&self) -> f64 {
        self.modelled / self.measured - 1.0
    }

    /// The same with the string to the plug only.
    pub fn difference_to_plug(&self) -> f64 {
        self.to_plug / self.measured - 1.0
    }
}

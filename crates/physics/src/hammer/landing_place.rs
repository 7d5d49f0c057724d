//! The place where a ball lands: its seat, what the ball does there, the sleeve it opens.

use crate::error::{Result, require, require_not_negative, require_positive};
use quantity::{Length, Pressure, Quantity, RateSquaredLoss, Time};

use super::NAME;
use super::boundary::{Sink, share_of};
use super::node::Loss;

/// The place where a ball lands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Landing {
    /// The seat, from the pump along the pipe.
    pub at: Length,
    /// Loss of the open seat, per rate squared.
    pub seat: RateSquaredLoss,
    /// When the ball comes to its seat.
    pub time: Time,
    /// How long it takes to close the seat; the open area goes to zero in a straight line.
    pub closing: Time,
    /// What the ball does once it has closed the seat.
    pub fate: BallFate,
    /// The sleeve above the seat, if it can open.
    pub sleeve: Option<Sleeve>,
}

/// What a ball does once it has closed its seat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BallFate {
    /// It holds.
    Holds,
    /// It lets fluid by, through a hole that grows in area from nothing.
    Leaks {
        /// Loss of the full hole, per rate squared.
        loss: RateSquaredLoss,
        /// When it begins, after the landing.
        after: Time,
        /// How long it grows.
        over: Time,
    },
    /// It breaks and is gone, some time after the landing.
    ShattersAfter(Time),
    /// It breaks and is gone at a pressure difference.
    ShattersAt(Pressure),
}

/// A sleeve opened by the pressure difference across its ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sleeve {
    /// Difference that shears it.
    pub shear: Pressure,
    /// How long it takes to open; the area of its ports grows in a straight line. With zero the
    /// ports are open at the very moment.
    pub opening: Time,
    /// Loss of the open ports, per rate squared.
    pub ports: RateSquaredLoss,
    /// The rock behind them.
    pub sink: Sink,
}

/// State of the ball.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BallState {
    /// Not yet on its seat.
    OnItsWay,
    /// On its seat, still closing it.
    Closing,
    /// It holds.
    Sealed,
    /// It lets fluid by.
    Leaking,
    /// It is gone.
    Shattered,
}

/// State of the sleeve.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SleeveState {
    /// Closed.
    Closed,
    /// Sheared, on its way.
    Opening,
    /// Open.
    Open,
}

/// The place with what has happened so far.
#[derive(Debug, Clone)]
pub(super) struct Place {
    pub landing: Landing,
    /// When the sleeve sheared, s.
    pub sheared: Option<f64>,
    /// When the ball broke, s.
    pub shattered: Option<f64>,
}

impl Place {
    pub fn new(landing: Landing) -> Result<Self> {
        require_not_negative(NAME, "seat_loss", landing.seat)?;
        require_not_negative(NAME, "closing", landing.closing)?;
        let hint = "The flow is steady when it starts: let the ball land later.";
        require(landing.time.si() >= 0.0, NAME, "landing_time", landing.time, "zero or more", hint)?;
        if landing.closing.si() > 0.0 {
            require_positive(NAME, "seat_loss", landing.seat)?;
        }
        if let BallFate::Leaks { loss, after, over } = landing.fate {
            require_positive(NAME, "leak_loss", loss)?;
            require_not_negative(NAME, "leak_after", after)?;
            require_not_negative(NAME, "leak_over", over)?;
        }
        if let Some(sleeve) = landing.sleeve {
            require_positive(NAME, "shear", sleeve.shear)?;
            require_not_negative(NAME, "opening", sleeve.opening)?;
            require_not_negative(NAME, "port_loss", sleeve.ports)?;
        }
        Ok(Self { landing, sheared: None, shattered: None })
    }

    pub fn ball(&self, time: f64) -> BallState {
        let l = &self.landing;
        let since = time - l.time.si();
        if since < 0.0 {
            return BallState::OnItsWay;
        }
        if self.shattered.is_some() {
            return BallState::Shattered;
        }
        match l.fate {
            _ if since < l.closing.si() => BallState::Closing,
            BallFate::Leaks { after, .. } if since > after.si() => BallState::Leaking,
            _ => BallState::Sealed,
        }
    }

    pub fn sleeve(&self, time: f64) -> SleeveState {
        match (self.sheared, self.landing.sleeve) {
            (Some(at), Some(s)) if time < at + s.opening.si() => SleeveState::Opening,
            (Some(_), Some(_)) => SleeveState::Open,
            _ => SleeveState::Closed,
        }
    }

    /// The way past the seat: open, partly closed or shut.
    pub fn way_past(&self, time: f64) -> Loss {
        let l = &self.landing;
        let seat = l.seat.si();
        match self.ball(time) {
            BallState::OnItsWay | BallState::Shattered => Loss::Open(seat),
            BallState::Closing => {
                // area (1 - t/T): loss over its square
                Loss::part(seat, 1.0 - share_of(time, l.time.si(), l.closing.si()))
            }
            BallState::Sealed => Loss::Shut,
            BallState::Leaking => match l.fate {
                BallFate::Leaks { loss, after, over } => {
                    Loss::part(loss.si(), share_of(time, l.time.si() + after.si(), over.si()))
                }
                _ => Loss::Shut,
            },
        }
    }

    /// The way out through the sleeve.
    pub fn way_out(&self, time: f64) -> Loss {
        match (self.sheared, self.landing.sleeve) {
            (Some(at), Some(s)) => Loss::part(s.ports.si(), share_of(time, at, s.opening.si())),
            _ => Loss::Shut,
        }
    }

    /// Pressure behind the sleeve's ports at no rate, and its rise per rate.
    pub fn rock(&self, time: f64) -> (f64, f64) {
        match (self.sheared, self.landing.sleeve) {
            (Some(at), Some(s)) => (s.sink.base(time - at), s.sink.slope()),
            _ => (0.0, 0.0),
        }
    }

    /// Lets the difference across the ball act; true if that changed anything.
    pub fn act(&mut self, time: f64, difference: f64) -> bool {
        let state = self.ball(time);
        if state == BallState::OnItsWay {
            return false;
        }
        let l = &self.landing;
        let mut changed = false;
        if self.shattered.is_none() {
            let breaks = match l.fate {
                BallFate::ShattersAfter(after) => time >= l.time.si() + after.si(),
                BallFate::ShattersAt(limit) => difference >= limit.si(),
                _ => false,
            };
            if breaks {
                self.shattered = Some(time);
                changed = true;
            }
        }
        // Of a ball and a sleeve that a rise would both break, the weaker goes first.
        let gone = matches!((l.fate, l.sleeve), (BallFate::ShattersAt(limit), Some(s)) if changed && limit < s.shear);
        let on_seat = state != BallState::Shattered && !gone;
        if self.sheared.is_none() && on_seat && l.sleeve.is_some_and(|s| difference >= s.shear.si()) {
            self.sheared = Some(time);
            changed = true;
        }
        changed
    }
}

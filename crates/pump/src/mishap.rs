//! Faults acted out in the well.

use physics::hammer::BallFate;
use quantity::*;

use crate::branch::Branch;
use crate::checks;
use crate::crew::Mode;
use crate::error::PumpError;
use crate::fault::{Channels, Fault, FaultKind};
use crate::flight::{Flight, Whereabouts};
use crate::orders::{Order, Purpose};
use crate::record::EventKind;
use crate::sleeve::SleeveState;
use crate::world::World;

/// Rise of the pressure by proppant that packs near the well, Pa/s (the handbook's estimate is 5 to
/// 100 psi a second).
const SAND_OFF: f64 = 30.0 * 6894.757;
/// Loss past a leaking packer at the planned rate.
const PAST_PACKER: Pressure = Pressure::psi(100.0);
/// A value that no pressure shears.
const NEVER: Pressure = Pressure::pa(1e12);

/// Something that grows in a seat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Restriction {
    seat: usize,
    base: f64,
    begun: f64,
    over: f64,
    to: f64,
}

/// Proppant that packs the way out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Choke {
    stage: usize,
    /// How long the planned rate has brought proppant to it, s: what goes another way packs nothing.
    grown: f64,
    /// Planned rate of its stage, m³/s.
    rate: f64,
    /// Rise of the pressure at that rate, Pa/s.
    rise: f64,
}

impl World<'_> {
    /// Lets faults begin whose time has come, and those that grow go on.
    pub(crate) fn act_faults(&mut self) -> Result<(), PumpError> {
        let opened = &self.opened;
        let due = self.faults.due(self.time, |stage| opened.get(stage).copied().flatten());
        for fault in due {
            let instrument = matches!(fault.kind.doc().channels, Channels::Only(_));
            // What happens in the well waits for the waves of the landing to die.
            if instrument || self.surge.is_none() {
                self.begin(fault)?;
            }
        }
        if let Some(r) = self.restriction {
            let share = if r.over > 0.0 { ((self.time - r.begun) / r.over).clamp(0.0, 1.0) } else { 1.0 };
            self.route.set_loss(r.seat, r.base * (1.0 + (r.to - 1.0) * share));
        }
        self.watch_annulus()
    }

    fn begin(&mut self, fault: Fault) -> Result<(), PumpError> {
        let stage = fault.stage;
        let text = match fault.kind {
            FaultKind::BallShattersLater => {
                self.break_ball(stage);
                self.open_below(0.0)
            }
            FaultKind::BallExtrudes => self.open_below(fault.over.si()),
            FaultKind::SleeveEarly => self.open_above(stage),
            FaultKind::TwoOpen => self.open_above(stage + 1),
            FaultKind::PackerLeak => self.leak_past_packer(&fault),
            FaultKind::ScreenoutSleeve => {
                // At the planned rate: the pumps may stand still at this moment.
                let rate = self.crew.planned(self.open_stage()).si().max(1e-3);
                let rise = SAND_OFF * fault.size.si();
                self.choke = Some(Choke { stage: self.open_stage(), grown: 0.0, rate, rise });
                format!("proppant packs at the sleeve of stage {stage}")
            }
            FaultKind::ScreenoutTip => {
                self.rock.bridge(stage);
                format!("the tip of the fracture of stage {stage} bridges")
            }
            FaultKind::SeatRestriction => {
                let seat = stage + 1;
                let base = self.route.seats().iter().find(|s| s.stage == seat).map_or(0.0, |s| s.loss);
                let (begun, over, to) = (self.time, fault.over.si(), fault.size.si());
                self.restriction = Some(Restriction { seat, base, begun, over, to });
                format!("something grows in the seat of stage {seat}")
            }
            FaultKind::PumpTrip => {
                let restart = self.crew.rules().restart;
                self.trip(Some(Time::seconds(self.time) + restart))?;
                format!("the pumps trip while stage {stage} takes fluid")
            }
            _ => fault.kind.doc().title.to_string(),
        };
        self.faults.begin(fault, self.time, text);
        Ok(())
    }

    /// The pumps trip without a finding, to be started again at a time.
    fn trip(&mut self, resumes: Option<Time>) -> Result<(), PumpError> {
        let text = "the pumps tripped".to_string();
        self.log.event(self.time, EventKind::PumpsTripped, self.open_stage(), text);
        self.crew.mode = Mode::Stopped { since: Time::seconds(self.time), resumes };
        self.stop_with_waves()
    }

    /// A second way that is open already: what stands in it must not be forgotten for another.
    fn way_taken(&self) -> Option<String> {
        self.branch.as_ref().map(|way| format!("fluid passes to stage {} already", way.stage))
    }

    /// Fluid finds its way down past the ball of the open stage, to the stage before.
    fn open_below(&mut self, over: f64) -> String {
        let stage = self.open_stage();
        if let Some(taken) = self.way_taken() {
            return taken;
        }
        let Some((before, from, to)) = self.under_reach else {
            return format!("the ball of stage {stage} is gone; nothing below it takes fluid");
        };
        let loss = self.seat_loss(stage);
        let column = std::mem::take(&mut self.under);
        self.branch = Some(Branch {
            stage: before,
            column,
            reach: (from, to),
            loss,
            grows: (self.time, over),
            share: 0.0,
        });
        self.mark(before, SleeveState::Open);
        format!("fluid passes the seat of stage {stage} down to stage {before}")
    }

    /// A sleeve nearer the heel opens: both take fluid.
    fn open_above(&mut self, stage: usize) -> String {
        let Some(new) = self.sleeve_of(stage).filter(|_| self.open.is_some()) else {
            return format!("there is no sleeve of stage {stage} to open");
        };
        let from = self.sleeves.get(new).map_or(0.0, |s| s.volume.si());
        let before = self.open_stage();
        if from >= self.end || self.branch.is_some() {
            return format!("the sleeve of stage {stage} cannot open above stage {before} now");
        }
        let column = self.column.cut_below(Volume::m3(from));
        let loss = self.seat_loss(stage);
        self.branch = Some(Branch {
            stage: before,
            column,
            reach: (from, self.end),
            loss,
            grows: (self.time, 0.0),
            share: 0.0,
        });
        self.log.below_balls += std::mem::take(&mut self.under).amount();
        self.under_reach = None;
        (self.open, self.end) = (Some(new), from);
        self.mark(stage, SleeveState::Open);
        let text = format!("the sleeve of stage {stage} is open while stage {before} takes fluid");
        self.log.event(self.time, EventKind::SleeveOpened, stage, text.clone());
        text
    }

    /// A fracture along the hole that has grown past the packer on its toe side opens the stage before.
    pub(crate) fn grow_past_packer(&mut self) {
        let stage = self.open_stage();
        let far = stage.checked_sub(1).and_then(|i| self.past_packer.get(i)).copied();
        let Some(far) = far.filter(|_| self.branch.is_none() && self.surge.is_none()) else { return };
        if self.rock.length(stage) < far {
            return;
        }
        let text = self.leak_past_packer(&Fault::usual(FaultKind::PackerLeak, stage));
        self.log.event(self.time, EventKind::Communication, stage, text.clone());
        let grown = Length::m(self.rock.length(stage));
        self.log
            .findings
            .push(checks::PAST_PACKER.found(text).stage(stage).value(grown).limit(Length::m(far)));
    }

    fn leak_past_packer(&mut self, fault: &Fault) -> String {
        let stage = self.open_stage();
        if let Some(taken) = self.way_taken() {
            return taken;
        }
        let before = stage.saturating_sub(1).max(1);
        let rate = self.crew.planned(stage).si().max(1e-3);
        self.branch = Some(Branch {
            stage: before,
            column: Default::default(),
            reach: (0.0, 0.0),
            loss: fault.size.si() * PAST_PACKER.si() / (rate * rate),
            grows: (self.time, fault.over.si()),
            share: 0.0,
        });
        format!("fluid passes the packer between stages {stage} and {before}")
    }

    /// Loss of the open seat of a stage per rate squared, with the fluid there.
    pub(crate) fn seat_loss(&self, stage: usize) -> f64 {
        let seat = self.route.seats().iter().find(|s| s.stage == stage);
        let density = seat.and_then(|s| self.column.at(Volume::m3(s.volume))).map(|p| self.fluids.density(p));
        0.5 * density.unwrap_or(1000.0) * seat.map_or(0.0, |s| s.loss)
    }

    fn break_ball(&mut self, stage: usize) {
        let time = self.time;
        let on_it = |f: &&mut Flight| f.place == Whereabouts::Seated { stage };
        if let Some(ball) = self.flights.iter_mut().find(on_it) {
            ball.place = Whereabouts::Broken;
            self.log.ball_is(ball, time);
        }
    }

    /// What the proppant that packs the way out costs, per rate squared.
    pub(crate) fn choke(&self) -> f64 {
        let Some(c) = self.choke.filter(|c| c.stage == self.open_stage()) else { return 0.0 };
        c.rise * c.grown / (c.rate * c.rate)
    }

    /// Proppant packs on with what goes out through the sleeve.
    pub(crate) fn pack(&mut self, dt: f64) {
        let stage = self.open_stage();
        let through = self.crew.rate.si() * (1.0 - self.branch.as_ref().map_or(0.0, |b| b.share));
        if let Some(c) = self.choke.as_mut().filter(|c| c.stage == stage) {
            c.grown += dt * through.max(0.0) / c.rate;
        }
    }

    /// The ball that leaves for a stage: its diameter, and whether it leaves at all.
    pub(crate) fn ball_that_leaves(&mut self, stage: usize, ball: Diameter) -> (Diameter, bool) {
        let of = |k: usize| self.crew.card(k).map(|c| c.ball);
        let mut begun: Option<(Fault, String)> = None;
        let mut out = (ball, true);
        let mut say = |fault: Option<Fault>, text: String| begun = fault.map(|f| (f, text));
        if let Some(f) = self.faults.of(FaultKind::BallNotReleased, stage) {
            out.1 = false;
            say(Some(f), format!("ball {stage} stays in the launcher"));
        } else if let Some(f) = self.faults.of(FaultKind::BallTooSmall, stage) {
            out.0 = of(stage.saturating_sub(1)).unwrap_or(ball * 0.9);
            say(Some(f), format!("ball {stage} is too small for its seat"));
        } else if let Some(f) = self.faults.of(FaultKind::BallTooLarge, stage) {
            let steps = f.steps();
            out.0 = of(stage + steps).unwrap_or(ball * 1.2);
            say(Some(f), format!("ball {stage} is that of stage {}", stage + steps));
        } else if let Some(f) = self.faults.of(FaultKind::BallsSwapped, stage) {
            out.0 = of(stage + 1).unwrap_or(ball * 1.1);
            say(Some(f), format!("ball {} leaves in the place of ball {stage}", stage + 1));
        } else if self.faults.of(FaultKind::BallsSwapped, stage.wrapping_sub(1)).is_some() {
            out.0 = of(stage.wrapping_sub(1)).unwrap_or(ball * 0.9);
        }
        if let Some((fault, text)) = begun {
            self.faults.begin(fault, self.time, text);
        }
        out
    }

    /// What a ball does on the seat of a stage.
    pub(crate) fn fate(&mut self, stage: usize, at: f64) -> BallFate {
        let stuck = [FaultKind::SleeveStuck, FaultKind::BallInSand];
        let stuck: Vec<Fault> = stuck.into_iter().filter_map(|k| self.faults.of(k, stage)).collect();
        for fault in stuck {
            if let Some(sleeve) = self.sleeve_of(stage).and_then(|i| self.sleeves.get_mut(i)) {
                sleeve.shear = NEVER;
            }
            self.faults.begin(fault, at, format!("the sleeve of stage {stage} does not open"));
        }
        if let Some(fault) = self.faults.of(FaultKind::BallShatters, stage) {
            let shear =
                self.sleeve_of(stage).and_then(|i| self.sleeves.get(i)).map_or(Pressure::ZERO, |s| s.shear);
            let at_most = shear * fault.size.si();
            self.faults.begin(fault, at, format!("ball {stage} breaks on its seat"));
            return BallFate::ShattersAt(at_most);
        }
        if let Some(fault) = self.faults.of(FaultKind::SeatEroded, stage) {
            self.faults.begin(fault, at, format!("ball {stage} leaks on its worn seat"));
            let share = leaking(&fault);
            let loss = RateSquaredLoss::from_si(self.seat_loss(stage).max(1.0) / (share * share));
            return BallFate::Leaks { loss, after: Time::seconds(0.1), over: Time::seconds(0.5) };
        }
        BallFate::Holds
    }

    /// A worn seat goes on leaking once its sleeve is open.
    pub(crate) fn leak_on(&mut self, stage: usize) {
        let Some(fault) = self.faults.of(FaultKind::SeatEroded, stage) else { return };
        self.open_below(0.0);
        let share = leaking(&fault);
        if let Some(branch) = &mut self.branch {
            branch.loss /= share * share;
        }
    }

    /// A seat with a leaking ball on it lets by what the leak lets by.
    pub(crate) fn narrow_seat(&mut self, stage: usize) {
        let Some(fault) = self.faults.of(FaultKind::SeatEroded, stage) else { return };
        let share = leaking(&fault);
        let loss = self.route.seats().iter().find(|s| s.stage == stage).map_or(0.0, |s| s.loss);
        self.route.set_loss(stage, loss / (share * share));
    }

    fn watch_annulus(&mut self) -> Result<(), PumpError> {
        let limits = &self.job.file.limits;
        let held = limits.annulus_pressure.si();
        let rising =
            self.faults.all().find(|(f, begun)| f.kind == FaultKind::AnnulusPressure && begun.is_some());
        self.annulus = match rising {
            Some((f, Some(begun))) => {
                let share = ((self.time - begun) / f.over.si().max(1.0)).clamp(0.0, 1.0);
                held + share * (f.size.si() * self.surface - held).max(0.0)
            }
            _ => held,
        };
        let running = !matches!(self.crew.mode, Mode::Stopped { .. } | Mode::ShutIn { .. });
        if running && self.annulus > limits.annulus_limit.si() {
            let what = "the annulus is above its limit and the pumps are stopped";
            self.stop_because(EventKind::PumpsStopped, &checks::ANNULUS, what)?;
        }
        Ok(())
    }
}

/// Share of a worn seat's area that its ball leaves open.
fn leaking(fault: &Fault) -> f64 {
    fault.size.si().clamp(0.01, 1.0)
}

/// The orders of a job whose ball of a stage comes with proppant round it: the fluid ahead of the
/// ball carries the last proppant of the stage before.
pub(crate) fn with_sand(mut orders: Vec<Order>, stage: usize) -> Vec<Order> {
    let mut last = None;
    for order in &mut orders {
        if order.proppant.is_some() {
            last = Some((order.proppant, order.to));
        }
        if let (Purpose::Ahead, Some(s), Some((proppant, at))) = (order.purpose, order.launch, last)
            && s == stage
        {
            (order.proppant, order.from, order.to) = (proppant, at, at);
        }
    }
    orders
}

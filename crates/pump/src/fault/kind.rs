//! What can go wrong in a run: every fault with what it shows, what tells it from others that look
//! alike, and what crews do about it.

/// A fault.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum FaultKind {
    /// The ball stays in the launcher.
    BallNotReleased,
    /// The ball is smaller than its seat.
    BallTooSmall,
    /// The ball is that of a later stage.
    BallTooLarge,
    /// Two balls leave in the wrong order.
    BallsSwapped,
    /// The ball breaks as pressure builds on it.
    BallShatters,
    /// The ball breaks while its stage is pumped.
    BallShattersLater,
    /// The ball is pressed through its seat, slowly.
    BallExtrudes,
    /// The seat has worn.
    SeatEroded,
    /// The sleeve does not shift.
    SleeveStuck,
    /// The sleeve opens while the stage before is pumped.
    SleeveEarly,
    /// The next sleeve opens together with the one meant.
    TwoOpen,
    /// Fluid passes the packer below the stage.
    PackerLeak,
    /// Proppant packs the way out of the sleeve.
    ScreenoutSleeve,
    /// Proppant bridges the tip of the fracture.
    ScreenoutTip,
    /// The ball comes with proppant round it.
    BallInSand,
    /// Something grows in a seat that is still to be passed.
    SeatRestriction,
    /// Pressure rises on the annulus.
    AnnulusPressure,
    /// The flow meter drifts.
    MeterDrift,
    /// The pressure gauge stands still.
    GaugeFault,
    /// The pressure recorder's clock is late.
    ClockSkew,
    /// The recorder loses samples.
    MissingSamples,
    /// The pumps trip and are started again.
    PumpTrip,
}

/// When a fault begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Begins {
    /// When the ball of the stage leaves the launcher.
    Launch,
    /// When the ball of the stage lands.
    Landing,
    /// A time after the sleeve of the stage has opened.
    AfterOpening,
    /// A time after the sleeve of the stage before has opened.
    AfterOpeningBefore,
}

impl FaultKind {
    /// Whether it only happens where the rock is followed.
    pub fn needs_rock(self) -> bool {
        self == Self::ScreenoutTip
    }
}

impl Begins {
    /// In words; where it waits, after the time it waits.
    pub fn words(self) -> &'static str {
        match self {
            Self::Launch => "when the ball of the stage is launched",
            Self::Landing => "when the ball of the stage lands",
            Self::AfterOpening => "after the sleeve of the stage has opened",
            Self::AfterOpeningBefore => "after the sleeve of the stage before has opened",
        }
    }

    /// Whether a time passes before the fault begins.
    pub fn waits(self) -> bool {
        matches!(self, Self::AfterOpening | Self::AfterOpeningBefore)
    }
}

/// What is known of a fault.
#[derive(Debug, Clone, Copy)]
pub struct FaultDoc {
    /// Which.
    pub kind: FaultKind,
    /// Its name on the command line and in a scenario.
    pub name: &'static str,
    /// In a line.
    pub title: &'static str,
    /// When it begins.
    pub begins: Begins,
    /// Seconds after that, where none are given.
    pub after: f64,
    /// Seconds it takes to grow, or for which it lasts, where none are given.
    pub over: f64,
    /// What its size means, and the size where none is given; empty where it has none.
    pub size: (&'static str, f64),
    /// Channels that may differ from the run without it.
    pub channels: Channels,
    /// What the charts show.
    pub signature: &'static str,
    /// What tells it from its look-alikes.
    pub telling: &'static str,
    /// What crews do.
    pub response: &'static str,
}

/// Channels that a fault changes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Channels {
    /// What happens in the well changes: any channel from its beginning on.
    Well,
    /// Only these channels; the well goes on as it would.
    Only(&'static [&'static str]),
}

macro_rules! faults {
    ($($kind:ident $name:literal $title:literal;
        $begins:ident $after:literal $over:literal ($size:literal, $value:literal) $channels:expr;
        $signature:literal; $telling:literal; $response:literal;)*) => {
        /// All faults.
        pub const FAULTS: &[FaultDoc] = &[$(FaultDoc {
            kind: FaultKind::$kind,
            name: $name,
            title: $title,
            begins: Begins::$begins,
            after: $after,
            over: $over,
            size: ($size, $value),
            channels: $channels,
            signature: $signature,
            telling: $telling,
            response: $response,
        }),*];
    };
}

/// Channels of rates and of what is added up from them.
const METERED: &[&str] =
    &["slurry_rate", "clean_rate", "stage_slurry", "stage_clean", "job_slurry", "job_clean"];

use Channels::{Only, Well};

faults! {
    BallNotReleased "ball-not-released" "The ball stays in the launcher or the tree";
        Launch 0.0 0.0 ("", 0.0) Well;
        "Nothing in the landing window nor long after; friction and shut-in pressure stay those of the stage before.";
        "On the chart it is the same as a ball that is too small. The launcher and the count of balls tell them apart.";
        "Hold the rate with clean fluid, stop proppant. Isolate, bleed off, prove zero pressure and inspect the launcher. No second ball before the count is certain.";
    BallTooSmall "ball-too-small" "The ball passes its seat and comes to rest below the open ports";
        Launch 0.0 0.0 ("", 0.0) Well;
        "No event in the window, at most a blip; the stage before goes on taking fluid; friction and shut-in pressure unchanged.";
        "The same as a ball that never left, but the launcher is empty and one ball is missing from the stock.";
        "Stop proppant. Check the ball sheet and the launcher; launch the right ball from the spares.";
    BallTooLarge "ball-too-large" "A ball of a later stage lands early on a seat nearer the heel";
        Launch 0.0 0.0 ("by how many stages the ball is too large", 2.0) Well;
        "A landing too early in volume; a sleeve opens nearer the heel; the friction falls by several seats at once.";
        "The volume is short by the stages left out; a normal landing costs one seat only.";
        "Stop and decide: flow back to lift the ball and launch again, or leave the stages between out.";
    BallsSwapped "balls-swapped" "Two balls leave in the wrong order";
        Launch 0.0 0.0 ("", 0.0) Well;
        "The first lands one stage too early in volume; the second, too small for what is left, never lands.";
        "An early landing followed by none; a ball too large alone is followed by normal ones only if the order was otherwise right.";
        "As for a ball that is too large; count the balls before anything else is launched.";
    BallShatters "ball-shatters" "The ball breaks before its sleeve shears";
        Landing 0.0 0.0 ("share of the sleeve's shear value at which it breaks", 0.8) Well;
        "A spike in the window, then back to the trend of the stage before; no breakdown.";
        "The shut-in pressure and the friction are those of the stage before; a sleeve that opened would show a new level.";
        "Launch a spare of the same size, at a lower landing rate; pieces may hold it up.";
    BallShattersLater "ball-shatters-later" "The ball breaks while its stage is pumped";
        AfterOpening 900.0 0.0 ("", 0.0) Well;
        "A normal opening, then a sudden drop to a level between the stage and the one before it.";
        "Both stages take fluid: the shut-in pressure is mixed and the entry friction lower. A sleeve opening above looks alike, but drops the friction of the pipe as well.";
        "Note it; the next ball isolates both. Pieces may jam the next ball.";
    BallExtrudes "ball-extrudes" "The ball is pressed through its seat while its stage is pumped";
        AfterOpening 600.0 600.0 ("", 0.0) Well;
        "A normal landing, then a slow decline of pressure at constant rate, ending near the level of both stages.";
        "It does not follow the concentration, and comes without a change of rate.";
        "Lower the pressure across the ball; the next ball isolates both stages.";
    SeatEroded "seat-eroded" "The seat has worn; its ball leaks";
        Landing 0.0 0.0 ("share of the seat's area that leaks", 0.12) Well;
        "A weak landing: a smaller step, a slower rise that holds poorly, perhaps no opening; friction below the model.";
        "A ball that breaks gives the whole pressure back at once; a worn seat gives a lower level all along.";
        "A spare of the same size or slightly larger, at a lower rate; then the next ball.";
    SleeveStuck "sleeve-stuck" "The ball has landed, the sleeve does not shift";
        Landing 0.0 0.0 ("", 0.0) Well;
        "The pressure rises in the window and holds: no break, flat when shut in.";
        "Well above the highest value the pins may have and no flow; a sand-off rises slower and outside the window.";
        "Stop. Hold, bleed off, press again in cycles within the limits; then the next ball, or coiled tubing.";
    SleeveEarly "sleeve-early" "The sleeve opens while the stage before is still pumped";
        AfterOpeningBefore 120.0 0.0 ("", 0.0) Well;
        "A drop of pressure with a new breakdown outside any landing window, then a lower level at the same rate.";
        "The friction fits a shorter way and more ports; a broken ball keeps the friction of the pipe.";
        "It cannot be closed: go on, land its ball when due, and count the volumes again.";
    TwoOpen "two-open" "The next sleeve opens together with the one meant";
        AfterOpening 30.0 0.0 ("", 0.0) Well;
        "A normal landing, then a second drop soon after, to a level below that of the stage.";
        "Two drops within minutes of one landing; the next landing is weak.";
        "Go on, land the next ball when due: it isolates normally; count the volumes again.";
    PackerLeak "packer-leak" "Fluid passes the packer below the stage into the one before";
        AfterOpening 60.0 30.0 ("loss past the packer at the planned rate, over 100 psi", 1.0) Well;
        "A normal landing and break, then the level of the stage before; the shut-in pressure repeats.";
        "The sleeve did shift; only the rock is the old one. A ball that broke shows no shift.";
        "Change rate or viscosity, shorten the proppant, or launch the next ball early.";
    ScreenoutSleeve "screenout-sleeve" "Proppant packs near the well";
        AfterOpening 1500.0 0.0 ("rise of the pressure over 30 psi a second", 1.0) Well;
        "The pressure climbs by tens of psi a second at constant rate until the limit.";
        "Faster than a tip screen-out (psi a minute), slower than a landing (hundreds of psi a second), and proppant is at the sleeve.";
        "Cut proppant and rate, flush at once. A ball cannot travel through sand.";
    ScreenoutTip "screenout-tip" "Proppant bridges the tip of the fracture";
        AfterOpening 1500.0 0.0 ("", 0.0) Well;
        "The net pressure rises with a slope of one in log time: psi a minute.";
        "Minutes, not seconds; the slope is that of a fracture that only widens.";
        "Cut the concentration, shorten the stage, flush.";
    BallInSand "ball-in-sand" "The ball comes with proppant round it";
        Launch 0.0 0.0 ("", 0.0) Well;
        "Proppant still on the meter at the launch; the pressure rises in the window and there is no break; the flow dies.";
        "The concentration at the launch; a sleeve that is stuck in clean fluid shows the same pressure.";
        "Do not pump against it. Flow back in steps to lift the sand; coiled tubing.";
    SeatRestriction "seat-restriction" "Something grows in the next seat above the open sleeve";
        AfterOpening 600.0 1800.0 ("the seat's loss at the end over what it is", 6.0) Well;
        "The pressure rises slowly, more at high rate, with no change of the rock.";
        "It goes with the square of the rate: a step down in rate takes it away, which a screen-out is not.";
        "Lower the rate; sweep; watch the next landing.";
    AnnulusPressure "annulus-pressure" "Pressure rises on the annulus";
        AfterOpening 600.0 300.0 ("share of the treating pressure it goes to", 0.5) Well;
        "The annulus gauge climbs while the treating pressure stays.";
        "No other channel moves; a gauge fault does not follow the treating pressure.";
        "Stop the pumps; treat it as a leak of the string or the casing packer until proved otherwise.";
    MeterDrift "meter-drift" "The flow meter reads too much, and more with time";
        AfterOpening 0.0 3600.0 ("share by which it reads too much at the end", 0.03) Only(METERED);
        "Rate and volumes creep away from strokes and tanks; landings come late by the meter.";
        "Pressure and concentration fit the old rate; only what is added up from the meter differs.";
        "Check against strokes and tanks; correct the factor of the landing volumes.";
    GaugeFault "gauge-fault" "The pressure gauge stands still";
        AfterOpening 600.0 120.0 ("", 0.0) Only(&["treating_pressure"]);
        "The pressure does not move at all while rates do; then it jumps to where it should be.";
        "One channel only; a real pressure is never quite still.";
        "Switch to the second gauge; land no ball on a blind gauge.";
    ClockSkew "clock-skew" "The pressure recorder's clock is late";
        AfterOpening 0.0 8.0 ("", 0.0) Only(&["treating_pressure"]);
        "The pressure follows every change of rate by some seconds more than a wave takes.";
        "The same delay at all changes; a long way down delays landings only.";
        "Set the clocks together; move the channel before any landing is read.";
    MissingSamples "missing-samples" "The recorder loses samples";
        AfterOpening 600.0 45.0 ("", 0.0) Only(&["time"]);
        "A gap in time; volumes jump by what was pumped in it.";
        "Time is missing, not pressure; counters go on.";
        "Do not call a landing from a gap; use the counters.";
    PumpTrip "pump-trip" "The pumps trip and are started again";
        AfterOpening 900.0 0.0 ("", 0.0) Well;
        "The rate goes to nothing in seconds, the pressure rings and falls to that of the rock.";
        "All pumps at once and no rise before it.";
        "Find why before starting again; start slowly, and make sure that the ball is still on its seat.";
}

impl FaultKind {
    /// What is known of it.
    pub fn doc(self) -> &'static FaultDoc {
        FAULTS.iter().find(|d| d.kind == self).unwrap_or(&FAULTS[0])
    }

    /// Whether it opens a second way into rock.
    pub fn makes_a_way(self) -> bool {
        use FaultKind::*;
        matches!(self, BallShattersLater | BallExtrudes | SeatEroded | SleeveEarly | TwoOpen | PackerLeak)
    }

    /// Its name.
    pub fn name(self) -> &'static str {
        self.doc().name
    }
}

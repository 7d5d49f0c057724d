//! The channels of a run, as a recorder would keep them, and the events beside them.

use quantity::*;

/// One sample of everything that is recorded.
///
/// Rates, concentrations and densities at the surface are means over the time since the sample
/// before, as a totaliser gives them; pressures, volumes and depths are those of the moment.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Sample {
    /// Since the start of the job.
    pub time: Time,
    /// Stage on the meter.
    pub stage: usize,
    /// Treating pressure at the wellhead.
    pub treating_pressure: GaugePressure,
    /// Pressure of the annulus at the surface.
    pub annulus_pressure: GaugePressure,
    /// Slurry rate.
    pub slurry_rate: FlowRate,
    /// Clean rate.
    pub clean_rate: FlowRate,
    /// Proppant added per clean volume at the surface.
    pub concentration: Concentration,
    /// The same at the open sleeve.
    pub concentration_below: Concentration,
    /// Density at the surface.
    pub density: Density,
    /// Density at the open sleeve, at the surface's temperature and pressure.
    pub density_below: Density,
    /// Slurry volume of the stage on the meter.
    pub stage_slurry: Volume,
    /// Clean volume of the stage on the meter.
    pub stage_clean: Volume,
    /// Proppant of the stage on the meter.
    pub stage_mass: Mass,
    /// Slurry volume of the job.
    pub job_slurry: Volume,
    /// Clean volume of the job.
    pub job_clean: Volume,
    /// Proppant of the job.
    pub job_mass: Mass,
    /// Pressure in the string at the open sleeve.
    pub bottomhole_pressure: GaugePressure,
    /// Temperature of the fluid at the open sleeve.
    pub bottomhole_temperature: Temperature,
    /// Stage whose sleeve takes fluid; 0 is the path at the toe.
    pub open_stage: usize,
    /// Length of a wing of the fracture that takes fluid, or its radius; zero where none is followed.
    pub fracture_length: Length,
    /// Pressure in that fracture above its closure stress.
    pub net_pressure: Pressure,
    /// Stage of the ball on its way; 0 where none is.
    pub ball: usize,
    /// Measured depth of the ball on its way; that of the last one where none is.
    pub ball_depth: MeasuredDepth,
}

/// One channel of a table of samples.
pub struct Channel {
    /// Name, in lower case without spaces.
    pub name: &'static str,
    /// What it is.
    pub title: &'static str,
    /// Value of a sample.
    pub value: fn(&Sample) -> Value,
}

macro_rules! channels {
    ($($name:literal, $title:literal, $of:expr;)*) => {
        &[$(Channel { name: $name, title: $title, value: $of }),*]
    };
}

fn count(n: usize) -> Value {
    Ratio::of(n as f64).into()
}

/// All channels, in the order of the files.
pub const CHANNELS: &[Channel] = channels! {
    "time", "time since the start of the job", |s| s.time.into();
    "stage", "stage on the meter", |s| count(s.stage);
    "treating_pressure", "treating pressure at the wellhead, gauge", |s| s.treating_pressure.into();
    "annulus_pressure", "pressure of the annulus at the surface, gauge", |s| s.annulus_pressure.into();
    "slurry_rate", "slurry rate, mean since the last sample", |s| s.slurry_rate.into();
    "clean_rate", "clean rate, mean since the last sample", |s| s.clean_rate.into();
    "concentration", "proppant added per clean volume at the surface, mean since the last sample", |s| s.concentration.into();
    "concentration_below", "proppant added per clean volume at the open sleeve", |s| s.concentration_below.into();
    "density", "density at the surface", |s| s.density.into();
    "density_below", "density at the open sleeve, as at the surface", |s| s.density_below.into();
    "stage_slurry", "slurry volume of the stage on the meter", |s| s.stage_slurry.into();
    "stage_clean", "clean volume of the stage on the meter", |s| s.stage_clean.into();
    "stage_mass", "proppant of the stage on the meter", |s| s.stage_mass.into();
    "job_slurry", "slurry volume of the job", |s| s.job_slurry.into();
    "job_clean", "clean volume of the job", |s| s.job_clean.into();
    "job_mass", "proppant of the job", |s| s.job_mass.into();
    "bottomhole_pressure", "pressure in the string at the open sleeve, gauge", |s| s.bottomhole_pressure.into();
    "bottomhole_temperature", "temperature of the fluid at the open sleeve", |s| s.bottomhole_temperature.into();
    "open_stage", "stage whose sleeve takes fluid, 0 the path at the toe", |s| count(s.open_stage);
    "fracture_length", "length of a wing of the fracture that takes fluid, or its radius", |s| s.fracture_length.into();
    "net_pressure", "pressure in that fracture above its closure stress", |s| s.net_pressure.into();
    "ball", "stage of the ball on its way, 0 none", |s| count(s.ball);
    "ball_depth", "measured depth of the ball on its way, or of the last one", |s| s.ball_depth.into();
};

/// What happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum EventKind {
    /// A ball left the launcher.
    BallLaunched,
    /// The rate was cut for a landing.
    RateCut,
    /// A ball came to its seat.
    BallLanded,
    /// A sleeve opened.
    SleeveOpened,
    /// The crew saw the landing and acted on it.
    LandingSeen,
    /// A ball is past the volume at which it counts as missing.
    BallMissing,
    /// The first proppant of a stage reached its sleeve.
    ProppantAtSleeve,
    /// A fracture along the hole has grown past a packer.
    Communication,
    /// Proppant stopped in a fracture.
    ScreenedOut,
    /// The crew came down in rate because of the treating pressure.
    RateHeld,
    /// The relief valve opened.
    ReliefOpened,
    /// The pumps tripped.
    PumpsTripped,
    /// The pumps were started again.
    PumpsStarted,
    /// The pumps stopped: all is pumped.
    PumpsStopped,
}

impl EventKind {
    /// All of them.
    pub const ALL: &'static [EventKind] = &[
        EventKind::BallLaunched,
        EventKind::RateCut,
        EventKind::BallLanded,
        EventKind::SleeveOpened,
        EventKind::LandingSeen,
        EventKind::BallMissing,
        EventKind::ProppantAtSleeve,
        EventKind::Communication,
        EventKind::ScreenedOut,
        EventKind::RateHeld,
        EventKind::ReliefOpened,
        EventKind::PumpsTripped,
        EventKind::PumpsStarted,
        EventKind::PumpsStopped,
    ];

    /// In a word or three.
    pub fn word(self) -> &'static str {
        match self {
            EventKind::BallLaunched => "ball launched",
            EventKind::RateCut => "rate cut",
            EventKind::BallLanded => "ball landed",
            EventKind::SleeveOpened => "sleeve opened",
            EventKind::LandingSeen => "landing seen",
            EventKind::BallMissing => "ball missing",
            EventKind::ProppantAtSleeve => "proppant at sleeve",
            EventKind::Communication => "past the packer",
            EventKind::ScreenedOut => "screened out",
            EventKind::RateHeld => "rate held",
            EventKind::ReliefOpened => "relief opened",
            EventKind::PumpsTripped => "pumps tripped",
            EventKind::PumpsStarted => "pumps started",
            EventKind::PumpsStopped => "pumps stopped",
        }
    }
}

/// One event.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Event {
    /// Since the start of the job.
    pub time: Time,
    /// What.
    pub kind: EventKind,
    /// Stage it belongs to.
    pub stage: usize,
    /// In words, with its figures.
    pub text: String,
}

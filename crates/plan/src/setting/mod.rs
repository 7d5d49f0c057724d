//! Setting the packers: pressure windows, the pressure sheet, the activation fluid and the swell.

mod activation;
mod assumptions;
mod chain;
mod checks;
mod circulating;
mod devices;
mod fluids;
mod forces;
mod judge;
mod limits;
mod result;
mod seat;
mod sheet;
mod step;
mod target;
mod volume;
mod words;
mod workings;
mod workings_forces;

use quantity::*;
use well::Job;
use well::job::{Activation, SystemKind};

pub use checks::CHECKS;
pub use result::*;
pub use step::*;

use crate::Ledger;
use crate::ladder::{LadderPlan, SettingBallRating, setting_ball_rating};
use crate::layout::Layout;
use crate::swell::swell_packers;
use chain::Group;
use circulating::Circulating;
use sheet::Desk;
use volume::{ClosedString, Landing};

/// What the plan is made of, for its workings.
struct Made<'a> {
    job: &'a Job,
    layout: &'a Layout,
    string: &'a ClosedString,
    devices: &'a [DeviceWindow],
    groups: Vec<Group<'a>>,
    circulating: Circulating<'a>,
    landing: Option<Landing>,
    ball: Option<SettingBallRating>,
}

/// Windows, pressure sheet and forces of setting the packers; with fluid-activated packers the
/// activation fluid and the swell. None where the job file lacks what the kind of system needs or
/// a relation refuses its inputs; findings say which.
pub fn set_packers(
    job: &Job,
    layout: &Layout,
    ladder: &LadderPlan,
    ledger: &mut Ledger,
) -> Option<SettingPlan> {
    let missing = judge::missing(job);
    if !missing.is_empty() {
        missing.into_iter().for_each(|f| ledger.say(f));
        return None;
    }
    let devices = ledger.take("the pressures of the devices", devices::devices(job, layout))?;
    let string = ledger.take("the closed string", ClosedString::of(job, layout))?;
    let ball = match ladder.setting_ball {
        Some(_) => ledger.take("what the setting ball holds", setting_ball_rating(job, layout))?,
        None => None,
    };
    let groups = Group::all(&devices);
    let first = groups.first().and_then(Group::first)?;
    let room = (first.low - job.file.setting.margin).above_atmosphere();
    let made = Made {
        job,
        layout,
        string: &string,
        devices: &devices,
        circulating: ledger.take("the limit of circulation", circulating::circulating(job, &devices))??,
        landing: ledger.take("the landing at the toe", volume::landing(job, &string, room))?,
        groups,
        ball,
    };
    let mut plan = pressures(&made, ledger)?;
    judge::judge(job, layout, &plan, ledger);
    workings::open(&made, &plan, ledger);
    if let Some(table) = activation_table(job) {
        plan.activation = activation::activation(job, layout, table, ledger);
        workings_forces::open_activation(&made, &plan, ledger);
        plan.swell = swell_packers(job, layout, ledger);
    }
    plan.fluids = fluids::fluids(job, &plan);
    Some(plan)
}

/// The activation fluid of a system that has one.
fn activation_table(job: &Job) -> Option<&Activation> {
    job.file.setting.activation.as_ref().filter(|_| job.file.system.kind == SystemKind::FluidActivated)
}

/// Everything but activation fluid and swell.
fn pressures(made: &Made<'_>, ledger: &mut Ledger) -> Option<SettingPlan> {
    let (job, layout) = (made.job, made.layout);
    let chain =
        ledger.take("the order of the devices", chain::order(&made.groups, job.file.setting.margin))?;
    judge::devices(job, &made.groups, chain.as_ref(), ledger);
    let limits = limits::limits(job, layout, made.ball.as_ref(), ledger);
    let desk = Desk {
        job,
        groups: &made.groups,
        limits: &limits,
        string: made.string,
        circulating_limit: made.circulating.limit,
        planned_wait: activation_table(job).map(|a| a.planned_wait),
    };
    let sheet = ledger.take("the pressure sheet", desk.sheet())?;
    assemble(made, (sheet, limits, chain.map(|c| c.least)), ledger)
}

/// The plan from its parts.
fn assemble(
    made: &Made<'_>,
    (sheet, mut limits, least_room): (Vec<PressureStep>, Vec<PressureLimit>, Option<Pressure>),
    ledger: &mut Ledger,
) -> Option<SettingPlan> {
    let (job, layout) = (made.job, made.layout);
    let highest = highest(&sheet);
    for limit in &mut limits {
        let share =
            if limit.ceiling > GaugePressure::ZERO { highest.si() / limit.ceiling.si() } else { f64::MAX };
        limit.used = Ratio::of(share);
    }
    let differential = forces::toe_differential(job, layout, highest);
    let annulus = job.file.limits.annulus_pressure;
    Some(SettingPlan {
        system: job.file.system.kind,
        sheet,
        least_room,
        limits,
        circulating_limit: made.circulating.limit,
        highest,
        string_volume: made.string.volume,
        compressibility: made.string.compressibility(),
        landing_rate: made.landing.map(|l| l.rate),
        setting_seat: made.ball.as_ref().map(|b| seat::seat(job, b, differential)),
        end_load: ledger.take("the end load of the closed toe", forces::end_load(job, layout, highest))?,
        pistons: ledger.take("the setting pistons", forces::pistons(job, made.devices, highest))?,
        casing_ceiling: limits::casing(job, layout, ledger),
        casing_packer_differential: forces::casing_packer_differential(job, layout, annulus),
        thrusts: ledger.take("the thrust on the packers", forces::thrusts(job, layout))?,
        activation: None,
        fluids: Vec::new(),
        swell: None,
        assumptions: assumptions::assumptions(job),
        devices: made.devices.to_vec(),
    })
}

/// The highest pressure at the surface until the first stage is opened.
fn highest(sheet: &[PressureStep]) -> GaugePressure {
    let setting =
        sheet.iter().filter(|s| s.side == Side::String && s.action != StepAction::OpenPressureSleeve);
    setting.map(|s| s.target.unwrap_or(s.low)).fold(GaugePressure::ZERO, GaugePressure::max)
}

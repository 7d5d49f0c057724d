//! From the search's choices to places, tally and reconciliation.

use quantity::*;
use well::Job;
use well::job::SystemKind;

use super::build::{shoe, toe_length, toe_limit};
use super::ground::JobGround;
use super::problem::{Ground, Problem};
use super::result::*;
use super::search::Choice;
use super::space_out::SpaceOut;
use crate::rock::{packer_duty, packer_rating};

/// One thing to be run, before its depth is known.
struct Item {
    kind: ItemKind,
    name: String,
    serial: String,
    stage: Option<usize>,
    length: Length,
    mass: Mass,
    od: Diameter,
    bore: Diameter,
}

/// The running list, toe to heel.
struct Running<'a> {
    job: &'a Job,
    items: Vec<Item>,
    joint: usize,
    pup: usize,
}

impl Running<'_> {
    fn joints_to(&mut self, joints: usize) {
        let (Some(liner), job) = (self.job.liner(), self.job) else { return };
        for joint in job.running_joints().take(joints).skip(self.joint) {
            self.items.push(Item {
                kind: ItemKind::Joint,
                name: joint.name(),
                serial: joint.serial.clone().unwrap_or_default(),
                stage: None,
                length: joint.length,
                mass: liner.table.weight * joint.length,
                od: liner.table.od,
                bore: liner.bore(),
            });
        }
        self.joint = self.joint.max(joints);
    }

    fn pup(&mut self, length: Length) {
        let Some(liner) = self.job.liner() else { return };
        self.items.push(Item {
            kind: ItemKind::Pup,
            // As it is marked on the rack: before its make-up loss.
            name: format!(
                "pup {}",
                (length + self.job.file.tally.make_up_loss).text(self.job.file.job.units.system())
            ),
            serial: String::new(),
            stage: None,
            length,
            mass: liner.table.weight * length,
            od: liner.table.od,
            bore: liner.bore(),
        });
    }

    fn pups_to(&mut self, pups: usize) {
        let list: Vec<Length> = self.job.pups().take(pups).skip(self.pup).collect();
        list.into_iter().for_each(|p| self.pup(p));
        self.pup = self.pup.max(pups);
    }

    fn sleeve(&mut self, stage: usize) {
        let sleeve = &self.job.file.sleeve;
        let by_pressure = pressure_opened(self.job, stage);
        let pressure = self.job.file.toe.pressure_sleeve.as_ref().filter(|_| by_pressure);
        self.items.push(Item {
            kind: ItemKind::Sleeve,
            name: if by_pressure { "pressure sleeve".into() } else { format!("sleeve {stage}") },
            serial: String::new(),
            stage: Some(stage),
            length: pressure.map_or(sleeve.length, |p| p.length),
            mass: pressure.map_or(sleeve.mass, |p| p.mass),
            od: sleeve.od,
            bore: sleeve.id,
        });
    }

    fn packer(&mut self, stage: usize) {
        let packer = &self.job.file.packer;
        self.items.push(Item {
            kind: ItemKind::Packer,
            name: format!("packer {stage}"),
            serial: String::new(),
            stage: Some(stage),
            length: packer.length,
            mass: packer.mass,
            od: packer.od,
            bore: packer.id,
        });
    }
}

/// Whether pressure, not a ball, opens the sleeve of a stage.
fn pressure_opened(job: &Job, stage: usize) -> bool {
    stage == 1 && job.file.system.kind == SystemKind::HydraulicSet
}

/// The running tally of the choices.
pub(super) fn tally(job: &Job, choices: &[Choice], end: &SpaceOut) -> Vec<TallyRow> {
    let toe = Item {
        kind: ItemKind::Toe,
        name: "shoe and toe tool".into(),
        serial: String::new(),
        stage: None,
        length: toe_length(job),
        mass: job.file.toe.mass,
        od: job.file.toe.od,
        bore: job.liner().map_or(job.file.sleeve.id, |l| l.bore()),
    };
    let mut running = Running { job, items: vec![toe], joint: 0, pup: 0 };
    for (i, choice) in choices.iter().enumerate() {
        running.joints_to(choice.sleeve);
        running.sleeve(i + 1);
        running.joints_to(choice.packer);
        running.pups_to(choice.pups);
        running.packer(i + 1);
    }
    running.joints_to(end.joints);
    end.pups.iter().for_each(|p| running.pup(*p));
    let packer = &job.file.casing_packer;
    running.items.push(Item {
        kind: ItemKind::CasingPacker,
        name: "casing packer".into(),
        serial: String::new(),
        stage: None,
        length: packer.length,
        mass: packer.mass,
        od: packer.od,
        bore: packer.id,
    });
    rows(job, &running.items)
}

fn rows(job: &Job, items: &[Item]) -> Vec<TallyRow> {
    let mut bottom = shoe(job);
    let start = bottom;
    let (mut mass, mut inside, mut steel, mut annulus) =
        (Mass::ZERO, Volume::ZERO, Volume::ZERO, Volume::ZERO);
    let mut out = Vec::with_capacity(items.len());
    for (i, item) in items.iter().enumerate() {
        let top = bottom - item.length;
        let hole = job.hole.volume(top.max(job.hole.top()), bottom).unwrap_or(Volume::ZERO);
        let outside = item.length * item.od.circle();
        let bore = item.length * item.bore.circle();
        mass += item.mass;
        inside += bore;
        steel += outside - bore;
        annulus += (hole - outside).max(Volume::ZERO);
        out.push(TallyRow {
            row: i + 1,
            kind: item.kind,
            name: item.name.clone(),
            serial: item.serial.clone(),
            stage: item.stage,
            length: item.length,
            cumulative: start - top,
            top,
            bottom,
            sigma: job.depth_sigma(bottom),
            mass,
            inside,
            steel,
            annulus,
        });
        bottom = top;
    }
    out
}

/// Places of every stage, read off the tally.
pub(super) fn places(job: &Job, problem: &Problem, tally: &[TallyRow]) -> Vec<StagePlace> {
    let ground = JobGround::new(job);
    let tools = |kind: ItemKind| tally.iter().filter(move |r| r.kind == kind);
    let mut toe_end = toe_limit(job);
    let pairs = tools(ItemKind::Sleeve).zip(tools(ItemKind::Packer)).enumerate();
    pairs
        .map(|(i, (sleeve, packer))| {
            let packer = packer_place(job, problem, &ground, (packer, i + 1));
            let heel_end = packer.element_bottom;
            let place = StagePlace {
                stage: i + 1,
                toe_end,
                heel_end,
                length: toe_end - heel_end,
                sleeve: sleeve_place(job, problem, &ground, sleeve, i + 1),
                packer,
            };
            toe_end = place.packer.element_top;
            place
        })
        .collect()
}

fn packer_place(
    job: &Job,
    problem: &Problem,
    ground: &JobGround<'_>,
    (row, stage): (&TallyRow, usize),
) -> PackerPlace {
    let table = &job.file.packer;
    let element_top = row.top + table.element_from_top;
    let element_bottom = element_top + table.element_length;
    let widen = problem.limits.sigmas * row.sigma.si();
    let size = ground.size(element_top.si(), element_bottom.si(), widen);
    let middle = element_top + table.element_length / 2.0;
    let temperature = Temperature::kelvin(ground.hottest(row.top.si(), row.bottom.si()));
    PackerPlace {
        top: row.top,
        bottom: row.bottom,
        element_top,
        element_bottom,
        tvd: job.trajectory.tvd_at(middle),
        sigma: row.sigma,
        hole: HoleSize {
            least: Diameter::m(size.least),
            p10: Diameter::m(size.p10),
            p50: Diameter::m(size.p50),
            p90: Diameter::m(size.p90),
            worst: Diameter::m(size.worst),
        },
        dogleg: Curvature::rad_per_m(ground.sharpest_bend(row.top.si(), row.bottom.si())),
        temperature,
        rating: packer_rating(table, Diameter::m(size.worst), temperature),
        needed: packer_duty(job, row.bottom, stage),
    }
}

fn sleeve_place(
    job: &Job,
    problem: &Problem,
    ground: &JobGround<'_>,
    row: &TallyRow,
    stage: usize,
) -> SleevePlace {
    let ports = row.top + Length::m(problem.sleeve_of(stage).from_top);
    SleevePlace {
        top: row.top,
        bottom: row.bottom,
        ports,
        tvd: job.trajectory.tvd_at(ports),
        sigma: row.sigma,
        hole: job.hole.diameter_at(ports).unwrap_or(Diameter::ZERO),
        dogleg: Curvature::rad_per_m(ground.sharpest_bend(row.top.si(), row.bottom.si())),
        temperature: Temperature::kelvin(ground.hottest(row.top.si(), row.bottom.si())),
        quality: job.quality.as_ref().and_then(|q| q.at(ports)),
        opened_by_ball: !pressure_opened(job, stage),
    }
}

/// What became of the joints on the rack.
pub(super) fn reconcile(job: &Job, tally: &[TallyRow]) -> Reconciliation {
    let of = |kinds: &[ItemKind]| -> (usize, Length) {
        let rows = tally.iter().filter(|r| kinds.contains(&r.kind));
        rows.fold((0, Length::ZERO), |(n, l), r| (n + 1, l + r.length))
    };
    let (in_hole, length_in_hole) = of(&[ItemKind::Joint]);
    let (pups_in_hole, pup_length) = of(&[ItemKind::Pup]);
    let (_, tools) = of(&[ItemKind::Toe, ItemKind::Sleeve, ItemKind::Packer, ItemKind::CasingPacker]);
    let on_rack = job.running_joints().count();
    let length_on_rack: Length = job.running_joints().map(|j| j.length).sum();
    let top = tally.last().map_or(shoe(job), |r| r.top);
    Reconciliation {
        on_rack,
        in_hole,
        left: on_rack.saturating_sub(in_hole),
        length_on_rack,
        length_in_hole,
        length_left: length_on_rack - length_in_hole,
        pups: job.pups().count(),
        pups_in_hole,
        length_of_tools: tools,
        closure: (shoe(job) - top) - (length_in_hole + pup_length + tools),
    }
}

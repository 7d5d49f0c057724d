//! What the figures of a string open to.

use physics::Evaluation;
use physics::geometry::BORE_CAPACITY;
use physics::tubular::buoyed_weight::BUOYED_WEIGHT;
use physics::tubular::collapse_yield::CollapseMethod;
use physics::tubular::fixed_ends::{ANCHORED_SPAN_FORCE, BALLOONING_FORCE, THERMAL_FORCE};
use physics::tubular::triaxial::TRIAXIAL;
use quantity::*;
use well::tubular::Rated;

use super::factors::{collapse_load, section, wall};
use super::loads::Loads;
use super::places::{Place, SeatSide};
use super::ratings::PipeRatings;
use super::result::{Criterion, Governing, LoadCase, LoadRow, StringPlan, StringsPlan};
use crate::Ledger;

/// A string with everything its workings need.
pub(super) struct Opened<'a> {
    /// Number in the job file, from 1.
    pub number: usize,
    /// Its loads.
    pub loads: Loads<'a>,
    /// Its places.
    pub places: Vec<Place>,
    /// Its ratings.
    pub ratings: PipeRatings,
}

impl Opened<'_> {
    /// Records sizes, ratings and the governing factors.
    pub fn open(&self, plan: &StringPlan, ledger: &mut Ledger) {
        self.sizes(plan, ledger);
        self.rating("internal_yield", "Internal yield", &self.ratings.internal, plan, ledger);
        self.rating("collapse", "Collapse without load", &self.ratings.collapse, plan, ledger);
        self.rating("body_yield", "Tension at body yield", &self.ratings.body, plan, ledger);
        if let Some(joint) = &self.ratings.joint {
            self.rating("joint_strength", "Joint strength", joint, plan, ledger);
        }
        for governing in &plan.governing {
            self.factor(governing, plan, ledger);
        }
    }

    fn sizes(&self, plan: &StringPlan, ledger: &mut Ledger) {
        let capacity = BORE_CAPACITY.call().with("bore", plan.id).run();
        if let Some(step) = ledger.take("the capacity of a string", capacity) {
            let title = format!("Capacity of {}", plan.name);
            let name = format!("string.{}.capacity", self.number);
            ledger.open(name, &title, plan.capacity, &[&step], "Of the nominal bore.");
        }
        let call = BUOYED_WEIGHT
            .call()
            .with("mass", plan.weight)
            .with("outer", plan.od)
            .with("inner", plan.id)
            .with("inside_density", self.loads.landed_density());
        let outside = self.loads.around.job.file.setting.outside_density;
        let weight = call.with("outside_density", outside).run();
        if let Some(step) = ledger.take("the buoyed weight of a string", weight) {
            let title = format!("Buoyed weight of {}", plan.name);
            let note = "In the setting fluids; the casing in the annulus fluid inside and outside.";
            let name = format!("string.{}.buoyed_weight", self.number);
            ledger.open(name, &title, plan.buoyed_weight, &[&step], note);
        }
    }

    fn rating<Q: Quantity>(
        &self,
        id: &str,
        title: &str,
        rated: &Rated<Q>,
        plan: &StringPlan,
        ledger: &mut Ledger,
    ) {
        let steps: Vec<&Evaluation> = rated.evaluation().into_iter().collect();
        let title = format!("{title} of {}", plan.name);
        let note = format!("From {}.", rated.origin_text());
        ledger.open(format!("string.{}.{id}", self.number), &title, rated.value, &steps, &note);
    }

    fn factor(&self, governing: &Governing, plan: &StringPlan, ledger: &mut Ledger) {
        let Some(row) = plan.load(governing.case, governing.point) else { return };
        let Some(place) = self.places.iter().find(|p| p.point == governing.point) else { return };
        let criterion = governing.criterion;
        let name = format!("string.{}.{}_factor", self.number, id(criterion));
        let title = format!("Lowest factor on {} of {}", criterion.words(), plan.name);
        let Some(steps) = ledger.take(&title, self.steps(criterion, row, place)) else { return };
        let steps: Vec<&Evaluation> = steps.iter().collect();
        let note = said!("{} {}", where_it_is(row), made_of(criterion, row));
        ledger.open(name, &title, governing.factor, &steps, &note);
    }

    fn steps(&self, criterion: Criterion, row: &LoadRow, place: &Place) -> physics::Result<Vec<Evaluation>> {
        let pipe = &self.loads.string.pipe;
        let mut out = Vec::new();
        match criterion {
            Criterion::Burst => out.extend(self.ratings.internal.evaluation().cloned()),
            Criterion::Collapse => {
                let allowed = pipe.collapse_under(collapse_load(pipe, row), CollapseMethod::default()).ok();
                out.extend(allowed.and_then(|a| a.evaluation().cloned()));
            }
            Criterion::Tension => {
                out.extend(self.force(row.case, place)?);
                out.extend(self.ratings.body.evaluation().cloned());
                out.extend(self.ratings.joint.as_ref().and_then(|j| j.evaluation().cloned()));
            }
            Criterion::Triaxial => {
                out.extend(self.force(row.case, place)?);
                let load = section(row);
                let call = TRIAXIAL
                    .call()
                    .with("outer", pipe.outer())
                    .with("wall", pipe.tube().wall())
                    .with("yield_strength", pipe.yield_strength())
                    .with("axial_force", load.axial_force)
                    .with("internal_pressure", load.internal_pressure)
                    .with("external_pressure", load.external_pressure)
                    .with("curvature", load.curvature)
                    .with("wall_tolerance", wall(pipe, row));
                out.push(call.run()?);
            }
        }
        Ok(out)
    }

    /// Ballooning and temperature of the stretch that holds a place.
    fn force(&self, case: LoadCase, place: &Place) -> physics::Result<Vec<Evaluation>> {
        let Some(load) = self.loads.span_load(case, place) else { return Ok(Vec::new()) };
        let tube = self.loads.string.pipe.tube();
        let (outer, inner) = (tube.outer(), tube.inner());
        if matches!(place.seat, SeatSide::Above(_)) {
            let call = ANCHORED_SPAN_FORCE
                .call()
                .with("outer", outer)
                .with("inner", inner)
                .with("inside_change", load.pressures.inside)
                .with("outside_change", load.pressures.outside)
                .with("temperature_change", load.temperature)
                .with("seat_difference", load.seat_difference)
                .with("seat_bore", load.seat_bore);
            return Ok(vec![call.run()?]);
        }
        let balloon = BALLOONING_FORCE.call().with("outer", outer).with("inner", inner);
        let balloon = balloon.with("inside_change", load.pressures.inside);
        let thermal = THERMAL_FORCE.call().with("outer", outer).with("inner", inner);
        Ok(vec![
            balloon.with("outside_change", load.pressures.outside).run()?,
            thermal.with("temperature_change", load.temperature).run()?,
        ])
    }
}

/// Records the lowest internal yield and the highest treating pressure.
pub(super) fn open_limits(
    plan: &StringsPlan,
    step: Option<&Evaluation>,
    required: Ratio,
    ledger: &mut Ledger,
) {
    let steps: Vec<&Evaluation> = step.into_iter().collect();
    let of = &plan.lowest_internal_yield_of;
    let title = "Lowest internal yield of what is pumped through";
    let note = format!("That of {of}: the body, or its connection where a lower rating is stated.");
    ledger.open("strings.lowest_internal_yield", title, plan.lowest_internal_yield, &steps, &note);
    let title = "Highest treating pressure that keeps the burst factor";
    let note = format!("The lowest internal yield, of {of}, over the burst factor of {}.", required.si());
    ledger.open("strings.highest_treating_pressure", title, plan.highest_treating_pressure, &steps, &note);
}

fn id(criterion: Criterion) -> &'static str {
    match criterion {
        Criterion::Burst => "burst",
        Criterion::Collapse => "collapse",
        Criterion::Tension => "tension",
        Criterion::Triaxial => "triaxial",
    }
}

fn where_it_is(row: &LoadRow) -> Text {
    let depth = row.depth;
    said!("Lowest of all cases and places: {}, {} at {depth}.", row.case.words(), row.point.words())
}

fn made_of(criterion: Criterion, row: &LoadRow) -> Text {
    let pressures = said!("{} inside and {} outside", row.inside, row.outside);
    let force = said!(
        "The axial force of {} is {} hanging, {} ballooning, {} temperature and {} on the seat",
        row.axial,
        row.hanging,
        row.ballooning,
        row.thermal,
        row.seat
    );
    match criterion {
        Criterion::Burst => {
            said!("Rating of body or connection, the lesser, over the difference of {pressures}.")
        }
        Criterion::Collapse => said!("Rating under the load over the difference of {pressures}."),
        Criterion::Tension => said!("Strength of body or connection, the lesser, over the force. {force}."),
        Criterion::Triaxial => said!("Yield strength over the greatest stress with {pressures}. {force}."),
    }
}

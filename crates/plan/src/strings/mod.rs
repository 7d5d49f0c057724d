//! Strings: dimensions, ratings, load cases and safety factors.

pub(crate) mod checks;
mod factors;
pub(crate) mod hung;
mod judge;
pub(crate) mod loads;
pub(crate) mod places;
mod ratings;
mod result;
pub(crate) mod surroundings;
mod workings;

use physics::Evaluation;
use quantity::*;
use well::Job;
use well::job::StringRole;

pub use checks::CHECKS;
pub use result::*;

use crate::Ledger;
use crate::layout::Layout;
use hung::Hanging;
use loads::Loads;
use places::{Place, bends, sharpest};
use ratings::{PipeRatings, take};
use surroundings::Surroundings;
use workings::Opened;

/// Rates every string of a job in every load case. A string that cannot be rated is left out,
/// with a finding that says why; none when nothing at all can be rated.
pub fn rate_strings(job: &Job, layout: &Layout, ledger: &mut Ledger) -> Option<StringsPlan> {
    let around = ledger.take("the pressures round the strings", Surroundings::new(job, layout))?;
    let hanging = ledger.take("the weight of the strings", Hanging::of(job, layout))?;
    let mut strings = Vec::with_capacity(job.strings.len());
    let mut weakest: Option<(Pressure, String, Option<Evaluation>)> = None;
    for (i, string) in job.strings.iter().enumerate() {
        let field = format!("string[{}]", i + 1);
        let Some(ratings) = PipeRatings::of(string, &field, ledger) else { continue };
        let limit = ratings.internal_limit();
        let pumped_through = string.table.role != StringRole::Casing;
        if pumped_through && weakest.as_ref().is_none_or(|(w, ..)| limit < *w) {
            weakest = Some((limit, string.table.name.clone(), ratings.internal.evaluation().cloned()));
        }
        let loads = Loads { around: &around, hanging: &hanging, string };
        let mut places = places::places(&around, string);
        let worst = ledger.take("the worst bend of a string", worst_bend(&loads)).flatten();
        places.extend(worst.filter(|w| places.iter().all(|p| p.spot.md != w.spot.md)));
        let opened = Opened { number: i + 1, loads, places, ratings };
        if let Some(plan) = one_string(&opened, &field, ledger) {
            judge::string(&plan, &field, ledger);
            opened.open(&plan, ledger);
            strings.push(plan);
        }
    }
    let (lowest_internal_yield, lowest_internal_yield_of, step) = weakest?;
    let limits = &job.file.limits;
    let plan = StringsPlan {
        strings,
        lowest_internal_yield,
        lowest_internal_yield_of,
        highest_treating_pressure: (lowest_internal_yield / limits.burst_factor.si().max(0.01)).gauge(),
        relief_share: Ratio::of(limits.relief.above_atmosphere() / lowest_internal_yield),
        assumptions: assumptions(&around),
    };
    judge::limits(job, &plan, ledger);
    workings::open_limits(&plan, step.as_ref(), limits.burst_factor, ledger);
    Some(plan)
}

fn one_string(opened: &Opened<'_>, field: &str, ledger: &mut Ledger) -> Option<StringPlan> {
    let string = opened.loads.string;
    let (pipe, table) = (&string.pipe, &string.table);
    let job = opened.loads.around.job;
    let (inside, outside) = (opened.loads.landed_density(), job.file.setting.outside_density);
    let loads = load_rows(opened, field, ledger)?;
    let length = table.bottom - table.top;
    Some(StringPlan {
        name: table.name.clone(),
        pipe: pipe.name().into(),
        role: table.role,
        top: table.top,
        bottom: table.bottom,
        length,
        od: pipe.outer(),
        id: pipe.inner(),
        drift: pipe.drift(),
        largest_od: table.connection_od.map_or(pipe.largest_outer(), |od| od.max(pipe.largest_outer())),
        weight: pipe.weight(),
        grade: table.grade.clone(),
        connection: pipe.spec().connection.word().into(),
        capacity: pipe.capacity(),
        steel_displacement: pipe.steel_displacement(),
        closed_displacement: pipe.closed_displacement(),
        volume: pipe.capacity() * length,
        buoyed_weight: take(pipe.buoyed_weight(inside, outside), field, ledger)?,
        hung: ledger.take("the hung weight", opened.loads.below(table.top))?,
        sharpest_bend: sharpest(job, table.top, table.bottom),
        ratings: opened.ratings.result(),
        governing: factors::governing(&loads, &job.file.limits),
        loads,
        connection_governs: opened.ratings.connection_governs(),
    })
}

fn load_rows(opened: &Opened<'_>, field: &str, ledger: &mut Ledger) -> Option<Vec<LoadRow>> {
    let mut rows = Vec::new();
    for case in LoadCase::ALL {
        for place in &opened.places {
            let row = ledger.take("the force in a string", opened.loads.row(case, place))?;
            let rated = factors::factors(&opened.loads.string.pipe, &opened.ratings, row);
            rows.push(take(rated, field, ledger)?);
        }
    }
    Some(rows)
}

/// Of all courses of the survey, the place where some case stresses the body most.
fn worst_bend(loads: &Loads<'_>) -> physics::Result<Option<Place>> {
    let mut worst: Option<(Pressure, Place)> = None;
    for place in bends(loads.around, loads.string) {
        for case in LoadCase::ALL {
            let stress = factors::stress(&loads.string.pipe, &loads.row(case, &place)?)?;
            if worst.is_none_or(|(w, _)| stress > w) {
                worst = Some((stress, place));
            }
        }
    }
    Ok(worst.map(|(_, place)| place))
}

fn assumptions(around: &Surroundings<'_>) -> Vec<Text> {
    let toe = around.job.rock_temperature(around.toe().tvd);
    let pumped = around.job.file.rock.pumped_temperature;
    let heaviest = around.heaviest;
    [
        "the treating string is held at the wellhead and at the casing packer, and the liner by each packer; \
         nothing slips and nothing buckles"
            .into(),
        "setting and test pressures act through the treating string with the toe closed, the liner hung on it; \
         a string used only for running is not rated here"
            .into(),
        said!("pumping cools all pipe, the casing too, to {pumped} over its whole length"),
        said!("flowing back warms all pipe to the toe's {toe}; the bore is empty and the annulus at its limit"),
        said!("a screenout leaves the whole column at the heaviest mixture, {heaviest}, with no friction"),
        "friction while treating leaves the fracture pressure at the toe, and is even along the hole".into(),
        "outside the liner and the casing stands pore pressure once the packers have set (or the pressure trapped \
         then, where the job says so); the casing is cemented over its length and was run in the annulus fluid"
            .into(),
        "below the casing packer the casing sees the bore's pressure, but no more than fractures the rock below \
         its shoe"
            .into(),
        "a ball on the widest seat (the largest ball of the ladder less its interference) has pore pressure below \
         it; above it its stage is open and at fracture pressure outside, but at the trip its sleeve has stayed shut"
            .into(),
        "below the seat the pipe has pore pressure inside and its stage's annulus outside, which a screenout brings \
         to the pressure of the bore above"
            .into(),
        "stress is that of the thinnest wall allowed where the inside is the higher, of the nominal wall elsewhere"
            .into(),
    ]
    .into()
}

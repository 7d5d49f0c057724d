//! Safety factors at a place: burst, collapse, tension and combined stress.

use physics::tubular::collapse_yield::{CollapseLoad, CollapseMethod};
use physics::tubular::steel::Steel;
use physics::tubular::triaxial::{SectionLoad, SectionSteel, triaxial};
use quantity::*;
use well::job::Limits;
use well::tubular::{Pipe, TubularError};

use super::ratings::PipeRatings;
use super::result::{Criterion, Governing, LoadRow};

/// Differences and stresses below this count as no load.
const NO_PRESSURE: Pressure = Pressure::psi(10.0);
/// Forces below this count as no load.
const NO_FORCE: Force = Force::lbf(10.0);

/// The load on a section of pipe.
pub(super) fn section(row: &LoadRow) -> SectionLoad {
    SectionLoad {
        axial_force: row.axial,
        internal_pressure: row.inside.above_atmosphere(),
        external_pressure: row.outside.above_atmosphere(),
        curvature: row.bend,
        torque: Torque::ZERO,
    }
}

/// The load on collapse beside the outside pressure.
pub(super) fn collapse_load(pipe: &Pipe, row: &LoadRow) -> CollapseLoad {
    CollapseLoad {
        axial_stress: row.axial / pipe.tube().steel_area(),
        internal_pressure: row.inside.above_atmosphere().max(Pressure::ZERO),
    }
}

/// The wall that stress is taken of: the thinnest allowed where the inside is the higher, the
/// nominal one where the outside is, as the standard has it for internal yield and collapse.
pub(super) fn wall(pipe: &Pipe, row: &LoadRow) -> Ratio {
    if row.inside > row.outside { pipe.spec().wall_tolerance } else { Ratio::of(1.0) }
}

/// The greatest von Mises stress of a row.
pub(super) fn stress(pipe: &Pipe, row: &LoadRow) -> physics::Result<Pressure> {
    let steel = SectionSteel { wall_tolerance: wall(pipe, row), modulus: Steel::default().modulus };
    Ok(triaxial(pipe.tube(), steel, section(row))?.von_mises())
}

/// Fills in the safety factors of a row.
pub(super) fn factors(pipe: &Pipe, ratings: &PipeRatings, row: LoadRow) -> Result<LoadRow, TubularError> {
    let out = row.inside - row.outside;
    let burst = (out > NO_PRESSURE).then(|| Ratio::of(ratings.internal_limit() / out));
    let collapse = if -out > NO_PRESSURE {
        let allowed = pipe.collapse_under(collapse_load(pipe, &row), CollapseMethod::default())?;
        Some(Ratio::of(allowed.value / -out))
    } else {
        None
    };
    let pull = row.axial.abs();
    let tension = (pull > NO_FORCE).then(|| Ratio::of(ratings.axial_limit(row.axial) / pull));
    let von_mises = stress(pipe, &row)?;
    let combined = (von_mises > NO_PRESSURE).then(|| Ratio::of(pipe.yield_strength() / von_mises));
    Ok(LoadRow { von_mises, burst, collapse, tension, triaxial: combined, ..row })
}

/// The factor the job asks for.
pub(super) fn required(criterion: Criterion, limits: &Limits) -> Ratio {
    match criterion {
        Criterion::Burst => limits.burst_factor,
        Criterion::Collapse => limits.collapse_factor,
        Criterion::Tension => limits.tension_factor,
        Criterion::Triaxial => limits.triaxial_factor,
    }
}

/// The lowest factor of each criterion that is loaded.
pub(super) fn governing(rows: &[LoadRow], limits: &Limits) -> Vec<Governing> {
    let lowest = |criterion: Criterion| {
        let loaded = rows.iter().filter_map(|r| criterion.of(r).map(|f| (r, f)));
        let (row, factor) = loaded.min_by(|a, b| a.1.total_cmp(&b.1))?;
        let required = required(criterion, limits);
        let (case, point, depth) = (row.case, row.point, row.depth);
        Some(Governing { criterion, case, point, depth, factor, required })
    };
    Criterion::ALL.into_iter().filter_map(lowest).collect()
}

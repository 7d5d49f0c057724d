//! Survey, hole and rock.

use quantity::*;

use super::FractureTable;
use crate::record::{choice, record};

choice! {
    /// What azimuths are measured from.
    pub enum North {
        /// Grid north.
        Grid = "grid",
        /// True north.
        True = "true",
        /// Magnetic north.
        Magnetic = "magnetic",
    }
}

record! {
    /// The directional survey.
    pub struct Survey {
        /// File beside the job file: CSV, or a WITSML 1.4.1.1 trajectory (`.xml`).
        file: String [required],
        /// What azimuths are measured from.
        north: North [required],
        /// What depths are measured from, such as "rotary table".
        datum: String [required],
        /// Elevation of that datum above sea level.
        datum_elevation: TrueVerticalDepth [optional],
        /// Azimuth of the vertical section; the closure direction if absent.
        section_azimuth: Angle [optional],
        /// Unit of depths where the file names none: "ft" or "m".
        depth_unit: String [optional],
    }
}

choice! {
    /// Whether a section of hole is cased.
    pub enum SectionKind {
        /// Open hole.
        Open = "open",
        /// Cased hole.
        Cased = "cased",
    }
}

record! {
    /// One section of the hole, from the one above down to its bottom.
    pub struct SectionTable {
        /// Name.
        name: String [required],
        /// Cased or open.
        kind: SectionKind [required],
        /// Upper end.
        top: MeasuredDepth [required],
        /// Lower end.
        bottom: MeasuredDepth [required],
        /// Bit size of an open section, inner diameter of a cased one.
        diameter: Diameter [required],
    }
}

record! {
    /// A caliper log.
    pub struct CaliperTable {
        /// LAS 1.2 or 2.0 file beside the job file.
        file: String [required],
        /// Curve of the diameter; found by its mnemonic if absent.
        curve: String [optional],
        /// Added to log depths to bring them to the tally, where the log is shallow to it.
        shift_down: Length [default "0 ft"],
        /// Taken off log depths, where the log is deep to the tally.
        shift_up: Length [default "0 ft"],
        /// Accuracy of the caliper, one standard deviation.
        sigma: Diameter [assume "0.05 in" because "memory: typical of multi-arm calipers; take the log header's figure"],
    }
}

record! {
    /// The hole as drilled.
    pub struct HoleTable {
        /// Measured depth of the bottom of the hole.
        total_depth: MeasuredDepth [required],
        /// Sections from the surface down.
        section: SectionTable [list],
        /// Caliper log of the open hole.
        caliper: CaliperTable [optional],
        /// Uncertainty of pipe depth against log depth at total depth, one standard deviation;
        /// it grows linearly from zero at the surface.
        depth_sigma: Length [assume "5 ft" because "memory: driller's tally against wireline at 20,000 ft; agree it with the logging supervisor"],
    }
}

record! {
    /// Rock stress and temperature.
    pub struct Rock {
        /// Fracture propagation gradient: treating pressure at the sleeve over true vertical depth.
        fracture_gradient: PressureGradient [required],
        /// Pore pressure gradient.
        pore_gradient: PressureGradient [required],
        /// Undisturbed temperature at the surface.
        surface_temperature: Temperature [required],
        /// Undisturbed temperature at the reference depth.
        bottom_temperature: Temperature [required],
        /// The reference depth of that temperature.
        bottom_temperature_depth: TrueVerticalDepth [required],
        /// Thermal conductivity of the rock.
        conductivity: Conductivity [assume "2.5 W/(m.K)" because "memory: mid-range of sediments; measure or take from the area"],
        /// Heat capacity of the rock per volume.
        heat_capacity: VolumetricHeat [assume "2.2 MJ/(m3.K)" because "memory: mid-range of sediments; measure or take from the area"],
        /// Temperature at which fluids are pumped.
        pumped_temperature: Temperature [required],
        /// Where these figures come from.
        source: String [required],
        /// A log of rock quality, higher is better, that draws sleeves to it.
        quality: QualityLog [optional],
        /// How the rock opens and takes fluid, for the simulator; without it a stage takes fluid at
        /// its fracture gradient, whatever went in.
        fracture: FractureTable [optional],
    }
}

record! {
    /// A log that says how good the rock is.
    pub struct QualityLog {
        /// LAS file beside the job file.
        file: String [required],
        /// Curve.
        curve: String [required],
        /// Whether a higher reading is better rock.
        higher_is_better: bool [required],
        /// Added to log depths to bring them to the tally, where the log is shallow to it.
        shift_down: Length [default "0 ft"],
        /// Taken off log depths, where the log is deep to the tally.
        shift_up: Length [default "0 ft"],
    }
}

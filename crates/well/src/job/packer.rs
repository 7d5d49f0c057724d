//! Packers and pressure devices.

use quantity::*;

use super::completion::Reference;
use crate::record::record;

record! {
    /// A device that shears or bursts at a pressure.
    pub struct Device {
        /// Nominal pressure at the device.
        nominal: Pressure [required],
        /// Bias of the lot, common to all pins: half width as a share of nominal.
        lot_bias: Ratio [required],
        /// Scatter from pin to pin, one standard deviation as a share of a pin.
        pin_scatter: Ratio [default "0"],
        /// How many pins share the load.
        pins: usize [default "1"],
        /// What it measures against.
        reference: Reference [default "differential"],
        /// Share of nominal that is left at the temperature of use.
        temperature_factor: Ratio [default "1"],
        /// Shear certificate or data sheet.
        source: String [required],
    }
}

record! {
    /// One point of a rated envelope.
    pub struct Envelope {
        /// Differential pressure.
        differential: Pressure [required],
        /// Largest load pulling down on it at that differential.
        tension: Force [required],
        /// Largest load pushing up on it at that differential.
        compression: Force [required],
    }
}

record! {
    /// One point of a packer's rating: the differential it holds in a hole of this size.
    pub struct RatingRow {
        /// Hole size.
        hole: Diameter [required],
        /// Temperature.
        temperature: Temperature [required],
        /// Differential pressure it holds.
        pressure: Pressure [required],
    }
}

record! {
    /// One reading of a swell test.
    pub struct SwellRow {
        /// Time in the fluid at the reference temperature.
        time: Time [required],
        /// Outer diameter.
        od: Diameter [required],
    }
}

record! {
    /// The supplier's swell curve of the full-section element.
    pub struct Swell {
        /// Fluid of the test.
        fluid: String [required],
        /// Temperature of the test.
        temperature: Temperature [required],
        /// Lowest temperature the supplier has tested.
        coldest_test: Temperature [required],
        /// Highest temperature the supplier has tested.
        hottest_test: Temperature [required],
        /// Readings, by time.
        row: SwellRow [list],
        /// Activation energy of the uptake.
        activation_energy: MolarEnergy [required],
        /// Standard deviation of the activation energy.
        activation_energy_sigma: MolarEnergy [required],
        /// Standard deviation of the swell (of the growth in diameter) from element to element, as a share.
        swell_sigma: Ratio [required],
        /// Growth past contact that the supplier asks before the full rating holds: swell the
        /// element would have, free, beyond the hole, on the diameter.
        rating_interference: Diameter [required],
        /// Where the curve comes from.
        source: String [required],
    }
}

record! {
    /// The open-hole packer.
    pub struct Packer {
        /// Outer diameter as run.
        od: Diameter [required],
        /// Overall length.
        length: Length [required],
        /// Length of the sealing element, or of all elements with what is between.
        element_length: Length [required],
        /// Distance from the upper end to the top of the element.
        element_from_top: Length [required],
        /// Outer diameter of the mandrel under the element.
        mandrel_od: Diameter [required],
        /// Inner diameter.
        id: Diameter [required],
        /// Mass.
        mass: Mass [required],
        /// Largest hole it is rated in.
        largest_hole: Diameter [required],
        /// Smallest hole it may stand in.
        smallest_hole: Diameter [required],
        /// Sharpest bend it may stand in.
        max_dogleg: Curvature [required],
        /// Highest temperature.
        max_temperature: Temperature [required],
        /// Rating by hole size and temperature.
        rating: RatingRow [list],
        /// Swell curve (fluid-activated).
        swell: Swell [optional],
        /// What starts it to set (hydraulic-set).
        start: Device [optional],
        /// Differential that sets it fully (hydraulic-set).
        full_set: Pressure [optional],
        /// Outer diameter of the setting piston (hydraulic-set).
        piston_od: Diameter [optional],
        /// Inner diameter of the setting piston (hydraulic-set).
        piston_id: Diameter [optional],
        /// Where these figures come from.
        source: String [required],
    }
}

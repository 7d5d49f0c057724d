//! Temperature and pressures at a ball.

use physics::fluid::slurry::SLURRY_DENSITY;
use physics::heat::geothermal::GEOTHERMAL_TEMPERATURE;
use physics::hydraulics::column::HYDROSTATIC_COLUMN;
use physics::hydraulics::port::PORT_LOSS;
use physics::hydraulics::step_down::NEAR_WELLBORE_LOSS;
use physics::{Evaluation, Result};
use quantity::*;

use super::Desk;
use crate::ladder::duty::Duty;
use crate::ladder::result::RungPlan;

impl Desk<'_> {
    pub(super) fn temperature(&mut self, rung: &RungPlan, duty: &Duty) -> Result<()> {
        let rock = &self.scene.job.file.rock;
        let warming = (rock.bottom_temperature - rock.surface_temperature).si();
        let gradient = TemperatureGradient::k_per_m(warming / rock.bottom_temperature_depth.si().max(1.0));
        let earth = GEOTHERMAL_TEMPERATURE.call().with("surface", rock.surface_temperature);
        let earth = earth.with("gradient", gradient).with("depth", duty.tvd).run()?;
        let note = match rung.temperature > duty.rock {
            true => "colder than the coldest row of the strength table, which is taken",
            false => "the undisturbed rock at the sleeve; the ball is cooler while fluid is pumped",
        };
        self.say(
            rung,
            ("temperature", "Temperature the strength is taken at"),
            rung.temperature,
            &[&earth],
            note,
        );
        Ok(())
    }

    pub(super) fn expected(&mut self, rung: &RungPlan, duty: &Duty) -> Result<()> {
        let file = &self.scene.job.file;
        let root = file.treatment.rate.si().max(f64::MIN_POSITIVE).sqrt();
        let near = NEAR_WELLBORE_LOSS.call().with("rate", duty.pumped.rate);
        let near =
            near.with("near_wellbore", RateRootLoss::si(file.treatment.near_wellbore.si() / root)).run()?;
        let ports = PORT_LOSS.call().with("rate", duty.pumped.rate).with("density", self.scene.heaviest.1);
        let ports =
            ports.number("count", file.sleeve.ports as f64).with("diameter", file.sleeve.port_diameter);
        let ports = ports.with("cd", file.sleeve.port_coefficient).run()?;
        let note = said!(
            "{} times {} plus near-wellbore and port friction is {}; less {} below the ball",
            duty.pumped.fracture_gradient,
            duty.tvd,
            duty.treating,
            duty.below
        );
        let title = ("treating_pressure", "Treating pressure inside the sleeve, gauge");
        self.say(rung, title, rung.treating_pressure, &[&near, &ports], &note);
        let below = "pore pressure gradient times the depth of the stage below; below stage 1 the lower of pore \
                     pressure and a column of the lightest fluid";
        self.say(rung, ("pressure_below", "Pressure below the ball, gauge"), rung.pressure_below, &[], below);
        let title = ("expected_differential", "Differential the ball is expected to hold");
        self.say(rung, title, rung.expected_differential, &[&near, &ports], &note);
        Ok(())
    }

    pub(super) fn worst_static(&mut self, rung: &RungPlan, duty: &Duty) -> Result<()> {
        let file = &self.scene.job.file;
        let (mixture, density) = &self.scene.heaviest;
        let mut steps = Vec::new();
        if mixture.proppant.is_some() {
            let slurry = SLURRY_DENSITY.call().with("clean_density", mixture.fluid.density);
            let slurry = slurry.with("proppant_density", mixture.grain_density());
            steps.push(slurry.with("concentration", mixture.concentration).run()?);
        }
        let column = HYDROSTATIC_COLUMN.call().with("top_pressure", file.limits.treating_pressure.absolute());
        let column = column.list("tvd", &[TrueVerticalDepth::ZERO, duty.tvd]);
        let column = column.list("temperature", &[file.rock.surface_temperature, duty.rock]);
        steps.push(column.word("fluid", "fixed").with("density", *density).run()?);
        let note = said!(
            "the column under the surface at its limit is {} gauge; less {} below the ball",
            duty.worst,
            duty.below
        );
        let steps: Vec<&Evaluation> = steps.iter().collect();
        let title = ("worst_pressure", "Static pressure above the ball with the surface at its limit, gauge");
        self.say(rung, title, rung.worst_pressure, &steps, &note);
        let title = ("worst_differential", "Differential of the worst static case");
        self.say(rung, title, rung.worst_differential, &steps, &note);
        Ok(())
    }
}

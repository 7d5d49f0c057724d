//! Pressure build-up in a sealed string: its compressibility, the volume to pump, the rate of rise.

use super::pipe_wall::{BORE, OUTSIDE, POISSON, RESTRAINT, WALL, YOUNG, read_compliance};
use crate::error::{Result, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{AbsolutePressure, Compressibility, FlowRate, Pressure, PressureRate, Quantity, Time, Volume};

const NAME: &str = "sealed_pressure";

/// A sealed volume of liquid in a pipe that gives, with gas trapped in it or without.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SealedVolume {
    /// Liquid volume.
    pub volume: Volume,
    /// Isothermal bulk modulus of the liquid.
    pub modulus: Pressure,
    /// Compliance of the pipe's wall.
    pub wall: Compressibility,
    /// Volume of trapped gas at the starting pressure.
    pub gas: Volume,
    /// Starting pressure; only the gas needs it.
    pub start: AbsolutePressure,
}

impl SealedVolume {
    /// A volume without gas.
    pub fn liquid(volume: Volume, modulus: Pressure, wall: Compressibility) -> Self {
        Self { volume, modulus, wall, gas: Volume::ZERO, start: AbsolutePressure::psi(14.7) }
    }

    /// Compressibility of liquid and pipe together.
    ///
    /// `c = 1/K + C`
    ///
    /// `K` isothermal bulk modulus of the liquid (Pa), `C` compliance of the wall (1/Pa),
    /// [`super::pipe_wall::wall_compliance`].
    ///
    /// Range: no free gas; external support of the pipe left out.
    ///
    /// The modulus rises with pressure and changes with heat: take it at the middle of the string.
    ///
    /// Source: wylie_streeter1993 ch. 1; lame1852.
    ///
    /// ```
    /// use physics::hydraulics::sealed_pressure::SealedVolume;
    /// use quantity::{Compressibility, Pressure, Volume};
    /// let c = Compressibility::per_psi;
    /// let liner = SealedVolume::liquid(Volume::bbl(100.0), Pressure::gpa(2.4), c(5.43e-7));
    /// assert!((liner.compressibility()?.in_per_psi() - 3.416e-6).abs() < 1e-9);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn compressibility(&self) -> Result<Compressibility> {
        require_positive(NAME, "modulus", self.modulus)?;
        require_not_negative(NAME, "compliance", self.wall)?;
        // c = 1/K + C
        Ok(Compressibility::per_pa(1.0 / self.modulus.si() + self.wall.si()))
    }

    /// Volume to pump for a rise of the pressure.
    ///
    /// `dV = V c dp + V_g dp/(p + dp)`
    ///
    /// `V` liquid volume, `V_g` gas volume at the start (m³), `p` absolute pressure at the start,
    /// `dp` rise (Pa), `c` of [`SealedVolume::compressibility`].
    ///
    /// Range: the liquid's modulus is taken as constant; gas ideal and at constant temperature.
    ///
    /// One barrel of gas at 5000 psi takes as much as sixty of water.
    ///
    /// Source: wylie_streeter1993 ch. 1 (liquid and pipe); Boyle's law for the gas.
    ///
    /// ```
    /// use physics::hydraulics::sealed_pressure::SealedVolume;
    /// use quantity::{Compressibility, Pressure, Volume};
    /// let c = Compressibility::per_psi;
    /// let liner = SealedVolume::liquid(Volume::bbl(100.0), Pressure::gpa(2.4), c(5.43e-7));
    /// let pumped = liner.volume_to_pump(Pressure::psi(1000.0))?;
    /// assert!((pumped.in_bbl() - 0.34).abs() < 0.005);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn volume_to_pump(&self, rise: Pressure) -> Result<Volume> {
        self.check()?;
        require_not_negative(NAME, "pressure_rise", rise)?;
        // dV = V c dp + V_g dp/(p + dp)
        let liquid = self.volume.si() * self.compressibility()?.si() * rise.si();
        let gas = self.gas.si() * rise.si() / (self.start.si() + rise.si());
        Ok(Volume::m3(liquid + gas))
    }

    /// Rate of rise of the pressure at the start.
    ///
    /// `dp/dt = q/(V c + V_g/p)`
    ///
    /// Symbols as in [`SealedVolume::volume_to_pump`], `q` rate (m³/s).
    ///
    /// Range: slow against the round trip of a pressure wave; faster, it is the mean slope of a
    /// staircase.
    ///
    /// Source: wylie_streeter1993 ch. 1 (liquid and pipe); Boyle's law for the gas.
    ///
    /// ```
    /// use physics::hydraulics::sealed_pressure::SealedVolume;
    /// use quantity::{Compressibility, FlowRate, Pressure, Volume};
    /// let c = Compressibility::per_psi;
    /// let liner = SealedVolume::liquid(Volume::bbl(250.0), Pressure::gpa(2.4), c(5.43e-7));
    /// let slope = liner.pressure_rate(FlowRate::bbl_per_min(10.0))?;
    /// assert!((slope.in_psi_per_s() - 195.0).abs() < 0.5);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn pressure_rate(&self, rate: FlowRate) -> Result<PressureRate> {
        self.check()?;
        require_not_negative(NAME, "rate", rate)?;
        // dp/dt = q/(V c + V_g/p)
        let storage = self.volume.si() * self.compressibility()?.si() + self.gas.si() / self.start.si();
        Ok(PressureRate::pa_per_s(rate.si() / storage))
    }

    fn check(&self) -> Result<()> {
        require_positive(NAME, "volume", self.volume)?;
        require_not_negative(NAME, "gas_volume", self.gas)?;
        require_positive(NAME, "start_pressure", self.start)
    }
}

/// Register entry of [`SealedVolume`].
pub static SEALED_PRESSURE: Relation = Relation {
    name: NAME,
    title: "Pressure build-up in a sealed string",
    equation: "c = 1/K + C; dV = V c dp + V_g dp/(p + dp); dp/dt = q/(V c + V_g/p)",
    source: "wylie_streeter1993 ch. 1; lame1852",
    range: "constant modulus; gas ideal and at constant temperature",
    inputs: &[
        Input::new::<Volume>("volume", "sealed liquid volume"),
        Input::new::<Pressure>("modulus", "isothermal bulk modulus of the liquid"),
        Input::new::<FlowRate>("rate", "rate pumped in").or("0 bbl/min"),
        Input::new::<Pressure>("pressure_rise", "rise of the pressure").or("1000 psi"),
        Input::new::<Volume>("gas_volume", "trapped gas at the starting pressure").or("0 bbl"),
        Input::new::<AbsolutePressure>("start_pressure", "starting pressure, for the gas").or("14.6959 psia"),
        BORE,
        OUTSIDE,
        YOUNG,
        POISSON,
        WALL,
        RESTRAINT,
    ],
    outputs: &[
        Output::new::<Compressibility>("compressibility", "of liquid and pipe together"),
        Output::new::<Compressibility>("compliance", "of the pipe alone"),
        Output::new::<Volume>("volume_to_pump", "volume for the rise"),
        Output::new::<PressureRate>("pressure_rate", "rate of rise at the start"),
        Output::new::<Time>("time", "time to pump the rise at the rate; 0 at no rate"),
    ],
    evaluate: |a| {
        let sealed = SealedVolume {
            volume: a.get("volume")?,
            modulus: a.get("modulus")?,
            wall: read_compliance(a)?,
            gas: a.get("gas_volume")?,
            start: a.get("start_pressure")?,
        };
        let rate: FlowRate = a.get("rate")?;
        let pumped = sealed.volume_to_pump(a.get("pressure_rise")?)?;
        let time = if rate == FlowRate::ZERO { Time::ZERO } else { pumped / rate };
        Ok(Outputs::new()
            .put("compressibility", sealed.compressibility()?)
            .put("compliance", sealed.wall)
            .put("volume_to_pump", pumped)
            .put("pressure_rate", sealed.pressure_rate(rate)?)
            .put("time", time))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    fn liner() -> SealedVolume {
        SealedVolume::liquid(Volume::bbl(200.0), Pressure::gpa(2.4), Compressibility::per_psi(5.0e-7))
    }

    #[test]
    fn pumping_at_the_rate_gives_the_rise() {
        let (s, q) = (liner(), FlowRate::bbl_per_min(2.0));
        let rise = Pressure::psi(800.0);
        let time = s.volume_to_pump(rise).unwrap() / q;
        assert!((s.pressure_rate(q).unwrap() * time / rise - 1.0).abs() < 1e-12);
    }

    #[test]
    fn gas_swamps_water() {
        let mut s = liner();
        s.start = AbsolutePressure::psi(5000.0);
        s.volume = Volume::bbl(1.0);
        let rise = Pressure::psi(0.01);
        let water = s.volume_to_pump(rise).unwrap();
        s.gas = Volume::bbl(1.0);
        let ratio = (s.volume_to_pump(rise).unwrap() - water) / water;
        assert!((ratio - 59.3).abs() < 0.1, "{ratio}");
    }

    #[test]
    fn nonsense_is_refused() {
        let mut s = liner();
        assert!(s.volume_to_pump(Pressure::psi(-1.0)).is_err());
        assert!(s.pressure_rate(FlowRate::bbl_per_min(-1.0)).is_err());
        s.volume = Volume::ZERO;
        assert!(s.pressure_rate(FlowRate::bbl_per_min(1.0)).is_err());
    }
}

//! What a wave does where the pipe changes.

use crate::error::{Result, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Area, Density, Diameter, Quantity, Ratio, Velocity};

const NAME: &str = "wave_reflection";

/// A pipe with its fluid, as a wave sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WavePipe {
    /// Density of the fluid.
    pub density: Density,
    /// Wave speed.
    pub wave_speed: Velocity,
    /// Area of the bore.
    pub area: Area,
}

impl WavePipe {
    /// `b = rho a/A`, Pa/(m³/s).
    fn impedance(&self) -> Result<f64> {
        require_positive(NAME, "density", self.density)?;
        require_positive(NAME, "wave_speed", self.wave_speed)?;
        require_positive(NAME, "area", self.area)?;
        // b = rho a/A
        Ok(self.density.si() * self.wave_speed.si() / self.area.si())
    }
}

/// Shares of a pressure wave that go back and go on where two pipes meet.
///
/// `r = (b_2 - b_1)/(b_2 + b_1)`, `s = 2 b_2/(b_1 + b_2)`, `b = rho a/A`
///
/// `rho` density (kg/m³), `a` wave speed (m/s), `A` area (m²), 1 the pipe the wave comes from, 2
/// the other.
///
/// Range: no loss where they meet; waves long against the bore.
///
/// Into a narrower pipe the pressure step grows, into a wider one it shrinks. A closed end gives
/// back the whole (`r = 1`), an end that keeps its pressure gives it back upside down (`r = -1`).
///
/// Source: wylie_streeter1993 ch. 3.
///
/// ```
/// use physics::hammer::reflection::{WavePipe, wave_reflection};
/// use quantity::{Density, Diameter, Velocity};
/// let pipe = |inch| WavePipe {
///     density: Density::kg_per_m3(1000.0),
///     wave_speed: Velocity::m_per_s(1420.0),
///     area: Diameter::inch(inch).circle(),
/// };
/// let (back, on) = wave_reflection(pipe(4.0), pipe(8.0))?;
/// assert!((back + 0.6).abs() < 1e-12 && (on - 0.4).abs() < 1e-12);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn wave_reflection(from: WavePipe, into: WavePipe) -> Result<(f64, f64)> {
    let (b1, b2) = (from.impedance()?, into.impedance()?);
    // r = (b_2 - b_1)/(b_2 + b_1), s = 2 b_2/(b_1 + b_2)
    Ok(((b2 - b1) / (b2 + b1), 2.0 * b2 / (b1 + b2)))
}

/// Register entry of [`wave_reflection`].
pub static WAVE_REFLECTION: Relation = Relation {
    name: NAME,
    title: "Shares of a pressure wave that go back and go on where two pipes meet",
    equation: "r = (b_2 - b_1)/(b_2 + b_1); s = 2 b_2/(b_1 + b_2); b = rho a/A",
    source: "wylie_streeter1993 ch. 3",
    range: "no loss where they meet; waves long against the bore",
    inputs: &[
        Input::new::<Diameter>("bore_1", "bore the wave comes from"),
        Input::new::<Diameter>("bore_2", "bore beyond"),
        Input::new::<Velocity>("wave_speed_1", "wave speed in the first"),
        Input::new::<Velocity>("wave_speed_2", "wave speed in the second"),
        Input::new::<Density>("density_1", "density in the first"),
        Input::new::<Density>("density_2", "density in the second"),
    ],
    outputs: &[
        Output::new::<Ratio>("reflected", "share of the pressure step that goes back"),
        Output::new::<Ratio>("transmitted", "share that goes on"),
    ],
    evaluate: |a| {
        let pipe = |density, speed, bore| -> Result<WavePipe> {
            Ok(WavePipe {
                density: a.get(density)?,
                wave_speed: a.get(speed)?,
                area: a.get::<Diameter>(bore)?.circle(),
            })
        };
        let first = pipe("density_1", "wave_speed_1", "bore_1")?;
        let (r, s) = wave_reflection(first, pipe("density_2", "wave_speed_2", "bore_2")?)?;
        Ok(Outputs::new().put("reflected", Ratio::of(r)).put("transmitted", Ratio::of(s)))
    },
};

//! One fracture in time: growth, leak-off, shut-in, closure, reopening, bridged tip.

pub use super::shape::Geometry;

use super::leakoff::Walls;
use super::shape::Shape;
use crate::error::{Error, Result, require_not_negative, require_positive};
use quantity::{Diameter, FlowRate, Leakoff, Length, Pressure, Quantity, Spurt, Time, Toughness};
use quantity::{Viscosity, Volume};

const NAME: &str = "fracture_growth";

/// Rock round a fracture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ground {
    /// Form of the fracture.
    pub geometry: Geometry,
    /// Plane-strain modulus `E' = E/(1 - nu²)`.
    pub modulus: Pressure,
    /// Leak-off coefficient.
    pub leakoff: Leakoff,
    /// Spurt loss.
    pub spurt: Spurt,
    /// Fracture toughness; zero where viscosity alone holds the growth.
    pub toughness: Toughness,
}

/// What one call of [`Fracture::advance`] did.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Advance {
    /// Volume taken in; less than asked for only where a closed fracture had no more to give back.
    pub taken: Volume,
    /// Volume leaked off.
    pub leaked: Volume,
    /// Length gained by a wing, or radius.
    pub gained: Length,
}

/// One fracture, advanced in time at any rate.
///
/// Equation: volume `dV = Q dt − leak-off`, walls by Carter's law over their own ages; growth by
/// `[w̄⁴ − w_k⁴]/(G µ L^k) = (m + k/4) (V/L) dL/dt + q_L`, `V = A w̄`, `A = B L^m`; pressure
/// `p = p̄(w̄) (1 + ε min(1, W⁴/w̄⁴))`, `W⁴ = G µ Q L^k`.
///
/// Symbols: `V` volume open m³, `Q` the whole rate m³/s, `q_L` rate of leak-off m³/s, `L` length of
/// a wing or radius m, `w̄` mean width m, `W` mean width the flow needs, `w_k` mean width at which
/// toughness holds, `µ` viscosity Pa.s; `B`, `G`, `m`, `k` of the form: at a constant rate the
/// growth law is exactly the width law of [`super::pkn::pkn_at_length`],
/// [`super::kgd::kgd_at_length`] or [`super::radial::radial_viscosity`], with or without leak-off.
/// `p̄` the pressure of that width alike in the whole fracture, `ε` the excess at the well while
/// it grows (a quarter for a long wing at constant rate, none for the others).
///
/// Range: none stated; one fluid at a time, two equal wings, one height.
///
/// Assumptions: no growth while nothing is pumped in (the tips stop at shut-in, as Nolte's
/// decline has it); leak-off does not depend on pressure and its clock runs through closure;
/// viscosity and toughness add as fourth powers of width, which is exact for a long wing at
/// constant rate along it and has both limits for the others; with a bridged tip the excess of
/// pressure at the well stays what it was, in proportion to the rate.
///
/// Where it breaks: a wing shorter than the height (PKN), longer (KGD); height growth, layers and
/// stress round older fractures are not in it. Closed, the pressure below the closure stress is
/// not followed: net pressure is zero. Impossible inputs are refused.
///
/// Source: nordgren1972, geertsma_deklerk1969, savitski_detournay2002 (widths); howard_fast1957
/// (leak-off); nolte1979 (shut-in).
///
/// ```
/// use physics::fracture::growth::{Fracture, Geometry, Ground};
/// use physics::fracture::pkn::PknProfile;
/// use quantity::{FlowRate, Leakoff, Length, Pressure, Spurt, Time, Toughness, Viscosity};
/// let ground = Ground {
///     geometry: Geometry::Pkn { height: Length::m(30.0), profile: PknProfile::Usual },
///     modulus: Pressure::gpa(20.0),
///     leakoff: Leakoff::m_per_root_s(4.92e-5),
///     spurt: Spurt::ZERO,
///     toughness: Toughness::ZERO,
/// };
/// let mut fracture = Fracture::new(ground)?;
/// for _ in 0..3600 {
///     let rate = FlowRate::m3_per_s(2.0 * 0.05299576);
///     fracture.advance(Time::seconds(1.0), rate, Viscosity::pa_s(0.2))?;
/// }
/// // the closed form, which holds the last width all the time, has 391 m and 0.479
/// assert!((fracture.length().in_m() - 391.0).abs() < 10.0);
/// assert!((fracture.efficiency() - 0.479).abs() < 0.015);
/// # Ok::<(), physics::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Fracture {
    shape: Shape,
    walls: Walls,
    length: f64,
    volume: f64,
    injected: f64,
    leaked: f64,
    /// Volume that stays when the fracture has closed on proppant or roughness.
    held: f64,
    /// Mean width at which the tip bridged.
    bridged: Option<f64>,
    /// Flow `µ Q` of the last advance.
    flow: f64,
}

impl std::ops::AddAssign for Advance {
    /// One advance after the other.
    fn add_assign(&mut self, next: Self) {
        self.taken += next.taken;
        self.leaked += next.leaked;
        self.gained += next.gained;
    }
}

impl Fracture {
    /// A fracture that has not begun.
    pub fn new(ground: Ground) -> Result<Self> {
        require_positive(NAME, "modulus", ground.modulus)?;
        require_not_negative(NAME, "leakoff", ground.leakoff)?;
        require_not_negative(NAME, "spurt", ground.spurt)?;
        require_not_negative(NAME, "toughness", ground.toughness)?;
        if let Geometry::Pkn { height, .. } | Geometry::Kgd { height } = ground.geometry {
            require_positive(NAME, "height", height)?;
        }
        Ok(Self {
            shape: ground.geometry.shape(ground.modulus, ground.toughness),
            walls: Walls::new(ground.leakoff.si(), ground.spurt.si()),
            length: 0.0,
            volume: 0.0,
            injected: 0.0,
            leaked: 0.0,
            held: 0.0,
            bridged: None,
            flow: 0.0,
        })
    }

    /// Lets time pass with a rate into the fracture (both wings; negative when it gives back).
    pub fn advance(&mut self, time: Time, rate: FlowRate, viscosity: Viscosity) -> Result<Advance> {
        require_not_negative(NAME, "time", time)?;
        require_positive(NAME, "viscosity", viscosity)?;
        let (dt, q, mu) = (time.si(), rate.si(), viscosity.si());
        if !(dt.is_finite() && q.is_finite() && mu.is_finite()) {
            return Err(Error::NotFinite { relation: NAME, output: "rate" });
        }
        let before = (self.injected, self.leaked, self.length);
        self.flow = mu * q.max(0.0);
        let mut left = dt;
        while left > 0.0 {
            let step = if q > 0.0 && self.bridged.is_none() {
                // a tenth of the time in which the fracture would fill anew, at most 64 pieces
                let piece = (0.1 * self.volume / q).max(dt / 64.0);
                if piece > 0.7 * left { left } else { piece }
            } else {
                left
            };
            self.step(step, q, mu);
            left -= step;
        }
        Ok(Advance {
            taken: Volume::m3(self.injected - before.0),
            leaked: Volume::m3(self.leaked - before.1),
            gained: Length::m(self.length - before.2),
        })
    }

    fn step(&mut self, dt: f64, q: f64, mu: f64) {
        let through = self.walls.pass(dt);
        // give back no more than there is
        let taken = (q * dt).max((self.held - self.volume).min(0.0));
        let through = through.min((self.volume + taken - self.held).max(0.0));
        let mut lost = through;
        if q > 0.0 && self.bridged.is_none() {
            let fresh = self.walls.fresh(dt);
            let reached = self.reach(Piece { dt, mu, filled: self.volume + taken - through, through, fresh });
            let more = self.shape.area(reached) - self.shape.area(self.length);
            if more > 0.0 {
                lost += fresh * more;
                self.length = reached;
                self.walls.open(more, dt);
            }
        }
        self.volume = (self.volume + (taken - lost)).max(0.0);
        self.injected += taken;
        self.leaked += lost;
    }

    /// Length at the end of a piece of time, from the growth law in `y = L^(4m + k)`:
    /// `dy/dt = 4 V³ (1 − w_k⁴/w̄⁴)/(B⁴ G µ) − 4 q_L y/V`.
    fn reach(&self, piece: Piece) -> f64 {
        let shape = &self.shape;
        let (begun, face) = (shape.marched(self.length), shape.area(self.length));
        let gain = piece.dt / (shape.face.powi(4) * shape.viscous * piece.mu);
        let v = self.volume;
        // ∫ 4 V³ dt/dt with V straight between its ends
        let cubes = |end: f64| (v * v + end * end) * (v + end);
        // what is left of y when the law is met; it grows with the length
        let miss = |length: f64| {
            let area = shape.area(length);
            let fresh = piece.fresh * (area - face);
            let end = piece.filled - fresh;
            if end <= 0.0 {
                return f64::INFINITY;
            }
            let per = (area / end) * (area / end);
            let held = shape.tough_fourth(length) * per * per;
            let y = shape.marched(length);
            let spent = 4.0 * (piece.through + fresh) * (begun + y) / (v + end);
            y - begun - gain * cubes(end) * (1.0 - held).max(0.0) + spent
        };
        let stands = miss(self.length.max(f64::MIN_POSITIVE));
        if piece.filled <= 0.0 || stands >= 0.0 {
            return self.length;
        }
        // without loss it would gain this: dL = dy/(N L^(N−1)) is an upper bound, as y'' > 0
        let (more, power) = (gain * cubes(piece.filled), f64::from(shape.power()));
        let most = if more < 0.1 * begun {
            self.length * (1.0 + more / (power * begun))
        } else {
            (begun + more).powf(1.0 / power)
        };
        root(miss, (self.length, stands), most.max(self.length))
    }

    /// Bridges the tip: from now on the fracture only widens.
    pub fn screen_out_tip(&mut self) {
        self.bridged.get_or_insert(self.mean());
    }

    /// Whether the tip is bridged.
    pub fn screened_out(&self) -> bool {
        self.bridged.is_some()
    }

    /// Mean width at which the fracture as it stands now will close on what is in it.
    pub fn hold_open(&mut self, mean_width: Diameter) -> Result<()> {
        require_not_negative(NAME, "residual_width", mean_width)?;
        let held = mean_width.si() * self.shape.area(self.length);
        let hint = "It cannot be propped wider than it is open.";
        let limit = format!("at most the mean width, {}", self.mean_width());
        crate::error::require(held <= self.volume, NAME, "residual_width", mean_width, limit, hint)?;
        self.held = held;
        Ok(())
    }

    fn mean(&self) -> f64 {
        let area = self.shape.area(self.length);
        if area > 0.0 { self.volume / area } else { 0.0 }
    }

    fn pressure(&self) -> f64 {
        if self.length <= 0.0 || self.closed() {
            return 0.0;
        }
        let mean = self.mean();
        let level = self.shape.pressure(mean, self.length);
        // the excess at the well belongs to the width at which the tip last moved
        let width = self.bridged.map_or(mean, |w| w.min(mean));
        let flow = (self.shape.viscous_fourth(self.flow, self.length) / width.powi(4)).min(1.0);
        level + self.shape.excess * flow * self.shape.pressure(width, self.length)
    }

    /// Pressure in the fracture at the well above the closure stress; zero when closed.
    pub fn net_pressure(&self) -> Pressure {
        Pressure::pa(self.pressure())
    }

    /// Length of one wing, or the radius.
    pub fn length(&self) -> Length {
        Length::m(self.length)
    }

    /// Greatest width, at the well.
    pub fn width(&self) -> Diameter {
        let open = self.shape.mouth_width(self.pressure(), self.length);
        Diameter::m(open.max(self.mean()))
    }

    /// Width averaged over the face.
    pub fn mean_width(&self) -> Diameter {
        Diameter::m(self.mean())
    }

    /// Area of one face, all wings.
    pub fn area(&self) -> quantity::Area {
        quantity::Area::m2(self.shape.area(self.length))
    }

    /// Volume open.
    pub fn volume(&self) -> Volume {
        Volume::m3(self.volume)
    }

    /// Volume leaked off so far.
    pub fn leaked(&self) -> Volume {
        Volume::m3(self.leaked)
    }

    /// Volume taken in so far, less what was given back.
    pub fn injected(&self) -> Volume {
        Volume::m3(self.injected)
    }

    /// Volume open over volume taken in; one before anything was.
    pub fn efficiency(&self) -> f64 {
        if self.injected > 0.0 { self.volume / self.injected } else { 1.0 }
    }

    /// Whether it was open and has closed, on nothing or on what holds it.
    pub fn closed(&self) -> bool {
        self.length > 0.0 && self.volume <= self.held
    }

    /// The walls by age.
    pub fn walls(&self) -> &Walls {
        &self.walls
    }
}

/// One piece of time of a growing fracture.
struct Piece {
    dt: f64,
    mu: f64,
    /// Volume at its end if no wall opened.
    filled: f64,
    /// Volume lost through the walls there are.
    through: f64,
    /// Volume lost per area that opens.
    fresh: f64,
}

/// Root of a growing function between `low` (with its value, below zero) and `high`: secants kept
/// in the bracket (Illinois), halving while the function is without bound.
fn root(f: impl Fn(f64) -> f64, low: (f64, f64), high: f64) -> f64 {
    let ((mut a, mut fa), mut b) = (low, high);
    let mut fb = f(b);
    let (mut last, mut side) = (b, 0);
    for _ in 0..200 {
        let secant = b - fb * (b - a) / (fb - fa);
        let x = if fb.is_finite() && secant > a && secant < b { secant } else { 0.5 * (a + b) };
        let fx = f(x);
        // secants converge faster than the last move: this one leaves rounding
        if (x - last).abs() <= 1e-11 * x || fx == 0.0 {
            return x;
        }
        last = x;
        let now = if fx < 0.0 { -1 } else { 1 };
        if fx < 0.0 {
            (a, fa) = (x, fx);
            fb *= if side == now { 0.5 } else { 1.0 };
        } else {
            (b, fb) = (x, fx);
            fa *= if side == now { 0.5 } else { 1.0 };
        }
        side = now;
    }
    last
}

//! Proppant in a fracture: parcels of slurry in plug flow that lose fluid, and where they stop.

use super::growth::{Advance, Fracture};
use super::nolte_smith::Form;
use super::screenout::{bridging_opening, profile};
use crate::error::{Result, require};
use quantity::{Diameter, Quantity, Ratio, Volume};
use std::collections::VecDeque;

/// Parcels kept apart.
const MOST: usize = 28;

/// What stops proppant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rules {
    /// Form of the fracture.
    pub form: Form,
    /// Grain diameter.
    pub grain: Diameter,
    /// Width of the fracture over grain diameter below which grains bridge.
    pub width_ratio: f64,
    /// Solid share of a slurry that flows no more.
    pub packed: f64,
    /// Smallest hole on the way in: its diameter, and the ratio at which grains bridge it.
    pub hole: Option<(Diameter, f64)>,
}

/// How proppant stopped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Screenout {
    /// Grains bridge where the fracture has become too narrow ahead of the slurry: the tip.
    TipBridged,
    /// The leading slurry has lost its fluid: the tip.
    TipPacked,
    /// The slurry at the well has lost its fluid or came too thick: near the well.
    WellPacked,
    /// Grains bridge the holes they must pass: near the well.
    HoleBridged,
}

/// A parcel of slurry, numbers in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Parcel {
    volume: f64,
    solid: f64,
    /// Solid share with which it came in.
    entered: f64,
}

impl Parcel {
    fn join(&mut self, other: Self) {
        let volume = self.volume + other.volume;
        self.entered = (self.entered * self.volume + other.entered * other.volume) / volume;
        self.volume = volume;
        self.solid += other.solid;
    }

    /// Fluid it can lose until it is packed.
    fn loose(&self, packed: f64) -> f64 {
        (self.volume - self.solid / packed).max(0.0)
    }
}

/// What fills a fracture, from the tip to the well.
///
/// Equation: each parcel keeps its grains and loses fluid: `dv = −q_L(its walls) dt`,
/// `φ = v_s/v`; it stands at the share of the face that the volume ahead of it and behind it
/// gives.
///
/// Symbols: `v` volume m³, `v_s` of grains m³, `φ` solid share, `q_L` leak-off by Carter's law of
/// the walls beside the parcel, oldest at the well.
///
/// Assumptions: plug flow, grains as fast as the fluid; no settling, no banking; mean width alike
/// along the face when walls are shared out; a parcel that is packed loses no more, its share goes
/// to the slurry behind it. A tip screenout is called where the slurry's front meets a width below
/// `k d`, or the leading slurry is packed; near the well where the last parcel is packed, or the
/// holes are below their own `k d`.
///
/// Range: none stated.
///
/// Where it breaks: heavy grains in thin fluid settle and travel behind: this front is then too far
/// out. Impossible rules are refused.
///
/// Source: nolte1986 (mass balance of a parcel), gruesbeck_collins1982 (holes).
///
/// ```
/// use physics::fracture::growth::{Fracture, Geometry, Ground};
/// use physics::fracture::proppant::{Filling, Rules, Screenout};
/// use physics::fracture::{nolte_smith::Form, pkn::PknProfile};
/// use quantity::{Diameter, FlowRate, Leakoff, Length, Pressure, Ratio, Spurt, Time, Toughness, Viscosity};
/// let mut fracture = Fracture::new(Ground {
///     geometry: Geometry::Pkn { height: Length::m(30.0), profile: PknProfile::Usual },
///     modulus: Pressure::gpa(20.0),
///     leakoff: Leakoff::m_per_root_s(1e-4),
///     spurt: Spurt::ZERO,
///     toughness: Toughness::ZERO,
/// })?;
/// let rules =
///     Rules { form: Form::Pkn, grain: Diameter::mm(0.6), width_ratio: 2.5, packed: 0.6, hole: None };
/// let mut filling = Filling::new(rules)?;
/// let mut stopped = None;
/// for second in 0..3600 {
///     let (dt, rate) = (Time::seconds(1.0), FlowRate::bbl_per_min(40.0));
///     let step = fracture.advance(dt, rate, Viscosity::pa_s(0.1))?;
///     let solid = if second < 300 { 0.0 } else { 0.1 };
///     stopped = stopped.or(filling.advance(&fracture, &step, Ratio::of(solid))?);
/// }
/// // a pad of five minutes is far too small for this rock
/// assert!(matches!(stopped, Some(Screenout::TipBridged | Screenout::TipPacked)));
/// # Ok::<(), physics::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Filling {
    rules: Rules,
    /// From the tip (front) to the well (back).
    parcels: VecDeque<Parcel>,
    losses: Vec<f64>,
}

const NAME: &str = "proppant_placement";

impl Filling {
    /// Nothing in the fracture yet.
    pub fn new(rules: Rules) -> Result<Self> {
        bridging_opening(rules.grain, rules.width_ratio)?;
        if let Some((hole, ratio)) = rules.hole {
            crate::error::require_positive(NAME, "hole", hole)?;
            bridging_opening(rules.grain, ratio)?;
        }
        let hint = "Loose grains pack near 0.6.";
        let inside = rules.packed > 0.0 && rules.packed < 1.0;
        require(inside, NAME, "packed", Ratio::of(rules.packed), "above 0 and below 1", hint)?;
        Ok(Self { rules, parcels: VecDeque::new(), losses: Vec::with_capacity(MOST + 1) })
    }

    /// Follows an advance of the fracture; `solid` is the solid share of the slurry that came in.
    ///
    /// Says how proppant is stopped at the end of it, if it is. Several advances of the fracture
    /// with one slurry may be added up and followed at once.
    pub fn advance(
        &mut self,
        fracture: &Fracture,
        step: &Advance,
        solid: Ratio,
    ) -> Result<Option<Screenout>> {
        let share = solid.si();
        let inside = (0.0..1.0).contains(&share);
        require(inside, NAME, "solid", solid, "from 0 to below 1", "It is a volume share of the slurry.")?;
        self.take(step.taken.si(), share);
        self.lose(fracture, step.leaked.si());
        if self.parcels.iter().any(|p| p.volume <= 1e-12) {
            self.parcels.retain(|p| p.volume > 1e-12);
        }
        Ok(self.stopped(fracture, share))
    }

    fn take(&mut self, volume: f64, share: f64) {
        if volume < 0.0 {
            self.give_back(-volume);
            return;
        }
        if volume == 0.0 {
            return;
        }
        let most = self.slurry_and_pad() / 20.0;
        let alike = |p: &Parcel| {
            (p.solid > 0.0) == (share > 0.0) && (p.entered - share).abs() <= 0.002 && p.volume < most
        };
        match self.parcels.back_mut().filter(|p| alike(p)) {
            Some(last) => last.join(Parcel { volume, solid: share * volume, entered: share }),
            None => self.parcels.push_back(Parcel { volume, solid: share * volume, entered: share }),
        }
        if self.parcels.len() > MOST {
            self.join();
        }
    }

    /// Joins the two neighbours that are smallest together, pad with pad or slurry with slurry.
    fn join(&mut self) {
        let pairs = self.parcels.iter().zip(self.parcels.iter().skip(1)).enumerate();
        let alike = pairs.filter(|(_, (a, b))| (a.solid > 0.0) == (b.solid > 0.0));
        let size = |a: &Parcel, b: &Parcel| a.volume + b.volume;
        let least = alike.min_by(|(_, x), (_, y)| size(x.0, x.1).total_cmp(&size(y.0, y.1)));
        if let Some(at) = least.map(|(at, _)| at)
            && let Some(next) = self.parcels.remove(at + 1)
            && let Some(kept) = self.parcels.get_mut(at)
        {
            kept.join(next);
        }
    }

    fn give_back(&mut self, mut volume: f64) {
        while let Some(mut last) = self.parcels.pop_back() {
            if last.volume > volume {
                last.solid *= 1.0 - volume / last.volume;
                last.volume -= volume;
                self.parcels.push_back(last);
                return;
            }
            volume -= last.volume;
        }
    }

    /// Takes the leak-off of a step out of the parcels, each by the walls beside it.
    fn lose(&mut self, fracture: &Fracture, leaked: f64) {
        if leaked <= 0.0 || self.parcels.is_empty() {
            return;
        }
        self.share_out(fracture, leaked);
        // what a packed parcel cannot lose comes out of the slurry behind it, then of the pad
        let packed = self.rules.packed;
        let mut left = 0.0;
        for (parcel, loss) in self.parcels.iter_mut().zip(&self.losses) {
            let lost = (loss + left).min(parcel.loose(packed));
            left += loss - lost;
            parcel.volume -= lost;
        }
        for parcel in &mut self.parcels {
            if left <= 0.0 {
                break;
            }
            let lost = left.min(parcel.loose(packed));
            left -= lost;
            parcel.volume -= lost;
        }
    }

    /// Share of the leak-off for each parcel, in their order: by area and age of its walls.
    fn share_out(&mut self, fracture: &Fracture, leaked: f64) {
        let per_volume = fracture.walls().whole() / self.slurry_and_pad();
        let mut walls = fracture.walls().losing();
        let (mut piece, mut rate, mut all) = (0.0, 0.0, 0.0);
        self.losses.clear();
        for parcel in self.parcels.iter().rev() {
            let (mut beside, mut loss) = (per_volume * parcel.volume, 0.0);
            while beside > piece {
                loss += piece * rate;
                beside -= piece;
                // the last piece has no end, so that rounding leaves nothing over
                (piece, rate) = walls.next().unwrap_or((f64::INFINITY, rate));
            }
            loss += beside * rate;
            piece -= beside;
            all += loss;
            self.losses.push(loss);
        }
        self.losses.reverse();
        self.losses.iter_mut().for_each(|loss| *loss *= leaked / all);
    }

    fn stopped(&self, fracture: &Fracture, share: f64) -> Option<Screenout> {
        let rules = &self.rules;
        if let Some((hole, ratio)) = rules.hole
            && share > 0.0
            && hole.si() < ratio * rules.grain.si()
        {
            return Some(Screenout::HoleBridged);
        }
        let full = |p: &Parcel| p.solid >= 0.999 * rules.packed * p.volume;
        let leading = self.parcels.iter().find(|p| p.solid > 0.0)?;
        if self.parcels.back().is_some_and(full) {
            return Some(Screenout::WellPacked);
        }
        if full(leading) {
            return Some(Screenout::TipPacked);
        }
        let width = profile(rules.form, self.front().si()) * fracture.mean_width().si();
        (width < rules.width_ratio * rules.grain.si()).then_some(Screenout::TipBridged)
    }

    fn slurry_and_pad(&self) -> f64 {
        self.parcels.iter().map(|p| p.volume).sum()
    }

    fn ahead(&self) -> f64 {
        self.parcels.iter().take_while(|p| p.solid <= 0.0).map(|p| p.volume).sum()
    }

    /// Where the slurry's front stands: share of the face between it and the well; zero before
    /// slurry came in.
    pub fn front(&self) -> Ratio {
        let all = self.slurry_and_pad();
        Ratio::of(if all > 0.0 { (1.0 - self.ahead() / all).clamp(0.0, 1.0) } else { 0.0 })
    }

    /// Pad still ahead of the slurry.
    pub fn pad(&self) -> Volume {
        Volume::m3(self.ahead())
    }

    /// Volume of grains in the fracture.
    pub fn grains(&self) -> Volume {
        Volume::m3(self.parcels.iter().map(|p| p.solid).sum())
    }

    /// Volume of everything in the fracture.
    pub fn volume(&self) -> Volume {
        Volume::m3(self.slurry_and_pad())
    }

    /// Solid share of the slurry at its front and at the well.
    pub fn solid_shares(&self) -> (Ratio, Ratio) {
        let of = |p: Option<&Parcel>| Ratio::of(p.map_or(0.0, |p| p.solid / p.volume));
        (of(self.parcels.iter().find(|p| p.solid > 0.0)), of(self.parcels.back()))
    }
}

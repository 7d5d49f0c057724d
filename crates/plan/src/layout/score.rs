//! How good a place is: penalties of packer and sleeve places, and the hard limits.

use super::problem::{Fixed, Ground, Problem, Zone};

/// Why a place is not taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Refusal {
    /// The hole is larger than the packer is rated for.
    HoleTooLarge,
    /// The hole is smaller than the packer may stand in.
    HoleTooSmall,
    /// The rating in that hole at that temperature is below what it must hold.
    RatingTooLow,
    /// The supplier gives no rating for a hole of that size at that temperature.
    Unrated,
    /// The bend is too sharp.
    BendTooSharp,
    /// The place is in an exclusion zone.
    Excluded,
    /// The rock is too hot.
    TooHot,
    /// The place is above the heel limit or below the toe limit.
    OutsideInterval,
    /// The user has fixed the tool elsewhere.
    PinnedElsewhere,
}

impl Refusal {
    /// The reason in words.
    pub fn words(self) -> &'static str {
        match self {
            Refusal::HoleTooLarge => "hole too large",
            Refusal::HoleTooSmall => "hole too small",
            Refusal::RatingTooLow => "rating too low for the differential",
            Refusal::Unrated => "no rating for that hole and temperature",
            Refusal::BendTooSharp => "bend too sharp",
            Refusal::Excluded => "exclusion zone",
            Refusal::TooHot => "too hot",
            Refusal::OutsideInterval => "outside the interval to be treated",
            Refusal::PinnedElsewhere => "pinned elsewhere",
        }
    }
}

fn in_zone(zones: &[Zone], top: f64, bottom: f64) -> bool {
    zones.iter().any(|z| top < z.to && bottom > z.from)
}

/// Penalty of nearness to zones: 1 at the edge, 0 from `reach` away.
fn nearness(zones: &[Zone], top: f64, bottom: f64, reach: f64) -> f64 {
    if reach <= 0.0 {
        return 0.0;
    }
    let gap = |z: &Zone| (top - z.to).max(z.from - bottom).max(0.0);
    zones.iter().map(|z| (1.0 - gap(z) / reach).max(0.0)).fold(0.0, f64::max)
}

fn misses_pin(pins: &[Fixed], stage: usize, middle: f64) -> bool {
    pins.iter().any(|p| p.stage == stage && (middle - p.depth).abs() > p.within)
}

impl Problem {
    /// Penalty of a packer of `stage` whose lower end is at `bottom`, or why it cannot stand
    /// there. A longer element never has a smaller penalty: every term is the worst over the
    /// element.
    pub fn packer_penalty(&self, ground: &impl Ground, stage: usize, bottom: f64) -> Result<f64, Refusal> {
        let tool = &self.packer;
        let top = bottom - tool.length;
        let element_top = top + tool.from_top;
        let element_bottom = element_top + tool.part;
        if element_top < self.heel_limit || element_bottom > self.toe_limit {
            return Err(Refusal::OutsideInterval);
        }
        if misses_pin(&self.fixed_packers, stage, top + 0.5 * tool.length) {
            return Err(Refusal::PinnedElsewhere);
        }
        let widen = self.limits.sigmas * ground.depth_sigma(bottom);
        if in_zone(&self.packer_zones, element_top - widen, element_bottom + widen) {
            return Err(Refusal::Excluded);
        }
        let (worst, least) = ground.extremes(element_top - widen, element_bottom + widen);
        if worst > self.limits.largest {
            return Err(Refusal::HoleTooLarge);
        }
        if least < self.limits.smallest {
            return Err(Refusal::HoleTooSmall);
        }
        let bend = ground.sharpest_bend(top, bottom);
        if bend > tool.max_bend {
            return Err(Refusal::BendTooSharp);
        }
        let hot = ground.hottest(top, bottom);
        if hot > self.limits.hottest {
            return Err(Refusal::TooHot);
        }
        match ground.rating(worst, hot) {
            None => return Err(Refusal::Unrated),
            Some(rated) if rated < ground.needed(bottom, stage) => return Err(Refusal::RatingTooLow),
            Some(_) => {}
        }
        let span = (self.limits.largest - self.limits.nominal).max(1e-6);
        let over = ((worst - self.limits.nominal) / span).max(0.0);
        let near = nearness(&self.packer_zones, element_top, element_bottom, self.zone_reach);
        let bent = bend / tool.max_bend;
        Ok(self.weights.hole * over * over
            + self.weights.bend * bent * bent
            + self.weights.exclusion * near * near)
    }

    /// Penalty of a sleeve of `stage` whose lower end is at `bottom`, apart from its place
    /// between the packers.
    pub fn sleeve_penalty(&self, ground: &impl Ground, stage: usize, bottom: f64) -> Result<f64, Refusal> {
        let tool = self.sleeve_of(stage);
        let top = bottom - tool.length;
        let ports = top + tool.from_top;
        if misses_pin(&self.fixed_sleeves, stage, top + 0.5 * tool.length) {
            return Err(Refusal::PinnedElsewhere);
        }
        let widen = self.limits.sigmas * ground.depth_sigma(bottom);
        if in_zone(&self.sleeve_zones, ports - widen, ports + widen) {
            return Err(Refusal::Excluded);
        }
        if ground.sharpest_bend(top, bottom) > tool.max_bend {
            return Err(Refusal::BendTooSharp);
        }
        let near = nearness(&self.sleeve_zones, ports, ports, self.zone_reach);
        Ok(self.weights.quality * (1.0 - ground.quality(ports)) + self.weights.exclusion * near * near)
    }

    /// Penalty of a stage between `toe_end` and `heel_end` with its ports at `ports`; none where
    /// its length is out of bounds.
    pub fn stage_penalty(&self, toe_end: f64, heel_end: f64, ports: f64) -> Option<f64> {
        let length = toe_end - heel_end;
        Some(self.spacing_penalty(length)? + self.place_penalty(length, toe_end - ports))
    }

    /// Penalty of a stage's length; none where it is out of bounds.
    pub fn spacing_penalty(&self, length: f64) -> Option<f64> {
        if length < self.shortest || length > self.longest {
            return None;
        }
        let off = (length - self.target) / self.target;
        Some(self.weights.spacing * off * off)
    }

    /// Penalty of ports that stand so far from the toe end of a stage of that length.
    pub fn place_penalty(&self, length: f64, from_toe: f64) -> f64 {
        let place = from_toe / length - self.place;
        self.weights.sleeve * 4.0 * place * place
    }
}

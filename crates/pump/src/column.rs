//! The column of fluid in the string: parcels one behind the other, each with its clean volume and
//! its proppant, moved by volume, so that nothing smears and nothing is lost.

use std::collections::VecDeque;

use quantity::*;

/// What a parcel is made of: a fluid and a proppant of the job file by their place in it, and a
/// class of concentration for friction. Parcels of one class that follow each other are joined.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Make {
    /// Fluid.
    pub fluid: usize,
    /// Proppant, if any.
    pub proppant: Option<usize>,
    /// Class of concentration, in steps of [`CLASS`].
    pub class: u32,
}

/// Step of the classes of concentration.
pub const CLASS: Concentration = Concentration::ppa(0.05);

impl Make {
    /// Of a fluid with proppant at a concentration.
    pub fn new(fluid: usize, proppant: Option<usize>, concentration: Concentration) -> Self {
        let class = (concentration.si() / CLASS.si()).round().clamp(0.0, 1e6) as u32;
        Self { fluid, proppant: proppant.filter(|_| concentration.si() > 0.0), class }
    }
}

/// An amount of slurry.
#[derive(Debug, Clone, Copy, PartialEq, Default, serde::Serialize, schemars::JsonSchema)]
pub struct Amount {
    /// Volume of slurry.
    pub slurry: Volume,
    /// Clean volume in it.
    pub clean: Volume,
    /// Mass of proppant in it.
    pub mass: Mass,
}

impl Amount {
    /// A share of it.
    pub fn share(self, share: f64) -> Self {
        Self { slurry: self.slurry * share, clean: self.clean * share, mass: self.mass * share }
    }

    /// Proppant added per clean volume; none where there is no fluid.
    pub fn concentration(self) -> Concentration {
        if self.clean.si() > 0.0 {
            Concentration::kg_per_m3(self.mass.si() / self.clean.si())
        } else {
            Concentration::ZERO
        }
    }
}

impl std::ops::Add for Amount {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            slurry: self.slurry + other.slurry,
            clean: self.clean + other.clean,
            mass: self.mass + other.mass,
        }
    }
}

impl std::ops::AddAssign for Amount {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

/// One parcel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parcel {
    /// What it is made of.
    pub make: Make,
    /// How much.
    pub amount: Amount,
}

/// Parcels from the meter down, and what they fill.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Column {
    /// The newest is last.
    parcels: VecDeque<Parcel>,
}

impl Column {
    /// A column filled with one parcel.
    pub fn full_of(parcel: Parcel) -> Self {
        Self { parcels: VecDeque::from([parcel]) }
    }

    /// Takes in what the pumps send.
    pub fn push(&mut self, parcel: Parcel) {
        if parcel.amount.slurry.si() <= 0.0 {
            return;
        }
        match self.parcels.back_mut() {
            Some(last) if last.make == parcel.make => last.amount += parcel.amount,
            _ => self.parcels.push_back(parcel),
        }
    }

    /// Lets out a volume at the lower end, oldest first; every piece goes to `taken`. Lets out no
    /// more than there is.
    pub fn draw(&mut self, volume: Volume, mut taken: impl FnMut(Parcel)) {
        let mut left = volume.si();
        while left > 0.0 {
            let Some(first) = self.parcels.front_mut() else { return };
            let have = first.amount.slurry.si();
            if have <= left * (1.0 + 1e-12) {
                left -= have;
                taken(*first);
                self.parcels.pop_front();
            } else {
                let piece = first.amount.share(left / have);
                first.amount = Amount {
                    slurry: first.amount.slurry - piece.slurry,
                    clean: first.amount.clean - piece.clean,
                    mass: first.amount.mass - piece.mass,
                };
                taken(Parcel { make: first.make, amount: piece });
                return;
            }
        }
    }

    /// Lets out a volume at the upper end, newest first.
    pub fn draw_top(&mut self, volume: Volume, mut taken: impl FnMut(Parcel)) {
        let mut left = volume.si();
        while left > 0.0 {
            let Some(last) = self.parcels.pop_back() else { return };
            let have = last.amount.slurry.si();
            let piece = last.amount.share((left / have).min(1.0));
            taken(Parcel { make: last.make, amount: piece });
            if have > left {
                self.parcels.push_back(Parcel { make: last.make, amount: last.amount + piece.share(-1.0) });
            }
            left -= have;
        }
    }

    /// Cuts off what is deeper than a volume from the meter.
    pub fn cut_below(&mut self, volume: Volume) -> Self {
        let excess = (self.amount().slurry - volume).max(Volume::ZERO);
        let mut lower = Self::default();
        // The oldest goes first and lies deepest.
        self.draw(excess, |p| lower.push(p));
        lower
    }

    /// Joins what is deeper to the lower end.
    pub fn join_below(&mut self, mut deeper: Self) {
        deeper.parcels.append(&mut self.parcels);
        *self = deeper;
    }

    /// Parcels from the meter down.
    pub fn from_top(&self) -> impl Iterator<Item = &Parcel> {
        self.parcels.iter().rev()
    }

    /// What is in it.
    pub fn amount(&self) -> Amount {
        self.parcels.iter().fold(Amount::default(), |sum, p| sum + p.amount)
    }

    /// The parcel at a volume below the meter.
    pub fn at(&self, volume: Volume) -> Option<&Parcel> {
        let mut below = 0.0;
        self.from_top().find(|p| {
            below += p.amount.slurry.si();
            below >= volume.si()
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn parcel(fluid: usize, slurry: f64, ppa: f64) -> Parcel {
        let c = Concentration::ppa(ppa);
        let clean = slurry / (1.0 + c.si() / 2650.0);
        let amount =
            Amount { slurry: Volume::m3(slurry), clean: Volume::m3(clean), mass: Mass::kg(clean * c.si()) };
        Parcel { make: Make::new(fluid, Some(0), c), amount }
    }

    proptest! {
        /// What goes in comes out or stays, in the order it went in.
        #[test]
        fn nothing_is_lost(steps in prop::collection::vec((0..3usize, 0.0..2.0f64, 0.0..4.0f64, 0.0..2.0f64), 1..400)) {
            let mut column = Column::full_of(parcel(0, 10.0, 0.0));
            let (mut sent, mut out) = (column.amount(), Amount::default());
            for (fluid, volume, ppa, drawn) in steps {
                let p = parcel(fluid, volume, ppa);
                column.push(p);
                sent += p.amount;
                column.draw(Volume::m3(drawn), |p| out += p.amount);
            }
            let held = column.amount();
            let close = |a: f64, b: f64| (a - b).abs() <= 1e-12 * a.abs().max(1.0);
            prop_assert!(close((out + held).slurry.si(), sent.slurry.si()));
            prop_assert!(close((out + held).clean.si(), sent.clean.si()));
            prop_assert!(close((out + held).mass.si(), sent.mass.si()));
        }
    }

    #[test]
    fn fronts_stay_sharp() {
        let mut column = Column::full_of(parcel(0, 5.0, 0.0));
        column.push(parcel(1, 2.0, 1.0));
        column.push(parcel(2, 3.0, 0.0));
        column.draw(Volume::m3(5.0), |p| assert_eq!(p.make.fluid, 0));
        column.draw(Volume::m3(1.5), |p| assert_eq!(p.make.fluid, 1));
        assert_eq!(column.at(Volume::m3(2.99)).map(|p| p.make.fluid), Some(2));
        assert_eq!(column.at(Volume::m3(3.01)).map(|p| p.make.fluid), Some(1));
    }
}

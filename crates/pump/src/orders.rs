//! What the pumps are to send, in order: the steps of every stage, and the clean fluid round
//! every ball, with the places where balls leave.

use plan::Program;
use plan::balls::BallCard;
use quantity::*;
use well::Job;

/// What an order is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// A step of a stage's schedule, by its place in the schedule.
    Step(usize),
    /// Clean fluid ahead of a ball, up to its launch.
    Ahead,
    /// Clean fluid behind a ball.
    Behind,
    /// Clean fluid that brings the first ball down, or that opens a sleeve by pressure.
    Opening,
    /// Clean fluid behind the last proppant of the job.
    Flush,
}

/// One thing to pump.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Order {
    /// Stage on whose meter it counts.
    pub stage: usize,
    /// What it is for.
    pub purpose: Purpose,
    /// Fluid, by its place in the job file.
    pub fluid: usize,
    /// Proppant, by its place in the job file.
    pub proppant: Option<usize>,
    /// Clean volume; without end where none.
    pub clean: Option<Volume>,
    /// Concentration at the start.
    pub from: Concentration,
    /// Concentration at the end.
    pub to: Concentration,
    /// Ball that leaves when the order is done, by the stage it opens.
    pub launch: Option<usize>,
}

/// The whole job in orders.
pub fn orders(job: &Job, program: &Program) -> Vec<Order> {
    let (Some(stages), Some(balls)) = (&program.stages, &program.balls) else { return Vec::new() };
    let file = &job.file;
    let clean = file.treatment.step.first().and_then(|s| fluid_of(job, &s.fluid)).unwrap_or(0);
    let plain = |stage, purpose, volume: Option<Volume>, launch| Order {
        stage,
        purpose,
        fluid: clean,
        proppant: None,
        clean: volume,
        from: Concentration::ZERO,
        to: Concentration::ZERO,
        launch,
    };
    let card = |stage: usize| balls.cards.iter().find(|c| c.stage == stage);
    let lines = file.launcher.line_volume;
    let behind = (file.ball_program.spacer_behind - lines).max(Volume::ZERO);
    let mut out = Vec::new();
    if card(1).is_some() {
        out.push(plain(0, Purpose::Opening, Some(Volume::ZERO), Some(1)));
    }
    out.push(plain(0, Purpose::Opening, None, None));
    for stage in &stages.stages {
        for (i, step) in stage.steps.iter().enumerate() {
            out.push(Order {
                stage: stage.stage,
                purpose: Purpose::Step(i),
                fluid: fluid_of(job, &step.fluid).unwrap_or(clean),
                proppant: step.proppant.as_ref().and_then(|n| proppant_of(job, n)),
                clean: Some(step.clean),
                from: step.from,
                to: step.to,
                launch: None,
            });
        }
        match card(stage.stage + 1) {
            Some(next) => {
                let ahead = ahead(next, stage.slurry);
                out.push(plain(stage.stage, Purpose::Ahead, Some(ahead), Some(next.stage)));
                out.push(plain(stage.stage, Purpose::Behind, Some(behind), None));
            }
            None => {
                let flush = stage.volume_to_ports + file.launcher.tree_volume + lines;
                out.push(plain(stage.stage, Purpose::Flush, Some(flush), None));
            }
        }
    }
    out
}

/// Clean fluid past the meter before a ball leaves: the card's launch point less the slurry of the stage.
fn ahead(card: &BallCard, slurry: Volume) -> Volume {
    (card.launch_at - slurry).max(Volume::ZERO)
}

fn fluid_of(job: &Job, name: &str) -> Option<usize> {
    job.file.fluid.iter().position(|f| f.name == name)
}

fn proppant_of(job: &Job, name: &str) -> Option<usize> {
    job.file.proppant.iter().position(|p| p.name == name)
}

/// The orders being worked through.
#[derive(Debug, Clone)]
pub struct Book {
    orders: Vec<Order>,
    at: usize,
    /// Clean volume of the order done.
    done: Volume,
}

/// What the pumps sent in a stretch of time from one order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sent {
    /// Order it was of.
    pub order: Order,
    /// Slurry volume.
    pub slurry: Volume,
    /// Clean volume.
    pub clean: Volume,
    /// Mean concentration.
    pub concentration: Concentration,
    /// Ball that leaves at its end, by the stage it opens.
    pub launch: Option<usize>,
}

impl Book {
    /// A job not begun.
    pub fn new(orders: Vec<Order>) -> Self {
        Self { orders, at: 0, done: Volume::ZERO }
    }

    /// The order being pumped; none when all are done.
    pub fn current(&self) -> Option<&Order> {
        self.orders.get(self.at)
    }

    /// What is left of the last order; none while others are still to come.
    pub fn left_of_job(&self) -> Option<Volume> {
        let order = self.orders.get(self.at)?;
        (self.at + 1 == self.orders.len()).then_some(order.clean? - self.done)
    }

    /// Goes on to the next order, whatever is left of this one.
    pub fn next(&mut self) {
        self.at += 1;
        self.done = Volume::ZERO;
    }

    /// Takes a volume of slurry from the orders in turn, exact at their ends; a ramp is linear in
    /// clean volume. `grain` gives the grain density of a proppant. Stops after an order that ends
    /// with a launch; what it could not send is returned.
    pub fn take(
        &mut self,
        volume: Volume,
        grain: impl Fn(usize) -> Option<Density>,
        mut sent: impl FnMut(Sent),
    ) -> Volume {
        let mut left = volume.si();
        while let Some(order) = self.orders.get(self.at).copied() {
            let density = order.proppant.and_then(&grain).map(|d| d.si());
            let (clean, ends) = self.piece(&order, left, density);
            let mean = self.mean(&order, clean);
            let slurry = clean * (1.0 + density.map_or(0.0, |d| mean / d));
            let slurry = if ends { slurry.min(left) } else { left };
            left = (left - slurry).max(0.0);
            let launch = order.launch.filter(|_| ends);
            sent(Sent {
                order,
                slurry: Volume::m3(slurry),
                clean: Volume::m3(clean),
                concentration: Concentration::kg_per_m3(mean),
                launch,
            });
            self.done += Volume::m3(clean);
            if ends {
                self.next();
            }
            if !ends || launch.is_some() {
                break;
            }
        }
        Volume::m3(left)
    }

    /// Clean volume of the order that a slurry volume holds from here, and whether it ends the order.
    fn piece(&self, order: &Order, slurry: f64, grain: Option<f64>) -> (f64, bool) {
        let rest = order.clean.map_or(f64::INFINITY, |c| (c - self.done).si().max(0.0));
        let (Some(grain), true) = (grain, rest.is_finite()) else {
            return (slurry.min(rest), slurry >= rest);
        };
        let whole = rest * (1.0 + self.mean(order, rest) / grain);
        if slurry >= whole {
            return (rest, true);
        }
        // slurry = x (1 + (c0 + c' x/2)/rho_p): a quadratic in the clean volume x
        let total = order.clean.map_or(1.0, |c| c.si());
        let slope = (order.to - order.from).si() / total;
        let here = order.from.si() + slope * self.done.si();
        let (a, b) = (0.5 * slope / grain, 1.0 + here / grain);
        // The root that stays finite as the ramp becomes flat.
        let root = (b * b + 4.0 * a * slurry).max(0.0).sqrt();
        (2.0 * slurry / (b + root), false)
    }

    /// Mean concentration of the next clean volume of the order, kg/m³.
    fn mean(&self, order: &Order, clean: f64) -> f64 {
        let Some(total) = order.clean.filter(|c| c.si() > 0.0) else { return order.from.si() };
        let slope = (order.to - order.from).si() / total.si();
        order.from.si() + slope * (self.done.si() + 0.5 * clean)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn step(clean: f64, from: f64, to: f64) -> Order {
        Order {
            stage: 1,
            purpose: Purpose::Step(0),
            fluid: 0,
            proppant: Some(0),
            clean: Some(Volume::m3(clean)),
            from: Concentration::ppa(from),
            to: Concentration::ppa(to),
            launch: None,
        }
    }

    fn sand(_: usize) -> Option<Density> {
        Some(Density::kg_per_m3(2650.0))
    }

    proptest! {
        /// However the pumps cut it, every order gives its clean volume and its mean concentration.
        #[test]
        fn orders_are_exact(bites in prop::collection::vec(0.001..3.0f64, 20..200), c in prop::array::uniform4(0.0..6.0f64)) {
            let list = vec![step(5.0, c[0], c[1]), step(7.0, c[2], c[3])];
            let mut book = Book::new(list);
            let (mut clean, mut mass, mut slurry, mut asked) = (0.0, 0.0, 0.0, 0.0);
            for bite in bites.iter().cycle().take(4000) {
                asked += bite;
                let left = book.take(Volume::m3(*bite), sand, |s| {
                    clean += s.clean.si();
                    mass += s.clean.si() * s.concentration.si();
                    slurry += s.slurry.si();
                });
                asked -= left.si();
                if book.current().is_none() {
                    break;
                }
            }
            prop_assert!(book.current().is_none());
            let ppa = Concentration::ppa(1.0).si();
            let wanted = 5.0 * (c[0] + c[1]) / 2.0 + 7.0 * (c[2] + c[3]) / 2.0;
            prop_assert!((clean - 12.0).abs() < 1e-9);
            prop_assert!((mass - wanted * ppa).abs() < 1e-7 * (1.0 + wanted * ppa), "{} {}", mass, wanted * ppa);
            prop_assert!((slurry - asked).abs() < 1e-9 && (slurry - clean - mass / 2650.0).abs() < 1e-9);
        }
    }

    #[test]
    fn a_launch_ends_the_bite() {
        let mut first = step(1.0, 0.0, 0.0);
        first.launch = Some(2);
        let mut book = Book::new(vec![first, step(1.0, 0.0, 0.0)]);
        let mut launched = Vec::new();
        let left = book.take(Volume::m3(1.5), sand, |s| launched.extend(s.launch));
        assert_eq!(launched, [2]);
        assert!((left.si() - 0.5).abs() < 1e-12);
    }
}

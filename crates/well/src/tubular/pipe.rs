//! A pipe: what it is, and its ratings.

use super::catalogue::{Catalogue, Size, inches};
use super::check;
use super::connection::Connection;
use super::error::TubularError;
use super::rating::{Origin, Rated};
use super::spec::{PipeSpec, check_numbers, drift, measure, strengths};
use crate::finding::Finding;
use physics::tubular::body_yield::BODY_YIELD;
use physics::tubular::buoyed_weight::{BUOYED_WEIGHT, buoyed_weight};
use physics::tubular::collapse::API_COLLAPSE;
use physics::tubular::collapse_yield::{CollapseLoad, CollapseMethod};
use physics::tubular::drift::DriftRule;
use physics::tubular::internal_yield::INTERNAL_YIELD;
use physics::tubular::joint_strength::{BUTTRESS_STRENGTH, ROUND_THREAD_STRENGTH};
use physics::tubular::plain_end_mass::plain_end_mass;
use physics::tubular::tube::Tube;
use quantity::{
    Area, Capacity, Density, Diameter, Force, ForcePerLength, MassPerLength, Pressure, Quantity, Ratio, said,
};

/// A pipe, complete and checked.
#[derive(Debug, Clone, PartialEq)]
pub struct Pipe {
    spec: PipeSpec,
    name: String,
    tube: Tube,
    yield_strength: Pressure,
    ultimate_strength: Option<Pressure>,
    drift: Diameter,
    size: Option<Size>,
}

impl Pipe {
    /// Completes what the user says from the catalogue, and checks it.
    ///
    /// ```
    /// use quantity::{Diameter, MassPerLength};
    /// use well::tubular::{Catalogue, Connection, Pipe, PipeSpec};
    /// let (outer, weight) = (Diameter::inch(4.5), MassPerLength::lb_per_ft(11.6));
    /// let spec = PipeSpec::standard(outer, weight, "L80", Connection::LongRound);
    /// let pipe = Pipe::new(spec, Catalogue::standard()?)?;
    /// assert_eq!(pipe.name(), "4-1/2 in 11.6 lb/ft L80");
    /// assert!((pipe.internal_yield()?.value.in_psi() - 7_780.0).abs() < 10.0);
    /// assert!((pipe.joint_strength()?.value.in_klbf() - 212.0).abs() < 1.0);
    /// # Ok::<(), well::tubular::TubularError>(())
    /// ```
    pub fn new(spec: PipeSpec, catalogue: &Catalogue) -> Result<Self, TubularError> {
        check_numbers(&spec)?;
        let size = catalogue.find(spec.outer, spec.weight);
        let (tube, size) = match (spec.inner, size) {
            (Some(inner), size) => {
                let below = "above zero and below the outer diameter";
                let fits = inner.si() > 0.0 && inner.si() < spec.outer.si();
                measure(fits, "the inner diameter", inner, below)?;
                let tube = Tube::bored("pipe", spec.outer, inner)?;
                let same = |s: &Size| (s.inner() - inner).in_mm().abs() < 0.06;
                (tube, size.ok().filter(|s| same(s)).cloned())
            }
            (None, size) => {
                let size = size?;
                (size.tube()?, Some(size.clone()))
            }
        };
        let (yield_strength, ultimate_strength) = strengths(&spec, catalogue)?;
        let rule = spec.drift_rule.or(size.as_ref().map(|s| s.purpose.drift_rule()));
        let drift = drift(&spec, tube, rule.unwrap_or(DriftRule::Casing))?;
        let name = if spec.name.trim().is_empty() {
            let weight = quantity::round_significant(spec.weight.in_lb_per_ft(), 4);
            format!("{} in {weight} lb/ft {}", inches(spec.outer), spec.grade)
        } else {
            spec.name.trim().to_string()
        };
        Ok(Self { spec, name, tube, yield_strength, ultimate_strength, drift, size })
    }

    /// Name for a table.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// What the user said.
    pub fn spec(&self) -> &PipeSpec {
        &self.spec
    }

    /// The catalogue's entry, if it is a standard size.
    pub fn size(&self) -> Option<&Size> {
        self.size.as_ref()
    }

    /// The tube.
    pub fn tube(&self) -> Tube {
        self.tube
    }

    /// Outer diameter.
    pub fn outer(&self) -> Diameter {
        self.tube.outer()
    }

    /// Nominal inner diameter.
    pub fn inner(&self) -> Diameter {
        self.tube.inner()
    }

    /// Largest outer diameter: that of a rated connection where it is stated, or of the body.
    pub fn largest_outer(&self) -> Diameter {
        match &self.spec.connection {
            Connection::Rated(c) => c.outer.unwrap_or(self.outer()).max(self.outer()),
            _ => self.outer(),
        }
    }

    /// Nominal weight, threaded and coupled.
    pub fn weight(&self) -> MassPerLength {
        self.spec.weight
    }

    /// Yield strength at the highest temperature.
    pub fn yield_strength(&self) -> Pressure {
        self.yield_strength
    }

    /// Drift diameter: stated, or by rule.
    pub fn drift(&self) -> Diameter {
        self.drift
    }

    /// Volume inside, per length.
    pub fn capacity(&self) -> Capacity {
        per_length(self.tube.inside_area())
    }

    /// Volume the steel displaces, per length, the connections left out.
    pub fn steel_displacement(&self) -> Capacity {
        per_length(self.tube.steel_area())
    }

    /// Volume a closed string displaces, per length, the connections left out.
    pub fn closed_displacement(&self) -> Capacity {
        per_length(self.tube.outside_area())
    }

    /// Buoyed weight per length.
    pub fn buoyed_weight(&self, inside: Density, outside: Density) -> Result<ForcePerLength, TubularError> {
        Ok(buoyed_weight(self.tube, self.spec.weight, inside, outside)?)
    }

    /// Buoyed weight per length, with its workings.
    pub fn buoyed_weight_rated(
        &self,
        inside: Density,
        outside: Density,
    ) -> Result<Rated<ForcePerLength>, TubularError> {
        let call = BUOYED_WEIGHT
            .call()
            .with("mass", self.spec.weight)
            .with("outer", self.outer())
            .with("inner", self.inner());
        let done = call.with("inside_density", inside).with("outside_density", outside).run()?;
        Ok(Rated::computed(done, "weight")?)
    }

    /// Collapse rating without load.
    pub fn collapse(&self) -> Result<Rated<Pressure>, TubularError> {
        match self.spec.ratings.collapse {
            Some(stated) => Ok(Rated::stated(stated, &self.spec.ratings.source)),
            None => self.computed_collapse(CollapseLoad::default(), CollapseMethod::default()),
        }
    }

    /// Collapse rating under axial stress and inside pressure: the allowed difference outside
    /// minus inside. A stated rating is reduced in the share by which the computed one falls.
    pub fn collapse_under(
        &self,
        load: CollapseLoad,
        method: CollapseMethod,
    ) -> Result<Rated<Pressure>, TubularError> {
        let loaded = self.computed_collapse(load, method)?;
        let Some(stated) = self.spec.ratings.collapse else { return Ok(loaded) };
        let free = self.computed_collapse(CollapseLoad::default(), method)?;
        let share = loaded.value / free.value;
        let Origin::Computed(under_load) = loaded.origin else { return Ok(loaded) };
        let source = self.spec.ratings.source.clone();
        let origin = Origin::Reduced { source, share: Ratio::of(share), under_load };
        Ok(Rated { value: stated * share, origin })
    }

    fn computed_collapse(
        &self,
        load: CollapseLoad,
        method: CollapseMethod,
    ) -> Result<Rated<Pressure>, TubularError> {
        let call = self.body_call(&API_COLLAPSE).with("axial_stress", load.axial_stress);
        let call = call.with("internal_pressure", load.internal_pressure).word("method", method.word());
        Ok(Rated::computed(call.run()?, "rating")?)
    }

    /// Internal yield pressure of the body.
    pub fn internal_yield(&self) -> Result<Rated<Pressure>, TubularError> {
        if let Some(stated) = self.spec.ratings.internal {
            return Ok(Rated::stated(stated, &self.spec.ratings.source));
        }
        let call = self.body_call(&INTERNAL_YIELD).with("wall_tolerance", self.spec.wall_tolerance);
        Ok(Rated::computed(call.run()?, "rating")?)
    }

    /// Tension at body yield.
    pub fn body_yield(&self) -> Result<Rated<Force>, TubularError> {
        match self.spec.ratings.body {
            Some(stated) => Ok(Rated::stated(stated, &self.spec.ratings.source)),
            None => Ok(Rated::computed(self.body_call(&BODY_YIELD).run()?, "strength")?),
        }
    }

    /// Strength of the connection in tension. The strength left at temperature is taken for
    /// yield and ultimate alike.
    pub fn joint_strength(&self) -> Result<Rated<Force>, TubularError> {
        let relation = match &self.spec.connection {
            Connection::Rated(c) => {
                return match c.tension {
                    Some(tension) => Ok(Rated::stated(tension, &c.source)),
                    None => Err(self.no_rating("tension")),
                };
            }
            Connection::Buttress => &BUTTRESS_STRENGTH,
            Connection::ShortRound | Connection::LongRound => &ROUND_THREAD_STRENGTH,
        };
        let ultimate = self.ultimate_strength.ok_or_else(|| TubularError::NoUltimate {
            pipe: self.name.clone(),
            grade: self.spec.grade.clone(),
        })?;
        let mut call = self.body_call(relation).with("ultimate_strength", ultimate);
        if relation.name == ROUND_THREAD_STRENGTH.name {
            call = call.with("engagement", self.engagement()?);
        }
        Ok(Rated::computed(call.run()?, "strength")?)
    }

    /// Compression rating of the connection: stated for a rated one; a standard thread with a
    /// coupling has none.
    pub fn joint_compression(&self) -> Result<Rated<Force>, TubularError> {
        match &self.spec.connection {
            Connection::Rated(c) => match c.compression {
                Some(force) => Ok(Rated::stated(force, &c.source)),
                None => Err(self.no_rating("compression")),
            },
            _ => Err(self.no_rating("compression")),
        }
    }

    /// The lesser of body yield and joint strength.
    pub fn tension(&self) -> Result<Rated<Force>, TubularError> {
        let (body, joint) = (self.body_yield()?, self.joint_strength()?);
        Ok(if joint.value.si() < body.value.si() { joint } else { body })
    }

    /// What looks doubtful without being impossible.
    pub fn doubts(&self) -> Vec<Finding> {
        let Ok(plain) = plain_end_mass(self.tube.outer(), self.tube.wall()) else { return Vec::new() };
        let share = self.spec.weight / plain;
        if (0.98..1.12).contains(&share) {
            return Vec::new();
        }
        let message = said!(
            "{} weighs {} by name; plain pipe of its diameters weighs {plain}",
            self.name,
            self.spec.weight
        );
        vec![check::WEIGHT.found(message).value(self.spec.weight).limit(plain)]
    }

    fn no_rating(&self, rating: &'static str) -> TubularError {
        TubularError::NoRating { pipe: self.name.clone(), rating }
    }

    /// Engaged length of a round thread, L4 - M.
    fn engagement(&self) -> Result<Diameter, TubularError> {
        let thread = self.spec.connection.word();
        let length = self.size.as_ref().and_then(|size| {
            let long = self.spec.connection == Connection::LongRound;
            Some((if long { size.long } else { size.short })? - size.stand_off?)
        });
        length.ok_or_else(|| TubularError::NoThread { pipe: self.name.clone(), thread })
    }

    fn body_call(&self, relation: &'static physics::Relation) -> physics::Call {
        relation
            .call()
            .with("outer", self.tube.outer())
            .with("wall", self.tube.wall())
            .with("yield_strength", self.yield_strength)
    }
}

fn per_length(area: Area) -> Capacity {
    Capacity::m3_per_m(area.in_m2())
}

//! Products between types, and the affine pairs (a point and the difference between points).

use crate::types::*;

/// A type whose differences are of another type: a depth and a length, a gauge pressure and a
/// pressure difference, a temperature and a temperature difference.
pub trait Point: crate::Quantity {
    /// The type of the difference.
    type Difference: crate::Quantity;
}

macro_rules! law {
    ($($a:ident * $b:ident = $c:ident),+ $(,)?) => {$(
        impl std::ops::Mul<$b> for $a {
            type Output = $c;
            fn mul(self, o: $b) -> $c { <$c as crate::Quantity>::from_si(self.0 * o.0) }
        }
        impl std::ops::Div<$a> for $c {
            type Output = $b;
            fn div(self, o: $a) -> $b { <$b as crate::Quantity>::from_si(self.0 / o.0) }
        }
        law!(@mirror $a $b $c);
    )+};
    (@mirror $a:ident $b:ident $c:ident) => {
        impl std::ops::Mul<$a> for $b {
            type Output = $c;
            fn mul(self, o: $a) -> $c { o * self }
        }
        impl std::ops::Div<$b> for $c {
            type Output = $a;
            fn div(self, o: $b) -> $a { <$a as crate::Quantity>::from_si(self.0 / o.0) }
        }
    };
}

macro_rules! point {
    ($($p:ident over $d:ident),+ $(,)?) => {$(
        impl Point for $p { type Difference = $d; }
        impl std::ops::Sub for $p {
            type Output = $d;
            fn sub(self, o: $p) -> $d { <$d as crate::Quantity>::from_si(self.0 - o.0) }
        }
        impl std::ops::Add<$d> for $p {
            type Output = $p;
            fn add(self, o: $d) -> $p { <$p as crate::Quantity>::from_si(self.0 + o.0) }
        }
        impl std::ops::Sub<$d> for $p {
            type Output = $p;
            fn sub(self, o: $d) -> $p { <$p as crate::Quantity>::from_si(self.0 - o.0) }
        }
    )+};
}

law! {
    Pressure * Area = Force,
    Pressure * FlowRate = Power,
    Velocity * Area = FlowRate,
    Length * Area = Volume,
    FlowRate * Time = Volume,
    Velocity * Time = Length,
    MassPerLength * Length = Mass,
    Density * Volume = Mass,
    PressureGradient * Length = Pressure,
    Compressibility * Pressure = Ratio,
    RecessionRate * Time = Diameter,
    Density * RecessionRate = MassFlux,
    Force * Length = Torque,
    PressureRate * Time = Pressure,
}

point! {
    MeasuredDepth over Length,
    TrueVerticalDepth over Length,
    GaugePressure over Pressure,
    AbsolutePressure over Pressure,
    Temperature over TemperatureDifference,
}

impl Diameter {
    /// Area of the circle of this diameter.
    pub fn circle(self) -> Area {
        Area(std::f64::consts::FRAC_PI_4 * self.0 * self.0)
    }

    /// Area of the ring between this diameter and a smaller one.
    pub fn ring(self, inner: Diameter) -> Area {
        Area(std::f64::consts::FRAC_PI_4 * (self.0 * self.0 - inner.0 * inner.0))
    }

    /// The same as a length.
    pub fn length(self) -> Length {
        Length(self.0)
    }
}

impl Area {
    /// The same as a capacity: volume per unit length.
    pub fn capacity(self) -> Capacity {
        Capacity(self.0)
    }
}

impl std::ops::Mul<Length> for Capacity {
    type Output = Volume;
    fn mul(self, length: Length) -> Volume {
        Volume(self.0 * length.0)
    }
}

impl std::ops::Div<Capacity> for Volume {
    type Output = Length;
    fn div(self, capacity: Capacity) -> Length {
        Length(self.0 / capacity.0)
    }
}

impl Length {
    /// The same as a diameter.
    pub fn diameter(self) -> Diameter {
        Diameter(self.0)
    }
}

impl GaugePressure {
    /// The absolute pressure, with one standard atmosphere outside.
    pub fn absolute(self) -> AbsolutePressure {
        AbsolutePressure(self.0 + crate::constant::ATMOSPHERE)
    }

    /// The difference to the atmosphere.
    pub fn above_atmosphere(self) -> Pressure {
        Pressure(self.0)
    }
}

impl AbsolutePressure {
    /// The gauge pressure, with one standard atmosphere outside.
    pub fn gauge(self) -> GaugePressure {
        GaugePressure(self.0 - crate::constant::ATMOSPHERE)
    }
}

impl Pressure {
    /// This difference above the atmosphere, as a gauge pressure.
    pub fn gauge(self) -> GaugePressure {
        GaugePressure(self.0)
    }
}

impl Mass {
    /// Weight under standard gravity.
    pub fn weight(self) -> Force {
        Force(self.0 * crate::constant::GRAVITY)
    }
}

impl Density {
    /// Hydrostatic gradient under standard gravity.
    pub fn gradient(self) -> PressureGradient {
        PressureGradient(self.0 * crate::constant::GRAVITY)
    }
}

impl RateSquaredLoss {
    /// Pressure drop at a rate; it has the sign of the rate.
    pub fn at(self, rate: FlowRate) -> Pressure {
        Pressure(self.0 * rate.0 * rate.0.abs())
    }
}

impl RateRootLoss {
    /// Pressure drop at a rate; it has the sign of the rate.
    pub fn at(self, rate: FlowRate) -> Pressure {
        Pressure(self.0 * rate.0.abs().sqrt().copysign(rate.0))
    }
}
